//! Whether one candidate takes the demand: entries, terminals and elements decided together.
//!
//! Which walls carry entries decides how much room is left for terminals. So the sets of walls are
//! gone through in the order of preference, and for each the three parts are decided by themselves:
//! given the walls, they no longer depend on each other.

use super::free::{FreeEntry, FreeOutcome, Placement};
use super::lid::{LidOutcome, LidProblem, LidRows, place_elements};
use super::metal::MetalDistances;
use super::patience::Patience;
use super::rails::{RailOutcome, RailPlan, RailProblem, RailRoom, place_terminals};
use super::reason::{Freely, Reason};
use super::room::{Bounds, bounds, lid_clearance_mm, lid_rect};
use super::walls::{EntryOutcome, EntryRow, place_entries, place_entries_freely};
use crate::arrangement::{EnclosureRecord, Limits};
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
}

impl Problem<'_, '_> {
    /// Time limit of the next exact decision, s; 0 where only quick ways are left.
    pub fn limit_s(&self) -> f64 {
        self.patience.next_limit_s()
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
        if problem.limit_s() <= 0.0 {
            freely = Freely::Open;
            continue;
        }
        let entries = &problem.demand.entries;
        match place_entries_freely(entries, mounted, problem.limits, walls) {
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
    for walls in sets {
        let entries = match place_entries(
            &problem.demand.entries,
            mounted,
            problem.limits,
            &walls,
            problem.limit_s(),
        ) {
            EntryOutcome::Placed(rows) => rows,
            EntryOutcome::Impossible {
                needed_mm2,
                available_mm2,
                by_area,
            } => {
                refused.push(walls.clone());
                // The reason that is told is that of the largest set of walls.
                if !entries_fit && walls.len() == drilled.len() {
                    first_reason.get_or_insert(Reason::Entries {
                        walls,
                        needed_mm2,
                        available_mm2,
                        by_area,
                    });
                }
                continue;
            }
            EntryOutcome::TooLarge {
                envelope_mm,
                room_mm,
            } => {
                if !entries_fit && walls.len() == drilled.len() {
                    first_reason.get_or_insert(Reason::EntrySize {
                        walls,
                        envelope_mm,
                        room_mm,
                    });
                }
                continue;
            }
            EntryOutcome::Undecided(why) => {
                refused.push(walls);
                first_reason.get_or_insert(Reason::Undecided(why));
                continue;
            }
        };
        match decide_inside(problem, mounted, &walls, terminal_top_mm) {
            Ok((rails, lid, bounds, lid_rect)) => {
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

/// Depth that the terminals take from the back wall, and the reason if it is too much.
pub(super) fn terminal_depth(
    problem: &Problem<'_, '_>,
    mounted: &EnclosureRecord,
) -> (f64, Option<Reason>) {
    let Some(rail) = problem.demand.rail else {
        return (0.0, None);
    };
    let tallest_mm = problem
        .demand
        .terminals
        .iter()
        .map(|terminal| terminal.part.height_mm)
        .chain(problem.demand.end_stop.iter().map(|part| part.height_mm))
        .chain(
            problem
                .demand
                .end_plates
                .values()
                .map(|part| part.height_mm),
        )
        .chain(
            problem
                .demand
                .partition
                .iter()
                .filter(|_| problem.rails.strips.len() > 1)
                .map(|part| part.height_mm),
        )
        .fold(0.0, f64::max);
    let top_mm = mounted.plate.standoff_mm + rail.height_mm + tallest_mm;
    let needed_mm = top_mm + lid_clearance_mm(problem, mounted);
    let reason = (needed_mm > mounted.interior.depth_mm + 1e-9).then(|| Reason::Depth {
        what: "plate, rail and terminals".to_string(),
        needed_mm,
        available_mm: mounted.interior.depth_mm,
    });
    (top_mm, reason)
}

type Inside = (Vec<RailPlan>, LidRows, Bounds, Rect);

/// Terminals and elements for one set of walls with entries.
pub(super) fn decide_inside(
    problem: &Problem<'_, '_>,
    mounted: &EnclosureRecord,
    walls: &[Face],
    terminal_top_mm: f64,
) -> Result<Inside, Reason> {
    let bounds = bounds(problem, mounted, walls);
    let lid_rect = lid_rect(problem, mounted, walls);
    let room = RailRoom {
        length_mm: bounds.right_mm - bounds.left_mm,
        height_mm: bounds.top_mm - bounds.bottom_mm,
    };
    let element_depth_mm = element_depth_mm(problem);
    if element_depth_mm > mounted.interior.depth_mm - mounted.plate.standoff_mm + 1e-9 {
        return Err(Reason::Depth {
            what: "plate and operating elements".to_string(),
            needed_mm: element_depth_mm + mounted.plate.standoff_mm,
            available_mm: mounted.interior.depth_mm,
        });
    }
    let rails = terminals(problem, room, false)?;
    let rows = match place_elements(
        problem.lid,
        lid_rect.width_mm,
        lid_rect.height_mm,
        problem.limit_s(),
    ) {
        LidOutcome::Placed { rows, .. } => rows,
        LidOutcome::Impossible { needed_mm } => {
            let available_mm = [lid_rect.width_mm.max(0.0), lid_rect.height_mm.max(0.0)];
            return Err(Reason::Lid {
                needed_mm,
                available_mm,
            });
        }
        LidOutcome::Undecided(why) => return Err(Reason::Undecided(why)),
    };
    let behind_mm = behind_lid_mm(problem);
    let no_overlap_in_depth = terminal_top_mm + behind_mm <= mounted.interior.depth_mm + 1e-9;
    if problem.demand.elements.is_empty() || rails.is_empty() || no_overlap_in_depth {
        return Ok((rails, rows, bounds, lid_rect));
    }
    beside(
        problem,
        mounted,
        bounds,
        room,
        lid_rect,
        terminal_top_mm + behind_mm,
    )
}

/// Depth that the deepest element takes behind the lid, its wiring included.
fn element_depth_mm(problem: &Problem<'_, '_>) -> f64 {
    problem
        .demand
        .elements
        .iter()
        .map(|element| element.depth_mm + element.bend_mm)
        .fold(0.0, f64::max)
}

/// Depth behind the lid that must be free of terminals where elements are.
pub(super) fn behind_lid_mm(problem: &Problem<'_, '_>) -> f64 {
    let separation_mm = if kinds_meet(problem.demand) {
        problem.limits.intrinsic_separation_mm
    } else {
        0.0
    };
    element_depth_mm(problem).max(
        problem
            .demand
            .elements
            .iter()
            .map(|element| element.depth_mm + separation_mm)
            .fold(0.0, f64::max),
    )
}

/// Elements above, terminals below them: neither lies behind the other.
fn beside(
    problem: &Problem<'_, '_>,
    mounted: &EnclosureRecord,
    bounds: Bounds,
    room: RailRoom,
    lid_rect: Rect,
    depth_needed_mm: f64,
) -> Result<Inside, Reason> {
    let (rails, rails_mm) = lowest(problem, room)?;
    let (reserve_mm, free_rect) = above_rails(problem, bounds, &rails, rails_mm, lid_rect);
    let rails_end_mm = bounds.bottom_mm + rails_mm + reserve_mm;
    let refuse = |needed_mm: f64| Reason::ElementsAndTerminals {
        needed_mm: rails_end_mm.max(lid_rect.v_mm) + needed_mm,
        available_mm: lid_rect.top_mm(),
        depth_needed_mm,
        depth_mm: mounted.interior.depth_mm,
    };
    match place_elements(
        problem.lid,
        free_rect.width_mm,
        free_rect.height_mm,
        problem.limit_s(),
    ) {
        LidOutcome::Placed { rows, height_mm } => {
            // What is left over goes to the terminals: elements move to the top of the lid.
            let band_mm = free_rect.top_mm() - height_mm;
            let top_mm = (band_mm - reserve_mm).min(bounds.top_mm);
            let rect = Rect::new(free_rect.u_mm, band_mm, free_rect.width_mm, height_mm);
            Ok((rails, rows, Bounds { top_mm, ..bounds }, rect))
        }
        LidOutcome::Impossible { needed_mm } => Err(refuse(needed_mm[1])),
        LidOutcome::Undecided(why) => Err(Reason::Undecided(why)),
    }
}

/// What elements keep from the rows below them beyond the last wiring space, and the part of the lid
/// that is left for them above so low a division.
pub(super) fn above_rails(
    problem: &Problem<'_, '_>,
    bounds: Bounds,
    rails: &[RailPlan],
    rails_mm: f64,
    lid_rect: Rect,
) -> (f64, Rect) {
    // Rows below the highest one are further away than the separation anyhow.
    let apart = rails
        .last()
        .is_some_and(|highest| kinds_meet_on(problem.demand, highest));
    let separation_mm = if apart {
        problem.limits.intrinsic_separation_mm
    } else {
        0.0
    };
    // The row's last wiring space ends at the elements; the separation may ask for more.
    let top_slot_mm = rails.last().map_or(0.0, |rail| rail.wiring_space_mm);
    let reserve_mm = (separation_mm - top_slot_mm).max(0.0);
    let from_mm = lid_rect.v_mm.max(bounds.bottom_mm + rails_mm + reserve_mm);
    let rect = Rect::new(
        lid_rect.u_mm,
        from_mm,
        lid_rect.width_mm,
        lid_rect.top_mm() - from_mm,
    );
    (reserve_mm, rect)
}

fn terminals(
    problem: &Problem<'_, '_>,
    room: RailRoom,
    lowest: bool,
) -> Result<Vec<RailPlan>, Reason> {
    outcome(problem, room, lowest).map(|(rails, _)| rails)
}

/// The division onto rails with the least height over all numbers of rails.
pub(super) fn lowest(
    problem: &Problem<'_, '_>,
    room: RailRoom,
) -> Result<(Vec<RailPlan>, f64), Reason> {
    outcome(problem, room, true)
}

fn outcome(
    problem: &Problem<'_, '_>,
    room: RailRoom,
    lowest: bool,
) -> Result<(Vec<RailPlan>, f64), Reason> {
    match place_terminals(problem.rails, room, lowest, problem.limit_s()) {
        RailOutcome::Placed { rails, height_mm } => Ok((rails, height_mm)),
        RailOutcome::TooLong {
            needed_mm,
            most_rails,
        } => Err(Reason::Rails {
            needed_mm,
            rail_mm: (room.length_mm - problem.rails.rail_overhead_mm()).max(0.0),
            most_rails,
        }),
        RailOutcome::TooHigh { needed_mm } => Err(Reason::Height {
            needed_mm,
            available_mm: room.height_mm.max(0.0),
        }),
        RailOutcome::Undecided(why) => Err(Reason::Undecided(why)),
    }
}

/// Whether elements of one kind of circuit meet terminals of the other on one rail.
fn kinds_meet_on(demand: &Demand<'_>, rail: &RailPlan) -> bool {
    let strips = || {
        rail.clusters
            .iter()
            .map(|(strip, _)| &demand.strips[*strip])
    };
    demand
        .elements
        .iter()
        .filter_map(|element| element.kind)
        .any(|kind| strips().any(|strip| !strip.earth && strip.kind != kind))
}

/// Whether elements of one kind of circuit meet terminals of the other.
fn kinds_meet(demand: &Demand<'_>) -> bool {
    demand
        .elements
        .iter()
        .filter_map(|element| element.kind)
        .any(|kind| {
            demand
                .strips
                .iter()
                .any(|strip| !strip.earth && strip.kind != kind)
        })
}
