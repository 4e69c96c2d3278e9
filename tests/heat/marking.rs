//! The proposed marking: strings from the parts used, warnings with figures, what is missing.

use crate::boxes::{all, named};
use glandrail::arrangement::Arrangement;
use glandrail::heat::Determined;
use glandrail::marking::{LabelKind, Marking, marking};
use glandrail::standards::{DustGroup, EquipmentProtectionLevel, GasGroup, TemperatureClass};

fn gas(marking: &Marking) -> &str {
    let gas = marking.gas.as_ref().expect("asked for");
    &gas.known().expect("determined").text
}

fn notice<'a>(marking: &'a Marking, code: &str) -> Option<&'a glandrail::marking::Notice> {
    marking.warnings.iter().find(|notice| notice.code == code)
}

/// The area of a box as one for dust, alone or with gas.
fn for_dust(arrangement: &mut Arrangement, with_gas: bool) {
    arrangement.area.epl = vec![EquipmentProtectionLevel::Db];
    if with_gas {
        arrangement.area.epl.insert(0, EquipmentProtectionLevel::Gb);
    }
    arrangement.area.dust_group = Some(DustGroup::IIIC);
}

#[test]
fn the_examples_are_marked_by_the_parts_they_use() {
    let expected = [
        ("jetty-npt-awg", "Ex eb IIC T4 Gb", None),
        (
            "level-mixed-signals",
            "Ex eb ia IIC T6 Gb",
            Some("-20 °C ≤ Ta ≤ +50 °C"),
        ),
        ("mixer-control-station", "Ex db eb mb IIC T6 Gb", None),
        (
            "tank-farm-junction",
            "Ex eb IIC T6 Gb",
            Some("-20 °C ≤ Ta ≤ +45 °C"),
        ),
        ("transfer-pump-power", "Ex eb IIC T5 Gb", None),
    ];
    for (name, string, ambient) in expected {
        let found = marking(&named(name));
        assert_eq!(gas(&found), string, "{name}");
        assert!(found.dust.is_none(), "{name}");
        assert_eq!(
            found.ambient.known().expect("known").as_deref(),
            ambient,
            "{name}"
        );
        assert!(found.note.contains("proposal for the certificate holder"));
        assert!(notice(&found, "do-not-open").is_some(), "{name}");
        assert!(!found.certificates.is_empty());
    }
}

#[test]
fn gas_and_dust_have_strings_of_their_own() {
    let mut arrangement = named("level-mixed-signals");
    for_dust(&mut arrangement, true);
    let found = marking(&arrangement);
    assert_eq!(gas(&found), "Ex eb ia IIC T6 Gb");
    let dust = found
        .dust
        .as_ref()
        .and_then(Determined::known)
        .expect("known");
    // The limit of T6: the rating's type test stays 5 K below it, as dust asks.
    assert_eq!(dust.text, "Ex ia tb IIIC T85 °C Db");
    for_dust(&mut arrangement, false);
    let found = marking(&arrangement);
    assert!(found.gas.is_none());
    assert_eq!(found.lines()[0], "Ex ia tb IIIC T85 °C Db");
    let mut arrangement = named("mixer-control-station");
    for_dust(&mut arrangement, false);
    // Encapsulated lamps are kept from dust by their enclosure too.
    assert_eq!(marking(&arrangement).lines()[0], "Ex tb IIIC T85 °C Db");
}

#[test]
fn intrinsic_safety_counts_only_where_it_is_used() {
    let mut arrangement = named("tank-farm-junction");
    for terminal in &mut arrangement.terminals {
        terminal.certificate.protection = vec!["eb".into(), "ia".into()];
    }
    assert_eq!(gas(&marking(&arrangement)), "Ex eb IIC T6 Gb");
}

#[test]
fn the_weakest_part_decides_group_and_level() {
    let mut arrangement = named("tank-farm-junction");
    arrangement.entries[2].part.certificate.gas_group = Some(GasGroup::IIB);
    assert_eq!(gas(&marking(&arrangement)), "Ex eb IIB T6 Gb");
    arrangement.terminals[0].certificate.epl = vec![EquipmentProtectionLevel::Gc];
    assert_eq!(gas(&marking(&arrangement)), "Ex eb IIB T6 Gc");
    // The level of protection bounds it as well: ec gives Gc whatever stands beside it.
    let mut arrangement = named("tank-farm-junction");
    arrangement.terminals[0].certificate.protection = vec!["ec".into()];
    assert_eq!(gas(&marking(&arrangement)), "Ex eb ec IIC T6 Gc");
    arrangement.heat.row_class = TemperatureClass::T5;
    assert_eq!(gas(&marking(&arrangement)), "Ex eb ec IIC T5 Gc");
}

