//! File formats. A writer knows shapes and layers, never terminals or rules.

pub mod dxf;
mod face;
pub mod pdf;
pub mod svg;
pub(super) mod xlsx;
