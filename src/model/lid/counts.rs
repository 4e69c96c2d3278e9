//! The exact rows by dynamic programming over how many elements of each kind are already placed.
//!
//! Elements are alike where size, rank and what the list says of their row are the same; one that the list
//! names above or beside another is alike to none. Rows are built from the top. A state is how many of each
//! kind are in the rows so far, and whether the last row holds one that stands free (it decides the next gap);
//! every choice of the rest that keeps width and order rules is tried as the next row. Only states that can be reached
//! are looked at: order rules leave few of them. Exact; where that takes more than [`MOST_STEPS`] steps it is left to
//! the program.

use super::{LidProblem, LidRows};
use itertools::Itertools;
use std::collections::BTreeMap;

/// After so many steps of going through the choices of rows, over all states, they are given up.
const MOST_STEPS: u64 = 4_000_000;

/// Elements that are alike.
struct Kind {
    /// Their indices, in the order in which they stand.
    members: Vec<usize>,
    width_mm: f64,
    height_mm: f64,
    free: bool,
}

/// Kinds a and b and a least difference: the rows of b come after those of a by at least that.
type After = (usize, usize, u32);

/// All kinds, their rules, and the way from counts to the index of a state.
struct Kinds<'p> {
    problem: &'p LidProblem,
    kinds: Vec<Kind>,
    after: Vec<After>,
    /// Kinds that lie in one row, all of them.
    same: Vec<(usize, usize)>,
    /// What one more of a kind adds to the index of a state.
    weight: Vec<usize>,
    /// The state with everything in rows.
    all: usize,
}

/// The states that are reached, each with its best way without and with a free one in the last row.
type Reached = BTreeMap<usize, [Option<Step>; 2]>;

/// A row in the making, after a state.
struct Choice {
    state: usize,
    /// How many of each kind are in the rows before.
    placed: Vec<usize>,
    /// Which kinds may be in the row.
    open: Vec<bool>,
    /// How many of each kind are in it so far.
    row: Vec<usize>,
    width_mm: f64,
}

/// A search that took too many steps.
struct TooMany;

/// The best way to a state: least height, the state before and whether its last row holds a free one.
#[derive(Clone, Copy, PartialEq)]
struct Step {
    height_mm: f64,
    before: (usize, usize),
}

/// Rows of least height, or nothing where width or order rules allow none; `None` where there are too many
/// choices to go through.
pub(super) fn place(problem: &LidProblem, width_mm: f64) -> Option<Option<(LidRows, f64)>> {
    let kinds = Kinds::new(problem)?;
    kinds.place(width_mm).ok()
}

impl<'p> Kinds<'p> {
    fn new(problem: &'p LidProblem) -> Option<Self> {
        let kind_of = kinds_of_items(problem);
        let count = kind_of.iter().max().map_or(0, |last| last + 1);
        let kinds: Vec<Kind> = (0..count)
            .map(|kind| {
                let of_kind = (0..kind_of.len()).filter(|item| kind_of[*item] == kind);
                let members = of_kind
                    .sorted_by_key(|item| problem.items[*item].order)
                    .collect_vec();
                let known = &problem.items[members[0]];
                Kind {
                    width_mm: known.width_mm,
                    height_mm: known.height_mm,
                    free: known.free_standing,
                    members,
                }
            })
            .collect();
        let (after, same) = problem.order_rules();
        let after = after
            .into_iter()
            .map(|(a, b, least)| (kind_of[a], kind_of[b], least));
        let same = same.into_iter().map(|(a, b)| (kind_of[a], kind_of[b]));
        let mut weight = Vec::new();
        let mut states = 1_usize;
        for kind in &kinds {
            weight.push(states);
            states = states.checked_mul(kind.members.len() + 1)?;
        }
        Some(Self {
            problem,
            after: after.unique().collect(),
            same: same.unique().collect(),
            kinds,
            weight,
            all: states - 1,
        })
    }

    /// Rows of least height, if there are any.
    fn place(&self, width_mm: f64) -> Result<Option<(LidRows, f64)>, TooMany> {
        let start = Step {
            height_mm: 0.0,
            before: (0, 0),
        };
        let mut best = Reached::from([(0, [Some(start), None])]);
        let mut steps = 0;
        let mut next = Some(0);
        // A row leads to a greater state only.
        while let Some(state) = next.filter(|state| *state < self.all) {
            let placed = self.counts(state);
            let mut choice = Choice {
                state,
                open: self.open(&placed),
                placed,
                row: vec![0; self.kinds.len()],
                width_mm,
            };
            self.try_rows(&mut choice, 0, &mut best, &mut steps)?;
            next = best.range(state + 1..).next().map(|(state, _)| *state);
        }
        Ok(self.read_back(&best))
    }

