//! What the page tells of a part, and which parts go together: terminal, core, cable, entry, circuit and
//! contact, as the arrangement's conductors join them.

use super::markup::key_text;
use crate::arrangement::{
    Arrangement, EntryPurpose, PlacedElement, PlacedEntry, PlacedTerminal, Side, Wire, WireEnd,
};
use crate::sheets::behind_lid::positions_words;
use crate::sheets::clamping::torque_words;
use crate::sheets::drawing::SubjectKey;
use crate::sheets::wiring::{end_words, far_end};
use crate::sheets::{number, subject, tables, tenth};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// What is known of one part, cable or circuit.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub(super) struct About {
    /// Words for the reader.
    pub title: String,
    /// Terms with what they are.
    pub data: Vec<(&'static str, String)>,
    /// What it goes directly with, by key.
    pub links: BTreeSet<String>,
}

/// Everything that can be asked for, by key.
pub(super) type Links = BTreeMap<String, About>;

/// Collects data and links of an arrangement.
pub(super) fn links(arrangement: &Arrangement) -> Links {
    let mut links = Links::new();
    for terminal in &arrangement.terminals {
        let key = subject::terminal(&terminal.id);
        add(
            &mut links,
            &key,
            "Terminal",
            terminal_data(arrangement, terminal),
        );
    }
    for entry in &arrangement.entries {
        add(
            &mut links,
            &subject::entry(&entry.id),
            "Entry",
            entry_data(entry),
        );
    }
    for element in &arrangement.elements {
        let key = subject::element(&element.tag);
        add(
            &mut links,
            &key,
            "Element",
            element_data(arrangement, element),
        );
    }
    cables_and_circuits(arrangement, &mut links);
    on_rails(arrangement, &mut links);
    for wire in &arrangement.wires {
        let mut joined = vec![end_key(&wire.from), end_key(&wire.to)];
        if !wire.circuit.is_empty() {
            joined.push(subject::circuit(&wire.circuit));
        }
        for (index, one) in joined.iter().enumerate() {
            for other in &joined[index + 1..] {
                join(&mut links, one, other);
            }
        }
    }
    for entry in &arrangement.entries {
        if let EntryPurpose::Cable(tag) = &entry.purpose {
            join(&mut links, &subject::entry(&entry.id), &subject::cable(tag));
        }
    }
    links
}

