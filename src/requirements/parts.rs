//! Parts that the list names by id must be in the catalogue.

use super::RequirementList;
use crate::catalogue::Catalogue;
use crate::source::{Findings, Place, nearest};
use itertools::Itertools;

/// Findings about ids that the catalogue does not have.
pub fn check_parts(list: &RequirementList, catalogue: &Catalogue) -> Findings {
    let mut findings = Findings::new();
    let enclosures: Vec<&str> = catalogue
        .enclosure
        .iter()
        .map(|part| part.id.as_str())
        .collect();
    for (field, ids) in [
        ("enclosures.include", &list.wishes.include),
        ("enclosures.exclude", &list.wishes.exclude),
    ] {
        for (index, id) in ids.iter().enumerate() {
            check(
                &list.wishes.place,
                &format!("{field}[{index}]"),
                id,
                "enclosure",
                &enclosures,
                &mut findings,
            );
        }
    }
    let glands: Vec<&str> = catalogue
        .gland
        .iter()
        .map(|part| part.id.as_str())
        .collect();
    // Cables and circuits of one entry of the list share its place: one finding tells of all.
    for cable in list.cables.iter().dedup_by(|a, b| a.place == b.place) {
        if let Some(id) = &cable.gland {
            check(&cable.place, "gland", id, "gland", &glands, &mut findings);
        }
    }
    let terminals: Vec<&str> = catalogue
        .terminal
        .iter()
        .map(|part| part.id.as_str())
        .collect();
    for circuit in list.circuits.iter().dedup_by(|a, b| a.place == b.place) {
        if let Some(id) = &circuit.terminal_part {
            check(
                &circuit.place,
                "terminal_part",
                id,
                "terminal",
                &terminals,
                &mut findings,
            );
        }
    }
    let elements: Vec<&str> = catalogue
        .element
        .iter()
        .map(|part| part.id.as_str())
        .collect();
    for element in &list.elements {
        if let Some(id) = &element.part {
            check(
                &element.place,
                "part",
                id,
                "operating element",
                &elements,
                &mut findings,
            );
        }
    }
    findings
}

fn check(
    place: &Place,
    field: &str,
    id: &str,
    what: &str,
    known: &[&str],
    findings: &mut Findings,
) {
    if known.contains(&id) {
        return;
    }
    let mut finding = place
        .error(
            field,
            "list-unknown-part",
            format!("the catalogue has no {what} `{id}`"),
        )
        .expected(format!("an id of the catalogue in use, of the kind {what}"));
    if let Some(near) = nearest(id, known.iter().copied()) {
        finding = finding.hint(format!("did you mean `{near}`?"));
    }
    findings.push(finding);
}
