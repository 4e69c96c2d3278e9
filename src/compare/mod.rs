//! All candidates for a list side by side: whether each takes it, the first thing that fails, the
//! margins, and which ones no other beats. Knows nothing of how it is printed.

mod chart;
mod filter;
mod front;
mod measures;
pub mod table;

pub use chart::chart;
pub use filter::Filter;
pub use front::{Measured, mark_front};
pub use measures::{Margins, measured};

use crate::arrangement::{EntryPlacing, Orientation};
use crate::catalogue::{Catalogue, Enclosure, Material};
use crate::demand;
use crate::model::{self, Prepared, Reason, SearchOptions, mount};
use crate::propose::ProposeError;
use crate::requirements::{RequirementList, check_parts};
use crate::source::{Findings, Severity};
use crate::workshop::Workshop;
use itertools::Itertools;
use serde::Serialize;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc;

/// One candidate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Row {
    /// Enclosure.
    pub enclosure: String,
    /// Orientation.
    pub orientation: Orientation,
    /// Whether it takes the list; then its arrangement has passed the audit.
    pub fits: bool,
    /// How its entries are placed where it fits: in rows, or only freely.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub placement: Option<EntryPlacing>,
    /// Whether it is on the trade-off front of the measures asked for.
    pub front: bool,
    /// The first thing that fails.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<Reason>,
    /// The first thing that fails, in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub words: Option<String>,
    /// Whether it was not looked at because no part of the catalogue serves some entry of the list.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub without_part: bool,
    /// Material of the enclosure.
    pub material: Material,
    /// Outer width, height and depth as mounted, mm.
    pub outer_mm: [f64; 3],
    /// Outer volume, litres.
    pub volume_l: f64,
    /// Mass of the empty enclosure, kg.
    pub mass_kg: f64,
    /// Price of the empty enclosure.
    pub price: f64,
    /// Currency of the price; empty where the catalogue names none.
    pub currency: String,
    /// Power permitted less power dissipated, W; missing where the certificate has no row for the area.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub heat_w: Option<f64>,
    /// Margins of the arrangement; missing where it does not fit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub margins: Option<Margins>,
}

/// Compares all candidates, in the order of the objective. Candidates are decided on all processors;
/// `progress` is told how many of how many are done.
///
/// A candidate whose arrangement does not pass the audit, which is a fault of the program, is listed as
/// one that does not fit, with that fault.
///
/// # Errors
/// Findings about the input, or a conductor without a known resistance.
pub fn compare(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
    progress: &mut dyn FnMut(usize, usize),
) -> Result<Vec<Row>, ProposeError> {
    let workers = std::thread::available_parallelism().map_or(1, |count| count.get());
    compare_on(workers, list, catalogue, workshop, options, progress)
}

/// As [`compare`], on so many threads. Their number changes nothing in the answer.
///
/// # Errors
/// As [`compare`].
pub fn compare_on(
    workers: usize,
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
    progress: &mut dyn FnMut(usize, usize),
) -> Result<Vec<Row>, ProposeError> {
    let findings = check_parts(list, catalogue);
    if findings.has_errors() {
        return Err(findings.into());
    }
    let demand = demand::build(list, catalogue, workshop).map_err(ProposeError::NoPart)?;
    let prepared = Prepared::new(list, &demand, workshop, options).map_err(ProposeError::Fault)?;
    let candidates = model::candidates(list, catalogue);
    let next = AtomicUsize::new(0);
    let mut rows: Vec<Option<Row>> = vec![None; candidates.len()];
    std::thread::scope(|scope| {
        let (sender, receiver) = mpsc::channel();
        for _ in 0..workers.max(1) {
            let sender = sender.clone();
            let (next, candidates, prepared, demand) = (&next, &candidates, &prepared, &demand);
            scope.spawn(move || {
                loop {
                    let index = next.fetch_add(1, Ordering::Relaxed);
                    let Some((enclosure, orientation)) = candidates.get(index) else {
                        return;
                    };
                    let row = row(
                        list,
                        catalogue,
                        workshop,
                        demand,
                        prepared,
                        enclosure,
                        *orientation,
                    );
                    if sender.send((index, row)).is_err() {
                        return;
                    }
                }
            });
        }
        drop(sender);
        for (done, (index, row)) in receiver.iter().enumerate() {
            rows[index] = Some(row);
            progress(done + 1, candidates.len());
        }
    });
    Ok(rows.into_iter().flatten().collect())
}

fn row(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    demand: &demand::Demand<'_>,
    prepared: &Prepared<'_, '_, '_>,
    enclosure: &Enclosure,
    orientation: Orientation,
) -> Row {
    let mounted = mount(enclosure, orientation);
    let heat_w = prepared
        .heat_w(&mounted)
        .map(|(power_w, permitted_w)| permitted_w - power_w);
    let decided = prepared.decide_candidate(enclosure, orientation);
    let placement = decided
        .as_ref()
        .ok()
        .map(|found| found.decided.entry_placing());
    let (reason, margins, fault) = match decided {
        Ok(found) => {
            let arranged = model::arrange(list, demand, catalogue, workshop, &found)
                .and_then(|arrangement| measured(&arrangement, catalogue));
            match arranged {
                Ok(margins) => (None, Some(margins), None),
                Err(fault) => (None, None, Some(fault)),
            }
        }
        Err(reason) => (Some(reason), None, None),
    };
    let words = match (&reason, &fault) {
        (Some(reason), _) => Some(reason.to_string()),
        (None, Some(fault)) => Some(format!("an error of ours, not of your input: {fault}")),
        (None, None) => None,
    };
    Row {
        fits: margins.is_some(),
        placement: placement.filter(|_| margins.is_some()),
        words,
        reason,
        heat_w,
        margins,
        ..bare(catalogue, enclosure, orientation)
    }
}

/// A candidate of which nothing is decided.
fn bare(catalogue: &Catalogue, enclosure: &Enclosure, orientation: Orientation) -> Row {
    Row {
        enclosure: enclosure.id.clone(),
        orientation,
        fits: false,
        placement: None,
        front: false,
        words: None,
        reason: None,
        without_part: false,
        material: enclosure.material,
        outer_mm: mount(enclosure, orientation).outer_mm,
        volume_l: model::measure(enclosure, crate::requirements::Measure::Volume) / 1e6,
        mass_kg: enclosure.mass_kg,
        price: enclosure.price,
        currency: catalogue.about.currency.clone(),
        heat_w: None,
        margins: None,
    }
}

/// All candidates of a list that no candidate can take, because no part of the catalogue serves some of its
/// entries: each with these for its reason.
pub fn without_part(
    list: &RequirementList,
    catalogue: &Catalogue,
    findings: &Findings,
) -> Vec<Row> {
    let errors = findings
        .iter()
        .filter(|finding| finding.severity == Severity::Error);
    let words = errors.map(|finding| finding.message.as_str()).join("; ");
    let candidates = model::candidates(list, catalogue).into_iter();
    candidates
        .map(|(enclosure, orientation)| Row {
            words: Some(words.clone()),
            without_part: true,
            ..bare(catalogue, enclosure, orientation)
        })
        .collect()
}
