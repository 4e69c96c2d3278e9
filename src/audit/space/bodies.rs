//! Every body inside the room, and no two in the same place.

use crate::audit::case::{Cases, Rule, SLACK};
use crate::audit::context::{Context, passes_its_rail};
use crate::audit::measure;
use crate::space::{Block, Point};
use crate::standards::{Source, Status};
use std::collections::BTreeSet;

const GEOMETRY: Source = Source::new(
    "geometry",
    "",
    "bodies cannot share room",
    Status::Published,
);

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "space.inside",
        title: "everything inside the enclosure",
        requires: "the body of every rail, terminal, accessory, element and entry lies within the clear inside; the margin is the distance to the nearest face",
        source: GEOMETRY,
        unit: "mm",
        check: inside,
    },
    Rule {
        id: "space.overlap",
        title: "no two bodies in the same place",
        requires: "the bodies of rails, terminals, accessories, elements, entries and of the mounting plate do not overlap in three dimensions; entries of one wall are round, all others blocks; bodies may touch, and an insulating partition may pass its own rail",
        source: GEOMETRY,
        unit: "mm",
        check: overlap,
    },
];

/// Every body with its name; the mounting plate only for overlaps.
fn bodies(context: &Context<'_>) -> Vec<(String, Block)> {
    let arrangement = context.arrangement;
    let mut all = Vec::new();
    all.extend(
        arrangement
            .rails
            .iter()
            .map(|part| (part.id.clone(), part.body)),
    );
    all.extend(
        arrangement
            .terminals
            .iter()
            .map(|part| (part.id.clone(), part.body)),
    );
    all.extend(
        arrangement
            .accessories
            .iter()
            .map(|part| (part.id.clone(), part.body)),
    );
    all.extend(
        arrangement
            .entries
            .iter()
            .map(|part| (part.id.clone(), part.inside)),
    );
    all.extend(
        arrangement
            .elements
            .iter()
            .map(|part| (part.tag.clone(), part.body)),
    );
    all
}

fn inside(context: &Context<'_>, cases: &mut Cases) {
    for (name, body) in bodies(context) {
        let (measured_mm, face) = measure::inside_room_mm(context.interior(), &body);
        cases.at_least(&[&name], measured_mm, 0.0, || {
            format!("distance of {name} from the {face}")
        });
    }
}

fn overlap(context: &Context<'_>, cases: &mut Cases) {
    let mut all = bodies(context);
    let plate = &context.arrangement.enclosure.plate;
    // The plate with the room behind it, where its fixings are.
    let body = Block {
        min: Point {
            x_mm: plate.x_mm,
            y_mm: plate.y_mm,
            z_mm: 0.0,
        },
        max: Point {
            x_mm: plate.x_mm + plate.width_mm,
            y_mm: plate.y_mm + plate.height_mm,
            z_mm: plate.standoff_mm,
        },
    };
    all.push(("mounting plate".to_string(), body));
    all.sort_by(|a, b| {
        a.1.min
            .x_mm
            .total_cmp(&b.1.min.x_mm)
            .then_with(|| a.0.cmp(&b.0))
    });
    // A partition and the rail that it passes, for which it has a slot.
    let accessories = context.arrangement.accessories.iter();
    let passed: BTreeSet<(&str, &str)> = accessories
        .filter(|accessory| passes_its_rail(context, accessory))
        .map(|accessory| (accessory.id.as_str(), accessory.rail.as_str()))
        .collect();
    for (index, (name, body)) in all.iter().enumerate() {
        for (other, block) in all.iter().skip(index + 1) {
            if block.min.x_mm > body.max.x_mm + SLACK {
                break;
            }
            if passed.contains(&(name.as_str(), other.as_str()))
                || passed.contains(&(other.as_str(), name.as_str()))
            {
                continue;
            }
            cases.at_most(
                &[name, other],
                common_mm(context, (name, body), (other, block)),
                0.0,
                || format!("overlap of {name} and {other} (negative: their gap)"),
            );
        }
    }
}

/// How far two bodies overlap; negative where a gap lies between them. Two entries of one wall are
/// cylinders side by side: their squares may share a corner where the circles are well apart.
fn common_mm(context: &Context<'_>, one: (&str, &Block), other: (&str, &Block)) -> f64 {
    let entry = |name: &str| {
        let entries = &context.arrangement.entries;
        entries.iter().find(|entry| entry.id == name)
    };
    let blocks_mm = measure::overlap_mm(one.1, other.1);
    match (entry(one.0), entry(other.0)) {
        (Some(a), Some(b)) if a.wall == b.wall => {
            let radii_mm = (a.part.envelope.inside_mm + b.part.envelope.inside_mm) / 2.0;
            let circles_mm = radii_mm - (a.u_mm - b.u_mm).hypot(a.v_mm - b.v_mm);
            // Circles lie inside their squares: whichever is farther apart tells.
            blocks_mm.min(circles_mm)
        }
        _ => blocks_mm,
    }
}
