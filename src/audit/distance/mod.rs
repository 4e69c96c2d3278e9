//! Clearance and creepage between bare parts in three dimensions, and the separation of intrinsically
//! safe circuits. Knows nothing of currents and of what is drilled.
//!
//! Through air the shortest way counts: the straight line, or the way round the insulating slabs that
//! stand across a rail between two parts (partitions, end plates, closed side walls of terminals).
//! Solid insulation is no way through air. Distances inside one part belong to its certificate. What
//! may be metal counts as earthed metal: bodies of elements, whose material no catalogue says, and
//! accessories of an unknown material, which shield nothing either. The workshop's tolerance is
//! subtracted from every distance that depends on how parts are placed, not from a certified one.
//!
//! Over surfaces no way is shorter than the way through air, which stands for it: docs/distances.md says
//! over which surfaces, and what is left to the certificate of a part.

mod clearance;
mod earth;
mod earth_creepage;
mod intrinsic;
mod material;

use super::case::{Rule, SLACK};
use super::context::{Context, Live, Slab};
use super::measure;
use crate::space::Block;
use std::cmp::Ordering;

/// The rules of this group.
pub(super) static RULES: [&[Rule]; 4] = [
    clearance::RULES,
    earth::RULES,
    earth_creepage::RULES,
    intrinsic::RULES,
];

/// Parts farther apart than this are not measured where no voltage in the box asks for more; larger
/// than any requirement up to 1000 V with tolerance.
const NEAR_MM: f64 = 60.0;

/// Calls `each` for every pair of bare parts of two owners that lie within reach of each other along x.
fn near_pairs<'a>(
    parts: &'a [Live<'a>],
    reach_mm: f64,
    mut each: impl FnMut(&'a Live<'a>, &'a Live<'a>),
) {
    let mut order: Vec<&Live> = parts.iter().collect();
    order.sort_by(|a, b| a.block.min.x_mm.total_cmp(&b.block.min.x_mm));
    for (index, a) in order.iter().enumerate() {
        for b in order.iter().skip(index + 1) {
            if b.block.min.x_mm - a.block.max.x_mm > reach_mm {
                break;
            }
            if a.owner != b.owner {
                each(a, b);
            }
        }
    }
}

/// The way through air between two bare parts: straight, or round the slabs that stand between them
/// on their common rail.
fn through_air_mm(a: &Live<'_>, b: &Live<'_>, slabs: &[Slab<'_>]) -> f64 {
    match (a.terminal, b.terminal) {
        (Some(first), Some(second)) if first.rail == second.rail => {
            along_rail_mm(&first.rail, a.block, b.block, slabs)
        }
        _ => measure::distance_mm(a.block, b.block),
    }
}

/// The way through air between two blocks on one rail: straight, or round the slab between them that
/// leads furthest round.
fn along_rail_mm(rail: &str, a: &Block, b: &Block, slabs: &[Slab<'_>]) -> f64 {
    let from_mm = a.max.x_mm.min(b.max.x_mm) - SLACK;
    let to_mm = a.min.x_mm.max(b.min.x_mm) + SLACK;
    let start = slabs.partition_point(|slab| {
        (slab.rail, slab.block.min.x_mm).partial_cmp(&(rail, from_mm)) == Some(Ordering::Less)
    });
    let between = slabs
        .iter()
        .skip(start)
        .take_while(|slab| slab.rail == rail && slab.block.min.x_mm <= to_mm);
    between
        .map(|slab| measure::around_mm(a, b, &slab.block))
        .fold(measure::distance_mm(a, b), f64::max)
}

/// The certified distance of two parts that are equal neighbours.
fn certified_mm(a: &Live<'_>, b: &Live<'_>) -> Option<f64> {
    let (first, second) = a.terminal.zip(b.terminal)?;
    if Context::equal_neighbours(first, second) {
        first.neighbour_distance_mm
    } else {
        None
    }
}

fn tolerance_mm(context: &Context<'_>) -> f64 {
    context.arrangement.limits.tolerance_mm
}

/// How far a search must reach: beyond every requirement of the box.
fn reach_mm(context: &Context<'_>) -> f64 {
    let circuits = context
        .arrangement
        .circuits
        .iter()
        .map(|circuit| circuit.voltage_v);
    let recorded = context
        .arrangement
        .terminals
        .iter()
        .map(|terminal| terminal.working_voltage_v);
    let highest_v = circuits.chain(recorded).fold(0.0, f64::max);
    // The largest creepage of a voltage is 160 mm; only a box above 1000 V needs to look so far.
    let needed_mm = if highest_v > 1000.0 { 200.0 } else { NEAR_MM };
    needed_mm + tolerance_mm(context).max(0.0)
}
