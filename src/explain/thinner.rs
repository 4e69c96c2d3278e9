//! Thinner cables: which diameters are worth asking about, and what they cost.

use super::apply::{Ease, set_diameter};
use super::aspect::Aspect;
use super::ladder::{Ladder, Step};
use crate::catalogue::Catalogue;
use crate::demand::{GlandUse, use_of_gland};
use crate::requirements::{Cable, RequirementList, estimate_diameter_mm};
use crate::workshop::Workshop;

/// A thinner diameter of so many cables: 2 points a millimetre, and one for each cable.
fn thinner(cable: &Cable, diameter_mm: f64, cables: usize) -> Step {
    (
        Ease::Diameter {
            diameter_mm,
            cables,
        },
        2.0 * (cable.diameter_mm - diameter_mm) + cables as f64,
    )
}

/// The same step for fewer and fewer of the things it is taken for, the fewest first: those that a ladder
/// does not hold, because it goes through the amounts with all of them.
pub fn for_fewer(list: &RequirementList, aspect: &Aspect, ease: &Ease) -> Vec<Step> {
    match (aspect, ease) {
        (
            Aspect::Diameter(members),
            Ease::Diameter {
                diameter_mm,
                cables,
            },
        ) => (1..*cables)
            .map(|count| thinner(&list.cables[members[0]], *diameter_mm, count))
            .collect(),
        _ => Vec::new(),
    }
}

/// Thinner in steps of a tenth of a millimetre, all cables of the table. Not thinner than cables with such
/// cores are: the estimate from them less a tenth, which is its usual tolerance; nor than any gland clamps.
/// The ranges of the glands leave gaps, so that a thinner cable is not always the easier one: a run ends
/// wherever a gland begins or ceases to clamp, or is used up to the very end of its range.
pub(super) fn diameters(
    cable: &Cable,
    cables: usize,
    catalogue: &Catalogue,
    workshop: &Workshop,
) -> Ladder {
    const LEAST_OF_ESTIMATE: f64 = 0.9;
    let (estimate_mm, _) = estimate_diameter_mm(&cable.cores, cable.screened, cable.armoured);
    let thinnest_clamped_mm = catalogue
        .gland
        .iter()
        .map(|gland| gland.clamping_mm[0])
        .fold(f64::INFINITY, f64::min);
    let least_share = thinnest_clamped_mm / cable.diameter_range_mm[0];
    let least_mm = (estimate_mm * LEAST_OF_ESTIMATE).max(least_share * cable.diameter_mm);
    let tenths = |length_mm: f64| length_mm * 10.0;
    let mut from = tenths(cable.diameter_mm).ceil() as u32;
    // To state what has been estimated is a step by itself: the tolerance of a stated diameter is smaller.
    if !cable.place.has("diameter_mm") {
        from = tenths(cable.diameter_mm).floor() as u32 + 1;
    }
    let to = tenths(least_mm).ceil() as u32;
    let steps: Vec<u32> = (to..from).rev().collect();
    let uses: Vec<Vec<GlandUse>> = steps
        .iter()
        .map(|tenth| used(cable, f64::from(*tenth) / 10.0, catalogue, workshop))
        .collect();
    let mut ends: Vec<usize> = (1..steps.len())
        .filter(|step| uses[step - 1] != uses[*step])
        .collect();
    ends.push(steps.len());
    let steps = steps
        .into_iter()
        .map(|tenth| thinner(cable, f64::from(tenth) / 10.0, cables));
    Ladder {
        steps: steps.collect(),
        ends,
    }
}

/// How each gland would be used for the cable in another diameter.
fn used(
    cable: &Cable,
    diameter_mm: f64,
    catalogue: &Catalogue,
    workshop: &Workshop,
) -> Vec<GlandUse> {
    let mut cable = cable.clone();
    set_diameter(&mut cable, diameter_mm, workshop);
    let reserve_percent = workshop.entries.clamping_reserve_percent;
    let glands = catalogue.gland.iter();
    glands
        .map(|gland| use_of_gland(gland, &cable, reserve_percent))
        .collect()
}
