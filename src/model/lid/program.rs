//! The exact rows as a mixed-integer program of least height.

use super::{LidProblem, LidRows};
use crate::model::milp::{Decision, Effort, Program, Sense, Var};
use itertools::Itertools;

/// Rows and their least height, or why there are none.
pub(super) fn place(
    problem: &LidProblem,
    width_mm: f64,
    effort: Effort,
) -> Result<(LidRows, f64), Decision> {
    let (program, in_row) = build(problem, width_mm);
    match program.solve(effort) {
        Decision::Feasible {
            values,
            proven: true,
        } => {
            let mut rows: LidRows = in_row
                .iter()
                .map(|row| {
                    (0..problem.items.len())
                        .filter(|item| row[*item].of(&values) > 0.5)
                        .collect_vec()
                })
                .filter(|row| !row.is_empty())
                .collect();
            for row in &mut rows {
                problem.sort_row(row);
            }
            let height_mm = problem.height_mm(&rows);
            Ok((rows, height_mm))
        }
        // Not proved least: whether a lower one exists is open.
        Decision::Feasible { .. } => Err(Decision::Undecided(
            "the least height of the rows is not proved".to_string(),
        )),
        other => Err(other),
    }
}

/// States the program; with it, by row from the top and by item, whether the item is in the row.
pub(super) fn build(problem: &LidProblem, width_mm: f64) -> (Program, Vec<Vec<Var>>) {
    let count = problem.items.len();
    let mut program = Program::default();
    let tallest_mm = problem
        .items
        .iter()
        .map(|item| item.height_mm)
        .fold(0.0, f64::max);
    // in_row[r][i]: item i is in row r, counted from the top.
    let in_row: Vec<Vec<Var>> = (0..count)
        .map(|row| {
            (0..count)
                .map(|item| program.binary(format!("item {item} in row {row}"), 0.0))
                .collect()
        })
        .collect();
    let used: Vec<Var> = (0..count)
        .map(|row| program.binary(format!("row {row} used"), 0.0))
        .collect();
    let free: Vec<Var> = (0..count)
        .map(|row| program.binary(format!("row {row} holds a free one"), 0.0))
        .collect();
    for row in 0..count {
        let height = program.length(format!("height of row {row}"), 0.0, tallest_mm, 1.0);
        for (item, known) in problem.items.iter().enumerate() {
            let name = format!("item {item} in row {row}");
            program.row(
                format!("height {name}"),
                vec![(height, 1.0), (in_row[row][item], -known.height_mm)],
                Sense::AtLeast,
                0.0,
            );
            program.row(
                format!("used {name}"),
                vec![(used[row], 1.0), (in_row[row][item], -1.0)],
                Sense::AtLeast,
                0.0,
            );
            if known.free_standing {
                program.row(
                    format!("free {name}"),
                    vec![(free[row], 1.0), (in_row[row][item], -1.0)],
                    Sense::AtLeast,
                    0.0,
                );
            }
        }
        let some = in_row[row]
            .iter()
            .map(|item| (*item, 1.0))
            .chain([(used[row], -1.0)])
            .collect_vec();
        program.row(format!("row {row} is not empty"), some, Sense::AtLeast, 0.0);
        add_length(&mut program, problem, &in_row[row], width_mm, row);
        if row > 0 {
            program.row(
                format!("rows from the top {row}"),
                vec![(used[row - 1], 1.0), (used[row], -1.0)],
                Sense::AtLeast,
                0.0,
            );
            // Gap above this row: the usual one, the greater one next to what stands free.
            let gap = program.length(format!("gap above row {row}"), 0.0, problem.free_mm, 1.0);
            program.row(
                format!("usual gap {row}"),
                vec![(gap, 1.0), (used[row], -problem.gap_mm)],
                Sense::AtLeast,
                0.0,
            );
            for near in [row - 1, row] {
                program.row(
                    format!("free gap {row} for {near}"),
                    vec![
                        (gap, 1.0),
                        (free[near], -problem.free_mm),
                        (used[row], -problem.free_mm),
                    ],
                    Sense::AtLeast,
                    -problem.free_mm,
                );
            }
        }
    }
    for item in 0..count {
        let all = in_row.iter().map(|row| (row[item], 1.0)).collect();
        program.row(format!("item {item} somewhere"), all, Sense::Equal, 1.0);
    }
    let (after, same) = problem.order_rules();
    let number = |item: usize, factor: f64| {
        (0..count)
            .map(|row| (in_row[row][item], factor * row as f64))
            .collect_vec()
    };
    for (a, b, least) in after {
        let terms = number(b, 1.0).into_iter().chain(number(a, -1.0)).collect();
        program.row(
            format!("item {b} not above {a}"),
            terms,
            Sense::AtLeast,
            f64::from(least),
        );
    }
    for (a, b) in same {
        let terms = number(b, 1.0).into_iter().chain(number(a, -1.0)).collect();
        program.row(format!("item {b} beside {a}"), terms, Sense::Equal, 0.0);
    }
    (program, in_row)
}

/// Length of a row: widths, usual gaps between all, and the greater gap before each free one. A row of
/// free ones alone has one greater gap fewer.
fn add_length(
    program: &mut Program,
    problem: &LidProblem,
    in_row: &[Var],
    width_mm: f64,
    row: usize,
) {
    let extra_mm = problem.free_mm - problem.gap_mm;
    let mut terms: Vec<(Var, f64)> = Vec::new();
    let mut usual: Vec<(Var, f64)> = Vec::new();
    for (item, known) in problem.items.iter().enumerate() {
        let free_mm = if known.free_standing { extra_mm } else { 0.0 };
        terms.push((in_row[item], known.width_mm + problem.gap_mm + free_mm));
        if !known.free_standing {
            usual.push((in_row[item], 1.0));
        }
    }
    // 1 only where no usual element is in the row.
    let only_free = program.binary(format!("only free ones in row {row}"), 0.0);
    for (var, factor) in &usual {
        program.row(
            format!("only free in row {row}"),
            vec![(only_free, 1.0), (*var, *factor)],
            Sense::AtMost,
            1.0,
        );
    }
    terms.push((only_free, -extra_mm));
    program.row(
        format!("length of row {row}"),
        terms,
        Sense::AtMost,
        width_mm + problem.gap_mm,
    );
}
