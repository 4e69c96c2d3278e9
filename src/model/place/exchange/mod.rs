//! Which entry stands where: of all places that are alike for the model, those with the least length of
//! conductors.
//!
//! Entries of one envelope, thread and choice of walls may change places at will, over rows and walls: for
//! them the least sum is an assignment problem, solved exactly. Neighbours in a row that are not alike
//! change places where that is shorter. Both are repeated, together with the sides on which conductors
//! reach their terminals, until nothing gets shorter. The places themselves stay those of the decision.

use super::entries::{Spot, spots};
use super::wires::{Ends, element_points, far_point, route_mm, turned_strips};
mod dealing;

use super::{TerminalIndex, crossings};
use crate::arrangement::{EnclosureRecord, Limits, PlacedElement, PlacedTerminal};
use crate::demand::{Demand, EntryUse, WireNeed, WireNeedEnd};
use crate::model::FreeEntry;
use crate::model::walls::EntryRow;
use crate::requirements::RequirementList;
use crate::space::{Face, Point};
use itertools::Itertools;
use pathfinding::kuhn_munkres::kuhn_munkres_min;
use pathfinding::matrix::Matrix;
use std::collections::{BTreeMap, BTreeSet};

/// Most rounds of exchanging and turning. Every round makes the sum shorter, so that few are needed.
const MOST_ROUNDS: usize = 8;

/// What a round must save to count, mm.
const LEAST_GAIN_MM: f64 = 0.05;

/// What a layout measures.
#[derive(Debug, Clone, Copy)]
pub(super) struct Measured {
    /// Length of all conductors, mm.
    pub length_mm: f64,
    /// The least that it is with these terminals and holes, mm, where that is known.
    pub least_mm: Option<f64>,
    /// Pairs of conductors that cross.
    pub crossings: usize,
}

/// What an exchange looks at.
pub(super) struct Exchange<'a, 'c> {
    demand: &'a Demand<'c>,
    mounted: &'a EnclosureRecord,
    limits: &'a Limits,
    terminals: &'a [PlacedTerminal],
    terminal_index: &'a TerminalIndex,
    element_points: BTreeMap<usize, Point>,
    /// Conductors of each entry's cable.
    wires_of: Vec<Vec<&'a WireNeed>>,
}

impl<'a, 'c> Exchange<'a, 'c> {
    /// Collects what is the same for every exchange.
    pub fn new(
        list: &'a RequirementList,
        demand: &'a Demand<'c>,
        mounted: &'a EnclosureRecord,
        limits: &'a Limits,
        (terminals, terminal_index): (&'a [PlacedTerminal], &'a TerminalIndex),
        elements: &[PlacedElement],
    ) -> Self {
        let leads_to = |wire: &WireNeed, of: usize| {
            [&wire.from, &wire.to]
                .iter()
                .any(|end| matches!(end, WireNeedEnd::Core { cable, .. } if *cable == of))
        };
        let wires_of = demand
            .entries
            .iter()
            .map(|entry| match entry.purpose {
                EntryUse::Cable(cable) => demand
                    .wires
                    .iter()
                    .filter(|wire| leads_to(wire, cable))
                    .collect(),
                EntryUse::Spare | EntryUse::Breather => Vec::new(),
            })
            .collect();
        Self {
            demand,
            mounted,
            limits,
            terminals,
            terminal_index,
            element_points: element_points(list, elements),
            wires_of,
        }
    }

    /// The rows with their entries exchanged.
    pub fn shortest(&self, decided: &[EntryRow]) -> Vec<EntryRow> {
        let spots = |rows: &[EntryRow]| spots(self.demand, self.limits, rows);
        let mut best = decided.to_vec();
        let mut best_mm = self.total_mm(&spots(&best));
        for _ in 0..MOST_ROUNDS {
            let mut places = spots(&best);
            let turned = self.turned(&places);
            let mut rows = best.clone();
            let is_least = self.deal_and_turn(&mut places);
            if !is_least {
                self.assign(&mut places, &turned);
            }
            let turned = self.turned(&places);
            for spot in &places {
                rows[spot.row].entries[spot.index] = spot.entry;
            }
            let dealt = rows.clone();
            self.swap_neighbours(&mut rows, &turned);
            let length_mm = self.total_mm(&spots(&rows));
            if length_mm > best_mm - LEAST_GAIN_MM {
                break;
            }
            let is_done = is_least && rows == dealt;
            (best, best_mm) = (rows, length_mm);
            if is_done {
                break;
            }
        }
        best
    }

