//! The Python library `ht` (from PyPI) against ours, on plates of many sizes and temperatures.
//!
//! Runs `python_heat.py` with `python3`, or with the interpreter named in `GLANDRAIL_PYTHON`. Where
//! Python or the library is absent the test says so and passes, unless `GLANDRAIL_REQUIRE_PYTHON=1`.
//!
//! Tolerance 1e-9: the same published laws in double precision on both sides; only the order of the
//! operations differs.

use crate::python;

use crate::support::close;
use glandrail::heat::convection::{Orientation, film};

fn cases() -> Vec<(Orientation, f64, f64, f64)> {
    let mut cases = Vec::new();
    for orientation in [
        Orientation::Vertical,
        Orientation::Unstable,
        Orientation::Stable,
    ] {
        // Above Ra = 10¹⁰ the library changes the law of the stable side and ours refuses it.
        let largest = if orientation == Orientation::Stable {
            0.5
        } else {
            1.2
        };
        for length in [0.015, 0.04, 0.1, 0.27, 0.4, largest] {
            for air in [-40.0, 0.0, 20.0, 55.0] {
                for difference in [-30.0, -3.0, 0.5, 8.0, 45.0, 90.0] {
                    cases.push((orientation, length, air + difference, air));
                }
            }
        }
    }
    cases
}

#[test]
fn film_coefficients_agree_with_an_independent_library() {
    if !python::has("import ht, fluids") {
        return;
    }
    let cases = cases();
    let input: String = cases
        .iter()
        .map(|(orientation, length, surface, air)| {
            let word = match orientation {
                Orientation::Vertical => "vertical",
                Orientation::Unstable => "unstable",
                Orientation::Stable => "stable",
            };
            format!("{word} {length} {surface} {air}\n")
        })
        .collect();
    let text = python::answered("tests/outside/python_heat.py", &input);
    let answers: Vec<&str> = text.lines().collect();
    assert_eq!(answers.len(), cases.len());
    for ((orientation, length, surface, air), answer) in cases.into_iter().zip(answers) {
        let theirs: Vec<f64> = answer
            .split_whitespace()
            .map(|word| word.parse().expect("a number"))
            .collect();
        let ours = film(orientation, length, surface, air).expect("in range");
        let what = format!("{orientation:?} {length} m, {surface} °C in {air} °C");
        close(ours.rayleigh, theirs[0], 1e-9, &what);
        close(ours.nusselt, theirs[1], 1e-9, &what);
        close(ours.coefficient_w_m2k, theirs[2], 1e-9, &what);
    }
}
