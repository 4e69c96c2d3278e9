//! Unlike terminals side by side: how far their bare parts lie apart, and what must stand between them.
//! Knows nothing of rails and enclosures.
//!
//! Equal neighbours have a certified distance. Unlike ones have the way through air and over surfaces:
//! straight, or round the end plate, the partition or the closed side of the next terminal. Where that
//! is not enough a partition follows the end plate; where it is not enough with a partition either, or
//! the material is unknown, the catalogue has no answer. Every pair that could meet is looked at, so that
//! the answer does not depend on which of them do.

use super::build::Builder;
use super::{Demand, StripNeed};
use crate::catalogue::{Accessory, CircuitKind, Terminal};
use crate::standards::MaterialGroup;
use crate::standards::iec_60079_7::{TRACKING_MATTERS_ABOVE_V, external_terminal_creepage_mm};
use crate::standards::iec_60079_11::{EARTHED_METAL_MM, SEPARATE_CIRCUITS_MM};
use itertools::Itertools;

/// Terminals of one part in one strip.
struct Group<'c> {
    strip: usize,
    part: &'c Terminal,
    voltage_v: f64,
}

/// A plate across the rail: extent along it, across it, and height over it.
#[derive(Clone, Copy)]
struct Plate {
    width_mm: f64,
    length_mm: f64,
    height_mm: f64,
}

impl Plate {
    fn of(part: &Accessory) -> Plate {
        Plate {
            width_mm: part.width_mm,
            length_mm: part.length_mm,
            height_mm: part.height_mm,
        }
    }

    /// The closed side of a terminal.
    fn side(part: &Terminal) -> Plate {
        Plate {
            width_mm: 0.0,
            length_mm: part.length_mm,
            height_mm: part.height_mm,
        }
    }
}

/// Settles between which unlike terminals of one strip a partition must stand, and refuses those that
/// no partition of the catalogue keeps apart.
pub(super) fn add_divisions(builder: &mut Builder<'_, '_>) {
    let groups = groups(&builder.demand);
    let mut missing: Vec<String> = Vec::new();
    for (first, second) in groups.iter().array_combinations().map(|[a, b]| (a, b)) {
        let demand = &builder.demand;
        let needed_mm = match needed_mm(demand, first, second) {
            Ok(Some(needed_mm)) => needed_mm + builder.workshop.distances.tolerance_mm,
            Ok(None) => continue,
            Err(text) => {
                missing.push(text);
                continue;
            }
        };
        let (one_strip, partition) = (first.strip == second.strip, demand.partition);
        if one_strip && way_mm(demand, first.part, second.part, None) >= needed_mm {
            continue;
        }
        let with_mm = way_mm(demand, first.part, second.part, partition);
        if partition.is_none() || with_mm < needed_mm {
            missing.push(format!(
                "a partition that keeps `{}` and `{}` {needed_mm:.1} mm apart with tolerance ({} V); {}",
                first.part.id,
                second.part.id,
                first.voltage_v.max(second.voltage_v),
                match partition {
                    Some(part) => format!("over `{}` the way is {with_mm:.1} mm", part.id),
                    None => "it has none that fits every terminal".to_string(),
                }
            ));
        } else if one_strip {
            let pair = (first.strip, first.part.id.as_str(), second.part.id.as_str());
            builder.demand.divided.insert(pair);
        }
    }
    missing.dedup();
    for text in missing {
        let place = &builder.list.wishes.place;
        let finding = place.error(
            "",
            "demand-no-accessory",
            format!("the catalogue lacks {text}"),
        );
        builder
            .refusals
            .push(finding.expected("a catalogue with all accessories of its terminals"));
    }
}

