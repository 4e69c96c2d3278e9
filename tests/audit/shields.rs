//! Ways through air round what stands on a rail, against ones reckoned by hand. A terminal of the fixture has bare
//! metal 3.6 mm wide in the middle of 6 mm; its walls rise 6 mm beyond the metal across the rail and 7 mm before it.

use crate::fixture::{block, find_terminal, station};
use crate::lengths::{fails_by, shift};
use crate::loads;
use glandrail::arrangement::*;
use glandrail::audit::{RuleResult, Verdict};
use glandrail::catalogue::{AccessoryKind, Material};

/// What one rule says of two terminals alone on their rail, with the accessories that a change adds.
fn found(id: &str, terminals: [&str; 2], change: impl FnOnce(&mut Arrangement)) -> RuleResult {
    loads::found(id, station(), |a| {
        a.terminals
            .retain(|part| terminals.contains(&part.id.as_str()));
        a.elements.clear();
        a.entries.clear();
        a.accessories.clear();
        // Before the way to the rail, from which no tolerance is taken.
        a.limits.tolerance_mm = 5.0;
        change(a);
    })
}

/// The way between the two terminals by one rule.
fn way_mm(id: &str, terminals: [&str; 2], change: impl FnOnce(&mut Arrangement)) -> f64 {
    let rule = found(id, terminals, change);
    for terminal in terminals {
        assert!(rule.subject.iter().any(|name| name == terminal), "{rule:?}");
    }
    rule.measured.expect("a way") + 5.0
}

/// Over the walls of terminals from a distance before to one behind them, mm.
fn over_mm(climb_mm: f64, before_mm: f64, thickness_mm: f64, behind_mm: f64) -> f64 {
    before_mm.hypot(climb_mm) + thickness_mm + behind_mm.hypot(climb_mm)
}

fn near(found_mm: f64, expected_mm: f64) {
    assert!(
        (found_mm - expected_mm).abs() < 1e-6,
        "{found_mm} mm, {expected_mm} mm expected"
    );
}

/// The end plate of the station between `X1:8` and `X1:9`, as wide as the gap.
fn plate() -> PlacedAccessory {
    let plate = station().accessories.swap_remove(1);
    assert_eq!((plate.id.as_str(), plate.body.min.x_mm), ("A2", 68.0));
    plate
}

/// A second rail, so far above the first, with this terminal on it.
fn second_rail(a: &mut Arrangement, terminal: &str, by_mm: f64) {
    let mut rail = a.rails[0].clone();
    rail.id = "R2".into();
    shift(&mut rail.body, 1, by_mm);
    a.rails.push(rail);
    let terminal = find_terminal(a, terminal);
    terminal.rail = "R2".into();
    shift(&mut terminal.body, 1, by_mm);
    shift(&mut terminal.live[0].block, 1, by_mm);
}

const METAL: &str = "distance.earthed_metal";
const PAIR: [&str; 2] = ["X1:8", "X1:9"];

#[test]
fn an_end_plate_that_insulates_shields_and_an_end_stop_does_not() {
    // 3.2 mm to the closed wall of the earth terminal, 1.2 mm beyond it.
    let walls_mm = over_mm(6.0, 3.2, 0.0, 1.2);
    near(way_mm(METAL, PAIR, |_| ()), walls_mm);
    near(
        way_mm(METAL, PAIR, |a| a.accessories.push(plate())),
        over_mm(6.0, 1.2, 2.0, 1.2),
    );
    let stop = way_mm(METAL, PAIR, |a| {
        a.accessories.push(PlacedAccessory {
            kind: AccessoryKind::EndStop,
            ..plate()
        })
    });
    near(stop, walls_mm);
}

#[test]
fn the_right_wall_of_a_terminal_shields_where_it_is_closed() {
    // The earth terminal on the left of the other and 1 mm longer at both ends: its right wall is the larger one. In
    // front of the rail's face the metal of the one begins at once, of the other 13 mm before it.
    let way = |open: bool| {
        way_mm(METAL, PAIR, |a| {
            let earth = find_terminal(a, "X1:9");
            shift(&mut earth.body, 0, -16.0);
            shift(&mut earth.live[0].block, 0, -16.0);
            earth.body.min.y_mm -= 1.0;
            earth.body.max.y_mm += 1.0;
            earth.open_side = open;
        })
    };
    near(way(false), 1.2 + 3.2_f64.hypot(13.0));
    near(way(true), over_mm(6.0, 3.2, 0.0, 1.2));
}

#[test]
fn a_shield_may_touch_the_bare_part_on_either_side() {
    let against_left = way_mm(METAL, PAIR, |a| {
        a.accessories.push(plate());
        find_terminal(a, "X1:8").live[0].block.max.x_mm = 68.0;
    });
    near(against_left, over_mm(6.0, 0.0, 2.0, 1.2));
    let against_right = way_mm(METAL, PAIR, |a| {
        find_terminal(a, "X1:9").live[0].block.min.x_mm = 70.0;
    });
    near(against_right, over_mm(6.0, 3.2, 0.0, 0.0));
}

