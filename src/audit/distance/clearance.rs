//! Clearance and creepage between different potentials of Ex e circuits.

use super::material::{Hanging, Unjudged, creepage_mm};
use super::{certified_mm, near_pairs, reach_mm, through_air_mm, tolerance_mm};
use crate::audit::case::{Cases, Rule, figure_text};
use crate::audit::context::{Context, Live};
use crate::catalogue::CircuitKind;
use crate::standards::MaterialGroup;
use crate::standards::iec_60079_7::{
    DISTANCES, external_terminal_clearance_mm, external_terminal_creepage_mm,
};

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "distance.clearance",
        title: "clearance between different potentials",
        requires: "between bare parts of different potential of two Ex e terminals or elements the way through air, less the workshop tolerance, reaches the table's clearance for the higher working voltage (which may exceed a row by 10 %), at least 3 mm; for equal neighbours the certified distance counts",
        source: DISTANCES,
        unit: "mm",
        check: clearance,
    },
    Rule {
        id: "distance.creepage",
        title: "creepage between different potentials",
        requires: "between bare parts of different potential of two Ex e terminals on one rail, or of two elements in the lid, the way over surfaces, which is never shorter than the way through air, reaches the table's creepage for the higher working voltage and the worse material group of the two; between elements, whose material no catalogue says, for group IIIa; above 10 V an unknown tracking index of a terminal is not determined, told once for each part with the number of distances; for equal neighbours the certified distance counts",
        source: DISTANCES,
        unit: "mm",
        check: creepage,
    },
];

/// Whether two parts of Ex e circuits have potentials that must be kept apart.
fn differ(a: &Live<'_>, b: &Live<'_>) -> bool {
    let both_ex_e = a.kind == CircuitKind::ExE && b.kind == CircuitKind::ExE;
    let spare = a.potential.is_empty() || b.potential.is_empty();
    both_ex_e && !a.is_earth() && !b.is_earth() && (spare || a.potential != b.potential)
}

fn clearance(context: &Context<'_>, cases: &mut Cases) {
    let (parts, slabs) = (context.live_parts(), context.insulating_slabs());
    let tolerance_mm = tolerance_mm(context);
    let reach_mm = reach_mm(context);
    near_pairs(&parts, reach_mm, |a, b| {
        if !differ(a, b) {
            return;
        }
        let voltage_v = a.voltage_v.max(b.voltage_v);
        let subject = [a.owner, b.owner];
        match external_terminal_clearance_mm(voltage_v) {
            Err(error) => {
                cases.unknown(&subject, || format!("{} and {}: {error}", a.owner, b.owner))
            }
            Ok(required_mm) => match certified_mm(a, b) {
                Some(certified_mm) => cases.at_least(&subject, certified_mm, required_mm, || {
                    format!(
                        "certified distance of {} and {}, {} V",
                        a.owner,
                        b.owner,
                        figure_text(voltage_v)
                    )
                }),
                None => {
                    let measured_mm = through_air_mm(a, b, &slabs) - tolerance_mm;
                    cases.at_least(&subject, measured_mm, required_mm, || {
                        format!(
                            "clearance of {} (`{}`) and {} (`{}`), {} V",
                            a.owner,
                            a.potential_words(),
                            b.owner,
                            b.potential_words(),
                            figure_text(voltage_v)
                        )
                    });
                }
            },
        }
    });
    cases.nothing(format!(
        "no two bare parts of different potential lie within {} mm of each other",
        figure_text(reach_mm)
    ));
}

fn creepage(context: &Context<'_>, cases: &mut Cases) {
    let (parts, slabs) = (context.live_parts(), context.insulating_slabs());
    let tolerance_mm = tolerance_mm(context);
    let reach_mm = reach_mm(context);
    let mut hanging = Hanging::default();
    near_pairs(&parts, reach_mm, |a, b| {
        if !differ(a, b) {
            return;
        }
        let voltage_v = a.voltage_v.max(b.voltage_v);
        let subject = [a.owner, b.owner];
        let required = match (a.terminal, b.terminal) {
            (Some(first), Some(second)) if first.rail == second.rail => {
                creepage_mm(voltage_v, [first, second])
            }
            // Two elements meet over the lid: the worst material that the table admits.
            (None, None) => external_terminal_creepage_mm(voltage_v, MaterialGroup::IIIa)
                .map(|required_mm| (required_mm, MaterialGroup::IIIa))
                .map_err(|error| Unjudged::Voltage(error.to_string())),
            // No surface joins them but earthed metal.
            _ => return,
        };
        match required {
            Err(Unjudged::Material(unknown)) => hanging.add(unknown),
            Err(Unjudged::Voltage(text)) => {
                cases.unknown(&subject, || format!("{} and {}: {text}", a.owner, b.owner))
            }
            Ok((required_mm, group)) => {
                let (measured_mm, certified) = match certified_mm(a, b) {
                    Some(certified_mm) => (certified_mm, "certified distance"),
                    None => (through_air_mm(a, b, &slabs) - tolerance_mm, "creepage"),
                };
                cases.at_least(&subject, measured_mm, required_mm, || {
                    format!(
                        "{certified} of {} and {}, {} V, material group {group}",
                        a.owner,
                        b.owner,
                        figure_text(voltage_v)
                    )
                });
            }
        }
    });
    hanging.tell(cases);
    cases
        .nothing("no two bare parts of different potential lie near each other on one rail or lid");
}
