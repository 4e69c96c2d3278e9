//! The exact rows of few elements: dynamic programming over the set of elements already placed.
//!
//! Rows are built from the top. A state is the set of elements in the rows so far and whether the last
//! row holds one that stands free (it decides the next gap); every subset of the rest that keeps width
//! and order rules is tried as the next row. Exact for any number, quick for up to [`MOST_ITEMS`].

use super::{LidProblem, LidRows};

/// Up to this number of elements the sets are gone through; more are left to the program.
pub(super) const MOST_ITEMS: usize = 12;

/// The best way to a state: least height, the state before, the row that was added.
#[derive(Clone, Copy)]
struct Step {
    height_mm: f64,
    before: (usize, usize),
    row: usize,
}

/// Rows of least height, or nothing where width or order rules allow none.
pub(super) fn place(problem: &LidProblem, width_mm: f64) -> Option<(LidRows, f64)> {
    let count = problem.items.len();
    let rows = rows_that_fit(problem, width_mm);
    let (after, same) = problem.order_rules();
    let all = (1usize << count) - 1;
    let mut best: Vec<[Option<Step>; 2]> = vec![[None; 2]; all + 1];
    best[0][0] = Some(Step {
        height_mm: 0.0,
        before: (0, 0),
        row: 0,
    });
    for placed in 0..all {
        for last_free in 0..2 {
            let Some(step) = best[placed][last_free] else {
                continue;
            };
            let rest = all & !placed;
            let mut row = rest;
            while row != 0 {
                if let Some(known) = rows[row]
                    && keeps_rules(placed, row, &after, &same)
                {
                    let gap_mm = if placed == 0 {
                        0.0
                    } else {
                        problem.gap_between_mm(last_free == 1, known.free)
                    };
                    let height_mm = step.height_mm + gap_mm + known.height_mm;
                    let state = &mut best[placed | row][usize::from(known.free)];
                    if state.is_none_or(|other| height_mm < other.height_mm - 1e-9) {
                        *state = Some(Step {
                            height_mm,
                            before: (placed, last_free),
                            row,
                        });
                    }
                }
                row = (row - 1) & rest;
            }
        }
    }
    let ends = (0..2).filter_map(|free| best[all][free].map(|step| (free, step.height_mm)));
    let (mut free, height_mm) = ends.min_by(|a, b| a.1.total_cmp(&b.1))?;
    let mut placed = all;
    let mut found = Vec::new();
    while placed != 0 {
        let step = best[placed][free]?;
        let mut row: Vec<usize> = (0..count)
            .filter(|item| step.row & (1 << item) != 0)
            .collect();
        problem.sort_row(&mut row);
        found.push(row);
        (placed, free) = step.before;
    }
    found.reverse();
    Some((found, height_mm))
}

#[derive(Clone, Copy)]
struct Row {
    height_mm: f64,
    free: bool,
}

/// Every set of elements that fits the width as one row.
fn rows_that_fit(problem: &LidProblem, width_mm: f64) -> Vec<Option<Row>> {
    let count = problem.items.len();
    (0..1usize << count)
        .map(|set| {
            let mut row: Vec<usize> = (0..count).filter(|item| set & (1 << item) != 0).collect();
            problem.sort_row(&mut row);
            (!row.is_empty() && problem.row_length_mm(&row) <= width_mm + 1e-9).then(|| Row {
                height_mm: problem.row_height_mm(&row),
                free: row.iter().any(|item| problem.items[*item].free_standing),
            })
        })
        .collect()
}

fn keeps_rules(
    placed: usize,
    row: usize,
    after: &[(usize, usize, u32)],
    same: &[(usize, usize)],
) -> bool {
    let holds = |set: usize, item: usize| set & (1 << item) != 0;
    after.iter().all(|(a, b, least)| {
        !holds(row, *b) || holds(placed, *a) || (*least == 0 && holds(row, *a))
    }) && same.iter().all(|(a, b)| holds(row, *a) == holds(row, *b))
}

#[cfg(test)]
mod tests {
    use super::super::{LidItem, LidProblem, lines, program};
    use super::place;
    use crate::model::milp::{Decision, Effort, Solver};

    /// A small generator of problems, always the same ones.
    fn problem(seed: u64, count: usize) -> LidProblem {
        let mut state = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1;
        let mut next = move |below: u64| {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            state % below
        };
        let items = (0..count)
            .map(|element| LidItem {
                element,
                width_mm: 30.0 + 5.0 * next(6) as f64,
                height_mm: 30.0 + 10.0 * next(5) as f64,
                free_standing: next(6) == 0,
                rank: next(4) as u32,
                row: None,
                order: (u32::MAX, 1, element),
                above: (next(5) == 0 && element > 0).then(|| element - 1),
                beside: None,
            })
            .collect();
        LidProblem {
            items,
            gap_mm: 5.0,
            free_mm: 20.0,
        }
    }

    #[test]
    fn sets_and_program_find_the_same_least_height() {
        let (mut possible, mut impossible) = (0, 0);
        for seed in 1..60 {
            let problem = problem(seed, 3 + (seed % 3) as usize);
            let width_mm = 60.0 + (seed % 7) as f64 * 20.0;
            let by_sets = place(&problem, width_mm);
            for solver in Solver::built_in() {
                let effort = Effort {
                    limit_s: 20.0,
                    solver,
                };
                let by_program = program::place(&problem, width_mm, effort);
                let same = match (&by_sets, &by_program) {
                    (Some((_, least_mm)), Ok((_, theirs_mm))) => {
                        (least_mm - theirs_mm).abs() < 1e-6
                    }
                    (None, Err(Decision::Infeasible)) => true,
                    _ => false,
                };
                assert!(same, "{solver:?}, seed {seed}");
            }
            let by_program = program::place(&problem, width_mm, Effort::of_seconds(20.0));
            match (&by_sets, &by_program) {
                (Some((rows, height_mm)), Ok((_, least_mm))) => {
                    assert!(
                        (height_mm - least_mm).abs() < 1e-6,
                        "seed {seed}: {height_mm} against {least_mm}"
                    );
                    assert!(lines::keeps_order(&problem, rows));
                    possible += 1;
                }
                (None, Err(Decision::Infeasible)) => impossible += 1,
                other => panic!("seed {seed}: {other:?}"),
            }
            if let (Some((_, quick_mm)), Some((_, least_mm))) =
                (lines::place(&problem, width_mm), &by_sets)
            {
                assert!(quick_mm >= least_mm - 1e-6);
            }
        }
        assert!(
            possible >= 20 && impossible >= 3,
            "{possible} possible, {impossible} impossible"
        );
    }
}
