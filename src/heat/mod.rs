//! Dissipated power and the heat of closed boxes. Knows nothing of drawing or solving.
//!
//! [`conductors`] adds up what current turns into heat. [`balance`] finds how warm a closed box
//! becomes from films, wall and radiation; [`tr_60890`] asks the technical report the same
//! question. Both are estimates that stand beside a certificate's rating and never replace it.

pub mod air;
pub mod balance;
pub mod conductors;
pub mod convection;
pub mod local;
pub mod tr_60890;

pub use balance::{Balance, ClosedBox, Mounting, Wall};
pub use conductors::Conductor;
