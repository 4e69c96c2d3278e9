//! An arrangement with what the rules look up again and again. Knows nothing of any rule.

use super::measure;
use crate::arrangement::{
    Arrangement, CableRecord, CircuitRecord, PlacedAccessory, PlacedContact, PlacedElement,
    PlacedEntry, PlacedRail, PlacedTerminal, StripRecord, Wire, WireEnd,
};
use crate::catalogue::{AccessoryKind, Catalogue, CircuitKind, Material, TerminalFunction};
use crate::space::{Block, Interior, Point};
use std::collections::{BTreeMap, BTreeSet};

/// The potential of everything earthed.
pub(super) const EARTH: &str = "PE";

/// The arrangement and its indices. Where an id occurs twice the first part counts here;
/// `record.identities` reports it.
pub(super) struct Context<'a> {
    pub arrangement: &'a Arrangement,
    pub catalogue: Option<&'a Catalogue>,
    pub terminals: BTreeMap<&'a str, &'a PlacedTerminal>,
    pub elements: BTreeMap<&'a str, &'a PlacedElement>,
    pub entries: BTreeMap<&'a str, &'a PlacedEntry>,
    pub rails: BTreeMap<&'a str, &'a PlacedRail>,
    pub strips: BTreeMap<&'a str, &'a StripRecord>,
    pub cables: BTreeMap<&'a str, &'a CableRecord>,
    pub circuits: BTreeMap<&'a str, &'a CircuitRecord>,
    pub wires: BTreeMap<&'a str, &'a Wire>,
    /// Circuits whose poles carry a potential.
    pub circuits_of_potential: BTreeMap<&'a str, Vec<&'a CircuitRecord>>,
    /// Wires by the terminal at either end.
    pub wires_of_terminal: BTreeMap<&'a str, Vec<&'a Wire>>,
    /// What stands on each rail, from left to right.
    pub rows: BTreeMap<&'a str, Vec<RowItem<'a>>>,
}

/// Something that stands on a rail.
#[derive(Clone, Copy)]
pub(super) enum RowItem<'a> {
    Terminal(&'a PlacedTerminal),
    Accessory(&'a PlacedAccessory),
}

impl<'a> RowItem<'a> {
    pub fn body(&self) -> &'a Block {
        match self {
            RowItem::Terminal(terminal) => &terminal.body,
            RowItem::Accessory(accessory) => &accessory.body,
        }
    }

    pub fn id(&self) -> &'a str {
        match self {
            RowItem::Terminal(terminal) => &terminal.id,
            RowItem::Accessory(accessory) => &accessory.id,
        }
    }

    pub fn rail(&self) -> &'a str {
        match self {
            RowItem::Terminal(terminal) => &terminal.rail,
            RowItem::Accessory(accessory) => &accessory.rail,
        }
    }

    pub fn is(&self, kind: AccessoryKind) -> bool {
        matches!(self, RowItem::Accessory(accessory) if accessory.kind == kind)
    }
}

/// A block of bare metal with what decides its distances.
pub(super) struct Live<'a> {
    /// Id of the terminal or tag of the element.
    pub owner: &'a str,
    /// Its potential; empty on a spare terminal.
    pub potential: &'a str,
    pub block: &'a Block,
    /// Highest working voltage known for it, V; 0 where nothing says one.
    pub voltage_v: f64,
    pub kind: CircuitKind,
    pub terminal: Option<&'a PlacedTerminal>,
}

impl Live<'_> {
    /// Its potential in words.
    pub fn potential_words(&self) -> &str {
        if self.potential.is_empty() {
            "spare"
        } else {
            self.potential
        }
    }

    /// Whether it is metal connected to earth.
    pub fn is_earth(&self) -> bool {
        self.potential == EARTH
            || self
                .terminal
                .is_some_and(|terminal| terminal.function == TerminalFunction::Earth)
    }
}

