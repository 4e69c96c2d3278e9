//! Between which bounds the elements may stand across the lid, where some share a vertical line.
//!
//! Every demand is a least distance between two lines (neighbours of a row) or a bound of one line (the edges of
//! the rectangle), so the bounds of each line follow exactly from longest ways; any value between them can be
//! completed to a whole arrangement.

use super::Pair;
use crate::model::lid::{LidProblem, LidRows};

/// What binary fractions may add to or take from a bound.
pub(super) const SLACK_MM: f64 = 1e-6;

/// The vertical lines on which elements stand, with their bounds.
#[derive(Debug, Clone)]
pub(super) struct Lines {
    /// By item: its line, the index of one of the items on it.
    line_of: Vec<usize>,
    /// Lines a and b: b stands right of a by at least that.
    after: Vec<(usize, usize, f64)>,
    least_mm: Vec<f64>,
    most_mm: Vec<f64>,
    is_possible: bool,
}

impl Lines {
    /// The lines of rows in a rectangle of a width, with the items of each pair on one line.
    pub fn new(problem: &LidProblem, rows: &LidRows, width_mm: f64, pairs: &[Pair]) -> Self {
        let count = problem.items.len();
        let mut line_of: Vec<usize> = (0..count).collect();
        for (upper, lower) in pairs {
            let (from, to) = (line_of[*upper], line_of[*lower]);
            for line in &mut line_of {
                if *line == from {
                    *line = to;
                }
            }
        }
        let mut lines = Self {
            after: Vec::new(),
            least_mm: vec![0.0; count],
            most_mm: vec![width_mm; count],
            line_of,
            is_possible: true,
        };
        for row in rows {
            for item in row {
                let (line, half_mm) = (lines.line_of[*item], problem.items[*item].width_mm / 2.0);
                lines.least_mm[line] = lines.least_mm[line].max(half_mm);
                lines.most_mm[line] = lines.most_mm[line].min(width_mm - half_mm);
            }
            for (a, b) in row.iter().zip(row.iter().skip(1)) {
                let between = (lines.line_of[*a], lines.line_of[*b]);
                let distance_mm = problem.between_centres_mm(*a, *b);
                lines.after.push((between.0, between.1, distance_mm));
            }
        }
        lines.tighten();
        lines
    }

    /// Whether everything finds a place.
    pub fn is_possible(&self) -> bool {
        self.is_possible
    }

    /// Least and greatest centre of an item.
    pub fn room_mm(&self, item: usize) -> (f64, f64) {
        let line = self.line_of[item];
        (self.least_mm[line], self.most_mm[line])
    }

    /// Whether two items stand on one line.
    pub fn share_line(&self, a: usize, b: usize) -> bool {
        self.line_of[a] == self.line_of[b]
    }

    /// Puts an item, and all on its line, at a centre.
    pub fn fix(&mut self, item: usize, centre_mm: f64) {
        let line = self.line_of[item];
        (self.least_mm[line], self.most_mm[line]) = (centre_mm, centre_mm);
        self.tighten();
    }

    /// Carries every bound on to the lines beside it, until nothing moves any more. Where something still moves
    /// after as many rounds as there are lines, a line would have to stand right of itself.
    fn tighten(&mut self) {
        let mut is_moving = true;
        let mut rounds = 0;
        while is_moving && rounds <= self.line_of.len() {
            is_moving = false;
            rounds += 1;
            for (a, b, distance_mm) in &self.after {
                let least_mm = self.least_mm[*a] + distance_mm;
                if least_mm > self.least_mm[*b] + 1e-9 {
                    self.least_mm[*b] = least_mm;
                    is_moving = true;
                }
                let most_mm = self.most_mm[*b] - distance_mm;
                if most_mm < self.most_mm[*a] - 1e-9 {
                    self.most_mm[*a] = most_mm;
                    is_moving = true;
                }
            }
        }
        let mut bounds = self.least_mm.iter().zip(&self.most_mm);
        self.is_possible = !is_moving && bounds.all(|(least, most)| *least <= most + SLACK_MM);
    }
}
