//! Operating elements: colours by function, emergency stop, holes, spacing, contacts' utilisation.
//! Knows nothing of the lid's size.

mod colours;
mod contacts;
mod holes;

use super::case::Rule;

/// The rules of this group.
pub(super) static RULES: [&[Rule]; 3] = [colours::RULES, holes::RULES, contacts::RULES];