    /// Entries in no rows, those that are alike exchanged.
    pub fn shortest_free(&self, decided: &[FreeEntry]) -> Vec<FreeEntry> {
        let mut best: Vec<Spot> = free_spots(decided).collect();
        let mut best_mm = self.total_mm(&best);
        for _ in 0..MOST_ROUNDS {
            let mut places = best.clone();
            let is_least = self.deal_and_turn(&mut places);
            if !is_least {
                self.assign(&mut places, &self.turned(&best));
            }
            let length_mm = self.total_mm(&places);
            if length_mm > best_mm - LEAST_GAIN_MM {
                break;
            }
            (best, best_mm) = (places, length_mm);
            if is_least {
                break;
            }
        }
        best.into_iter()
            .map(|spot| FreeEntry {
                wall: spot.wall,
                entry: spot.entry,
                u_mm: spot.u_mm,
                v_mm: spot.v_mm,
            })
            .collect()
    }

    /// What the layout with these entries measures.
    pub fn measured(&self, rows: &[EntryRow], free: &[FreeEntry]) -> Measured {
        let mut places = spots(self.demand, self.limits, rows);
        places.extend(free_spots(free));
        let points = places.iter().filter_map(|spot| {
            let cable = self.cable(spot.entry)?;
            Some((cable, self.point(spot.entry, spot)))
        });
        let ends = self.ends(points.collect());
        let turned = turned_strips(self.demand, &ends, self.terminals);
        Measured {
            length_mm: self.total_mm(&places) + self.inside_mm(&turned),
            least_mm: self.least_mm(&places),
            crossings: crossings::count(&ends, self.terminals, &self.demand.wires),
        }
    }

    /// Entries that may change places with one another, in order, and the places they have.
    fn classes(&self, spots: &[Spot]) -> Vec<(Vec<usize>, Vec<usize>)> {
        let mut classes: Vec<Vec<usize>> = Vec::new();
        for (at, spot) in spots.iter().enumerate() {
            if self.stays(spot.entry) {
                continue;
            }
            match classes
                .iter_mut()
                .find(|class| self.alike(spots[class[0]].entry, spot.entry))
            {
                Some(class) => class.push(at),
                None => classes.push(vec![at]),
            }
        }
        let entries = |places: &Vec<usize>| {
            let entries = places.iter().map(|at| spots[*at].entry);
            entries.sorted().collect_vec()
        };
        classes
            .into_iter()
            .map(|places| (entries(&places), places))
            .collect()
    }

    /// Deals the entries of each class out to the places of the class with the least sum.
    fn assign(&self, spots: &mut [Spot], turned: &BTreeSet<usize>) {
        for (entries, places) in self.classes(spots) {
            let weights = Matrix::from_fn(entries.len(), places.len(), |(entry, place)| {
                let spot = &spots[places[place]];
                let length_mm = self.conductors_mm(entries[entry], spot, turned);
                dealing::weight(length_mm, self.aside_mm2(entries[entry], spot))
            });
            let (_, place_of) = kuhn_munkres_min(&weights);
            for (entry, place) in entries.iter().zip(place_of) {
                spots[places[place]].entry = *entry;
            }
        }
    }

    /// Lets neighbours in a row change places as long as that is shorter.
    fn swap_neighbours(&self, rows: &mut [EntryRow], turned: &BTreeSet<usize>) {
        for row in 0..rows.len() {
            let count = rows[row].entries.len();
            let mut row_mm = self.row_mm(rows, row, turned);
            // Each pass that changes something shortens the row; as many as entries sort it.
            for _ in 0..count {
                let before_mm = row_mm;
                for left in 0..count.saturating_sub(1) {
                    let [one, other] = [0, 1].map(|more| rows[row].entries[left + more]);
                    // Those that are alike have been dealt out with the least sum.
                    if self.alike(one, other) || self.stays(one) || self.stays(other) {
                        continue;
                    }
                    rows[row].entries.swap(left, left + 1);
                    let swapped_mm = self.row_mm(rows, row, turned);
                    if swapped_mm < row_mm - LEAST_GAIN_MM {
                        row_mm = swapped_mm;
                    } else {
                        rows[row].entries.swap(left, left + 1);
                    }
                }
                if row_mm >= before_mm {
                    break;
                }
            }
        }
    }