#[test]
fn what_stands_on_another_rail_shields_nothing() {
    // A plate on the second rail, 40 mm higher than the terminals, between them as seen along the rails.
    let elsewhere = way_mm(METAL, PAIR, |a| {
        let mut plate = plate();
        plate.rail = "R2".into();
        plate.body.max.z_mm += 40.0;
        plate.body.max.y_mm += 100.0;
        a.accessories.push(plate);
    });
    near(elsewhere, over_mm(6.0, 3.2, 0.0, 1.2));
    // Bare parts of two rails, 3 mm apart across them: the way is straight whatever stands on either.
    let straight = way_mm(METAL, PAIR, |a| {
        second_rail(a, "X1:9", 36.0);
        let mut plate = plate();
        plate.body.max.z_mm += 40.0;
        a.accessories.push(plate);
    });
    near(straight, 4.4_f64.hypot(3.0));
}

#[test]
fn a_terminal_keeps_its_distance_from_an_accessory_of_metal() {
    // An end stop of metal against the first terminal: over its wall, 0.5 mm beyond the stop and 6 mm beyond the bare
    // part, 1.2 mm behind the wall.
    let way = 0.5 + 1.2_f64.hypot(6.0);
    let rule = |tolerance_mm: f64| {
        loads::found(METAL, station(), |a| {
            a.limits.tolerance_mm = tolerance_mm;
            a.accessories[0].material = Some(Material::Steel);
        })
    };
    assert_eq!(rule(1.0).verdict, Verdict::Holds);
    let failing = rule(2.0);
    fails_by(&failing, 5.0 - (way - 2.0));
    assert_eq!(failing.subject, ["X1:1", "A1"]);
    // For an element no wall of a terminal counts: its metal 6.9 mm to the right of the stop, behind two walls.
    let element = loads::found(METAL, station(), |a| {
        a.limits.tolerance_mm = 2.0;
        a.accessories[0].material = Some(Material::Steel);
        a.terminals
            .retain(|part| ["X1:2", "X1:9"].contains(&part.id.as_str()));
        a.elements.drain(..2);
        a.elements[0].live.truncate(1);
        a.elements[0].live[0].block = block([26.9, 90.0, 30.0], [30.0, 110.0, 50.0]);
    });
    fails_by(&element, 0.1);
    assert_eq!(element.subject, ["H1", "A1"]);
}

#[test]
fn the_tolerance_is_taken_off_above_a_rail_that_is_not_the_parts_own() {
    // A lamp's metal 6.9 mm over the rail, less 2 mm, where 5 mm are asked for 230 V.
    let rule = loads::found(METAL, station(), |a| {
        a.elements[2].live[0].block.min.z_mm = 15.5 + 6.9;
    });
    fails_by(&rule, 0.1);
    assert_eq!(rule.subject, ["H1", "R1"]);
    let other_rail = loads::found(METAL, station(), |a| {
        second_rail(a, "X1:1", 100.0);
        find_terminal(a, "X1:1").rail = "R1".into();
        find_terminal(a, "X1:1").live[0].block.min.z_mm = 15.5 + 6.9;
    });
    fails_by(&other_rail, 0.1);
    assert_eq!(other_rail.subject, ["X1:1", "R2"]);
}

#[test]
fn only_equal_neighbours_have_the_certified_distance() {
    let clearance = |terminals, change: fn(&mut Arrangement)| {
        let rule = found("distance.clearance", terminals, change);
        (rule.measured.expect("a distance"), rule.cases)
    };
    // Side by side, walls between: 10.5 mm by the certificate.
    let side_by_side = ["X1:1", "X1:2"];
    assert_eq!(clearance(side_by_side, |_| ()), (10.5, 1));
    let walls_mm = over_mm(6.0, 1.2, 0.0, 1.2) - 5.0;
    for change in [
        |a: &mut Arrangement| a.terminals[1].part = "DEMO-T-OTHER".into(),
        // 0.1 mm apart.
        |a: &mut Arrangement| {
            a.terminals[0].body.max.x_mm -= 0.1;
        },
    ] {
        let (found_mm, cases) = clearance(side_by_side, change);
        near(found_mm, walls_mm);
        assert_eq!(cases, 1);
    }
    let (apart_mm, _) = clearance(["X1:1", "X1:4"], |_| ());
    near(apart_mm, over_mm(6.0, 13.2, 0.0, 1.2) - 5.0);
    let (rails_mm, _) = clearance(side_by_side, |a| second_rail(a, "X1:2", 100.0));
    near(rails_mm, 2.4_f64.hypot(67.0) - 5.0);
}

