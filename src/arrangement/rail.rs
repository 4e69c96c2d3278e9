//! Rails and what stands on them.

use crate::catalogue::{
    AccessoryKind, Certificate, CircuitKind, ClampRange, Material, SectionRating, TerminalFunction,
};
use crate::space::Block;
use serde::{Deserialize, Serialize};

/// A rail on the mounting plate, horizontal as mounted.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct PlacedRail {
    /// Id in this arrangement: `RL1` is the lowest.
    pub id: String,
    /// Catalogue id.
    pub part: String,
    /// Profile, such as `TH35-7.5`.
    pub profile: String,
    /// Cut length, whole millimetres.
    pub length_mm: f64,
    /// The rail's envelope; its front face (greatest z) carries the terminals.
    pub body: Block,
    /// Mass of the cut piece.
    pub mass_kg: f64,
    /// Price of the cut piece.
    pub price: f64,
}

/// A terminal strip: terminals of one group that are numbered together.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct StripRecord {
    /// Name, such as `X1`.
    pub name: String,
    /// Group of its circuits, such as `control`.
    pub group: String,
    /// Kind of its circuits.
    pub kind: CircuitKind,
}

/// The side of a terminal on which a conductor enters; rails lie horizontally.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// From above (greater y).
    Upper,
    /// From below.
    Lower,
}

impl Side {
    /// The other side.
    pub fn other(self) -> Side {
        match self {
            Side::Upper => Side::Lower,
            Side::Lower => Side::Upper,
        }
    }
}

/// A placed terminal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct PlacedTerminal {
    /// Strip and number, such as `X1:3`.
    pub id: String,
    /// Strip.
    pub strip: String,
    /// Number within the strip.
    pub number: u32,
    /// Marking of the pole or conductor, such as `L1` or `PE`; empty for a spare terminal.
    pub marking: String,
    /// Catalogue id.
    pub part: String,
    /// Line of the parts list.
    pub description: String,
    /// Rail it stands on.
    pub rail: String,
    /// What it does.
    pub function: TerminalFunction,
    /// Kind of circuit it carries (of its strip, if spare).
    pub kind: CircuitKind,
    /// Whether the part is certified for this kind of circuit.
    pub part_circuits: Vec<CircuitKind>,
    /// Whether it is spare.
    pub spare: bool,
    /// Envelope of the body.
    pub body: Block,
    /// Bare live parts, one block a level. An earth terminal's block carries the potential `PE`.
    pub live: Vec<LivePart>,
    /// Its clamps.
    pub clamps: Vec<Clamp>,
    /// Highest working voltage of its circuits, V; 0 for earth and spare.
    pub working_voltage_v: f64,
    /// Largest continuous current through it, A, simultaneity not applied.
    pub current_a: f64,
    /// Sections its clamps take.
    pub clamp_range: ClampRange,
    /// Most conductors under one clamp.
    pub conductors_per_clamp: u32,
    /// Rated voltage of the part.
    pub rated_voltage_v: f64,
    /// Rated currents of the part by section.
    pub ratings: Vec<SectionRating>,
    /// Resistance of one current path at 20 °C.
    pub resistance_mohm: f64,
    /// Comparative tracking index.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tracking_index: Option<f64>,
    /// Certified distance between live parts of equal neighbours.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub neighbour_distance_mm: Option<f64>,
    /// Temperature rise of the hottest part at the largest rated current, K.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rise_at_rated_k: Option<f64>,
    /// Rail profiles it snaps on.
    pub rail_profiles: Vec<String>,
    /// Whether its right-hand side is open and needs an end plate unless an equal terminal follows.
    pub open_side: bool,
    /// Colour of the body.
    #[serde(default)]
    pub colour: String,
    /// Whether its clamps are spring clamps, which are not tightened and have no torque.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub spring_clamp: bool,
    /// Tightening torque.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub torque_nm: Option<f64>,
    /// Stripping length.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strip_mm: Option<f64>,
    /// Certificate data of the part.
    pub certificate: Certificate,
    /// Mass.
    pub mass_kg: f64,
    /// Price.
    pub price: f64,
}

/// A block of bare live metal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct LivePart {
    /// The potential it carries: `circuit/pole`, joined poles share the first one's name; `PE` for
    /// earth; an unused core is a potential of its own, `cable/core`; empty on a spare terminal.
    pub potential: String,
    /// Where it is.
    pub block: Block,
}

/// One clamp of a terminal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Clamp {
    /// Level: 0 is the lower one (the only one of most terminals).
    pub level: u32,
    /// Side.
    pub side: Side,
    /// Ids of the wires under it.
    pub wires: Vec<String>,
}

/// An end stop, end plate or partition on a rail.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct PlacedAccessory {
    /// Id in this arrangement.
    pub id: String,
    /// Catalogue id.
    pub part: String,
    /// Line of the parts list.
    pub description: String,
    /// What kind.
    pub kind: AccessoryKind,
    /// Rail it stands on.
    pub rail: String,
    /// Material; missing in older files, and then it counts as metal that shields nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub material: Option<Material>,
    /// Envelope.
    pub body: Block,
    /// Certificate data.
    pub certificate: Certificate,
    /// Mass.
    pub mass_kg: f64,
    /// Price.
    pub price: f64,
}

/// A jumper over neighbouring terminals.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct PlacedJumper {
    /// Id in this arrangement.
    pub id: String,
    /// Catalogue id.
    pub part: String,
    /// Line of the parts list.
    pub description: String,
    /// Ids of the terminals it links, from left to right.
    pub terminals: Vec<String>,
    /// Poles of the part; a longer one is cut.
    pub poles: u32,
    /// Rated current of the part.
    pub rated_current_a: f64,
    /// Largest current through it.
    pub current_a: f64,
    /// Current for the heat calculation: with simultaneity applied, A.
    pub heat_current_a: f64,
    /// Resistance between two neighbouring terminals at 20 °C.
    pub resistance_mohm: f64,
    /// Certificate data.
    pub certificate: Certificate,
    /// Mass.
    pub mass_kg: f64,
    /// Price.
    pub price: f64,
}
