//! All minimal conflicts of small lists, against trying every combination: generated lists over a small
//! catalogue with all their requirements, and examples of this repository with some of theirs.

use crate::support::{drawn, numbers, only, read};
use glandrail::catalogue::Catalogue;
use glandrail::explain::{ExplainOptions, Requirement, impossible, requirements};
use glandrail::model;
use glandrail::requirements::RequirementList;
use glandrail::workshop::Workshop;
use std::collections::BTreeSet;
use std::sync::OnceLock;

/// Most requirements of a generated list whose combinations are all tried.
const MOST: usize = 14;
/// Most requirements of an example whose combinations are all tried; the others are given up.
const OF_EXAMPLE: usize = 9;
const LISTS: usize = 12;

/// Examples with the enclosure to which the catalogue is reduced, so that each cannot be made.
const EXAMPLES: [(&str, Option<&str>); 3] = [
    (
        include_str!("../../examples/impossible-heater-feeds.toml"),
        None,
    ),
    (
        include_str!("../../examples/mixer-control-station.toml"),
        Some("DEMO-G-3020-DEEP"),
    ),
    (
        include_str!("../../examples/tank-farm-junction.toml"),
        Some("DEMO-G-1212"),
    ),
];

/// A list whose combinations have all been tried, with what is told of it. Sets are bits.
pub struct Tried {
    /// Which list it is.
    pub name: String,
    /// Number of requirements that were tried.
    pub count: usize,
    /// Whether each combination can be made.
    pub holds: Vec<bool>,
    /// The minimal conflicts that are told.
    pub told: BTreeSet<u32>,
}

/// All lists, tried once for all tests.
pub fn tried() -> &'static [Tried] {
    static TRIED: OnceLock<Vec<Tried>> = OnceLock::new();
    TRIED.get_or_init(|| {
        let _memory = model::remember();
        let mut all = generated();
        all.extend(
            EXAMPLES
                .iter()
                .map(|(text, enclosure)| example(text, *enclosure)),
        );
        all
    })
}

fn alone(kept: &[&str]) -> Catalogue {
    let mut catalogue = Catalogue::demo().clone();
    catalogue
        .enclosure
        .retain(|enclosure| kept.contains(&enclosure.id.as_str()));
    assert_eq!(catalogue.enclosure.len(), kept.len());
    catalogue
}

fn generated() -> Vec<Tried> {
    let catalogue = alone(&[
        "DEMO-G-1209",
        "DEMO-G-2424",
        "DEMO-S-2020",
        "DEMO-S-3030-DEEP",
    ]);
    let mut lists = Vec::new();
    for seed in 0..4000 {
        if lists.len() == LISTS {
            break;
        }
        let list = read(&drawn(seed));
        let all = requirements(&list);
        if all.len() > MOST || only(&list, &catalogue, &all, |_| true) {
            continue;
        }
        let soft: Vec<usize> = (0..all.len()).collect();
        lists.push(combinations(
            format!("seed {seed}"),
            &list,
            &catalogue,
            &all,
            &soft,
        ));
    }
    assert_eq!(lists.len(), LISTS);
    lists
}

/// An example with the requirements of its first conflicts, the others given up.
fn example(text: &str, enclosure: Option<&str>) -> Tried {
    let catalogue = match enclosure {
        Some(id) => alone(&[id]),
        None => Catalogue::demo().clone(),
    };
    let list = read(text);
    let all = requirements(&list);
    let (facts, _) = impossible(
        &list,
        &catalogue,
        &Workshop::default(),
        None,
        ExplainOptions::default(),
    );
    let mut soft: Vec<usize> = Vec::new();
    for conflict in &facts.conflicts {
        let ids = conflict.members.iter().map(|member| member.id.as_str());
        for index in numbers(&list, ids) {
            if !soft.contains(&index) && soft.len() < OF_EXAMPLE {
                soft.push(index);
            }
        }
    }
    for index in 0..all.len() {
        if !soft.contains(&index) && soft.len() < OF_EXAMPLE {
            soft.push(index);
        }
    }
    combinations(list.job.tag.clone(), &list, &catalogue, &all, &soft)
}

fn combinations(
    name: String,
    list: &RequirementList,
    catalogue: &Catalogue,
    all: &[Requirement],
    soft: &[usize],
) -> Tried {
    let options = ExplainOptions {
        conflicts: 1000,
        ways: 1,
        ..ExplainOptions::default()
    };
    let (facts, _) = impossible(list, catalogue, &Workshop::default(), None, options);
    assert!(facts.all_conflicts, "{name}: not all conflicts are told");
    let told = facts.conflicts.iter().filter_map(|conflict| {
        let ids = conflict.members.iter().map(|member| member.id.as_str());
        let places = numbers(list, ids)
            .into_iter()
            .map(|index| soft.iter().position(|known| *known == index));
        // Others reach beyond the requirements that are tried.
        places.map(|place| place.map(|bit| 1 << bit)).sum()
    });
    let told = told.collect();
    let holds = (0u32..1 << soft.len())
        .map(|set| {
            only(list, catalogue, all, |index| {
                let place = soft.iter().position(|known| *known == index);
                place.is_some_and(|bit| set & (1 << bit) != 0)
            })
        })
        .collect();
    Tried {
        name,
        count: soft.len(),
        holds,
        told,
    }
}

#[test]
fn all_minimal_conflicts_agree_with_trying_every_combination() {
    let mut conflicts = 0;
    for tried in tried() {
        let expected: BTreeSet<u32> = (0u32..1 << tried.count)
            .filter(|set| !tried.holds[*set as usize])
            // Minimal: nothing strictly within it fails.
            .filter(|set| {
                let mut within = set.wrapping_sub(1) & set;
                if *set == 0 {
                    return true;
                }
                loop {
                    if !tried.holds[within as usize] {
                        return false;
                    }
                    if within == 0 {
                        return true;
                    }
                    within = (within - 1) & set;
                }
            })
            .collect();
        assert_eq!(tried.told, expected, "{}", tried.name);
        assert!(!expected.is_empty(), "{}: nothing conflicts", tried.name);
        conflicts += expected.len();
    }
    assert!(
        conflicts > LISTS,
        "only {conflicts} conflicts: the lists are too easy"
    );
}
