//! The workshop's rules: common practice of the trade as values that a shop may change.
//!
//! Every default is common practice (trade figures without a published source). A rules file
//! overrides single values; what it does not name keeps its default.

mod reading;

pub use reading::CODES;

use crate::arrangement::{Limits, WiringSpaceStep};
use crate::standards::common_practice as practice;
use crate::standards::iec_60079_11::OTHER_CIRCUITS_MM;
use serde::{Deserialize, Serialize};

/// All workshop rules.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default)]
pub struct Workshop {
    /// Entries.
    pub entries: EntryRules,
    /// Rails and terminals.
    pub rails: RailRules,
    /// Operating elements.
    pub elements: ElementRules,
    /// Cables and conductors.
    pub conductors: ConductorRules,
    /// Separation and tolerance.
    pub distances: DistanceRules,
    /// Wiring space straight out of a clamp, by section, rising.
    pub wiring_space: Vec<WiringSpaceStep>,
}

/// Rules for entries.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default)]
pub struct EntryRules {
    /// Between the envelopes of neighbouring entries of one row.
    pub gap_mm: f64,
    /// Between the envelopes of neighbouring rows.
    pub row_gap_mm: f64,
    /// Between the envelope of an entry and an inner corner of the box.
    pub corner_mm: f64,
    /// Share of a gland's clamping range, at either end, that is avoided where another gland fits.
    pub clamping_reserve_percent: f64,
}

/// Rules for rails and terminals.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default)]
pub struct RailRules {
    /// Profile of the rails (IEC 60715).
    pub profile: String,
    /// Between rail ends and walls.
    pub end_mm: f64,
    /// Between the highest terminal and the lid.
    pub lid_clearance_mm: f64,
}

/// Rules for operating elements.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default)]
pub struct ElementRules {
    /// Between footprints.
    pub gap_mm: f64,
    /// Around an emergency stop.
    pub emergency_stop_free_mm: f64,
    /// Between an element that is operated and the outer edge of the lid.
    pub edge_mm: f64,
    /// Behind a contact block, for its conductors to bend.
    pub contact_bend_mm: f64,
    /// Section of the wires between terminals and contacts.
    pub wire_mm2: f64,
}

/// Rules for cables and conductors.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default)]
pub struct ConductorRules {
    /// Tolerance of a diameter that the list gives without one.
    pub given_tolerance_percent: f64,
    /// Tolerance of a diameter that is estimated.
    pub estimated_tolerance_percent: f64,
    /// Section of a screen's drain wire.
    pub drain_wire_mm2: f64,
    /// Temperature at which resistances are taken, °C.
    pub reference_c: f64,
}

/// Separation and tolerance.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default)]
pub struct DistanceRules {
    /// Between conducting parts of intrinsically safe and other circuits (IEC 60079-11).
    pub intrinsic_separation_mm: f64,
    /// Whether a row with both kinds of terminals has a partition between them instead of the whole distance.
    pub intrinsic_partition: bool,
    /// Subtracted from every measured clearance before it is compared.
    pub tolerance_mm: f64,
    /// Mass above which two lifting points are asked for.
    pub lifting_kg: f64,
}

impl Default for Workshop {
    fn default() -> Self {
        Self {
            entries: EntryRules::default(),
            rails: RailRules::default(),
            elements: ElementRules::default(),
            conductors: ConductorRules::default(),
            distances: DistanceRules::default(),
            wiring_space: practice::WIRING_SPACES
                .into_iter()
                .map(|(up_to_mm2, space_mm)| WiringSpaceStep {
                    up_to_mm2,
                    space_mm,
                })
                .collect(),
        }
    }
}

impl Default for EntryRules {
    fn default() -> Self {
        Self {
            gap_mm: practice::GLAND_GAP_MM,
            row_gap_mm: practice::GLAND_ROW_GAP_MM,
            corner_mm: practice::GLAND_CORNER_MM,
            clamping_reserve_percent: 5.0,
        }
    }
}

impl Default for RailRules {
    fn default() -> Self {
        Self {
            profile: "TH35-7.5".into(),
            end_mm: practice::RAIL_END_MM,
            lid_clearance_mm: practice::LID_CLEARANCE_MM,
        }
    }
}

impl Default for ElementRules {
    fn default() -> Self {
        Self {
            gap_mm: practice::ELEMENT_GAP_MM,
            emergency_stop_free_mm: practice::EMERGENCY_STOP_FREE_MM,
            edge_mm: practice::ELEMENT_EDGE_MM,
            contact_bend_mm: practice::CONTACT_BEND_MM,
            wire_mm2: 1.5,
        }
    }
}

impl Default for ConductorRules {
    fn default() -> Self {
        Self {
            given_tolerance_percent: 3.0,
            estimated_tolerance_percent: 10.0,
            drain_wire_mm2: 1.5,
            reference_c: 20.0,
        }
    }
}

impl Default for DistanceRules {
    fn default() -> Self {
        Self {
            intrinsic_separation_mm: OTHER_CIRCUITS_MM,
            intrinsic_partition: false,
            tolerance_mm: practice::TOLERANCE_MM,
            lifting_kg: 25.0,
        }
    }
}

impl Workshop {
    /// The limits that an arrangement records.
    pub fn limits(&self) -> Limits {
        Limits {
            gland_gap_mm: self.entries.gap_mm,
            gland_row_gap_mm: self.entries.row_gap_mm,
            gland_corner_mm: self.entries.corner_mm,
            rail_end_mm: self.rails.end_mm,
            element_gap_mm: self.elements.gap_mm,
            emergency_stop_free_mm: self.elements.emergency_stop_free_mm,
            element_edge_mm: self.elements.edge_mm,
            contact_bend_mm: self.elements.contact_bend_mm,
            lid_clearance_mm: self.rails.lid_clearance_mm,
            intrinsic_separation_mm: self.distances.intrinsic_separation_mm,
            tolerance_mm: self.distances.tolerance_mm,
            wiring_space: self.wiring_space.clone(),
        }
    }

    /// Wiring space that a conductor of the given section needs; `None` above the last step: the
    /// rule says nothing there, and nothing is extrapolated.
    pub fn wiring_space_mm(&self, section_mm2: f64) -> Option<f64> {
        self.wiring_space
            .iter()
            .find(|step| section_mm2 <= step.up_to_mm2)
            .map(|step| step.space_mm)
    }
}