fn add(links: &mut Links, key: &SubjectKey, kind: &str, data: Vec<(&'static str, String)>) {
    let about = About {
        title: format!("{kind} {}", key.name),
        data: data
            .into_iter()
            .filter(|(_, words)| !words.is_empty())
            .collect(),
        links: BTreeSet::new(),
    };
    links.insert(key_text(key), about);
}

/// Joins two that are both there; a name that nothing bears leads nowhere.
fn join(links: &mut Links, one: &SubjectKey, other: &SubjectKey) {
    let (one, other) = (key_text(one), key_text(other));
    if one == other || !links.contains_key(&one) || !links.contains_key(&other) {
        return;
    }
    for (from, to) in [(&one, &other), (&other, &one)] {
        if let Some(about) = links.get_mut(from) {
            about.links.insert(to.clone());
        }
    }
}

fn end_key(end: &WireEnd) -> SubjectKey {
    match end {
        WireEnd::Core { cable, .. } => subject::cable(cable),
        WireEnd::Terminal { terminal, .. } => subject::terminal(terminal),
        WireEnd::Contact { element, .. } => subject::element(element),
    }
}

fn terminal_data(
    arrangement: &Arrangement,
    terminal: &PlacedTerminal,
) -> Vec<(&'static str, String)> {
    let mut data = vec![
        ("Marking", terminal.marking.clone()),
        ("Part", terminal.part.clone()),
        ("Description", terminal.description.clone()),
        ("Function", terminal.function.words().to_string()),
        ("Circuits", terminal.kind.words().to_string()),
        ("Rail", terminal.rail.clone()),
    ];
    if terminal.spare {
        data.push(("Use", "spare".into()));
    }
    for clamp in &terminal.clamps {
        let term = match clamp.side {
            Side::Upper => "Upper clamp",
            Side::Lower => "Lower clamp",
        };
        for wire in wires_of(arrangement, &clamp.wires) {
            let far = far_end(wire, &terminal.id, clamp.level, clamp.side);
            data.push((term, conductor_words(&far, wire)));
        }
    }
    if terminal.current_a > 0.0 {
        data.push(("Current", format!("{} A", number(terminal.current_a, 3))));
    }
    if terminal.working_voltage_v > 0.0 {
        let words = format!(
            "{} V, rated {} V",
            number(terminal.working_voltage_v, 1),
            number(terminal.rated_voltage_v, 1)
        );
        data.push(("Voltage", words));
    }
    let torque = torque_words(terminal.spring_clamp, terminal.torque_nm);
    data.push(("Torque of clamps, N m", torque));
    data.push(("Stripping length", optional(terminal.strip_mm, "mm")));
    data
}

/// Where a conductor leads, with its section, current and circuit.
fn conductor_words(far: &str, wire: &Wire) -> String {
    let mut words = format!("{far}, {}", wire.section);
    if wire.current_a > 0.0 {
        words.push_str(&format!(", {} A", number(wire.current_a, 3)));
    }
    if !wire.circuit.is_empty() {
        words.push_str(&format!(", circuit {}", wire.circuit));
    }
    words
}

fn wires_of<'a>(arrangement: &'a Arrangement, ids: &'a [String]) -> impl Iterator<Item = &'a Wire> {
    ids.iter()
        .filter_map(|id| arrangement.wires.iter().find(|wire| wire.id == *id))
}

fn entry_data(entry: &PlacedEntry) -> Vec<(&'static str, String)> {
    let part = &entry.part;
    let range = |range: [f64; 2]| format!("{} to {} mm", number(range[0], 2), number(range[1], 2));
    vec![
        ("For", tables::purpose_words(&entry.purpose)),
        ("Wall", entry.wall.name().to_string()),
        (
            "Position",
            format!("u {}, v {} mm", tenth(entry.u_mm), tenth(entry.v_mm)),
        ),
        ("Thread", tables::thread_words(&entry.thread)),
        ("Hole", format!("{} mm", number(entry.hole_mm, 2))),
        ("Part", part.id.clone()),
        ("Description", part.description.clone()),
        ("Clamps", part.clamping_mm.map(range).unwrap_or_default()),
        (
            "Under armour",
            part.under_armour_mm.map(range).unwrap_or_default(),
        ),
        ("Torque in wall", optional(part.torque_nm, "N m")),
        (
            "Earth plate",
            entry
                .earth_plate
                .as_ref()
                .map(|plate| plate.id.clone())
                .unwrap_or_default(),
        ),
    ]
}

fn element_data(arrangement: &Arrangement, element: &PlacedElement) -> Vec<(&'static str, String)> {
    let mut data = vec![
        ("Kind", element.kind.words().to_string()),
        ("Function", element.function.clone()),
        ("Label", element.label.clone()),
        ("Colour", element.colour.clone()),
        ("Positions", positions_words(element)),
        (
            "Position",
            format!("x {}, y {} mm", tenth(element.x_mm), tenth(element.y_mm)),
        ),
        (
            "Hole",
            format!("{} mm", tables::hole_words(element.hole_mm)),
        ),
        ("Part", element.part.clone()),
        ("Description", element.description.clone()),
    ];
    for point in element.contacts.iter().flat_map(|contact| &contact.points) {
        for wire in wires_of(arrangement, &point.wires) {
            let is_here = matches!(&wire.from, WireEnd::Contact { element: tag, point: name }
                if *tag == element.tag && *name == point.name);
            let far = end_words(if is_here { &wire.to } else { &wire.from });
            let words = format!("{}: {}", point.name, conductor_words(&far, wire));
            data.push(("Point", words));
        }
    }
    data
}

fn cables_and_circuits(arrangement: &Arrangement, links: &mut Links) {
    for cable in &arrangement.cables {
        let estimated = if cable.diameter_estimated {
            ", estimated"
        } else {
            ""
        };
        let [least, most] = cable.diameter_range_mm;
        let yes = |is: bool| if is { "yes" } else { "no" }.to_string();
        let data = vec![
            ("Cores", cable.cores.clone()),
            ("Circuits", cable.kind.words().to_string()),
            (
                "Diameter",
                format!(
                    "{} mm ({} to {} mm{estimated})",
                    number(cable.diameter_mm, 2),
                    number(least, 2),
                    number(most, 2)
                ),
            ),
            ("Armoured", yes(cable.armoured)),
            (
                "Under armour",
                cable
                    .under_armour_mm
                    .map_or(String::new(), |[least, most]| {
                        format!("{} to {} mm", number(least, 2), number(most, 2))
                    }),
            ),
            ("Screened", yes(cable.screened)),
            ("Entry", cable.entry.clone()),
        ];
        add(links, &subject::cable(&cable.tag), "Cable", data);
    }
    for circuit in &arrangement.circuits {
        let mut data = vec![
            ("Group", circuit.group.replace('_', " ")),
            ("Kind", circuit.kind.words().to_string()),
            ("Voltage", format!("{} V", number(circuit.voltage_v, 1))),
            ("Current", format!("{} A", number(circuit.current_a, 3))),
            ("Simultaneity", number(circuit.simultaneity, 3)),
        ];
        for pole in &circuit.poles {
            let mut ends: Vec<&str> = pole.from.iter().map(String::as_str).collect();
            ends.extend(pole.to.iter().map(String::as_str));
            data.push(("Pole", format!("{}: {}", pole.marking, ends.join(" – "))));
        }
        add(links, &subject::circuit(&circuit.tag), "Circuit", data);
    }
}

/// Rails, what else stands on them, and jumpers, which go with the terminals they link.
fn on_rails(arrangement: &Arrangement, links: &mut Links) {
    for rail in &arrangement.rails {
        let data = vec![
            ("Profile", rail.profile.clone()),
            ("Cut length", format!("{} mm", tenth(rail.length_mm))),
            ("Part", rail.part.clone()),
        ];
        add(links, &subject::rail(&rail.id), "Rail", data);
    }
    for part in &arrangement.accessories {
        let data = vec![
            ("Part", part.part.clone()),
            ("Description", part.description.clone()),
            ("Rail", part.rail.clone()),
        ];
        add(links, &subject::accessory(&part.id), "Accessory", data);
    }
    for jumper in &arrangement.jumpers {
        let key = subject::jumper(&jumper.id);
        let data = vec![
            ("Part", jumper.part.clone()),
            ("Description", jumper.description.clone()),
            ("Terminals", jumper.terminals.join(", ")),
            ("Current", format!("{} A", number(jumper.current_a, 3))),
        ];
        add(links, &key, "Jumper", data);
        for terminal in &jumper.terminals {
            join(links, &key, &subject::terminal(terminal));
        }
    }
}

/// A figure with its unit, or nothing where it is unknown.
fn optional(value: Option<f64>, unit: &str) -> String {
    value
        .map(|value| format!("{} {unit}", number(value, 2)))
        .unwrap_or_default()
}
