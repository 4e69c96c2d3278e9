//! The estimated heat in words, beside the rating. Decides nothing.

pub(super) mod calculation;
pub(super) mod chart;

use super::summary::{Fit, block, sentences};
use super::{fixed, number};
use crate::heat::HeatAssessment;
use crate::heat::assessment::DefinedArrangementUse;
use crate::heat::bundles::{BundleGroup, BundleWeight, NEGLIGIBLE_SHARE, NEGLIGIBLE_W};
use crate::heat::comparison::{Agreement, Comparison, WARNING_FACTOR};
use crate::heat::inside::{CableTemperature, InsideEstimate};
use crate::heat::{Determined, HeatWarning};
use crate::letters::plural;
use crate::standards::iec_60079_7::BUNDLE_LIMIT;

/// The heat of a box as far as it is estimated, one short line each.
pub fn heat_estimated(heat: &HeatAssessment) -> String {
    let mut out = String::new();
    sentences(
        &mut out,
        &format!("Heat, estimated ({})", heat.note),
        &estimated_lines(heat),
    );
    out
}

/// The lines of [`heat_estimated`], a sentence or two each.
pub(super) fn estimated_lines(heat: &HeatAssessment) -> Vec<String> {
    let mut lines = Vec::new();
    match &heat.inside {
        Determined::Known(inside) => temperatures(&mut lines, inside, heat.rated.power_at_limit_w),
        Determined::NotDetermined(reason) => {
            lines.push(format!("Temperatures inside: not determined: {reason}."));
        }
    }
    lines.push(match &heat.comparison {
        Determined::Known(comparison) => comparison_words(comparison),
        Determined::NotDetermined(reason) => {
            format!("Rating against estimate: not determined: {reason}.")
        }
    });
    lines.push(defined_words(&heat.defined_arrangement));
    lines.extend(conductor_words(heat));
    lines.extend(heat.warnings.iter().map(warning_words));
    lines
}

fn warning_words(warning: &HeatWarning) -> String {
    format!("Warning: {}.", warning.text)
}

fn temperatures(lines: &mut Vec<String>, inside: &InsideEstimate, power_w: f64) {
    let balance = &inside.balance;
    lines.push(format!(
        "Air inside {} °C, {} K above {} °C, at {} W (heat balance, box on a wall).",
        fixed(balance.inside_air_c, 1),
        fixed(balance.inside_rise_k, 1),
        number(balance.ambient_c, 1),
        fixed(power_w, 2)
    ));
    lines.push(match &inside.report {
        Determined::Known(rise) => format!(
            "By IEC TR 60890: {} K at half height, {} K at the top.",
            fixed(rise.rise_at_half_height_k, 1),
            fixed(rise.rise_at_top_k, 1)
        ),
        Determined::NotDetermined(reason) => format!("IEC TR 60890 gives no estimate: {reason}."),
    });
    let unknown = match inside.unknown_rises.len() {
        0 => String::new(),
        count => format!(
            "; the rise of {count} {} with current is not known",
            plural(count, "part", "parts")
        ),
    };
    lines.push(match &inside.hottest {
        Determined::Known(part) => format!(
            "Hottest terminal {}: {} °C, limit {} °C (that of the class less the margin of the type test), {} K \
             above the air{unknown}.",
            part.name,
            fixed(part.temperature_c, 1),
            number(part.limit_c, 1),
            fixed(part.local_rise_k, 1)
        ),
        Determined::NotDetermined(reason) => {
            format!("Hottest terminal: not determined: {reason}{unknown}.")
        }
    });
    let branching = match &inside.branching {
        Determined::Known(point) => cable_words(point),
        Determined::NotDetermined(reason) => format!("not determined ({reason})"),
    };
    lines.push(format!(
        "Cable entry {}; branching {branching}; above either the temperature of the cable is marked ({}).",
        cable_words(&inside.entry),
        crate::heat::inside::ENTRY_SOURCE
    ));
}

fn cable_words(point: &CableTemperature) -> String {
    let [least, most] = point.between_c;
    format!(
        "{} to {} °C, {} {} °C",
        fixed(least, 1),
        fixed(most, 1),
        if point.passed { "above" } else { "within" },
        number(point.limit_c, 0)
    )
}

