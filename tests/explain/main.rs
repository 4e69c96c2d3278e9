//! Explanations: every conflict and every way out is proved again by means of its own, on generated
//! lists and against trying every combination; and the wordings, one for each kind of impossibility.

mod brute;
mod generated;
mod library;
mod otherwise;
#[path = "../support/python.rs"]
mod python;
mod support;
mod ways;
mod weights;
mod wordings;
