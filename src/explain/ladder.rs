//! The steps by which a requirement can be eased, the smallest first, and what each is taken to cost.
//!
//! Costs are points, a convention of ours (`from memory` of what is argued about in the trade) that only
//! puts the ways out in an order; docs/explain.md states them. A list may weigh them otherwise: its factors
//! are counted where costs are added, not here.

use super::apply::Ease;
use super::aspect::{Aspect, Requirement};
use super::thinner::diameters;
use crate::catalogue::{Catalogue, IpCode, Material};
use crate::model::mount;
use crate::requirements::RequirementList;
use crate::space::Face;
use crate::standards::iec_60079_0::{
    DustGroup, EquipmentProtectionLevel, GasGroup, TemperatureClass,
};
use crate::workshop::Workshop;
use itertools::Itertools;

/// One step with its cost.
pub type Step = (Ease, f64);

/// The steps of a requirement.
pub struct Ladder {
    /// The steps, the cheapest first.
    pub steps: Vec<Step>,
    /// Where the steps divide into runs, each by the number of the step after its last. Within a run every step
    /// allows all that the one before allows, so that the first that serves can be found by halving.
    pub ends: Vec<usize>,
}

impl Ladder {
    fn rising(steps: Vec<Step>) -> Self {
        let ends = vec![steps.len()];
        Self { steps, ends }
    }

    fn any(mut steps: Vec<Step>) -> Self {
        steps.sort_by(|a, b| a.1.total_cmp(&b.1));
        let ends = (1..=steps.len()).collect();
        Self { steps, ends }
    }
}

/// The least that easing a requirement costs, in hundredths of a point: decides the order in which
/// ways out are looked for.
pub fn least_cost(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    requirement: &Requirement,
) -> u64 {
    let steps = ladder(list, catalogue, workshop, &requirement.aspect).steps;
    let least = steps
        .iter()
        .map(|step| step.1 * requirement.weight)
        .fold(f64::INFINITY, f64::min);
    if least.is_finite() {
        ((least * 100.0) as u64).max(1)
    } else {
        100_000
    }
}

/// The steps by which a requirement can be eased; none where it cannot.
pub fn ladder(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    aspect: &Aspect,
) -> Ladder {
    let given_up = |cost: f64| Ladder::rising(vec![(Ease::GivenUp, cost)]);
    match aspect {
        Aspect::GasLevel => levels(list.area.gas_epl),
        Aspect::DustLevel => levels(list.area.dust_epl),
        Aspect::GasGroup => {
            let below = GasGroup::ALL.iter().rev().copied();
            let below =
                below.filter(|group| list.area.gas_group.is_some_and(|asked| *group < asked));
            costly(below.map(Ease::GasGroup), 20.0)
        }
        Aspect::DustGroup => {
            let below = DustGroup::ALL.iter().rev().copied();
            let below =
                below.filter(|group| list.area.dust_group.is_some_and(|asked| *group < asked));
            costly(below.map(Ease::DustGroup), 20.0)
        }
        Aspect::Class => {
            let below = TemperatureClass::ALL.iter().rev().copied();
            let below = below.filter(|class| {
                list.area
                    .temperature_class
                    .is_some_and(|asked| *class < asked)
            });
            costly(below.map(Ease::Class), 15.0)
        }
        Aspect::Surface => surface(list),
        Aspect::Hottest => hottest(list, catalogue),
        Aspect::Coldest => coldest(list, catalogue),
        Aspect::Ip => ip(list, catalogue),
        Aspect::Material => materials(list, catalogue),
        Aspect::Size => sizes(list, catalogue),
        Aspect::Orientation | Aspect::Hinge => given_up(2.0),
        Aspect::EntryWalls => walls(list),
        Aspect::Include => {
            let further = catalogue.enclosure.iter().map(|enclosure| &enclosure.id);
            let further = further.filter(|id| !list.wishes.include.contains(id));
            Ladder::any(
                further
                    .map(|id| (Ease::Enclosure(id.clone()), 5.0))
                    .collect(),
            )
        }
        Aspect::Exclude => {
            let excluded = list.wishes.exclude.iter();
            Ladder::any(
                excluded
                    .map(|id| (Ease::Enclosure(id.clone()), 5.0))
                    .collect(),
            )
        }
        Aspect::Breather => given_up(4.0),
        Aspect::ExternalEarth => given_up(6.0),
        Aspect::SpareTerminals => percents(list.spare.terminals_percent),
        Aspect::HeatReserve => percents(list.spare.heat_percent),
        Aspect::SpareEntries => fewer(list.spare.entries.values().sum::<u32>() as usize, 1.0),
        Aspect::SpareEarth => fewer(list.earthing.spare_terminals as usize, 1.0),
        Aspect::Cables(members) => fewer(members.len(), 50.0),
        Aspect::Diameter(members) => {
            diameters(&list.cables[members[0]], members.len(), catalogue, workshop)
        }
        Aspect::CableWalls(members) => {
            let steps = (1..=members.len()).map(|count| (Ease::AnyWall(count), count as f64));
            Ladder::rising(steps.collect())
        }
        Aspect::GlandMaterial(_) => given_up(4.0),
        Aspect::Gland(_)
        | Aspect::GlandThread(_)
        | Aspect::Terminal(_)
        | Aspect::ElementPart(_)
        | Aspect::ElementColour(_) => given_up(5.0),
        Aspect::Placing => given_up(3.0),
        Aspect::Element(_) => given_up(50.0),
        Aspect::Current(_) => {
            let steps = (1..=99).map(|percent| {
                let less = f64::from(percent);
                (Ease::CurrentShare((100.0 - less) / 100.0), less)
            });
            Ladder::rising(steps.collect())
        }
        Aspect::Voltage(members) => voltages(list, catalogue, members),
        Aspect::Separation => Ladder::rising(Vec::new()),
    }
}

