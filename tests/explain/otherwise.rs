//! Ways out that change how a list is made: without rows, in two boxes. Each is asked for again by the
//! ordinary way and audited anew; and every kind of change is offered with its amount.

use crate::support::read;
use glandrail::audit::audit;
use glandrail::catalogue::{AccessoryKind, Catalogue, CircuitKind};
use glandrail::explain::{Ease, ExplainOptions, Explanation, Impossible, Way, impossible, report};
use glandrail::model::{Placement, SearchOptions};
use glandrail::propose::{Answer, propose};
use glandrail::split::{TwoAnswer, propose_up_to_two};
use glandrail::workshop::Workshop;

const PUMPS: &str = include_str!("../../examples/pump-row-two-boxes.toml");
const HEATERS: &str = include_str!("../../examples/impossible-heater-feeds.toml");
const JUNCTION: &str = include_str!("../../examples/tank-farm-junction.toml");

fn facts(text: &str, placement: Placement) -> Impossible {
    let options = ExplainOptions {
        conflicts: 1,
        ways: 12,
        placement,
        ..ExplainOptions::default()
    };
    let (catalogue, workshop) = (Catalogue::demo(), Workshop::default());
    impossible(&read(text), catalogue, &workshop, None, options).0
}

fn answer(text: &str, placement: Placement) -> Answer {
    let options = SearchOptions {
        placement,
        ..SearchOptions::default()
    };
    propose(
        &read(text),
        Catalogue::demo(),
        &Workshop::default(),
        options,
    )
    .unwrap_or_else(|error| panic!("{error}"))
}

fn way(facts: &Impossible, ease: Ease) -> Option<&Way> {
    facts
        .ways
        .iter()
        .find(|way| way.changes.len() == 1 && way.changes[0].ease == ease)
}

/// The tank farm's junction in the box that takes it without rows of entries only.
fn crowded() -> String {
    let Answer::Found(freely) = answer(JUNCTION, Placement::Best) else {
        panic!("the example can be made");
    };
    let only = format!(
        "[box]\nenclosures.include = [\"{}\"]\n",
        freely.arrangement.enclosure.id
    );
    JUNCTION.replacen("[box]\n", &only, 1)
}

#[test]
fn free_placement_is_offered_where_rows_were_asked_for_and_only_they_fail() {
    let text = crowded();
    assert!(matches!(
        answer(&text, Placement::Rows),
        Answer::Impossible { .. }
    ));
    let Answer::Found(freely) = answer(&text, Placement::Best) else {
        panic!("the list of this test can be made without rows");
    };
    let facts = facts(&text, Placement::Rows);
    let way = way(&facts, Ease::Freely).expect("free placement is a way out");
    assert_eq!(way.holds.enclosure, freely.arrangement.enclosure.id);
    assert!(audit(&freely.arrangement, Some(Catalogue::demo())).holds());
    assert!(way.second.is_none());
    let told = report::short(&read(&text), &facts);
    assert!(
        told.contains("entries placed freely instead of in rows"),
        "{told}"
    );
}

/// Where it was allowed already, or helps nothing, it is not offered.
#[test]
fn free_placement_is_not_offered_needlessly() {
    assert!(way(&facts(HEATERS, Placement::Rows), Ease::Freely).is_none());
    for placement in [Placement::Best, Placement::Free] {
        let facts = facts(HEATERS, placement);
        assert!(way(&facts, Ease::Freely).is_none());
    }
    let fixed = crowded().replacen("[area]", "fixed = [\"placement\"]\n\n[area]", 1);
    assert!(way(&facts(&fixed, Placement::Rows), Ease::Freely).is_none());
}

