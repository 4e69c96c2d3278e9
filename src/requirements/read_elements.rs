//! Reading `[[element]]`.

use super::file::ElementTable;
use super::named::{Named, broken_tags, is_tag, not_a_tag};
use super::placing::check_placing;
use super::{Cable, Contact, ElementRequirement, Placing};
use crate::catalogue::{ContactKind, ElementKind};
use crate::source::{Document, Findings, nearest};
use crate::standards::iec_60947_5_1;

/// Reads and checks all operating elements.
pub(super) fn read_elements(
    document: &Document,
    cables: &Named<Cable>,
    findings: &mut Findings,
) -> Named<ElementRequirement> {
    let tables = document.tables::<ElementTable>("element", findings);
    let mut named: Named<ElementRequirement> = Named::default();
    for table in &tables {
        let (value, place) = (&table.value, &table.place);
        let tag = value.tag.trim().to_string();
        if !is_tag(&tag) {
            findings.push(
                place
                    .error("tag", "list-tag", not_a_tag(&value.tag))
                    .expected("a tag such as `tag = \"PB1\"`"),
            );
            continue;
        }
        let cable = cables.by_tag.contains_key(&tag) || cables.broken.contains(&tag);
        if named.by_tag.contains_key(&tag) || cable {
            let message = format!("the tag `{tag}` is used twice");
            let finding = place
                .error("tag", "list-tag-twice", message)
                .expected("a tag of its own for each cable and element");
            let line = named.line_of(&tag).or_else(|| cables.line_of(&tag));
            findings.push(match line {
                Some(line) => finding.hint(format!("`{tag}` stands on line {line} already")),
                None => finding,
            });
            continue;
        }
        named.note(&tag, place);
        if value.kind.has_no_contacts() && !value.contacts.is_empty() {
            findings.push(
                place
                    .error(
                        "contacts",
                        "list-contacts",
                        format!("{}s have no contacts", value.kind.words()),
                    )
                    .hint("leave `contacts` out; its own points can be wired"),
            );
        }
        let opens = value.contacts.contains(&ContactKind::NC);
        if value.kind == ElementKind::EmergencyStop && !opens {
            findings.push(
                place
                    .error(
                        "contacts",
                        "list-contacts",
                        "an emergency stop without a contact that opens",
                    )
                    .expected("at least one `\"NC\"` in `contacts` (IEC 60947-5-5)"),
            );
        }
        let selector = value.kind == ElementKind::Selector;
        match value.positions {
            Some(_) if !selector => findings.push(
                place
                    .error(
                        "positions",
                        "list-positions",
                        format!("{}s have no positions", value.kind.words()),
                    )
                    .hint("leave `positions` out; only selectors have them"),
            ),
            Some(count @ (0 | 1)) => findings.push(
                place
                    .error(
                        "positions",
                        "list-positions",
                        format!("`positions` is {count}"),
                    )
                    .expected("a selector with at least 2 positions"),
            ),
            _ => {}
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
        let element = ElementRequirement {
            tag: tag.clone(),
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
        };
        named.add(tag, None, element);
    }
    named
        .broken
        .extend(broken_tags(document, "element", &named.by_tag));
    for table in &tables {
        let tag = table.value.tag.trim();
        let Some(index) = named.by_tag.get(tag).map(|indices| indices[0]) else {
            continue;
        };
        for (field, tag) in [
            ("above", &table.value.above),
            ("beside", &table.value.beside),
        ] {
            let Some(tag) = tag else { continue };
            match named.by_tag.get(tag.trim()).map(|indices| indices[0]) {
                Some(other) if other == index => findings.push(
                    table
                        .place
                        .error(
                            field,
                            "list-placing",
                            format!("`{tag}` cannot be placed {field} itself"),
                        )
                        .expected("the tag of another element"),
                ),
                Some(other) if field == "above" => named.items[index].placing.above = Some(other),
                Some(other) => named.items[index].placing.beside = Some(other),
                None if named.broken.contains(tag.trim()) => {}
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
        for (field, value) in [("row", table.value.row), ("order", table.value.order)] {
            if value == Some(0) {
                findings.push(
                    table
                        .place
                        .error(field, "list-range", format!("`{field}` is 0"))
                        .expected("a number from 1"),
                );
            }
        }
    }
    check_placing(&named.items, findings);
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
