//! Reading `[[element]]`.

use super::file::ElementTable;
use super::read_cables::{Named, broken_tags};
use super::{Cable, Contact, ElementRequirement, Placing};
use crate::catalogue::{ContactKind, ElementKind};
use crate::source::{Document, Findings, nearest};
use crate::standards::iec_60947_5_1;
use std::collections::BTreeMap;

/// Reads and checks all operating elements.
pub(super) fn read_elements(
    document: &Document,
    cables: &Named<Cable>,
    findings: &mut Findings,
) -> Named<ElementRequirement> {
    let tables = document.tables::<ElementTable>("element", findings);
    let mut named: Named<ElementRequirement> = Named {
        items: Vec::new(),
        by_tag: BTreeMap::new(),
        broken: Vec::new(),
    };
    for table in &tables {
        let (value, place) = (&table.value, &table.place);
        if value.tag.trim().is_empty() || value.tag.contains('/') || value.tag.contains("..") {
            findings.push(
                place
                    .error("tag", "list-tag", format!("`{}` is not a tag", value.tag))
                    .expected("a tag that is not empty and holds neither `/` nor `..`"),
            );
            continue;
        }
        if named.by_tag.contains_key(&value.tag) || cables.by_tag.contains_key(&value.tag) {
            findings.push(
                place
                    .error(
                        "tag",
                        "list-tag-twice",
                        format!("the tag `{}` is used twice", value.tag),
                    )
                    .expected("a tag of its own for each cable and element"),
            );
            continue;
        }
        if value.kind.has_no_contacts() && !value.contacts.is_empty() {
            findings.push(
                place
                    .error(
                        "contacts",
                        "list-contacts",
                        format!("an element of kind {} has no contacts", value.kind.words()),
                    )
                    .hint("leave `contacts` out; its own points can be wired"),
            );
        }
        if value.contacts.len() > 9 {
            findings.push(
                place
                    .error(
                        "contacts",
                        "list-contacts",
                        format!("{} contacts on one element", value.contacts.len()),
                    )
                    .expected("at most 9"),
            );
        }
        named
            .by_tag
            .insert(value.tag.clone(), vec![named.items.len()]);
        named.items.push(ElementRequirement {
            tag: value.tag.clone(),
            kind: value.kind,
            function: value.function.clone(),
            label: value.label.clone(),
            colour: value.colour.clone(),
            positions: value.positions,
            contacts: value
                .contacts
                .iter()
                .zip(1..=9)
                .map(|(kind, place)| contact(*kind, place))
                .collect(),
            own_points: value
                .kind
                .own_points()
                .iter()
                .map(|point| point.to_string())
                .collect(),
            part: value.part.clone(),
            placing: Placing {
                row: value.row,
                order: value.order,
                above: None,
                beside: None,
            },
            place: place.clone(),
        });
    }
    for table in &tables {
        let Some(index) = named.by_tag.get(&table.value.tag).map(|indices| indices[0]) else {
            continue;
        };
        for (field, tag) in [
            ("above", &table.value.above),
            ("beside", &table.value.beside),
        ] {
            let Some(tag) = tag else { continue };
            match named.by_tag.get(tag).map(|indices| indices[0]) {
                Some(other) if other == index => findings.push(table.place.error(
                    field,
                    "list-placing",
                    format!("`{tag}` cannot be placed by itself"),
                )),
                Some(other) if field == "above" => named.items[index].placing.above = Some(other),
                Some(other) => named.items[index].placing.beside = Some(other),
                None => {
                    let mut finding = table.place.error(
                        field,
                        "list-unknown-element",
                        format!("there is no element `{tag}`"),
                    );
                    if let Some(known) = nearest(tag, named.by_tag.keys().map(String::as_str)) {
                        finding = finding.hint(format!("did you mean `{known}`?"));
                    }
                    findings.push(finding);
                }
            }
        }
        if table.value.row == Some(0) || table.value.order == Some(0) {
            findings.push(
                table
                    .place
                    .error("row", "list-range", "rows and orders are counted from 1")
                    .expected("a number from 1"),
            );
        }
    }
    named.broken = broken_tags(document, "element", &named.by_tag);
    named
}

/// A contact in its place on the element, with its two points.
fn contact(kind: ContactKind, place: u8) -> Contact {
    let standard = match kind {
        ContactKind::NO => iec_60947_5_1::Contact::NormallyOpen,
        ContactKind::NC => iec_60947_5_1::Contact::NormallyClosed,
    };
    let points = iec_60947_5_1::contact_terminals(place, standard)
        .unwrap_or_else(|_| [format!("{place}?a"), format!("{place}?b")]);
    Contact { kind, points }
}

impl ElementKind {
    /// The element's own points that can be wired.
    pub(super) fn own_points(self) -> &'static [&'static str] {
        match self {
            ElementKind::Lamp | ElementKind::IlluminatedPushButton => {
                &iec_60947_5_1::LAMP_TERMINALS
            }
            ElementKind::Ammeter | ElementKind::Voltmeter => &["1", "2"],
            ElementKind::Potentiometer => &["1", "2", "3"],
            ElementKind::PushButton | ElementKind::EmergencyStop | ElementKind::Selector => &[],
        }
    }

    fn has_no_contacts(self) -> bool {
        matches!(
            self,
            ElementKind::Lamp
                | ElementKind::Ammeter
                | ElementKind::Voltmeter
                | ElementKind::Potentiometer
        )
    }
}
