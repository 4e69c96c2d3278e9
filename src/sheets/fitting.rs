//! What a fitter has at hand and an assessor looks up on paper, as tables: parts with their certificates,
//! cables with their glands, torques and stripping lengths, labels.

use super::drawing::{Column, Table};
use super::number;
use super::parts_list::part_lines;
use super::tables::{entries_in_order, purpose_words, thread_words};
use crate::arrangement::{Arrangement, CableRecord, EntryPurpose, PlacedEntry};
use crate::catalogue::Certificate;
use std::collections::BTreeMap;

/// Kinds of labels that are as many as the terminals; the sheets of the terminals have them.
const ON_TERMINALS: [&str; 2] = ["terminal number", "terminal marking"];

/// The tables, in the order in which they are used.
pub(super) fn tables(arrangement: &Arrangement) -> Vec<Table> {
    [
        parts(arrangement),
        cables(arrangement),
        clamps(arrangement),
        labels(arrangement),
    ]
    .map(without_empty_columns)
    .to_vec()
}

/// The table without columns that say nothing.
fn without_empty_columns(table: Table) -> Table {
    let says = |index: &usize| {
        let mut cells = table.rows.iter().filter_map(|row| row.get(*index));
        cells.any(|cell| !cell.is_empty() && cell != "–")
    };
    let kept: Vec<usize> = (0..table.columns.len()).filter(says).collect();
    let rows = table.rows.iter().map(|row| {
        let cells = kept.iter().filter_map(|index| row.get(*index).cloned());
        cells.collect()
    });
    Table {
        rows: rows.collect(),
        columns: kept
            .iter()
            .filter_map(|index| table.columns.get(*index).cloned())
            .collect(),
        ..table
    }
}

/// A number, or a dash where it is not known.
fn known(value: Option<f64>) -> String {
    value.map_or("–".into(), |value| number(value, 2))
}

/// The number of every part's certificate by the part's id; parts without one are missing.
fn certificates(arrangement: &Arrangement) -> BTreeMap<&str, &str> {
    let enclosure = &arrangement.enclosure;
    let mut all: Vec<(&str, &Certificate)> = vec![(&enclosure.id, &enclosure.certificate)];
    let terminals = arrangement.terminals.iter();
    all.extend(terminals.map(|part| (part.part.as_str(), &part.certificate)));
    let accessories = arrangement.accessories.iter();
    all.extend(accessories.map(|part| (part.part.as_str(), &part.certificate)));
    let jumpers = arrangement.jumpers.iter();
    all.extend(jumpers.map(|part| (part.part.as_str(), &part.certificate)));
    let entries = arrangement.entries.iter();
    all.extend(entries.map(|entry| (entry.part.id.as_str(), &entry.part.certificate)));
    for element in &arrangement.elements {
        all.push((&element.part, &element.certificate));
        let contacts = element.contacts.iter();
        all.extend(contacts.filter_map(|own| Some((own.part.as_deref()?, &own.certificate))));
    }
    all.into_iter()
        .filter_map(|(id, certificate)| Some((id, certificate.number.as_deref()?)))
        .collect()
}

fn parts(arrangement: &Arrangement) -> Table {
    let certificates = certificates(arrangement);
    let rows = part_lines(arrangement)
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
            let range = part.clamping_mm.map_or("–".into(), |[least, most]| {
                format!("{} – {}", number(least, 2), number(most, 2))
            });
            let plate = entry.earth_plate.as_ref();
            vec![
                entry.id.clone(),
                purpose_words(&entry.purpose),
                cable.map_or("–".into(), |cable| cable.cores.clone()),
                cable.map_or("–".into(), diameter),
                thread_words(&entry.thread),
                part.id.clone(),
                range,
                known(part.spanner_mm),
                known(part.torque_nm),
                plate.map_or("–".into(), |plate| plate.id.clone()),
            ]
        })
        .collect();
    Table {
        name: "cables".into(),
        title: "Cables, glands and plugs (diameters and spanners in mm)".into(),
        columns: vec![
            Column::words("Entry"),
            Column::sentences("Cable"),
            Column::sentences("Cores"),
            Column::sentences("Ø cable"),
            Column::words("Thread"),
            Column::sentences("Part"),
            Column::sentences("Clamps Ø"),
            Column::numbers("Spanner"),
            Column::numbers("N m"),
            Column::sentences("Earth plate"),
        ],
        rows,
    }
}

/// Torque and stripping length by part: those of a terminal's clamps.
fn clamps(arrangement: &Arrangement) -> Table {
    let mut found: BTreeMap<&str, (usize, [String; 2])> = BTreeMap::new();
    for terminal in &arrangement.terminals {
        let figures = [known(terminal.torque_nm), known(terminal.strip_mm)];
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
            Column::numbers("Torque N m"),
            Column::numbers("Strip mm"),
        ],
        rows,
    }
}

fn labels(arrangement: &Arrangement) -> Table {
    let rows = super::lists::labels(arrangement)
        .rows
        .into_iter()
        .filter(|row| {
            row.first()
                .is_some_and(|kind| !ON_TERMINALS.contains(&kind.as_str()))
        })
        .collect();
    Table {
        name: "labels".into(),
        title: "Labels (numbers and markings of the terminals: see their sheets)".into(),
        columns: vec![
            Column::words("What"),
            Column::sentences("Place"),
            Column::sentences("Text"),
            Column::words("Colour"),
        ],
        rows,
    }
}
