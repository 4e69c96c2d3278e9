//! Lengths and positions as a workshop reads them.

pub use crate::number::{fixed, number};

/// A position or length as a workshop reads it: to a tenth of a millimetre, whole ones without point.
pub(super) fn tenth(length_mm: f64) -> String {
    number(length_mm, 1)
}

/// The position of a hole: one digit after the point, or two where the arrangement is finer than a
/// tenth, so that tables and lists agree with it to a hundredth of a millimetre.
pub(super) fn position(place_mm: f64) -> String {
    let rounded = fixed(place_mm, 2);
    match rounded.strip_suffix('0') {
        Some(tenths) => tenths.to_string(),
        None => rounded,
    }
}

#[cfg(test)]
mod tests {
    use super::position;

    #[test]
    fn positions_have_one_digit_or_two() {
        assert_eq!(position(12.0), "12.0");
        assert_eq!(position(12.34), "12.34");
        assert_eq!(position(12.3), "12.3");
        assert_eq!(position(-0.001), "0.0");
    }
}
