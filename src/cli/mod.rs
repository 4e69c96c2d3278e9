//! One file per command. Holds no calculation.

pub mod figure;

pub mod catalogue;
