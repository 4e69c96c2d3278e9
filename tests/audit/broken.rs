//! One arrangement broken by hand for every rule: it fails with exactly that rule, and its unbroken
//! twin holds.

use crate::breaks::{TOGETHER, all, one_before_the_other, rib_beside_entry};
use crate::fixture::{
    arranged, bundled, find_terminal, hot, shielded, stainless, station, unearthed, untested,
};
use glandrail::arrangement::{Arrangement, PlacedTerminal};
use glandrail::audit::{self, Verdict};
use glandrail::standards::iec_60079_0::TemperatureClass;
use std::collections::BTreeSet;

#[test]
fn the_twins_hold() {
    for twin in [
        station(),
        stainless(),
        hot(),
        untested(),
        bundled(),
        arranged(),
        unearthed(),
        shielded(),
    ] {
        let report = audit::audit(&twin, None);
        let failing: Vec<&str> = report.failing().map(|rule| rule.text.as_str()).collect();
        assert!(report.holds(), "{}: {failing:#?}", twin.enclosure.id);
        assert!(report.holds);
        assert!(!report.compared_with_catalogue);
    }
}

#[test]
fn a_rib_just_beside_an_entry_does_no_harm() {
    let mut arrangement = station();
    rib_beside_entry(&mut arrangement, 0.1);
    let report = audit::audit(&arrangement, None);
    assert!(
        report.holds(),
        "{:#?}",
        report.failing().collect::<Vec<_>>()
    );
    let rule = |id: &str| report.rules.iter().find(|rule| rule.id == id);
    let margin = rule("space.entry_blocked").and_then(|rule| rule.margin);
    assert!(
        margin.is_some_and(|mm| (mm - 0.1).abs() < 1e-6),
        "{margin:?}"
    );
}

