//! The workshop's limits that the file states, against floors of their own: a limit that is none would let
//! everything pass that is measured by it.

use crate::arrangement::{Limits, WiringSpaceStep};
use crate::audit::case::{Cases, Rule, figure_text};
use crate::audit::context::Context;
use crate::standards::common_practice as practice;
use crate::standards::common_practice::USUAL_LIMITS;
use crate::standards::iec_60079_11::OTHER_CIRCUITS_MM;
use crate::standards::nec_312_6::{bending_space_a_mm, size_covering};

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[Rule {
    id: "record.limits",
    title: "limits of the workshop",
    requires: "no limit that the file states is negative; intrinsically safe and other circuits are kept 50 mm apart (IEC 60079-11), and no step of the wiring space is below the published one (NEC 312.6(A), one wire); a limit below common practice is told, and the rule informs",
    source: USUAL_LIMITS,
    unit: "mm",
    check: limits,
}];

/// The subject of every case.
const SUBJECT: &[&str] = &["limits"];

/// Every single limit by the name of its field, with what is usual.
fn usual(limits: &Limits) -> [(&'static str, f64, f64); 10] {
    [
        ("gland_gap_mm", limits.gland_gap_mm, practice::GLAND_GAP_MM),
        (
            "gland_row_gap_mm",
            limits.gland_row_gap_mm,
            practice::GLAND_ROW_GAP_MM,
        ),
        (
            "gland_corner_mm",
            limits.gland_corner_mm,
            practice::GLAND_CORNER_MM,
        ),
        ("rail_end_mm", limits.rail_end_mm, practice::RAIL_END_MM),
        (
            "element_gap_mm",
            limits.element_gap_mm,
            practice::ELEMENT_GAP_MM,
        ),
        (
            "emergency_stop_free_mm",
            limits.emergency_stop_free_mm,
            practice::EMERGENCY_STOP_FREE_MM,
        ),
        (
            "element_edge_mm",
            limits.element_edge_mm,
            practice::ELEMENT_EDGE_MM,
        ),
        (
            "contact_bend_mm",
            limits.contact_bend_mm,
            practice::CONTACT_BEND_MM,
        ),
        (
            "lid_clearance_mm",
            limits.lid_clearance_mm,
            practice::LID_CLEARANCE_MM,
        ),
        ("tolerance_mm", limits.tolerance_mm, practice::TOLERANCE_MM),
    ]
}

fn limits(context: &Context<'_>, cases: &mut Cases) {
    let limits = &context.arrangement.limits;
    for (name, stated_mm, usual_mm) in usual(limits) {
        if stated_mm >= usual_mm {
            cases.at_least(SUBJECT, stated_mm, usual_mm, || format!("limit `{name}`"));
        } else if stated_mm >= 0.0 {
            below_practice(cases, &format!("limit `{name}`"), stated_mm, usual_mm);
        } else {
            cases.at_least(SUBJECT, stated_mm, 0.0, || format!("limit `{name}`"));
        }
    }
    let apart_mm = limits.intrinsic_separation_mm;
    cases.at_least(SUBJECT, apart_mm, OTHER_CIRCUITS_MM, || {
        "limit `intrinsic_separation_mm`".to_string()
    });
    for step in &limits.wiring_space {
        wiring_step(step, cases);
    }
}

fn below_practice(cases: &mut Cases, what: &str, stated_mm: f64, usual_mm: f64) {
    cases.informs_at_least(SUBJECT, stated_mm, usual_mm, || {
        format!(
            "{what} is {} mm, below the {} mm of common practice",
            figure_text(stated_mm),
            figure_text(usual_mm)
        )
    });
}

fn wiring_step(step: &WiringSpaceStep, cases: &mut Cases) {
    let (section_mm2, stated_mm) = (step.up_to_mm2, step.space_mm);
    let what = format!("wiring space up to {} mm²", figure_text(section_mm2));
    let published = size_covering(section_mm2).and_then(|size| bending_space_a_mm(size, 1));
    let least_mm = match published {
        Ok(least_mm) => least_mm.unwrap_or(0.0),
        Err(error) => {
            return cases.unknown(SUBJECT, || format!("no published {what} is known: {error}"));
        }
    };
    match practice::wiring_space_mm(section_mm2) {
        Ok(usual_mm) if least_mm <= stated_mm && stated_mm < usual_mm => {
            below_practice(cases, &what, stated_mm, usual_mm);
        }
        _ => cases.at_least(SUBJECT, stated_mm, least_mm, || what),
    }
}