    fn row_mm(&self, rows: &[EntryRow], row: usize, turned: &BTreeSet<usize>) -> f64 {
        spots(self.demand, self.limits, rows)
            .iter()
            .filter(|spot| spot.row == row)
            .map(|spot| self.conductors_mm(spot.entry, spot, turned))
            .sum()
    }

    fn total_mm(&self, spots: &[Spot]) -> f64 {
        let turned = self.turned(spots);
        spots
            .iter()
            .map(|spot| self.conductors_mm(spot.entry, spot, &turned))
            .sum()
    }

    /// The strips whose conductors change sides with the entries so.
    fn turned(&self, spots: &[Spot]) -> BTreeSet<usize> {
        let points = spots
            .iter()
            .filter_map(|spot| {
                let cable = self.cable(spot.entry)?;
                Some((cable, self.point(spot.entry, spot)))
            })
            .collect();
        turned_strips(self.demand, &self.ends(points), self.terminals)
    }

    /// Length of all conductors of an entry's cable, with the entry in a place.
    fn conductors_mm(&self, entry: usize, spot: &Spot, turned: &BTreeSet<usize>) -> f64 {
        let Some((_, ends)) = self.ends_in(entry, spot) else {
            return 0.0;
        };
        self.wires_of[entry]
            .iter()
            .map(|wire| route_mm(self.demand, &ends, self.terminals, turned, wire))
            .sum()
    }

    /// How far the far ends of a cable's conductors lie to the side of its entry, squared: along the wall.
    fn aside_mm2(&self, entry: usize, spot: &Spot) -> f64 {
        let Some((point, ends)) = self.ends_in(entry, spot) else {
            return 0.0;
        };
        self.wires_of[entry]
            .iter()
            .filter_map(|wire| far_point(&ends, self.terminals, wire))
            .map(|far| match spot.wall {
                Face::Left | Face::Right => far.y_mm - point.y_mm,
                _ => far.x_mm - point.x_mm,
            })
            .map(|aside_mm| aside_mm * aside_mm)
            .sum()
    }

    /// Where an entry's conductors leave it in a place, and the ends of conductors then; none without a cable.
    fn ends_in(&self, entry: usize, spot: &Spot) -> Option<(Point, Ends<'_>)> {
        let cable = self.cable(entry)?;
        let point = self.point(entry, spot);
        let ends = self.ends(BTreeMap::from([(cable, point)]));
        Some((point, ends))
    }

    fn ends(&self, entry_points: BTreeMap<usize, Point>) -> Ends<'_> {
        Ends {
            terminal_index: self.terminal_index,
            entry_points,
            element_points: &self.element_points,
        }
    }

    fn point(&self, entry: usize, spot: &Spot) -> Point {
        let reach_mm = self.demand.entries[entry].reach_in_mm;
        self.mounted
            .interior
            .point(spot.wall, spot.u_mm, spot.v_mm, reach_mm)
    }

    fn cable(&self, entry: usize) -> Option<usize> {
        match self.demand.entries[entry].purpose {
            EntryUse::Cable(cable) => Some(cable),
            EntryUse::Spare | EntryUse::Breather => None,
        }
    }

    /// Whether two entries may change places wherever they stand.
    fn alike(&self, one: usize, other: usize) -> bool {
        let [one, other] = [one, other].map(|entry| &self.demand.entries[entry]);
        one.envelope_mm == other.envelope_mm
            && one.thread == other.thread
            && one.walls == other.walls
    }

    /// A breather stays where the decision has put it: it has no conductors to shorten.
    fn stays(&self, entry: usize) -> bool {
        matches!(self.demand.entries[entry].purpose, EntryUse::Breather)
    }
}

