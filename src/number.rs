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

/// Digits before the point up to which a number is written out in a sentence.
const MOST_WHOLE_DIGITS: i32 = 9;

/// A number as it stands in a sentence or table: as [`number`] writes it, in powers of ten where that would be a long
/// row of digits, and in words where it is none. Sound files never need the latter two; damaged ones do.
pub(crate) fn short(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        "(cannot be reckoned)".to_string()
    } else if value.abs() >= 10f64.powi(MOST_WHOLE_DIGITS) {
        format!("{value:.1e}")
    } else {
        number(value, decimals)
    }
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

#[cfg(test)]
mod tests {
    use super::short;

    #[test]
    fn sentences_hold_no_long_rows_of_digits() {
        for (value, text) in [
            (0.0, "0"),
            (-1.4e-14, "0"),
            (123_456_789.125, "123456789.125"),
            (-999_999_999.0, "-999999999"),
            (1e9, "1.0e9"),
            (-1e300, "-1.0e300"),
            (f64::NAN, "(cannot be reckoned)"),
            (f64::INFINITY, "(cannot be reckoned)"),
            (f64::NEG_INFINITY, "(cannot be reckoned)"),
        ] {
            assert_eq!(short(value, 3), text);
        }
    }
}
