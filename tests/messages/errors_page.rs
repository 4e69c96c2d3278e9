//! docs/errors.md against the code: all codes and no others, and what each example really says.

use crate::job;
use glandrail::catalogue::{self, AccessoryKind, Catalogue, TerminalFunction};
use glandrail::explain::{ExplainOptions, explain};
use glandrail::propose::ProposeError;
use glandrail::source::{Findings, Severity};
use glandrail::{source, workshop};
use std::collections::BTreeSet;
use std::path::Path;

const PAGE: &str = include_str!("../../docs/errors.md");
const PREFIXES: [&str; 6] = [
    "source-",
    "list-",
    "demand-",
    "catalogue-",
    "workshop-",
    "import-",
];

/// One code with its example.
struct Explained {
    code: &'static str,
    /// The sentence about the catalogue, where it is not the demo catalogue.
    catalogue: Option<&'static str>,
    example: Option<&'static str>,
    message: Option<&'static str>,
    /// What stands after the message.
    remedy: &'static str,
}

fn explained() -> Vec<Explained> {
    let pieces = PAGE.split("\n### `").skip(1);
    pieces
        .map(|piece| {
            let piece = piece.split("\n## ").next().unwrap_or(piece);
            let fenced = |word: &str| {
                let begin = piece.split_once(&format!("```{word}\n"))?.1;
                begin.split_once("\n```").map(|(inside, _)| inside)
            };
            Explained {
                code: piece.split('`').next().unwrap_or_default(),
                catalogue: piece
                    .lines()
                    .find(|line| line.starts_with("The demo catalogue with")),
                example: fenced("toml"),
                message: fenced("text"),
                remedy: piece.rsplit("```\n").next().unwrap_or_default().trim(),
            }
        })
        .collect()
}

/// All codes that stand in quotes in the sources.
fn codes_of_sources(folder: &Path, codes: &mut BTreeSet<String>) {
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            codes_of_sources(&path, codes);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            let text = std::fs::read_to_string(&path).expect("text");
            for word in text.split('"') {
                let is_code = |prefix: &&str| {
                    word.strip_prefix(*prefix).is_some_and(|rest| {
                        !rest.is_empty() && rest.chars().all(|c| c.is_ascii_lowercase() || c == '-')
                    })
                };
                if PREFIXES.iter().any(is_code) {
                    codes.insert(word.to_string());
                }
            }
        }
    }
}

#[test]
fn the_page_has_the_codes_of_the_sources_and_no_others() {
    let mut used = BTreeSet::new();
    let sources = concat!(env!("CARGO_MANIFEST_DIR"), "/src");
    codes_of_sources(Path::new(sources), &mut used);
    let headings = explained().into_iter().map(|one| one.code.to_string());
    let tables = rows().into_iter().map(|(code, _)| code.to_string());
    let named: Vec<String> = headings.chain(tables).collect();
    let documented: BTreeSet<String> = named.iter().cloned().collect();
    assert_eq!(named.len(), documented.len(), "a code is explained twice");
    assert_eq!(documented, used);
    assert!(used.len() > 70, "{}", used.len());
}

/// Codes and words of the tables.
fn rows() -> Vec<(&'static str, &'static str)> {
    let mut rows = Vec::new();
    for table in PAGE.split("| code | what it says |\n").skip(1) {
        for line in table
            .lines()
            .skip(1)
            .take_while(|line| line.starts_with('|'))
        {
            let cells: Vec<&str> = line.split('|').map(str::trim).collect();
            rows.push((cells[1].trim_matches('`'), cells[2]));
        }
    }
    rows
}

#[test]
fn the_tables_say_what_the_code_says() {
    let listed: Vec<(&str, &str)> = catalogue::CODES
        .iter()
        .chain(workshop::CODES)
        .chain(catalogue::import::CODES)
        .copied()
        .collect();
    assert_eq!(rows(), listed);
    let explained: BTreeSet<&str> = explained().into_iter().map(|one| one.code).collect();
    for (code, _) in source::CODES {
        assert!(explained.contains(code), "{code}");
    }
}

/// The catalogue that a sentence of the page describes.
fn described(sentence: Option<&str>) -> Catalogue {
    let mut catalogue = Catalogue::demo().clone();
    match sentence {
        None => {}
        Some("The demo catalogue without its enclosures.") => catalogue.enclosure.clear(),
        Some("The demo catalogue without its plugs.") => catalogue.plug.clear(),
        Some("The demo catalogue without its end stops.") => {
            catalogue
                .accessory
                .retain(|part| part.kind != AccessoryKind::EndStop);
        }
        Some("The demo catalogue with an earth terminal up to 300 mm².") => {
            for terminal in &mut catalogue.terminal {
                if terminal.function == TerminalFunction::Earth {
                    terminal.clamp.stranded_mm2 = Some([1.0, 300.0]);
                }
            }
        }
        Some(other) => panic!("no such catalogue: {other}"),
    }
    catalogue
}

/// Whether a code comes from `explain` alone.
fn is_of_explain(code: &str) -> bool {
    ["list-fixed-unknown", "list-weight-unknown"].contains(&code)
}

fn findings_of_explain(text: &str, catalogue: &Catalogue) -> Findings {
    let list = job::read(text).expect("sound");
    let rules = workshop::Workshop::default();
    match explain(&list, catalogue, &rules, None, ExplainOptions::default()) {
        Err(ProposeError::Input(findings) | ProposeError::NoPart(findings)) => findings,
        _ => Findings::new(),
    }
}

#[test]
fn every_example_gives_its_code_in_these_words() {
    let mut wrong = Vec::new();
    let mut examples = 0;
    for one in explained() {
        assert!(one.remedy.len() > 5, "{}: no remedy", one.code);
        let (Some(example), Some(message)) = (one.example, one.message) else {
            assert_eq!(one.code, "source-file", "{} has no example", one.code);
            continue;
        };
        examples += 1;
        let text = if example.contains("#without [area]") {
            format!("{example}\n[job]\ntag = \"JB-1\"\n")
        } else {
            job::completed(&format!("{example}\n"))
        };
        let catalogue = described(one.catalogue);
        let found = if is_of_explain(one.code) {
            findings_of_explain(&text, &catalogue)
        } else {
            job::findings(&text, &catalogue)
        };
        let other = found
            .iter()
            .find(|finding| finding.code != one.code || finding.severity != Severity::Error);
        if let Some(other) = other {
            wrong.push(format!("{}: also {}", one.code, other.render_plain()));
        }
        if found.render_plain().trim_end() != message {
            wrong.push(format!("@@{}\n{}", one.code, found.render_plain()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(examples >= 40, "{examples}");
}

#[test]
fn the_first_message_of_the_page_is_real() {
    let text =
        "[job]\ntag = \"JB-1\"\n[area]\nzone = 1\n[[cable]]\ntag = \"W1\"\ncores = \"3 x 1.5\"\n";
    let text = text.replace(
        "zone = 1\n",
        "zone = 1\ngas_group = \"IIB\"\ntemperature_class = \"T6\"\n",
    );
    let found = job::findings(&text, Catalogue::demo()).render_plain();
    let shown = PAGE
        .split("```text\n")
        .nth(1)
        .and_then(|rest| rest.lines().next());
    let after_place = |line: &str| line.split_once(": ").map(|(_, rest)| rest.to_string());
    assert_eq!(shown.and_then(after_place), after_place(found.trim_end()));
}
