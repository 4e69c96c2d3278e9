//! The even spread of every row, as far as the lines that are shared leave it.

use super::lines::{Lines, SLACK_MM};
use crate::model::lid::{LidProblem, LidRows};
use crate::space::{down_to_tenth, up_to_tenth};
use std::cmp::Reverse;

/// Centres by item. The row with the most elements comes first, of equal ones the lower, which is operated: the
/// others stand between what of them is placed by then.
pub(super) fn evenly(
    problem: &LidProblem,
    rows: &LidRows,
    width_mm: f64,
    lines: Lines,
) -> Vec<f64> {
    let mut spread = Spread {
        problem,
        width_mm,
        lines,
        centre_mm: vec![None; problem.items.len()],
    };
    let mut in_turn: Vec<usize> = (0..rows.len()).collect();
    in_turn.sort_by_key(|row| Reverse((rows[*row].len(), *row)));
    for row in in_turn {
        spread.row(&rows[row]);
    }
    let centres = spread.centre_mm.into_iter();
    centres.map(Option::unwrap_or_default).collect()
}

struct Spread<'p> {
    problem: &'p LidProblem,
    width_mm: f64,
    lines: Lines,
    /// By item, where it stands already.
    centre_mm: Vec<Option<f64>>,
}

impl Spread<'_> {
    /// Spreads the free stretches of a row between those that already stand.
    fn row(&mut self, row: &[usize]) {
        let mut from = 0;
        for (place, item) in row.iter().enumerate() {
            if self.centre_mm[*item].is_some() {
                self.stretch(row, from, place);
                from = place + 1;
            }
        }
        self.stretch(row, from, row.len());
    }

    /// Spreads neighbours of a row, of which none stands, between the standing ones or edges beside them.
    fn stretch(&mut self, row: &[usize], from: usize, to: usize) {
        if from >= to {
            return;
        }
        let even_mm = self.even_mm(row, from, to);
        let off_mm = |spread: &Self, place: usize| {
            let target_mm = even_mm[place - from];
            (spread.allowed_mm(row[place], target_mm) - target_mm).abs()
        };
        let farthest = |spread: &Self, from: usize| {
            let off = (from..to).map(|place| (place, off_mm(spread, place)));
            let off = off.filter(|(_, off_mm)| *off_mm > SLACK_MM);
            off.reduce(|worst, other| if other.1 > worst.1 { other } else { worst })
        };
        for place in from..to {
            // One that cannot stand where the even spread has it takes the nearest place; the rest is spread anew.
            if let Some((moved, _)) = farthest(self, place) {
                self.stand(row[moved], even_mm[moved - from]);
                self.stretch(row, place, moved);
                self.stretch(row, moved + 1, to);
                return;
            }
            self.stand(row[place], even_mm[place - from]);
        }
    }

    /// The even places of a stretch: equal shares of what is left over before, between and after.
    fn even_mm(&self, row: &[usize], from: usize, to: usize) -> Vec<f64> {
        let standing_mm = |item: usize| self.centre_mm[item].unwrap_or_default();
        let half_mm = |item: usize| self.problem.items[item].width_mm / 2.0;
        let first_mm = match from.checked_sub(1) {
            Some(left) => {
                standing_mm(row[left]) + self.problem.between_centres_mm(row[left], row[from])
            }
            None => half_mm(row[from]),
        };
        let last_mm = match row.get(to) {
            Some(right) => {
                standing_mm(*right) - self.problem.between_centres_mm(row[to - 1], *right)
            }
            None => self.width_mm - half_mm(row[to - 1]),
        };
        let least_mm: f64 = (from + 1..to)
            .map(|place| self.problem.between_centres_mm(row[place - 1], row[place]))
            .sum();
        let spare_mm = (last_mm - first_mm - least_mm).max(0.0);
        let share_mm = down_to_tenth(spare_mm / (to - from + 1) as f64);
        let mut centre_mm = first_mm + share_mm;
        let mut even_mm = vec![centre_mm];
        for place in from + 1..to {
            centre_mm += self.problem.between_centres_mm(row[place - 1], row[place]) + share_mm;
            even_mm.push(centre_mm);
        }
        even_mm
    }

    /// The nearest place to a target that an item may take, in whole tenths where the bounds hold one.
    fn allowed_mm(&self, item: usize, target_mm: f64) -> f64 {
        let (least_mm, most_mm) = self.lines.room_mm(item);
        if target_mm < least_mm - SLACK_MM {
            let tenth_mm = up_to_tenth(least_mm);
            if tenth_mm <= most_mm {
                tenth_mm
            } else {
                least_mm
            }
        } else if target_mm > most_mm + SLACK_MM {
            let tenth_mm = down_to_tenth(most_mm);
            if tenth_mm >= least_mm {
                tenth_mm
            } else {
                most_mm
            }
        } else {
            target_mm
        }
    }

    /// Puts an item as near to a target as it may stand, and all on its line.
    fn stand(&mut self, item: usize, target_mm: f64) {
        let centre_mm = self.allowed_mm(item, target_mm);
        self.lines.fix(item, centre_mm);
        for (other, known) in self.centre_mm.iter_mut().enumerate() {
            if self.lines.share_line(item, other) {
                *known = Some(centre_mm);
            }
        }
    }
}
