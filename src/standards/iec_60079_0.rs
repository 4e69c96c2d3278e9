//! IEC 60079-0: groups, temperature classes, equipment protection levels and zones, and what covers
//! what; earthing sizes, entry temperatures, plastic surfaces, marking.
//! Knows nothing of a particular type of protection beyond its level's name.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::provenance::{OutOfRange, Source, Status, within, words};

/// Temperature classes and their limits.
pub const TEMPERATURE_CLASSES: Source = Source::new("IEC 60079-0", "2007", "Table 2", Status::Published);
/// Margin of 5 K below the limit in the type test, T3 to T6.
pub const MARGIN_T3_TO_T6: Source =
    Source::new("IEC 60079-0", "", "cl. 26.5.1.3, T3 to T6", Status::Published);
/// Margin of 10 K below the limit in the type test, T1 and T2; and the rule for dust.
pub const MARGIN_OTHERS: Source =
    Source::new("IEC 60079-0", "", "cl. 26.5.1.3, T1, T2 and Group III", Status::FromMemory);
/// Which class and which group covers which.
pub const COVERING: Source = Source::new("IEC 60079-0", "", "cl. 4 and 5", Status::Published);
/// Zones that an equipment protection level may serve.
pub const ZONES: Source = Source::new("IEC 60079-0", "", "equipment protection levels", Status::Published);
/// Ambient range without a marking.
pub const DEFAULT_AMBIENT: Source = Source::new("IEC 60079-0", "", "cl. 5.1.1", Status::Published);
/// Entry and branching temperatures above which the box must say so.
pub const ENTRY_TEMPERATURE: Source = Source::new("IEC 60079-0", "", "cl. 16.6", Status::FromMemory);
/// Protective conductor size.
pub const PROTECTIVE_CONDUCTOR: Source =
    Source::new("IEC 60079-0", "", "cl. 15.3, Table 10", Status::FromMemory);
/// Size that the external bonding terminal takes.
pub const EXTERNAL_BONDING: Source = Source::new("IEC 60079-0", "", "cl. 15.4", Status::FromMemory);
/// Largest projected plastic surface.
pub const PLASTIC_SURFACE: Source = Source::new("IEC 60079-0", "", "cl. 7.4.2, Table 8", Status::FromMemory);
/// Order of the parts of the marking.
pub const MARKING: Source = Source::new("IEC 60079-0", "", "cl. 29.4", Status::Published);
/// Form of the ambient range in the marking.
pub const AMBIENT_MARKING: Source = Source::new("IEC 60079-0", "", "cl. 29", Status::FromMemory);

/// Temperature class of a surface that gas can reach. T6 is the coolest and the greatest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)] // the names say it all
pub enum TemperatureClass {
    T1,
    T2,
    T3,
    T4,
    T5,
    T6,
}

words!(TemperatureClass, "temperature class", "T1, T2, T3, T4, T5 or T6", {
    T1 => "T1", T2 => "T2", T3 => "T3", T4 => "T4", T5 => "T5", T6 => "T6",
});

impl TemperatureClass {
    /// Greatest surface temperature, °C.
    ///
    /// ```
    /// use glandrail::standards::TemperatureClass;
    /// assert_eq!(TemperatureClass::T6.limit_c(), 85.0);
    /// ```
    pub const fn limit_c(self) -> f64 {
        match self {
            TemperatureClass::T1 => 450.0,
            TemperatureClass::T2 => 300.0,
            TemperatureClass::T3 => 200.0,
            TemperatureClass::T4 => 135.0,
            TemperatureClass::T5 => 100.0,
            TemperatureClass::T6 => 85.0,
        }
    }

    /// Margin that the type test keeps below the limit, K: 5 for T3 to T6, 10 for T1 and T2.
    pub const fn type_test_margin_k(self) -> f64 {
        match self {
            TemperatureClass::T1 | TemperatureClass::T2 => 10.0,
            _ => 5.0,
        }
    }

