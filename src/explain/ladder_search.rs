//! The first of many steps that serves, asking about as few of them as can be.

use std::ops::Range;

/// The first of so many steps that serves. `ends` divides the steps into runs, each up to a number that is
/// not in it any more; within a run each step allows all that the one before does, so that halving finds the
/// first. The runs are gone through in their order.
pub(super) fn first_that_serves(
    ends: &[usize],
    mut serves: impl FnMut(usize) -> bool,
) -> Option<usize> {
    runs(ends).find_map(|run| first_of_run(run, &mut serves))
}

/// The runs that end before these numbers.
pub(super) fn runs(ends: &[usize]) -> impl Iterator<Item = Range<usize>> + '_ {
    let starts = [0].into_iter().chain(ends.iter().copied());
    starts.zip(ends.iter().copied()).map(|(from, to)| from..to)
}

/// The first of a run that serves, asking about the last before any other.
pub(super) fn first_of_run(
    run: Range<usize>,
    serves: &mut impl FnMut(usize) -> bool,
) -> Option<usize> {
    if run.is_empty() || !serves(run.end - 1) {
        return None;
    }
    let (mut from, mut served) = (run.start, run.end - 1);
    while from < served {
        let middle = (from + served) / 2;
        if serves(middle) {
            served = middle;
        } else {
            from = middle + 1;
        }
    }
    Some(served)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_run_is_searched_by_halving_and_gaps_between_them_are_found() {
        // Three runs: nothing serves in the first, from 13 on in the second, all of the third.
        let ends = [10, 20, 30];
        let asked = std::cell::Cell::new(0);
        let found = first_that_serves(&ends, |step| {
            asked.set(asked.get() + 1);
            (13..20).contains(&step) || step >= 20
        });
        assert_eq!(found, Some(13));
        assert!(asked.get() <= 6, "{} steps asked about", asked.get());
        assert_eq!(first_that_serves(&[4], |step| step == 9), None);
        assert_eq!(first_that_serves(&[], |_| true), None);
        let each: Vec<usize> = (1..=5).collect();
        assert_eq!(first_that_serves(&each, |step| step == 3), Some(3));
    }
}
