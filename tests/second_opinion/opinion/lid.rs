//! Elements in rows on the lid: every assignment of elements to rows is tried.

use super::mounted::{Mounted, SAME_MM};
use glandrail::catalogue::ElementKind;
use glandrail::demand::{Demand, ElementNeed};
use glandrail::requirements::RequirementList;
use glandrail::space::{Face, Rect};
use glandrail::workshop::Workshop;
use itertools::Itertools;
use std::collections::BTreeSet;

/// Where the rectangles of elements may lie, for a set of walls that carry entries.
pub fn room(
    demand: &Demand<'_>,
    workshop: &Workshop,
    candidate: &Mounted<'_>,
    set: &BTreeSet<Face>,
) -> Rect {
    let edge_mm = workshop.elements.edge_mm;
    let [outer_width, outer_height, _] = candidate.outer_mm;
    let [width, height, _] = candidate.inner_mm;
    let (beside, above) = ((outer_width - width) / 2.0, (outer_height - height) / 2.0);
    let from = |wall: Face, over_mm: f64| {
        let reach_mm = if set.contains(&wall) {
            super::entries::deepest_reach_mm(demand, wall)
        } else {
            0.0
        };
        reach_mm.max(edge_mm - over_mm)
    };
    let inside = Rect::new(0.0, 0.0, width, height).shrunk(
        from(Face::Left, beside),
        from(Face::Right, beside),
        from(Face::Bottom, above),
        from(Face::Top, above),
    );
    candidate.lid.common(&inside)
}

/// The least height of rows of all elements within a width; `None` where no rows keep the rules.
pub fn least_height_mm(
    list: &RequirementList,
    demand: &Demand<'_>,
    workshop: &Workshop,
    width_mm: f64,
) -> Option<f64> {
    let elements = &demand.elements;
    let rows = 0..elements.len();
    (0..elements.len())
        .map(|_| rows.clone())
        .multi_cartesian_product()
        .filter(|row_of| no_row_is_empty(row_of) && order_holds(list, elements, row_of))
        .filter_map(|row_of| height_mm(elements, workshop, &row_of, width_mm))
        .min_by(f64::total_cmp)
}

fn no_row_is_empty(row_of: &[usize]) -> bool {
    let highest = row_of.iter().max().copied().unwrap_or(0);
    (0..highest).all(|row| row_of.contains(&row))
}

/// Rows count from the top.
fn order_holds(list: &RequirementList, elements: &[ElementNeed<'_>], row_of: &[usize]) -> bool {
    let row_by_index = |index: usize| {
        elements
            .iter()
            .position(|element| element.index == index)
            .map(|position| row_of[position])
    };
    for (position, element) in elements.iter().enumerate() {
        let placing = &list.elements[element.index].placing;
        let row = Some(row_of[position]);
        if let Some(lower) = placing.above
            && row >= row_by_index(lower)
        {
            return false;
        }
        if let Some(neighbour) = placing.beside
            && row != row_by_index(neighbour)
        {
            return false;
        }
    }
    for [(a, first), (b, second)] in elements.iter().enumerate().array_combinations() {
        let (one, other) = (&list.elements[first.index], &list.elements[second.index]);
        let rows = row_of[a].cmp(&row_of[b]);
        if let (Some(row_a), Some(row_b)) = (one.placing.row, other.placing.row)
            && rows != row_a.cmp(&row_b)
        {
            return false;
        }
        // An element with a row number stands outside the usual order.
        if one.placing.row.is_some() || other.placing.row.is_some() {
            continue;
        }
        let named = |placing: &glandrail::requirements::Placing, index: usize| {
            placing.above == Some(index) || placing.beside == Some(index)
        };
        if named(&one.placing, second.index) || named(&other.placing, first.index) {
            continue;
        }
        // The usual order: no kind below one that comes after it, start not below stop.
        let ranks = (rank(one.kind), rank(other.kind));
        if (ranks.0 < ranks.1 && rows.is_gt()) || (ranks.0 > ranks.1 && rows.is_lt()) {
            return false;
        }
        match (one.function.as_str(), other.function.as_str()) {
            ("start", "stop") if rows.is_gt() => return false,
            ("stop", "start") if rows.is_lt() => return false,
            _ => {}
        }
    }
    true
}

fn rank(kind: ElementKind) -> u8 {
    match kind {
        ElementKind::Ammeter | ElementKind::Voltmeter => 0,
        ElementKind::Lamp => 1,
        ElementKind::EmergencyStop => 3,
        _ => 2,
    }
}

/// The height of the rows, if each of them fits the width.
fn height_mm(
    elements: &[ElementNeed<'_>],
    workshop: &Workshop,
    row_of: &[usize],
    width_mm: f64,
) -> Option<f64> {
    let least_gap_mm = least_gap_mm(elements, workshop);
    let stop_gap_mm = least_gap_mm.max(workshop.elements.emergency_stop_free_mm);
    let gap_mm = |stop: bool| if stop { stop_gap_mm } else { least_gap_mm };
    let mut total_mm = 0.0;
    let mut stop_above = None;
    for row in 0..elements.len() {
        let members = elements
            .iter()
            .zip(row_of)
            .filter(|(_, on)| **on == row)
            .map(|(element, _)| element)
            .collect_vec();
        if members.is_empty() {
            break;
        }
        // Emergency stops are the rightmost of their row: each has a gap on its left, but for a first.
        let stops = members.iter().filter(|element| is_stop(element)).count();
        let gaps = members.len() - 1;
        let at_stops = stops.min(gaps);
        let row_width_mm: f64 = members
            .iter()
            .map(|element| element.part.footprint_mm[0].max(element.part.body_mm[0]))
            .sum::<f64>()
            + (gaps - at_stops) as f64 * gap_mm(false)
            + at_stops as f64 * gap_mm(true);
        if row_width_mm > width_mm + SAME_MM {
            return None;
        }
        if let Some(stop_above) = stop_above {
            total_mm += gap_mm(stop_above || stops > 0);
        }
        total_mm += members
            .iter()
            .map(|element| element.part.footprint_mm[1].max(element.part.body_mm[1]))
            .fold(0.0, f64::max);
        stop_above = Some(stops > 0);
    }
    Some(total_mm)
}

/// The distance that all elements keep: the separation where both kinds of circuit are on the lid.
fn least_gap_mm(elements: &[ElementNeed<'_>], workshop: &Workshop) -> f64 {
    let kinds = elements.iter().filter_map(|element| element.kind);
    if kinds.unique().count() > 1 {
        workshop
            .elements
            .gap_mm
            .max(workshop.distances.intrinsic_separation_mm)
    } else {
        workshop.elements.gap_mm
    }
}

fn is_stop(element: &ElementNeed<'_>) -> bool {
    element.part.kind == ElementKind::EmergencyStop
}
