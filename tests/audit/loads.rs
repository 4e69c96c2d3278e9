//! Currents, heat, earth and the relation of figures, against ones reckoned by hand.

use crate::fixture::{arranged, find_terminal, hot, station};
use glandrail::arrangement::*;
use glandrail::audit::{self, RuleResult, Verdict};
use glandrail::catalogue::{IpCode, SectionRating};
use glandrail::standards::iec_60079_0::EquipmentProtectionLevel;

/// What one rule says of an arrangement after a change.
pub fn found(
    id: &str,
    mut arrangement: Arrangement,
    change: impl FnOnce(&mut Arrangement),
) -> RuleResult {
    change(&mut arrangement);
    let report = audit::audit(&arrangement, None);
    report.rule(id).expect("a rule").clone()
}

#[test]
fn copper_is_reckoned_at_the_reference_temperature() {
    // Copper at 80 °C: 1 + 60 × 0.00393 (IEC 60228) of what it has at 20 °C; the lamp stays as it is.
    for (reference_c, ratio) in [(20.0, 1.0), (80.0, 1.2358)] {
        let rule = found("heat.sum", station(), |a| {
            // Every kind with a share that counts.
            a.jumpers[0].resistance_mohm = 30.0;
            for terminal in &mut a.terminals {
                terminal.resistance_mohm = 20.0;
            }
            // A second level without conductors adds nothing.
            let level = a.terminals[0].live[0].clone();
            a.terminals[0].live.push(level);
            a.heat.reference_c = reference_c;
            let cold_w = a.heat.power_w - 1.0
                + 1.6_f64.powi(2) * (4.0 * 19.4 + 29.7) / 1000.0
                + (2.0 * 0.05_f64.powi(2) + 2.0 * 0.02_f64.powi(2)) * 19.4 / 1000.0;
            a.heat.power_w = cold_w * ratio + 1.0;
            a.heat.power_at_limit_w = cold_w * 1.2358 + 1.0;
        });
        assert_eq!(rule.verdict, Verdict::Holds, "{rule:?}");
        // A thousandth may come from rounding, no more: it is far more than this sum is off.
        let measured = rule.measured.expect("a difference");
        assert!(measured < 1e-6, "{rule:?}");
    }
}

#[test]
fn what_a_terminal_is_recorded_with_is_what_it_carries() {
    let verdict = |change: fn(&mut PlacedTerminal)| {
        let rule = found("electrical.recorded_load", station(), |a| {
            change(find_terminal(a, "X1:1"))
        });
        rule.verdict
    };
    assert_eq!(verdict(|_| ()), Verdict::Holds);
    assert_eq!(verdict(|one| one.working_voltage_v = 229.0), Verdict::Fails);
    assert_eq!(verdict(|one| one.current_a = 1.9), Verdict::Fails);
    // Of a terminal that is recorded without a voltage the circuit still tells it.
    let rule = found("electrical.terminal_voltage", station(), |a| {
        let terminal = find_terminal(a, "X1:1");
        (terminal.working_voltage_v, terminal.rated_voltage_v) = (0.0, 229.0);
    });
    assert_eq!((rule.verdict, rule.required), (Verdict::Fails, Some(230.0)));
}

#[test]
fn a_jumper_carries_what_one_side_can_send_to_the_other() {
    // Recorded with less than the 2 A of its circuit.
    let rule = found("electrical.jumper_current", station(), |a| {
        a.jumpers[0].current_a = 0.0;
        a.jumpers[0].rated_current_a = 1.9;
    });
    assert_eq!(rule.verdict, Verdict::Fails, "{rule:?}");
    // Two conductors of 2 A on the one terminal, one on the other: 2 A pass, whatever the supply has.
    let rule = found("electrical.jumper_current", station(), |a| {
        a.jumpers[0].current_a = 0.0;
        a.circuits[0].current_a = 5.0;
    });
    assert_eq!(rule.required, Some(2.0), "{rule:?}");
}

#[test]
fn of_the_rows_up_to_the_section_the_largest_counts() {
    let rule = found("electrical.terminal_current", station(), |a| {
        let row = |section_mm2, current_a| SectionRating {
            section_mm2,
            current_a,
        };
        find_terminal(a, "X1:1").ratings = vec![row(1.0, 11.0), row(1.5, 1.9), row(2.5, 21.0)];
    });
    assert_eq!(
        (rule.verdict, rule.measured, rule.required),
        (Verdict::Fails, Some(1.9), Some(2.0))
    );
}

