//! Nothing forgotten: cores, conductors, continuity, spares, earth, end stops, plates, partitions,
//! numbers. Knows nothing of distances in the room beyond which part follows which on a rail.

use super::case::{Cases, Rule, SLACK};
use super::context::{Context, EARTH, RowItem};
use super::graph::{Graph, end_name, side_word};
use crate::arrangement::{EntryPurpose, Wire, WireEnd};
use crate::catalogue::{AccessoryKind, Material, TerminalFunction};
use crate::standards::iec_60079_0::{EXTERNAL_BONDING, EXTERNAL_BONDING_MM2};
use crate::standards::iec_60079_11::COLOUR;
use crate::standards::{Source, Status};
use std::collections::{BTreeMap, BTreeSet};

const WIRING: Source = Source::new(
    "IEC 60079-14",
    "",
    "connection of conductors, unused cores",
    Status::FromMemory,
);
const EARTHING: Source = Source::new(
    "IEC 60079-0",
    "",
    "cl. 15, earthing and bonding",
    Status::FromMemory,
);
const PRACTICE: Source = Source::new(
    "common practice",
    "",
    "terminal rows",
    Status::CommonPractice,
);
const ASKED: Source = Source::new("requirement list", "", "spare", Status::CommonPractice);

/// The rules of this group.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "completeness.cores",
        title: "every core connected once",
        requires: "every core of every cable, and the screen of a screened one, ends under exactly one clamp or on one point",
        source: WIRING,
        unit: "",
        check: cores,
    },
    Rule {
        id: "completeness.wires",
        title: "conductors and clamps agree",
        requires: "both ends of every conductor exist, and the lists of clamps and points name exactly the conductors that end there",
        source: WIRING,
        unit: "",
        check: wires,
    },
    Rule {
        id: "completeness.potentials",
        title: "one potential on connected metal",
        requires: "a conductor carries the potential of both its ends, and no two potentials are connected",
        source: WIRING,
        unit: "",
        check: potentials,
    },
    Rule {
        id: "completeness.circuits",
        title: "every pole continuous",
        requires: "all ends of a pole, and of poles joined with it, are connected with each other over conductors, terminals and jumpers",
        source: WIRING,
        unit: "",
        check: circuits,
    },
    Rule {
        id: "completeness.contact_points",
        title: "free contact points reported",
        requires: "every point of an element is wired, or a remark names the element and the point",
        source: WIRING,
        unit: "",
        check: contact_points,
    },
    Rule {
        id: "completeness.spare_terminals",
        title: "spare terminals",
        requires: "every strip has the share of spare terminals asked for, of its used terminals other than earth, rounded up",
        source: ASKED,
        unit: "terminals",
        check: spare_terminals,
    },
    Rule {
        id: "completeness.spare_entries",
        title: "spare entries",
        requires: "there are as many spare entries of each thread as asked for",
        source: ASKED,
        unit: "entries",
        check: spare_entries,
    },
    Rule {
        id: "completeness.earth",
        title: "protective conductors on earth terminals",
        requires: "every protective conductor and screen that comes with a cable ends on an earth terminal, and nothing else does",
        source: EARTHING,
        unit: "",
        check: earth,
    },
    Rule {
        id: "completeness.external_earth",
        title: "external earth terminal",
        requires: "an enclosure of metal has an external earth terminal for at least 4 mm²",
        source: EXTERNAL_BONDING,
        unit: "mm²",
        check: external_earth,
    },
    Rule {
        id: "completeness.end_stops",
        title: "end stops",
        requires: "the row on every rail begins and ends with an end stop",
        source: PRACTICE,
        unit: "",
        check: end_stops,
    },
    Rule {
        id: "completeness.end_plates",
        title: "end plates",
        requires: "right of a terminal with an open side directly follows the same terminal or an end plate",
        source: PRACTICE,
        unit: "",
        check: end_plates,
    },
    Rule {
        id: "completeness.partitions",
        title: "partitions between strips",
        requires: "between terminals of two strips that follow each other on a rail stands a partition",
        source: PRACTICE,
        unit: "",
        check: partitions,
    },
    Rule {
        id: "completeness.numbering",
        title: "numbering of the terminals",
        requires: "no number occurs twice in a strip, and the id of a terminal is its strip and number",
        source: PRACTICE,
        unit: "",
        check: numbering,
    },
    Rule {
        id: "completeness.marking",
        title: "marking of the terminals",
        requires: "every terminal that is not spare has a marking, and the terminals of a strip are for its kind of circuit",
        source: PRACTICE,
        unit: "",
        check: marking,
    },
    Rule {
        id: "completeness.intrinsic_colour",
        title: "colour of intrinsically safe terminals",
        requires: "an intrinsically safe terminal other than earth for which a colour is known is light blue",
        source: COLOUR,
        unit: "",
        check: intrinsic_colour,
    },
];

