//! Findings as text for people: with the lines they are about, for a terminal or for a file.

use std::fmt;

use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteError,
    MietteSpanContents, SourceCode, SourceSpan, SpanContents,
};

use super::file::{SourceFile, Span};
use super::finding::{Finding, Severity};
use super::findings::Findings;

/// Lines shown before and after the one a finding is about.
const CONTEXT_LINES: usize = 1;

/// All findings with the lines they are about, and a closing line that counts them; nothing for an
/// empty list. `width` is that of the terminal, in characters. Without `colour` the text is plain
/// ASCII drawing without escape codes: whether to colour (a terminal, `NO_COLOR`) is decided at the
/// edge.
pub fn render(findings: &Findings, colour: bool, width: usize) -> String {
    let theme = if colour {
        GraphicalTheme::unicode()
    } else {
        GraphicalTheme::none()
    };
    let handler = GraphicalReportHandler::new_themed(theme)
        .with_width(width)
        .with_links(false)
        .with_context_lines(CONTEXT_LINES);
    let mut text = String::new();
    for finding in findings {
        // Writing to a string fails only if a span lies outside the text; the plain line then
        // says all but the quotation.
        let mut drawn = String::new();
        let report = finding.can_be_drawn();
        match report.then(|| handler.render_report(&mut drawn, finding)) {
            Some(Ok(())) => text.push_str(&drawn),
            Some(Err(fmt::Error)) | None => text.push_str(&finding.render_plain()),
        }
        text.push('\n');
    }
    if !findings.is_empty() {
        text.push_str(&findings.summary());
        text.push('\n');
    }
    text
}

/// Longest line that is quoted, in bytes: nobody reads a longer one, and the drawing counts columns in 16 bits.
const LONGEST_QUOTED: usize = 4000;

impl Finding {
    /// Whether the lines that would be quoted are short enough.
    fn can_be_drawn(&self) -> bool {
        let Some(span) = &self.span else { return true };
        let (first, _) = self.file.line_column(span.start);
        let (last, _) = self.file.line_column(span.end);
        let most = self.file.line_column(self.file.text.len()).0;
        (first.saturating_sub(CONTEXT_LINES).max(1)..=(last + CONTEXT_LINES).min(most))
            .all(|line| self.file.line_span(line).len() <= LONGEST_QUOTED)
    }

    /// What is underlined: the span, or for an empty span the character after it, or before it at
    /// the end of a line. None if the line is empty, as nothing would be drawn there.
    fn underlined(&self) -> Option<Span> {
        let span = self.span.clone()?;
        if !span.is_empty() {
            return Some(span);
        }
        let (line, _) = self.file.line_column(span.start);
        let line = self.file.line_span(line);
        let at = span.start.clamp(line.start, line.end);
        let after = self.file.text[at..line.end].chars().next();
        let before = self.file.text[line.start..at].chars().next_back();
        match (after, before) {
            (Some(after), _) => Some(at..at + after.len_utf8()),
            (None, Some(before)) => Some(at - before.len_utf8()..at),
            (None, None) => None,
        }
    }
}

/// The message alone, or after the place if there is no line to quote, which would name it.
impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = &self.file.name;
        match (self.underlined(), self.line_column()) {
            (None, Some((line, column))) => write!(f, "{name}:{line}:{column}: {}", self.message),
            (None, None) if !self.message.contains(name.as_str()) => {
                write!(f, "{name}: {}", self.message)
            }
            _ => f.write_str(&self.message),
        }
    }
}

impl std::error::Error for Finding {}

impl Diagnostic for Finding {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        Some(Box::new(self.code))
    }

    fn severity(&self) -> Option<miette::Severity> {
        Some(match self.severity {
            Severity::Error => miette::Severity::Error,
            Severity::Warning => miette::Severity::Warning,
        })
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        let without_label = self
            .expected
            .as_ref()
            .filter(|_| self.underlined().is_none());
        let expected = without_label.map(|expected| format!("expected {expected}"));
        match (expected, &self.hint) {
            (Some(expected), Some(hint)) => Some(Box::new(format!("{expected}; {hint}"))),
            (Some(expected), None) => Some(Box::new(expected)),
            (None, Some(hint)) => Some(Box::new(hint)),
            (None, None) => None,
        }
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.underlined().map(|_| &*self.file as &dyn SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let span = self.underlined()?;
        let label = match &self.expected {
            Some(expected) => format!("expected {expected}"),
            None => "here".to_owned(),
        };
        Some(Box::new(std::iter::once(LabeledSpan::at(span, label))))
    }
}

impl Diagnostic for Findings {
    fn severity(&self) -> Option<miette::Severity> {
        let worst = if self.has_errors() {
            miette::Severity::Error
        } else {
            miette::Severity::Warning
        };
        Some(worst)
    }

    fn related<'a>(&'a self) -> Option<Box<dyn Iterator<Item = &'a dyn Diagnostic> + 'a>> {
        Some(Box::new(
            self.iter().map(|finding| finding as &dyn Diagnostic),
        ))
    }
}