    /// The rows of the best way to the state with everything in rows.
    fn read_back(&self, best: &Reached) -> Option<(LidRows, f64)> {
        let all = best.get(&self.all)?;
        let ends = (0..2).filter_map(|free| all[free].map(|step| (free, step.height_mm)));
        let (mut free, height_mm) = ends.min_by(|a, b| a.1.total_cmp(&b.1))?;
        let mut state = self.all;
        let mut rows_up = Vec::new();
        while state != 0 {
            let step = best.get(&state)?[free]?;
            rows_up.push(self.counts(state - step.before.0));
            (state, free) = step.before;
        }
        let mut members = self
            .kinds
            .iter()
            .map(|kind| kind.members.iter())
            .collect_vec();
        let rows = rows_up.into_iter().rev().map(|counts| {
            let taken = counts.iter().zip(&mut members);
            let mut row: Vec<usize> = taken
                .flat_map(|(count, members)| members.by_ref().take(*count).copied())
                .collect();
            self.problem.sort_row(&mut row);
            row
        });
        Some((rows.collect(), height_mm))
    }

    fn counts(&self, state: usize) -> Vec<usize> {
        let of_kind = self.kinds.iter().zip(&self.weight);
        of_kind
            .map(|(kind, weight)| state / weight % (kind.members.len() + 1))
            .collect()
    }

    /// Which kinds may be in the next row: those that no rule keeps under one that is still to come.
    fn open(&self, placed: &[usize]) -> Vec<bool> {
        let is_kept_under = |kind: usize| {
            self.after.iter().any(|(a, b, least)| {
                *b == kind && *least > 0 && placed[*a] < self.kinds[*a].members.len()
            })
        };
        (0..self.kinds.len())
            .map(|kind| !is_kept_under(kind))
            .collect()
    }

    /// Goes through the choices of a row from this kind on.
    fn try_rows(
        &self,
        choice: &mut Choice,
        kind: usize,
        best: &mut Reached,
        steps: &mut u64,
    ) -> Result<(), TooMany> {
        *steps += 1;
        if *steps > MOST_STEPS {
            return Err(TooMany);
        }
        if kind == self.kinds.len() {
            if self.keeps_rules(&choice.placed, &choice.row) {
                self.offer(choice.state, &choice.row, best);
            }
            return Ok(());
        }
        let left = if choice.open[kind] {
            self.kinds[kind].members.len() - choice.placed[kind]
        } else {
            0
        };
        for count in 0..=left {
            choice.row[kind] = count;
            if self.length_mm(&choice.row) > choice.width_mm + 1e-9 {
                break;
            }
            self.try_rows(choice, kind + 1, best, steps)?;
        }
        choice.row[kind] = 0;
        Ok(())
    }

    /// Keeps a row where it leads to a state in less height than any before it.
    fn offer(&self, state: usize, row: &[usize], best: &mut Reached) {
        let more = row.iter().zip(&self.weight);
        let there = state + more.map(|(count, weight)| count * weight).sum::<usize>();
        if there == state {
            return;
        }
        let in_row = || self.kinds.iter().zip(row).filter(|(_, count)| **count > 0);
        let free = in_row().any(|(kind, _)| kind.free);
        let tallest_mm = in_row().map(|(kind, _)| kind.height_mm).fold(0.0, f64::max);
        let ways = best.get(&state).copied().unwrap_or_default();
        for (last_free, step) in ways.into_iter().enumerate() {
            let Some(step) = step else {
                continue;
            };
            let gap_mm = if state == 0 {
                0.0
            } else {
                self.problem.gap_between_mm(last_free == 1, free)
            };
            let height_mm = step.height_mm + gap_mm + tallest_mm;
            let known = &mut best.entry(there).or_default()[usize::from(free)];
            if known.is_none_or(|other| height_mm < other.height_mm - 1e-9) {
                *known = Some(Step {
                    height_mm,
                    before: (state, last_free),
                });
            }
        }
    }

    /// Length of a row: what stands free comes last, with the greater gap before each.
    fn length_mm(&self, row: &[usize]) -> f64 {
        let of = |free: bool| {
            let kinds = self
                .kinds
                .iter()
                .zip(row)
                .filter(move |(kind, _)| kind.free == free);
            kinds.map(|(_, count)| *count).sum::<usize>()
        };
        let (usual, free) = (of(false), of(true));
        let widths = self.kinds.iter().zip(row);
        let usual_gaps = usual.saturating_sub(1);
        let gaps = (usual + free).saturating_sub(1);
        widths
            .map(|(kind, count)| kind.width_mm * *count as f64)
            .sum::<f64>()
            + self.problem.gap_mm * usual_gaps as f64
            + self.problem.free_mm * (gaps - usual_gaps) as f64
    }

    fn keeps_rules(&self, placed: &[usize], row: &[usize]) -> bool {
        let all = |kind: usize| self.kinds[kind].members.len();
        self.after.iter().all(|(a, b, least)| {
            row[*b] == 0 || placed[*a] + if *least == 0 { row[*a] } else { 0 } == all(*a)
        }) && self.same.iter().all(|(a, b)| {
            let none = row[*a] == 0 && row[*b] == 0;
            none || (row[*a] == all(*a) && row[*b] == all(*b))
        })
    }
}

