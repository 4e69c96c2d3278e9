//! Entries in the walls.

use crate::catalogue::{Certificate, EntryEnvelope, Material};
use crate::space::{Block, Face};
use crate::standards::threads::Thread;
use serde::{Deserialize, Serialize};

/// What an entry is for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum EntryPurpose {
    /// Carries the cable with this tag.
    Cable(String),
    /// Spare, closed with a stopping plug; its room is that of a gland of the same thread.
    Spare,
    /// Lets the box breathe and drain.
    Breather,
}

/// An entry in a wall.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct PlacedEntry {
    /// Id in this arrangement, such as `E1`.
    pub id: String,
    /// What it is for.
    pub purpose: EntryPurpose,
    /// Wall.
    pub wall: Face,
    /// Centre on the wall, u.
    pub u_mm: f64,
    /// Centre on the wall, v.
    pub v_mm: f64,
    /// Thread in the wall.
    pub thread: Thread,
    /// Diameter of the hole.
    pub hole_mm: f64,
    /// Diameter kept free on the wall: the larger of outside and inside envelope.
    pub envelope_mm: f64,
    /// Envelope inside the box.
    pub inside: Block,
    /// Envelope outside the box.
    pub outside: Block,
    /// The gland, plug or breather.
    pub part: EntryPart,
    /// Earth plate of a metal part in a plastic wall.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub earth_plate: Option<EarthPlateRecord>,
}

/// The part in an entry with the figures that limit it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct EntryPart {
    /// Catalogue id.
    pub id: String,
    /// Line of the parts list.
    pub description: String,
    /// Material.
    pub material: Material,
    /// Colour.
    #[serde(default)]
    pub colour: String,
    /// Sheath diameters it clamps; missing for plugs and breathers.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clamping_mm: Option<[f64; 2]>,
    /// Diameters under the armour it takes; missing without armour clamp.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub under_armour_mm: Option<[f64; 2]>,
    /// Whether it is marked for intrinsically safe cables only.
    pub for_intrinsically_safe: bool,
    /// Room taken.
    pub envelope: EntryEnvelope,
    /// Wall thickness it can be mounted in.
    pub wall_mm: [f64; 2],
    /// Spanner size across flats; missing for plugs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spanner_mm: Option<f64>,
    /// Tightening torque of the body in the wall.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub torque_nm: Option<f64>,
    /// Certificate data.
    pub certificate: Certificate,
    /// Mass.
    pub mass_kg: f64,
    /// Price.
    pub price: f64,
}

/// The part that earths a metal gland in a plastic wall.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct EarthPlateRecord {
    /// Catalogue id.
    pub id: String,
    /// Line of the parts list.
    pub description: String,
    /// Certificate data; nothing of them is known from older files.
    #[serde(default)]
    pub certificate: Certificate,
    /// Mass.
    pub mass_kg: f64,
    /// Price.
    pub price: f64,
}
