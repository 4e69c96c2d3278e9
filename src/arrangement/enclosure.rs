//! The enclosure as mounted: all figures already turned into the mounted position.

use crate::catalogue::{
    Certificate, DefinedArrangement, Material, Most, MountingPlate, RatedPower,
};
use crate::space::{Face, Interior, Rect};
use crate::standards::threads::Thread;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// How an enclosure is mounted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Orientation {
    /// As the catalogue describes it.
    Upright,
    /// Turned a quarter clockwise, seen from the front.
    Turned,
}

impl Orientation {
    /// The word used in text.
    pub fn words(self) -> &'static str {
        match self {
            Orientation::Upright => "upright",
            Orientation::Turned => "turned",
        }
    }
}

/// The enclosure of an arrangement.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct EnclosureRecord {
    /// Catalogue id.
    pub id: String,
    /// Line of the parts list.
    pub description: String,
    /// How it is mounted.
    pub orientation: Orientation,
    /// Body material.
    pub material: Material,
    /// Outer width, height and depth as mounted.
    pub outer_mm: [f64; 3],
    /// Clear inside as mounted.
    pub interior: Interior,
    /// Wall thickness.
    pub wall_thickness_mm: f64,
    /// Mounting plate as mounted.
    pub plate: MountingPlate,
    /// Usable rectangle of the lid as mounted (u is x, v is y).
    pub lid: Rect,
    /// Wall of the hinge as mounted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hinge: Option<Face>,
    /// Walls that may be drilled, as mounted.
    pub walls: BTreeMap<Face, WallRecord>,
    /// Certificate data.
    pub certificate: Certificate,
    /// Rated voltage.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rated_voltage_v: Option<f64>,
    /// Rated current.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rated_current_a: Option<f64>,
    /// Impact energy tested, J.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub impact_j: Option<f64>,
    /// Most terminals by certificate, or `not limited`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most_terminals: Option<Most<u32>>,
    /// Rated dissipated power rows.
    pub rated_power: Vec<RatedPower>,
    /// Defined arrangement rows.
    pub defined_arrangement: Vec<DefinedArrangement>,
    /// Largest conductor that the enclosure's own earth terminal inside takes, mm². Missing: not known to have one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub internal_earth_mm2: Option<f64>,
    /// Largest conductor of the external earth terminal, mm².
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub external_earth_mm2: Option<f64>,
    /// Mass of the empty enclosure.
    pub mass_kg: f64,
    /// Price of the empty enclosure.
    pub price: f64,
    /// Lead time, days.
    pub lead_time_days: u32,
}

/// A wall of an arrangement.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct WallRecord {
    /// Drillable rectangles in wall coordinates.
    pub areas: Vec<Rect>,
    /// Rectangles that no entry may reach into, such as ribs and bosses.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub blocked: Vec<Rect>,
    /// Whether they are on flange plates.
    pub flange_plate: bool,
    /// Largest thread permitted.
    pub largest_thread: Thread,
    /// Certified number of entries by thread, or `not limited`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most_entries: Option<Most<BTreeMap<Thread, u32>>>,
}
