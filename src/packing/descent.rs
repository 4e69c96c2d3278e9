//! The slope down: circles that overlap push each other apart until nothing overlaps or nothing
//! moves. The penalty is the sum of the squares of all overlaps; it is made small with the
//! limited-memory method of Broyden, Fletcher, Goldfarb and Shanno.

use super::Circles;
use std::collections::VecDeque;

/// Most steps of one descent.
const STEPS: usize = 120;
/// Remembered steps.
const MEMORY: usize = 7;
/// What sides, steps and memory cost for each circle, counted as pairs; measured.
const BESIDE_PAIRS: usize = 8;

/// The overlaps with every gap enlarged by a margin.
pub(super) struct Penalty<'a> {
    circles: &'a Circles,
    /// Added to the distance between two centres.
    pub margin_mm: f64,
    /// Evaluations of single pairs so far, or their worth: what the search counts instead of time.
    pub pairs: u64,
}

impl<'a> Penalty<'a> {
    pub fn new(circles: &'a Circles, margin_mm: f64) -> Self {
        Self {
            circles,
            margin_mm,
            pairs: 0,
        }
    }

    /// Penalty at a place (u and v in turn), and its slope.
    pub fn slope(&mut self, at: &[f64], slope: &mut [f64]) -> f64 {
        let circles = self.circles;
        let count = circles.diameters_mm.len();
        // What a step costs beside its pairs is that of so many pairs for each circle.
        self.pairs += (count * (count + 1) / 2 + BESIDE_PAIRS * count) as u64;
        slope.fill(0.0);
        let mut sum = 0.0;
        let change = circles.row_gap_mm - circles.gap_mm;
        for one in 0..count {
            let half = circles.diameters_mm[one] / 2.0;
            for (axis, extent) in [(0, circles.width_mm), (1, circles.height_mm)] {
                let here = at[2 * one + axis];
                let low = half - here;
                let high = here + half - extent;
                if low > 0.0 {
                    sum += low * low;
                    slope[2 * one + axis] -= 2.0 * low;
                }
                if high > 0.0 {
                    sum += high * high;
                    slope[2 * one + axis] += 2.0 * high;
                }
            }
            for part in &circles.blocked {
                let (distance, way) = part.distance_and_way([at[2 * one], at[2 * one + 1]]);
                let over = half - distance;
                if over > 0.0 {
                    sum += over * over;
                    slope[2 * one] -= 2.0 * over * way[0];
                    slope[2 * one + 1] -= 2.0 * over * way[1];
                }
            }
            let here = [at[2 * one], at[2 * one + 1]];
            let placed = at.chunks_exact(2).zip(&circles.diameters_mm);
            for (other, (there, diameter_mm)) in placed.take(one).enumerate() {
                let base = half + diameter_mm / 2.0 + circles.gap_mm + self.margin_mm;
                let reach = base + change.max(0.0);
                let du = here[0] - there[0];
                let dv = here[1] - there[1];
                let square = du * du + dv * dv;
                if square >= reach * reach {
                    continue;
                }
                let square = square.max(1e-12);
                let distance = square.sqrt();
                let overlap = base + change * dv * dv / square - distance;
                if overlap <= 0.0 {
                    continue;
                }
                sum += overlap * overlap;
                // Slope of the overlap: the gap turns with the direction, the distance grows along it.
                let turn = 2.0 * change * du * dv / (square * square);
                let by_u = -turn * dv - du / distance;
                let by_v = turn * du - dv / distance;
                slope[2 * one] += 2.0 * overlap * by_u;
                slope[2 * one + 1] += 2.0 * overlap * by_v;
                slope[2 * other] -= 2.0 * overlap * by_u;
                slope[2 * other + 1] -= 2.0 * overlap * by_v;
            }
        }
        sum
    }

