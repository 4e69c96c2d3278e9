//! The exported models, solved by HiGHS through its Python package `highspy` (from PyPI): a third opinion
//! on optimum and infeasibility.
//!
//! Runs `solver.py` with `python3`, or with the interpreter named in `GLANDRAIL_PYTHON`. Where Python or
//! the package is absent the test says so and passes, unless `GLANDRAIL_REQUIRE_PYTHON=1`.

use super::sample::sample;
use crate::python;
use glandrail::demand;
use glandrail::model::{self, SearchOptions};
use glandrail::workshop::Workshop;

#[test]
fn an_independent_solver_confirms_optimum_and_infeasibility() {
    if !python::has("import highspy") {
        return;
    }
    let workshop = Workshop::default();
    let options = SearchOptions::default();
    let folder = tempfile::tempdir().expect("a folder of our own");
    let mut folders = Vec::new();
    for judged in sample() {
        let catalogue = &judged.case.catalogue;
        let demand = demand::build(&judged.list, catalogue, &workshop).expect("a good list");
        let exported = model::export(&judged.list, &demand, catalogue, &workshop, options)
            .expect("resistances are known");
        if exported.files.is_empty() {
            continue;
        }
        // The index says what the search says.
        let taken = exported.index.candidates.iter().find(|one| one.holds);
        let taken = taken.map(|one| (one.enclosure.clone(), one.orientation));
        let chosen = judged.opinion.chosen.as_ref().map(|(name, _)| name.clone());
        assert_eq!(taken, chosen, "case {}", judged.case.number);
        let at = folder.path().join(format!("case-{}", judged.case.number));
        std::fs::create_dir(&at).expect("a folder for the case");
        let index = serde_json::to_string(&exported.index).expect("plain data");
        std::fs::write(at.join("index.json"), index).expect("room on the disk");
        for (name, text) in &exported.files {
            std::fs::write(at.join(name), text).expect("room on the disk");
        }
        folders.push(at);
    }
    assert!(folders.len() >= 100, "{} jobs with models", folders.len());
    let output = python::python()
        .arg(concat!(
            env!("CARGO_MANIFEST_DIR"),
            "/tests/second_opinion/solver.py"
        ))
        .args(&folders)
        .output()
        .expect("python was there a moment ago");
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(
        output.status.success(),
        "{said}\n{}",
        String::from_utf8_lossy(&output.stderr)
    );
    println!("{said}");
}
