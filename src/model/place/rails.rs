//! Positions of rails, terminals and their accessories.

use super::{TerminalIndex, clean, clean_block};
use crate::arrangement::{
    Clamp, EnclosureRecord, LivePart, PlacedAccessory, PlacedRail, PlacedTerminal, Side,
};
use crate::catalogue::{Accessory, AccessoryKind, CircuitKind};
use crate::demand::{Demand, TerminalNeed};
use crate::model::decide::Decided;
use crate::model::rails::{RailKind, RailPlan};
use crate::space::{Block, Point, down_to_tenth};
use std::collections::BTreeMap;

/// What stands on rails.
pub(super) struct Placed {
    pub rails: Vec<PlacedRail>,
    pub terminals: Vec<PlacedTerminal>,
    pub accessories: Vec<PlacedAccessory>,
    pub terminal_index: TerminalIndex,
}

/// Where one rail's row lies.
struct Row<'a> {
    rail: &'a PlacedRail,
    centre_y_mm: f64,
    /// Front face of the rail.
    front_z_mm: f64,
}

/// Places rails from the lowest upwards; what height is left over is spread evenly. The plans are those decided,
/// their strips in any order.
pub(super) fn place(
    demand: &Demand<'_>,
    mounted: &EnclosureRecord,
    decided: &Decided,
    plans: &[RailPlan],
) -> Result<Placed, String> {
    let mut placed = Placed {
        rails: Vec::new(),
        terminals: Vec::new(),
        accessories: Vec::new(),
        terminal_index: BTreeMap::new(),
    };
    let Some(part) = demand.rail else {
        return Ok(placed);
    };
    let bounds = decided.bounds;
    let slots = decided.slots_mm.clone();
    let taken_mm: f64 =
        slots.iter().sum::<f64>() + plans.iter().map(|rail| rail.row_mm).sum::<f64>();
    let spare_mm = bounds.top_mm - bounds.bottom_mm - taken_mm;
    if spare_mm < -1e-6 {
        return Err(format!(
            "rows of terminals overrun their bounds by {} mm",
            -spare_mm
        ));
    }
    let extra_mm = down_to_tenth(spare_mm.max(0.0) / slots.len().max(1) as f64);
    let left_mm = bounds.left_mm.ceil();
    let length_mm = (bounds.right_mm - left_mm)
        .floor()
        .min(part.stock_length_mm);
    let mut y_mm = bounds.bottom_mm;
    let mut rows = Vec::new();
    for (index, plan) in plans.iter().enumerate() {
        y_mm += slots[index] + extra_mm;
        let centre_y_mm = y_mm + plan.row_mm / 2.0;
        y_mm += plan.row_mm;
        let back_mm = mounted.plate.standoff_mm;
        placed.rails.push(PlacedRail {
            id: format!("R{}", index + 1),
            part: part.id.clone(),
            profile: part.profile.clone(),
            length_mm,
            body: clean_block(Block::new(
                Point::new(left_mm, centre_y_mm - part.width_mm / 2.0, back_mm),
                Point::new(
                    left_mm + length_mm,
                    centre_y_mm + part.width_mm / 2.0,
                    back_mm + part.height_mm,
                ),
            )),
            mass_kg: part.mass_kg_per_m * length_mm / 1000.0,
            price: part.price_per_m * length_mm / 1000.0,
        });
        rows.push((plan, centre_y_mm));
    }
    let rails = placed.rails.clone();
    for ((plan, centre_y_mm), rail) in rows.iter().zip(&rails) {
        let row = Row {
            rail,
            centre_y_mm: *centre_y_mm,
            front_z_mm: rail.body.max.z_mm,
        };
        fill_row(demand, plan, &row, &mut placed)?;
    }
    number_terminals(demand, &mut placed);
    Ok(placed)
}