/// Only the lines around the span are searched, so that many findings in a long file stay cheap.
impl SourceCode for SourceFile {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        lines_before: usize,
        lines_after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let end = span.offset() + span.len();
        if end > self.text.len() {
            return Err(MietteError::OutOfBounds);
        }
        let first = self
            .line_column(span.offset())
            .0
            .saturating_sub(lines_before)
            .max(1);
        let last = (self.line_column(end).0 + lines_after + 1).min(self.line_count());
        let start = self.line_span(first).start;
        let stop = if last == self.line_count() {
            self.text.len()
        } else {
            self.line_span(last + 1).start
        };
        let around = &self.text[start..stop];
        let inner = SourceSpan::from((span.offset() - start, span.len()));
        let contents = around.read_span(&inner, lines_before, lines_after)?;
        let shown = (contents.span().offset() + start, contents.span().len());
        Ok(Box::new(MietteSpanContents::new_named(
            self.name.clone(),
            &self.text.as_bytes()[shown.0..shown.0 + shown.1],
            shown.into(),
            contents.line() + first - 1,
            // Characters rather than bytes, as everywhere else.
            if lines_before == 0 {
                self.line_column(span.offset()).1 - 1
            } else {
                contents.column()
            },
            contents.line_count(),
        )))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn findings() -> Findings {
        let file = SourceFile::from_text(
            "list.toml",
            "[[cable]]\r\ntag = 7\r\nµ = \"16 A\"\r\nend = 1",
        );
        let text = &file.text;
        let at = |part: &str| text.find(part).map(|start| start..start + part.len());
        [
            Finding::error("source-wrong-type", &file, at("7"), "`tag` must be a text")
                .expected("a text in quotes")
                .hint("write \"7\""),
            Finding::warning("demo", &file, at("\"16 A\""), "odd"),
            Finding::error(
                "demo",
                &file,
                text.len()..text.len(),
                "something is missing",
            ),
            Finding::error("demo", &file, None, "the whole file").expected("another"),
        ]
        .into_iter()
        .collect()
    }

    #[test]
    fn plain_text_quotes_the_lines() {
        let text = render(&findings(), false, 80);
        assert!(!text.contains('\u{1b}'), "{text}");
        assert!(text.contains("list.toml:2:7"), "{text}");
        assert!(text.contains("list.toml:3:5"), "{text}");
        assert!(text.contains("2 | tag = 7"), "{text}");
        assert!(text.contains("expected a text in quotes"), "{text}");
        assert!(text.contains("write \"7\""), "{text}");
        assert!(text.contains("list.toml:4:7"), "{text}");
        assert_eq!(text.matches("-- here").count(), 2, "{text}");
        assert!(text.contains("list.toml: the whole file"), "{text}");
        assert!(text.contains("expected another"), "{text}");
        assert!(text.ends_with("3 errors, 1 warning\n"), "{text}");
        assert_eq!(render(&Findings::new(), false, 80), "");
    }

    #[test]
    fn what_cannot_be_underlined_still_says_where_and_what() {
        let file = SourceFile::from_text("list.toml", "");
        let finding = Finding::error("demo", &file, 0..0, "`job` is missing").expected("`[job]`");
        let text = render(&Findings::from_iter([finding]), false, 80);
        assert!(text.contains("list.toml:1:1: `job` is missing"), "{text}");
        assert!(text.contains("expected `[job]`"), "{text}");
    }

    #[test]
    fn colour_is_used_only_when_asked_for() {
        assert!(render(&findings(), true, 80).contains('\u{1b}'));
    }

    #[test]
    fn as_one_report_every_finding_is_shown() {
        let mut text = String::new();
        let handler = GraphicalReportHandler::new_themed(GraphicalTheme::none()).with_width(80);
        handler.render_report(&mut text, &findings()).unwrap();
        for part in [
            "3 errors, 1 warning",
            "2 | tag = 7",
            "odd",
            "something is missing",
        ] {
            assert!(text.contains(part), "{part} is not in:\n{text}");
        }
    }

    #[test]
    fn lines_far_down_a_file_have_their_own_number() {
        let file = SourceFile::from_text(
            "long.toml",
            "x = 1\n".repeat(5000) + "y = bad\n" + &"z = 1\n".repeat(50),
        );
        let at = file.text.find("bad").unwrap();
        let found = Findings::from_iter([Finding::error("demo", &file, at..at + 3, "odd")]);
        let text = render(&found, false, 80);
        assert!(text.contains("long.toml:5001:5"), "{text}");
        assert!(text.contains("5001 | y = bad"), "{text}");
        assert!(
            text.contains("5000 | x = 1") && text.contains("5002 | z = 1"),
            "{text}"
        );
    }

    #[test]
    fn a_line_that_nobody_could_read_is_not_quoted() {
        let long = format!("{{\"a\": [{}], \"b\": 7}}", "1, ".repeat(40_000));
        let file = SourceFile::from_text("long.json", &long);
        let at = long.len() - 2..long.len() - 1;
        let finding = Finding::error("source-wrong-type", &file, Some(at), "`b` must be a text");
        let drawn = render(&[finding].into_iter().collect(), false, 100);
        assert!(drawn.contains("`b` must be a text"), "{drawn}");
        assert!(drawn.len() < 1000, "{} bytes", drawn.len());
    }
}
