//! Rail-mounted terminals and what goes with them on the rail.

use super::{Certificate, Material};
use serde::{Deserialize, Serialize};

/// What a terminal does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum TerminalFunction {
    /// One potential, a clamp on either side.
    FeedThrough,
    /// Earth terminal, its clamps connected to the rail.
    Earth,
    /// Feed-through with a disconnecting link.
    Disconnect,
    /// Two potentials one above the other.
    DoubleLevel,
}

impl TerminalFunction {
    /// The word used in text.
    pub fn words(self) -> &'static str {
        match self {
            TerminalFunction::FeedThrough => "feed-through",
            TerminalFunction::Earth => "earth",
            TerminalFunction::Disconnect => "disconnect",
            TerminalFunction::DoubleLevel => "double-level",
        }
    }
}

/// The kind of circuit that a part may carry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum CircuitKind {
    /// Increased safety.
    ExE,
    /// Intrinsically safe.
    IntrinsicallySafe,
}

impl CircuitKind {
    /// The word used in text.
    pub fn words(self) -> &'static str {
        match self {
            CircuitKind::ExE => "Ex e",
            CircuitKind::IntrinsicallySafe => "intrinsically safe",
        }
    }
}

/// How a conductor is built, as clamps distinguish it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum ConductorBuild {
    /// Class 1.
    Solid,
    /// Class 2.
    Stranded,
    /// Class 5, with ferrule.
    Flexible,
}

impl ConductorBuild {
    /// The word used in text.
    pub fn words(self) -> &'static str {
        match self {
            ConductorBuild::Solid => "solid",
            ConductorBuild::Stranded => "stranded",
            ConductorBuild::Flexible => "flexible",
        }
    }
}

/// Sections that a clamp takes, smallest and largest, mm². A missing build is not admitted.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct ClampRange {
    /// Solid conductors.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub solid_mm2: Option<[f64; 2]>,
    /// Stranded conductors.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stranded_mm2: Option<[f64; 2]>,
    /// Flexible conductors with ferrule.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flexible_mm2: Option<[f64; 2]>,
}

impl ClampRange {
    /// The range for one build of conductor.
    pub fn of(&self, build: ConductorBuild) -> Option<[f64; 2]> {
        match build {
            ConductorBuild::Solid => self.solid_mm2,
            ConductorBuild::Stranded => self.stranded_mm2,
            ConductorBuild::Flexible => self.flexible_mm2,
        }
    }

    /// Whether a conductor of this build and section may be clamped.
    pub fn takes(&self, build: ConductorBuild, section_mm2: f64) -> bool {
        self.of(build)
            .is_some_and(|[least, most]| (least..=most).contains(&section_mm2))
    }
}

/// The rated current of a terminal with one conductor section.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct SectionRating {
    /// Conductor section.
    pub section_mm2: f64,
    /// Rated current.
    pub current_a: f64,
}

/// Distances from the terminal's body inwards to its bare live parts.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct LiveInset {
    /// From each side face, along the rail.
    pub sides_mm: f64,
    /// From each end, across the rail, where the conductors enter.
    pub ends_mm: f64,
    /// From the top face downwards.
    pub top_mm: f64,
    /// From the rail upwards.
    pub foot_mm: f64,
}

