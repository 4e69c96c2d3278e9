//! The audit's own estimate of the air inside a closed box. Knows nothing of terminals and ratings.
//!
//! Every face that passes heat carries the same flux through a film inside, the wall and a film
//! outside. Films are the simplified laws of still air, h = C (ΔT/L)^¼, with radiation beside them.
//! They are other laws than those of the heat calculation, and cooler films: the air comes out a
//! little warmer. The box hangs on a wall, its rear face passes nothing.

use crate::catalogue::Material;
use crate::number::short;

/// Coefficients of h = C (ΔT/L)^¼ in W/(m² K), ΔT in K, L in m: upright plate, level plate with the
/// warm side up, level plate with the warm side down (McAdams' simplified laws for air, from memory).
const UPRIGHT: f64 = 1.42;
const WARM_SIDE_UP: f64 = 1.32;
const WARM_SIDE_DOWN: f64 = 0.59;

/// Stefan–Boltzmann constant, W/(m² K⁴).
const SIGMA: f64 = 5.670_374e-8;
/// 0 °C in kelvin.
const ZERO_C_K: f64 = 273.15;
/// No estimate is made for air warmer than this above ambient, K.
const MOST_K: f64 = 150.0;
/// Halvings of an interval up to that rise: what is left is below a millionth of a kelvin.
const HALVINGS: u32 = 30;

/// Conductivity of a wall in W/(m K), and its emissivity; `None` where they are not known.
fn wall_figures(material: Material) -> Option<(f64, f64)> {
    match material {
        Material::Grp => Some((0.25, 0.9)),
        // Bare and clean, which radiates least.
        Material::Stainless => Some((15.0, 0.3)),
        Material::Steel => Some((50.0, 0.9)),
        Material::Aluminium | Material::Brass | Material::Polyamide => None,
    }
}

/// One face: area in m², coefficient of its films, characteristic length in m.
struct Face {
    area_m2: f64,
    film: f64,
    length_m: f64,
}

struct Wall {
    emissivity: f64,
    /// Thickness by conductivity, m² K/W.
    resistance_m2k_w: f64,
}

/// Flux over one film between two temperatures in °C, W/m².
fn film_w_m2(face: &Face, emissivity: f64, warm_c: f64, cool_c: f64) -> f64 {
    let difference_k = (warm_c - cool_c).max(0.0);
    let still_air = face.film * (difference_k / face.length_m).sqrt().sqrt() * difference_k;
    let fourth = |celsius: f64| (celsius + ZERO_C_K).powi(4);
    still_air + emissivity * SIGMA * (fourth(warm_c) - fourth(cool_c)).max(0.0)
}

/// The flux through a face for known air on both sides, W/m²: the surface outside takes the
/// temperature at which what it gives off is what comes through film and wall.
fn flux_w_m2(face: &Face, wall: &Wall, inside_c: f64, ambient_c: f64) -> f64 {
    let (mut low_c, mut high_c) = (ambient_c, inside_c);
    for _ in 0..HALVINGS {
        let outer_c = 0.5 * (low_c + high_c);
        let off = film_w_m2(face, wall.emissivity, outer_c, ambient_c);
        let inner_c = outer_c + off * wall.resistance_m2k_w;
        if inner_c < inside_c && film_w_m2(face, wall.emissivity, inside_c, inner_c) > off {
            low_c = outer_c;
        } else {
            high_c = outer_c;
        }
    }
    film_w_m2(face, wall.emissivity, low_c, ambient_c)
}

