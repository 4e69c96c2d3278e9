//! Plans: how many rows of which height each area has. Once these are settled only their filling is open.
//!
//! In every division the rows of an area can be made as many and as tall as its height allows: a taller row takes
//! no less. So only plans are gone through to which no row can be added and none made taller. Rows of a plan hold
//! what the capacities say, all prices at once; where no choice of plans holds what is asked for, there is no
//! division. The filling itself is tried in quick ways, then decided by a table over the numbers of all kinds but the
//! lowest, where these are few; elsewhere what is not filled proves nothing.

use super::capacity::Capacity;
use super::kinds::Kinds;
use super::search::{Found, NOISE_MM, Row};
use super::table;

/// Most plans of one area, and most choices of plans that are filled.
const MOST_PLANS: usize = 400;
const MOST_FILLED: usize = 400;
/// Most choices that are looked at in all.
const MOST_LOOKED_AT: usize = 200_000;

/// Number of rows by the kind that gives their height.
type Plan = Vec<u32>;

struct Planner<'k> {
    kinds: &'k Kinds,
    capacities: &'k [Capacity<'k>],
    counts: &'k [u32],
    /// By area: plans, and what each holds at each price.
    plans: Vec<Vec<(Plan, Vec<i64>)>>,
    /// By area: the most that it and all after it hold at each price.
    most_after: Vec<Vec<i64>>,
    looked_at: usize,
    filled: usize,
    /// Whether some choice was left aside or could not be filled.
    open: bool,
}

/// Goes through the choices of plans.
pub(super) fn run(kinds: &Kinds, counts: &[u32], capacities: &[Capacity<'_>]) -> Found {
    let mut plans = Vec::new();
    for area in 0..kinds.areas.len() {
        let Some(of_area) = plans_of(kinds, area) else {
            return Found::Open;
        };
        let valued = of_area.into_iter().map(|plan| {
            let held = capacities
                .iter()
                .map(|capacity| held(kinds, capacity, area, &plan));
            let held = held.collect();
            (plan, held)
        });
        plans.push(valued.collect::<Vec<(Plan, Vec<i64>)>>());
    }
    let mut most_after = vec![vec![0; capacities.len()]; kinds.areas.len() + 1];
    for area in (0..kinds.areas.len()).rev() {
        for price in 0..capacities.len() {
            let most = plans[area].iter().map(|(_, held)| held[price]).max();
            most_after[area][price] = most_after[area + 1][price] + most.unwrap_or(0);
        }
    }
    let mut planner = Planner {
        kinds,
        capacities,
        counts,
        plans,
        most_after,
        looked_at: 0,
        filled: 0,
        open: false,
    };
    let missing: Vec<i64> = capacities
        .iter()
        .map(|capacity| capacity.price(counts))
        .collect();
    match planner.choose(&mut Vec::new(), &missing) {
        Some(rows) => Found::Rows(rows),
        None if planner.open => Found::Open,
        None => Found::Nothing,
    }
}

impl Planner<'_> {
    /// Chooses a plan for the next area; `missing` is what the areas left must hold at each price.
    fn choose(&mut self, chosen: &mut Vec<usize>, missing: &[i64]) -> Option<Vec<Row>> {
        let area = chosen.len();
        self.looked_at += 1;
        if self.looked_at > MOST_LOOKED_AT {
            self.open = true;
            return None;
        }
        let too_much = |(missing, most): (&i64, &i64)| missing > most;
        if missing.iter().zip(&self.most_after[area]).any(too_much) {
            return None;
        }
        if area == self.kinds.areas.len() {
            return self.fill(chosen);
        }
        // Areas that are alike take their plans in order.
        let known = &self.kinds.areas;
        let alike = (0..area).rev().find(|before| {
            known[*before].like == known[area].like
                && known[*before].height_mm == known[area].height_mm
        });
        for plan in alike.map_or(0, |before| chosen[before])..self.plans[area].len() {
            let held = &self.plans[area][plan].1;
            let left: Vec<i64> = missing
                .iter()
                .zip(held)
                .map(|(all, held)| all - held)
                .collect();
            chosen.push(plan);
            let rows = self.choose(chosen, &left);
            chosen.pop();
            if rows.is_some() {
                return rows;
            }
        }
        None
    }

    fn fill(&mut self, chosen: &[usize]) -> Option<Vec<Row>> {
        self.filled += 1;
        if self.filled > MOST_FILLED {
            self.open = true;
            return None;
        }
        // The tallest rows first, wherever they are.
        let mut rows: Vec<(usize, usize)> = Vec::new();
        for top in 0..self.kinds.kinds.len() {
            for (area, plan) in chosen.iter().enumerate() {
                let number = self.plans[area][*plan].0[top];
                rows.extend(std::iter::repeat_n((area, top), number as usize));
            }
        }
        let quick = filled_in_order(self.kinds, self.counts, &rows).or_else(|| {
            self.capacities
                .iter()
                .find_map(|capacity| filled_fully(self.kinds, self.counts, &rows, capacity))
        });
        quick.or_else(|| match table::filled(self.kinds, self.counts, &rows) {
            Some(exact) => exact,
            None => {
                self.open = true;
                None
            }
        })
    }
}

