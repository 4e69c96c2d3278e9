//! Operating elements in the lid.

use super::rail::LivePart;
use crate::catalogue::{
    Certificate, CircuitKind, ClampRange, ContactKind, ElementKind, UtilisationRating,
};
use crate::space::{Block, Rect};
use serde::{Deserialize, Serialize};

/// A placed operating element.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct PlacedElement {
    /// Tag of the list, such as `PB1`.
    pub tag: String,
    /// Catalogue id.
    pub part: String,
    /// Line of the parts list.
    pub description: String,
    /// What kind.
    pub kind: ElementKind,
    /// What it does, such as `start`.
    #[serde(default)]
    pub function: String,
    /// Text of the label.
    #[serde(default)]
    pub label: String,
    /// Colour of actuator or lens.
    #[serde(default)]
    pub colour: String,
    /// Background colour.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub background: Option<String>,
    /// Positions of a selector; missing for other elements and in older files.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub positions: Option<u32>,
    /// Whether it latches.
    pub latching: bool,
    /// Row on the lid, counted from the top, from 1.
    pub row: u32,
    /// Centre on the lid.
    pub x_mm: f64,
    /// Centre on the lid.
    pub y_mm: f64,
    /// Width and height of the hole.
    pub hole_mm: [f64; 2],
    /// Hole size by standard, such as `D22`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hole: Option<String>,
    /// Footprint on the lid with label.
    pub footprint: Rect,
    /// Envelope behind the lid, contact blocks included.
    pub body: Block,
    /// Bare live parts.
    pub live: Vec<LivePart>,
    /// Contacts and the element's own circuit.
    pub contacts: Vec<PlacedContact>,
    /// Power dissipated in operation.
    pub power_w: f64,
    /// Certificate data of the element.
    pub certificate: Certificate,
    /// Mass without contact blocks.
    pub mass_kg: f64,
    /// Price without contact blocks.
    pub price: f64,
}

/// One contact block, or the element's own current path (lamp, meter, potentiometer).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct PlacedContact {
    /// Catalogue id of the block; missing for the element's own path.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<String>,
    /// Line of the parts list; empty for the element's own path.
    #[serde(default)]
    pub description: String,
    /// Which way a contact works; missing for the element's own path.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub contact: Option<ContactKind>,
    /// Terminal points with the wires on them.
    pub points: Vec<ContactPoint>,
    /// Kinds of circuit it may carry.
    pub circuits: Vec<CircuitKind>,
    /// Rated voltage.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rated_voltage_v: Option<f64>,
    /// Rated current.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rated_current_a: Option<f64>,
    /// Ratings by utilisation category; none for the element's own path.
    #[serde(default)]
    pub utilisation: Vec<UtilisationRating>,
    /// Resistance of the closed contact at 20 °C; 0 for the element's own path.
    pub resistance_mohm: f64,
    /// Sections its clamps take.
    pub clamp_range: ClampRange,
    /// Whether its clamps are spring clamps, which are not tightened and have no torque.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub spring_clamp: bool,
    /// Tightening torque of its clamps; missing where the catalogue does not give it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub torque_nm: Option<f64>,
    /// Stripping length of its conductors; missing where the catalogue does not give it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strip_mm: Option<f64>,
    /// Certificate data of the block; that of the element for its own path.
    pub certificate: Certificate,
    /// Mass of the block.
    pub mass_kg: f64,
    /// Price of the block.
    pub price: f64,
}

/// A terminal point of a contact.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct ContactPoint {
    /// Name, such as `13` or `X1`.
    pub name: String,
    /// The potential on it; empty where nothing is wired.
    pub potential: String,
    /// Ids of the wires on it.
    pub wires: Vec<String>,
    /// Working voltage, V; 0 where nothing is wired.
    pub working_voltage_v: f64,
    /// Continuous current, A.
    pub current_a: f64,
}
