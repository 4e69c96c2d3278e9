//! The smallest changes that let a list be made, each with its amount and solved again.

use super::apply::{Change, Ease, apply};
use super::aspect::Requirement;
use super::combine::pairs;
use super::enumerate::{Known, corrections};
use super::ladder::{Ladder, ladder, least_cost};
use super::ladder_search::{first_that_serves, runs};
use super::lost::lost;
use super::oracle::ListOracle;
use super::set::Set;
use super::solve::{Holds, proved, takes};
use super::thinner::for_fewer;
use crate::catalogue::Catalogue;
use crate::model::{self, Placement, SearchOptions};
use crate::requirements::RequirementList;
use crate::workshop::Workshop;
use std::cell::RefCell;

/// A way out: requirements eased together. No one of them can be eased a step less.
#[derive(Debug, Clone)]
pub struct WayOut {
    /// Requirements, by number, with how far each is eased.
    pub eased: Vec<(usize, Ease)>,
    /// What would serve in place of one of these at the same cost, by the number of the requirement.
    pub likewise: Vec<(usize, Ease)>,
    /// Cost in points, see `ladder`, with the weights of the list.
    pub cost: f64,
    /// What then holds.
    pub holds: Holds,
    /// The list after the change.
    pub list: RequirementList,
}

/// What the ways out are looked for in.
#[derive(Clone, Copy)]
pub struct Ground<'a> {
    /// The list.
    pub list: &'a RequirementList,
    /// The catalogue.
    pub catalogue: &'a Catalogue,
    /// The workshop rules.
    pub workshop: &'a Workshop,
    /// The requirements of the list.
    pub requirements: &'a [Requirement],
    /// Limit of each decision, and how entries may be placed in what is offered. Amounts are found with rows
    /// first, where that is enough.
    pub options: SearchOptions,
}

impl Ground<'_> {
    /// The steps of a requirement.
    pub(super) fn ladder(&self, index: usize) -> Ladder {
        let aspect = &self.requirements[index].aspect;
        ladder(self.list, self.catalogue, self.workshop, aspect)
    }

    /// What takes the list with these changes; entries placed as is given.
    pub(super) fn attempt(&self, eased: &[Part], placement: Placement) -> Option<Attempt> {
        let changes: Vec<Change> = eased
            .iter()
            .map(|part| Change {
                aspect: self.requirements[part.index].aspect.clone(),
                ease: part.ease.clone(),
            })
            .collect();
        let (list, workshop) = apply(self.list, self.workshop, &changes);
        let options = SearchOptions {
            placement,
            ..self.options
        };
        let found = takes(&list, self.catalogue, &workshop, options)?;
        Some(Attempt {
            found,
            list,
            workshop,
        })
    }

    /// The place of what was found in the order of the objective.
    fn rank(&self, attempt: &Attempt) -> usize {
        let candidates = model::candidates(self.list, self.catalogue);
        let mounted = &attempt.found.mounted;
        candidates
            .iter()
            .position(|(enclosure, orientation)| {
                enclosure.id == mounted.id && *orientation == mounted.orientation
            })
            .unwrap_or(candidates.len())
    }

    /// Rows, unless entries in no rows alone were asked for.
    pub(super) fn quick(&self) -> Placement {
        match self.options.placement {
            Placement::Free => Placement::Free,
            Placement::Rows | Placement::Best => Placement::Rows,
        }
    }
}

/// One requirement of a way out.
#[derive(Debug, Clone)]
pub(super) struct Part {
    /// Its number.
    pub(super) index: usize,
    /// How far it is eased.
    pub(super) ease: Ease,
    /// What that costs, with the weight of the list.
    pub(super) points: f64,
}

/// A list with changes, and what takes it.
pub(super) struct Attempt {
    found: model::Found,
    list: RequirementList,
    workshop: Workshop,
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
    let mut ways = Vec::new();
    let mut faults = Vec::new();
    for correction in sets.into_inner() {
        match way_out(ground, correction, &costs) {
            Ok(way) => ways.extend(way),
            Err(fault) => faults.push(fault),
        }
    }
    match pairs(ground, &ways, soft) {
        Ok(found) => ways.extend(found),
        Err(fault) => faults.push(fault),
    }
    ways.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    // Where entries in no rows save a part of a way, two corrections may come to the same.
    ways.dedup_by(|later, earlier| later.eased == earlier.eased);
    let complete = complete && ways.len() <= most;
    ways.truncate(most);
    Found {
        ways,
        complete,
        faults,
    }
}

/// Eases each requirement of a correction as little as serves, the costliest first.
fn way_out(ground: Ground<'_>, correction: Set, costs: &[u64]) -> Result<Option<WayOut>, String> {
    let mut parts: Vec<Part> = correction
        .members()
        .map(|index| Part {
            index,
            ease: Ease::GivenUp,
            points: 0.0,
        })
        .collect();
    parts.sort_by_key(|part| (std::cmp::Reverse(costs[part.index]), part.index));
    let mut likewise = Vec::new();
    let mut position = 0;
    while position < parts.len() {
        match ease_one(ground, &mut parts, position) {
            Some(Amount::So(others)) => {
                likewise.extend(others);
                position += 1;
            }
            Some(Amount::Needless) => {
                parts.remove(position);
            }
            None => return Ok(None),
        }
    }
    finished(ground, parts, likewise)
}

