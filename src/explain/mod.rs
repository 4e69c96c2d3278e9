//! Why a list cannot be made, and the smallest changes with which it can; of a list that can be made,
//! why nothing smaller does, and which limits are tight.
//!
//! The requirements of a list ([`requirements`]) are assumptions that an oracle ([`ListOracle`]) can be
//! asked about in any combination: it gives up the others, derives the demand anew and decides every
//! candidate. [`enumerate`] finds the minimal conflicts and corrections; ways out ease each requirement
//! of a correction as little as serves, and are solved and audited again. Beside them stands what changes
//! how the list is made and not what it asks: entries without rows, two boxes. Wordings live in [`words`]
//! and [`report`] and decide nothing.

mod alike;
mod apply;
mod aspect;
mod because;
mod change_words;
mod combine;
pub mod enumerate;
mod facts;
mod gather;
mod ground;
mod hitting;
mod in_vain;
mod known_names;
mod ladder;
mod ladder_search;
mod likewise;
mod lost;
mod names;
mod oracle;
mod otherwise;
mod question;
mod repairs;
pub mod report;
mod report_holds;
mod report_possible;
mod sentence;
mod set;
mod solve;
mod telling;
mod thinner;
pub mod words;
mod work;

pub use apply::{Change, Ease, apply};
pub use aspect::{Aspect, Requirement};
pub use facts::{
    Alternative, Because, Conflict, Eased, Explanation, Group, Impossible, Named, Possible, Second,
    Tight, TriedFreely, TriedTwo, Way,
};
pub use gather::requirements;
pub use ladder::ladder;
pub use likewise::Likewise;
pub use names::names_of;
pub use oracle::{Limits, ListOracle};
pub use question::{ExplainOptions, explain, impossible};
pub use repairs::WayOut;
pub use set::Set;
pub use solve::Holds;
pub use thinner::for_fewer;
