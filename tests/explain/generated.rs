//! Generated lists that cannot be made: each conflict, each way out, each amount is proved again.

use crate::support::{can_be_made, can_be_made_so, drawn, numbers, only, read};
use glandrail::catalogue::Catalogue;
use glandrail::explain::{
    Aspect, Change, Ease, ExplainOptions, Explanation, Way, apply, explain, impossible, ladder,
    report, requirements,
};
use glandrail::model::{Placement, SearchOptions};
use glandrail::propose::{Answer, propose};
use glandrail::requirements::RequirementList;
use glandrail::split::{TwoAnswer, propose_up_to_two};
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
        placement: Placement::Rows,
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
        let proved = prove(&format!("seed {seed}"), &list, options);
        conflicts += proved.conflicts;
        ways += proved.ways;
        bounded += proved.bounded;
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

/// Too many pairs of cables for one small box, not for two: what changes how a list is made is proved, too.
#[test]
fn pairs_for_two_boxes_hold_what_they_claim() {
    let mut otherwise = 0;
    for (side, current_a) in [(180, 1), (180, 5), (190, 5)] {
        let text = format!(
            "[job]\ntag = \"G-P\"\n[area]\nzone = 1\ngas_group = \"IIB\"\ntemperature_class = \"T6\"\n\
             ambient_c = [-20, 40]\nip = \"IP66\"\n[box]\nmax_outer_mm = [{side}, {side}, 130]\n\
             [[cable]]\ntags = \"A1..A3\"\ncores = \"7 x 1.5 mm2\"\ndiameter_mm = 14\n\
             [[cable]]\ntags = \"B1..B3\"\ncores = \"7 x 1.5 mm2\"\n\
             [[circuit]]\ntags = \"S1..S3\"\npoles = 2\nvoltage_v = 230\ncurrent_a = {current_a}\n\
             from = \"A1..A3\"\nto = \"B1..B3\"\n"
        );
        let options = ExplainOptions {
            placement: Placement::Rows,
            ..ExplainOptions::default()
        };
        let proved = prove(&format!("{side} mm, {current_a} A"), &read(&text), options);
        assert!(proved.conflicts >= 1 && proved.ways >= 1);
        otherwise += proved.otherwise;
    }
    assert!(otherwise >= 3, "{otherwise} ways to make a list otherwise");
}

/// How much of an explanation was proved.
#[derive(Default)]
struct Proved {
    conflicts: usize,
    ways: usize,
    bounded: usize,
    otherwise: usize,
}

/// Asks for a way that changes how the list is made by the ordinary way; `false` for other ways.
fn holds_otherwise(name: &str, list: &RequirementList, way: &Way) -> bool {
    let (catalogue, workshop) = (Catalogue::demo(), Workshop::default());
    let options = |placement| SearchOptions {
        placement,
        ..SearchOptions::default()
    };
    let usual = options(Placement::Rows);
    match way.changes[0].ease {
        Ease::Freely => {
            let answer = propose(list, catalogue, &workshop, options(Placement::Best));
            let Ok(Answer::Found(proposal)) = answer else {
                panic!("{name}: no free placement holds");
            };
            assert_eq!(proposal.arrangement.enclosure.id, way.holds.enclosure);
            assert!(proposal.audit.holds());
        }
        Ease::TwoBoxes => {
            let answer = propose_up_to_two(list, catalogue, &workshop, usual);
            let Ok(TwoAnswer::Two(two)) = answer else {
                panic!("{name}: no two boxes hold, or one does");
            };
            assert!(two.boxes.iter().all(|of| of.proposal.audit.holds()));
            assert!(way.second.is_some());
        }
        _ => return false,
    }
    true
}

