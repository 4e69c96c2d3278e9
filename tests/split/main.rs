//! Lists divided over two boxes. Conductors are followed by this file's own walk through the two
//! arrangements; nothing of the dividing code is used for it.

mod follow;

use follow::{Net, Wanted};
use glandrail::catalogue::{Catalogue, CircuitKind};
use glandrail::model::SearchOptions;
use glandrail::propose::{Answer, propose};
use glandrail::requirements::RequirementList;
use glandrail::source::SourceFile;
use glandrail::split::{NotDivided, TwoAnswer, TwoBoxes, propose_up_to_two};
use glandrail::workshop::Workshop;

const EXAMPLE: &str = include_str!("../../examples/pump-row-two-boxes.toml");

fn read(text: &str) -> RequirementList {
    RequirementList::from_source(
        SourceFile::from_text("list.toml", text),
        &Workshop::default(),
    )
    .unwrap_or_else(|findings| panic!("{}", findings.render_plain()))
}

fn answer(text: &str) -> TwoAnswer {
    propose_up_to_two(
        &read(text),
        Catalogue::demo(),
        &Workshop::default(),
        SearchOptions::default(),
    )
    .unwrap_or_else(|error| panic!("{error}"))
}

fn two(text: &str) -> Box<TwoBoxes> {
    match answer(text) {
        TwoAnswer::Two(two) => two,
        TwoAnswer::One(one) => panic!("one box: {}", one.arrangement.enclosure.id),
        TwoAnswer::NotFound(why) => panic!("not found: {:?}", why.nearest),
    }
}

fn not_found(text: &str) -> Box<NotDivided> {
    match answer(text) {
        TwoAnswer::NotFound(why) => why,
        _ => panic!("an answer was found"),
    }
}

/// What must be true of every division, whatever it looks like.
fn check(text: &str) -> Box<TwoBoxes> {
    let whole = read(text);
    let single = propose(
        &whole,
        Catalogue::demo(),
        &Workshop::default(),
        SearchOptions::default(),
    );
    assert!(
        matches!(single, Ok(Answer::Impossible { proven: true, .. })),
        "one box would do, so dividing shows nothing"
    );
    let two = two(text);
    for of in &two.boxes {
        let proposal = &of.proposal;
        assert!(proposal.audit.holds());
        // The text is what was proposed from: read again it gives the same arrangement.
        let again = propose(
            &read(&of.text),
            Catalogue::demo(),
            &Workshop::default(),
            SearchOptions::default(),
        );
        let Ok(Answer::Found(again)) = again else {
            panic!("the derived list cannot be made");
        };
        assert_eq!(again.arrangement, proposal.arrangement);
    }
    // Each cable and each element is in one box, connecting cables in both.
    let mut placed: Vec<&String> = two
        .boxes
        .iter()
        .flat_map(|of| of.cables.iter().chain(&of.elements))
        .collect();
    placed.sort();
    let mut asked: Vec<&String> = whole.cables.iter().map(|cable| &cable.tag).collect();
    asked.extend(whole.elements.iter().map(|element| &element.tag));
    asked.sort();
    assert_eq!(placed, asked);
    for of in &two.boxes {
        let held = &of.proposal.arrangement.cables;
        for cable in &two.connecting {
            let entries = held.iter().filter(|record| record.tag == cable.tag);
            assert_eq!(entries.count(), 1, "{} enters each box once", cable.tag);
        }
        assert_eq!(held.len(), of.cables.len() + two.connecting.len());
        assert_eq!(of.proposal.arrangement.elements.len(), of.elements.len());
    }
    // Cables themselves are unchanged by way of the text.
    for cable in &whole.cables {
        let of = two
            .boxes
            .iter()
            .flat_map(|of| &of.list.cables)
            .find(|of| of.tag == cable.tag)
            .expect("in one of the boxes");
        assert_eq!(of.cores, cable.cores);
        assert_eq!((of.kind, of.screened), (cable.kind, cable.screened));
        for (a, b) in of.diameter_range_mm.iter().zip(cable.diameter_range_mm) {
            assert!((a - b).abs() < 1e-5, "{}", cable.tag);
        }
        assert_eq!(of.walls, cable.walls);
        assert_eq!(of.armoured, cable.armoured);
    }
    let arrangements = two.boxes.each_ref().map(|of| &of.proposal.arrangement);
    let net = Net::of(arrangements);
    net.each_end_once();
    for wanted in Wanted::of(&whole) {
        net.joins(&wanted);
    }
    two
}

