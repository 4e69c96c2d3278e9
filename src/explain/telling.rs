//! A way out and its requirements as they are told: typed facts with their words.

use super::apply::{Change, Ease, apply};
use super::aspect::{Aspect, Requirement};
use super::change_words;
use super::facts::{Alternative, Eased, Named, Way};
use super::ground::Ground;
use super::ladder_search::runs;
use super::lost::lost;
use super::repairs::WayOut;
use super::words::{self, or};
use crate::demand;
use crate::letters::plural;
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
            alternatives: way
                .likewise
                .iter()
                .filter(|of| of.index == *index)
                .map(|of| Alternative {
                    ease: of.ease.clone(),
                    enclosure: of.enclosure.clone(),
                })
                .collect(),
        })
        .collect();
    // Said of the last thing that is left out.
    let left_out = |(index, _): &(usize, Ease)| all[*index].aspect.leaves_out();
    let gone =
        list.cables.len() + list.elements.len() - way.list.cables.len() - way.list.elements.len();
    if let (Some(last), Some(lost)) = (
        way.eased.iter().rposition(left_out),
        lost(list, &way.list).words(gone),
    ) {
        in_brackets(&mut changes[last].words, &lost);
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
    let mut said = change_words::change(list, aspect, ease);
    if let Some(fewer) = terminals_fewer(ground, aspect, ease) {
        let terminals = plural(fewer, "terminal", "terminals");
        in_brackets(&mut said, &format!("{fewer} {terminals} fewer"));
    }
    if let Some(least_mm) = down_to(ground, index, ease) {
        let too = format!("likewise down to {} mm at least", number(least_mm, 1));
        in_brackets(&mut said, &too);
    }
    let others: Vec<String> = way
        .likewise
        .iter()
        .filter(|of| of.index == index)
        .map(|of| {
            let words = change_words::instead(&of.ease);
            if of.enclosure == way.holds.enclosure || words == of.enclosure {
                words
            } else {
                format!("{words} (then {})", of.enclosure)
            }
        })
        .collect();
    if !others.is_empty() {
        let more = others.len().saturating_sub(MOST_NAMED);
        let mut named = others[..others.len() - more].to_vec();
        if more > 0 {
            named.push(format!("{more} more"));
        }
        in_brackets(&mut said, &format!("at the same cost also {}", or(&named)));
    }
    said
}

/// Adds a remark in brackets, in those that stand at the end already if there are any.
fn in_brackets(said: &mut String, remark: &str) {
    match said.strip_suffix(')') {
        Some(open) => *said = format!("{open}; {remark})"),
        None => said.push_str(&format!(" ({remark})")),
    }
}
