//! The heat calculation by rated dissipated power, with every term.

use crate::standards::iec_60079_0::TemperatureClass;
use serde::{Deserialize, Serialize};

/// The heat calculation of an arrangement.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RatedHeat {
    /// Temperature at which resistances are taken, °C.
    pub reference_c: f64,
    /// Conductor length per connected conductor: the space diagonal of the inside.
    pub conductor_length_mm: f64,
    /// Temperature class of the row used.
    pub row_class: TemperatureClass,
    /// Ambient temperature of the row used, °C.
    pub row_ambient_c: f64,
    /// Rated dissipated power of the row.
    pub rated_power_w: f64,
    /// Share kept free, percent.
    pub reserve_percent: f64,
    /// Power that may be used: rated less reserve.
    pub permitted_power_w: f64,
    /// Every term.
    pub lines: Vec<HeatLine>,
    /// Sum of the terms.
    pub power_w: f64,
    /// Sum with resistances at the limit temperature of the class, for information.
    pub power_at_limit_w: f64,
    /// The temperature of that second sum, °C.
    pub limit_c: f64,
    /// Whether the box must keep the certificate's defined arrangement too; where not, the rated power
    /// alone decides and the defined arrangement informs.
    #[serde(default)]
    pub defined_arrangement_decides: bool,
}

/// What a line of the heat calculation sums up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum HeatLineKind {
    /// Conductors of one section, build and current.
    Conductors,
    /// Terminals of one type and current.
    Terminals,
    /// Jumpers of one type and current.
    Jumpers,
    /// Contacts of one type and current.
    Contacts,
    /// Lamps, meters, potentiometers.
    Elements,
}

/// One line: `count` equal items.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct HeatLine {
    /// What it sums up.
    pub kind: HeatLineKind,
    /// Words for the reader, such as `conductors 1.5 mm² stranded`.
    pub item: String,
    /// Number of equal items.
    pub count: u32,
    /// Current, A; 0 where the power is given.
    pub current_a: f64,
    /// Resistance of one item at the reference temperature; 0 where the power is given.
    pub resistance_mohm: f64,
    /// Power of all items of the line.
    pub power_w: f64,
}
