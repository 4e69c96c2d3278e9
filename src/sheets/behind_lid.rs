//! What a fitter needs behind the lid: every conductor that ends on an operating element or lies between terminals,
//! and every point of the elements. What the arrangement does not hold is said to be missing, never made up.

use super::clamping::{NOT_GIVEN, given, torque_words};
use super::drawing::{Column, Table};
use super::list::List;
use super::{number, wiring};
use crate::arrangement::{Arrangement, PlacedContact, PlacedElement, Wire, WireEnd};
use crate::catalogue::ContactKind;
use itertools::Itertools;

/// Whether a conductor is laid in the box rather than brought by a cable.
pub(super) fn is_internal(wire: &Wire) -> bool {
    let is_core = |end: &WireEnd| matches!(end, WireEnd::Core { .. });
    !is_core(&wire.from) && !is_core(&wire.to)
}

/// The conductors that are laid in the box and the cores that end on an element.
fn behind_lid(arrangement: &Arrangement) -> impl Iterator<Item = &Wire> {
    let on_element = |end: &WireEnd| matches!(end, WireEnd::Contact { .. });
    arrangement
        .wires
        .iter()
        .filter(move |wire| is_internal(wire) || on_element(&wire.from) || on_element(&wire.to))
}

/// The wire list: from where to where, section, colour, length along the route.
pub(super) fn wires(arrangement: &Arrangement) -> List {
    let rows = behind_lid(arrangement).map(|wire| {
        let kind = if is_internal(wire) {
            "internal wire"
        } else {
            "core of a cable"
        };
        vec![
            wire.id.clone(),
            kind.into(),
            wiring::end_with_clamp(&wire.from),
            wiring::end_with_clamp(&wire.to),
            wire.circuit.clone(),
            wire.section.clone(),
            wire.build.words().into(),
            "not stated".into(),
            number(wire.route_mm, 0),
        ]
    });
    List::new(
        "internal wires",
        &[
            "wire",
            "kind",
            "from",
            "to",
            "circuit",
            "section",
            "build",
            "colour",
            "#route_estimated_mm",
        ],
        rows.collect(),
    )
}

/// The contact table: a line for each point of each element.
pub(super) fn contacts(arrangement: &Arrangement) -> List {
    let mut rows = Vec::new();
    for element in &arrangement.elements {
        for contact in &element.contacts {
            for point in &contact.points {
                let wires = point
                    .wires
                    .iter()
                    .filter_map(|id| arrangement.wires.iter().find(|wire| wire.id == *id));
                let here = format!("{}/{}", element.tag, point.name);
                let ends = wires
                    .clone()
                    .flat_map(|wire| [wiring::end_words(&wire.from), wiring::end_words(&wire.to)])
                    .filter(|end| *end != here)
                    .join(" + ");
                let circuits = wires
                    .map(|wire| wire.circuit.as_str())
                    .filter(|circuit| !circuit.is_empty())
                    .unique()
                    .join(" + ");
                rows.push(vec![
                    element.tag.clone(),
                    element.kind.words().into(),
                    contact.part.clone().unwrap_or_else(|| "own".into()),
                    works(contact).into(),
                    point.name.clone(),
                    if ends.is_empty() {
                        "nothing wired".into()
                    } else {
                        ends
                    },
                    circuits,
                    number(point.current_a, 3),
                    torque_words(contact.spring_clamp, contact.torque_nm),
                    given(contact.strip_mm),
                ]);
            }
        }
    }
    List::new(
        "contacts",
        &[
            "element",
            "kind",
            "block",
            "contact",
            "point",
            "conductors",
            "circuit",
            "#current_a",
            "#torque_of_clamps_nm",
            "#strip_mm",
        ],
        rows,
    )
}

/// Which way a contact works.
fn works(contact: &PlacedContact) -> &'static str {
    match contact.contact {
        Some(ContactKind::NO) => "normally open",
        Some(ContactKind::NC) => "normally closed",
        None => "own path",
    }
}

/// Positions of a selector in words; nothing for other elements.
pub(super) fn positions_words(element: &PlacedElement) -> String {
    match (element.positions, element.kind) {
        (Some(count), _) => count.to_string(),
        (None, crate::catalogue::ElementKind::Selector) => NOT_GIVEN.into(),
        (None, _) => String::new(),
    }
}

/// The tables of the sheet: contacts, then wires.
pub(super) fn tables(arrangement: &Arrangement) -> Vec<Table> {
    let contacts = contacts(arrangement);
    let wires = wires(arrangement);
    vec![
        Table {
            name: "contacts".into(),
            title: "Contacts of the elements (torque in N m and stripping length in mm of their clamps)"
                .into(),
            columns: vec![
                Column::words("Element"),
                Column::sentences("Kind"),
                Column::sentences("Block"),
                Column::sentences("Contact"),
                Column::words("Point"),
                Column::sentences("Conductor to"),
                Column::words("Circuit"),
                Column::numbers("A"),
                Column::sentences("Torque"),
                Column::sentences("Strip"),
            ],
            rows: contacts.rows,
        },
        Table {
            name: "internal-wires".into(),
            title: "Internal wires (routes along the axes, estimated, without what opening the lid takes)".into(),
            columns: vec![
                Column::words("Wire"),
                Column::sentences("Kind"),
                Column::words("From"),
                Column::words("To"),
                Column::words("Circuit"),
                Column::words("Section"),
                Column::words("Build"),
                Column::words("Colour"),
                Column::numbers("Route mm"),
            ],
            rows: wires.rows,
        },
    ]
}
