//! The filling of given rows, decided: for each number of entries of all kinds but the lowest, the most entries of
//! the lowest kind that find room beside them.

use super::kinds::Kinds;
use super::plan::rows_of;
use super::search::{NOISE_MM, Row};

/// Most numbers of the kinds but the lowest, and most steps over all rows.
const MOST_STATES: usize = 5_000;
const MOST_STEPS: usize = 3_000_000;

/// What one row takes: more of the state, and of the lowest kind.
type Step = (usize, u32);

/// The rows, each its area and the kind that gives its height, with all entries in them, or nothing where that is
/// impossible; `None` where there is too much to go through.
pub(super) fn filled(
    kinds: &Kinds,
    counts: &[u32],
    rows: &[(usize, usize)],
) -> Option<Option<Vec<Row>>> {
    let (lowest, taller) = counts.split_last()?;
    let mut weights = Vec::new();
    let mut states = 1usize;
    for count in taller {
        weights.push(states);
        states = states.checked_mul(*count as usize + 1)?;
    }
    if states > MOST_STATES {
        return None;
    }
    let mut steps_left = MOST_STEPS;
    let mut best: Vec<Option<u32>> = vec![None; states];
    best[0] = Some(0);
    let mut ways: Vec<Vec<Option<Step>>> = Vec::new();
    for (area, top) in rows {
        let choices = choices(kinds, taller, &weights, *area, *top);
        steps_left = steps_left.checked_sub(choices.len().checked_mul(states)?)?;
        let mut next: Vec<Option<u32>> = vec![None; states];
        let mut way: Vec<Option<Step>> = vec![None; states];
        for (state, known) in best.iter().enumerate() {
            let Some(known) = known else { continue };
            for (numbers, more, low) in &choices {
                let holds = |kind: usize| {
                    state / weights[kind] % (taller[kind] as usize + 1) + numbers[kind] as usize
                        <= taller[kind] as usize
                };
                if !(0..taller.len()).all(holds) {
                    continue;
                }
                let there = state + more;
                if next[there].is_none_or(|other| other < known + low) {
                    next[there] = Some(known + low);
                    way[there] = Some((*more, *low));
                }
            }
        }
        best = next;
        ways.push(way);
    }
    if best[states - 1].is_none_or(|most| most < *lowest) {
        return Some(None);
    }
    let mut state = states - 1;
    let mut low_left = *lowest;
    let mut taken = vec![Vec::new(); rows.len()];
    for (row, way) in ways.iter().enumerate().rev() {
        let (more, low) = way[state]?;
        let low = low.min(low_left);
        low_left -= low;
        let numbers = |kind: usize| (more / weights[kind] % (taller[kind] as usize + 1)) as u32;
        taken[row] = (0..taller.len()).map(numbers).chain([low]).collect();
        state -= more;
    }
    Some(Some(rows_of(rows, taken)))
}

/// Every number of the taller kinds that a row takes, as numbers and as part of a state, with the most of the
/// lowest beside them.
fn choices(
    kinds: &Kinds,
    taller: &[u32],
    weights: &[usize],
    area: usize,
    top: usize,
) -> Vec<(Vec<u32>, usize, u32)> {
    let known = &kinds.areas[area];
    let mut all: Vec<(Vec<u32>, f64)> = vec![(Vec::new(), known.length_mm)];
    for (kind, count) in taller.iter().enumerate() {
        let length_mm = kinds.kinds[kind].length_mm;
        let longer = all.iter().flat_map(|(numbers, left_mm)| {
            let fits = ((left_mm + NOISE_MM) / length_mm).floor().max(0.0) as u32;
            let most = if kind >= top && known.takes[kind] {
                fits.min(*count)
            } else {
                0
            };
            (0..=most).map(move |number| {
                let mut with = numbers.clone();
                with.push(number);
                (with, left_mm - f64::from(number) * length_mm)
            })
        });
        all = longer.collect();
    }
    let lowest = taller.len();
    all.into_iter()
        .map(|(numbers, left_mm)| {
            let fits = ((left_mm + NOISE_MM) / kinds.kinds[lowest].length_mm)
                .floor()
                .max(0.0);
            let low = if known.takes[lowest] { fits as u32 } else { 0 };
            let more = numbers
                .iter()
                .zip(weights)
                .map(|(number, weight)| *number as usize * weight);
            let more = more.sum();
            (numbers, more, low)
        })
        .collect()
}
