//! A list solved from end to end, audit included, without a word about it.

use crate::arrangement::Orientation;
use crate::audit::{self, AuditReport};
use crate::catalogue::Catalogue;
use crate::demand;
use crate::model::{self, Found, Prepared, SearchOptions, candidates, measure};
use crate::requirements::{Measure, RequirementList};
use crate::workshop::Workshop;
use serde::Serialize;

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
    /// Price of the empty enclosure, in the catalogue's currency.
    pub price: f64,
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
    let id = &found.mounted.id;
    let enclosure = catalogue
        .enclosure
        .iter()
        .find(|enclosure| enclosure.id == *id);
    let enclosure = enclosure.ok_or_else(|| format!("the catalogue has no `{id}`"))?;
    let holds = Holds {
        enclosure: id.clone(),
        orientation: found.mounted.orientation,
        volume_l: measure(enclosure, Measure::Volume) / 1e6,
        mass_kg: enclosure.mass_kg,
        price: enclosure.price,
    };
    Ok((holds, audit))
}
