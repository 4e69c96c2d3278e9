//! Temperatures of cables as the audit judges them: what is reckoned, what is marked, what is not known.

use crate::fixture::{MARKED_C, find_terminal, hot, station, untested};
use crate::loads::found;
use glandrail::audit::{RuleResult, Verdict};
use glandrail::catalogue::SectionRating;

const ENTRY: &str = "heat.entry_temperature";
const BRANCHING: &str = "heat.branching_temperature";

fn measured_c(rule: &RuleResult) -> f64 {
    rule.measured.expect("a temperature")
}

#[test]
fn copper_is_as_warm_as_the_class_less_its_margin_permits() {
    // T6: 85 °C less 5 K. A lamp of as much power as copper and lamp have at 80 °C warms the air as much; copper:
    // 1 + 60 × 0.00393 (IEC 60228) of what it has at 20 °C.
    let of_copper = found(ENTRY, station(), |_| ());
    let of_lamp = found(ENTRY, station(), |a| {
        a.elements[2].power_w = 1.0 + (a.heat.power_w - 1.0) * 1.2358;
        for wire in &mut a.wires {
            wire.heat_current_a = 0.0;
        }
        a.jumpers[0].heat_current_a = 0.0;
    });
    let off_k = measured_c(&of_copper) - measured_c(&of_lamp);
    assert!(off_k.abs() < 1e-6, "{off_k} K");
}

#[test]
fn a_marking_for_exactly_the_estimate_permits_nothing_either() {
    for id in [ENTRY, BRANCHING] {
        let found_c = measured_c(&found(id, hot(), |_| ()));
        let rule = found(id, hot(), |a| a.notices[0].cable_c = Some(found_c));
        assert_eq!(
            (rule.verdict, rule.margin),
            (Verdict::Informs, Some(0.0)),
            "{id}"
        );
    }
}

#[test]
fn the_words_tell_the_marking_only_where_it_is_needed() {
    for (id, limit_c) in [(ENTRY, 70), (BRANCHING, 80)] {
        let below = found(id, station(), |a| a.notices = hot().notices);
        assert!(
            below.text.ends_with(&format!(
                "no marking of the cables is needed up to {limit_c} °C"
            )),
            "{}",
            below.text
        );
        let above = found(id, hot(), |_| ());
        let words = format!("above {limit_c} °C: the box is marked for cables of {MARKED_C} °C");
        assert!(above.text.ends_with(&words), "{}", above.text);
    }
}

#[test]
fn a_terminal_of_unknown_rise_needs_its_test_in_air_above_the_limit_too() {
    // Air above 80 °C, marked for 120 °C: the marking covers the air, and how much a terminal adds is not known.
    let verdict = |settled_by_test: bool, cable_c: f64| {
        let rule = found(BRANCHING, hot(), |a| {
            a.elements[2].power_w = 60.0;
            a.terminals[0].rise_at_rated_k = None;
            a.notices[0].settled_by_test = settled_by_test;
            a.notices[0].cable_c = Some(cable_c);
        });
        (rule.verdict, rule.measured)
    };
    assert_eq!(verdict(false, 120.0), (Verdict::NotDetermined, None));
    let (settled, air_c) = verdict(true, 120.0);
    assert_eq!(settled, Verdict::Informs);
    assert!(air_c.is_some_and(|air_c| (80.0..120.0).contains(&air_c)));
    // A marking below the air alone is too little, whatever a test is to settle.
    for settled in [false, true] {
        assert_eq!(verdict(settled, 81.0).0, Verdict::Fails);
    }
    // Below the limit the air alone says nothing.
    let rule = found(BRANCHING, untested(), |_| ());
    assert_eq!((rule.verdict, rule.measured), (Verdict::Informs, None));
}

#[test]
fn a_core_on_a_contact_is_not_estimated() {
    let rule = |current_a: f64| {
        found(BRANCHING, station(), |a| {
            a.wires[1].from = a.wires[0].from.clone();
            a.wires[1].current_a = current_a;
        })
    };
    let carrying = rule(2.0);
    assert_eq!(carrying.verdict, Verdict::NotDetermined);
    assert!(carrying.text.contains("C2 ends on a contact"));
    assert_eq!(rule(0.0).verdict, Verdict::Informs);
}

#[test]
fn what_carries_nothing_does_not_rate_a_terminal() {
    // X1:1 with 4 A by its jumpers: of its conductors the one with current, of 1.5 mm², has the rating of 1 mm²,
    // 11 A; one of 2.5 mm² without current would have 21 A. The air is that of the same box without the rise.
    let at = |rise_k: f64| {
        let rule = found(BRANCHING, hot(), |a| {
            let terminal = find_terminal(a, "X1:1");
            terminal.current_a = 4.0;
            terminal.rise_at_rated_k = Some(rise_k);
            (a.wires[0].current_a, a.wires[0].section_mm2) = (0.0, 2.5);
            (a.wires[0].section, a.wires[0].heat_current_a) = ("2.5 mm²".into(), 0.0);
            for terminal in &mut a.terminals[1..] {
                terminal.rise_at_rated_k = Some(0.0);
            }
        });
        measured_c(&rule)
    };
    let rise_k = at(121.0) - at(0.0);
    assert!(
        (rise_k - 121.0 * (4.0_f64 / 11.0).powi(2)).abs() < 1e-9,
        "{rise_k} K"
    );
}

#[test]
fn a_rated_current_of_nothing_is_no_rating() {
    let rule = found(BRANCHING, station(), |a| {
        find_terminal(a, "X1:1").ratings = vec![SectionRating {
            section_mm2: 1.0,
            current_a: 0.0,
        }];
    });
    assert_eq!(rule.verdict, Verdict::NotDetermined, "{rule:?}");
    assert!(
        rule.text.contains("X1:1 has no rated current"),
        "{}",
        rule.text
    );
}

#[test]
fn of_equally_warm_terminals_the_first_is_named() {
    let rule = found(BRANCHING, hot(), |a| {
        a.terminals[3].rise_at_rated_k = a.terminals[0].rise_at_rated_k;
    });
    assert_eq!(rule.subject, ["X1:1"]);
}
