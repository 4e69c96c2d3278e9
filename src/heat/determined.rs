//! A figure that is known, or the reason why it is not. Knows nothing of heat.

use serde::{Deserialize, Serialize};

/// A value, or which datum is missing for it. Unknown is never permission.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Determined<T> {
    /// The value.
    Known(T),
    /// Why there is none.
    NotDetermined(String),
}

impl<T> Determined<T> {
    /// The value, where there is one.
    pub fn known(&self) -> Option<&T> {
        match self {
            Determined::Known(value) => Some(value),
            Determined::NotDetermined(_) => None,
        }
    }

    /// Why there is no value, where there is none.
    pub fn reason(&self) -> Option<&str> {
        match self {
            Determined::Known(_) => None,
            Determined::NotDetermined(reason) => Some(reason),
        }
    }
}

impl<T, E: std::fmt::Display> From<Result<T, E>> for Determined<T> {
    fn from(result: Result<T, E>) -> Self {
        match result {
            Ok(value) => Determined::Known(value),
            Err(error) => Determined::NotDetermined(error.to_string()),
        }
    }
}
