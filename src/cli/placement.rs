//! How entries are placed, as a word on the command line.

use crate::model::Placement;

/// How entries are placed in the walls.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum PlacementName {
    /// In rows only.
    Rows,
    /// Anywhere on their walls, in no rows.
    Free,
    /// In rows where rows suffice, freely where only that takes them.
    Best,
}

impl From<PlacementName> for Placement {
    fn from(name: PlacementName) -> Placement {
        match name {
            PlacementName::Rows => Placement::Rows,
            PlacementName::Free => Placement::Free,
            PlacementName::Best => Placement::Best,
        }
    }
}