fn cores(context: &Context<'_>, cases: &mut Cases) {
    let mut counts: BTreeMap<&str, BTreeMap<&str, u32>> = BTreeMap::new();
    for wire in &context.arrangement.wires {
        for end in [&wire.from, &wire.to] {
            if let WireEnd::Core { cable, core } = end {
                *counts.entry(cable).or_default().entry(core).or_insert(0) += 1;
            }
        }
    }
    for cable in &context.arrangement.cables {
        let found = counts.remove(cable.tag.as_str()).unwrap_or_default();
        for (core, count) in &found {
            if *count != 1 {
                cases.is_so(false, &[&cable.tag], || {
                    format!("core {core} of {} is connected {count} times", cable.tag)
                });
            }
        }
        let screens = found.keys().filter(|core| **core == "screen").count() as u64;
        let connected = found.len() as u64 - screens;
        cases.is_so(
            connected == u64::from(cable.core_count),
            &[&cable.tag],
            || {
                format!(
                    "{connected} of the {} cores of {} are connected",
                    cable.core_count, cable.tag
                )
            },
        );
        cases.is_so(screens == u64::from(cable.screened), &[&cable.tag], || {
            let has = if cable.screened { "has a" } else { "has no" };
            format!(
                "{} {has} screen to be connected, {screens} are connected",
                cable.tag
            )
        });
    }
    for cable in counts.keys() {
        cases.is_so(false, &[cable], || {
            format!("conductors come from a cable `{cable}` that does not exist")
        });
    }
}

/// The ids under the clamp or on the point at which an end lies; `None` where there is no such place.
fn listed_at<'a>(context: &Context<'a>, end: &WireEnd) -> Option<Vec<&'a str>> {
    match end {
        WireEnd::Core { cable, .. } => context.cables.get(cable.as_str()).map(|_| Vec::new()),
        WireEnd::Terminal {
            terminal,
            level,
            side,
        } => {
            let terminal = context.terminals.get(terminal.as_str())?;
            let mut clamps = terminal
                .clamps
                .iter()
                .filter(|clamp| clamp.level == *level && clamp.side == *side)
                .peekable();
            clamps.peek()?;
            Some(
                clamps
                    .flat_map(|clamp| &clamp.wires)
                    .map(String::as_str)
                    .collect(),
            )
        }
        WireEnd::Contact { element, point } => {
            let element = context.elements.get(element.as_str())?;
            let points = element.contacts.iter().flat_map(|contact| &contact.points);
            let mut points = points.filter(|known| known.name == *point).peekable();
            points.peek()?;
            Some(
                points
                    .flat_map(|known| &known.wires)
                    .map(String::as_str)
                    .collect(),
            )
        }
    }
}

fn words_of(end: &WireEnd) -> String {
    match end {
        WireEnd::Terminal {
            terminal,
            level,
            side,
        } => {
            format!(
                "the {} clamp of {terminal}, level {level}",
                side_word(*side)
            )
        }
        _ => end_name(end),
    }
}

