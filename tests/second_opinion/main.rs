//! A second opinion on "smallest": a plain search that tries everything, against the model.
//!
//! Both work from docs/model.md. The search of this folder calls nothing of the model; it shares the
//! demand (which terminals, glands and elements there are) and nothing of where they go.

mod agreement;
#[cfg(feature = "highs")]
mod both_solvers;
mod cases;
mod edges;
mod findings;
mod opinion;
mod properties;
#[path = "../support/python.rs"]
mod python;
mod sample;
mod solver;
mod stopping;
mod theirs;