#[test]
fn a_high_voltage_is_looked_for_beyond_the_usual_reach() {
    // 10 kV: far more is asked for than the 60 mm up to which lower voltages are looked for.
    for id in ["distance.clearance", "distance.creepage"] {
        let rule = found(id, ["X1:1", "X1:8"], |a| {
            let far = find_terminal(a, "X1:8");
            shift(&mut far.body, 0, 30.0);
            shift(&mut far.live[0].block, 0, 30.0);
            far.working_voltage_v = 10_000.0;
            a.limits.tolerance_mm = 0.0;
        });
        assert_eq!(rule.cases, 1, "{rule:?}");
        assert!(
            rule.required.is_none_or(|required_mm| required_mm > 60.0),
            "{rule:?}"
        );
    }
}

#[test]
fn only_a_part_of_its_kind_and_earth_are_measured_against_each_other() {
    let cases =
        |id: &str, terminals, change: fn(&mut Arrangement)| found(id, terminals, change).cases;
    let second_earth = |a: &mut Arrangement| {
        let earth = find_terminal(a, "X1:9").clone();
        let other = find_terminal(a, "X1:8");
        (other.function, other.kind) = (earth.function, earth.kind);
        other.live[0].potential = "PE".into();
    };
    let metal_plate = |a: &mut Arrangement| {
        a.accessories.push(PlacedAccessory {
            material: Some(Material::Steel),
            ..plate()
        })
    };
    let creepage = "distance.earth_creepage";
    let intrinsic = "distance.intrinsic_earth";
    // Plate and rail for each part that is not earth, and earth.
    assert_eq!(cases(METAL, PAIR, |_| ()), 3);
    assert_eq!(cases(METAL, ["X1:1", "X1:2"], |_| ()), 4);
    assert_eq!(cases(METAL, ["X1:9", "X2:1"], |_| ()), 0);
    assert_eq!(cases(METAL, PAIR, second_earth), 0);
    assert_eq!(cases(intrinsic, PAIR, |_| ()), 0);
    assert_eq!(cases(intrinsic, ["X2:1", "X2:2"], |_| ()), 4);
    assert_eq!(cases(creepage, PAIR, |_| ()), 1);
    assert_eq!(cases(creepage, PAIR, metal_plate), 2);
    assert_eq!(cases(creepage, ["X1:1", "X1:2"], |_| ()), 0);
    assert_eq!(cases(creepage, ["X1:9", "X2:1"], |_| ()), 0);
    assert_eq!(cases(creepage, ["X1:9", "X2:1"], metal_plate), 0);
    assert_eq!(cases(creepage, PAIR, second_earth), 0);
    let apart = cases(creepage, PAIR, |a| second_rail(a, "X1:9", 36.0));
    assert_eq!(apart, 0);
}

#[test]
fn the_tolerance_is_taken_off_the_creepage_to_earth() {
    let walls_mm = over_mm(6.0, 3.2, 0.0, 1.2);
    near(way_mm("distance.earth_creepage", PAIR, |_| ()), walls_mm);
}

#[test]
fn parts_are_measured_as_far_apart_as_a_voltage_asks_for() {
    // 60 mm and the tolerance; 200 mm above 1000 V. Bare parts so far apart, the left one half a millimetre from the wall.
    let cases = |apart_mm: f64, voltage_v: f64| {
        let rule = found("distance.clearance", ["X1:1", "X1:2"], |a| {
            let [left, right] = [0, 1].map(|index| a.terminals[index].live[0].block);
            shift(&mut a.terminals[0].live[0].block, 0, 0.5 - left.max.x_mm);
            let by_mm = 0.5 + apart_mm - right.min.x_mm;
            shift(&mut a.terminals[1].live[0].block, 0, by_mm);
            a.terminals[1].part = "DEMO-T-OTHER".into();
            a.terminals[1].working_voltage_v = voltage_v;
        });
        rule.cases
    };
    for (apart_mm, voltage_v, measured) in [
        (40.0, 230.0, 1),
        (62.0, 230.0, 1),
        (65.0, 230.0, 1),
        (65.1, 230.0, 0),
        (65.1, 1000.0, 0),
        (65.1, 1100.0, 1),
        (205.0, 1100.0, 1),
        (205.1, 1100.0, 0),
    ] {
        let found = cases(apart_mm, voltage_v);
        assert_eq!(found, measured, "{apart_mm} mm, {voltage_v} V");
    }
}

#[test]
fn creepage_is_measured_on_one_rail_and_its_tolerance_taken_off() {
    let creepage = "distance.creepage";
    let far = ["X1:1", "X1:4"];
    near(way_mm(creepage, far, |_| ()), over_mm(6.0, 13.2, 0.0, 1.2));
    let apart = found(creepage, far, |a| second_rail(a, "X1:4", 36.0));
    assert_eq!(apart.cases, 0, "{apart:?}");
}
