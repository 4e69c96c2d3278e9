//! The smallest changes that let a list be made, each with its amount and solved again.

use super::apply::Ease;
use super::combine::{improved, pairs};
use super::enumerate::{Known, corrections};
use super::ground::{Ground, Part};
use super::ladder::{Ladder, least_cost};
use super::ladder_search::{first_that_serves, runs};
use super::likewise::{Likewise, likewise};
use super::lost::lost;
use super::oracle::ListOracle;
use super::set::Set;
use super::solve::{Holds, proved};
use super::thinner::for_fewer;
use crate::requirements::RequirementList;
use std::cell::RefCell;

/// A way out: requirements eased together. No one of them can be eased a step less.
#[derive(Debug, Clone)]
pub struct WayOut {
    /// Requirements, by number, with how far each is eased.
    pub eased: Vec<(usize, Ease)>,
    /// What would serve in place of one of these at the same cost.
    pub likewise: Vec<Likewise>,
    /// Cost in points, see `ladder`, with the weights of the list.
    pub cost: f64,
    /// What then holds.
    pub holds: Holds,
    /// The list after the change.
    pub list: RequirementList,
}

/// What was found.
pub struct Found {
    /// Ways out, sorted by cost.
    pub ways: Vec<WayOut>,
    /// Whether these are all.
    pub complete: bool,
    /// What was found and did not pass the audit, which is a fault of the program.
    pub faults: Vec<String>,
}

/// The parts of a way out before anything is placed.
#[derive(Clone)]
pub(super) struct Draft {
    pub(super) parts: Vec<Part>,
    /// Points of the parts and of the circuits that go with what is left out.
    pub(super) cost: f64,
}

impl Draft {
    /// None where what is left asks for nothing, or no circuit is left.
    pub(super) fn of(ground: Ground<'_>, mut parts: Vec<Part>) -> Option<Self> {
        let (list, _) = ground.changed(&parts);
        let lost = lost(ground.list, &list);
        if lost.is_all || (list.cables.is_empty() && list.elements.is_empty()) {
            return None;
        }
        parts.sort_by_key(|part| part.index);
        // Circuits weigh as what takes them with it.
        let weight = parts
            .iter()
            .map(|part| &ground.requirements[part.index])
            .filter(|requirement| requirement.aspect.leaves_out())
            .map(|requirement| requirement.weight)
            .fold(0.0, f64::max);
        let own = parts.iter().map(|part| part.points).sum::<f64>();
        let cost = own + weight * lost.points();
        Some(Self { parts, cost })
    }
}

/// Finds up to `most` ways out.
pub fn ways_out(
    ground: Ground<'_>,
    oracle: &mut ListOracle<'_, '_>,
    known: &mut Known,
    most: usize,
) -> Found {
    let requirements = ground.requirements;
    let soft: Set = (0..requirements.len())
        .filter(|index| !requirements[*index].fixed)
        .collect();
    let costs: Vec<u64> = requirements
        .iter()
        .map(|requirement| least_cost(ground.list, ground.catalogue, ground.workshop, requirement))
        .collect();
    let sets = RefCell::new(Vec::new());
    // Some corrections have no way: nothing that could be asked for instead serves. More are looked at
    // than are wanted, and the cheapest by their real cost are kept.
    let complete = corrections(
        oracle,
        requirements.len(),
        soft,
        &|index| costs[index],
        known,
        &mut |_, correction| {
            sets.borrow_mut().push(correction);
            sets.borrow().len() < 3 * most
        },
    );
    let sets = sets.into_inner();
    // The cheapest come first; one that is begun is eased to its end.
    let mut drafts: Vec<Draft> = Vec::new();
    let mut begun = 0;
    while begun < sets.len() && (drafts.is_empty() || !ground.work.is_enough()) {
        drafts.extend(eased_least(ground, sets[begun], &costs));
        begun += 1;
    }
    drafts.extend(pairs(ground, &drafts, soft));
    let by_cost = |a: &Draft, b: &Draft| a.cost.total_cmp(&b.cost);
    drafts.sort_by(by_cost);
    // Where entries in no rows save a part of a way, two corrections may come to the same.
    drafts.dedup_by(|later, earlier| later.parts == earlier.parts);
    let complete = complete && begun == sets.len() && drafts.len() <= most;
    let mut told: Vec<Draft> = drafts
        .into_iter()
        .take(most)
        .map(|draft| improved(ground, draft))
        .collect();
    told.sort_by(by_cost);
    told.dedup_by(|later, earlier| later.parts == earlier.parts);
    let mut ways = Vec::new();
    let mut faults = Vec::new();
    for draft in told {
        match finished(ground, draft) {
            Ok(way) => ways.extend(way),
            Err(fault) => faults.push(fault),
        }
    }
    Found {
        ways,
        complete,
        faults,
    }
}

