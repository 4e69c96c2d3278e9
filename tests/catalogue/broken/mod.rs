//! One broken catalogue for each check: exactly the finding that is expected, at its line.

mod any_part;
mod elements;
mod enclosures;
mod entries;
mod more;
mod terminals;

use crate::documentation::{PAGE, read};
use crate::page;
use glandrail::catalogue::CODES;
use glandrail::source::Severity;
pub use more::MORE;
use std::collections::BTreeSet;

/// A change to the sound text, and the code and place of what is found then. The place is that of
/// the first `at` in or after the changed text.
struct Case {
    code: &'static str,
    from: &'static str,
    to: &'static str,
    at: &'static str,
}

const fn case(code: &'static str, from: &'static str, to: &'static str, at: &'static str) -> Case {
    Case { code, from, to, at }
}

/// Every break.
fn cases() -> impl Iterator<Item = &'static Case> {
    [
        enclosures::CASES,
        terminals::CASES,
        entries::CASES,
        elements::CASES,
        any_part::CASES,
    ]
    .into_iter()
    .flatten()
}

/// Cases where the line is left out of the part, so that the finding points at the part's header.
const LEFT_OUT: &[(&str, &str, &str)] = &[
    ("catalogue-impact", "impact_j = 7\n", "[[enclosure]]"),
    ("catalogue-incomplete", "poles = 2\n", "[[accessory]]"),
    (
        "catalogue-incomplete",
        "resistance_mohm = 0.15\n",
        "[[accessory]]",
    ),
    (
        "catalogue-incomplete",
        "fits = [\"PAGE-TERMINAL\"]\n",
        "[[accessory]]",
    ),
    (
        "catalogue-incomplete",
        "fits = [\"PAGE-BLUE\"]\n",
        "[[accessory]]",
    ),
    (
        "catalogue-incomplete",
        "thread = \"M25\"\nmaterial = \"brass\"\ncertificate = {}\n",
        "[[accessory]]",
    ),
    ("catalogue-incomplete", "positions = 3\n", "[[element]]"),
    ("catalogue-incomplete", "power_w = 1\n", "[[element]]"),
    (
        "catalogue-clamp",
        "clamp = { solid_mm2 = [0.5, 2.5], stranded_mm2 = [0.5, 2.5], flexible_mm2 = [0.5, 1.5] }\n",
        "[[element]]",
    ),
];

fn sound() -> String {
    page::examples(PAGE) + MORE
}

/// The sound text with one change, and where the changed text begins.
fn changed(from: &str, to: &str) -> (String, usize) {
    let text = sound();
    let start = text
        .find(from)
        .unwrap_or_else(|| panic!("`{from}` is not in the sound text"));
    (text.replacen(from, to, 1), start)
}

fn line_column(text: &str, offset: usize) -> (usize, usize) {
    let before = &text[..offset];
    (
        before.matches('\n').count() + 1,
        offset - before.rfind('\n').map_or(0, |at| at + 1) + 1,
    )
}

#[test]
fn the_text_that_is_broken_is_sound() {
    let (catalogue, findings) = read(&sound());
    assert_eq!(findings.render_plain(), "");
    assert!(catalogue.is_some());
}

#[test]
fn each_break_gives_its_finding_at_its_place() {
    for Case { code, from, to, at } in cases() {
        let (text, start) = changed(from, to);
        let offset = start
            + text[start..]
                .find(at)
                .unwrap_or_else(|| panic!("`{at}` is not in the text"));
        let (catalogue, findings) = read(&text);
        let found: Vec<_> = findings
            .iter()
            .map(|finding| (finding.code, finding.line_column()))
            .collect();
        let expected = [(*code, Some(line_column(&text, offset)))];
        assert_eq!(
            found,
            expected,
            "`{from}` as `{to}`:\n{}",
            findings.render_plain()
        );
        assert!(
            catalogue.is_none(),
            "an unsound catalogue is not handed out"
        );
        if code.starts_with("catalogue-") {
            let finding = findings.iter().next().expect("one finding");
            assert!(
                finding.expected.is_some() && finding.hint.is_some(),
                "{}",
                finding.render_plain()
            );
        }
    }
}

