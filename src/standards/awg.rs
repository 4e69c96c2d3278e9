//! American wire sizes: ASTM B258 geometry and the resistances of NEC chapter 9, Table 8.
//! Knows nothing of metric conductor classes.

use std::cmp::Ordering;
use std::f64::consts::PI;
use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::iec_60228::{HIGHEST_TEMPERATURE_C, LOWEST_TEMPERATURE_C, resistance_ratio};
use super::provenance::{OutOfRange, Source, Status, serde_as_text, within};

/// Diameters by ASTM B258.
pub const GEOMETRY: Source = Source::new(
    "ASTM B258",
    "",
    "diameter 0.127 mm × 92^((36 − n)/39)",
    Status::Published,
);

/// Resistances of uncoated copper at 75 °C.
pub const TABLE_8: Source = Source::new("NEC", "", "chapter 9, Table 8", Status::Published);

/// Resistance of a solid wire, computed from the geometry and the resistivity of annealed copper.
pub const SOLID: Source = Source::new(
    "ASTM B258 geometry with IEC 60028 copper",
    "",
    "17.241 ohm·mm²/km at 20 °C",
    Status::Published,
);

/// Resistance of a stranded wire: that of a solid one and 2 % more. NEC chapter 9, Table 8 has about as much from
/// 6 AWG on; for thinner wires it is what is usually added.
pub const STRANDED: Source = Source::new(
    "ASTM B258 geometry with IEC 60028 copper",
    "",
    "17.241 ohm·mm²/km at 20 °C, and 2 % for stranding",
    Status::CommonPractice,
);

/// Resistivity of standard annealed copper at 20 °C, ohm·mm²/km (IEC 60028).
pub const ANNEALED_COPPER_OHM_MM2_PER_KM: f64 = 17.241;

/// What stranding adds to the resistance of the same area: the strands are longer than the wire.
pub const STRANDING_FACTOR: f64 = 1.02;

/// Feet in a kilometre, thousands.
pub const KFT_PER_KM: f64 = 3.280_84;

/// Square millimetres in a thousand circular mils.
pub const MM2_PER_KCMIL: f64 = 0.506_707_479_1;

/// An American wire gauge, 40 (thinnest) to 4/0 (thickest). The thicker wire is the greater.
///
/// ```
/// use glandrail::standards::Awg;
/// let thin: Awg = "14".parse().unwrap();
/// let thick: Awg = "1/0".parse().unwrap();
/// assert!(thick > thin);
/// assert!((thin.area_mm2() - 2.0809).abs() < 1e-4);
/// assert_eq!(thick.to_string(), "1/0 AWG");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Awg(i8);

/// Solid or stranded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "lowercase")]
pub enum Stranding {
    /// One wire.
    Solid,
    /// Several wires, laid up.
    Stranded,
}

impl Awg {
    /// The gauge by its number: 14 for 14 AWG, 0 for 1/0, −3 for 4/0.
    ///
    /// # Errors
    /// A number outside −3 to 40.
    pub fn from_number(number: i8) -> Result<Awg, OutOfRange> {
        within("wire gauge number", f64::from(number), "1", -3.0, 40.0)?;
        Ok(Awg(number))
    }

    /// The number in the geometric series: 0 for 1/0, −1 for 2/0, −3 for 4/0.
    pub fn number(self) -> i8 {
        self.0
    }

    /// Diameter of the solid wire, mm.
    pub fn diameter_mm(self) -> f64 {
        0.127 * 92f64.powf((36.0 - f64::from(self.0)) / 39.0)
    }

    /// Area of the solid wire, mm².
    pub fn area_mm2(self) -> f64 {
        PI / 4.0 * self.diameter_mm().powi(2)
    }

