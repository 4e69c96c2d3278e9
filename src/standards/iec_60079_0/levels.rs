//! Equipment protection levels, zones, and the levels of protection that lead to them.
//! Knows nothing of groups or temperatures.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::standards::provenance::{OutOfRange, Source, Status, words};

/// Zones that an equipment protection level may serve.
pub const ZONES: Source = Source::new(
    "IEC 60079-0",
    "",
    "equipment protection levels",
    Status::Published,
);

/// Equipment protection level: gas (G) or dust (D), a to c from very high to enhanced.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub enum EquipmentProtectionLevel {
    Ga,
    Gb,
    Gc,
    Da,
    Db,
    Dc,
}

words!(EquipmentProtectionLevel, "equipment protection level", "Ga, Gb, Gc, Da, Db or Dc", {
    Ga => "Ga", Gb => "Gb", Gc => "Gc", Da => "Da", Db => "Db", Dc => "Dc",
});

impl EquipmentProtectionLevel {
    /// Whether it is a level for gas.
    pub fn is_gas(self) -> bool {
        matches!(self, Self::Ga | Self::Gb | Self::Gc)
    }

    /// Whether it is a level for dust.
    pub fn is_dust(self) -> bool {
        !self.is_gas()
    }

    /// Whether equipment of this level may stand where `required` is asked for. A gas level never
    /// covers a dust level, nor the other way round.
    ///
    /// ```
    /// use glandrail::standards::EquipmentProtectionLevel::{Db, Ga, Gb, Gc};
    /// assert!(Gb.covers(Gc) && !Gb.covers(Ga) && !Ga.covers(Db));
    /// ```
    pub fn covers(self, required: EquipmentProtectionLevel) -> bool {
        self.is_gas() == required.is_gas() && self <= required
    }

    /// The zones in which the level may be used.
    ///
    /// ```
    /// use glandrail::standards::{EquipmentProtectionLevel, Zone};
    /// assert_eq!(EquipmentProtectionLevel::Gb.zones(), &[Zone::Zone1, Zone::Zone2]);
    /// ```
    pub const fn zones(self) -> &'static [Zone] {
        match self {
            Self::Ga => &[Zone::Zone0, Zone::Zone1, Zone::Zone2],
            Self::Gb => &[Zone::Zone1, Zone::Zone2],
            Self::Gc => &[Zone::Zone2],
            Self::Da => &[Zone::Zone20, Zone::Zone21, Zone::Zone22],
            Self::Db => &[Zone::Zone21, Zone::Zone22],
            Self::Dc => &[Zone::Zone22],
        }
    }

    /// Whether the level may be used in the zone.
    pub fn suits(self, zone: Zone) -> bool {
        self.zones().contains(&zone)
    }
}

/// A hazardous zone, written as its number: 0, 1, 2 for gas, 20, 21, 22 for dust.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(try_from = "u8", into = "u8")]
#[allow(missing_docs)]
pub enum Zone {
    Zone0,
    Zone1,
    Zone2,
    Zone20,
    Zone21,
    Zone22,
}

impl Zone {
    /// Every zone, in ascending order of its number.
    pub const ALL: &'static [Zone] = &[
        Zone::Zone0,
        Zone::Zone1,
        Zone::Zone2,
        Zone::Zone20,
        Zone::Zone21,
        Zone::Zone22,
    ];

    /// The number by which it is written.
    pub const fn number(self) -> u8 {
        match self {
            Zone::Zone0 => 0,
            Zone::Zone1 => 1,
            Zone::Zone2 => 2,
            Zone::Zone20 => 20,
            Zone::Zone21 => 21,
            Zone::Zone22 => 22,
        }
    }

    /// Whether it is a zone of dust.
    pub fn is_dust(self) -> bool {
        self.number() >= 20
    }

    /// The least level that may be used in the zone.
    ///
    /// ```
    /// use glandrail::standards::{EquipmentProtectionLevel, Zone};
    /// assert_eq!(Zone::Zone1.required_level(), EquipmentProtectionLevel::Gb);
    /// ```
    pub const fn required_level(self) -> EquipmentProtectionLevel {
        match self {
            Zone::Zone0 => EquipmentProtectionLevel::Ga,
            Zone::Zone1 => EquipmentProtectionLevel::Gb,
            Zone::Zone2 => EquipmentProtectionLevel::Gc,
            Zone::Zone20 => EquipmentProtectionLevel::Da,
            Zone::Zone21 => EquipmentProtectionLevel::Db,
            Zone::Zone22 => EquipmentProtectionLevel::Dc,
        }
    }
}

impl From<Zone> for u8 {
    fn from(zone: Zone) -> u8 {
        zone.number()
    }
}

