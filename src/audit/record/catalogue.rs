//! Figures copied into the arrangement, compared with the catalogue that they came from. Knows nothing
//! of what the figures mean.
//!
//! A field that is added to one of the lists below needs no further code.

use super::comparison::{begin, written};
use super::enclosure::enclosure;
use crate::arrangement::PlacedContact;
use crate::audit::case::{Cases, Rule, SLACK, figure_text};
use crate::audit::context::Context;
use crate::catalogue::Catalogue;
use crate::space::{Block, Point};
use crate::standards::{Source, Status};
use serde_json::{Value, json};
use std::collections::BTreeMap;

const COPIED: Source = Source::new("catalogue", "", "copied figures", Status::CommonPractice);

/// The rule of this file. It runs only where a catalogue is given.
pub(super) static RULES: &[Rule] = &[Rule {
    id: "record.catalogue",
    title: "copied figures are those of the catalogue",
    requires: "every part that the arrangement names is in the catalogue, and the figures copied from there are the catalogue's; runs only where a catalogue is given",
    source: COPIED,
    unit: "",
    check: copied,
}];

/// Fields of a terminal that bear the same name on both sides, and those that do not.
const TERMINAL: &[(&str, &str)] = &[
    ("description", "description"),
    ("function", "function"),
    ("part_circuits", "circuits"),
    ("clamp_range", "clamp"),
    ("conductors_per_clamp", "conductors_per_clamp"),
    ("rated_voltage_v", "rated_voltage_v"),
    ("ratings", "ratings"),
    ("resistance_mohm", "resistance_mohm"),
    ("tracking_index", "tracking_index"),
    ("neighbour_distance_mm", "neighbour_distance_mm"),
    ("rise_at_rated_k", "rise_at_rated_k"),
    ("rail_profiles", "rails"),
    ("open_side", "open_side"),
    ("colour", "colour"),
    ("torque_nm", "torque_nm"),
    ("strip_mm", "strip_mm"),
    ("certificate", "certificate"),
    ("mass_kg", "mass_kg"),
    ("price", "price"),
];
const ACCESSORY: &[(&str, &str)] = &[
    ("description", "description"),
    ("kind", "kind"),
    ("certificate", "certificate"),
    ("mass_kg", "mass_kg"),
    ("price", "price"),
];
const JUMPER: &[(&str, &str)] = &[
    ("description", "description"),
    ("poles", "poles"),
    ("rated_current_a", "current_a"),
    ("resistance_mohm", "resistance_mohm"),
    ("certificate", "certificate"),
    ("mass_kg", "mass_kg"),
    ("price", "price"),
];
const GLAND: &[(&str, &str)] = &[
    ("description", "description"),
    ("material", "material"),
    ("colour", "colour"),
    ("clamping_mm", "clamping_mm"),
    ("under_armour_mm", "under_armour_mm"),
    ("for_intrinsically_safe", "for_intrinsically_safe"),
    ("envelope", "envelope"),
    ("wall_mm", "wall_mm"),
    ("spanner_mm", "spanner_mm"),
    ("torque_nm", "torque_nm"),
    ("certificate", "certificate"),
    ("mass_kg", "mass_kg"),
    ("price", "price"),
];
const PLUG: &[(&str, &str)] = &[
    ("description", "description"),
    ("material", "material"),
    ("envelope", "envelope"),
    ("wall_mm", "wall_mm"),
    ("torque_nm", "torque_nm"),
    ("certificate", "certificate"),
    ("mass_kg", "mass_kg"),
    ("price", "price"),
];
const ENTRY: &[(&str, &str)] = &[("thread", "thread"), ("hole_mm", "hole_mm")];
const EARTH_PLATE: &[(&str, &str)] = &[
    ("description", "description"),
    ("certificate", "certificate"),
    ("mass_kg", "mass_kg"),
    ("price", "price"),
];
const ELEMENT: &[(&str, &str)] = &[
    ("description", "description"),
    ("kind", "kind"),
    ("colour", "colour"),
    ("background", "background"),
    ("latching", "latching"),
    ("hole", "hole"),
    ("hole_mm", "hole_mm"),
    ("certificate", "certificate"),
    ("mass_kg", "mass_kg"),
    ("price", "price"),
];
const CONTACT: &[(&str, &str)] = &[
    ("description", "description"),
    ("contact", "contact"),
    ("circuits", "circuits"),
    ("rated_voltage_v", "rated_voltage_v"),
    ("rated_current_a", "rated_current_a"),
    ("utilisation", "utilisation"),
    ("resistance_mohm", "resistance_mohm"),
    ("clamp_range", "clamp"),
    ("certificate", "certificate"),
    ("mass_kg", "mass_kg"),
    ("price", "price"),
];
/// Compared where the arrangement says it: that nothing is tightened must be true.
const SPRING: (&str, &str) = ("spring_clamp", "spring_clamp");
/// Fields that older files do not have.
const TORQUE: (&str, &str) = ("torque_nm", "torque_nm");
const STRIP: (&str, &str) = ("strip_mm", "strip_mm");