/// Proves everything that is told of a list that cannot be made.
fn prove(name: &str, list: &RequirementList, options: ExplainOptions) -> Proved {
    let catalogue = Catalogue::demo();
    let workshop = &Workshop::default();
    let mut proved = Proved::default();
    let all = requirements(list);
    let (facts, found) = impossible(list, catalogue, workshop, None, options);
    assert!(facts.faults.is_empty(), "{name}: {:?}", facts.faults);
    assert!(!facts.undecided, "{name}");
    assert!(!facts.conflicts.is_empty(), "{name}");
    for conflict in &facts.conflicts {
        let members = numbers(
            list,
            conflict.members.iter().map(|member| member.id.as_str()),
        );
        assert!(
            !only(list, catalogue, &all, |index| members.contains(&index)),
            "{name}: {members:?} alone can be made"
        );
        for without in &members {
            assert!(
                only(list, catalogue, &all, |index| index != *without
                    && members.contains(&index)),
                "{name}: {members:?} fails without `{}` too",
                all[*without].id
            );
        }
        proved.conflicts += 1;
    }
    for way in &facts.ways {
        proved.otherwise += usize::from(holds_otherwise(name, list, way));
    }
    for way in &found {
        let as_offered = SearchOptions {
            placement: options.placement,
            ..SearchOptions::default()
        };
        match propose(&way.list, catalogue, workshop, as_offered) {
            Ok(Answer::Found(proposal)) => {
                assert_eq!(
                    proposal.arrangement.enclosure.id, way.holds.enclosure,
                    "{name}"
                );
                assert!(proposal.audit.holds());
            }
            other => panic!("{name}: a way out does not hold: {other:?}"),
        }
        proved.ways += 1;
        // No smaller step of any one change serves, the others as they are.
        for (position, (index, ease)) in way.eased.iter().enumerate() {
            for smaller in smaller(list, &all[*index].aspect, ease) {
                let changes: Vec<Change> = way
                    .eased
                    .iter()
                    .enumerate()
                    .filter_map(|(at, (index, usual))| {
                        let ease = if at == position {
                            smaller.clone()?
                        } else {
                            usual.clone()
                        };
                        let aspect = all[*index].aspect.clone();
                        Some(Change { aspect, ease })
                    })
                    .collect();
                let (less, rules) = apply(list, workshop, &changes);
                assert!(
                    !can_be_made_so(&less, catalogue, &rules, options.placement),
                    "{name}: {smaller:?} instead of {ease:?} of `{}` serves too",
                    all[*index].id
                );
            }
            proved.bounded += 1;
        }
    }
    proved
}

/// The next smaller changes of the same kind; `None` is no change at all. Of thinner cables these are a
/// thicker diameter, and fewer cables.
fn smaller(list: &RequirementList, aspect: &Aspect, ease: &Ease) -> Vec<Option<Ease>> {
    let (of_all, fewer) = match (aspect, ease) {
        (
            Aspect::Diameter(members),
            Ease::Diameter {
                diameter_mm,
                cables,
            },
        ) => {
            let diameter = |cables| Ease::Diameter {
                diameter_mm: *diameter_mm,
                cables,
            };
            let fewer = (*cables > 1).then(|| diameter(cables - 1));
            (diameter(members.len()), fewer)
        }
        _ => (ease.clone(), None),
    };
    let steps = ladder(list, Catalogue::demo(), &Workshop::default(), aspect).steps;
    let step = steps.iter().position(|(known, _)| *known == of_all);
    let step = step.expect("a step");
    // Of diameters all thicker ones: the glands leave gaps, so that thinner is not always easier. Of others the
    // next cheaper one; what costs the same is no smaller.
    let cheaper = steps[..step]
        .iter()
        .filter(|(_, cost)| *cost < steps[step].1 - 1e-9);
    let most = match ease {
        Ease::Diameter { .. } => usize::MAX,
        _ => 1,
    };
    let mut smaller: Vec<Option<Ease>> = cheaper
        .rev()
        .take(most)
        .map(|(below, _)| match (below, ease) {
            // As many cables as are changed, not all of them.
            (Ease::Diameter { diameter_mm, .. }, Ease::Diameter { cables, .. }) => {
                Some(Ease::Diameter {
                    diameter_mm: *diameter_mm,
                    cables: *cables,
                })
            }
            (below, _) => Some(below.clone()),
        })
        .collect();
    smaller.push(None);
    smaller.extend(fewer.map(Some));
    smaller
}

/// The example of this repository that cannot be made, and a cable that is too thick for any gland.
#[test]
fn committed_lists_hold_what_they_claim() {
    let heaters = include_str!("../../examples/impossible-heater-feeds.toml");
    let start = heaters
        .find("diameter_mm = 34.0")
        .expect("the feeding cable");
    let thick = format!(
        "{}diameter_mm = 95{}",
        &heaters[..start],
        &heaters[start + "diameter_mm = 34.0".len()..]
    );
    for (name, text) in [("heater feeds", heaters), ("thick cable", &thick)] {
        let list = read(text);
        assert!(!can_be_made(&list, Catalogue::demo(), &Workshop::default()));
        let proved = prove(name, &list, ExplainOptions::default());
        assert!(proved.conflicts >= 1 && proved.ways >= 3, "{name}");
        assert!(proved.bounded >= proved.ways, "{name}");
    }
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
                ExplainOptions {
                    placement: Placement::Rows,
                    ..ExplainOptions::default()
                },
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
