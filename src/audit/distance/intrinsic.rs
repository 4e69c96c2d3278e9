//! Intrinsically safe circuits apart from other circuits and from each other.

use super::{certified_mm, near_pairs, reach_mm, through_air_mm, tolerance_mm};
use crate::audit::case::{Cases, Rule};
use crate::audit::context::{Context, Live, may_conduct};
use crate::audit::measure;
use crate::catalogue::{AccessoryKind, CircuitKind};
use crate::space::Block;
use crate::standards::iec_60079_11::{
    OTHER_CIRCUITS, OTHER_CIRCUITS_MM, PARTITION_GAP_MM, SEPARATE_CIRCUITS, SEPARATE_CIRCUITS_MM,
};
use std::collections::BTreeSet;

/// Least thickness of an insulating partition between intrinsically safe and other terminals.
const PARTITION_THICKNESS_MM: f64 = 0.9;

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "distance.intrinsic_other",
        title: "intrinsically safe apart from other circuits",
        requires: "bare parts of intrinsically safe circuits and of others (earth not counted) lie 50 mm apart or what the workshop asks beyond, in a straight line or round a partition of at least 0.9 mm that is known to insulate; or a partition between them reaches within 1.5 mm of walls, lid and plate",
        source: OTHER_CIRCUITS,
        unit: "mm",
        check: intrinsic_other,
    },
    Rule {
        id: "distance.intrinsic_circuits",
        title: "separate intrinsically safe circuits",
        requires: "bare parts of separate intrinsically safe circuits lie 6 mm apart through air, less the workshop tolerance; for equal neighbours the certified distance counts; a spare terminal counts as a circuit of its own",
        source: SEPARATE_CIRCUITS,
        unit: "mm",
        check: intrinsic_circuits,
    },
];

/// Whether a partition closes the whole cross-section of the room but for the permitted gap.
fn closes_the_room(context: &Context<'_>, slab: &Block) -> bool {
    let interior = context.interior();
    let plate_mm = context.arrangement.enclosure.plate.standoff_mm;
    slab.min.y_mm <= PARTITION_GAP_MM
        && interior.height_mm - slab.max.y_mm <= PARTITION_GAP_MM
        && interior.depth_mm - slab.max.z_mm <= PARTITION_GAP_MM
        && slab.min.z_mm <= plate_mm + PARTITION_GAP_MM
}

fn intrinsic_other(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("intrinsically safe and other circuits do not meet in this box");
    let parts = context.live_parts();
    let counted: Vec<&Live> = parts.iter().filter(|part| !part.is_earth()).collect();
    let safe = counted
        .iter()
        .filter(|part| part.kind == CircuitKind::IntrinsicallySafe);
    let required_mm = context
        .arrangement
        .limits
        .intrinsic_separation_mm
        .max(OTHER_CIRCUITS_MM);
    let partitions: Vec<&Block> = context
        .arrangement
        .accessories
        .iter()
        .filter(|accessory| {
            accessory.kind == AccessoryKind::Partition && !may_conduct(accessory.material)
        })
        .map(|accessory| &accessory.body)
        .filter(|body| body.max.x_mm - body.min.x_mm >= PARTITION_THICKNESS_MM)
        .collect();
    for part in safe {
        for other in counted
            .iter()
            .filter(|other| other.kind == CircuitKind::ExE)
        {
            let straight_mm = measure::distance_mm(part.block, other.block);
            let between = partitions.iter().filter(|slab| {
                let (left, right) = if part.block.max.x_mm <= other.block.min.x_mm {
                    (part.block, other.block)
                } else {
                    (other.block, part.block)
                };
                left.max.x_mm <= slab.min.x_mm && slab.max.x_mm <= right.min.x_mm
            });
            let measured_mm = between
                .map(|slab| {
                    if closes_the_room(context, slab) {
                        // No way leads round it; the separation is that of the partition.
                        straight_mm.max(required_mm)
                    } else {
                        measure::around_mm(part.block, other.block, slab)
                    }
                })
                .fold(straight_mm, f64::max);
            cases.at_least(&[part.owner, other.owner], measured_mm, required_mm, || {
                format!(
                    "distance of the intrinsically safe {} and {}",
                    part.owner, other.owner
                )
            });
        }
    }
}

fn intrinsic_circuits(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no two intrinsically safe circuits lie near each other");
    let (parts, slabs) = (context.live_parts(), context.insulating_slabs());
    let tolerance_mm = tolerance_mm(context);
    let circuits = |part: &Live<'_>| -> BTreeSet<&str> {
        let known = context.circuits_of_potential.get(part.potential);
        known
            .into_iter()
            .flatten()
            .map(|circuit| circuit.tag.as_str())
            .collect()
    };
    let safe = |part: &Live<'_>| part.kind == CircuitKind::IntrinsicallySafe && !part.is_earth();
    near_pairs(&parts, reach_mm(context), |a, b| {
        if !safe(a) || !safe(b) {
            return;
        }
        let (of_a, of_b) = (circuits(a), circuits(b));
        // A potential without a circuit is that of a spare terminal or an unused core: always separate,
        // as nothing is common to no circuits and any.
        if !of_a.is_disjoint(&of_b) {
            return;
        }
        if !a.potential.is_empty() && a.potential == b.potential {
            return;
        }
        let measured_mm =
            certified_mm(a, b).unwrap_or_else(|| through_air_mm(a, b, &slabs) - tolerance_mm);
        cases.at_least(
            &[a.owner, b.owner],
            measured_mm,
            SEPARATE_CIRCUITS_MM,
            || {
                format!(
                    "distance of the separate intrinsically safe circuits on {} and {}",
                    a.owner, b.owner
                )
            },
        );
    });
}
