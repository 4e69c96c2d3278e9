//! Conductors from gland to clamp and from clamp to contact, with the side on which each enters.

use super::elements::live_block;
use super::{TerminalIndex, clean};
use crate::arrangement::{
    EnclosureRecord, EntryPurpose, LivePart, PlacedElement, PlacedEntry, PlacedTerminal, Side,
    Wire, WireEnd,
};
use crate::demand::{Demand, WireNeed, WireNeedEnd};
use crate::requirements::RequirementList;
use crate::space::Point;
use std::collections::{BTreeMap, BTreeSet};

/// What the wires run between.
pub(super) struct Ends<'a> {
    pub terminal_index: &'a TerminalIndex,
    /// Where conductors leave an entry, by the index of its cable in the list.
    pub entry_points: BTreeMap<usize, Point>,
    /// Where conductors end behind an element, by its index in the list.
    pub element_points: &'a BTreeMap<usize, Point>,
}

/// Connects everything; fills in the clamps' and points' lists of wires.
pub(super) fn connect(
    list: &RequirementList,
    demand: &Demand<'_>,
    mounted: &EnclosureRecord,
    terminals: &mut [PlacedTerminal],
    terminal_index: &TerminalIndex,
    entries: &[PlacedEntry],
    elements: &mut [PlacedElement],
) -> Vec<Wire> {
    let entry_points = entries
        .iter()
        .filter_map(|entry| match &entry.purpose {
            EntryPurpose::Cable(tag) => {
                let reach_mm = entry.part.envelope.reach_in_mm;
                let cable = list.cables.iter().position(|cable| cable.tag == *tag)?;
                Some((
                    cable,
                    mounted
                        .interior
                        .point(entry.wall, entry.u_mm, entry.v_mm, reach_mm),
                ))
            }
            _ => None,
        })
        .collect();
    let element_points = element_points(list, elements);
    let ends = Ends {
        terminal_index,
        entry_points,
        element_points: &element_points,
    };
    let turned = turned_strips(demand, &ends, terminals);
    let mut wires = Vec::new();
    for (index, need) in demand.wires.iter().enumerate() {
        let id = format!("w{}", index + 1);
        let ends_of = |end: &WireNeedEnd| wire_end(list, demand, &ends, terminals, &turned, end);
        let (from, to) = (ends_of(&need.from), ends_of(&need.to));
        let route_mm = clean(route_mm(demand, &ends, terminals, &turned, need));
        let wire = Wire {
            id: id.clone(),
            from,
            to,
            potential: need.potential.clone(),
            circuit: need.circuit.clone(),
            section_mm2: need.section.mm2,
            section: need.section.to_string(),
            build: need.build,
            current_a: need.current_a,
            heat_current_a: need.heat_current_a,
            heat_length_mm: mounted.interior.diagonal_mm(),
            route_mm,
        };
        attach(&wire, list, terminals, elements);
        wires.push(wire);
    }
    for element in elements.iter_mut() {
        let potentials: BTreeSet<String> = element
            .contacts
            .iter()
            .flat_map(|contact| &contact.points)
            .filter(|point| !point.wires.is_empty())
            .map(|point| point.potential.clone())
            .collect();
        if let Some(need) = demand
            .elements
            .iter()
            .find(|need| list.elements[need.index].tag == element.tag)
        {
            let block = live_block(need, element.body);
            element.live = potentials
                .into_iter()
                .map(|potential| LivePart { potential, block })
                .collect();
        }
    }
    wires
}

/// Where conductors end behind each element.
pub(super) fn element_points(
    list: &RequirementList,
    elements: &[PlacedElement],
) -> BTreeMap<usize, Point> {
    elements
        .iter()
        .filter_map(|element| {
            let centre = element.body.centre();
            let mut wanted = list.elements.iter();
            Some((
                wanted.position(|wanted| wanted.tag == element.tag)?,
                Point::new(centre.x_mm, centre.y_mm, element.body.min.z_mm),
            ))
        })
        .collect()
}

/// The strips whose conductors change sides because that is shorter in sum.
pub(super) fn turned_strips(
    demand: &Demand<'_>,
    ends: &Ends<'_>,
    terminals: &[PlacedTerminal],
) -> BTreeSet<usize> {
    let mut turned = BTreeSet::new();
    for strip in 0..demand.strips.len() {
        let on_strip = |end: &WireNeedEnd| matches!(end, WireNeedEnd::Terminal { terminal, .. } if demand.terminals[*terminal].strip == strip);
        let wires: Vec<&WireNeed> = demand
            .wires
            .iter()
            .filter(|wire| on_strip(&wire.from) || on_strip(&wire.to))
            .collect();
        let length = |turned: &BTreeSet<usize>| -> f64 {
            wires
                .iter()
                .map(|wire| route_mm(demand, ends, terminals, turned, wire))
                .sum()
        };
        let as_planned_mm = length(&BTreeSet::new());
        let changed_mm = length(&BTreeSet::from([strip]));
        if changed_mm < as_planned_mm - 1e-6 {
            turned.insert(strip);
        }
    }
    turned
}

fn side_of(demand: &Demand<'_>, turned: &BTreeSet<usize>, terminal: usize, side: Side) -> Side {
    if turned.contains(&demand.terminals[terminal].strip) {
        side.other()
    } else {
        side
    }
}

