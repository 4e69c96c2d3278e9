//! The exact division onto rails as a mixed-integer program that minimises the height.

use super::problem::{RailKind, RailPlan, RailProblem, RailRoom, StripClass};
use crate::model::milp::{Decision, Effort, Program, Sense, Var};
use itertools::Itertools;
use std::collections::BTreeMap;

/// Cost of a strip or part that continues on a further rail, in millimetres of height. Small enough
/// that the height (in tenths of a millimetre) always comes first.
const COST_OF_SPLITTING_MM: f64 = 0.0001;

/// Rails of the given kinds with all clusters and the least height they need.
pub(super) fn place(
    problem: &RailProblem,
    room: RailRoom,
    kinds: &[RailKind],
    effort: Effort,
) -> Result<(Vec<RailPlan>, f64), Decision> {
    let homeless = |strip: usize| !kinds.iter().any(|kind| problem.allows(strip, *kind));
    if problem.types.iter().any(|kind| homeless(kind.strip)) {
        return Err(Decision::Infeasible);
    }
    let (program, counts) = build(problem, room, kinds);
    match program.solve(effort) {
        Decision::Feasible { values, .. } => Ok(read_rails(problem, kinds, &counts, &values)),
        other => Err(other),
    }
}

/// For each rail, how many clusters of each type it takes.
type Counts = Vec<Vec<(usize, Var)>>;

/// States the program. A type that no rail takes has a row that nothing can keep.
pub(super) fn build(
    problem: &RailProblem,
    room: RailRoom,
    kinds: &[RailKind],
) -> (Program, Counts) {
    let mut program = Program::default();
    let tallest_mm = problem.groups.iter().map(|group| group.length_mm).fold(
        problem
            .base_of_mm(RailKind::Mixed)
            .max(problem.partition_length_mm),
        f64::max,
    );
    let widest_space_mm = problem
        .groups
        .iter()
        .map(|group| group.wiring_space_mm)
        .fold(0.0, f64::max);
    let mut counts: Counts = Vec::new();
    let mut spaces: Vec<Var> = Vec::new();
    for (rail, kind) in kinds.iter().enumerate() {
        let row = program.length(
            format!("row {rail}"),
            problem.base_of_mm(*kind),
            tallest_mm,
            1.0,
        );
        let space = program.length(format!("wiring space {rail}"), 0.0, widest_space_mm, 0.0);
        if rail > 0 && kinds[rail - 1] == *kind {
            program.row(
                format!("order {rail}"),
                vec![(spaces[rail - 1], 1.0), (space, -1.0)],
                Sense::AtLeast,
                0.0,
            );
        }
        spaces.push(space);
        counts.push(add_rail(
            &mut program,
            problem,
            room,
            rail,
            *kind,
            row,
            space,
        ));
    }
    add_slots(&mut program, problem, kinds, &spaces, widest_space_mm);
    for (index, cluster_type) in problem.types.iter().enumerate() {
        let mut all = counts
            .iter()
            .flatten()
            .filter(|(known, _)| *known == index)
            .map(|(_, count)| (*count, 1.0))
            .collect_vec();
        if all.is_empty() {
            all.push((program.nowhere(format!("type {index}")), 1.0));
        }
        program.row(
            format!("all of type {index}"),
            all,
            Sense::Equal,
            cluster_type.members.len() as f64,
        );
    }
    (program, counts)
}

