//! A list with some of its requirements given up or eased.

use super::aspect::Aspect;
use crate::arrangement::Orientation;
use crate::catalogue::{IpCode, Material};
use crate::requirements::{Cable, Circuit, End, Pole, RequirementList};
use crate::space::Face;
use crate::standards::iec_60079_0::{
    DustGroup, EquipmentProtectionLevel, GasGroup, TemperatureClass,
};
use crate::workshop::Workshop;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// An ambient temperature that no certificate minds, °C.
const MILD_C: f64 = 20.0;

/// How far a requirement is eased.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Ease {
    /// Given up wholly.
    GivenUp,
    /// Another equipment protection level.
    Level(EquipmentProtectionLevel),
    /// Another gas group.
    GasGroup(GasGroup),
    /// Another dust group.
    DustGroup(DustGroup),
    /// Another temperature class.
    Class(TemperatureClass),
    /// Another temperature, °C.
    Temperature(f64),
    /// Another degree of protection.
    Ip(IpCode),
    /// A further material.
    Material(Material),
    /// Another largest outer size, mm.
    Size([f64; 3]),
    /// Further walls.
    Walls(Vec<Face>),
    /// An enclosure that was not permitted.
    Enclosure(String),
    /// Another share, percent.
    Percent(f64),
    /// So many less of what there are.
    Fewer(usize),
    /// So many of the cables may use any wall that may carry entries, the last ones of the table.
    AnyWall(usize),
    /// Currents times this share.
    CurrentShare(f64),
    /// Another outside diameter, as if the list had stated it.
    Diameter {
        /// Outside diameter, mm.
        diameter_mm: f64,
        /// So many of the cables, the last ones of the table.
        cables: usize,
    },
    /// Another voltage, V.
    Voltage(f64),
    /// Entries without rows where rows do not take them: how the list is made, not what it asks.
    Freely,
    /// A partition between intrinsically safe and other terminals of one rail: how the list is made.
    Partition,
    /// Two boxes instead of one: how the list is made, not what it asks.
    TwoBoxes,
}

/// A requirement and how far it is eased.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// The requirement.
    pub aspect: Aspect,
    /// How far.
    pub ease: Ease,
}

/// The list and the rules after the changes.
pub fn apply(
    list: &RequirementList,
    workshop: &Workshop,
    changes: &[Change],
) -> (RequirementList, Workshop) {
    let mut state = State {
        list: list.clone(),
        workshop: workshop.clone(),
        gone_cables: BTreeSet::new(),
        gone_elements: BTreeSet::new(),
    };
    // Walls of the box come before those of cables, which may use what the box permits.
    let (first, then): (Vec<&Change>, Vec<&Change>) = changes
        .iter()
        .partition(|change| change.aspect == Aspect::EntryWalls);
    for change in first.into_iter().chain(then) {
        state.change(&change.aspect, &change.ease);
    }
    state.leave_out();
    (state.list, state.workshop)
}

struct State {
    list: RequirementList,
    workshop: Workshop,
    gone_cables: BTreeSet<usize>,
    gone_elements: BTreeSet<usize>,
}

