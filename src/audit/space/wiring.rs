//! Room for conductors: straight out of the clamps, and behind contact blocks.

use crate::arrangement::{PlacedTerminal, Side};
use crate::audit::case::{Cases, Rule, SLACK, figure_text};
use crate::audit::context::Context;
use crate::audit::graph::side_word;
use crate::audit::measure;
use crate::space::Block;
use crate::standards::{Source, Status};

const WIRING_SPACE: Source = Source::new(
    "workshop rules",
    "",
    "wiring_space, measured as in NEC 312.6",
    Status::CommonPractice,
);
const BEND: Source = Source::new(
    "workshop rules",
    "",
    "elements.contact_bend_mm",
    Status::CommonPractice,
);

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "space.wiring",
        title: "wiring space straight out of the clamps",
        requires: "from every clamp with conductors, straight up or down over the terminal's width and height, the way to the wall, an entry, an element, a rail or anything on another rail is at least the workshop's wiring space for the largest section on that side; above the last step nothing is known",
        source: WIRING_SPACE,
        unit: "mm",
        check: wiring,
    },
    Rule {
        id: "space.element_depth",
        title: "elements clear of what is behind them",
        requires: "in front of what stands below an element there is room for its body and, where conductors are on it, for their bend",
        source: BEND,
        unit: "mm",
        check: element_depth,
    },
];

/// An obstacle and whether it blocks at any height over the plate.
struct Obstacle<'a> {
    name: &'a str,
    body: &'a Block,
    any_height: bool,
    /// Whether it is a rail or stands on one.
    on_rail: bool,
}

fn obstacles<'a>(context: &Context<'a>) -> Vec<Obstacle<'a>> {
    let arrangement = context.arrangement;
    let mut all = Vec::new();
    for rail in &arrangement.rails {
        // Conductors do not run through the room in front of a rail that may be filled later.
        all.push(Obstacle {
            name: &rail.id,
            body: &rail.body,
            any_height: true,
            on_rail: true,
        });
    }
    for terminal in &arrangement.terminals {
        all.push(Obstacle {
            name: &terminal.id,
            body: &terminal.body,
            any_height: false,
            on_rail: true,
        });
    }
    for accessory in &arrangement.accessories {
        all.push(Obstacle {
            name: &accessory.id,
            body: &accessory.body,
            any_height: false,
            on_rail: true,
        });
    }
    for entry in &arrangement.entries {
        all.push(Obstacle {
            name: &entry.id,
            body: &entry.inside,
            any_height: false,
            on_rail: false,
        });
    }
    for element in &arrangement.elements {
        all.push(Obstacle {
            name: &element.tag,
            body: &element.body,
            any_height: false,
            on_rail: false,
        });
    }
    all
}

/// The free way from a terminal's end to the nearest obstacle or wall, with its name.
fn free_way(
    context: &Context<'_>,
    obstacles: &[Obstacle<'_>],
    terminal: &PlacedTerminal,
    side: Side,
) -> (f64, String) {
    let body = &terminal.body;
    let mut nearest = match side {
        Side::Upper => (
            context.interior().height_mm - body.max.y_mm,
            "top wall".to_string(),
        ),
        Side::Lower => (body.min.y_mm, "bottom wall".to_string()),
    };
    let middle_mm = (body.min.y_mm + body.max.y_mm) / 2.0;
    for obstacle in obstacles {
        let other = obstacle.body;
        let own = obstacle.name == terminal.id || obstacle.name == terminal.rail;
        let before = measure::apart_mm(measure::x_range(body), measure::x_range(other)) < -SLACK;
        let level = obstacle.any_height
            || measure::apart_mm(measure::z_range(body), measure::z_range(other)) < -SLACK;
        if own || !before || !level {
            continue;
        }
        let centre_mm = (other.min.y_mm + other.max.y_mm) / 2.0;
        let way_mm = match side {
            Side::Upper if centre_mm > middle_mm => other.min.y_mm - body.max.y_mm,
            Side::Lower if centre_mm < middle_mm => body.min.y_mm - other.max.y_mm,
            _ => continue,
        };
        if way_mm < nearest.0 {
            nearest = (way_mm, obstacle.name.to_string());
        }
    }
    nearest
}

fn wiring(context: &Context<'_>, cases: &mut Cases) {
    let obstacles = obstacles(context);
    for terminal in &context.arrangement.terminals {
        for side in [Side::Upper, Side::Lower] {
            let clamps = terminal.clamps.iter().filter(|clamp| clamp.side == side);
            let wires = clamps.flat_map(|clamp| &clamp.wires);
            let sections = wires
                .filter_map(|id| context.wires.get(id.as_str()))
                .map(|wire| wire.section_mm2);
            let Some(section_mm2) = sections.max_by(f64::total_cmp) else {
                continue;
            };
            // Of the steps that reach the section the one with the least limit counts.
            let steps = context.arrangement.limits.wiring_space.iter();
            let step = steps
                .filter(|step| step.up_to_mm2 >= section_mm2 - SLACK)
                .min_by(|a, b| a.up_to_mm2.total_cmp(&b.up_to_mm2));
            let (way_mm, until) = free_way(context, &obstacles, terminal, side);
            let subject = [terminal.id.as_str(), until.as_str()];
            match step {
                None => cases.unknown(&subject, || {
                    format!(
                        "no wiring space is stated for {} mm² on {}",
                        figure_text(section_mm2),
                        terminal.id
                    )
                }),
                Some(step) => cases.at_least(&subject, way_mm, step.space_mm, || {
                    format!(
                        "way from the {} clamp of {} with {} mm² to {until}",
                        side_word(side),
                        terminal.id,
                        figure_text(section_mm2)
                    )
                }),
            }
        }
    }
}

fn element_depth(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no element stands in front of a rail or what is on it");
    let bend_mm = context.arrangement.limits.contact_bend_mm;
    let obstacles = obstacles(context);
    for element in &context.arrangement.elements {
        let wired = element.contacts.iter().any(|contact| {
            contact.part.is_some() || contact.points.iter().any(|point| !point.wires.is_empty())
        });
        let required_mm = if wired { bend_mm } else { 0.0 };
        for obstacle in &obstacles {
            let other = obstacle.body;
            let x = measure::apart_mm(measure::x_range(&element.body), measure::x_range(other));
            let y = measure::apart_mm(measure::y_range(&element.body), measure::y_range(other));
            if !obstacle.on_rail || x >= -SLACK || y >= -SLACK {
                continue;
            }
            let gap_mm = element.body.min.z_mm - other.max.z_mm;
            cases.at_least(&[&element.tag, obstacle.name], gap_mm, required_mm, || {
                format!(
                    "room between the back of {} and {}",
                    element.tag, obstacle.name
                )
            });
        }
    }
}
