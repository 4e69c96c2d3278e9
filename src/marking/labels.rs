//! The list of labels that a box needs. Knows nothing of how they are made.

use super::warnings::INTRINSIC;
use crate::arrangement::{Arrangement, PlacedElement};
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
    /// Legend of an operating element.
    Element,
    /// Tag of an operating element, for who wires it.
    ElementTag,
    /// Label of a terminal strip.
    Strip,
    /// Number on a terminal.
    TerminalNumber,
    /// Marking of the pole or conductor on a terminal.
    TerminalMarking,
    /// Tag on a cable at its entry.
    Cable,
}

impl LabelKind {
    /// The words used in text and lists.
    pub const fn words(self) -> &'static str {
        match self {
            LabelKind::TagPlate => "tag plate",
            LabelKind::TypePlate => "type plate",
            LabelKind::Warning => "warning",
            LabelKind::EarthSymbol => "earth symbol",
            LabelKind::Element => "element legend",
            LabelKind::ElementTag => "element tag",
            LabelKind::Strip => "strip marker",
            LabelKind::TerminalNumber => "terminal number",
            LabelKind::TerminalMarking => "terminal marking",
            LabelKind::Cable => "cable tag",
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
    /// Its colour, where the catalogue or a rule gives one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub colour: Option<String>,
    /// Why it is there or has its colour; empty where that needs no words.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub reason: String,
}

impl Label {
    pub(super) fn new(kind: LabelKind, place: impl Into<String>, text: impl Into<String>) -> Label {
        Label {
            kind,
            place: place.into(),
            text: text.into(),
            colour: None,
            reason: String::new(),
        }
    }

    pub(super) fn because(self, reason: impl Into<String>) -> Label {
        Label {
            reason: reason.into(),
            ..self
        }
    }

    fn coloured(self, colour: impl Into<String>) -> Label {
        Label {
            colour: Some(colour.into()),
            ..self
        }
    }
}

/// The labels that follow from the arrangement alone, in the order in which they are fitted from
/// outside to inside.
pub(super) fn labels(arrangement: &Arrangement) -> Vec<Label> {
    let job = &arrangement.job;
    let title = [job.tag.as_str(), job.title.as_str()].join("  ");
    let mut found = vec![Label::new(LabelKind::TagPlate, "outside", title.trim())];
    for element in &arrangement.elements {
        found.extend(of_element(element));
    }
    for strip in &arrangement.strips {
        found.push(match strip.kind {
            CircuitKind::ExE => Label::new(LabelKind::Strip, &strip.name, &strip.name),
            CircuitKind::IntrinsicallySafe => Label::new(
                LabelKind::Strip,
                &strip.name,
                format!("{}  INTRINSICALLY SAFE", strip.name),
            )
            .coloured("light blue")
            .because(INTRINSIC.to_string()),
        });
    }
    for strip in &arrangement.strips {
        let terminals = arrangement.terminals.iter();
        let own = terminals.filter(|terminal| terminal.strip == strip.name);
        found.extend(own.clone().map(|terminal| {
            let number = terminal.number.to_string();
            Label::new(LabelKind::TerminalNumber, &terminal.id, number)
        }));
        let marked = own.filter(|terminal| !terminal.marking.is_empty());
        found.extend(marked.map(|terminal| {
            Label::new(LabelKind::TerminalMarking, &terminal.id, &terminal.marking)
        }));
    }
    for cable in &arrangement.cables {
        found.push(Label::new(LabelKind::Cable, &cable.entry, &cable.tag));
    }
    found
}

/// Legend and tag of an element; without a legend of its own the tag is what is read.
fn of_element(element: &PlacedElement) -> Vec<Label> {
    let legend = if element.label.is_empty() {
        &element.tag
    } else {
        &element.label
    };
    let label = Label::new(LabelKind::Element, &element.tag, legend);
    let label = match &element.background {
        Some(background) => label
            .coloured(background)
            .because("background of the element by the catalogue"),
        None => label,
    };
    vec![
        label,
        Label::new(LabelKind::ElementTag, &element.tag, &element.tag),
    ]
}