/// One rail-mounted terminal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Terminal {
    /// Unique id.
    pub id: String,
    /// A line for the parts list.
    #[serde(default)]
    pub description: String,
    /// What it does.
    pub function: TerminalFunction,
    /// Kinds of circuit it may carry.
    pub circuits: Vec<CircuitKind>,
    /// Conductor sections of every clamp.
    pub clamp: ClampRange,
    /// Most conductors under one clamp.
    #[serde(default = "one")]
    pub conductors_per_clamp: u32,
    /// Extent along the rail.
    pub width_mm: f64,
    /// Extent across the rail.
    pub length_mm: f64,
    /// Height over the rail's upper face.
    pub height_mm: f64,
    /// Where the bare live parts lie.
    pub live: LiveInset,
    /// Rated voltage with the part's certificate, V.
    pub rated_voltage_v: f64,
    /// Rated currents by section; between two sections the smaller one's current counts.
    pub ratings: Vec<SectionRating>,
    /// Resistance of one current path at 20 °C.
    pub resistance_mohm: f64,
    /// Temperature rise of the hottest part at the largest rated current, K.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rise_at_rated_k: Option<f64>,
    /// Comparative tracking index of the insulation. Missing: unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tracking_index: Option<f64>,
    /// Certified distance through air and over surface between live parts of equal neighbours.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub neighbour_distance_mm: Option<f64>,
    /// Colour of the body.
    #[serde(default)]
    pub colour: String,
    /// Certificate data.
    pub certificate: Certificate,
    /// Whether its clamps are spring clamps, which are not tightened and have no torque.
    #[serde(default)]
    pub spring_clamp: bool,
    /// Tightening torque.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub torque_nm: Option<f64>,
    /// Stripping length of the conductor.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strip_mm: Option<f64>,
    /// Rail profiles it snaps on.
    pub rails: Vec<String>,
    /// Whether its open side needs an end plate.
    #[serde(default)]
    pub open_side: bool,
    /// Mass.
    pub mass_kg: f64,
    /// Price in the catalogue's currency.
    pub price: f64,
    /// Usual lead time, days. Missing: unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lead_time_days: Option<u32>,
}

fn one() -> u32 {
    1
}

impl Terminal {
    /// Number of separate current paths, one above the other.
    pub fn levels(&self) -> u32 {
        if self.function == TerminalFunction::DoubleLevel {
            2
        } else {
            1
        }
    }

    /// Rated current with a conductor of the given section: the row of the largest section that is
    /// not above it. `None` where the section lies below the first row: nothing is extrapolated.
    pub fn rated_current_a(&self, section_mm2: f64) -> Option<f64> {
        self.ratings
            .iter()
            .filter(|row| row.section_mm2 <= section_mm2)
            .max_by(|a, b| a.section_mm2.total_cmp(&b.section_mm2))
            .map(|row| row.current_a)
    }
}

/// What kind of accessory a part is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum AccessoryKind {
    /// Holds a row of terminals at either end of a rail.
    EndStop,
    /// Closes the open side of the last terminal of a kind.
    EndPlate,
    /// Separates neighbouring groups.
    Partition,
    /// Links neighbouring terminals.
    Jumper,
    /// Connects the metal body of a gland in a plastic wall to earth.
    EarthPlate,
}

/// A part that goes with terminals on the rail, or with a gland in a wall.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Accessory {
    /// Unique id.
    pub id: String,
    /// A line for the parts list.
    #[serde(default)]
    pub description: String,
    /// What kind.
    pub kind: AccessoryKind,
    /// Ids of the terminals it fits; empty: any terminal on the same rail profile.
    #[serde(default)]
    pub fits: Vec<String>,
    /// Extent along the rail; 0 for jumpers and earth plates.
    #[serde(default)]
    pub width_mm: f64,
    /// Extent across the rail.
    #[serde(default)]
    pub length_mm: f64,
    /// Height over the rail.
    #[serde(default)]
    pub height_mm: f64,
    /// Jumper: number of terminals it links.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub poles: Option<u32>,
    /// Jumper: rated current.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub current_a: Option<f64>,
    /// Jumper: resistance between two neighbouring terminals at 20 °C.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub resistance_mohm: Option<f64>,
    /// Earth plate: thread of the glands it fits.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thread: Option<crate::standards::threads::Thread>,
    /// Material.
    pub material: Material,
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

/// A rail by the metre.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Rail {
    /// Unique id.
    pub id: String,
    /// A line for the parts list.
    #[serde(default)]
    pub description: String,
    /// Profile, such as `TH35-7.5` (IEC 60715).
    pub profile: String,
    /// Overall width across the rail.
    pub width_mm: f64,
    /// Height over the mounting plate.
    pub height_mm: f64,
    /// Longest piece that can be cut.
    pub stock_length_mm: f64,
    /// Mass per metre.
    pub mass_kg_per_m: f64,
    /// Price per metre in the catalogue's currency.
    pub price_per_m: f64,
    /// Usual lead time, days. Missing: unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lead_time_days: Option<u32>,
}