#[test]
fn missing_certificate_data_are_named_and_no_string_is_given() {
    type Change = fn(&mut Arrangement);
    let changes: [(Change, &str); 5] = [
        (|a| a.enclosure.certificate.gas_group = None, "no gas group"),
        (
            |a| a.entries[0].part.certificate.protection.clear(),
            "no type of protection",
        ),
        (
            |a| a.terminals[3].certificate.epl.clear(),
            "no equipment protection level",
        ),
        (
            |a| a.accessories[0].certificate.protection = vec!["xy".into()],
            "`xy` is no level",
        ),
        (
            |a| a.terminals[3].certificate.protection = vec!["tb".into()],
            "for gas",
        ),
    ];
    for (change, words) in changes {
        let mut arrangement = named("tank-farm-junction");
        change(&mut arrangement);
        let found = marking(&arrangement);
        let missing = found.not_determined();
        assert_eq!(missing.len(), 1, "{words}");
        assert!(missing[0].1.contains(words), "{missing:?}");
        assert!(
            found.lines().iter().all(|line| !line.starts_with("Ex ")),
            "{words}"
        );
    }
    // Many gaps: three are named, the others counted.
    let mut arrangement = named("tank-farm-junction");
    for terminal in &mut arrangement.terminals {
        terminal.certificate.gas_group = None;
    }
    let found = marking(&arrangement);
    let count = arrangement.terminals.len() - 3;
    assert!(
        found.not_determined()[0]
            .1
            .ends_with(&format!("and {count} more"))
    );
}

#[test]
fn the_ambient_range_is_rounded_outwards_and_never_past_the_rating() {
    let mut arrangement = named("tank-farm-junction");
    arrangement.area.ambient_c = [-20.5, 45.2];
    let found = marking(&arrangement);
    assert_eq!(
        found.ambient.known().expect("known").as_deref(),
        Some("-21 °C ≤ Ta ≤ +46 °C")
    );
    arrangement.heat.row_ambient_c = 45.5;
    assert!(marking(&arrangement).ambient.reason().is_some());
    arrangement.area.ambient_c = [-20.0, f64::NAN];
    assert!(marking(&arrangement).ambient.reason().is_some());
}

#[test]
fn plastic_is_warned_of_above_the_surface_of_its_group() {
    let mut arrangement = named("tank-farm-junction");
    let warned = |arrangement: &Arrangement| {
        notice(&marking(arrangement), "electrostatic").map(|notice| notice.reason.clone())
    };
    // 240 × 240 mm, marked IIC.
    let reason = warned(&arrangement).expect("warned");
    assert!(
        reason.contains("57600 mm²") && reason.contains("2000 mm²"),
        "{reason}"
    );
    // The same wall in IIB: 10 000 mm².
    arrangement.enclosure.certificate.gas_group = Some(GasGroup::IIB);
    assert!(warned(&arrangement).expect("warned").contains("10000 mm²"));
    arrangement.enclosure.outer_mm = [100.0, 100.0, 100.0];
    assert_eq!(warned(&arrangement), None);
    arrangement.enclosure.outer_mm = [90.0, 90.0, 112.0];
    assert!(warned(&arrangement).is_some(), "the largest side counts");
    // Without a limit at hand there is no permission.
    for_dust(&mut arrangement, false);
    assert!(warned(&arrangement).is_some());
    assert_eq!(warned(&named("transfer-pump-power")), None, "metal");
}

#[test]
fn a_hot_entry_is_noted_outside_and_an_unknown_one_too() {
    let mut arrangement = named("transfer-pump-power");
    assert!(notice(&marking(&arrangement), "cable-temperature").is_none());
    arrangement.heat.power_at_limit_w = 28.0;
    let found = marking(&arrangement);
    let note = notice(&found, "cable-temperature").expect("noted");
    let cable_c: f64 = note
        .text
        .split_whitespace()
        .find_map(|word| word.parse().ok())
        .expect("a temperature");
    assert!(cable_c > 80.0 && cable_c % 5.0 == 0.0, "{}", note.text);
    let label = found.labels.iter().find(|label| label.text == note.text);
    assert_eq!(label.expect("a label").kind, LabelKind::Warning);
    for terminal in &mut arrangement.terminals {
        terminal.rise_at_rated_k = None;
    }
    arrangement.heat.power_at_limit_w = 5.0;
    let found = marking(&arrangement);
    let note = notice(&found, "cable-temperature").expect("noted");
    assert!(note.reason.starts_with("not determined"), "{}", note.reason);
}