#[test]
fn two_boxes_are_offered_with_both_enclosures() {
    let facts = facts(PUMPS, Placement::Rows);
    let way = way(&facts, Ease::TwoBoxes).expect("the example for two boxes");
    let second = way.second.as_ref().expect("a second box");
    let two = propose_up_to_two(
        &read(PUMPS),
        Catalogue::demo(),
        &Workshop::default(),
        SearchOptions {
            placement: Placement::Rows,
            ..SearchOptions::default()
        },
    );
    let Ok(TwoAnswer::Two(two)) = two else {
        panic!("two boxes take the example, and one does not");
    };
    for of in &two.boxes {
        assert!(audit(&of.proposal.arrangement, Some(Catalogue::demo())).holds());
    }
    // The command looks at more divisions: it never answers more than the way out does.
    let litres = |id: &str| {
        let part = Catalogue::demo()
            .enclosure
            .iter()
            .find(|part| part.id == id);
        part.expect("in the catalogue")
            .outer_mm
            .iter()
            .product::<f64>()
            / 1e6
    };
    let told = litres(&way.holds.enclosure) + litres(&second.holds.enclosure);
    let asked: f64 = two
        .boxes
        .iter()
        .map(|of| litres(&of.proposal.arrangement.enclosure.id))
        .sum();
    assert!(asked <= told + 1e-9, "{asked} l, but {told} l as a way out");
    assert!((way.holds.volume_l + second.holds.volume_l - told).abs() < 1e-9);
    assert_eq!(second.connecting.is_empty(), two.connecting.is_empty());
    let words = report::short(&read(PUMPS), &facts);
    assert!(words.lines().all(|line| line.chars().count() <= 100));
}

#[test]
fn two_boxes_are_fixed_and_weighed_by_their_name() {
    let fixed = PUMPS.replacen("[area]", "fixed = [\"boxes\"]\n\n[area]", 1);
    assert!(way(&facts(&fixed, Placement::Rows), Ease::TwoBoxes).is_none());
    let usual = facts(PUMPS, Placement::Rows);
    let weighed = format!("{PUMPS}\n[[weight]]\nof = \"boxes\"\ntimes = 0.1\n");
    let weighed = facts(&weighed, Placement::Rows);
    let cost = |facts| way(facts, Ease::TwoBoxes).expect("offered").cost;
    assert!((cost(&weighed) - cost(&usual) * 0.1).abs() < 1e-9);
    assert!(
        weighed
            .ways
            .windows(2)
            .all(|pair| pair[0].cost <= pair[1].cost)
    );
}

/// As many poles of an ordinary and of an intrinsically safe circuit, in one enclosure.
fn both_kinds(enclosure: &str, poles: u32, safe: u32) -> String {
    let pair = |tags: &str, circuit: &str, poles: u32, further: &str| {
        let [from, to] = ["1", "2"].map(|end| format!("{tags}{end}"));
        format!(
            "[[cable]]\ntags = [\"{from}\", \"{to}\"]\ncores = \"{poles} x 1.5 mm2\"\ndiameter_mm = 13\n{further}\n\
             [[circuit]]\ntag = \"{circuit}\"\npoles = {poles}\nvoltage_v = 24\ncurrent_a = 0.1\nfrom = \"{from}\"\nto = \"{to}\"\n"
        )
    };
    let rest = pair("W", "S1", poles, "") + &pair("Y", "I1", safe, "intrinsically_safe = true\n");
    let wishes = format!("orientation = \"upright\"\nenclosures.include = [\"{enclosure}\"]\n");
    list(&wishes, &rest)
}

fn with_partition(text: &str) -> Answer {
    let mut workshop = Workshop::default();
    workshop.distances.intrinsic_partition = true;
    let options = SearchOptions::default();
    propose(&read(text), Catalogue::demo(), &workshop, options)
        .unwrap_or_else(|error| panic!("{error}"))
}

