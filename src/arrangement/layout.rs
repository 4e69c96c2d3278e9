//! How well what stands in the box is laid out: what is settled after the enclosure, in figures.

use serde::{Deserialize, Serialize};

/// Measures of a layout; nothing here permits anything.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct LayoutRecord {
    /// Length of all conductors inside along their routes, mm.
    pub conductors_mm: f64,
    /// What they measure at least with these terminals, elements and holes, whichever of the alike cables enters
    /// where, on whichever side conductors reach their terminals and in whichever order the strips of a rail
    /// stand, mm: an exact figure less its rounding; missing where there are too many strips to try every choice.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub conductors_at_least_mm: Option<f64>,
    /// Pairs of conductors that cross, as straight lines from gland to terminal seen from the front.
    pub crossings: usize,
}