impl State {
    fn change(&mut self, aspect: &Aspect, ease: &Ease) {
        match aspect {
            Aspect::GasLevel
            | Aspect::DustLevel
            | Aspect::GasGroup
            | Aspect::DustGroup
            | Aspect::Class
            | Aspect::Surface
            | Aspect::Hottest
            | Aspect::Coldest
            | Aspect::Ip => {
                self.area(aspect, ease);
            }
            Aspect::Material
            | Aspect::Size
            | Aspect::Orientation
            | Aspect::EntryWalls
            | Aspect::Include
            | Aspect::Exclude
            | Aspect::Hinge
            | Aspect::Breather => {
                self.wishes(aspect, ease);
            }
            Aspect::SpareTerminals
            | Aspect::SpareEntries
            | Aspect::HeatReserve
            | Aspect::ExternalEarth
            | Aspect::SpareEarth => self.reserves(aspect, ease),
            Aspect::Cables(members) => {
                let count = match ease {
                    Ease::Fewer(count) => *count,
                    _ => members.len(),
                };
                self.gone_cables.extend(members.iter().rev().take(count));
            }
            Aspect::Diameter(members) => {
                let count = match ease {
                    Ease::Diameter { cables, .. } => *cables,
                    _ => members.len(),
                };
                for index in members.iter().rev().take(count) {
                    let cable = &mut self.list.cables[*index];
                    match ease {
                        Ease::Diameter { diameter_mm, .. } => {
                            set_diameter(cable, *diameter_mm, &self.workshop);
                        }
                        _ => forget_diameter(cable),
                    }
                }
            }
            Aspect::CableWalls(members) => {
                let count = match ease {
                    Ease::AnyWall(count) => *count,
                    _ => members.len(),
                };
                for index in members.iter().rev().take(count) {
                    let walls = &mut self.list.cables[*index].walls;
                    let further: Vec<Face> = self
                        .list
                        .wishes
                        .entry_walls
                        .iter()
                        .copied()
                        .filter(|wall| !walls.contains(wall))
                        .collect();
                    walls.extend(further);
                }
            }
            Aspect::GlandMaterial(members) => {
                for index in members {
                    self.list.cables[*index].gland_material = None;
                }
            }
            Aspect::Gland(members) => {
                for index in members {
                    self.list.cables[*index].gland = None;
                }
            }
            Aspect::GlandThread(members) => {
                for index in members {
                    self.list.cables[*index].thread_system = None;
                }
            }
            Aspect::Current(members) => {
                let share = match ease {
                    Ease::CurrentShare(share) => *share,
                    _ => 0.0,
                };
                for index in members {
                    let circuit = &mut self.list.circuits[*index];
                    circuit.current_a = scaled(circuit.current_a, share);
                    circuit.branch_current_a = scaled(circuit.branch_current_a, share);
                }
            }
            Aspect::Voltage(members) => {
                let voltage_v = match ease {
                    Ease::Voltage(voltage_v) => *voltage_v,
                    _ => 0.0,
                };
                for index in members {
                    self.list.circuits[*index].voltage_v = voltage_v;
                }
            }
            Aspect::Terminal(members) => {
                for index in members {
                    self.list.circuits[*index].terminal_part = None;
                }
            }
            Aspect::Element(index) => {
                self.gone_elements.insert(*index);
            }
            Aspect::ElementPart(index) => self.list.elements[*index].part = None,
            Aspect::ElementColour(index) => self.list.elements[*index].colour = None,
            Aspect::Placing => {
                for element in &mut self.list.elements {
                    element.placing = Default::default();
                }
            }
            Aspect::Separation => self.workshop.distances.intrinsic_separation_mm = 0.0,
        }
    }

    fn area(&mut self, aspect: &Aspect, ease: &Ease) {
        let area = &mut self.list.area;
        match (aspect, ease) {
            (Aspect::GasLevel, Ease::Level(level)) => area.gas_epl = Some(*level),
            (Aspect::GasLevel, _) => area.gas_epl = None,
            (Aspect::DustLevel, Ease::Level(level)) => area.dust_epl = Some(*level),
            (Aspect::DustLevel, _) => area.dust_epl = None,
            (Aspect::GasGroup, Ease::GasGroup(group)) => area.gas_group = Some(*group),
            (Aspect::GasGroup, _) => area.gas_group = None,
            (Aspect::DustGroup, Ease::DustGroup(group)) => area.dust_group = Some(*group),
            (Aspect::DustGroup, _) => area.dust_group = None,
            (Aspect::Class, Ease::Class(class)) => area.temperature_class = Some(*class),
            (Aspect::Class, _) => area.temperature_class = None,
            (Aspect::Surface, Ease::Temperature(surface_c)) => {
                area.max_surface_c = Some(*surface_c)
            }
            (Aspect::Surface, _) => area.max_surface_c = None,
            (Aspect::Hottest, Ease::Temperature(hottest_c)) => {
                area.ambient_c = [area.ambient_c[0].min(*hottest_c), *hottest_c];
            }
            (Aspect::Hottest, _) => {
                let mild_c = area.ambient_c[1].min(MILD_C);
                area.ambient_c = [area.ambient_c[0].min(mild_c), mild_c];
            }
            (Aspect::Coldest, Ease::Temperature(coldest_c)) => {
                area.ambient_c = [*coldest_c, area.ambient_c[1].max(*coldest_c)];
            }
            (Aspect::Coldest, _) => {
                area.ambient_c[0] = area.ambient_c[0].max(MILD_C.min(area.ambient_c[1]));
            }
            (Aspect::Ip, Ease::Ip(ip)) => area.ip = *ip,
            (Aspect::Ip, _) => {
                area.ip = IpCode {
                    solids: 0,
                    water: 0,
                }
            }
            _ => {}
        }
    }

