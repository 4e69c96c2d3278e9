//! A figure of a material that is missing is told once for each part, with what hangs on it.

use crate::fixture::station;
use glandrail::arrangement::Arrangement;
use glandrail::audit::{self, RuleResult, Verdict};

fn creepage(arrangement: &Arrangement) -> RuleResult {
    let report = audit::audit(arrangement, None);
    report.rule("distance.creepage").expect("a rule").clone()
}

/// The station with another tracking index for all terminals of which something is so.
fn with_index(index: Option<f64>, of: impl Fn(&str) -> bool) -> Arrangement {
    let mut arrangement = station();
    for terminal in &mut arrangement.terminals {
        if of(&terminal.part) {
            terminal.tracking_index = index;
        }
    }
    arrangement
}

/// The parts of the strips with terminals of circuits that are not intrinsically safe.
fn parts_with_creepage() -> Vec<String> {
    let sound = creepage(&station()).cases;
    let mut parts: Vec<String> = station()
        .terminals
        .iter()
        .map(|known| known.part.clone())
        .collect();
    parts.sort();
    parts.dedup();
    parts.retain(|part| creepage(&with_index(None, |other| other == part)).cases != sound);
    parts
}

#[test]
fn one_part_without_an_index_is_one_finding_with_the_number_of_distances() {
    let sound = creepage(&station());
    assert_eq!(sound.verdict, Verdict::Holds);
    let parts = parts_with_creepage();
    assert!(!parts.is_empty());
    for part in &parts {
        let found = creepage(&with_index(None, |other| other == part));
        assert_eq!(found.verdict, Verdict::NotDetermined);
        assert_eq!((found.failures, found.further.len()), (1, 0));
        // Each distance that can no longer be judged is missing among the cases, and one finding is there instead.
        let hanging = sound.cases - (found.cases - 1);
        assert!(hanging > 1, "{part}: {hanging}");
        let start = format!("the tracking index of {part} (");
        assert!(found.text.starts_with(&start), "{}", found.text);
        let end = format!("is unknown; {hanging} distances hang on it");
        assert!(found.text.ends_with(&end), "{}", found.text);
    }
}

#[test]
fn an_index_that_is_not_admitted_is_told_once_too() {
    let part = parts_with_creepage().swap_remove(0);
    let found = creepage(&with_index(Some(100.0), |other| other == part));
    assert_eq!((found.verdict, found.failures), (Verdict::NotDetermined, 1));
    assert!(found.text.contains("counts for none: "), "{}", found.text);
    assert!(found.text.ends_with(" hang on it"), "{}", found.text);
}

#[test]
fn two_parts_without_an_index_are_two_findings() {
    let mut two = station();
    let part = parts_with_creepage().swap_remove(0);
    let mut of_part = two.terminals.iter_mut().filter(|known| known.part == part);
    let first = of_part.next().expect("a terminal");
    first.part = "DEMO-T-OTHER".into();
    for terminal in &mut two.terminals {
        terminal.tracking_index = None;
    }
    let found = creepage(&two);
    let parts = parts_with_creepage().len() as u64 + 1;
    assert_eq!(found.failures, parts);
}
