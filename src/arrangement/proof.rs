//! What is proved about the size of an arrangement: against which candidates, and what remains open.

use super::Orientation;
use serde::{Deserialize, Serialize};

/// How entries stand in their walls.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum EntryPlacing {
    /// In rows.
    Rows,
    /// Anywhere on their walls, in no rows.
    Free,
}

impl EntryPlacing {
    /// As a word.
    pub fn word(self) -> &'static str {
        match self {
            EntryPlacing::Rows => "rows",
            EntryPlacing::Free => "free",
        }
    }
}

/// An enclosure in an orientation.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct CandidateName {
    /// Enclosure.
    pub enclosure: String,
    /// Orientation.
    pub orientation: Orientation,
}

/// What is proved about the size.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct ProofRecord {
    /// Number of candidates, enclosures times orientations.
    pub candidates: usize,
    /// Number of candidates before this one in the order of the objective; each is excluded.
    pub smaller: usize,
    /// How the entries of this arrangement are placed.
    pub entries: EntryPlacing,
    /// Whether entries in no rows were tried for the smaller candidates that do not take them in rows.
    pub tried_freely: bool,
    /// Whether every smaller candidate is disproved for entries in rows.
    pub proven_in_rows: bool,
    /// Smaller candidates in which entries in no rows were tried, not found, and not disproved.
    pub open_for_free_placement: Vec<CandidateName>,
}

impl ProofRecord {
    /// Whether this is proved to be the smallest of all candidates, however entries are placed.
    pub fn is_smallest_however_placed(&self) -> bool {
        self.proven_in_rows && self.tried_freely && self.open_for_free_placement.is_empty()
    }
}
