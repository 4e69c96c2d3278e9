//! Two requirements eased together so that both cost as little as can be.
//!
//! A minimal correction never names two requirements where one of them given up wholly is enough; of one that can
//! be eased by amounts, half of it and a little of another may still be the cheaper way out. And where a way eases
//! several requirements one after the other, a little more of the first may save more of the second.

use super::ground::{Ground, Part};
use super::ladder::Ladder;
use super::ladder_search::{first_of_run, runs};
use super::repairs::{Amount, Draft, ease_one, eased_each};
use super::set::Set;
use crate::model::Placement;
use std::ops::Range;

/// Most lists that are solved for all pairs of requirements together.
const MOST_ATTEMPTS: usize = 400;
/// Most lists that are solved to improve one way.
const MOST_FOR_ONE: usize = 40;
/// By how much a way must be cheaper to be told beside another, points.
const LESS: f64 = 1e-6;

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

/// Pairs that are cheaper than any way out with one of the two alone. Only requirements that may change.
pub(super) fn pairs(ground: Ground<'_>, drafts: &[Draft], soft: Set) -> Vec<Draft> {
    let alone = |index: usize| {
        let single = drafts.iter().filter(|draft| draft.parts.len() == 1);
        single
            .filter(|draft| draft.parts[0].index == index)
            .map(|draft| draft.cost)
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
        let pair = Pair {
            ground,
            others: &[],
            placement: ground.quick(),
        };
        let cheapest = pair.cheapest(&all[first], &all[second], bound, &mut left);
        let draft = cheapest.and_then(|parts| settled(ground, parts));
        found.extend(draft.filter(|draft| draft.cost < bound - LESS));
    }
    found
}

/// Each of the two once more with the other as it is: with entries in no rows, and for as few cables as serve.
/// None where one of them turns out to be needless.
fn settled(ground: Ground<'_>, parts: [Part; 2]) -> Option<Draft> {
    let mut parts = parts.to_vec();
    for position in 0..parts.len() {
        match ease_one(ground, &mut parts, position)? {
            Amount::So => {}
            Amount::Needless => return None,
        }
    }
    Draft::of(ground, parts)
}

/// A way with any two of its parts eased together as cheaply as can be, the others as they are.
pub(super) fn improved(ground: Ground<'_>, mut draft: Draft) -> Draft {
    let mut left = MOST_FOR_ONE;
    let before = draft.parts.clone();
    for first in 0..draft.parts.len() {
        for second in first + 1..draft.parts.len() {
            let of = |position: usize| Weighed::of(ground, draft.parts[position].index);
            let bound = draft.parts[first].points + draft.parts[second].points;
            let mut others = draft.parts.clone();
            others.remove(second);
            others.remove(first);
            let pair = Pair {
                ground,
                others: &others,
                placement: ground.full(),
            };
            let Some(cheaper) = pair.cheapest(&of(first), &of(second), bound, &mut left) else {
                continue;
            };
            let mut parts = others.clone();
            parts.extend(cheaper);
            if let Some(better) = Draft::of(ground, parts).filter(|of| of.cost < draft.cost - LESS)
            {
                draft = better;
            }
        }
    }
    if draft.parts == before {
        return draft;
    }
    // What one part gains may be more than two give: each once more with the others as they are.
    eased_each(ground, draft.parts.clone()).unwrap_or(draft)
}

/// Two requirements of a way whose other parts are given.
struct Pair<'g, 'p> {
    ground: Ground<'g>,
    others: &'p [Part],
    placement: Placement,
}

impl Pair<'_, '_> {
    /// False too where no attempts are left; then what was asked about says nothing.
    fn serves(&self, two: [Part; 2], left: &mut usize) -> bool {
        if *left == 0 || self.ground.work.is_enough() {
            *left = 0;
            return false;
        }
        *left -= 1;
        let mut parts = self.others.to_vec();
        parts.extend(two);
        self.ground.serves(&parts, self.placement)
    }

    /// The cheapest steps of the two that serve together for less than the bound: of those that were settled before
    /// the attempts were used up.
    fn cheapest(
        &self,
        one: &Weighed,
        other: &Weighed,
        bound: f64,
        left: &mut usize,
    ) -> Option<[Part; 2]> {
        // For each step of the shorter one the first of the longer one that serves.
        let (short, long) = if one.ladder.steps.len() <= other.ladder.steps.len() {
            (one, other)
        } else {
            (other, one)
        };
        let mut best: Option<(f64, [usize; 2])> = None;
        for run in runs(&short.ladder.ends) {
            for of_long in runs(&long.ladder.ends) {
                let limit = best.map_or(bound, |(cost, _)| cost);
                let affordable = short.below(run.clone(), limit - long.cost(of_long.start));
                if affordable.is_empty() {
                    continue;
                }
                let widest = long.below(of_long.clone(), limit - short.cost(affordable.start));
                if widest.is_empty() {
                    continue;
                }
                // Nothing of the two runs serves where their last steps that can be paid do not.
                let most = [affordable.end - 1, widest.end - 1];
                let single = affordable.len() == 1 && widest.len() == 1;
                if !single && !self.serves([short.part(most[0]), long.part(most[1])], left) {
                    continue;
                }
                for step in affordable {
                    let limit = best.map_or(bound, |(cost, _)| cost);
                    let payable = long.below(of_long.clone(), limit - short.cost(step));
                    let first = first_of_run(payable, &mut |long_step| {
                        self.serves([short.part(step), long.part(long_step)], left)
                    });
                    if let Some(long_step) = first.filter(|_| *left > 0) {
                        best = Some((short.cost(step) + long.cost(long_step), [step, long_step]));
                    }
                }
            }
        }
        let [short_step, long_step] = best?.1;
        Some([short.part(short_step), long.part(long_step)])
    }
}
