//! Rails on the plate, and terminals and accessories on the rails.

use crate::audit::case::{Cases, Rule, SLACK, figures_within};
use crate::audit::context::{Context, passes_its_rail};
use crate::audit::measure;
use crate::catalogue::{AccessoryKind, Most};
use crate::space::{Block, Rect};
use crate::standards::{Source, Status};
use std::collections::BTreeSet;

const RAIL_ENDS: Source = Source::new(
    "workshop rules",
    "",
    "rails.end_mm and cutting of rails",
    Status::CommonPractice,
);
const MOUNTING: Source = Source::new(
    "IEC 60715",
    "",
    "terminals on rails",
    Status::CommonPractice,
);
const CERTIFICATE: Source = Source::new(
    "certificate of the enclosure",
    "",
    "most terminals",
    Status::Published,
);
const ROWS: Source = Source::new(
    "common practice",
    "",
    "terminal rows",
    Status::CommonPractice,
);
const LID_CLEARANCE: Source = Source::new(
    "workshop rules",
    "",
    "rails.lid_clearance_mm",
    Status::CommonPractice,
);

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "space.rail_on_plate",
        title: "rails on the mounting plate",
        requires: "every rail stands on the face of the plate and lies within its rectangle",
        source: RAIL_ENDS,
        unit: "mm",
        check: rail_on_plate,
    },
    Rule {
        id: "space.rail_ends",
        title: "rail ends clear of the walls",
        requires: "between the ends of a rail and the left and right wall there is the workshop's distance",
        source: RAIL_ENDS,
        unit: "mm",
        check: rail_ends,
    },
    Rule {
        id: "space.rail_cut",
        title: "cut length of the rails",
        requires: "the cut length is a whole number of millimetres and the length of the rail's body",
        source: RAIL_ENDS,
        unit: "",
        check: rail_cut,
    },
    Rule {
        id: "space.on_rail",
        title: "terminals and accessories on their rail",
        requires: "what is on a rail stands on its front face, within its ends, and across its middle; an insulating partition may pass the rail on its way to the plate",
        source: MOUNTING,
        unit: "mm",
        check: on_rail,
    },
    Rule {
        id: "space.across_rail",
        title: "terminals and accessories square on their rail",
        requires: "the middle of what is on a rail lies over the middle of the rail, where its foot snaps on; not asked of an insulating partition that passes the rail",
        source: MOUNTING,
        unit: "mm",
        check: across_rail,
    },
    Rule {
        id: "space.end_stops_hold",
        title: "end stops touch what they hold",
        requires: "every end stop touches a part of its row other than an end stop, so that the row cannot slide",
        source: ROWS,
        unit: "mm",
        check: end_stops_hold,
    },
    Rule {
        id: "space.rail_profile",
        title: "terminals for the profile of the rail",
        requires: "every terminal is made for the profile of the rail that it stands on",
        source: MOUNTING,
        unit: "",
        check: rail_profile,
    },
    Rule {
        id: "space.lid_clearance",
        title: "terminals clear of the lid",
        requires: "between the top of what stands on the rails and the inside of the lid there is the workshop's distance; an insulating partition that passes its rail may reach the lid",
        source: LID_CLEARANCE,
        unit: "mm",
        check: lid_clearance,
    },
    Rule {
        id: "space.most_terminals",
        title: "number of terminals",
        requires: "there are no more terminals than the certificate of the enclosure allows; that it states no limit has to be said, for what is not known permits nothing",
        source: CERTIFICATE,
        unit: "terminals",
        check: most_terminals,
    },
];