/// Puts the parts of one rail side by side, from left to right.
fn fill_row(
    demand: &Demand<'_>,
    plan: &RailPlan,
    row: &Row<'_>,
    placed: &mut Placed,
) -> Result<(), String> {
    let Some(end_stop) = demand.end_stop else {
        return Ok(());
    };
    let (left, right): (Vec<_>, Vec<_>) = plan.clusters.iter().copied().partition(|(strip, _)| {
        plan.kind != RailKind::Mixed || demand.strips[*strip].kind != CircuitKind::IntrinsicallySafe
    });
    let start_mm = row.rail.body.min.x_mm;
    let end_mm = put_run(demand, &left, end_stop, start_mm, row, placed)?;
    let mut free_from_mm = end_mm;
    if !right.is_empty() {
        // The intrinsically safe run ends at the rail's end, as far from the other one as can be.
        let length_mm = run_length_mm(demand, &right, end_stop);
        let from_mm = row.rail.body.max.x_mm - length_mm;
        if from_mm < end_mm - 1e-6 {
            return Err(format!("the two runs of rail {} overlap", row.rail.id));
        }
        if let Some(separator) = demand.separator.filter(|_| !left.is_empty()) {
            // Midway between the end stops, which are alike, and so midway between the terminals.
            let width_mm = separator.part.width_mm;
            if from_mm - end_mm < width_mm - 1e-6 {
                return Err(format!("no room for the partition of rail {}", row.rail.id));
            }
            let middle_mm = (end_mm + from_mm - width_mm) / 2.0;
            put_accessory(separator.part, clean(middle_mm), row, placed);
        }
        free_from_mm = put_run(demand, &right, end_stop, from_mm, row, placed)?;
    }
    if free_from_mm > row.rail.body.max.x_mm + 1e-6 {
        return Err(format!(
            "rail {} is too short for its terminals",
            row.rail.id
        ));
    }
    Ok(())
}

fn run_length_mm(demand: &Demand<'_>, clusters: &[(usize, usize)], end_stop: &Accessory) -> f64 {
    let mut scratch = Placed {
        rails: Vec::new(),
        terminals: Vec::new(),
        accessories: Vec::new(),
        terminal_index: BTreeMap::new(),
    };
    let rail = PlacedRail {
        id: String::new(),
        part: String::new(),
        profile: String::new(),
        length_mm: 0.0,
        body: Block::new(Point::new(0.0, 0.0, 0.0), Point::new(0.0, 0.0, 0.0)),
        mass_kg: 0.0,
        price: 0.0,
    };
    let row = Row {
        rail: &rail,
        centre_y_mm: 0.0,
        front_z_mm: 0.0,
    };
    put_run(demand, clusters, end_stop, 0.0, &row, &mut scratch).unwrap_or(f64::INFINITY)
}

/// One run between two end stops; returns where it ends.
fn put_run(
    demand: &Demand<'_>,
    clusters: &[(usize, usize)],
    end_stop: &Accessory,
    start_mm: f64,
    row: &Row<'_>,
    placed: &mut Placed,
) -> Result<f64, String> {
    let mut x_mm = put_accessory(end_stop, start_mm, row, placed);
    let mut last: Option<(usize, &str)> = None;
    for (strip, cluster) in clusters {
        let terminals = &demand.strips[*strip].clusters[*cluster].terminals;
        let Some(part) = terminals
            .first()
            .map(|terminal| demand.terminals[*terminal].part)
        else {
            continue;
        };
        if let Some((last_strip, last_part)) = last
            && (last_strip, last_part) != (*strip, part.id.as_str())
        {
            x_mm = close_group(demand, last_part, x_mm, row, placed);
            let pair = (*strip, last_part, part.id.as_str());
            if last_strip != *strip || demand.divided.contains(&pair) {
                let partition = demand
                    .partition
                    .ok_or("no partition for neighbouring strips")?;
                x_mm = put_accessory(partition, x_mm, row, placed);
            }
        }
        last = Some((*strip, &part.id));
        for terminal in terminals {
            placed
                .terminal_index
                .insert(*terminal, placed.terminals.len());
            placed
                .terminals
                .push(terminal_at(demand, &demand.terminals[*terminal], x_mm, row));
            x_mm = clean(x_mm + part.width_mm);
        }
    }
    if let Some((_, part)) = last {
        x_mm = close_group(demand, part, x_mm, row, placed);
    }
    Ok(put_accessory(end_stop, x_mm, row, placed))
}

/// The end plate on the open side of the last terminal of a group.
fn close_group(
    demand: &Demand<'_>,
    part: &str,
    x_mm: f64,
    row: &Row<'_>,
    placed: &mut Placed,
) -> f64 {
    match demand.end_plates.get(part) {
        Some(plate) => put_accessory(plate, x_mm, row, placed),
        None => x_mm,
    }
}

fn put_accessory(part: &Accessory, x_mm: f64, row: &Row<'_>, placed: &mut Placed) -> f64 {
    let letter = match part.kind {
        AccessoryKind::EndStop => "S",
        AccessoryKind::EndPlate => "P",
        _ => "T",
    };
    let number = placed
        .accessories
        .iter()
        .filter(|known| known.kind == part.kind)
        .count()
        + 1;
    placed.accessories.push(PlacedAccessory {
        id: format!("{letter}{number}"),
        part: part.id.clone(),
        description: part.description.clone(),
        kind: part.kind,
        rail: row.rail.id.clone(),
        material: Some(part.material),
        body: body(x_mm, part.width_mm, part.length_mm, part.height_mm, row),
        certificate: part.certificate.clone(),
        mass_kg: part.mass_kg,
        price: part.price,
    });
    clean(x_mm + part.width_mm)
}

