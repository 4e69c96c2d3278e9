//! The audit shares nothing with what makes arrangements: its files are searched for breaches.

use std::fs;
use std::path::{Path, PathBuf};

fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    for item in fs::read_dir(folder).expect("a folder") {
        let path = item.expect("an item").path();
        if path.is_dir() {
            files(&path, found);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            found.push(path);
        }
    }
}

/// What of the crate a line names after `crate::`.
fn rooms(line: &str) -> Vec<&str> {
    line.split("crate::")
        .skip(1)
        .map(|rest| {
            rest.split(|sign: char| !(sign.is_alphanumeric() || sign == '_'))
                .next()
                .unwrap_or("")
        })
        .collect()
}

/// Methods of the plain data types that convert or measure, and those that decide on ratings.
const FORBIDDEN_METHODS: [&str; 22] = [
    ".diagonal_mm(",
    ".length_along_u_mm(",
    ".on_face(",
    ".point(",
    ".block(",
    ".centre()",
    ".width_mm()",
    ".height_mm()",
    ".depth_mm()",
    ".right_mm()",
    ".top_mm()",
    ".area_mm2().max",
    ".shrunk(",
    ".common(",
    ".turned_clockwise(",
    ".rated_current_a(",
    ".takes(",
    ".covers(",
    ".diameter_mm().max",
    ".is_metal()",
    ".is_operated()",
    ".levels()",
];

#[test]
fn the_audit_imports_only_what_it_may() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut found = Vec::new();
    files(&root.join("src/audit"), &mut found);
    assert!(found.len() >= 15, "only {} files", found.len());
    // Letters and numbers only word what was found; how work is shared out knows nothing of it.
    let allowed = [
        "arrangement",
        "audit",
        "catalogue",
        "letters",
        "number",
        "parallel",
        "space",
        "standards",
    ];
    for path in &found {
        let text = fs::read_to_string(path).expect("a source file");
        let code = text.split("#[cfg(test)]").next().unwrap_or_default();
        for (number, line) in code.lines().enumerate() {
            let at = format!("{}:{}", path.display(), number + 1);
            let comment = line.trim_start().starts_with("//");
            for room in rooms(line).into_iter().filter(|_| !comment) {
                assert!(allowed.contains(&room), "{at} names crate::{room}");
            }
            assert!(
                comment || !line.contains("super::super"),
                "{at} climbs out of its folder"
            );
            for method in FORBIDDEN_METHODS {
                assert!(
                    comment || !line.contains(method),
                    "{at} uses `{method}` of the shared types"
                );
            }
            for word in ["unwrap()", ".expect(", "panic!", "unreachable!", "todo!"] {
                assert!(comment || !line.contains(word), "{at} may panic: `{word}`");
            }
        }
        assert!(text.lines().count() < 500, "{} is too long", path.display());
        assert!(text.starts_with("//!"), "{} has no head", path.display());
    }
}

#[test]
fn the_search_for_breaches_finds_them() {
    assert_eq!(
        rooms("use crate::model::Choice; use crate::space::Block;"),
        ["model", "space"]
    );
    assert_eq!(rooms("crate::demand"), ["demand"]);
}
