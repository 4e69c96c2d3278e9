//! Standard holes and the distances between them. Knows nothing of the lid's size.

use crate::arrangement::PlacedElement;
use crate::audit::case::{Cases, Rule};
use crate::audit::context::Context;
use crate::standards::iec_60947_5_1::{CENTRE_DISTANCES, HOLES, MountingHole};

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "elements.hole",
        title: "holes of standard size",
        requires: "an element with a standard hole (D12, D16, D22, D30) has a round hole of that size within the standard's tolerance",
        source: HOLES,
        unit: "mm",
        check: holes,
    },
    Rule {
        id: "elements.centre_distance",
        title: "centre distances of standard holes",
        requires: "two elements with standard holes keep the standard's least centre distance: the smaller one across or the larger one along, in one sense for the whole lid; for two sizes the mean of both; a size for which no distance is known is kept apart by its footprint alone, and the rule informs",
        source: CENTRE_DISTANCES,
        unit: "mm",
        check: centre_distances,
    },
];

fn holes(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no element has a standard hole");
    for element in &context.arrangement.elements {
        let Some(name) = &element.hole else { continue };
        let tag = element.tag.as_str();
        let Ok(size) = name.parse::<MountingHole>() else {
            cases.unknown(&[tag], || {
                format!("hole `{name}` of {tag} is none of the standard")
            });
            continue;
        };
        let (least_mm, plus_mm) = size.diameter_mm();
        for measured_mm in element.hole_mm {
            cases.at_least(&[tag], measured_mm, least_mm, || {
                format!("hole of {tag} for {name}")
            });
            cases.at_most(&[tag], measured_mm, least_mm + plus_mm, || {
                format!("hole of {tag} for {name}")
            });
        }
    }
}

/// The elements with a standard hole whose distances are known, and these two distances.
fn spaced<'a>(context: &Context<'a>) -> Vec<(&'a PlacedElement, f64, f64)> {
    let elements = context.arrangement.elements.iter();
    elements
        .filter_map(|element| {
            let size: MountingHole = element.hole.as_deref()?.parse().ok()?;
            let (larger_mm, smaller_mm) = size.centre_distance_mm().ok()?;
            Some((element, larger_mm, smaller_mm))
        })
        .collect()
}

fn centre_distances(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there are no two elements with standard holes");
    let all = spaced(context);
    let holes = context.arrangement.elements.iter();
    let holes: Vec<&PlacedElement> = holes.filter(|element| element.hole.is_some()).collect();
    let is_spaced = |tag: &str| all.iter().any(|(known, _, _)| known.tag == tag);
    if holes.len() > 1 {
        for element in holes.iter().filter(|element| !is_spaced(&element.tag)) {
            cases.informs(&[&element.tag], || {
                format!(
                    "no least centre distance is known for the hole {} of {}; its footprint alone keeps it apart",
                    element.hole.as_deref().unwrap_or_default(),
                    element.tag
                )
            });
        }
    }
    // How far the nearest pair is beyond its least distance, with the larger distance upwards or across.
    let margin_mm =
        |a: &(&PlacedElement, f64, f64), b: &(&PlacedElement, f64, f64), upwards: bool| {
            let (larger_mm, smaller_mm) = ((a.1 + b.1) / 2.0, (a.2 + b.2) / 2.0);
            let (across, up) = if upwards {
                (smaller_mm, larger_mm)
            } else {
                (larger_mm, smaller_mm)
            };
            let (x_mm, y_mm) = ((a.0.x_mm - b.0.x_mm).abs(), (a.0.y_mm - b.0.y_mm).abs());
            if x_mm - across >= y_mm - up {
                (x_mm, across)
            } else {
                (y_mm, up)
            }
        };
    let worst = |upwards: bool| {
        let mut worst_mm = f64::INFINITY;
        for (index, a) in all.iter().enumerate() {
            for b in all.iter().skip(index + 1) {
                let (measured_mm, required_mm) = margin_mm(a, b, upwards);
                worst_mm = worst_mm.min(measured_mm - required_mm);
            }
        }
        worst_mm
    };
    let upwards = worst(true) >= worst(false);
    for (index, a) in all.iter().enumerate() {
        for b in all.iter().skip(index + 1) {
            let (measured_mm, required_mm) = margin_mm(a, b, upwards);
            cases.at_least(&[&a.0.tag, &b.0.tag], measured_mm, required_mm, || {
                format!("centre distance of {} and {}", a.0.tag, b.0.tag)
            });
        }
    }
}
