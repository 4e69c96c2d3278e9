//! How much the areas take at most where each entry has a price, and what they take then.
//!
//! A row holds what a knapsack of its length holds; an area holds rows whose heights stay within it. What is
//! asked nowhere is that different rows share the entries there are: that is what makes it a bound.

use super::kinds::Kinds;
use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

/// Price of each kind.
pub(super) type Prices = Vec<i64>;

/// What areas of one length hold.
struct Like {
    /// By the tallest kind permitted and the length: the greatest price of one row.
    row: Vec<Vec<i64>>,
    /// By the tallest kind permitted and the height: the greatest price of the rows.
    rows: Vec<Vec<i64>>,
}

/// What the areas hold, at certain prices.
pub(super) struct Capacity<'k> {
    kinds: &'k Kinds,
    pub prices: Prices,
    /// By area; only those that stand for others hold anything.
    like: Vec<Option<Rc<Like>>>,
}

/// Most areas of one length that are kept; then all are forgotten.
const MOST_KNOWN: usize = 192;

thread_local! {
    /// Candidates share many lengths, and their sets of walls nearly all. The key is all that it follows from.
    static KNOWN: RefCell<HashMap<Vec<u64>, Rc<Like>>> = RefCell::default();
}

impl<'k> Capacity<'k> {
    /// Capacities at prices that are asked for again and again, for other areas.
    pub fn telling(kinds: &'k Kinds, prices: Prices) -> Self {
        Self::by(kinds, prices, Like::known)
    }

    /// Capacities at prices of this problem alone.
    pub fn new(kinds: &'k Kinds, prices: Prices) -> Self {
        Self::by(kinds, prices, |kinds, area, prices| {
            Rc::new(Like::new(kinds, area, prices))
        })
    }

    fn by(kinds: &'k Kinds, prices: Prices, of: fn(&Kinds, usize, &[i64]) -> Rc<Like>) -> Self {
        let like = (0..kinds.areas.len())
            .map(|area| (kinds.areas[area].like == area).then(|| of(kinds, area, &prices)))
            .collect();
        Self {
            kinds,
            prices,
            like,
        }
    }

    fn like(&self, area: usize) -> Option<&Like> {
        self.like[self.kinds.areas[area].like].as_deref()
    }

    /// The greatest price of rows in an area, in what is left of its height, none taller than a kind.
    pub fn of_area(&self, area: usize, tallest: usize, height: usize) -> i64 {
        let like = self.like(area);
        like.map_or(0, |like| like.rows[tallest][height])
    }

    /// The greatest price of kinds from one on in so much of a row of an area.
    pub fn of_row(&self, area: usize, from: usize, length: usize) -> i64 {
        self.like(area).map_or(0, |like| like.row[from][length])
    }

    /// What a row of an area takes at the greatest price, of so many entries and none taller than a kind.
    pub fn fullest_row(&self, area: usize, tallest: usize, counts: &[u32]) -> Vec<u32> {
        let (kinds, known) = (&self.kinds.kinds, &self.kinds.areas[area]);
        // best[n]: of the last n kinds.
        let mut best = vec![vec![0; known.length + 1]];
        for kind in (tallest..kinds.len()).rev() {
            let count = if known.takes[kind] { counts[kind] } else { 0 };
            let mut with = best[best.len() - 1].clone();
            add_all(
                &mut with,
                kinds[kind].length,
                self.prices[kind],
                count,
                known.length,
            );
            best.push(with);
        }
        best.reverse();
        let mut row = vec![0; kinds.len()];
        let mut length = known.length;
        for (at, kind) in (tallest..kinds.len()).enumerate() {
            let unit = kinds[kind].length;
            let count = if known.takes[kind] { counts[kind] } else { 0 };
            let price = self.prices[kind];
            let taken = (0..=count as usize)
                .take_while(|more| more * unit <= length)
                .find(|more| {
                    best[at][length] == best[at + 1][length - more * unit] + price * *more as i64
                })
                .unwrap_or(0);
            row[kind] = taken as u32;
            length -= taken * unit;
        }
        row
    }

    /// The price of so many entries of each kind.
    pub fn price(&self, counts: &[u32]) -> i64 {
        let pairs = counts.iter().zip(&self.prices);
        pairs.map(|(count, price)| i64::from(*count) * price).sum()
    }

    /// The greatest price of all areas, empty as they are.
    pub fn of_all(&self) -> i64 {
        (0..self.kinds.areas.len())
            .map(|area| self.of_area(area, 0, self.kinds.areas[area].height))
            .sum()
    }

