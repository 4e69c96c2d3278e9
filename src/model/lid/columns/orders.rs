//! The orders in which the elements of the rows may stand: those that no named place, no start before a stop and no
//! emergency stop fixes may change places.

use crate::model::lid::{LidProblem, LidRows};
use itertools::Itertools;

/// Where there are more orders than that, only that of the elements below is tried.
const MOST_ORDERS: usize = 720;

/// Every order but the one that the rows have, those with the fewest exchanges of it first; of too many only the one
/// that follows the rows below.
pub(super) fn nearest_first(problem: &LidProblem, rows: &LidRows) -> Vec<LidRows> {
    // Neighbours that may change places: what decides their order before the list does is the same.
    let alike = |a: usize, b: usize| {
        let (one, other) = (&problem.items[a], &problem.items[b]);
        let named_place = one.order.0;
        one.free_standing == other.free_standing
            && (named_place, one.order.1) == (other.order.0, other.order.1)
            && named_place == u32::MAX
    };
    let mut groups: Vec<(usize, Vec<usize>)> = Vec::new();
    for (number, row) in rows.iter().enumerate() {
        for item in row {
            match groups.last_mut() {
                Some((of_row, group)) if *of_row == number && alike(group[0], *item) => {
                    group.push(*item);
                }
                _ => groups.push((number, vec![*item])),
            }
        }
    }
    let count = groups.iter().try_fold(1usize, |product, (_, group)| {
        (1..=group.len()).try_fold(product, usize::checked_mul)
    });
    if count.is_none_or(|count| count > MOST_ORDERS) {
        return vec![as_below(problem, rows, groups)];
    }
    let of_groups = groups.iter().map(|(number, group)| {
        let orders = group.iter().copied().permutations(group.len());
        orders.map(|order| (*number, order)).collect_vec()
    });
    let orders = of_groups.multi_cartesian_product().map(|groups| {
        let mut order = vec![Vec::new(); rows.len()];
        for (number, group) in groups {
            order[number].extend(group);
        }
        order
    });
    let mut others = orders.filter(|order| order != rows).collect_vec();
    others.sort_by_cached_key(|order| exchanges(rows, order));
    others
}

/// The rows from the lowest up, each with those that are asked above others in the order of these, on the places that
/// they have among them; the others keep theirs.
fn as_below(problem: &LidProblem, rows: &LidRows, groups: Vec<(usize, Vec<usize>)>) -> LidRows {
    let mut place_of = vec![0; problem.items.len()];
    let mut ordered = vec![Vec::new(); rows.len()];
    for (number, row) in ordered.iter_mut().enumerate().rev() {
        for (_, group) in groups.iter().filter(|(of_row, _)| *of_row == number) {
            let asked = group.iter().copied();
            let asked = asked.filter_map(|item| Some((place_of[problem.items[item].above?], item)));
            let mut asked = asked.sorted().map(|(_, item)| item);
            row.extend(group.iter().map(|item| match problem.items[*item].above {
                Some(_) => asked.next().unwrap_or(*item),
                None => *item,
            }));
        }
        for (place, item) in row.iter().enumerate() {
            place_of[*item] = place;
        }
    }
    ordered
}

/// How many pairs of a row stand the other way round.
fn exchanges(rows: &LidRows, other: &LidRows) -> usize {
    let of_row = rows.iter().zip(other).map(|(row, other)| {
        let place = |item: &usize| other.iter().position(|known| known == item);
        let pairs = row.iter().array_combinations();
        pairs.filter(|[a, b]| place(a) > place(b)).count()
    });
    of_row.sum()
}
