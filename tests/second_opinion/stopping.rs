//! Stopping early and deciding on several threads: what may change in an answer and what may not.

use super::sample::sample;
use glandrail::model::{Reason, SearchOptions};
use glandrail::propose::{Answer, propose};
use glandrail::workshop::Workshop;
use std::sync::atomic::AtomicBool;

fn answer(
    judged: &super::sample::Judged,
    options: SearchOptions,
) -> (Option<String>, String, bool) {
    let catalogue = &judged.case.catalogue;
    match propose(&judged.list, catalogue, &Workshop::default(), options).expect("an answer") {
        Answer::Found(found) => (
            Some(serde_json::to_string(&found.arrangement).expect("plain data")),
            serde_json::to_string(&found.excluded).expect("plain data"),
            found.proven,
        ),
        Answer::Impossible { excluded, proven } => {
            let open = excluded
                .iter()
                .any(|one| matches!(one.reason, Reason::Undecided(_)));
            assert_eq!(open, !proven, "case {}", judged.case.number);
            (
                None,
                serde_json::to_string(&excluded).expect("plain data"),
                proven,
            )
        }
    }
}

#[test]
fn the_number_of_threads_does_not_show() {
    for judged in sample() {
        let with = |threads| {
            let options = SearchOptions {
                threads,
                ..SearchOptions::default()
            };
            answer(judged, options)
        };
        let one = with(1);
        assert_eq!(one, with(2), "case {}", judged.case.number);
        assert_eq!(one, with(7), "case {}", judged.case.number);
    }
}

/// Stopped at once, only quick ways are gone. What is found has passed the audit, as ever; an answer that
/// claims to be proved is the same as that without a stop.
#[test]
fn what_is_found_after_a_stop_claims_no_more_than_is_known() {
    static STOP: AtomicBool = AtomicBool::new(true);
    let stopped = SearchOptions {
        stop: Some(&STOP),
        ..SearchOptions::default()
    };
    let (mut unproved, mut found_unproved) = (0, 0);
    for judged in sample() {
        let whole = answer(judged, SearchOptions::default());
        let early = answer(judged, stopped);
        if early.2 {
            assert_eq!(
                early.0.is_some(),
                whole.0.is_some(),
                "case {}",
                judged.case.number
            );
        } else {
            unproved += 1;
            found_unproved += usize::from(early.0.is_some());
        }
        // Nothing is found where nothing is.
        assert!(
            whole.0.is_some() || early.0.is_none(),
            "case {}",
            judged.case.number
        );
    }
    assert!(unproved >= 3, "{unproved} answers were cut short");
    println!("{unproved} answers cut short, {found_unproved} of them with a box");
}