    /// How many entries of each kind the areas hold where they hold the greatest price.
    pub fn taken(&self) -> Vec<u32> {
        let mut taken = vec![0; self.kinds.kinds.len()];
        for area in 0..self.kinds.areas.len() {
            self.take(area, &mut taken);
        }
        taken
    }

    fn take(&self, area: usize, taken: &mut [u32]) {
        let Some(like) = self.like(area) else { return };
        let kinds = &self.kinds.kinds;
        let known = &self.kinds.areas[area];
        let (mut tallest, mut height) = (0, known.height);
        while tallest < kinds.len() {
            let here = like.rows[tallest][height];
            if here == like.rows[tallest + 1][height] {
                tallest += 1;
                continue;
            }
            height -= kinds[tallest].height;
            let mut length = known.length;
            for (kind, taken) in taken.iter_mut().enumerate().skip(tallest) {
                for _ in 0..kinds[kind].count {
                    if like.row[kind][length] == like.row[kind + 1][length] {
                        break;
                    }
                    length -= kinds[kind].length;
                    *taken += 1;
                }
            }
        }
    }
}

/// The greatest height of all areas that are like one.
fn highest(kinds: &Kinds, area: usize) -> usize {
    let alike = kinds.areas.iter().filter(|other| other.like == area);
    alike.map(|other| other.height).fold(0, usize::max)
}

impl Like {
    fn known(kinds: &Kinds, area: usize, prices: &[i64]) -> Rc<Self> {
        let known = &kinds.areas[area];
        let mut key = vec![known.length as u64, highest(kinds, area) as u64];
        for ((kind, price), takes) in kinds.kinds.iter().zip(prices).zip(&known.takes) {
            let figures = [kind.length, kind.height, kind.count as usize];
            key.extend(figures.map(|figure| figure as u64));
            key.extend([*price as u64, u64::from(*takes)]);
        }
        if let Some(known) = KNOWN.with_borrow(|all| all.get(&key).cloned()) {
            return known;
        }
        let like = Rc::new(Self::new(kinds, area, prices));
        KNOWN.with_borrow_mut(|all| {
            if all.len() >= MOST_KNOWN {
                all.clear();
            }
            all.insert(key, Rc::clone(&like));
        });
        like
    }

    fn new(kinds: &Kinds, area: usize, prices: &[i64]) -> Self {
        let known = &kinds.areas[area];
        let last = kinds.kinds.len();
        let mut row = vec![vec![0; known.length + 1]; last + 1];
        for kind in (0..last).rev() {
            row[kind] = row[kind + 1].clone();
            let length = kinds.kinds[kind].length;
            // What costs nothing adds nothing.
            if !known.takes[kind] || length == 0 || prices[kind] == 0 {
                continue;
            }
            let count = kinds.kinds[kind].count;
            add_all(&mut row[kind], length, prices[kind], count, known.length);
        }
        let highest = highest(kinds, area);
        let mut rows = vec![vec![0; highest + 1]; last + 1];
        for tallest in (0..last).rev() {
            rows[tallest] = rows[tallest + 1].clone();
            let height = kinds.kinds[tallest].height;
            if !known.takes[tallest] || height == 0 {
                continue;
            }
            let one = row[tallest][known.length];
            if one == row[tallest + 1][known.length] {
                continue;
            }
            for at in height..=highest {
                let more = rows[tallest][at - height] + one;
                rows[tallest][at] = rows[tallest][at].max(more);
            }
        }
        Self { row, rows }
    }
}

/// So many things of one length and price that may be put in, in growing lots.
fn add_all(best: &mut [i64], length: usize, price: i64, count: u32, most: usize) {
    if length == 0 {
        return;
    }
    let mut left = (count as usize).min(most / length);
    let mut times = 1;
    while left > 0 {
        times = times.min(left);
        add(best, times * length, price * times as i64);
        left -= times;
        times *= 2;
    }
}

/// One more thing that may be put in, once. From the far end, in pieces so short that what is read is not
/// what is written.
fn add(best: &mut [i64], length: usize, price: i64) {
    let mut end = best.len();
    while end > length {
        let start = end.saturating_sub(length).max(length);
        let (without, with) = best[..end].split_at_mut(start);
        for (with, without) in with.iter_mut().zip(&without[start - length..]) {
            *with = (*with).max(without + price);
        }
        end = start;
    }
}
