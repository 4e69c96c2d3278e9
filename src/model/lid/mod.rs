//! Operating elements in rows on the lid.
//!
//! Rows follow what an operator expects: meters above lamps, lamps above what is operated, the
//! emergency stop lowest and rightmost; the list may name rows, and elements above or beside each
//! other. A row is as high as its highest element.

mod columns;
mod counts;
mod lines;
mod program;

pub use columns::{BesideLine, Pair, across};

use super::metal::between_elements_mm;
use super::milp::{Decision, Effort, Program};
use crate::arrangement::Limits;
use crate::catalogue::ElementKind;
use crate::demand::Demand;
use crate::requirements::RequirementList;
use itertools::Itertools;

/// One element as the lid sees it.
#[derive(Debug, Clone)]
pub struct LidItem {
    /// Index in the demand.
    pub element: usize,
    /// Width: the larger of footprint and body.
    pub width_mm: f64,
    /// Height: the larger of footprint and body.
    pub height_mm: f64,
    /// Whether it is an emergency stop, which stands free.
    pub free_standing: bool,
    /// Place in the order from top to bottom; meters 0, lamps 1, operated 2, emergency stop 3.
    pub rank: u32,
    /// Row that the list names.
    pub row: Option<u32>,
    /// Place in the row: what the list names, then start before stop, then the list's order.
    pub order: (u32, u32, usize),
    /// Item that must lie in a lower row, on one vertical line with this one where that is possible.
    pub above: Option<usize>,
    /// Item that must lie in the same row.
    pub beside: Option<usize>,
}

impl LidItem {
    /// Whether an operator expects this one not below the other: a higher rank, or start and stop.
    fn goes_before(&self, other: &LidItem) -> bool {
        let start_and_stop = self.order.1 == 0 && other.order.1 == 2;
        self.rank < other.rank || (self.rank == other.rank && start_and_stop)
    }
}

/// The problem.
#[derive(Debug, Clone)]
pub struct LidProblem {
    /// Elements.
    pub items: Vec<LidItem>,
    /// Gap between footprints.
    pub gap_mm: f64,
    /// Gap around what stands free.
    pub free_mm: f64,
}

/// Items a and b and a least difference: the row of b is at least that of a plus the difference.
type After = (usize, usize, u32);

/// Rows from the top, each with item indices from left to right.
pub type LidRows = Vec<Vec<usize>>;

/// What came of trying to place the elements.
#[derive(Debug, Clone, PartialEq)]
pub enum LidOutcome {
    /// Placed, with the height of the rows.
    Placed {
        /// Rows.
        rows: LidRows,
        /// Height.
        height_mm: f64,
    },
    /// Proved impossible; the least size that the rows need, as far as it is known.
    Impossible {
        /// Width and height.
        needed_mm: [f64; 2],
    },
    /// Neither.
    Undecided(String),
}

/// States the problem for a demand.
pub fn lid_problem(list: &RequirementList, demand: &Demand<'_>, limits: &Limits) -> LidProblem {
    let item_of = |element: usize| {
        demand
            .elements
            .iter()
            .position(|need| need.index == element)
    };
    let kinds = demand
        .elements
        .iter()
        .filter_map(|need| need.kind)
        .unique()
        .count();
    // Bodies of both kinds of circuit side by side keep the separation.
    let apart_mm = if kinds > 1 {
        limits.intrinsic_separation_mm
    } else {
        0.0
    };
    // Bare parts keep their distance from the body beside them.
    let apart_mm = apart_mm.max(between_elements_mm(list, demand, limits));
    let items = demand
        .elements
        .iter()
        .map(|need| {
            let requirement = &list.elements[need.index];
            let part = need.part;
            let starts = match requirement.function.as_str() {
                "start" | "on" => 0,
                "stop" | "off" => 2,
                _ => 1,
            };
            LidItem {
                element: need.index,
                width_mm: part.footprint_mm[0].max(part.body_mm[0]),
                height_mm: part.footprint_mm[1].max(part.body_mm[1]),
                free_standing: part.kind == ElementKind::EmergencyStop,
                rank: match part.kind {
                    ElementKind::Ammeter | ElementKind::Voltmeter => 0,
                    ElementKind::Lamp => 1,
                    ElementKind::EmergencyStop => 3,
                    _ => 2,
                },
                row: requirement.placing.row,
                order: (
                    requirement.placing.order.unwrap_or(u32::MAX),
                    starts,
                    need.index,
                ),
                above: requirement.placing.above.and_then(item_of),
                beside: requirement.placing.beside.and_then(item_of),
            }
        })
        .collect();
    LidProblem {
        items,
        gap_mm: limits.element_gap_mm.max(apart_mm),
        free_mm: limits
            .emergency_stop_free_mm
            .max(limits.element_gap_mm)
            .max(apart_mm),
    }
}

/// The exact program of least height for rows of at most a width.
pub fn lid_program(problem: &LidProblem, width_mm: f64) -> Program {
    program::build(problem, width_mm).0
}

