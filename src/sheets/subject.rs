//! What shapes of a view and rows of a table stand for: one key for each part, by which a page finds the
//! same part in all of them.

use super::drawing::SubjectKey;

/// A terminal, by strip and number.
pub(super) fn terminal(id: &str) -> SubjectKey {
    SubjectKey::new("terminal", id)
}

/// An entry in a wall.
pub(super) fn entry(id: &str) -> SubjectKey {
    SubjectKey::new("entry", id)
}

/// An operating element.
pub(super) fn element(tag: &str) -> SubjectKey {
    SubjectKey::new("element", tag)
}

/// A cable: no view draws one, tables and links name it.
pub(super) fn cable(tag: &str) -> SubjectKey {
    SubjectKey::new("cable", tag)
}

/// A circuit: no view draws one, tables and links name it.
pub(super) fn circuit(tag: &str) -> SubjectKey {
    SubjectKey::new("circuit", tag)
}

/// A rule of the record: no view draws one, it leads to the parts that it measured.
pub(super) fn rule(id: &str) -> SubjectKey {
    SubjectKey::new("rule", id)
}

/// A rail.
pub(super) fn rail(id: &str) -> SubjectKey {
    SubjectKey::new("rail", id)
}

/// An end stop, end plate or partition.
pub(super) fn accessory(id: &str) -> SubjectKey {
    SubjectKey::new("accessory", id)
}

/// A jumper.
pub(super) fn jumper(id: &str) -> SubjectKey {
    SubjectKey::new("jumper", id)
}
