//! The search over candidates in the order of the objective: the first that holds is the smallest.

use super::candidate::Prepared;
use super::decide::Decided;
use super::free::Placement;
use super::heat::HeatTerms;
use super::milp::Solver;
use super::patience::Patience;
use super::reason::{Excluded, Reason};
use crate::arrangement::{CandidateName, EnclosureRecord, Orientation};
use crate::catalogue::{Catalogue, Enclosure};
use crate::demand::Demand;
use crate::packing::Effort;
use crate::parallel::together;
use crate::requirements::{Measure, RequirementList};
use crate::workshop::Workshop;
use std::cmp::Ordering;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering as AtomicOrdering};
use std::time::Instant;

/// How long the search may take, and how entries may be placed.
#[derive(Debug, Clone, Copy)]
pub struct SearchOptions {
    /// Time limit of one exact decision, s.
    pub decision_limit_s: f64,
    /// When the whole time is over: then only quick ways are gone, and what they leave is undecided.
    pub deadline: Option<Instant>,
    /// Set from outside where somebody wishes to stop: as if the whole time were over.
    pub stop: Option<&'static AtomicBool>,
    /// Candidates decided at the same time; 0 for as many as the machine has cores. The answer does not
    /// depend on it.
    pub threads: usize,
    /// How entries are placed.
    pub placement: Placement,
    /// Whether entries in no rows are searched for ten times as long before a candidate is left open.
    pub patient: bool,
    /// Who solves the programs.
    pub solver: Solver,
}

impl SearchOptions {
    pub(super) fn patience(&self) -> Patience {
        Patience {
            decision_limit_s: self.decision_limit_s,
            deadline: self.deadline,
            stop: self.stop,
            solver: self.solver,
        }
    }

    pub(super) fn free_effort(&self) -> Effort {
        match self.patient {
            true => Effort::Patient,
            false => Effort::Quick,
        }
    }

    fn threads(&self) -> usize {
        match self.threads {
            0 => std::thread::available_parallelism().map_or(1, usize::from),
            some => some,
        }
    }
}

impl Default for SearchOptions {
    fn default() -> Self {
        Self {
            decision_limit_s: 10.0,
            deadline: None,
            stop: None,
            threads: 0,
            placement: Placement::default(),
            patient: false,
            solver: Solver::default(),
        }
    }
}

/// What came of the search.
#[derive(Debug, Clone)]
pub enum Outcome {
    /// A candidate that holds.
    Found(Box<Found>),
    /// No candidate holds.
    Impossible {
        /// Why each was excluded, in the order of the objective.
        excluded: Vec<Excluded>,
        /// Whether every candidate was disproved; otherwise some are undecided.
        proven: bool,
    },
}

/// The candidate found.
#[derive(Debug, Clone)]
pub struct Found {
    /// The enclosure as mounted.
    pub mounted: EnclosureRecord,
    /// What goes where.
    pub decided: Decided,
    /// Why each smaller candidate was excluded, in the order of the objective.
    pub excluded: Vec<Excluded>,
    /// Whether every smaller candidate was disproved.
    pub proven: bool,
    /// Number of candidates, enclosures times orientations.
    pub candidates: usize,
    /// The terms of its heat.
    pub terms: HeatTerms,
}

/// Searches the catalogue.
///
/// # Errors
/// A conductor for which no resistance is known.
pub fn search(
    list: &RequirementList,
    demand: &Demand<'_>,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
) -> Result<Outcome, String> {
    let prepared = Prepared::new(list, demand, workshop, options)?;
    let candidates = candidates(list, catalogue);
    let count = candidates.len();
    let (found, reasons) = first_that_holds(&prepared, &candidates, options.threads());
    let excluded: Vec<Excluded> = candidates
        .iter()
        .zip(reasons)
        .map(|((enclosure, orientation), reason)| Excluded {
            enclosure: enclosure.id.clone(),
            orientation: *orientation,
            reason,
        })
        .collect();
    let proven = is_proven(&excluded);
    Ok(match found {
        Some(found) => Outcome::Found(Box::new(Found {
            excluded,
            proven,
            candidates: count,
            ..found
        })),
        None => Outcome::Impossible { excluded, proven },
    })
}

/// The first candidate that holds, and the reasons against all before it.
///
/// Several are decided at the same time, handed out in order. One that lies behind a candidate known to
/// hold is not begun; everything before the first that holds has been handed out before it, so the answer
/// is that of going through them one by one.
fn first_that_holds(
    prepared: &Prepared<'_, '_, '_>,
    candidates: &[(&Enclosure, Orientation)],
    threads: usize,
) -> (Option<Found>, Vec<Reason>) {
    let next = AtomicUsize::new(0);
    let first = AtomicUsize::new(usize::MAX);
    let work = || {
        let mut decided = Vec::new();
        loop {
            let index = next.fetch_add(1, AtomicOrdering::Relaxed);
            if index >= candidates.len() || index > first.load(AtomicOrdering::Relaxed) {
                return decided;
            }
            let (enclosure, orientation) = candidates[index];
            let outcome = prepared.decide_candidate(enclosure, orientation);
            if outcome.is_ok() {
                first.fetch_min(index, AtomicOrdering::Relaxed);
            }
            decided.push((index, outcome));
        }
    };
    let mut decided = together(threads, work);
    decided.sort_by_key(|(index, _)| *index);
    let mut reasons = Vec::new();
    for (_, outcome) in decided {
        match outcome {
            Ok(found) => return (Some(found), reasons),
            Err(reason) => reasons.push(reason),
        }
    }
    (None, reasons)
}

/// The candidates in which entries in no rows were tried, not found, and not disproved.
pub fn open_freely(excluded: &[Excluded]) -> Vec<CandidateName> {
    excluded
        .iter()
        .filter(|candidate| candidate.reason.is_open_freely())
        .map(|candidate| CandidateName {
            enclosure: candidate.enclosure.clone(),
            orientation: candidate.orientation,
        })
        .collect()
}

fn is_proven(excluded: &[Excluded]) -> bool {
    !excluded
        .iter()
        .any(|candidate| candidate.reason.is_undecided())
}

/// All candidates in the order of the objective; ties by volume, footprint, mass, price and id, then by
/// the list's order of orientations.
pub fn candidates<'c>(
    list: &RequirementList,
    catalogue: &'c Catalogue,
) -> Vec<(&'c Enclosure, Orientation)> {
    let mut enclosures: Vec<&Enclosure> = catalogue.enclosure.iter().collect();
    let ties = [
        Measure::Volume,
        Measure::Footprint,
        Measure::Mass,
        Measure::Price,
    ];
    enclosures.sort_by(|a, b| {
        list.wishes
            .smallest
            .iter()
            .chain(&ties)
            .map(|by| measure(a, *by).total_cmp(&measure(b, *by)))
            .find(|order| *order != Ordering::Equal)
            .unwrap_or_else(|| a.id.cmp(&b.id))
    });
    enclosures
        .into_iter()
        .flat_map(|enclosure| {
            list.wishes
                .orientations
                .iter()
                .map(move |orientation| (enclosure, *orientation))
        })
        .collect()
}

/// The size of an enclosure by one measure: mm³, mm², kg or the catalogue's currency.
pub fn measure(enclosure: &Enclosure, by: Measure) -> f64 {
    let [width, height, depth] = enclosure.outer_mm;
    match by {
        Measure::Volume => width * height * depth,
        Measure::Footprint => width * height,
        Measure::Mass => enclosure.mass_kg,
        Measure::Price => enclosure.price,
    }
}
