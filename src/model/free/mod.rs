//! Entries anywhere on their walls, in no rows: which area, and where in it.
//!
//! The areas are those of the rows: shrunk to where envelopes may lie with the deepest reach into the
//! box. Where one area is all there is, its bounds are a proof; entries are divided among several by
//! filling them in order, so that nothing is proved there but by the sum of the areas.

mod asked;

pub(super) use asked::Asked;

use super::walls::{EntryArea, EntryProblem, Taken};
use crate::packing::{Blocked, Circles, Placing, gap_between_mm, least_area_mm2};
use crate::space::{Face, Rect};
use crate::standards::threads::Thread;
use std::collections::BTreeMap;

/// How entries may be placed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Placement {
    /// In rows only: quick to drill.
    Rows,
    /// Anywhere on their walls.
    Free,
    /// In rows where rows suffice for an enclosure, anywhere where they do not.
    #[default]
    Best,
}

/// An entry placed by itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FreeEntry {
    /// Wall.
    pub wall: Face,
    /// Index of the entry in the demand.
    pub entry: usize,
    /// Centre on the wall, u.
    pub u_mm: f64,
    /// Centre on the wall, v.
    pub v_mm: f64,
}

/// What came of placing entries without rows.
#[derive(Debug, Clone, PartialEq)]
pub enum FreeOutcome {
    /// Placed.
    Placed(Vec<FreeEntry>),
    /// Proved impossible.
    Impossible,
    /// Neither found nor disproved.
    Open,
}

/// How full areas are filled at most when entries are divided among them, as shares of the area with
/// its gaps; the first division that can be placed is taken.
const FILLS: [f64; 6] = [0.84, 0.78, 0.72, 0.66, 0.6, 0.5];

/// Places all entries of a problem.
pub(super) fn place(problem: &EntryProblem, asked: &Asked) -> FreeOutcome {
    let areas: Vec<&EntryArea> = problem
        .whole
        .iter()
        .filter(|area| {
            problem
                .classes
                .iter()
                .any(|class| problem.allows(class, area))
        })
        .collect();
    if problem
        .classes
        .iter()
        .any(|class| !areas.iter().any(|area| problem.allows(class, area)))
    {
        return FreeOutcome::Impossible;
    }
    match areas.as_slice() {
        [] => FreeOutcome::Placed(Vec::new()),
        [area] => in_one(problem, area, asked),
        _ => in_several(problem, &areas, asked),
    }
}

/// All entries in one area: what the bounds disprove is disproved.
fn in_one(problem: &EntryProblem, area: &EntryArea, asked: &Asked) -> FreeOutcome {
    let mut counts: BTreeMap<Thread, u32> = BTreeMap::new();
    for class in &problem.classes {
        *counts.entry(class.thread).or_insert(0) += class.members.len() as u32;
    }
    if let Some(certified) = problem.certified.get(&area.wall)
        && counts
            .iter()
            .any(|(thread, count)| certified.get(thread).is_none_or(|most| count > most))
    {
        return FreeOutcome::Impossible;
    }
    let members: Vec<(usize, f64)> = problem
        .classes
        .iter()
        .flat_map(|class| {
            class
                .members
                .iter()
                .map(move |member| (*member, class.envelope_mm))
        })
        .collect();
    match filled(problem, area, &members, asked) {
        Ok(placed) => FreeOutcome::Placed(placed),
        Err(true) => FreeOutcome::Impossible,
        Err(false) => FreeOutcome::Open,
    }
}

/// Places entries in an area; the error says whether that is proved impossible.
fn filled(
    problem: &EntryProblem,
    area: &EntryArea,
    members: &[(usize, f64)],
    asked: &Asked,
) -> Result<Vec<FreeEntry>, bool> {
    let rect = on_twentieths(&area.rect);
    let question = Circles {
        width_mm: rect.width_mm,
        height_mm: rect.height_mm,
        diameters_mm: members
            .iter()
            .map(|(_, envelope_mm)| *envelope_mm)
            .collect(),
        gap_mm: problem.gap_mm,
        row_gap_mm: row_gap_mm(problem),
        blocked: blocked_in(problem, area.wall, &rect),
    };
    match asked.place(&question) {
        Placing::Placed(centres) => Ok(members
            .iter()
            .zip(centres)
            .map(|((entry, _), [u, v])| FreeEntry {
                wall: area.wall,
                entry: *entry,
                u_mm: rect.u_mm + u,
                v_mm: rect.v_mm + v,
            })
            .collect()),
        // The bounds are asked about the area as it is, not about what is left of it on the grid.
        Placing::Impossible(_) => Err(Circles {
            width_mm: area.rect.width_mm,
            height_mm: area.rect.height_mm,
            blocked: blocked_in(problem, area.wall, &area.rect),
            ..question
        }
        .disproved()
        .is_some()),
        Placing::Open => Err(false),
    }
}

/// What of a rectangle on a wall is blocked, from its lower left corner.
fn blocked_in(problem: &EntryProblem, wall: Face, rect: &Rect) -> Vec<Blocked> {
    let parts = problem.blocked.get(&wall).into_iter().flatten();
    parts
        .filter(|part| {
            let common = rect.common(part);
            common.width_mm > 0.0 && common.height_mm > 0.0
        })
        .map(|part| Blocked {
            from_mm: [part.u_mm - rect.u_mm, part.v_mm - rect.v_mm],
            to_mm: [part.right_mm() - rect.u_mm, part.top_mm() - rect.v_mm],
        })
        .collect()
}

