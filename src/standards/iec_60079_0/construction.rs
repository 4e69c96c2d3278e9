//! What the enclosure itself must offer: ambient range, entry temperatures, earthing, plastic surfaces.
//! Knows nothing of the marking.

use super::{EquipmentProtectionLevel, GasGroup};
use crate::standards::provenance::{OutOfRange, Source, Status, within};

/// Ambient range without a marking.
pub const DEFAULT_AMBIENT: Source = Source::new("IEC 60079-0", "", "cl. 5.1.1", Status::Published);
/// Entry and branching temperatures above which the box must say so.
pub const ENTRY_TEMPERATURE: Source =
    Source::new("IEC 60079-0", "2017", "cl. 16.6", Status::FromMemory);
/// Earthing terminals inside, and outside on metal; read in GOST 31610.0-2014, which takes the clause over.
pub const INTERNAL_EARTH: Source = Source::new(
    "IEC 60079-0",
    "2011",
    "cl. 15.1.1 (read in GOST 31610.0-2014)",
    Status::Published,
);
/// Warnings on the outside: do not open, charging.
pub const WARNINGS: Source = Source::new(
    "IEC 60079-0",
    "2017",
    "cl. 29, table of warnings",
    Status::FromMemory,
);
/// Protective conductor size.
pub const PROTECTIVE_CONDUCTOR: Source = Source::new(
    "IEC 60079-0",
    "2017",
    "cl. 15.3, Table 10",
    Status::FromMemory,
);
/// Size that the external bonding terminal takes.
pub const EXTERNAL_BONDING: Source =
    Source::new("IEC 60079-0", "2017", "cl. 15.4", Status::FromMemory);
/// Largest projected plastic surface.
pub const PLASTIC_SURFACE: Source = Source::new(
    "IEC 60079-0",
    "2017",
    "cl. 7.4.2, Table 8",
    Status::FromMemory,
);

/// Lowest ambient temperature without a marking, °C.
pub const DEFAULT_AMBIENT_MINIMUM_C: f64 = -20.0;
/// Highest ambient temperature without a marking, °C.
pub const DEFAULT_AMBIENT_MAXIMUM_C: f64 = 40.0;

/// Above this temperature at the cable entry the box must say so outside, °C.
pub const ENTRY_TEMPERATURE_LIMIT_C: f64 = 70.0;
/// Above this temperature where the conductors branch the box must say so outside, °C.
pub const BRANCHING_TEMPERATURE_LIMIT_C: f64 = 80.0;

/// Least section that the external bonding terminal takes, mm².
pub const EXTERNAL_BONDING_MM2: f64 = 4.0;

/// Surface resistance up to which a plastic needs no limit of its surface, ohm.
pub const SURFACE_RESISTANCE_WITHOUT_LIMIT_OHM: f64 = 1e9;

/// Least section of the protective conductor that belongs to a line conductor, mm².
///
/// # Errors
/// A section that is not above 0 or above 1000 mm² (not a conductor of a terminal box).
///
/// ```
/// use glandrail::standards::iec_60079_0::protective_conductor_mm2;
/// assert_eq!(protective_conductor_mm2(2.5), Ok(2.5));
/// assert_eq!(protective_conductor_mm2(25.0), Ok(16.0));
/// assert_eq!(protective_conductor_mm2(70.0), Ok(35.0));
/// ```
pub fn protective_conductor_mm2(line_mm2: f64) -> Result<f64, OutOfRange> {
    let line = within(
        "section of the line conductor",
        line_mm2,
        "mm²",
        f64::MIN_POSITIVE,
        1000.0,
    )?;
    Ok(if line <= 16.0 {
        line
    } else if line <= 35.0 {
        16.0
    } else {
        line / 2.0
    })
}

/// Largest projected surface of plastic that can charge, mm², for a gas level and group.
///
/// # Errors
/// A level for dust: the table speaks of gas alone.
///
/// ```
/// use glandrail::standards::iec_60079_0::plastic_surface_limit_mm2;
/// use glandrail::standards::{EquipmentProtectionLevel::{Db, Gb}, GasGroup};
/// assert_eq!(plastic_surface_limit_mm2(Gb, GasGroup::IIC), Ok(2_000.0));
/// assert!(plastic_surface_limit_mm2(Db, GasGroup::IIC).is_err());
/// ```
pub fn plastic_surface_limit_mm2(
    level: EquipmentProtectionLevel,
    group: GasGroup,
) -> Result<f64, OutOfRange> {
    use EquipmentProtectionLevel::{Ga, Gb, Gc};
    match (level, group) {
        (Ga, GasGroup::IIA) => Ok(5_000.0),
        (Ga, GasGroup::IIB) => Ok(2_500.0),
        (Ga, GasGroup::IIC) => Ok(400.0),
        (Gb | Gc, GasGroup::IIA | GasGroup::IIB) => Ok(10_000.0),
        (Gb | Gc, GasGroup::IIC) => Ok(2_000.0),
        _ => Err(OutOfRange::Unknown {
            quantity: "equipment protection level of the plastic-surface table",
            value: level.to_string(),
            valid: "Ga, Gb or Gc".into(),
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn protective_conductor_never_shrinks_as_the_line_grows() {
        // S/2 just above 35 mm² is 17.5 mm², so the rule stays monotone.
        let mut last = 0.0;
        for tenths in 1..3000 {
            let size = protective_conductor_mm2(f64::from(tenths) / 10.0).expect("in range");
            assert!(size >= last);
            last = size;
        }
        assert!(protective_conductor_mm2(0.0).is_err());
    }
}
