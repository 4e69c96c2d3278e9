//! Comma-separated text (RFC 4180) with the place of every record. Knows nothing of parts.

use crate::source::{Finding, Findings, SourceFile, Span};
use std::sync::Arc;

/// One record: a line, or several where a quoted field holds line breaks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Record {
    pub(super) fields: Vec<String>,
    /// Where it stands in the file, without its line break.
    pub(super) span: Span,
}

impl Record {
    /// Whether nothing is written in it.
    fn is_blank(&self) -> bool {
        self.fields.iter().all(|field| field.trim().is_empty())
    }
}

/// All records that are not blank, in order. A quote that is never closed is a finding.
pub(super) fn records(
    file: &Arc<SourceFile>,
    separator: char,
    findings: &mut Findings,
) -> Vec<Record> {
    let text = &file.text;
    let mut records = Vec::new();
    let (mut fields, mut field) = (Vec::new(), String::new());
    let mut start = 0;
    let mut quote: Option<usize> = None;
    let mut was_quoted = false;
    let mut characters = text.char_indices().peekable();
    let mut close = |fields: &mut Vec<String>, field: &mut String, span: Span| {
        fields.push(std::mem::take(field));
        let record = Record {
            fields: std::mem::take(fields),
            span,
        };
        if !record.is_blank() {
            records.push(record);
        }
    };
    while let Some((at, character)) = characters.next() {
        match character {
            '"' if quote.is_some() => {
                if characters.next_if(|(_, next)| *next == '"').is_some() {
                    field.push('"');
                } else {
                    quote = None;
                }
            }
            _ if quote.is_some() => field.push(character),
            // A quote opens only at the start of a field; inside one it is an inch sign.
            '"' if field.is_empty() && !was_quoted => (quote, was_quoted) = (Some(at), true),
            '\r' if characters.peek().is_some_and(|(_, next)| *next == '\n') => {}
            '\n' => {
                let end = if text[..at].ends_with('\r') {
                    at - 1
                } else {
                    at
                };
                close(&mut fields, &mut field, start..end);
                (start, was_quoted) = (at + 1, false);
            }
            _ if character == separator => {
                fields.push(std::mem::take(&mut field));
                was_quoted = false;
            }
            _ => field.push(character),
        }
    }
    if let Some(at) = quote {
        let message = "a quoted field is never closed";
        findings.push(
            Finding::error("import-csv", file, at..at + 1, message)
                .expected("a closing `\"`")
                .hint("write `\"\"` for a quote inside a quoted field"),
        );
    }
    close(&mut fields, &mut field, start..text.len());
    records
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str, separator: char) -> (Vec<Vec<String>>, Vec<(usize, usize)>) {
        let file = SourceFile::from_text("parts.csv", text);
        let mut findings = Findings::new();
        let records = records(&file, separator, &mut findings);
        let places = findings.iter().filter_map(Finding::line_column).collect();
        (
            records.into_iter().map(|record| record.fields).collect(),
            places,
        )
    }

    #[test]
    fn quotes_breaks_and_separators() {
        let (records, findings) = read(
            "id;text\r\n\r\nA;\"two; \"\"quoted\"\"\nlines\"\r\nB;1/2\" pipe\r\n;\nC;",
            ';',
        );
        let expected: [&[&str]; 4] = [
            &["id", "text"],
            &["A", "two; \"quoted\"\nlines"],
            &["B", "1/2\" pipe"],
            &["C", ""],
        ];
        assert_eq!(records, expected);
        assert!(findings.is_empty());
    }

    #[test]
    fn an_open_quote_is_found_where_it_opens() {
        assert_eq!(read("id,text\nA,\"open\n", ',').1, [(2, 3)]);
    }

    #[test]
    fn an_empty_file_has_no_records() {
        assert_eq!(read("", ','), (Vec::<Vec<String>>::new(), Vec::new()));
    }

    #[test]
    fn records_know_their_lines() {
        let file = SourceFile::from_text("parts.csv", "a,b\r\nc,d\r\n");
        let records = records(&file, ',', &mut Findings::new());
        let texts: Vec<&str> = records.iter().map(|record| file.at(&record.span)).collect();
        assert_eq!(texts, ["a,b", "c,d"]);
    }
}
