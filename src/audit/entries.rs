//! Cables and what closes the entries: diameters, armour, walls, threads, holes, plugs. Knows nothing of
//! where on a wall an entry is.

use super::case::{Cases, Rule, SLACK, figure_text};
use super::context::Context;
use crate::arrangement::{CableRecord, EntryPurpose, PlacedEntry};
use crate::catalogue::{CircuitKind, Material, Most};
use crate::standards::iec_60079_14::{
    CLEARANCE_HOLE, CLEARANCE_HOLE_EXCESS_MM, INTRINSICALLY_SAFE_COLOUR,
};
use crate::standards::{Source, Status};
use std::collections::BTreeMap;

const GLANDS: Source = Source::new(
    "IEC 60079-14",
    "2013",
    "cl. 10, cable entry systems",
    Status::FromMemory,
);
const CERTIFICATE: Source = Source::new(
    "certificate of the enclosure",
    "",
    "entries",
    Status::Published,
);
const ASKED: Source = Source::new(
    "requirement list",
    "",
    "walls of a cable",
    Status::CommonPractice,
);
const PRACTICE: Source = Source::new("common practice", "", "entries", Status::CommonPractice);

/// The rules of this group.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "entries.cable",
        title: "one entry for each cable",
        requires: "every cable has exactly one entry, which names the cable as the cable names it, and no entry carries a cable that does not exist",
        source: GLANDS,
        unit: "",
        check: cable,
    },
    Rule {
        id: "entries.closed",
        title: "spare entries closed",
        requires: "a spare entry and a breather are closed by a part that clamps no cable",
        source: GLANDS,
        unit: "",
        check: closed,
    },
    Rule {
        id: "entries.clamping",
        title: "cable diameter in the clamping range",
        requires: "the cable's least and greatest diameter, tolerance included, lie in the clamping range of its gland, without which nothing is known; the margin is the distance to the nearer end",
        source: GLANDS,
        unit: "mm",
        check: clamping,
    },
    Rule {
        id: "entries.armour",
        title: "armour clamp",
        requires: "an armoured cable has a gland with an armour clamp whose range holds the diameters under the armour",
        source: GLANDS,
        unit: "mm",
        check: armour,
    },
    Rule {
        id: "entries.wall",
        title: "wall of the cable",
        requires: "a cable enters through a wall that the list allows",
        source: ASKED,
        unit: "",
        check: wall,
    },
    Rule {
        id: "entries.intrinsic",
        title: "glands for intrinsically safe cables",
        requires: "a gland that is marked for intrinsically safe cables carries none of another kind",
        source: INTRINSICALLY_SAFE_COLOUR,
        unit: "",
        check: intrinsic,
    },
    Rule {
        id: "entries.earth_plate",
        title: "metal gland in a plastic wall",
        requires: "a metal gland in a plastic wall has a part that connects it to earth",
        source: PRACTICE,
        unit: "",
        check: earth_plate,
    },
    Rule {
        id: "entries.thread",
        title: "largest thread of the wall",
        requires: "the major diameter of the thread is not above that of the largest thread permitted in the wall",
        source: CERTIFICATE,
        unit: "mm",
        check: thread,
    },
    Rule {
        id: "entries.most",
        title: "certified number of entries",
        requires: "there are no more entries of each thread in a wall than the certificate allows; where it numbers them by thread, one that it does not name is not permitted; that it states no limit has to be said, for what is not known permits nothing",
        source: CERTIFICATE,
        unit: "entries",
        check: most,
    },
    Rule {
        id: "entries.wall_thickness",
        title: "wall thickness for the part",
        requires: "the part can be mounted in a wall as thick as that of the enclosure; the margin is the distance to the nearer end of its range",
        source: PRACTICE,
        unit: "mm",
        check: wall_thickness,
    },
    Rule {
        id: "entries.hole",
        title: "diameter of the hole",
        requires: "the hole is not smaller than the thread's major diameter, and for a metric thread at most 0.7 mm larger",
        source: CLEARANCE_HOLE,
        unit: "mm",
        check: hole,
    },
    Rule {
        id: "entries.envelope",
        title: "envelope of the part",
        requires: "the diameter kept free on the wall is at least the larger of the part's outside and inside diameter",
        source: PRACTICE,
        unit: "mm",
        check: envelope,
    },
];

/// Every cable's entry with its cable, as far as both exist.
fn carried<'a>(context: &Context<'a>) -> Vec<(&'a PlacedEntry, &'a CableRecord)> {
    let entries = context.arrangement.entries.iter();
    entries
        .filter_map(|entry| match &entry.purpose {
            EntryPurpose::Cable(tag) => context
                .cables
                .get(tag.as_str())
                .map(|cable| (entry, *cable)),
            EntryPurpose::Spare | EntryPurpose::Breather => None,
        })
        .collect()
}

