//! Entries dealt out to their places and strips turned to their sides, both together: for each choice of sides
//! the entries are an assignment problem, and there are few strips. The least sum over all choices is exact.

use super::{Exchange, Spot};
use crate::demand::{WireNeed, WireNeedEnd};
use crate::model::place::wires::route_mm;
use itertools::Itertools;
use pathfinding::kuhn_munkres::kuhn_munkres_min;
use pathfinding::matrix::Matrix;
use std::collections::BTreeSet;

/// Most strips of which every choice of sides is tried.
const MOST_STRIPS: usize = 6;

/// A tenth of a millimetre weighs more than any sum of squares, mm².
const WEIGHT_OF_TENTH: i64 = 10_000_000_000;

/// Tenths of a millimetre count. Where they are equal the sum of squares to the side counts: it is least where
/// no two change sides, so that conductors do not cross without need.
pub(super) fn weight(length_mm: f64, aside_mm2: f64) -> i64 {
    (length_mm * 10.0).round() as i64 * WEIGHT_OF_TENTH + aside_mm2.round() as i64
}

/// Entries that may change places with one another, with what each costs in each place.
struct Class {
    entries: Vec<usize>,
    /// Indices of the spots.
    places: Vec<usize>,
    /// By entry and place.
    costs: Vec<Vec<Cost>>,
}

/// What the conductors of one entry cost in one place.
struct Cost {
    /// Length of those that lead to no terminal, mm.
    straight_mm: f64,
    /// Length of those of each strip, as it is and turned, mm.
    of_strip_mm: Vec<[f64; 2]>,
    aside_mm2: f64,
}

impl Cost {
    fn weight(&self, is_turned: &[bool]) -> i64 {
        let strips = self.of_strip_mm.iter().zip(is_turned);
        let on_strips_mm: f64 = strips
            .map(|(sides, turned)| sides[usize::from(*turned)])
            .sum();
        weight(self.straight_mm + on_strips_mm, self.aside_mm2)
    }
}

impl Exchange<'_, '_> {
    /// Deals the entries of each class out with the least sum over all choices of sides. `false`, and nothing
    /// done, where there are too many strips to try them all.
    pub(super) fn deal_and_turn(&self, spots: &mut [Spot]) -> bool {
        let Some((_, dealt)) = self.least(spots) else {
            return false;
        };
        for (place, entry) in dealt {
            spots[place].entry = entry;
        }
        true
    }

    /// What all conductors measure at least, however the entries are dealt out and the strips turned, mm; `None`
    /// where there are too many strips.
    pub(super) fn least_mm(&self, spots: &[Spot]) -> Option<f64> {
        let (sum, _) = self.least(spots)?;
        // Every length was rounded to a tenth: down by half of one for each is below them all.
        let rounded_mm = 0.05 * (spots.len() + 1) as f64;
        Some(((sum / WEIGHT_OF_TENTH) as f64 / 10.0 - rounded_mm).max(0.0))
    }

    /// The least sum of weights, and which entry then stands in which place.
    fn least(&self, spots: &[Spot]) -> Option<(i64, Vec<(usize, usize)>)> {
        let strips = self.demand.strips.len();
        if strips > MOST_STRIPS {
            return None;
        }
        let classes = self.classes(spots);
        let classes = classes
            .into_iter()
            .map(|(entries, places)| self.class(spots, entries, places))
            .collect_vec();
        let mut best: Option<(i64, Vec<(usize, usize)>)> = None;
        for choice in 0..1usize << strips {
            let is_turned = (0..strips)
                .map(|strip| choice >> strip & 1 == 1)
                .collect_vec();
            let turned: BTreeSet<usize> = (0..strips).filter(|strip| is_turned[*strip]).collect();
            let mut sum = weight(self.inside_mm(&turned), 0.0);
            let mut dealt = Vec::new();
            for class in &classes {
                let count = class.entries.len();
                let weights = Matrix::from_fn(count, count, |(entry, place)| {
                    class.costs[entry][place].weight(&is_turned)
                });
                let (cost, place_of) = kuhn_munkres_min(&weights);
                sum += cost;
                let places = place_of.into_iter().map(|place| class.places[place]);
                dealt.extend(places.zip(class.entries.iter().copied()));
            }
            if best.as_ref().is_none_or(|(least, _)| sum < *least) {
                best = Some((sum, dealt));
            }
        }
        best
    }

    fn class(&self, spots: &[Spot], entries: Vec<usize>, places: Vec<usize>) -> Class {
        let costs = entries.iter().map(|entry| {
            let of_places = places.iter().map(|place| self.cost(*entry, &spots[*place]));
            of_places.collect_vec()
        });
        Class {
            costs: costs.collect_vec(),
            entries,
            places,
        }
    }

    fn cost(&self, entry: usize, spot: &Spot) -> Cost {
        let mut cost = Cost {
            straight_mm: 0.0,
            of_strip_mm: vec![[0.0; 2]; self.demand.strips.len()],
            aside_mm2: self.aside_mm2(entry, spot),
        };
        let Some((_, ends)) = self.ends_in(entry, spot) else {
            return cost;
        };
        // A conductor asks about the side of its own strip only, so that all may be turned at once.
        let (none, all) = (BTreeSet::new(), (0..self.demand.strips.len()).collect());
        for wire in &self.wires_of[entry] {
            let length_mm = |turned| route_mm(self.demand, &ends, self.terminals, turned, wire);
            match self.strip_of(wire) {
                Some(strip) => {
                    let sides = &mut cost.of_strip_mm[strip];
                    sides[0] += length_mm(&none);
                    sides[1] += length_mm(&all);
                }
                None => cost.straight_mm += length_mm(&none),
            }
        }
        cost
    }

    /// The strip to which a cable's conductor leads.
    fn strip_of(&self, wire: &WireNeed) -> Option<usize> {
        [&wire.from, &wire.to]
            .into_iter()
            .find_map(|end| match end {
                WireNeedEnd::Terminal { terminal, .. } => {
                    Some(self.demand.terminals[*terminal].strip)
                }
                _ => None,
            })
    }

    /// Length of the conductors that no cable brings in, mm.
    pub(super) fn inside_mm(&self, turned: &BTreeSet<usize>) -> f64 {
        let ends = self.ends(std::collections::BTreeMap::new());
        let wires = self
            .demand
            .wires
            .iter()
            .filter(|wire| !super::is_core(wire));
        wires
            .map(|wire| route_mm(self.demand, &ends, self.terminals, turned, wire))
            .sum()
    }
}
