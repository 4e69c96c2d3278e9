//! Ways out of particular kinds, each held against a search of the test's own.

use crate::support::{can_be_made, read};
use glandrail::catalogue::Catalogue;
use glandrail::explain::{Change, Explanation, report};
use glandrail::explain::{
    Ease, ExplainOptions, Impossible, WayOut, apply, impossible, requirements,
};
use glandrail::model::Placement;
use glandrail::requirements::RequirementList;
use glandrail::workshop::Workshop;

const AREA: &str = "[job]\ntag = \"JB-9100\"\n[area]\nzone = 1\ngas_group = \"IIB\"\n\
                    temperature_class = \"T6\"\nambient_c = [-20, 40]\nip = \"IP66\"\n";

fn found(text: &str) -> (RequirementList, Impossible, Vec<WayOut>) {
    let list = read(text);
    let options = ExplainOptions {
        placement: Placement::Rows,
        ..ExplainOptions::default()
    };
    let (facts, ways) = impossible(
        &list,
        Catalogue::demo(),
        &Workshop::default(),
        None,
        options,
    );
    assert!(facts.faults.is_empty(), "{:?}", facts.faults);
    (list, facts, ways)
}

/// The list with one requirement, by its id, eased, and another if given.
fn eased(list: &RequirementList, changes: &[(&str, Ease)]) -> RequirementList {
    let all = requirements(list);
    let changes: Vec<Change> = changes
        .iter()
        .map(|(id, ease)| {
            let of = all.iter().find(|requirement| requirement.id == *id);
            Change {
                aspect: of.unwrap_or_else(|| panic!("no `{id}`")).aspect.clone(),
                ease: ease.clone(),
            }
        })
        .collect();
    apply(list, &Workshop::default(), &changes).0
}

fn holds(list: &RequirementList) -> bool {
    can_be_made(list, Catalogue::demo(), &Workshop::default())
}

/// The clamping ranges of glands for armoured cables leave gaps: some thinner cables are no easier.
#[test]
fn the_thickest_cable_that_a_gland_serves_is_offered_across_gaps() {
    for (outside_mm, under_mm) in [(40.0, 33.0), (64.0, 54.0), (70.0, 60.0)] {
        let text = format!(
            "{AREA}[[cable]]\ntags = [\"W1\", \"W2\"]\ncores = \"4 x 16 mm2\"\narmoured = true\n\
             diameter_mm = {outside_mm}\nunder_armour_mm = {under_mm}\n[[circuit]]\ntag = \"S1\"\npoles = 4\n\
             voltage_v = 400\ncurrent_a = 40\nfrom = \"W1\"\nto = \"W2\"\n"
        );
        let list = read(&text);
        assert!(!holds(&list), "{outside_mm} mm is clamped");
        let id = "cable W1, W2 diameter_mm";
        let thinner = |tenths: u32| Ease::Diameter {
            diameter_mm: f64::from(tenths) / 10.0,
            cables: 2,
        };
        let first = (200..(outside_mm * 10.0) as u32)
            .rev()
            .find(|tenths| holds(&eased(&list, &[(id, thinner(*tenths))])))
            .expect("some gland clamps such a cable");
        let (_, _, ways) = found(&text);
        let offered = ways.iter().find_map(|way| match way.eased.as_slice() {
            [(_, Ease::Diameter { diameter_mm, .. })] => Some(*diameter_mm),
            _ => None,
        });
        assert_eq!(offered, Some(f64::from(first) / 10.0), "{outside_mm} mm");
    }
}

fn hot(current_a: u32) -> String {
    format!(
        "{AREA}[box]\nmaterial = \"grp\"\n[spare]\nheat_percent = 20\n\
         [[cable]]\ntags = \"W1..W4\"\ncores = \"4 x 35 mm2\"\ndiameter_mm = 32\n\
         [[cable]]\ntags = \"V1..V4\"\ncores = \"4 x 35 mm2\"\ndiameter_mm = 32\n\
         [[circuit]]\ntags = \"S1..S4\"\npoles = 4\nvoltage_v = 400\ncurrent_a = {current_a}\n\
         from = \"W1..W4\"\nto = \"V1..V4\"\n"
    )
}

/// The reserve and the current each are a way or part of one; a little of both may be cheaper than one alone.
#[test]
fn the_cheapest_pair_of_reserve_and_current_is_found() {
    let text = hot(100);
    let (list, _, ways) = found(&text);
    let (current, reserve) = ("circuit S1..S4 current_a", "spare.heat_percent");
    // By trying every share of the reserve with the least reduction of the current.
    let mut cheapest = f64::INFINITY;
    for reserve_percent in 0..20u32 {
        let least = (1..100u32).find(|less| {
            let share = Ease::CurrentShare(f64::from(100 - less) / 100.0);
            let percent = Ease::Percent(f64::from(reserve_percent));
            holds(&eased(&list, &[(current, share), (reserve, percent)]))
        });
        let cost = f64::from(20 - reserve_percent) / 5.0 + f64::from(least.expect("some current"));
        cheapest = cheapest.min(cost);
    }
    let alone = (1..100u32)
        .find(|less| {
            let share = Ease::CurrentShare(f64::from(100 - less) / 100.0);
            holds(&eased(&list, &[(current, share)]))
        })
        .map(f64::from)
        .expect("some current");
    assert!(
        cheapest < alone,
        "{cheapest} {alone}: another list is needed"
    );
    let all = requirements(&list);
    let named = |way: &WayOut| -> Vec<String> {
        let ids = way.eased.iter().map(|(index, _)| all[*index].id.clone());
        ids.collect()
    };
    let pair = ways
        .iter()
        .find(|way| named(way) == [reserve, current])
        .expect("the pair is offered");
    assert!(
        (pair.cost - cheapest).abs() < 1e-6,
        "{} {cheapest}",
        pair.cost
    );
    let single = ways.iter().find(|way| named(way) == [current]);
    let single = single.expect("the current alone is offered too");
    assert!(
        (single.cost - alone).abs() < 1e-6,
        "{} {alone}",
        single.cost
    );
}

