//! IEC 60079-7: order of the distances, the 10 % rule, and the rows that IEC 60664-1 (pollution
//! degree 3) confirms.

use glandrail::standards::MaterialGroup::{self, I, II, IIIa};
use glandrail::standards::iec_60079_7::{
    ArrangementShare, ROWS, arrangement_holds, clearance_mm, creepage_mm,
    external_terminal_clearance_mm, external_terminal_creepage_mm, groove_counts, rib_counts,
    row_for,
};

#[test]
fn distances_never_fall_with_voltage_nor_with_a_worse_material() {
    let mut last = [0.0; 4];
    for volt in 0..=11_000 {
        let voltage = f64::from(volt);
        let creepage = |group| creepage_mm(voltage, group).expect("in range");
        let now = [
            clearance_mm(voltage).expect("in range"),
            creepage(I),
            creepage(II),
            creepage(IIIa),
        ];
        assert!(
            now.is_sorted(),
            "{volt} V: clearance ≤ I ≤ II ≤ IIIa fails: {now:?}"
        );
        assert!(
            last.iter().zip(now).all(|(before, after)| *before <= after),
            "{volt} V"
        );
        last = now;
    }
}

#[test]
fn a_row_serves_ten_percent_more_and_not_a_volt_beyond() {
    for pair in ROWS.windows(2) {
        let (row, next) = (pair[0].voltage_v, pair[1].voltage_v);
        // Eleven tenths, divided last: 12.5 × 1.1 is more than 13.75 in floating point.
        assert_eq!(row_for(row * 11.0 / 10.0).expect("in range").voltage_v, row);
        assert_eq!(row_for(row * 1.1 + 0.01).expect("in range").voltage_v, next);
        assert_eq!(row_for(row).expect("in range").voltage_v, row);
    }
    assert_eq!(creepage_mm(275.0, IIIa), Ok(8.0));
    assert_eq!(creepage_mm(276.0, IIIa), Ok(10.0));
    assert_eq!(
        clearance_mm(690.0),
        Ok(10.0),
        "690 V still uses the row of 630 V"
    );
}

#[test]
fn creepage_from_2000_v_up_equals_iec_60664_1_pollution_degree_3() {
    let published = [
        (2000.0, [25.0, 28.0, 32.0]),
        (2500.0, [32.0, 36.0, 40.0]),
        (3200.0, [40.0, 45.0, 50.0]),
        (4000.0, [50.0, 56.0, 63.0]),
        (5000.0, [63.0, 71.0, 80.0]),
        (6300.0, [80.0, 90.0, 100.0]),
        (8000.0, [100.0, 110.0, 125.0]),
        (10_000.0, [125.0, 140.0, 160.0]),
    ];
    for (voltage, distances) in published {
        for (group, distance) in [I, II, IIIa].into_iter().zip(distances) {
            assert_eq!(
                creepage_mm(voltage, group),
                Ok(distance),
                "{voltage} V, {group}"
            );
        }
    }
}

/// Increased safety asks for more than pollution degree 3 does in the same voltages (630 to 1600 V).
#[test]
fn creepage_is_never_below_iec_60664_1_pollution_degree_3() {
    let published = [
        (630.0, [8.0, 9.0, 10.0]),
        (800.0, [10.0, 11.0, 12.5]),
        (1000.0, [12.5, 14.0, 16.0]),
        (1250.0, [16.0, 18.0, 20.0]),
        (1600.0, [20.0, 22.0, 25.0]),
    ];
    for (voltage, distances) in published {
        for (group, distance) in [I, II, IIIa].into_iter().zip(distances) {
            assert!(
                creepage_mm(voltage, group).expect("in range") >= distance,
                "{voltage} V, {group}"
            );
        }
    }
}

#[test]
fn terminals_for_external_conductors_keep_three_millimetres() {
    for volt in 0..=11_000 {
        let voltage = f64::from(volt);
        assert!(external_terminal_clearance_mm(voltage).expect("in range") >= 3.0);
        for group in MaterialGroup::ALL {
            let external = external_terminal_creepage_mm(voltage, *group).expect("in range");
            assert_eq!(
                external,
                creepage_mm(voltage, *group).expect("in range").max(3.0)
            );
        }
    }
}

/// Ribs count from 2.5 mm high and 1 mm thick, grooves from 2.5 mm deep and wide (from memory).
#[test]
fn ribs_and_grooves_that_lengthen_the_way() {
    assert!(rib_counts(2.5, 1.0) && !rib_counts(2.4, 1.0) && !rib_counts(2.5, 0.9));
    assert!(groove_counts(2.5, 2.5) && !groove_counts(2.4, 2.5) && !groove_counts(2.5, 2.4));
}

#[test]
fn ten_tenths_of_a_defined_arrangement_fill_it() {
    // Summed in binary fractions; the rule is that of the certificates: no more than 1 in all.
    let tenth = ArrangementShare {
        used: 1,
        permitted: 10,
    };
    assert_eq!(arrangement_holds(&[tenth; 10]), Ok(true));
    assert_eq!(arrangement_holds(&[tenth; 11]), Ok(false));
    let third = ArrangementShare {
        used: 1,
        permitted: 3,
    };
    assert_eq!(arrangement_holds(&[third; 3]), Ok(true));
}