fn body(x_mm: f64, width_mm: f64, length_mm: f64, height_mm: f64, row: &Row<'_>) -> Block {
    clean_block(Block::new(
        Point::new(x_mm, row.centre_y_mm - length_mm / 2.0, row.front_z_mm),
        Point::new(
            x_mm + width_mm,
            row.centre_y_mm + length_mm / 2.0,
            row.front_z_mm + height_mm,
        ),
    ))
}

fn terminal_at(
    demand: &Demand<'_>,
    need: &TerminalNeed<'_>,
    x_mm: f64,
    row: &Row<'_>,
) -> PlacedTerminal {
    let part = need.part;
    let strip = &demand.strips[need.strip];
    let body = body(x_mm, part.width_mm, part.length_mm, part.height_mm, row);
    let inset = part.live;
    let levels = need.levels.len().max(1);
    let (low_mm, high_mm) = (body.min.z_mm + inset.foot_mm, body.max.z_mm - inset.top_mm);
    let level_mm = (high_mm - low_mm) / levels as f64;
    let live = need
        .levels
        .iter()
        .enumerate()
        .map(|(level, carried)| LivePart {
            potential: carried.potential.clone(),
            block: clean_block(Block::new(
                Point::new(
                    body.min.x_mm + inset.sides_mm,
                    body.min.y_mm + inset.ends_mm,
                    low_mm + level_mm * level as f64,
                ),
                Point::new(
                    body.max.x_mm - inset.sides_mm,
                    body.max.y_mm - inset.ends_mm,
                    low_mm + level_mm * (level + 1) as f64,
                ),
            )),
        })
        .collect();
    let clamps = (0..levels as u32)
        .flat_map(|level| {
            [Side::Upper, Side::Lower].map(|side| Clamp {
                level,
                side,
                wires: Vec::new(),
            })
        })
        .collect();
    PlacedTerminal {
        id: String::new(),
        strip: strip.name.clone(),
        number: 0,
        marking: need.marking.clone(),
        part: part.id.clone(),
        description: part.description.clone(),
        rail: row.rail.id.clone(),
        function: part.function,
        kind: strip.kind,
        part_circuits: part.circuits.clone(),
        spare: need.spare,
        body,
        live,
        clamps,
        working_voltage_v: need
            .levels
            .iter()
            .map(|level| level.voltage_v)
            .fold(0.0, f64::max),
        current_a: need
            .levels
            .iter()
            .map(|level| level.current_a)
            .fold(0.0, f64::max),
        clamp_range: part.clamp,
        conductors_per_clamp: part.conductors_per_clamp,
        rated_voltage_v: part.rated_voltage_v,
        ratings: part.ratings.clone(),
        resistance_mohm: part.resistance_mohm,
        tracking_index: part.tracking_index,
        neighbour_distance_mm: part.neighbour_distance_mm,
        rise_at_rated_k: part.rise_at_rated_k,
        rail_profiles: part.rails.clone(),
        open_side: part.open_side,
        colour: part.colour.clone(),
        spring_clamp: part.spring_clamp,
        torque_nm: part.torque_nm,
        strip_mm: part.strip_mm,
        certificate: part.certificate.clone(),
        mass_kg: part.mass_kg,
        price: part.price,
    }
}

/// Numbers the terminals of each strip from the highest rail down, from left to right.
fn number_terminals(demand: &Demand<'_>, placed: &mut Placed) {
    let mut order: Vec<usize> = (0..placed.terminals.len()).collect();
    order.sort_by(|a, b| {
        let (a, b) = (&placed.terminals[*a].body, &placed.terminals[*b].body);
        b.centre()
            .y_mm
            .total_cmp(&a.centre().y_mm)
            .then(a.min.x_mm.total_cmp(&b.min.x_mm))
    });
    let mut next: BTreeMap<String, u32> = demand
        .strips
        .iter()
        .map(|strip| (strip.name.clone(), 0))
        .collect();
    for index in order {
        let terminal = &mut placed.terminals[index];
        let number = next.entry(terminal.strip.clone()).or_insert(0);
        *number += 1;
        terminal.number = *number;
        terminal.id = format!("{}:{}", terminal.strip, number);
    }
}
