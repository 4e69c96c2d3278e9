//! Placeholder of the shared enums until the full file lands.
#![allow(missing_docs)]
use serde::{Deserialize, Serialize};
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum TemperatureClass {
    T1,
    T2,
    T3,
    T4,
    T5,
    T6,
}
impl TemperatureClass {
    pub fn limit_c(self) -> f64 {
        match self {
            Self::T1 => 450.0,
            Self::T2 => 300.0,
            Self::T3 => 200.0,
            Self::T4 => 135.0,
            Self::T5 => 100.0,
            Self::T6 => 85.0,
        }
    }
    pub fn covers(self, required: Self) -> bool {
        self >= required
    }
}
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum GasGroup {
    IIA,
    IIB,
    IIC,
}
impl GasGroup {
    pub fn covers(self, required: Self) -> bool {
        self >= required
    }
}
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum DustGroup {
    IIIA,
    IIIB,
    IIIC,
}
impl DustGroup {
    pub fn covers(self, required: Self) -> bool {
        self >= required
    }
}
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum EquipmentProtectionLevel {
    Ga,
    Gb,
    Gc,
    Da,
    Db,
    Dc,
}