#[test]
fn a_contact_block_is_not_rated_by_the_power_of_its_lamp() {
    for change in [
        |a: &mut Arrangement| {
            a.elements[0].power_w = 1.0;
            a.elements[0].contacts[0].rated_current_a = None;
        },
        |a: &mut Arrangement| {
            a.elements[2].power_w = 0.0;
            a.elements[2].contacts[0].rated_current_a = None;
        },
    ] {
        let rule = found("electrical.contact_current", station(), change);
        assert!(rule.verdict.is_failing(), "{rule:?}");
    }
}

#[test]
fn the_hottest_terminal_counts_wherever_it_stands() {
    let figure = |arrangement, change: fn(&mut Arrangement)| {
        let rule = found("heat.branching_temperature", arrangement, change);
        rule.measured.expect("a temperature")
    };
    let first_c = figure(hot(), |_| ());
    // Another terminal with a core and the same current.
    let later_c = figure(hot(), |a| {
        a.terminals[0].rise_at_rated_k = Some(34.0);
        a.terminals[3].rise_at_rated_k = Some(250.0);
    });
    assert!((first_c - later_c).abs() < 1e-9, "{first_c} {later_c}");
}

#[test]
fn elements_and_contacts_with_heat_are_beyond_a_defined_arrangement() {
    for change in [
        |a: &mut Arrangement| a.elements[0].power_w = 1.0,
        |a: &mut Arrangement| a.elements[0].contacts[0].points[0].current_a = 1.0,
    ] {
        let rule = found("heat.defined_arrangement", arranged(), change);
        assert!(rule.verdict.is_failing(), "{rule:?}");
    }
}

#[test]
fn degrees_of_protection_that_may_stand_for_another() {
    // IEC 60529: immersion and cleaning jets are tests of their own.
    for (given, asked, serves) in [
        ("IP66", "IP66", true),
        ("IP66", "IP65", true),
        ("IP65", "IP66", false),
        ("IP56", "IP66", false),
        ("IP67", "IP67", true),
        ("IP68", "IP67", true),
        ("IP67", "IP68", false),
        ("IP67", "IP66", false),
        ("IP67", "IP64", true),
    ] {
        let code = |text: &str| IpCode::try_from(text.to_string()).expect("a code");
        let rule = found("suitability.ip", station(), |a| {
            a.area.ip = code(asked);
            a.enclosure.certificate.ip = Some(code(given));
            for entry in &mut a.entries {
                entry.part.certificate.ip = Some(code(given));
            }
            for element in &mut a.elements {
                element.certificate.ip = Some(code(given));
            }
        });
        assert_eq!(rule.verdict == Verdict::Holds, serves, "{given} {asked}");
    }
}

#[test]
fn gas_and_dust_need_their_own_data_only() {
    let verdict = |level, change: fn(&mut AreaRecord)| {
        let rule = found("suitability.area", station(), |a| {
            a.area.epl = vec![level];
            change(&mut a.area);
        });
        rule.verdict
    };
    use EquipmentProtectionLevel::{Db, Gb};
    let without_dust = |area: &mut AreaRecord| (area.dust_group, area.max_surface_c) = (None, None);
    let without_gas =
        |area: &mut AreaRecord| (area.gas_group, area.temperature_class) = (None, None);
    assert_eq!(verdict(Gb, without_dust), Verdict::Holds);
    assert_eq!(verdict(Db, without_gas), Verdict::Holds);
    assert!(verdict(Db, without_dust).is_failing());
    assert!(verdict(Gb, without_gas).is_failing());
}

#[test]
fn a_terminal_is_called_by_its_strip_and_number() {
    let numbered = found("completeness.numbering", station(), |a| {
        a.terminals[7].number = 80
    });
    assert_eq!((numbered.verdict, numbered.failures), (Verdict::Fails, 1));
    let twice = found("completeness.numbering", station(), |a| {
        let again = a.terminals[7].clone();
        a.terminals.push(again);
    });
    assert_eq!((twice.verdict, twice.failures), (Verdict::Fails, 1));
    let possible = found("record.numbers", station(), |_| ());
    assert_eq!((possible.verdict, possible.cases), (Verdict::Holds, 1));
}

#[test]
fn rows_of_two_ambient_temperatures_are_two_tables() {
    let rule = found("heat.defined_arrangement", arranged(), |a| {
        a.enclosure.defined_arrangement[1].ambient_c = 45.0;
    });
    assert!(rule.verdict.is_failing(), "{rule:?}");
    // A row just above what the conductors carry serves, one just below does not.
    for (current_a, serves) in [(0.02, true), (0.019, false)] {
        let rule = found("heat.defined_arrangement", arranged(), |a| {
            a.enclosure.defined_arrangement[1].current_a = current_a;
        });
        assert_eq!(rule.verdict == Verdict::Holds, serves, "{rule:?}");
    }
}

