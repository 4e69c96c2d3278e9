//! The arrangements that pages are made of: every committed example that a box serves.

use glandrail::arrangement::Arrangement;
use glandrail::catalogue::Catalogue;
use glandrail::model::{Outcome, SearchOptions, arrange, search};
use glandrail::requirements::RequirementList;
use glandrail::workshop::Workshop;
use std::path::{Path, PathBuf};

/// The arrangement of one example; `None` where no box serves it.
pub fn example(file: &Path) -> Option<Arrangement> {
    let (catalogue, workshop) = (Catalogue::demo(), Workshop::default());
    let list = RequirementList::read(file, &workshop).expect("examples are sound");
    let demand = glandrail::demand::build(&list, catalogue, &workshop).ok()?;
    let options = SearchOptions::default();
    match search(&list, &demand, catalogue, &workshop, options).expect("searched") {
        Outcome::Found(found) => {
            Some(arrange(&list, &demand, catalogue, &workshop, &found).expect("placed"))
        }
        _ => None,
    }
}

/// Every example that a box serves, by name.
pub fn examples() -> Vec<(String, Arrangement)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("the examples")
        .map(|entry| entry.expect("a file").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "toml"))
        .collect();
    files.sort();
    let found: Vec<(String, Arrangement)> = files
        .iter()
        .filter_map(|file| {
            let name = file.file_stem()?.to_string_lossy().into_owned();
            Some((name, example(file)?))
        })
        .collect();
    assert!(found.len() >= 5, "only {} examples have a box", found.len());
    found
}

/// One example by name.
pub fn named(name: &str) -> Arrangement {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("examples/{name}.toml"));
    example(&file).expect("a box serves it")
}