impl<'a> Context<'a> {
    pub fn new(arrangement: &'a Arrangement, catalogue: Option<&'a Catalogue>) -> Self {
        let mut circuits_of_potential: BTreeMap<&str, Vec<&CircuitRecord>> = BTreeMap::new();
        for circuit in &arrangement.circuits {
            for pole in &circuit.poles {
                let known = circuits_of_potential
                    .entry(pole.potential.as_str())
                    .or_default();
                if !known.iter().any(|other| other.tag == circuit.tag) {
                    known.push(circuit);
                }
            }
        }
        let mut wires_of_terminal: BTreeMap<&str, Vec<&Wire>> = BTreeMap::new();
        for wire in &arrangement.wires {
            let ends: BTreeSet<&str> = [&wire.from, &wire.to]
                .into_iter()
                .filter_map(|end| match end {
                    WireEnd::Terminal { terminal, .. } => Some(terminal.as_str()),
                    _ => None,
                })
                .collect();
            for terminal in ends {
                wires_of_terminal.entry(terminal).or_default().push(wire);
            }
        }
        let mut rows: BTreeMap<&str, Vec<RowItem>> = BTreeMap::new();
        let terminals = arrangement.terminals.iter().map(RowItem::Terminal);
        for item in terminals.chain(arrangement.accessories.iter().map(RowItem::Accessory)) {
            rows.entry(item.rail()).or_default().push(item);
        }
        for row in rows.values_mut() {
            row.sort_by(|a, b| {
                let (a, b) = (a.body(), b.body());
                a.min
                    .x_mm
                    .total_cmp(&b.min.x_mm)
                    .then(a.max.x_mm.total_cmp(&b.max.x_mm))
            });
        }
        Self {
            arrangement,
            catalogue,
            terminals: index(&arrangement.terminals, |part| &part.id),
            elements: index(&arrangement.elements, |part| &part.tag),
            entries: index(&arrangement.entries, |part| &part.id),
            rails: index(&arrangement.rails, |part| &part.id),
            strips: index(&arrangement.strips, |part| &part.name),
            cables: index(&arrangement.cables, |part| &part.tag),
            circuits: index(&arrangement.circuits, |part| &part.tag),
            wires: index(&arrangement.wires, |part| &part.id),
            circuits_of_potential,
            wires_of_terminal,
            rows,
        }
    }

