//! Dissipated power and the heat of closed boxes. Knows nothing of drawing or solving.
//!
//! [`conductors`] adds up what current turns into heat. [`balance`] finds how warm a closed box
//! becomes from films, wall and radiation; [`tr_60890`] asks the technical report the same
//! question. Both are estimates that stand beside a certificate's rating and never replace it.
//! [`assessment`] puts them and the certificate's two methods side by side for an arrangement.

pub mod air;
pub mod assessment;
pub mod balance;
pub mod bundles;
pub mod comparison;
pub mod conductors;
mod contents;
pub mod convection;
pub mod defined_arrangement;
mod determined;
pub mod inside;
pub mod local;
pub mod tr_60890;
mod warnings;

pub use assessment::{HeatAssessment, assess};
pub use balance::{Balance, ClosedBox, Mounting, Wall};
pub use conductors::Conductor;
pub use contents::wire_heat_w;
pub use determined::Determined;
pub use warnings::{CLASS_PASSED, HeatWarning};