#[test]
fn what_is_wired_has_a_bare_part_of_its_own_potential() {
    let rule = found("record.live_parts", station(), |a| {
        a.elements[0].live[1].potential = "C1/L".into();
    });
    assert_eq!((rule.verdict, rule.failures), (Verdict::Fails, 1));
    assert!(rule.text.contains("`C1/S` of point 12"), "{}", rule.text);
}

#[test]
fn earth_is_told_by_the_potential_or_by_the_core() {
    // Core PE of W1 on an ordinary terminal, under a potential of its own.
    let ordinary = |a: &mut Arrangement| {
        a.wires[12].to = WireEnd::Terminal {
            terminal: "X1:8".into(),
            level: 0,
            side: Side::Lower,
        };
    };
    let of = |change: fn(&mut Wire)| {
        let rule = found("completeness.earth", station(), |a| {
            ordinary(a);
            change(&mut a.wires[12]);
        });
        (rule.verdict, rule.failures)
    };
    assert_eq!(
        of(|wire| wire.potential = "W1/PE".into()),
        (Verdict::Fails, 1)
    );
    // The potential alone, whatever the core is called.
    let renamed = of(|wire| {
        wire.from = WireEnd::Core {
            cable: "W1".into(),
            core: "5".into(),
        };
    });
    assert_eq!(renamed, (Verdict::Fails, 1));
    // Neither: an ordinary core on an ordinary terminal is none of this rule's.
    let neither = of(|wire| {
        wire.potential = "W1/5".into();
        wire.from = WireEnd::Core {
            cable: "W1".into(),
            core: "5".into(),
        };
    });
    assert_eq!(neither.0, Verdict::Holds);
    // From an ordinary terminal to the earth terminal.
    let bridged = found("completeness.earth", station(), |a| {
        a.wires[12].from = WireEnd::Terminal {
            terminal: "X1:8".into(),
            level: 0,
            side: Side::Lower,
        };
    });
    assert_eq!((bridged.verdict, bridged.failures), (Verdict::Fails, 1));
}

#[test]
fn a_figure_near_its_limit_keeps_its_relation() {
    let mut rule = found("space.wiring", station(), |_| ());
    for (required, measured, margin, relation) in [
        (5.0, 4.9, 0.1, "≤"),
        (5.0, 5.1, 0.1, "≥"),
        (5.0, 5.1, -0.1, "≤"),
        (5.0, 4.9, -0.1, "≥"),
    ] {
        (rule.required, rule.measured, rule.margin) =
            (Some(required), Some(measured), Some(margin));
        rule.text.clear();
        assert_eq!(rule.relation(), relation, "{measured} {required}");
    }
}

#[test]
fn a_conductor_is_reckoned_with_its_whole_circuit_where_nothing_divides_it() {
    let verdict = |wire: usize| {
        let rule = found("electrical.wire_current", station(), |a| {
            a.wires[wire].current_a /= 2.0
        });
        rule.verdict
    };
    // To the contact that feeds two ends; from a core to the only end; to the lamp.
    for wire in [2, 6, 8] {
        assert_eq!(verdict(wire), Verdict::Fails, "conductor {wire}");
    }
    // One of the two ends behind the emergency stop.
    assert_eq!(verdict(3), Verdict::Holds);
}

#[test]
fn a_row_of_the_certificate_is_one_class_ambient_and_power_together() {
    // 8 W at 40 °C and 6 W at 50 °C are stated, 6 W at 40 °C is no row.
    let rule = found("heat.row", station(), |a| a.heat.rated_power_w = 6.0);
    assert_eq!(rule.verdict, Verdict::Fails, "{rule:?}");
}

#[test]
fn a_cable_s_diameter_lies_in_its_own_range() {
    let verdict = |diameter_mm: f64| {
        let rule = found("entries.clamping", station(), |a| {
            (a.cables[0].diameter_mm, a.cables[0].diameter_range_mm) = (diameter_mm, [16.0, 18.0]);
        });
        rule.verdict
    };
    for (diameter_mm, expected) in [
        (15.9, Verdict::Fails),
        (16.0, Verdict::Holds),
        (18.0, Verdict::Holds),
        (18.1, Verdict::Fails),
    ] {
        assert_eq!(verdict(diameter_mm), expected, "{diameter_mm} mm");
    }
}