/// Length of the route along the axes: the wire leaves its clamp straight and turns square.
pub(super) fn route_mm(
    demand: &Demand<'_>,
    ends: &Ends<'_>,
    terminals: &[PlacedTerminal],
    turned: &BTreeSet<usize>,
    need: &WireNeed,
) -> f64 {
    let point = |end: &WireNeedEnd| -> Option<Point> {
        match end {
            WireNeedEnd::Core { cable, .. } => ends.entry_points.get(cable).copied(),
            WireNeedEnd::Contact { element, .. } => ends.element_points.get(element).copied(),
            WireNeedEnd::Terminal { terminal, side, .. } => {
                let body = terminals[ends.terminal_index[terminal]].body;
                let centre = body.centre();
                let y_mm = match side_of(demand, turned, *terminal, *side) {
                    Side::Upper => body.max.y_mm,
                    Side::Lower => body.min.y_mm,
                };
                Some(Point::new(centre.x_mm, y_mm, centre.z_mm))
            }
        }
    };
    match (point(&need.from), point(&need.to)) {
        (Some(a), Some(b)) => {
            (a.x_mm - b.x_mm).abs()
                + (a.y_mm - b.y_mm).abs()
                + (a.z_mm - b.z_mm).abs()
                + round_body_mm(demand, ends, terminals, turned, need)
        }
        _ => 0.0,
    }
}

/// Where a cable's conductor ends inside: the middle of its terminal, or behind its element.
pub(super) fn far_point(
    ends: &Ends<'_>,
    terminals: &[PlacedTerminal],
    need: &WireNeed,
) -> Option<Point> {
    [&need.from, &need.to]
        .into_iter()
        .find_map(|end| match end {
            WireNeedEnd::Core { .. } => None,
            WireNeedEnd::Contact { element, .. } => ends.element_points.get(element).copied(),
            WireNeedEnd::Terminal { terminal, .. } => {
                Some(terminals[ends.terminal_index[terminal]].body.centre())
            }
        })
}

/// A clamp on the far side of its terminal is reached round the row: once the terminal's length more.
fn round_body_mm(
    demand: &Demand<'_>,
    ends: &Ends<'_>,
    terminals: &[PlacedTerminal],
    turned: &BTreeSet<usize>,
    need: &WireNeed,
) -> f64 {
    let (terminal, side) = match (&need.from, &need.to) {
        (_, WireNeedEnd::Terminal { terminal, side, .. })
        | (WireNeedEnd::Terminal { terminal, side, .. }, _) => (*terminal, *side),
        _ => return 0.0,
    };
    let other_y_mm = match (&need.from, &need.to) {
        (WireNeedEnd::Core { cable, .. }, _) => {
            ends.entry_points.get(cable).map(|point| point.y_mm)
        }
        (_, WireNeedEnd::Contact { element, .. }) => {
            ends.element_points.get(element).map(|point| point.y_mm)
        }
        _ => None,
    };
    let body = terminals[ends.terminal_index[&terminal]].body;
    let Some(other_y_mm) = other_y_mm else {
        return 0.0;
    };
    let far = match side_of(demand, turned, terminal, side) {
        Side::Upper => other_y_mm < body.min.y_mm,
        Side::Lower => other_y_mm > body.max.y_mm,
    };
    if far { body.width_mm() } else { 0.0 }
}

fn wire_end(
    list: &RequirementList,
    demand: &Demand<'_>,
    ends: &Ends<'_>,
    terminals: &[PlacedTerminal],
    turned: &BTreeSet<usize>,
    end: &WireNeedEnd,
) -> WireEnd {
    match end {
        WireNeedEnd::Core { cable, core } => WireEnd::Core {
            cable: list.cables[*cable].tag.clone(),
            core: core.to_string(),
        },
        WireNeedEnd::Contact { element, point } => WireEnd::Contact {
            element: list.elements[*element].tag.clone(),
            point: point.clone(),
        },
        WireNeedEnd::Terminal {
            terminal,
            level,
            side,
        } => WireEnd::Terminal {
            terminal: terminals[ends.terminal_index[terminal]].id.clone(),
            level: *level,
            side: side_of(demand, turned, *terminal, *side),
        },
    }
}

/// Enters a wire at the clamps and points on which it ends.
fn attach(
    wire: &Wire,
    list: &RequirementList,
    terminals: &mut [PlacedTerminal],
    elements: &mut [PlacedElement],
) {
    for end in [&wire.from, &wire.to] {
        match end {
            WireEnd::Core { .. } => {}
            WireEnd::Terminal {
                terminal,
                level,
                side,
            } => {
                let clamps = terminals
                    .iter_mut()
                    .filter(|known| known.id == *terminal)
                    .flat_map(|known| &mut known.clamps);
                for clamp in clamps.filter(|clamp| clamp.level == *level && clamp.side == *side) {
                    clamp.wires.push(wire.id.clone());
                }
            }
            WireEnd::Contact { element, point } => {
                let voltage_v = list
                    .circuits
                    .iter()
                    .find(|circuit| circuit.tag == wire.circuit)
                    .map_or(0.0, |circuit| circuit.voltage_v);
                let contacts = elements
                    .iter_mut()
                    .filter(|known| known.tag == *element)
                    .flat_map(|known| &mut known.contacts);
                for known in contacts
                    .flat_map(|contact| &mut contact.points)
                    .filter(|known| known.name == *point)
                {
                    known.wires.push(wire.id.clone());
                    known.potential = wire.potential.clone();
                    known.working_voltage_v = known.working_voltage_v.max(voltage_v);
                    known.current_a = known.current_a.max(wire.current_a);
                }
            }
        }
    }
}
