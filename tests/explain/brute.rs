//! All minimal conflicts of small lists over a small catalogue, against trying every combination.

use crate::support::{drawn, numbers, only, read};
use glandrail::catalogue::Catalogue;
use glandrail::explain::{ExplainOptions, impossible, requirements};
use glandrail::workshop::Workshop;
use std::collections::BTreeSet;

/// Most requirements of a list whose combinations are all tried.
const MOST: usize = 12;
const LISTS: usize = 12;

#[test]
fn all_minimal_conflicts_agree_with_trying_every_combination() {
    let mut catalogue = Catalogue::demo().clone();
    let kept = [
        "DEMO-G-1209",
        "DEMO-G-2424",
        "DEMO-S-2020",
        "DEMO-S-3030-DEEP",
    ];
    catalogue
        .enclosure
        .retain(|enclosure| kept.contains(&enclosure.id.as_str()));
    assert_eq!(catalogue.enclosure.len(), kept.len());
    let options = ExplainOptions {
        conflicts: 1000,
        ways: 1,
        ..ExplainOptions::default()
    };
    let (mut lists, mut conflicts) = (0, 0);
    for seed in 0..2000 {
        if lists == LISTS {
            break;
        }
        let list = read(&drawn(seed));
        let all = requirements(&list);
        if all.len() > MOST || only(&list, &catalogue, &all, |_| true) {
            continue;
        }
        lists += 1;
        let holds: Vec<bool> = (0u32..1 << all.len())
            .map(|set| only(&list, &catalogue, &all, |index| set & (1 << index) != 0))
            .collect();
        let expected: BTreeSet<u32> = (0u32..1 << all.len())
            .filter(|set| !holds[*set as usize])
            // Minimal: nothing strictly within it fails.
            .filter(|set| {
                let mut within = set.wrapping_sub(1) & set;
                if *set == 0 {
                    return true;
                }
                loop {
                    if !holds[within as usize] {
                        return false;
                    }
                    if within == 0 {
                        return true;
                    }
                    within = (within - 1) & set;
                }
            })
            .collect();
        let (facts, _) = impossible(&list, &catalogue, &Workshop::default(), None, options);
        assert!(facts.all_conflicts, "seed {seed}");
        let found: BTreeSet<u32> = facts
            .conflicts
            .iter()
            .map(|conflict| {
                numbers(
                    &list,
                    conflict.members.iter().map(|member| member.id.as_str()),
                )
                .into_iter()
                .map(|index| 1 << index)
                .sum()
            })
            .collect();
        assert_eq!(found, expected, "seed {seed}");
        conflicts += found.len();
    }
    assert_eq!(lists, LISTS);
    assert!(
        conflicts > LISTS,
        "only {conflicts} conflicts: the lists are too easy"
    );
}