fn rail_on_plate(context: &Context<'_>, cases: &mut Cases) {
    let plate = &context.arrangement.enclosure.plate;
    let rectangle = Rect {
        u_mm: plate.x_mm,
        v_mm: plate.y_mm,
        width_mm: plate.width_mm,
        height_mm: plate.height_mm,
    };
    for rail in &context.arrangement.rails {
        let (x, y) = (measure::x_range(&rail.body), measure::y_range(&rail.body));
        cases.at_least(
            &[&rail.id],
            measure::inside_mm(x, y, &rectangle),
            0.0,
            || {
                format!(
                    "distance of rail {} from the edge of the mounting plate",
                    rail.id
                )
            },
        );
        let lifted_mm = (rail.body.min.z_mm - plate.standoff_mm).abs();
        cases.at_most(&[&rail.id], lifted_mm, 0.0, || {
            format!(
                "distance of rail {} from the face of the mounting plate",
                rail.id
            )
        });
    }
}

fn rail_ends(context: &Context<'_>, cases: &mut Cases) {
    let required_mm = context.arrangement.limits.rail_end_mm;
    for rail in &context.arrangement.rails {
        let ends = [
            (rail.body.min.x_mm, "left"),
            (context.interior().width_mm - rail.body.max.x_mm, "right"),
        ];
        for (measured_mm, wall) in ends {
            cases.at_least(&[&rail.id], measured_mm, required_mm, || {
                format!("distance of rail {} from the {wall} wall", rail.id)
            });
        }
    }
}

fn rail_cut(context: &Context<'_>, cases: &mut Cases) {
    for rail in &context.arrangement.rails {
        let body_mm = rail.body.max.x_mm - rail.body.min.x_mm;
        let whole = (rail.length_mm - rail.length_mm.round()).abs() <= SLACK;
        let equal = (rail.length_mm - body_mm).abs() <= SLACK;
        cases.is_so(whole && equal && rail.length_mm > 0.0, &[&rail.id], || {
            let (length, body) = figures_within(rail.length_mm, body_mm, SLACK);
            format!(
                "rail {} is cut to {length} mm, its body is {body} mm long",
                rail.id
            )
        });
    }
}

/// Everything on a rail with its name, rail and body.
fn items<'a>(context: &Context<'a>) -> impl Iterator<Item = (&'a str, &'a str, &'a Block)> {
    let arrangement = context.arrangement;
    let terminals = arrangement.terminals.iter();
    let terminals = terminals.map(|part| (part.id.as_str(), part.rail.as_str(), &part.body));
    let accessories = arrangement.accessories.iter();
    terminals.chain(accessories.map(|part| (part.id.as_str(), part.rail.as_str(), &part.body)))
}

/// Names of the partitions that pass their rail.
fn shields<'a>(context: &Context<'a>) -> BTreeSet<&'a str> {
    let accessories = context.arrangement.accessories.iter();
    accessories
        .filter(|accessory| passes_its_rail(context, accessory))
        .map(|accessory| accessory.id.as_str())
        .collect()
}

fn on_rail(context: &Context<'_>, cases: &mut Cases) {
    let shields = shields(context);
    for (name, rail, body) in items(context) {
        let Some(rail) = context.rails.get(rail) else {
            continue;
        };
        let off_mm = if shields.contains(name) {
            0.0
        } else {
            (body.min.z_mm - rail.body.max.z_mm).abs()
        };
        cases.at_most(&[name, &rail.id], off_mm, 0.0, || {
            format!("distance of {name} from the front face of rail {}", rail.id)
        });
        let within_mm =
            (body.min.x_mm - rail.body.min.x_mm).min(rail.body.max.x_mm - body.max.x_mm);
        cases.at_least(&[name, &rail.id], within_mm, 0.0, || {
            format!("distance of {name} from the nearer end of rail {}", rail.id)
        });
        let middle_mm = (rail.body.min.y_mm + rail.body.max.y_mm) / 2.0;
        let across_mm = (middle_mm - body.min.y_mm).min(body.max.y_mm - middle_mm);
        cases.at_least(&[name, &rail.id], across_mm, 0.0, || {
            format!("reach of {name} beyond the middle of rail {}", rail.id)
        });
    }
}

