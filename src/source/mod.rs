//! Text files as the user wrote them: places in a file, findings, nearest known names. Knows nothing of the trade.
//!
//! Every TOML file of the program is read through this room:
//!
//! 1. [`SourceFile`] reads the text, or says why it cannot be read ([`SourceError`]).
//! 2. [`Document`] parses it and keeps the place of every key and value.
//! 3. [`Document::table`] and [`Document::tables`] turn tables into plain serde structs. Unknown
//!    fields, missing fields and wrong types are all reported in one run, as [`Finding`]s.
//! 4. What is built comes back as [`Located`]: the value together with its [`Place`], so that
//!    later checks can point at a line as well.
//! 5. [`Findings`] are drawn once, at the edge, by [`render`] or [`Findings::render_plain`].
//!
//! Output files are written whole or not at all by [`write_whole`], [`write_folder`] and [`replace_folder`].

mod document;
mod file;
mod finding;
mod findings;
mod nearest;
mod path;
mod place;
mod read;
mod render;
mod syntax;
mod tree;
mod unit;
mod whole_file;

pub use document::Document;
pub use file::{LARGEST_FILE_BYTES, SourceError, SourceFile, Span};
pub use finding::{Finding, Severity};
pub use findings::Findings;
pub use nearest::nearest;
pub use path::{Path, Step};
pub use place::{Located, Place};
pub use render::render;
pub use whole_file::{WriteError, replace_folder, write_folder, write_whole};

/// The codes of the findings this room makes, each with what it says. Stable: documentation and
/// scripts may rely on them.
pub const CODES: &[(&str, &str)] = &[
    ("source-file", "a file cannot be read"),
    ("source-syntax", "the text is not TOML"),
    (
        "source-unknown-table",
        "a table or key of the file is not known",
    ),
    ("source-unknown-field", "a field of a table is not known"),
    (
        "source-missing-table",
        "a table the file must have is not there",
    ),
    (
        "source-missing-field",
        "a field the table must have is not there",
    ),
    ("source-wrong-type", "a value is of the wrong kind"),
    (
        "source-unknown-value",
        "a value is none of the words allowed here",
    ),
    (
        "source-invalid-value",
        "a value is of the right kind but not allowed",
    ),
    ("source-not-finite", "a number is infinite or not a number"),
];

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    /// The list of codes and the codes in use must not drift apart.
    #[test]
    fn the_codes_listed_are_the_codes_used() {
        let sources = [
            include_str!("document.rs"),
            include_str!("file.rs"),
            include_str!("syntax.rs"),
            include_str!("read/mod.rs"),
            include_str!("read/reader.rs"),
            include_str!("read/wanted.rs"),
        ];
        let used: BTreeSet<_> = sources
            .iter()
            .flat_map(|source| source.split("\"source-").skip(1))
            .filter_map(|after| after.split_once('"'))
            .map(|(code, _)| format!("source-{code}"))
            .collect();
        let listed: BTreeSet<_> = super::CODES
            .iter()
            .map(|(code, _)| (*code).to_owned())
            .collect();
        assert_eq!(used, listed);
    }
}
