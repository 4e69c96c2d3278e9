//! What closes an entry: glands, stopping plugs, thread adapters, breathers.

use super::{Certificate, Material};
use crate::standards::threads::Thread;
use serde::{Deserialize, Serialize};

/// The room that an entry part takes on and behind the wall.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct EntryEnvelope {
    /// Largest diameter outside (hexagon across corners).
    pub outside_mm: f64,
    /// Largest diameter inside (locknut across corners).
    pub inside_mm: f64,
    /// Reach out of the wall.
    pub reach_out_mm: f64,
    /// Reach into the box behind the wall's inner face (locknut and thread end).
    pub reach_in_mm: f64,
}

impl EntryEnvelope {
    /// The diameter that counts for distances: the larger of outside and inside.
    pub fn diameter_mm(&self) -> f64 {
        self.outside_mm.max(self.inside_mm)
    }
}

/// One cable gland.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Gland {
    /// Unique id.
    pub id: String,
    /// A line for the parts list.
    #[serde(default)]
    pub description: String,
    /// Entry thread.
    pub thread: Thread,
    /// Diameter over the outer sheath that is clamped and sealed, smallest and largest.
    pub clamping_mm: [f64; 2],
    /// For armoured cable: diameter under the armour (inner sheath), smallest and largest. Missing:
    /// no armour clamp.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub under_armour_mm: Option<[f64; 2]>,
    /// Body material.
    pub material: Material,
    /// Colour of the body; light blue marks glands for intrinsically safe cables.
    #[serde(default)]
    pub colour: String,
    /// Whether the colour marks it for intrinsically safe cables only.
    #[serde(default)]
    pub for_intrinsically_safe: bool,
    /// Room taken.
    pub envelope: EntryEnvelope,
    /// Length of the entry thread.
    pub thread_length_mm: f64,
    /// Wall thickness it can be mounted in with its locknut, least and most.
    pub wall_mm: [f64; 2],
    /// Diameter of the clearance hole.
    pub hole_mm: f64,
    /// Spanner size across flats.
    pub spanner_mm: f64,
    /// Tightening torque of the body in the wall.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub torque_nm: Option<f64>,
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

/// What kind of closing part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum PlugKind {
    /// Stopping plug for an unused entry.
    StoppingPlug,
    /// Breather and drain.
    Breather,
}

/// A stopping plug or a breather.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Plug {
    /// Unique id.
    pub id: String,
    /// A line for the parts list.
    #[serde(default)]
    pub description: String,
    /// What kind.
    pub kind: PlugKind,
    /// Entry thread.
    pub thread: Thread,
    /// Material.
    pub material: Material,
    /// Room taken.
    pub envelope: EntryEnvelope,
    /// Wall thickness it can be mounted in, least and most.
    pub wall_mm: [f64; 2],
    /// Diameter of the clearance hole.
    pub hole_mm: f64,
    /// Tightening torque.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub torque_nm: Option<f64>,
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

/// A thread adapter between wall and gland.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Adapter {
    /// Unique id.
    pub id: String,
    /// A line for the parts list.
    #[serde(default)]
    pub description: String,
    /// Thread into the wall.
    pub male: Thread,
    /// Thread for the gland.
    pub female: Thread,
    /// Material.
    pub material: Material,
    /// Room taken.
    pub envelope: EntryEnvelope,
    /// Wall thickness it can be mounted in, least and most.
    pub wall_mm: [f64; 2],
    /// Diameter of the clearance hole.
    pub hole_mm: f64,
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
