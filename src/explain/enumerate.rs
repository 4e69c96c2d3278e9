//! Minimal conflicts and minimal corrections of an oracle that says whether a set can be met.
//!
//! A *conflict* is a set of requirements that cannot be met together though it can without any one
//! of them. A *correction* is a set without which the rest can be met, though not if any one of it
//! stays. Each family is what hits every member of the other (R. Reiter, "A theory of diagnosis from
//! first principles", Artificial Intelligence 32, 1987). Conflicts come smallest first by hitting sets
//! of least size (A. Ignatiev, A. Previti, M. Liffiton, J. Marques-Silva, "Smallest MUS extraction with
//! minimal hitting set dualization", CP 2015); corrections come cheapest first by the same way with
//! the families exchanged. Single ones are taken out of larger sets by dividing them (U. Junker,
//! "QuickXplain: preferred explanations and relaxations for over-constrained problems", AAAI 2004).

use super::hitting::cheapest;
use super::set::Set;

/// Says whether a set can be met.
pub trait Oracle {
    /// Whether the set can be met.
    fn holds(&mut self, set: Set) -> bool;
    /// As [`Oracle::holds`], without drawing conclusions from other sets.
    fn holds_exactly(&mut self, set: Set) -> bool {
        self.holds(set)
    }
    /// Whether no more questions should be asked.
    fn is_spent(&self) -> bool {
        false
    }
}

/// What is known of the two families.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Known {
    /// Minimal conflicts, in the order found.
    pub conflicts: Vec<Set>,
    /// Minimal corrections, in the order found.
    pub corrections: Vec<Set>,
}

/// Finds up to `most` minimal conflicts of the first `count` requirements, smallest first, and
/// whether these are all. The whole must not hold, the empty set must.
pub fn conflicts(
    oracle: &mut dyn Oracle,
    count: usize,
    most: usize,
    known: &mut Known,
) -> (Vec<Set>, bool) {
    let all = Set::first(count);
    let mut found = Vec::new();
    while found.len() < most {
        let Some(chosen) = cheapest(all, &known.corrections, &found, &|_| 1) else {
            return (found, true);
        };
        if oracle.is_spent() {
            return (found, false);
        }
        if oracle.holds(chosen) {
            let grown = grow(oracle, chosen, all.less(chosen));
            known.corrections.push(all.less(grown));
        } else {
            let conflict = confirmed(oracle, chosen);
            found.push(conflict);
            known.conflicts.push(conflict);
        }
    }
    let more = cheapest(all, &known.corrections, &found, &|_| 1).is_some();
    (found, !more)
}

/// Offers minimal corrections within `soft`, cheapest first, until `take` says that it has enough or
/// there are no more. Gives whether these were all.
pub fn corrections(
    oracle: &mut dyn Oracle,
    count: usize,
    soft: Set,
    weight: &dyn Fn(usize) -> u64,
    known: &mut Known,
    take: &mut dyn FnMut(&mut dyn Oracle, Set) -> bool,
) -> bool {
    let all = Set::first(count);
    let mut offered: Vec<Set> = Vec::new();
    loop {
        let Some(chosen) = cheapest(soft, &known.conflicts, &offered, weight) else {
            return true;
        };
        if oracle.is_spent() {
            return false;
        }
        let rest = all.less(chosen);
        if oracle.holds(rest) {
            // What is needless in it is given back, should the oracle not be monotone.
            let correction = all.less(grow(oracle, rest, chosen));
            offered.push(correction);
            if !take(oracle, correction) {
                return false;
            }
        } else {
            let conflict = confirmed_from(oracle, rest);
            known.conflicts.push(conflict);
        }
    }
}

/// Adds as much of `further` as holds.
fn grow(oracle: &mut dyn Oracle, held: Set, further: Set) -> Set {
    if further.is_empty() {
        return held;
    }
    if oracle.holds(held.or(further)) {
        return held.or(further);
    }
    if further.len() == 1 {
        return held;
    }
    let (first, second) = halves(further);
    let held = grow(oracle, held, first);
    grow(oracle, held, second)
}