fn comparison_words(comparison: &Comparison) -> String {
    format!(
        "Rating {} W against {} W of the balance at {} K ({} × the rise of the class): factor {}, {}.",
        number(comparison.rated_power_w, 1),
        fixed(comparison.balance_power_w, 1),
        number(comparison.inside_rise_k, 1),
        number(crate::heat::comparison::AIR_SHARE_OF_RISE, 2),
        fixed(comparison.ratio, 2),
        match comparison.agreement {
            Agreement::Agrees => format!("below the factor {WARNING_FACTOR} that is warned of"),
            Agreement::CertificateHigher => "the certificate permits far more".to_string(),
            Agreement::CertificateLower => "the certificate permits far less".to_string(),
        }
    )
}

fn defined_words(used: &DefinedArrangementUse) -> String {
    let result = &used.result;
    let mut text = format!("Defined arrangement: {}", result.status.words());
    if let (Some(sum), Some(class), Some(ambient_c)) =
        (result.utilisation, result.class, result.ambient_c)
    {
        let known: u32 = result.shares.iter().map(|share| share.used).sum();
        text.push_str(&format!(
            ", sum {} of 1 over {known} of {} {} ({class}, {} °C)",
            fixed(sum, 3),
            used.counted,
            plural(used.counted as usize, "conductor", "conductors"),
            number(ambient_c, 1)
        ));
    }
    if let Some(gap) = result.gaps.first() {
        text.push_str(&format!("; missing: {}", gap.missing));
        if result.gaps.len() > 1 {
            text.push_str(&format!(" and {} more", result.gaps.len() - 1));
        }
    }
    text.push('.');
    text
}

fn conductor_words(heat: &HeatAssessment) -> Vec<String> {
    let conductors = &heat.conductors;
    let figures = format!(
        "{} W, {} % of the rated power",
        fixed(conductors.power_w, 3),
        fixed(conductors.share_of_rated * 100.0, 1)
    );
    if conductors.negligible {
        return vec![format!(
            "Conductors: {figures}: negligible, which is up to {} W (the larger of {} % of the rated power and {} W, \
             common practice); the limit of {BUNDLE_LIMIT} conductors in a bundle has no weight here.",
            number(conductors.limit_w, 3),
            number(NEGLIGIBLE_SHARE * 100.0, 2),
            number(NEGLIGIBLE_W, 2)
        )];
    }
    let groups: Vec<String> = heat.bundles.iter().map(group_words).collect();
    vec![format!(
        "Conductors: {figures}. At most {BUNDLE_LIMIT} in a bundle: {}.",
        groups.join("; ")
    )]
}

fn group_words(group: &BundleGroup) -> String {
    let power = match &group.power_w {
        Determined::Known(power_w) => format!("{} W", fixed(*power_w, 3)),
        Determined::NotDetermined(_) => "heat unknown".to_string(),
    };
    let why = match group.weight {
        BundleWeight::NegligibleHeat => "no weight, negligible heat",
        BundleWeight::FewConductors => "kept by any bundle",
        BundleWeight::Weight => "to be kept",
    };
    format!(
        "{} ({}, {power}) {why}",
        if group.group.is_empty() {
            "without group".to_string()
        } else {
            group.group.replace('_', " ")
        },
        group.conductors
    )
}

/// Every face of the balance and every term of the defined arrangement, for the page of its own.
pub fn heat_tables(heat: &HeatAssessment) -> String {
    let mut out = String::new();
    if let Determined::Known(inside) = &heat.inside {
        let head = ["face", "m²", "W", "outer °C", "inner °C"];
        let mut rows = vec![head.map(String::from).to_vec()];
        rows.extend(inside.balance.faces.iter().map(|face| {
            vec![
                format!("{:?}", face.face).to_lowercase(),
                fixed(face.area_m2, 4),
                fixed(face.power_w, 3),
                fixed(face.outer_surface_c, 1),
                fixed(face.inner_surface_c, 1),
            ]
        }));
        let right = [Fit::Left, Fit::Right, Fit::Right, Fit::Right, Fit::Right];
        block(&mut out, "Faces of the heat balance", &right, rows);
        let assumed: Vec<String> = inside
            .assumptions
            .iter()
            .map(|text| (*text).into())
            .collect();
        sentences(&mut out, "Taken for granted", &assumed);
    }
    let shares = &heat.defined_arrangement.result.shares;
    if !shares.is_empty() {
        let head = ["mm²", "A", "used", "row A", "permitted", "share"];
        let mut rows = vec![head.map(String::from).to_vec()];
        rows.extend(shares.iter().map(|share| {
            vec![
                number(share.section_mm2, 3),
                number(share.current_a, 3),
                share.used.to_string(),
                number(share.row_current_a, 3),
                share.permitted.to_string(),
                fixed(share.share, 4),
            ]
        }));
        block(&mut out, "Defined arrangement", &[Fit::Right; 6], rows);
    }
    out
}
