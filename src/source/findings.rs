//! All findings of a run, in the order of the files and of the places in them.

use std::fmt;

use super::file::SourceError;
use super::finding::{Finding, Severity};

/// A list of findings that is always sorted: by file name, then by place; findings at the same
/// place stay in the order in which they were made.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Findings {
    sorted: Vec<Finding>,
}

impl Findings {
    /// An empty list.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a finding in its place.
    pub fn push(&mut self, finding: Finding) {
        // Findings mostly arrive in order, so that this is nearly always an append.
        let at = self
            .sorted
            .partition_point(|other| key(other) <= key(&finding));
        self.sorted.insert(at, finding);
    }

    /// Whether nothing was found at all.
    pub fn is_empty(&self) -> bool {
        self.sorted.is_empty()
    }

    /// Number of findings, errors and warnings together.
    pub fn len(&self) -> usize {
        self.sorted.len()
    }

    /// Whether one of them is an error.
    pub fn has_errors(&self) -> bool {
        self.count(Severity::Error) > 0
    }

    /// How many findings have this severity.
    pub fn count(&self, severity: Severity) -> usize {
        self.sorted
            .iter()
            .filter(|finding| finding.severity == severity)
            .count()
    }

    /// The findings in order.
    pub fn iter(&self) -> std::slice::Iter<'_, Finding> {
        self.sorted.iter()
    }

    /// One line for each finding, each ending in a line break; nothing for an empty list.
    pub fn render_plain(&self) -> String {
        self.sorted
            .iter()
            .map(|finding| finding.render_plain() + "\n")
            .collect()
    }

    /// How many errors and warnings there are, in words: "2 errors, 1 warning".
    pub fn summary(&self) -> String {
        let counted = [Severity::Error, Severity::Warning].map(|severity| {
            let count = self.count(severity);
            let plural = if count == 1 { "" } else { "s" };
            (count, format!("{count} {}{plural}", severity.word()))
        });
        match counted {
            [(0, _), (0, _)] => "no findings".to_owned(),
            [(_, errors), (0, _)] => errors,
            [(0, _), (_, warnings)] => warnings,
            [(_, errors), (_, warnings)] => format!("{errors}, {warnings}"),
        }
    }
}

/// A finding about a whole file stands before those about places in it.
fn key(finding: &Finding) -> (&str, Option<usize>) {
    (
        &finding.file.name,
        finding.span.as_ref().map(|span| span.start),
    )
}

impl Extend<Finding> for Findings {
    fn extend<I: IntoIterator<Item = Finding>>(&mut self, findings: I) {
        for finding in findings {
            self.push(finding);
        }
    }
}

impl FromIterator<Finding> for Findings {
    fn from_iter<I: IntoIterator<Item = Finding>>(findings: I) -> Self {
        let mut sorted = Self::new();
        sorted.extend(findings);
        sorted
    }
}

impl From<SourceError> for Findings {
    fn from(error: SourceError) -> Self {
        Self {
            sorted: vec![error.finding()],
        }
    }
}

impl IntoIterator for Findings {
    type Item = Finding;
    type IntoIter = std::vec::IntoIter<Finding>;

    fn into_iter(self) -> Self::IntoIter {
        self.sorted.into_iter()
    }
}

impl<'a> IntoIterator for &'a Findings {
    type Item = &'a Finding;
    type IntoIter = std::slice::Iter<'a, Finding>;

    fn into_iter(self) -> Self::IntoIter {
        self.sorted.iter()
    }
}

impl fmt::Display for Findings {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.summary())
    }
}

impl std::error::Error for Findings {}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::SourceFile;

    #[test]
    fn they_are_sorted_by_file_then_place_then_order_of_finding() {
        let a = SourceFile::from_text("a.toml", "0123456789");
        let b = SourceFile::from_text("b.toml", "0123456789");
        let found: Findings = [
            Finding::error("c", &b, 1..2, "fourth"),
            Finding::error("c", &a, 5..6, "third"),
            Finding::warning("c", &a, 2..3, "first"),
            Finding::error("c", &a, 2..9, "second"),
            Finding::error("c", &a, None, "file"),
        ]
        .into_iter()
        .collect();
        let order: Vec<_> = found.iter().map(|f| f.message.as_str()).collect();
        assert_eq!(order, ["file", "first", "second", "third", "fourth"]);
        assert!(found.has_errors());
        assert_eq!(found.to_string(), "4 errors, 1 warning");
        assert_eq!(found.len(), 5);
        assert_eq!(found.render_plain().lines().count(), 5);
    }

    #[test]
    fn warnings_alone_are_no_errors() {
        let a = SourceFile::from_text("a.toml", "");
        let mut found = Findings::new();
        assert_eq!(
            (found.has_errors(), found.summary()),
            (false, "no findings".to_owned())
        );
        found.push(Finding::warning("c", &a, None, "odd"));
        assert_eq!(
            (found.has_errors(), found.summary()),
            (false, "1 warning".to_owned())
        );
    }
}
