//! File formats. A writer knows shapes and layers, never terminals or rules.

pub mod svg;
