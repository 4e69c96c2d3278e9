//! The wording of what the TOML parser finds. Knows TOML, not what is written in it.
//!
//! The parser recovers from an error and goes on, but once the shape of the text is broken (a
//! bracket left open, a line without `=`) nearly all that follows is an echo. So the findings about
//! single values are kept up to the first broken shape, and nothing after that.

use std::sync::Arc;

use super::file::{SourceFile, Span};
use super::finding::Finding;

const CODE: &str = "source-syntax";

/// Beginnings of the parser's messages about one value or key that leave the lines after it sound.
const ABOUT_ONE_VALUE: [&str; 8] = [
    "string values must be quoted",
    "duplicate key",
    "cannot extend value",
    "invalid",
    "missing escaped value",
    "unexpected leading zero",
    "unquoted keys cannot be empty",
    "redundant",
];

/// The parser's errors as findings: at most one in each line, none after the shape is broken.
pub(super) fn findings(file: &Arc<SourceFile>, errors: &[toml::de::Error]) -> Vec<Finding> {
    let mut errors: Vec<_> = errors
        .iter()
        .map(|error| {
            let span = error.span().unwrap_or(0..0);
            let (line, _) = file.line_column(span.start);
            (
                line,
                is_about_one_value(error.message()),
                span,
                error.message(),
            )
        })
        .collect();
    // In each line a broken shape comes first: what else is said of the line may be its echo.
    errors.sort_by_key(|(line, one_value, span, _)| (*line, *one_value, span.start));
    let mut found = Vec::new();
    let mut last_line = 0;
    for (line, one_value, span, message) in errors {
        if line == last_line {
            continue;
        }
        last_line = line;
        found.push(finding(file, span, message));
        if !one_value {
            break;
        }
    }
    found
}

fn is_about_one_value(message: &str) -> bool {
    ABOUT_ONE_VALUE
        .iter()
        .any(|start| message.starts_with(start))
}

/// A finding for a whole number that 64 bits do not hold.
pub(super) fn huge_integer(file: &Arc<SourceFile>, span: Span) -> Finding {
    let message = format!("`{}` is too large for a whole number", file.at(&span));
    Finding::error(CODE, file, span, message).expected(format!(
        "a whole number from {} to {}",
        i64::MIN,
        i64::MAX
    ))
}

fn finding(file: &Arc<SourceFile>, span: Span, message: &str) -> Finding {
    let text = file.at(&span).to_owned();
    let (what, expected) = match message.split_once(", expected ") {
        Some((what, "nothing" | "")) => (what, None),
        Some((what, expected)) => (what, Some(expected)),
        None => (message, None),
    };
    let (line, _) = file.line_column(span.start);
    let line_text = file.line(line).trim();
    if let Some(hint) = decimal_comma(line_text) {
        return Finding::error(CODE, file, span, "a number is written with a comma")
            .expected("a number with a decimal point")
            .hint(hint);
    }
    match what {
        "string values must be quoted" if text.is_empty() => {
            Finding::error(CODE, file, span, "a value is missing after `=`")
                .expected("a number, a text in quotes, true or false, or a list in brackets")
        }
        "string values must be quoted" => {
            let number = text.trim_end_matches(|c: char| c.is_alphabetic() || " %°".contains(c));
            let hint = if number != text && number.parse::<f64>().is_ok() {
                format!(
                    "write `{number}`, as the unit belongs in the key, or `\"{text}\"` if it is a text"
                )
            } else {
                format!("if it is a text, write `\"{text}\"`")
            };
            Finding::error(CODE, file, span, format!("`{text}` is not a value"))
                .expected("a number, a text in quotes, true or false, or a list in brackets")
                .hint(hint)
        }
        "duplicate key" => Finding::error(CODE, file, span, format!("`{text}` is given twice"))
            .expected("each key once in a table, and each table once")
            .hint(
                if line_text.starts_with('[') && !line_text.starts_with("[[") {
                    format!("keep one, or write `[[{text}]]` each time if there are several")
                } else {
                    "keep one of them".to_owned()
                },
            ),
        "key with no value" => Finding::error(
            CODE,
            file,
            span,
            format!("`{line_text}` is neither a table nor `key = value`"),
        )
        .expected("`=` and a value")
        .hint("a remark begins with `#`"),
        // A text that is not ended in its line: what the parser calls a basic string.
        "invalid basic string" | "invalid literal string" => Finding::error(
            CODE,
            file,
            span,
            "a text in quotes does not end in its line",
        )
        .expected("the same quotation mark at its beginning and its end"),
        _ => {
            let mut finding = Finding::error(CODE, file, span, what);
            if let Some(expected) = expected {
                finding = finding.expected(expected);
            }
            if what.ends_with("in array") || what == "unclosed array" {
                finding = finding.hint("a list at or above this line may lack its `]`");
            }
            finding
        }
    }
}

