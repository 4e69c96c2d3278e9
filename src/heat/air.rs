//! Properties of dry air at normal pressure. Knows nothing of surfaces.

use serde::Serialize;

use crate::standards::provenance::{OutOfRange, Source, Status, within};

/// Viscosity and conductivity by the laws of the standard atmosphere, density as an ideal gas.
pub const SOURCE: Source = Source::new(
    "US Standard Atmosphere",
    "1976",
    "viscosity and conductivity; ideal gas at 101 325 Pa",
    Status::Published,
);

/// Normal pressure, Pa.
pub const PRESSURE_PA: f64 = 101_325.0;
/// Gas constant of dry air, J/(kg K).
pub const GAS_CONSTANT_J_KGK: f64 = 287.05287;
/// Specific heat at constant pressure, J/(kg K).
pub const SPECIFIC_HEAT_J_KGK: f64 = 1006.0;
/// Acceleration of fall, m/s².
pub const GRAVITY_M_S2: f64 = 9.80665;
/// Zero of the Celsius scale, K.
pub const CELSIUS_ZERO_K: f64 = 273.15;

/// Lowest temperature answered for, °C. Ours: well inside what the laws were fitted to.
pub const LOWEST_C: f64 = -70.0;
/// Highest temperature answered for, °C. Ours, as above.
pub const HIGHEST_C: f64 = 300.0;

/// Air at one temperature.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Air {
    /// Temperature, K.
    pub temperature_k: f64,
    /// Density, kg/m³.
    pub density_kg_m3: f64,
    /// Dynamic viscosity, Pa s.
    pub viscosity_pa_s: f64,
    /// Kinematic viscosity, m²/s.
    pub kinematic_viscosity_m2_s: f64,
    /// Thermal conductivity, W/(m K).
    pub conductivity_w_mk: f64,
    /// Prandtl number.
    pub prandtl: f64,
    /// Volumetric expansion, 1/K.
    pub expansion_per_k: f64,
}

impl Air {
    /// Air at a temperature and normal pressure.
    ///
    /// # Errors
    /// A temperature outside −70 to 300 °C.
    ///
    /// ```
    /// use glandrail::heat::air::Air;
    /// let air = Air::at(20.0).unwrap();
    /// assert!((air.density_kg_m3 - 1.2041).abs() < 5e-5);
    /// assert!((air.prandtl - 0.70934).abs() < 5e-6);
    /// ```
    pub fn at(temperature_c: f64) -> Result<Air, OutOfRange> {
        let celsius = within("air temperature", temperature_c, "°C", LOWEST_C, HIGHEST_C)?;
        let kelvin = celsius + CELSIUS_ZERO_K;
        let power = kelvin * kelvin.sqrt();
        let density = PRESSURE_PA / (GAS_CONSTANT_J_KGK * kelvin);
        let viscosity = 1.458e-6 * power / (kelvin + 110.4);
        let conductivity = 2.64638e-3 * power / (kelvin + 245.4 * 10f64.powf(-12.0 / kelvin));
        Ok(Air {
            temperature_k: kelvin,
            density_kg_m3: density,
            viscosity_pa_s: viscosity,
            kinematic_viscosity_m2_s: viscosity / density,
            conductivity_w_mk: conductivity,
            prandtl: SPECIFIC_HEAT_J_KGK * viscosity / conductivity,
            expansion_per_k: 1.0 / kelvin,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn air_agrees_with_the_printed_figures() {
        // K; kg/m³, Pa s, W/mK, m²/s, Pr: rounded as printed.
        let rows = [
            (293.15, 1.2041, 1.8134e-5, 0.025718, 1.5060e-5, 0.70934),
            (300.0, 1.1766, 1.8460e-5, 0.026252, 1.5689e-5, 0.70740),
            (303.15, 1.1644, 1.8609e-5, 0.026496, 1.5982e-5, 0.70652),
            (313.15, 1.1272, 1.9076e-5, 0.027267, 1.6923e-5, 0.70378),
            (323.15, 1.0923, 1.9536e-5, 0.028030, 1.7884e-5, 0.70112),
        ];
        for (kelvin, density, viscosity, conductivity, kinematic, prandtl) in rows {
            let air = Air::at(kelvin - CELSIUS_ZERO_K).expect("in range");
            assert!((air.density_kg_m3 - density).abs() < 5.1e-5);
            assert!((air.viscosity_pa_s - viscosity).abs() < 5.1e-10);
            assert!((air.conductivity_w_mk - conductivity).abs() < 5.1e-7);
            assert!((air.kinematic_viscosity_m2_s - kinematic).abs() < 5.1e-10);
            assert!((air.prandtl - prandtl).abs() < 5.1e-6);
        }
        assert!(Air::at(301.0).is_err() && Air::at(f64::NAN).is_err());
    }
}
