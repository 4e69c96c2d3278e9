//! Kinds of entries by falling envelope, and areas, in whole units. Knows nothing of rows that are found.
//!
//! Lengths are rounded down to units, of entries and of areas alike: what fits in millimetres fits in units,
//! so that what units refuse is refused.

use crate::model::walls::{EntryClass, EntryProblem};

/// Most units along an area; with finer figures the unit grows.
const MOST_UNITS: f64 = 1500.0;
/// What floats may be off, in units.
const NOISE: f64 = 1e-6;

/// Entries that are alike, measured with the gap that follows them.
pub(super) struct Kind {
    /// Index of the class in the problem.
    pub class: usize,
    /// How many there are.
    pub count: u32,
    /// Along the row with its gap, mm and units.
    pub length_mm: f64,
    pub length: usize,
    /// Across the row with the gap to the next one, mm and units.
    pub height_mm: f64,
    pub height: usize,
}

/// An area, enlarged by one gap each way.
pub(super) struct Area {
    pub length_mm: f64,
    pub length: usize,
    pub height_mm: f64,
    pub height: usize,
    /// Which kinds it takes.
    pub takes: Vec<bool>,
    /// The first area that has the same length and takes the same kinds.
    pub like: usize,
}

/// The whole question.
pub(super) struct Kinds {
    /// The tallest first.
    pub kinds: Vec<Kind>,
    pub areas: Vec<Area>,
}

impl Kinds {
    pub fn new(problem: &EntryProblem) -> Self {
        let mut order: Vec<usize> = (0..problem.classes.len()).collect();
        let envelope = |class: usize| problem.classes[class].envelope_mm;
        order.sort_by(|a, b| envelope(*b).total_cmp(&envelope(*a)).then(a.cmp(b)));
        let of_lengths = |gap_mm: f64, extent: fn(&crate::space::Rect) -> f64| {
            let steps: Vec<f64> = order
                .iter()
                .map(|class| envelope(*class) + gap_mm)
                .collect();
            let most_mm = problem
                .areas
                .iter()
                .map(|area| extent(&area.rect) + gap_mm)
                .fold(0.0, f64::max);
            unit_mm(&steps, most_mm)
        };
        let (gap_mm, row_gap_mm) = (problem.gap_mm, problem.row_gap_mm);
        let along_mm = of_lengths(gap_mm, |rect| rect.width_mm);
        let across_mm = of_lengths(row_gap_mm, |rect| rect.height_mm);
        let kinds = order
            .iter()
            .map(|class| {
                let known: &EntryClass = &problem.classes[*class];
                let (length_mm, height_mm) =
                    (known.envelope_mm + gap_mm, known.envelope_mm + row_gap_mm);
                Kind {
                    class: *class,
                    count: known.members.len() as u32,
                    length_mm,
                    length: in_units(length_mm, along_mm),
                    height_mm,
                    height: in_units(height_mm, across_mm),
                }
            })
            .collect();
        let mut areas: Vec<Area> = Vec::new();
        for area in &problem.areas {
            let takes: Vec<bool> = order
                .iter()
                .map(|class| problem.allows(&problem.classes[*class], area))
                .collect();
            let (length_mm, height_mm) = if takes.contains(&true) {
                (
                    area.rect.width_mm + gap_mm,
                    area.rect.height_mm + row_gap_mm,
                )
            } else {
                (0.0, 0.0)
            };
            let length = in_units(length_mm, along_mm);
            let like = areas
                .iter()
                .position(|known| known.length == length && known.takes == takes)
                .unwrap_or(areas.len());
            areas.push(Area {
                length_mm,
                length,
                height_mm,
                height: in_units(height_mm, across_mm),
                takes,
                like,
            });
        }
        Self { kinds, areas }
    }
}

fn in_units(length_mm: f64, unit_mm: f64) -> usize {
    (length_mm / unit_mm + NOISE).floor().max(0.0) as usize
}

/// The largest unit in which all steps are whole, where they are whole hundredths of a millimetre and the
/// areas have no more than [`MOST_UNITS`] of it.
fn unit_mm(steps_mm: &[f64], most_mm: f64) -> f64 {
    let least_mm = most_mm / MOST_UNITS;
    let mut common = 0u64;
    for step_mm in steps_mm {
        let hundredths = (step_mm * 100.0).round();
        if (hundredths - step_mm * 100.0).abs() > NOISE {
            return least_mm.max(0.01);
        }
        common = common_divisor(common, hundredths as u64);
    }
    (common as f64 / 100.0).max(least_mm).max(0.01)
}

fn common_divisor(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { common_divisor(b, a % b) }
}

#[cfg(test)]
mod tests {
    use super::{in_units, unit_mm};

    #[test]
    fn a_unit_divides_every_step_unless_areas_are_too_long_for_it() {
        assert_eq!(unit_mm(&[35.0, 45.0, 30.0], 400.0), 5.0);
        assert_eq!(unit_mm(&[35.1, 45.0], 350.0), 0.9);
        assert_eq!(unit_mm(&[35.1, 45.2], 375.0), 0.25);
        assert_eq!(in_units(45.2, 0.1), 452);
        assert_eq!(in_units(45.2, 0.25), 180);
    }
}
