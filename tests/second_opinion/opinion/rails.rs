//! Terminals on rails: every division of the clusters over rails, every order of the rails.

use super::entries::deepest_reach_mm;
use super::mounted::{Mounted, SAME_MM};
use glandrail::catalogue::CircuitKind;
use glandrail::demand::{Demand, EntryUse, WireNeed, WireNeedEnd};
use glandrail::space::Face;
use glandrail::workshop::Workshop;
use itertools::Itertools;
use std::collections::{BTreeMap, BTreeSet};

/// Where rows of terminals may stand, seen from the front.
pub struct Bounds {
    pub left_mm: f64,
    pub right_mm: f64,
    pub bottom_mm: f64,
    pub top_mm: f64,
}

/// One row of terminals.
#[derive(Clone)]
pub struct Row {
    width_mm: f64,
    across_mm: f64,
    /// Wiring space of the largest conductor on it.
    free_mm: f64,
    ex_e: bool,
    safe: bool,
}

/// A way of standing the terminals on rails.
#[derive(Clone)]
pub struct Stack {
    pub rails: usize,
    /// Whether a rail carries both kinds of circuit.
    pub mixed: bool,
    /// Upper edge of the highest row.
    pub top_mm: f64,
    /// Free height that it needs above.
    pub free_above_mm: f64,
    /// The foremost point of rail, terminals and accessories.
    pub front_mm: f64,
    /// Kinds of circuit on the highest row.
    pub top_kinds: Vec<CircuitKind>,
}

/// The bounds for a set of walls that carry entries. `rows` holds each cluster on a rail of its own.
pub fn bounds(
    demand: &Demand<'_>,
    workshop: &Workshop,
    candidate: &Mounted<'_>,
    set: &BTreeSet<Face>,
    rows: &[Row],
) -> Bounds {
    let [width, height, _] = candidate.inner_mm;
    let side_mm = |wall: Face| {
        if !set.contains(&wall) {
            return workshop.rails.end_mm;
        }
        let space_mm = demand
            .entries
            .iter()
            .filter(|entry| {
                matches!(entry.purpose, EntryUse::Cable(_)) && entry.walls.contains(&wall)
            })
            .map(|entry| entry.wiring_space_mm)
            .fold(0.0, f64::max);
        workshop
            .rails
            .end_mm
            .max(deepest_reach_mm(demand, wall) + space_mm)
    };
    let end_mm = |wall: Face| {
        if set.contains(&wall) {
            deepest_reach_mm(demand, wall)
        } else {
            0.0
        }
    };
    // Rails lie on the plate, in the middle of their rows: a row reaches beyond the plate by what it
    // is higher than its rail, and its wiring space beyond that. The least of all rows counts.
    let rail_mm = demand.rail.map_or(0.0, |rail| rail.width_mm);
    let least = |of: &dyn Fn(&Row) -> f64| rows.iter().map(of).fold(f64::INFINITY, f64::min);
    let beyond_mm = least(&|row| (row.across_mm - rail_mm) / 2.0) + least(&|row| row.free_mm);
    let plate = &candidate.plate;
    Bounds {
        left_mm: candidate.plate.u_mm.max(side_mm(Face::Left)),
        right_mm: candidate.plate.right_mm().min(width - side_mm(Face::Right)),
        bottom_mm: end_mm(Face::Bottom).max(plate.v_mm - beyond_mm),
        top_mm: (height - end_mm(Face::Top)).min(plate.top_mm() + beyond_mm),
    }
}

/// The rows of every division of the clusters over rails. They are the same for all candidates.
pub fn divisions(demand: &Demand<'_>, workshop: &Workshop) -> Vec<Vec<Row>> {
    let clusters: Vec<(usize, usize)> = demand
        .strips
        .iter()
        .enumerate()
        .flat_map(|(strip, need)| (0..need.clusters.len()).map(move |cluster| (strip, cluster)))
        .collect();
    super::divisions(clusters.len())
        .iter()
        .flat_map(|division| {
            division
                .iter()
                .map(|members| members.iter().map(|member| clusters[*member]).collect_vec())
                .map(|members| rows(demand, workshop, &members))
                .multi_cartesian_product()
                .collect_vec()
        })
        .collect()
}

