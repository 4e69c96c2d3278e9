//! Prices at which the entries are worth more than the areas hold: then no division into rows takes them.
//!
//! Any prices will do, so some telling ones are tried first. Then prices are sought: what is asked for more
//! often than it finds room grows dearer, what finds more room than it asks for cheaper (the subgradient
//! step of Held, Wolfe and Crowder, "Validation of subgradient optimization", Mathematical Programming 6,
//! 1974).

use super::capacity::{Capacity, Prices};
use super::kinds::Kinds;

/// Steps of the search for prices.
const STEPS: usize = 40;
/// Sought prices are whole parts of this.
const SCALE: f64 = 1e6;

/// The capacities at telling prices; none where one of them disproves.
pub(super) fn telling<'k>(kinds: &'k Kinds, counts: &[u32]) -> Option<Vec<Capacity<'k>>> {
    let mut known = Vec::new();
    for prices in telling_prices(kinds) {
        let capacity = Capacity::telling(kinds, prices);
        if capacity.of_all() < capacity.price(counts) {
            return None;
        }
        known.push(capacity);
    }
    Some(known)
}

/// Length, area and number of the kinds down to each one: tall entries must find room whatever the others do.
fn telling_prices(kinds: &Kinds) -> Vec<Prices> {
    let all = &kinds.kinds;
    let mut prices: Vec<Prices> = Vec::new();
    for last in (0..all.len()).rev() {
        let of = |price: fn(&super::kinds::Kind) -> usize| -> Prices {
            let priced = all.iter().enumerate();
            priced
                .map(|(kind, known)| if kind <= last { price(known) as i64 } else { 0 })
                .collect()
        };
        prices.push(of(|kind| kind.length));
        prices.push(of(|kind| kind.length * kind.height));
        prices.push(of(|_| 1));
    }
    prices
}

/// Seeks prices that disprove; else gives the capacity at those that came nearest.
pub(super) fn sought<'k>(kinds: &'k Kinds, counts: &[u32]) -> Option<Capacity<'k>> {
    let mut prices: Vec<f64> = kinds
        .kinds
        .iter()
        .map(|kind| (kind.length * kind.height) as f64)
        .collect();
    let mut nearest: Option<(f64, Capacity<'k>)> = None;
    for _ in 0..STEPS {
        let dearest = prices.iter().copied().fold(0.0, f64::max);
        if dearest <= 0.0 {
            break;
        }
        for price in &mut prices {
            *price /= dearest;
        }
        let whole: Prices = prices
            .iter()
            .map(|price| (price * SCALE).round() as i64)
            .collect();
        let capacity = Capacity::new(kinds, whole);
        let (worth, room) = (capacity.price(counts), capacity.of_all());
        if room < worth {
            return None;
        }
        let taken = capacity.taken();
        let missing: Vec<f64> = counts
            .iter()
            .zip(&taken)
            .map(|(count, taken)| f64::from(*count) - f64::from(*taken))
            .collect();
        let norm: f64 = missing.iter().map(|missing| missing * missing).sum();
        let left = (room - worth) as f64 / SCALE;
        let share = (room - worth) as f64 / worth.max(1) as f64;
        if nearest.as_ref().is_none_or(|(known, _)| share < *known) {
            nearest = Some((share, capacity));
        }
        if norm == 0.0 {
            break;
        }
        // A little beyond where what is left would be gone.
        let step = (left + 0.01 * worth as f64 / SCALE) / norm;
        for (price, missing) in prices.iter_mut().zip(&missing) {
            *price = (*price + step * missing).max(0.0);
        }
    }
    nearest.map(|(_, capacity)| capacity)
}