fn costly(eases: impl Iterator<Item = Ease>, each: f64) -> Ladder {
    let steps = eases
        .enumerate()
        .map(|(index, ease)| (ease, each * (index + 1) as f64));
    Ladder::rising(steps.collect())
}

fn levels(asked: Option<EquipmentProtectionLevel>) -> Ladder {
    let lesser = EquipmentProtectionLevel::ALL.iter().copied();
    let lesser =
        lesser.filter(|level| asked.is_some_and(|asked| *level != asked && asked.covers(*level)));
    costly(lesser.map(Ease::Level), 40.0)
}

fn surface(list: &RequirementList) -> Ladder {
    let asked = list.area.max_surface_c.unwrap_or(f64::INFINITY);
    let above = TemperatureClass::ALL
        .iter()
        .rev()
        .map(|class| class.limit_c());
    let above = above.filter(|limit| *limit > asked);
    costly(above.map(Ease::Temperature), 15.0)
}

/// Ambient temperatures that certificates name: of rated power and of service.
fn hottest(list: &RequirementList, catalogue: &Catalogue) -> Ladder {
    let asked = list.area.ambient_c[1];
    let rows = catalogue
        .enclosure
        .iter()
        .flat_map(|enclosure| enclosure.rated_power.iter().map(|row| row.ambient_c));
    let named = rows.chain(service(catalogue).map(|range| range[1]));
    let steps = named
        .filter(|ambient_c| *ambient_c < asked && *ambient_c >= list.area.ambient_c[0])
        .sorted_by(|a, b| b.total_cmp(a))
        .dedup()
        .map(|ambient_c| (Ease::Temperature(ambient_c), asked - ambient_c));
    Ladder::rising(steps.collect())
}

fn coldest(list: &RequirementList, catalogue: &Catalogue) -> Ladder {
    let asked = list.area.ambient_c[0];
    let steps = service(catalogue)
        .map(|range| range[0])
        .filter(|ambient_c| *ambient_c > asked && *ambient_c <= list.area.ambient_c[1])
        .sorted_by(f64::total_cmp)
        .dedup()
        .map(|ambient_c| (Ease::Temperature(ambient_c), ambient_c - asked));
    Ladder::rising(steps.collect())
}

fn service(catalogue: &Catalogue) -> impl Iterator<Item = [f64; 2]> {
    let of = |certificate: &crate::catalogue::Certificate| certificate.service_c;
    let enclosures = catalogue
        .enclosure
        .iter()
        .filter_map(move |part| of(&part.certificate));
    let terminals = catalogue
        .terminal
        .iter()
        .filter_map(move |part| of(&part.certificate));
    let glands = catalogue
        .gland
        .iter()
        .filter_map(move |part| of(&part.certificate));
    let plugs = catalogue
        .plug
        .iter()
        .filter_map(move |part| of(&part.certificate));
    let elements = catalogue
        .element
        .iter()
        .filter_map(move |part| of(&part.certificate));
    enclosures
        .chain(terminals)
        .chain(glands)
        .chain(plugs)
        .chain(elements)
}

