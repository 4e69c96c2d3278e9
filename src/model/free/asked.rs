//! Questions about circles that were asked before: enclosures of one list often share a wall.
//!
//! The answer depends on the question alone, so it does not matter which thread asks first. The key is the
//! whole question in numbers.

use crate::packing::{Circles, Effort, Placing};
use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

/// Answers by their questions.
#[derive(Debug)]
pub struct Asked {
    effort: Effort,
    known: Mutex<BTreeMap<Vec<u64>, Placing>>,
}

impl Asked {
    /// Nothing is known yet; each question gets this effort.
    pub fn with(effort: Effort) -> Self {
        Self {
            effort,
            known: Mutex::default(),
        }
    }

    /// Where the circles find room, as it is remembered, else as a search finds it.
    pub fn place(&self, question: &Circles) -> Placing {
        let key = key(question);
        let known = self.locked().get(&key).cloned();
        known.unwrap_or_else(|| {
            // Not locked while it is searched: two threads that ask the same find the same.
            let placing = question.place(self.effort);
            self.locked().insert(key, placing.clone());
            placing
        })
    }

    fn locked(&self) -> std::sync::MutexGuard<'_, BTreeMap<Vec<u64>, Placing>> {
        // Nothing is left half written by a thread that panics between lookups.
        self.known.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn key(question: &Circles) -> Vec<u64> {
    let Circles {
        width_mm,
        height_mm,
        diameters_mm,
        gap_mm,
        row_gap_mm,
        blocked,
    } = question;
    let sides = blocked
        .iter()
        .flat_map(|part| part.from_mm.iter().chain(&part.to_mm));
    let lengths = [width_mm, height_mm, gap_mm, row_gap_mm]
        .into_iter()
        .chain(diameters_mm)
        .chain(sides)
        .map(|length_mm| length_mm.to_bits());
    // The number of circles tells where the diameters end.
    std::iter::once(diameters_mm.len() as u64)
        .chain(lengths)
        .collect()
}
