//! Lists divided over two boxes. Conductors are followed by this file's own walk through the two
//! arrangements; nothing of the dividing code is used for it.

mod claims;
mod follow;

use follow::{Net, Wanted};
use glandrail::catalogue::{Catalogue, CircuitKind};
use glandrail::model::{Placement, SearchOptions};
use glandrail::propose::{Answer, propose};
use glandrail::requirements::{CircuitGroup, RequirementList};
use glandrail::source::SourceFile;
use glandrail::split::{
    ConnectingCable, NotDivided, TwoAnswer, TwoBoxes, propose_divided, propose_up_to_two,
};
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
        in_rows(),
    )
    .unwrap_or_else(|error| panic!("{error}"))
}

/// With entries in rows a refusal is a proof.
fn in_rows() -> SearchOptions {
    SearchOptions {
        placement: Placement::Rows,
        ..SearchOptions::default()
    }
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
    let single = propose(&whole, Catalogue::demo(), &Workshop::default(), in_rows());
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
            in_rows(),
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
        in_rows(),
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

/// A power circuit and intrinsically safe signals with too many branches for the bottom of one box.
const MIXED: &str = r#"
[box]
enclosures = { include = ["DEMO-G-2118"] }
entry_walls = ["bottom"]
[[cable]]
tags = ["W1", "W2"]
cores = "5 G 2.5 mm2"
diameter_mm = 13.5
[[cable]]
tag = "W20"
cores = "24 x 1 mm2"
diameter_mm = 17.5
screened = true
intrinsically_safe = true
[[cable]]
tags = "W21..W30"
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
from = "W1"
to = "W2"
marking = ["L1", "L2", "L3", "N"]
[[circuit]]
tags = "L1..L10"
group = "intrinsically_safe"
poles = 2
voltage_v = 28
current_a = 0.1
from = "W20"
to = "W21..W30"
"#;

#[test]
fn intrinsically_safe_circuits_have_connecting_cables_of_their_own() {
    let two = check(&format!("{HEAD}{MIXED}"));
    let safe = |cable: &ConnectingCable| cable.group == CircuitGroup::IntrinsicallySafe;
    assert!(two.connecting.iter().any(safe), "signals are parted");
    for cable in &two.connecting {
        for of in &two.boxes {
            let held = of.list.cables.iter().find(|held| held.tag == cable.tag);
            let kind = held.expect("in both lists").kind;
            assert_eq!(safe(cable), kind == CircuitKind::IntrinsicallySafe);
        }
        assert!(
            !safe(cable) || cable.screened,
            "as the cables on either side"
        );
    }
    assert!(
        two.cautions
            .iter()
            .any(|text| text.contains("intrinsic safety"))
    );
}

/// A power circuit and signals, each with branches.
const BOTH: &str = r#"
[[cable]]
tags = "W1..W5"
cores = "5 G 2.5 mm2"
diameter_mm = 13.5
[[cable]]
tag = "W20"
cores = "12 x 1 mm2"
diameter_mm = 14
screened = true
intrinsically_safe = true
[[cable]]
tags = "W21..W26"
cores = "2 x 1 mm2"
diameter_mm = 7.8
screened = true
intrinsically_safe = true
[[circuit]]
tag = "Q1"
group = "power"
poles = 4
voltage_v = 400
current_a = 16
branch_current_a = 4
from = "W1"
to = "W2..W5"
marking = ["L1", "L2", "L3", "N"]
[[circuit]]
tags = "L1..L6"
group = "intrinsically_safe"
poles = 2
voltage_v = 28
current_a = 0.1
from = "W20"
to = "W21..W26"
"#;

/// Half of the branches of both in the other box: each half keeps both kinds apart, and no connecting
/// cable carries both.
#[test]
fn intrinsically_safe_and_power_circuits_cross_in_cables_of_their_own() {
    let whole = read(&format!("{HEAD}{BOTH}"));
    let two = propose_divided(
        &whole,
        &["W4", "W5", "W24", "W25", "W26"],
        Catalogue::demo(),
        &Workshop::default(),
        in_rows(),
    );
    let two = two
        .unwrap_or_else(|error| panic!("{error}"))
        .expect("both boxes are small");
    let net = Net::of(two.boxes.each_ref().map(|of| &of.proposal.arrangement));
    net.each_end_once();
    for wanted in Wanted::of(&whole) {
        net.joins(&wanted);
    }
    let groups: Vec<CircuitGroup> = two.connecting.iter().map(|cable| cable.group).collect();
    assert!(groups.contains(&CircuitGroup::Power), "{groups:?}");
    assert!(
        groups.contains(&CircuitGroup::IntrinsicallySafe),
        "{groups:?}"
    );
    for cable in &two.connecting {
        let safe = cable.group == CircuitGroup::IntrinsicallySafe;
        assert!(
            cable
                .carries
                .iter()
                .all(|(circuit, _)| circuit.starts_with('L') == safe),
            "{cable:?}"
        );
    }
    for of in &two.boxes {
        let rules = &of.proposal.audit.rules;
        let rule = |id: &str| rules.iter().find(|rule| rule.id == id).expect("a rule");
        let apart = rule("distance.intrinsic_other");
        let measured = apart.measured.expect("both kinds are in each box");
        assert!(measured >= 50.0, "{measured} mm");
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

/// Ten signals with two common returns, each fed by one core of the trunk.
const RETURNS: &str = r#"
[[cable]]
tag = "W1"
cores = "12 x 1.5 mm2"
diameter_mm = 16
[[cable]]
tags = "W2..W11"
cores = "2 x 1.5 mm2"
diameter_mm = 9.2
[[circuit]]
tags = "S1..S10"
voltage_v = 24
current_a = 0.2
poles = 1
from = "W1/1..10"
to = "W2..W11"
[[circuit]]
tags = "R1..R2"
voltage_v = 24
current_a = 1
poles = 1
from = "W1/11,12"
to = "W2..W3"
[[circuit]]
tags = "R3..R10"
voltage_v = 24
current_a = 0.2
poles = 1
to = "W4..W11"
[[link]]
poles = ["R1/1", "R3..R6/1"]
[[link]]
poles = ["R2/1", "R7..R10/1"]
"#;

/// The jumpers stay where the returns are fed; a pole in the other box has a core of its own to them.
#[test]
fn a_link_reaches_the_other_box() {
    let boxes = "[box]\nenclosures = { include = [\"DEMO-G-2118\"] }\nentry_walls = [\"bottom\"]\n";
    let two = check(&format!("{HEAD}{boxes}{RETURNS}"));
    let returns = two
        .connecting
        .iter()
        .flat_map(|cable| &cable.carries)
        .filter(|(circuit, _)| circuit.starts_with('R'));
    assert!(returns.count() > 0, "a return crosses");
}

/// A push-button wired directly stays with its cable.
#[test]
fn direct_circuits_are_not_parted() {
    let boxes = "[box]\nenclosures = { include = [\"DEMO-G-1818\"] }\n";
    let button = r#"
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
load = "AC-15"
from = "W30"
to = "PB1"
direct = true
"#;
    let two = check(&format!("{HEAD}{boxes}{RETURNS}{button}"));
    let holds = |tag: &str| {
        two.boxes
            .iter()
            .position(|of| of.cables.iter().chain(&of.elements).any(|held| held == tag))
    };
    assert!(holds("W30").is_some());
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
