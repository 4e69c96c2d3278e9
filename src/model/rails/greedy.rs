//! A quick way to rails: clusters in the order of the strips, each on the lowest rail that takes it.

use super::problem::{RailKind, RailPlan, RailProblem, RailRoom};
use itertools::Itertools;

/// Rails of the given kinds with all clusters and the height they need, or nothing.
pub(super) fn place(
    problem: &RailProblem,
    room: RailRoom,
    kinds: &[RailKind],
) -> Option<(Vec<RailPlan>, f64)> {
    let mut rails: Vec<Vec<(usize, usize)>> = vec![Vec::new(); kinds.len()];
    // Strips in order; within a strip the groups with the largest wiring space first, so that rows of
    // large conductors stay together.
    let order = problem
        .types
        .iter()
        .flat_map(|kind| kind.members.iter().map(move |member| (kind, *member)))
        .sorted_by(|a, b| {
            let (group_a, group_b) = (&problem.groups[a.0.group], &problem.groups[b.0.group]);
            (a.0.strip.cmp(&b.0.strip))
                .then(group_b.wiring_space_mm.total_cmp(&group_a.wiring_space_mm))
                .then(group_b.length_mm.total_cmp(&group_a.length_mm))
                .then(a.0.group.cmp(&b.0.group))
                .then(a.1.cmp(&b.1))
        })
        .collect_vec();
    let mut lengths: Vec<f64> = vec![0.0; kinds.len()];
    for (cluster_type, member) in order {
        let cluster = (cluster_type.strip, member);
        let rail = (0..kinds.len()).find(|rail| {
            if !problem.allows(cluster_type.strip, kinds[*rail]) {
                return false;
            }
            // A bound that saves measuring rails that are full.
            if lengths[*rail] + cluster_type.width_mm > room.length_mm + 1e-9 {
                return false;
            }
            let mut with = rails[*rail].clone();
            with.push(cluster);
            problem.rail_plan(kinds[*rail], with).1 <= room.length_mm + 1e-9
        })?;
        rails[rail].push(cluster);
        lengths[rail] += cluster_type.width_mm;
    }
    if rails.iter().any(Vec::is_empty) {
        return None;
    }
    let plans = rails
        .into_iter()
        .zip(kinds)
        .map(|(clusters, kind)| problem.rail_plan(*kind, clusters).0)
        .collect_vec();
    let plans = sort_rows(plans);
    let height_mm = problem.height_mm(&plans);
    Some((plans, height_mm))
}

/// Within each kind the rows with the larger wiring space lie lower: that order needs least height.
pub(super) fn sort_rows(mut rails: Vec<RailPlan>) -> Vec<RailPlan> {
    rails.sort_by(|a, b| {
        a.kind
            .cmp(&b.kind)
            .then(b.wiring_space_mm.total_cmp(&a.wiring_space_mm))
    });
    rails
}
