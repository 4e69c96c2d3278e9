//! The sample: the first cases that fill each share, in the order of their numbers.

use super::cases::{Case, Family};
use super::opinion::{self, Opinion, Taken};
use glandrail::demand::{self, Demand};
use glandrail::requirements::RequirementList;
use glandrail::workshop::Workshop;
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// How hard a case is, by the second opinion.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Class {
    /// The first candidate that passes the screens holds, on one rail, with the first wall of the list.
    Easy,
    /// A candidate holds, but not the first that passes the screens, or not in the easiest way.
    Hard,
    /// Candidates pass the screens, none holds.
    NoRoom,
    /// No candidate passes the screens.
    Screened,
}

/// Cases of each family and class. Both kinds of circuit need two rows or a mixed rail: never easy.
pub const SHARES: [(Family, Class, usize); 15] = [
    (Family::Junction, Class::Easy, 25),
    (Family::Feeder, Class::Easy, 25),
    (Family::Station, Class::Easy, 25),
    (Family::Junction, Class::Hard, 30),
    (Family::Feeder, Class::Hard, 25),
    (Family::Mixed, Class::Hard, 30),
    (Family::Station, Class::Hard, 35),
    (Family::Junction, Class::NoRoom, 12),
    (Family::Feeder, Class::NoRoom, 12),
    (Family::Mixed, Class::NoRoom, 12),
    (Family::Station, Class::NoRoom, 12),
    (Family::Junction, Class::Screened, 4),
    (Family::Feeder, Class::Screened, 4),
    (Family::Mixed, Class::Screened, 4),
    (Family::Station, Class::Screened, 4),
];

/// Sizes up to which everything is tried in milliseconds.
const MOST_CLUSTERS: usize = 7;
const MOST_ENTRIES: usize = 6;
const MOST_ELEMENTS: usize = 4;

/// Cases are looked for up to this number.
const LAST_NUMBER: u64 = 3000;

/// A case with the second opinion on it.
pub struct Judged {
    pub case: Case,
    pub list: RequirementList,
    pub opinion: Opinion,
    pub class: Class,
}

/// The sample, decided once.
pub fn sample() -> &'static [Judged] {
    static SAMPLE: OnceLock<Vec<Judged>> = OnceLock::new();
    SAMPLE.get_or_init(|| {
        let mut wanted: BTreeMap<(Family, Class), usize> = SHARES
            .iter()
            .map(|(family, class, count)| ((*family, *class), *count))
            .collect();
        let mut sample = Vec::new();
        for number in 1..=LAST_NUMBER {
            if wanted.values().all(|count| *count == 0) {
                break;
            }
            let Some(judged) = judge(number) else {
                continue;
            };
            let left = wanted.get_mut(&(judged.case.family, judged.class));
            if let Some(left) = left.filter(|left| **left > 0) {
                *left -= 1;
                sample.push(judged);
            }
        }
        sample
    })
}

/// Judges the case with a number; `None` where it is too large to try everything.
pub fn judge(number: u64) -> Option<Judged> {
    let workshop = Workshop::default();
    let case = Case::new(number);
    let list = case.list();
    let demand = demand::build(&list, &case.catalogue, &workshop)
        .unwrap_or_else(|findings| panic!("case {number}: {}", findings.summary()));
    if !is_small(&demand) {
        return None;
    }
    let opinion = opinion::decide(&list, &case.catalogue, &workshop);
    let class = class(&opinion);
    Some(Judged {
        case,
        list,
        opinion,
        class,
    })
}

fn is_small(demand: &Demand<'_>) -> bool {
    let clusters: usize = demand.strips.iter().map(|strip| strip.clusters.len()).sum();
    clusters <= MOST_CLUSTERS
        && demand.entries.len() <= MOST_ENTRIES
        && demand.elements.len() <= MOST_ELEMENTS
}

fn class(opinion: &Opinion) -> Class {
    let some_passed = opinion.excluded.iter().any(|(_, screen)| screen.is_none());
    match &opinion.chosen {
        None if some_passed => Class::NoRoom,
        None => Class::Screened,
        Some((_, taken)) if some_passed || !is_plain(taken) => Class::Hard,
        Some(_) => Class::Easy,
    }
}

fn is_plain(taken: &Taken) -> bool {
    taken.rails <= 1 && !taken.mixed_rail && !taken.band && !taken.further_walls
}
