//! Checks of operating elements and contact blocks.

use super::certificate;
use super::checker::{Checker, MOST_CURRENT_A, MOST_POWER_W, MOST_RESISTANCE_MOHM, SLACK_MM};
use super::terminal::{circuits, clamp};
use crate::catalogue::reading::Parts;
use crate::catalogue::{ContactBlock, ElementKind, OperatingElement};
use crate::standards::iec_60079_7::GREATEST_VOLTAGE_V;
use crate::standards::iec_60947_5_1::MountingHole;
use std::collections::BTreeSet;

/// Largest extent of an element, mm.
const MOST_ELEMENT_MM: f64 = 300.0;
/// Most positions of a selector.
const MOST_POSITIONS: u32 = 24;

/// Checks one operating element.
pub(super) fn check(part: &OperatingElement, checker: &mut Checker<'_>) {
    certificate::check(&part.certificate, checker);
    certificate::check_ip_in_wall(&part.certificate, checker);
    let holes = checker.each_positive("hole_mm", &part.hole_mm, MOST_ELEMENT_MM);
    let footprint = checker.each_positive("footprint_mm", &part.footprint_mm, MOST_ELEMENT_MM);
    if holes {
        hole(part, checker);
    }
    if holes && footprint && (0..2).any(|axis| part.footprint_mm[axis] <= part.hole_mm[axis]) {
        checker.error(
            "footprint_mm",
            "catalogue-envelope",
            "the footprint does not cover the hole",
            "a footprint larger than `hole_mm` both ways",
            "the footprint is what lies on the outside of the lid, with label",
        );
    }
    if checker.each_positive("body_mm", &part.body_mm, MOST_ELEMENT_MM)
        && checker.between("live_inset_mm", part.live_inset_mm, 0.0, MOST_ELEMENT_MM)
        && part
            .body_mm
            .iter()
            .any(|extent| 2.0 * part.live_inset_mm >= *extent)
    {
        checker.error(
            "live_inset_mm",
            "catalogue-live-parts",
            format!(
                "an inset of {} mm leaves no room for live parts in a body of {} x {} mm",
                part.live_inset_mm, part.body_mm[0], part.body_mm[1]
            ),
            "less than half of the body's smaller side",
            "it counts from the body's sides inwards",
        );
    }
    depths(part, checker);
    kind(part, checker);
    points(part, checker);
    checker.positive_if("rated_voltage_v", part.rated_voltage_v, GREATEST_VOLTAGE_V);
    checker.positive_if("rated_current_a", part.rated_current_a, MOST_CURRENT_A);
    checker.positive_if("power_w", part.power_w, MOST_POWER_W);
    checker.clamping(part.spring_clamp, part.torque_nm, part.strip_mm);
    checker.mass_and_price(part.mass_kg, part.price);
}

/// A named hole has the diameter of IEC 60947-5-1.
fn hole(part: &OperatingElement, checker: &mut Checker<'_>) {
    let Some(name) = &part.hole else { return };
    let Ok(size) = name.parse::<MountingHole>() else {
        let known: Vec<&str> = MountingHole::ALL.iter().map(|hole| hole.word()).collect();
        checker.error(
            "hole",
            "catalogue-hole",
            format!("`{name}` is not a mounting hole"),
            format!("one of {}", known.join(", ")),
            "leave the field out for other holes; `hole_mm` counts",
        );
        return;
    };
    let (diameter, plus) = size.diameter_mm();
    let fits = |value: f64| (diameter - SLACK_MM..=diameter + plus + SLACK_MM).contains(&value);
    if !part.hole_mm.iter().all(|value| fits(*value)) {
        checker.error(
            "hole_mm",
            "catalogue-hole",
            format!(
                "{} x {} mm is not the hole {size}",
                part.hole_mm[0], part.hole_mm[1]
            ),
            format!(
                "{diameter} to {} mm both ways (IEC 60947-5-1)",
                diameter + plus
            ),
            "correct `hole_mm`, or leave `hole` out",
        );
    }
}

fn depths(part: &OperatingElement, checker: &mut Checker<'_>) {
    if part.depth_mm.is_empty() {
        checker.error(
            "depth_mm",
            "catalogue-depth",
            "there is no depth",
            "depths by the number of contact blocks, first without any",
            "add `depth_mm = [40]`",
        );
    }
    if !checker.each_positive("depth_mm", &part.depth_mm, 500.0) {
        return;
    }
    for (index, pair) in part.depth_mm.windows(2).enumerate() {
        if pair[1] < pair[0] {
            checker.error(
                &format!("depth_mm[{}]", index + 1),
                "catalogue-depth",
                format!(
                    "the depth falls from {} mm to {} mm with one contact block more",
                    pair[0], pair[1]
                ),
                "depths that do not fall",
                "the list is by the number of contact blocks, first without any",
            );
        }
    }
}