/// Nothing lets entries above one another stand nearer than side by side.
fn row_gap_mm(problem: &EntryProblem) -> f64 {
    problem.row_gap_mm.max(problem.gap_mm)
}

/// The part of an area whose sides lie on twentieths of a millimetre, as halves of envelopes do.
fn on_twentieths(rect: &Rect) -> Rect {
    let up = |at_mm: f64| (at_mm * 20.0 - 1e-6).ceil() / 20.0;
    let down = |at_mm: f64| (at_mm * 20.0 + 1e-6).floor() / 20.0;
    let (u_mm, v_mm) = (up(rect.u_mm), up(rect.v_mm));
    Rect::new(
        u_mm,
        v_mm,
        down(rect.right_mm()) - u_mm,
        down(rect.top_mm()) - v_mm,
    )
}

/// Divides the entries among areas, fuller ones first, and places each area's.
fn in_several(problem: &EntryProblem, areas: &[&EntryArea], asked: &Asked) -> FreeOutcome {
    let gap_mm = problem.gap_mm;
    let envelopes: Vec<f64> = problem
        .classes
        .iter()
        .flat_map(|class| class.members.iter().map(|_| class.envelope_mm))
        .collect();
    let available_mm2: f64 = areas.iter().map(|area| enlarged_mm2(area, gap_mm)).sum();
    if least_area_mm2(&envelopes, gap_mm) > available_mm2 * (1.0 + 1e-12) {
        return FreeOutcome::Impossible;
    }
    let mut tried: Vec<Vec<Vec<(usize, f64)>>> = Vec::new();
    for fill in FILLS {
        let Some(division) = divided(problem, areas, fill, gap_mm) else {
            continue;
        };
        if tried.contains(&division) {
            continue;
        }
        let placed: Result<Vec<Vec<FreeEntry>>, bool> = areas
            .iter()
            .zip(&division)
            .map(|(area, members)| filled(problem, area, members, asked))
            .collect();
        if let Ok(placed) = placed {
            let placed: Vec<FreeEntry> = placed.into_iter().flatten().collect();
            if apart(problem, &placed) {
                return FreeOutcome::Placed(placed);
            }
        }
        tried.push(division);
    }
    FreeOutcome::Open
}

fn enlarged_mm2(area: &EntryArea, gap_mm: f64) -> f64 {
    (area.rect.width_mm + gap_mm) * (area.rect.height_mm + gap_mm)
}

/// Entries of each area: the largest first, into the first area on the preferred walls that is not yet
/// filled, otherwise into the emptiest. `None` where certified numbers leave no area.
fn divided(
    problem: &EntryProblem,
    areas: &[&EntryArea],
    fill: f64,
    gap_mm: f64,
) -> Option<Vec<Vec<(usize, f64)>>> {
    let mut members: Vec<Vec<(usize, f64)>> = vec![Vec::new(); areas.len()];
    let mut taken: Vec<f64> = vec![0.0; areas.len()];
    let mut counts = Taken::new();
    for (class, entry) in problem.fewest_choices_first() {
        let own_mm2 = (class.envelope_mm + gap_mm).powi(2) * std::f64::consts::FRAC_PI_4;
        let after = |index: usize| (taken[index] + own_mm2) / enlarged_mm2(areas[index], gap_mm);
        let open: Vec<usize> = class
            .walls
            .iter()
            .filter(|wall| !problem.is_full(&counts, **wall, class.thread))
            .flat_map(|wall| {
                (0..areas.len()).filter(|index| {
                    areas[*index].wall == *wall && problem.allows(class, areas[*index])
                })
            })
            .collect();
        let index = open
            .iter()
            .copied()
            .find(|index| after(*index) <= fill)
            .or_else(|| {
                open.iter()
                    .copied()
                    .min_by(|a, b| after(*a).total_cmp(&after(*b)))
            })?;
        taken[index] += own_mm2;
        members[index].push((entry, class.envelope_mm));
        *counts.entry((areas[index].wall, class.thread)).or_insert(0) += 1;
    }
    Some(members)
}

/// Whether entries of different areas of one wall keep the gap as well.
fn apart(problem: &EntryProblem, placed: &[FreeEntry]) -> bool {
    let envelope_mm = |entry: usize| {
        problem
            .classes
            .iter()
            .find(|class| class.members.contains(&entry))
            .map_or(0.0, |class| class.envelope_mm)
    };
    placed.iter().enumerate().all(|(index, a)| {
        placed[..index]
            .iter()
            .filter(|b| b.wall == a.wall)
            .all(|b| {
                let (du_mm, dv_mm) = (a.u_mm - b.u_mm, a.v_mm - b.v_mm);
                let halves_mm = (envelope_mm(a.entry) + envelope_mm(b.entry)) / 2.0;
                let gap_mm = gap_between_mm(problem.gap_mm, row_gap_mm(problem), du_mm, dv_mm);
                du_mm.hypot(dv_mm) >= halves_mm + gap_mm - 1e-9
            })
    })
}
