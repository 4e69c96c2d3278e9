//! Where conductors go, in words.

use crate::arrangement::{Side, Wire, WireEnd};

/// The end of a wire that is not under the named clamp, in words: `cable/core`, `element/point`, or the
/// id of a terminal.
pub(super) fn far_end(wire: &Wire, terminal: &str, level: u32, side: Side) -> String {
    let is_here = |end: &WireEnd| {
        matches!(end, WireEnd::Terminal { terminal: id, level: l, side: s }
            if id == terminal && *l == level && *s == side)
    };
    end_words(if is_here(&wire.from) { &wire.to } else { &wire.from })
}

/// An end of a wire in words.
pub(super) fn end_words(end: &WireEnd) -> String {
    match end {
        WireEnd::Core { cable, core } => format!("{cable}/{core}"),
        WireEnd::Terminal { terminal, .. } => terminal.clone(),
        WireEnd::Contact { element, point } => format!("{element}/{point}"),
    }
}
