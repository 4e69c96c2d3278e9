//! The order of the strips along their rails.
//!
//! A rail needs the same length whichever strip stands first: every group keeps its end plate, and between
//! two strips stands one partition. So the orders that a rail allows are free to be judged by the conductors.

use crate::catalogue::CircuitKind;
use crate::demand::Demand;
use crate::model::rails::{RailKind, RailPlan};
use itertools::Itertools;

/// Most orders of all rails together that are tried one by one.
pub(super) const MOST_ORDERS: usize = 24;

/// Clusters as (strip, cluster).
type Clusters = Vec<(usize, usize)>;

/// Every order of the strips on each rail, the planned one first; `None` where there are too many.
pub(super) fn all(demand: &Demand<'_>, planned: &[RailPlan]) -> Option<Vec<Vec<RailPlan>>> {
    let blocks = planned.iter().map(|rail| runs(demand, rail)).collect_vec();
    blocks.iter().flatten().try_fold(1usize, |product, run| {
        let product = product.checked_mul((1..=run.len()).product())?;
        (product <= MOST_ORDERS).then_some(product)
    })?;
    let of_rails = planned.iter().zip(&blocks).map(|(rail, runs)| {
        // A run without strips has one order: that of nothing.
        let of_runs = runs.iter().map(|run| run.iter().permutations(run.len()));
        let orders = of_runs.multi_cartesian_product().map(|runs| RailPlan {
            clusters: runs.into_iter().flatten().flatten().copied().collect(),
            ..rail.clone()
        });
        orders.collect_vec()
    });
    Some(of_rails.multi_cartesian_product().collect())
}

/// Every order in which two neighbouring strips have changed places.
pub(super) fn neighbours(demand: &Demand<'_>, plans: &[RailPlan]) -> Vec<Vec<RailPlan>> {
    let mut found = Vec::new();
    for (index, rail) in plans.iter().enumerate() {
        let runs = runs(demand, rail);
        for (run, left) in
            (0..runs.len()).flat_map(|run| (1..runs[run].len()).map(move |right| (run, right - 1)))
        {
            let mut swapped = runs.clone();
            swapped[run].swap(left, left + 1);
            let mut rails = plans.to_vec();
            rails[index].clusters = swapped.concat().concat();
            found.push(rails);
        }
    }
    found
}

/// Strips of a rail in blocks, for each of its two runs: a rail with both kinds of circuit keeps them apart.
fn runs(demand: &Demand<'_>, rail: &RailPlan) -> Vec<Vec<Clusters>> {
    let is_apart = |strip: usize| {
        rail.kind == RailKind::Mixed && demand.strips[strip].kind == CircuitKind::IntrinsicallySafe
    };
    let blocks = rail.clusters.iter().copied().chunk_by(|(strip, _)| *strip);
    let blocks: Vec<Clusters> = blocks
        .into_iter()
        .map(|(_, block)| block.collect())
        .collect();
    let runs: (Vec<Clusters>, Vec<Clusters>) =
        blocks.into_iter().partition(|block| !is_apart(block[0].0));
    vec![runs.0, runs.1]
}
