//! Room: bodies, rails, wiring, depth, entries in walls, elements in the lid. Knows nothing of
//! electrical figures.

mod bodies;
mod lid;
mod rails;
mod walls;
mod wiring;

use super::case::Rule;

/// The rules of this group.
pub(super) static RULES: [&[Rule]; 5] = [
    bodies::RULES,
    rails::RULES,
    wiring::RULES,
    walls::RULES,
    lid::RULES,
];
