//! Wishes for the enclosure, spares and earthing.

use crate::arrangement::Orientation;
use crate::catalogue::Material;
use crate::source::Place;
use crate::space::Face;
use crate::standards::threads::Thread;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What the enclosure may be.
#[derive(Debug, Clone)]
pub struct BoxWishes {
    /// Permitted materials; empty: any.
    pub materials: Vec<Material>,
    /// Largest outer width, height and depth as mounted.
    pub max_outer_mm: Option<[f64; 3]>,
    /// Permitted orientations, in order of preference.
    pub orientations: Vec<Orientation>,
    /// Walls that may carry entries, in order of preference.
    pub entry_walls: Vec<Face>,
    /// Only these enclosures; empty: any.
    pub include: Vec<String>,
    /// Not these enclosures.
    pub exclude: Vec<String>,
    /// What "smallest" means: compared in this order.
    pub smallest: Vec<Measure>,
    /// Thread system of entries where a cable says nothing.
    pub thread_system: ThreadSystem,
    /// Walls at which the lid may be hinged; empty: any, or a screwed lid.
    pub lid_hinge: Vec<Face>,
    /// Whether a breather and drain is asked for.
    pub breather: bool,
    /// Where the list says so.
    pub place: Place,
}

/// A measure of size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Measure {
    /// Outer width × height × depth.
    Volume,
    /// Outer width × height.
    Footprint,
    /// Mass of the empty enclosure.
    Mass,
    /// Price of the empty enclosure.
    Price,
}

/// A thread system.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum ThreadSystem {
    /// ISO metric (IEC 60423).
    Metric,
    /// Tapered pipe thread (ASME B1.20.1).
    Npt,
}

impl ThreadSystem {
    /// As it stands before the word thread.
    pub fn words(self) -> &'static str {
        match self {
            ThreadSystem::Metric => "metric",
            ThreadSystem::Npt => "NPT",
        }
    }
}

/// Spares.
#[derive(Debug, Clone)]
pub struct Spare {
    /// Share of spare terminals, percent of those used in each strip, rounded up.
    pub terminals_percent: f64,
    /// Spare entries by thread, closed with stopping plugs.
    pub entries: BTreeMap<Thread, u32>,
    /// Share of the rated power to be kept free, percent.
    pub heat_percent: f64,
    /// Where the list says so.
    pub place: Place,
}

/// Earthing inside the box.
#[derive(Debug, Clone)]
pub struct Earthing {
    /// Whether an external earth terminal is asked for.
    pub external: bool,
    /// Earth terminals beyond those that cores and screens need.
    pub spare_terminals: u32,
    /// Where the list says so.
    pub place: Place,
}