fn kind(part: &OperatingElement, checker: &mut Checker<'_>) {
    match part.kind {
        ElementKind::EmergencyStop => {
            // IEC 60204-1 and ISO 13850: red, latching, deliberate reset.
            if part.colour != "red" {
                checker.error(
                    "colour",
                    "catalogue-emergency-stop",
                    format!("the emergency stop is `{}`", part.colour),
                    "`red` (IEC 60204-1)",
                    "write `colour = \"red\"`",
                );
            }
            if !part.latching {
                checker.error(
                    "latching",
                    "catalogue-emergency-stop",
                    "the emergency stop does not latch",
                    "`latching = true` (ISO 13850)",
                    "add `latching = true`",
                );
            }
        }
        ElementKind::Selector => {
            checker.needs(
                "positions",
                part.positions.is_some(),
                "a selector",
                "positions = 2",
            );
            if let Some(positions) = part.positions
                && !(2..=MOST_POSITIONS).contains(&positions)
            {
                checker.error(
                    "positions",
                    "catalogue-range",
                    format!("`positions` is {positions}"),
                    format!("a number from 2 to {MOST_POSITIONS}"),
                    "give the number of positions",
                );
            }
        }
        ElementKind::Lamp
        | ElementKind::IlluminatedPushButton
        | ElementKind::Ammeter
        | ElementKind::Voltmeter
        | ElementKind::Potentiometer => {
            let words = format!("the {}", part.kind.words());
            checker.needs("power_w", part.power_w.is_some(), &words, "power_w = 1");
        }
        ElementKind::PushButton => {}
    }
}

/// Number of own points by kind.
fn points(part: &OperatingElement, checker: &mut Checker<'_>) {
    let expected = match part.kind {
        ElementKind::PushButton | ElementKind::EmergencyStop | ElementKind::Selector => 0,
        ElementKind::Potentiometer => 3,
        _ => 2,
    };
    if part.points.len() != expected {
        let points = if expected == 0 {
            "no points of its own".to_string()
        } else {
            format!("{expected} points")
        };
        checker.error(
            "points",
            "catalogue-points",
            format!("the {} has {} points", part.kind.words(), part.points.len()),
            points,
            "points of contact blocks are not named here",
        );
    }
    let distinct: BTreeSet<&String> = part.points.iter().collect();
    if distinct.len() != part.points.len() {
        checker.error(
            "points",
            "catalogue-points",
            "a point is named twice",
            "a name of its own for each point",
            "such as `X1` and `X2`",
        );
    }
    if !part.points.is_empty() {
        let words = format!("the {}", part.kind.words());
        checker.needs(
            "rated_voltage_v",
            part.rated_voltage_v.is_some(),
            &words,
            "rated_voltage_v = 250",
        );
        clamp(&part.clamp, checker);
    }
}

/// Checks one contact block; `parts` to find the elements it fits.
pub(super) fn check_block(part: &ContactBlock, parts: &Parts, checker: &mut Checker<'_>) {
    certificate::check(&part.certificate, checker);
    circuits(&part.circuits, checker);
    clamp(&part.clamp, checker);
    checker.clamping(part.spring_clamp, part.torque_nm, part.strip_mm);
    let with_blocks = parts
        .element
        .iter()
        .filter(|element| element.value.most_blocks() > 0);
    let elements: BTreeSet<&str> = with_blocks
        .map(|element| element.value.id.as_str())
        .collect();
    let unsound = |id: &str| !parts.is_sound(id);
    checker.fits(
        &part.fits,
        "an operating element that carries contact blocks",
        &elements,
        &parts.written_ids,
        unsound,
    );
    let sound = checker.positive("rated_voltage_v", part.rated_voltage_v, GREATEST_VOLTAGE_V)
        & checker.positive("rated_current_a", part.rated_current_a, MOST_CURRENT_A);
    for (index, row) in part.utilisation.iter().enumerate() {
        let field = format!("utilisation[{index}]");
        checker.positive(
            &format!("{field}.voltage_v"),
            row.voltage_v,
            GREATEST_VOLTAGE_V,
        );
        checker.positive(&format!("{field}.current_a"), row.current_a, MOST_CURRENT_A);
        if sound && (row.voltage_v > part.rated_voltage_v || row.current_a > part.rated_current_a) {
            checker.error(
                &field,
                "catalogue-utilisation",
                format!(
                    "{} {} V, {} A exceeds the rated {} V, {} A",
                    row.category,
                    row.voltage_v,
                    row.current_a,
                    part.rated_voltage_v,
                    part.rated_current_a
                ),
                "voltage and current within the ratings",
                "compare the row with the certificate",
            );
        }
        for other in part.utilisation[..index]
            .iter()
            .filter(|other| other.category == row.category)
        {
            let (low, high) = if row.voltage_v < other.voltage_v {
                (row, other)
            } else {
                (other, row)
            };
            if row.voltage_v == other.voltage_v || high.current_a > low.current_a {
                checker.error(
                    &field,
                    "catalogue-utilisation",
                    format!(
                        "{} {} V, {} A contradicts {} V, {} A",
                        row.category,
                        row.voltage_v,
                        row.current_a,
                        other.voltage_v,
                        other.current_a
                    ),
                    "one row for each voltage, with a current that does not rise with it",
                    "compare both rows with the certificate",
                );
            }
        }
    }
    checker.positive(
        "resistance_mohm",
        part.resistance_mohm,
        MOST_RESISTANCE_MOHM,
    );
    checker.mass_and_price(part.mass_kg, part.price);
}