/// What a left-out cable takes with it is said, and nothing is offered that leaves no circuit.
#[test]
fn circuits_that_go_with_a_cable_are_named_and_some_are_left() {
    let text = hot(100);
    let (list, facts, ways) = found(&text);
    for way in &ways {
        assert!(!way.list.circuits.is_empty());
    }
    let left_out = ways
        .iter()
        .find(|way| way.list.cables.len() < list.cables.len())
        .expect("to leave out cables is one of the ways");
    assert!(left_out.list.circuits.len() < list.circuits.len());
    let mut told = facts.ways.iter().filter(|way| way.cost == left_out.cost);
    let told = told.next().expect("told with its cost");
    let words: Vec<&str> = told.changes.iter().map(|of| of.words.as_str()).collect();
    assert!(
        words
            .iter()
            .any(|words| words.contains(" with it") || words.contains(" with them")),
        "{words:?}"
    );
    // Each cable costs 50 points and each circuit that goes with it 10, both times the factor of the list.
    let weighed = format!("{text}[[weight]]\nof = \"cable\"\ntimes = 0.1\n");
    let (_, _, ways) = found(&weighed);
    let mut seen = 0;
    for way in &ways {
        if let [(_, Ease::Fewer(count))] = way.eased.as_slice()
            && way.list.cables.len() + count == list.cables.len()
        {
            let lost = list.circuits.len() - way.list.circuits.len();
            assert!(lost > 0);
            let cost = 0.1 * (50.0 * *count as f64 + 10.0 * lost as f64);
            assert!((way.cost - cost).abs() < 1e-9, "{} {cost}", way.cost);
            seen += 1;
        }
    }
    assert!(seen > 0, "no way leaves out cables alone");
    // Of one circuit alone neither cable can be spared.
    let one = hot(100).replace("1..W4\"", "1\"").replace("1..V4\"", "1\"");
    let one = one
        .replace("S1..S4", "S1")
        .replace("current_a = 100", "current_a = 400");
    let (_, facts, ways) = found(&one);
    assert!(!ways.is_empty(), "{:?}", facts.without_part);
    let words = report::text(&list, &Explanation::Impossible(Box::new(facts)));
    assert!(!words.contains("without cable"), "{words}");
}

/// Changes that cost the same and serve as well stand beside the one with the smallest enclosure.
#[test]
fn what_serves_at_the_same_cost_is_told() {
    let text = format!(
        "{AREA}[box]\nmaterial = \"aluminium\"\n[[cable]]\ntags = [\"W1\", \"W2\"]\ncores = \"4 x 1.5 mm2\"\n\
         diameter_mm = 11\n[[circuit]]\ntag = \"S1\"\npoles = 4\nvoltage_v = 24\ncurrent_a = 1\n\
         from = \"W1\"\nto = \"W2\"\n"
    );
    let (list, facts, ways) = found(&text);
    let [(_, Ease::Material(taken))] = ways[0].eased.as_slice() else {
        panic!("{:?}", ways[0].eased);
    };
    let [other] = ways[0].likewise.as_slice() else {
        panic!("{:?}", ways[0].likewise);
    };
    let Ease::Material(other) = &other.ease else {
        panic!("{other:?}");
    };
    assert_ne!(taken, other);
    assert!(holds(&eased(
        &list,
        &[("box.material", Ease::Material(*other))]
    )));
    let words = &facts.ways[0].changes[0].words;
    assert!(
        words.contains(&format!("at the same cost also {}", other.words())),
        "{words}"
    );
}

/// The search for ways out of a list of hundreds of cables ends early and says so, with a way that holds; that of a
/// short one does not.
#[test]
fn a_long_list_ends_with_a_way_and_says_that_it_was_cut_short() {
    const SAID: &str = "the list is so long that no more were looked for";
    let list_of = |circuits: usize| {
        let mut text = format!("{AREA}[box]\nentry_walls = [\"bottom\"]\n");
        for circuit in 0..circuits {
            let poles = 2 + circuit % 3;
            for end in ["A", "B"] {
                text += &format!(
                    "[[cable]]\ntag = \"{end}{circuit}\"\ncores = \"{poles} x 1.5 mm2\"\n"
                );
            }
            text += &format!(
                "[[circuit]]\ntag = \"S{circuit}\"\nfrom = \"A{circuit}\"\nto = \"B{circuit}\"\n\
                 poles = {poles}\nvoltage_v = 24\ncurrent_a = 0.01\n"
            );
        }
        text
    };
    for (circuits, is_cut_short) in [(40, false), (200, true)] {
        let (list, facts, ways) = found(&list_of(circuits));
        assert_eq!(facts.cut_short, is_cut_short, "{circuits} circuits");
        assert!(!ways.is_empty(), "{circuits} circuits");
        for way in &ways {
            assert!(holds(&way.list), "{:?}", way.eased);
        }
        let text = report::text(&list, &Explanation::Impossible(Box::new(facts)));
        let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert_eq!(flat.contains(SAID), is_cut_short, "{flat}");
    }
}
