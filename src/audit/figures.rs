//! Figures as they stand in the sentences of the audit. Judges none of them.

use crate::number::short;

/// A figure for the reader: at most three decimals, none where they are zero.
///
/// Rounded for reading only; the figures themselves stand beside the text.
pub(super) fn figure_text(value: f64) -> String {
    short(value, 3)
}

/// Two figures for the reader with as many decimals as they need to differ, from three up to a number of them.
fn with_decimals(one: f64, other: f64, most: usize) -> Option<(String, String)> {
    let with = |decimals: usize| (short(one, decimals), short(other, decimals));
    let differ = |texts: &(String, String)| texts.0 != texts.1;
    (3..=most).map(with).find(differ)
}

/// Two figures of which the one keeps the limit that is the other: what is less than the slack of the comparison is
/// noise of the arithmetic, and not written.
pub(super) fn figures_that_hold(one: f64, other: f64) -> (String, String) {
    let texts = with_decimals(one, other, 6);
    texts.unwrap_or_else(|| (figure_text(one), figure_text(other)))
}

/// Two figures that may lie so far apart for rounding: in few decimals as long as they do not lie further apart.
pub(super) fn figures_within(one: f64, other: f64, slack: f64) -> (String, String) {
    if (one - other).abs() <= slack {
        (figure_text(one), figure_text(other))
    } else {
        figures_that_differ(one, other)
    }
}

/// Two figures for the reader, with as many decimals as they need to differ where they do.
pub(super) fn figures_that_differ(one: f64, other: f64) -> (String, String) {
    const MOST_DECIMALS: usize = 12;
    const MOST_DIGITS: usize = 16;
    if one == other || !one.is_finite() || !other.is_finite() {
        return (figure_text(one), figure_text(other));
    }
    // Only very great and very small figures are left; a zero beside one stays a zero.
    let in_powers = |digits: usize| {
        let text = |value: f64| match value {
            0.0 => "0".to_string(),
            _ => format!("{value:.digits$e}"),
        };
        (text(one), text(other))
    };
    with_decimals(one, other, MOST_DECIMALS)
        .or_else(|| {
            (1..=MOST_DIGITS)
                .map(in_powers)
                .find(|texts| texts.0 != texts.1)
        })
        .unwrap_or_else(|| in_powers(MOST_DIGITS))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_short() {
        for (value, text) in [
            (12.0, "12"),
            (-0.0001, "0"),
            (0.25, "0.25"),
            (1.0 / 3.0, "0.333"),
        ] {
            assert_eq!(figure_text(value), text);
        }
        let differ = |one, other| {
            let (one, other) = figures_that_differ(one, other);
            format!("{one} {other}")
        };
        assert_eq!(differ(1.5, 2.0), "1.5 2");
        assert_eq!(differ(0.00012, 0.0), "0.0001 0");
        assert_eq!(differ(3.0, 3.00000002), "3 3.00000002");
        assert_eq!(differ(2.0, 2.0), "2 2");
        assert_eq!(differ(1e300, 2.0), "1.0e300 2");
        assert_eq!(
            differ(1e12 + 1.0, 1e12),
            "1.000000000001e12 1.000000000000e12"
        );
        assert_eq!(differ(1e-14, 0.0), "1.0e-14 0");
        let noise = figures_within(1.155_482_758_15, 1.155_482_758_2, 0.001);
        assert_eq!(noise, ("1.155".to_string(), "1.155".to_string()));
        let apart = figures_within(1.155_482, 1.155_484, 1e-6);
        assert_eq!(apart, ("1.155482".to_string(), "1.155484".to_string()));
        let infinite = differ(f64::INFINITY, 2.0);
        assert_eq!(infinite, "(cannot be reckoned) 2");
    }
}
