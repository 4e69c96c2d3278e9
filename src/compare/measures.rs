//! The margins of one arrangement that has passed the audit.

use crate::arrangement::Arrangement;
use crate::audit;
use crate::catalogue::Catalogue;
use crate::space::Face;
use serde::Serialize;
use std::collections::BTreeMap;
use std::f64::consts::PI;

/// Margins of an arrangement. Figures are missing where the thing they measure does not exist.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Margins {
    /// Free length on all rails together, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rail_mm: Option<f64>,
    /// Tightest gap between entries, or between an entry and a corner, beyond what is required, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub walls_mm: Option<f64>,
    /// Tightest distance of elements from each other and from the lid's edge, beyond what is required, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lid_mm: Option<f64>,
    /// Tightest depth, before terminals or behind elements, beyond what is required, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub depth_mm: Option<f64>,
    /// Share of each drillable wall's areas that the entries' envelopes take, percent.
    pub fill_percent: BTreeMap<Face, f64>,
}

/// Measures an arrangement.
///
/// # Errors
/// It does not pass the audit, which is a fault of the program.
pub fn measured(arrangement: &Arrangement, catalogue: &Catalogue) -> Result<Margins, String> {
    let audit = audit::audit(arrangement, Some(catalogue));
    if let Some(rule) = audit.failing().next() {
        return Err(format!(
            "the arrangement in `{}` does not pass the audit: {}: {}",
            arrangement.enclosure.id, rule.id, rule.text
        ));
    }
    let tightest = |rules: &[&str]| {
        rules
            .iter()
            .filter_map(|id| audit.rule(id))
            .filter(|rule| rule.cases > 0)
            .filter_map(|rule| rule.margin)
            .reduce(f64::min)
    };
    let elements = !arrangement.elements.is_empty();
    Ok(Margins {
        rail_mm: (!arrangement.rails.is_empty()).then(|| free_rail_mm(arrangement)),
        walls_mm: tightest(&["space.entry_spacing", "space.entry_corner"]),
        lid_mm: tightest(&[
            "space.element_gap",
            "space.emergency_stop_free",
            "space.element_edge",
        ])
        .filter(|_| elements),
        depth_mm: tightest(&["space.lid_clearance", "space.element_depth"]),
        fill_percent: fill_percent(arrangement),
    })
}

fn free_rail_mm(arrangement: &Arrangement) -> f64 {
    arrangement
        .rails
        .iter()
        .map(|rail| {
            let terminals = arrangement
                .terminals
                .iter()
                .filter(|part| part.rail == rail.id);
            let accessories = arrangement
                .accessories
                .iter()
                .filter(|part| part.rail == rail.id);
            let taken_mm: f64 = terminals
                .map(|part| part.body.width_mm())
                .chain(accessories.map(|part| part.body.width_mm()))
                .sum();
            rail.length_mm - taken_mm
        })
        .sum()
}

fn fill_percent(arrangement: &Arrangement) -> BTreeMap<Face, f64> {
    let walls = arrangement.enclosure.walls.iter();
    walls
        .map(|(wall, record)| {
            let area_mm2: f64 = record.areas.iter().map(|area| area.area_mm2()).sum();
            let taken_mm2: f64 = arrangement
                .entries
                .iter()
                .filter(|entry| entry.wall == *wall)
                .map(|entry| PI / 4.0 * entry.envelope_mm.powi(2))
                .sum();
            let share = if area_mm2 > 0.0 {
                taken_mm2 / area_mm2
            } else {
                0.0
            };
            (*wall, 100.0 * share)
        })
        .collect()
}

impl Margins {
    /// Fill of the fullest wall, percent.
    pub fn fullest_percent(&self) -> f64 {
        self.fill_percent.values().copied().fold(0.0, f64::max)
    }
}
