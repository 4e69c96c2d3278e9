//! The arrangements that the tests of sheets try: hand-made ones, and those that the program makes of the examples.

use crate::fixture;
use glandrail::arrangement::Arrangement;
use glandrail::catalogue::Catalogue;
use glandrail::model::SearchOptions;
use glandrail::requirements::RequirementList;
use glandrail::sheets::drawing::Sheet;
use glandrail::sheets::{Paper, drawings};
use glandrail::split::{TwoAnswer, propose_up_to_two};
use glandrail::workshop::Workshop;
use std::path::Path;
use std::sync::LazyLock;

pub fn every_fixture() -> Vec<(&'static str, Arrangement)> {
    vec![
        ("small", fixture::small()),
        ("large", fixture::large()),
        ("bare", fixture::bare()),
        ("wordy", fixture::wordy()),
    ]
}

/// The sheets of an arrangement on each paper.
pub fn on_every_paper(arrangement: &Arrangement) -> Vec<(Paper, Sheet)> {
    Paper::ALL
        .into_iter()
        .flat_map(|paper| {
            drawings(arrangement, paper)
                .into_iter()
                .map(move |sheet| (paper, sheet))
        })
        .collect()
}

/// Every fixture with every paper.
pub fn every_fixture_on_every_paper() -> Vec<(String, Arrangement, Paper)> {
    every_fixture()
        .into_iter()
        .flat_map(|(name, arrangement)| {
            Paper::ALL.map(|paper| (format!("{name}, {paper:?}"), arrangement.clone(), paper))
        })
        .collect()
}

/// Arrangements of the examples, as the program makes them; of a list that takes two boxes both.
pub fn every_example() -> Vec<(String, Arrangement)> {
    static MADE: LazyLock<Vec<(String, Arrangement)>> = LazyLock::new(make_examples);
    MADE.clone()
}

fn make_examples() -> Vec<(String, Arrangement)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut files: Vec<std::path::PathBuf> = std::fs::read_dir(folder)
        .expect("the examples")
        .map(|entry| entry.expect("a file").path())
        .filter(|path| {
            path.extension()
                .is_some_and(|extension| extension == "toml")
        })
        .collect();
    files.sort();
    let (catalogue, workshop) = (Catalogue::demo(), Workshop::default());
    let mut found = Vec::new();
    for file in files {
        let name = file.file_stem().expect("a name").to_string_lossy();
        let list = RequirementList::read(&file, &workshop).expect("examples are sound");
        let options = SearchOptions::default();
        match propose_up_to_two(&list, catalogue, &workshop, options).expect("searched") {
            TwoAnswer::One(proposal) => found.push((name.to_string(), proposal.arrangement)),
            TwoAnswer::Two(two) => {
                for (of, number) in two.boxes.into_iter().zip(1..) {
                    found.push((format!("{name}-box-{number}"), of.proposal.arrangement));
                }
            }
            TwoAnswer::NotFound(_) => {}
        }
    }
    found
}

/// One of them by its name.
pub fn named_example(name: &str) -> Arrangement {
    let found = every_example().into_iter().find(|(known, _)| known == name);
    found.expect("an example of this name").1
}

/// What the program makes of the text of a list with a catalogue; `None` where no box takes it or a part is lacking.
pub fn proposed_with(text: &str, catalogue: &Catalogue) -> Option<Arrangement> {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("list.toml");
    std::fs::write(&file, text).expect("written");
    let workshop = Workshop::default();
    let list = RequirementList::read(&file, &workshop).expect("a sound list");
    let options = SearchOptions::default();
    match propose_up_to_two(&list, catalogue, &workshop, options) {
        Ok(TwoAnswer::One(proposal)) => Some(proposal.arrangement),
        _ => None,
    }
}

/// What the program makes of the text of a list.
pub fn proposed(text: &str) -> Arrangement {
    proposed_with(text, Catalogue::demo()).expect("one box takes this list")
}
