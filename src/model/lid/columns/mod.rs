//! Where the elements of decided rows stand across the lid.
//!
//! What the list asks `above` another stands on its vertical line where that is possible: of the pairs that are
//! asked as many as can be, of equally many those that come first in the list. Which elements share a row stays as
//! it was decided; in a row those change places that stand in the order of the list for want of any other reason,
//! and only where more pairs stand straight for it. No gap and no edge gives way. Among all such places the row with
//! the most elements is spread evenly first, then the others between what already stands.

mod lines;
mod orders;
mod spread;
#[cfg(test)]
mod tests;

use super::{LidProblem, LidRows};
use lines::Lines;

/// An item and the one below that it is asked to stand above.
pub type Pair = (usize, usize);

/// After so many sets of pairs the search for the most is content with what it has: exact for up to nine pairs, and
/// for more as long as few of them stand in each other's way.
const MOST_TRIED: usize = 1_000;

/// Where the elements stand across the lid.
#[derive(Debug, Clone)]
pub struct Across {
    /// The rows, with the items from left to right.
    pub rows: LidRows,
    /// By item: its centre, from the left edge of the rectangle.
    pub centre_mm: Vec<f64>,
    /// Pairs that do not stand straight.
    pub beside_line: Vec<BesideLine>,
}

/// A pair that cannot stand straight, with the reason.
#[derive(Debug, Clone, PartialEq)]
pub struct BesideLine {
    /// Item asked above the other, and that other.
    pub pair: Pair,
    /// Pairs that stand straight and leave no line for this one; none where it has none even alone.
    pub because_of: Vec<Pair>,
    /// Whether a wider lid would help: otherwise the order in the rows forbids it.
    pub is_too_narrow: bool,
}

/// Places the items of rows across a rectangle of a width.
pub fn across(problem: &LidProblem, rows: &LidRows, width_mm: f64) -> Across {
    let asked = problem.pairs();
    let straight_in = |rows: &LidRows, more_than: usize| {
        most_pairs(&asked, more_than, |pairs| {
            Lines::new(problem, rows, width_mm, pairs).is_possible()
        })
    };
    let mut rows = rows.clone();
    let mut straight = straight_in(&rows, 0);
    if straight.len() < asked.len() {
        for other in orders::nearest_first(problem, &rows) {
            let more = straight_in(&other, straight.len());
            if more.len() > straight.len() {
                (rows, straight) = (other, more);
            }
            if straight.len() == asked.len() {
                break;
            }
        }
    }
    let beside = asked.iter().filter(|pair| !straight.contains(pair));
    let beside_line = beside
        .map(|pair| beside_line(problem, &rows, width_mm, &straight, *pair))
        .collect();
    let lines = Lines::new(problem, &rows, width_mm, &straight);
    Across {
        centre_mm: spread::evenly(problem, &rows, width_mm, lines),
        beside_line,
        rows,
    }
}

/// Why a pair does not stand straight beside those that do.
fn beside_line(
    problem: &LidProblem,
    rows: &LidRows,
    width_mm: f64,
    straight: &[Pair],
    pair: Pair,
) -> BesideLine {
    let possible = |others: &[Pair], width_mm| {
        let pairs = [others, &[pair]].concat();
        Lines::new(problem, rows, width_mm, &pairs).is_possible()
    };
    // What is left when none can be spared: all of these together leave no line.
    let mut because_of = straight.to_vec();
    for other in straight {
        let mut fewer = because_of.clone();
        fewer.retain(|one| one != other);
        if !possible(&fewer, width_mm) {
            because_of = fewer;
        }
    }
    BesideLine {
        pair,
        is_too_narrow: possible(&because_of, f64::INFINITY),
        because_of,
    }
}

/// As many pairs as are possible together, of equally many those that come first; where no more than a number are,
/// any that are.
fn most_pairs(asked: &[Pair], more_than: usize, possible: impl Fn(&[Pair]) -> bool) -> Vec<Pair> {
    let mut search = Search {
        asked,
        more_than,
        possible,
        best: Vec::new(),
        tried: 0,
    };
    search.go_on(&mut Vec::new(), 0);
    let mut best = search.best;
    // A search that was broken off may have left some that go with the rest.
    for pair in asked {
        let with = [best.as_slice(), &[*pair]].concat();
        if !best.contains(pair) && (search.possible)(&with) {
            best = with;
        }
    }
    best
}

struct Search<'a, F> {
    asked: &'a [Pair],
    more_than: usize,
    possible: F,
    best: Vec<Pair>,
    tried: usize,
}

impl<F: Fn(&[Pair]) -> bool> Search<'_, F> {
    /// Goes through the sets that hold those chosen and any of the pairs from `next` on.
    fn go_on(&mut self, chosen: &mut Vec<Pair>, next: usize) {
        if chosen.len() > self.best.len() {
            self.best.clone_from(chosen);
        }
        let left = self.asked.len() - next;
        if chosen.len() + left <= self.best.len().max(self.more_than) || self.tried >= MOST_TRIED {
            return;
        }
        self.tried += 1;
        chosen.push(self.asked[next]);
        if (self.possible)(chosen) {
            self.go_on(chosen, next + 1);
        }
        chosen.pop();
        self.go_on(chosen, next + 1);
    }
}

impl LidProblem {
    /// The pairs that the list asks to stand above one another.
    fn pairs(&self) -> Vec<Pair> {
        let items = self.items.iter().enumerate();
        items
            .filter_map(|(item, known)| known.above.map(|below| (item, below)))
            .collect()
    }

    /// Least distance between the centres of two neighbours in a row.
    fn between_centres_mm(&self, a: usize, b: usize) -> f64 {
        let (one, other) = (&self.items[a], &self.items[b]);
        let gap_mm = self.gap_between_mm(one.free_standing, other.free_standing);
        one.width_mm / 2.0 + gap_mm + other.width_mm / 2.0
    }
}
