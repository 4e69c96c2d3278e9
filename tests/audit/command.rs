//! The commands `audit` and `rules`: text, JSON, exit status, unreadable files.

use crate::fixture::station;
use glandrail::audit;
use glandrail::cli::audit::{AuditArgs, RecordFormat};
use glandrail::cli::rules::RulesArgs;
use glandrail::cli::{ExitStatus, Failure};
use std::path::Path;

fn written(folder: &Path, text: &str) -> AuditArgs {
    let path = folder.join("arrangement.json");
    std::fs::write(&path, text).expect("a file in a folder of our own");
    AuditArgs {
        arrangement: path,
        catalogue: None,
        format: RecordFormat::Text,
    }
}

fn run(args: &AuditArgs) -> (Result<ExitStatus, Failure>, String) {
    let mut out = Vec::new();
    let status = glandrail::cli::audit::run(args, &mut out);
    (status, String::from_utf8(out).expect("text"))
}

#[test]
fn an_arrangement_that_holds() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut arrangement = station();
    arrangement.estimates.push("a diameter of the tests".into());
    let mut args = written(
        folder.path(),
        &serde_json::to_string(&arrangement).expect("plain data"),
    );
    let (status, text) = run(&args);
    assert_eq!(status.expect("readable"), ExitStatus::Holds);
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines[0], "Audit of LCS-2107 in DEMO-G-2626: holds");
    // Every rule but the comparison with a catalogue has its row; a second method and two estimates inform.
    let rows = |verdict: &str| lines.iter().filter(|line| line.contains(verdict)).count();
    assert_eq!(rows(" informs  "), 3);
    // Four have nothing in this box to which they apply.
    assert_eq!(rows(" does not apply "), 4);
    assert_eq!(rows(" holds  "), audit::rules().len() - 1 - 3 - 4);
    assert!(
        lines[1].ends_with(", 3 inform and permit nothing, 4 do not apply"),
        "{}",
        lines[1]
    );
    assert!(
        lines[2].starts_with("Figures of the parts NOT compared with any catalogue")
            && lines[2].contains("`Demo parts of the tests, edition 1`"),
        "{}",
        lines[2]
    );
    // Estimates and sources stand in it, of the rules that hold too.
    let told = |start: &str, word: &str| {
        let mut found = lines.iter().filter(|line| line.trim().starts_with(start));
        found.any(|line| line.contains(word))
    };
    assert!(told("heat.entry_temperature:", "°C"), "{text}");
    assert!(told("estimated: ", "a diameter of the tests"), "{text}");
    assert!(told("all figures of the parts: ", "no catalogue"), "{text}");
    for rule in audit::rules() {
        if rule.id != "record.catalogue" {
            let source = format!("{} ({}): ", rule.clause, rule.status);
            assert!(told(&source, rule.id), "{}: {source}", rule.id);
        }
    }
    let spacing = lines
        .iter()
        .find(|line| line.starts_with("space.entry_spacing "))
        .expect("a row");
    let words: Vec<&str> = spacing.split_whitespace().collect();
    assert_eq!(
        words,
        [
            "space.entry_spacing",
            "holds",
            "≥",
            "37",
            "40",
            "3",
            "mm",
            "E1,",
            "E2"
        ]
    );
    assert_eq!(lines.last().copied(), Some(glandrail::arrangement::CAUTION));

    args.format = RecordFormat::Json;
    let (status, text) = run(&args);
    assert_eq!(status.expect("readable"), ExitStatus::Holds);
    let record: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    assert_eq!(record["holds"], true);
    assert_eq!(
        record["rules"].as_array().map(Vec::len),
        Some(audit::rules().len() - 1)
    );
    assert_eq!(record["rules"][0]["status"], "common practice");
    assert_eq!(record["compared_with_catalogue"], false);
    let comparison = record["comparison"].as_str().expect("words");
    assert!(comparison.starts_with("figures of the parts NOT compared with any catalogue"));
}

#[test]
fn a_blank_name_of_the_catalogue_is_told_and_fails() {
    let folder = tempfile::tempdir().expect("a folder");
    for blank in ["", "  "] {
        let mut nameless = station();
        nameless.catalogue = blank.into();
        let text = serde_json::to_string(&nameless).expect("plain data");
        let mut args = written(folder.path(), &text);
        let (status, text) = run(&args);
        assert_eq!(status.expect("readable"), ExitStatus::DoesNotHold);
        assert!(text.contains("FAILS record.format"), "{text}");
        assert!(text.contains("the file names no catalogue"), "{text}");
        let line = text.lines().nth(2).expect("a third line");
        assert!(
            line.starts_with("Figures of the parts NOT compared")
                && line.contains("(it names no catalogue)"),
            "{line}"
        );
        args.format = RecordFormat::Json;
        let (_, text) = run(&args);
        let record: serde_json::Value = serde_json::from_str(&text).expect("JSON");
        let comparison = record["comparison"].as_str().expect("words");
        assert!(
            comparison.contains("(it names no catalogue)"),
            "{comparison}"
        );
    }
}

