//! An estimate of a cable's diameter from its cores, for lists that do not give it.
//!
//! Common practice, no published source: insulated cores are laid up in a round bundle, then come
//! sheath and armour. The estimate carries a wide tolerance and is flagged in every report.

use super::Core;
use std::f64::consts::PI;

/// Diameter outside, and under the armour, mm. Formula, with A the section of the thickest core:
///
/// - core: 1.15 · √(4 A / π) + 2 · insulation (0.8 mm up to 6 mm², 1.0 up to 16, 1.2 up to 35, else 1.5)
/// - bundle of n cores: core · k, with k = 1, 2, 2.15, 2.41, 2.70, 3, 3 for 1 to 7, 1.2 √n above
/// - sheath: 2 · (1.2 mm + 3 % of the bundle)
/// - screen: 1 mm; armour: 2 · 1.25 mm of wires and a further sheath of 2 · 1.5 mm
pub fn estimate_diameter_mm(cores: &[Core], screened: bool, armoured: bool) -> (f64, f64) {
    let thickest_mm2 = cores
        .iter()
        .map(|core| core.section.mm2)
        .fold(0.0, f64::max);
    let insulation_mm = match thickest_mm2 {
        section if section <= 6.5 => 0.8,
        section if section <= 16.5 => 1.0,
        section if section <= 35.5 => 1.2,
        _ => 1.5,
    };
    let core_mm = 1.15 * (4.0 * thickest_mm2 / PI).sqrt() + 2.0 * insulation_mm;
    let bundle_mm = core_mm * lay_up_factor(cores.len());
    let screen_mm = if screened { 1.0 } else { 0.0 };
    let sheathed_mm = bundle_mm + screen_mm + 2.0 * (1.2 + 0.03 * bundle_mm);
    let armour_mm = if armoured {
        2.0 * 1.25 + 2.0 * 1.5
    } else {
        0.0
    };
    (sheathed_mm + armour_mm, sheathed_mm)
}

fn lay_up_factor(cores: usize) -> f64 {
    const SMALL: [f64; 8] = [1.0, 1.0, 2.0, 2.15, 2.41, 2.70, 3.0, 3.0];
    SMALL
        .get(cores)
        .copied()
        .unwrap_or_else(|| 1.2 * (cores as f64).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::requirements::cores_text::read_cores;

    #[test]
    fn more_copper_never_makes_a_thinner_cable() {
        let mut last_mm = 0.0;
        for text in [
            "2 x 1.5 mm2",
            "3 x 1.5 mm2",
            "7 x 1.5 mm2",
            "12 x 1.5 mm2",
            "24 x 1.5 mm2",
            "37 x 1.5 mm2",
        ] {
            let (outside_mm, inside_mm) =
                estimate_diameter_mm(&read_cores(text).unwrap(), false, false);
            assert!(outside_mm > last_mm, "{text}");
            assert_eq!(outside_mm, inside_mm);
            last_mm = outside_mm;
        }
        let cores = read_cores("3 x 2.5 mm2").unwrap();
        let (armoured_mm, under_mm) = estimate_diameter_mm(&cores, false, true);
        assert_eq!(under_mm, estimate_diameter_mm(&cores, false, false).0);
        assert!((armoured_mm - under_mm - 5.5).abs() < 1e-9);
    }
}
