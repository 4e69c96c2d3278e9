//! The result: what is where, in millimetres. Knows nothing of how it was found.
//!
//! An [`Arrangement`] is a plain value that is saved as JSON and read again without loss. It is
//! self-contained: with each part come its envelope, its live parts and the figures of the catalogue
//! that limit it, so that it can be checked without the catalogue it was made from. The fields are
//! described in docs/arrangement.md. Coordinates are those of [`crate::space`].

mod circuit;
mod element;
mod enclosure;
mod entry;
mod heat;
mod layout;
mod limits;
mod notice;
mod proof;
mod rail;

pub use circuit::{CableRecord, CircuitRecord, PoleRecord, Wire, WireEnd};
pub use element::{ContactPoint, PlacedContact, PlacedElement};
pub use enclosure::{EnclosureRecord, Orientation, WallRecord};
pub use entry::{EarthPlateRecord, EntryPart, EntryPurpose, PlacedEntry};
pub use heat::{HeatLine, HeatLineKind, RatedHeat};
pub use layout::LayoutRecord;
pub use limits::{Limits, WiringSpaceStep};
pub use notice::{NoticePlace, NoticeRecord};
pub use proof::{CandidateName, EntryPlacing, ProofRecord};
pub use rail::{
    Clamp, LivePart, PlacedAccessory, PlacedJumper, PlacedRail, PlacedTerminal, Side, StripRecord,
};

use crate::standards::iec_60079_0::{
    DustGroup, EquipmentProtectionLevel, GasGroup, TemperatureClass,
};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The name and version of the file format.
pub const FORMAT: &str = "glandrail-arrangement/1";

/// The sentence that stands in every proposal, report and page.
pub const CAUTION: &str =
    "A design aid: the certificate and its holder, local codes and a competent person decide.";

/// A complete arrangement of one box.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Arrangement {
    /// Name and version of the file format: [`FORMAT`].
    pub format: String,
    /// The caution that stands in every result: [`CAUTION`].
    pub caution: String,
    /// The warning of the catalogue that the parts came from, such as that its data are invented.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub catalogue_warning: Option<String>,
    /// Title and edition of the catalogue.
    pub catalogue: String,
    /// Currency of the prices.
    #[serde(default)]
    pub currency: String,
    /// What the box is for.
    pub job: JobRecord,
    /// The area it will stand in.
    pub area: AreaRecord,
    /// The chosen enclosure as mounted.
    pub enclosure: EnclosureRecord,
    /// The workshop's limits that were in force.
    pub limits: Limits,
    /// Rails, from the lowest upwards.
    pub rails: Vec<PlacedRail>,
    /// Terminal strips.
    pub strips: Vec<StripRecord>,
    /// Terminals, by rail and from left to right.
    pub terminals: Vec<PlacedTerminal>,
    /// End stops, end plates and partitions, by rail and from left to right.
    pub accessories: Vec<PlacedAccessory>,
    /// Jumpers.
    pub jumpers: Vec<PlacedJumper>,
    /// Entries in the walls: glands, stopping plugs, breathers.
    pub entries: Vec<PlacedEntry>,
    /// Operating elements in the lid.
    pub elements: Vec<PlacedElement>,
    /// Cables with their cores.
    pub cables: Vec<CableRecord>,
    /// Circuits with their poles.
    pub circuits: Vec<CircuitRecord>,
    /// Every conductor inside the box: cable cores from their gland, and internal wires.
    pub wires: Vec<Wire>,
    /// What was asked for as spare.
    pub spare: SpareRecord,
    /// Heat by the rated dissipated power.
    pub heat: RatedHeat,
    /// Notices on the box and instructions for the workshop, as proposed; none in older files.
    #[serde(default)]
    pub notices: Vec<NoticeRecord>,
    /// Mass of enclosure and contents.
    pub mass_kg: f64,
    /// Price of enclosure and contents.
    pub price: f64,
    /// Usual lead times of what goes into the enclosure, days by catalogue id; that of a part that is not
    /// among them is unknown.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub lead_times_days: BTreeMap<String, u32>,
    /// Values that were estimated, one sentence each.
    pub estimates: Vec<String>,
    /// Remarks for the reader, one sentence each.
    pub remarks: Vec<String>,
    /// Measures of the layout; missing where nothing was laid out by us.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub layout: Option<LayoutRecord>,
    /// What is proved about the size; missing where no search made the arrangement.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub proof: Option<ProofRecord>,
}

/// What the box is for, as the list says.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct JobRecord {
    /// Tag of the box.
    pub tag: String,
    /// Title.
    #[serde(default)]
    pub title: String,
    /// Revision.
    #[serde(default)]
    pub revision: String,
    /// Customer's reference.
    #[serde(default)]
    pub customer_reference: String,
    /// Free notes.
    #[serde(default)]
    pub notes: String,
}

/// The area, as the list says.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct AreaRecord {
    /// Equipment protection levels that are needed: one for gas, one for dust, or both.
    pub epl: Vec<EquipmentProtectionLevel>,
    /// Gas group; missing in a dust area.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gas_group: Option<GasGroup>,
    /// Dust group; missing in a gas area.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dust_group: Option<DustGroup>,
    /// Temperature class that is asked for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature_class: Option<TemperatureClass>,
    /// Maximum surface temperature that is asked for, °C (dust).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub max_surface_c: Option<f64>,
    /// Lowest and highest ambient temperature, °C.
    pub ambient_c: [f64; 2],
    /// Degree of protection that is asked for.
    pub ip: crate::catalogue::IpCode,
}

/// Spares asked for.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct SpareRecord {
    /// Share of spare terminals, percent of those used (earth terminals not counted).
    pub terminals_percent: f64,
    /// Spare entries by thread.
    pub entries: BTreeMap<crate::standards::threads::Thread, u32>,
    /// Share of the rated power kept free, percent.
    pub heat_percent: f64,
    /// How many more of the narrowest terminal used would fit on the free rail, by rail id.
    pub free_terminals: BTreeMap<String, u32>,
}
