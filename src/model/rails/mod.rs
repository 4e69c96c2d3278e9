//! Terminal groups on rails: how many rails, which clusters on which, and the height that they need.
//!
//! Rails lie one above the other. Between two rows, and between the outer rows and what bounds them,
//! there must be the wiring space of the larger conductor; between rows with intrinsically safe and
//! rows with other live terminals also the separation of their conducting parts. Rows with other
//! terminals lie below, those with intrinsically safe ones above; one row between them may carry
//! both, with the separation between.

mod greedy;
mod problem;
mod program;
mod state;

pub use problem::{RailKind, RailPlan, RailProblem, RailRoom};
pub use state::rail_problem;

use super::milp::{Decision, Effort, Program};

/// Most rails that are tried above each other.
const MOST_RAILS: u32 = 24;

/// What came of trying to place the terminals.
#[derive(Debug, Clone, PartialEq)]
pub enum RailOutcome {
    /// Placed: rails from the lowest upwards, and the height that they need between the bounds.
    Placed {
        /// Rails.
        rails: Vec<RailPlan>,
        /// Height.
        height_mm: f64,
    },
    /// Not enough rail.
    TooLong {
        /// Length of all terminals and accessories at least.
        needed_mm: f64,
        /// Rails that fit above each other at most.
        most_rails: u32,
    },
    /// Not enough height for the rails that are needed.
    TooHigh {
        /// Height of the lowest division found, or a bound where none was found.
        needed_mm: f64,
    },
    /// Neither placed nor disproved.
    Undecided(String),
}

/// The exact program of every division that the sums of lengths and heights do not refuse, with the
/// kinds of its rails from the lowest upwards; and how many divisions the sums refuse.
pub fn rail_programs(
    problem: &RailProblem,
    room: RailRoom,
) -> (Vec<(Vec<RailKind>, Program)>, usize) {
    let most_rails = problem.most_rails(room.height_mm).min(MOST_RAILS);
    let mut refused = 0;
    let mut programs = Vec::new();
    for kinds in (1..=most_rails).flat_map(|count| problem.divisions(count)) {
        if problem.may_divide(&kinds, room) {
            let program = program::build(problem, room, &kinds).0;
            programs.push((kinds, program));
        } else {
            refused += 1;
        }
    }
    (programs, refused)
}

/// Places all terminals with the fewest rails, and of those divisions with the least height.
/// `lowest` asks for the least height over all numbers of rails instead.
pub fn place_terminals(
    problem: &RailProblem,
    room: RailRoom,
    lowest: bool,
    effort: Effort,
) -> RailOutcome {
    if problem.types.is_empty() {
        return RailOutcome::Placed {
            rails: Vec::new(),
            height_mm: 0.0,
        };
    }
    let needed_mm = problem.least_length_mm();
    let per_rail_mm = room.length_mm - problem.rail_overhead_mm();
    let widest_mm = problem
        .types
        .iter()
        .map(|kind| kind.width_mm)
        .fold(0.0, f64::max);
    let most_rails = problem.most_rails(room.height_mm).min(MOST_RAILS);
    if per_rail_mm < widest_mm {
        return RailOutcome::TooLong {
            needed_mm,
            most_rails,
        };
    }
    let least_rails = (needed_mm / per_rail_mm - 1e-9).ceil().max(1.0) as u32;
    if least_rails > most_rails {
        let least_height_mm = problem.least_height_mm(least_rails);
        return if least_rails == 1 {
            RailOutcome::TooHigh {
                needed_mm: least_height_mm,
            }
        } else {
            RailOutcome::TooLong {
                needed_mm,
                most_rails,
            }
        };
    }
    let mut best: Option<(Vec<RailPlan>, f64)> = None;
    let mut lowest_seen_mm = f64::INFINITY;
    let mut undecided: Option<String> = None;
    for count in least_rails..=most_rails {
        for kinds in problem.divisions(count) {
            let least_mm = problem.least_height_of_mm(&kinds);
            if !problem.may_divide(&kinds, room) || least_mm > lowest_seen_mm - 1e-6 {
                continue;
            }
            // With one rail there is nothing to divide, and the quick way is exact.
            let found = match greedy::place(problem, room, &kinds) {
                Some(plan)
                    if plan.1 <= room.height_mm + 1e-6
                        && (!lowest || plan.1 <= least_mm + 1e-6) =>
                {
                    Ok(plan)
                }
                other => program::place(problem, room, &kinds, effort).or_else(|decision| {
                    match (decision, other) {
                        (Decision::Infeasible, _) => Err(Decision::Infeasible),
                        // The solver stopped without an answer: a division found by hand still counts.
                        (_, Some(plan)) if plan.1 <= room.height_mm + 1e-6 => Ok(plan),
                        (decision, _) => Err(decision),
                    }
                }),
            };
            match found {
                Ok((rails, height_mm)) => {
                    lowest_seen_mm = lowest_seen_mm.min(height_mm);
                    let better = best.as_ref().is_none_or(|known| height_mm < known.1 - 1e-6);
                    if height_mm <= room.height_mm + 1e-6 && better {
                        best = Some((rails, height_mm));
                    }
                }
                Err(Decision::Undecided(why)) => undecided = Some(why),
                Err(_) => {}
            }
        }
        if best.is_some() && !lowest {
            break;
        }
    }
    match (best, undecided) {
        (Some((rails, height_mm)), _) => RailOutcome::Placed { rails, height_mm },
        (None, Some(why)) => RailOutcome::Undecided(why),
        (None, None) if lowest_seen_mm.is_finite() => RailOutcome::TooHigh {
            needed_mm: lowest_seen_mm,
        },
        (None, None) => RailOutcome::TooLong {
            needed_mm,
            most_rails,
        },
    }
}
