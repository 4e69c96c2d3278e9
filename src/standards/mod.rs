//! Published figures of the trade, one file per standard, each with its source and how sure we are of it. Knows nothing of this program.
//!
//! Every function answers only inside the range its source speaks for; outside it there is an
//! [`OutOfRange`] error that says the quantity, the value, the unit and what would be valid.

pub mod awg;
pub mod common_practice;
pub mod iec_60079_0;
pub mod iec_60079_11;
pub mod iec_60079_14;
pub mod iec_60079_7;
pub mod iec_60204_1;
pub mod iec_60228;
pub mod iec_60715;
pub mod iec_60947_5_1;
pub mod iec_tr_60890;
pub mod nec_312_6;
pub mod provenance;
pub mod threads;

pub use awg::{Awg, WireSize};
pub use iec_60079_0::{
    DustGroup, EquipmentProtectionLevel, GasGroup, LevelOfProtection, TemperatureClass, Zone,
};
pub use iec_60079_7::MaterialGroup;
pub use iec_60228::ConductorClass;
pub use provenance::{OutOfRange, Source, Status};
pub use threads::Thread;
