//! The exact division into rows by tables, for problems with few kinds of entries.
//!
//! A state says how many entries of each class are meant. For one area, the least height that rows need
//! for a state follows from smaller states: the tallest entry stands in some row, whose height it
//! gives, and what else stands in that row is tried. Areas are then filled one after another: for each
//! state of what is left, the cheapest way (least use of less preferred walls) is kept. Exact; problems
//! with more than [`MOST_STATES`] states are left to the program.

use super::{EntryProblem, EntryRow, Undivided};
use std::cell::RefCell;
use std::collections::{BTreeMap, HashMap};
use std::rc::Rc;

/// Up to this number of states the tables are built.
pub(super) const MOST_STATES: usize = 1500;

/// Numbers of entries by class.
type Counts = Vec<u32>;

/// The states of a problem and the way between numbers and indices.
struct States {
    most: Counts,
    all: Vec<Counts>,
    /// The counts of each state side by side in one number, with a free bit above each.
    packed: Vec<u64>,
    /// The free bits. [`MOST_STATES`] keeps counts and free bits within the number.
    guards: u64,
}

/// The table of one area: least height for each state, and the row that reaches it.
struct AreaTable {
    height_mm: Vec<f64>,
    row: Vec<Option<usize>>,
}

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

/// Most tables that are kept; then all are forgotten.
const MOST_TABLES: usize = 256;

/// All that a table follows from: envelopes and numbers by class, which of them are allowed, gaps, width.
type TableKey = Vec<u64>;

thread_local! {
    /// Candidates share many widths, and their sets of walls nearly all.
    static TABLES: RefCell<HashMap<TableKey, Rc<AreaTable>>> = RefCell::default();
}