impl TryFrom<u8> for Zone {
    type Error = OutOfRange;

    fn try_from(number: u8) -> Result<Zone, OutOfRange> {
        Zone::ALL
            .iter()
            .copied()
            .find(|zone| zone.number() == number)
            .ok_or_else(|| OutOfRange::NotListed {
                quantity: "zone",
                value: f64::from(number),
                unit: "1",
                valid: "0, 1, 2, 20, 21 and 22".into(),
            })
    }
}

impl fmt::Display for Zone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.number().to_string())
    }
}

/// Level of protection: a type of protection with its letter a, b or c, as written in the marking.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LevelOfProtection {
    /// Flameproof, a.
    Da,
    /// Flameproof, b.
    Db,
    /// Flameproof, c.
    Dc,
    /// Increased safety, b.
    Eb,
    /// Increased safety, c.
    Ec,
    /// Intrinsic safety, a.
    Ia,
    /// Intrinsic safety, b.
    Ib,
    /// Intrinsic safety, c.
    Ic,
    /// Encapsulation, a.
    Ma,
    /// Encapsulation, b.
    Mb,
    /// Encapsulation, c.
    Mc,
    /// Dust protection by enclosure, a.
    Ta,
    /// Dust protection by enclosure, b.
    Tb,
    /// Dust protection by enclosure, c.
    Tc,
}

words!(LevelOfProtection, "level of protection", "da, db, dc, eb, ec, ia, ib, ic, ma, mb, mc, ta, tb or tc", {
    Da => "da", Db => "db", Dc => "dc", Eb => "eb", Ec => "ec", Ia => "ia", Ib => "ib", Ic => "ic",
    Ma => "ma", Mb => "mb", Mc => "mc", Ta => "ta", Tb => "tb", Tc => "tc",
});

impl LevelOfProtection {
    /// The equipment protection level for gas; `None` where it is not a protection against gas.
    ///
    /// ```
    /// use glandrail::standards::{EquipmentProtectionLevel, LevelOfProtection};
    /// assert_eq!(LevelOfProtection::Eb.gas_level(), Some(EquipmentProtectionLevel::Gb));
    /// assert_eq!(LevelOfProtection::Tb.gas_level(), None);
    /// ```
    pub const fn gas_level(self) -> Option<EquipmentProtectionLevel> {
        match self {
            Self::Da | Self::Ia | Self::Ma => Some(EquipmentProtectionLevel::Ga),
            Self::Db | Self::Eb | Self::Ib | Self::Mb => Some(EquipmentProtectionLevel::Gb),
            Self::Dc | Self::Ec | Self::Ic | Self::Mc => Some(EquipmentProtectionLevel::Gc),
            Self::Ta | Self::Tb | Self::Tc => None,
        }
    }

    /// The equipment protection level for dust; `None` where it is not a protection against dust.
    pub const fn dust_level(self) -> Option<EquipmentProtectionLevel> {
        match self {
            Self::Ia | Self::Ma | Self::Ta => Some(EquipmentProtectionLevel::Da),
            Self::Ib | Self::Mb | Self::Tb => Some(EquipmentProtectionLevel::Db),
            Self::Ic | Self::Mc | Self::Tc => Some(EquipmentProtectionLevel::Dc),
            _ => None,
        }
    }

    /// Where the two levels come from: read for `eb`, `ec` and `tb`, recalled for the others.
    pub const fn source(self) -> Source {
        let status = match self {
            Self::Eb | Self::Ec | Self::Tb => Status::Published,
            _ => Status::FromMemory,
        };
        Source::new("IEC 60079-0", "", "levels of protection", status)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standards::{GasGroup, TemperatureClass};

    #[test]
    fn a_level_suits_exactly_the_zones_whose_required_level_it_covers() {
        for level in EquipmentProtectionLevel::ALL {
            for zone in Zone::ALL {
                assert_eq!(
                    level.suits(*zone),
                    level.covers(zone.required_level()),
                    "{level} {zone}"
                );
            }
        }
    }

    #[test]
    fn words_and_numbers_survive_serde() {
        assert_eq!(serde_json::to_string(&Zone::Zone21).expect("number"), "21");
        assert_eq!(
            serde_json::from_str::<Zone>("1").expect("zone"),
            Zone::Zone1
        );
        assert!(serde_json::from_str::<Zone>("3").is_err());
        assert_eq!(
            serde_json::to_string(&TemperatureClass::T6).expect("text"),
            "\"T6\""
        );
        assert!(serde_json::from_str::<TemperatureClass>("\"T7\"").is_err());
        assert_eq!("iic".parse::<GasGroup>(), Ok(GasGroup::IIC));
    }
}