/// All ways of standing the terminals within the bounds and behind the lid.
pub fn stacks(
    demand: &Demand<'_>,
    workshop: &Workshop,
    candidate: &Mounted<'_>,
    bounds: &Bounds,
    divisions: &[Vec<Row>],
) -> Vec<Stack> {
    let mut found = Vec::new();
    for rows in divisions {
        if rows
            .iter()
            .any(|row| row.width_mm > bounds.right_mm - bounds.left_mm + SAME_MM)
        {
            continue;
        }
        // Rows that alone are too high are so in every order.
        let least_mm: f64 = rows.iter().map(|row| row.across_mm).sum();
        if least_mm > bounds.top_mm - bounds.bottom_mm {
            continue;
        }
        for order in rows.iter().permutations(rows.len()) {
            found.extend(stack(demand, workshop, candidate, bounds, &order));
        }
    }
    found
}

fn stack(
    demand: &Demand<'_>,
    workshop: &Workshop,
    candidate: &Mounted<'_>,
    bounds: &Bounds,
    upwards: &[&Row],
) -> Option<Stack> {
    let rail = demand.rail?;
    // A row with intrinsically safe terminals lies above every other row with Ex e terminals.
    for [lower, upper] in upwards.iter().array_combinations() {
        if lower.safe && upper.ex_e {
            return None;
        }
    }
    let separation_mm = workshop.distances.intrinsic_separation_mm;
    let mut top_mm = bounds.bottom_mm;
    let mut below: Option<&Row> = None;
    for row in upwards {
        let mut free_mm = row.free_mm;
        if let Some(below) = below {
            free_mm = free_mm.max(below.free_mm);
            if (below.ex_e && row.safe) || (below.safe && row.ex_e) {
                free_mm = free_mm.max(separation_mm);
            }
        }
        top_mm += free_mm + row.across_mm;
        below = Some(row);
    }
    let highest = below?;
    let front_mm = candidate.enclosure.plate.standoff_mm + rail.height_mm + highest_mm(demand);
    let holds = top_mm + highest.free_mm <= bounds.top_mm + SAME_MM
        && front_mm + workshop.rails.lid_clearance_mm <= candidate.depth_mm() + SAME_MM;
    holds.then(|| Stack {
        rails: upwards.len(),
        mixed: upwards.iter().any(|row| row.ex_e && row.safe),
        top_mm,
        free_above_mm: highest.free_mm,
        front_mm,
        top_kinds: [
            (highest.ex_e, CircuitKind::ExE),
            (highest.safe, CircuitKind::IntrinsicallySafe),
        ]
        .into_iter()
        .filter(|(there, _)| *there)
        .map(|(_, kind)| kind)
        .collect(),
    })
}

/// The highest terminal or accessory over the rail. A partition counts where there are several strips, or
/// unlike terminals that need one,
/// whether or not two of them share a rail.
fn highest_mm(demand: &Demand<'_>) -> f64 {
    let terminals = demand
        .terminals
        .iter()
        .map(|terminal| terminal.part.height_mm);
    let plates = demand.end_plates.values().copied();
    let divided = demand.strips.len() > 1 || !demand.divided.is_empty();
    let partition = demand.partition.filter(|_| divided);
    let accessories = plates.chain(demand.end_stop).chain(partition);
    terminals
        .chain(accessories.map(|part| part.height_mm))
        .fold(0.0, f64::max)
}

/// The rows that clusters can make: (index of the strip, index of the cluster) each. Earth terminals
/// stand beside intrinsically safe ones with a partition, or apart from them like Ex e terminals.
fn rows(demand: &Demand<'_>, workshop: &Workshop, members: &[(usize, usize)]) -> Vec<Row> {
    let close = row(demand, workshop, members, false);
    let earth = members.iter().any(|(strip, _)| demand.strips[*strip].earth);
    if earth && close.safe && !close.ex_e {
        vec![row(demand, workshop, members, true), close]
    } else {
        vec![close]
    }
}

