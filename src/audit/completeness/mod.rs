//! Nothing forgotten: cores, conductors, continuity, spares, earth, end stops, plates, partitions,
//! numbers. Knows nothing of distances in the room beyond which part follows which on a rail.

mod notices;
mod rows;
mod supply;
mod wiring;

use super::case::Rule;

/// The rules of this group.
pub(super) static RULES: [&[Rule]; 4] = [wiring::RULES, supply::RULES, rows::RULES, notices::RULES];
