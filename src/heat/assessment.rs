//! The heat of an arrangement three ways: rated power, defined arrangement, heat balance.
//! Knows the arrangement; nothing of how it was found or is drawn.
//!
//! The rated power decides. Everything else stands beside it: the certificate's other method, two
//! estimates of the temperatures inside, and where estimate and certificate disagree.

use super::bundles::{self, BundleGroup, ConductorHeatShare};
use super::comparison::{self, Comparison};
use super::contents;
use super::defined_arrangement::{self, DefinedArrangementResult};
use super::determined::Determined;
use super::inside::{self, InsideEstimate};
use super::warnings::{self, HeatWarning};
use crate::arrangement::{Arrangement, HeatLineKind};
use crate::standards::iec_60079_0::TemperatureClass;
use crate::standards::{Source, iec_60079_7, iec_tr_60890};
use serde::Serialize;

/// What is said wherever the estimate is shown.
pub const NOTE: &str = "an estimate beside the certificate's rating, which it never replaces";

/// The heat of an arrangement three ways.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HeatAssessment {
    /// [`NOTE`].
    pub note: &'static str,
    /// By the rated dissipated power: what decides.
    pub rated: RatedPowerUse,
    /// By the certificate's defined arrangement.
    pub defined_arrangement: DefinedArrangementUse,
    /// Temperatures inside at the power of the arrangement.
    pub inside: Determined<InsideEstimate>,
    /// The rating against the estimate.
    pub comparison: Determined<Comparison>,
    /// The conductors' heat against the rating.
    pub conductors: ConductorHeatShare,
    /// Where the limit of six conductors in a bundle has weight.
    pub bundles: Vec<BundleGroup>,
    /// What the reader has to look into.
    pub warnings: Vec<HeatWarning>,
    /// Where the methods come from.
    pub sources: Vec<Source>,
}

/// Use of the rated dissipated power.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RatedPowerUse {
    /// Dissipated power with resistances at the reference temperature, W.
    pub power_w: f64,
    /// The same with resistances at the limit of the class, W.
    pub power_at_limit_w: f64,
    /// Rated power of the certificate's row, W.
    pub rated_power_w: f64,
    /// Rated power less the reserve, W.
    pub permitted_power_w: f64,
    /// Class of the row.
    pub class: TemperatureClass,
    /// Ambient temperature of the row, °C.
    pub ambient_c: f64,
    /// Dissipated by permitted power.
    pub utilisation: f64,
    /// Whether the power is not above the permitted one.
    pub holds: bool,
}

/// Use of the defined arrangement, with what was left out of the count.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DefinedArrangementUse {
    /// The count against the certificate's rows.
    pub result: DefinedArrangementResult,
    /// Conductors that count: incoming ones and internal links.
    pub counted: u32,
    /// Links of jumpers among them, each taken with the thinnest conductor on its terminals.
    pub jumper_links: u32,
    /// Protective conductors and connected screens, which do not count.
    pub protective: u32,
    /// Unused cores, which carry nothing.
    pub unused: u32,
}

/// Assesses an arrangement.
pub fn assess(arrangement: &Arrangement) -> HeatAssessment {
    let heat = &arrangement.heat;
    let enclosure = &arrangement.enclosure;
    let rated = RatedPowerUse {
        power_w: heat.power_w,
        power_at_limit_w: heat.power_at_limit_w,
        rated_power_w: heat.rated_power_w,
        permitted_power_w: heat.permitted_power_w,
        class: heat.row_class,
        ambient_c: heat.row_ambient_c,
        utilisation: heat.power_w / heat.permitted_power_w,
        holds: heat.power_w <= heat.permitted_power_w,
    };
    let defined_arrangement = contents::defined_arrangement_use(arrangement);
    let closed_box = inside::closed_box(
        enclosure.outer_mm,
        enclosure.material,
        enclosure.wall_thickness_mm,
    );
    let inside: Determined<InsideEstimate> = closed_box
        .clone()
        .and_then(|closed_box| {
            inside::estimate(closed_box, &contents::question(arrangement))
                .map_err(|error| error.to_string())
        })
        .into();
    let comparison: Determined<Comparison> = closed_box
        .and_then(|closed_box| {
            comparison::compare(
                closed_box,
                heat.rated_power_w,
                heat.row_class.limit_after_margin_c(),
                heat.row_ambient_c,
            )
            .map_err(|error| error.to_string())
        })
        .into();
    let conductors_w = contents::power_of(arrangement, &[HeatLineKind::Conductors]);
    let warnings = warnings::warnings(&rated, &defined_arrangement.result, &inside, &comparison);
    HeatAssessment {
        note: NOTE,
        rated,
        defined_arrangement,
        inside,
        comparison,
        conductors: bundles::conductor_share(conductors_w, heat.rated_power_w),
        bundles: bundles::groups(
            &contents::grouped_conductors(arrangement),
            heat.rated_power_w,
        ),
        warnings,
        sources: vec![
            iec_60079_7::DISSIPATED_POWER,
            defined_arrangement::SOURCE,
            super::balance::SOURCE,
            super::local::SQUARE_LAW,
            iec_tr_60890::SURFACE,
            iec_tr_60890::CONSTANT_K,
            inside::ENTRY_SOURCE,
            bundles::SOURCE,
        ],
    }
}
