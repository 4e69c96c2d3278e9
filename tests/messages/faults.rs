//! Lists that the program once answered with a fault of its own, and rules that it is known to break: none.

use crate::job;
use glandrail::catalogue::{AccessoryKind, Catalogue};
use glandrail::propose::Answer;
use std::collections::BTreeSet;

/// Rules that arrangements are known to break; a rule comes with a list under `faults/` that shows it.
pub const KNOWN: [&str; 0] = [];

/// Whether a fault is of rules that are known to be broken, and of no other.
pub fn is_known(fault: &str) -> bool {
    let Some((_, rules)) = fault.split_once("does not pass the audit: ") else {
        return false;
    };
    let mut rules = rules
        .split("; ")
        .filter_map(|rule| rule.split_once(" (fails): "));
    rules.clone().count() > 0 && rules.all(|(rule, _)| KNOWN.contains(&rule))
}

/// Once a fault: a partition now stands between the two.
#[test]
fn unlike_neighbours() {
    let list = job::read(include_str!("faults/unlike_neighbours.toml")).expect("sound");
    let found = match job::answer(&list, Catalogue::demo()) {
        Ok(Answer::Found(found)) => found.arrangement,
        Ok(Answer::Impossible { .. }) => panic!("a box takes it"),
        Err(error) => panic!("{error}"),
    };
    let parts: BTreeSet<&str> = found.terminals.iter().map(|one| &*one.part).collect();
    assert_eq!(parts.len(), 2, "unlike terminals: {parts:?}");
    let partitions = found.accessories.iter();
    let partitions = partitions.filter(|one| one.kind == AccessoryKind::Partition);
    assert_eq!(partitions.count(), 1);
}

#[test]
fn no_fault_is_known() {
    let fault = |rules: &str| format!("the arrangement in `X` does not pass the audit: {rules}");
    assert!(!is_known(&fault("distance.creepage (fails): 11 mm")));
    assert!(!is_known("rail 1 is too short for its terminals"));
}