fn wires(context: &Context<'_>, cases: &mut Cases) {
    // Every place that an end names must exist and list the conductor once.
    let mut ends: BTreeSet<(String, &str)> = BTreeSet::new();
    for wire in &context.arrangement.wires {
        for end in [&wire.from, &wire.to] {
            ends.insert((words_of(end), &wire.id));
            let listed = listed_at(context, end);
            let is_core = matches!(end, WireEnd::Core { .. });
            let times = listed
                .as_ref()
                .map(|ids| ids.iter().filter(|id| **id == wire.id).count());
            let holds = if is_core {
                times.is_some()
            } else {
                times == Some(1)
            };
            cases.is_so(holds, &[&wire.id], || match times {
                None => format!(
                    "{} ends at {}, which does not exist",
                    wire.id,
                    words_of(end)
                ),
                Some(_) if is_core => format!("{} comes from {}", wire.id, words_of(end)),
                Some(times) => format!(
                    "{} ends at {}, which lists it {times} times",
                    wire.id,
                    words_of(end)
                ),
            });
        }
    }
    // And every conductor that a place lists must end there.
    let mut listed = |place: String, id: &str| {
        if !ends.contains(&(place.clone(), id)) {
            cases.is_so(false, &[id], || {
                format!("{place} lists {id}, which does not end there")
            });
        }
    };
    for terminal in &context.arrangement.terminals {
        for clamp in &terminal.clamps {
            let end = WireEnd::Terminal {
                terminal: terminal.id.clone(),
                level: clamp.level,
                side: clamp.side,
            };
            for id in &clamp.wires {
                listed(words_of(&end), id);
            }
        }
    }
    for element in &context.arrangement.elements {
        for point in element.contacts.iter().flat_map(|contact| &contact.points) {
            let end = WireEnd::Contact {
                element: element.tag.clone(),
                point: point.name.clone(),
            };
            for id in &point.wires {
                listed(words_of(&end), id);
            }
        }
    }
}

/// The potentials recorded where an end lies.
fn potentials_at<'a>(context: &Context<'a>, end: &WireEnd) -> Vec<&'a str> {
    match end {
        WireEnd::Core { .. } => Vec::new(),
        WireEnd::Terminal {
            terminal, level, ..
        } => {
            let terminal = context.terminals.get(terminal.as_str());
            let part = terminal.and_then(|terminal| terminal.live.get(*level as usize));
            part.map(|part| part.potential.as_str())
                .into_iter()
                .collect()
        }
        WireEnd::Contact { element, point } => {
            let contacts = context
                .elements
                .get(element.as_str())
                .map(|element| &element.contacts);
            let points = contacts
                .into_iter()
                .flatten()
                .flat_map(|contact| &contact.points);
            let points = points.filter(|known| known.name == *point);
            points.map(|known| known.potential.as_str()).collect()
        }
    }
}

fn potentials(context: &Context<'_>, cases: &mut Cases) {
    for wire in &context.arrangement.wires {
        for end in [&wire.from, &wire.to] {
            for potential in potentials_at(context, end) {
                cases.is_so(potential == wire.potential, &[&wire.id], || {
                    format!(
                        "{} carries `{}`, {} carries `{potential}`",
                        wire.id,
                        wire.potential,
                        words_of(end)
                    )
                });
            }
        }
    }
    // The ends that the circuits name belong to one potential a group of connected metal.
    let graph = Graph::of(context);
    let mut of_group: BTreeMap<usize, &str> = BTreeMap::new();
    let mut claim = |end: &str, potential| {
        let Some(group) = graph.group(end) else {
            return;
        };
        let known = *of_group.entry(group).or_insert(potential);
        cases.is_so(known == potential, &[end], || {
            format!("{end} of `{potential}` is connected with `{known}`")
        });
    };
    claim(EARTH, EARTH);
    for circuit in &context.arrangement.circuits {
        for pole in &circuit.poles {
            for end in pole.from.iter().chain(&pole.to) {
                claim(end, &pole.potential);
            }
        }
    }
    for wire in &context.arrangement.wires {
        claim(&end_name(&wire.from), &wire.potential);
    }
}

fn circuits(context: &Context<'_>, cases: &mut Cases) {
    let graph = Graph::of(context);
    let mut ends: BTreeMap<&str, Vec<(&str, &str)>> = BTreeMap::new();
    for circuit in &context.arrangement.circuits {
        for pole in &circuit.poles {
            let list = ends.entry(&pole.potential).or_default();
            list.extend(
                pole.from
                    .iter()
                    .chain(&pole.to)
                    .map(|end| (circuit.tag.as_str(), end.as_str())),
            );
        }
    }
    for (potential, ends) in ends {
        let first = ends.first().copied();
        for (circuit, end) in &ends {
            let group = graph.group(end);
            let beginning = first.and_then(|(_, end)| graph.group(end));
            cases.is_so(
                group.is_some() && group == beginning,
                &[circuit, end],
                || match group {
                    None => format!("nothing is connected to {end} of {circuit}"),
                    Some(_) => {
                        let first = first.map_or("", |(_, end)| end);
                        let link = if group == beginning { "is" } else { "is not" };
                        format!("{end} of {circuit} {link} connected with {first} (`{potential}`)")
                    }
                },
            );
        }
    }
}

