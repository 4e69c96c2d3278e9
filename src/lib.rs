//! Glandrail finds the smallest certified increased-safety (Ex e) enclosure that takes a list of
//! circuits, cables and operating elements, lays it out to the millimetre and shows why it holds,
//! or why it cannot be made.
//!
//! The data flow one way: [`requirements`] → [`demand`] → [`model`] → [`arrangement`] → [`audit`] →
//! [`sheets`], with [`standards`] beneath all of them.
//!
//! A design aid. The certificate and its holder, local codes and a competent person decide.

pub mod arrangement;
pub mod audit;
pub mod catalogue;
pub mod cli;
pub mod compare;
pub mod demand;
pub mod explain;
pub mod figure;
pub mod heat;
mod letters;
pub mod marking;
pub mod model;
mod number;
pub mod packing;
mod parallel;
pub mod propose;
pub mod requirements;
pub mod schema;
pub mod sheets;
pub mod source;
pub mod space;
pub mod split;
pub mod standards;
pub mod workshop;