    /// Where the margin comes from.
    pub const fn margin_source(self) -> Source {
        match self {
            TemperatureClass::T1 | TemperatureClass::T2 => MARGIN_OTHERS,
            _ => MARGIN_T3_TO_T6,
        }
    }

    /// Greatest surface temperature less the margin of the type test, °C.
    ///
    /// ```
    /// use glandrail::standards::TemperatureClass;
    /// assert_eq!(TemperatureClass::T6.limit_after_margin_c(), 80.0);
    /// assert_eq!(TemperatureClass::T1.limit_after_margin_c(), 440.0);
    /// ```
    pub const fn limit_after_margin_c(self) -> f64 {
        self.limit_c() - self.type_test_margin_k()
    }

    /// Self-heating that is left at an ambient temperature, K. Negative where there is none.
    ///
    /// ```
    /// use glandrail::standards::TemperatureClass;
    /// assert_eq!(TemperatureClass::T6.self_heating_k(40.0), 40.0);
    /// assert_eq!(TemperatureClass::T3.self_heating_k(100.0), 95.0);
    /// ```
    pub fn self_heating_k(self, ambient_c: f64) -> f64 {
        self.limit_after_margin_c() - ambient_c
    }

    /// Whether equipment of this class may stand where `required` is asked for.
    ///
    /// ```
    /// use glandrail::standards::TemperatureClass::{T4, T6};
    /// assert!(T6.covers(T4) && !T4.covers(T6));
    /// ```
    pub fn covers(self, required: TemperatureClass) -> bool {
        self >= required
    }

    /// The coolest class whose limit is not below a surface temperature; `None` above 450 °C.
    pub fn of_surface_c(surface_c: f64) -> Option<TemperatureClass> {
        Self::ALL.iter().rev().copied().find(|class| surface_c <= class.limit_c())
    }
}

/// Margin below a marked surface temperature of dust equipment, K: 5 up to 200 °C, 10 above.
pub fn dust_type_test_margin_k(marked_surface_c: f64) -> f64 {
    if marked_surface_c <= 200.0 { 5.0 } else { 10.0 }
}

/// Explosion group of gases. IIC is the most demanding and the greatest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub enum GasGroup {
    IIA,
    IIB,
    IIC,
}

words!(GasGroup, "gas group", "IIA, IIB or IIC", { IIA => "IIA", IIB => "IIB", IIC => "IIC" });

impl GasGroup {
    /// Whether equipment of this group may stand where `required` is asked for.
    ///
    /// ```
    /// use glandrail::standards::GasGroup::{IIA, IIB, IIC};
    /// assert!(IIC.covers(IIA) && IIB.covers(IIB) && !IIB.covers(IIC));
    /// ```
    pub fn covers(self, required: GasGroup) -> bool {
        self >= required
    }
}

/// Group of dusts: flyings, non-conductive, conductive. IIIC is the greatest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DustGroup {
    /// Combustible flyings.
    IIIA,
    /// Non-conductive dust.
    IIIB,
    /// Conductive dust.
    IIIC,
}

words!(DustGroup, "dust group", "IIIA, IIIB or IIIC", { IIIA => "IIIA", IIIB => "IIIB", IIIC => "IIIC" });