/// Whether a remark names an element and one of its points.
fn remark_names(remark: &str, tag: &str, point: &str) -> bool {
    let mut words = remark.split(|sign: char| !sign.is_alphanumeric());
    remark.contains(tag) && words.any(|word| word == point)
}

fn contact_points(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there are no contacts");
    for element in &context.arrangement.elements {
        for point in element.contacts.iter().flat_map(|contact| &contact.points) {
            let wired = !point.wires.is_empty();
            let mut remarks = context.arrangement.remarks.iter();
            let named =
                wired || remarks.any(|remark| remark_names(remark, &element.tag, &point.name));
            let name = format!("{}/{}", element.tag, point.name);
            cases.is_so(named, &[&name], || {
                let state = match (wired, named) {
                    (true, _) => "is wired",
                    (false, true) => "is reported as free",
                    (false, false) => "is neither wired nor reported as free",
                };
                format!("{name} {state}")
            });
        }
    }
}

fn spare_terminals(context: &Context<'_>, cases: &mut Cases) {
    let percent = context.arrangement.spare.terminals_percent;
    for strip in &context.arrangement.strips {
        let of_strip = context.arrangement.terminals.iter().filter(|terminal| {
            terminal.strip == strip.name && terminal.function != TerminalFunction::Earth
        });
        let (spare, used): (Vec<_>, Vec<_>) = of_strip.partition(|terminal| terminal.spare);
        // A spare terminal with a conductor under it is none.
        let free = spare
            .iter()
            .filter(|terminal| context.wires_at(terminal).is_empty())
            .count();
        let required = (used.len() as f64 * percent / 100.0 - SLACK)
            .ceil()
            .max(0.0);
        cases.at_least(&[&strip.name], free as f64, required, || {
            format!(
                "spare terminals of strip {} with {} used ones",
                strip.name,
                used.len()
            )
        });
    }
}

fn spare_entries(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no spare entries are asked for");
    for (thread, asked) in &context.arrangement.spare.entries {
        let entries = context.arrangement.entries.iter();
        let count = entries
            .filter(|entry| entry.purpose == EntryPurpose::Spare && entry.thread == *thread)
            .count();
        cases.at_least(
            &[&thread.to_string()],
            count as f64,
            f64::from(*asked),
            || format!("spare entries {thread}"),
        );
    }
}

fn earth(context: &Context<'_>, cases: &mut Cases) {
    let is_earth = |end: &WireEnd| match end {
        WireEnd::Terminal { terminal, .. } => context
            .terminals
            .get(terminal.as_str())
            .map(|terminal| terminal.function == TerminalFunction::Earth),
        _ => None,
    };
    let protects = |wire: &Wire| {
        let ends = [&wire.from, &wire.to].into_iter();
        let core = ends.filter_map(|end| match end {
            WireEnd::Core { core, .. } => Some(core.as_str()),
            _ => None,
        });
        wire.potential == EARTH
            || core
                .into_iter()
                .any(|core| core == "PE" || core == "screen")
    };
    for wire in &context.arrangement.wires {
        let ends = [is_earth(&wire.from), is_earth(&wire.to)];
        let on_earth = ends.contains(&Some(true));
        let elsewhere = ends.contains(&Some(false)) || matches!(wire.to, WireEnd::Contact { .. });
        if protects(wire) {
            cases.is_so(on_earth && !elsewhere, &[&wire.id], || {
                format!(
                    "{} of earth leads from {} to {}",
                    wire.id,
                    words_of(&wire.from),
                    words_of(&wire.to)
                )
            });
        } else if on_earth {
            cases.is_so(false, &[&wire.id], || {
                format!(
                    "{} with the potential `{}` is on an earth terminal",
                    wire.id, wire.potential
                )
            });
        }
    }
}

fn external_earth(context: &Context<'_>, cases: &mut Cases) {
    let enclosure = &context.arrangement.enclosure;
    cases.nothing("the enclosure is not of metal");
    if matches!(enclosure.material, Material::Grp | Material::Polyamide) {
        return;
    }
    let section_mm2 = enclosure.external_earth_mm2.unwrap_or(0.0);
    cases.at_least(&[&enclosure.id], section_mm2, EXTERNAL_BONDING_MM2, || {
        format!(
            "largest conductor of the external earth terminal of {}",
            enclosure.id
        )
    });
}

