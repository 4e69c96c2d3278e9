//! IEC 60228: resistance of copper conductors by section, class and temperature.
//! Knows nothing of terminals, boxes or lengths.

use super::provenance::{OutOfRange, Source, Status, listed, within, words};

/// Tables 1, 2 and 3: greatest resistance at 20 °C of plain copper, and of metal-coated class 5.
pub const RESISTANCE: Source =
    Source::new("IEC 60228", "2004", "Tables 1, 2 and 3", Status::Published);

/// Temperature coefficient of standard annealed copper, and the linear law. The factors that IEC 60228 prints in
/// Table B.1 follow from 0.004 instead: see [`TABLE_B1`].
pub const TEMPERATURE_LAW: Source = Source::new(
    "IEC 60028",
    "1925",
    "standard annealed copper: 0.00393 per kelvin at 20 °C, linear",
    Status::Published,
);

/// Correction factors of Table B.1.
pub const TABLE_B1: Source = Source::new("IEC 60228", "2004", "Table B.1", Status::Published);

/// Temperature coefficient of resistance of annealed copper at 20 °C, 1/K.
pub const COPPER_COEFFICIENT_PER_K: f64 = 0.00393;

/// Lowest temperature for which the linear law is used here, °C.
///
/// The limits are ours: copper follows the straight line well beyond both, and no conductor of an
/// increased-safety box runs outside them.
pub const LOWEST_TEMPERATURE_C: f64 = -60.0;

/// Highest temperature for which the linear law is used here, °C.
pub const HIGHEST_TEMPERATURE_C: f64 = 200.0;

/// How a conductor is built.
///
/// Written `1`, `2`, `5` or `5 metal-coated`; a bare number is read too.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ConductorClass {
    /// Solid, plain copper.
    Class1,
    /// Stranded, plain copper.
    Class2,
    /// Flexible, plain copper.
    Class5,
    /// Flexible, metal-coated (tinned) copper.
    Class5MetalCoated,
}

words!(ConductorClass, "conductor class", "1, 2, 5 or 5 metal-coated", {
    Class1 => "1",
    Class2 => "2",
    Class5 => "5",
    Class5MetalCoated => "5 metal-coated",
});

/// One row: section in mm², then ohm/km at 20 °C for class 1, 2, 5 and metal-coated 5.
///
/// At 50 mm² class 5 (0.386) really is below class 2 (0.387). At 185, 240 and 300 mm² class 1
/// differs from class 2.
const ROWS: [(f64, [f64; 4]); 19] = [
    (0.5, [36.0, 36.0, 39.0, 40.1]),
    (0.75, [24.5, 24.5, 26.0, 26.7]),
    (1.0, [18.1, 18.1, 19.5, 20.0]),
    (1.5, [12.1, 12.1, 13.3, 13.7]),
    (2.5, [7.41, 7.41, 7.98, 8.21]),
    (4.0, [4.61, 4.61, 4.95, 5.09]),
    (6.0, [3.08, 3.08, 3.30, 3.39]),
    (10.0, [1.83, 1.83, 1.91, 1.95]),
    (16.0, [1.15, 1.15, 1.21, 1.24]),
    (25.0, [0.727, 0.727, 0.780, 0.795]),
    (35.0, [0.524, 0.524, 0.554, 0.565]),
    (50.0, [0.387, 0.387, 0.386, 0.393]),
    (70.0, [0.268, 0.268, 0.272, 0.277]),
    (95.0, [0.193, 0.193, 0.206, 0.210]),
    (120.0, [0.153, 0.153, 0.161, 0.164]),
    (150.0, [0.124, 0.124, 0.129, 0.132]),
    (185.0, [0.101, 0.0991, 0.106, 0.108]),
    (240.0, [0.0775, 0.0754, 0.0801, 0.0817]),
    (300.0, [0.0620, 0.0601, 0.0641, 0.0654]),
];

/// Temperature in °C and the factor by which a resistance measured there is multiplied to get the
/// one at 20 °C.
const FACTORS: [(f64, f64); 12] = [
    (5.0, 1.064),
    (10.0, 1.042),
    (15.0, 1.020),
    (25.0, 0.980),
    (30.0, 0.962),
    (40.0, 0.926),
    (50.0, 0.893),
    (60.0, 0.862),
    (70.0, 0.833),
    (80.0, 0.806),
    (90.0, 0.781),
    (100.0, 0.758),
];

/// The nominal sections, mm², ascending.
pub fn sections_mm2() -> impl Iterator<Item = f64> {
    ROWS.iter().map(|(section, _)| *section)
}

/// Greatest resistance at 20 °C, ohm/km.
///
/// # Errors
/// A section that is no nominal section of the tables (0.5 to 300 mm²).
///
/// ```
/// use glandrail::standards::iec_60228::{resistance_at_20_ohm_per_km, ConductorClass};
/// assert_eq!(resistance_at_20_ohm_per_km(2.5, ConductorClass::Class5), Ok(7.98));
/// assert!(resistance_at_20_ohm_per_km(3.0, ConductorClass::Class5).is_err());
/// ```
pub fn resistance_at_20_ohm_per_km(
    section_mm2: f64,
    class: ConductorClass,
) -> Result<f64, OutOfRange> {
    ROWS.iter()
        .find(|(section, _)| *section == section_mm2)
        .map(|(_, resistances)| resistances[class as usize])
        .ok_or_else(|| OutOfRange::NotListed {
            quantity: "conductor section",
            value: section_mm2,
            unit: "mm²",
            valid: listed(sections_mm2()),
        })
}

