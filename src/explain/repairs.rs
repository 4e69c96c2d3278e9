//! The smallest changes that let a list be made, each with its amount and solved again.

use super::apply::{Change, Ease, apply};
use super::aspect::Requirement;
use super::enumerate::{Known, corrections};
use super::ladder::{for_fewer, ladder, least_cost};
use super::oracle::ListOracle;
use super::set::Set;
use super::solve::{Holds, proved, takes};
use crate::catalogue::Catalogue;
use crate::model::{self, SearchOptions};
use crate::requirements::RequirementList;
use crate::workshop::Workshop;
use std::cell::RefCell;

/// A way out: requirements eased together. No one of them can be eased a step less.
#[derive(Debug, Clone)]
pub struct WayOut {
    /// Requirements, by number, with how far each is eased.
    pub eased: Vec<(usize, Ease)>,
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
    /// Limit of each decision.
    pub options: SearchOptions,
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
        .map(|requirement| least_cost(ground.list, ground.catalogue, requirement))
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
    ways.sort_by(|a, b| a.cost.total_cmp(&b.cost));
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
    let mut eased: Vec<(usize, Ease)> = correction
        .members()
        .map(|index| (index, Ease::GivenUp))
        .collect();
    eased.sort_by_key(|(index, _)| (std::cmp::Reverse(costs[*index]), *index));
    let mut cost = 0.0;
    for position in 0..eased.len() {
        let (index, _) = eased[position];
        let ladder = ladder(
            ground.list,
            ground.catalogue,
            &ground.requirements[index].aspect,
        );
        let count = ladder.steps.len();
        let step = first_that_serves(count, ladder.rising, |step| {
            eased[position].1 = ladder.steps[step].0.clone();
            attempt(ground, &eased).is_some()
        });
        let Some(step) = step else {
            return Ok(None);
        };
        let (ease, mut points) = ladder.steps[step].clone();
        // The amount is found for all that the requirement counts; as few of them as serve are changed.
        let aspect = &ground.requirements[index].aspect;
        let fewer = for_fewer(ground.list, aspect, &ease);
        let few = first_that_serves(fewer.len(), true, |step| {
            eased[position].1 = fewer[step].0.clone();
            attempt(ground, &eased).is_some()
        });
        eased[position].1 = match few {
            Some(few) => {
                points = fewer[few].1;
                fewer[few].0.clone()
            }
            None => ease,
        };
        cost += points * ground.requirements[index].weight;
    }
    let Some((found, list, workshop)) = attempt(ground, &eased) else {
        return Ok(None);
    };
    // Nothing is made of a list that asks for nothing.
    if list.cables.is_empty() && list.elements.is_empty() {
        return Ok(None);
    }
    let (holds, _) = proved(&list, ground.catalogue, &workshop, &found)?;
    eased.sort_by_key(|(index, _)| *index);
    Ok(Some(WayOut {
        eased,
        cost,
        holds,
        list,
    }))
}

/// The first of so many steps that serves: by halving where each allows all that the one before does.
fn first_that_serves(
    count: usize,
    rising: bool,
    mut serves: impl FnMut(usize) -> bool,
) -> Option<usize> {
    if !rising {
        return (0..count).find(|step| serves(*step));
    }
    if count == 0 || !serves(count - 1) {
        return None;
    }
    let (mut fails_below, mut served) = (0, count - 1);
    while fails_below < served {
        let middle = (fails_below + served) / 2;
        if serves(middle) {
            served = middle;
        } else {
            fails_below = middle + 1;
        }
    }
    Some(served)
}

fn attempt(
    ground: Ground<'_>,
    eased: &[(usize, Ease)],
) -> Option<(model::Found, RequirementList, Workshop)> {
    let changes: Vec<Change> = eased
        .iter()
        .map(|(index, ease)| Change {
            aspect: ground.requirements[*index].aspect.clone(),
            ease: ease.clone(),
        })
        .collect();
    let (list, workshop) = apply(ground.list, ground.workshop, &changes);
    let found = takes(&list, ground.catalogue, &workshop, ground.options)?;
    Some((found, list, workshop))
}
