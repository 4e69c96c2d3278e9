//! How conductors are clamped, in words: what is tightened, how long a conductor is stripped.

use super::number;

/// What is written where the catalogue gives nothing.
pub(super) const NOT_GIVEN: &str = "not in the catalogue";
/// What is written where nothing is tightened.
const SPRING: &str = "none: spring clamp";

/// A number of a part, or that the catalogue does not give it.
pub(super) fn given(value: Option<f64>) -> String {
    value.map_or(NOT_GIVEN.into(), |value| number(value, 2))
}

/// The tightening torque of a clamp, N m.
pub(super) fn torque_words(spring_clamp: bool, torque_nm: Option<f64>) -> String {
    if spring_clamp {
        SPRING.into()
    } else {
        given(torque_nm)
    }
}
