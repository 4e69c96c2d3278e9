//! How long a search may take: a limit for each exact decision, one for the whole, and a wish to stop.

use super::milp::{Effort, Solver};
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Instant;

/// How long a search may take. When the whole time is over or a stop is wished for, quick ways go on and
/// exact decisions are left undecided, so that an answer still comes, and says that it is not proved.
#[derive(Debug, Clone, Copy)]
pub struct Patience {
    /// Time limit of one exact decision, s.
    pub decision_limit_s: f64,
    /// When the whole time is over.
    pub deadline: Option<Instant>,
    /// Set where somebody wishes to stop.
    pub stop: Option<&'static AtomicBool>,
    /// Who solves the programs.
    pub solver: Solver,
}

impl Patience {
    /// What the next exact decision may take; no time where there is none for one.
    pub fn next_effort(&self) -> Effort {
        Effort {
            limit_s: self.next_limit_s(),
            solver: self.solver,
        }
    }

    fn next_limit_s(&self) -> f64 {
        if self.stop.is_some_and(|stop| stop.load(Ordering::Relaxed)) {
            return 0.0;
        }
        let left_s = self.deadline.map_or(f64::INFINITY, |deadline| {
            deadline
                .saturating_duration_since(Instant::now())
                .as_secs_f64()
        });
        self.decision_limit_s.min(left_s)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    #[test]
    fn a_stop_or_the_end_of_the_time_leaves_none_for_a_decision() {
        static STOP: AtomicBool = AtomicBool::new(false);
        let mut patience = Patience {
            decision_limit_s: 5.0,
            deadline: None,
            stop: Some(&STOP),
            solver: Solver::default(),
        };
        assert_eq!(patience.next_limit_s(), 5.0);
        STOP.store(true, Ordering::Relaxed);
        assert_eq!(patience.next_limit_s(), 0.0);
        STOP.store(false, Ordering::Relaxed);
        patience.deadline = Some(Instant::now());
        assert_eq!(patience.next_limit_s(), 0.0);
        patience.deadline = Some(Instant::now() + Duration::from_secs(2));
        assert!((1.0..=2.0).contains(&patience.next_limit_s()));
    }
}
