//! The workshop's limits that an arrangement was made with, so that it can be measured again.

use serde::{Deserialize, Serialize};

/// Distances that the arrangement must keep, millimetres.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Limits {
    /// Between the envelopes of neighbouring entries of one row.
    pub gland_gap_mm: f64,
    /// Between the envelopes of neighbouring rows of entries, for a spanner from the side.
    pub gland_row_gap_mm: f64,
    /// Between the envelope of an entry and an inner corner of the box.
    pub gland_corner_mm: f64,
    /// Between rail ends and walls.
    pub rail_end_mm: f64,
    /// Between footprints of operating elements.
    pub element_gap_mm: f64,
    /// Around an emergency stop, free of other elements.
    pub emergency_stop_free_mm: f64,
    /// Between an element that is operated and the outer edge of the lid.
    pub element_edge_mm: f64,
    /// Behind a contact block, for its conductors to bend.
    pub contact_bend_mm: f64,
    /// Between the highest terminal and the lid.
    pub lid_clearance_mm: f64,
    /// Between conducting parts of intrinsically safe and other circuits.
    pub intrinsic_separation_mm: f64,
    /// Subtracted from every measured clearance before it is compared.
    pub tolerance_mm: f64,
    /// Wiring space straight out of a clamp, by section, rising.
    pub wiring_space: Vec<WiringSpaceStep>,
}

/// One step of the wiring space table.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct WiringSpaceStep {
    /// Up to and including this section.
    pub up_to_mm2: f64,
    /// Free distance from the terminal to wall, obstruction or next row.
    pub space_mm: f64,
}