#[test]
fn what_names_the_demo_catalogue_is_held_against_it() {
    let mut named = station();
    named.catalogue = glandrail::catalogue::Catalogue::demo().name();
    let folder = tempfile::tempdir().expect("a folder");
    let text = serde_json::to_string(&named).expect("plain data");
    let (status, text) = run(&written(folder.path(), &text));
    // The parts of the tests are none of that catalogue.
    assert_eq!(status.expect("readable"), ExitStatus::DoesNotHold);
    assert!(
        text.contains("compared with the embedded catalogue"),
        "{text}"
    );
    assert!(text.contains("FAILS record.catalogue: "), "{text}");
}

#[test]
fn what_fails_comes_first() {
    let mut broken = station();
    broken.enclosure.impact_j = None;
    broken.jumpers[0].rated_current_a = 1.0;
    let folder = tempfile::tempdir().expect("a folder");
    let args = written(
        folder.path(),
        &serde_json::to_string(&broken).expect("plain data"),
    );
    let (status, text) = run(&args);
    assert_eq!(status.expect("readable"), ExitStatus::DoesNotHold);
    assert!(
        text.starts_with("Audit of LCS-2107 in DEMO-G-2626: does not hold: 2 rules fail\n"),
        "{text}"
    );
    assert!(
        text.contains("NOT DETERMINED suitability.impact: impact test\n"),
        "{text}"
    );
    assert!(
        text.contains("FAILS electrical.jumper_current: rated current of the jumpers\n"),
        "{text}"
    );
    let table = text.split("tightest case\n").nth(1).expect("a table");
    let first: Vec<&str> = table
        .lines()
        .take(3)
        .filter_map(|line| line.split_whitespace().next())
        .collect();
    assert_eq!(
        first[..2],
        ["suitability.impact", "electrical.jumper_current"]
    );
}

#[test]
fn files_that_cannot_be_read_name_the_place() {
    let folder = tempfile::tempdir().expect("a folder");
    for (text, place, word) in [
        ("{\n  \"format\": 3\n}", ":2:", "expected a string"),
        ("{\n  \"format\": \"x\",\n", ":3:", "EOF"),
        ("", ":1:1", "EOF"),
        ("[]ä", ":1:", "invalid"),
        ("{\"tägs\": \u{1}}", ":1:2", "unknown field"),
    ] {
        let (status, out) = run(&written(folder.path(), text));
        let Err(Failure::Findings(findings)) = status else {
            panic!("`{text}` was read")
        };
        let line = findings.render_plain();
        assert!(
            line.contains(place) && line.contains(word),
            "`{text}`: {line}"
        );
        assert!(out.is_empty());
    }
    let args = AuditArgs {
        arrangement: folder.path().join("nothing.json"),
        catalogue: Some(folder.path().join("no-catalogue")),
        format: RecordFormat::Text,
    };
    let Err(Failure::Findings(findings)) = run(&args).0 else {
        panic!("nothing was read")
    };
    assert_eq!(findings.len(), 2, "both files are told of at once");
}

#[test]
fn rules_are_listed() {
    let mut out = Vec::new();
    let args = RulesArgs {
        group: None,
        format: RecordFormat::Text,
    };
    glandrail::cli::rules::run(&args, &mut out).expect("written");
    let text = String::from_utf8(out).expect("text");
    assert_eq!(text.lines().count(), audit::rules().len());
    assert!(
        text.contains("(from memory)")
            && text.contains("(published)")
            && text.contains("(common practice)")
    );

    let mut out = Vec::new();
    let args = RulesArgs {
        group: Some(audit::RuleGroup::Heat),
        format: RecordFormat::Json,
    };
    glandrail::cli::rules::run(&args, &mut out).expect("written");
    let list: Vec<serde_json::Value> = serde_json::from_slice(&out).expect("JSON");
    assert!(
        list.iter().all(|rule| rule["group"] == "heat") && list.len() == 11,
        "{list:?}"
    );
}
