//! Lengths, rectangles, the faces of a box and their coordinates. Knows nothing of terminals or rules.
//!
//! The one coordinate system of the program: seen from the front, lid towards the reader, x runs to
//! the right, y up and z from the inside of the back wall towards the lid. The origin is the inner
//! lower left back corner. All lengths are millimetres.

mod block;
mod face;
mod rect;

pub use block::{Block, Point};
pub use face::{Face, Interior};
pub use rect::Rect;

/// Rounds a length to a tenth of a millimetre, the finest step a workshop sets out.
///
/// ```
/// assert_eq!(glandrail::space::to_tenth(12.3456), 12.3);
/// ```
pub fn to_tenth(length_mm: f64) -> f64 {
    (length_mm * 10.0).round() / 10.0
}

/// Rounds a length up to a tenth of a millimetre; a length already on the grid stays where it is.
///
/// Used for envelopes, so that rounding never makes a part smaller than it is.
pub fn up_to_tenth(length_mm: f64) -> f64 {
    ((length_mm * 10.0) - GRID_SLACK).ceil() / 10.0
}

/// Rounds a length down to a tenth of a millimetre; a length already on the grid stays where it is.
///
/// Used for gaps that are spread evenly, so that the sum never exceeds what there is.
pub fn down_to_tenth(length_mm: f64) -> f64 {
    ((length_mm * 10.0) + GRID_SLACK).floor() / 10.0
}

/// What binary fractions may add to or take from a length that is meant to lie on the grid, in
/// tenths of a millimetre.
const GRID_SLACK: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_keeps_what_lies_on_the_grid() {
        for tenths in 0..5000 {
            let length_mm = f64::from(tenths) / 10.0;
            assert_eq!(up_to_tenth(length_mm), length_mm);
            assert_eq!(down_to_tenth(length_mm), length_mm);
        }
    }

    #[test]
    fn rounding_errs_on_the_stated_side() {
        assert_eq!(up_to_tenth(5.21), 5.3);
        assert_eq!(down_to_tenth(5.29), 5.2);
    }
}
