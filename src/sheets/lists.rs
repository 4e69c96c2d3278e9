//! Lists for single trades as CSV: what is drilled, what is engraved or printed, what is left spare.

use super::list::List;
use super::number::position;
use super::{datum, fixed, notes, number, tables};
use crate::arrangement::{Arrangement, EntryPurpose};
use crate::marking;
use crate::space::Face;
use std::collections::BTreeMap;

/// The drilling list: a line for each hole in walls and lid. Positions are those of the drawings, in mm
/// from the datum of the face, which each line names: the inner lower left corner, seen from outside, walls with the
/// lid upwards. A round hole has equal width and height.
pub fn drilling_list(arrangement: &Arrangement) -> String {
    drilling(arrangement).csv()
}

pub(super) fn drilling(arrangement: &Arrangement) -> List {
    let tolerance = notes::tolerance_in_short(arrangement);
    let mut rows: Vec<Vec<String>> = tables::entries_in_order(arrangement)
        .into_iter()
        .map(|entry| {
            let [first, second] = datum::from_words(entry.wall);
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
                first,
                second,
                tolerance.clone(),
            ]
        })
        .collect();
    rows.extend(arrangement.elements.iter().map(|element| {
        let [first, second] = datum::from_words(Face::Lid);
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
            first,
            second,
            tolerance.clone(),
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
            "x_or_u_from",
            "y_or_v_from",
            "tolerance",
        ],
        rows,
    )
}

/// The label and engraving list: a line for each label of the proposed marking, in the order in which they are put
/// on. The colour is `not stated` where neither catalogue nor rule gives one.
pub fn label_list(arrangement: &Arrangement) -> String {
    labels(arrangement).csv()
}

pub(super) fn labels(arrangement: &Arrangement) -> List {
    let rows = marking::marking(arrangement).labels.into_iter();
    let rows = rows.map(|label| {
        vec![
            label.kind.words().to_string(),
            label.place,
            label.text,
            label.colour.unwrap_or_else(|| "not stated".into()),
            label.reason,
        ]
    });
    List::new(
        "labels",
        &["what", "place", "text", "colour", "reason"],
        rows.collect(),
    )
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