/// The air inside at a power, °C.
///
/// # Errors
/// What the estimate cannot speak of, in words: a material, a size, a power.
pub(super) fn inside_air_c(
    outer_mm: [f64; 3],
    material: Material,
    thickness_mm: f64,
    power_w: f64,
    ambient_c: f64,
) -> Result<f64, String> {
    let (conductivity_w_mk, emissivity) = wall_figures(material).ok_or_else(|| {
        format!("conductivity and emissivity of a wall of {material} are not known")
    })?;
    let [width_m, height_m, depth_m] = outer_mm.map(|side_mm| side_mm / 1000.0);
    let sound = |value: f64| value.is_finite() && value > 0.0;
    if ![width_m, height_m, depth_m, thickness_mm]
        .into_iter()
        .all(sound)
        || !ambient_c.is_finite()
        || power_w.is_nan()
    {
        return Err("size, power or ambient temperature is no figure to reckon with".to_string());
    }
    let wall = Wall {
        emissivity,
        resistance_m2k_w: thickness_mm / 1000.0 / conductivity_w_mk,
    };
    let upright = |area_m2: f64| Face {
        area_m2,
        film: UPRIGHT,
        length_m: height_m,
    };
    // Area by circumference.
    let level_m = width_m * depth_m / (2.0 * (width_m + depth_m));
    let level = |film: f64| Face {
        area_m2: width_m * depth_m,
        film,
        length_m: level_m,
    };
    let faces = [
        upright(width_m * height_m),
        upright(2.0 * height_m * depth_m),
        level(WARM_SIDE_UP),
        level(WARM_SIDE_DOWN),
    ];
    let given_off_w = |inside_c: f64| -> f64 {
        faces
            .iter()
            .map(|face| face.area_m2 * flux_w_m2(face, &wall, inside_c, ambient_c))
            .sum()
    };
    if given_off_w(ambient_c + MOST_K) < power_w {
        return Err(format!(
            "{} W would warm the air by more than {MOST_K} K, which no estimate speaks of",
            short(power_w, 1)
        ));
    }
    let (mut low_c, mut high_c) = (ambient_c, ambient_c + MOST_K);
    for _ in 0..HALVINGS {
        let middle_c = 0.5 * (low_c + high_c);
        if given_off_w(middle_c) < power_w {
            low_c = middle_c;
        } else {
            high_c = middle_c;
        }
    }
    Ok(high_c)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::{ClosedBox, Mounting, Wall as OtherWall};
    use crate::marking::{ESTIMATE_RESERVE_K, ESTIMATE_RESERVE_SHARE};

    #[test]
    fn the_two_estimates_differ_by_less_than_the_reserve() {
        // By what share of the reserve the audit's air is warmer than the one that the marking rests on.
        let mut greatest: f64 = 0.0;
        for (material, other) in [
            (Material::Grp, OtherWall::GRP),
            (Material::Stainless, OtherWall::BARE_STAINLESS),
            (Material::Steel, OtherWall::PAINTED_STEEL),
        ] {
            for outer_mm in [
                [80.0, 80.0, 60.0],
                [160.0, 120.0, 90.0],
                [271.0, 271.0, 135.0],
                [400.0, 300.0, 150.0],
                [300.0, 600.0, 200.0],
                [1000.0, 800.0, 300.0],
            ] {
                let [width_mm, height_mm, depth_mm] = outer_mm;
                let closed_box = ClosedBox {
                    width_mm,
                    height_mm,
                    depth_mm,
                    wall: other,
                    mounting: Mounting::Wall,
                };
                for (rise_k, ambient_c) in [
                    (20.0, 50.0),
                    (30.0, 40.0),
                    (40.0, 40.0),
                    (50.0, 20.0),
                    (90.0, -15.0),
                ] {
                    let balance = closed_box.for_rise(rise_k, ambient_c).expect("in range");
                    let found_c = inside_air_c(
                        outer_mm,
                        material,
                        other.thickness_mm,
                        balance.power_w,
                        ambient_c,
                    )
                    .expect("in range");
                    let reserve_k = (ESTIMATE_RESERVE_SHARE * rise_k).max(ESTIMATE_RESERVE_K);
                    greatest = greatest.max((found_c - ambient_c - rise_k) / reserve_k);
                }
            }
        }
        assert!((0.3..1.0).contains(&greatest), "{greatest}");
    }

    #[test]
    fn three_boxes_against_a_root_finder() {
        // The same balance written again in Python and solved with `scipy.optimize.brentq` (SciPy), no side equal to
        // another: size in mm, material, wall in mm, W, ambient and air inside in °C.
        for (outer_mm, material, thickness_mm, power_w, ambient_c, expected_c) in [
            ([160.0, 260.0, 90.0], Material::Grp, 3.0, 6.0, 40.0, 51.1257),
            (
                [600.0, 300.0, 200.0],
                Material::Stainless,
                1.5,
                40.0,
                20.0,
                46.6977,
            ),
            (
                [400.0, 500.0, 150.0],
                Material::Steel,
                1.2,
                60.0,
                -20.0,
                13.5994,
            ),
        ] {
            let found_c = inside_air_c(outer_mm, material, thickness_mm, power_w, ambient_c);
            let found_c = found_c.expect("in range");
            assert!(
                (found_c - expected_c).abs() < 2e-4,
                "{outer_mm:?}: {found_c}"
            );
        }
    }

    #[test]
    fn no_power_no_rise_and_too_much_is_refused() {
        let air = |power_w| inside_air_c([200.0; 3], Material::Grp, 4.0, power_w, 40.0);
        assert!((air(0.0).expect("in range") - 40.0).abs() < 1e-6);
        assert!(air(1.0).expect("in range") > 40.5);
        assert!(air(10_000.0).is_err() && air(f64::NAN).is_err());
        assert!(inside_air_c([200.0; 3], Material::Aluminium, 4.0, 1.0, 40.0).is_err());
        assert!(inside_air_c([0.0, 1.0, 1.0], Material::Grp, 4.0, 1.0, 40.0).is_err());
    }
}