/// A way out of its parts, placed to the millimetre and audited; none where what is left asks for nothing.
pub(super) fn finished(
    ground: Ground<'_>,
    mut parts: Vec<Part>,
    likewise: Vec<(usize, Ease)>,
) -> Result<Option<WayOut>, String> {
    let Some(attempt) = ground.attempt(&parts, ground.options.placement) else {
        return Ok(None);
    };
    let list = attempt.list;
    let lost = lost(ground.list, &list);
    if lost.is_all || (list.cables.is_empty() && list.elements.is_empty()) {
        return Ok(None);
    }
    let (holds, _) = proved(&list, ground.catalogue, &attempt.workshop, &attempt.found)?;
    parts.sort_by_key(|part| part.index);
    let cost = parts.iter().map(|part| part.points).sum::<f64>() + lost.points();
    Ok(Some(WayOut {
        eased: parts
            .into_iter()
            .map(|part| (part.index, part.ease))
            .collect(),
        likewise,
        cost,
        holds,
        list,
    }))
}

/// What came of easing one requirement.
pub(super) enum Amount {
    /// As little as serves; what would serve at the same cost.
    So(Vec<(usize, Ease)>),
    /// With entries in no rows it need not be eased at all.
    Needless,
}

/// Eases one requirement as little as serves with the others as they are: none where no step serves.
pub(super) fn ease_one(ground: Ground<'_>, parts: &mut [Part], position: usize) -> Option<Amount> {
    let index = parts[position].index;
    let ladder = ground.ladder(index);
    let weight = ground.requirements[index].weight;
    let mut serves = |ease: &Ease, placement| {
        parts[position].ease = ease.clone();
        ground.attempt(parts, placement)
    };
    let full = ground.options.placement;
    let quick = first_that_serves(&ladder.ends, |step| {
        serves(&ladder.steps[step].0, ground.quick()).is_some()
    });
    let step = if full == ground.quick() {
        quick?
    } else {
        first_in_no_rows(&ladder, quick, |step| {
            serves(&ladder.steps[step].0, full).is_some()
        })?
    };
    if (step == 0 || ladder.ends.len() > 1) && full != ground.quick() {
        let mut without = parts.to_vec();
        without.remove(position);
        if !without.is_empty() && ground.attempt(&without, full).is_some() {
            return Some(Amount::Needless);
        }
    }
    let mut serves = |ease: &Ease| {
        parts[position].ease = ease.clone();
        ground.attempt(parts, full)
    };
    let (mut ease, mut points) = ladder.steps[step].clone();
    let likewise = of_the_same_cost(ground, &ladder, step, &mut ease, &mut serves);
    // The amount is found for all that the requirement counts; as few of them as serve are changed.
    let fewer = for_fewer(ground.list, &ground.requirements[index].aspect, &ease);
    let few = first_that_serves(&[fewer.len()], |step| serves(&fewer[step].0).is_some());
    if let Some(few) = few {
        (ease, points) = fewer[few].clone();
    }
    parts[position] = Part {
        index,
        ease,
        points: points * weight,
    };
    let likewise = likewise.into_iter().map(|ease| (index, ease));
    Some(Amount::So(likewise.collect()))
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
    let mut ends: Vec<usize> = runs(&ladder.ends)
        .take_while(|run| run.start < known)
        .map(|run| run.end.min(known))
        .collect();
    // In its own run the step just before is the most that could serve; what does not serve there is the answer.
    ends.dedup();
    first_that_serves(&ends, &mut serves).or(Some(known))
}

/// Most changes of the same cost that are tried.
const MOST_LIKEWISE: usize = 60;

/// Where steps of a ladder cost the same, the one with the best enclosure is taken; the others that serve are
/// given.
fn of_the_same_cost(
    ground: Ground<'_>,
    ladder: &Ladder,
    step: usize,
    ease: &mut Ease,
    serves: &mut impl FnMut(&Ease) -> Option<Attempt>,
) -> Vec<Ease> {
    // Of amounts that rise the first is the least, whatever it costs.
    if ladder.ends.len() < ladder.steps.len() {
        return Vec::new();
    }
    let cost = ladder.steps[step].1;
    let same = |other: &usize| ladder.steps[*other].1 <= cost + 1e-9;
    let count = (step..ladder.steps.len())
        .take_while(same)
        .take(MOST_LIKEWISE)
        .count();
    if count < 2 {
        return Vec::new();
    }
    let mut found: Vec<(usize, Ease)> = (step..step + count)
        .filter_map(|step| {
            let ease = &ladder.steps[step].0;
            Some((ground.rank(&serves(ease)?), ease.clone()))
        })
        .collect();
    found.sort_by_key(|(rank, _)| *rank);
    let mut found = found.into_iter().map(|(_, ease)| ease);
    if let Some(best) = found.next() {
        *ease = best;
    }
    found.collect()
}
