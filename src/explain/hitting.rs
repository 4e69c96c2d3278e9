//! The cheapest set that shares a member with each of some sets. Knows nothing of what the sets are.

use super::set::Set;

/// The cheapest set within `universe` that meets every set of `to_hit` and holds none of `blocked`
/// wholly. `None` where there is none. Ties go to the set that is found first when members are tried
/// in rising order, so that the answer is always the same.
pub fn cheapest(
    universe: Set,
    to_hit: &[Set],
    blocked: &[Set],
    weight: &dyn Fn(usize) -> u64,
) -> Option<Set> {
    let mut search = Search {
        to_hit,
        blocked,
        weight,
        best: None,
    };
    search.extend(Set::EMPTY, 0, universe);
    search.best.map(|(_, set)| set)
}

struct Search<'a> {
    to_hit: &'a [Set],
    blocked: &'a [Set],
    weight: &'a dyn Fn(usize) -> u64,
    best: Option<(u64, Set)>,
}

impl Search<'_> {
    fn extend(&mut self, chosen: Set, cost: u64, mut allowed: Set) {
        let least_further = self.least_further(chosen, allowed);
        if self
            .best
            .is_some_and(|(best, _)| cost + least_further >= best)
        {
            return;
        }
        // The open set with the fewest choices is branched on: the tree stays narrow.
        let open = self
            .to_hit
            .iter()
            .filter(|set| !set.meets(chosen))
            .min_by_key(|set| set.and(allowed).len());
        let Some(open) = open else {
            self.best = Some((cost, chosen));
            return;
        };
        let mut choices: Vec<usize> = open.and(allowed).members().collect();
        choices.sort_by_key(|member| (self.weight)(*member));
        for member in choices {
            let extended = chosen.with(member);
            // What was tried before need not come again in the branches that follow.
            allowed = allowed.without(member);
            if self.blocked.iter().any(|set| set.is_within(extended)) {
                continue;
            }
            self.extend(extended, cost + (self.weight)(member), allowed);
        }
    }

    /// A bound from below on what is still to be paid: the cheapest member of each of some open sets
    /// that share nothing.
    fn least_further(&self, chosen: Set, allowed: Set) -> u64 {
        let mut seen = Set::EMPTY;
        let mut sum = 0;
        for set in self.to_hit.iter().filter(|set| !set.meets(chosen)) {
            let choices = set.and(allowed);
            if choices.meets(seen) {
                continue;
            }
            seen = seen.or(choices);
            sum += choices
                .members()
                .map(|member| (self.weight)(member))
                .min()
                .unwrap_or(u64::MAX / 4);
        }
        sum
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn set(members: &[usize]) -> Set {
        members.iter().copied().collect()
    }

    /// Every subset tried, over all families of a small deterministic sequence.
    #[test]
    fn it_is_the_cheapest_of_all() {
        let mut state = 7u64;
        let mut next = move |below: u64| {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1);
            (state >> 33) % below
        };
        for _ in 0..300 {
            let draw = |next: &mut dyn FnMut(u64) -> u64| -> Vec<Set> {
                (0..next(5))
                    .map(|_| (0..=next(3)).map(|_| next(8) as usize).collect())
                    .collect()
            };
            let (to_hit, blocked) = (draw(&mut next), draw(&mut next));
            let weight = |member: usize| 1 + (member as u64 * 3) % 5;
            let cost = |set: Set| set.members().map(weight).sum::<u64>();
            let brute = (0u32..256)
                .map(|bits| (0..8).filter(|bit| bits & (1 << bit) != 0).collect::<Set>())
                .filter(|chosen| to_hit.iter().all(|set| set.meets(*chosen)))
                .filter(|chosen| !blocked.iter().any(|set| set.is_within(*chosen)))
                .map(cost)
                .min();
            let found = cheapest(Set::first(8), &to_hit, &blocked, &weight);
            assert_eq!(found.map(cost), brute, "{to_hit:?} without {blocked:?}");
        }
    }

    #[test]
    fn nothing_hits_an_empty_set() {
        let free = |_: usize| 1;
        assert_eq!(cheapest(Set::first(3), &[Set::EMPTY], &[], &free), None);
        assert_eq!(cheapest(Set::first(3), &[], &[], &free), Some(Set::EMPTY));
        assert_eq!(
            cheapest(set(&[0]), &[set(&[1, 2])], &[], &free),
            None,
            "what is fixed cannot be chosen"
        );
    }
}
