//! Whether the wishes for rows on the lid can be met at all: `above`, `beside`, `row`.
//!
//! Elements that must share a row form one group. Each wish that puts a group above another is an
//! arrow; a wish whose arrow would close a circle contradicts those before it.

use super::ElementRequirement;
use crate::source::Findings;
use std::collections::{BTreeMap, BTreeSet};

const CODE: &str = "list-placing";

/// Tells of the wishes that contradict others.
pub(super) fn check_placing(elements: &[ElementRequirement], findings: &mut Findings) {
    let groups = groups(elements);
    let mut row_of_group: BTreeMap<usize, u32> = BTreeMap::new();
    for (element, group) in elements.iter().zip(&groups) {
        let Some(row) = element.placing.row else {
            continue;
        };
        let known = *row_of_group.entry(*group).or_insert(row);
        if known != row {
            let message = format!(
                "`{}` is in row {row}, but what it stands beside is in row {known}",
                element.tag
            );
            findings.push(
                element
                    .place
                    .error("row", CODE, message)
                    .expected("one row for all that stand beside each other"),
            );
            return;
        }
    }
    let mut below: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
    let by_row: BTreeMap<u32, usize> = row_of_group
        .iter()
        .map(|(group, row)| (*row, *group))
        .collect();
    let in_order: Vec<usize> = by_row.into_values().collect();
    for pair in in_order.windows(2) {
        below.entry(pair[0]).or_default().insert(pair[1]);
    }
    for (element, group) in elements.iter().zip(&groups) {
        let Some(other) = element.placing.above else {
            continue;
        };
        let lower = groups[other];
        let reason = if lower == *group {
            "the two share a row"
        } else if reaches(&below, lower, *group) {
            "other wishes put it below"
        } else {
            below.entry(*group).or_default().insert(lower);
            continue;
        };
        let message = format!(
            "`{}` cannot stand above `{}`: {reason}",
            element.tag, elements[other].tag
        );
        findings.push(
            element
                .place
                .error("above", CODE, message)
                .expected("wishes `above`, `beside` and `row` that do not contradict each other"),
        );
    }
}

/// For each element the first element of its group: those beside each other and those of one row.
fn groups(elements: &[ElementRequirement]) -> Vec<usize> {
    let mut group: Vec<usize> = (0..elements.len()).collect();
    let mut first_in_row: BTreeMap<u32, usize> = BTreeMap::new();
    for (index, element) in elements.iter().enumerate() {
        let same_row = element
            .placing
            .row
            .map(|row| *first_in_row.entry(row).or_insert(index));
        for other in element.placing.beside.into_iter().chain(same_row) {
            let (a, b) = (root(&group, index), root(&group, other));
            group[a.max(b)] = a.min(b);
        }
    }
    (0..elements.len())
        .map(|index| root(&group, index))
        .collect()
}

fn root(group: &[usize], mut index: usize) -> usize {
    while group[index] != index {
        index = group[index];
    }
    index
}

/// Whether one group lies above another by what is known so far.
fn reaches(below: &BTreeMap<usize, BTreeSet<usize>>, from: usize, to: usize) -> bool {
    let mut seen = BTreeSet::from([from]);
    let mut open = vec![from];
    while let Some(group) = open.pop() {
        if group == to {
            return true;
        }
        open.extend(
            below
                .get(&group)
                .into_iter()
                .flatten()
                .filter(|next| seen.insert(**next)),
        );
    }
    false
}