    /// Resistance at a temperature, ohm/km.
    ///
    /// # Errors
    /// A temperature outside −60 to 200 °C.
    ///
    /// ```
    /// use glandrail::standards::awg::{Awg, Stranding};
    /// let wire: Awg = "12".parse().unwrap();
    /// let cold = wire.resistance_ohm_per_km(Stranding::Solid, 20.0).unwrap();
    /// assert!((cold - 5.211).abs() < 1e-3);
    /// ```
    pub fn resistance_ohm_per_km(
        self,
        stranding: Stranding,
        temperature_c: f64,
    ) -> Result<f64, OutOfRange> {
        let solid = ANNEALED_COPPER_OHM_MM2_PER_KM / self.area_mm2();
        let factor = match stranding {
            Stranding::Solid => 1.0,
            Stranding::Stranded => STRANDING_FACTOR,
        };
        Ok(solid * factor * resistance_ratio(temperature_c)?)
    }

    /// NEC chapter 9, Table 8: resistance at 75 °C, ohm per 1000 ft, for 14 to 4/0 AWG.
    ///
    /// From 14 to 8 AWG the figures are those of a solid wire; from 6 AWG on they contain about
    /// 2 % for stranding. A stranded 14 AWG wire is therefore worse than its row.
    ///
    /// # Errors
    /// A gauge without a row.
    pub fn table_8_ohm_per_kft(self) -> Result<f64, OutOfRange> {
        TABLE_8_ROWS
            .iter()
            .find(|(number, _)| *number == self.0)
            .map(|(_, resistance)| *resistance)
            .ok_or_else(|| OutOfRange::Unknown {
                quantity: "gauge of NEC chapter 9, Table 8",
                value: self.to_string(),
                valid: "14, 12, 10, 8, 6, 4, 3, 2, 1, 1/0, 2/0, 3/0 or 4/0 AWG".into(),
            })
    }

    /// NEC chapter 9, Table 8 in metric units: resistance at 75 °C, ohm/km.
    ///
    /// # Errors
    /// A gauge without a row.
    pub fn table_8_ohm_per_km(self) -> Result<f64, OutOfRange> {
        Ok(self.table_8_ohm_per_kft()? * KFT_PER_KM)
    }
}

/// The range of temperatures for which [`Awg::resistance_ohm_per_km`] answers, °C.
pub const TEMPERATURE_RANGE_C: (f64, f64) = (LOWEST_TEMPERATURE_C, HIGHEST_TEMPERATURE_C);

/// Gauge number and ohm/kft at 75 °C.
const TABLE_8_ROWS: [(i8, f64); 13] = [
    (14, 3.07),
    (12, 1.93),
    (10, 1.21),
    (8, 0.764),
    (6, 0.491),
    (4, 0.308),
    (3, 0.245),
    (2, 0.194),
    (1, 0.154),
    (0, 0.122),
    (-1, 0.0967),
    (-2, 0.0766),
    (-3, 0.0608),
];

impl Ord for Awg {
    fn cmp(&self, other: &Self) -> Ordering {
        other.0.cmp(&self.0)
    }
}

impl PartialOrd for Awg {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Display for Awg {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 > 0 {
            f.pad(&format!("{} AWG", self.0))
        } else {
            f.pad(&format!("{}/0 AWG", 1 - self.0))
        }
    }
}

impl FromStr for Awg {
    type Err = OutOfRange;

