//! The table of one area: the least height that rows need for each state. Built once for each width.

use super::states::{Counts, States};
use crate::model::walls::EntryProblem;
use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

/// The table of one area: least height for each state, and the row that reaches it.
pub(super) struct AreaTable {
    pub height_mm: Vec<f64>,
    pub row: Vec<Option<usize>>,
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
pub(super) fn known_table(
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