#[test]
fn every_break_fails_with_exactly_its_rule() {
    let mut wrong = Vec::new();
    for broken in all() {
        let mut arrangement = (broken.twin)();
        (broken.cut)(&mut arrangement);
        let report = audit::audit(&arrangement, None);
        let found: Vec<&str> = report.failing().map(|rule| rule.id).collect();
        let expected = TOGETHER
            .iter()
            .find(|(rule, what, _)| *rule == broken.rule && *what == broken.what)
            .map_or(vec![broken.rule], |(_, _, rules)| rules.to_vec());
        if found != expected {
            let texts: Vec<String> = report
                .failing()
                .map(|rule| format!("{}: {}", rule.id, rule.text))
                .collect();
            wrong.push(format!("{} ({}): {texts:#?}", broken.rule, broken.what));
        }
        for rule in report.failing() {
            assert!(
                rule.failures > 0 && !rule.text.is_empty() && !rule.subject.is_empty(),
                "{rule:#?}"
            );
            if let Some(margin) = rule.margin {
                assert!(margin.is_nan() || margin < 0.0, "{rule:#?}");
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_rule_without_a_break() {
    let mut broken: BTreeSet<&str> = all().map(|broken| broken.rule).collect();
    // Its breaks stand in `catalogue.rs`.
    broken.insert("record.catalogue");
    let rules: BTreeSet<&str> = audit::rules().iter().map(|rule| rule.id).collect();
    assert_eq!(rules, broken);
    assert_eq!(rules.len(), audit::rules().len(), "an id occurs twice");
    for rule in audit::rules() {
        assert!(
            rule.id.starts_with(&format!("{}.", rule.group)),
            "{}",
            rule.id
        );
        assert!(!rule.title.is_empty() && !rule.requires.is_empty() && !rule.clause.is_empty());
    }
}

#[test]
fn the_tightest_case_is_reported_with_names_and_figures() {
    let report = audit::audit(&station(), None);
    let rule = |id: &str| report.rule(id).unwrap_or_else(|| panic!("no rule {id}"));
    // Entries at 60 and 100 mm, envelopes 36 and 28 mm: 40 between centres, 32 + 5 required.
    let spacing = rule("space.entry_spacing");
    assert_eq!(
        (spacing.measured, spacing.required, spacing.margin),
        (Some(40.0), Some(37.0), Some(3.0))
    );
    assert_eq!(spacing.subject, ["E1", "E2"]);
    // The way from strip X2 to the button: 178 − 116.5 mm up, 86 − 50.5 mm forward. To strip X1 it is
    // 72.7 mm round the partition.
    let separation = rule("distance.intrinsic_other");
    assert!(
        (separation.measured.unwrap() - 71.0106).abs() < 1e-3,
        "{separation:?}"
    );
    assert_eq!(separation.subject[1], "PB1");
    assert_eq!(separation.required, Some(50.0));
    // 77.5 mm from the wall to the terminals, 11 mm of it taken by a gland.
    let wiring = rule("space.wiring");
    assert!((wiring.measured.unwrap() - 66.5).abs() < 1e-9);
    // 3 mm of lamp's room over what is asked: 84 − 57.5 − 25.
    assert!((rule("space.element_depth").margin.unwrap() - 1.5).abs() < 1e-9);
    // By hand: 3 × 1.6² × 12.1 + 4 × 1.6² × 13.3 ohm/km over 0.38 m, terminals, contacts, lamp.
    let power = rule("heat.power").measured.unwrap();
    assert!((power - 1.1557).abs() < 1e-3, "{power}");
    // 230 V counts with the 250 V row: 5 mm; the certified distance is 10.5 mm.
    let clearance = rule("distance.clearance");
    assert_eq!(
        (clearance.required, clearance.measured),
        (Some(5.0), Some(10.5))
    );
    assert_eq!(clearance.verdict, Verdict::Holds);
}

#[test]
fn rows_of_entries_with_room_for_a_spanner_hold() {
    // Envelopes of 28 mm: centres 38 mm apart leave the 10 mm asked for, 37.9 mm do not.
    for (centres_mm, holds) in [(38.0, true), (37.9, false)] {
        let mut arrangement = station();
        one_before_the_other(&mut arrangement, centres_mm);
        let report = audit::audit(&arrangement, None);
        let rule = report.rule("space.entry_rows").expect("a rule");
        assert_eq!(report.holds(), holds, "{rule:?}");
        assert!((rule.measured.expect("a distance") - centres_mm).abs() < 1e-9);
        assert_eq!((rule.required, rule.cases), (Some(38.0), 5));
    }
}

#[test]
fn an_area_without_levels_is_told_in_words() {
    let mut arrangement = station();
    arrangement.area.epl.clear();
    let report = audit::audit(&arrangement, None);
    let rule = report.rule("suitability.area").expect("a rule");
    assert_eq!(rule.text, "equipment protection levels asked for: none");
}

#[test]
fn further_failures_are_listed_worst_first() {
    let mut arrangement = station();
    arrangement.enclosure.rated_voltage_v = Some(24.0);
    let report = audit::audit(&arrangement, None);
    let rule = report.rule("electrical.enclosure_voltage").unwrap();
    assert_eq!((rule.cases, rule.failures, rule.further.len()), (4, 2, 1));
    assert_eq!(rule.margin, Some(-206.0));

    let mut arrangement = station();
    arrangement.terminals = (1..=60)
        .map(|number| PlacedTerminal {
            number,
            marking: String::new(),
            spare: false,
            ..arrangement.terminals[0].clone()
        })
        .collect();
    let report = audit::audit(&arrangement, None);
    let rule = report.rule("completeness.marking").unwrap();
    assert_eq!(rule.further.len(), audit::MOST_FURTHER);
    assert_eq!(rule.failures, 60);
}

#[test]
fn two_potentials_of_one_intrinsically_safe_circuit_are_not_separate() {
    let mut arrangement = station();
    find_terminal(&mut arrangement, "X2:1").neighbour_distance_mm = Some(5.9);
    let verdict = |arrangement: &_| {
        let report = audit::audit(arrangement, None);
        let rule = report.rule("distance.intrinsic_circuits").expect("a rule");
        (rule.verdict, rule.cases)
    };
    assert_eq!(verdict(&arrangement), (Verdict::Fails, 3));
    let poles = arrangement.circuits.pop().expect("I2").poles;
    assert_eq!(arrangement.circuits[2].tag, "I1");
    arrangement.circuits[2].poles.extend(poles);
    assert_eq!(verdict(&arrangement), (Verdict::Holds, 2));
}

#[test]
fn a_lamp_rated_by_its_power_needs_no_rated_current() {
    let mut arrangement = station();
    arrangement.elements[2].contacts[0].rated_current_a = None;
    let report = audit::audit(&arrangement, None);
    assert!(report.holds());
    let rule = report.rule("electrical.contact_current").expect("a rule");
    assert_eq!(rule.verdict, Verdict::Holds);
}

#[test]
fn the_larger_centre_distance_lies_in_one_sense_for_the_whole_lid() {
    // Holes D22 one above the other, 30 mm apart: the larger distance, 50 mm, lies across.
    let mut arrangement = station();
    (arrangement.elements[1].x_mm, arrangement.elements[1].y_mm) = (60.0, 165.0);
    let margin = |arrangement: &_| {
        let report = audit::audit(arrangement, None);
        let rule = report.rule("elements.centre_distance").expect("a rule");
        (rule.verdict, rule.margin)
    };
    assert_eq!(margin(&arrangement), (Verdict::Holds, Some(0.0)));
    // A third one 30 mm aside would ask for the other sense.
    (arrangement.elements[2].x_mm, arrangement.elements[2].y_mm) = (90.0, 165.0);
    assert_eq!(margin(&arrangement), (Verdict::Fails, Some(-20.0)));
    // Without the first, that sense serves.
    arrangement.elements.remove(0);
    assert_eq!(margin(&arrangement), (Verdict::Holds, Some(0.0)));
}

#[test]
fn a_short_way_names_both_potentials() {
    let broken = all().find(|broken| broken.what.starts_with("bare parts of the lamp"));
    let broken = broken.expect("a break");
    let mut arrangement = (broken.twin)();
    (broken.cut)(&mut arrangement);
    let report = audit::audit(&arrangement, None);
    let text = &report.rule("distance.clearance").expect("a rule").text;
    for word in ["H1 (`C2/L`)", "X1:8 (`spare`)", "230 V", "3.504 mm"] {
        assert!(text.contains(word), "{word}: {text}");
    }
}

#[test]
fn the_relation_of_a_figure_to_its_limit() {
    let report = audit::audit(&station(), None);
    let mut rule = report.rule("space.wiring").expect("a rule").clone();
    for (required, measured, margin, text, relation) in [
        (5.0, 7.0, 2.0, "", "≥"),
        (5.0, 3.0, -2.0, "", "≥"),
        (5.0, 3.0, 2.0, "", "≤"),
        (5.0, 7.0, -2.0, "", "≤"),
        // On the limit the figures do not tell; the words do.
        (5.0, 5.0, 0.0, "way: 5 mm, at least 5 mm required", "≥"),
        (5.0, 5.0, 0.0, "power: 5 W, at most 5 W required", "≤"),
        (5.0, 5.0, 0.0, "", "="),
    ] {
        rule.required = Some(required);
        rule.measured = Some(measured);
        rule.margin = Some(margin);
        rule.text = text.into();
        assert_eq!(rule.relation(), relation, "{measured} {required} {text}");
    }
    rule.margin = None;
    assert_eq!(rule.relation(), "=");
}

#[test]
fn spare_terminals_are_counted_strip_by_strip() {
    let broken = all().find(|broken| broken.rule == "completeness.spare_terminals");
    let broken = broken.expect("a break");
    let mut arrangement = (broken.twin)();
    (broken.cut)(&mut arrangement);
    let report = audit::audit(&arrangement, None);
    let rule = report.rule("completeness.spare_terminals").expect("a rule");
    assert_eq!(
        (rule.subject.as_slice(), rule.failures),
        (&["X1".to_string()][..], 1)
    );
    assert!(rule.text.contains("with 8 used ones"), "{}", rule.text);
}

#[test]
fn an_estimated_temperature_is_told_to_a_tenth() {
    let report = audit::audit(&hot(), None);
    for id in ["heat.entry_temperature", "heat.branching_temperature"] {
        let rule = report.rule(id).expect("a rule");
        let told = rule
            .text
            .split(": ")
            .nth(1)
            .and_then(|text| text.split(' ').next());
        let told_c: f64 = told
            .and_then(|figure| figure.parse().ok())
            .expect("a figure");
        let measured_c = rule.measured.expect("a figure");
        assert!(
            measured_c > 70.0 && (told_c - measured_c).abs() <= 0.0501,
            "{rule:?}"
        );
    }
}

#[test]
fn two_spare_intrinsically_safe_terminals_are_separate_and_one_unused_core_is_not() {
    let mut arrangement = station();
    find_terminal(&mut arrangement, "X2:2").neighbour_distance_mm = Some(5.9);
    for (potential, verdict, cases) in [("", Verdict::Fails, 3), ("W3/9", Verdict::Holds, 2)] {
        for id in ["X2:2", "X2:3"] {
            find_terminal(&mut arrangement, id).live[0].potential = potential.into();
        }
        let report = audit::audit(&arrangement, None);
        let rule = report.rule("distance.intrinsic_circuits").expect("a rule");
        assert_eq!(
            (rule.verdict, rule.cases),
            (verdict, cases),
            "`{potential}`"
        );
    }
}

#[test]
fn a_class_beyond_the_one_asked_for_serves() {
    let mut arrangement = station();
    arrangement.area.temperature_class = Some(TemperatureClass::T4);
    assert!(audit::audit(&arrangement, None).holds());
}

#[test]
fn what_is_flush_with_a_part_is_not_before_it() {
    let verdict = |id: &str, change: &dyn Fn(&mut Arrangement)| {
        let mut arrangement = station();
        change(&mut arrangement);
        let report = audit::audit(&arrangement, None);
        report.rule(id).expect("a rule").verdict
    };
    for (into_mm, expected) in [(0.0, Verdict::Holds), (0.1, Verdict::Fails)] {
        // An entry below the spare terminal X2:3 and not below X2:2, which has conductors.
        let below = verdict("space.wiring", &|a| {
            let edge_mm = find_terminal(a, "X2:2").body.max.x_mm;
            let inside = &mut a.entries[2].inside;
            (inside.min.x_mm, inside.max.y_mm) = (edge_mm - into_mm, 72.5);
            (inside.min.z_mm, inside.max.z_mm) = (20.0, 40.0);
        });
        assert_eq!(below, expected);
        // An entry below X1 but higher than its terminals.
        let higher = verdict("space.wiring", &|a| {
            let inside = &mut a.entries[0].inside;
            (inside.min.z_mm, inside.max.y_mm) = (57.5 - into_mm, 72.5);
        });
        assert_eq!(higher, expected);
        // A lamp 10 mm higher than what stands on the rail: beside the last end stop, and above X1.
        let beside = verdict("space.element_depth", &|a| {
            let stop = a.accessories[4].body;
            let lamp = &mut a.elements[2].body;
            (lamp.min.x_mm, lamp.max.x_mm) = (stop.max.x_mm - into_mm, stop.max.x_mm + 30.0);
            lamp.min.z_mm = stop.max.z_mm + 10.0;
        });
        assert_eq!(beside, expected);
        let above = verdict("space.element_depth", &|a| {
            let edge_mm = find_terminal(a, "X1:2").body.max.y_mm;
            let lamp = &mut a.elements[2].body;
            (lamp.min.y_mm, lamp.max.y_mm) = (edge_mm - into_mm, edge_mm + 40.0);
            lamp.min.z_mm = 67.5;
        });
        assert_eq!(above, expected);
    }
}

#[test]
fn an_estimate_and_a_method_that_does_not_decide_inform() {
    let verdict = |arrangement, id: &str| {
        let report = audit::audit(&arrangement, None);
        let rule = report.rule(id).unwrap_or_else(|| panic!("no rule {id}"));
        (report.holds(), rule.verdict, rule.margin)
    };
    // Far below the limit and still no permission; above it with the marking, neither.
    for twin in [station(), hot()] {
        for id in ["heat.entry_temperature", "heat.branching_temperature"] {
            let (holds, verdict, margin) = verdict(twin.clone(), id);
            assert!(holds && verdict == Verdict::Informs, "{id}");
            assert!(margin.expect("a margin") > 0.0, "{id}");
        }
    }
    let (_, found, margin) = verdict(untested(), "heat.branching_temperature");
    assert_eq!((found, margin), (Verdict::Informs, None));
    // Whether bundles are kept small is not measured.
    assert_eq!(verdict(bundled(), "heat.bundles").1, Verdict::Informs);
    assert_eq!(verdict(station(), "heat.bundles").1, Verdict::Holds);
    // No centre distance is published for D12, as far as is known here.
    let mut small = station();
    small.elements[1].hole = Some("D12".into());
    small.elements[1].hole_mm = [12.2, 12.2];
    let (holds, found, _) = verdict(small, "elements.centre_distance");
    assert!(holds && found == Verdict::Informs);
    // A single one has none to be apart from.
    let mut single = station();
    single.elements.drain(1..);
    single.elements[0].hole = Some("D12".into());
    single.elements[0].hole_mm = [12.2, 12.2];
    assert_eq!(
        verdict(single, "elements.centre_distance").1,
        Verdict::Holds
    );
    // 8/40 and 4/40; beyond 1 it informs where the rated power alone decides.
    let (_, found, margin) = verdict(arranged(), "heat.defined_arrangement");
    assert_eq!(found, Verdict::Holds);
    assert!((margin.expect("a margin") - 0.7).abs() < 1e-9);
    let mut beyond = arranged();
    beyond.heat.defined_arrangement_decides = false;
    beyond.enclosure.defined_arrangement[0].most_conductors = 8;
    let (holds, found, margin) = verdict(beyond, "heat.defined_arrangement");
    assert!(holds && found == Verdict::Informs);
    assert!((margin.expect("a margin") + 0.1).abs() < 1e-9);
}
