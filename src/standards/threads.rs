//! Placeholder of the shared thread type until the full file lands.
#![allow(missing_docs)]
use serde::{Deserialize, Serialize};
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Thread {
    M16,
    M20,
    M25,
    M32,
    M40,
    M50,
    M63,
}
