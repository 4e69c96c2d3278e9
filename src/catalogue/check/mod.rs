//! Whether a catalogue that was read makes sense: figures in their range, ratings that do not
//! contradict each other, parts that exist. Knows single parts and the whole; never requirements.
//!
//! A figure that is missing is unknown and no finding; the audit will report what depends on it as
//! `not determined`. Refused is only what contradicts itself or can never be used for Ex e.

mod accessory;
mod certificate;
mod checker;
mod element;
mod enclosure;
mod enclosure_rating;
mod entry;
mod terminal;

use self::checker::Checker;
use super::reading::Parts;
use crate::source::{Finding, Findings, Place, SourceFile};
use std::collections::BTreeMap;
use std::sync::Arc;

/// The codes of the findings about catalogues, each with what it says. Stable: documentation and
/// scripts may rely on them.
pub const CODES: &[(&str, &str)] = &[
    (
        "catalogue-about",
        "the head of the catalogue is missing or given twice",
    ),
    (
        "catalogue-arrangement",
        "rows of a defined arrangement contradict each other",
    ),
    ("catalogue-certificate", "a certificate has no number"),
    (
        "catalogue-circuits",
        "a terminal or contact block names no kind of circuit",
    ),
    (
        "catalogue-clamp",
        "a clamping part takes no conductor at all",
    ),
    (
        "catalogue-depth",
        "the depths by number of contact blocks fall or are missing",
    ),
    (
        "catalogue-distance",
        "the distance between neighbours is too small for the rated voltage",
    ),
    ("catalogue-duplicate-id", "two parts have the same id"),
    (
        "catalogue-earth",
        "the external earth terminal is too small",
    ),
    (
        "catalogue-emergency-stop",
        "an emergency stop is not red or does not latch",
    ),
    (
        "catalogue-empty",
        "the catalogue has no enclosure, or no part at all",
    ),
    ("catalogue-envelope", "a hole is larger than what covers it"),
    (
        "catalogue-fits",
        "a part names another that is not there or is of the wrong kind",
    ),
    (
        "catalogue-hole",
        "a hole does not agree with its thread or its size",
    ),
    ("catalogue-id", "an id is empty or has spaces at its ends"),
    (
        "catalogue-impact",
        "an Ex e enclosure has no impact test or too weak a one",
    ),
    (
        "catalogue-incomplete",
        "a part of this kind needs a field that it lacks",
    ),
    (
        "catalogue-ip",
        "the degree of protection is missing or too low",
    ),
    (
        "catalogue-live-parts",
        "the live parts would lie outside the body",
    ),
    (
        "catalogue-outside",
        "a plate, lid or area lies outside the inside of its enclosure",
    ),
    ("catalogue-overlap", "drillable areas of one wall overlap"),
    (
        "catalogue-points",
        "terminal points do not agree with the kind of element",
    ),
    ("catalogue-profile", "a rail profile is not known"),
    ("catalogue-protection", "a level of protection is not known"),
    ("catalogue-range", "a figure lies outside what is possible"),
    (
        "catalogue-rated-power",
        "rows of rated power contradict each other",
    ),
    (
        "catalogue-ratings",
        "rated currents fall with the section or are out of order",
    ),
    ("catalogue-reversed", "a range ends before it begins"),
    (
        "catalogue-size",
        "outer size, inner size and wall contradict each other",
    ),
    (
        "catalogue-thread",
        "a thread does not fit the wall that permits it",
    ),
    ("catalogue-torque", "a spring clamp has a tightening torque"),
    (
        "catalogue-tracking",
        "the tracking index is not admitted for Ex e",
    ),
    (
        "catalogue-unstated",
        "what the certificate allows is not stated, so that the part takes nothing",
    ),
    (
        "catalogue-utilisation",
        "a rating by utilisation category contradicts another",
    ),
    ("catalogue-wall", "a wall cannot carry entries"),
];