    pub fn interior(&self) -> &'a Interior {
        &self.arrangement.enclosure.interior
    }

    /// The highest voltage of the circuits that carry a potential; 0 where none does, and for earth,
    /// against which voltages are counted.
    pub fn voltage_of(&self, potential: &str) -> f64 {
        if potential == EARTH {
            return 0.0;
        }
        let circuits = self.circuits_of_potential.get(potential);
        circuits
            .into_iter()
            .flatten()
            .map(|circuit| circuit.voltage_v)
            .fold(0.0, f64::max)
    }

    /// The wires of a terminal.
    pub fn wires_at(&self, terminal: &PlacedTerminal) -> &[&'a Wire] {
        self.wires_of_terminal
            .get(terminal.id.as_str())
            .map_or(&[], Vec::as_slice)
    }

    /// Whether a wire ends on a level of a terminal.
    pub fn ends_on_level(wire: &Wire, terminal: &PlacedTerminal, level: u32) -> bool {
        [&wire.from, &wire.to].into_iter().any(|end| {
            matches!(end, WireEnd::Terminal { terminal: id, level: at, .. }
                if *id == terminal.id && *at == level)
        })
    }

    /// The wires on the points of a contact of an element.
    pub fn wires_on_contact(&self, contact: &PlacedContact) -> Vec<&'a Wire> {
        let ids = contact.points.iter().flat_map(|point| &point.wires);
        ids.filter_map(|id| self.wires.get(id.as_str()).copied())
            .collect()
    }

    /// Every block of bare metal of terminals and elements. Points of an element on which nothing is
    /// wired carry nothing and are left out.
    pub fn live_parts(&self) -> Vec<Live<'a>> {
        let mut all = Vec::new();
        for terminal in &self.arrangement.terminals {
            for part in &terminal.live {
                all.push(Live {
                    owner: &terminal.id,
                    potential: &part.potential,
                    block: &part.block,
                    voltage_v: self
                        .voltage_of(&part.potential)
                        .max(terminal.working_voltage_v),
                    kind: terminal.kind,
                    terminal: Some(terminal),
                });
            }
        }
        for element in &self.arrangement.elements {
            for part in element
                .live
                .iter()
                .filter(|part| !part.potential.is_empty())
            {
                let points = element.contacts.iter().flat_map(|contact| &contact.points);
                let recorded_v = points
                    .filter(|point| point.potential == part.potential)
                    .map(|point| point.working_voltage_v)
                    .fold(0.0, f64::max);
                let circuits = self.circuits_of_potential.get(part.potential.as_str());
                // One circuit that is not intrinsically safe makes the metal not intrinsically safe.
                let safe = circuits.is_some_and(|circuits| {
                    circuits
                        .iter()
                        .all(|circuit| circuit.kind == CircuitKind::IntrinsicallySafe)
                });
                all.push(Live {
                    owner: &element.tag,
                    potential: &part.potential,
                    block: &part.block,
                    voltage_v: self.voltage_of(&part.potential).max(recorded_v),
                    kind: if safe {
                        CircuitKind::IntrinsicallySafe
                    } else {
                        CircuitKind::ExE
                    },
                    terminal: None,
                });
            }
        }
        all
    }

    /// Insulating slabs that stand across the rails: partitions and end plates of a material that is
    /// known to insulate, and the closed side walls of terminals (the left one always; the right one unless it is open).
    pub fn insulating_slabs(&self) -> Vec<Slab<'a>> {
        let mut slabs = Vec::new();
        for accessory in &self.arrangement.accessories {
            if !may_conduct(accessory.material)
                && matches!(
                    accessory.kind,
                    AccessoryKind::Partition | AccessoryKind::EndPlate
                )
            {
                slabs.push(Slab {
                    rail: &accessory.rail,
                    block: accessory.body,
                });
            }
        }
        for terminal in &self.arrangement.terminals {
            let body = &terminal.body;
            let side = |x_mm: f64| Block {
                min: Point { x_mm, ..body.min },
                max: Point { x_mm, ..body.max },
            };
            slabs.push(Slab {
                rail: &terminal.rail,
                block: side(body.min.x_mm),
            });
            if !terminal.open_side {
                slabs.push(Slab {
                    rail: &terminal.rail,
                    block: side(body.max.x_mm),
                });
            }
        }
        slabs.sort_by(|a, b| {
            a.rail
                .cmp(b.rail)
                .then(a.block.min.x_mm.total_cmp(&b.block.min.x_mm))
        });
        slabs
    }

    /// Whether two terminals are equal and stand side by side, touching, on one rail.
    pub fn equal_neighbours(a: &PlacedTerminal, b: &PlacedTerminal) -> bool {
        a.part == b.part
            && a.rail == b.rail
            && measure::apart_mm(measure::x_range(&a.body), measure::x_range(&b.body)).abs()
                <= super::case::SLACK
    }

    /// Names of the kinds of circuit for which an end is used: that of the named circuit.
    pub fn kind_of_circuit(&self, tag: &str) -> Option<CircuitKind> {
        self.circuits.get(tag).map(|circuit| circuit.kind)
    }
}

/// Whether an accessory is an insulating partition that passes its rail, so that it may reach walls, lid and plate.
pub(super) fn passes_its_rail(context: &Context<'_>, accessory: &PlacedAccessory) -> bool {
    accessory.kind == AccessoryKind::Partition
        && !may_conduct(accessory.material)
        && context
            .rails
            .get(accessory.rail.as_str())
            .is_some_and(|rail| accessory.body.min.z_mm < rail.body.max.z_mm - super::case::SLACK)
}

/// Whether a material conducts, or may: one that is not known counts as metal.
pub(super) fn may_conduct(material: Option<Material>) -> bool {
    match material {
        Some(Material::Grp | Material::Polyamide) => false,
        Some(Material::Stainless | Material::Steel | Material::Aluminium | Material::Brass) => true,
        None => true,
    }
}

/// An insulating slab across a rail.
pub(super) struct Slab<'a> {
    pub rail: &'a str,
    pub block: Block,
}

fn index<'a, T>(parts: &'a [T], id: impl Fn(&'a T) -> &'a String) -> BTreeMap<&'a str, &'a T> {
    let mut found = BTreeMap::new();
    for part in parts {
        found.entry(id(part).as_str()).or_insert(part);
    }
    found
}
