//! Warnings and notes on the outside of the box, each with its reason. Knows nothing of strings.

use super::strings::GasString;
use crate::arrangement::Arrangement;
use crate::catalogue::{CircuitKind, TerminalFunction};
use crate::heat::{Determined, HeatAssessment};
use crate::number::fixed;
use crate::standards::Source;
use crate::standards::iec_60079_0::{
    ENTRY_TEMPERATURE, EquipmentProtectionLevel, PLASTIC_SURFACE, plastic_surface_limit_mm2,
};
use serde::Serialize;

pub use crate::standards::iec_60079_0::{INTERNAL_EARTH as EARTHING, WARNINGS};
/// Marking of intrinsically safe terminals and entries.
pub const INTRINSIC: Source = crate::standards::iec_60079_14::INTRINSICALLY_SAFE_COLOUR;

/// Step to which the temperature of a cable is rounded up, K.
const CABLE_STEP_K: f64 = 5.0;
/// What is added to an estimated temperature before it is held against a limit or marked: a share of the
/// rise over ambient, and so much at least, K. Two sound estimates of one box differ by as much. Our own
/// figures; a test of the audit's estimate holds the two to them.
pub(crate) const ESTIMATE_RESERVE_SHARE: f64 = 0.15;
/// The least that is added, K.
pub(crate) const ESTIMATE_RESERVE_K: f64 = 3.0;

/// A text on the outside of the box.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Notice {
    /// Stable code, such as `do-not-open`.
    pub code: &'static str,
    /// The text, as proposed.
    pub text: String,
    /// Why it is there, with its figures.
    pub reason: String,
    /// Where it comes from.
    pub source: Source,
    /// Temperature that cable and cable glands must stand, °C; only in the notice on cables.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cable_c: Option<f64>,
    /// Whether it says that a test has yet to settle the temperature of the cables.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub settled_by_test: bool,
}

impl Notice {
    fn new(code: &'static str, text: String, reason: String, source: Source) -> Notice {
        Notice {
            code,
            text,
            reason,
            source,
            cable_c: None,
            settled_by_test: false,
        }
    }
}

/// An earth symbol.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct EarthSymbol {
    /// Where it stands.
    pub place: String,
    /// What it marks.
    pub marks: String,
}

/// Whether a kind of circuit is in the box: an earth terminal is of none.
pub(crate) fn has(arrangement: &Arrangement, kind: CircuitKind) -> bool {
    arrangement
        .circuits
        .iter()
        .any(|circuit| circuit.kind == kind)
        || arrangement
            .terminals
            .iter()
            .any(|terminal| terminal.kind == kind && terminal.function != TerminalFunction::Earth)
}

/// The warnings.
pub(super) fn warnings(
    arrangement: &Arrangement,
    gas: Option<&Determined<GasString>>,
    heat: &HeatAssessment,
) -> Vec<Notice> {
    let mut found = Vec::new();
    if has(arrangement, CircuitKind::ExE) || !has(arrangement, CircuitKind::IntrinsicallySafe) {
        found.push(Notice::new(
            "do-not-open",
            "WARNING – DO NOT OPEN WHEN ENERGISED".into(),
            "the box holds circuits that are not intrinsically safe".into(),
            WARNINGS,
        ));
    }
    found.extend(electrostatic(arrangement, gas));
    if has(arrangement, CircuitKind::IntrinsicallySafe) {
        found.push(Notice::new(
            "intrinsically-safe",
            "INTRINSICALLY SAFE CIRCUITS INSIDE".into(),
            "their terminals and entries are marked, light blue where by colour".into(),
            INTRINSIC,
        ));
    }
    found.extend(cable_note(heat));
    found
}

/// Electrostatic charging of a plastic box. The surface counted is the largest one that is seen from
/// one side: of the catalogue's data the outer size alone says it.
fn electrostatic(arrangement: &Arrangement, gas: Option<&Determined<GasString>>) -> Option<Notice> {
    let enclosure = &arrangement.enclosure;
    if enclosure.material.is_metal() {
        return None;
    }
    let [width, height, depth] = enclosure.outer_mm;
    let surface_mm2 = (width * height).max(width * depth).max(height * depth);
    let notice = |reason: String| {
        Some(Notice::new(
            "electrostatic",
            "WARNING – POTENTIAL ELECTROSTATIC CHARGING HAZARD – SEE INSTRUCTIONS".into(),
            reason,
            PLASTIC_SURFACE,
        ))
    };
    // The group that is marked is the one the box may be sent to; the list's where none is marked.
    let marked = gas
        .and_then(|gas| gas.known())
        .map(|gas| (gas.level, gas.group));
    let asked = || {
        let level = arrangement
            .area
            .epl
            .iter()
            .copied()
            .find(|epl| epl.is_gas())?;
        Some((level, arrangement.area.gas_group?))
    };
    let Some((level, group)) = marked.or_else(asked) else {
        return notice(format!(
            "{surface_mm2:.0} mm² of plastic ({}): no limit of the surface is at hand for this area",
            enclosure.material
        ));
    };
    match plastic_surface_limit_mm2(level, group) {
        Ok(limit_mm2) if surface_mm2 <= limit_mm2 => None,
        Ok(limit_mm2) => notice(format!(
            "{surface_mm2:.0} mm² of plastic ({}) seen from one side, {limit_mm2:.0} mm² allowed for {group} {level} \
             unless the surface resistance is at most 1 gigaohm, which the catalogue does not say",
            enclosure.material
        )),
        Err(error) => notice(error.to_string()),
    }
}