/// Which of the fields that older files do not have are there to be compared.
fn clamping_fields(contact: &PlacedContact) -> Vec<(&'static str, &'static str)> {
    let torque = contact.torque_nm.map(|_| TORQUE);
    let strip = contact.strip_mm.map(|_| STRIP);
    let spring = contact.spring_clamp.then_some(SPRING);
    torque.into_iter().chain(strip).chain(spring).collect()
}

fn copied(context: &Context<'_>, cases: &mut Cases) {
    let Some(catalogue) = context.catalogue else {
        return;
    };
    enclosure(context, catalogue, cases);
    on_rails(context, catalogue, cases);
    in_walls(context, catalogue, cases);
    in_lid(context, catalogue, cases);
}

fn on_rails(context: &Context<'_>, catalogue: &Catalogue, cases: &mut Cases) {
    let arrangement = context.arrangement;
    for rail in &arrangement.rails {
        let found = begin(cases, &rail.id, &rail.part, &catalogue.rail, |part| {
            &part.id
        });
        let Some((mut compare, part)) = found else {
            continue;
        };
        compare.values("profile", &json!(rail.profile), &json!(part.profile));
        compare.not_below(
            "width",
            rail.body.max.y_mm - rail.body.min.y_mm,
            part.width_mm,
        );
        compare.not_below(
            "height",
            rail.body.max.z_mm - rail.body.min.z_mm,
            part.height_mm,
        );
        compare.cases.is_so(
            rail.length_mm <= part.stock_length_mm,
            &[&rail.id, &rail.part],
            || {
                format!(
                    "rail {} is {} mm long, stock is {} mm",
                    rail.id,
                    figure_text(rail.length_mm),
                    figure_text(part.stock_length_mm)
                )
            },
        );
    }
    let mut known: BTreeMap<&str, Value> = BTreeMap::new();
    for terminal in &arrangement.terminals {
        let found = begin(
            cases,
            &terminal.id,
            &terminal.part,
            &catalogue.terminal,
            |part| &part.id,
        );
        let Some((mut compare, part)) = found else {
            continue;
        };
        let part_written = known
            .entry(terminal.part.as_str())
            .or_insert_with(|| written(part));
        compare.fields_written(terminal, part_written, TERMINAL);
        if terminal.spring_clamp {
            compare.fields_written(terminal, part_written, &[SPRING]);
        }
        let body = &terminal.body;
        compare.not_below("width", body.max.x_mm - body.min.x_mm, part.width_mm);
        compare.not_below("length", body.max.y_mm - body.min.y_mm, part.length_mm);
        compare.not_below("height", body.max.z_mm - body.min.z_mm, part.height_mm);
        let live = terminal.live.iter().map(|part| part.block);
        let Some(whole) = live.reduce(|a, b| Block {
            min: Point {
                x_mm: a.min.x_mm.min(b.min.x_mm),
                y_mm: a.min.y_mm.min(b.min.y_mm),
                z_mm: a.min.z_mm.min(b.min.z_mm),
            },
            max: Point {
                x_mm: a.max.x_mm.max(b.max.x_mm),
                y_mm: a.max.y_mm.max(b.max.y_mm),
                z_mm: a.max.z_mm.max(b.max.z_mm),
            },
        }) else {
            continue;
        };
        // Bare parts may be recorded larger than they are, never smaller.
        let inset = &part.live;
        compare.not_below(
            "bare width",
            whole.max.x_mm - whole.min.x_mm,
            part.width_mm - 2.0 * inset.sides_mm,
        );
        compare.not_below(
            "bare length",
            whole.max.y_mm - whole.min.y_mm,
            part.length_mm - 2.0 * inset.ends_mm,
        );
        let bare_mm = part.height_mm - inset.top_mm - inset.foot_mm;
        compare.not_below("bare height", whole.max.z_mm - whole.min.z_mm, bare_mm);
    }
    for accessory in &arrangement.accessories {
        let found = begin(
            cases,
            &accessory.id,
            &accessory.part,
            &catalogue.accessory,
            |part| &part.id,
        );
        let Some((mut compare, part)) = found else {
            continue;
        };
        compare.fields(accessory, part, ACCESSORY);
        // A file without it is judged as if it were metal, which needs no comparison.
        if accessory.material.is_some() {
            compare.fields(accessory, part, &[("material", "material")]);
        }
        let body = &accessory.body;
        compare.not_below("width", body.max.x_mm - body.min.x_mm, part.width_mm);
        compare.not_below("length", body.max.y_mm - body.min.y_mm, part.length_mm);
        compare.not_below("height", body.max.z_mm - body.min.z_mm, part.height_mm);
        // A partition that is recorded thicker than it is would shield more than it does; up to a tenth
        // may come from rounding.
        let thicker_mm = body.max.x_mm - body.min.x_mm - part.width_mm;
        compare
            .cases
            .is_so(thicker_mm <= 0.1 + SLACK, &[&accessory.id], || {
                format!(
                    "{} is recorded {} mm thicker than it is",
                    accessory.id,
                    figure_text(thicker_mm)
                )
            });
    }
    for jumper in &arrangement.jumpers {
        let found = begin(
            cases,
            &jumper.id,
            &jumper.part,
            &catalogue.accessory,
            |part| &part.id,
        );
        let Some((mut compare, part)) = found else {
            continue;
        };
        compare.fields(jumper, part, JUMPER);
    }
}