/// Places the elements in a rectangle.
pub fn place_elements(
    problem: &LidProblem,
    width_mm: f64,
    height_mm: f64,
    effort: Effort,
) -> LidOutcome {
    if problem.items.is_empty() {
        return LidOutcome::Placed {
            rows: Vec::new(),
            height_mm: 0.0,
        };
    }
    let widest_mm = problem
        .items
        .iter()
        .map(|item| item.width_mm)
        .fold(0.0, f64::max);
    let tallest_mm = problem
        .items
        .iter()
        .map(|item| item.height_mm)
        .fold(0.0, f64::max);
    let area_mm2: f64 = problem
        .items
        .iter()
        .map(|item| (item.width_mm + problem.gap_mm) * (item.height_mm + problem.gap_mm))
        .sum();
    if widest_mm > width_mm + 1e-9 || tallest_mm > height_mm + 1e-9 {
        return LidOutcome::Impossible {
            needed_mm: [widest_mm, tallest_mm],
        };
    }
    // Each element takes its size and one gap each way; the rectangle is enlarged by one gap.
    if area_mm2 > (width_mm + problem.gap_mm) * (height_mm + problem.gap_mm) + 1e-6 {
        let least_height_mm = area_mm2 / (width_mm + problem.gap_mm) - problem.gap_mm;
        return LidOutcome::Impossible {
            needed_mm: [width_mm, least_height_mm],
        };
    }
    let quick = lines::place(problem, width_mm);
    if let Some((rows, needed_mm)) = &quick
        && *needed_mm <= height_mm + 1e-9
    {
        return LidOutcome::Placed {
            rows: rows.clone(),
            height_mm: *needed_mm,
        };
    }
    let exact = match counts::place(problem, width_mm) {
        Some(rows) => rows.ok_or(Decision::Infeasible),
        None => program::place(problem, width_mm, effort),
    };
    match exact {
        Ok((rows, needed_mm)) if needed_mm <= height_mm + 1e-9 => {
            // Of equally low ones the usual order is kept.
            match quick {
                Some((rows, quick_mm)) if quick_mm <= needed_mm + 1e-9 => LidOutcome::Placed {
                    rows,
                    height_mm: quick_mm,
                },
                _ => LidOutcome::Placed {
                    rows,
                    height_mm: needed_mm,
                },
            }
        }
        Ok((_, needed_mm)) => LidOutcome::Impossible {
            needed_mm: [width_mm, needed_mm],
        },
        Err(Decision::Infeasible) => LidOutcome::Impossible {
            needed_mm: [widest_mm, tallest_mm],
        },
        Err(Decision::Undecided(why)) => match quick {
            Some((rows, needed_mm)) if needed_mm <= height_mm + 1e-9 => LidOutcome::Placed {
                rows,
                height_mm: needed_mm,
            },
            _ => LidOutcome::Undecided(why),
        },
        Err(Decision::Feasible { .. }) => {
            LidOutcome::Undecided("the rows could not be read back".to_string())
        }
    }
}

impl LidProblem {
    /// Puts the items of a row in order from left to right: what stands free comes last.
    pub fn sort_row(&self, row: &mut [usize]) {
        row.sort_by_key(|item| (self.items[*item].free_standing, self.items[*item].order));
    }

    /// Gap between two neighbours in a row, or between rows that hold them.
    pub fn gap_between_mm(&self, a: bool, b: bool) -> f64 {
        if a || b { self.free_mm } else { self.gap_mm }
    }

    /// Length of a row that is in order.
    pub fn row_length_mm(&self, row: &[usize]) -> f64 {
        let widths: f64 = row.iter().map(|item| self.items[*item].width_mm).sum();
        let gaps: f64 = row
            .iter()
            .tuple_windows()
            .map(|(a, b)| {
                self.gap_between_mm(self.items[*a].free_standing, self.items[*b].free_standing)
            })
            .sum();
        widths + gaps
    }

    /// Height of a row.
    pub fn row_height_mm(&self, row: &[usize]) -> f64 {
        row.iter()
            .map(|item| self.items[*item].height_mm)
            .fold(0.0, f64::max)
    }

    /// Gap between two rows.
    pub fn row_gap_mm(&self, upper: &[usize], lower: &[usize]) -> f64 {
        let free = |row: &[usize]| row.iter().any(|item| self.items[*item].free_standing);
        self.gap_between_mm(free(upper), free(lower))
    }

    /// Height of all rows with their gaps.
    pub fn height_mm(&self, rows: &[Vec<usize>]) -> f64 {
        let heights: f64 = rows.iter().map(|row| self.row_height_mm(row)).sum();
        let gaps: f64 = rows
            .iter()
            .tuple_windows()
            .map(|(upper, lower)| self.row_gap_mm(upper, lower))
            .sum();
        heights + gaps
    }

    /// Pairs (a, b, least) such that the row number of b is at least that of a plus `least`, and pairs
    /// that share a row.
    pub(super) fn order_rules(&self) -> (Vec<After>, Vec<(usize, usize)>) {
        let mut after = Vec::new();
        let mut same = Vec::new();
        for (a, item) in self.items.iter().enumerate() {
            after.extend(item.above.map(|below| (a, below, 1)));
            same.extend(item.beside.map(|other| (a, other)));
            for (b, other) in self.items.iter().enumerate() {
                match (item.row, other.row) {
                    (Some(row), Some(lower)) if row < lower => after.push((a, b, 1)),
                    (Some(row), Some(equal)) if row == equal && a < b => same.push((a, b)),
                    (None, None) if item.goes_before(other) && !self.placed_by_list(a, b) => {
                        after.push((a, b, 0));
                    }
                    _ => {}
                }
            }
        }
        (after, same)
    }

    /// Whether the list itself says how two items lie to each other.
    fn placed_by_list(&self, a: usize, b: usize) -> bool {
        let names = |from: usize, to: usize| {
            self.items[from].above == Some(to) || self.items[from].beside == Some(to)
        };
        names(a, b) || names(b, a)
    }
}
