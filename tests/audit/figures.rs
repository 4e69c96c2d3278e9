//! What a damaged file makes the audit say stays readable: no rows of digits, no figure that is none.

use crate::fixture::station;
use crate::nonsense::{at, document, read, ways};
use glandrail::arrangement::Arrangement;
use glandrail::audit::{self, AuditReport, Verdict};
use toml::Value;

/// All that a report says in sentences.
fn texts(report: &AuditReport) -> impl Iterator<Item = (&'static str, &str)> {
    report.rules.iter().flat_map(|rule| {
        let further = rule.further.iter().map(|case| case.text.as_str());
        let all = std::iter::once(rule.text.as_str()).chain(further);
        all.map(|text| (rule.id, text))
    })
}

/// What of a sentence no reader should meet.
fn unreadable(text: &str) -> Option<&str> {
    let of_number = |letter: char| letter.is_alphanumeric() || matches!(letter, '-' | '.');
    let words = text.split(|letter: char| !of_number(letter));
    // Digits behind the point are as many as two figures need to differ.
    let mut words = words.map(|word| word.split('.').next().unwrap_or_default());
    words.find(|word| {
        let digits = word.bytes().filter(u8::is_ascii_digit).count();
        let is_number = digits == word.trim_start_matches('-').len();
        (is_number && digits > 9) || matches!(*word, "inf" | "-inf" | "NaN") || word.ends_with("e0")
    })
}

#[test]
fn the_sieve_lets_no_such_figure_through() {
    for (text, found) in [
        ("distance: 0e0 mm", Some("0e0")),
        ("with inf W", Some("inf")),
        ("is NaN", Some("NaN")),
        ("1234567890.5 mm", Some("1234567890")),
        ("1.0e300 mm and 123456789.25 mm of `X1:1`", None),
        ("1.234567890123 mm is no information", None),
    ] {
        assert_eq!(unreadable(text), found, "{text}");
    }
}

#[test]
fn huge_figures_are_written_shortly_wherever_they_stand() {
    let document = document();
    let mut all = Vec::new();
    ways(&document, &mut Vec::new(), &mut all);
    let mut audited = 0;
    let mut found = std::collections::BTreeMap::new();
    for way in &all {
        let mut changed = document.clone();
        if !matches!(at(&mut changed, way), Some(Value::Float(_))) {
            continue;
        }
        for huge in [1e300, -1e300, 1.25e12, f64::INFINITY, f64::NAN] {
            *at(&mut changed, way).expect("a way") = Value::Float(huge);
            let Some(arrangement) = read(changed.clone()) else {
                continue;
            };
            let report = audit::audit(&arrangement, None);
            audited += 1;
            for (rule, text) in texts(&report) {
                if unreadable(text).is_some() {
                    found
                        .entry(rule)
                        .or_insert_with(|| format!("{way:?} = {huge:e}: {text}"));
                }
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
    assert!(audited > 2_000, "{audited}");
}

/// What a rule comes to, and says.
fn verdict_of(arrangement: &Arrangement, rule: &str) -> (Verdict, String) {
    let report = audit::audit(arrangement, None);
    let found = report.rule(rule).expect("a rule");
    (found.verdict, found.text.clone())
}

#[test]
fn endless_sums_fail_and_say_that_they_cannot_be_reckoned() {
    let mut heavy = station();
    for terminal in &mut heavy.terminals {
        terminal.mass_kg = 1e308;
        terminal.price = 1e308;
    }
    for recorded in [heavy.mass_kg, 0.0, 1e308] {
        heavy.mass_kg = recorded;
        let (verdict, text) = verdict_of(&heavy, "record.totals");
        assert_eq!(verdict, Verdict::Fails);
        assert!(text.contains("cannot be reckoned"), "{text}");
    }
    let mut hot = station();
    for wire in &mut hot.wires {
        wire.heat_current_a = 1e200;
    }
    for rule in ["heat.sum", "heat.power"] {
        let (verdict, text) = verdict_of(&hot, rule);
        assert_eq!(verdict, Verdict::Fails, "{rule}");
        assert!(text.contains("cannot be reckoned"), "{rule}: {text}");
    }
    // A rated power without end permits nothing either.
    let mut rated = station();
    rated.heat.rated_power_w = 1e307;
    rated.heat.permitted_power_w = 1e307;
    for rule in ["heat.power", "heat.reserve"] {
        let (verdict, text) = verdict_of(&rated, rule);
        assert_eq!(verdict, Verdict::Fails, "{rule}");
        assert!(text.contains("cannot be reckoned"), "{rule}: {text}");
    }
}