#[test]
fn a_box_of_intrinsically_safe_circuits_alone_may_be_opened() {
    let mut arrangement = named("level-mixed-signals");
    assert!(notice(&marking(&arrangement), "intrinsically-safe").is_some());
    let safe = glandrail::catalogue::CircuitKind::IntrinsicallySafe;
    arrangement.circuits.retain(|circuit| circuit.kind == safe);
    arrangement
        .terminals
        .retain(|terminal| terminal.kind == safe);
    let found = marking(&arrangement);
    assert!(notice(&found, "do-not-open").is_none());
    assert!(notice(&found, "intrinsically-safe").is_some());
}

#[test]
fn every_part_that_is_read_has_its_label() {
    for (name, arrangement) in all() {
        let found = marking(arrangement);
        let count = |kind| {
            found
                .labels
                .iter()
                .filter(|label| label.kind == kind)
                .count()
        };
        assert_eq!(count(LabelKind::TagPlate), 1, "{name}");
        assert_eq!(found.labels[0].kind, LabelKind::TagPlate, "{name}");
        assert!(
            found.labels[0].text.starts_with(&arrangement.job.tag),
            "{name}"
        );
        assert_eq!(
            count(LabelKind::TerminalNumber),
            arrangement.terminals.len(),
            "{name}"
        );
        assert_eq!(count(LabelKind::Strip), arrangement.strips.len(), "{name}");
        assert_eq!(
            count(LabelKind::Element),
            arrangement.elements.len(),
            "{name}"
        );
        assert_eq!(count(LabelKind::Cable), arrangement.cables.len(), "{name}");
        assert_eq!(count(LabelKind::Warning), found.warnings.len(), "{name}");
        assert_eq!(
            count(LabelKind::EarthSymbol),
            found.earth_symbols.len(),
            "{name}"
        );
    }
    let labels = marking(&named("mixer-control-station")).labels;
    let stop = labels
        .iter()
        .find(|label| label.place == "S0")
        .expect("an emergency stop");
    assert_eq!(stop.text, "EMERGENCY STOP");
}

#[test]
fn a_metal_box_without_an_external_earth_terminal_is_not_passed_over() {
    let mut arrangement = named("transfer-pump-power");
    let outside = |arrangement: &Arrangement| {
        let symbols = marking(arrangement).earth_symbols;
        let found = symbols.into_iter().find(|symbol| symbol.place == "outside");
        found.expect("a symbol outside").marks
    };
    assert!(outside(&arrangement).contains("mm²"));
    arrangement.enclosure.external_earth_mm2 = None;
    assert!(outside(&arrangement).contains("names none"));
}

#[test]
fn what_is_missing_is_said_instead_of_the_line() {
    let missing = |what: &str, change: fn(&mut Arrangement)| {
        let mut arrangement = named("mixer-control-station");
        let before = marking(&arrangement);
        assert!(before.not_determined().is_empty(), "{what}");
        change(&mut arrangement);
        let found = marking(&arrangement);
        let told = found.not_determined();
        assert_eq!(told.len(), 1, "{told:?}");
        assert_eq!(told[0].0, what);
        assert!(told[0].1.contains("missing"), "{told:?}");
        (before.lines().len(), found.lines().len())
    };
    let (before, after) = missing("degree of protection", |a| {
        a.enclosure.certificate.ip = None
    });
    assert_eq!(after, before - 1);
    let (before, after) = missing("degree of protection", |a| {
        a.elements[0].certificate.ip = None;
    });
    assert_eq!(after, before - 1);
    // The usual range needs no line; that a service range is missing is said all the same.
    missing("ambient range", |a| {
        a.terminals[0].certificate.service_c = None
    });
    let (before, after) = missing("certificates", |a| {
        a.entries[0].part.certificate.number = None
    });
    assert_eq!(
        after, before,
        "the strings stand, with what they lack beside them"
    );
}

#[test]
fn what_is_in_the_walls_lowers_the_degree_of_protection() {
    let ip = |text: &str| text.to_string().try_into().ok();
    let mut arrangement = named("mixer-control-station");
    arrangement.enclosure.certificate.ip = ip("IP66");
    arrangement.area.ip = ip("IP54").expect("a degree");
    arrangement.entries[0].part.certificate.ip = ip("IP65");
    let known = |arrangement: &Arrangement| marking(arrangement).ip.known().cloned();
    assert_eq!(known(&arrangement).as_deref(), Some("IP54"));
    arrangement.area.ip = ip("IP66").expect("a degree");
    assert_eq!(known(&arrangement), None);
    let reason = marking(&arrangement).ip;
    assert!(
        reason.reason().is_some_and(|why| why.contains("IP65")),
        "{reason:?}"
    );
    // A part that may not be used in the ambient range takes the line away.
    arrangement.terminals[0].certificate.service_c = Some([-10.0, 40.0]);
    assert!(marking(&arrangement).ambient.reason().is_some());
}
