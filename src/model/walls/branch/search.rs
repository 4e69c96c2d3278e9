//! The search over rows: the tallest entries that are left open the next row, which holds as much as it can.
//!
//! Whatever rows there are, the tallest entry left stands in one whose height it gives. In each area rows of
//! one height are taken by falling content and areas by rising index, so that no division is met twice; and a
//! row that could take one more of what is left need not be tried, for the division with that one moved into it
//! is as good. Capacities cut what cannot come to an end.

use super::capacity::Capacity;
use super::kinds::Kinds;
use std::collections::HashSet;

/// What floats may be off, mm; as for the tables.
pub(super) const NOISE_MM: f64 = 1e-9;

/// A row: its area and how many entries it takes of each kind.
pub(super) type Row = (usize, Vec<u32>);

/// What the search found.
pub(super) enum Found {
    Rows(Vec<Row>),
    Nothing,
    /// It stopped.
    Open,
}

/// What is left: entries, and height of each area, mm and units.
struct Left {
    counts: Vec<u32>,
    height_mm: Vec<f64>,
    height: Vec<usize>,
}

pub(super) struct Search<'k> {
    kinds: &'k Kinds,
    capacities: &'k [Capacity<'k>],
    /// Most rows that are tried.
    most: usize,
    left: Left,
    rows: Vec<Row>,
    tried: usize,
    /// What has been left at the beginning of a kind without coming to an end.
    failed: HashSet<Vec<u64>>,
}

/// How one branch ended.
#[derive(PartialEq)]
enum End {
    Reached,
    Dead,
    Stopped,
}

