//! What proves that circles find no room. Each bound holds for every placing, in rows or not.

use super::{Bound, Circles, NOISE_MM};
use std::f64::consts::PI;

/// The first bound that disproves, or none.
pub(super) fn disproved(circles: &Circles) -> Option<Bound> {
    single(circles)
        .or_else(|| area(circles))
        .or_else(|| count(circles))
        .or_else(|| line(circles, circles.width_mm, circles.height_mm))
        .or_else(|| line(circles, circles.height_mm, circles.width_mm))
}

fn single(circles: &Circles) -> Option<Bound> {
    let extent_mm = circles.width_mm.min(circles.height_mm);
    circles
        .diameters_mm
        .iter()
        .copied()
        .find(|diameter| *diameter > extent_mm + NOISE_MM)
        .map(|diameter_mm| Bound::Single {
            diameter_mm,
            extent_mm,
        })
}

/// Circles with radii from r to R cover at most the share of the plane that two circles of radius r
/// and one of radius R, each touching the others, cover of the triangle of their centres: Florian's
/// bound; for equal circles π/√12. A rectangle repeated side by side fills the plane, so the share
/// holds within it. Every circle is enlarged by half the least gap all round, and so is the rectangle.
fn area(circles: &Circles) -> Option<Bound> {
    let gap_mm = circles.least_gap_mm();
    let needed_mm2 = least_area_mm2(&circles.diameters_mm, gap_mm);
    let available_mm2 = (circles.width_mm + gap_mm) * (circles.height_mm + gap_mm);
    (needed_mm2 > available_mm2 * (1.0 + 1e-12)).then_some(Bound::Area {
        needed_mm2,
        available_mm2,
    })
}

/// The least area, mm², of rectangles, each enlarged by half the gap all round, that take circles which
/// keep the gap: see the bound by area in this file. It holds for several rectangles together.
pub fn least_area_mm2(diameters_mm: &[f64], gap_mm: f64) -> f64 {
    let radii = || {
        diameters_mm
            .iter()
            .map(|diameter| (diameter + gap_mm) / 2.0)
    };
    let (least, most) = (
        radii().fold(f64::INFINITY, f64::min),
        radii().fold(0.0, f64::max),
    );
    if most <= 0.0 {
        return 0.0;
    }
    radii().map(|radius| PI * radius * radius).sum::<f64>() / share(least / most)
}

/// Greatest share of the plane that circles with this ratio of least to greatest radius cover.
fn share(ratio: f64) -> f64 {
    if ratio <= 1e-6 {
        return 1.0;
    }
    (PI * ratio * ratio + 2.0 * (1.0 - ratio * ratio) * (ratio / (1.0 + ratio)).asin())
        / (2.0 * ratio * (2.0 * ratio + 1.0).sqrt())
}

/// Points that keep a distance d from each other in a convex region of area A and perimeter P are at
/// most 2 A / (√3 d²) + P / (2 d) + 1 (Oler's inequality). Taken for the circles of at least each
/// diameter, all shrunk to that diameter.
fn count(circles: &Circles) -> Option<Bound> {
    let mut sorted = circles.diameters_mm.clone();
    sorted.sort_by(|a, b| b.total_cmp(a));
    sorted.iter().enumerate().find_map(|(index, diameter)| {
        let width_mm = (circles.width_mm - diameter).max(0.0);
        let height_mm = (circles.height_mm - diameter).max(0.0);
        let apart_mm = diameter + circles.least_gap_mm();
        if apart_mm <= 0.0 {
            return None;
        }
        let most = 2.0 * width_mm * height_mm / (3f64.sqrt() * apart_mm * apart_mm)
            + (width_mm + height_mm) / apart_mm
            + 1.0;
        let most = (most + 1e-9).floor() as usize;
        (index + 1 > most).then_some(Bound::Count {
            diameter_mm: *diameter,
            circles: index + 1,
            most,
        })
    })
}

/// In a narrow rectangle two circles that reach across most of it cannot pass each other: their
/// centres lie apart by at least √(d² − h²) along it, where h is the most that they can lie apart
/// across. Taken for the largest circles, all that follow one another: a line through them is never
/// shorter than the shortest tree that joins them.
fn line(circles: &Circles, along_mm: f64, across_mm: f64) -> Option<Bound> {
    let gap_mm = circles.least_gap_mm();
    let mut sorted = circles.diameters_mm.clone();
    sorted.sort_by(|a, b| b.total_cmp(a));
    let apart = |a: f64, b: f64| {
        let distance = (a + b) / 2.0 + gap_mm;
        let across = (across_mm - (a + b) / 2.0).max(0.0);
        (distance * distance - across * across).max(0.0).sqrt()
    };
    (2..=sorted.len()).find_map(|number| {
        let largest = &sorted[..number];
        let ends_mm = (largest[number - 1] + largest[number - 2]) / 2.0;
        let needed_mm = ends_mm + shortest_tree(largest, apart);
        (needed_mm > along_mm + NOISE_MM).then_some(Bound::Line {
            needed_mm,
            available_mm: along_mm,
        })
    })
}

/// Length of the shortest tree that joins all, by adding the nearest one each time.
fn shortest_tree(nodes: &[f64], apart: impl Fn(f64, f64) -> f64) -> f64 {
    let mut nearest: Vec<f64> = nodes.iter().map(|node| apart(nodes[0], *node)).collect();
    let mut joined = vec![false; nodes.len()];
    joined[0] = true;
    let mut sum = 0.0;
    for _ in 1..nodes.len() {
        let next = (0..nodes.len())
            .filter(|index| !joined[*index])
            .min_by(|a, b| nearest[*a].total_cmp(&nearest[*b]));
        let Some(next) = next else {
            break;
        };
        joined[next] = true;
        sum += nearest[next];
        for (index, node) in nodes.iter().enumerate() {
            nearest[index] = nearest[index].min(apart(nodes[next], *node));
        }
    }
    sum
}
