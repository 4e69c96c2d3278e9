//! Checks of terminals: live parts within the body, ratings in order, distances for the voltage.

use super::certificate;
use super::checker::{
    Checker, MOST_CURRENT_A, MOST_LENGTH_MM, MOST_RESISTANCE_MOHM, MOST_SECTION_MM2,
};
use crate::catalogue::{CircuitKind, ClampRange, Terminal};
use crate::standards::MaterialGroup;
use crate::standards::iec_60079_7::{self, GREATEST_VOLTAGE_V};
use crate::standards::iec_60079_11::SEPARATE_CIRCUITS_MM;
use crate::standards::iec_60715::RailProfile;

/// Most conductors that any clamp takes.
const MOST_CONDUCTORS: u32 = 6;

/// Checks one terminal.
pub(super) fn check(part: &Terminal, checker: &mut Checker<'_>) {
    certificate::check(&part.certificate, checker);
    circuits(&part.circuits, checker);
    clamp(&part.clamp, checker);
    if !(1..=MOST_CONDUCTORS).contains(&part.conductors_per_clamp) {
        checker.error(
            "conductors_per_clamp",
            "catalogue-range",
            format!("`conductors_per_clamp` is {}", part.conductors_per_clamp),
            format!("a number from 1 to {MOST_CONDUCTORS}"),
            "leave the field out for one",
        );
    }
    let sizes = checker.positive("width_mm", part.width_mm, 500.0)
        & checker.positive("length_mm", part.length_mm, 500.0)
        & checker.positive("height_mm", part.height_mm, 500.0);
    if sizes {
        live_parts(part, checker);
    }
    let volts = checker.positive("rated_voltage_v", part.rated_voltage_v, GREATEST_VOLTAGE_V);
    ratings(part, checker);
    checker.positive(
        "resistance_mohm",
        part.resistance_mohm,
        MOST_RESISTANCE_MOHM,
    );
    checker.positive_if("rise_at_rated_k", part.rise_at_rated_k, 150.0);
    let group = part.tracking_index.map(MaterialGroup::from_cti);
    if let Some(Err(error)) = &group {
        checker.error(
            "tracking_index",
            "catalogue-tracking",
            error.to_string(),
            "a comparative tracking index from 175 to 1000",
            "leave the field out if it is not known",
        );
    }
    if volts {
        neighbours(part, group.and_then(Result::ok), checker);
    }
    checker.clamping(part.spring_clamp, part.torque_nm, part.strip_mm);
    if part.rails.is_empty() {
        checker.error(
            "rails",
            "catalogue-incomplete",
            "the terminal snaps on no rail",
            "a list of profiles",
            "add `rails = [\"TH35-7.5\"]`",
        );
    }
    for (index, name) in part.rails.iter().enumerate() {
        profile(&format!("rails[{index}]"), name, checker);
    }
    checker.mass_and_price(part.mass_kg, part.price);
}

/// Kinds of circuit that a part may carry: at least one.
pub(super) fn circuits(circuits: &[CircuitKind], checker: &mut Checker<'_>) {
    if circuits.is_empty() {
        checker.error(
            "circuits",
            "catalogue-circuits",
            "the part may carry no circuit",
            "`ex_e`, `intrinsically_safe` or both",
            "name the kinds of circuit that the certificate allows",
        );
    }
}

/// Sections that a clamp takes: at least one build of conductor, each range rising.
pub(super) fn clamp(clamp: &ClampRange, checker: &mut Checker<'_>) {
    let builds = [
        ("clamp.solid_mm2", clamp.solid_mm2),
        ("clamp.stranded_mm2", clamp.stranded_mm2),
        ("clamp.flexible_mm2", clamp.flexible_mm2),
    ];
    if builds.iter().all(|(_, range)| range.is_none()) {
        checker.error(
            "clamp",
            "catalogue-clamp",
            "the clamp takes no conductor",
            "`solid_mm2`, `stranded_mm2` or `flexible_mm2`",
            "add `stranded_mm2 = [0.5, 2.5]` as the certificate says",
        );
    }
    for (field, range) in builds {
        if let Some(range) = range {
            checker.range(field, range, MOST_SECTION_MM2);
        }
    }
}

/// A rail profile, written as in this program: `TH35-7.5`.
pub(super) fn profile(field: &str, name: &str, checker: &mut Checker<'_>) {
    let known: Vec<String> = RailProfile::ALL
        .iter()
        .map(|profile| profile.word().replace(' ', ""))
        .collect();
    if !known.iter().any(|profile| profile == name) {
        let hint = match crate::source::nearest(name, known.iter().map(String::as_str)) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("known are {}", known.join(", ")),
        };
        checker.error(
            field,
            "catalogue-profile",
            format!("`{name}` is not a rail profile"),
            "a profile of IEC 60715 such as `TH35-7.5`",
            hint,
        );
    }
}