/// The note on the temperature of the cable, where the estimate passes a limit or cannot be made.
fn cable_note(heat: &HeatAssessment) -> Option<Notice> {
    let notice = |text: String, reason: String| {
        Notice::new("cable-temperature", text, reason, ENTRY_TEMPERATURE)
    };
    let undetermined = |reason: &str| {
        Some(Notice {
            settled_by_test: true,
            ..notice(
                "temperature of cable and cable glands to be settled by test".into(),
                format!("not determined: {reason}"),
            )
        })
    };
    let inside = match &heat.inside {
        Determined::Known(inside) => inside,
        Determined::NotDetermined(reason) => return undetermined(reason),
    };
    let reserve_k = (ESTIMATE_RESERVE_SHARE * inside.balance.inside_rise_k).max(ESTIMATE_RESERVE_K);
    let passed = [Some(&inside.entry), inside.branching.known()]
        .into_iter()
        .flatten()
        .map(|point| (point.between_c[1] + reserve_k, point.limit_c))
        .filter(|(with_reserve_c, limit_c)| with_reserve_c > limit_c)
        .map(|(with_reserve_c, _)| with_reserve_c)
        .reduce(f64::max);
    let Some(temperature_c) = passed else {
        return inside.branching.reason().and_then(undetermined);
    };
    let cable_c = (temperature_c / CABLE_STEP_K).ceil() * CABLE_STEP_K;
    let branching = match &inside.branching {
        Determined::Known(point) => {
            format!(
                "{} °C ({:.0} °C)",
                fixed(point.between_c[1], 1),
                point.limit_c
            )
        }
        Determined::NotDetermined(reason) => format!("an unknown temperature ({reason})"),
    };
    let reason = format!(
        "by the estimate up to {} °C at the entry ({:.0} °C without a note) and {branching} where the \
         conductors branch; {} K are added, by which estimates differ",
        fixed(inside.entry.between_c[1], 1),
        inside.entry.limit_c,
        fixed(reserve_k, 1)
    );
    let settled_by_test = inside.branching.known().is_none();
    let mut text = format!("USE CABLE AND CABLE GLANDS FOR AT LEAST {cable_c:.0} °C");
    if settled_by_test {
        text.push_str(", MORE IF THE TEST SHOWS IT");
    }
    Some(Notice {
        cable_c: Some(cable_c),
        settled_by_test,
        ..notice(text, reason)
    })
}

/// The earth symbols: at the terminals inside and at the external one.
pub(super) fn earth_symbols(arrangement: &Arrangement) -> Vec<EarthSymbol> {
    let inside: Vec<&str> = arrangement
        .terminals
        .iter()
        .filter(|terminal| terminal.function == TerminalFunction::Earth)
        .map(|terminal| terminal.id.as_str())
        .collect();
    let mut found = Vec::new();
    if let (Some(first), Some(last)) = (inside.first(), inside.last()) {
        found.push(EarthSymbol {
            place: "inside".into(),
            marks: if first == last {
                format!("earth terminal {first}")
            } else {
                format!("{} earth terminals, {first} to {last}", inside.len())
            },
        });
    }
    if let Some(section_mm2) = arrangement.enclosure.internal_earth_mm2 {
        found.push(EarthSymbol {
            place: "inside".into(),
            marks: format!("earth terminal of the enclosure, up to {section_mm2} mm²"),
        });
    }
    match arrangement.enclosure.external_earth_mm2 {
        Some(section_mm2) => found.push(EarthSymbol {
            place: "outside".into(),
            marks: format!("bonding terminal, up to {section_mm2} mm²"),
        }),
        None if arrangement.enclosure.material.is_metal() => found.push(EarthSymbol {
            place: "outside".into(),
            marks: "bonding terminal: a metal box needs one, the catalogue names none".into(),
        }),
        None => {}
    }
    found
}

/// Whether an area asks for gas, and for dust.
pub(super) fn asked(levels: &[EquipmentProtectionLevel]) -> (bool, bool) {
    (
        levels.iter().any(|level| level.is_gas()),
        levels.iter().any(|level| level.is_dust()),
    )
}