impl<'k> Search<'k> {
    pub fn new(
        kinds: &'k Kinds,
        counts: &[u32],
        capacities: &'k [Capacity<'k>],
        most: usize,
    ) -> Self {
        let left = Left {
            counts: counts.to_vec(),
            height_mm: kinds.areas.iter().map(|area| area.height_mm).collect(),
            height: kinds.areas.iter().map(|area| area.height).collect(),
        };
        Self {
            kinds,
            capacities,
            most,
            left,
            rows: Vec::new(),
            tried: 0,
            failed: HashSet::new(),
        }
    }

    pub fn run(mut self) -> Found {
        match self.next(0, 0, None) {
            End::Reached => Found::Rows(self.rows),
            End::Dead => Found::Nothing,
            End::Stopped => Found::Open,
        }
    }

    /// Goes on with the tallest kind that is left; `area` and `last` bound the order of its rows.
    fn next(&mut self, kind: usize, area: usize, last: Option<&[u32]>) -> End {
        let Some(tallest) = (kind..self.left.counts.len()).find(|at| self.left.counts[*at] > 0)
        else {
            return End::Reached;
        };
        let fresh = tallest != kind || last.is_none();
        let key = fresh.then(|| self.key());
        if key.as_ref().is_some_and(|key| self.failed.contains(key)) {
            return End::Dead;
        }
        let (first_area, last) = if fresh { (0, None) } else { (area, last) };
        for at in first_area..self.kinds.areas.len() {
            // Of two areas that are alike and as they were, the first stands for both.
            let alike = |earlier: usize| {
                self.kinds.areas[earlier].like == self.kinds.areas[at].like
                    && self.left.height_mm[earlier] == self.left.height_mm[at]
                    && (earlier > first_area || last.is_none())
            };
            if (first_area..at).any(alike) {
                continue;
            }
            let last = last.filter(|_| at == first_area);
            match self.in_area(tallest, at, last) {
                End::Dead => {}
                end => return end,
            }
        }
        if let Some(key) = key {
            self.failed.insert(key);
        }
        End::Dead
    }

    fn key(&self) -> Vec<u64> {
        let heights = self
            .left
            .height_mm
            .iter()
            .map(|mm| (mm * 1e4).round() as u64);
        let counts = self.left.counts.iter().map(|count| u64::from(*count));
        counts.chain(heights).collect()
    }

    /// Tries every row of the tallest kind in one area.
    fn in_area(&mut self, tallest: usize, at: usize, last: Option<&[u32]>) -> End {
        let known = &self.kinds.areas[at];
        let kind = &self.kinds.kinds[tallest];
        if !known.takes[tallest] || kind.height_mm > self.left.height_mm[at] + NOISE_MM {
            return End::Dead;
        }
        let before = (self.left.height_mm[at], self.left.height[at]);
        self.left.height_mm[at] -= kind.height_mm;
        self.left.height[at] = self.left.height[at].saturating_sub(kind.height);
        let mut filling = Filling {
            at,
            tallest,
            last: last.map(<[u32]>::to_vec),
            missing: self.missing(tallest),
            row: vec![0; self.left.counts.len()],
        };
        filling.put(self.capacities, tallest, 1);
        self.left.counts[tallest] -= 1;
        let room = (known.length_mm - kind.length_mm, known.length - kind.length);
        let end = self.fill(&mut filling, tallest, room, true);
        self.left.counts[tallest] += 1;
        (self.left.height_mm[at], self.left.height[at]) = before;
        end
    }

    /// By capacity: the price that the row now begun must take at least for the rest to find room.
    fn missing(&self, tallest: usize) -> Vec<i64> {
        let of = |capacity: &Capacity<'_>| {
            let room: i64 = (0..self.kinds.areas.len())
                .map(|area| capacity.of_area(area, tallest, self.left.height[area]))
                .sum();
            capacity.price(&self.left.counts) - room
        };
        self.capacities.iter().map(of).collect()
    }

    /// Adds entries of this kind and the lower ones to a row, as many as it takes first.
    fn fill(&mut self, filling: &mut Filling, kind: usize, room: (f64, usize), tied: bool) -> End {
        // What can still be added must bring the row to its least price, at every price.
        for (capacity, missing) in self.capacities.iter().zip(&filling.missing) {
            if capacity.of_row(filling.at, kind, room.1) < *missing {
                return End::Dead;
            }
        }
        if kind == self.left.counts.len() {
            return self.end_row(filling, room.0);
        }
        let known = &self.kinds.kinds[kind];
        let fits = ((room.0 + NOISE_MM) / known.length_mm).floor().max(0.0) as u32;
        let most = match self.kinds.areas[filling.at].takes[kind] {
            true => fits.min(self.left.counts[kind]),
            false => 0,
        };
        for more in (0..=most).rev() {
            let mut still_tied = tied;
            if let (true, Some(last)) = (tied, &filling.last) {
                let here = filling.row[kind] + more;
                if here > last[kind] {
                    continue;
                }
                still_tied = here == last[kind];
            }
            filling.put(self.capacities, kind, i64::from(more));
            self.left.counts[kind] -= more;
            let rest = (
                room.0 - f64::from(more) * known.length_mm,
                room.1.saturating_sub(more as usize * known.length),
            );
            let end = self.fill(filling, kind + 1, rest, still_tied);
            filling.put(self.capacities, kind, -i64::from(more));
            self.left.counts[kind] += more;
            if end != End::Dead {
                return end;
            }
        }
        End::Dead
    }

    fn end_row(&mut self, filling: &Filling, room_mm: f64) -> End {
        let takes = &self.kinds.areas[filling.at].takes;
        let one_more = (filling.tallest..self.left.counts.len()).any(|kind| {
            takes[kind]
                && self.left.counts[kind] > 0
                && self.kinds.kinds[kind].length_mm <= room_mm + NOISE_MM
        });
        if one_more {
            return End::Dead;
        }
        self.tried += 1;
        if self.tried > self.most {
            return End::Stopped;
        }
        self.rows.push((filling.at, filling.row.clone()));
        let end = self.next(filling.tallest, filling.at, Some(&filling.row));
        if end == End::Dead {
            self.rows.pop();
        }
        end
    }
}

/// A row that is being filled.
struct Filling {
    at: usize,
    tallest: usize,
    /// The row before it, of the same kind in the same area: this one may not come before that.
    last: Option<Vec<u32>>,
    /// By capacity: the price that it still must take.
    missing: Vec<i64>,
    row: Vec<u32>,
}

impl Filling {
    fn put(&mut self, capacities: &[Capacity<'_>], kind: usize, count: i64) {
        for (capacity, missing) in capacities.iter().zip(&mut self.missing) {
            *missing -= count * capacity.prices[kind];
        }
        self.row[kind] = (i64::from(self.row[kind]) + count) as u32;
    }
}
