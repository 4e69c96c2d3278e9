//! Reading `[[cable]]`.

use super::cores_text::read_cores;
use super::estimate::estimate_diameter_mm;
use super::file::CableTable;
use super::named::{Named, broken_tags, tags_of};
use super::read::{as_written, check_walls};
use super::{BoxWishes, Cable};
use crate::catalogue::{CircuitKind, ConductorBuild};
use crate::source::{Document, Findings, Located, Place};
use crate::workshop::Workshop;

/// Reads and checks all cables.
pub(super) fn read_cables(
    document: &Document,
    wishes: &BoxWishes,
    workshop: &Workshop,
    findings: &mut Findings,
) -> Named<Cable> {
    let mut named = Named::default();
    for table in document.tables::<CableTable>("cable", findings) {
        let (value, place) = (&table.value, &table.place);
        let tags = tags_of(&value.tag, &value.tags, value.quantity, place, findings);
        let tags = named.new_tags(tags, "cable", place, findings);
        match read_cable(&table, wishes, workshop, findings) {
            Some(cable) => {
                for (tag, group) in tags {
                    let cable = Cable {
                        tag: tag.clone(),
                        ..cable.clone()
                    };
                    named.add(tag, group, cable);
                }
            }
            None => named.add_broken(tags),
        }
    }
    let broken = broken_tags(document, "cable", &named.by_tag);
    named.broken.extend(broken);
    named
}

fn read_cable(
    table: &Located<CableTable>,
    wishes: &BoxWishes,
    workshop: &Workshop,
    findings: &mut Findings,
) -> Option<Cable> {
    let (value, place) = (&table.value, &table.place);
    let cores = match read_cores(&value.cores) {
        Ok(cores) => cores,
        Err(reason) => {
            findings.push(
                place
                    .error("cores", "list-cores", reason)
                    .expected("such as `24 x 1.5 mm2`, `5 G 2.5 mm2` or `3 x AWG 14`"),
            );
            return None;
        }
    };
    let (estimate_mm, estimate_under_mm) =
        estimate_diameter_mm(&cores, value.screened, value.armoured);
    let estimated = value.diameter_mm.is_none();
    let diameter_mm = value.diameter_mm.unwrap_or(estimate_mm);
    let rules = &workshop.conductors;
    let usual_percent = if estimated {
        rules.estimated_tolerance_percent
    } else {
        rules.given_tolerance_percent
    };
    let share = value.tolerance_percent.unwrap_or(usual_percent) / 100.0;
    let tolerance_mm = value.tolerance_mm.unwrap_or(diameter_mm * share);
    let under_armour_mm = value.armoured.then(|| match value.under_armour_mm {
        Some(under_mm) => {
            let tolerance_mm = under_mm * rules.given_tolerance_percent / 100.0;
            [under_mm - tolerance_mm, under_mm + tolerance_mm]
        }
        // Only the outside is known: what lies under the armour is in proportion to the estimate.
        None => {
            let under_mm = diameter_mm * estimate_under_mm / estimate_mm;
            let tolerance_mm = under_mm * rules.estimated_tolerance_percent / 100.0;
            [under_mm - tolerance_mm, under_mm + tolerance_mm]
        }
    });
    let before = findings.len();
    check_lengths(value, diameter_mm, tolerance_mm, place, findings);
    let walls = read_walls(value, wishes, place, findings);
    (findings.len() == before).then(|| Cable {
        tag: String::new(),
        cores_text: value.cores.clone(),
        cores,
        build: value.conductor.unwrap_or(ConductorBuild::Stranded),
        diameter_mm,
        diameter_range_mm: [diameter_mm - tolerance_mm, diameter_mm + tolerance_mm],
        diameter_estimated: estimated || (value.armoured && value.under_armour_mm.is_none()),
        armoured: value.armoured,
        under_armour_mm,
        screened: value.screened,
        kind: if value.intrinsically_safe {
            CircuitKind::IntrinsicallySafe
        } else {
            CircuitKind::ExE
        },
        walls,
        gland_material: value.gland_material,
        gland: value.gland.clone(),
        thread_system: Some(value.thread.unwrap_or(wishes.thread_system)),
        place: place.clone(),
    })
}

fn check_lengths(
    value: &CableTable,
    diameter_mm: f64,
    tolerance_mm: f64,
    place: &Place,
    findings: &mut Findings,
) {
    let mut refuse = |field: &str, message: String, expected: &str| {
        findings.push(place.error(field, "list-range", message).expected(expected));
    };
    if !(1.0..=150.0).contains(&diameter_mm) {
        let message = match value.diameter_mm {
            Some(_) => format!("`diameter_mm` is {}", as_written(place, "diameter_mm")),
            None => format!("a diameter of {diameter_mm:.0} mm, estimated from the cores"),
        };
        refuse("diameter_mm", message, "a diameter from 1 to 150 mm");
        // What is measured against a wrong diameter says nothing.
        return;
    }
    if value.tolerance_mm.is_some() && value.tolerance_percent.is_some() {
        refuse(
            "tolerance_percent",
            "the tolerance is given twice".to_string(),
            "either `tolerance_mm` or `tolerance_percent`",
        );
    }
    // Workshop rules with a usual tolerance of 100 % are refused, so this one was given.
    if tolerance_mm < 0.0 || tolerance_mm >= diameter_mm {
        let field = if value.tolerance_mm.is_some() {
            "tolerance_mm"
        } else {
            "tolerance_percent"
        };
        refuse(
            field,
            format!("`{field}` is {}", as_written(place, field)),
            "from 0 to less than the diameter",
        );
    }
    match value.under_armour_mm {
        Some(_) if !value.armoured => refuse(
            "under_armour_mm",
            "a diameter under the armour, but the cable is not armoured".to_string(),
            "`armoured = true`, or no `under_armour_mm`",
        ),
        Some(under_mm) if !(under_mm > 0.0 && under_mm < diameter_mm) => refuse(
            "under_armour_mm",
            format!(
                "`under_armour_mm` is {}",
                as_written(place, "under_armour_mm")
            ),
            "more than 0 and less than the outside diameter",
        ),
        _ => {}
    }
}

/// The walls of a cable: its own tie, else the box's walls, the preferred one first.
fn read_walls(
    value: &CableTable,
    wishes: &BoxWishes,
    place: &Place,
    findings: &mut Findings,
) -> Vec<crate::space::Face> {
    let mut walls = match &value.wall {
        Some(walls) => {
            check_walls(&walls.0, "wall", place, findings);
            for wall in walls
                .0
                .iter()
                .filter(|wall| !wishes.entry_walls.contains(wall))
            {
                findings.push(
                    place
                        .error(
                            "wall",
                            "list-wall-not-permitted",
                            format!("`{wall}` is not among the box's entry walls"),
                        )
                        .hint(
                            "add it to `entry_walls` of `[box]`, or let the cable enter elsewhere",
                        ),
                );
            }
            walls.0.clone()
        }
        None => wishes.entry_walls.clone(),
    };
    if let Some(preferred) = value.prefer_wall {
        match walls.iter().position(|wall| *wall == preferred) {
            Some(position) => walls[..=position].rotate_right(1),
            None => findings.push(
                place
                    .error(
                        "prefer_wall",
                        "list-wall-not-permitted",
                        format!("`{preferred}` is not a wall that the cable may enter by"),
                    )
                    .hint("add it to `entry_walls` of `[box]`"),
            ),
        }
    }
    walls
}
