//! One thing to say about a place in a file: what is wrong, what was expected, what to do.

use std::sync::Arc;

use super::file::{SourceFile, Span};

/// How much a finding weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// The file cannot be used as it is.
    Error,
    /// The file can be used, but the reader should look here.
    Warning,
}

impl Severity {
    /// The word shown to the user.
    pub fn word(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
        }
    }
}

/// One finding about a file.
///
/// Messages are lower case, without a full stop, with what the user wrote in backticks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// A stable code, such as `source-wrong-type`.
    pub code: &'static str,
    /// Error or warning.
    pub severity: Severity,
    /// The file it is about.
    pub file: Arc<SourceFile>,
    /// The stretch of text it is about; none if it is about the file as a whole.
    pub span: Option<Span>,
    /// What is wrong.
    pub message: String,
    /// What would have been right, as a noun phrase: "a number in mm, such as 25".
    pub expected: Option<String>,
    /// What to do, as an instruction: "write `width_mm`".
    pub hint: Option<String>,
}

impl Finding {
    /// An error. Give the place as a span, or `None` for the file as a whole.
    pub fn error(
        code: &'static str,
        file: &Arc<SourceFile>,
        span: impl Into<Option<Span>>,
        message: impl Into<String>,
    ) -> Self {
        Self {
            code,
            severity: Severity::Error,
            file: Arc::clone(file),
            span: span.into(),
            message: message.into(),
            expected: None,
            hint: None,
        }
    }

    /// A warning, otherwise as [`Finding::error`].
    pub fn warning(
        code: &'static str,
        file: &Arc<SourceFile>,
        span: impl Into<Option<Span>>,
        message: impl Into<String>,
    ) -> Self {
        Self {
            severity: Severity::Warning,
            ..Self::error(code, file, span, message)
        }
    }

    /// Adds what would have been right.
    #[must_use]
    pub fn expected(mut self, expected: impl Into<String>) -> Self {
        self.expected = Some(expected.into());
        self
    }

    /// Adds what to do.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// Line and column where it begins, both from 1.
    pub fn line_column(&self) -> Option<(usize, usize)> {
        self.span
            .as_ref()
            .map(|span| self.file.line_column(span.start))
    }

    /// The text it is about; empty if it is about the file as a whole.
    pub fn text(&self) -> &str {
        self.span.as_ref().map_or("", |span| self.file.at(span))
    }

    /// Everything in one line, for pipes:
    /// `file:line:col: error[code]: message; expected …; hint: …`.
    pub fn render_plain(&self) -> String {
        let mut line = self.file.name.clone();
        if let Some((row, column)) = self.line_column() {
            line.push_str(&format!(":{row}:{column}"));
        }
        line.push_str(&format!(
            ": {}[{}]: {}",
            self.severity.word(),
            self.code,
            self.message
        ));
        if let Some(expected) = &self.expected {
            line.push_str(&format!("; expected {expected}"));
        }
        if let Some(hint) = &self.hint {
            line.push_str(&format!("; hint: {hint}"));
        }
        // A value quoted in the message may hold line breaks; one finding stays one line.
        line.replace('\n', "\\n").replace('\r', "\\r")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_plain_line_holds_everything() {
        let file = SourceFile::from_text("list.toml", "a = 1\nb = 2\n");
        let finding = Finding::error("demo", &file, 10..11, "`b` is too small")
            .expected("3 or more")
            .hint("raise it");
        assert_eq!(finding.text(), "2");
        assert_eq!(
            finding.render_plain(),
            "list.toml:2:5: error[demo]: `b` is too small; expected 3 or more; hint: raise it"
        );
        let whole = Finding::warning("demo", &file, None, "odd\nfile");
        assert_eq!(whole.render_plain(), "list.toml: warning[demo]: odd\\nfile");
        assert_eq!((whole.line_column(), whole.text()), (None, ""));
    }
}
