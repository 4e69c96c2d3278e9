//! From a demand to the problem of its terminals on rails. Decides nothing.

use super::problem::{ClusterType, PartGroup, RailProblem, SeparatorRoom, StripClass};
use crate::arrangement::Limits;
use crate::catalogue::CircuitKind;
use crate::demand::Demand;
use crate::workshop::Workshop;

/// States the problem for a demand.
pub fn rail_problem(demand: &Demand<'_>, workshop: &Workshop, limits: &Limits) -> RailProblem {
    let wiring_spaces = wiring_spaces(demand, workshop);
    let mut types: Vec<ClusterType> = Vec::new();
    let mut groups: Vec<PartGroup> = Vec::new();
    let mut clusters: Vec<Vec<(usize, f64)>> = vec![Vec::new(); demand.strips.len()];
    for (strip_index, strip) in demand.strips.iter().enumerate() {
        for (cluster_index, cluster) in strip.clusters.iter().enumerate() {
            let Some(part) = cluster
                .terminals
                .first()
                .map(|terminal| demand.terminals[*terminal].part)
            else {
                continue;
            };
            let end_plate = demand
                .end_plates
                .get(part.id.as_str())
                .filter(|_| part.open_side);
            let space_mm = cluster
                .terminals
                .iter()
                .map(|terminal| wiring_spaces[*terminal])
                .fold(0.0, f64::max);
            let group = match groups
                .iter()
                .position(|group| group.strip == strip_index && group.part == part.id)
            {
                Some(group) => group,
                None => {
                    groups.push(PartGroup {
                        strip: strip_index,
                        part: part.id.clone(),
                        length_mm: part
                            .length_mm
                            .max(end_plate.map_or(0.0, |plate| plate.length_mm)),
                        wiring_space_mm: 0.0,
                        end_plate_mm: end_plate.map_or(0.0, |plate| plate.width_mm),
                    });
                    groups.len() - 1
                }
            };
            groups[group].wiring_space_mm = groups[group].wiring_space_mm.max(space_mm);
            let width_mm = part.width_mm * cluster.terminals.len() as f64;
            clusters[strip_index].push((group, width_mm));
            match types
                .iter_mut()
                .find(|known| known.group == group && (known.width_mm - width_mm).abs() < 1e-9)
            {
                Some(known) => known.members.push(cluster_index),
                None => types.push(ClusterType {
                    strip: strip_index,
                    group,
                    width_mm,
                    members: vec![cluster_index],
                }),
            }
        }
    }
    for group in &mut groups {
        let divided = demand
            .divided
            .iter()
            .any(|(strip, first, _)| *strip == group.strip && *first == group.part);
        if let Some(partition) = demand.partition.filter(|_| divided) {
            group.end_plate_mm += partition.width_mm;
            group.length_mm = group.length_mm.max(partition.length_mm);
        }
    }
    let least_space_mm = workshop
        .wiring_space
        .first()
        .map_or(0.0, |step| step.space_mm);
    for group in &mut groups {
        group.wiring_space_mm = group.wiring_space_mm.max(least_space_mm);
    }
    let strips = demand
        .strips
        .iter()
        .map(|strip| match (strip.earth, strip.kind) {
            (true, _) => StripClass::Earth,
            (false, CircuitKind::IntrinsicallySafe) => StripClass::IntrinsicallySafe,
            (false, CircuitKind::ExE) => StripClass::Other,
        })
        .collect();
    let end_stop = demand.end_stop;
    RailProblem {
        types,
        groups,
        strips,
        clusters,
        end_stop_mm: end_stop.map_or(0.0, |part| part.width_mm),
        partition_mm: demand.partition.map_or(0.0, |part| part.width_mm),
        partition_length_mm: demand.partition.map_or(0.0, |part| part.length_mm),
        base_length_mm: end_stop
            .map_or(0.0, |part| part.length_mm)
            .max(demand.rail.map_or(0.0, |rail| rail.width_mm)),
        separation_mm: limits.intrinsic_separation_mm,
        separator: demand.separator.map(|separator| SeparatorRoom {
            gap_mm: separator.gap_mm,
            length_mm: separator.part.length_mm,
            width_mm: separator.part.width_mm,
            height_mm: separator.part.height_mm,
        }),
    }
}

/// The wiring space of each terminal's largest conductor; a section above the table takes the largest
/// step, and the demand has refused it before.
fn wiring_spaces(demand: &Demand<'_>, workshop: &Workshop) -> Vec<f64> {
    let mut spaces = vec![0.0; demand.terminals.len()];
    for wire in &demand.wires {
        for end in [&wire.from, &wire.to] {
            if let crate::demand::WireNeedEnd::Terminal { terminal, .. } = end {
                let space_mm: f64 = workshop
                    .wiring_space_mm(wire.section.mm2)
                    .unwrap_or(f64::INFINITY);
                spaces[*terminal] = space_mm.max(spaces[*terminal]);
            }
        }
    }
    spaces
}