#[test]
fn what_is_left_out_is_missed_at_the_header() {
    for (code, line, header) in LEFT_OUT {
        let kept = if line.contains("certificate") {
            "material = \"brass\"\ncertificate = {}\n"
        } else {
            ""
        };
        let (text, start) = changed(line, kept);
        let offset = text[..start].rfind(header).expect("a header before");
        let (_, findings) = read(&text);
        let found: Vec<_> = findings
            .iter()
            .map(|finding| (finding.code, finding.line_column()))
            .collect();
        assert_eq!(
            found,
            [(*code, Some(line_column(&text, offset)))],
            "without `{line}`"
        );
    }
}

/// Codes that need more than one change of one file.
const ELSEWHERE: [&str; 3] = ["catalogue-about", "catalogue-empty", "catalogue-unstated"];

#[test]
fn every_code_has_a_broken_example() {
    let mut shown: BTreeSet<&str> = cases().map(|case| case.code).collect();
    shown.extend(LEFT_OUT.iter().map(|(code, ..)| *code));
    shown.extend(ELSEWHERE);
    let missing: Vec<&str> = CODES
        .iter()
        .map(|(code, _)| *code)
        .filter(|code| !shown.contains(code))
        .collect();
    assert!(missing.is_empty(), "{missing:?}");
    let distinct: BTreeSet<&str> = CODES.iter().map(|(code, _)| *code).collect();
    assert_eq!(distinct.len(), CODES.len());
    let known = |code: &str| distinct.contains(code) || code.starts_with("source-");
    assert!(
        shown.iter().all(|code| known(code)),
        "a finding has a code that is not listed"
    );
}

#[test]
fn an_odd_size_is_a_warning_only() {
    let (text, _) = changed("outer_mm = [300, 200, 120]", "outer_mm = [400, 200, 120]");
    let (catalogue, findings) = read(&text);
    let found: Vec<_> = findings
        .iter()
        .map(|finding| (finding.code, finding.severity))
        .collect();
    assert_eq!(found, [("catalogue-size", Severity::Warning)]);
    assert_eq!(
        catalogue.expect("warnings are no errors").enclosure[0].outer_mm[0],
        400.0
    );
}

#[test]
fn what_a_certificate_allows_and_is_not_stated_is_warned_of() {
    for (from, to) in [
        ("most_terminals = 60\n", ""),
        (", most_entries = { M20 = 12, \"NPT 1/2\" = 10 }", ""),
    ] {
        let (text, _) = changed(from, to);
        let (catalogue, findings) = read(&text);
        let found: Vec<_> = findings
            .iter()
            .map(|finding| (finding.code, finding.severity))
            .collect();
        assert_eq!(
            found,
            [("catalogue-unstated", Severity::Warning)],
            "without `{from}`"
        );
        assert!(catalogue.is_some(), "warnings are no errors");
    }
    for (from, to) in [
        ("most_terminals = 60", "most_terminals = \"not limited\""),
        (
            "most_entries = { M20 = 12, \"NPT 1/2\" = 10 }",
            "most_entries = \"not limited\"",
        ),
    ] {
        let (_, findings) = read(&changed(from, to).0);
        assert_eq!(findings.render_plain(), "");
    }
}

#[test]
fn everything_is_found_in_one_run() {
    let text = sound()
        .replace("impact_j = 7", "impact_j = 0.5")
        .replace("tracking_index = 600", "tracking_index = 20")
        .replace("colour = \"red\"", "colour = \"blue\"")
        .replace(
            "wall_mm = [1, 7]\nhole_mm = 25.2\nspanner",
            "wall_mm = [9, 7]\nhole_mm = 25.2\nspanner",
        );
    let (_, findings) = read(&text);
    let codes: Vec<&str> = findings.iter().map(|finding| finding.code).collect();
    assert_eq!(
        codes,
        [
            "catalogue-impact",
            "catalogue-tracking",
            "catalogue-reversed",
            "catalogue-emergency-stop"
        ]
    );
}

/// A part that could not be read is not reported a second time by those that name it.
#[test]
fn one_fault_is_reported_once() {
    let (text, _) = changed("length_mm = 48\n", "length_mm = \"48\"\n");
    let (_, findings) = read(&text);
    assert_eq!(findings.len(), 1, "{}", findings.render_plain());
}
