use std::sync::atomic::{AtomicUsize, Ordering};

use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestCaseError, TestRng, TestRunner};

use super::tests::Element;
use crate::source::{Document, Findings, SourceFile, render};

const CASES: u32 = 3000;

const SOUND: &str = "[[t]]\ntag = \"µ1\"\ncurrent_a = 16.5\ncount = 3\nspare = true\r\n\
    ambient_c = [-20, 45]\nlevels = [{ power_w = 3, name = \"a\" }, { power_w = 1, name = \"b\" }]\n\
    wall = { offset = { width_mm = 5 } }\nlimits.a = 1\n[[t]]\ntag = \"2\"\ncurrent_a = 1\n";

/// Each is put somewhere into the text, in place of up to five characters: mostly breaks the TOML.
const SCRAPS: &str =
    "| |\"|[|]|{|}|=|,|\n|\r|µ|x|7|-|.|nan|inf|true|2026-01-01|[t]|[[t]]|{}|[]|\"x\"|#|\u{0}";

/// Each may be replaced by one of [`OTHERS`]: mostly leaves the TOML sound, but not the table.
const PARTS: &str = "\"µ1\"|16.5|3|true|-20|[-20, 45]|\"a\"|{ power_w = 1, name = \"b\" }|5|\
    { offset = { width_mm = 5 } }|{ width_mm = 5 }|tag|current_a|power_w|width_mm|offset|limits";

const OTHERS: &str =
    "7|-1|0.5|nan|\"16 A\"|true|[]|[1, \"x\"]|{}|{ a = 1 }|2026-01-01|tga|\"left\"";

/// Whatever is wrong with a text: nothing panics, every finding lies in the text and can be drawn,
/// no table is left out in silence, and what is wrong is never given (an unknown field alone leaves
/// the table sound, unless it is a required one misspelt).
#[test]
fn any_text_is_read_or_refused_with_findings() {
    let one_of = |list: &'static str| prop::sample::select(list.split('|').collect::<Vec<_>>());
    let scrap = (any::<prop::sample::Index>(), 0_usize..6, one_of(SCRAPS));
    let scraps = prop::collection::vec(scrap, 0..3);
    let swaps = prop::collection::vec((one_of(PARTS), one_of(OTHERS)), 0..4);
    let edits = prop_oneof![
        (scraps, Just(Vec::new())),
        (Just(Vec::new()), swaps.clone()),
        (Just(Vec::new()), swaps)
    ];
    let (broken, faulty, sound) = (
        AtomicUsize::new(0),
        AtomicUsize::new(0),
        AtomicUsize::new(0),
    );
    let config = Config {
        cases: CASES,
        failure_persistence: None,
        ..Config::default()
    };
    // Always the same texts: a run that fails can be repeated, one that holds keeps holding.
    let rng = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let result = TestRunner::new_with_rng(config, rng).run(&edits, |(scraps, swaps)| {
        let mut text = SOUND.to_owned();
        for (part, other) in swaps {
            text = text.replacen(part, other, 1);
        }
        let mut text: Vec<char> = text.chars().collect();
        for (at, removed, scrap) in scraps {
            let at = at.index(text.len() + 1);
            let end = (at + removed).min(text.len());
            text.splice(at..end, scrap.chars());
        }
        let kind = match check(&text.into_iter().collect::<String>())? {
            Outcome::Broken => &broken,
            Outcome::Faulty => &faulty,
            Outcome::Sound => &sound,
        };
        kind.fetch_add(1, Ordering::Relaxed);
        Ok(())
    });
    result.unwrap();
    // The texts must not all fall to one side, or little would have been tried.
    for (kind, name) in [(broken, "broken"), (faulty, "faulty"), (sound, "sound")] {
        let count = kind.into_inner();
        assert!(count >= 300, "only {count} of {CASES} texts are {name}");
    }
}

enum Outcome {
    /// Not TOML.
    Broken,
    /// TOML with something wrong in it.
    Faulty,
    /// Nothing found.
    Sound,
}

fn check(text: &str) -> Result<Outcome, TestCaseError> {
    let mut findings = Findings::new();
    let document = Document::parse(SourceFile::from_text("l.toml", text), &mut findings);
    let is_broken = document.is_none();
    prop_assert_eq!(is_broken, findings.has_errors());
    if let Some(document) = document {
        let tables = document.tables::<Element>("t", &mut findings);
        let given = document.tables::<serde::de::IgnoredAny>("t", &mut Findings::new());
        let is_wrong = findings.iter().any(|f| f.code != "source-unknown-field");
        let is_list = document.has("t[0]");
        prop_assert!(is_list || !document.has("t") || is_wrong || text.contains("t = []"));
        if is_list {
            let is_short = tables.len() < given.len();
            prop_assert!(is_short || !is_wrong, "{}", text);
            prop_assert!(!is_short || findings.has_errors(), "{}", text);
        }
        for table in &tables {
            prop_assert!(table.value.current_a.is_finite());
            prop_assert!(table.place.span().end <= text.len());
        }
    }
    for finding in &findings {
        let span = finding.span.clone().expect("every finding has a place");
        prop_assert!(finding.file.text.get(span).is_some());
    }
    prop_assert_eq!(findings.render_plain().lines().count(), findings.len());
    let drawn = render(&findings, false, 80);
    prop_assert_eq!(drawn.matches("source-").count(), findings.len());
    Ok(match (is_broken, findings.is_empty()) {
        (true, _) => Outcome::Broken,
        (false, false) => Outcome::Faulty,
        (false, true) => Outcome::Sound,
    })
}