#[test]
fn the_example_is_two_boxes_joined_by_conductors_that_can_be_followed() {
    let two = check(EXAMPLE);
    assert!(!two.connecting.is_empty(), "a trunk is parted");
    for cable in &two.connecting {
        assert!(cable.used >= 1);
        assert!(cable.cores.contains("1.5 mm2") || cable.cores.contains("1 mm2"));
    }
}

#[test]
fn a_list_that_one_enclosure_takes_is_not_divided() {
    let junction = include_str!("../../examples/tank-farm-junction.toml");
    let TwoAnswer::One(one) = answer(junction) else {
        panic!("one box is enough");
    };
    let Ok(Answer::Found(alone)) = propose(
        &read(junction),
        Catalogue::demo(),
        &Workshop::default(),
        SearchOptions::default(),
    ) else {
        panic!("one box is enough");
    };
    assert_eq!(one.arrangement, alone.arrangement);
}

#[test]
fn a_cable_that_fits_nowhere_is_the_reason() {
    let text = EXAMPLE.replace(
        "\n[spare]",
        "\nenclosures = { include = [\"DEMO-G-0909\"] }\n[spare]",
    );
    let why = not_found(&text);
    assert!(why.one_disproved);
    assert!(
        why.alone.iter().any(|alone| alone.what == "cable W2630"),
        "{:?}",
        why.alone.iter().map(|of| &of.what).collect::<Vec<_>>()
    );
    assert_eq!(
        why.tried, 0,
        "nothing is searched where nothing can come of it"
    );
}

/// The heater feeds need more heat, or a thicker connecting cable, than the small plastic boxes allow.
#[test]
fn what_was_not_found_is_not_called_impossible() {
    let why = not_found(include_str!("../../examples/impossible-heater-feeds.toml"));
    assert!(why.alone.is_empty());
    assert!(why.tried > 0);
    assert_eq!(why.nearest.len(), 2);
    for half in why.nearest.iter().filter(|half| !half.taken) {
        assert!(half.no_part.is_some() || !half.excluded.is_empty());
    }
    assert!(why.nearest.iter().any(|half| !half.taken));
}

const HEAD: &str = r#"
[job]
tag = "JB-2700"
[area]
zone = 1
gas_group = "IIB"
temperature_class = "T6"
ip = "IP66"
"#;

/// Intrinsically safe signals, control and power on one trunk each, in boxes too small for any two.
fn mixed(include: &str) -> String {
    format!(
        r#"{HEAD}
[box]
enclosures = {{ include = {include} }}
[[cable]]
tag = "W1"
cores = "5 G 2.5 mm2"
diameter_mm = 13.5
[[cable]]
tags = "W2..W5"
cores = "5 G 2.5 mm2"
diameter_mm = 13.5
[[cable]]
tag = "W20"
cores = "16 x 1 mm2"
diameter_mm = 15.5
screened = true
intrinsically_safe = true
[[cable]]
tags = "W21..W28"
cores = "2 x 1 mm2"
diameter_mm = 7.8
screened = true
intrinsically_safe = true
[[circuit]]
tag = "Q1"
group = "power"
poles = 4
voltage_v = 400
current_a = 12
branch_current_a = 3
from = "W1"
to = "W2..W5"
marking = ["L1", "L2", "L3", "N"]
[[circuit]]
tags = "L1..L8"
group = "intrinsically_safe"
poles = 2
voltage_v = 28
current_a = 0.1
from = "W20"
to = "W21..W28"
"#
    )
}

