//! Whether one candidate takes the demand: entries, terminals and elements decided together.
//!
//! Which walls carry entries decides how much room is left for terminals. So the sets of walls are
//! gone through in the order of preference, and for each the three parts are decided by themselves:
//! given the walls, they no longer depend on each other.

use super::free::{Asked, FreeEntry, FreeOutcome, Placement};
use super::inside::{decide_inside, terminal_depth};
use super::lid::{LidProblem, LidRows};
use super::metal::MetalDistances;
use super::milp::Effort;
use super::patience::Patience;
use super::rails::{RailPlan, RailProblem};
use super::reason::{Freely, Reason};
use super::room::Bounds;
use super::walls::{
    EntryRefusal, EntryRow, entries_find_room, place_entries, place_entries_freely,
};
use crate::arrangement::{EnclosureRecord, EntryPlacing, Limits};
use crate::demand::Demand;
use crate::space::{Face, Rect};
use itertools::Itertools;

/// The decided arrangement of one candidate, before positions.
#[derive(Debug, Clone)]
pub struct Decided {
    /// Rows of entries.
    pub entries: Vec<EntryRow>,
    /// Entries that are in no row; either these or the rows are empty.
    pub free: Vec<FreeEntry>,
    /// Rails from the lowest upwards.
    pub rails: Vec<RailPlan>,
    /// Free heights below, between and above the rails at least.
    pub slots_mm: Vec<f64>,
    /// Rows of elements from the top.
    pub lid: LidRows,
    /// Where terminals may stand.
    pub bounds: Bounds,
    /// Rectangle of the lid that the elements may use.
    pub lid_rect: Rect,
}

impl Decided {
    /// How the entries are placed; without entries as in rows.
    pub fn entry_placing(&self) -> EntryPlacing {
        if self.free.is_empty() {
            EntryPlacing::Rows
        } else {
            EntryPlacing::Free
        }
    }
}

/// What all candidates share.
pub struct Problem<'a, 'c> {
    /// The demand.
    pub demand: &'a Demand<'c>,
    /// Limits in force.
    pub limits: &'a Limits,
    /// Terminals.
    pub rails: &'a RailProblem,
    /// Elements.
    pub lid: &'a LidProblem,
    /// Distances from earthed metal.
    pub metal: MetalDistances,
    /// Walls that the list permits, in order of preference.
    pub walls: &'a [Face],
    /// How long it may take.
    pub patience: Patience,
    /// How entries may be placed.
    pub placement: Placement,
    /// What was asked about entries in no rows.
    pub asked: &'a Asked,
}

impl Problem<'_, '_> {
    /// What the next exact decision may take; no time where only quick ways are left.
    pub fn effort(&self) -> Effort {
        self.patience.next_effort()
    }
}

/// Decides a candidate.
pub fn decide(problem: &Problem<'_, '_>, mounted: &EnclosureRecord) -> Result<Decided, Reason> {
    let (terminal_top_mm, depth_reason) = terminal_depth(problem, mounted);
    if let Some(reason) = depth_reason {
        return Err(reason);
    }
    let drilled: Vec<Face> = problem
        .walls
        .iter()
        .copied()
        .filter(|wall| mounted.walls.contains_key(wall))
        .collect();
    let sets = wall_sets(&drilled, problem.demand);
    let (reason, refused) = match problem.placement {
        Placement::Free => {
            return decide_freely(problem, mounted, &sets, terminal_top_mm).map_err(
                |(freely, inside)| match (freely, inside) {
                    (Freely::Disproved, Some(reason)) => reason,
                    (freely, _) => Reason::Freely(freely),
                },
            );
        }
        Placement::Rows | Placement::Best => {
            match decide_in_rows(problem, mounted, &drilled, sets, terminal_top_mm) {
                Ok(decided) => return Ok(decided),
                Err(refused) => refused,
            }
        }
    };
    if problem.placement == Placement::Rows || refused.is_empty() {
        return Err(reason);
    }
    decide_freely(problem, mounted, &refused, terminal_top_mm).map_err(|(freely, _)| {
        Reason::InRows {
            rows: Box::new(reason),
            freely,
        }
    })
}

/// What is said where no set of walls was refused for a reason of its own.
fn no_room(problem: &Problem<'_, '_>) -> Reason {
    Reason::Entries {
        walls: problem.walls.to_vec(),
        needed_mm2: 0.0,
        available_mm2: 0.0,
        by_area: false,
    }
}

