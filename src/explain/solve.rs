//! A list solved from end to end, audit included, without a word about it.

use crate::arrangement::{Arrangement, Orientation};
use crate::audit::{self, AuditReport};
use crate::catalogue::Catalogue;
use crate::demand;
use crate::heat;
use crate::model::{self, Found, Prepared, SearchOptions, candidates, measure};
use crate::requirements::{Measure, RequirementList};
use crate::workshop::Workshop;
use serde::Serialize;
use std::cell::RefCell;

/// An enclosure that holds, with what it costs.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Holds {
    /// Enclosure.
    pub enclosure: String,
    /// Orientation.
    pub orientation: Orientation,
    /// Outer volume, litres.
    pub volume_l: f64,
    /// Mass of the empty enclosure, kg.
    pub mass_kg: f64,
    /// Outer width × height, cm².
    pub footprint_cm2: f64,
    /// Price of the empty enclosure.
    pub price: f64,
    /// Currency of the price; empty where the catalogue names none.
    pub currency: String,
    /// What the estimate of the heat says against it, though the certificate permits it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<String>,
}

impl Holds {
    /// An enclosure of the catalogue with its measures.
    pub(super) fn of(catalogue: &Catalogue, id: &str, orientation: Orientation) -> Self {
        let part = catalogue.enclosure.iter().find(|part| part.id == id);
        Self {
            enclosure: id.to_string(),
            orientation,
            volume_l: part.map_or(0.0, |part| measure(part, Measure::Volume) / 1e6),
            mass_kg: part.map_or(0.0, |part| part.mass_kg),
            footprint_cm2: part.map_or(0.0, |part| measure(part, Measure::Footprint) / 100.0),
            price: part.map_or(0.0, |part| part.price),
            currency: catalogue.about.currency.clone(),
            cautions: Vec::new(),
        }
    }

    /// An arrangement that has passed the audit.
    pub(super) fn made(catalogue: &Catalogue, arrangement: &Arrangement) -> Self {
        let enclosure = &arrangement.enclosure;
        let warnings = heat::assess(arrangement).warnings.into_iter();
        Self {
            cautions: warnings
                .filter(|warning| warning.code == heat::CLASS_PASSED)
                .map(|warning| warning.text)
                .collect(),
            ..Self::of(catalogue, &enclosure.id, enclosure.orientation)
        }
    }
}

/// The smallest that takes the list. Nothing is concluded from what is known of other lists: a way
/// out must hold by itself.
pub fn takes(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
) -> Option<Found> {
    let demand = demand::build(list, catalogue, workshop).ok()?;
    let prepared = Prepared::new(list, &demand, workshop, options).ok()?;
    candidates(list, catalogue)
        .into_iter()
        .find_map(|(enclosure, orientation)| prepared.decide_candidate(enclosure, orientation).ok())
}

/// The candidate that served last.
#[derive(Default)]
pub struct Served(RefCell<Option<(String, Orientation)>>);

/// Whether anything takes the list: as [`takes`], without asking which is the smallest. What served last is asked
/// first, then the largest.
pub(super) fn serves(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
    served: &Served,
) -> bool {
    let Ok(demand) = demand::build(list, catalogue, workshop) else {
        return false;
    };
    let Ok(prepared) = Prepared::new(list, &demand, workshop, options) else {
        return false;
    };
    let last = served.0.borrow().clone();
    let is_last = |id: &str, orientation: Orientation| {
        last.as_ref()
            .is_some_and(|(known, known_so)| known == id && *known_so == orientation)
    };
    let all = candidates(list, catalogue);
    let (first, then): (Vec<_>, Vec<_>) = all
        .into_iter()
        .rev()
        .partition(|(enclosure, orientation)| is_last(&enclosure.id, *orientation));
    first
        .into_iter()
        .chain(then)
        .any(|(enclosure, orientation)| {
            let taken = prepared.decide_candidate(enclosure, orientation).is_ok();
            if taken {
                *served.0.borrow_mut() = Some((enclosure.id.clone(), orientation));
            }
            taken
        })
}

/// Places what was found to the millimetre and audits it.
///
/// # Errors
/// A fault of the program: what was found cannot be placed or does not pass its own audit.
pub fn proved(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    found: &Found,
) -> Result<(Holds, AuditReport), String> {
    let demand = demand::build(list, catalogue, workshop)
        .map_err(|findings| format!("what was found has no demand: {}", findings.summary()))?;
    let arrangement = model::arrange(list, &demand, catalogue, workshop, found)?;
    let audit = audit::audit(&arrangement, Some(catalogue));
    if let Some(rule) = audit.failing().next() {
        return Err(format!(
            "the arrangement in `{}` does not pass the audit: {}: {}",
            arrangement.enclosure.id, rule.id, rule.text
        ));
    }
    Ok((Holds::made(catalogue, &arrangement), audit))
}