/// Greatest resistance at a temperature, ohm/km: the table's figure times the linear law.
///
/// # Errors
/// A section that is not listed, or a temperature outside −60 to 200 °C.
///
/// ```
/// use glandrail::standards::iec_60228::{resistance_ohm_per_km, ConductorClass};
/// let warm = resistance_ohm_per_km(2.5, ConductorClass::Class5, 80.0).unwrap();
/// assert!((warm - 7.98 * 1.2358).abs() < 1e-9);
/// ```
pub fn resistance_ohm_per_km(
    section_mm2: f64,
    class: ConductorClass,
    temperature_c: f64,
) -> Result<f64, OutOfRange> {
    Ok(resistance_at_20_ohm_per_km(section_mm2, class)? * resistance_ratio(temperature_c)?)
}

/// R(t) / R(20 °C) = 1 + 0.00393 (t − 20).
///
/// # Errors
/// A temperature outside −60 to 200 °C.
///
/// ```
/// use glandrail::standards::iec_60228::resistance_ratio;
/// assert!((resistance_ratio(40.0).unwrap() - 1.0786).abs() < 1e-12);
/// ```
pub fn resistance_ratio(temperature_c: f64) -> Result<f64, OutOfRange> {
    let temperature_c = within(
        "conductor temperature",
        temperature_c,
        "°C",
        LOWEST_TEMPERATURE_C,
        HIGHEST_TEMPERATURE_C,
    )?;
    Ok(1.0 + COPPER_COEFFICIENT_PER_K * (temperature_c - 20.0))
}

/// Table B.1: the factor that takes a resistance measured at a temperature to 20 °C.
///
/// Beware: the printed factors are 1 / (1 + 0.004 (t − 20)), not the reciprocal of
/// [`resistance_ratio`]; at 50 °C they say 0.893 where 0.00393 gives 0.8945. They are for bringing
/// a measurement to 20 °C, and are not used for predicting a warm resistance: that way round the
/// coefficient of copper decides.
///
/// # Errors
/// A temperature without a row. 20 °C itself answers 1.
///
/// ```
/// use glandrail::standards::iec_60228::table_b1_factor;
/// assert_eq!(table_b1_factor(50.0), Ok(0.893));
/// ```
pub fn table_b1_factor(temperature_c: f64) -> Result<f64, OutOfRange> {
    if temperature_c == 20.0 {
        return Ok(1.0);
    }
    FACTORS
        .iter()
        .find(|(temperature, _)| *temperature == temperature_c)
        .map(|(_, factor)| *factor)
        .ok_or_else(|| OutOfRange::NotListed {
            quantity: "measuring temperature",
            value: temperature_c,
            unit: "°C",
            valid: listed(FACTORS.iter().map(|(temperature, _)| *temperature)),
        })
}

/// The smallest nominal section that is not below the one given, mm².
///
/// # Errors
/// A section above 300 mm², or none at all.
///
/// ```
/// use glandrail::standards::iec_60228::next_section_mm2;
/// assert_eq!(next_section_mm2(2.081), Ok(2.5));
/// ```
pub fn next_section_mm2(section_mm2: f64) -> Result<f64, OutOfRange> {
    let wanted = within(
        "conductor section",
        section_mm2,
        "mm²",
        f64::MIN_POSITIVE,
        300.0,
    )?;
    Ok(sections_mm2()
        .find(|section| *section >= wanted)
        .unwrap_or(300.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn class_5_is_below_class_2_at_50_mm2_only() {
        for section in sections_mm2() {
            let stranded =
                resistance_at_20_ohm_per_km(section, ConductorClass::Class2).expect("listed");
            let flexible =
                resistance_at_20_ohm_per_km(section, ConductorClass::Class5).expect("listed");
            assert_eq!(flexible < stranded, section == 50.0, "at {section} mm²");
        }
    }

    #[test]
    fn table_b1_is_the_rounded_0_004_law_and_not_the_copper_law() {
        for (temperature, factor) in FACTORS {
            let round_law = 1.0 / (1.0 + 0.004 * (temperature - 20.0));
            assert!((factor - round_law).abs() <= 0.00051, "at {temperature} °C");
        }
        let copper_law = 1.0 / resistance_ratio(100.0).expect("in range");
        assert!((0.758 - copper_law).abs() > 0.002);
    }

    #[test]
    fn both_forms_of_the_temperature_law_agree() {
        for temperature in [0.0, 40.0, 70.0, 80.0, 100.0] {
            let linear = resistance_ratio(temperature).expect("in range");
            let quotient = (234.5 + temperature) / 254.5;
            assert!((linear - quotient).abs() < 1e-4);
        }
        assert!(resistance_ratio(201.0).is_err());
        assert!(resistance_ratio(f64::NAN).is_err());
    }

    #[test]
    fn class_is_written_as_text_and_read_from_a_number_too() {
        let json = serde_json::to_string(&ConductorClass::Class5MetalCoated).expect("text");
        assert_eq!(json, "\"5 metal-coated\"");
        assert_eq!(
            serde_json::from_str::<ConductorClass>("2").expect("number"),
            ConductorClass::Class2
        );
        assert!(serde_json::from_str::<ConductorClass>("6").is_err());
    }
}
