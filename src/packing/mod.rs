//! Circles of different diameters in a rectangle, none nearer to another than a gap, in no rows.
//!
//! Knows lengths only: nothing of walls, glands or boxes. What is found is verified exactly; that
//! nothing is found proves nothing by itself, so an impossibility always names the bound that proves
//! it. The search counts its steps and never looks at a clock, and its random numbers begin with a
//! fixed seed: the same question has the same answer everywhere.

mod blocked;
mod bounds;
mod descent;
mod random;
mod search;
mod starts;

pub use blocked::Blocked;
pub use bounds::least_area_mm2;

/// Grid of the positions, mm: a twentieth, since halves of envelopes in tenths lie on it.
const GRID_MM: f64 = 0.05;
/// The finer grid, for what is too tight for the first.
const FINE_GRID_MM: f64 = 0.001;
/// How long it is searched, in evaluated pairs of circles: the search never looks at a clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Effort {
    /// For one of many questions: some milliseconds. What is ever found is mostly found by then.
    Quick,
    /// For a question by itself: some hundredths of a second.
    Thorough,
    /// Ten times as long as the first, for those who wait for it.
    Patient,
}

impl Effort {
    fn most_pairs(self) -> u64 {
        match self {
            Effort::Quick => 600_000,
            Effort::Thorough => 3_000_000,
            Effort::Patient => 6_000_000,
        }
    }
}

/// What binary fractions may take from an exact comparison, mm.
const NOISE_MM: f64 = 1e-9;

/// What is asked: circles, a rectangle, gaps.
#[derive(Debug, Clone, PartialEq)]
pub struct Circles {
    /// Width of the rectangle, along u.
    pub width_mm: f64,
    /// Height of the rectangle, along v.
    pub height_mm: f64,
    /// Diameters. Circles may touch the sides of the rectangle.
    pub diameters_mm: Vec<f64>,
    /// Least gap between two circles side by side along u.
    pub gap_mm: f64,
    /// Least gap between two circles one above the other along v. Between these directions the least
    /// gap changes with the square of the sine: see [`gap_between_mm`].
    pub row_gap_mm: f64,
    /// Parts of the rectangle that no circle may reach into; it may touch them.
    pub blocked: Vec<Blocked>,
}

/// What came of it.
#[derive(Debug, Clone, PartialEq)]
pub enum Placing {
    /// Centres from the lower left corner, in the order of the diameters; verified.
    Placed(Vec<[f64; 2]>),
    /// Proved impossible.
    Impossible(Bound),
    /// Neither found nor disproved.
    Open,
}

/// What proves that the circles find no room. Every length in mm, every area in mm².
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Bound {
    /// One circle is larger than the rectangle.
    Single {
        /// Its diameter.
        diameter_mm: f64,
        /// The lesser extent of the rectangle.
        extent_mm: f64,
    },
    /// Each circle, enlarged by half the gap all round, takes its area, and circles never cover more
    /// than a certain share of a rectangle.
    Area {
        /// The circles' areas over that share.
        needed_mm2: f64,
        /// The rectangle, enlarged likewise.
        available_mm2: f64,
    },
    /// More centres than can keep their distance in the rectangle that is left to them.
    Count {
        /// Circles of at least this diameter,
        diameter_mm: f64,
        /// of which there are so many,
        circles: usize,
        /// and at most so many can be.
        most: usize,
    },
    /// The rectangle is so narrow that the circles follow one another, and their line is too long.
    Line {
        /// Least length of the line.
        needed_mm: f64,
        /// Extent of the rectangle.
        available_mm: f64,
    },
}

/// The least gap between two circles whose centres lie apart by `du_mm` and `dv_mm`: `gap_mm` side by
/// side, `row_gap_mm` one above the other, between them weighted by the squares of cosine and sine.
pub fn gap_between_mm(gap_mm: f64, row_gap_mm: f64, du_mm: f64, dv_mm: f64) -> f64 {
    let square = du_mm * du_mm + dv_mm * dv_mm;
    let upright = if square > 0.0 {
        dv_mm * dv_mm / square
    } else {
        0.0
    };
    gap_mm + (row_gap_mm - gap_mm) * upright
}

