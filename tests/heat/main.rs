//! The estimated heat and the proposed marking of whole boxes: those of the examples, as they are and
//! changed by hand.

mod assessment;
mod boxes;
mod files;
mod marking;
mod text;