fn live_parts(part: &Terminal, checker: &mut Checker<'_>) {
    let live = &part.live;
    let insets = [
        ("live.sides_mm", live.sides_mm),
        ("live.ends_mm", live.ends_mm),
        ("live.top_mm", live.top_mm),
        ("live.foot_mm", live.foot_mm),
    ];
    let mut sound = true;
    for (field, value) in insets {
        sound &= checker.between(field, value, 0.0, MOST_LENGTH_MM);
    }
    if !sound {
        return;
    }
    let taken = [
        ("live.sides_mm", 2.0 * live.sides_mm, part.width_mm, "width"),
        ("live.ends_mm", 2.0 * live.ends_mm, part.length_mm, "length"),
        (
            "live.top_mm",
            live.top_mm + live.foot_mm,
            part.height_mm,
            "height",
        ),
    ];
    for (field, inset, extent, name) in taken {
        if inset >= extent {
            checker.error(
                field,
                "catalogue-live-parts",
                format!(
                    "insets of {inset} mm leave no room for live parts in a {name} of {extent} mm"
                ),
                format!("insets below {extent} mm together"),
                "they count from the body's faces inwards",
            );
        }
    }
}

fn ratings(part: &Terminal, checker: &mut Checker<'_>) {
    if part.ratings.is_empty() {
        checker.error(
            "ratings",
            "catalogue-ratings",
            "the terminal has no rated current",
            "rows of `section_mm2` and `current_a`",
            "add the rows of the certificate",
        );
    }
    for (index, row) in part.ratings.iter().enumerate() {
        let field = format!("ratings[{index}]");
        checker.positive(
            &format!("{field}.section_mm2"),
            row.section_mm2,
            MOST_SECTION_MM2,
        );
        checker.positive(&format!("{field}.current_a"), row.current_a, MOST_CURRENT_A);
    }
    for (index, pair) in part.ratings.windows(2).enumerate() {
        let field = format!("ratings[{}]", index + 1);
        let [before, row] = [pair[0], pair[1]];
        if row.section_mm2 <= before.section_mm2 {
            checker.error(
                &format!("{field}.section_mm2"),
                "catalogue-ratings",
                format!(
                    "the row for {} mm² follows the one for {} mm²",
                    row.section_mm2, before.section_mm2
                ),
                "rows in the order of rising sections, each once",
                "sort the rows",
            );
        } else if row.current_a < before.current_a {
            checker.error(
                &format!("{field}.current_a"),
                "catalogue-ratings",
                format!(
                    "the rated current falls from {} A to {} A with the larger section {} mm²",
                    before.current_a, row.current_a, row.section_mm2
                ),
                "a current that does not fall with the section",
                "compare both rows with the certificate",
            );
        }
    }
}

/// The certified distance between neighbours must be what the rated voltage asks for: clearance,
/// creepage where the tracking index is known (IEC 60079-7), 6 mm between intrinsically safe
/// circuits (IEC 60079-11).
fn neighbours(part: &Terminal, group: Option<MaterialGroup>, checker: &mut Checker<'_>) {
    let Some(distance) = part.neighbour_distance_mm else {
        return;
    };
    if !checker.positive("neighbour_distance_mm", distance, 500.0) {
        return;
    }
    let volts = part.rated_voltage_v;
    let mut needed: Vec<(f64, String)> = Vec::new();
    if part.circuits.contains(&CircuitKind::ExE) {
        if let Ok(clearance) = iec_60079_7::clearance_mm(volts) {
            needed.push((clearance, format!("clearance at {volts} V by IEC 60079-7")));
        }
        if let Some(Ok(creepage)) = group.map(|group| iec_60079_7::creepage_mm(volts, group)) {
            needed.push((creepage, format!("creepage at {volts} V by IEC 60079-7")));
        }
    }
    if part.circuits.contains(&CircuitKind::IntrinsicallySafe) {
        needed.push((
            SEPARATE_CIRCUITS_MM,
            "between intrinsically safe circuits by IEC 60079-11".into(),
        ));
    }
    let most = needed.into_iter().max_by(|a, b| a.0.total_cmp(&b.0));
    if let Some((needed, why)) = most
        && distance < needed
    {
        checker.error(
            "neighbour_distance_mm",
            "catalogue-distance",
            format!("{distance} mm between neighbours is less than {needed} mm: {why}"),
            format!("{needed} mm or more"),
            "correct the distance, `rated_voltage_v` or `tracking_index` from the certificate",
        );
    }
}