/// Where a row is a little too short for the distance, a partition takes part of it: the way round it is
/// measured by the audit, and is as long as the distance would have been.
#[test]
fn a_partition_is_offered_where_the_distance_is_too_long() {
    let mut shown = 0;
    for safe in [6, 8] {
        for poles in 25..=40 {
            let text = both_kinds("DEMO-G-3020", poles, safe);
            let Answer::Impossible { .. } = answer(&text, Placement::Rows) else {
                continue;
            };
            let with = with_partition(&text);
            let facts = facts(&text, Placement::Rows);
            let offered = way(&facts, Ease::Partition);
            let Answer::Found(parted) = with else {
                assert!(offered.is_none(), "{poles} and {safe}");
                break;
            };
            shown += 1;
            let offered = offered.expect("a partition helps");
            assert_eq!(offered.holds.enclosure, parted.arrangement.enclosure.id);
            let arrangement = &parted.arrangement;
            let report = audit(arrangement, Some(Catalogue::demo()));
            assert!(report.holds());
            let rule = report.rule("distance.intrinsic_other").expect("a rule");
            let measured_mm = rule.measured.expect("both kinds");
            assert!((50.0..60.0).contains(&measured_mm), "{measured_mm} mm");
            let live = |kind| {
                let terminals = arrangement.terminals.iter();
                terminals
                    .filter(move |terminal| terminal.kind == kind)
                    .flat_map(|terminal| &terminal.live)
                    .map(|part| (part.block.min.x_mm, part.block.max.x_mm))
            };
            let ends = live(CircuitKind::ExE)
                .map(|(_, end)| end)
                .fold(0.0, f64::max);
            let begins = live(CircuitKind::IntrinsicallySafe)
                .map(|(begin, _)| begin)
                .fold(f64::INFINITY, f64::min);
            let straight_mm = begins - ends;
            assert!((40.0..55.0).contains(&straight_mm), "{straight_mm} mm");
            let between = arrangement.accessories.iter().filter(|part| {
                part.kind == AccessoryKind::Partition
                    && part.body.min.x_mm > ends
                    && part.body.max.x_mm < begins
            });
            assert_eq!(between.count(), 1);
            // What is measured is the way round the partition.
            assert!(
                measured_mm > straight_mm + 1.0,
                "{measured_mm} mm, straight {straight_mm} mm"
            );
        }
    }
    assert!(shown >= 2, "{shown} lists show it");
    let nothing_to_part = facts(HEATERS, Placement::Rows);
    assert!(way(&nothing_to_part, Ease::Partition).is_none());
}

/// A list in words: `[box]`, then what follows.
fn list(wishes: &str, rest: &str) -> String {
    format!(
        "[job]\ntag = \"JB-9002\"\n\n[area]\nzone = 1\ngas_group = \"IIB\"\ntemperature_class = \"T6\"\n\
         ambient_c = [-20, 40]\nip = \"IP66\"\n\n[box]\n{wishes}\n{rest}"
    )
}