/// The places of entries in no rows.
fn free_spots(free: &[FreeEntry]) -> impl Iterator<Item = Spot> {
    free.iter().enumerate().map(|(index, at)| Spot {
        row: 0,
        index,
        entry: at.entry,
        wall: at.wall,
        u_mm: at.u_mm,
        v_mm: at.v_mm,
    })
}

/// Whether a conductor is a core of a cable.
fn is_core(wire: &WireNeed) -> bool {
    [&wire.from, &wire.to]
        .iter()
        .any(|end| matches!(end, WireNeedEnd::Core { .. }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::decide::Decided;
    use crate::model::place::prepared::with_found;
    use crate::model::place::{elements, rails};

    const LIST: &str = "[job]\ntag = \"JB-1\"\n[area]\nzone = 1\ngas_group = \"IIB\"\ntemperature_class = \"T6\"\n\
        [box]\nentry_walls = [\"bottom\", \"left\", \"right\"]\n\
        [[cable]]\ntag = \"W1\"\ncores = \"12 x 1.5 mm2\"\ndiameter_mm = 15\n\
        [[cable]]\ntags = \"W11..W16\"\ncores = \"2 x 1.5 mm2\"\ndiameter_mm = 9\n\
        [[circuit]]\ntags = \"S1..S6\"\npoles = 2\nvoltage_v = 24\ncurrent_a = 0.1\nfrom = \"W1\"\nto = \"W11..W16\"\n";

    /// No order of the entries that are alike, with whichever strips turned, is shorter than the one found: all 720
    /// are tried with all sides; and the least length that is told is that.
    #[test]
    fn no_other_order_of_alike_entries_is_shorter() {
        with_found(LIST, |list, demand, workshop, found| {
            let decided: &Decided = &found.decided;
            let on_rails =
                rails::place(demand, &found.mounted, decided, &decided.rails).expect("places");
            let elements = elements::place(list, demand, &found.mounted, workshop, decided);
            let limits = workshop.limits();
            let exchange = Exchange::new(
                list,
                demand,
                &found.mounted,
                &limits,
                (&on_rails.terminals, &on_rails.terminal_index),
                &elements,
            );
            // The worst start: everything in reverse.
            let mut start = decided.entries.clone();
            let reversed: Vec<usize> = start
                .iter()
                .flat_map(|row| row.entries.clone())
                .filter(|entry| exchange.alike(*entry, 1))
                .rev()
                .collect();
            deal(&exchange, &mut start, &reversed);
            let shortest = exchange.shortest(&start);
            let turned = exchange.turned(&spots(demand, &limits, &shortest));
            let sum_mm = |rows: &[EntryRow], turned: &BTreeSet<usize>| -> f64 {
                spots(demand, &limits, rows)
                    .iter()
                    .map(|spot| exchange.conductors_mm(spot.entry, spot, turned))
                    .sum()
            };
            let found_mm = sum_mm(&shortest, &turned);
            assert!(found_mm < sum_mm(&start, &turned) - 1.0);
            assert_eq!(reversed.len(), 6);
            let least_mm = exchange
                .measured(&shortest, &[])
                .least_mm
                .expect("few strips");
            assert!(
                (found_mm - 1.0..=found_mm).contains(&least_mm),
                "{least_mm} of {found_mm}"
            );
            let sides: Vec<BTreeSet<usize>> = (0..demand.strips.len())
                .powerset()
                .map(|turned| turned.into_iter().collect())
                .collect();
            for order in reversed.iter().copied().permutations(6) {
                let mut rows = shortest.clone();
                deal(&exchange, &mut rows, &order);
                for turned in &sides {
                    let length_mm = sum_mm(&rows, turned);
                    assert!(
                        found_mm <= length_mm + 0.1,
                        "{order:?} {turned:?} is shorter"
                    );
                }
            }
        });
    }

    /// Puts the alike entries into their places in an order.
    fn deal(exchange: &Exchange<'_, '_>, rows: &mut [EntryRow], order: &[usize]) {
        let mut order = order.iter();
        for entry in rows.iter_mut().flat_map(|row| &mut row.entries) {
            if exchange.alike(*entry, 1) {
                *entry = *order.next().expect("as many as there are");
            }
        }
    }
}
