//! The records of an arrangement that need no geometry.

use super::TerminalIndex;
use crate::arrangement::{
    AreaRecord, Arrangement, CableRecord, CircuitRecord, EntryPurpose, PlacedAccessory,
    PlacedEntry, PlacedJumper, PlacedRail, PlacedTerminal, PoleRecord, StripRecord,
};
use crate::catalogue::Catalogue;
use crate::demand::Demand;
use crate::model::decide::Decided;
use crate::requirements::{End, RequirementList};
use crate::space::Face;
use crate::workshop::Workshop;
use itertools::Itertools;
use std::collections::BTreeMap;

pub(super) fn area(list: &RequirementList) -> AreaRecord {
    let area = &list.area;
    AreaRecord {
        epl: area.gas_epl.into_iter().chain(area.dust_epl).collect(),
        gas_group: area.gas_group,
        dust_group: area.dust_group,
        temperature_class: area.temperature_class,
        max_surface_c: area.max_surface_c,
        ambient_c: area.ambient_c,
        ip: area.ip,
    }
}

pub(super) fn strips(demand: &Demand<'_>) -> Vec<StripRecord> {
    demand
        .strips
        .iter()
        .map(|strip| StripRecord {
            name: strip.name.clone(),
            group: strip.group.clone(),
            kind: strip.kind,
        })
        .collect()
}

pub(super) fn jumpers(
    demand: &Demand<'_>,
    index: &TerminalIndex,
    terminals: &[PlacedTerminal],
) -> Vec<PlacedJumper> {
    let mut jumpers = Vec::new();
    for cluster in demand.strips.iter().flat_map(|strip| &strip.clusters) {
        let Some(need) = &cluster.jumper else {
            continue;
        };
        jumpers.push(PlacedJumper {
            id: format!("J{}", jumpers.len() + 1),
            part: need.part.id.clone(),
            description: need.part.description.clone(),
            terminals: cluster
                .terminals
                .iter()
                .map(|terminal| terminals[index[terminal]].id.clone())
                .collect(),
            poles: need.part.poles.unwrap_or(0),
            rated_current_a: need.part.current_a.unwrap_or(0.0),
            current_a: need.current_a,
            heat_current_a: need.heat_current_a,
            resistance_mohm: need.part.resistance_mohm.unwrap_or(0.0),
            certificate: need.part.certificate.clone(),
            mass_kg: need.part.mass_kg,
            price: need.part.price,
        });
    }
    jumpers
}

pub(super) fn cables(list: &RequirementList, entries: &[PlacedEntry]) -> Vec<CableRecord> {
    let entry_of: BTreeMap<&str, &str> = entries
        .iter()
        .filter_map(|entry| match &entry.purpose {
            EntryPurpose::Cable(tag) => Some((tag.as_str(), entry.id.as_str())),
            _ => None,
        })
        .collect();
    list.cables
        .iter()
        .map(|cable| CableRecord {
            tag: cable.tag.clone(),
            cores: cable.cores_text.clone(),
            kind: cable.kind,
            diameter_mm: cable.diameter_mm,
            diameter_range_mm: cable.diameter_range_mm,
            diameter_estimated: cable.diameter_estimated,
            armoured: cable.armoured,
            under_armour_mm: cable.under_armour_mm,
            screened: cable.screened,
            walls: cable.walls.clone(),
            entry: entry_of
                .get(cable.tag.as_str())
                .copied()
                .unwrap_or_default()
                .to_string(),
            core_count: cable.cores.len() as u32,
        })
        .collect()
}

pub(super) fn circuits(list: &RequirementList) -> Vec<CircuitRecord> {
    let head: BTreeMap<(usize, usize), (usize, usize)> = list
        .links
        .iter()
        .filter_map(|link| link.iter().min().map(|head| (link, *head)))
        .flat_map(|(link, head)| link.iter().map(move |pole| (*pole, head)))
        .collect();
    let words = |end: &End| match end {
        End::Core { cable, core } => format!("{}/{core}", list.cables[*cable].tag),
        End::Contact { element, point } => format!("{}/{point}", list.elements[*element].tag),
    };
    list.circuits
        .iter()
        .enumerate()
        .map(|(index, circuit)| CircuitRecord {
            tag: circuit.tag.clone(),
            group: circuit.group.name().to_string(),
            kind: circuit.kind,
            voltage_v: circuit.voltage_v,
            current_a: circuit.current_a,
            simultaneity: circuit.simultaneity,
            load: circuit.load,
            poles: circuit
                .poles
                .iter()
                .enumerate()
                .map(|(pole_index, pole)| {
                    let (named, number) = head
                        .get(&(index, pole_index))
                        .copied()
                        .unwrap_or((index, pole_index));
                    PoleRecord {
                        marking: pole.marking.clone(),
                        potential: format!("{}/{}", list.circuits[named].tag, number + 1),
                        from: pole.from.as_ref().map(words),
                        to: pole.to.iter().map(words).collect(),
                    }
                })
                .collect(),
        })
        .collect()
}

