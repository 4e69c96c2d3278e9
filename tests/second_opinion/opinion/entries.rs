//! Entries in rows: every division of the entries over the drillable areas is tried.

use super::mounted::{Mounted, SAME_MM};
use glandrail::catalogue::Most;
use glandrail::demand::Demand;
use glandrail::space::Face;
use glandrail::standards::threads::Thread;
use glandrail::workshop::Workshop;
use std::collections::{BTreeMap, BTreeSet};

/// A drillable area after it has been cut to where envelopes may lie.
struct Area<'c> {
    wall: Face,
    width_mm: f64,
    height_mm: f64,
    largest: Thread,
    certified: Option<&'c Most<BTreeMap<Thread, u32>>>,
}

/// The deepest reach into the box of any entry that may be in a wall.
pub fn deepest_reach_mm(demand: &Demand<'_>, wall: Face) -> f64 {
    demand
        .entries
        .iter()
        .filter(|entry| entry.walls.contains(&wall))
        .map(|entry| entry.reach_in_mm)
        .fold(0.0, f64::max)
}

/// Whether all entries find room in the walls of the set.
pub fn fit(
    demand: &Demand<'_>,
    workshop: &Workshop,
    candidate: &Mounted<'_>,
    set: &BTreeSet<Face>,
) -> bool {
    let areas: Vec<Area<'_>> = set
        .iter()
        .flat_map(|wall| areas_of(demand, workshop, candidate, set, *wall))
        .collect();
    let mut held: Vec<Vec<usize>> = vec![Vec::new(); areas.len()];
    divide(demand, workshop, &areas, &mut held, 0)
}

fn areas_of<'c>(
    demand: &Demand<'_>,
    workshop: &Workshop,
    candidate: &Mounted<'c>,
    set: &BTreeSet<Face>,
    wall: Face,
) -> Vec<Area<'c>> {
    let Some(data) = candidate.walls.get(&wall).copied() else {
        return Vec::new();
    };
    let corner_mm = workshop.entries.corner_mm;
    let [width, height, depth] = candidate.inner_mm;
    // u runs round the box: each wall begins where the one before it ends.
    let (length_mm, before, after) = match wall {
        Face::Bottom => (width, Face::Left, Face::Right),
        Face::Right => (height, Face::Bottom, Face::Top),
        Face::Top => (width, Face::Right, Face::Left),
        _ => (height, Face::Top, Face::Bottom),
    };
    let from_corner = |neighbour: Face| {
        if set.contains(&neighbour) {
            corner_mm.max(deepest_reach_mm(demand, neighbour))
        } else {
            corner_mm
        }
    };
    let plate = &candidate.plate;
    let to_plate_mm = match wall {
        Face::Bottom => plate.v_mm,
        Face::Right => width - plate.right_mm(),
        Face::Top => height - plate.top_mm(),
        _ => plate.u_mm,
    };
    let from_back_mm = if to_plate_mm < deepest_reach_mm(demand, wall) - SAME_MM {
        corner_mm.max(candidate.enclosure.plate.standoff_mm)
    } else {
        corner_mm
    };
    data.areas_mm
        .iter()
        .map(|[u, v, area_width, area_height]| {
            let left = u.max(from_corner(before));
            let right = (u + area_width).min(length_mm - from_corner(after));
            let back = v.max(from_back_mm);
            let front = (v + area_height).min(depth - corner_mm);
            Area {
                wall,
                width_mm: right - left,
                height_mm: front - back,
                largest: data.largest_thread,
                certified: data.most_entries.as_ref(),
            }
        })
        .collect()
}

/// Puts entry `next` and all after it into the areas, every way there is.
fn divide(
    demand: &Demand<'_>,
    workshop: &Workshop,
    areas: &[Area<'_>],
    held: &mut Vec<Vec<usize>>,
    next: usize,
) -> bool {
    let Some(entry) = demand.entries.get(next) else {
        return true;
    };
    for index in 0..areas.len() {
        if !entry.walls.contains(&areas[index].wall) {
            continue;
        }
        held[index].push(next);
        // An area that does not take some entries does not take more.
        let goes = threads_allowed(demand, areas, held, areas[index].wall)
            && rows_fit(demand, workshop, &areas[index], &held[index])
            && divide(demand, workshop, areas, held, next + 1);
        held[index].pop();
        if goes {
            return true;
        }
    }
    false
}

/// Largest thread and certified numbers of a wall, counted over all of its areas.
fn threads_allowed(
    demand: &Demand<'_>,
    areas: &[Area<'_>],
    held: &[Vec<usize>],
    wall: Face,
) -> bool {
    let mut numbers: BTreeMap<Thread, u32> = BTreeMap::new();
    let mut rules = None;
    for (area, entries) in areas.iter().zip(held).filter(|(area, _)| area.wall == wall) {
        rules = Some((area.largest, area.certified));
        for entry in entries {
            *numbers.entry(demand.entries[*entry].thread).or_default() += 1;
        }
    }
    let Some((largest, certified)) = rules else {
        return numbers.is_empty();
    };
    numbers.iter().all(|(thread, number)| {
        thread.major_diameter_mm() <= largest.major_diameter_mm()
            && match certified {
                Some(Most::NotLimited) => true,
                Some(Most::Of(most)) => most.get(thread).is_some_and(|most| number <= most),
                None => false,
            }
    })
}

/// Whether some division of the entries into rows fits the area.
fn rows_fit(demand: &Demand<'_>, workshop: &Workshop, area: &Area<'_>, entries: &[usize]) -> bool {
    let rules = &workshop.entries;
    let envelopes: Vec<f64> = entries
        .iter()
        .map(|entry| demand.entries[*entry].envelope_mm)
        .collect();
    super::divisions(envelopes.len()).iter().any(|rows| {
        let height_mm: f64 = rows
            .iter()
            .map(|row| {
                row.iter()
                    .map(|entry| envelopes[*entry])
                    .fold(0.0, f64::max)
            })
            .sum::<f64>()
            + rules.row_gap_mm * (rows.len() as f64 - 1.0);
        let wide_enough = rows.iter().all(|row| {
            let width_mm: f64 = row.iter().map(|entry| envelopes[*entry]).sum::<f64>()
                + rules.gap_mm * (row.len() as f64 - 1.0);
            width_mm <= area.width_mm + SAME_MM
        });
        wide_enough && height_mm <= area.height_mm + SAME_MM
    })
}
