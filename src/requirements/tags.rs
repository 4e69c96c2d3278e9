//! Ranges of tags: `W2110..W2121` stands for twelve tags.

/// Longest range that a list may write out.
pub const LONGEST_RANGE: usize = 20_000;

/// Writes a tag or a range of tags out one by one.
///
/// # Errors
/// Says what is wrong with a range: different beginnings, numbers that fall, no numbers.
pub fn write_out(text: &str) -> Result<Vec<String>, String> {
    let Some((first, last)) = text.split_once("..") else {
        return if text.trim().is_empty() {
            Err("a tag must not be empty".into())
        } else {
            Ok(vec![text.trim().to_string()])
        };
    };
    let (first, last) = (first.trim(), last.trim());
    let (stem, from) = split_number(first)
        .ok_or_else(|| format!("`{first}` does not end in a number, so it cannot begin a range"))?;
    // `W1..12` is a short form of `W1..W12`.
    let (last_stem, to) = split_number(last)
        .ok_or_else(|| format!("`{last}` does not end in a number, so it cannot end a range"))?;
    if last_stem != stem && !last_stem.is_empty() {
        return Err(format!(
            "`{first}` and `{last}` differ before their numbers"
        ));
    }
    let width = first.len() - stem.len();
    let (start, end) = (number(from)?, number(to)?);
    if end < start {
        return Err(format!("the range `{first}..{last}` runs backwards"));
    }
    if end - start >= LONGEST_RANGE as u64 {
        return Err(format!(
            "the range `{first}..{last}` holds more than {LONGEST_RANGE} tags"
        ));
    }
    Ok((start..=end)
        .map(|number| format!("{stem}{number:0width$}"))
        .collect())
}

/// Splits a tag into its beginning and the number at its end.
fn split_number(tag: &str) -> Option<(&str, &str)> {
    let stem = tag.trim_end_matches(|letter: char| letter.is_ascii_digit());
    (stem.len() < tag.len()).then(|| tag.split_at(stem.len()))
}

fn number(digits: &str) -> Result<u64, String> {
    digits
        .parse()
        .map_err(|_| format!("the number `{digits}` is too large for a range of tags"))
}

#[cfg(test)]
mod tests {
    use super::write_out;

    #[test]
    fn ranges_keep_leading_zeros() {
        assert_eq!(write_out("W08..W11").unwrap(), ["W08", "W09", "W10", "W11"]);
        assert_eq!(write_out("S1..S3").unwrap(), ["S1", "S2", "S3"]);
        assert_eq!(write_out("S9..11").unwrap(), ["S9", "S10", "S11"]);
        assert_eq!(write_out(" JB-2107 ").unwrap(), ["JB-2107"]);
    }

    #[test]
    fn broken_ranges_say_why() {
        for (text, word) in [
            ("W1..X3", "differ"),
            ("W3..W1", "backwards"),
            ("W..W3", "begin"),
            ("W1..W", "end"),
            ("W1..W99999999", "more than"),
            ("W1..W99999999999999999999999", "too large"),
            ("", "empty"),
        ] {
            assert!(write_out(text).unwrap_err().contains(word), "{text}");
        }
    }
}