/// Eases each requirement of a correction as little as serves, the costliest first.
fn eased_least(ground: Ground<'_>, correction: Set, costs: &[u64]) -> Option<Draft> {
    let mut parts: Vec<Part> = correction
        .members()
        .map(|index| Part {
            index,
            ease: Ease::GivenUp,
            points: 0.0,
        })
        .collect();
    parts.sort_by_key(|part| (std::cmp::Reverse(costs[part.index]), part.index));
    eased_each(ground, parts)
}

/// Each part in turn eased as little as serves with the others as they are.
pub(super) fn eased_each(ground: Ground<'_>, mut parts: Vec<Part>) -> Option<Draft> {
    let mut position = 0;
    while position < parts.len() {
        match ease_one(ground, &mut parts, position)? {
            Amount::So => position += 1,
            Amount::Needless => {
                parts.remove(position);
            }
        }
    }
    Draft::of(ground, parts)
}

/// A way out placed to the millimetre and audited; none where it turns out not to hold.
fn finished(ground: Ground<'_>, mut draft: Draft) -> Result<Option<WayOut>, String> {
    let likewise = likewise(ground, &mut draft.parts);
    let Some(attempt) = ground.attempt(&draft.parts) else {
        return Ok(None);
    };
    let list = attempt.list;
    let (holds, _) = proved(&list, ground.catalogue, &attempt.workshop, &attempt.found)?;
    Ok(Some(WayOut {
        eased: draft
            .parts
            .into_iter()
            .map(|part| (part.index, part.ease))
            .collect(),
        likewise,
        cost: draft.cost,
        holds,
        list,
    }))
}

/// What came of easing one requirement.
pub(super) enum Amount {
    /// As little as serves.
    So,
    /// With entries in no rows it need not be eased at all.
    Needless,
}

/// Eases one requirement as little as serves with the others as they are: none where no step serves.
pub(super) fn ease_one(ground: Ground<'_>, parts: &mut [Part], position: usize) -> Option<Amount> {
    let index = parts[position].index;
    let ladder = ground.ladder(index);
    let weight = ground.requirements[index].weight;
    let (quick, full) = (ground.quick(), ground.full());
    let mut serves = |ease: &Ease, placement| {
        parts[position].ease = ease.clone();
        ground.serves(parts, placement)
    };
    let in_rows = first_that_serves(&ladder.ends, |step| serves(&ladder.steps[step].0, quick));
    let step = if full == quick {
        in_rows?
    } else {
        first_in_no_rows(&ladder, in_rows, |step| serves(&ladder.steps[step].0, full))?
    };
    // Where the ladder rises and its first step is needed, so is the step.
    if full != quick && (step == 0 || ladder.ends.len() > 1) {
        let mut without = parts.to_vec();
        without.remove(position);
        if !without.is_empty() && ground.serves(&without, full) {
            return Some(Amount::Needless);
        }
    }
    let (mut ease, mut points) = ladder.steps[step].clone();
    // The amount is found for all that the requirement counts; as few of them as serve are changed.
    let fewer = for_fewer(ground.list, &ground.requirements[index].aspect, &ease);
    let few = first_that_serves(&[fewer.len()], |step| {
        parts[position].ease = fewer[step].0.clone();
        ground.serves(parts, full)
    });
    if let Some(few) = few {
        (ease, points) = fewer[few].clone();
    }
    parts[position] = Part {
        index,
        ease,
        points: points * weight,
    };
    Some(Amount::So)
}

/// The first step that serves with entries in no rows, too, where one is known that serves in rows: none after
/// that can be first.
fn first_in_no_rows(
    ladder: &Ladder,
    in_rows: Option<usize>,
    mut serves: impl FnMut(usize) -> bool,
) -> Option<usize> {
    let Some(known) = in_rows else {
        return first_that_serves(&ladder.ends, serves);
    };
    let before: Vec<usize> = runs(&ladder.ends)
        .take_while(|run| run.start < known)
        .map(|run| run.end.min(known))
        .collect();
    first_that_serves(&before, &mut serves).or(Some(known))
}
