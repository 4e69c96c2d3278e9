//! The wording of a reference: `W1`, `W1..W12`, `W1/3,4`, `W1/1..4`, `PB1/13,14`.

use super::tags::write_out;

/// A reference taken apart.
#[derive(Debug, PartialEq)]
pub(super) struct EndText {
    /// Tags, ranges written out.
    pub tags: Vec<String>,
    /// Cores, points or poles named after the stroke; empty where none are.
    pub points: Vec<String>,
}

/// Takes a reference apart.
pub(super) fn read_end(text: &str) -> Result<EndText, String> {
    let (tags, points) = match text.split_once('/') {
        Some((tags, points)) => (tags, Some(points)),
        None => (text, None),
    };
    let tags = write_out(tags)?;
    let mut named = Vec::new();
    for point in points.iter().flat_map(|points| points.split(',')) {
        named.extend(write_out(point).map_err(|reason| format!("`{text}`: {reason}"))?);
    }
    Ok(EndText {
        tags,
        points: named,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn references_are_taken_apart() {
        let end = |tags: &[&str], points: &[&str]| EndText {
            tags: tags.iter().map(|tag| tag.to_string()).collect(),
            points: points.iter().map(|point| point.to_string()).collect(),
        };
        assert_eq!(read_end("W1").unwrap(), end(&["W1"], &[]));
        assert_eq!(read_end("W1..W2").unwrap(), end(&["W1", "W2"], &[]));
        assert_eq!(
            read_end("W1/1..3,7").unwrap(),
            end(&["W1"], &["1", "2", "3", "7"])
        );
        assert_eq!(read_end("H1/X1,X2").unwrap(), end(&["H1"], &["X1", "X2"]));
        assert!(read_end("W1/").is_err());
        assert!(read_end("/1").is_err());
    }
}
