//! Temperatures at single places inside a box whose air temperature is known.
//! Knows nothing of how the air became so warm.

use crate::standards::provenance::{OutOfRange, Source, Status, within};

/// The rise of a current-carrying part goes with the square of its current.
pub const SQUARE_LAW: Source = Source::new(
    "heat balance",
    "",
    "rise of a terminal over its air, with the square of the current",
    Status::CommonPractice,
);

/// Rise of a terminal above the air around it at a current, K, from its rise at rated current.
///
/// # Errors
/// A rated current that is not above 0, a negative rise or current, or a current above the rated
/// one: the test at rated current says nothing about it.
///
/// ```
/// use glandrail::heat::local::terminal_rise_k;
/// assert_eq!(terminal_rise_k(40.0, 20.0, 10.0), Ok(10.0));
/// assert!(terminal_rise_k(40.0, 20.0, 21.0).is_err());
/// ```
pub fn terminal_rise_k(
    rise_at_rated_k: f64,
    rated_current_a: f64,
    current_a: f64,
) -> Result<f64, OutOfRange> {
    let rise_at_rated_k = within("rise at rated current", rise_at_rated_k, "K", 0.0, 400.0)?;
    let rated_current_a = within(
        "rated current",
        rated_current_a,
        "A",
        f64::MIN_POSITIVE,
        10_000.0,
    )?;
    let current_a = within("current", current_a, "A", 0.0, rated_current_a)?;
    let share = current_a / rated_current_a;
    Ok(rise_at_rated_k * share * share)
}
