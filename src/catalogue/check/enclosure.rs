//! Checks of enclosures: sizes that agree, everything inside the inside, fit for Ex e.

use super::certificate::{self, LEAST_IP_EX_E, is_increased_safety};
use super::checker::{Checker, MOST_CURRENT_A, MOST_LENGTH_MM, MOST_SECTION_MM2, SLACK_MM};
use super::enclosure_rating;
use crate::catalogue::{Enclosure, EntryWall, Most, NOT_LIMITED};
use crate::space::{Face, Interior, Rect};
use crate::standards::iec_60079_0::EXTERNAL_BONDING_MM2;
use crate::standards::iec_60079_7::GREATEST_VOLTAGE_V;
use crate::standards::{DustGroup, LevelOfProtection};

/// Energy of the impact test of a box with low risk of mechanical damage, J (IEC 60079-0 clause 26,
/// from memory). 7 J is the usual one; the audit tells them apart.
const LEAST_IMPACT_J: f64 = 4.0;
/// Largest impact energy that is taken for one, J.
const MOST_IMPACT_J: f64 = 100.0;
/// How far outer less inner size may exceed the two walls before it looks like a slip, mm.
const ODD_WALL_MM: f64 = 80.0;

/// Checks one enclosure.
pub(super) fn check(part: &Enclosure, checker: &mut Checker<'_>) {
    certificate::check(&part.certificate, checker);
    let sizes = checker.each_positive("outer_mm", &part.outer_mm, MOST_LENGTH_MM)
        & checker.each_positive("inner_mm", &part.inner_mm, MOST_LENGTH_MM)
        & checker.positive("wall_thickness_mm", part.wall_thickness_mm, 100.0);
    if sizes {
        walls_and_sizes(part, checker);
        plate_and_lid(part, checker);
        for (face, wall) in &part.walls {
            entry_wall(part, *face, wall, checker);
        }
    }
    if part.rail_directions.is_empty() {
        checker.error(
            "rail_directions",
            "catalogue-incomplete",
            "the plate takes no rail",
            "`horizontal`, `vertical` or both",
            "leave the field out for horizontal rails only",
        );
    }
    increased_safety(part, checker);
    checker.positive_if("rated_voltage_v", part.rated_voltage_v, GREATEST_VOLTAGE_V);
    checker.positive_if("rated_current_a", part.rated_current_a, MOST_CURRENT_A);
    most_terminals(part, checker);
    enclosure_rating::check(part, checker);
    checker.positive_if(
        "internal_earth_mm2",
        part.internal_earth_mm2,
        MOST_SECTION_MM2,
    );
    if let Some(section) = part.external_earth_mm2
        && checker.positive("external_earth_mm2", section, MOST_SECTION_MM2)
        && section < EXTERNAL_BONDING_MM2
    {
        checker.error(
            "external_earth_mm2",
            "catalogue-earth",
            format!("an external earth terminal for {section} mm² is too small"),
            format!("{EXTERNAL_BONDING_MM2} mm² or more (IEC 60079-0)"),
            "leave the field out if there is none",
        );
    }
    checker.mass_and_price(part.mass_kg, part.price);
}

fn most_terminals(part: &Enclosure, checker: &mut Checker<'_>) {
    match part.most_terminals {
        None => checker.warning(
            "most_terminals",
            "catalogue-unstated",
            "how many terminals the certificate allows is not stated, so that it takes none",
            format!("a number, or `\"{NOT_LIMITED}\"` where the certificate states no limit"),
            "add `most_terminals` as the certificate says",
        ),
        Some(Most::Of(0)) => checker.error(
            "most_terminals",
            "catalogue-range",
            "`most_terminals` is 0",
            "a number of 1 or more",
            format!("write `\"{NOT_LIMITED}\"` if the certificate names no number"),
        ),
        Some(Most::Of(_) | Most::NotLimited) => {}
    }
}

const AXES: [&str; 3] = ["width", "height", "depth"];

fn walls_and_sizes(part: &Enclosure, checker: &mut Checker<'_>) {
    for (axis, name) in AXES.into_iter().enumerate() {
        let (outer, inner) = (part.outer_mm[axis], part.inner_mm[axis]);
        let field = format!("inner_mm[{axis}]");
        let two_walls = 2.0 * part.wall_thickness_mm;
        if inner >= outer {
            checker.error(
                &field,
                "catalogue-size",
                format!("the inner {name} {inner} mm is not below the outer {outer} mm"),
                "an inner size below the outer one",
                "check both sizes and their order: width, height, depth",
            );
        } else if axis < 2 && outer - inner < two_walls - SLACK_MM {
            // Only along width and height: back and lid may be thinner than the walls with entries.
            checker.error(
                &field,
                "catalogue-size",
                format!(
                    "outer less inner {name} is {} mm, less than two walls of {} mm",
                    tidy(outer - inner),
                    part.wall_thickness_mm
                ),
                format!("at most {} mm", tidy(outer - two_walls)),
                "correct `inner_mm` or `wall_thickness_mm`",
            );
        } else if outer - inner > two_walls + ODD_WALL_MM {
            checker.warning(
                &field,
                "catalogue-size",
                format!(
                    "outer less inner {name} is {} mm with walls of {} mm",
                    tidy(outer - inner),
                    part.wall_thickness_mm
                ),
                "a clear inside close to outer size less two walls",
                "check whether the sizes belong to the same enclosure",
            );
        }
    }
}

