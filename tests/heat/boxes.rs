//! The arrangements of the examples that can be made, each found once.

use glandrail::arrangement::Arrangement;
use glandrail::catalogue::Catalogue;
use glandrail::model::{Placement, SearchOptions};
use glandrail::propose::{Answer, propose};
use glandrail::requirements::RequirementList;
use glandrail::workshop::Workshop;
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::LazyLock;

/// Time for one decision, far more than any of them needs.
const DECISION_LIMIT_S: f64 = 120.0;

static FOUND: LazyLock<BTreeMap<String, Arrangement>> = LazyLock::new(|| {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let workshop = Workshop::default();
    let mut found = BTreeMap::new();
    for item in std::fs::read_dir(folder).expect("the folder of examples") {
        let path = item.expect("an item").path();
        if path.extension().is_none_or(|extension| extension != "toml") {
            continue;
        }
        let name = path
            .file_stem()
            .expect("a name")
            .to_string_lossy()
            .into_owned();
        let list = RequirementList::read(&path, &workshop).expect("a sound list");
        let options = SearchOptions {
            decision_limit_s: DECISION_LIMIT_S,
            // The figures of these tests are those of the boxes with entries in rows.
            placement: Placement::Rows,
            ..SearchOptions::default()
        };
        match propose(&list, Catalogue::demo(), &workshop, options).expect("an answer") {
            Answer::Found(proposal) => {
                found.insert(name, proposal.arrangement);
            }
            Answer::Impossible { .. } => assert!(
                name.starts_with("impossible") || name.ends_with("two-boxes"),
                "{name}"
            ),
        }
    }
    found
});

/// Every arrangement by the name of its example.
pub fn all() -> &'static BTreeMap<String, Arrangement> {
    assert!(FOUND.len() >= 5, "only {} examples", FOUND.len());
    &FOUND
}

/// The arrangement of one example, to be changed by hand.
pub fn named(name: &str) -> Arrangement {
    all().get(name).expect("an example of that name").clone()
}