fn ip(list: &RequirementList, catalogue: &Catalogue) -> Ladder {
    let asked = list.area.ip;
    let enclosures = catalogue
        .enclosure
        .iter()
        .filter_map(|part| part.certificate.ip);
    let glands = catalogue
        .gland
        .iter()
        .filter_map(|part| part.certificate.ip);
    let elements = catalogue
        .element
        .iter()
        .filter_map(|part| part.certificate.ip);
    let least = IpCode {
        solids: 5,
        water: 4,
    };
    let steps = enclosures
        .chain(glands)
        .chain(elements)
        .filter(|ip| *ip != asked && !ip.covers(asked) && ip.covers(least))
        .sorted_by(|a, b| b.cmp(a))
        .dedup()
        .map(Ease::Ip);
    let steps = steps
        .enumerate()
        .map(|(index, ease)| (ease, 15.0 * (index + 1) as f64));
    Ladder::any(steps.collect())
}

fn materials(list: &RequirementList, catalogue: &Catalogue) -> Ladder {
    let others: Vec<Material> = catalogue
        .enclosure
        .iter()
        .map(|enclosure| enclosure.material)
        .filter(|material| !list.wishes.materials.contains(material))
        .sorted()
        .dedup()
        .collect();
    Ladder::any(
        others
            .into_iter()
            .map(|material| (Ease::Material(material), 10.0))
            .collect(),
    )
}

/// Larger limits, each just large enough for a further candidate: a point for each 10 mm.
fn sizes(list: &RequirementList, catalogue: &Catalogue) -> Ladder {
    let Some(most) = list.wishes.max_outer_mm else {
        return Ladder::rising(Vec::new());
    };
    let steps = catalogue
        .enclosure
        .iter()
        .flat_map(|enclosure| {
            list.wishes
                .orientations
                .iter()
                .map(|orientation| mount(enclosure, *orientation).outer_mm)
        })
        .map(|outer| [0, 1, 2].map(|axis| outer[axis].max(most[axis])))
        .filter(|size| *size != most)
        .map(|size| {
            let more_mm: f64 = (0..3).map(|axis| size[axis] - most[axis]).sum();
            (Ease::Size(size), more_mm / 10.0)
        })
        .sorted_by(|a, b| {
            a.1.total_cmp(&b.1)
                .then_with(|| format!("{:?}", a.0).cmp(&format!("{:?}", b.0)))
        })
        .dedup()
        .collect();
    Ladder::any(steps)
}

fn walls(list: &RequirementList) -> Ladder {
    let further: Vec<Face> = [Face::Bottom, Face::Left, Face::Right, Face::Top]
        .into_iter()
        .filter(|wall| !list.wishes.entry_walls.contains(wall))
        .collect();
    let steps = (1..=further.len()).flat_map(|count| {
        further
            .iter()
            .copied()
            .combinations(count)
            .map(move |walls| (Ease::Walls(walls), 3.0 * count as f64))
    });
    Ladder::any(steps.collect())
}

/// Whole percent points less: a fifth of a point each.
fn percents(asked: f64) -> Ladder {
    let whole = asked.ceil() as u32;
    let steps = (1..=whole).map(|less| {
        let percent = f64::from(whole - less);
        (Ease::Percent(percent), (asked - percent) / 5.0)
    });
    Ladder::rising(steps.collect())
}

fn fewer(has: usize, each: f64) -> Ladder {
    let steps = (1..=has).map(|count| (Ease::Fewer(count), each * count as f64));
    Ladder::rising(steps.collect())
}

/// Rated voltages of enclosures, terminals, elements and contact blocks below the one asked for. Another voltage may
/// mean another terminal, narrower but longer, so that a lower one is not always the easier.
fn voltages(list: &RequirementList, catalogue: &Catalogue, members: &[usize]) -> Ladder {
    let asked = list.circuits[members[0]].voltage_v;
    let enclosures = catalogue
        .enclosure
        .iter()
        .filter_map(|part| part.rated_voltage_v);
    let terminals = catalogue.terminal.iter().map(|part| part.rated_voltage_v);
    let elements = catalogue
        .element
        .iter()
        .filter_map(|part| part.rated_voltage_v);
    let blocks = catalogue.contact_block.iter().flat_map(|part| {
        let categories = part.utilisation.iter().map(|row| row.voltage_v);
        categories.chain([part.rated_voltage_v])
    });
    let steps = enclosures
        .chain(terminals)
        .chain(elements)
        .chain(blocks)
        .filter(|voltage_v| *voltage_v < asked)
        .sorted_by(|a, b| b.total_cmp(a))
        .dedup()
        .enumerate()
        .map(|(further, voltage_v)| (Ease::Voltage(voltage_v), 30.0 + further as f64));
    Ladder::any(steps.collect())
}
