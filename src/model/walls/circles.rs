//! Rows of bare circles in one rectangle: the question about one wall, without box or list.

use super::{EntryArea, EntryClass, EntryProblem, EntryRefusal, EntryRow, decide, pieces, spread};
use crate::model::milp::Effort;
use crate::space::{Face, Rect};
use crate::standards::threads::Thread;
use itertools::Itertools;
use std::collections::BTreeMap;

/// Whether circles of the given diameters find room in rows inside one rectangle, and where: their
/// centres in the order given. Rows and neighbours keep the gaps; circles may touch the rectangle's
/// sides, and what is blocked. `Ok(None)` is a proof that no division into rows takes them.
///
/// # Errors
/// Says why it is neither found nor disproved.
pub fn circles_in_rows(
    width_mm: f64,
    height_mm: f64,
    diameters_mm: &[f64],
    gap_mm: f64,
    row_gap_mm: f64,
    blocked: &[Rect],
    limit_s: f64,
) -> Result<Option<Vec<(f64, f64)>>, String> {
    let mut classes: Vec<EntryClass> = Vec::new();
    for (index, diameter_mm) in diameters_mm.iter().enumerate() {
        match classes
            .iter_mut()
            .find(|class| class.envelope_mm == *diameter_mm)
        {
            Some(class) => class.members.push(index),
            None => classes.push(EntryClass {
                envelope_mm: *diameter_mm,
                thread: Thread::M16,
                walls: vec![Face::Bottom],
                members: vec![index],
            }),
        }
    }
    let rect = Rect::new(0.0, 0.0, width_mm, height_mm);
    let area = |(index, rect): (usize, Rect)| EntryArea {
        wall: Face::Bottom,
        index,
        rect,
        largest_thread: Thread::M16,
    };
    let pieces = pieces::free_of(rect, blocked, gap_mm, row_gap_mm);
    let problem = EntryProblem {
        classes,
        areas: pieces.into_iter().enumerate().map(area).collect(),
        whole: vec![area((0, rect))],
        blocked: BTreeMap::new(),
        gap_mm,
        row_gap_mm,
        certified: BTreeMap::new(),
    };
    match decide(&problem, Effort::of_seconds(limit_s)) {
        Err(EntryRefusal::Undecided(why)) => Err(why),
        Ok(rows) => {
            let mut centres = vec![(0.0, 0.0); diameters_mm.len()];
            for (_, rows) in &rows.iter().chunk_by(|row| row.area_index) {
                let rows: Vec<&EntryRow> = rows.collect();
                let area = rows[0].area;
                let diameters = |row: &EntryRow| {
                    row.entries
                        .iter()
                        .map(|entry| diameters_mm[*entry])
                        .collect_vec()
                };
                let heights = rows
                    .iter()
                    .map(|row| diameters(row).into_iter().fold(0.0, f64::max))
                    .collect_vec();
                let across = spread(area.v_mm, area.height_mm, &heights, row_gap_mm);
                for (row, v_mm) in rows.iter().zip(across) {
                    let along = spread(area.u_mm, area.width_mm, &diameters(row), gap_mm);
                    for (entry, u_mm) in row.entries.iter().zip(along) {
                        centres[*entry] = (u_mm, v_mm);
                    }
                }
            }
            Ok(Some(centres))
        }
        _ => Ok(None),
    }
}