fn cable(context: &Context<'_>, cases: &mut Cases) {
    for cable in &context.arrangement.cables {
        let entries: Vec<&str> = context
            .arrangement
            .entries
            .iter()
            .filter(|entry| entry.purpose == EntryPurpose::Cable(cable.tag.clone()))
            .map(|entry| entry.id.as_str())
            .collect();
        cases.is_so(entries == [cable.entry.as_str()], &[&cable.tag], || {
            format!(
                "cable {} names entry `{}`; carried by [{}]",
                cable.tag,
                cable.entry,
                entries.join(", ")
            )
        });
    }
    for entry in &context.arrangement.entries {
        if let EntryPurpose::Cable(tag) = &entry.purpose
            && !context.cables.contains_key(tag.as_str())
        {
            cases.is_so(false, &[&entry.id], || {
                format!("{} carries cable `{tag}`, which does not exist", entry.id)
            });
        }
    }
}

fn closed(context: &Context<'_>, cases: &mut Cases) {
    for entry in &context.arrangement.entries {
        let clamps = entry.part.clamping_mm.is_some();
        let (holds, purpose) = match entry.purpose {
            // Whether a part that names no clamping range closes it is asked by the rule on diameters.
            EntryPurpose::Cable(_) => (true, "a cable's entry"),
            EntryPurpose::Spare => (!clamps, "a spare entry"),
            EntryPurpose::Breather => (!clamps, "a breather"),
        };
        cases.is_so(holds, &[&entry.id], || {
            let kind = if clamps {
                "clamps a cable"
            } else {
                "clamps no cable"
            };
            format!("{} is {purpose}; {} {kind}", entry.id, entry.part.id)
        });
    }
}

/// A range that must lie inside another.
fn within(cases: &mut Cases, subject: &[&str], inner: [f64; 2], outer: [f64; 2], what: &str) {
    let [inner_least, inner_most] = inner;
    let [outer_least, outer_most] = outer;
    cases.at_least(subject, inner_least, outer_least, || {
        format!("least {what}")
    });
    cases.at_most(subject, inner_most, outer_most, || {
        format!("greatest {what}")
    });
}

fn clamping(context: &Context<'_>, cases: &mut Cases) {
    for (entry, cable) in carried(context) {
        let subject = [entry.id.as_str(), cable.tag.as_str()];
        let Some(range) = entry.part.clamping_mm else {
            cases.unknown(&subject, || {
                format!(
                    "the clamping range of {} in {} for {} is missing",
                    entry.part.id, entry.id, cable.tag
                )
            });
            continue;
        };
        let what = format!(
            "diameter of {} in {} ({})",
            cable.tag, entry.id, entry.part.id
        );
        within(cases, &subject, cable.diameter_range_mm, range, &what);
        let [least, most] = cable.diameter_range_mm;
        let nominal_inside =
            least - SLACK <= cable.diameter_mm && cable.diameter_mm <= most + SLACK;
        if !nominal_inside {
            cases.is_so(false, &subject, || {
                format!(
                    "the diameter of {}, {} mm, is not in its own range",
                    cable.tag,
                    figure_text(cable.diameter_mm)
                )
            });
        }
    }
}

fn armour(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there is no armoured cable");
    for (entry, cable) in carried(context)
        .into_iter()
        .filter(|(_, cable)| cable.armoured)
    {
        let subject = [entry.id.as_str(), cable.tag.as_str()];
        let Some(range) = entry.part.under_armour_mm else {
            cases.is_so(false, &subject, || {
                format!(
                    "{} of the armoured cable {} has no armour clamp",
                    entry.part.id, cable.tag
                )
            });
            continue;
        };
        let Some(inner) = cable.under_armour_mm else {
            cases.unknown(&subject, || {
                format!("the diameter under the armour of {} is unknown", cable.tag)
            });
            continue;
        };
        let what = format!("diameter of {} under its armour in {}", cable.tag, entry.id);
        within(cases, &subject, inner, range, &what);
    }
}

fn wall(context: &Context<'_>, cases: &mut Cases) {
    for (entry, cable) in carried(context) {
        cases.is_so(
            cable.walls.contains(&entry.wall),
            &[&entry.id, &cable.tag],
            || {
                let allowed: Vec<&str> = cable.walls.iter().map(|wall| wall.name()).collect();
                format!(
                    "{} enters through the {} wall; allowed: {}",
                    cable.tag,
                    entry.wall,
                    allowed.join(", ")
                )
            },
        );
    }
}

