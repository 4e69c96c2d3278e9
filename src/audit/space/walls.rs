//! Entries in the walls: drillable areas, spacing, corners.

use crate::arrangement::PlacedEntry;
use crate::audit::case::{Cases, Rule, SLACK};
use crate::audit::context::Context;
use crate::audit::measure;
use crate::standards::{Source, Status};

const CERTIFICATE: Source = Source::new(
    "certificate of the enclosure",
    "",
    "drillable areas",
    Status::Published,
);
const SPACING: Source = Source::new(
    "workshop rules",
    "",
    "entries.gap_mm",
    Status::CommonPractice,
);
const ROWS: Source = Source::new(
    "workshop rules",
    "",
    "entries.row_gap_mm",
    Status::CommonPractice,
);
const CORNER: Source = Source::new(
    "workshop rules",
    "",
    "entries.corner_mm",
    Status::CommonPractice,
);

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "space.entry_area",
        title: "entries inside a drillable area",
        requires: "the circle that an entry keeps free lies wholly in one drillable area of its wall; the margin is the distance of the circle from the area's edge",
        source: CERTIFICATE,
        unit: "mm",
        check: entry_area,
    },
    Rule {
        id: "space.entry_blocked",
        title: "entries clear of ribs and bosses",
        requires: "the circle that an entry keeps free does not reach into a part of its wall that the catalogue names as blocked; the margin is the distance between them",
        source: CERTIFICATE,
        unit: "mm",
        check: entry_blocked,
    },
    Rule {
        id: "space.entry_spacing",
        title: "spacing of entries",
        requires: "the centres of two entries in one wall lie apart by half of both envelopes and the workshop's gap for a spanner",
        source: SPACING,
        unit: "mm",
        check: entry_spacing,
    },
    Rule {
        id: "space.entry_rows",
        title: "spanner room between rows of entries",
        requires: "the centres of two entries in one wall that do not stand side by side along u lie apart by half of both envelopes and a gap: that between rows where one stands straight before the other along v; between the two directions the gap for a spanner and the share of the difference that is the square of the sine",
        source: ROWS,
        unit: "mm",
        check: entry_rows,
    },
    Rule {
        id: "space.entry_corner",
        title: "entries clear of the inner corners",
        requires: "between the envelope of an entry and the edges of the inside of its wall there is the workshop's distance",
        source: CORNER,
        unit: "mm",
        check: entry_corner,
    },
];

/// The ranges that the circle of an entry takes along u and v.
fn circle(entry: &PlacedEntry) -> ((f64, f64), (f64, f64)) {
    let radius_mm = entry.envelope_mm / 2.0;
    (
        (entry.u_mm - radius_mm, entry.u_mm + radius_mm),
        (entry.v_mm - radius_mm, entry.v_mm + radius_mm),
    )
}

fn entry_area(context: &Context<'_>, cases: &mut Cases) {
    for entry in &context.arrangement.entries {
        let Some(wall) = context.arrangement.enclosure.walls.get(&entry.wall) else {
            cases.is_so(false, &[&entry.id], || {
                format!(
                    "{} is in the {} wall, which must not be drilled",
                    entry.id, entry.wall
                )
            });
            continue;
        };
        let (u, v) = circle(entry);
        let areas = wall.areas.iter().map(|area| measure::inside_mm(u, v, area));
        match areas.max_by(f64::total_cmp) {
            None => cases.is_so(false, &[&entry.id], || {
                format!(
                    "the {} wall with {} has no drillable area",
                    entry.wall, entry.id
                )
            }),
            Some(margin_mm) => cases.at_least(&[&entry.id], margin_mm, 0.0, || {
                format!(
                    "distance of the circle of {} from the edge of its area in the {} wall",
                    entry.id, entry.wall
                )
            }),
        }
    }
}

fn entry_blocked(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no wall with entries has a blocked part");
    for entry in &context.arrangement.entries {
        let Some(wall) = context.arrangement.enclosure.walls.get(&entry.wall) else {
            continue;
        };
        for part in &wall.blocked {
            let sides = [
                (part.u_mm, part.u_mm + part.width_mm, entry.u_mm),
                (part.v_mm, part.v_mm + part.height_mm, entry.v_mm),
            ];
            // How far the centre lies outside along each axis; within both it is as deep as the nearest side.
            let outside = sides.map(|(from, to, at)| measure::apart_mm((from, to), (at, at)));
            let centre_mm = if outside.iter().all(|along| *along <= 0.0) {
                outside[0].max(outside[1])
            } else {
                outside[0].max(0.0).hypot(outside[1].max(0.0))
            };
            let clear_mm = centre_mm - entry.envelope_mm / 2.0;
            cases.at_least(&[&entry.id], clear_mm, 0.0, || {
                format!(
                    "distance of the circle of {} from a blocked part of the {} wall",
                    entry.id, entry.wall
                )
            });
        }
    }
}

fn entry_spacing(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no wall has two entries");
    let gap_mm = context.arrangement.limits.gland_gap_mm;
    let entries = &context.arrangement.entries;
    for (index, a) in entries.iter().enumerate() {
        for b in entries.iter().skip(index + 1).filter(|b| b.wall == a.wall) {
            let centres_mm = (a.u_mm - b.u_mm).hypot(a.v_mm - b.v_mm);
            let required_mm = (a.envelope_mm + b.envelope_mm) / 2.0 + gap_mm;
            cases.at_least(&[&a.id, &b.id], centres_mm, required_mm, || {
                format!(
                    "distance between the centres of {} and {} in the {} wall",
                    a.id, b.id, a.wall
                )
            });
        }
    }
}

fn entry_rows(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no wall has entries at different distances from the back");
    let limits = &context.arrangement.limits;
    let further_mm = (limits.gland_row_gap_mm - limits.gland_gap_mm).max(0.0);
    let entries = &context.arrangement.entries;
    for (index, a) in entries.iter().enumerate() {
        for b in entries.iter().skip(index + 1).filter(|b| b.wall == a.wall) {
            let (along_mm, across_mm) = (a.u_mm - b.u_mm, a.v_mm - b.v_mm);
            // Side by side the gap for a spanner counts alone, which is a rule of its own.
            if across_mm.abs() <= SLACK {
                continue;
            }
            let centres_mm = along_mm.hypot(across_mm);
            let steep = (across_mm / centres_mm).powi(2);
            let halves_mm = (a.envelope_mm + b.envelope_mm) / 2.0;
            let required_mm = halves_mm + limits.gland_gap_mm + further_mm * steep;
            cases.at_least(&[&a.id, &b.id], centres_mm, required_mm, || {
                format!(
                    "distance between the centres of {} and {} in the {} wall, with room for a spanner from the side",
                    a.id, b.id, a.wall
                )
            });
        }
    }
}

fn entry_corner(context: &Context<'_>, cases: &mut Cases) {
    let required_mm = context.arrangement.limits.gland_corner_mm;
    for entry in &context.arrangement.entries {
        let Some(length_mm) = measure::wall_length_mm(context.interior(), entry.wall) else {
            cases.is_so(false, &[&entry.id], || {
                format!("{} is in the {}", entry.id, entry.wall)
            });
            continue;
        };
        let (u, v) = circle(entry);
        let edges = [u.0, length_mm - u.1, v.0, context.interior().depth_mm - v.1];
        let nearest_mm = edges.into_iter().min_by(f64::total_cmp).unwrap_or(f64::NAN);
        cases.at_least(&[&entry.id], nearest_mm, required_mm, || {
            format!(
                "distance of the envelope of {} from an inner corner of the {} wall",
                entry.id, entry.wall
            )
        });
    }
}
