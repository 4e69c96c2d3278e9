//! A quick way to rows: the elements in their usual order, broken into lines of least total height.
//!
//! The order is fixed first (rows that the list names, then rank, then order in the row); a line break
//! after each prefix is chosen by dynamic programming. Where the list asks for more than that order
//! gives, the exact program decides.

use super::{LidProblem, LidRows};

/// Rows and their height, or nothing where the width or an order rule does not allow it.
pub(super) fn place(problem: &LidProblem, width_mm: f64) -> Option<(LidRows, f64)> {
    let mut order: Vec<usize> = (0..problem.items.len()).collect();
    order.sort_by_key(|item| {
        let known = &problem.items[*item];
        (known.row.unwrap_or(u32::MAX), known.rank, known.order)
    });
    // best[n]: least height of the first n items in lines, with the start of the last line.
    let mut best: Vec<Option<(f64, usize)>> = vec![None; order.len() + 1];
    best[0] = Some((0.0, 0));
    for end in 1..=order.len() {
        for start in (0..end).rev() {
            let mut line = order[start..end].to_vec();
            problem.sort_row(&mut line);
            if problem.row_length_mm(&line) > width_mm + 1e-9 {
                continue;
            }
            let Some((above_mm, before)) = best[start] else {
                continue;
            };
            let gap_mm = if start == 0 {
                0.0
            } else {
                problem.row_gap_mm(&order[before..start], &line)
            };
            let height_mm = above_mm + gap_mm + problem.row_height_mm(&line);
            if best[end].is_none_or(|(known, _)| height_mm < known - 1e-9) {
                best[end] = Some((height_mm, start));
            }
        }
    }
    let mut rows = Vec::new();
    let mut end = order.len();
    while end > 0 {
        let (_, start) = best[end]?;
        let mut row = order[start..end].to_vec();
        problem.sort_row(&mut row);
        rows.push(row);
        end = start;
    }
    rows.reverse();
    keeps_order(problem, &rows).then(|| {
        let height_mm = problem.height_mm(&rows);
        (rows, height_mm)
    })
}

/// Whether rows keep every order rule.
pub(super) fn keeps_order(problem: &LidProblem, rows: &LidRows) -> bool {
    let mut row_of = vec![0; problem.items.len()];
    for (row, items) in rows.iter().enumerate() {
        for item in items {
            row_of[*item] = row;
        }
    }
    let (after, same) = problem.order_rules();
    after
        .iter()
        .all(|(a, b, least)| row_of[*b] >= row_of[*a] + *least as usize)
        && same.iter().all(|(a, b)| row_of[*a] == row_of[*b])
}
