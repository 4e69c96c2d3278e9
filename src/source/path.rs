//! The way from a table to one of its fields: `levels[1].power_w`. Knows no file.

use std::fmt;

/// One step of a [`Path`].
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Step {
    /// Into a table, to the value under this key.
    Key(String),
    /// Into a list, to the value at this place, from 0.
    Index(usize),
}

impl From<&str> for Step {
    fn from(key: &str) -> Self {
        Self::Key(key.to_owned())
    }
}

impl From<usize> for Step {
    fn from(index: usize) -> Self {
        Self::Index(index)
    }
}

/// Steps from a table (or the whole document) to a value in it. The empty path is the table itself.
///
/// Written as in TOML, with places in a list in brackets, counted from 0. Keys of other characters
/// than letters, digits, `_` and `-` stand in double quotes.
///
/// ```
/// use glandrail::source::{Path, Step};
/// let path = Path::from("cable[2].\"odd.key\"");
/// assert_eq!(path.steps(), ["cable".into(), Step::Index(2), "odd.key".into()]);
/// assert_eq!(path.to_string(), "cable[2].\"odd.key\"");
/// ```
#[derive(Debug, Clone, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Path {
    steps: Vec<Step>,
}

impl Path {
    /// A path of these steps.
    pub fn new(steps: impl IntoIterator<Item = Step>) -> Self {
        Self {
            steps: steps.into_iter().collect(),
        }
    }

    /// The steps in order.
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// The last key on the way, which names the value: of `ambient_c[0]` it is `ambient_c`.
    pub(super) fn last_key(&self) -> &str {
        let keys = self.steps.iter().rev();
        keys.filter_map(|step| match step {
            Step::Key(key) => Some(key.as_str()),
            Step::Index(_) => None,
        })
        .next()
        .unwrap_or("")
    }
}

impl From<&str> for Path {
    /// Never fails: paths are written in the program, and what makes no sense leads nowhere.
    fn from(text: &str) -> Self {
        let mut steps = Vec::new();
        let mut rest = text;
        while !rest.is_empty() {
            rest = rest.strip_prefix('.').unwrap_or(rest);
            let inside_quotes = rest
                .strip_prefix('"')
                .and_then(|after| after.split_once('"'));
            let inside_brackets = rest
                .strip_prefix('[')
                .and_then(|after| after.split_once(']'));
            if let Some((key, after)) = inside_quotes {
                steps.push(Step::Key(key.to_owned()));
                rest = after;
            } else if let Some((index, after)) = inside_brackets {
                steps.push(
                    index
                        .parse()
                        .map_or_else(|_| Step::from(index), Step::Index),
                );
                rest = after;
            } else {
                // At least one character is taken, so that a stray bracket cannot stop the loop.
                let end = rest
                    .char_indices()
                    .skip(1)
                    .find(|(_, c)| matches!(c, '.' | '['));
                let (key, after) = rest.split_at(end.map_or(rest.len(), |(at, _)| at));
                if !key.is_empty() {
                    steps.push(Step::from(key));
                }
                rest = after;
            }
        }
        Self { steps }
    }
}

impl fmt::Display for Path {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (place, step) in self.steps.iter().enumerate() {
            match step {
                Step::Index(index) => write!(f, "[{index}]")?,
                Step::Key(key) => {
                    let dot = if place == 0 { "" } else { "." };
                    let is_bare = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-');
                    if !key.is_empty() && key.chars().all(is_bare) {
                        write!(f, "{dot}{key}")?;
                    } else {
                        write!(f, "{dot}\"{key}\"")?;
                    }
                }
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_read_back_as_written() {
        for text in [
            "",
            "job",
            "job.tag",
            "cable[2].core[10].to",
            "levels[0][1]",
            "a.\"b c\".d",
        ] {
            assert_eq!(Path::from(text).to_string(), text);
        }
    }

    #[test]
    fn odd_paths_end() {
        for text in ["[", "]", "a[", "a[x]", "..", "\"", "a.\"b", "."] {
            let _ = Path::from(text);
        }
        assert_eq!(Path::from("a[x]").steps(), ["a".into(), Step::from("x")]);
    }

    #[test]
    fn the_last_key_names_the_value() {
        assert_eq!(Path::from("a.ambient_c[1]").last_key(), "ambient_c");
        assert_eq!(Path::from("").last_key(), "");
    }
}