    fn wishes(&mut self, aspect: &Aspect, ease: &Ease) {
        let wishes = &mut self.list.wishes;
        match (aspect, ease) {
            (Aspect::Material, Ease::Material(material)) => wishes.materials.push(*material),
            (Aspect::Material, _) => wishes.materials.clear(),
            (Aspect::Size, Ease::Size(size)) => wishes.max_outer_mm = Some(*size),
            (Aspect::Size, _) => wishes.max_outer_mm = None,
            (Aspect::Orientation, _) => {
                let other = [Orientation::Upright, Orientation::Turned]
                    .into_iter()
                    .find(|orientation| !wishes.orientations.contains(orientation));
                wishes.orientations.extend(other);
            }
            (Aspect::EntryWalls, ease) => {
                let further: Vec<Face> = match ease {
                    Ease::Walls(walls) => walls.clone(),
                    _ => Face::WALLS
                        .into_iter()
                        .filter(|wall| !wishes.entry_walls.contains(wall))
                        .collect(),
                };
                wishes.entry_walls.extend(&further);
                for cable in self.list.cables.iter_mut() {
                    if !cable.place.has("wall") {
                        cable.walls.extend(&further);
                    }
                }
            }
            (Aspect::Include, Ease::Enclosure(id)) => wishes.include.push(id.clone()),
            (Aspect::Include, _) => wishes.include.clear(),
            (Aspect::Exclude, Ease::Enclosure(id)) => wishes.exclude.retain(|known| known != id),
            (Aspect::Exclude, _) => wishes.exclude.clear(),
            (Aspect::Hinge, _) => wishes.lid_hinge.clear(),
            (Aspect::Breather, _) => wishes.breather = false,
            _ => {}
        }
    }

    fn reserves(&mut self, aspect: &Aspect, ease: &Ease) {
        let (spare, earthing) = (&mut self.list.spare, &mut self.list.earthing);
        match (aspect, ease) {
            (Aspect::SpareTerminals, Ease::Percent(percent)) => spare.terminals_percent = *percent,
            (Aspect::SpareTerminals, _) => spare.terminals_percent = 0.0,
            (Aspect::SpareEntries, Ease::Fewer(count)) => {
                // The largest threads go first: they free most room.
                let mut left = *count as u32;
                for (_, has) in spare.entries.iter_mut().rev() {
                    let less = left.min(*has);
                    *has -= less;
                    left -= less;
                }
                spare.entries.retain(|_, has| *has > 0);
            }
            (Aspect::SpareEntries, _) => spare.entries.clear(),
            (Aspect::HeatReserve, Ease::Percent(percent)) => spare.heat_percent = *percent,
            (Aspect::HeatReserve, _) => spare.heat_percent = 0.0,
            (Aspect::ExternalEarth, _) => earthing.external = false,
            (Aspect::SpareEarth, Ease::Fewer(count)) => {
                earthing.spare_terminals = earthing.spare_terminals.saturating_sub(*count as u32);
            }
            (Aspect::SpareEarth, _) => earthing.spare_terminals = 0,
            _ => {}
        }
    }