/// Checks everything. `whole` stands for the catalogue in findings that have no place. What may be
/// missing only because a file was not read is not reported unless `is_whole`.
pub(super) fn all(parts: &Parts, whole: &Arc<SourceFile>, is_whole: bool, findings: &mut Findings) {
    about(parts, whole, is_whole, findings);
    ids(parts, findings);
    let mut with = |place: &Place, check: &mut dyn FnMut(&mut Checker<'_>)| {
        check(&mut Checker::new(place, findings));
    };
    for part in &parts.enclosure {
        with(&part.place, &mut |checker| {
            enclosure::check(&part.value, checker)
        });
    }
    for part in &parts.terminal {
        with(&part.place, &mut |checker| {
            terminal::check(&part.value, checker)
        });
    }
    for part in &parts.rail {
        with(&part.place, &mut |checker| {
            accessory::check_rail(&part.value, checker)
        });
    }
    for part in &parts.accessory {
        with(&part.place, &mut |checker| {
            accessory::check(&part.value, parts, checker)
        });
    }
    for part in &parts.gland {
        with(&part.place, &mut |checker| {
            entry::check_gland(&part.value, checker)
        });
    }
    for part in &parts.plug {
        with(&part.place, &mut |checker| {
            entry::check_plug(&part.value, checker)
        });
    }
    for part in &parts.adapter {
        with(&part.place, &mut |checker| {
            entry::check_adapter(&part.value, checker)
        });
    }
    for part in &parts.element {
        with(&part.place, &mut |checker| {
            element::check(&part.value, checker)
        });
    }
    for part in &parts.contact_block {
        with(&part.place, &mut |checker| {
            element::check_block(&part.value, parts, checker)
        });
    }
}

/// The head, and whether there is anything to choose from.
fn about(parts: &Parts, whole: &Arc<SourceFile>, is_whole: bool, findings: &mut Findings) {
    for second in parts.about.iter().skip(1) {
        let first = &parts.about[0].place;
        let message = format!("`about` is given in `{}` already", first.file().name);
        findings.push(
            second
                .place
                .error("", "catalogue-about", message)
                .expected("one table `[about]` in the whole catalogue")
                .hint("keep one of them"),
        );
    }
    if !is_whole {
        return;
    }
    if parts.about.is_empty() {
        findings.push(
            Finding::error("catalogue-about", whole, None, "the catalogue has no head")
                .expected("a table `[about]` with `title`")
                .hint("add `[about]` with title, edition and currency"),
        );
    }
    if parts.written_ids.is_empty() {
        findings.push(
            Finding::error("catalogue-empty", whole, None, "the catalogue is empty")
                .expected("parts, such as `[[enclosure]]` and `[[terminal]]`")
                .hint("see docs/catalogue.md for the fields of each kind of part"),
        );
    } else if parts.enclosure.is_empty() {
        findings.push(
            Finding::error(
                "catalogue-empty",
                whole,
                None,
                "the catalogue has no enclosure",
            )
            .expected("at least one `[[enclosure]]`")
            .hint("give the folder with all files of the catalogue, not a single one"),
        );
    }
}

/// Ids are unique over all kinds.
fn ids(parts: &Parts, findings: &mut Findings) {
    fn of<'a, T>(
        located: &'a [crate::source::Located<T>],
        id: impl Fn(&'a T) -> &'a str,
    ) -> Vec<(&'a str, &'a Place)> {
        located
            .iter()
            .map(|part| (id(&part.value), &part.place))
            .collect()
    }
    let mut all = of(&parts.enclosure, |part| &part.id);
    all.extend(of(&parts.terminal, |part| &part.id));
    all.extend(of(&parts.accessory, |part| &part.id));
    all.extend(of(&parts.rail, |part| &part.id));
    all.extend(of(&parts.gland, |part| &part.id));
    all.extend(of(&parts.plug, |part| &part.id));
    all.extend(of(&parts.adapter, |part| &part.id));
    all.extend(of(&parts.element, |part| &part.id));
    all.extend(of(&parts.contact_block, |part| &part.id));
    let key = |place: &Place| (place.file().name.clone(), place.header().start);
    all.sort_by_key(|(_, place)| key(place));
    let mut first: BTreeMap<&str, &Place> = BTreeMap::new();
    for (id, place) in all {
        if id.trim().is_empty() || id.trim() != id {
            findings.push(
                place
                    .error("id", "catalogue-id", format!("`{id}` is not an id"))
                    .expected("a text that is not empty, without spaces at its ends")
                    .hint("write the maker's order number"),
            );
            continue;
        }
        match first.get(id) {
            Some(other) => findings.push(
                place
                    .error(
                        "id",
                        "catalogue-duplicate-id",
                        format!("`{id}` is the id of another part"),
                    )
                    .expected("an id that no other part of any kind has")
                    .hint(format!(
                        "see {}, line {}",
                        other.file().name,
                        other.line_of("id")
                    )),
            ),
            None => {
                first.insert(id, place);
            }
        }
    }
}
