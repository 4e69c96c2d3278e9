//! The exact division into rows by tables, for problems with few kinds of entries.
//!
//! A state says how many entries of each class are meant. For one area, the least height that rows need
//! for a state follows from smaller states: the tallest entry stands in some row, whose height it
//! gives, and what else stands in that row is tried. Areas are then filled one after another: for each
//! state of what is left, the cheapest way (least use of less preferred walls) is kept. Exact; problems
//! with more than [`MOST_STATES`] states are left to the program.

mod area;
mod fill;
mod states;

use super::{EntryProblem, EntryRow, Undivided};
use area::{AreaTable, known_table};
use fill::fill_areas;
use states::{Counts, States};
use std::collections::BTreeMap;
use std::rc::Rc;

/// Up to this number of states the tables are built.
pub(super) const MOST_STATES: usize = 1500;

/// Places all entries; `None` where the problem has too many states for tables.
pub(super) fn place(problem: &EntryProblem) -> Option<Result<Vec<EntryRow>, Undivided>> {
    let most: Counts = problem
        .classes
        .iter()
        .map(|class| class.members.len() as u32)
        .collect();
    let count = most.iter().try_fold(1usize, |product, most| {
        product.checked_mul(*most as usize + 1)
    })?;
    if count > MOST_STATES || (!problem.certified.is_empty() && !one_area_for_each_wall(problem)) {
        return None;
    }
    let states = States::new(most);
    let mut tables: BTreeMap<(u64, Vec<bool>), Rc<AreaTable>> = BTreeMap::new();
    let keys: Vec<(u64, Vec<bool>)> = problem
        .areas
        .iter()
        .map(|area| {
            let allowed: Vec<bool> = problem
                .classes
                .iter()
                .map(|class| problem.allows(class, area))
                .collect();
            (area.rect.width_mm.to_bits(), allowed)
        })
        .collect();
    for (key, area) in keys.iter().zip(&problem.areas) {
        if !tables.contains_key(key) {
            tables.insert(
                key.clone(),
                known_table(problem, &states, area.rect.width_mm, &key.1),
            );
        }
    }
    Some(fill_areas(problem, &states, &keys, &tables))
}

/// Certified numbers are kept area by area, so each wall must have one.
fn one_area_for_each_wall(problem: &EntryProblem) -> bool {
    problem
        .areas
        .iter()
        .all(|area| area.index == 0 || !problem.certified.contains_key(&area.wall))
        && problem.areas.iter().all(|area| {
            problem
                .areas
                .iter()
                .filter(|other| other.wall == area.wall)
                .count()
                == 1
                || !problem.certified.contains_key(&area.wall)
        })
}

#[cfg(test)]
mod tests {
    use super::super::{EntryArea, EntryClass, EntryProblem, greedy, program};
    use super::place;
    use crate::model::milp::{Decision, Effort, Solver};
    use crate::space::{Face, Rect};
    use crate::standards::threads::Thread;
    use std::collections::BTreeMap;

    /// A small generator of problems, always the same ones.
    fn problem(seed: u64) -> EntryProblem {
        let mut state = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1;
        let mut next = move |below: u64| {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            state % below
        };
        let mut entry = 0;
        let classes = (0..1 + next(3))
            .map(|kind| {
                let count = 1 + next(4) as usize;
                let members = (entry..entry + count).collect();
                entry += count;
                let walls = match next(3) {
                    0 => vec![Face::Bottom],
                    1 => vec![Face::Left, Face::Bottom],
                    _ => vec![Face::Bottom, Face::Left],
                };
                EntryClass {
                    envelope_mm: 22.0 + 7.0 * next(4) as f64,
                    thread: [Thread::M16, Thread::M20, Thread::M25][kind as usize],
                    walls,
                    members,
                }
            })
            .collect();
        let areas: Vec<EntryArea> = [Face::Bottom, Face::Left]
            .into_iter()
            .map(|wall| EntryArea {
                wall,
                index: 0,
                rect: Rect::new(
                    0.0,
                    0.0,
                    60.0 + 20.0 * next(6) as f64,
                    30.0 + 15.0 * next(4) as f64,
                ),
                largest_thread: Thread::M63,
            })
            .collect();
        let mut certified = BTreeMap::new();
        if next(3) == 0 {
            let threads = [Thread::M16, Thread::M20, Thread::M25];
            certified.insert(
                Face::Bottom,
                threads
                    .into_iter()
                    .map(|thread| (thread, 1 + next(3) as u32))
                    .collect(),
            );
        }
        EntryProblem {
            classes,
            whole: areas.clone(),
            areas,
            blocked: BTreeMap::new(),
            gap_mm: 5.0,
            row_gap_mm: 10.0,
            certified,
        }
    }

    #[test]
    fn nothing_finds_room_in_no_area() {
        let mut none = problem(1);
        none.classes.clear();
        none.certified.clear();
        assert!(matches!(place(&none), Some(Ok(rows)) if rows.is_empty()));
        none.areas.clear();
        assert!(matches!(place(&none), Some(Ok(rows)) if rows.is_empty()));
    }

    #[test]
    fn tables_and_program_agree() {
        let (mut possible, mut impossible, mut missed) = (0, 0, 0);
        for seed in 1..150 {
            let problem = problem(seed);
            let by_tables = place(&problem).expect("few states");
            for solver in Solver::built_in() {
                let effort = Effort {
                    limit_s: 20.0,
                    solver,
                };
                let by_program = program::place(&problem, effort);
                assert_eq!(by_program.is_ok(), by_tables.is_ok(), "{solver:?}, {seed}");
            }
            let by_program = program::place(&problem, Effort::of_seconds(20.0));
            match (&by_tables, &by_program) {
                (Ok(rows), Ok(_)) => {
                    possible += 1;
                    let mut placed: Vec<usize> =
                        rows.iter().flat_map(|row| row.entries.clone()).collect();
                    placed.sort_unstable();
                    let all: usize = problem
                        .classes
                        .iter()
                        .map(|class| class.members.len())
                        .sum();
                    assert_eq!(placed, (0..all).collect::<Vec<_>>(), "seed {seed}");
                }
                (Err(_), Err(Decision::Infeasible)) => impossible += 1,
                other => panic!("seed {seed}: {other:?}"),
            }
            match (greedy::place(&problem), &by_tables) {
                (Some(_), Err(_)) => panic!("seed {seed}: the quick way found what is impossible"),
                (None, Ok(_)) => missed += 1,
                _ => {}
            }
        }
        assert!(
            possible >= 40 && impossible >= 40,
            "{possible} possible, {impossible} impossible"
        );
        assert!(missed >= 1, "no problem needs the exact way");
    }
}
