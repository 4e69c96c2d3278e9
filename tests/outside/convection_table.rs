//! `data/convection.csv`: plates in air, computed with `ht` 1.2.0 and `fluids` 1.3.1.
//!
//! Tolerance 1e-5: the file prints six digits (5e-6 at worst); both sides use the same laws for air.

use crate::support::{Table, close};
use glandrail::heat::convection::{
    Orientation, film, nusselt_stable_newer, nusselt_unstable_blended, nusselt_vertical_laminar,
};

const TOLERANCE: f64 = 1e-5;

#[test]
fn every_row_agrees() {
    let table = Table::read("convection.csv");
    assert_eq!(table.rows.len(), 48);
    for row in &table.rows {
        let number = |column| table.number(row, column);
        let orientation = match table.text(row, "orientation") {
            "vertical" => Orientation::Vertical,
            "up" => Orientation::Unstable,
            "down" => Orientation::Stable,
            other => panic!("unknown orientation {other}"),
        };
        let ambient = number("T_amb_C");
        let ours = film(
            orientation,
            number("Lc_m"),
            ambient + number("dT_K"),
            ambient,
        )
        .expect("in range");
        let pairs = [
            (ours.film.temperature_k, "T_film_K"),
            (ours.film.density_kg_m3, "rho_kg_m3"),
            (ours.film.viscosity_pa_s, "mu_Pa_s"),
            (ours.film.kinematic_viscosity_m2_s, "nu_m2_s"),
            (ours.film.conductivity_w_mk, "k_W_mK"),
            (ours.film.prandtl, "Pr"),
            (ours.grashof, "Gr"),
            (ours.rayleigh, "Ra"),
            (ours.nusselt, "Nu"),
            (ours.coefficient_w_m2k, "h_W_m2K"),
        ];
        for (value, column) in pairs {
            close(value, number(column), TOLERANCE, column);
        }
        let (ra, pr) = (ours.rayleigh, ours.film.prandtl);
        let other = match orientation {
            Orientation::Vertical => nusselt_vertical_laminar(ra, pr),
            Orientation::Unstable => nusselt_unstable_blended(ra, pr),
            Orientation::Stable => nusselt_stable_newer(ra),
        };
        close(other, number("Nu_alt"), TOLERANCE, "Nu_alt");
        close(
            other * ours.film.conductivity_w_mk / number("Lc_m"),
            number("h_alt_W_m2K"),
            TOLERANCE,
            "h_alt",
        );
    }
}
