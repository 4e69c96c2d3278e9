//! IEC TR 60890: check values of the equations (plain arithmetic elsewhere), printed to four digits.

use crate::support::close;
use glandrail::standards::iec_tr_60890::{
    Installation, OuterSize, constant_k, effective_surface_m2, factor_c_small, factor_d,
    temperature_rise,
};

#[test]
fn constant_k_by_surface() {
    let rows = [
        (0.08, 4.0271),
        (0.10, 3.4164),
        (0.15, 2.5339),
        (0.20, 2.0498),
        (0.25, 1.7390),
        (0.30, 1.5203),
        (0.40, 1.2299),
        (0.50, 1.0434),
        (0.60, 0.9122),
        (0.80, 0.7379),
        (1.00, 0.6260),
        (1.25, 0.5311),
        (1.5, 0.4202),
        (2.0, 0.3343),
        (3.0, 0.2422),
        (4.0, 0.1927),
        (6.0, 0.1396),
        (8.0, 0.1110),
        (10.0, 0.0930),
        (12.0, 0.0804),
    ];
    for (surface, k) in rows {
        let ours = constant_k(surface).expect("in range");
        assert!((ours - k).abs() <= 0.51e-4, "{surface} m²: {ours}");
    }
    assert_eq!(constant_k(0.0799), Ok(4.0));
    assert!(constant_k(12.01).is_err() && constant_k(0.0).is_err());
}

#[test]
fn factor_c_by_height_over_width() {
    let rows = [
        (0.0, 1.0000),
        (0.2, 1.0387),
        (0.4, 1.0774),
        (0.6, 1.1161),
        (0.8, 1.1548),
        (1.0, 1.1880),
        (1.25, 1.2152),
        (1.5, 1.2322),
        (2.0, 1.2494),
        (2.5, 1.2562),
        (3.0, 1.2588),
    ];
    for (ratio, c) in rows {
        let ours = factor_c_small(ratio).expect("in range");
        assert!((ours - c).abs() <= 0.51e-4, "{ratio}: {ours}");
    }
    assert_eq!(
        factor_c_small(5.0),
        factor_c_small(3.0),
        "clamped as the curve is drawn"
    );
    // Horizontal partitions, the table of the report (from memory).
    for (partitions, d) in [(0, 1.0), (1, 1.05), (2, 1.15), (3, 1.3)] {
        assert_eq!(factor_d(partitions), Ok(d));
    }
}

#[test]
fn seven_boxes_from_power_to_rise() {
    use Installation::{Free, Wall};
    // Width, height, depth in m; W; A_e, k, K at half height, c, K at the top.
    let rows = [
        (
            [0.271, 0.271, 0.135],
            Wall,
            10.0,
            [0.2199, 1.9115, 12.172, 1.1880, 14.460],
        ),
        (
            [0.271, 0.271, 0.135],
            Wall,
            20.0,
            [0.2199, 1.9115, 21.252, 1.1880, 25.246],
        ),
        (
            [0.271, 0.271, 0.135],
            Free,
            20.0,
            [0.2493, 1.7427, 19.376, 1.1880, 23.018],
        ),
        (
            [0.300, 0.200, 0.150],
            Wall,
            15.0,
            [0.2010, 2.0423, 18.018, 1.1290, 20.342],
        ),
        (
            [0.400, 0.400, 0.200],
            Wall,
            30.0,
            [0.4800, 1.0752, 16.562, 1.1880, 19.675],
        ),
        (
            [0.600, 0.800, 0.300],
            Wall,
            100.0,
            [1.3560, 0.4553, 18.462, 1.3434, 24.801],
        ),
        (
            [0.800, 2.000, 0.600],
            Free,
            300.0,
            [5.7120, 0.1451, 14.236, 1.4261, 20.302],
        ),
    ];
    for ([width_m, height_m, depth_m], installation, power, printed) in rows {
        let size = OuterSize {
            width_m,
            height_m,
            depth_m,
        };
        let ours = temperature_rise(size, installation, power).expect("in range");
        let values = [
            ours.effective_surface_m2,
            ours.constant_k,
            ours.rise_at_half_height_k,
            ours.factor_c,
            ours.rise_at_top_k,
        ];
        for (value, theirs) in values.into_iter().zip(printed) {
            // Four digits at least; 0.1451 is the shortest.
            close(value, theirs, 3.5e-4, "box");
        }
    }
}

/// Effective surfaces as VDE 0660-500 writes them out: formulas, not the table of factors.
#[test]
fn effective_surfaces_as_written_out() {
    use Installation::{Free, FreeRowEnd, FreeRowMiddle, Wall, WallRowEnd, WallRowMiddle};
    let (w, h, d) = (0.7, 1.1, 0.4);
    let size = OuterSize {
        width_m: w,
        height_m: h,
        depth_m: d,
    };
    let rows = [
        (Free, false, 1.8 * h * (w + d) + 1.4 * w * d),
        (Wall, false, 1.4 * w * (h + d) + 1.8 * d * h),
        (FreeRowEnd, false, 1.4 * d * (h + w) + 1.8 * w * h),
        (WallRowEnd, false, 1.4 * h * (w + d) + 1.4 * w * d),
        (FreeRowMiddle, false, 1.8 * w * h + 1.4 * w * d + d * h),
        (WallRowMiddle, false, 1.4 * w * (h + d) + d * h),
        (WallRowMiddle, true, 1.4 * w * h + 0.7 * w * d + d * h),
    ];
    for (installation, top_covered, surface) in rows {
        let ours = effective_surface_m2(size, installation, top_covered).expect("in range");
        close(ours, surface, 1e-12, installation.word());
    }
}
