//! The balance against itself: inverse questions, equal fluxes, and the directions it must move in.

use super::*;
use crate::heat::convection::TURBULENT_FROM_RAYLEIGH;

fn grp(width_mm: f64, height_mm: f64, depth_mm: f64) -> ClosedBox {
    ClosedBox {
        width_mm,
        height_mm,
        depth_mm,
        wall: Wall::GRP,
        mounting: Mounting::Wall,
    }
}

#[test]
fn power_and_rise_are_inverse() {
    for power in [0.0, 0.01, 1.0, 25.0, 90.0] {
        let balance = grp(271.0, 271.0, 135.0)
            .for_power(power, 40.0)
            .expect("in range");
        assert!(
            (balance.power_w - power).abs() < 1e-9,
            "{power} W: {}",
            balance.power_w
        );
        let back = grp(271.0, 271.0, 135.0)
            .for_rise(balance.inside_rise_k, 40.0)
            .expect("in range");
        assert_eq!(back, balance);
    }
}

#[test]
fn every_resistance_passes_the_same_flux() {
    let balance = grp(300.0, 200.0, 150.0)
        .for_rise(35.0, -20.0)
        .expect("in range");
    assert_eq!(balance.faces.len(), 5);
    for face in &balance.faces {
        let through_wall = 0.25 / 0.004 * (face.inner_surface_c - face.outer_surface_c);
        assert!((through_wall - face.flux_w_m2).abs() < 1e-9 * face.flux_w_m2);
        assert!(face.residual_w_m2.abs() < 1e-9 * face.flux_w_m2);
        assert!(face.outer_surface_c > -20.0 && face.inner_surface_c < 15.0);
    }
}

#[test]
fn more_area_less_radiation_and_a_thicker_wall_act_as_they_must() {
    let rise = |closed_box: ClosedBox| {
        closed_box
            .for_power(15.0, 40.0)
            .expect("in range")
            .inside_rise_k
    };
    let plain = rise(grp(271.0, 271.0, 135.0));
    assert!(rise(grp(300.0, 271.0, 135.0)) < plain);
    assert!(
        rise(ClosedBox {
            mounting: Mounting::Free,
            ..grp(271.0, 271.0, 135.0)
        }) < plain
    );
    let thick = Wall::GRP.with_thickness_mm(8.0);
    assert!(
        rise(ClosedBox {
            wall: thick,
            ..grp(271.0, 271.0, 135.0)
        }) > plain
    );
    let bare = rise(ClosedBox {
        wall: Wall::BARE_STAINLESS,
        ..grp(271.0, 271.0, 135.0)
    });
    let painted = rise(ClosedBox {
        wall: Wall::PAINTED_STEEL,
        ..grp(271.0, 271.0, 135.0)
    });
    assert!(painted < plain && plain < bare);
}

#[test]
fn too_much_power_is_an_error_with_the_limit() {
    let error = grp(80.0, 80.0, 60.0)
        .for_power(500.0, 40.0)
        .expect_err("far too much");
    assert!(
        error
            .to_string()
            .starts_with("power inside 500 W lies outside"),
        "{error}"
    );
    assert!(grp(80.0, 80.0, 60.0).for_power(-1.0, 40.0).is_err());
    assert!(grp(80.0, 80.0, 60.0).for_power(f64::NAN, 40.0).is_err());
    assert!(grp(0.0, 80.0, 60.0).for_power(1.0, 40.0).is_err());
}

#[test]
fn a_step_between_the_two_laws_of_the_top_is_survived() {
    // A top this wide passes Ra = 10⁷ somewhere in the range of powers.
    let wide = grp(900.0, 300.0, 900.0);
    let (mut last, mut laminar, mut turbulent) = (-1.0, false, false);
    for watts in 1..400 {
        let balance = wide.for_power(f64::from(watts), 20.0).expect("in range");
        assert!(balance.inside_rise_k > last);
        assert!((balance.power_w - f64::from(watts)).abs() < 1e-6);
        last = balance.inside_rise_k;
        let top = balance
            .faces
            .iter()
            .find(|face| face.face == BoxFace::Top)
            .expect("exposed");
        laminar |= top.outside.rayleigh < TURBULENT_FROM_RAYLEIGH * 0.9;
        turbulent |= top.outside.rayleigh > TURBULENT_FROM_RAYLEIGH * 1.1;
    }
    assert!(
        laminar && turbulent,
        "the powers must lie on both sides of the step"
    );
}
