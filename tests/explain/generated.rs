//! Generated lists that cannot be made: each conflict, each way out, each amount is proved again.

use crate::support::{can_be_made, drawn, numbers, only, read};
use glandrail::catalogue::Catalogue;
use glandrail::explain::{
    Change, ExplainOptions, Explanation, apply, explain, impossible, ladder, report, requirements,
};
use glandrail::model::SearchOptions;
use glandrail::propose::{Answer, propose};
use glandrail::workshop::Workshop;

/// Lists that must be impossible and hold what is claimed.
const WANTED: usize = 300;
/// Seeds that may be tried for them.
const SEEDS: u64 = 700;

#[test]
fn conflicts_and_ways_out_hold_what_they_claim() {
    let catalogue = Catalogue::demo();
    let workshop = Workshop::default();
    let options = ExplainOptions {
        conflicts: 2,
        ways: 2,
        ..ExplainOptions::default()
    };
    let (mut lists, mut conflicts, mut ways, mut bounded) = (0, 0, 0, 0);
    for seed in 0..SEEDS {
        if lists == WANTED {
            break;
        }
        let list = read(&drawn(seed));
        if can_be_made(&list, catalogue, &workshop) {
            continue;
        }
        lists += 1;
        let all = requirements(&list);
        let (facts, found) = impossible(&list, catalogue, &workshop, None, options);
        assert!(facts.faults.is_empty(), "seed {seed}: {:?}", facts.faults);
        assert!(!facts.undecided, "seed {seed}");
        assert!(!facts.conflicts.is_empty(), "seed {seed}");
        for conflict in &facts.conflicts {
            let members = numbers(
                &list,
                conflict.members.iter().map(|member| member.id.as_str()),
            );
            assert!(
                !only(&list, catalogue, &all, |index| members.contains(&index)),
                "seed {seed}: {members:?} alone can be made"
            );
            for without in &members {
                assert!(
                    only(&list, catalogue, &all, |index| index != *without
                        && members.contains(&index)),
                    "seed {seed}: {members:?} fails without `{}` too",
                    all[*without].id
                );
            }
            conflicts += 1;
        }
        for way in &found {
            match propose(&way.list, catalogue, &workshop, SearchOptions::default()) {
                Ok(Answer::Found(proposal)) => {
                    assert_eq!(
                        proposal.arrangement.enclosure.id, way.holds.enclosure,
                        "seed {seed}"
                    );
                    assert!(proposal.audit.holds());
                }
                other => panic!("seed {seed}: a way out does not hold: {other:?}"),
            }
            ways += 1;
            // No smaller step of any one change serves, the others as they are.
            for (position, (index, ease)) in way.eased.iter().enumerate() {
                let ladder = ladder(&list, catalogue, &all[*index].aspect);
                let step = ladder
                    .steps
                    .iter()
                    .position(|(known, _)| known == ease)
                    .expect("a step");
                let changes = |ease| {
                    way.eased
                        .iter()
                        .enumerate()
                        .map(move |(at, (index, usual))| {
                            (at, *index, if at == position { ease } else { Some(usual) })
                        })
                };
                let smaller = step.checked_sub(1).map(|below| &ladder.steps[below].0);
                let changes: Vec<Change> = changes(smaller)
                    .filter_map(|(_, index, ease)| {
                        Some(Change {
                            aspect: all[index].aspect.clone(),
                            ease: ease?.clone(),
                        })
                    })
                    .collect();
                let (smaller, rules) = apply(&list, &workshop, &changes);
                assert!(
                    !can_be_made(&smaller, catalogue, &rules),
                    "seed {seed}: less than {ease:?} of `{}` serves too",
                    all[*index].id
                );
                bounded += 1;
            }
        }
    }
    assert_eq!(
        lists, WANTED,
        "too few impossible lists among {SEEDS} seeds"
    );
    assert!(
        conflicts >= WANTED && ways >= WANTED && bounded >= ways,
        "{conflicts} {ways} {bounded}"
    );
}

#[test]
fn the_same_list_gives_the_same_words() {
    let catalogue = Catalogue::demo();
    for seed in 0..40 {
        let text = || {
            let list = read(&drawn(seed));
            let told = explain(
                &list,
                catalogue,
                &Workshop::default(),
                None,
                ExplainOptions::default(),
            );
            let told = told.unwrap_or_else(|error| panic!("seed {seed}: {error}"));
            assert_eq!(
                matches!(told, Explanation::Possible(_)),
                can_be_made(&list, catalogue, &Workshop::default()),
                "seed {seed}"
            );
            report::text(&list, &told)
        };
        let first = text();
        assert_eq!(first, text(), "seed {seed}");
        for line in first.lines() {
            assert!(line.chars().count() <= 100, "seed {seed}: {line}");
        }
    }
}

/// What the list fixes is never touched.
#[test]
fn fixed_requirements_stay() {
    let catalogue = Catalogue::demo();
    let mut ways = 0;
    for seed in 0..60 {
        let text = drawn(seed).replacen(
            "[area]",
            "fixed = [\"area\", \"cable A1\", \"box.material\"]\n\n[area]",
            1,
        );
        let text = if text.contains("material =") {
            text
        } else {
            text.replace(", \"box.material\"", "")
        };
        let list = read(&text);
        if can_be_made(&list, catalogue, &Workshop::default()) {
            continue;
        }
        let (facts, _) = impossible(
            &list,
            catalogue,
            &Workshop::default(),
            None,
            ExplainOptions::default(),
        );
        for change in facts.ways.iter().flat_map(|way| &way.changes) {
            let id = &change.requirement.id;
            assert!(
                !id.starts_with("area") && !id.starts_with("cable A1") && id != "box.material",
                "{id}"
            );
            ways += 1;
        }
    }
    assert!(ways > 20, "{ways}");
}
