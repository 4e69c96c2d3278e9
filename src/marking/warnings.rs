//! Warnings and notes on the outside of the box, each with its reason. Knows nothing of strings.

use super::strings::GasString;
use crate::arrangement::Arrangement;
use crate::catalogue::{CircuitKind, TerminalFunction};
use crate::heat::{Determined, HeatAssessment};
use crate::standards::iec_60079_0::{
    ENTRY_TEMPERATURE, EquipmentProtectionLevel, PLASTIC_SURFACE, plastic_surface_limit_mm2,
};
use crate::standards::{Source, Status};
use serde::Serialize;

/// Warning against opening.
pub const WARNINGS: Source = Source::new(
    "IEC 60079-0",
    "",
    "cl. 29, table of warnings",
    Status::FromMemory,
);
/// Earthing terminals and their symbol.
pub const EARTHING: Source = Source::new("IEC 60079-0", "", "cl. 15.1", Status::Published);
/// Marking of intrinsically safe terminals and entries.
pub const INTRINSIC: Source = crate::standards::iec_60079_14::INTRINSICALLY_SAFE_COLOUR;

/// Step to which the temperature of a cable is rounded up, K.
const CABLE_STEP_K: f64 = 5.0;

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
}

/// An earth symbol.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct EarthSymbol {
    /// Where it stands.
    pub place: String,
    /// What it marks.
    pub marks: String,
}

/// Whether a kind of circuit is in the box.
fn has(arrangement: &Arrangement, kind: CircuitKind) -> bool {
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
        found.push(Notice {
            code: "do-not-open",
            text: "WARNING – DO NOT OPEN WHEN ENERGISED".into(),
            reason: "the box holds circuits that are not intrinsically safe".into(),
            source: WARNINGS,
        });
    }
    found.extend(electrostatic(arrangement, gas));
    if has(arrangement, CircuitKind::IntrinsicallySafe) {
        found.push(Notice {
            code: "intrinsically-safe",
            text: "INTRINSICALLY SAFE CIRCUITS INSIDE".into(),
            reason: "their terminals and entries are marked, light blue where by colour".into(),
            source: INTRINSIC,
        });
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
        Some(Notice {
            code: "electrostatic",
            text: "WARNING – POTENTIAL ELECTROSTATIC CHARGING HAZARD – SEE INSTRUCTIONS".into(),
            reason,
            source: PLASTIC_SURFACE,
        })
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
        Some(Notice {
            code: "cable-temperature",
            text,
            reason,
            source: ENTRY_TEMPERATURE,
        })
    };
    let undetermined = |reason: &str| {
        notice(
            "temperature of cable and cable glands to be settled by test".into(),
            format!("not determined: {reason}"),
        )
    };
    let inside = match &heat.inside {
        Determined::Known(inside) => inside,
        Determined::NotDetermined(reason) => return undetermined(reason),
    };
    let passed = [Some(&inside.entry), inside.branching.known()]
        .into_iter()
        .flatten()
        .filter(|point| point.passed)
        .map(|point| point.between_c[1])
        .fold(None, |most: Option<f64>, value| {
            Some(most.map_or(value, |most| most.max(value)))
        });
    match (passed, &inside.branching) {
        (Some(temperature_c), _) => {
            let cable_c = (temperature_c / CABLE_STEP_K).ceil() * CABLE_STEP_K;
            notice(
                format!("USE CABLE AND CABLE GLANDS FOR AT LEAST {cable_c:.0} °C"),
                format!(
                    "by the estimate up to {:.1} °C at the entry ({:.0} °C without a note) and {} where the \
                     conductors branch",
                    inside.entry.between_c[1],
                    inside.entry.limit_c,
                    inside.branching.known().map_or_else(
                        || "an unknown temperature".to_string(),
                        |point| format!("{:.1} °C ({:.0} °C)", point.between_c[1], point.limit_c)
                    )
                ),
            )
        }
        (None, Determined::NotDetermined(reason)) => undetermined(reason),
        (None, Determined::Known(_)) => None,
    }
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
