//! Long rails in parts: which terminals a part shows, and where the rail is broken off. A part is a
//! whole arrangement with only what stands on it, so that it is drawn like any rail.

use crate::arrangement::{Arrangement, PlacedRail};
use crate::space::Block;

/// A rail, or one of the parts that it is drawn in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::sheets) struct Stretch {
    /// Index of the rail.
    pub rail: usize,
    /// Which part, from 0.
    pub part: usize,
    /// Number of parts.
    pub parts: usize,
}

impl Stretch {
    /// The rail in so many parts, from left to right.
    pub(in crate::sheets) fn all(rail: usize, parts: usize) -> impl Iterator<Item = Self> {
        (0..parts).map(move |part| Self { rail, part, parts })
    }

    /// From where to where it goes along x, in millimetres of the box.
    pub(super) fn span_mm(self, arrangement: &Arrangement, rail: &PlacedRail) -> (f64, f64) {
        let (low_mm, high_mm) = (rail.body.min.x_mm, rail.body.max.x_mm);
        let cut = |index: usize| match index {
            0 => low_mm,
            index if index >= self.parts => high_mm,
            index => {
                let share = index as f64 / self.parts as f64;
                cut_near(arrangement, rail, low_mm + share * (high_mm - low_mm))
            }
        };
        (cut(self.part), cut(self.part + 1))
    }

    /// The arrangement with what stands on this part of the rail only, and the rail cut to it.
    pub(in crate::sheets) fn only(self, arrangement: &Arrangement) -> Option<Arrangement> {
        let rail = arrangement.rails.get(self.rail)?;
        let (from_mm, to_mm) = self.span_mm(arrangement, rail);
        let is_within = |body: &Block| (from_mm..to_mm).contains(&body.centre().x_mm);
        let mut part = arrangement.clone();
        part.terminals
            .retain(|terminal| terminal.rail == rail.id && is_within(&terminal.body));
        part.accessories
            .retain(|accessory| accessory.rail == rail.id && is_within(&accessory.body));
        let cut = &mut part.rails.get_mut(self.rail)?.body;
        (cut.min.x_mm, cut.max.x_mm) = (from_mm, to_mm);
        Some(part)
    }

    /// Whether the rail goes on to the left and to the right.
    pub(super) fn goes_on(self) -> (bool, bool) {
        (self.part > 0, self.part + 1 < self.parts)
    }
}

/// The side of a terminal that is nearest to a wished place; those under a jumper only where there is no
/// other.
fn cut_near(arrangement: &Arrangement, rail: &PlacedRail, wished_mm: f64) -> f64 {
    let on_rail = || {
        arrangement
            .terminals
            .iter()
            .filter(|terminal| terminal.rail == rail.id)
    };
    let bridged: Vec<(f64, f64)> = arrangement
        .jumpers
        .iter()
        .filter_map(|jumper| {
            let mut centres = on_rail()
                .filter(|terminal| jumper.terminals.contains(&terminal.id))
                .map(|terminal| terminal.body.centre().x_mm);
            let first = centres.next()?;
            Some(centres.fold((first, first), |(low, high), x| (low.min(x), high.max(x))))
        })
        .collect();
    let is_bridged = |x_mm: f64| {
        bridged
            .iter()
            .any(|(low, high)| *low < x_mm && x_mm < *high)
    };
    on_rail()
        .map(|terminal| terminal.body.max.x_mm)
        .min_by(|a, b| {
            is_bridged(*a)
                .cmp(&is_bridged(*b))
                .then((a - wished_mm).abs().total_cmp(&(b - wished_mm).abs()))
        })
        .unwrap_or(wished_mm)
}
