//! Cores, conductors and continuity: who is connected with whom.

use crate::arrangement::WireEnd;
use crate::audit::case::{Cases, Rule};
use crate::audit::context::{Context, EARTH};
use crate::audit::graph::{Graph, end_name, side_word};
use crate::standards::{Source, Status};
use std::collections::{BTreeMap, BTreeSet};

const WIRING: Source = Source::new(
    "IEC 60079-14",
    "2013",
    "cl. 9.6, connection of conductors, unused cores",
    Status::FromMemory,
);

/// The rules of this file.
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

pub(super) fn words_of(end: &WireEnd) -> String {
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
