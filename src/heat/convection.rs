//! Natural convection at plane surfaces: Nusselt numbers and film coefficients.
//! Knows nothing of boxes.
//!
//! Each correlation is published for a range of Rayleigh numbers. Above it there is an error. Below
//! it, where only very small or hardly warmer surfaces come, the horizontal laws give less heat
//! than a plate really sheds, so a temperature found with them is too high, never too low; the
//! result then says [`Convection::below_published_range`].

use serde::Serialize;

use super::air::{Air, CELSIUS_ZERO_K, GRAVITY_M_S2};
use crate::standards::provenance::{OutOfRange, Source, Status, within};

/// Vertical plate: Churchill and Chu.
pub const VERTICAL: Source = Source::new(
    "Churchill and Chu",
    "1975",
    "vertical plate, all Rayleigh numbers",
    Status::Published,
);
/// Horizontal plate, unstable side: McAdams.
pub const UNSTABLE: Source = Source::new(
    "McAdams",
    "1954",
    "horizontal plate, hot side up",
    Status::Published,
);
/// Horizontal plate, stable side: McAdams.
pub const STABLE: Source = Source::new(
    "McAdams",
    "1954",
    "horizontal plate, hot side down",
    Status::Published,
);

/// How a surface lies to the flow along it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Orientation {
    /// Upright.
    Vertical,
    /// Level, with the lighter air underneath: hot side up, or cold side down.
    Unstable,
    /// Level, with the lighter air on top: hot side down, or cold side up.
    Stable,
}

impl Orientation {
    /// Rayleigh numbers for which the correlation was published; the limits themselves are recalled.
    pub const fn published_range(self) -> (f64, f64) {
        match self {
            Orientation::Vertical => (0.1, 1e12),
            Orientation::Unstable => (1e4, 1e11),
            Orientation::Stable => (1e5, 1e10),
        }
    }

    /// Source of the correlation.
    pub const fn source(self) -> Source {
        match self {
            Orientation::Vertical => VERTICAL,
            Orientation::Unstable => UNSTABLE,
            Orientation::Stable => STABLE,
        }
    }
}

/// From this Rayleigh number on the unstable side follows the turbulent law.
pub const TURBULENT_FROM_RAYLEIGH: f64 = 1e7;

/// Churchill and Chu for the vertical plate at every Rayleigh number:
/// Nu = {0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}².
pub fn nusselt_vertical(rayleigh: f64, prandtl: f64) -> f64 {
    let factor = (1.0 + (0.492 / prandtl).powf(9.0 / 16.0)).powf(8.0 / 27.0);
    let root = 0.825 + 0.387 * rayleigh.powf(1.0 / 6.0) / factor;
    root * root
}

/// Churchill and Chu, laminar form, more accurate up to Ra = 10⁹:
/// Nu = 0.68 + 0.670 Ra^(1/4) / [1 + (0.492/Pr)^(9/16)]^(4/9).
pub fn nusselt_vertical_laminar(rayleigh: f64, prandtl: f64) -> f64 {
    0.68 + 0.670 * rayleigh.sqrt().sqrt()
        / (1.0 + (0.492 / prandtl).powf(9.0 / 16.0)).powf(4.0 / 9.0)
}

/// McAdams, unstable side: 0.54 Ra^(1/4) up to 10⁷, then 0.15 Ra^(1/3).
///
/// Textbooks differ about where to change over; at 10⁷ the second law is 6 % above the first.
pub fn nusselt_unstable(rayleigh: f64) -> f64 {
    if rayleigh <= TURBULENT_FROM_RAYLEIGH {
        nusselt_unstable_laminar(rayleigh)
    } else {
        0.15 * rayleigh.cbrt()
    }
}

/// McAdams, unstable side, laminar law: 0.54 Ra^(1/4).
pub fn nusselt_unstable_laminar(rayleigh: f64) -> f64 {
    0.54 * rayleigh.sqrt().sqrt()
}

/// Raithby and Hollands, unstable side, both regimes blended.
pub fn nusselt_unstable_blended(rayleigh: f64, prandtl: f64) -> f64 {
    let laminar_factor = 0.671 / (1.0 + (0.492 / prandtl).powf(9.0 / 16.0)).powf(4.0 / 9.0);
    let thin_layer = 0.835 * laminar_factor * rayleigh.sqrt().sqrt();
    let laminar = if thin_layer > 0.0 {
        1.4 / (1.4 / thin_layer).ln_1p()
    } else {
        0.0
    };
    let turbulent = 0.14 * (1.0 + 0.0107 * prandtl) / (1.0 + 0.01 * prandtl) * rayleigh.cbrt();
    (laminar.powi(10) + turbulent.powi(10)).powf(0.1)
}

/// McAdams, stable side: 0.27 Ra^(1/4).
pub fn nusselt_stable(rayleigh: f64) -> f64 {
    0.27 * rayleigh.sqrt().sqrt()
}