/// Without the digits that binary fractions add.
fn tidy(value: f64) -> f64 {
    (value * 1e4).round() / 1e4
}

fn interior(part: &Enclosure) -> Interior {
    let [width_mm, height_mm, depth_mm] = part.inner_mm;
    Interior {
        width_mm,
        height_mm,
        depth_mm,
    }
}

/// Whether a rectangle lies in one that begins at the origin.
fn lies_within(rect: &Rect, width_mm: f64, height_mm: f64) -> bool {
    rect.u_mm >= -SLACK_MM
        && rect.v_mm >= -SLACK_MM
        && rect.right_mm() <= width_mm + SLACK_MM
        && rect.top_mm() <= height_mm + SLACK_MM
}

fn plate_and_lid(part: &Enclosure, checker: &mut Checker<'_>) {
    let [width, height, depth] = part.inner_mm;
    let plate = &part.plate;
    let sizes = checker.positive("plate.width_mm", plate.width_mm, MOST_LENGTH_MM)
        & checker.positive("plate.height_mm", plate.height_mm, MOST_LENGTH_MM);
    if sizes
        && !lies_within(
            &Rect::new(plate.x_mm, plate.y_mm, plate.width_mm, plate.height_mm),
            width,
            height,
        )
    {
        checker.error(
            "plate",
            "catalogue-outside",
            "the plate reaches beyond the inside of the enclosure",
            format!("a plate within {width} x {height} mm"),
            "`x_mm` and `y_mm` count from the inner lower left corner",
        );
    }
    if !(0.0..depth).contains(&plate.standoff_mm) {
        checker.error(
            "plate.standoff_mm",
            "catalogue-outside",
            format!(
                "the plate stands {} mm over the back wall of an enclosure {depth} mm deep",
                plate.standoff_mm
            ),
            format!("a value from 0 to below {depth}"),
            "it is the height of the plate's face over the inside of the back wall",
        );
    }
    let lid = &part.lid;
    let sizes = checker.between("lid.width_mm", lid.width_mm, 0.0, MOST_LENGTH_MM)
        & checker.between("lid.height_mm", lid.height_mm, 0.0, MOST_LENGTH_MM);
    if sizes
        && !lies_within(
            &Rect::new(lid.x_mm, lid.y_mm, lid.width_mm, lid.height_mm),
            width,
            height,
        )
    {
        checker.error(
            "lid",
            "catalogue-outside",
            "the usable rectangle of the lid reaches beyond the inside of the enclosure",
            format!("a rectangle within {width} x {height} mm"),
            "`x_mm` and `y_mm` count from the inner lower left corner",
        );
    }
    if lid.hinge.is_some_and(|hinge| hinge.wall_index().is_none()) {
        checker.error(
            "lid.hinge",
            "catalogue-wall",
            "a lid is hinged at a wall",
            "`bottom`, `right`, `top` or `left`",
            "leave the field out for a screwed lid",
        );
    }
}

