//! Holes in the lid lie as far apart as is published for their sizes, written down once more. Knows
//! nothing of the audit. What is beyond the standard, footprints and gaps, is proved in `harm.rs`.

use glandrail::arrangement::{Arrangement, PlacedElement};

/// Room for binary fractions, mm.
const EPSILON_MM: f64 = 1e-6;

/// The least centre distances that the standard publishes for a hole, mm, the larger first; written down
/// here once more. A hole for which none are known is looked at by its footprint alone.
fn published_mm(hole: &str) -> Option<[f64; 2]> {
    match hole {
        "D16" => Some([25.0, 25.0]),
        "D22" => Some([50.0, 30.0]),
        "D30" => Some([65.0, 50.0]),
        _ => None,
    }
}

/// Two holes lie apart by the larger distance one way or by the smaller one the other way, in one sense
/// for the whole lid; of two sizes the means count.
pub fn holes(after: &Arrangement) -> Option<String> {
    let known = |one: &PlacedElement| published_mm(one.hole.as_deref()?);
    let near = |upwards: bool| {
        let pairs = after.elements.iter().enumerate();
        pairs
            .flat_map(|(at, a)| after.elements[at + 1..].iter().map(move |b| (a, b)))
            .find(|(a, b)| {
                let Some((of_a, of_b)) = known(a).zip(known(b)) else {
                    return false;
                };
                let mean = [0, 1].map(|way| (of_a[way] + of_b[way]) / 2.0 - EPSILON_MM);
                let apart = [(a.x_mm - b.x_mm).abs(), (a.y_mm - b.y_mm).abs()];
                let (up, across) = if upwards { (0, 1) } else { (1, 0) };
                apart[0] < mean[across] && apart[1] < mean[up]
            })
    };
    let (a, _) = (near(true)?, near(false)?);
    Some(format!("holes of {} and {} too near", a.0.tag, a.1.tag))
}

#[test]
fn the_proof_asks_what_is_published_for_each_size() {
    let lid = |hole: &str, x_mm: f64, y_mm: f64| {
        let mut station = crate::fixture::station();
        station.elements.truncate(2);
        for (element, [x_mm, y_mm]) in station
            .elements
            .iter_mut()
            .zip([[60.0, 100.0], [60.0 + x_mm, 100.0 + y_mm]])
        {
            element.hole = Some(hole.to_string());
            (element.x_mm, element.y_mm) = (x_mm, y_mm);
        }
        holes(&station)
    };
    for (hole, larger_mm, smaller_mm) in [
        ("D16", 25.0, 25.0),
        ("D22", 50.0, 30.0),
        ("D30", 65.0, 50.0),
    ] {
        // The larger distance may lie either way, the smaller one across it.
        assert_eq!(lid(hole, larger_mm, 0.0), None, "{hole}");
        assert_eq!(lid(hole, 0.0, larger_mm), None, "{hole}");
        assert_eq!(lid(hole, smaller_mm, 0.0), None, "{hole}");
        assert_eq!(lid(hole, 0.0, smaller_mm), None, "{hole}");
        let short_mm = smaller_mm - 0.1;
        assert!(lid(hole, short_mm, 0.0).is_some(), "{hole}");
        assert!(lid(hole, short_mm, short_mm).is_some(), "{hole}");
    }
    // Three in a corner: neither sense serves both pairs.
    let mut corner = crate::fixture::station();
    for (element, [x_mm, y_mm]) in
        corner
            .elements
            .iter_mut()
            .zip([[60.0, 100.0], [90.0, 100.0], [60.0, 130.0]])
    {
        (element.x_mm, element.y_mm) = (x_mm, y_mm);
    }
    assert!(holes(&corner).is_some());
}
