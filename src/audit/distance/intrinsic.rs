//! Intrinsically safe circuits apart from other circuits and from each other.

use super::{certified_mm, near_pairs, reach_mm, through_air_mm, tolerance_mm};
use crate::audit::case::{Cases, Rule, figure_text};
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
        requires: "bare parts of intrinsically safe circuits and of others (earth not counted) lie 50 mm apart or what the workshop asks beyond, in a straight line or round a partition of at least 0.9 mm that is known to insulate; or a partition between them, of which then the widest gap is measured, reaches within 1.5 mm of walls, lid and plate",
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

/// A partition that may shield, with its widest gap to walls, lid and plate.
struct Shield<'a> {
    id: &'a str,
    body: &'a Block,
    gap_mm: f64,
}

impl Shield<'_> {
    /// Whether no way leads round it: it closes the cross-section of the room but for the permitted gap.
    fn closes_the_room(&self) -> bool {
        self.gap_mm <= PARTITION_GAP_MM
    }

    /// Whether it stands between two bare parts.
    fn is_between(&self, one: &Block, other: &Block) -> bool {
        let (left, right) = if one.max.x_mm <= other.min.x_mm {
            (one, other)
        } else {
            (other, one)
        };
        left.max.x_mm <= self.body.min.x_mm && self.body.max.x_mm <= right.min.x_mm
    }
}

/// Insulating partitions that are thick enough.
fn shields<'a>(context: &Context<'a>) -> Vec<Shield<'a>> {
    let interior = context.interior();
    let plate_mm = context.arrangement.enclosure.plate.standoff_mm;
    let accessories = context.arrangement.accessories.iter();
    accessories
        .filter(|part| part.kind == AccessoryKind::Partition && !may_conduct(part.material))
        .filter(|part| part.body.max.x_mm - part.body.min.x_mm >= PARTITION_THICKNESS_MM)
        .map(|part| {
            let gaps = [
                part.body.min.y_mm,
                interior.height_mm - part.body.max.y_mm,
                interior.depth_mm - part.body.max.z_mm,
                part.body.min.z_mm - plate_mm,
            ];
            Shield {
                id: &part.id,
                body: &part.body,
                gap_mm: gaps.into_iter().fold(f64::NEG_INFINITY, f64::max),
            }
        })
        .collect()
}

fn intrinsic_other(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("intrinsically safe and other circuits do not meet in this box");
    let parts = context.live_parts();
    let counted: Vec<&Live> = parts.iter().filter(|part| !part.is_earth()).collect();
    let of_kind = |kind: CircuitKind| counted.iter().filter(move |part| part.kind == kind);
    let required_mm = context
        .arrangement
        .limits
        .intrinsic_separation_mm
        .max(OTHER_CIRCUITS_MM);
    let shields = shields(context);
    for part in of_kind(CircuitKind::IntrinsicallySafe) {
        for other in of_kind(CircuitKind::ExE) {
            apart(part, other, required_mm, &shields, cases);
        }
    }
}

/// One pair: by the partition that shields it, else by the distance in a straight line or round a partition.
fn apart(
    part: &Live<'_>,
    other: &Live<'_>,
    required_mm: f64,
    shields: &[Shield<'_>],
    cases: &mut Cases,
) {
    let straight_mm = measure::distance_mm(part.block, other.block);
    let between = || {
        let all = shields.iter();
        all.filter(|shield| shield.is_between(part.block, other.block))
    };
    let closing = between().find(|shield| shield.closes_the_room());
    if let Some(shield) = closing.filter(|_| straight_mm < required_mm) {
        let subject = [part.owner, other.owner, shield.id];
        return cases.at_most(&subject, shield.gap_mm, PARTITION_GAP_MM, || {
            format!(
                "partition {} shields the intrinsically safe {} from {}, {} mm apart: its widest gap to walls, lid and \
                 plate",
                shield.id,
                part.owner,
                other.owner,
                figure_text(straight_mm)
            )
        });
    }
    let measured_mm = between()
        .map(|shield| measure::around_mm(part.block, other.block, shield.body))
        .fold(straight_mm, f64::max);
    cases.at_least(&[part.owner, other.owner], measured_mm, required_mm, || {
        format!(
            "distance of the intrinsically safe {} and {}",
            part.owner, other.owner
        )
    });
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