fn end_stops(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there are no terminals");
    for (rail, row) in &context.rows {
        if !row.iter().any(|item| matches!(item, RowItem::Terminal(_))) {
            continue;
        }
        for (item, end) in [(row.first(), "left"), (row.last(), "right")] {
            let Some(item) = item else { continue };
            cases.is_so(item.is(AccessoryKind::EndStop), &[rail, item.id()], || {
                format!("the row on {rail} ends with {} at the {end}", item.id())
            });
        }
    }
}

fn end_plates(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no terminal has an open side");
    for row in context.rows.values() {
        for (index, item) in row.iter().enumerate() {
            let RowItem::Terminal(terminal) = item else {
                continue;
            };
            if !terminal.open_side {
                continue;
            }
            let next = row
                .get(index + 1)
                .copied()
                .filter(|next| (next.body().min.x_mm - terminal.body.max.x_mm).abs() <= SLACK);
            let holds = next.is_some_and(|next| match next {
                RowItem::Terminal(other) => other.part == terminal.part,
                RowItem::Accessory(_) => next.is(AccessoryKind::EndPlate),
            });
            cases.is_so(holds, &[&terminal.id], || {
                let next = next.map_or("nothing", |next| next.id());
                format!(
                    "at the open side of {} ({}) directly follows {next}",
                    terminal.id, terminal.part
                )
            });
        }
    }
}

fn partitions(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no rail carries two strips");
    for row in context.rows.values() {
        let mut last: Option<&crate::arrangement::PlacedTerminal> = None;
        let mut parted = false;
        for item in row {
            match item {
                RowItem::Accessory(accessory) => {
                    parted |= accessory.kind == AccessoryKind::Partition
                }
                RowItem::Terminal(terminal) => {
                    if let Some(before) = last.filter(|before| before.strip != terminal.strip) {
                        cases.is_so(parted, &[&before.id, &terminal.id], || {
                            let state = if parted {
                                "a partition"
                            } else {
                                "no partition"
                            };
                            format!("{state} stands between {} and {}", before.id, terminal.id)
                        });
                    }
                    last = Some(terminal);
                    parted = false;
                }
            }
        }
    }
}

fn numbering(context: &Context<'_>, cases: &mut Cases) {
    let mut seen = BTreeSet::new();
    for terminal in &context.arrangement.terminals {
        let first = seen.insert((terminal.strip.as_str(), terminal.number));
        let named = terminal.id == format!("{}:{}", terminal.strip, terminal.number);
        cases.is_so(first && named, &[&terminal.id], || {
            let again = if first { "" } else { ", which occurs twice" };
            format!(
                "{} is number {} of strip {}{again}",
                terminal.id, terminal.number, terminal.strip
            )
        });
    }
}

fn marking(context: &Context<'_>, cases: &mut Cases) {
    for terminal in &context.arrangement.terminals {
        if !terminal.spare {
            cases.is_so(!terminal.marking.trim().is_empty(), &[&terminal.id], || {
                format!("{} is marked `{}`", terminal.id, terminal.marking)
            });
        }
        if let Some(strip) = context.strips.get(terminal.strip.as_str()) {
            cases.is_so(strip.kind == terminal.kind, &[&terminal.id], || {
                format!(
                    "{} is {}, strip {} {}",
                    terminal.id,
                    terminal.kind.words(),
                    strip.name,
                    strip.kind.words()
                )
            });
        }
    }
}

fn intrinsic_colour(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there is no intrinsically safe terminal for which a colour is known");
    for terminal in &context.arrangement.terminals {
        let safe = terminal.kind == crate::catalogue::CircuitKind::IntrinsicallySafe;
        if !safe || terminal.function == TerminalFunction::Earth || terminal.colour.is_empty() {
            continue;
        }
        let blue = matches!(
            terminal.colour.to_ascii_lowercase().as_str(),
            "light blue" | "blue"
        );
        cases.is_so(blue, &[&terminal.id], || {
            format!(
                "the intrinsically safe {} is {}",
                terminal.id, terminal.colour
            )
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_remark_names_whole_points_only() {
        assert!(remark_names(
            "contact 13-14 of `PB-1` is not wired",
            "PB-1",
            "13"
        ));
        assert!(!remark_names(
            "contact 13-14 of `PB-1` is not wired",
            "PB-1",
            "3"
        ));
        assert!(!remark_names(
            "contact 13-14 of `PB-1` is not wired",
            "PB-2",
            "13"
        ));
    }
}
