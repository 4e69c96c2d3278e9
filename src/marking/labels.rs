//! The list of labels that a box needs. Knows nothing of how they are made.

use crate::arrangement::Arrangement;
use crate::catalogue::CircuitKind;
use serde::Serialize;

/// What a label is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LabelKind {
    /// Tag plate of the box.
    TagPlate,
    /// Type plate with the marking.
    TypePlate,
    /// A warning or note outside.
    Warning,
    /// An earth symbol.
    EarthSymbol,
    /// Label of an operating element.
    Element,
    /// Label of a terminal strip.
    Strip,
    /// Number on a terminal.
    TerminalNumber,
    /// Tag on a cable at its entry.
    Cable,
}

impl LabelKind {
    /// The words used in text.
    pub const fn words(self) -> &'static str {
        match self {
            LabelKind::TagPlate => "tag plate",
            LabelKind::TypePlate => "type plate",
            LabelKind::Warning => "warning",
            LabelKind::EarthSymbol => "earth symbol",
            LabelKind::Element => "element",
            LabelKind::Strip => "strip",
            LabelKind::TerminalNumber => "terminal",
            LabelKind::Cable => "cable",
        }
    }
}

/// One label.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Label {
    /// What it is for.
    pub kind: LabelKind,
    /// Where it goes: an id or tag of the arrangement, or a place in words.
    pub place: String,
    /// What is on it.
    pub text: String,
}

fn label(kind: LabelKind, place: impl Into<String>, text: impl Into<String>) -> Label {
    Label {
        kind,
        place: place.into(),
        text: text.into(),
    }
}

/// The labels that follow from the arrangement alone, in the order in which they are fitted from
/// outside to inside.
pub(super) fn labels(arrangement: &Arrangement) -> Vec<Label> {
    let job = &arrangement.job;
    let title = [job.tag.as_str(), job.title.as_str()].join("  ");
    let mut found = vec![label(LabelKind::TagPlate, "outside", title.trim())];
    for element in &arrangement.elements {
        let text = if element.label.is_empty() {
            &element.tag
        } else {
            &element.label
        };
        found.push(label(LabelKind::Element, &element.tag, text));
    }
    for strip in &arrangement.strips {
        let text = match strip.kind {
            CircuitKind::ExE => strip.name.clone(),
            CircuitKind::IntrinsicallySafe => {
                format!("{}  INTRINSICALLY SAFE, light blue", strip.name)
            }
        };
        found.push(label(LabelKind::Strip, &strip.name, text));
    }
    for terminal in &arrangement.terminals {
        let text = terminal.number.to_string();
        found.push(label(LabelKind::TerminalNumber, &terminal.id, text));
    }
    for cable in &arrangement.cables {
        found.push(label(LabelKind::Cable, &cable.entry, &cable.tag));
    }
    found
}