impl Circles {
    /// The least distance between the centres of two circles that lie apart by `du_mm` and `dv_mm`:
    /// half of both diameters and [`gap_between_mm`].
    pub fn needed_mm(&self, one: usize, other: usize, du_mm: f64, dv_mm: f64) -> f64 {
        (self.diameters_mm[one] + self.diameters_mm[other]) / 2.0
            + gap_between_mm(self.gap_mm, self.row_gap_mm, du_mm, dv_mm)
    }

    /// The lesser of the two gaps: no pair keeps less.
    fn least_gap_mm(&self) -> f64 {
        self.gap_mm.min(self.row_gap_mm)
    }

    /// Whether centres keep every gap and every side of the rectangle, exactly.
    pub fn holds(&self, centres: &[[f64; 2]]) -> bool {
        let inside = |at: f64, diameter_mm: f64, extent_mm: f64| {
            at >= diameter_mm / 2.0 - NOISE_MM && at <= extent_mm - diameter_mm / 2.0 + NOISE_MM
        };
        centres.len() == self.diameters_mm.len()
            && centres
                .iter()
                .zip(&self.diameters_mm)
                .all(|([u, v], d)| inside(*u, *d, self.width_mm) && inside(*v, *d, self.height_mm))
            && centres.iter().zip(&self.diameters_mm).all(|(centre, d)| {
                self.blocked
                    .iter()
                    .all(|part| part.distance_mm(*centre) >= d / 2.0 - NOISE_MM)
            })
            && (0..centres.len()).all(|one| {
                (0..one).all(|other| {
                    let du_mm = centres[one][0] - centres[other][0];
                    let dv_mm = centres[one][1] - centres[other][1];
                    let most_mm = (self.diameters_mm[one] + self.diameters_mm[other]) / 2.0
                        + self.gap_mm.max(self.row_gap_mm);
                    // Far apart, as most are, needs no exact distance.
                    du_mm.abs().max(dv_mm.abs()) >= most_mm
                        || du_mm.hypot(dv_mm) >= self.needed_mm(one, other, du_mm, dv_mm) - NOISE_MM
                })
            })
    }

    /// The bound that proves that there is no placing; none proves nothing.
    pub fn disproved(&self) -> Option<Bound> {
        bounds::disproved(self)
    }

    /// Places the circles: bounds first, then starts in order, then the search.
    pub fn place(&self, effort: Effort) -> Placing {
        if let Some(bound) = self.disproved() {
            return Placing::Impossible(bound);
        }
        match search::find(self, effort.most_pairs()) {
            Some(centres) => Placing::Placed(centres),
            None => Placing::Open,
        }
    }

    /// Brings centres onto a grid; `None` where they do not hold there. The outermost positions that
    /// a circle may take count as if they lay on the grid.
    fn on_grid(&self, centres: &[[f64; 2]], grid_mm: f64) -> Option<Vec<[f64; 2]>> {
        let snap = |at: f64, diameter_mm: f64, extent_mm: f64| {
            let (least, most) = (diameter_mm / 2.0, extent_mm - diameter_mm / 2.0);
            let on_grid = (at / grid_mm).round() * grid_mm;
            // Binary noise goes, millionths stay: a side need not lie on the grid.
            (on_grid.clamp(least, most.max(least)) * 1e6).round() / 1e6
        };
        let snapped: Vec<[f64; 2]> = centres
            .iter()
            .zip(&self.diameters_mm)
            .map(|([u, v], diameter)| {
                [
                    snap(*u, *diameter, self.width_mm),
                    snap(*v, *diameter, self.height_mm),
                ]
            })
            .collect();
        self.holds(&snapped).then_some(snapped)
    }
}

#[cfg(test)]
mod tests;
