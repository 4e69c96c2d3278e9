//! From what was decided to positions in millimetres: the arrangement.

mod above;
mod crossings;
mod designations;
mod earthing;
mod elements;
mod entries;
mod exchange;
mod laid;
mod orders;
#[cfg(test)]
mod prepared;
mod rails;
mod ranges;
mod records;
mod wires;

use super::heat::{permitted_row, rated_heat};
use super::search::Found;
use crate::arrangement::{Arrangement, CAUTION, FORMAT, LayoutRecord, PlacedElement, SpareRecord};
use crate::catalogue::Catalogue;
use crate::demand::Demand;
use crate::marking;
use crate::requirements::RequirementList;
use crate::space::Block;
use crate::workshop::Workshop;
use std::collections::BTreeMap;

/// Places everything.
///
/// # Errors
/// A contradiction inside the program: what was decided cannot be placed. Always a fault of ours.
pub fn arrange(
    list: &RequirementList,
    demand: &Demand<'_>,
    catalogue: &Catalogue,
    workshop: &Workshop,
    found: &Found,
) -> Result<Arrangement, String> {
    let limits = workshop.limits();
    let elements = elements::place(list, demand, &found.mounted, workshop, &found.decided);
    let laid = laid::shortest(list, demand, found, &limits, &elements)?;
    connected(list, demand, catalogue, workshop, found, elements, laid)
}

/// Everything as it is laid, with its conductors, heat and sums.
fn connected(
    list: &RequirementList,
    demand: &Demand<'_>,
    catalogue: &Catalogue,
    workshop: &Workshop,
    found: &Found,
    mut elements: Vec<PlacedElement>,
    laid: laid::Laid,
) -> Result<Arrangement, String> {
    let mounted = &found.mounted;
    let limits = workshop.limits();
    let rails = laid.on_rails;
    let mut terminals = rails.terminals;
    let entries = entries::place(list, demand, mounted, &limits, &laid.rows, &laid.free)?;
    let wires = wires::connect(
        list,
        demand,
        mounted,
        &mut terminals,
        &rails.terminal_index,
        &entries,
        &mut elements,
    );
    let row = permitted_row(&list.area, mounted)
        .ok_or("the chosen enclosure has no permitted row of power")?;
    let mut heat = rated_heat(
        &found.terms,
        row,
        mounted.interior.diagonal_mm(),
        list.spare.heat_percent,
    );
    let of_catalogue = catalogue.enclosure.iter();
    heat.defined_arrangement_decides = of_catalogue
        .filter(|enclosure| enclosure.id == mounted.id)
        .any(|enclosure| enclosure.defined_arrangement_decides);
    let mut remarks = earthing::remarks(list, demand, mounted);
    remarks.extend(above::remarks(
        list,
        demand,
        workshop,
        &found.decided,
        &elements,
    ));
    remarks.extend(ranges::remarks(list, &elements));
    let free_terminals = records::free_terminals(&rails.rails, &terminals, &rails.accessories);
    let mut arrangement = Arrangement {
        format: FORMAT.to_string(),
        caution: CAUTION.to_string(),
        catalogue_warning: catalogue.about.warning.clone(),
        catalogue: catalogue.name(),
        currency: catalogue.about.currency.clone(),
        job: list.job.clone(),
        area: records::area(list),
        enclosure: mounted.clone(),
        limits: workshop.limits(),
        strips: records::strips(demand),
        jumpers: records::jumpers(demand, &rails.terminal_index, &terminals),
        cables: records::cables(list, &entries),
        circuits: records::circuits(list),
        rails: rails.rails,
        terminals,
        accessories: rails.accessories,
        entries,
        elements,
        wires,
        spare: SpareRecord {
            terminals_percent: list.spare.terminals_percent,
            entries: list.spare.entries.clone(),
            heat_percent: list.spare.heat_percent,
            free_terminals,
        },
        heat,
        notices: Vec::new(),
        mass_kg: 0.0,
        price: 0.0,
        lead_times_days: BTreeMap::new(),
        estimates: demand.estimates.clone(),
        remarks,
        layout: None,
        proof: None,
    };
    let along_routes = arrangement.wires.iter().map(|wire| wire.route_mm);
    // A station that is wired elsewhere has no conductors to measure.
    arrangement.layout = (!arrangement.wires.is_empty()).then(|| LayoutRecord {
        conductors_mm: clean(along_routes.sum()),
        conductors_at_least_mm: laid.measured.least_mm.map(clean),
        crossings: laid.measured.crossings,
    });
    records::name_free_walls(&mut arrangement, &found.decided);
    records::sum_up(&mut arrangement, workshop);
    records::lead_times(&mut arrangement, catalogue);
    designations::designate(&mut arrangement);
    arrangement.notices = marking::notices(&arrangement);
    Ok(arrangement)
}

/// Takes binary noise off a length: ten-thousandths of a millimetre are kept.
fn clean(length_mm: f64) -> f64 {
    let rounded = (length_mm * 1e4).round() / 1e4;
    // No negative zero in files.
    if rounded == 0.0 { 0.0 } else { rounded }
}

/// Takes binary noise off a block.
fn clean_block(block: Block) -> Block {
    let mut cleaned = block;
    for point in [&mut cleaned.min, &mut cleaned.max] {
        point.x_mm = clean(point.x_mm);
        point.y_mm = clean(point.y_mm);
        point.z_mm = clean(point.z_mm);
    }
    cleaned
}

/// Terminals by their index in the demand: position in the arrangement's list.
type TerminalIndex = BTreeMap<usize, usize>;