#[test]
fn intrinsically_safe_circuits_have_connecting_cables_of_their_own() {
    let two = check(&mixed("[\"DEMO-G-2418\"]"));
    for cable in &two.connecting {
        let safe = cable.group == glandrail::requirements::CircuitGroup::IntrinsicallySafe;
        for of in &two.boxes {
            let held = of.list.cables.iter().find(|held| held.tag == cable.tag);
            let kind = held.expect("in both lists").kind;
            assert_eq!(safe, kind == CircuitKind::IntrinsicallySafe);
        }
        assert_eq!(
            cable.group == glandrail::requirements::CircuitGroup::Power,
            cable.protective
        );
    }
}

/// A power circuit that branches, parted between its branches: the far box is fed through one core for each
/// pole, with the currents of its branches, and the protective conductor goes along.
#[test]
fn a_branching_power_circuit_can_be_parted() {
    let text = format!(
        r#"{HEAD}
[box]
enclosures = {{ include = ["DEMO-G-2121"] }}
[[cable]]
tag = "W1"
cores = "5 G 2.5 mm2"
diameter_mm = 13.5
[[cable]]
tags = "W2..W9"
cores = "5 G 2.5 mm2"
diameter_mm = 13.5
[[circuit]]
tag = "Q1"
group = "power"
poles = 4
voltage_v = 400
current_a = 16
branch_current_a = 2
from = "W1"
to = "W2..W9"
marking = ["L1", "L2", "L3", "N"]
"#
    );
    let two = check(&text);
    let [cable] = two.connecting.as_slice() else {
        panic!("one connecting cable, not {}", two.connecting.len());
    };
    assert_eq!((cable.cores.as_str(), cable.used), ("5 G 2.5 mm2", 4));
    assert!(cable.protective);
    let far = &two.boxes[1];
    let branches = far.cables.len();
    let circuit = &far.list.circuits[0];
    assert_eq!(circuit.current_a, 2.0 * branches as f64);
}

/// A common return fed from one core, and direct push-buttons: links stay where they are fed, direct
/// circuits are never parted.
#[test]
fn links_and_elements_are_followed_too() {
    let text = format!(
        r#"{HEAD}
[box]
enclosures = {{ include = ["DEMO-G-1818", "DEMO-G-1515"] }}
[[cable]]
tag = "W1"
cores = "19 x 1.5 mm2"
diameter_mm = 16
[[cable]]
tags = "W2..W13"
cores = "2 x 1.5 mm2"
diameter_mm = 9.2
[[circuit]]
tags = "S1..S12"
voltage_v = 24
current_a = 0.5
poles = 1
from = "W1/1..12"
to = "W2..W13"
[[circuit]]
tag = "R1"
voltage_v = 24
current_a = 6
poles = 1
from = "W1/13"
to = "W2"
[[circuit]]
tags = "R2..R12"
voltage_v = 24
current_a = 0.5
poles = 1
to = "W3..W13"
[[link]]
poles = ["R1..R12/1"]
[[cable]]
tag = "W30"
cores = "2 x 1.5 mm2"
diameter_mm = 9.2
[[element]]
tag = "PB1"
kind = "push_button"
contacts = ["NC"]
[[circuit]]
tag = "STOP"
poles = 2
voltage_v = 230
current_a = 2
from = "W30"
to = "PB1"
direct = true
"#
    );
    let two = check(&text);
    let holds = |tag: &str| {
        two.boxes
            .iter()
            .position(|of| of.cables.iter().chain(&of.elements).any(|held| held == tag))
    };
    assert_eq!(holds("W30"), holds("PB1"));
}

#[test]
fn the_same_list_is_divided_the_same_way() {
    let (first, second) = (two(EXAMPLE), two(EXAMPLE));
    for (a, b) in first.boxes.iter().zip(&second.boxes) {
        assert_eq!(a.text, b.text);
        assert_eq!(a.proposal.arrangement, b.proposal.arrangement);
    }
    assert_eq!(first.connecting, second.connecting);
}