fn halves(set: Set) -> (Set, Set) {
    let first: Set = set.members().take(set.len() / 2).collect();
    (first, set.less(first))
}

/// A minimal conflict within a set that does not hold.
fn confirmed_from(oracle: &mut dyn Oracle, set: Set) -> Set {
    let conflict = divide(oracle, Set::EMPTY, Set::EMPTY, set);
    confirmed(oracle, conflict)
}

/// QuickXplain: what of `set` is needed, given `background`, for the conflict.
fn divide(oracle: &mut dyn Oracle, background: Set, added: Set, set: Set) -> Set {
    if !added.is_empty() && !oracle.holds(background) {
        return Set::EMPTY;
    }
    if set.len() <= 1 {
        return set;
    }
    let (first, second) = halves(set);
    let of_second = divide(oracle, background.or(first), first, second);
    let of_first = divide(oracle, background.or(of_second), of_second, first);
    of_first.or(of_second)
}

/// Takes out what is needless until the set fails and holds without any one of its members, each
/// asked anew: the way to it supposes that fewer requirements are never harder to meet, which a choice
/// of parts by a fixed rule does not promise.
fn confirmed(oracle: &mut dyn Oracle, set: Set) -> Set {
    let mut conflict = set;
    while let Some(member) = conflict
        .members()
        .find(|member| !oracle.holds_exactly(conflict.without(*member)))
    {
        conflict = conflict.without(member);
    }
    conflict
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// Fails where any of the sets is held wholly.
    struct Table(Vec<Set>);

    impl Oracle for Table {
        fn holds(&mut self, set: Set) -> bool {
            !self.0.iter().any(|bad| bad.is_within(set))
        }
    }

    fn minimal(sets: impl Iterator<Item = Set>) -> BTreeSet<Set> {
        let all: Vec<Set> = sets.collect();
        all.iter()
            .copied()
            .filter(|set| {
                !all.iter()
                    .any(|other| other != set && other.is_within(*set))
            })
            .collect()
    }

    #[test]
    fn both_families_agree_with_trying_every_set() {
        let mut state = 11u64;
        let mut next = move |below: u64| {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1);
            (state >> 33) % below
        };
        for _ in 0..300 {
            let bad: Vec<Set> = (0..=next(5))
                .map(|_| (0..=next(3)).map(|_| next(8) as usize).collect())
                .collect();
            let mut table = Table(bad);
            let subsets = |_: &()| {
                (0u32..256).map(|bits| (0..8).filter(|bit| bits & (1 << bit) != 0).collect::<Set>())
            };
            let failing: Vec<Set> = subsets(&()).filter(|set| !table.holds(*set)).collect();
            let all = Set::first(8);
            let holding: Vec<Set> = subsets(&())
                .filter(|set| table.holds(all.less(*set)))
                .collect();
            let mut known = Known::default();
            let (found, complete) = conflicts(&mut table, 8, 100, &mut known);
            assert!(complete);
            assert!(found.windows(2).all(|pair| pair[0].len() <= pair[1].len()));
            let found: BTreeSet<Set> = found.into_iter().collect();
            assert_eq!(found, minimal(failing.into_iter()));
            let mut offered = Vec::new();
            let mut fresh = Known::default();
            let complete = corrections(&mut table, 8, all, &|_| 1, &mut fresh, &mut |_, set| {
                offered.push(set);
                true
            });
            assert!(complete);
            assert!(
                offered
                    .windows(2)
                    .all(|pair| pair[0].len() <= pair[1].len())
            );
            let offered: BTreeSet<Set> = offered.into_iter().collect();
            assert_eq!(offered, minimal(holding.into_iter()));
        }
    }

    #[test]
    fn what_is_fixed_is_never_offered() {
        let set = |members: &[usize]| members.iter().copied().collect::<Set>();
        let mut table = Table(vec![set(&[0, 1]), set(&[1, 2])]);
        let mut offered = Vec::new();
        let soft = set(&[0, 2]);
        corrections(
            &mut table,
            3,
            soft,
            &|_| 1,
            &mut Known::default(),
            &mut |_, set| {
                offered.push(set);
                true
            },
        );
        assert_eq!(offered, [set(&[0, 2])]);
    }
}
