//! Format, names, references and totals.

use crate::arrangement::{CAUTION, EntryPurpose, FORMAT};
use crate::audit::case::{Cases, Rule, SLACK, figure_text};
use crate::audit::context::Context;
use crate::standards::{Source, Status};
use std::collections::BTreeMap;

pub(super) const RECORD: Source = Source::new(
    "docs/arrangement.md",
    "",
    "arrangement file",
    Status::CommonPractice,
);

/// By what share a recorded total may differ from the sum of the parts: room for rounding.
const TOTAL_SHARE: f64 = 0.001;

/// What rounding of a total to hundredths may add.
const TOTAL_ROUNDING: f64 = 0.005;

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "record.format",
        title: "format and caution",
        requires: "the file names the format that this program knows and the catalogue of its parts, and carries the caution",
        source: RECORD,
        unit: "",
        check: format_and_caution,
    },
    Rule {
        id: "record.identities",
        title: "names that occur once",
        requires: "no two parts have the same id, and no two cables, elements, circuits, strips or conductors the same name",
        source: RECORD,
        unit: "",
        check: identities,
    },
    Rule {
        id: "record.references",
        title: "names that exist",
        requires: "every rail, strip, terminal, circuit and entry that a part or conductor names exists",
        source: RECORD,
        unit: "",
        check: references,
    },
    Rule {
        id: "record.totals",
        title: "mass and price",
        requires: "the totals of mass and price are the sums of enclosure and contents within 0.1 %",
        source: RECORD,
        unit: "",
        check: totals,
    },
];

fn format_and_caution(context: &Context<'_>, cases: &mut Cases) {
    let arrangement = context.arrangement;
    cases.is_so(arrangement.format == FORMAT, &["file"], || {
        format!(
            "the format is `{}`, known is `{FORMAT}`",
            arrangement.format
        )
    });
    cases.is_so(arrangement.caution == CAUTION, &["file"], || {
        format!("the caution reads `{}`", arrangement.caution)
    });
    let names_catalogue = !arrangement.catalogue.trim().is_empty();
    cases.is_so(names_catalogue, &["file"], || {
        if names_catalogue {
            format!("the parts are of the catalogue `{}`", arrangement.catalogue)
        } else {
            "the file names no catalogue from which its parts are".to_string()
        }
    });
}

fn identities(context: &Context<'_>, cases: &mut Cases) {
    let arrangement = context.arrangement;
    let mut unique = |what: &str, names: Vec<&str>| {
        let mut counts: BTreeMap<&str, u32> = BTreeMap::new();
        for name in names {
            *counts.entry(name).or_insert(0) += 1;
        }
        for (name, count) in counts {
            cases.is_so(count == 1 && !name.is_empty(), &[name], || match count {
                1 => format!("the {what} `{name}` occurs once"),
                _ => format!("the {what} `{name}` occurs {count} times"),
            });
        }
    };
    let mut parts: Vec<&str> = Vec::new();
    parts.extend(arrangement.rails.iter().map(|part| part.id.as_str()));
    parts.extend(arrangement.terminals.iter().map(|part| part.id.as_str()));
    parts.extend(arrangement.accessories.iter().map(|part| part.id.as_str()));
    parts.extend(arrangement.jumpers.iter().map(|part| part.id.as_str()));
    parts.extend(arrangement.entries.iter().map(|part| part.id.as_str()));
    unique("part", parts);
    unique(
        "strip",
        arrangement
            .strips
            .iter()
            .map(|part| part.name.as_str())
            .collect(),
    );
    unique(
        "conductor",
        arrangement
            .wires
            .iter()
            .map(|part| part.id.as_str())
            .collect(),
    );
    unique(
        "circuit",
        arrangement
            .circuits
            .iter()
            .map(|part| part.tag.as_str())
            .collect(),
    );
    let cables = arrangement.cables.iter().map(|part| part.tag.as_str());
    let elements = arrangement.elements.iter().map(|part| part.tag.as_str());
    unique("tag", cables.chain(elements).collect());
}

fn references(context: &Context<'_>, cases: &mut Cases) {
    let arrangement = context.arrangement;
    let mut exists = |known: bool, subject: &str, what: &str, name: &str| {
        cases.is_so(known, &[subject], || {
            format!(
                "{subject} names the {what} `{name}`{}",
                if known { "" } else { ", which does not exist" }
            )
        });
    };
    for terminal in &arrangement.terminals {
        exists(
            context.rails.contains_key(terminal.rail.as_str()),
            &terminal.id,
            "rail",
            &terminal.rail,
        );
        exists(
            context.strips.contains_key(terminal.strip.as_str()),
            &terminal.id,
            "strip",
            &terminal.strip,
        );
    }
    for accessory in &arrangement.accessories {
        exists(
            context.rails.contains_key(accessory.rail.as_str()),
            &accessory.id,
            "rail",
            &accessory.rail,
        );
    }
    for jumper in &arrangement.jumpers {
        for terminal in &jumper.terminals {
            exists(
                context.terminals.contains_key(terminal.as_str()),
                &jumper.id,
                "terminal",
                terminal,
            );
        }
    }
    for cable in &arrangement.cables {
        exists(
            context.entries.contains_key(cable.entry.as_str()),
            &cable.tag,
            "entry",
            &cable.entry,
        );
    }
    for entry in &arrangement.entries {
        if let EntryPurpose::Cable(tag) = &entry.purpose {
            exists(
                context.cables.contains_key(tag.as_str()),
                &entry.id,
                "cable",
                tag,
            );
        }
    }
    for wire in arrangement
        .wires
        .iter()
        .filter(|wire| !wire.circuit.is_empty())
    {
        exists(
            context.circuits.contains_key(wire.circuit.as_str()),
            &wire.id,
            "circuit",
            &wire.circuit,
        );
    }
}

fn totals(context: &Context<'_>, cases: &mut Cases) {
    let arrangement = context.arrangement;
    let mut parts = vec![(arrangement.enclosure.mass_kg, arrangement.enclosure.price)];
    parts.extend(
        arrangement
            .rails
            .iter()
            .map(|part| (part.mass_kg, part.price)),
    );
    parts.extend(
        arrangement
            .terminals
            .iter()
            .map(|part| (part.mass_kg, part.price)),
    );
    parts.extend(
        arrangement
            .accessories
            .iter()
            .map(|part| (part.mass_kg, part.price)),
    );
    parts.extend(
        arrangement
            .jumpers
            .iter()
            .map(|part| (part.mass_kg, part.price)),
    );
    for entry in &arrangement.entries {
        parts.push((entry.part.mass_kg, entry.part.price));
        parts.extend(
            entry
                .earth_plate
                .iter()
                .map(|plate| (plate.mass_kg, plate.price)),
        );
    }
    for element in &arrangement.elements {
        parts.push((element.mass_kg, element.price));
        parts.extend(
            element
                .contacts
                .iter()
                .map(|contact| (contact.mass_kg, contact.price)),
        );
    }
    let mass_kg: f64 = parts.iter().map(|part| part.0).sum();
    let price: f64 = parts.iter().map(|part| part.1).sum();
    for (what, recorded, found) in [
        ("mass in kg", arrangement.mass_kg, mass_kg),
        ("price", arrangement.price, price),
    ] {
        let allowed = found.abs() * TOTAL_SHARE + TOTAL_ROUNDING + SLACK;
        let holds = found.is_finite() && (recorded - found).abs() <= allowed;
        cases.is_so(holds, &["total"], || {
            format!(
                "{what}: {} recorded, the parts give {}",
                figure_text(recorded),
                figure_text(found)
            )
        });
    }
}