/// A line such as `diameter_mm = 12,5`, and what to write instead.
fn decimal_comma(line: &str) -> Option<String> {
    let (key, value) = line.split_once('=')?;
    let value = value.split('#').next()?.trim();
    let (whole, part) = value.split_once(',')?;
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    (digits(whole.trim_start_matches('-')) && digits(part))
        .then(|| format!("write `{} = {whole}.{part}`", key.trim()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::{Document, Findings};

    fn plain(text: &str) -> Vec<String> {
        let file = SourceFile::from_text("x", text);
        let mut found = Findings::new();
        assert!(Document::parse(file, &mut found).is_none());
        found.iter().map(Finding::render_plain).collect()
    }

    #[test]
    fn several_bad_values_are_all_found() {
        let found = plain("name = JB-1\nwidth = 10mm\nname = \"JB\"\nb =\nok = 1\nc = 1.\n");
        assert_eq!(found.len(), 5, "{found:#?}");
        assert!(found[0].starts_with("x:1:8: error[source-syntax]: `JB-1` is not a value"));
        assert!(found[0].ends_with("hint: if it is a text, write `\"JB-1\"`"));
        assert!(found[1].starts_with("x:2:9:"));
        assert!(found[1].contains("write `10`, as the unit belongs in the key"));
        assert!(found[2].starts_with("x:3:1: error[source-syntax]: `name` is given twice"));
        assert!(found[3].starts_with("x:4:4: error[source-syntax]: a value is missing after `=`"));
        assert!(found[4].starts_with("x:6:7: error[source-syntax]: invalid fraction"));
    }

    #[test]
    fn what_follows_a_broken_shape_is_left_out() {
        let found = plain("a = 01\nlist = [1,\nd = 3\ne = 4\nf = 5\n");
        assert_eq!(found.len(), 2, "{found:#?}");
        assert!(found[0].starts_with("x:1:5:"));
        assert!(found[1].starts_with("x:3:3: error[source-syntax]: unexpected `=` in array"));
        assert!(found[1].ends_with("hint: a list at or above this line may lack its `]`"));
    }

    #[test]
    fn common_slips_get_a_hint() {
        assert!(plain("k = 12,5 # mm\n")[0].ends_with("hint: write `k = 12.5`"));
        assert!(plain("just words\n")[0].contains("`just words` is neither a table nor"));
        assert!(plain("[c]\nx = 1\n[c]\n")[0].contains("write `[[c]]` each time"));
        let huge = plain("x = 99999999999999999999\n");
        assert!(huge[0].starts_with("x:1:5: error[source-syntax]: `99999999999999999999` is too"));
    }

    #[test]
    fn an_unclosed_text_is_found_where_it_ends() {
        let found = plain("a = \"open\nb = 2\n");
        assert_eq!(found.len(), 1, "{found:#?}");
        assert!(found[0].starts_with("x:1:10:"), "{found:#?}");
    }
}