    /// Reads `14`, `14 AWG`, `AWG 14`, `1/0`, `0`, `00`, `0000`.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let unknown = || OutOfRange::Unknown {
            quantity: "wire gauge",
            value: text.to_string(),
            valid: "an AWG number from 40 to 1, or 1/0, 2/0, 3/0, 4/0".into(),
        };
        let upper = text.trim().to_ascii_uppercase();
        let bare = upper
            .strip_prefix("AWG")
            .or_else(|| upper.strip_suffix("AWG"));
        let bare = bare.unwrap_or(&upper).trim();
        let digits = bare.as_bytes();
        if let Some(count) = bare.strip_suffix("/0") {
            return match count {
                "1" => Ok(Awg(0)),
                "2" => Ok(Awg(-1)),
                "3" => Ok(Awg(-2)),
                "4" => Ok(Awg(-3)),
                _ => Err(unknown()),
            };
        }
        if !digits.is_empty() && digits.iter().all(|digit| *digit == b'0') {
            return match digits.len() {
                1 => Ok(Awg(0)),
                2 => Ok(Awg(-1)),
                3 => Ok(Awg(-2)),
                4 => Ok(Awg(-3)),
                _ => Err(unknown()),
            };
        }
        if digits.is_empty() || !digits.iter().all(u8::is_ascii_digit) {
            return Err(unknown());
        }
        match bare.parse::<i8>() {
            Ok(number) if (1..=40).contains(&number) => Ok(Awg(number)),
            _ => Err(unknown()),
        }
    }
}

serde_as_text!(Awg, "a wire gauge such as \"14 AWG\" or \"1/0 AWG\"");

/// A size of the American series: a gauge, or thousands of circular mils above 4/0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum WireSize {
    /// Up to 4/0 AWG.
    Gauge(Awg),
    /// 250 to 2000 kcmil.
    Kcmil(u16),
}

impl WireSize {
    /// Area of copper, mm².
    pub fn area_mm2(self) -> f64 {
        match self {
            WireSize::Gauge(gauge) => gauge.area_mm2(),
            WireSize::Kcmil(kcmil) => f64::from(kcmil) * MM2_PER_KCMIL,
        }
    }
}

impl fmt::Display for WireSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            WireSize::Gauge(gauge) => gauge.fmt(f),
            WireSize::Kcmil(kcmil) => f.pad(&format!("{kcmil} kcmil")),
        }
    }
}

impl FromStr for WireSize {
    type Err = OutOfRange;

    /// Reads what [`Awg`] reads, and `250 kcmil`.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let lower = text.trim().to_ascii_lowercase();
        let Some(number) = lower.strip_suffix("kcmil") else {
            return text.parse().map(WireSize::Gauge);
        };
        match number.trim().parse::<u16>() {
            Ok(kcmil) if (250..=2000).contains(&kcmil) => Ok(WireSize::Kcmil(kcmil)),
            _ => Err(OutOfRange::Unknown {
                quantity: "wire size",
                value: text.to_string(),
                valid: "250 to 2000 kcmil".into(),
            }),
        }
    }
}

serde_as_text!(WireSize, "a wire size such as \"14 AWG\" or \"250 kcmil\"");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gauges_are_read_in_all_their_spellings() {
        for (text, number) in [
            ("14", 14),
            ("AWG 14", 14),
            ("14 awg", 14),
            ("awg14", 14),
            ("1/0", 0),
            ("00", -1),
            ("4/0 AWG", -3),
        ] {
            assert_eq!(text.parse::<Awg>().expect(text).number(), number, "{text}");
        }
        for text in ["", "41", "5/0", "-1", "+14", "1.5", "AWG", "00000"] {
            assert!(text.parse::<Awg>().is_err(), "{text}");
        }
    }

    #[test]
    fn every_gauge_reads_back_as_written() {
        for number in -3..=40 {
            let gauge = Awg::from_number(number).expect("in range");
            assert_eq!(gauge.to_string().parse::<Awg>(), Ok(gauge));
        }
        assert!(Awg::from_number(-4).is_err());
    }

    #[test]
    fn kcmil_follow_on_above_4_0() {
        let largest_gauge: WireSize = "4/0".parse().expect("gauge");
        let kcmil: WireSize = "250 kcmil".parse().expect("kcmil");
        assert!(kcmil > largest_gauge && kcmil.area_mm2() > largest_gauge.area_mm2());
        assert!((kcmil.area_mm2() - 126.68).abs() < 0.01);
        assert!("240 kcmil".parse::<WireSize>().is_err());
    }
}
