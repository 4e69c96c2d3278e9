//! Enclosures as a catalogue describes them, seen from the front in their upright position.

use super::{Certificate, Most};
use crate::space::Face;
use crate::standards::iec_60079_0::TemperatureClass;
use crate::standards::threads::Thread;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What an enclosure or a gland is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Material {
    /// Glass-fibre reinforced polyester.
    Grp,
    /// Stainless steel.
    Stainless,
    /// Painted sheet steel.
    Steel,
    /// Aluminium alloy.
    Aluminium,
    /// Nickel-plated or plain brass (glands, plugs).
    Brass,
    /// Polyamide (glands, plugs, accessories).
    Polyamide,
}

impl Material {
    /// Whether the material conducts, so that a wall made of it is earthed metal.
    pub fn is_metal(self) -> bool {
        !matches!(self, Material::Grp | Material::Polyamide)
    }

    /// The name used in files and text.
    pub fn name(self) -> &'static str {
        match self {
            Material::Grp => "grp",
            Material::Stainless => "stainless",
            Material::Steel => "steel",
            Material::Aluminium => "aluminium",
            Material::Brass => "brass",
            Material::Polyamide => "polyamide",
        }
    }

    /// The name used in sentences.
    pub fn words(self) -> &'static str {
        match self {
            Material::Grp => "GRP",
            Material::Stainless => "stainless steel",
            Material::Steel => "painted steel",
            other => other.name(),
        }
    }
}

impl std::fmt::Display for Material {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter.write_str(self.name())
    }
}

/// The direction of a rail in the upright enclosure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum RailDirection {
    /// Along x.
    Horizontal,
    /// Along y.
    Vertical,
}

/// One certified enclosure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Enclosure {
    /// Unique id.
    pub id: String,
    /// A line for the parts list.
    #[serde(default)]
    pub description: String,
    /// Body material.
    pub material: Material,
    /// Outer width, height and depth without flange plates and feet.
    pub outer_mm: [f64; 3],
    /// Clear inside width, height and depth.
    pub inner_mm: [f64; 3],
    /// Thickness of the walls that carry entries.
    pub wall_thickness_mm: f64,
    /// Whether the certificate and the fixing allow mounting it turned by a quarter.
    #[serde(default)]
    pub turnable: bool,
    /// Rail directions that the mounting plate takes, in the upright position.
    #[serde(default = "horizontal_only")]
    pub rail_directions: Vec<RailDirection>,
    /// The plate or fixing bosses that carry the rails.
    pub plate: MountingPlate,
    /// The lid.
    pub lid: Lid,
    /// Walls that may be drilled, by name (`bottom`, `right`, `top`, `left`).
    #[serde(default)]
    pub walls: BTreeMap<Face, EntryWall>,
    /// Certificate data of the enclosure.
    pub certificate: Certificate,
    /// Highest rated voltage, V.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rated_voltage_v: Option<f64>,
    /// Highest rated current of any circuit, A.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rated_current_a: Option<f64>,
    /// Energy of the impact test that was passed, J.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub impact_j: Option<f64>,
    /// Most terminals that the certificate allows, or that it states no limit. Missing: not known, and then it
    /// takes none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most_terminals: Option<Most<u32>>,
    /// Rated dissipated power by temperature class and ambient.
    #[serde(default)]
    pub rated_power: Vec<RatedPower>,
    /// Defined arrangement: most conductors by section and current.
    #[serde(default)]
    pub defined_arrangement: Vec<DefinedArrangement>,
    /// Whether the certificate asks for its defined arrangement beside the rated power.
    #[serde(default)]
    pub defined_arrangement_decides: bool,
    /// Largest conductor that the enclosure's own earth terminal inside takes, mm². Missing: not known to have one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub internal_earth_mm2: Option<f64>,
    /// Largest conductor that the external earth terminal takes, mm². Missing: there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub external_earth_mm2: Option<f64>,
    /// Mass of the empty enclosure with its plate.
    pub mass_kg: f64,
    /// Price of the empty enclosure in the catalogue's currency.
    pub price: f64,
    /// Usual lead time, days.
    #[serde(default)]
    pub lead_time_days: u32,
}

fn horizontal_only() -> Vec<RailDirection> {
    vec![RailDirection::Horizontal]
}

/// The plate (or the plane of the fixing bosses) that carries the rails.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct MountingPlate {
    /// Left edge, x.
    pub x_mm: f64,
    /// Lower edge, y.
    pub y_mm: f64,
    /// Extent along x.
    pub width_mm: f64,
    /// Extent along y.
    pub height_mm: f64,
    /// Height of the plate's face (on which rails stand) over the inside of the back wall.
    pub standoff_mm: f64,
}

/// The lid and where elements may be placed on it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Lid {
    /// Left edge of the usable rectangle, x.
    pub x_mm: f64,
    /// Lower edge of the usable rectangle, y.
    pub y_mm: f64,
    /// Extent of the usable rectangle along x; 0 where the lid must not be drilled.
    pub width_mm: f64,
    /// Extent of the usable rectangle along y.
    pub height_mm: f64,
    /// The wall at which the lid is hinged in the upright position; missing for a screwed lid.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hinge: Option<Face>,
}

/// A wall that may be drilled.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct EntryWall {
    /// Drillable rectangles as `[u, v, width, height]` in wall coordinates.
    pub areas_mm: Vec<[f64; 4]>,
    /// Rectangles `[u, v, width, height]` that no entry may reach into, such as ribs, bosses and the fixing of
    /// a hinge.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub blocked_mm: Vec<[f64; 4]>,
    /// Whether the areas are on removable flange plates.
    #[serde(default)]
    pub flange_plate: bool,
    /// The largest thread permitted in this wall.
    pub largest_thread: Thread,
    /// Certified number of entries by thread, or that the certificate states no limit, so that the areas alone
    /// limit it. Missing: not known, and then the wall takes none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most_entries: Option<Most<BTreeMap<Thread, u32>>>,
}

/// A row of the certificate: power that may be dissipated inside.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RatedPower {
    /// Temperature class.
    pub class: TemperatureClass,
    /// Highest ambient temperature of the row, °C.
    pub ambient_c: f64,
    /// Rated dissipated power, W.
    pub power_w: f64,
}

/// A row of the certificate: conductors of one section at one current.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct DefinedArrangement {
    /// Temperature class.
    pub class: TemperatureClass,
    /// Highest ambient temperature of the row, °C.
    pub ambient_c: f64,
    /// Conductor section.
    pub section_mm2: f64,
    /// Largest current of the row.
    pub current_a: f64,
    /// Most conductors of this section at this current.
    pub most_conductors: u32,
}
