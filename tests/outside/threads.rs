//! Entry threads: the taper pipe threads against the formulas of ASME B1.20.1 (the table itself is
//! held in inches), the metric ones against the basic profile, and every clearance hole against the
//! 0.7 mm of installation practice.

use glandrail::standards::Thread;
use glandrail::standards::iec_60079_14::largest_clearance_hole_mm;
use glandrail::standards::threads::{NPT_ROWS, NPT_TAPER, across_corners_mm};

/// The standard computes its table: E0 = D − (0.05 D + 1.1)/n, E1 = E0 + L1/16, L2 = (0.8 D + 6.8)/n.
/// The table has five decimals for E1 and four for L2; L1 is independent.
#[test]
fn pipe_threads_follow_the_formulas_of_their_standard() {
    for row in NPT_ROWS {
        let (d, n) = (row.outside_diameter_in, row.threads_per_inch);
        let e0 = d - (0.05 * d + 1.1) / n;
        let e1 = e0 + row.hand_tight_l1_in * NPT_TAPER;
        assert!(
            (e1 - row.pitch_diameter_e1_in).abs() <= 1.1e-5,
            "NPT {}: E1 {e1}",
            row.name
        );
        let l2 = (0.8 * d + 6.8) / n;
        assert!(
            (l2 - row.effective_l2_in).abs() <= 0.6e-4,
            "NPT {}: L2 {l2}",
            row.name
        );
        assert!(row.hand_tight_l1_in < row.effective_l2_in);
    }
}

#[test]
fn pipe_threads_in_millimetres_as_printed() {
    let printed = [
        ("1/4", 13.716, 1.411),
        ("3/8", 17.145, 1.411),
        ("1/2", 21.336, 1.814),
        ("3/4", 26.670, 1.814),
        ("1", 33.401, 2.209),
        ("1 1/4", 42.164, 2.209),
        ("1 1/2", 48.260, 2.209),
        ("2", 60.325, 2.209),
        ("2 1/2", 73.025, 3.175),
        ("3", 88.900, 3.175),
    ];
    for (name, diameter, pitch) in printed {
        let thread: Thread = format!("NPT {name}").parse().expect("listed");
        assert!(
            (thread.major_diameter_mm() - diameter).abs() <= 0.0005,
            "{thread}"
        );
        assert!((thread.pitch_mm() - pitch).abs() <= 0.0005, "{thread}");
    }
}

#[test]
fn metric_threads_pitches_and_holes() {
    let listed = [
        ("M6x0.75", 6.2),
        ("M8x1", 8.2),
        ("M10x1", 10.2),
        ("M12x1.5", 12.2),
        ("M16x1.5", 16.2),
        ("M20x1.5", 20.2),
        ("M25x1.5", 25.2),
        ("M32x1.5", 32.2),
        ("M40x1.5", 40.2),
        ("M50x1.5", 50.2),
        ("M63x1.5", 63.2),
        ("M75x1.5", 75.2),
    ];
    for (text, hole) in listed {
        let thread: Thread = text.parse().expect("listed");
        assert_eq!(thread.clearance_hole_mm(), hole, "{thread}");
        assert!(thread.minor_diameter_mm().expect("metric") < thread.pitch_diameter_mm());
    }
    let m25: Thread = "M25".parse().expect("listed");
    assert!((m25.minor_diameter_mm().expect("metric") - (25.0 - 1.6238)).abs() < 1e-4);
    assert!((m25.pitch_diameter_mm() - (25.0 - 0.9743)).abs() < 1e-4);
}

/// Pitch diameter at the hand-tight plane of ASME B1.20.1, E1 in inches (from memory).
#[test]
fn pipe_threads_at_the_hand_tight_plane() {
    for (text, e1_in) in [
        ("NPT 1/2", 0.77843),
        ("NPT 3/4", 0.98887),
        ("NPT 1", 1.23863),
    ] {
        let thread: Thread = text.parse().expect("listed");
        assert!(
            (thread.pitch_diameter_mm() - e1_in * 25.4).abs() < 1e-3,
            "{thread}"
        );
    }
}

/// Every size of gland has a range of hexagons, the next one a larger.
#[test]
fn hexagons_grow_with_the_thread() {
    let mut before_mm = 0.0;
    for text in [
        "M12", "M16", "M20", "M25", "M32", "M40", "M50", "M63", "M75",
    ] {
        let thread: Thread = text.parse().expect("listed");
        let (least_mm, most_mm) = thread.across_flats_mm().expect("a range");
        assert!(before_mm < least_mm && least_mm < most_mm, "{thread}");
        before_mm = most_mm;
    }
}

#[test]
fn no_clearance_hole_is_too_small_or_too_large() {
    for thread in Thread::ALL {
        let hole = thread.clearance_hole_mm();
        assert!(hole > thread.major_diameter_mm(), "{thread}");
        assert!(
            hole <= largest_clearance_hole_mm(thread.major_diameter_mm()).expect("in range"),
            "{thread}"
        );
    }
}

/// A hexagon must be wider than its hole, or the gland falls through.
#[test]
fn hexagons_cover_their_holes() {
    for thread in Thread::ALL {
        if let Some((least, most)) = thread.across_flats_mm() {
            assert!(
                least <= most && least > thread.clearance_hole_mm(),
                "{thread}"
            );
            assert!((across_corners_mm(most) / most - 1.1547).abs() < 1e-4);
        }
    }
}