/// What the rows of a plan hold at most, at some prices.
fn held(kinds: &Kinds, capacity: &Capacity<'_>, area: usize, plan: &[u32]) -> i64 {
    let length = kinds.areas[area].length;
    let of_top =
        |(top, number): (usize, &u32)| i64::from(*number) * capacity.of_row(area, top, length);
    plan.iter().enumerate().map(of_top).sum()
}

/// The plans of an area to which no row can be added and none made taller; `None` where they are too many.
fn plans_of(kinds: &Kinds, area: usize) -> Option<Vec<Plan>> {
    let mut all = Vec::new();
    let mut plan = vec![0; kinds.kinds.len()];
    let height_mm = kinds.areas[area].height_mm;
    grow(kinds, area, 0, height_mm, &mut plan, &mut all);
    if all.len() > 4 * MOST_PLANS {
        return None;
    }
    // One plan stands for another where, from the tallest on, it never has fewer rows.
    let at_least = |one: &Plan, other: &Plan| {
        let (mut of_one, mut of_other) = (0, 0);
        one.iter().zip(other).all(|(a, b)| {
            of_one += a;
            of_other += b;
            of_one >= of_other
        })
    };
    let kept: Vec<Plan> = all
        .iter()
        .filter(|plan| {
            !all.iter()
                .any(|other| other != *plan && at_least(other, plan))
        })
        .cloned()
        .collect();
    (kept.len() <= MOST_PLANS).then_some(kept)
}

fn grow(
    kinds: &Kinds,
    area: usize,
    top: usize,
    left_mm: f64,
    plan: &mut Plan,
    all: &mut Vec<Plan>,
) {
    if all.len() > 4 * MOST_PLANS {
        return;
    }
    if top == kinds.kinds.len() {
        all.push(plan.clone());
        return;
    }
    let fits = match kinds.areas[area].takes[top] {
        true => ((left_mm + NOISE_MM) / kinds.kinds[top].height_mm)
            .floor()
            .max(0.0) as u32,
        false => 0,
    };
    for number in (0..=fits).rev() {
        plan[top] = number;
        let rest_mm = left_mm - f64::from(number) * kinds.kinds[top].height_mm;
        grow(kinds, area, top + 1, rest_mm, plan, all);
    }
    plan[top] = 0;
}

/// Every kind, the tallest first, into the first rows that are tall enough and have room.
fn filled_in_order(kinds: &Kinds, counts: &[u32], rows: &[(usize, usize)]) -> Option<Vec<Row>> {
    let mut left_mm: Vec<f64> = rows
        .iter()
        .map(|(area, _)| kinds.areas[*area].length_mm)
        .collect();
    let mut taken = vec![vec![0; counts.len()]; rows.len()];
    for (kind, count) in counts.iter().enumerate() {
        let mut left = *count;
        // The lowest that are tall enough first: what is taller may still be wanted.
        for (row, (area, top)) in rows.iter().enumerate().rev() {
            if *top > kind || !kinds.areas[*area].takes[kind] {
                continue;
            }
            let length_mm = kinds.kinds[kind].length_mm;
            let fits = ((left_mm[row] + NOISE_MM) / length_mm).floor().max(0.0) as u32;
            let more = fits.min(left);
            taken[row][kind] += more;
            left_mm[row] -= f64::from(more) * length_mm;
            left -= more;
        }
        if left > 0 {
            return None;
        }
    }
    Some(rows_of(rows, taken))
}

/// Row by row, the tallest first, as dear as what is left permits.
fn filled_fully(
    kinds: &Kinds,
    counts: &[u32],
    rows: &[(usize, usize)],
    capacity: &Capacity<'_>,
) -> Option<Vec<Row>> {
    let mut left = counts.to_vec();
    let mut taken = Vec::new();
    for (area, top) in rows {
        let row = capacity.fullest_row(*area, *top, &left);
        for (left, taken) in left.iter_mut().zip(&row) {
            *left -= taken;
        }
        let lengths = row.iter().zip(&kinds.kinds);
        let length_mm: f64 = lengths
            .map(|(count, kind)| f64::from(*count) * kind.length_mm)
            .sum();
        if length_mm > kinds.areas[*area].length_mm + NOISE_MM {
            return None;
        }
        taken.push(row);
    }
    left.iter()
        .all(|left| *left == 0)
        .then(|| rows_of(rows, taken))
}

pub(super) fn rows_of(rows: &[(usize, usize)], taken: Vec<Vec<u32>>) -> Vec<Row> {
    let pairs = rows.iter().map(|(area, _)| *area).zip(taken);
    pairs
        .filter(|(_, row)| row.iter().any(|count| *count > 0))
        .collect()
}