/// Stable side as newer textbooks have it: 0.52 Ra^(1/5). A third lower at Ra = 10⁸.
pub fn nusselt_stable_newer(rayleigh: f64) -> f64 {
    0.52 * rayleigh.powf(0.2)
}

/// A film coefficient with all it rests on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Convection {
    /// How the surface lies.
    pub orientation: Orientation,
    /// Characteristic length, m.
    pub length_m: f64,
    /// Temperature difference between surface and air, K, never negative.
    pub difference_k: f64,
    /// Air at the mean of both temperatures.
    pub film: Air,
    /// Grashof number.
    pub grashof: f64,
    /// Rayleigh number.
    pub rayleigh: f64,
    /// Nusselt number.
    pub nusselt: f64,
    /// Film coefficient, W/(m² K).
    pub coefficient_w_m2k: f64,
    /// The Rayleigh number is below the published range: the coefficient errs towards too small.
    pub below_published_range: bool,
}

/// Film coefficient between a plane surface and still air.
///
/// # Errors
/// A length outside 1 mm to 10 m, a film temperature outside −70 to 300 °C, or a Rayleigh number
/// above the published range.
///
/// ```
/// use glandrail::heat::convection::{film, Orientation};
/// let side = film(Orientation::Vertical, 0.1, 25.0, 20.0).unwrap();
/// assert!((side.coefficient_w_m2k - 3.58123).abs() < 1e-4);
/// ```
pub fn film(
    orientation: Orientation,
    length_m: f64,
    surface_c: f64,
    air_c: f64,
) -> Result<Convection, OutOfRange> {
    let length_m = within("characteristic length", length_m, "m", 0.001, 10.0)?;
    let film = Air::at((surface_c + air_c) / 2.0)?;
    let difference_k = (surface_c - air_c).abs();
    let viscosity = film.kinematic_viscosity_m2_s;
    let grashof =
        GRAVITY_M_S2 * film.expansion_per_k * difference_k * length_m * length_m * length_m
            / (viscosity * viscosity);
    let (least, most) = orientation.published_range();
    let rayleigh = within("Rayleigh number", grashof * film.prandtl, "1", 0.0, most)?;
    let nusselt = match orientation {
        Orientation::Vertical => nusselt_vertical(rayleigh, film.prandtl),
        Orientation::Unstable => nusselt_unstable(rayleigh),
        Orientation::Stable => nusselt_stable(rayleigh),
    };
    Ok(Convection {
        orientation,
        length_m,
        difference_k,
        film,
        grashof,
        rayleigh,
        nusselt,
        coefficient_w_m2k: nusselt * film.conductivity_w_mk / length_m,
        below_published_range: rayleigh < least,
    })
}

/// Stefan–Boltzmann constant, W/(m² K⁴).
pub const STEFAN_BOLTZMANN_W_M2K4: f64 = 5.670_374_419e-8;

/// Coefficient of radiation between a surface and large surroundings, W/(m² K):
/// ε σ (T₁² + T₂²)(T₁ + T₂).
///
/// # Errors
/// An emissivity outside 0 to 1.
///
/// ```
/// use glandrail::heat::convection::radiation_w_m2k;
/// let coefficient = radiation_w_m2k(0.9, 49.498, 40.0).unwrap();
/// assert!((coefficient - 6.5596).abs() < 1e-4);
/// ```
pub fn radiation_w_m2k(
    emissivity: f64,
    surface_c: f64,
    surroundings_c: f64,
) -> Result<f64, OutOfRange> {
    let emissivity = within("emissivity", emissivity, "1", 0.0, 1.0)?;
    let (surface, around) = (surface_c + CELSIUS_ZERO_K, surroundings_c + CELSIUS_ZERO_K);
    Ok(emissivity
        * STEFAN_BOLTZMANN_W_M2K4
        * (surface * surface + around * around)
        * (surface + around))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_difference_no_trouble() {
        for orientation in [
            Orientation::Vertical,
            Orientation::Unstable,
            Orientation::Stable,
        ] {
            let still = film(orientation, 0.2, 40.0, 40.0).expect("in range");
            assert!(still.coefficient_w_m2k.is_finite() && still.below_published_range);
        }
        assert_eq!(nusselt_unstable_blended(0.0, 0.7), 0.0);
    }

    #[test]
    fn too_large_a_plate_is_an_error() {
        let error =
            film(Orientation::Unstable, 8.0, 90.0, 20.0).expect_err("beyond the correlation");
        assert!(error.to_string().starts_with("Rayleigh number"), "{error}");
    }

    #[test]
    fn the_two_laws_of_the_stable_side_differ_by_a_third() {
        // Older books: 2.07 W/m²K, newer ones: 1.56, for the same duct (Ra = 1.38e8).
        let ratio = nusselt_stable(1.38e8) / nusselt_stable_newer(1.38e8);
        assert!((ratio - 2.068 / 1.560).abs() < 0.01, "{ratio}");
    }
}
