//! The screens of docs/model.md: wishes, certificate, rated power, thread, wall thickness, count.

use super::mounted::Mounted;
use glandrail::arrangement::Orientation;
use glandrail::catalogue::{ConductorBuild, Most};
use glandrail::demand::{Demand, EntryPartNeed, WireNeedEnd};
use glandrail::requirements::RequirementList;
use glandrail::standards::iec_60228::{ConductorClass, resistance_at_20_ohm_per_km};

/// Least energy of the impact test, J (docs/catalogue.md).
const LEAST_IMPACT_J: f64 = 4.0;

/// Why a candidate fails a screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Screen {
    Wish,
    Certificate,
    NoRating,
    Heat,
    Count,
    WallThickness,
}

/// The first screen that a candidate fails.
pub fn fails(
    list: &RequirementList,
    demand: &Demand<'_>,
    candidate: &Mounted<'_>,
) -> Option<Screen> {
    if !wanted(list, candidate) {
        return Some(Screen::Wish);
    }
    if !certified(list, candidate) {
        return Some(Screen::Certificate);
    }
    let enclosure = candidate.enclosure;
    match enclosure.most_terminals {
        None if !demand.terminals.is_empty() => return Some(Screen::Certificate),
        Some(Most::Of(most)) if demand.terminals.len() > most as usize => {
            return Some(Screen::Count);
        }
        None | Some(Most::Of(_) | Most::NotLimited) => {}
    }
    let thickness_mm = enclosure.wall_thickness_mm;
    let mountable = demand.entries.iter().all(|entry| {
        let [least, most] = match entry.part {
            EntryPartNeed::Gland(gland) => gland.wall_mm,
            EntryPartNeed::Plug(plug) => plug.wall_mm,
        };
        (least..=most).contains(&thickness_mm)
    });
    if !mountable {
        return Some(Screen::WallThickness);
    }
    match permitted_w(list, candidate) {
        None => Some(Screen::NoRating),
        Some(permitted_w) if dissipated_w(demand, candidate) > permitted_w + 1e-9 => {
            Some(Screen::Heat)
        }
        Some(_) => None,
    }
}

fn wanted(list: &RequirementList, candidate: &Mounted<'_>) -> bool {
    let wishes = &list.wishes;
    let id = candidate.enclosure.id.clone();
    let material =
        wishes.materials.is_empty() || wishes.materials.contains(&candidate.enclosure.material);
    let size = wishes.max_outer_mm.is_none_or(|most| {
        candidate
            .outer_mm
            .iter()
            .zip(most)
            .all(|(side, most)| *side <= most)
    });
    // A screwed lid has no hinge that could be in the way.
    let hinge = wishes.lid_hinge.is_empty()
        || candidate
            .hinge
            .is_none_or(|hinge| wishes.lid_hinge.contains(&hinge));
    let orientation = candidate.orientation == Orientation::Upright || candidate.enclosure.turnable;
    let included = wishes.include.is_empty() || wishes.include.contains(&id);
    orientation && material && size && hinge && included && !wishes.exclude.contains(&id)
}

/// Unknown data exclude.
fn certified(list: &RequirementList, candidate: &Mounted<'_>) -> bool {
    let enclosure = candidate.enclosure;
    let area = &list.area;
    let needs_external_earth = list.earthing.external || enclosure.material.is_metal();
    let highest = |values: Vec<f64>| values.into_iter().fold(0.0, f64::max);
    let voltage_v = highest(list.circuits.iter().map(|one| one.voltage_v).collect());
    let current_a = highest(list.circuits.iter().map(|one| one.current_a).collect());
    glandrail::demand::suits(&enclosure.certificate, area, true).is_ok()
        && enclosure
            .impact_j
            .is_some_and(|energy| energy >= LEAST_IMPACT_J)
        && enclosure
            .rated_voltage_v
            .is_some_and(|rated| rated >= voltage_v)
        && enclosure
            .rated_current_a
            .is_some_and(|rated| rated >= current_a)
        && (!needs_external_earth || enclosure.external_earth_mm2.is_some())
}

/// The highest of the rows that serve class and ambient, less the share kept free.
fn permitted_w(list: &RequirementList, candidate: &Mounted<'_>) -> Option<f64> {
    let class = list.area.temperature_class?;
    let ambient_c = list.area.ambient_c[1];
    candidate
        .enclosure
        .rated_power
        .iter()
        .filter(|row| row.class.covers(class) && row.ambient_c >= ambient_c)
        .map(|row| row.power_w * (1.0 - list.spare.heat_percent / 100.0))
        .max_by(f64::total_cmp)
}

/// Power of everything that carries current, each conductor as long as the space diagonal.
fn dissipated_w(demand: &Demand<'_>, candidate: &Mounted<'_>) -> f64 {
    let square = |current_a: f64| current_a * current_a;
    let mut power_w = 0.0;
    for wire in &demand.wires {
        let class = match wire.build {
            ConductorBuild::Solid => ConductorClass::Class1,
            ConductorBuild::Stranded => ConductorClass::Class2,
            ConductorBuild::Flexible => ConductorClass::Class5,
        };
        let ohm_per_km = resistance_at_20_ohm_per_km(wire.section.mm2, class)
            .expect("the generated lists use sections of the table only");
        let ohm = ohm_per_km * candidate.diagonal_mm() / 1e6;
        power_w += square(wire.heat_current_a) * ohm;
        if let WireNeedEnd::Contact { element, point } = &wire.to {
            // A contact is closed through both of its points; its block counts once.
            let element = &demand.elements[*element];
            let block = element
                .contacts
                .iter()
                .position(|contact| contact.points[0] == *point);
            if let Some(block) = block {
                let mohm = element.blocks[block].resistance_mohm;
                power_w += square(wire.heat_current_a) * mohm / 1e3;
            }
        }
    }
    for terminal in &demand.terminals {
        for level in &terminal.levels {
            power_w += square(level.heat_current_a) * terminal.part.resistance_mohm / 1e3;
        }
    }
    for cluster in demand.strips.iter().flat_map(|strip| &strip.clusters) {
        if let Some(jumper) = &cluster.jumper {
            let steps = cluster.terminals.len() as f64 - 1.0;
            let mohm = jumper.part.resistance_mohm.unwrap_or(f64::INFINITY);
            power_w += square(jumper.heat_current_a) * mohm / 1e3 * steps;
        }
    }
    let own: f64 = demand
        .elements
        .iter()
        .filter_map(|element| element.part.power_w)
        .sum();
    power_w + own
}