/// One row; `apart`: its earth terminals and its others are apart by the separation of the kinds.
fn row(demand: &Demand<'_>, workshop: &Workshop, members: &[(usize, usize)], apart: bool) -> Row {
    let stop = demand
        .end_stop
        .expect("a demand with terminals has an end stop");
    let rail = demand.rail.expect("a demand with terminals has a rail");
    let mut row = Row {
        width_mm: 2.0 * stop.width_mm,
        across_mm: rail.width_mm.max(stop.length_mm),
        free_mm: workshop.wiring_space[0].space_mm,
        ex_e: false,
        safe: false,
    };
    let mut by_part: BTreeMap<(usize, &str), f64> = BTreeMap::new();
    for (strip_index, cluster) in members {
        let strip = &demand.strips[*strip_index];
        if !strip.earth {
            row.ex_e |= strip.kind == CircuitKind::ExE;
            row.safe |= strip.kind == CircuitKind::IntrinsicallySafe;
        }
        for terminal in &strip.clusters[*cluster].terminals {
            let part = demand.terminals[*terminal].part;
            row.width_mm += part.width_mm;
            row.across_mm = row.across_mm.max(part.length_mm);
            row.free_mm = row.free_mm.max(free_mm(demand, workshop, *terminal));
            if part.open_side {
                let plate = demand.end_plates[part.id.as_str()];
                by_part.insert((*strip_index, &part.id), plate.width_mm);
                row.across_mm = row.across_mm.max(plate.length_mm);
            }
        }
    }
    row.width_mm += by_part.values().sum::<f64>();
    // A partition is counted for a part that may be followed by one from which only it keeps it apart.
    let parts = members.iter().flat_map(|(strip, cluster)| {
        let terminals = &demand.strips[*strip].clusters[*cluster].terminals;
        terminals
            .iter()
            .map(|index| (*strip, demand.terminals[*index].part.id.as_str()))
    });
    for (strip, part) in parts.unique() {
        let mut pairs = demand.divided.iter();
        if pairs.any(|(of, first, _)| (*of, *first) == (strip, part)) {
            let partition = demand.partition.expect("what is divided has a partition");
            row.width_mm += partition.width_mm;
            row.across_mm = row.across_mm.max(partition.length_mm);
        }
    }
    let strips = members.iter().map(|(strip, _)| strip).unique().count();
    // Where the kinds meet, two end stops close the rows within the separation: no partition stands there.
    row.ex_e |= apart;
    let meeting = usize::from(row.ex_e && row.safe);
    if meeting == 1 {
        row.width_mm += workshop
            .distances
            .intrinsic_separation_mm
            .max(2.0 * stop.width_mm);
    }
    let partitions = strips.saturating_sub(1 + meeting);
    if partitions > 0 {
        let partition = demand
            .partition
            .expect("a demand with several strips has a partition");
        row.across_mm = row.across_mm.max(partition.length_mm);
        row.width_mm += partitions as f64 * partition.width_mm;
    }
    row
}

/// The wiring space of the largest conductor on a terminal. A spare one counts like those of its part
/// in its strip: a conductor like theirs will be led to it one day.
fn free_mm(demand: &Demand<'_>, workshop: &Workshop, terminal: usize) -> f64 {
    let need = &demand.terminals[terminal];
    let counts = |index: usize| {
        let other = &demand.terminals[index];
        index == terminal
            || (need.spare && other.strip == need.strip && other.part.id == need.part.id)
    };
    let on_it = |wire: &&WireNeed| {
        [&wire.from, &wire.to]
            .into_iter()
            .any(|end| matches!(end, WireNeedEnd::Terminal { terminal: on, .. } if counts(*on)))
    };
    demand
        .wires
        .iter()
        .filter(on_it)
        .filter_map(|wire| workshop.wiring_space_mm(wire.section.mm2))
        .fold(0.0, f64::max)
}
