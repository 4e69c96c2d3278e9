//! A quick way to rows: largest envelope first, into the first row that takes it, opening rows on the
//! preferred walls first. What it finds is right; what it does not find may still exist.

use super::{EntryArea, EntryClass, EntryProblem, EntryRow};
use crate::space::Face;
use crate::standards::threads::Thread;
use std::collections::BTreeMap;

struct OpenRow {
    height_mm: f64,
    length_mm: f64,
    entries: Vec<usize>,
}

/// Places all entries, or gives up.
pub(super) fn place(problem: &EntryProblem) -> Option<Vec<EntryRow>> {
    let mut order: Vec<(&EntryClass, usize)> = problem
        .classes
        .iter()
        .flat_map(|class| class.members.iter().map(move |member| (class, *member)))
        .collect();
    // Entries with the fewest choices first, then the largest.
    order.sort_by(|a, b| {
        a.0.walls
            .len()
            .cmp(&b.0.walls.len())
            .then(b.0.envelope_mm.total_cmp(&a.0.envelope_mm))
            .then(a.1.cmp(&b.1))
    });
    let by_size = try_order(problem, &order);
    if by_size.is_some() {
        return by_size;
    }
    order.sort_by(|a, b| {
        b.0.envelope_mm
            .total_cmp(&a.0.envelope_mm)
            .then(a.1.cmp(&b.1))
    });
    try_order(problem, &order)
}

fn try_order(problem: &EntryProblem, order: &[(&EntryClass, usize)]) -> Option<Vec<EntryRow>> {
    let mut rows: Vec<Vec<OpenRow>> = problem.areas.iter().map(|_| Vec::new()).collect();
    let mut counts: BTreeMap<(Face, Thread), u32> = BTreeMap::new();
    for (class, entry) in order {
        let area = class.walls.iter().find_map(|wall| {
            let full = problem
                .certified
                .get(wall)
                .and_then(|threads| threads.get(&class.thread))
                .is_some_and(|most| {
                    counts.get(&(*wall, class.thread)).copied().unwrap_or(0) >= *most
                });
            if full {
                return None;
            }
            problem
                .areas
                .iter()
                .enumerate()
                .filter(|(_, area)| area.wall == *wall && problem.allows(class, area))
                .find(|(index, area)| {
                    insert(problem, area, &mut rows[*index], class.envelope_mm, *entry)
                })
                .map(|(_, area)| area)
        })?;
        *counts.entry((area.wall, class.thread)).or_insert(0) += 1;
    }
    let mut placed = Vec::new();
    for (area, rows) in problem.areas.iter().zip(rows) {
        for row in rows {
            let mut entries = row.entries;
            entries.sort_unstable();
            placed.push(EntryRow {
                wall: area.wall,
                area: area.rect,
                area_index: area.index,
                entries,
            });
        }
    }
    Some(placed)
}

/// Puts an entry into the first row of an area that takes it, or into a new one.
fn insert(
    problem: &EntryProblem,
    area: &EntryArea,
    rows: &mut Vec<OpenRow>,
    envelope_mm: f64,
    entry: usize,
) -> bool {
    for row in rows.iter_mut() {
        let length_mm = row.length_mm + problem.gap_mm + envelope_mm;
        if envelope_mm <= row.height_mm && length_mm <= area.rect.width_mm + 1e-9 {
            row.length_mm = length_mm;
            row.entries.push(entry);
            return true;
        }
    }
    let taken_mm: f64 = rows
        .iter()
        .map(|row| row.height_mm + problem.row_gap_mm)
        .sum();
    if taken_mm + envelope_mm <= area.rect.height_mm + 1e-9 && envelope_mm <= area.rect.width_mm {
        rows.push(OpenRow {
            height_mm: envelope_mm,
            length_mm: envelope_mm,
            entries: vec![entry],
        });
        return true;
    }
    false
}