fn in_walls(context: &Context<'_>, catalogue: &Catalogue, cases: &mut Cases) {
    for entry in &context.arrangement.entries {
        let id = entry.part.id.as_str();
        if catalogue.gland.iter().any(|part| part.id == id) {
            let found = begin(cases, &entry.id, id, &catalogue.gland, |part| &part.id);
            if let Some((mut compare, part)) = found {
                compare.fields(&entry.part, part, GLAND);
                compare.fields(entry, part, ENTRY);
            }
        } else {
            let found = begin(cases, &entry.id, id, &catalogue.plug, |part| &part.id);
            if let Some((mut compare, part)) = found {
                compare.fields(&entry.part, part, PLUG);
                compare.fields(entry, part, ENTRY);
            }
        }
        if let Some(plate) = &entry.earth_plate {
            let found = begin(cases, &entry.id, &plate.id, &catalogue.accessory, |part| {
                &part.id
            });
            if let Some((mut compare, part)) = found {
                compare.fields(plate, part, EARTH_PLATE);
                compare.values(
                    "thread of the earth plate",
                    &json!(part.thread),
                    &json!(entry.thread),
                );
            }
        }
    }
}

fn in_lid(context: &Context<'_>, catalogue: &Catalogue, cases: &mut Cases) {
    for element in &context.arrangement.elements {
        let found = begin(
            cases,
            &element.tag,
            &element.part,
            &catalogue.element,
            |part| &part.id,
        );
        let Some((mut compare, part)) = found else {
            continue;
        };
        compare.fields(element, part, ELEMENT);
        if element.positions.is_some() {
            compare.fields(element, part, &[("positions", "positions")]);
        }
        compare.values(
            "power_w",
            &json!(element.power_w),
            &json!(part.power_w.unwrap_or(0.0)),
        );
        let [width_mm, height_mm] = part.footprint_mm;
        compare.not_below("footprint width", element.footprint.width_mm, width_mm);
        compare.not_below("footprint height", element.footprint.height_mm, height_mm);
        let body = &element.body;
        let [width_mm, height_mm] = part.body_mm;
        compare.not_below("body width", body.max.x_mm - body.min.x_mm, width_mm);
        compare.not_below("body height", body.max.y_mm - body.min.y_mm, height_mm);
        let blocks = element
            .contacts
            .iter()
            .filter(|contact| contact.part.is_some())
            .count();
        match part.depth_mm.get(blocks) {
            None => compare.cases.is_so(false, &[&element.tag], || {
                format!("{} does not carry {blocks} contact blocks", part.id)
            }),
            Some(depth_mm) => compare.not_below("depth", body.max.z_mm - body.min.z_mm, *depth_mm),
        }
        for contact in &element.contacts {
            match &contact.part {
                None => {
                    let own = [
                        ("rated_voltage_v", "rated_voltage_v"),
                        ("rated_current_a", "rated_current_a"),
                        ("clamp_range", "clamp"),
                        ("certificate", "certificate"),
                    ];
                    let found = begin(
                        cases,
                        &element.tag,
                        &element.part,
                        &catalogue.element,
                        |part| &part.id,
                    );
                    if let Some((mut compare, part)) = found {
                        compare.fields(contact, part, &own);
                        compare.fields(contact, part, &clamping_fields(contact));
                    }
                }
                Some(id) => {
                    let found = begin(cases, &element.tag, id, &catalogue.contact_block, |part| {
                        &part.id
                    });
                    let Some((mut compare, part)) = found else {
                        continue;
                    };
                    compare.fields(contact, part, CONTACT);
                    compare.fields(contact, part, &clamping_fields(contact));
                    let fits = part.fits.is_empty() || part.fits.contains(&element.part);
                    compare.cases.is_so(fits, &[&element.tag, id], || {
                        format!("{id} on {} does not fit {}", element.tag, element.part)
                    });
                }
            }
        }
    }
}
