//! What a fitter has at hand and an assessor looks up on paper, as tables: parts with their certificates, what stands
//! on the rails, cables with their glands, torques and stripping lengths, labels.

use super::clamping::{given, torque_words};
use super::drawing::{Column, Table};
use super::number;
use super::parts_list::{certificates, part_lines, wires};
use super::tables::{entries_in_order, purpose_words, thread_words, without_empty_columns};
use crate::arrangement::{Arrangement, CableRecord, EntryPurpose, PlacedEntry};
use crate::marking::LabelKind;
use std::collections::BTreeMap;

/// Kinds of labels that are as many as terminals, cables and elements: the sheets of the terminals have the texts of
/// theirs, and cables and elements have their tags.
const TOLD_ELSEWHERE: [LabelKind; 4] = [
    LabelKind::TerminalNumber,
    LabelKind::TerminalMarking,
    LabelKind::Cable,
    LabelKind::ElementTag,
];

/// The tables, in the order in which they are used.
pub(super) fn tables(arrangement: &Arrangement) -> Vec<Table> {
    [
        parts(arrangement),
        super::rail_order::table(arrangement),
        cables(arrangement),
        clamps(arrangement),
        super::notes::for_fitting(arrangement),
        labels(arrangement),
    ]
    .map(without_empty_columns)
    .to_vec()
}

/// A number, or a dash where it is not known.
fn known(value: Option<f64>) -> String {
    value.map_or("–".into(), |value| number(value, 2))
}

/// A range of lengths.
fn range_words([least, most]: [f64; 2]) -> String {
    format!("{} – {}", number(least, 2), number(most, 2))
}

fn parts(arrangement: &Arrangement) -> Table {
    let certificates = certificates(arrangement);
    let mut rows: Vec<Vec<String>> = part_lines(arrangement)
        .into_iter()
        .map(|line| {
            let certificate = certificates.get(line.id.as_str());
            vec![
                line.quantity.to_string(),
                line.id.clone(),
                line.description.clone(),
                certificate.map_or("–".into(), |number| (*number).to_string()),
            ]
        })
        .collect();
    rows.extend(
        wires(arrangement)
            .into_iter()
            .map(|(count, words)| vec![count.to_string(), "–".into(), words, "–".into()]),
    );
    Table {
        name: "parts".into(),
        title: "Parts, in the order in which they are put together".into(),
        columns: vec![
            Column::numbers("Quantity"),
            Column::words("Part"),
            Column::sentences("Description"),
            Column::words("Certificate"),
        ],
        rows,
    }
}

/// Entries with cable, gland and what it is tightened with.
fn cables(arrangement: &Arrangement) -> Table {
    let cable_of = |entry: &PlacedEntry| -> Option<&CableRecord> {
        match &entry.purpose {
            EntryPurpose::Cable(tag) => arrangement.cables.iter().find(|cable| cable.tag == *tag),
            EntryPurpose::Spare | EntryPurpose::Breather => None,
        }
    };
    let diameter = |cable: &CableRecord| {
        let estimated = if cable.diameter_estimated {
            " (estimated)"
        } else {
            ""
        };
        format!("{}{estimated}", number(cable.diameter_mm, 2))
    };
    let rows = entries_in_order(arrangement)
        .into_iter()
        .map(|entry| {
            let (cable, part) = (cable_of(entry), &entry.part);
            vec![
                entry.id.clone(),
                purpose_words(&entry.purpose),
                cable.map_or("–".into(), |cable| cable.cores.clone()),
                cable.map_or("–".into(), diameter),
                thread_words(&entry.thread),
                part.id.clone(),
                part.clamping_mm.map_or("–".into(), range_words),
                known(part.spanner_mm),
                given(part.torque_nm),
                armour_words(entry, cable),
            ]
        })
        .collect();
    Table {
        name: "cables".into(),
        title: "Cables, glands and plugs (mm; – where the catalogue gives none)".into(),
        columns: vec![
            Column::words("Entry"),
            Column::sentences("Cable"),
            Column::words("Cores"),
            Column::sentences("Ø cable"),
            Column::words("Thread"),
            Column::words("Part"),
            Column::words("Clamps Ø"),
            Column::numbers("Spanner"),
            Column::numbers("Body in wall N m"),
            Column::sentences("Armour, earth plate"),
        ],
        rows,
    }
}

/// Diameters under the armour, those that the gland clamps, and the earth plate; a dash where there is none of it.
fn armour_words(entry: &PlacedEntry, cable: Option<&CableRecord>) -> String {
    let under = cable.and_then(|cable| cable.under_armour_mm);
    let clamped = entry.part.under_armour_mm;
    let words = [
        under.map(|range| format!("Ø {} under the armour", range_words(range))),
        clamped.map(|range| format!("clamped Ø {}", range_words(range))),
        entry.earth_plate.as_ref().map(|plate| plate.id.clone()),
    ];
    let words: Vec<String> = words.into_iter().flatten().collect();
    if words.is_empty() {
        "–".into()
    } else {
        words.join("; ")
    }
}

/// Torque and stripping length by part: those of a terminal's clamps.
fn clamps(arrangement: &Arrangement) -> Table {
    let mut found: BTreeMap<&str, (usize, [String; 2])> = BTreeMap::new();
    for terminal in &arrangement.terminals {
        let torque = torque_words(terminal.spring_clamp, terminal.torque_nm);
        let figures = [torque, given(terminal.strip_mm)];
        found.entry(&terminal.part).or_insert((0, figures)).0 += 1;
    }
    let rows = found
        .into_iter()
        .map(|(part, (count, [torque, strip]))| {
            vec![part.to_string(), count.to_string(), torque, strip]
        })
        .collect();
    Table {
        name: "clamps".into(),
        title: "Clamps of the terminals".into(),
        columns: vec![
            Column::words("Part"),
            Column::numbers("Quantity"),
            Column::sentences("Torque of the clamps N m"),
            Column::sentences("Strip mm"),
        ],
        rows,
    }
}

fn labels(arrangement: &Arrangement) -> Table {
    let rows = super::lists::labels(arrangement)
        .rows
        .into_iter()
        .filter(|row| {
            let kind = row.first().map(String::as_str).unwrap_or_default();
            TOLD_ELSEWHERE.iter().all(|known| known.words() != kind)
        })
        .map(|mut row| {
            // Why a label is there stands in the list and in the marking.
            row.truncate(4);
            row
        })
        .collect();
    Table {
        name: "labels".into(),
        title: "Labels (besides: those of the terminals on their sheets, a tag on each cable and element)"
            .into(),
        columns: vec![
            Column::words("What"),
            Column::sentences("Place"),
            Column::sentences("Text"),
            Column::words("Colour"),
        ],
        rows,
    }
}