/// Variables and constraints of one rail.
fn add_rail(
    program: &mut Program,
    problem: &RailProblem,
    room: RailRoom,
    rail: usize,
    kind: RailKind,
    row: Var,
    space: Var,
) -> Vec<(usize, Var)> {
    let mut counts: Vec<(usize, Var)> = Vec::new();
    let mut length: Vec<(Var, f64)> = Vec::new();
    let mut group_present: BTreeMap<usize, Var> = BTreeMap::new();
    let mut strip_present: BTreeMap<usize, Var> = BTreeMap::new();
    for (index, cluster_type) in problem.types.iter().enumerate() {
        if !problem.allows(cluster_type.strip, kind) {
            continue;
        }
        let most = (cluster_type.members.len() as f64)
            .min((room.length_mm / cluster_type.width_mm).floor());
        let count = program.integer(format!("count {index} on {rail}"), 0.0, most, 0.0);
        counts.push((index, count));
        length.push((count, cluster_type.width_mm));
        let group_index = cluster_type.group;
        let group = &problem.groups[group_index];
        let present = *group_present.entry(group_index).or_insert_with(|| {
            let present = program.binary(
                format!("group {group_index} on {rail}"),
                COST_OF_SPLITTING_MM,
            );
            length.push((present, group.end_plate_mm));
            program.row(
                format!("row takes group {group_index} on {rail}"),
                vec![(row, 1.0), (present, -group.length_mm)],
                Sense::AtLeast,
                0.0,
            );
            program.row(
                format!("space takes group {group_index} on {rail}"),
                vec![(space, 1.0), (present, -group.wiring_space_mm)],
                Sense::AtLeast,
                0.0,
            );
            let strip = *strip_present.entry(group.strip).or_insert_with(|| {
                let strip = program.binary(
                    format!("strip {} on {rail}", group.strip),
                    COST_OF_SPLITTING_MM,
                );
                length.push((strip, problem.partition_mm));
                strip
            });
            program.row(
                format!("strip of group {group_index} on {rail}"),
                vec![(strip, 1.0), (present, -1.0)],
                Sense::AtLeast,
                0.0,
            );
            present
        });
        program.row(
            format!("present {index} on {rail}"),
            vec![(count, 1.0), (present, -most)],
            Sense::AtMost,
            0.0,
        );
    }
    program.row(
        format!("rail {rail} is used"),
        counts.iter().map(|(_, count)| (*count, 1.0)).collect(),
        Sense::AtLeast,
        1.0,
    );
    // Partitions stand between strips: one fewer than there are strips, on either side of the gap of a
    // mixed rail.
    let mut bound_mm = room.length_mm - problem.rail_overhead_mm() + problem.partition_mm;
    let mut sides: Vec<Vec<Var>> = vec![strip_present.values().copied().collect()];
    if kind == RailKind::Mixed {
        bound_mm += problem.partition_mm - problem.mixed_gap_mm();
        let side = |safe: bool| {
            strip_present
                .iter()
                .filter(|(strip, _)| {
                    (problem.strips[**strip] == StripClass::IntrinsicallySafe) == safe
                })
                .map(|(_, present)| *present)
                .collect_vec()
        };
        sides = vec![side(false), side(true)];
        // A mixed rail that is not mixed is one of the other kinds, tried by itself.
        for (name, side) in ["other", "safe"].iter().zip(&sides) {
            let terms = side.iter().map(|present| (*present, 1.0)).collect();
            program.row(format!("{name} side of {rail}"), terms, Sense::AtLeast, 1.0);
        }
        // Presence must mean presence here, or an empty side would count.
        for (strip, present) in &strip_present {
            let mut terms: Vec<(Var, f64)> = counts
                .iter()
                .filter(|(index, _)| problem.types[*index].strip == *strip)
                .map(|(_, count)| (*count, 1.0))
                .collect();
            terms.push((*present, -1.0));
            program.row(
                format!("strip {strip} really on {rail}"),
                terms,
                Sense::AtLeast,
                0.0,
            );
        }
    }
    program.row(format!("length of {rail}"), length, Sense::AtMost, bound_mm);
    for (side_index, side) in sides.iter().enumerate().filter(|(_, side)| side.len() > 1) {
        let partitioned = program.binary(format!("partition {side_index} on {rail}"), 0.0);
        let mut terms: Vec<(Var, f64)> = side.iter().map(|present| (*present, 1.0)).collect();
        terms.push((partitioned, -(side.len() as f64 - 1.0)));
        program.row(
            format!("partitioned {side_index} on {rail}"),
            terms,
            Sense::AtMost,
            1.0,
        );
        program.row(
            format!("row takes partition {side_index} on {rail}"),
            vec![(row, 1.0), (partitioned, -problem.partition_length_mm)],
            Sense::AtLeast,
            0.0,
        );
    }
    counts
}

/// The free heights below, between and above the rows.
fn add_slots(
    program: &mut Program,
    problem: &RailProblem,
    kinds: &[RailKind],
    spaces: &[Var],
    widest_mm: f64,
) {
    for slot in 0..=kinds.len() {
        let around = [slot.checked_sub(1), (slot < kinds.len()).then_some(slot)];
        let apart = match around {
            [Some(lower), Some(upper)] if problem.must_be_apart(kinds[lower], kinds[upper]) => {
                problem.separation_mm
            }
            _ => 0.0,
        };
        let height = program.length(format!("slot {slot}"), apart, widest_mm.max(apart), 1.0);
        for rail in around.into_iter().flatten() {
            program.row(
                format!("slot {slot} for rail {rail}"),
                vec![(height, 1.0), (spaces[rail], -1.0)],
                Sense::AtLeast,
                0.0,
            );
        }
    }
}

/// Deals the clusters out to the rails and measures them anew.
fn read_rails(
    problem: &RailProblem,
    kinds: &[RailKind],
    counts: &[Vec<(usize, Var)>],
    values: &[f64],
) -> (Vec<RailPlan>, f64) {
    let mut members: Vec<std::slice::Iter<'_, usize>> = problem
        .types
        .iter()
        .map(|cluster_type| cluster_type.members.iter())
        .collect();
    let mut rails = Vec::new();
    for (kind, counts) in kinds.iter().zip(counts) {
        let mut clusters = Vec::new();
        for (index, count) in counts {
            let strip = problem.types[*index].strip;
            clusters.extend(
                members[*index]
                    .by_ref()
                    .take(count.of(values) as usize)
                    .map(|member| (strip, *member)),
            );
        }
        rails.push(problem.rail_plan(*kind, clusters).0);
    }
    let rails = super::greedy::sort_rows(rails);
    let height_mm = problem.height_mm(&rails);
    (rails, height_mm)
}
