//! The demo catalogue: invented parts of the maker Demo for the Hollin Quay bioethanol tank farm.
//! Knows its files by name and nothing of what is in them.

use super::Catalogue;
use super::reading;
use crate::source::{Findings, SourceFile};
use std::sync::{Arc, LazyLock};

/// Name and text of each file, in the order in which a folder would be read.
const FILES: [(&str, &str); 9] = [
    ("about.toml", include_str!("demo/about.toml")),
    ("accessories.toml", include_str!("demo/accessories.toml")),
    ("elements.toml", include_str!("demo/elements.toml")),
    (
        "enclosures_grp.toml",
        include_str!("demo/enclosures_grp.toml"),
    ),
    (
        "enclosures_stainless.toml",
        include_str!("demo/enclosures_stainless.toml"),
    ),
    ("glands.toml", include_str!("demo/glands.toml")),
    ("jumpers.toml", include_str!("demo/jumpers.toml")),
    ("plugs.toml", include_str!("demo/plugs.toml")),
    ("terminals.toml", include_str!("demo/terminals.toml")),
];

/// Read once; after that every caller shares it.
static DEMO: LazyLock<Catalogue> = LazyLock::new(|| {
    let (catalogue, findings) = read();
    catalogue.unwrap_or_else(|| {
        panic!(
            "the embedded demo catalogue must be sound:\n{}",
            findings.render_plain()
        )
    })
});

fn read() -> (Option<Catalogue>, Findings) {
    let files: Vec<Arc<SourceFile>> = FILES
        .iter()
        .map(|(name, text)| SourceFile::from_text(format!("demo/{name}"), *text))
        .collect();
    reading::from_files("demo", &files)
}

impl Catalogue {
    /// The embedded demo catalogue: realistic, invented, not for use. Its warning says so and goes
    /// into every result.
    ///
    /// ```
    /// let demo = glandrail::catalogue::Catalogue::demo();
    /// assert_eq!(demo.enclosure.len(), 60);
    /// assert!(demo.about.warning.as_deref().is_some_and(|words| words.contains("not for use")));
    /// ```
    pub fn demo() -> &'static Catalogue {
        &DEMO
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_reads_without_a_finding() {
        let (catalogue, findings) = read();
        assert_eq!(findings.render_plain(), "");
        assert!(catalogue.is_some());
    }

    #[test]
    fn files_are_in_the_order_of_a_folder() {
        assert!(FILES.iter().is_sorted_by_key(|(name, _)| *name));
    }
}
