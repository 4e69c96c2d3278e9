//! The one place where a floating-point number becomes text.

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

/// A number with exactly `decimals` digits after the point, never `-0`.
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
