//! Places and sums of the record at and just beyond their limits: holes in their footprints, parts on their rail,
//! totals.

use crate::fixture::{find_terminal, station};
use crate::lengths::{fails_by, shift};
use crate::loads;
use glandrail::arrangement::*;
use glandrail::audit::{RuleResult, Verdict};
use glandrail::space::Rect;

/// What one rule says of the station after a change.
fn found(id: &str, change: impl FnOnce(&mut Arrangement)) -> RuleResult {
    loads::found(id, station(), change)
}

#[test]
fn a_hole_lies_in_its_footprint_to_each_edge() {
    // A slot of 22.3 × 30.5 mm round (60, 195), in a footprint of just that size.
    let rule = |smaller: [f64; 4]| {
        found("record.coordinates", |a| {
            let stop = &mut a.elements[0];
            stop.hole_mm = [22.3, 30.5];
            let [left, right, lower, upper] = smaller;
            stop.footprint = Rect::new(
                60.0 - 11.15 + left,
                195.0 - 15.25 + lower,
                22.3 - left - right,
                30.5 - lower - upper,
            );
        })
    };
    assert_eq!(rule([0.0; 4]).verdict, Verdict::Holds);
    for edge in 0..4 {
        let mut smaller = [0.0; 4];
        smaller[edge] = 1.0;
        let rule = rule(smaller);
        fails_by(&rule, 1.0);
        assert!(rule.text.contains("the hole of S0"), "{}", rule.text);
    }
}

#[test]
fn a_part_ends_with_its_rail_and_lies_over_its_middle() {
    // The rail reaches from 12 to 242 mm, its middle lies at 100 mm, half of a terminal is 22.5 mm.
    fails_by(
        &found("space.on_rail", |a| {
            shift(&mut a.accessories[0].body, 0, -1.0)
        }),
        1.0,
    );
    fails_by(
        &found("space.on_rail", |a| a.accessories[4].body.max.x_mm = 243.0),
        1.0,
    );
    for by_mm in [23.5, -23.5] {
        let rule = found("space.on_rail", |a| {
            shift(&mut find_terminal(a, "X1:1").body, 1, by_mm)
        });
        fails_by(&rule, 1.0);
    }
}

#[test]
fn a_total_may_be_off_by_its_share_and_by_what_rounding_adds() {
    // 0.1 % and half a hundredth.
    let verdict = |off: fn(f64) -> f64| {
        let mass = found("record.totals", |a| a.mass_kg += off(a.mass_kg));
        let price = found("record.totals", |a| a.price += off(a.price));
        assert_eq!(mass.verdict, price.verdict);
        mass.verdict
    };
    assert_eq!(verdict(|sum| sum * 0.001 + 0.005), Verdict::Holds);
    assert_eq!(verdict(|sum| -sum * 0.001 - 0.005), Verdict::Holds);
    assert_eq!(verdict(|sum| sum * 0.001 + 0.005_01), Verdict::Fails);
    assert_eq!(verdict(|sum| -sum * 0.001 - 0.005_01), Verdict::Fails);
}

#[test]
fn each_rail_has_a_row_of_its_own() {
    // The intrinsically safe strip and what closes it moved to a second rail: the first row has lost its right end
    // stop, the second one never had a left one.
    let rule = found("completeness.end_stops", |a| {
        let mut rail = a.rails[0].clone();
        rail.id = "R2".into();
        a.rails.push(rail);
        let strip = a.terminals.iter_mut().filter(|part| part.strip == "X2");
        strip.for_each(|part| part.rail = "R2".into());
        for part in &mut a.accessories[3..] {
            part.rail = "R2".into();
        }
    });
    assert_eq!((rule.verdict, rule.failures), (Verdict::Fails, 2));
    let further = rule.further.iter().map(|case| &case.subject);
    let subjects: Vec<_> = [&rule.subject].into_iter().chain(further).collect();
    assert_eq!(subjects, [&["R1", "A3"], &["R2", "X2:1"]]);
    assert!(rule.text.ends_with("A3 at the right"), "{}", rule.text);
}

#[test]
fn a_point_of_an_element_has_its_own_voltage() {
    // 10 kV on one point of the lamp: its bare part alone is too near to whatever is earthed.
    let rule = found("distance.earthed_metal", |a| {
        a.elements[2].contacts[0].points[0].working_voltage_v = 10_000.0;
    });
    assert_eq!(rule.verdict, Verdict::Fails);
    let texts = rule.further.iter().map(|case| case.text.as_str());
    for text in texts.chain([rule.text.as_str()]) {
        assert!(text.contains("H1 (`C2/L`)"), "{text}");
    }
}