/// Goes through the sets of walls without rows. What is inside is asked first: where it finds no room,
/// no placing of the entries would help. The error is what is known then, and the first reason of what
/// is inside.
fn decide_freely(
    problem: &Problem<'_, '_>,
    mounted: &EnclosureRecord,
    sets: &[Vec<Face>],
    terminal_top_mm: f64,
) -> Result<Decided, (Freely, Option<Reason>)> {
    let mut freely = Freely::Disproved;
    let mut inside: Option<Reason> = None;
    for walls in sets {
        let (rails, lid, bounds, lid_rect) =
            match decide_inside(problem, mounted, walls, terminal_top_mm) {
                Ok(inside) => inside,
                Err(reason) => {
                    if reason.is_undecided() {
                        freely = Freely::Open;
                    }
                    inside.get_or_insert(reason);
                    continue;
                }
            };
        if problem.effort().limit_s <= 0.0 {
            freely = Freely::Open;
            continue;
        }
        let entries = &problem.demand.entries;
        match place_entries_freely(entries, mounted, problem.limits, walls, problem.asked) {
            FreeOutcome::Placed(free) => {
                let slots_mm = problem.rails.slots_mm(&rails);
                return Ok(Decided {
                    entries: Vec::new(),
                    free,
                    rails,
                    slots_mm,
                    lid,
                    bounds,
                    lid_rect,
                });
            }
            FreeOutcome::Impossible => {}
            FreeOutcome::Open => freely = Freely::Open,
        }
    }
    Err((freely, inside))
}

/// Goes through the sets of walls with entries in rows. The error is the reason, and the sets in which
/// rows found no room.
fn decide_in_rows(
    problem: &Problem<'_, '_>,
    mounted: &EnclosureRecord,
    drilled: &[Face],
    sets: Vec<Vec<Face>>,
    terminal_top_mm: f64,
) -> Result<Decided, (Reason, Vec<Vec<Face>>)> {
    let mut refused: Vec<Vec<Face>> = Vec::new();
    let mut first_reason: Option<Reason> = None;
    let mut entries_fit = false;
    let (needs, limits) = (&problem.demand.entries, problem.limits);
    for walls in sets {
        let room = entries_find_room(needs, mounted, limits, &walls, problem.effort());
        if let Err(refusal) = room {
            if !matches!(refusal, EntryRefusal::TooLarge { .. }) {
                refused.push(walls.clone());
            }
            let undecided = matches!(refusal, EntryRefusal::Undecided(_));
            // The reason that is told is that of the largest set of walls.
            if undecided || (!entries_fit && walls.len() == drilled.len()) {
                first_reason.get_or_insert(refusal.reason(walls));
            }
            continue;
        }
        match decide_inside(problem, mounted, &walls, terminal_top_mm) {
            Ok((rails, lid, bounds, lid_rect)) => {
                // That there is room is known; only the time may have run out since.
                match place_entries(needs, mounted, limits, &walls, problem.effort()) {
                    Ok(entries) => {
                        let slots_mm = problem.rails.slots_mm(&rails);
                        return Ok(Decided {
                            entries,
                            free: Vec::new(),
                            rails,
                            slots_mm,
                            lid,
                            bounds,
                            lid_rect,
                        });
                    }
                    Err(refusal) => first_reason = Some(refusal.reason(walls)),
                }
            }
            Err(reason) if !entries_fit => {
                entries_fit = true;
                let coupled = walls.len() > 1 && drilled.len() > 1;
                let undecided = matches!(reason, Reason::Undecided(_));
                first_reason = Some(if coupled && !undecided {
                    Reason::Together(Box::new(reason))
                } else {
                    reason
                });
            }
            Err(reason @ Reason::Undecided(_)) => first_reason = Some(reason),
            Err(_) => {}
        }
    }
    Err((first_reason.unwrap_or_else(|| no_room(problem)), refused))
}

impl EntryRefusal {
    fn reason(self, walls: Vec<Face>) -> Reason {
        match self {
            EntryRefusal::Impossible {
                needed_mm2,
                available_mm2,
                by_area,
            } => Reason::Entries {
                walls,
                needed_mm2,
                available_mm2,
                by_area,
            },
            EntryRefusal::TooLarge {
                envelope_mm,
                room_mm,
            } => Reason::EntrySize {
                walls,
                envelope_mm,
                room_mm,
            },
            EntryRefusal::Undecided(why) => Reason::Undecided(why),
        }
    }
}

/// The sets of walls that may carry entries, those that spare the less preferred walls first: with
/// walls in order of preference, a set is a binary number in which the last wall counts most.
pub(super) fn wall_sets(walls: &[Face], demand: &Demand<'_>) -> Vec<Vec<Face>> {
    if demand.entries.is_empty() {
        return vec![Vec::new()];
    }
    (1u32..1 << walls.len())
        .map(|set| {
            walls
                .iter()
                .enumerate()
                .filter(|(index, _)| set & (1 << index) != 0)
                .map(|(_, wall)| *wall)
                .collect_vec()
        })
        .filter(|set| {
            demand
                .entries
                .iter()
                .all(|entry| entry.walls.iter().any(|wall| set.contains(wall)))
        })
        .collect()
}
