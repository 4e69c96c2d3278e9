//! The exact division into rows as a mixed-integer program: how many entries of each class in each row.

use super::{EntryProblem, EntryRow};
use crate::model::milp::{Decision, Effort, Program, Sense, Var};
use itertools::Itertools;

/// One for each possible row: its area and the number of entries by class.
type Slots = Vec<(usize, Vec<(usize, Var)>)>;

/// Places all entries, or says why not.
pub(super) fn place(problem: &EntryProblem, effort: Effort) -> Result<Vec<EntryRow>, Decision> {
    let (program, slots) = build(problem);
    match program.solve(effort) {
        Decision::Feasible { values, .. } => Ok(read_rows(problem, &slots, &values)),
        other => Err(other),
    }
}

/// States the program. A class that no area takes has a row that nothing can keep.
pub(super) fn build(problem: &EntryProblem) -> (Program, Slots) {
    let smallest_mm = problem
        .classes
        .iter()
        .map(|class| class.envelope_mm)
        .fold(f64::INFINITY, f64::min);
    let mut program = Program::default();
    let mut slots: Slots = Vec::new();
    for (area_index, area) in problem.areas.iter().enumerate() {
        let most_rows = ((area.rect.height_mm + problem.row_gap_mm + 1e-9)
            / (smallest_mm + problem.row_gap_mm))
            .floor();
        let usable: Vec<usize> = (0..problem.classes.len())
            .filter(|class| problem.allows(&problem.classes[*class], area))
            .collect();
        if usable.is_empty() || most_rows < 1.0 {
            continue;
        }
        let rows = (most_rows as usize).min(
            problem
                .classes
                .iter()
                .map(|class| class.members.len())
                .sum(),
        );
        let mut heights: Vec<(Var, f64)> = Vec::new();
        let mut last_height: Option<Var> = None;
        for row in 0..rows {
            let name = format!("{}.{}.{row}", area.wall, area.index);
            let tallest_mm = area.rect.height_mm;
            let height = program.length(format!("height {name}"), 0.0, tallest_mm, 0.0);
            let used = program.binary(format!("used {name}"), 0.0);
            program.row(
                format!("tall if used {name}"),
                vec![(height, 1.0), (used, -tallest_mm)],
                Sense::AtMost,
                0.0,
            );
            if let Some(last) = last_height {
                // Rows of one area are interchangeable: the taller first.
                program.row(
                    format!("order {name}"),
                    vec![(last, 1.0), (height, -1.0)],
                    Sense::AtLeast,
                    0.0,
                );
            }
            last_height = Some(height);
            let mut counts = Vec::new();
            let mut length = Vec::new();
            for class_index in &usable {
                let class = &problem.classes[*class_index];
                let fits = ((area.rect.width_mm + problem.gap_mm + 1e-9)
                    / (class.envelope_mm + problem.gap_mm))
                    .floor();
                let most = fits.min(class.members.len() as f64);
                let rank = class
                    .walls
                    .iter()
                    .position(|wall| *wall == area.wall)
                    .unwrap_or(0);
                let count = program.integer(
                    format!("count {class_index} {name}"),
                    0.0,
                    most,
                    rank as f64,
                );
                let present = program.binary(format!("present {class_index} {name}"), 0.0);
                program.row(
                    format!("present {class_index} {name}"),
                    vec![(count, 1.0), (present, -most)],
                    Sense::AtMost,
                    0.0,
                );
                program.row(
                    format!("as tall as {class_index} {name}"),
                    vec![(height, 1.0), (present, -class.envelope_mm)],
                    Sense::AtLeast,
                    0.0,
                );
                program.row(
                    format!("used by {class_index} {name}"),
                    vec![(used, 1.0), (present, -1.0)],
                    Sense::AtLeast,
                    0.0,
                );
                length.push((count, class.envelope_mm + problem.gap_mm));
                counts.push((*class_index, count));
            }
            program.row(
                format!("length {name}"),
                length,
                Sense::AtMost,
                area.rect.width_mm + problem.gap_mm,
            );
            heights.push((height, 1.0));
            heights.push((used, problem.row_gap_mm));
            slots.push((area_index, counts));
        }
        program.row(
            format!("height {}.{}", area.wall, area.index),
            heights,
            Sense::AtMost,
            area.rect.height_mm + problem.row_gap_mm,
        );
    }
    for (class_index, class) in problem.classes.iter().enumerate() {
        let mut all = slots
            .iter()
            .flat_map(|(_, counts)| counts)
            .filter(|(index, _)| *index == class_index)
            .map(|(_, count)| (*count, 1.0))
            .collect_vec();
        if all.is_empty() {
            all.push((program.nowhere(format!("class {class_index}")), 1.0));
        }
        program.row(
            format!("all of class {class_index}"),
            all,
            Sense::Equal,
            class.members.len() as f64,
        );
    }
    for (wall, threads) in &problem.certified {
        for (thread, most) in threads {
            let all = slots
                .iter()
                .filter(|(area, _)| problem.areas[*area].wall == *wall)
                .flat_map(|(_, counts)| counts)
                .filter(|(class, _)| problem.classes[*class].thread == *thread)
                .map(|(_, count)| (*count, 1.0))
                .collect_vec();
            if !all.is_empty() {
                program.row(
                    format!("certified {wall} {thread}"),
                    all,
                    Sense::AtMost,
                    f64::from(*most),
                );
            }
        }
    }
    (program, slots)
}

/// Deals the members of each class out to the rows, in the order of the list.
fn read_rows(
    problem: &EntryProblem,
    slots: &[(usize, Vec<(usize, Var)>)],
    values: &[f64],
) -> Vec<EntryRow> {
    let mut members: Vec<std::slice::Iter<'_, usize>> = problem
        .classes
        .iter()
        .map(|class| class.members.iter())
        .collect();
    let mut rows = Vec::new();
    for (area_index, counts) in slots {
        let mut entries = Vec::new();
        for (class, count) in counts {
            entries.extend(
                members[*class]
                    .by_ref()
                    .take(count.of(values) as usize)
                    .copied(),
            );
        }
        if entries.is_empty() {
            continue;
        }
        rows.push(problem.areas[*area_index].row(entries));
    }
    rows
}