/// The kind of each item, in the order in which they are met.
fn kinds_of_items(problem: &LidProblem) -> Vec<usize> {
    let items = &problem.items;
    let joined = |item: usize| {
        let named =
            |other: &super::LidItem| other.above == Some(item) || other.beside == Some(item);
        items[item].above.is_some() || items[item].beside.is_some() || items.iter().any(named)
    };
    let alike = |a: usize, b: usize| {
        let (one, other) = (&items[a], &items[b]);
        one.width_mm == other.width_mm
            && one.height_mm == other.height_mm
            && one.free_standing == other.free_standing
            && (one.rank, one.row, one.order.1) == (other.rank, other.row, other.order.1)
    };
    let mut kinds: Vec<usize> = Vec::new();
    let mut next = 0;
    for item in 0..items.len() {
        let known = (0..item).find(|other| alike(item, *other) && !joined(item) && !joined(*other));
        kinds.push(known.map_or(next, |other| kinds[other]));
        next = next.max(kinds[item] + 1);
    }
    kinds
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
                width_mm: 30.0 + 10.0 * next(3) as f64,
                height_mm: 30.0 + 20.0 * next(2) as f64,
                free_standing: next(6) == 0,
                rank: next(3) as u32,
                row: (next(6) == 0).then(|| 1 + next(2) as u32),
                order: (u32::MAX, next(3) as u32, element),
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

    /// Six lamps, each above a button of its own, and three meters: the order rules leave few states, so that no program
    /// is needed; without them there are too many.
    #[test]
    fn wishes_are_decided_without_a_program() {
        let item = |element: usize, rank: u32, above: Option<usize>| LidItem {
            element,
            width_mm: 30.0 + element as f64,
            height_mm: 40.0,
            free_standing: false,
            rank,
            row: None,
            order: (u32::MAX, 1, element),
            above,
            beside: None,
        };
        let lamps = (0..6).map(|lamp| item(lamp, 1, Some(lamp + 6)));
        let buttons = (6..12).map(|button| item(button, 2, None));
        let meters = (12..15).map(|meter| item(meter, 0, None));
        let mut problem = LidProblem {
            items: lamps.chain(buttons).chain(meters).collect(),
            gap_mm: 5.0,
            free_mm: 20.0,
        };
        let (rows, height_mm) = place(&problem, 260.0).expect("few states").expect("room");
        assert!(lines::keeps_order(&problem, &rows));
        assert_eq!((rows.len(), height_mm), (3, 130.0));
        for known in &mut problem.items {
            known.rank = 1;
            known.above = None;
        }
        assert!(place(&problem, 1_000.0).is_none(), "left to the program");
    }

    #[test]
    fn counts_and_program_find_the_same_least_height() {
        let (mut possible, mut impossible) = (0, 0);
        for seed in 1..200 {
            let problem = problem(seed, 3 + (seed % 3) as usize);
            let width_mm = 60.0 + (seed % 7) as f64 * 20.0;
            let by_counts = place(&problem, width_mm).expect("few elements");
            for solver in Solver::built_in() {
                let effort = Effort {
                    limit_s: 600.0,
                    solver,
                };
                let by_program = program::place(&problem, width_mm, effort);
                let same = match (&by_counts, &by_program) {
                    (Some((_, least_mm)), Ok((_, theirs_mm))) => {
                        (least_mm - theirs_mm).abs() < 1e-6
                    }
                    (None, Err(Decision::Infeasible)) => true,
                    _ => false,
                };
                assert!(same, "{solver:?}, seed {seed}");
            }
            let by_program = program::place(&problem, width_mm, Effort::of_seconds(600.0));
            match (&by_counts, &by_program) {
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
                (lines::place(&problem, width_mm), &by_counts)
            {
                assert!(quick_mm >= least_mm - 1e-6);
            }
        }
        assert!(
            possible >= 60 && impossible >= 10,
            "{possible} possible, {impossible} impossible"
        );
    }

    #[test]
    fn many_alike_are_as_few() {
        let item = |element: usize| LidItem {
            element,
            width_mm: 30.0,
            height_mm: 40.0 + 10.0 * (element % 2) as f64,
            free_standing: false,
            rank: 2,
            row: None,
            order: (u32::MAX, 1, element),
            above: None,
            beside: None,
        };
        let problem = LidProblem {
            items: (0..60).map(item).collect(),
            gap_mm: 5.0,
            free_mm: 20.0,
        };
        // Ten in a row of 345 mm: three rows of the high ones, three of the low ones, five gaps.
        let (rows, height_mm) = place(&problem, 345.0).flatten().expect("there is room");
        assert_eq!(rows.len(), 6);
        assert!((height_mm - (3.0 * 40.0 + 3.0 * 50.0 + 5.0 * 5.0)).abs() < 1e-9);
        assert!(rows.iter().all(|row| problem.row_length_mm(row) <= 345.0));
        assert_eq!(rows.iter().flatten().count(), 60);
    }
}
