//! Orderly beginnings: rows shifted against each other, columns likewise, and circles one after the
//! other, the largest first, each into the corner that is left to it. Quick, and often enough.

use super::Circles;

/// Places in order: for several numbers of rows and columns, every second one shifted.
pub(super) fn shifted_rows(circles: &Circles) -> Vec<Vec<f64>> {
    let count = circles.diameters_mm.len();
    let mut starts = Vec::new();
    for turned in [false, true] {
        let (along_mm, across_mm) = if turned {
            (circles.height_mm, circles.width_mm)
        } else {
            (circles.width_mm, circles.height_mm)
        };
        let likely = (count as f64 * across_mm / along_mm * 2.0 / 3f64.sqrt()).sqrt();
        let from = (likely.floor() as usize).saturating_sub(1).max(1);
        let to = (likely.ceil() as usize + 1).min(count);
        for rows in from..=to {
            for long_first in [true, false] {
                starts.push(rows_of(circles, rows, long_first, turned));
            }
        }
    }
    starts
}

/// The circles by size in a number of rows, long and short ones in turn.
fn rows_of(circles: &Circles, rows: usize, long_first: bool, turned: bool) -> Vec<f64> {
    let count = circles.diameters_mm.len();
    let (along_mm, across_mm) = if turned {
        (circles.height_mm, circles.width_mm)
    } else {
        (circles.width_mm, circles.height_mm)
    };
    let order = by_size(circles);
    let largest_mm = circles.diameters_mm[order[0]];
    let mut numbers = vec![count / rows; rows];
    // What is left over goes to every second row first.
    let ranked = (0..rows).filter(|row| (row % 2 == 0) == long_first);
    let others = (0..rows).filter(|row| (row % 2 == 0) != long_first);
    for row in ranked.chain(others).take(count % rows) {
        numbers[row] += 1;
    }
    let widest = numbers.iter().copied().max().unwrap_or(1);
    let half = largest_mm / 2.0;
    let pitch_mm = (along_mm - largest_mm).max(0.0) / (widest.max(2) - 1) as f64;
    let mut at = vec![0.0; 2 * count];
    let mut next = order.iter();
    for (row, number) in numbers.iter().enumerate() {
        let across = if rows == 1 {
            across_mm / 2.0
        } else {
            half + (across_mm - largest_mm).max(0.0) * row as f64 / (rows - 1) as f64
        };
        // A row with as many as the longest is shifted by half a pitch where it is an odd one.
        let shift = if *number < widest {
            (widest - number) as f64 / 2.0
        } else if row % 2 == 1 && numbers.iter().all(|other| other == number) {
            0.5
        } else {
            0.0
        };
        for place in 0..*number {
            let along = half + pitch_mm * (place as f64 + shift);
            if let Some(circle) = next.next() {
                let (u, v) = if turned {
                    (across, along)
                } else {
                    (along, across)
                };
                at[2 * circle] = u;
                at[2 * circle + 1] = v;
            }
        }
    }
    at
}

/// How a corner is preferred over another.
#[derive(Debug, Clone, Copy)]
pub(super) enum Preference {
    /// Farthest to the left, then lowest.
    Left,
    /// Lowest, then farthest to the left.
    Low,
    /// Nearest to one of the rectangle's corners.
    Corner,
    /// Nearest to a side.
    Side,
}

/// One circle after the other, each where it touches two things that are there. Circles that find no
/// such place are put into the middle, for the descent to push about.
pub(super) fn corners(circles: &Circles, margin_mm: f64, preference: Preference) -> Vec<f64> {
    let mut at = vec![0.0; 2 * circles.diameters_mm.len()];
    let mut placed: Vec<usize> = Vec::new();
    // Circles of one size follow one another, and what is a corner for the first is one for the next.
    let mut known: Option<Corners> = None;
    for circle in by_size(circles) {
        let diameter_mm = circles.diameters_mm[circle];
        let mut corners = known
            .take()
            .filter(|corners| corners.diameter_mm == diameter_mm)
            .unwrap_or_else(|| Corners::new(circles, margin_mm, diameter_mm));
        corners.touch(&placed, &at);
        let point = corners
            .best(preference, circle, &placed, &at)
            .unwrap_or([circles.width_mm / 2.0, circles.height_mm / 2.0]);
        at[2 * circle] = point[0];
        at[2 * circle + 1] = point[1];
        placed.push(circle);
        known = Some(corners);
    }
    at
}

/// Where circles of one size touch two things that are there.
struct Corners<'a> {
    circles: &'a Circles,
    margin_mm: f64,
    diameter_mm: f64,
    /// Lines on which such a circle touches a side, of the rectangle or of a blocked part.
    us: Vec<f64>,
    vs: Vec<f64>,
    /// How many of the placed circles have been touched already.
    touched: usize,
    /// In the order in which they were found; those found taken are gone, since they stay so.
    points: Vec<[f64; 2]>,
}

impl<'a> Corners<'a> {
    fn new(circles: &'a Circles, margin_mm: f64, diameter_mm: f64) -> Self {
        let half = diameter_mm / 2.0;
        let mut us = vec![half, circles.width_mm - half];
        let mut vs = vec![half, circles.height_mm - half];
        for part in &circles.blocked {
            us.extend([part.from_mm[0] - half, part.to_mm[0] + half]);
            vs.extend([part.from_mm[1] - half, part.to_mm[1] + half]);
        }
        let points = us
            .iter()
            .flat_map(|u| vs.iter().map(move |v| [*u, *v]))
            .filter(|point| is_inside(circles, half, *point))
            .collect();
        Self {
            circles,
            margin_mm,
            diameter_mm,
            us,
            vs,
            touched: 0,
            points,
        }
    }

