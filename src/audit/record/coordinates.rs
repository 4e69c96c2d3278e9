//! Wall and box coordinates, and bare parts inside their body.

use crate::audit::case::{Cases, Rule};
use crate::audit::context::Context;
use crate::audit::measure;
use crate::catalogue::TerminalFunction;
use crate::space::Block;
use crate::standards::{Source, Status};

const COORDINATES: Source = Source::new(
    "docs/arrangement.md",
    "",
    "coordinates",
    Status::CommonPractice,
);

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "record.coordinates",
        title: "wall and box coordinates agree",
        requires: "the blocks of an entry lie where its wall, u and v say, are no smaller than its part, and begin at the wall; the body of an element lies behind its hole at the inside of the lid and its footprint round it",
        source: COORDINATES,
        unit: "mm",
        check: coordinates,
    },
    Rule {
        id: "record.live_parts",
        title: "bare parts inside their body",
        requires: "the bare parts of terminals and elements lie inside their body; a terminal has one a level, and its clamps are on these levels",
        source: COORDINATES,
        unit: "mm",
        check: live_parts,
    },
];

/// The distance of the middle of a range from where it should be.
fn off_centre_mm(range: (f64, f64), centre_mm: f64) -> f64 {
    ((range.0 + range.1) / 2.0 - centre_mm).abs()
}

fn coordinates(context: &Context<'_>, cases: &mut Cases) {
    let interior = context.interior();
    for entry in &context.arrangement.entries {
        let inside = measure::on_wall(interior, entry.wall, &entry.inside);
        let outside = measure::on_wall(interior, entry.wall, &entry.outside);
        let Some((inside, outside)) = inside.zip(outside) else {
            cases.is_so(false, &[&entry.id], || {
                format!("{} is in the {}, not in a wall", entry.id, entry.wall)
            });
            continue;
        };
        let sizes = &entry.part.envelope;
        for (seen, diameter_mm, name) in [
            (inside, sizes.inside_mm, "inside"),
            (outside, sizes.outside_mm, "outside"),
        ] {
            for (range, centre_mm, axis) in [(seen.u, entry.u_mm, "u"), (seen.v, entry.v_mm, "v")] {
                cases.at_most(&[&entry.id], off_centre_mm(range, centre_mm), 0.0, || {
                    format!(
                        "distance of the {name} block of {} from its {axis}",
                        entry.id
                    )
                });
                cases.at_least(&[&entry.id], range.1 - range.0, diameter_mm, || {
                    format!("extent of the {name} block of {} along {axis}", entry.id)
                });
            }
        }
        cases.at_most(&[&entry.id], inside.inward.0.abs(), 0.0, || {
            format!("distance of the inside block of {} from its wall", entry.id)
        });
        cases.at_least(&[&entry.id], inside.inward.1, sizes.reach_in_mm, || {
            format!("reach of the inside block of {} into the box", entry.id)
        });
        cases.at_most(&[&entry.id], outside.inward.1, 0.0, || {
            format!("reach of the outside block of {} into the box", entry.id)
        });
        cases.at_least(
            &[&entry.id],
            outside.inward.1 - outside.inward.0,
            sizes.reach_out_mm,
            || format!("reach of the outside block of {} out of the box", entry.id),
        );
    }
    for element in &context.arrangement.elements {
        let body = &element.body;
        let tag = element.tag.as_str();
        for (range, centre_mm, axis) in [
            (measure::x_range(body), element.x_mm, "x"),
            (measure::y_range(body), element.y_mm, "y"),
        ] {
            cases.at_most(&[tag], off_centre_mm(range, centre_mm), 0.0, || {
                format!("distance of the body of {tag} from its {axis}")
            });
        }
        cases.at_most(
            &[tag],
            (body.max.z_mm - interior.depth_mm).abs(),
            0.0,
            || format!("distance of the body of {tag} from the inside of the lid"),
        );
        let [width_mm, height_mm] = element.hole_mm;
        let hole_x = (element.x_mm - width_mm / 2.0, element.x_mm + width_mm / 2.0);
        let hole_y = (
            element.y_mm - height_mm / 2.0,
            element.y_mm + height_mm / 2.0,
        );
        cases.at_least(
            &[tag],
            measure::inside_mm(hole_x, hole_y, &element.footprint),
            0.0,
            || format!("distance of the hole of {tag} from the edge of its footprint"),
        );
    }
}

/// How far a block lies inside another; negative where it protrudes.
fn enclosed_mm(inner: &Block, outer: &Block) -> f64 {
    let along = |inner: (f64, f64), outer: (f64, f64)| (inner.0 - outer.0).min(outer.1 - inner.1);
    let x = along(measure::x_range(inner), measure::x_range(outer));
    let y = along(measure::y_range(inner), measure::y_range(outer));
    let z = along(measure::z_range(inner), measure::z_range(outer));
    x.min(y).min(z)
}

fn live_parts(context: &Context<'_>, cases: &mut Cases) {
    for terminal in &context.arrangement.terminals {
        let levels = if terminal.function == TerminalFunction::DoubleLevel {
            2
        } else {
            1
        };
        let on_levels = terminal.clamps.iter().all(|clamp| clamp.level < levels);
        cases.is_so(
            terminal.live.len() as u64 == u64::from(levels) && on_levels,
            &[&terminal.id],
            || {
                format!(
                    "{} with {levels} level(s) has {} bare part(s){}",
                    terminal.id,
                    terminal.live.len(),
                    if on_levels {
                        ""
                    } else {
                        " and clamps beyond them"
                    }
                )
            },
        );
        for part in &terminal.live {
            cases.at_least(
                &[&terminal.id],
                enclosed_mm(&part.block, &terminal.body),
                0.0,
                || {
                    format!(
                        "distance of a bare part of {} from the outside of its body",
                        terminal.id
                    )
                },
            );
        }
    }
    for element in &context.arrangement.elements {
        for part in &element.live {
            cases.at_least(
                &[&element.tag],
                enclosed_mm(&part.block, &element.body),
                0.0,
                || {
                    format!(
                        "distance of a bare part of {} from the outside of its body",
                        element.tag
                    )
                },
            );
        }
        // What is wired is bare metal: it must be among the parts that are measured.
        for point in element.contacts.iter().flat_map(|contact| &contact.points) {
            let wired = !point.wires.is_empty();
            let known = element
                .live
                .iter()
                .any(|part| part.potential == point.potential);
            if wired && !known {
                cases.is_so(false, &[&element.tag], || {
                    format!(
                        "{} has no bare part for `{}` of point {}",
                        element.tag, point.potential, point.name
                    )
                });
            }
        }
    }
}
