//! File formats. A writer knows shapes and layers, never terminals or rules.

mod face;
pub mod pdf;
pub mod svg;
