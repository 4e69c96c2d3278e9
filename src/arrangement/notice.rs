//! What is to be written on the box or told to the workshop because a rule asks for it.

use serde::{Deserialize, Serialize};

/// Whom a notice is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum NoticePlace {
    /// Written on the outside of the box.
    Outside,
    /// An instruction for who wires the box.
    Workshop,
}

/// A notice: proposed, for the certificate holder to decide on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct NoticeRecord {
    /// Stable code, such as `do-not-open`.
    pub code: String,
    /// Where it stands.
    pub place: NoticePlace,
    /// Its text.
    pub text: String,
    /// Temperature that cable and cable glands must stand by it, °C; only in a notice on cables.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cable_c: Option<f64>,
    /// Whether it says that a test has yet to settle the temperature of the cables.
    #[serde(default)]
    pub settled_by_test: bool,
    /// Groups of circuits that it speaks of; only in an instruction on bundles.
    #[serde(default)]
    pub groups: Vec<String>,
}
