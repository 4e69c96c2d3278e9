//! Decisions of programs that were met before, kept while somebody asks the same again and again.
//!
//! An explanation asks about many lists that differ in one requirement each, and most of the programs
//! that come of them are the same to the last figure. The key is the whole program in numbers, so two that
//! differ in anything are never taken for each other. Kept by thread, and only between [`remember`] and
//! the end of what it gives; a decision that was left open within its time limit is not kept.

use super::milp::Decision;
use std::cell::RefCell;
use std::collections::HashMap;

/// A program in numbers: only ever looked up, never walked through, so its order does not matter.
pub(super) type Key = Vec<u64>;

thread_local! {
    static MEMORY: RefCell<Option<HashMap<Key, Decision>>> = const { RefCell::new(None) };
}

/// While this lives, decisions are kept in this thread.
#[must_use = "decisions are kept only while this lives"]
pub struct Remembering {
    outermost: bool,
}

/// Keeps decisions until what comes back is dropped. Within another one it changes nothing.
pub fn remember() -> Remembering {
    let outermost = MEMORY.with_borrow_mut(|memory| {
        let outermost = memory.is_none();
        memory.get_or_insert_default();
        outermost
    });
    Remembering { outermost }
}

impl Drop for Remembering {
    fn drop(&mut self) {
        if self.outermost {
            MEMORY.with_borrow_mut(|memory| *memory = None);
        }
    }
}

/// The decision of a program: as it is remembered, else as `decide` finds it.
pub(super) fn recalled(key: impl FnOnce() -> Key, decide: impl FnOnce() -> Decision) -> Decision {
    if MEMORY.with_borrow(Option::is_none) {
        return decide();
    }
    let key = key();
    let known = MEMORY.with_borrow(|memory| memory.as_ref()?.get(&key).cloned());
    if let Some(known) = known {
        return known;
    }
    let decision = decide();
    let settled = matches!(
        decision,
        Decision::Feasible { proven: true, .. } | Decision::Infeasible
    );
    if settled {
        MEMORY.with_borrow_mut(|memory| {
            if let Some(memory) = memory {
                memory.insert(key, decision.clone());
            }
        });
    }
    decision
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(times: usize, answer: Decision) -> usize {
        let mut decided = 0;
        for _ in 0..times {
            let given = recalled(
                || vec![1, 2],
                || {
                    decided += 1;
                    answer.clone()
                },
            );
            assert_eq!(given, answer);
        }
        decided
    }

    #[test]
    fn a_settled_decision_is_made_once_and_only_while_it_is_wanted() {
        assert_eq!(asked(3, Decision::Infeasible), 3);
        {
            let _outer = remember();
            assert_eq!(asked(3, Decision::Infeasible), 1);
            drop(remember());
            assert_eq!(
                asked(3, Decision::Infeasible),
                0,
                "the inner one ends nothing"
            );
        }
        assert_eq!(asked(3, Decision::Infeasible), 3);
    }

    #[test]
    fn what_was_left_open_is_asked_again() {
        let _memory = remember();
        assert_eq!(asked(2, Decision::Undecided("stopped".into())), 2);
        let stopped = Decision::Feasible {
            values: vec![1.0],
            proven: false,
        };
        assert_eq!(asked(2, stopped), 2);
    }

    #[test]
    fn another_program_has_another_decision() {
        let _memory = remember();
        assert_eq!(
            recalled(|| vec![1], || Decision::Infeasible),
            Decision::Infeasible
        );
        let other = Decision::Undecided("other".into());
        assert_eq!(recalled(|| vec![2], || other.clone()), other);
    }
}
