//! A way out and its requirements as they are told: typed facts with their words.

use super::apply::{Change, Ease, apply};
use super::aspect::{Aspect, Requirement};
use super::facts::{Eased, Named, Way};
use super::ladder_search::runs;
use super::lost::lost;
use super::repairs::{Ground, WayOut};
use super::words;
use crate::demand;
use crate::requirements::RequirementList;
use crate::sheets::number;
use crate::workshop::Workshop;

pub(super) fn named(list: &RequirementList, requirement: &Requirement) -> Named {
    Named {
        id: requirement.id.clone(),
        words: words::requirement(list, &requirement.aspect),
        line: requirement.line,
        quote: requirement.quote.clone(),
        fixed: requirement.fixed,
    }
}

/// How many terminals less a smaller share of spare ones is.
fn terminals_fewer(ground: Ground<'_>, aspect: &Aspect, ease: &Ease) -> Option<usize> {
    if *aspect != Aspect::SpareTerminals {
        return None;
    }
    let change = Change {
        aspect: aspect.clone(),
        ease: ease.clone(),
    };
    let (eased, workshop) = apply(ground.list, ground.workshop, &[change]);
    let count = |list: &RequirementList, workshop: &Workshop| {
        let demand = demand::build(list, ground.catalogue, workshop).ok()?;
        Some(demand.terminal_count())
    };
    count(ground.list, ground.workshop)?.checked_sub(count(&eased, &workshop)?)
}

pub(super) fn told(ground: Ground<'_>, way: &WayOut) -> Way {
    let (list, all) = (ground.list, ground.requirements);
    let mut changes: Vec<Eased> = way
        .eased
        .iter()
        .map(|(index, ease)| Eased {
            requirement: named(list, &all[*index]),
            ease: ease.clone(),
            words: change_in_words(ground, way, *index, ease),
        })
        .collect();
    let left_out = |change: &&mut Eased| {
        let id = &change.requirement.id;
        matches!(change.ease, Ease::Fewer(_) | Ease::GivenUp)
            && (id.starts_with("cable ") || id.starts_with("element "))
    };
    if let (Some(change), Some(lost)) = (
        changes.iter_mut().filter(left_out).next_back(),
        lost(list, &way.list).words(),
    ) {
        change.words.push_str(&format!(" ({lost})"));
    }
    Way {
        changes,
        cost: way.cost,
        holds: way.holds.clone(),
        second: None,
    }
}

/// The thinnest diameter of those that follow without a gap for the glands, where it is another one.
fn down_to(ground: Ground<'_>, index: usize, ease: &Ease) -> Option<f64> {
    let Ease::Diameter { diameter_mm, .. } = ease else {
        return None;
    };
    let ladder = ground.ladder(index);
    let diameter_of = |step: usize| match ladder.steps[step].0 {
        Ease::Diameter { diameter_mm, .. } => diameter_mm,
        _ => f64::NAN,
    };
    let step = (0..ladder.steps.len()).find(|step| diameter_of(*step) == *diameter_mm)?;
    let run = runs(&ladder.ends).find(|run| run.contains(&step))?;
    let least_mm = diameter_of(run.end - 1);
    (least_mm < *diameter_mm).then_some(least_mm)
}

/// A change with what would do as well.
fn change_in_words(ground: Ground<'_>, way: &WayOut, index: usize, ease: &Ease) -> String {
    const MOST_NAMED: usize = 3;
    let (list, aspect) = (ground.list, &ground.requirements[index].aspect);
    let mut said = words::change(list, aspect, ease);
    if let Some(fewer) = terminals_fewer(ground, aspect, ease) {
        let terminals = if fewer == 1 { "terminal" } else { "terminals" };
        said.push_str(&format!(" ({fewer} {terminals} fewer)"));
    }
    if let Some(least_mm) = down_to(ground, index, ease) {
        said.push_str(&format!(" (down to {} mm serves too)", number(least_mm, 1)));
    }
    let others: Vec<String> = way
        .likewise
        .iter()
        .filter(|(of, _)| *of == index)
        .map(|(_, ease)| words::instead(ease))
        .collect();
    if !others.is_empty() {
        let more = others.len().saturating_sub(MOST_NAMED);
        let named = others[..others.len() - more].join(" or ");
        let more = if more > 0 {
            format!(" or {more} more")
        } else {
            String::new()
        };
        said.push_str(&format!(" (at the same cost also {named}{more})"));
    }
    said
}