    /// Takes cables and elements out. A pole that loses its source or all it leads to goes with them;
    /// cores of other cables that it used become unused ones.
    fn leave_out(&mut self) {
        if self.gone_cables.is_empty() && self.gone_elements.is_empty() {
            return;
        }
        let list = &mut self.list;
        let cables = renumbered(list.cables.len(), &self.gone_cables);
        let elements = renumbered(list.elements.len(), &self.gone_elements);
        list.cables = left(std::mem::take(&mut list.cables), &self.gone_cables);
        list.elements = left(std::mem::take(&mut list.elements), &self.gone_elements);
        for element in &mut list.elements {
            let placing = &mut element.placing;
            placing.above = placing
                .above
                .and_then(|other| elements.get(&other).copied());
            placing.beside = placing
                .beside
                .and_then(|other| elements.get(&other).copied());
        }
        let new_end = |end: &End| -> Option<End> {
            Some(match end {
                End::Core { cable, core } => End::Core {
                    cable: *cables.get(cable)?,
                    core: *core,
                },
                End::Contact { element, point } => End::Contact {
                    element: *elements.get(element)?,
                    point: point.clone(),
                },
            })
        };
        let mut poles: BTreeMap<(usize, usize), (usize, usize)> = BTreeMap::new();
        let mut circuits: Vec<Circuit> = Vec::new();
        for (index, circuit) in std::mem::take(&mut list.circuits).into_iter().enumerate() {
            let mut kept = Vec::new();
            for (number, pole) in circuit.poles.iter().enumerate() {
                let from = pole.from.as_ref().map(new_end);
                let to: Vec<End> = pole.to.iter().filter_map(new_end).collect();
                if from == Some(None) || (to.is_empty() && !pole.to.is_empty()) {
                    continue;
                }
                poles.insert((index, number), (circuits.len(), kept.len()));
                kept.push(Pole {
                    marking: pole.marking.clone(),
                    from: from.flatten(),
                    to,
                });
            }
            if !kept.is_empty() {
                circuits.push(Circuit {
                    poles: kept,
                    ..circuit
                });
            }
        }
        list.circuits = circuits;
        let links = std::mem::take(&mut list.links).into_iter().map(|link| {
            link.iter()
                .filter_map(|pole| poles.get(pole).copied())
                .collect::<Vec<_>>()
        });
        list.links = links.filter(|link| link.len() >= 2).collect();
    }
}

/// A current times a share, to a hundredth of an ampere and never above.
fn scaled(current_a: f64, share: f64) -> f64 {
    (current_a * share * 100.0 + 1e-6).floor() / 100.0
}

/// A cable of another diameter, as if the list had stated it: a tolerance in millimetres stays, one that was given
/// in percent or follows from a given diameter is in proportion, that of an estimate becomes that of a given diameter.
/// What lies under an armour shrinks in proportion.
pub(super) fn set_diameter(cable: &mut Cable, diameter_mm: f64, workshop: &Workshop) {
    let share = diameter_mm / cable.diameter_mm;
    let has_mm = cable.diameter_range_mm[1] - cable.diameter_mm;
    let tolerance_mm = if cable.place.has("tolerance_mm") {
        has_mm
    } else if cable.place.has("diameter_mm") || cable.place.has("tolerance_percent") {
        has_mm * share
    } else {
        diameter_mm * workshop.conductors.given_tolerance_percent / 100.0
    };
    cable.diameter_mm = diameter_mm;
    cable.diameter_range_mm = [diameter_mm - tolerance_mm, diameter_mm + tolerance_mm];
    cable.under_armour_mm = cable
        .under_armour_mm
        .map(|range| range.map(|end_mm| end_mm * share));
}

/// A cable that may be of any diameter: an empty range lies within every clamping range, and no clamping
/// range is better than another.
fn forget_diameter(cable: &mut Cable) {
    const NOTHING_MM: [f64; 2] = [f64::INFINITY, f64::NEG_INFINITY];
    cable.diameter_mm = f64::INFINITY;
    cable.diameter_range_mm = NOTHING_MM;
    cable.under_armour_mm = cable.under_armour_mm.map(|_| NOTHING_MM);
}

fn renumbered(count: usize, gone: &BTreeSet<usize>) -> BTreeMap<usize, usize> {
    (0..count)
        .filter(|index| !gone.contains(index))
        .enumerate()
        .map(|(new, old)| (old, new))
        .collect()
}

fn left<T>(items: Vec<T>, gone: &BTreeSet<usize>) -> Vec<T> {
    items
        .into_iter()
        .enumerate()
        .filter(|(index, _)| !gone.contains(index))
        .map(|(_, item)| item)
        .collect()
}
