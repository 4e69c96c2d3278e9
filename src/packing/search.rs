//! The search for a placing: orderly starts, then hops. A hop moves the worst circle into a gap,
//! exchanges two of different sizes or shakes all, goes down again and is kept where the penalty is
//! no greater. Bounded by a count of evaluated pairs.

use super::descent::Penalty;
use super::random::Random;
use super::starts::{Preference, corners, shifted_rows};
use super::{Circles, FINE_GRID_MM, GRID_MM, NOISE_MM};

/// Hops without success after which a new start is taken.
const PATIENCE: usize = 25;

/// Looks for a placing, with no more than so many evaluated pairs beyond the orderly starts; `None` says
/// nothing about whether there is one.
pub(super) fn find(circles: &Circles, most_pairs: u64) -> Option<Vec<[f64; 2]>> {
    let count = circles.diameters_mm.len();
    if count == 0 {
        return Some(Vec::new());
    }
    // A centre that moves onto the grid moves by at most half of it each way, two by twice that.
    let mut penalty = Penalty::new(circles, GRID_MM * 2f64.sqrt());
    let preferences = [
        Preference::Low,
        Preference::Left,
        Preference::Corner,
        Preference::Side,
    ];
    let mut starts = Vec::new();
    for preference in preferences {
        for margin_mm in [GRID_MM * 2f64.sqrt(), 0.0] {
            let start = corners(circles, margin_mm, preference);
            if let Some(placed) = settled(circles, &start) {
                return Some(placed);
            }
            starts.push(start);
        }
    }
    for start in shifted_rows(circles) {
        if let Some(placed) = settled(circles, &start) {
            return Some(placed);
        }
        starts.push(start);
    }
    let mut random = Random::new();
    // The orderly starts by what is left after going down, the most promising first.
    let mut promising = Vec::new();
    for mut start in starts {
        if penalty.pairs >= most_pairs {
            break;
        }
        let left = penalty.descend(&mut start, ENOUGH);
        if let Some(placed) = close(circles, &start, left) {
            return Some(placed);
        }
        promising.push((left, start));
    }
    promising.sort_by(|a, b| a.0.total_cmp(&b.0));
    promising.dedup_by(|a, b| (a.0 - b.0).abs() < 1e-9);
    let mut next = promising.into_iter().take(4);
    while penalty.pairs < most_pairs {
        let (mut left, mut at) = match next.next() {
            Some(start) => start,
            None => {
                let mut at = anywhere(circles, &mut random);
                let left = penalty.descend(&mut at, ENOUGH);
                if let Some(placed) = close(circles, &at, left) {
                    return Some(placed);
                }
                (left, at)
            }
        };
        let mut failures = 0;
        while failures < PATIENCE && penalty.pairs < most_pairs {
            let mut hopped = hop(circles, &mut penalty, &at, &mut random);
            let there = penalty.descend(&mut hopped, ENOUGH);
            if let Some(placed) = close(circles, &hopped, there) {
                return Some(placed);
            }
            if there < left - 1e-9 {
                failures = 0;
            } else {
                failures += 1;
            }
            if there <= left {
                (left, at) = (there, hopped);
            }
        }
    }
    None
}

/// A penalty so small that going on is idle, mm².
const ENOUGH: f64 = NOISE_MM * NOISE_MM;

/// What has come so near that the margin for the grid may make up for it.
fn close(circles: &Circles, at: &[f64], left: f64) -> Option<Vec<[f64; 2]>> {
    let near = GRID_MM * circles.diameters_mm.len() as f64;
    if left > near * near {
        return None;
    }
    if let Some(placed) = settled(circles, at) {
        return Some(placed);
    }
    // Once more with less to spare, for the finer grid.
    let mut penalty = Penalty::new(circles, FINE_GRID_MM * 2f64.sqrt());
    let mut finer = at.to_vec();
    penalty.descend(&mut finer, ENOUGH);
    settled(circles, &finer)
}

/// Centres on the coarser grid, or the finer one, where they hold.
fn settled(circles: &Circles, at: &[f64]) -> Option<Vec<[f64; 2]>> {
    let centres: Vec<[f64; 2]> = at.chunks_exact(2).map(|pair| [pair[0], pair[1]]).collect();
    [GRID_MM, FINE_GRID_MM]
        .into_iter()
        .find_map(|grid_mm| circles.on_grid(&centres, grid_mm))
}

fn anywhere(circles: &Circles, random: &mut Random) -> Vec<f64> {
    circles
        .diameters_mm
        .iter()
        .flat_map(|diameter| {
            let half = diameter / 2.0;
            [
                random.between(half, circles.width_mm - half),
                random.between(half, circles.height_mm - half),
            ]
        })
        .collect()
}

fn hop(circles: &Circles, penalty: &mut Penalty<'_>, at: &[f64], random: &mut Random) -> Vec<f64> {
    let count = circles.diameters_mm.len();
    let mut hopped = at.to_vec();
    let kind = random.share();
    if kind < 0.55 {
        // The worst of a few, or any: into the roomiest of several random places.
        let one = if random.share() < 0.6 {
            (0..4)
                .map(|_| random.below(count))
                .map(|one| (penalty.of_one(at, one, [at[2 * one], at[2 * one + 1]]), one))
                .max_by(|a, b| a.0.total_cmp(&b.0))
                .map_or(0, |found| found.1)
        } else {
            random.below(count)
        };
        let half = circles.diameters_mm[one] / 2.0;
        let mut best = (f64::INFINITY, [at[2 * one], at[2 * one + 1]]);
        for _ in 0..12 {
            let point = [
                random.between(half, circles.width_mm - half),
                random.between(half, circles.height_mm - half),
            ];
            let there = penalty.of_one(at, one, point);
            if there < best.0 {
                best = (there, point);
            }
        }
        hopped[2 * one] = best.1[0];
        hopped[2 * one + 1] = best.1[1];
    } else if kind < 0.8 {
        let (one, other) = (random.below(count), random.below(count));
        if circles.diameters_mm[one] != circles.diameters_mm[other] {
            hopped.swap(2 * one, 2 * other);
            hopped.swap(2 * one + 1, 2 * other + 1);
            return hopped;
        }
        shake(circles, &mut hopped, random);
    } else {
        shake(circles, &mut hopped, random);
    }
    hopped
}

/// Every circle moves by up to half its radius each way.
fn shake(circles: &Circles, at: &mut [f64], random: &mut Random) {
    let size = random.between(0.1, 0.5);
    for (index, diameter) in circles.diameters_mm.iter().enumerate() {
        let most = size * diameter / 2.0;
        at[2 * index] += random.between(-most, most);
        at[2 * index + 1] += random.between(-most, most);
    }
}
