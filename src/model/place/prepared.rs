//! A list with the box that is found for it, for the tests of this folder.

use crate::catalogue::Catalogue;
use crate::demand::{self, Demand};
use crate::model::search::Found;
use crate::model::{Outcome, SearchOptions, search};
use crate::requirements::RequirementList;
use crate::source::SourceFile;
use crate::workshop::Workshop;

/// Hands over what the demo catalogue and the usual workshop make of a list.
pub(super) fn with_found(
    text: &str,
    check: impl FnOnce(&RequirementList, &Demand<'_>, &Workshop, &Found),
) {
    let workshop = Workshop::default();
    let source = SourceFile::from_text("list.toml", text);
    let list = RequirementList::from_source(source, &workshop).expect("a good list");
    let catalogue = Catalogue::demo();
    let demand = demand::build(&list, catalogue, &workshop).expect("parts for all");
    let options = SearchOptions::default();
    let Ok(Outcome::Found(found)) = search(&list, &demand, catalogue, &workshop, options) else {
        panic!("the demo catalogue has a box for this");
    };
    check(&list, &demand, &workshop, &found);
}
