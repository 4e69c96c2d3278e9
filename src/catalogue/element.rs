//! Operating elements in the lid and their contact blocks.

use super::{Certificate, ClampRange};
use crate::standards::iec_60947_5_1::UtilisationCategory;
use serde::{Deserialize, Serialize};

/// The eight kinds of operating element.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum ElementKind {
    /// Push-button, spring return.
    PushButton,
    /// Mushroom-head emergency stop, latching.
    EmergencyStop,
    /// Selector or control switch.
    Selector,
    /// Indicator lamp.
    Lamp,
    /// Push-button with a lamp.
    IlluminatedPushButton,
    /// Ammeter.
    Ammeter,
    /// Voltmeter.
    Voltmeter,
    /// Potentiometer.
    Potentiometer,
}

impl ElementKind {
    /// The words used in text.
    pub fn words(self) -> &'static str {
        match self {
            ElementKind::PushButton => "push-button",
            ElementKind::EmergencyStop => "emergency stop",
            ElementKind::Selector => "selector",
            ElementKind::Lamp => "indicator lamp",
            ElementKind::IlluminatedPushButton => "illuminated push-button",
            ElementKind::Ammeter => "ammeter",
            ElementKind::Voltmeter => "voltmeter",
            ElementKind::Potentiometer => "potentiometer",
        }
    }

    /// Whether the element is operated by hand, as against read.
    pub fn is_operated(self) -> bool {
        !matches!(
            self,
            ElementKind::Lamp | ElementKind::Ammeter | ElementKind::Voltmeter
        )
    }
}

/// One operating element: what sits in the lid, without contact blocks.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct OperatingElement {
    /// Unique id.
    pub id: String,
    /// A line for the parts list.
    #[serde(default)]
    pub description: String,
    /// What kind.
    pub kind: ElementKind,
    /// Colour of the actuator or lens; for the emergency stop red.
    #[serde(default)]
    pub colour: String,
    /// Background colour, where there is a plate behind the actuator.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub background: Option<String>,
    /// Number of positions of a selector.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub positions: Option<u32>,
    /// Whether it latches and needs a deliberate reset.
    #[serde(default)]
    pub latching: bool,
    /// Size of the hole by IEC 60947-5-1 (`D16`, `D22`, `D30`); missing for other holes (meters).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hole: Option<String>,
    /// Width and height of the hole in the lid; equal for a round one.
    pub hole_mm: [f64; 2],
    /// Width and height of the footprint outside, with label.
    pub footprint_mm: [f64; 2],
    /// Width and height of the body behind the lid.
    pub body_mm: [f64; 2],
    /// Depth behind the lid's inner face by the number of contact blocks: first entry without any.
    pub depth_mm: Vec<f64>,
    /// Inset of bare live parts (clamps of body and blocks) from the body's sides.
    pub live_inset_mm: f64,
    /// Terminal points of the element itself, such as `X1`, `X2`; empty where only blocks have any.
    #[serde(default)]
    pub points: Vec<String>,
    /// Rated voltage of the element's own points.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rated_voltage_v: Option<f64>,
    /// Rated current of the element's own points.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rated_current_a: Option<f64>,
    /// Power dissipated in operation (lamp, meter, potentiometer).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub power_w: Option<f64>,
    /// Conductor sections of the element's own points.
    #[serde(default)]
    pub clamp: ClampRange,
    /// Whether the clamps of its own points are spring clamps, which are not tightened and have no torque.
    #[serde(default)]
    pub spring_clamp: bool,
    /// Tightening torque of the clamps of its own points. Missing: unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub torque_nm: Option<f64>,
    /// Stripping length at its own points. Missing: unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strip_mm: Option<f64>,
    /// Certificate data.
    pub certificate: Certificate,
    /// Mass.
    pub mass_kg: f64,
    /// Price in the catalogue's currency.
    pub price: f64,
    /// Usual lead time, days. Missing: unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lead_time_days: Option<u32>,
}

impl OperatingElement {
    /// Most contact blocks that it carries.
    pub fn most_blocks(&self) -> usize {
        self.depth_mm.len().saturating_sub(1)
    }
}

/// Which way a contact works.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum ContactKind {
    /// Normally open.
    NO,
    /// Normally closed.
    NC,
}

/// A rating by utilisation category.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct UtilisationRating {
    /// Category by IEC 60947-5-1, such as `AC-15`.
    pub category: UtilisationCategory,
    /// Voltage of the row.
    pub voltage_v: f64,
    /// Rated operational current.
    pub current_a: f64,
}

/// One contact block with one contact.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ContactBlock {
    /// Unique id.
    pub id: String,
    /// A line for the parts list.
    #[serde(default)]
    pub description: String,
    /// Which way the contact works.
    pub contact: ContactKind,
    /// Ids of the elements it fits; empty: every element that carries blocks.
    #[serde(default)]
    pub fits: Vec<String>,
    /// Kinds of circuit it may carry.
    pub circuits: Vec<super::CircuitKind>,
    /// Rated voltage.
    pub rated_voltage_v: f64,
    /// Rated continuous current.
    pub rated_current_a: f64,
    /// Ratings by utilisation category.
    #[serde(default)]
    pub utilisation: Vec<UtilisationRating>,
    /// Resistance of the closed contact at 20 °C.
    pub resistance_mohm: f64,
    /// Conductor sections of its clamps.
    pub clamp: ClampRange,
    /// Whether its clamps are spring clamps, which are not tightened and have no torque.
    #[serde(default)]
    pub spring_clamp: bool,
    /// Tightening torque of its clamps. Missing: unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub torque_nm: Option<f64>,
    /// Stripping length of its conductors. Missing: unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strip_mm: Option<f64>,
    /// Certificate data.
    pub certificate: Certificate,
    /// Mass.
    pub mass_kg: f64,
    /// Price in the catalogue's currency.
    pub price: f64,
    /// Usual lead time, days. Missing: unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lead_time_days: Option<u32>,
}
