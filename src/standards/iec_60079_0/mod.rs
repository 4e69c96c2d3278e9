//! IEC 60079-0: groups, temperature classes, equipment protection levels and zones, and what covers
//! what; earthing sizes, entry temperatures, plastic surfaces, marking.
//! Knows nothing of a particular type of protection beyond its level's name.

mod classes;
mod construction;
mod levels;
mod marking;

pub use classes::*;
pub use construction::*;
pub use levels::*;
pub use marking::*;
