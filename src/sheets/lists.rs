//! Lists for single trades as CSV: what is drilled, what is engraved or printed, what is left spare.

use super::list::List;
use super::number::position;
use super::{fixed, number, tables};
use crate::arrangement::{Arrangement, EntryPurpose};
use std::collections::BTreeMap;

/// The drilling list: a line for each hole in walls and lid. Positions are those of the drawings, in mm
/// from the datum of the face: the inner lower left corner, seen from outside, walls with the lid
/// upwards. A round hole has equal width and height.
pub fn drilling_list(arrangement: &Arrangement) -> String {
    drilling(arrangement).csv()
}

pub(super) fn drilling(arrangement: &Arrangement) -> List {
    let mut rows: Vec<Vec<String>> = tables::entries_in_order(arrangement)
        .into_iter()
        .map(|entry| {
            vec![
                entry.wall.name().into(),
                entry.id.clone(),
                position(entry.u_mm),
                position(entry.v_mm),
                "round".into(),
                number(entry.hole_mm, 2),
                number(entry.hole_mm, 2),
                tables::thread_words(&entry.thread),
                tables::purpose_words(&entry.purpose),
                entry.part.id.clone(),
            ]
        })
        .collect();
    rows.extend(arrangement.elements.iter().map(|element| {
        let [width, height] = element.hole_mm;
        let is_round = (width - height).abs() < 1e-6;
        vec![
            "lid".into(),
            element.tag.clone(),
            position(element.x_mm),
            position(element.y_mm),
            if is_round { "round" } else { "rectangular" }.into(),
            number(width, 2),
            number(height, 2),
            element.hole.clone().unwrap_or_default(),
            element.kind.words().into(),
            element.part.clone(),
        ]
    }));
    List::new(
        "drilling",
        &[
            "face",
            "hole",
            "#x_or_u_mm",
            "#y_or_v_mm",
            "shape",
            "#width_mm",
            "#height_mm",
            "thread_or_size",
            "for",
            "part",
        ],
        rows,
    )
}

/// The label and engraving list: a line for each text, in the order in which they are put on.
pub fn label_list(arrangement: &Arrangement) -> String {
    labels(arrangement).csv()
}

pub(super) fn labels(arrangement: &Arrangement) -> List {
    let mut rows = Vec::new();
    let mut add = |what: &str, place: &str, text: &str, colour: &str| {
        if !text.is_empty() {
            rows.push([what, place, text, colour].map(str::to_string).to_vec());
        }
    };
    let job = &arrangement.job;
    add("box label", "lid", &job.tag, "");
    add("box label", "lid", &job.title, "");
    for element in &arrangement.elements {
        add(
            "element label",
            &element.tag,
            &element.label,
            element.background.as_deref().unwrap_or_default(),
        );
        add("element tag", &element.tag, &element.tag, "");
    }
    for strip in &arrangement.strips {
        add("strip label", &strip.name, &strip.name, "");
    }
    for terminal in &arrangement.terminals {
        let number = terminal.number.to_string();
        add("terminal number", &terminal.id, &number, &terminal.colour);
        add("terminal marking", &terminal.id, &terminal.marking, "");
    }
    for entry in tables::entries_in_order(arrangement) {
        if let EntryPurpose::Cable(tag) = &entry.purpose {
            add("cable tag", &entry.id, tag, "");
        }
    }
    List::new("labels", &["what", "place", "text", "colour"], rows)
}

/// The spare capacity: spare and free terminals, spare entries, free power.
pub fn spare_list(arrangement: &Arrangement) -> String {
    spare(arrangement).csv()
}

pub(super) fn spare(arrangement: &Arrangement) -> List {
    let mut rows = Vec::new();
    let mut add = |what: &str, place: &str, kind: &str, value: String, unit: &str| {
        rows.push(vec![
            what.to_string(),
            place.to_string(),
            kind.to_string(),
            value,
            unit.to_string(),
        ]);
    };
    for run in tables::runs(arrangement) {
        if run.spare > 0 {
            let count = run.spare.to_string();
            add("spare terminals", run.strip, run.part, count, "pieces");
        }
    }
    for (rail, free) in &arrangement.spare.free_terminals {
        add(
            "room for terminals",
            rail,
            "of the narrowest in use",
            free.to_string(),
            "pieces",
        );
    }
    let mut entries: BTreeMap<(usize, &str, String), u32> = BTreeMap::new();
    for entry in &arrangement.entries {
        if entry.purpose == EntryPurpose::Spare {
            let order = entry.wall.wall_index().unwrap_or(usize::MAX);
            let thread = tables::thread_words(&entry.thread);
            *entries
                .entry((order, entry.wall.name(), thread))
                .or_default() += 1;
        }
    }
    for ((_, wall, thread), count) in &entries {
        add("spare entries", wall, thread, count.to_string(), "pieces");
    }
    let heat = &arrangement.heat;
    let class = heat.row_class.to_string();
    add(
        "free power",
        "enclosure",
        &class,
        fixed(heat.permitted_power_w - heat.power_w, 2),
        "W",
    );
    add(
        "reserve kept on top",
        "enclosure",
        &class,
        fixed(heat.rated_power_w - heat.permitted_power_w, 2),
        "W",
    );
    List::new(
        "spare capacity",
        &["what", "place", "kind", "#value", "unit"],
        rows,
    )
}
