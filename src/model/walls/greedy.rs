//! A quick way to rows: largest envelope first, into the first row that takes it, opening rows on the
//! preferred walls first. What it finds is right; what it does not find may still exist.

use super::{EntryArea, EntryClass, EntryProblem, EntryRow, Taken};

struct OpenRow {
    height_mm: f64,
    length_mm: f64,
    entries: Vec<usize>,
}

/// Places all entries, or gives up.
pub(super) fn place(problem: &EntryProblem) -> Option<Vec<EntryRow>> {
    let mut order = problem.fewest_choices_first();
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
    let mut taken = Taken::new();
    for (class, entry) in order {
        let area = class.walls.iter().find_map(|wall| {
            if problem.is_full(&taken, *wall, class.thread) {
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
        *taken.entry((area.wall, class.thread)).or_insert(0) += 1;
    }
    let mut placed = Vec::new();
    for (area, rows) in problem.areas.iter().zip(rows) {
        placed.extend(rows.into_iter().map(|row| area.row(row.entries)));
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
