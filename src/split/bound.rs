//! What any two enclosures that could take a list measure together at least.
//!
//! Two conditions that every division must meet, whatever goes where: each cable and each element is in
//! one of the two, which then takes it alone; and the two certificates together allow as many
//! terminals as one box would need, for dividing never saves one. What no figure excludes counts as possible, so
//! the bound is safe and may be far below what can be had.

use super::single::singles;
use crate::arrangement::Orientation;
use crate::catalogue::{Catalogue, Enclosure, Most};
use crate::demand;
use crate::model::{self, Prepared, SearchOptions};
use crate::requirements::{Measure, RequirementList};
use crate::workshop::Workshop;
use std::collections::BTreeSet;

/// The measure that comes first in the objective.
pub(super) fn first_measure(list: &RequirementList) -> Measure {
    let first = list.wishes.smallest.first();
    first.copied().unwrap_or(Measure::Volume)
}

/// The least sum, by the first measure of the objective; `None` where no cable or element can be asked about
/// by itself.
pub(super) fn least_together(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
) -> Option<f64> {
    let mut kinds = BTreeSet::new();
    let singles: Vec<RequirementList> = singles(list)
        .into_iter()
        .filter(|single| kinds.insert(single.kind.clone()))
        .map(|single| single.list)
        .collect();
    if singles.is_empty() {
        return None;
    }
    let needed = demand::build(list, catalogue, workshop).ok()?;
    let needed = needed.terminal_count() as u64;
    let by = first_measure(list);
    let usable: Vec<Usable> = catalogue
        .enclosure
        .iter()
        .map(|enclosure| Usable {
            takes: singles
                .iter()
                .map(|single| may_take(single, enclosure, catalogue, workshop, options))
                .collect(),
            terminals: Most::limit(&enclosure.most_terminals).map_or(u64::MAX / 4, u64::from),
            measure: model::measure(enclosure, by),
        })
        .filter(|of| of.takes.contains(&true))
        .collect();
    let pairs = usable
        .iter()
        .enumerate()
        .flat_map(|(index, one)| usable[index..].iter().map(move |other| (one, other)));
    pairs
        .filter(|(one, other)| one.terminals + other.terminals >= needed)
        .filter(|(one, other)| {
            let mut both = one.takes.iter().zip(&other.takes);
            both.all(|(one, other)| *one || *other)
        })
        .map(|(one, other)| one.measure + other.measure)
        .reduce(f64::min)
}

/// What is known of an enclosure.
struct Usable {
    /// Whether it may take each single one.
    takes: Vec<bool>,
    terminals: u64,
    measure: f64,
}

/// Whether nothing proves that an enclosure does not take a list.
fn may_take(
    list: &RequirementList,
    enclosure: &Enclosure,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
) -> bool {
    let Ok(demand) = demand::build(list, catalogue, workshop) else {
        return false;
    };
    let Ok(prepared) = Prepared::new(list, &demand, workshop, options) else {
        return true;
    };
    let wanted = &list.wishes.orientations;
    let orientations = [Orientation::Upright, Orientation::Turned].into_iter();
    orientations
        .filter(|orientation| wanted.contains(orientation))
        .any(
            |orientation| match prepared.decide_candidate(enclosure, orientation) {
                Ok(_) => true,
                Err(reason) => reason.is_undecided() || reason.is_open_freely(),
            },
        )
}
