//! Operating elements.

use crate::catalogue::{ContactKind, ElementKind};
use crate::source::Place;

/// One operating element.
#[derive(Debug, Clone)]
pub struct ElementRequirement {
    /// Tag, unique among cables and elements.
    pub tag: String,
    /// Kind.
    pub kind: ElementKind,
    /// What it does, such as `start` or `stop`.
    pub function: String,
    /// Text of the label.
    pub label: String,
    /// Colour of actuator or lens; `None`: any.
    pub colour: Option<String>,
    /// Number of positions of a selector.
    pub positions: Option<u32>,
    /// Contacts in order, each with its two points.
    pub contacts: Vec<Contact>,
    /// The element's own points that the list may wire, such as `X1`, `X2`.
    pub own_points: Vec<String>,
    /// Id of the element that the list names.
    pub part: Option<String>,
    /// Where it should be placed.
    pub placing: Placing,
    /// Where the list says so.
    pub place: Place,
}

/// One contact of an element.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Contact {
    /// Which way it works.
    pub kind: ContactKind,
    /// Names of its two points, such as `13` and `14` (IEC 60947-5-1).
    pub points: [String; 2],
}

/// Placing of an element on the lid.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Placing {
    /// Row from the top, from 1. Elements of one row number share a row; rows follow the numbers.
    pub row: Option<u32>,
    /// Order in the row, from the left.
    pub order: Option<u32>,
    /// Index of an element that this one must stand above, in a higher row.
    pub above: Option<usize>,
    /// Index of an element that this one must stand beside, in the same row.
    pub beside: Option<usize>,
}
