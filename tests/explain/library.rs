//! The Python library `python-sat` (from PyPI) against ours: from the table of what can be met it
//! enumerates all minimal conflicts of each list by its own way.
//!
//! The library gets no conflict from us: only the largest combinations that can be made, found by trying
//! all of them, as clauses. Runs `python_conflicts.py` with `python3`, or with the interpreter named in
//! `GLANDRAIL_PYTHON`. Where Python or the library is absent the test says so and passes, unless
//! `GLANDRAIL_REQUIRE_PYTHON=1`.

use crate::brute::{Tried, tried};
use crate::python;
use std::collections::BTreeSet;

/// The combinations that can be made and to which nothing can be added.
fn largest(tried: &Tried) -> Vec<u32> {
    let mut sets: Vec<u32> = (0u32..1 << tried.count)
        .filter(|set| tried.holds[*set as usize])
        .collect();
    sets.sort_by_key(|set| std::cmp::Reverse(set.count_ones()));
    let mut largest: Vec<u32> = Vec::new();
    for set in sets {
        if !largest.iter().any(|known| known & set == set) {
            largest.push(set);
        }
    }
    largest
}

fn members(set: u32) -> Vec<u32> {
    (0..32).filter(|bit| set & (1 << bit) != 0).collect()
}

#[test]
fn a_general_purpose_library_finds_the_same_minimal_conflicts() {
    if !python::has("from pysat.examples.optux import OptUx") {
        return;
    }
    let lists = tried();
    let input: Vec<serde_json::Value> = lists
        .iter()
        .map(|tried| {
            let largest: Vec<Vec<u32>> = largest(tried).into_iter().map(members).collect();
            serde_json::json!({ "count": tried.count, "largest": largest })
        })
        .collect();
    let input = serde_json::Value::from(input).to_string();
    let answer = python::answered("tests/explain/python_conflicts.py", &input);
    let answers: Vec<Vec<Vec<u32>>> =
        serde_json::from_str(&answer).expect("one list of conflicts for each list");
    assert_eq!(answers.len(), lists.len());
    let mut compared = 0;
    for (tried, answer) in lists.iter().zip(answers) {
        let theirs: BTreeSet<u32> = answer
            .iter()
            .map(|conflict| conflict.iter().map(|bit| 1u32 << bit).sum())
            .collect();
        assert_eq!(tried.told, theirs, "{}", tried.name);
        compared += theirs.len();
    }
    println!("{} lists, {compared} minimal conflicts", lists.len());
    assert!(lists.len() >= 12 && compared > lists.len());
}
