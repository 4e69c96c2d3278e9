//! The arrangement as a document: its numbers, names, references and coordinates agree with each other.
//! Knows nothing of what the figures mean for safety.

mod catalogue;
mod comparison;
mod coordinates;
mod document;
mod enclosure;
mod limits;
mod numbers;
mod outer;

use super::case::Rule;

/// The rules of this group.
pub(super) static RULES: [&[Rule]; 6] = [
    document::RULES,
    numbers::RULES,
    coordinates::RULES,
    outer::RULES,
    limits::RULES,
    catalogue::RULES,
];

/// The rule that needs a catalogue.
pub(super) const COMPARISON: &str = "record.catalogue";
