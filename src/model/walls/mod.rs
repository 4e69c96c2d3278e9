//! Entries in rows on the walls: which wall, which area, which row.
//!
//! A row is a line of entries at one height over the back wall; rows lie one above the other inside a
//! drillable area. Rows never overlap, so a division into rows is found or disproved by counting:
//! entries of one envelope, thread and choice of walls are alike.

mod branch;
mod circles;
mod greedy;
mod pieces;
mod program;
mod tables;

pub use circles::circles_in_rows;

use super::free::{self, Asked, FreeOutcome};
use super::milp::{Decision, Effort, Program};
use crate::arrangement::{EnclosureRecord, Limits};
use crate::demand::EntryNeed;
use crate::space::{Face, Rect, down_to_tenth};
use crate::standards::threads::Thread;
use std::collections::BTreeMap;

/// A row of entries.
#[derive(Debug, Clone, PartialEq)]
pub struct EntryRow {
    /// Wall.
    pub wall: Face,
    /// Area, in wall coordinates, already shrunk to where envelopes may lie.
    pub area: Rect,
    /// Index of the area within its wall, or of the piece of one where parts are blocked.
    pub area_index: usize,
    /// Indices of entries, in the order of the list.
    pub entries: Vec<usize>,
}

/// Why the entries are not placed in rows.
#[derive(Debug, Clone, PartialEq)]
pub enum EntryRefusal {
    /// Proved impossible; areas needed and available, mm², and whether these alone prove it.
    Impossible {
        /// Needed.
        needed_mm2: f64,
        /// Available.
        available_mm2: f64,
        /// Whether the areas prove it.
        by_area: bool,
    },
    /// Proved impossible: one entry by itself finds no room on any wall that it may use.
    TooLarge {
        /// Its envelope.
        envelope_mm: f64,
        /// Width and height of the roomiest area that it may use.
        room_mm: [f64; 2],
    },
    /// Neither found nor proved impossible.
    Undecided(String),
}

/// Entries that are alike.
#[derive(Debug, Clone)]
pub(super) struct EntryClass {
    pub envelope_mm: f64,
    pub thread: Thread,
    /// Walls in order of preference.
    pub walls: Vec<Face>,
    /// Indices of the entries.
    pub members: Vec<usize>,
}

/// An area with what limits it.
#[derive(Debug, Clone)]
pub(super) struct EntryArea {
    pub wall: Face,
    pub index: usize,
    pub rect: Rect,
    pub largest_thread: Thread,
}

impl EntryArea {
    /// A row of these entries in the area; they stand in the order of the list.
    pub fn row(&self, mut entries: Vec<usize>) -> EntryRow {
        entries.sort_unstable();
        EntryRow {
            wall: self.wall,
            area: self.rect,
            area_index: self.index,
            entries,
        }
    }
}

/// The problem: classes of entries and areas, gaps, certified numbers.
#[derive(Debug, Clone)]
pub(super) struct EntryProblem {
    pub classes: Vec<EntryClass>,
    /// Where rows may lie: free of what is blocked.
    pub areas: Vec<EntryArea>,
    /// The areas as they are, of which those are pieces.
    pub whole: Vec<EntryArea>,
    /// Parts of the walls that no entry may reach into.
    pub blocked: BTreeMap<Face, Vec<Rect>>,
    pub gap_mm: f64,
    pub row_gap_mm: f64,
    /// Certified number of entries by wall and thread. A wall that is named here takes no other
    /// threads.
    pub certified: BTreeMap<Face, BTreeMap<Thread, u32>>,
}

impl EntryProblem {
    /// Whether a class may use an area.
    pub fn allows(&self, class: &EntryClass, area: &EntryArea) -> bool {
        class.walls.contains(&area.wall)
            && super::screen::thread_fits(class.thread, area.largest_thread)
            && class.envelope_mm <= area.rect.width_mm
            && class.envelope_mm <= area.rect.height_mm
            && self
                .certified
                .get(&area.wall)
                .is_none_or(|threads| threads.contains_key(&class.thread))
    }
}

/// Entries taken so far, by wall and thread.
pub(super) type Taken = BTreeMap<(Face, Thread), u32>;