/// Parts by strip, in the order in which they stand on a rail.
fn groups<'c>(demand: &Demand<'c>) -> Vec<Group<'c>> {
    let mut groups: Vec<Group<'c>> = Vec::new();
    for (strip, need) in demand.strips.iter().enumerate() {
        for index in need.clusters.iter().flat_map(|cluster| &cluster.terminals) {
            let terminal = &demand.terminals[*index];
            let levels = terminal.levels.iter();
            let voltage_v = levels.map(|level| level.voltage_v).fold(0.0, f64::max);
            let known = groups
                .iter_mut()
                .find(|group| group.strip == strip && group.part.id == terminal.part.id);
            match known {
                Some(group) => group.voltage_v = group.voltage_v.max(voltage_v),
                None => groups.push(Group {
                    strip,
                    part: terminal.part,
                    voltage_v,
                }),
            }
        }
    }
    groups
}

/// How far bare parts of two groups must lie apart; `None` where another rule keeps them apart, or none
/// has to.
fn needed_mm(
    demand: &Demand<'_>,
    first: &Group<'_>,
    second: &Group<'_>,
) -> Result<Option<f64>, String> {
    let strips = [first.strip, second.strip].map(|strip| &demand.strips[strip]);
    let safe = |strip: &&StripNeed| strip.kind == CircuitKind::IntrinsicallySafe && !strip.earth;
    let earth = strips.iter().any(|strip| strip.earth);
    if strips.iter().all(|strip| strip.earth) {
        return Ok(None);
    }
    match strips.iter().filter(|strip| safe(strip)).count() {
        2 => return Ok(Some(SEPARATE_CIRCUITS_MM)),
        1 if earth => return Ok(Some(EARTHED_METAL_MM)),
        // Intrinsically safe and other circuits: the separation between rows and runs.
        1 => return Ok(None),
        _ => {}
    }
    let voltage_v = first.voltage_v.max(second.voltage_v);
    let group = if voltage_v <= TRACKING_MATTERS_ABOVE_V {
        MaterialGroup::I
    } else {
        let index_of = |part: &Terminal| {
            part.tracking_index
                .ok_or_else(|| format!("the tracking index of `{}`", part.id))
        };
        let index = index_of(first.part)?.min(index_of(second.part)?);
        MaterialGroup::from_cti(index).map_err(|error| {
            format!(
                "a material for `{}` beside `{}`: {error}",
                first.part.id, second.part.id
            )
        })?
    };
    external_terminal_creepage_mm(voltage_v, group)
        .map(Some)
        .map_err(|error| format!("terminals for {voltage_v} V: {error}"))
}

/// The way between the bare parts of two terminals that stand side by side, the first one to the left.
fn way_mm(
    demand: &Demand<'_>,
    left: &Terminal,
    right: &Terminal,
    partition: Option<&Accessory>,
) -> f64 {
    let mut plates: Vec<Plate> = Vec::new();
    if left.open_side {
        let plate = demand.end_plates.get(left.id.as_str());
        plates.extend(plate.map(|plate| Plate::of(plate)));
    } else {
        plates.push(Plate::side(left));
    }
    plates.extend(partition.map(Plate::of));
    plates.push(Plate::side(right));
    let total_mm: f64 = plates.iter().map(|plate| plate.width_mm).sum();
    let mut longest_mm = left.live.sides_mm + total_mm + right.live.sides_mm;
    let mut before_mm = left.live.sides_mm;
    for plate in &plates {
        let after_mm =
            total_mm + left.live.sides_mm - before_mm - plate.width_mm + right.live.sides_mm;
        // Over the top, under the foot, round either end: the shortest of them counts.
        let ways = [
            [left, right].map(|part| plate.height_mm - (part.height_mm - part.live.top_mm)),
            [left, right].map(|part| part.live.foot_mm),
            [left, right]
                .map(|part| plate.length_mm / 2.0 - (part.length_mm / 2.0 - part.live.ends_mm)),
        ];
        let round_mm = ways
            .into_iter()
            .map(|[up_mm, down_mm]| {
                before_mm.hypot(up_mm.max(0.0)) + plate.width_mm + after_mm.hypot(down_mm.max(0.0))
            })
            .fold(f64::INFINITY, f64::min);
        longest_mm = longest_mm.max(round_mm);
        before_mm += plate.width_mm;
    }
    longest_mm
}
