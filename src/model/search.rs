//! The search over candidates in the order of the objective: the first that holds is the smallest.

use super::candidate::Prepared;
use super::decide::Decided;
use super::free::Placement;
use super::heat::HeatTerms;
use super::reason::Excluded;
use crate::arrangement::{EnclosureRecord, Orientation};
use crate::catalogue::{Catalogue, Enclosure};
use crate::demand::Demand;
use crate::requirements::{Measure, RequirementList};
use crate::workshop::Workshop;
use std::cmp::Ordering;

/// How long the search may take, and how entries may be placed.
#[derive(Debug, Clone, Copy)]
pub struct SearchOptions {
    /// Time limit of one exact decision, s.
    pub decision_limit_s: f64,
    /// How entries are placed.
    pub placement: Placement,
}

impl Default for SearchOptions {
    fn default() -> Self {
        Self {
            decision_limit_s: 10.0,
            placement: Placement::default(),
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
    let mut excluded: Vec<Excluded> = Vec::new();
    for (enclosure, orientation) in candidates {
        match prepared.decide_candidate(enclosure, orientation) {
            Ok(found) => {
                let proven = is_proven(&excluded);
                return Ok(Outcome::Found(Box::new(Found {
                    excluded,
                    proven,
                    candidates: count,
                    ..found
                })));
            }
            Err(reason) => {
                excluded.push(Excluded {
                    enclosure: enclosure.id.clone(),
                    orientation,
                    reason,
                });
            }
        }
    }
    let proven = is_proven(&excluded);
    Ok(Outcome::Impossible { excluded, proven })
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
