//! What a current turns into heat in conductors and terminals. Knows nothing of boxes.

use serde::Serialize;

use crate::standards::awg::{self, Stranding};
use crate::standards::iec_60228::{self, ConductorClass};
use crate::standards::provenance::{OutOfRange, Source, within};
use crate::standards::{Awg, iec_60079_7};

/// Temperature at which the resistances of the heat sum are taken, °C.
pub const REFERENCE_C: f64 = 20.0;

/// Where the heat sum comes from: resistances at 20 °C, actual current, one length per conductor.
pub const SOURCE: Source = iec_60079_7::DISSIPATED_POWER;

/// A conductor by what decides its resistance.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(tag = "system", rename_all = "kebab-case")]
pub enum Conductor {
    /// A nominal section of IEC 60228.
    Metric {
        /// Section, mm².
        section_mm2: f64,
        /// How it is built.
        class: ConductorClass,
    },
    /// An American wire gauge.
    American {
        /// Gauge.
        gauge: Awg,
        /// Solid or stranded.
        stranding: Stranding,
    },
}

impl Conductor {
    /// Resistance at a temperature, ohm/km.
    ///
    /// # Errors
    /// A section that is not listed, or a temperature outside −60 to 200 °C.
    pub fn resistance_ohm_per_km(self, temperature_c: f64) -> Result<f64, OutOfRange> {
        match self {
            Conductor::Metric { section_mm2, class } => {
                iec_60228::resistance_ohm_per_km(section_mm2, class, temperature_c)
            }
            Conductor::American { gauge, stranding } => {
                gauge.resistance_ohm_per_km(stranding, temperature_c)
            }
        }
    }

    /// Source of the resistance.
    pub fn source(self) -> Source {
        match self {
            Conductor::Metric { .. } => iec_60228::RESISTANCE,
            Conductor::American { stranding, .. } => match stranding {
                Stranding::Solid => awg::SOLID,
                Stranding::Stranded => awg::STRANDED,
            },
        }
    }
}

/// Heat of one conductor, with all it rests on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ConductorHeat {
    /// The conductor.
    pub conductor: Conductor,
    /// Length, mm.
    pub length_mm: f64,
    /// Current, A.
    pub current_a: f64,
    /// Temperature of the conductor, °C.
    pub temperature_c: f64,
    /// Resistance at that temperature, ohm/km.
    pub resistance_ohm_per_km: f64,
    /// Resistance of the length, mohm.
    pub resistance_mohm: f64,
    /// Heat, W.
    pub power_w: f64,
}

/// Heat of one conductor: I² R.
///
/// # Errors
/// A section that is not listed, a temperature outside −60 to 200 °C, a length outside 0 to
/// 10 m, or a current outside 0 to 10 kA.
///
/// ```
/// use glandrail::heat::conductors::{conductor_heat, Conductor, REFERENCE_C};
/// use glandrail::standards::ConductorClass;
/// let flexible = Conductor::Metric { section_mm2: 2.5, class: ConductorClass::Class5 };
/// let heat = conductor_heat(flexible, 405.0, 10.0, REFERENCE_C).unwrap();
/// assert!((heat.power_w - 100.0 * 7.98e-3 * 0.405).abs() < 1e-12);
/// ```
pub fn conductor_heat(
    conductor: Conductor,
    length_mm: f64,
    current_a: f64,
    temperature_c: f64,
) -> Result<ConductorHeat, OutOfRange> {
    let length_mm = within("conductor length", length_mm, "mm", 0.0, 10_000.0)?;
    let current_a = checked_current_a(current_a)?;
    let per_km = conductor.resistance_ohm_per_km(temperature_c)?;
    // ohm/km is mohm/m, so a length in mm wants a thousandth.
    let resistance_mohm = per_km * length_mm / 1000.0;
    Ok(ConductorHeat {
        conductor,
        length_mm,
        current_a,
        temperature_c,
        resistance_ohm_per_km: per_km,
        resistance_mohm,
        power_w: current_a * current_a * resistance_mohm / 1000.0,
    })
}

/// Heat of a resistance that a current flows through, W.
///
/// # Errors
/// A resistance outside 0 to 10 kohm, or a current outside 0 to 10 kA.
///
/// ```
/// use glandrail::heat::conductors::resistance_heat_w;
/// assert_eq!(resistance_heat_w(2.0, 10.0), Ok(0.2));
/// ```
pub fn resistance_heat_w(resistance_mohm: f64, current_a: f64) -> Result<f64, OutOfRange> {
    let resistance_mohm = within("resistance", resistance_mohm, "mohm", 0.0, 1e7)?;
    let current_a = checked_current_a(current_a)?;
    Ok(current_a * current_a * resistance_mohm / 1000.0)
}

/// Heat of a terminal with conductors on it: I² (R_terminal + n R' L), W. A feed-through terminal
/// wired on both sides has two.
///
/// # Errors
/// As [`conductor_heat`] and [`resistance_heat_w`].
pub fn terminal_heat_w(
    terminal_mohm: f64,
    conductors: u32,
    conductor: Conductor,
    length_mm: f64,
    current_a: f64,
    temperature_c: f64,
) -> Result<f64, OutOfRange> {
    let each = conductor_heat(conductor, length_mm, current_a, temperature_c)?;
    Ok(resistance_heat_w(terminal_mohm, current_a)? + f64::from(conductors) * each.power_w)
}

fn checked_current_a(current_a: f64) -> Result<f64, OutOfRange> {
    within("current", current_a, "A", 0.0, 10_000.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn warm_copper_gives_more_heat_at_the_same_current() {
        let conductor = Conductor::Metric {
            section_mm2: 2.5,
            class: ConductorClass::Class5,
        };
        let cold = terminal_heat_w(1.0, 2, conductor, 405.0, 10.0, REFERENCE_C).expect("in range");
        let warm = terminal_heat_w(1.0, 2, conductor, 405.0, 10.0, 80.0).expect("in range");
        // The terminal's own 0.1 W stays, the conductors grow by 1.2358.
        assert!(((warm - 0.1) / (cold - 0.1) - 1.2358).abs() < 1e-9);
    }

    #[test]
    fn both_systems_of_sizes_are_served() {
        let american = Conductor::American {
            gauge: "12".parse().expect("gauge"),
            stranding: Stranding::Stranded,
        };
        let heat = conductor_heat(american, 1000.0, 1.0, 20.0).expect("in range");
        assert!((heat.resistance_mohm - 5.211 * 1.02).abs() < 1e-3);
    }

    #[test]
    fn nonsense_is_refused() {
        let odd = Conductor::Metric {
            section_mm2: 2.4,
            class: ConductorClass::Class5,
        };
        assert!(conductor_heat(odd, 100.0, 1.0, 20.0).is_err());
        assert!(resistance_heat_w(1.0, -1.0).is_err());
        assert!(resistance_heat_w(f64::NAN, 1.0).is_err());
    }
}
