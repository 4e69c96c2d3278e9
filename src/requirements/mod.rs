//! The requirement list as the user wrote it, checked. Knows nothing of the enclosure that will be chosen.
//!
//! [`RequirementList`] is the working form: every tag is unique, every reference resolved, every
//! figure in its range. [`RequirementList::read`] builds it from TOML and reports everything that is wrong.

mod area;
mod cable;
mod circuit;
mod cores_text;
mod element;
mod ends;
mod estimate;
pub mod file;
mod named;
mod parts;
mod placing;
mod poles;
mod read;
mod read_area;
mod read_cables;
mod read_circuits;
mod read_elements;
mod read_links;
mod resolve;
mod tags;
mod wishes;

pub use area::Area;
pub use cable::{Cable, Core, CoreName, Section};
pub use circuit::{Circuit, CircuitGroup, End, Pole};
pub use cores_text::read_cores;
pub use element::{Contact, ElementRequirement, Placing};
pub use estimate::estimate_diameter_mm;
pub use parts::check_parts;
pub use read::TABLES;
pub use wishes::{BoxWishes, Earthing, Measure, Spare, ThreadSystem};

use crate::arrangement::JobRecord;
use crate::source::Place;

/// A checked requirement list.
#[derive(Debug, Clone)]
pub struct RequirementList {
    /// What the box is for.
    pub job: JobRecord,
    /// The area it will stand in.
    pub area: Area,
    /// Wishes for the enclosure.
    pub wishes: BoxWishes,
    /// Spares.
    pub spare: Spare,
    /// Earthing.
    pub earthing: Earthing,
    /// Cables, ranges written out one by one, in the order of the list.
    pub cables: Vec<Cable>,
    /// Operating elements, in the order of the list.
    pub elements: Vec<ElementRequirement>,
    /// Circuits, ranges written out one by one, in the order of the list.
    pub circuits: Vec<Circuit>,
    /// Poles joined with jumpers, beyond those that branch within a circuit: each group holds
    /// (index of the circuit, index of the pole), at least two.
    pub links: Vec<Vec<(usize, usize)>>,
    /// Names of requirements that no proposed change may touch, such as `area` or `cable W1`.
    pub fixed: Vec<String>,
    /// How much changes weigh to this user.
    pub weights: Vec<Weight>,
    /// Where the job stands in the list.
    pub place: Place,
}

/// How much changes of some requirements weigh.
#[derive(Debug, Clone)]
pub struct Weight {
    /// Names of requirements, as in [`RequirementList::fixed`].
    pub of: Vec<String>,
    /// Factor on the points of a change.
    pub times: f64,
    /// Where the list says so.
    pub place: Place,
}