/// How many more of the narrowest terminal used would fit on each rail.
pub(super) fn free_terminals(
    rails: &[PlacedRail],
    terminals: &[PlacedTerminal],
    accessories: &[PlacedAccessory],
) -> BTreeMap<String, u32> {
    let narrowest_mm = terminals
        .iter()
        .map(|terminal| terminal.body.width_mm())
        .fold(f64::INFINITY, f64::min);
    rails
        .iter()
        .map(|rail| {
            let bodies = terminals
                .iter()
                .filter(|terminal| terminal.rail == rail.id)
                .map(|terminal| terminal.body)
                .chain(
                    accessories
                        .iter()
                        .filter(|part| part.rail == rail.id)
                        .map(|part| part.body),
                );
            let used_mm: f64 = bodies.map(|body| body.width_mm()).sum();
            let free = ((rail.length_mm - used_mm) / narrowest_mm + 1e-9)
                .floor()
                .max(0.0);
            (
                rail.id.clone(),
                if free.is_finite() { free as u32 } else { 0 },
            )
        })
        .collect()
}

/// Says which walls carry entries in no rows.
pub(super) fn name_free_walls(arrangement: &mut Arrangement, decided: &Decided) {
    let walls = Face::WALLS
        .into_iter()
        .filter(|wall| decided.free.iter().any(|entry| entry.wall == *wall))
        .map(Face::name)
        .collect_vec();
    if let Some((last, first)) = walls.split_last() {
        let words = if first.is_empty() {
            format!("{last} wall")
        } else {
            format!("{} and {last} walls", first.join(", "))
        };
        arrangement.remarks.push(format!(
            "the entries in the {words} are placed freely, in no rows: drill by coordinates"
        ));
    }
}

/// Mass and price of everything, and the remarks that follow from them.
pub(super) fn sum_up(arrangement: &mut Arrangement, workshop: &Workshop) {
    let mut items: Vec<(f64, f64)> =
        vec![(arrangement.enclosure.mass_kg, arrangement.enclosure.price)];
    items.extend(
        arrangement
            .rails
            .iter()
            .map(|part| (part.mass_kg, part.price)),
    );
    items.extend(
        arrangement
            .terminals
            .iter()
            .map(|part| (part.mass_kg, part.price)),
    );
    items.extend(
        arrangement
            .accessories
            .iter()
            .map(|part| (part.mass_kg, part.price)),
    );
    items.extend(
        arrangement
            .jumpers
            .iter()
            .map(|part| (part.mass_kg, part.price)),
    );
    for entry in &arrangement.entries {
        items.push((entry.part.mass_kg, entry.part.price));
        items.extend(
            entry
                .earth_plate
                .iter()
                .map(|part| (part.mass_kg, part.price)),
        );
    }
    for element in &arrangement.elements {
        items.push((element.mass_kg, element.price));
        items.extend(
            element
                .contacts
                .iter()
                .map(|part| (part.mass_kg, part.price)),
        );
    }
    let sum = |pick: fn(&(f64, f64)) -> f64| items.iter().map(pick).sum::<f64>();
    arrangement.mass_kg = (sum(|item| item.0) * 1000.0).round() / 1000.0;
    arrangement.price = (sum(|item| item.1) * 100.0).round() / 100.0;
    if arrangement.mass_kg > workshop.distances.lifting_kg {
        arrangement.remarks.push(format!(
            "mass {:.1} kg: two lifting points are asked for above {} kg",
            arrangement.mass_kg, workshop.distances.lifting_kg
        ));
    }
}

/// Copies the lead times that the catalogue gives for what is in the enclosure.
pub(super) fn lead_times(arrangement: &mut Arrangement, catalogue: &Catalogue) {
    let mut ids: Vec<&String> = Vec::new();
    ids.extend(arrangement.rails.iter().map(|part| &part.part));
    ids.extend(arrangement.terminals.iter().map(|part| &part.part));
    ids.extend(arrangement.accessories.iter().map(|part| &part.part));
    ids.extend(arrangement.jumpers.iter().map(|part| &part.part));
    for entry in &arrangement.entries {
        ids.push(&entry.part.id);
        ids.extend(entry.earth_plate.iter().map(|plate| &plate.id));
    }
    for element in &arrangement.elements {
        ids.push(&element.part);
        ids.extend(
            element
                .contacts
                .iter()
                .filter_map(|contact| contact.part.as_ref()),
        );
    }
    let known = |id: &String| Some((id.clone(), catalogue.part(id)?.lead_time_days()?));
    arrangement.lead_times_days = ids.into_iter().unique().filter_map(known).collect();
}