    /// Overlaps of one circle at a place with the others and the sides, squared and summed.
    pub fn of_one(&mut self, at: &[f64], one: usize, here: [f64; 2]) -> f64 {
        let circles = self.circles;
        let count = circles.diameters_mm.len();
        self.pairs += count as u64;
        let half = circles.diameters_mm[one] / 2.0;
        let mut sum = 0.0;
        for (axis, extent) in [(0, circles.width_mm), (1, circles.height_mm)] {
            for over in [half - here[axis], here[axis] + half - extent] {
                if over > 0.0 {
                    sum += over * over;
                }
            }
        }
        for part in &circles.blocked {
            let over = half - part.distance_mm(here);
            if over > 0.0 {
                sum += over * over;
            }
        }
        for other in (0..count).filter(|other| *other != one) {
            let du = here[0] - at[2 * other];
            let dv = here[1] - at[2 * other + 1];
            let apart = (du * du + dv * dv).sqrt();
            let over = circles.needed_mm(one, other, du, dv) + self.margin_mm - apart;
            if over > 0.0 {
                sum += over * over;
            }
        }
        sum
    }

    /// Goes down from a place as far as it leads; the penalty that is left.
    pub fn descend(&mut self, at: &mut [f64], enough: f64) -> f64 {
        let size = at.len();
        let mut slope = vec![0.0; size];
        let mut value = self.slope(at, &mut slope);
        let mut memory: VecDeque<(Vec<f64>, Vec<f64>, f64)> = VecDeque::new();
        let (mut next, mut next_slope) = (vec![0.0; size], vec![0.0; size]);
        for _ in 0..STEPS {
            if value <= enough {
                break;
            }
            let mut way = direction(&slope, &memory);
            let mut fall = dot(&way, &slope);
            if fall >= 0.0 {
                memory.clear();
                way = slope.iter().map(|part| -0.25 * part).collect();
                fall = dot(&way, &slope);
            }
            if fall > -1e-14 {
                break;
            }
            // Halving until the penalty falls by a share of what the slope promises.
            let mut step = 1.0;
            let mut found = None;
            for _ in 0..20 {
                for index in 0..size {
                    next[index] = at[index] + step * way[index];
                }
                let there = self.slope(&next, &mut next_slope);
                if there <= value + 1e-4 * step * fall {
                    found = Some(there);
                    break;
                }
                step *= 0.5;
            }
            let Some(there) = found else {
                break;
            };
            let moved: Vec<f64> = next.iter().zip(at.iter()).map(|(a, b)| a - b).collect();
            let turned: Vec<f64> = next_slope.iter().zip(&slope).map(|(a, b)| a - b).collect();
            let curvature = dot(&moved, &turned);
            if curvature > 1e-12 {
                memory.push_back((moved, turned, 1.0 / curvature));
                if memory.len() > MEMORY {
                    memory.pop_front();
                }
            }
            let gained = value - there;
            at.copy_from_slice(&next);
            slope.copy_from_slice(&next_slope);
            value = there;
            if gained < 1e-7 * value {
                break;
            }
        }
        value
    }
}

/// The way down by the remembered steps (two loops over them).
fn direction(slope: &[f64], memory: &VecDeque<(Vec<f64>, Vec<f64>, f64)>) -> Vec<f64> {
    let mut way: Vec<f64> = slope.iter().map(|part| -part).collect();
    let mut shares = Vec::with_capacity(memory.len());
    for (moved, turned, inverse) in memory.iter().rev() {
        let share = inverse * dot(moved, &way);
        add(&mut way, -share, turned);
        shares.push(share);
    }
    let scale = memory.back().map_or(0.25, |(_, turned, inverse)| {
        1.0 / (inverse * dot(turned, turned))
    });
    way.iter_mut().for_each(|part| *part *= scale);
    for ((moved, turned, inverse), share) in memory.iter().zip(shares.iter().rev()) {
        let back = inverse * dot(turned, &way);
        add(&mut way, share - back, moved);
    }
    way
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn add(to: &mut [f64], share: f64, from: &[f64]) {
    for (to, from) in to.iter_mut().zip(from) {
        *to += share * from;
    }
}
