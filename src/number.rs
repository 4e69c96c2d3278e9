//! The one place where a floating-point number becomes text for a reader: sheets and record round alike.

/// The largest number that is rounded by its decimal digits; beyond it a tenth is below what is stored.
const EXACT: f64 = 1e12;

/// A number with at most `decimals` digits after the point, without trailing zeros and never `-0`.
///
/// ```
/// use glandrail::sheets::number;
/// assert_eq!(number(12.5000, 3), "12.5");
/// assert_eq!(number(-0.0001, 2), "0");
/// assert_eq!(number(200.0, 1), "200");
/// ```
pub fn number(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    if !text.contains('.') {
        return text;
    }
    text.trim_end_matches('0').trim_end_matches('.').to_string()
}

/// A number with exactly `decimals` digits after the point, never `-0`. Halves go away from zero, as they
/// are rounded by hand: 108.55 is stored a little below and yet written 108.6.
///
/// ```
/// use glandrail::sheets::fixed;
/// assert_eq!(fixed(12.0, 1), "12.0");
/// assert_eq!(fixed(-0.04, 1), "0.0");
/// assert_eq!(fixed(108.55, 1), "108.6");
/// assert_eq!(fixed(0.125, 2), "0.13");
/// ```
pub fn fixed(value: f64, decimals: usize) -> String {
    let factor = 10f64.powi(decimals as i32);
    let rounded = if value.abs() < EXACT {
        (value * factor).round() / factor
    } else {
        value
    };
    let text = format!("{rounded:.decimals$}");
    let is_zero = text.bytes().all(|byte| matches!(byte, b'-' | b'.' | b'0'));
    if is_zero {
        text.trim_start_matches('-').to_string()
    } else {
        text
    }
}