fn intrinsic(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no gland is marked for intrinsically safe cables");
    for (entry, cable) in carried(context) {
        if entry.part.for_intrinsically_safe {
            let safe = cable.kind == CircuitKind::IntrinsicallySafe;
            cases.is_so(safe, &[&entry.id, &cable.tag], || {
                format!(
                    "{} is for intrinsically safe cables, {} is {}",
                    entry.id,
                    cable.tag,
                    cable.kind.words()
                )
            });
        }
    }
}

fn plastic(material: Material) -> bool {
    matches!(material, Material::Grp | Material::Polyamide)
}

fn earth_plate(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there is no metal gland in a plastic wall");
    if !plastic(context.arrangement.enclosure.material) {
        return;
    }
    for (entry, _) in carried(context) {
        if !plastic(entry.part.material) {
            cases.is_so(entry.earth_plate.is_some(), &[&entry.id], || {
                format!(
                    "{} ({}) of {} in a wall of {} {} an earth plate",
                    entry.id,
                    entry.part.id,
                    entry.part.material,
                    context.arrangement.enclosure.material,
                    if entry.earth_plate.is_some() {
                        "has"
                    } else {
                        "lacks"
                    }
                )
            });
        }
    }
}

fn thread(context: &Context<'_>, cases: &mut Cases) {
    for entry in &context.arrangement.entries {
        let Some(wall) = context.arrangement.enclosure.walls.get(&entry.wall) else {
            continue;
        };
        let (given, limit) = (
            entry.thread.major_diameter_mm(),
            wall.largest_thread.major_diameter_mm(),
        );
        cases.at_most(&[&entry.id], given, limit, || {
            format!(
                "major diameter of {} of {} in the {} wall, up to {}",
                entry.thread, entry.id, entry.wall, wall.largest_thread
            )
        });
    }
}

fn most(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there are no entries");
    let mut counts = BTreeMap::new();
    for entry in &context.arrangement.entries {
        *counts.entry((entry.wall, entry.thread)).or_insert(0u32) += 1;
    }
    for ((wall, thread), count) in counts {
        let Some(record) = context.arrangement.enclosure.walls.get(&wall) else {
            continue;
        };
        let name = format!("{wall} wall");
        let permitted = match &record.most_entries {
            None => {
                cases.unknown(&[&name], || {
                    format!("how many entries {thread} the certificate allows in the {wall} wall is unknown")
                });
                continue;
            }
            Some(Most::NotLimited) => {
                cases.is_so(true, &[&name], || {
                    format!(
                        "{count} entries {thread} in the {wall} wall, for which the certificate states no limit by the \
                         catalogue"
                    )
                });
                continue;
            }
            Some(Most::Of(numbers)) => numbers.get(&thread).copied().unwrap_or(0),
        };
        cases.at_most(&[&name], f64::from(count), f64::from(permitted), || {
            format!("entries {thread} in the {wall} wall")
        });
    }
}

fn wall_thickness(context: &Context<'_>, cases: &mut Cases) {
    let thickness_mm = context.arrangement.enclosure.wall_thickness_mm;
    for entry in &context.arrangement.entries {
        let what = format!("wall thickness for {} in {}", entry.part.id, entry.id);
        within(
            cases,
            &[&entry.id],
            [thickness_mm, thickness_mm],
            entry.part.wall_mm,
            &what,
        );
    }
}

fn hole(context: &Context<'_>, cases: &mut Cases) {
    for entry in &context.arrangement.entries {
        let major_mm = entry.thread.major_diameter_mm();
        cases.at_least(&[&entry.id], entry.hole_mm, major_mm, || {
            format!("hole of {} for {}", entry.id, entry.thread)
        });
        if entry.thread.is_metric() {
            cases.at_most(
                &[&entry.id],
                entry.hole_mm,
                major_mm + CLEARANCE_HOLE_EXCESS_MM,
                || format!("hole of {} for {}", entry.id, entry.thread),
            );
        }
    }
}

fn envelope(context: &Context<'_>, cases: &mut Cases) {
    for entry in &context.arrangement.entries {
        let sizes = &entry.part.envelope;
        let required_mm = if sizes.outside_mm > sizes.inside_mm {
            sizes.outside_mm
        } else {
            sizes.inside_mm
        };
        cases.at_least(&[&entry.id], entry.envelope_mm, required_mm, || {
            format!("diameter kept free for {} ({})", entry.id, entry.part.id)
        });
    }
}