impl EntryProblem {
    /// Every entry with its class: those with the fewest choices of walls first, then the largest.
    pub fn fewest_choices_first(&self) -> Vec<(&EntryClass, usize)> {
        let mut order: Vec<(&EntryClass, usize)> = self
            .classes
            .iter()
            .flat_map(|class| class.members.iter().map(move |member| (class, *member)))
            .collect();
        order.sort_by(|a, b| {
            a.0.walls
                .len()
                .cmp(&b.0.walls.len())
                .then(b.0.envelope_mm.total_cmp(&a.0.envelope_mm))
                .then(a.1.cmp(&b.1))
        });
        order
    }

    /// Whether the certificate's number of entries of this thread in this wall is reached.
    pub fn is_full(&self, taken: &Taken, wall: Face, thread: Thread) -> bool {
        self.certified
            .get(&wall)
            .and_then(|threads| threads.get(&thread))
            .is_some_and(|most| taken.get(&(wall, thread)).copied().unwrap_or(0) >= *most)
    }
}

/// Places the entries using only the given walls: rows by wall and area, from the back wall towards the lid.
///
/// # Errors
/// Why they are not placed.
pub fn place_entries(
    entries: &[EntryNeed<'_>],
    mounted: &EnclosureRecord,
    limits: &Limits,
    walls: &[Face],
    effort: Effort,
) -> Result<Vec<EntryRow>, EntryRefusal> {
    decide(&problem(entries, mounted, limits, walls), effort)
}

/// The exact program of the entries, for a solver of the user's own.
pub fn entries_program(
    entries: &[EntryNeed<'_>],
    mounted: &EnclosureRecord,
    limits: &Limits,
    walls: &[Face],
) -> Program {
    program::build(&problem(entries, mounted, limits, walls)).0
}

/// Places the entries anywhere on the given walls, in no rows.
pub fn place_entries_freely(
    entries: &[EntryNeed<'_>],
    mounted: &EnclosureRecord,
    limits: &Limits,
    walls: &[Face],
    asked: &Asked,
) -> FreeOutcome {
    free::place(&problem(entries, mounted, limits, walls), asked)
}

/// Whether the entries find room in rows on the given walls. Which wall takes which of them at the least cost,
/// as [`place_entries`] says, is not asked: that takes far longer.
///
/// # Errors
/// What [`place_entries`] would say.
pub fn entries_find_room(
    entries: &[EntryNeed<'_>],
    mounted: &EnclosureRecord,
    limits: &Limits,
    walls: &[Face],
    effort: Effort,
) -> Result<(), EntryRefusal> {
    let problem = problem(entries, mounted, limits, walls);
    within_bounds(&problem)?;
    let found = quickly(&problem)
        .or_else(|| tables::place(&problem))
        .unwrap_or_else(|| by_program(&problem, effort));
    found.map(|_| ()).map_err(|why| why.refusal(&problem))
}

/// Decides a problem: bounds first, then the exact or the quick way.
fn decide(problem: &EntryProblem, effort: Effort) -> Result<Vec<EntryRow>, EntryRefusal> {
    within_bounds(problem)?;
    tables::place(problem)
        .or_else(|| quickly(problem))
        .unwrap_or_else(|| by_program(problem, effort))
        .map_err(|why| why.refusal(problem))
}

/// What a single entry and the areas alone refuse.
fn within_bounds(problem: &EntryProblem) -> Result<(), EntryRefusal> {
    let alone = |class: &&EntryClass| !problem.areas.iter().any(|area| problem.allows(class, area));
    if let Some(class) = problem.classes.iter().find(alone) {
        return Err(EntryRefusal::TooLarge {
            envelope_mm: class.envelope_mm,
            room_mm: roomiest(problem, class),
        });
    }
    let (needed_mm2, available_mm2) = area_bound(problem);
    if needed_mm2 > available_mm2 + 1e-6 {
        return Err(EntryRefusal::Impossible {
            needed_mm2,
            available_mm2,
            by_area: true,
        });
    }
    Ok(())
}

/// Any rows, by the quick way or by the search; `None` where neither decides.
fn quickly(problem: &EntryProblem) -> Option<Result<Vec<EntryRow>, Undivided>> {
    match greedy::place(problem) {
        Some(rows) => Some(Ok(rows)),
        None => branch::place(problem),
    }
}

/// What a solver says.
fn by_program(problem: &EntryProblem, effort: Effort) -> Result<Vec<EntryRow>, Undivided> {
    program::place(problem, effort).map_err(|decision| match decision {
        Decision::Infeasible => Undivided::Impossible,
        Decision::Undecided(why) => Undivided::Undecided(why),
        Decision::Feasible { .. } => {
            Undivided::Undecided("the rows could not be read back".to_string())
        }
    })
}

/// Why an exact way gives no rows.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Undivided {
    /// There are none.
    Impossible,
    /// It stopped before it knew.
    Undecided(String),
}

impl Undivided {
    fn refusal(self, problem: &EntryProblem) -> EntryRefusal {
        match self {
            Undivided::Impossible => {
                let (needed_mm2, available_mm2) = area_bound(problem);
                EntryRefusal::Impossible {
                    needed_mm2,
                    available_mm2,
                    by_area: false,
                }
            }
            Undivided::Undecided(why) => EntryRefusal::Undecided(why),
        }
    }
}

/// The area that comes nearest to taking one entry: the one with the greatest lesser extent.
fn roomiest(problem: &EntryProblem, class: &EntryClass) -> [f64; 2] {
    problem
        .areas
        .iter()
        .filter(|area| class.walls.contains(&area.wall))
        .map(|area| [area.rect.width_mm.max(0.0), area.rect.height_mm.max(0.0)])
        .max_by(|a, b| a[0].min(a[1]).total_cmp(&b[0].min(b[1])))
        .unwrap_or([0.0, 0.0])
}

fn problem(
    entries: &[EntryNeed<'_>],
    mounted: &EnclosureRecord,
    limits: &Limits,
    walls: &[Face],
) -> EntryProblem {
    let mut classes: Vec<EntryClass> = Vec::new();
    // Those that follow one another are mostly alike.
    let mut last: Option<(&EntryNeed<'_>, usize)> = None;
    for (index, entry) in entries.iter().enumerate() {
        if let Some((like, class)) = last
            && like.envelope_mm == entry.envelope_mm
            && like.thread == entry.thread
            && like.walls == entry.walls
        {
            classes[class].members.push(index);
            continue;
        }
        let permitted: Vec<Face> = entry
            .walls
            .iter()
            .copied()
            .filter(|wall| walls.contains(wall))
            .collect();
        let alike = |class: &EntryClass| {
            class.envelope_mm == entry.envelope_mm
                && class.thread == entry.thread
                && class.walls == permitted
        };
        let class = classes.iter().position(alike).unwrap_or_else(|| {
            classes.push(EntryClass {
                envelope_mm: entry.envelope_mm,
                thread: entry.thread,
                walls: permitted.clone(),
                members: Vec::new(),
            });
            classes.len() - 1
        });
        classes[class].members.push(index);
        last = Some((entry, class));
    }
    let reach_mm = entries
        .iter()
        .map(|entry| entry.reach_in_mm)
        .fold(0.0, f64::max);
    let (gap_mm, row_gap_mm) = (limits.gland_gap_mm, limits.gland_row_gap_mm);
    let (mut areas, mut whole) = (Vec::new(), Vec::new());
    let mut blocked = BTreeMap::new();
    let mut certified = BTreeMap::new();
    for wall in walls {
        let Some(record) = mounted.walls.get(wall) else {
            continue;
        };
        if let Some(most) = &record.most_entries {
            certified.insert(*wall, most.clone());
        }
        let usable = usable_rect(mounted, limits, walls, *wall, reach_mm);
        let area = |index: usize, rect: Rect| EntryArea {
            wall: *wall,
            index,
            rect,
            largest_thread: record.largest_thread,
        };
        let rects: Vec<Rect> = record
            .areas
            .iter()
            .map(|area| area.common(&usable))
            .collect();
        let pieces: Vec<Rect> = rects
            .iter()
            .flat_map(|rect| pieces::free_of(*rect, &record.blocked, gap_mm, row_gap_mm))
            .collect();
        whole.extend(
            rects
                .into_iter()
                .enumerate()
                .map(|(index, rect)| area(index, rect)),
        );
        areas.extend(
            pieces
                .into_iter()
                .enumerate()
                .map(|(index, rect)| area(index, rect)),
        );
        if !record.blocked.is_empty() {
            blocked.insert(*wall, record.blocked.clone());
        }
    }
    EntryProblem {
        classes,
        areas,
        whole,
        blocked,
        gap_mm,
        row_gap_mm,
        certified,
    }
}

/// Where on a wall envelopes may lie: clear of the inner corners, clear of what reaches in through the
/// neighbouring walls, and of the mounting plate where that comes near.
fn usable_rect(
    mounted: &EnclosureRecord,
    limits: &Limits,
    walls: &[Face],
    wall: Face,
    reach_mm: f64,
) -> Rect {
    let interior = mounted.interior;
    let length_mm = interior.length_along_u_mm(wall);
    let (before, after) = neighbours(wall);
    let clear = |neighbour: Face| {
        if walls.contains(&neighbour) {
            limits.gland_corner_mm.max(reach_mm)
        } else {
            limits.gland_corner_mm
        }
    };
    let to_plate_mm = match wall {
        Face::Bottom => mounted.plate.y_mm,
        Face::Top => interior.height_mm - mounted.plate.y_mm - mounted.plate.height_mm,
        Face::Left => mounted.plate.x_mm,
        _ => interior.width_mm - mounted.plate.x_mm - mounted.plate.width_mm,
    };
    let from_back_mm = if to_plate_mm < reach_mm {
        limits.gland_corner_mm.max(mounted.plate.standoff_mm)
    } else {
        limits.gland_corner_mm
    };
    Rect::new(0.0, 0.0, length_mm, interior.depth_mm).shrunk(
        clear(before),
        clear(after),
        from_back_mm,
        limits.gland_corner_mm,
    )
}

/// The walls at the beginning and the end of a wall's u.
fn neighbours(wall: Face) -> (Face, Face) {
    match wall {
        Face::Bottom => (Face::Left, Face::Right),
        Face::Right => (Face::Bottom, Face::Top),
        Face::Top => (Face::Right, Face::Left),
        _ => (Face::Top, Face::Bottom),
    }
}

/// A necessary condition for rows: each entry takes a square of its envelope, enlarged by the gap to the
/// next one in its row and by the gap to the next row; areas are enlarged by one gap each way.
fn area_bound(problem: &EntryProblem) -> (f64, f64) {
    let needed_mm2 = problem
        .classes
        .iter()
        .map(|class| {
            class.members.len() as f64
                * (class.envelope_mm + problem.gap_mm)
                * (class.envelope_mm + problem.row_gap_mm)
        })
        .sum();
    let available_mm2 = problem
        .areas
        .iter()
        .filter(|area| area.rect.width_mm > 0.0 && area.rect.height_mm > 0.0)
        .map(|area| {
            (area.rect.width_mm + problem.gap_mm) * (area.rect.height_mm + problem.row_gap_mm)
        })
        .sum();
    (needed_mm2, available_mm2)
}

/// Centres along a line: what is left over is spread evenly between the parts and at both ends, but
/// never less than the least gap between two parts.
///
/// Gaps are rounded down to tenths, so that the line never grows beyond its length.
pub fn spread(start_mm: f64, length_mm: f64, extents_mm: &[f64], least_gap_mm: f64) -> Vec<f64> {
    let count = extents_mm.len();
    let spare_mm = length_mm - extents_mm.iter().sum::<f64>();
    let gap_mm = down_to_tenth(spare_mm / (count + 1) as f64).max(least_gap_mm);
    let border_mm = (spare_mm - gap_mm * count.saturating_sub(1) as f64) / 2.0;
    let mut at_mm = start_mm + down_to_tenth(border_mm.max(0.0));
    let mut centres = Vec::new();
    for extent_mm in extents_mm {
        centres.push(at_mm + extent_mm / 2.0);
        at_mm += extent_mm + gap_mm;
    }
    centres
}

#[cfg(test)]
mod tests {
    use super::spread;

    #[test]
    fn parts_are_spread_but_never_closer_than_the_gap() {
        assert_eq!(spread(0.0, 100.0, &[20.0, 20.0], 5.0), [30.0, 70.0]);
        // Tight: three parts and two gaps fill the line exactly.
        assert_eq!(
            spread(10.0, 70.0, &[20.0, 20.0, 20.0], 5.0),
            [20.0, 45.0, 70.0]
        );
        // Between tight and roomy the borders give way first.
        assert_eq!(
            spread(0.0, 74.0, &[20.0, 20.0, 20.0], 5.0),
            [12.0, 37.0, 62.0]
        );
    }
}