/// The table of a width, built once.
fn known_table(
    problem: &EntryProblem,
    states: &States,
    width_mm: f64,
    allowed: &[bool],
) -> Rc<AreaTable> {
    let mut key: TableKey = [width_mm, problem.gap_mm, problem.row_gap_mm]
        .map(f64::to_bits)
        .to_vec();
    for (class, allowed) in problem.classes.iter().zip(allowed) {
        let count = class.members.len() as u64;
        key.extend([class.envelope_mm.to_bits(), count, u64::from(*allowed)]);
    }
    if let Some(known) = TABLES.with_borrow(|tables| tables.get(&key).cloned()) {
        return known;
    }
    let table = Rc::new(AreaTable::new(problem, states, width_mm, allowed));
    TABLES.with_borrow_mut(|tables| {
        if tables.len() >= MOST_TABLES {
            tables.clear();
        }
        tables.insert(key, Rc::clone(&table));
    });
    table
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

impl States {
    fn new(most: Counts) -> Self {
        let mut all = vec![vec![0; most.len()]];
        for (class, most) in most.iter().enumerate() {
            all = all
                .iter()
                .flat_map(|known| {
                    (0..=*most).map(move |count| {
                        let mut counts = known.clone();
                        counts[class] = count;
                        counts
                    })
                })
                .collect();
        }
        let bits = |most: u32| u32::BITS - most.leading_zeros() + 1;
        let packed = |counts: &Counts| {
            let lanes = counts.iter().zip(&most);
            lanes.fold(0, |packed, (count, most)| {
                packed << bits(*most) | u64::from(*count)
            })
        };
        let guards = most.iter().fold(0, |guards, most| {
            guards << bits(*most) | 1 << (bits(*most) - 1)
        });
        Self {
            packed: all.iter().map(packed).collect(),
            guards,
            most,
            all,
        }
    }

    /// Whether the one state has at least as many of every class as the other.
    fn holds(&self, one: usize, other: usize) -> bool {
        // A count that is too small borrows the free bit above it.
        let rest = (self.packed[one] | self.guards) - self.packed[other];
        rest & self.guards == self.guards
    }

    /// The one state less the other, of no class fewer than none.
    fn less(&self, one: usize, other: usize) -> usize {
        let pairs = self.all[one].iter().zip(&self.all[other]);
        let rest: Counts = pairs
            .map(|(one, other)| one.saturating_sub(*other))
            .collect();
        self.index(&rest)
    }

    fn index(&self, counts: &[u32]) -> usize {
        counts
            .iter()
            .zip(&self.most)
            .fold(0, |index, (count, most)| {
                index * (*most as usize + 1) + *count as usize
            })
    }
}

impl AreaTable {
    /// States are in rising order of every count, so smaller states are known before larger ones.
    fn new(problem: &EntryProblem, states: &States, width_mm: f64, allowed: &[bool]) -> Self {
        let mut table = AreaTable {
            height_mm: vec![f64::INFINITY; states.all.len()],
            row: vec![None; states.all.len()],
        };
        // So that the first row, too, may add one gap.
        table.height_mm[0] = -problem.row_gap_mm;
        for state in 1..states.all.len() {
            let counts = &states.all[state];
            if counts
                .iter()
                .zip(allowed)
                .any(|(count, allowed)| *count > 0 && !allowed)
            {
                continue;
            }
            let tallest = (0..counts.len())
                .filter(|class| counts[*class] > 0)
                .max_by(|a, b| envelope(problem, *a).total_cmp(&envelope(problem, *b)));
            let Some(tallest) = tallest else { continue };
            let mut row = vec![0; counts.len()];
            row[tallest] = 1;
            let left_mm = width_mm + problem.gap_mm - step(problem, tallest);
            let mut best = (f64::INFINITY, None);
            try_rows(
                problem, states, &table, counts, &mut row, 0, left_mm, &mut best,
            );
            table.height_mm[state] = best.0 + problem.row_gap_mm + envelope(problem, tallest);
            table.row[state] = best.1;
        }
        table
    }
}

fn envelope(problem: &EntryProblem, class: usize) -> f64 {
    problem.classes[class].envelope_mm
}

fn step(problem: &EntryProblem, class: usize) -> f64 {
    envelope(problem, class) + problem.gap_mm
}

/// Goes through all full rows: each class in turn takes from none to all that fit; rows that could take
/// one more of the last class are no better than those that do.
#[allow(clippy::too_many_arguments)]
fn try_rows(
    problem: &EntryProblem,
    states: &States,
    table: &AreaTable,
    counts: &[u32],
    row: &mut Counts,
    class: usize,
    left_mm: f64,
    best: &mut (f64, Option<usize>),
) {
    if left_mm < -1e-9 {
        return;
    }
    if class == counts.len() {
        // Indices are numbers of mixed base, so they subtract as the counts do.
        let rest = states.index(counts) - states.index(row);
        let below_mm = table.height_mm[rest];
        if below_mm < best.0 - 1e-9 {
            *best = (below_mm, Some(states.index(row)));
        }
        return;
    }
    let free = counts[class] - row[class];
    let fits = ((left_mm + 1e-9) / step(problem, class)).floor().max(0.0) as u32;
    let most = free.min(fits);
    let least = if class + 1 == counts.len() { most } else { 0 };
    let before = row[class];
    for more in (least..=most).rev() {
        row[class] = before + more;
        let left_mm = left_mm - f64::from(more) * step(problem, class);
        try_rows(
            problem,
            states,
            table,
            counts,
            row,
            class + 1,
            left_mm,
            best,
        );
    }
    row[class] = before;
}

/// No way leads to a state.
const NO_WAY: u32 = u32::MAX;

/// The cheapest ways to each state of what is left after an area: their cost, and what the area takes.
struct Ways {
    cost: Vec<u32>,
    taken: Vec<usize>,
}

fn fill_areas(
    problem: &EntryProblem,
    states: &States,
    keys: &[(u64, Vec<bool>)],
    tables: &BTreeMap<(u64, Vec<bool>), Rc<AreaTable>>,
) -> Result<Vec<EntryRow>, Undivided> {
    let takeable: Vec<Vec<usize>> = problem
        .areas
        .iter()
        .zip(keys)
        .map(|(area, key)| {
            let table = &tables[key];
            (0..states.all.len())
                .filter(|state| table.height_mm[*state] <= area.rect.height_mm + 1e-9)
                .filter(|state| keeps_certified(problem, area.wall, &states.all[*state]))
                .collect()
        })
        .collect();
    if !all_find_room(states, &takeable) {
        return Err(Undivided::Impossible);
    }
    let everything = states.all.len() - 1;
    let mut steps: Vec<Ways> = Vec::new();
    let mut cost_so_far = vec![NO_WAY; states.all.len()];
    cost_so_far[everything] = 0;
    for (area, takeable) in problem.areas.iter().zip(&takeable) {
        let costs: Vec<u32> = takeable
            .iter()
            .map(|state| cost_on(problem, area.wall, &states.all[*state]))
            .collect();
        let mut ways = Ways {
            cost: vec![NO_WAY; states.all.len()],
            taken: vec![0; states.all.len()],
        };
        for left in (0..=everything).filter(|left| cost_so_far[*left] != NO_WAY) {
            for (state, cost) in takeable.iter().zip(&costs) {
                if *state > left || !states.holds(left, *state) {
                    continue;
                }
                let cost = cost_so_far[left] + cost;
                // Indices are numbers of mixed base, so they subtract as the counts do.
                let rest = left - state;
                if cost < ways.cost[rest] {
                    ways.cost[rest] = cost;
                    ways.taken[rest] = *state;
                }
            }
        }
        cost_so_far.clone_from(&ways.cost);
        steps.push(ways);
    }
    if cost_so_far[0] == NO_WAY {
        return Err(Undivided::Impossible);
    }
    let mut rest = 0;
    let mut taken: Vec<usize> = steps
        .iter()
        .rev()
        .map(|ways| {
            let state = ways.taken[rest];
            rest += state;
            state
        })
        .collect();
    taken.reverse();
    Ok(read_rows(problem, states, keys, tables, &taken))
}

/// Whether the areas take everything, whatever it costs. An area that takes more leaves less to the others,
/// so only what no other state exceeds is tried, and of what is left only what no other is below.
fn all_find_room(states: &States, takeable: &[Vec<usize>]) -> bool {
    let mut left = vec![states.all.len() - 1];
    if left == [0] {
        return true;
    }
    for takeable in takeable {
        let mut largest: Vec<usize> = Vec::new();
        for state in takeable.iter().rev() {
            if !largest.iter().any(|known| states.holds(*known, *state)) {
                largest.push(*state);
            }
        }
        let mut rests: Vec<usize> = left
            .iter()
            .flat_map(|left| largest.iter().map(|state| states.less(*left, *state)))
            .collect();
        rests.sort_unstable();
        rests.dedup();
        left.clear();
        for rest in rests {
            if !left.iter().any(|known| states.holds(rest, *known)) {
                left.push(rest);
            }
        }
        if left.first() == Some(&0) {
            return true;
        }
    }
    false
}

fn keeps_certified(problem: &EntryProblem, wall: crate::space::Face, taken: &[u32]) -> bool {
    problem.certified.get(&wall).is_none_or(|threads| {
        threads.iter().all(|(thread, most)| {
            let of_thread = problem
                .classes
                .iter()
                .zip(taken)
                .filter(|(class, _)| class.thread == *thread);
            of_thread.map(|(_, count)| count).sum::<u32>() <= *most
        })
    })
}

/// Each entry on a wall costs the wall's place in its order of preference.
fn cost_on(problem: &EntryProblem, wall: crate::space::Face, taken: &[u32]) -> u32 {
    problem
        .classes
        .iter()
        .zip(taken)
        .map(|(class, count)| {
            class
                .walls
                .iter()
                .position(|known| *known == wall)
                .unwrap_or(0) as u32
                * count
        })
        .sum()
}

/// Deals the members of each class out to the rows, in the order of the list.
fn read_rows(
    problem: &EntryProblem,
    states: &States,
    keys: &[(u64, Vec<bool>)],
    tables: &BTreeMap<(u64, Vec<bool>), Rc<AreaTable>>,
    taken: &[usize],
) -> Vec<EntryRow> {
    let mut members: Vec<std::slice::Iter<'_, usize>> = problem
        .classes
        .iter()
        .map(|class| class.members.iter())
        .collect();
    let mut rows = Vec::new();
    for ((area, key), state) in problem.areas.iter().zip(keys).zip(taken) {
        let table = &tables[key];
        let mut left = states.all[*state].clone();
        while let Some(row) = table.row[states.index(&left)] {
            let counts = &states.all[row];
            let mut entries = Vec::new();
            for (class, count) in counts.iter().enumerate() {
                entries.extend(members[class].by_ref().take(*count as usize).copied());
                left[class] -= count;
            }
            entries.sort_unstable();
            rows.push(EntryRow {
                wall: area.wall,
                area: area.rect,
                area_index: area.index,
                entries,
            });
        }
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::super::{EntryArea, EntryClass, EntryProblem, greedy, program};
    use super::{States, place};
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
    fn states_are_compared_class_by_class() {
        let states = States::new(vec![3, 1, 7, 2]);
        for (one, counts) in states.all.iter().enumerate() {
            for (other, others) in states.all.iter().enumerate() {
                let holds = counts.iter().zip(others).all(|(one, other)| one >= other);
                assert_eq!(states.holds(one, other), holds, "{counts:?} {others:?}");
            }
        }
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
