//! The sample of a proficiency test between explosion-protection laboratories for connection and
//! junction boxes (round 2023, run by a national metrology institute): a box of outer size
//! 271 × 271 × 135 mm with 36 feed-through terminals, flexible conductors of 2.5 mm², 405 mm of
//! conductor per connection. The sum of the conductors and the plausible current are plain
//! arithmetic and our model; the institute published neither.

use crate::support::close;
use glandrail::heat::conductors::{Conductor, conductor_heat, terminal_heat_w};
use glandrail::heat::{ClosedBox, Mounting, Wall};
use glandrail::standards::ConductorClass::Class5;
use glandrail::standards::TemperatureClass::T6;
use glandrail::standards::iec_60079_7::conductor_length_mm;

const FLEXIBLE: Conductor = Conductor::Metric {
    section_mm2: 2.5,
    class: Class5,
};
const LENGTH_MM: f64 = 405.0;

/// 405 mm is printed in whole millimetres, and the wall is not known: a diagonal of the inside
/// between 0.5 and 0.7 mm of wall must come within half a millimetre.
#[test]
fn conductor_length_is_the_space_diagonal_of_the_inside() {
    let outer = conductor_length_mm(271.0, 271.0, 135.0).expect("a box");
    assert!((outer - 406.33).abs() < 0.005);
    let inner = conductor_length_mm(270.0, 270.0, 134.0).expect("a box");
    assert!((inner - 404.67).abs() < 0.005);
    assert_eq!(inner.round(), LENGTH_MM);
    // The longest edge alone, or the diagonal of the back, would be far off.
    assert!(f64::hypot(270.0, 270.0) < 382.0);
}

#[test]
fn thirty_six_terminals_wired_on_both_sides() {
    let one =
        |temperature| conductor_heat(FLEXIBLE, LENGTH_MM, 1.0, temperature).expect("in range");
    let conductors = 36.0 * 2.0;
    close(
        conductors * LENGTH_MM / 1000.0,
        29.16,
        1e-12,
        "metres of conductor",
    );
    close(
        conductors * one(20.0).resistance_mohm / 1000.0,
        0.23270,
        2.5e-5,
        "ohm at 20 °C",
    );
    close(
        conductors * one(80.0).resistance_mohm / 1000.0,
        0.28757,
        2.5e-5,
        "ohm at 80 °C",
    );
    // The same through the terminal's own function, terminal resistance left out.
    let each = terminal_heat_w(0.0, 2, FLEXIBLE, LENGTH_MM, 13.5, 80.0).expect("in range");
    close(36.0 * each, 13.5 * 13.5 * 0.28757, 1e-4, "W at 13.5 A");
}

/// What the inside may rise by (40 K for T6 at 40 °C) lets 52.45 W out of a painted steel box on a
/// wall, hence 13.5 A. Two decimals are printed: 0.01 W of 52.45.
#[test]
fn the_balance_makes_the_current_plausible() {
    let closed_box = ClosedBox {
        width_mm: 271.0,
        height_mm: 271.0,
        depth_mm: 135.0,
        wall: Wall::PAINTED_STEEL,
        mounting: Mounting::Wall,
    };
    let balance = closed_box
        .for_rise(T6.self_heating_k(40.0), 40.0)
        .expect("in range");
    close(balance.power_w, 52.45, 2e-4, "W");
    let resistance_ohm = 72.0
        * conductor_heat(FLEXIBLE, LENGTH_MM, 1.0, 80.0)
            .expect("in range")
            .power_w;
    close((balance.power_w / resistance_ohm).sqrt(), 13.5, 4e-3, "A");
}
