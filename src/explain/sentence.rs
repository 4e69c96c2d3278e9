//! Sentences: first letters, and paragraphs of limited width. Knows nothing of what they say.

use std::fmt::Write;

/// Widest line, in characters.
pub(super) const WIDTH: usize = 100;

/// A sentence as it goes on after a comma: a first word in capitals is a name.
pub(super) fn uncapital(text: &str) -> String {
    let mut letters = text.chars();
    match (letters.next(), letters.clone().next()) {
        (Some(first), Some(second)) if second.is_lowercase() => {
            first.to_lowercase().chain(letters).collect()
        }
        _ => text.to_string(),
    }
}

/// A paragraph with a hanging indent.
pub(super) fn paragraph(out: &mut String, text: &str, indent: usize) {
    let mut line = " ".repeat(indent);
    let mut empty = true;
    for word in text.split_whitespace() {
        if !empty && line.chars().count() + 1 + word.chars().count() > WIDTH {
            let _ = writeln!(out, "{line}");
            line = " ".repeat(indent + 2);
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    let _ = writeln!(out, "{line}");
}
