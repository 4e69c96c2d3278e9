//! The lists and schedules of the set as tables of the page: the same rows, each tied to its part.

use super::markup::{Row, Table};
use crate::arrangement::Arrangement;
use crate::marking::LabelKind;
use crate::sheets::drawing::SubjectKey;
use crate::sheets::list::List;
use crate::sheets::{behind_lid, lists, notes, number, parts_list, subject, wiring};
use itertools::Itertools;

/// A list as the set has it: words over the columns, rows.
struct Shown {
    head: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl Shown {
    /// Takes a list of the set; a column's name becomes words.
    fn of(list: List) -> Self {
        let columns = list.columns.iter();
        Self {
            head: columns.map(|column| column_words(column.heading)).collect(),
            rows: list.rows,
        }
    }

    /// As a table, whose rows stand for what `subject` reads from their cells.
    fn table(
        self,
        id: &'static str,
        caption: &str,
        name_column: usize,
        subject: impl Fn(&[String]) -> Option<SubjectKey>,
    ) -> Table {
        Table {
            id,
            caption: caption.to_string(),
            head: self.head,
            rows: self
                .rows
                .into_iter()
                .map(|cells| Row {
                    subject: subject(&cells),
                    cells,
                })
                .collect(),
            name_column,
        }
    }
}

/// The name of a column in words: `lower_section_mm2` becomes `lower section, mm²`.
fn column_words(name: &str) -> String {
    const UNITS: [(&str, &str); 7] = [
        ("_mm2", "mm²"),
        ("_mm", "mm"),
        ("_nm", "N m"),
        ("_kg", "kg"),
        ("_percent", "%"),
        ("_a", "A"),
        ("_w", "W"),
    ];
    for (ending, unit) in UNITS {
        if let Some(rest) = name.strip_suffix(ending) {
            return format!("{}, {unit}", rest.replace('_', " "));
        }
    }
    name.replace('_', " ")
}

/// The parts list.
pub(super) fn parts(arrangement: &Arrangement) -> Table {
    Shown::of(parts_list::list(arrangement)).table("parts", "Parts", 1, |_| None)
}

/// The terminal schedule; strip and number become the name of the terminal.
pub(super) fn terminals(arrangement: &Arrangement) -> Table {
    let mut list = Shown::of(wiring::terminals(arrangement));
    list.head.splice(0..2, ["terminal".to_string()]);
    for row in &mut list.rows {
        let name = row.iter().take(2).join(":");
        row.splice(0..2, [name]);
    }
    // Where every terminal has one level only, its number says nothing.
    if list
        .rows
        .iter()
        .all(|row| row.get(1).is_some_and(|level| level == "0"))
    {
        for row in &mut list.rows {
            row[1].clear();
        }
    }
    list.table("terminals", "Terminal schedule", 0, |cells| {
        cells.first().map(|id| subject::terminal(id))
    })
}

/// The cable and gland schedule, a row for each entry.
pub(super) fn cables(arrangement: &Arrangement) -> Table {
    const ENTRY: usize = 7;
    Shown::of(wiring::cables(arrangement)).table(
        "cables",
        "Cable and gland schedule",
        ENTRY,
        |cells| cells.get(ENTRY).map(|id| subject::entry(id)),
    )
}

/// The drilling list.
pub(super) fn drilling(arrangement: &Arrangement) -> Table {
    Shown::of(lists::drilling(arrangement)).table("drilling", "Drilling list", 1, |cells| {
        let name = cells.get(1)?;
        Some(match cells.first()?.as_str() {
            "lid" => subject::element(name),
            _ => subject::entry(name),
        })
    })
}

/// The label list.
pub(super) fn labels(arrangement: &Arrangement) -> Table {
    let is_on = |kind: &str, kinds: &[LabelKind]| kinds.iter().any(|known| known.words() == kind);
    Shown::of(lists::labels(arrangement)).table("labels", "Labels", 1, |cells| {
        let (kind, place) = (cells.first()?, cells.get(1)?);
        if is_on(kind, &[LabelKind::Element, LabelKind::ElementTag]) {
            Some(subject::element(place))
        } else if is_on(
            kind,
            &[LabelKind::TerminalNumber, LabelKind::TerminalMarking],
        ) {
            Some(subject::terminal(place))
        } else {
            is_on(kind, &[LabelKind::Cable]).then(|| subject::entry(place))
        }
    })
}

/// What the workshop is told.
pub(super) fn notes(arrangement: &Arrangement) -> Table {
    Shown::of(notes::list(arrangement)).table("notes", "Workshop notes", 1, |_| None)
}

/// The spare capacity.
pub(super) fn spare(arrangement: &Arrangement) -> Table {
    Shown::of(lists::spare(arrangement)).table("spare", "Spare capacity", 0, |_| None)
}

/// Every circuit with its poles.
pub(super) fn circuits(arrangement: &Arrangement) -> Table {
    let rows = arrangement.circuits.iter().map(|circuit| {
        let poles = circuit.poles.iter().map(|pole| {
            let ends = pole.from.iter().chain(&pole.to).join(" – ");
            format!("{}: {ends}", pole.marking)
        });
        Row {
            subject: Some(subject::circuit(&circuit.tag)),
            cells: vec![
                circuit.tag.clone(),
                circuit.group.replace('_', " "),
                circuit.kind.words().to_string(),
                number(circuit.voltage_v, 1),
                number(circuit.current_a, 3),
                number(circuit.simultaneity, 3),
                poles.into_iter().join("; "),
            ],
        }
    });
    let head = [
        "circuit",
        "group",
        "kind",
        "voltage, V",
        "current, A",
        "simultaneity",
        "poles",
    ];
    Table::new("circuits", "Circuits", &head, rows.collect())
}

/// Every point of the operating elements with the conductors on it.
pub(super) fn contacts(arrangement: &Arrangement) -> Table {
    let list = Shown::of(behind_lid::contacts(arrangement));
    list.table("contacts", "Contacts of the elements", 0, |cells| {
        cells.first().map(|tag| subject::element(tag))
    })
}

/// The wires that are laid in the box.
pub(super) fn wires(arrangement: &Arrangement) -> Table {
    Shown::of(behind_lid::wires(arrangement)).table("wires", "Internal wires", 0, |_| None)
}

#[cfg(test)]
mod tests {
    use super::column_words;

    #[test]
    fn names_of_columns_become_words_with_their_unit() {
        assert_eq!(column_words("lower_section_mm2"), "lower section, mm²");
        assert_eq!(column_words("torque_nm"), "torque, N m");
        assert_eq!(column_words("thread_or_size"), "thread or size");
    }
}