fn entry_wall(part: &Enclosure, face: Face, wall: &EntryWall, checker: &mut Checker<'_>) {
    let base = format!("walls.{face}");
    if face.wall_index().is_none() {
        checker.error(
            &base,
            "catalogue-wall",
            format!("the {face} is not a wall for entries"),
            "`bottom`, `right`, `top` or `left`",
            "elements in the lid are governed by `lid`",
        );
        return;
    }
    let inside = interior(part);
    let (length, depth) = (inside.length_along_u_mm(face), inside.depth_mm);
    if wall.areas_mm.is_empty() {
        checker.error(
            &format!("{base}.areas_mm"),
            "catalogue-wall",
            "the wall has no drillable area",
            "at least one `[u, v, width, height]`",
            "leave the wall out if it must not be drilled",
        );
        return;
    }
    let mut sound: Vec<Rect> = Vec::new();
    for (index, [u, v, width, height]) in wall.areas_mm.iter().copied().enumerate() {
        let field = format!("{base}.areas_mm[{index}]");
        let sizes = checker.positive(&format!("{field}[2]"), width, MOST_LENGTH_MM)
            & checker.positive(&format!("{field}[3]"), height, MOST_LENGTH_MM);
        if !sizes {
            continue;
        }
        let rect = Rect::new(u, v, width, height);
        if !lies_within(&rect, length, depth) {
            checker.error(
                &field,
                "catalogue-outside",
                "the area reaches beyond the inside of the wall",
                format!("an area `[u, v, width, height]` within {length} x {depth} mm"),
                "u runs along the wall, v from the back to the lid",
            );
            continue;
        }
        let overlaps = |other: &&Rect| {
            let common = rect.common(other);
            common.width_mm > SLACK_MM && common.height_mm > SLACK_MM
        };
        if sound.iter().any(|other| overlaps(&other)) {
            checker.error(
                &field,
                "catalogue-overlap",
                "the area overlaps another of the same wall",
                "areas that lie apart",
                "join them, or correct u and v",
            );
        }
        sound.push(rect);
    }
    for (index, [u, v, width, height]) in wall.blocked_mm.iter().copied().enumerate() {
        let field = format!("{base}.blocked_mm[{index}]");
        let sizes = checker.positive(&format!("{field}[2]"), width, MOST_LENGTH_MM)
            & checker.positive(&format!("{field}[3]"), height, MOST_LENGTH_MM);
        if sizes && !lies_within(&Rect::new(u, v, width, height), length, depth) {
            checker.error(
                &field,
                "catalogue-outside",
                "the blocked part reaches beyond the inside of the wall",
                format!("a rectangle `[u, v, width, height]` within {length} x {depth} mm"),
                "u runs along the wall, v from the back to the lid",
            );
        }
    }
    let hole = wall.largest_thread.clearance_hole_mm();
    if !sound.is_empty()
        && !sound
            .iter()
            .any(|area| area.width_mm.min(area.height_mm) >= hole)
    {
        checker.error(
            &format!("{base}.largest_thread"),
            "catalogue-thread",
            format!(
                "no area of the wall takes the {hole} mm hole of {}",
                wall.largest_thread
            ),
            "a thread whose hole fits into an area",
            "correct the areas or the thread",
        );
    }
    let numbers = match &wall.most_entries {
        Some(Most::Of(numbers)) => numbers,
        Some(Most::NotLimited) => return,
        None => {
            return checker.warning(
                &base,
                "catalogue-unstated",
                format!("how many entries the certificate allows in the {face} wall is not stated, so that it takes none"),
                format!("`most_entries` with numbers by thread, or `\"{NOT_LIMITED}\"` where the certificate states no limit"),
                "add `most_entries` as the certificate says",
            );
        }
    };
    for (thread, count) in numbers {
        let field = format!("{base}.most_entries.\"{thread}\"");
        if thread.clearance_hole_mm() > hole {
            checker.error(
                &field,
                "catalogue-thread",
                format!(
                    "{thread} is larger than the largest thread {}",
                    wall.largest_thread
                ),
                "threads up to `largest_thread`",
                "correct `largest_thread`, or leave the thread out",
            );
        }
        if *count == 0 {
            checker.error(
                &field,
                "catalogue-range",
                format!("the certified number of {thread} is 0"),
                "a number of 1 or more",
                "leave the thread out: what is not named is not certified",
            );
        }
    }
}

/// What is refused for an increased-safety enclosure: no or too low a degree of protection, no or
/// too weak an impact test.
fn increased_safety(part: &Enclosure, checker: &mut Checker<'_>) {
    if let Some(energy) = part.impact_j {
        checker.positive("impact_j", energy, MOST_IMPACT_J);
    }
    if is_increased_safety(&part.certificate) {
        match part.certificate.ip {
            None => checker.error(
                "certificate.ip",
                "catalogue-ip",
                "the degree of protection is missing",
                format!("{LEAST_IP_EX_E} or higher"),
                "add `ip = \"IP66\"` as the certificate says",
            ),
            Some(_) => certificate::check_ip_in_wall(&part.certificate, checker),
        }
        match part.impact_j {
            None => checker.error(
                "impact_j",
                "catalogue-impact",
                "the impact test of an Ex e enclosure is missing",
                "7 J, or 4 J with a special condition (IEC 60079-0)",
                "add `impact_j = 7` as the certificate says",
            ),
            Some(energy) if energy > 0.0 && energy < LEAST_IMPACT_J => checker.error(
                "impact_j",
                "catalogue-impact",
                format!("an impact test of {energy} J is too weak for Ex e"),
                "7 J, or 4 J with a special condition (IEC 60079-0)",
                "take the enclosure out, or correct the figure from the certificate",
            ),
            Some(_) => {}
        }
    }
    let by_enclosure = part
        .certificate
        .protection
        .iter()
        .any(|word| word.parse() == Ok(LevelOfProtection::Tb));
    if by_enclosure
        && part.certificate.dust_group == Some(DustGroup::IIIC)
        && part
            .certificate
            .ip
            .is_some_and(|ip| ip.covers(LEAST_IP_EX_E) && ip.solids < 6)
    {
        checker.error(
            "certificate.ip",
            "catalogue-ip",
            "conductive dust (IIIC) needs a dust-tight enclosure",
            "IP6X (IEC 60079-31, from memory)",
            "correct `ip` or `dust_group` from the certificate",
        );
    }
}
