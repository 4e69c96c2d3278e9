//! Heat: the rated dissipated power, which decides, and beside it the certificate's defined
//! arrangement, the bundles of conductors and the temperatures at which cables have to be marked.
//!
//! What is an estimate (`temperature.rs`), or a method that the box is not rated by, can fail but
//! permits nothing: its rules inform.

mod balance;
mod bundles;
mod defined_arrangement;
mod power;
mod temperature;

use super::case::Rule;

/// The rules of this group.
pub(super) static RULES: [&[Rule]; 4] = [
    power::RULES,
    defined_arrangement::RULES,
    bundles::RULES,
    temperature::RULES,
];
