//! The one place where a floating-point number becomes text for a reader: sheets and record round alike.

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

/// A number with exactly `decimals` digits after the point, never `-0`: the nearest to what is stored, so that
/// a figure is the same wherever it is written with as many digits.
///
/// ```
/// use glandrail::sheets::fixed;
/// assert_eq!(fixed(12.0, 1), "12.0");
/// assert_eq!(fixed(-0.04, 1), "0.0");
/// ```
pub fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let is_zero = text.bytes().all(|byte| matches!(byte, b'-' | b'.' | b'0'));
    if is_zero {
        text.trim_start_matches('-').to_string()
    } else {
        text
    }
}
