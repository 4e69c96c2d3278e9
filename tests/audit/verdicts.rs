//! What is told and permits nothing, what is derived and not believed, and figures that can be read.

use crate::fixture::{bundled, shielded, station};
use crate::loads::found;
use glandrail::audit::{self, Verdict};
use glandrail::standards::iec_60079_0::GasGroup;
use glandrail::standards::iec_60947_5_1::UtilisationCategory;

#[test]
fn a_partition_that_shields_is_measured_by_its_gap() {
    let rule = found("distance.intrinsic_other", shielded(), |_| ());
    // 1 mm to top and bottom wall, 0.5 mm to lid and plate.
    let figures = (rule.verdict, rule.measured, rule.required, rule.margin);
    assert_eq!(
        figures,
        (Verdict::Holds, Some(1.0), Some(1.5), Some(0.5)),
        "{rule:?}"
    );
    assert!(rule.subject.contains(&"A3".to_string()), "{rule:?}");
    assert!(rule.text.contains("partition A3 shields"), "{}", rule.text);
}

#[test]
fn a_colour_is_not_judged_for_a_function_that_the_standard_does_not_name() {
    for (id, element) in [("elements.button_colour", 1), ("elements.lamp_colour", 2)] {
        assert_eq!(found(id, station(), |_| ()).verdict, Verdict::Holds);
        let rule = found(id, station(), |a| {
            a.elements[element].function = "stirring".into()
        });
        assert_eq!(rule.verdict, Verdict::Informs, "{rule:?}");
        assert!(rule.text.contains("`stirring`"), "{}", rule.text);
        assert!(rule.text.contains("not judged"), "{}", rule.text);
    }
}

#[test]
fn a_load_that_is_not_stated_is_told_and_judged_by_the_severe_categories() {
    let unstated = found("elements.utilisation", station(), |a| {
        a.circuits[0].load = None;
        let contacts = a.elements.iter_mut().flat_map(|one| &mut one.contacts);
        for rows in contacts
            .map(|one| &mut one.utilisation)
            .filter(|rows| !rows.is_empty())
        {
            let mut direct = rows[0].clone();
            (direct.category, direct.current_a) = (UtilisationCategory::Dc13, 2.0);
            rows.push(direct);
        }
    });
    let figures = (unstated.verdict, unstated.measured, unstated.required);
    assert_eq!(
        figures,
        (Verdict::Informs, Some(2.0), Some(2.0)),
        "{unstated:?}"
    );
    assert!(unstated.text.contains("DC-13"), "{}", unstated.text);
    assert!(unstated.text.contains("not stated"), "{}", unstated.text);
    // A lighter load of the same kind of current is served by the severe rating.
    let lighter = found("elements.utilisation", station(), |a| {
        a.circuits[0].load = Some(UtilisationCategory::Ac12);
    });
    assert_eq!(lighter.verdict, Verdict::Holds);
}

#[test]
fn a_limit_below_common_practice_is_told() {
    let rule = found("record.limits", station(), |a| a.limits.tolerance_mm = 0.0);
    let figures = (rule.verdict, rule.measured, rule.required);
    assert_eq!(
        figures,
        (Verdict::Informs, Some(0.0), Some(2.0)),
        "{rule:?}"
    );
    assert!(rule.text.contains("`tolerance_mm`"), "{}", rule.text);
    let wiring = found("record.limits", station(), |a| {
        a.limits.wiring_space[0].space_mm = 29.0;
    });
    assert_eq!(
        (wiring.verdict, wiring.required),
        (Verdict::Informs, Some(30.0))
    );
}

#[test]
fn a_plastic_box_small_enough_for_its_group_needs_no_warning_of_charging() {
    // 260 × 260 mm are 67 600 mm²; what its parts are certified for counts, IIC.
    let rule = |change: &dyn Fn(&mut glandrail::arrangement::Arrangement)| {
        found("completeness.warning_charging", station(), |a| {
            a.notices.clear();
            change(a);
        })
    };
    assert_eq!(rule(&|_| ()).verdict, Verdict::Fails);
    let side = |mm: f64| {
        move |a: &mut glandrail::arrangement::Arrangement| a.enclosure.outer_mm = [mm, mm, mm]
    };
    assert_eq!(rule(&side(44.0)).verdict, Verdict::Holds);
    assert_eq!(rule(&side(45.0)).verdict, Verdict::Fails);
    // One part for IIB alone: the box cannot be marked IIC.
    let weaker = rule(&|a| {
        side(99.0)(a);
        a.terminals[0].certificate.gas_group = Some(GasGroup::IIB);
    });
    assert_eq!(weaker.verdict, Verdict::Holds);
}

#[test]
fn figures_of_a_failure_differ_in_words_too() {
    let mut small = station();
    small.heat.power_w *= 1.0011;
    let rule = audit::audit(&small, None);
    let text = &rule.rule("heat.sum").expect("a rule").text;
    let watts: Vec<&str> = text
        .split(|sign: char| sign != '.' && !sign.is_ascii_digit())
        .filter(|word| word.starts_with(|sign: char| sign.is_ascii_digit()))
        .collect();
    // Recorded, reckoned again, at 20 °C; their difference, the permitted one.
    assert_eq!(watts.len(), 5, "{text}");
    assert!(watts[0] != watts[1] && watts[3] != watts[4], "{text}");
    let untold = found("heat.bundles", bundled(), |a| a.notices.clear());
    let figures = (untold.verdict, untold.measured, untold.required);
    assert_eq!(
        figures,
        (Verdict::Fails, Some(11.0), Some(6.0)),
        "{untold:?}"
    );
}