    fn most_gap_mm(&self) -> f64 {
        self.circles.gap_mm.max(self.circles.row_gap_mm) + self.margin_mm
    }

    /// Adds the corners at circles that have been placed since.
    fn touch(&mut self, placed: &[usize], at: &[f64]) {
        let half = self.diameter_mm / 2.0;
        let most_gap_mm = self.most_gap_mm();
        // Distances with the larger gap: they hold in every direction.
        let reach = |other: usize| half + self.circles.diameters_mm[other] / 2.0 + most_gap_mm;
        let mut found: Vec<[f64; 2]> = Vec::new();
        for (index, one) in placed.iter().enumerate().skip(self.touched) {
            let centre = [at[2 * one], at[2 * one + 1]];
            for u in self.us.iter().copied() {
                let meets = meeting(u - centre[0], reach(*one)).into_iter().flatten();
                found.extend(meets.map(|v| [u, centre[1] + v]));
            }
            for v in self.vs.iter().copied() {
                let meets = meeting(v - centre[1], reach(*one)).into_iter().flatten();
                found.extend(meets.map(|u| [centre[0] + u, v]));
            }
            for other in &placed[..index] {
                let second = [at[2 * other], at[2 * other + 1]];
                let meets = both(centre, reach(*one), second, reach(*other));
                found.extend(meets.into_iter().flatten());
            }
        }
        let circles = self.circles;
        found.retain(|point| is_inside(circles, half, *point));
        self.points.append(&mut found);
        self.touched = placed.len();
    }

    /// The preferred one of those that are free.
    fn best(
        &mut self,
        preference: Preference,
        circle: usize,
        placed: &[usize],
        at: &[f64],
    ) -> Option<[f64; 2]> {
        let half = self.diameter_mm / 2.0;
        let (right, top) = (self.circles.width_mm - half, self.circles.height_mm - half);
        let mut points = std::mem::take(&mut self.points);
        let mut best: Option<(f64, f64, [f64; 2])> = None;
        points.retain(|point| {
            let to_left = (point[0] - half).min(right - point[0]);
            let to_low = (point[1] - half).min(top - point[1]);
            let (first, second) = match preference {
                Preference::Left => (point[0], point[1]),
                Preference::Low => (point[1], point[0]),
                Preference::Corner => ((to_left * to_left + to_low * to_low).sqrt(), point[0]),
                Preference::Side => (to_left.min(to_low), to_left.max(to_low)),
            };
            let better = best.is_none_or(|(known, then, _)| {
                first < known - 1e-9 || (first < known + 1e-9 && second < then - 1e-9)
            });
            if !better {
                return true;
            }
            // Asked last: most corners are not better, and to know whether one is free takes longest.
            let free = self.is_free(circle, *point, placed, at);
            if free {
                best = Some((first, second, *point));
            }
            free
        });
        self.points = points;
        best.map(|found| found.2)
    }

    fn is_free(&self, circle: usize, point: [f64; 2], placed: &[usize], at: &[f64]) -> bool {
        let half = self.diameter_mm / 2.0;
        placed.iter().all(|other| {
            let du = point[0] - at[2 * other];
            let dv = point[1] - at[2 * other + 1];
            let square = du * du + dv * dv;
            let far = half + self.circles.diameters_mm[*other] / 2.0 + self.most_gap_mm();
            square >= far * far
                || square.sqrt()
                    >= self.circles.needed_mm(circle, *other, du, dv) + self.margin_mm - 1e-7
        })
    }
}

/// Whether a circle there stays in the rectangle and out of what is blocked.
fn is_inside(circles: &Circles, half: f64, point: [f64; 2]) -> bool {
    point[0] >= half - 1e-9
        && point[0] <= circles.width_mm - half + 1e-9
        && point[1] >= half - 1e-9
        && point[1] <= circles.height_mm - half + 1e-9
        && circles
            .blocked
            .iter()
            .all(|part| part.distance_mm(point) >= half - 1e-7)
}

/// The other coordinate at which a circle of this radius meets a line at this distance.
fn meeting(distance: f64, radius: f64) -> Option<[f64; 2]> {
    let square = radius * radius - distance * distance;
    (square >= 0.0).then(|| [square.sqrt(), -square.sqrt()])
}

/// Where two circles meet.
fn both(one: [f64; 2], radius: f64, other: [f64; 2], other_radius: f64) -> Option<[[f64; 2]; 2]> {
    let (du, dv) = (other[0] - one[0], other[1] - one[1]);
    let apart = du * du + dv * dv;
    let reach = radius + other_radius;
    // Asked before the root: most pairs are too far apart.
    if apart <= 0.0 || apart > reach * reach {
        return None;
    }
    let distance = apart.sqrt();
    let along = (apart + radius * radius - other_radius * other_radius) / (2.0 * distance);
    let square = radius * radius - along * along;
    if square < 0.0 {
        return None;
    }
    let across = square.sqrt();
    let (eu, ev) = (du / distance, dv / distance);
    Some([across, -across].map(|side| {
        [
            one[0] + along * eu - side * ev,
            one[1] + along * ev + side * eu,
        ]
    }))
}

/// Circles from the largest to the smallest, equal ones as they stand.
pub(super) fn by_size(circles: &Circles) -> Vec<usize> {
    let mut order: Vec<usize> = (0..circles.diameters_mm.len()).collect();
    order.sort_by(|a, b| {
        circles.diameters_mm[*b]
            .total_cmp(&circles.diameters_mm[*a])
            .then(a.cmp(b))
    });
    order
}