fn across_rail(context: &Context<'_>, cases: &mut Cases) {
    let shields = shields(context);
    for (name, rail, body) in items(context) {
        if shields.contains(name) {
            continue;
        }
        let Some(rail) = context.rails.get(rail) else {
            continue;
        };
        let middle_mm = |block: &Block| (block.min.y_mm + block.max.y_mm) / 2.0;
        let off_mm = (middle_mm(body) - middle_mm(&rail.body)).abs();
        cases.at_most(&[name, &rail.id], off_mm, 0.0, || {
            format!("distance of {name} from the middle of rail {}", rail.id)
        });
    }
}

fn end_stops_hold(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there is no end stop");
    let arrangement = context.arrangement;
    let stops = |kind| kind == AccessoryKind::EndStop;
    for stop in arrangement
        .accessories
        .iter()
        .filter(|part| stops(part.kind))
    {
        let terminals = arrangement.terminals.iter();
        let terminals = terminals.map(|part| (&part.rail, &part.body));
        let others = arrangement.accessories.iter();
        let others = others.filter(|part| !stops(part.kind));
        let held = terminals.chain(others.map(|part| (&part.rail, &part.body)));
        let gap_mm = held
            .filter(|(rail, _)| **rail == stop.rail)
            .map(|(_, body)| {
                // Where they overlap is the business of another rule.
                measure::apart_mm(measure::x_range(&stop.body), measure::x_range(body)).max(0.0)
            })
            .fold(f64::INFINITY, f64::min);
        if gap_mm.is_finite() {
            cases.at_most(&[&stop.id], gap_mm, 0.0, || {
                format!("gap between end stop {} and what it holds", stop.id)
            });
        } else {
            cases.is_so(false, &[&stop.id], || {
                format!("end stop {} holds nothing", stop.id)
            });
        }
    }
}

fn rail_profile(context: &Context<'_>, cases: &mut Cases) {
    for terminal in &context.arrangement.terminals {
        let Some(rail) = context.rails.get(terminal.rail.as_str()) else {
            continue;
        };
        let subject = [terminal.id.as_str(), rail.id.as_str()];
        if terminal.rail_profiles.is_empty() {
            cases.unknown(&subject, || {
                format!("the rail profiles of {} are unknown", terminal.id)
            });
        } else {
            cases.is_so(
                terminal.rail_profiles.contains(&rail.profile),
                &subject,
                || {
                    format!(
                        "{} is for {}, rail {} is {}",
                        terminal.id,
                        terminal.rail_profiles.join(", "),
                        rail.id,
                        rail.profile
                    )
                },
            );
        }
    }
}

fn lid_clearance(context: &Context<'_>, cases: &mut Cases) {
    let required_mm = context.arrangement.limits.lid_clearance_mm;
    let shields = shields(context);
    for (name, _, body) in items(context) {
        // What keeps the way round a shield closed may come as near to the lid as it likes.
        let required_mm = if shields.contains(name) {
            0.0
        } else {
            required_mm
        };
        cases.at_least(
            &[name],
            context.interior().depth_mm - body.max.z_mm,
            required_mm,
            || format!("distance of {name} from the lid"),
        );
    }
}

fn most_terminals(context: &Context<'_>, cases: &mut Cases) {
    let enclosure = &context.arrangement.enclosure;
    cases.nothing("there are no terminals");
    let count = context.arrangement.terminals.len();
    if count == 0 {
        return;
    }
    match enclosure.most_terminals {
        None => cases.unknown(&[&enclosure.id], || {
            format!(
                "how many terminals the certificate of {} allows is unknown",
                enclosure.id
            )
        }),
        Some(Most::NotLimited) => cases.is_so(true, &[&enclosure.id], || {
            format!(
                "{count} terminals in {}, whose certificate states no limit by the catalogue",
                enclosure.id
            )
        }),
        Some(Most::Of(most)) => {
            cases.at_most(&[&enclosure.id], count as f64, f64::from(most), || {
                format!("terminals in {}", enclosure.id)
            });
        }
    }
}