/// Every kind of change, the words that hold its amount, and a list for which it is a way out.
#[test]
fn every_kind_of_change_is_offered_with_its_amount() {
    let heat = HEATERS.to_string();
    let walls = "[[cable]]\ntags = \"W1..W9\"\ncores = \"2 x 1.5 mm2\"\ndiameter_mm = 16\nwall = \"bottom\"\n";
    let walls = list(
        "entry_walls = [\"bottom\", \"left\"]\nenclosures.include = [\"DEMO-G-2424\"]\n",
        walls,
    );
    let thick = list(
        "entry_walls = [\"bottom\"]\n",
        "[[cable]]\ntags = \"W1..W80\"\ncores = \"2 x 1.5 mm2\"\ndiameter_mm = 25\n",
    );
    let spare = JUNCTION.replace(
        "material = [\"grp\", \"stainless\"]",
        "material = \"stainless\"\nenclosures.include = [\"DEMO-S-2520\"]",
    );
    let metal = list(
        "material = \"aluminium\"\n",
        "[[cable]]\ntag = \"W1\"\ncores = \"2 x 1.5 mm2\"\n",
    );
    let parted = (25..=40)
        .map(|poles| both_kinds("DEMO-G-3020", poles, 8))
        .find(|text| {
            matches!(answer(text, Placement::Rows), Answer::Impossible { .. })
                && matches!(with_partition(text), Answer::Found(_))
        })
        .expect("a list that a partition helps");
    let cases: [(&str, &str, &[&str]); 12] = [
        (
            "a partition",
            &parted,
            &[
                "a partition between intrinsically safe and other terminals instead of distance alone",
            ],
        ),
        (
            "entries to another wall",
            &walls,
            &["cables W", " of 9) also in the bottom and left walls"],
        ),
        (
            "kelvin of ambient",
            &heat,
            &["ambient up to +40 °C instead of +50 °C (10 K less)"],
        ),
        ("class", &heat, &["temperature class T5 instead of T6"]),
        (
            "ampere",
            &heat,
            &["95 A instead of 100 A in circuit H77 (5 A less"],
        ),
        (
            "terminals",
            &spare,
            &["% of spare terminals instead of 20 % (", " fewer)"],
        ),
        (
            "material",
            &metal,
            &["an enclosure made of GRP allowed too"],
        ),
        (
            "millimetres",
            &heat,
            &["outer size up to", "(20 mm more depth)"],
        ),
        ("two boxes", PUMPS, &["two boxes instead of one"]),
        (
            "free placement",
            &crowded(),
            &["entries placed freely instead of in rows"],
        ),
        (
            "thinner cables",
            &thick,
            &["diameter of cables W", " mm instead of ", " mm less"],
        ),
        ("fewer cables", &heat, &["without cable W7704 (1 of 4)"]),
    ];
    for (kind, text, parts) in cases {
        let facts = facts(text, Placement::Rows);
        assert!(facts.faults.is_empty(), "{kind}: {:?}", facts.faults);
        let told: Vec<&str> = facts
            .ways
            .iter()
            .flat_map(|way| &way.changes)
            .map(|change| change.words.as_str())
            .collect();
        assert!(
            told.iter()
                .any(|words| parts.iter().all(|part| words.contains(part))),
            "{kind}: {parts:?} is not among {told:#?}"
        );
    }
}

/// No enclosure is rated for an ambient of +90 °C: nothing fits, in however many boxes.
fn too_hot() -> String {
    HEATERS.replacen("ambient_c = [-20, 50]", "ambient_c = [-20, 90]", 1)
}

#[test]
fn two_boxes_that_were_tried_in_vain_are_said_to_be_so() {
    let list = |text: &str| {
        let facts = facts(text, Placement::Rows);
        let words = report::text(
            &read(text),
            &Explanation::Impossible(Box::new(facts.clone())),
        );
        (facts, words)
    };
    let (served, words) = list(PUMPS);
    assert!(served.two_boxes.is_none(), "{:?}", served.two_boxes);
    assert!(words.contains("two boxes instead of one"), "{words}");

    let (tried, words) = list(HEATERS);
    let two = tried.two_boxes.expect("tried");
    assert!(two.divisions > 1 && two.fit_nowhere.is_empty(), "{two:?}");
    let said = format!(
        "none of the {} divisions that were looked at serves",
        two.divisions
    );
    assert!(
        words
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ")
            .contains(&said),
        "{words}"
    );

    let hot = too_hot();
    let (tried, words) = list(&hot);
    let two = tried.two_boxes.expect("tried");
    assert!(!two.fit_nowhere.is_empty(), "{two:?}");
    assert!(words.contains("Two boxes would not help"), "{words}");
    // The command for two boxes says the same of each of them.
    let options = SearchOptions {
        placement: Placement::Rows,
        ..SearchOptions::default()
    };
    let whole = propose_up_to_two(
        &read(&hot),
        Catalogue::demo(),
        &Workshop::default(),
        options,
    );
    let TwoAnswer::NotFound(why) = whole.expect("sound") else {
        panic!("nothing is rated for it");
    };
    let alone: Vec<&str> = why.alone.iter().map(|of| of.what.as_str()).collect();
    assert_eq!(alone, two.fit_nowhere);
}
