//! What is inside a candidate, given the walls that carry entries: terminals on rails, elements on the
//! lid, one in front of the other or side by side.

use super::decide::Problem;
use super::lid::{LidOutcome, LidRows, place_elements};
use super::rails::{RailOutcome, RailPlan, RailRoom, place_terminals};
use super::reason::Reason;
use super::room::{Bounds, bounds, lid_clearance_mm, lid_rect};
use crate::arrangement::EnclosureRecord;
use crate::demand::Demand;
use crate::space::{Face, Rect};

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
                .filter(|_| problem.rails.strips.len() > 1 || !problem.demand.divided.is_empty())
                .map(|part| part.height_mm),
        )
        .chain(problem.rails.separator.map(|part| part.height_mm))
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
        problem.effort(),
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
        problem.effort(),
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
    match place_terminals(problem.rails, room, lowest, problem.effort()) {
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
