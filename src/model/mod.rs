//! The choice of the enclosure and the decisions that lead to it. Knows nothing of the audit.
//!
//! Candidates (enclosure × orientation) are gone through in the order of the objective. Each passes
//! the screens of list and certificate or is discarded with the reason; the rest is decided exactly:
//! entries on walls, in rows or without, terminals on rails, elements in rows on the lid. What is found is then
//! placed to the millimetre.

mod candidate;
pub mod decide;
mod defined;
mod export;
mod free;
mod heat;
mod inside;
mod lid;
mod memory;
mod metal;
pub mod milp;
mod mount;
mod patience;
mod place;
mod rails;
mod reason;
mod reason_words;
mod room;
mod screen;
mod search;
mod walls;

pub use candidate::Prepared;
pub use export::{
    BesideModel, CandidateModels, EntriesModel, Exported, LidModel, ModelIndex, RailsModels,
    WallSetModels, export,
};
pub use free::{FreeEntry, Placement};
pub use memory::{Remembering, remember};
pub use milp::{Effort, Solver};

pub use mount::mount;
pub use place::arrange;
pub use reason::{Excluded, Freely, Reason};
pub use screen::permitted;
pub use search::{Found, Outcome, SearchOptions, candidates, measure, open_freely, search};
pub use walls::circles_in_rows;