impl DustGroup {
    /// Whether equipment of this group may stand where `required` is asked for.
    ///
    /// ```
    /// use glandrail::standards::DustGroup::{IIIA, IIIC};
    /// assert!(IIIC.covers(IIIA) && !IIIA.covers(IIIC));
    /// ```
    pub fn covers(self, required: DustGroup) -> bool {
        self >= required
    }
}

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
    pub const ALL: &'static [Zone] =
        &[Zone::Zone0, Zone::Zone1, Zone::Zone2, Zone::Zone20, Zone::Zone21, Zone::Zone22];

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
        Zone::ALL.iter().copied().find(|zone| zone.number() == number).ok_or_else(|| OutOfRange::NotListed {
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
    let line = within("section of the line conductor", line_mm2, "mm²", f64::MIN_POSITIVE, 1000.0)?;
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

/// The marking for gas: `Ex eb ia IIC T6 Gb`, the levels of protection in alphabetical order.
///
/// ```
/// use glandrail::standards::iec_60079_0::gas_marking;
/// use glandrail::standards::{EquipmentProtectionLevel, GasGroup, LevelOfProtection, TemperatureClass};
/// let marking = gas_marking(
///     &[LevelOfProtection::Ia, LevelOfProtection::Eb],
///     GasGroup::IIC,
///     TemperatureClass::T6,
///     EquipmentProtectionLevel::Gb,
/// );
/// assert_eq!(marking, "Ex eb ia IIC T6 Gb");
/// ```
pub fn gas_marking(
    levels: &[LevelOfProtection],
    group: GasGroup,
    class: TemperatureClass,
    level: EquipmentProtectionLevel,
) -> String {
    format!("Ex {} {group} {class} {level}", symbols(levels))
}

/// The marking for dust: `Ex tb IIIC T80 °C Db`. Stands by itself, never merged with that for gas.
///
/// ```
/// use glandrail::standards::iec_60079_0::dust_marking;
/// use glandrail::standards::{DustGroup, EquipmentProtectionLevel, LevelOfProtection};
/// let marking =
///     dust_marking(&[LevelOfProtection::Tb], DustGroup::IIIC, 80, EquipmentProtectionLevel::Db);
/// assert_eq!(marking, "Ex tb IIIC T80 °C Db");
/// ```
pub fn dust_marking(
    levels: &[LevelOfProtection],
    group: DustGroup,
    surface_c: u16,
    level: EquipmentProtectionLevel,
) -> String {
    format!("Ex {} {group} T{surface_c} °C {level}", symbols(levels))
}

/// The symbols in alphabetical order, each once.
fn symbols(levels: &[LevelOfProtection]) -> String {
    let mut words: Vec<&str> = levels.iter().map(|level| level.word()).collect();
    words.sort_unstable();
    words.dedup();
    words.join(" ")
}

/// The ambient range as the marking writes it; `None` for −20 to +40 °C, which needs no marking.
///
/// ```
/// use glandrail::standards::iec_60079_0::ambient_marking;
/// assert_eq!(ambient_marking(-20, 40), None);
/// assert_eq!(ambient_marking(-20, 50).as_deref(), Some("-20 °C ≤ Ta ≤ +50 °C"));
/// ```
pub fn ambient_marking(minimum_c: i16, maximum_c: i16) -> Option<String> {
    let default = f64::from(minimum_c) == DEFAULT_AMBIENT_MINIMUM_C
        && f64::from(maximum_c) == DEFAULT_AMBIENT_MAXIMUM_C;
    (!default).then(|| format!("{minimum_c:+} °C ≤ Ta ≤ {maximum_c:+} °C"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_level_suits_exactly_the_zones_whose_required_level_it_covers() {
        for level in EquipmentProtectionLevel::ALL {
            for zone in Zone::ALL {
                assert_eq!(level.suits(*zone), level.covers(zone.required_level()), "{level} {zone}");
            }
        }
    }

    #[test]
    fn surface_temperatures_find_their_class() {
        assert_eq!(TemperatureClass::of_surface_c(85.0), Some(TemperatureClass::T6));
        assert_eq!(TemperatureClass::of_surface_c(85.1), Some(TemperatureClass::T5));
        assert_eq!(TemperatureClass::of_surface_c(451.0), None);
        assert_eq!(TemperatureClass::of_surface_c(f64::NAN), None);
    }

    #[test]
    fn words_and_numbers_survive_serde() {
        assert_eq!(serde_json::to_string(&Zone::Zone21).expect("number"), "21");
        assert_eq!(serde_json::from_str::<Zone>("1").expect("zone"), Zone::Zone1);
        assert!(serde_json::from_str::<Zone>("3").is_err());
        assert_eq!(serde_json::to_string(&TemperatureClass::T6).expect("text"), "\"T6\"");
        assert!(serde_json::from_str::<TemperatureClass>("\"T7\"").is_err());
        assert_eq!("iic".parse::<GasGroup>(), Ok(GasGroup::IIC));
    }

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
