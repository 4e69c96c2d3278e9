//! A quick way to rails: strips in order, each whole on the lowest rail that takes it, or else its
//! clusters one by one.

use super::problem::{ClusterType, RailKind, RailPlan, RailProblem, RailRoom};
use itertools::Itertools;

/// Rails of the given kinds with all clusters and the height they need, or nothing.
pub(super) fn place(
    problem: &RailProblem,
    room: RailRoom,
    kinds: &[RailKind],
) -> Option<(Vec<RailPlan>, f64)> {
    let rails = fill(problem, room, kinds, true).or_else(|| fill(problem, room, kinds, false))?;
    let plans = rails
        .into_iter()
        .zip(kinds)
        .map(|(clusters, kind)| problem.rail_plan(*kind, clusters).0)
        .collect_vec();
    let plans = sort_rows(plans);
    let height_mm = problem.height_mm(&plans);
    Some((plans, height_mm))
}

/// Clusters by strip and index, for each rail; nothing where they do not all fit or a rail stays empty.
fn fill(
    problem: &RailProblem,
    room: RailRoom,
    kinds: &[RailKind],
    whole_strips: bool,
) -> Option<Vec<Vec<(usize, usize)>>> {
    let mut rails = kinds.iter().copied().map(Filled::empty).collect_vec();
    let takes = |rails: &[Filled], rail: usize, strip: usize, more: &[(usize, usize)]| {
        problem.allows(strip, kinds[rail])
            && rails[rail].with_mm(problem, more) <= room.length_mm + 1e-9
    };
    for strip in 0..problem.strips.len() {
        let clusters = clusters_in_order(problem, strip);
        let whole =
            (0..kinds.len()).find(|rail| whole_strips && takes(&rails, *rail, strip, &clusters));
        if let Some(rail) = whole {
            rails[rail].add(problem, &clusters);
            continue;
        }
        for cluster in clusters {
            let rail = (0..kinds.len()).find(|rail| takes(&rails, *rail, strip, &[cluster]))?;
            rails[rail].add(problem, &[cluster]);
        }
    }
    let filled = rails.into_iter().map(|rail| rail.clusters).collect_vec();
    (!filled.iter().any(Vec::is_empty)).then_some(filled)
}

/// What stands on a rail so far.
#[derive(Clone)]
struct Filled {
    kind: RailKind,
    clusters: Vec<(usize, usize)>,
    widths_mm: f64,
    groups: Vec<usize>,
    /// Length of all but the terminals.
    besides_mm: f64,
}

impl Filled {
    fn empty(kind: RailKind) -> Self {
        Self {
            kind,
            clusters: Vec::new(),
            widths_mm: 0.0,
            groups: Vec::new(),
            besides_mm: 0.0,
        }
    }

    fn add(&mut self, problem: &RailProblem, more: &[(usize, usize)]) {
        let groups = self.groups.len();
        for cluster in more {
            self.clusters.push(*cluster);
            self.widths_mm += problem.width_mm(*cluster);
            let group = problem.group(*cluster);
            if !self.groups.contains(&group) {
                self.groups.push(group);
            }
        }
        if self.groups.len() > groups {
            self.besides_mm = problem.length_mm(self.kind, 0.0, &self.groups);
        }
    }

    /// Length of the rail with more clusters on it.
    fn with_mm(&self, problem: &RailProblem, more: &[(usize, usize)]) -> f64 {
        let known = |cluster: &(usize, usize)| self.groups.contains(&problem.group(*cluster));
        if more.iter().all(known) {
            let more_mm: f64 = more.iter().map(|cluster| problem.width_mm(*cluster)).sum();
            return self.besides_mm + self.widths_mm + more_mm;
        }
        let mut with = Filled {
            clusters: Vec::new(),
            groups: self.groups.clone(),
            ..*self
        };
        with.add(problem, more);
        with.besides_mm + with.widths_mm
    }
}

/// The clusters of a strip: groups with the largest wiring space first, so that rows of large
/// conductors stay together.
fn clusters_in_order(problem: &RailProblem, strip: usize) -> Vec<(usize, usize)> {
    let space = |kind: &ClusterType| problem.groups[kind.group].wiring_space_mm;
    let length = |kind: &ClusterType| problem.groups[kind.group].length_mm;
    problem
        .types
        .iter()
        .filter(|kind| kind.strip == strip)
        .flat_map(|kind| kind.members.iter().map(move |member| (kind, *member)))
        .sorted_by(|(a, first), (b, second)| {
            space(b)
                .total_cmp(&space(a))
                .then(length(b).total_cmp(&length(a)))
                .then(a.group.cmp(&b.group))
                .then(first.cmp(second))
        })
        .map(|(kind, member)| (kind.strip, member))
        .collect_vec()
}

/// Within a run of rails of one kind the rows with the larger wiring space lie lower: that order needs
/// least height. Runs of different kinds keep their order.
pub(super) fn sort_rows(mut rails: Vec<RailPlan>) -> Vec<RailPlan> {
    for run in rails.chunk_by_mut(|a, b| a.kind == b.kind) {
        run.sort_by(|a, b| b.wiring_space_mm.total_cmp(&a.wiring_space_mm));
    }
    rails
}
