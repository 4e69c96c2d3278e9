//! A list with an entry that no part of the catalogue serves is sound and cannot be made: every command says
//! so with status 1, shows the line, and the way on.

use super::propose;
use assert_cmd::Command;

/// A conductor thicker than any terminal clamps, in a cable thicker than any gland takes.
const UNSERVED: &str = r#"
[job]
tag = "JB-9001"
title = "Tank farm, spare feeder"

[area]
zone = 1
gas_group = "IIB"
temperature_class = "T6"
ambient_c = [-20, 40]

[[cable]]
tag = "W1"
cores = "4 x 300 mm2"
diameter_mm = 60

[[cable]]
tag = "W2"
cores = "4 x 2.5 mm2"
diameter_mm = 12
"#;

/// Runs a command on the list; gives exit status, output and talk.
fn run(arguments: &[&str]) -> (i32, String, String) {
    let folder = tempfile::tempdir().expect("a folder");
    let list = folder.path().join("unserved.toml");
    std::fs::write(&list, UNSERVED).expect("written");
    let output = Command::cargo_bin("glandrail")
        .expect("the binary is built with the tests")
        .env("NO_COLOR", "1")
        .arg(arguments[0])
        .arg(&list)
        .args(&arguments[1..])
        .output()
        .expect("the binary runs");
    let text = |bytes| String::from_utf8(bytes).expect("UTF-8");
    (
        output.status.code().expect("an exit status"),
        text(output.stdout),
        text(output.stderr),
    )
}

#[test]
fn every_command_says_that_it_cannot_be_made() {
    for arguments in [&["propose"][..], &["propose", "--boxes", "2"], &["compare"]] {
        let (code, said, talk) = run(arguments);
        assert_eq!(code, 1, "{arguments:?}: {talk}");
        for wanted in [
            "unserved.toml:14",
            "300 mm² is needed",
            "unserved.toml:15",
            "no gland takes cable `W1`",
        ] {
            assert!(talk.contains(wanted), "{arguments:?}: {wanted}: {talk}");
        }
        let way_on = [said.as_str(), talk.as_str()].concat();
        assert!(way_on.contains("`glandrail explain`"), "{arguments:?}");
        assert!(
            !talk.contains("error"),
            "it is no error of the input: {talk}"
        );
    }
    let (code, said, talk) = run(&["explain"]);
    assert_eq!((code, talk.as_str()), (1, ""));
    assert!(said.contains("without cable W1"), "{said}");
    let (_, short, _) = run(&["propose"]);
    assert!(short.contains("What cannot be met: cable W1"), "{short}");
    assert!(short.contains("Way out: without cable W1"), "{short}");
}

#[test]
fn programs_are_told_each_entry_that_no_part_serves() {
    let (code, said, _) = run(&["propose", "--format", "json"]);
    assert_eq!(code, 1);
    let value: serde_json::Value = serde_json::from_str(&said).expect("JSON");
    assert_eq!(value["found"], false);
    let codes: Vec<&str> = value["without_part"]
        .as_array()
        .expect("entries")
        .iter()
        .filter_map(|entry| entry["code"].as_str())
        .collect();
    assert!(codes.contains(&"demand-no-gland"), "{codes:?}");
    assert!(codes.contains(&"demand-no-terminal"), "{codes:?}");
}

#[test]
fn a_comparison_for_a_spreadsheet_or_a_program_has_every_candidate_with_the_reason() {
    let (code, said, talk) = run(&["compare", "--format", "csv"]);
    assert_eq!(code, 1, "{talk}");
    let lines: Vec<&str> = said.lines().collect();
    assert!(lines.len() > 100, "{} lines", lines.len());
    for line in &lines[1..] {
        assert!(line.contains("no part serves the list"), "{line}");
        assert!(line.contains("no gland takes cable `W1`"), "{line}");
        assert!(line.contains(",no,"), "{line}");
    }
    let (code, said, _) = run(&["compare", "--format", "json"]);
    assert_eq!(code, 1);
    let value: serde_json::Value = serde_json::from_str(&said).expect("JSON");
    let candidates = value["candidates"].as_array().expect("candidates");
    assert_eq!(candidates.len(), lines.len() - 1);
    assert!(
        candidates
            .iter()
            .all(|row| row["without_part"] == true && row["fits"] == false)
    );
}

#[test]
fn placing_freely_only_is_no_question_for_an_explanation() {
    let (code, said, talk) = run(&["explain", "--placement", "free"]);
    assert_eq!((code, said.as_str()), (2, ""));
    assert!(talk.contains("rows or best"), "{talk}");
}

#[test]
fn bad_input_stays_bad_input() {
    let (code, _, talk) = propose("no-such-example", &[]);
    assert_eq!(code, 2, "{talk}");
}
