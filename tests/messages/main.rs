//! What the reader of a bad list is told: every finding at its line and column, in words, and never a
//! panic. The pages docs/requirement-list.md and docs/errors.md are compared with the code here too.

mod annotated;
mod errors_page;
mod faults;
#[path = "../catalogue/fields.rs"]
mod fields;
mod inline;
mod job;
mod large;
mod list_page;
mod mutants;
#[path = "../catalogue/page.rs"]
#[allow(dead_code, reason = "shared with the tests of the catalogue")]
mod page;
