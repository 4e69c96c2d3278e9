//! Two requirements eased a little each, where that costs less than easing one of them alone.
//!
//! A minimal correction never names two requirements where one of them given up wholly is enough; of one that can
//! be eased by amounts, half of it and a little of another may still be the cheaper way out.

use super::ladder::Ladder;
use super::ladder_search::{first_of_run, runs};
use super::repairs::{Amount, Ground, Part, WayOut, ease_one, finished};
use super::set::Set;
use std::ops::Range;

/// Most lists that are solved for all pairs together.
const MOST_ATTEMPTS: usize = 400;

/// A ladder with its weight.
struct Weighed {
    index: usize,
    ladder: Ladder,
    weight: f64,
}

impl Weighed {
    fn of(ground: Ground<'_>, index: usize) -> Self {
        Self {
            index,
            ladder: ground.ladder(index),
            weight: ground.requirements[index].weight,
        }
    }

    fn cost(&self, step: usize) -> f64 {
        self.ladder.steps[step].1 * self.weight
    }

    fn least(&self) -> f64 {
        let steps = 0..self.ladder.steps.len();
        steps
            .map(|step| self.cost(step))
            .fold(f64::INFINITY, f64::min)
    }

    fn part(&self, step: usize) -> Part {
        Part {
            index: self.index,
            ease: self.ladder.steps[step].0.clone(),
            points: self.cost(step),
        }
    }

    /// The steps of a run that cost less than a bound: the first of them, since costs rise.
    fn below(&self, run: Range<usize>, bound: f64) -> Range<usize> {
        let count = run
            .clone()
            .take_while(|step| self.cost(*step) < bound - LESS)
            .count();
        run.start..run.start + count
    }
}

/// By how much a way must be cheaper to be told beside another, points.
const LESS: f64 = 1e-6;

/// Pairs that are cheaper than any way out with one of the two alone. Only requirements that may change.
pub(super) fn pairs(ground: Ground<'_>, ways: &[WayOut], soft: Set) -> Result<Vec<WayOut>, String> {
    let alone = |index: usize| {
        let single = ways.iter().filter(|way| way.eased.len() == 1);
        single
            .filter(|way| way.eased[0].0 == index)
            .map(|way| way.cost)
            .fold(f64::INFINITY, f64::min)
    };
    let all: Vec<Weighed> = soft
        .members()
        .map(|index| Weighed::of(ground, index))
        .collect();
    let mut asked: Vec<(f64, usize, usize, f64)> = Vec::new();
    for (first, one) in all.iter().enumerate() {
        for (second, other) in all.iter().enumerate().skip(first + 1) {
            let bound = alone(one.index).min(alone(other.index));
            let least = one.least() + other.least();
            if bound.is_finite() && least < bound - LESS {
                asked.push((least, first, second, bound));
            }
        }
    }
    // The cheapest first: what is left when the attempts are used up would have cost most.
    asked.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut left = MOST_ATTEMPTS;
    let mut found = Vec::new();
    for (_, first, second, bound) in asked {
        let Some(parts) = cheapest(ground, &all[first], &all[second], bound, &mut left) else {
            continue;
        };
        found.extend(settled(ground, parts)?.filter(|way| way.cost < bound - LESS));
    }
    Ok(found)
}

/// Each of the two once more with the other as it is: with entries in no rows, and for as few cables as serve.
/// None where one of them turns out to be needless.
fn settled(ground: Ground<'_>, mut parts: Vec<Part>) -> Result<Option<WayOut>, String> {
    let mut likewise = Vec::new();
    for position in 0..parts.len() {
        match ease_one(ground, &mut parts, position) {
            Some(Amount::So(others)) => likewise.extend(others),
            Some(Amount::Needless) | None => return Ok(None),
        }
    }
    finished(ground, parts, likewise)
}

/// The cheapest steps of two requirements that serve together for less than the bound.
fn cheapest(
    ground: Ground<'_>,
    one: &Weighed,
    other: &Weighed,
    bound: f64,
    left: &mut usize,
) -> Option<Vec<Part>> {
    // For each step of the shorter one the first of the longer one that serves.
    let (short, long) = if one.ladder.steps.len() <= other.ladder.steps.len() {
        (one, other)
    } else {
        (other, one)
    };
    let mut best: Option<(f64, [usize; 2])> = None;
    let mut serves = |short_step: usize, long_step: usize| {
        if *left == 0 {
            return false;
        }
        *left -= 1;
        let parts = [short.part(short_step), long.part(long_step)];
        ground.attempt(&parts, ground.quick()).is_some()
    };
    for run in runs(&short.ladder.ends) {
        let affordable = short.below(run, bound - long.least());
        if affordable.is_empty() {
            continue;
        }
        for of_long in runs(&long.ladder.ends) {
            // Nothing of the run serves where its last step does not, with as much of the other as can be paid.
            let most = affordable.end - 1;
            let widest = long.below(of_long.clone(), bound - short.cost(affordable.start));
            if widest.is_empty() || !serves(most, widest.end - 1) {
                continue;
            }
            for step in affordable.clone() {
                let limit = best.map_or(bound, |(cost, _)| cost);
                let payable = long.below(of_long.clone(), limit - short.cost(step));
                let first = first_of_run(payable, &mut |long_step| serves(step, long_step));
                if let Some(long_step) = first {
                    best = Some((short.cost(step) + long.cost(long_step), [step, long_step]));
                }
            }
        }
    }
    let [short_step, long_step] = best?.1;
    Some(vec![short.part(short_step), long.part(long_step)])
}
