//! The warnings that must stand on the outside, derived from what is in the box. Knows nothing of how they are
//! worded; those on cables and bundles are asked for by the rules of heat.

use crate::arrangement::NoticePlace;
use crate::audit::case::{Cases, Rule};
use crate::audit::certified::parts;
use crate::audit::context::Context;
use crate::catalogue::{CircuitKind, Material, TerminalFunction};
use crate::number::short;
use crate::standards::iec_60079_0::{
    EquipmentProtectionLevel, GasGroup, PLASTIC_SURFACE, WARNINGS, plastic_surface_limit_mm2,
};
use crate::standards::iec_60079_14::INTRINSICALLY_SAFE_COLOUR;

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "completeness.warning_opening",
        title: "warning against opening",
        requires: "a box with circuits that are not intrinsically safe carries a notice `do-not-open` on its outside",
        source: WARNINGS,
        unit: "",
        check: opening,
    },
    Rule {
        id: "completeness.warning_charging",
        title: "warning of electrostatic charging",
        requires: "an enclosure of plastic whose largest side, seen straight, is above the limit for the gas level and group that the box may be marked with carries a notice `electrostatic` on its outside; that its surface conducts enough no catalogue says",
        source: PLASTIC_SURFACE,
        unit: "",
        check: charging,
    },
    Rule {
        id: "completeness.notice_intrinsic",
        title: "notice of intrinsically safe circuits",
        requires: "a box with intrinsically safe circuits carries a notice `intrinsically-safe` on its outside",
        source: INTRINSICALLY_SAFE_COLOUR,
        unit: "",
        check: intrinsic,
    },
];

/// Asks for a notice on the outside that says something.
fn asked(context: &Context<'_>, cases: &mut Cases, code: &str, why: &str) {
    let stands = context.arrangement.notices.iter().any(|notice| {
        notice.code == code
            && notice.place == NoticePlace::Outside
            && !notice.text.trim().is_empty()
    });
    cases.is_so(stands, &[code], || {
        let stands = if stands { "stands" } else { "is missing" };
        format!("{why}; the notice `{code}` {stands}")
    });
}

/// Whether there is a circuit of a kind, or a terminal other than earth for it.
fn has(context: &Context<'_>, kind: CircuitKind) -> bool {
    let arrangement = context.arrangement;
    let circuit = arrangement.circuits.iter().any(|one| one.kind == kind);
    circuit
        || arrangement
            .terminals
            .iter()
            .any(|one| one.kind == kind && one.function != TerminalFunction::Earth)
}

fn opening(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("all circuits are intrinsically safe");
    if has(context, CircuitKind::ExE) || !has(context, CircuitKind::IntrinsicallySafe) {
        let why = "the box holds circuits that are not intrinsically safe";
        asked(context, cases, "do-not-open", why);
    }
}

fn intrinsic(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there is no intrinsically safe circuit");
    if has(context, CircuitKind::IntrinsicallySafe) {
        let why = "the box holds intrinsically safe circuits";
        asked(context, cases, "intrinsically-safe", why);
    }
}

/// The gas group with which the box may be marked: the least severe of what its parts are certified for, else that
/// of the area.
fn marked_group(context: &Context<'_>) -> Option<GasGroup> {
    let certified = parts(context);
    let groups = certified.iter().map(|(_, _, part)| part.gas_group);
    let least: Option<Vec<GasGroup>> = groups.collect();
    let least = least.and_then(|groups| groups.into_iter().min());
    least.or(context.arrangement.area.gas_group)
}

/// The gas level with which the box may be marked, and whether the area asks for gas at all.
fn marked_level(context: &Context<'_>) -> Option<EquipmentProtectionLevel> {
    use EquipmentProtectionLevel::{Ga, Gb, Gc};
    let levels = &context.arrangement.area.epl;
    [Ga, Gb, Gc]
        .into_iter()
        .find(|level| levels.contains(level))
}

fn charging(context: &Context<'_>, cases: &mut Cases) {
    let enclosure = &context.arrangement.enclosure;
    cases.nothing("the enclosure is of metal");
    if !matches!(enclosure.material, Material::Grp | Material::Polyamide) {
        return;
    }
    let [width_mm, height_mm, depth_mm] = enclosure.outer_mm;
    let sides = [
        width_mm * height_mm,
        width_mm * depth_mm,
        height_mm * depth_mm,
    ];
    let surface_mm2 = sides.into_iter().fold(0.0, f64::max);
    let limit_mm2 = marked_level(context)
        .zip(marked_group(context))
        .and_then(|(level, group)| plastic_surface_limit_mm2(level, group).ok());
    match limit_mm2 {
        Some(limit_mm2) if surface_mm2 <= limit_mm2 => {
            cases.is_so(true, &["electrostatic"], || {
                format!(
                    "{} mm² of plastic seen from one side, {} mm² need no warning",
                    short(surface_mm2, 0),
                    short(limit_mm2, 0)
                )
            });
        }
        Some(limit_mm2) => {
            let why = format!(
                "{} mm² of plastic seen from one side, {} mm² need no warning",
                short(surface_mm2, 0),
                short(limit_mm2, 0)
            );
            asked(context, cases, "electrostatic", &why);
        }
        None => {
            let why = format!(
                "{surface_mm2:.0} mm² of plastic seen from one side, and no limit for this area is at hand"
            );
            asked(context, cases, "electrostatic", &why);
        }
    }
}
