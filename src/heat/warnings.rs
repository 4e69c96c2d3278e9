//! What a reader has to look into after the heat was assessed. Words only: it decides nothing.

use super::assessment::RatedPowerUse;
use super::comparison::{Agreement, Comparison};
use super::defined_arrangement::{DefinedArrangementResult, MethodStatus};
use super::determined::Determined;
use super::inside::InsideEstimate;
use crate::number::fixed;
use serde::Serialize;

/// A warning with a stable code.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct HeatWarning {
    /// Stable code, such as `rating-above-estimate`.
    pub code: &'static str,
    /// The warning in a sentence.
    pub text: String,
}

/// The code of a warning that a part, or the air, gets hotter than the class allows by the estimate.
pub const CLASS_PASSED: &str = "class-passed-by-estimate";

/// The warnings, the gravest first.
pub(super) fn warnings(
    rated: &RatedPowerUse,
    defined: &DefinedArrangementResult,
    inside: &Determined<InsideEstimate>,
    comparison: &Determined<Comparison>,
) -> Vec<HeatWarning> {
    let mut found = Vec::new();
    let mut warn = |code, text| found.push(HeatWarning { code, text });
    if !rated.holds {
        warn(
            "rating-passed",
            format!(
                "{} W are more than the {} W that the certificate permits less the reserve",
                fixed(rated.power_w, 2),
                fixed(rated.permitted_power_w, 2)
            ),
        );
    }
    if let Some(comparison) = comparison.known() {
        disagreement(comparison, &mut warn);
    }
    if let Some(inside) = inside.known() {
        temperatures(inside, rated, &mut warn);
    }
    if defined.status == MethodStatus::Exceeded {
        warn(
            "defined-arrangement-passed",
            format!(
                "by the defined arrangement the box does not hold (sum {:.4}, at most 1); by the rated \
                 power it {}: the certificate says which method it may be judged by",
                defined.utilisation.unwrap_or(f64::NAN),
                if rated.holds {
                    "does"
                } else {
                    "does not either"
                }
            ),
        );
    }
    found
}

fn disagreement(comparison: &Comparison, warn: &mut impl FnMut(&'static str, String)) {
    let Comparison {
        rated_power_w,
        balance_power_w,
        inside_rise_k,
        factor,
        ratio,
        ..
    } = comparison;
    let [rated_power_w, balance_power_w, inside_rise_k] =
        [rated_power_w, balance_power_w, inside_rise_k].map(|value| fixed(*value, 1));
    match comparison.agreement {
        Agreement::Agrees => {}
        Agreement::CertificateHigher => warn(
            "rating-above-estimate",
            format!(
                "the certificate permits {rated_power_w} W, {ratio:.1} times the {balance_power_w} W \
                 that the estimate passes at {inside_rise_k} K: more than {factor:.0} times; check the \
                 entry in the catalogue against the certificate"
            ),
        ),
        Agreement::CertificateLower => warn(
            "rating-below-estimate",
            format!(
                "the certificate permits {rated_power_w} W, {ratio:.2} times the {balance_power_w} W \
                 that the estimate passes at {inside_rise_k} K: less than 1/{factor:.0}; the rating \
                 stands, but check the entry in the catalogue"
            ),
        ),
    }
}

fn temperatures(
    inside: &InsideEstimate,
    rated: &RatedPowerUse,
    warn: &mut impl FnMut(&'static str, String),
) {
    if let Some(hottest) = inside.hottest.known().filter(|part| !part.within_limit) {
        warn(
            CLASS_PASSED,
            format!(
                "by the estimate {} reaches {} °C, above {}",
                hottest.name,
                fixed(hottest.temperature_c, 1),
                limit_in_words(rated)
            ),
        );
    } else if inside.balance.inside_air_c > rated.class.limit_after_margin_c() {
        warn(
            CLASS_PASSED,
            format!(
                "by the estimate the air inside alone reaches {} °C, above {}",
                fixed(inside.balance.inside_air_c, 1),
                limit_in_words(rated)
            ),
        );
    }
    if inside.entry.passed {
        warn(
            "entry-temperature",
            format!(
                "the cable entry may reach {} °C, above {:.0} °C: the box must say so outside",
                fixed(inside.entry.between_c[1], 1),
                inside.entry.limit_c
            ),
        );
    }
    if let Some(branching) = inside.branching.known().filter(|point| point.passed) {
        warn(
            "branching-temperature",
            format!(
                "where the conductors branch it may reach {} °C, above {:.0} °C: the box must say so \
                 outside",
                fixed(branching.between_c[1], 1),
                branching.limit_c
            ),
        );
    }
}

/// The limit of the class less the margin of the type test, such as `80 °C (the 85 °C of T6 less 5 K)`.
fn limit_in_words(rated: &RatedPowerUse) -> String {
    let class = rated.class;
    let (whole_c, limit_c) = (class.limit_c(), class.limit_after_margin_c());
    format!(
        "{limit_c:.0} °C (the {whole_c:.0} °C of {class} less {:.0} K)",
        whole_c - limit_c
    )
}
