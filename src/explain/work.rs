//! How much has been solved while ways out are looked for. It is counted, not timed, so that the same list ends in
//! the same place on every machine.

use crate::model::Placement;
use crate::requirements::RequirementList;
use std::cell::Cell;

/// So much may be solved before no further way is begun or improved: some hundred lists of usual length, and a
/// few with hundreds of cables.
const MOST: u64 = 40_000;

/// From so many entries on each further one makes a list slower to solve than the one before.
const MANY: u64 = 50;

/// The work done so far.
#[derive(Default)]
pub struct Work(Cell<u64>);

impl Work {
    /// One list that is solved: to place entries in no rows takes about three times as long.
    pub(super) fn count(&self, list: &RequirementList, placement: Placement) {
        let entries = (list.cables.len() + list.elements.len()) as u64;
        let times = match placement {
            Placement::Rows => 1,
            Placement::Free | Placement::Best => 3,
        };
        self.0
            .set(self.0.get() + times * (entries + entries * entries / MANY));
    }

    /// Whether enough has been done.
    pub(super) fn is_enough(&self) -> bool {
        self.0.get() >= MOST
    }
}
