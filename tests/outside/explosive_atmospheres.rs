//! IEC 60079-0: temperature classes, the margin of the type test, and what covers what, against
//! figures printed in the standard's reprints and in a textbook on installations (McMillan, 1998).

use glandrail::standards::TemperatureClass::{self, T1, T2, T3, T4, T5, T6};
use glandrail::standards::iec_60079_0::{
    ambient_marking, dust_type_test_margin_k, gas_marking, plastic_surface_limit_mm2,
    protective_conductor_mm2,
};
use glandrail::standards::{
    DustGroup, EquipmentProtectionLevel, GasGroup, LevelOfProtection, Zone,
};

#[test]
fn classes_margins_and_self_heating_as_printed() {
    // Class, limit, limit after the margin, self-heating left at 40 °C.
    let rows = [
        (T1, 450.0, 440.0, 400.0),
        (T2, 300.0, 290.0, 250.0),
        (T3, 200.0, 195.0, 155.0),
        (T4, 135.0, 130.0, 90.0),
        (T5, 100.0, 95.0, 55.0),
        (T6, 85.0, 80.0, 40.0),
    ];
    for (class, limit, tested, heating) in rows {
        assert_eq!(class.limit_c(), limit);
        assert_eq!(class.limit_after_margin_c(), tested);
        assert_eq!(class.self_heating_k(40.0), heating);
    }
    assert_eq!(
        T3.self_heating_k(100.0),
        95.0,
        "the end limit stays at another ambient"
    );
    assert_eq!(
        (
            dust_type_test_margin_k(200.0),
            dust_type_test_margin_k(201.0)
        ),
        (5.0, 10.0)
    );
}

#[test]
fn covering_is_an_order() {
    for (index, class) in TemperatureClass::ALL.iter().enumerate() {
        for (other_index, other) in TemperatureClass::ALL.iter().enumerate() {
            assert_eq!(class.covers(*other), index >= other_index);
        }
    }
    assert!(GasGroup::IIC.covers(GasGroup::IIA) && !GasGroup::IIA.covers(GasGroup::IIB));
    assert!(DustGroup::IIIC.covers(DustGroup::IIIB) && !DustGroup::IIIB.covers(DustGroup::IIIC));
}

#[test]
fn increased_safety_b_serves_zone_1_and_2_and_no_dust() {
    let level = LevelOfProtection::Eb.gas_level().expect("gas");
    let suited: Vec<u8> = Zone::ALL
        .iter()
        .filter(|zone| level.suits(**zone))
        .map(|zone| zone.number())
        .collect();
    assert_eq!(suited, [1, 2]);
    assert_eq!(LevelOfProtection::Eb.dust_level(), None);
    assert_eq!(
        LevelOfProtection::Ec.gas_level(),
        Some(EquipmentProtectionLevel::Gc)
    );
}

#[test]
fn markings_as_the_overviews_print_them() {
    use EquipmentProtectionLevel::Gb;
    let marking = |levels: &[LevelOfProtection]| gas_marking(levels, GasGroup::IIC, T6, Gb);
    assert_eq!(marking(&[LevelOfProtection::Eb]), "Ex eb IIC T6 Gb");
    assert_eq!(
        marking(&[LevelOfProtection::Ia, LevelOfProtection::Eb]),
        "Ex eb ia IIC T6 Gb"
    );
    assert_eq!(ambient_marking(-20, 40), None);
    assert_eq!(
        ambient_marking(-40, 40).as_deref(),
        Some("-40 °C ≤ Ta ≤ +40 °C")
    );
}

/// Protective conductors by the section of the line, and the plastic that may charge at level Ga (both from memory).
#[test]
fn protective_conductors_and_surfaces_of_plastic() {
    for (line_mm2, protective_mm2) in [
        (1.5, 1.5),
        (16.0, 16.0),
        (25.0, 16.0),
        (35.0, 16.0),
        (50.0, 25.0),
        (120.0, 60.0),
    ] {
        assert_eq!(protective_conductor_mm2(line_mm2), Ok(protective_mm2));
    }
    for (group, most_mm2) in [
        (GasGroup::IIA, 5000.0),
        (GasGroup::IIB, 2500.0),
        (GasGroup::IIC, 400.0),
    ] {
        let found = plastic_surface_limit_mm2(EquipmentProtectionLevel::Ga, group);
        assert_eq!(found, Ok(most_mm2));
    }
}

/// Levels of protection and the equipment protection levels for dust that they give (from memory).
#[test]
fn levels_of_protection_against_dust() {
    use EquipmentProtectionLevel::{Da, Db, Dc};
    use LevelOfProtection::{Eb, Ec, Ia, Ib, Ic, Ma, Mb, Mc, Ta, Tb, Tc};
    for (levels, dust) in [
        ([Ia, Ma, Ta].as_slice(), Some(Da)),
        (&[Ib, Mb, Tb], Some(Db)),
        (&[Ic, Mc, Tc], Some(Dc)),
        (&[Eb, Ec, LevelOfProtection::Db], None),
    ] {
        for level in levels {
            assert_eq!(level.dust_level(), dust, "{level:?}");
        }
    }
    for (zone, dust) in [
        (Zone::Zone1, false),
        (Zone::Zone2, false),
        (Zone::Zone20, true),
        (Zone::Zone22, true),
    ] {
        assert_eq!(zone.is_dust(), dust, "{zone:?}");
    }
}

#[test]
fn a_zone_is_written_by_its_number() {
    use Zone::{Zone1, Zone2, Zone21};
    assert_eq!(
        [Zone1, Zone2, Zone21].map(|zone| zone.to_string()),
        ["1", "2", "21"]
    );
}
