//! The `glandrail` command.

fn main() {}
