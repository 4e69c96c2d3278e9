//! Schedules for the fitter: which core goes on which clamp, which cable through which entry.

use super::clamping::{given, torque_words};
use super::list::List;
use super::number::position;
use super::{number, tables};
use crate::arrangement::{Arrangement, EntryPurpose, PlacedTerminal, Side, Wire, WireEnd};

/// The end of a wire that is not under the named clamp, in words: `cable/core`, `element/point`, or the
/// id of a terminal.
pub(super) fn far_end(wire: &Wire, terminal: &str, level: u32, side: Side) -> String {
    let is_here = |end: &WireEnd| {
        matches!(end, WireEnd::Terminal { terminal: id, level: l, side: s }
            if id == terminal && *l == level && *s == side)
    };
    end_words(if is_here(&wire.from) {
        &wire.to
    } else {
        &wire.from
    })
}

/// An end of a wire in words.
pub(super) fn end_words(end: &WireEnd) -> String {
    match end {
        WireEnd::Core { cable, core } => format!("{cable}/{core}"),
        WireEnd::Terminal { terminal, .. } => terminal.clone(),
        WireEnd::Contact { element, point } => format!("{element}/{point}"),
    }
}

/// An end of a wire in words, with level and side of the clamp of a terminal.
pub(super) fn end_with_clamp(end: &WireEnd) -> String {
    match end {
        WireEnd::Terminal { level, side, .. } => {
            let side = match side {
                Side::Upper => "upper",
                Side::Lower => "lower",
            };
            let level = match level {
                0 => String::new(),
                level => format!(", level {level}"),
            };
            format!("{} {side}{level}", end_words(end))
        }
        _ => end_words(end),
    }
}

/// The terminal schedule as CSV: a line for each level of each terminal, by rail and from left to
/// right. Currents in A, sections in mm², torque in N m, stripping length in mm.
pub fn terminal_schedule(arrangement: &Arrangement) -> String {
    terminals(arrangement).csv()
}

pub(super) fn terminals(arrangement: &Arrangement) -> List {
    let mut rows = Vec::new();
    for terminal in &arrangement.terminals {
        let mut levels: Vec<u32> = terminal.clamps.iter().map(|clamp| clamp.level).collect();
        levels.sort_unstable();
        levels.dedup();
        for level in levels {
            rows.push(terminal_row(arrangement, terminal, level));
        }
    }
    List::new(
        "terminals",
        &[
            "strip",
            "#number",
            "#level",
            "rail",
            "part",
            "function",
            "marking",
            "lower_conductors",
            "#lower_section_mm2",
            "upper_conductors",
            "#upper_section_mm2",
            "circuit",
            "#current_a",
            "jumper",
            "#torque_of_clamps_nm",
            "#strip_mm",
            "spare",
        ],
        rows,
    )
}

fn terminal_row(arrangement: &Arrangement, terminal: &PlacedTerminal, level: u32) -> Vec<String> {
    let on_side = |side: Side| -> Vec<&Wire> {
        terminal
            .clamps
            .iter()
            .filter(|clamp| clamp.level == level && clamp.side == side)
            .flat_map(|clamp| &clamp.wires)
            .filter_map(|id| arrangement.wires.iter().find(|wire| wire.id == *id))
            .collect()
    };
    let ends = |side: Side| {
        let words: Vec<String> = on_side(side)
            .iter()
            .map(|wire| far_end(wire, &terminal.id, level, side))
            .collect();
        words.join(" + ")
    };
    let sections = |side: Side| {
        let words: Vec<String> = on_side(side)
            .iter()
            .map(|wire| number(wire.section_mm2, 3))
            .collect();
        words.join(" + ")
    };
    let mut circuits: Vec<&str> = [Side::Lower, Side::Upper]
        .into_iter()
        .flat_map(on_side)
        .map(|wire| wire.circuit.as_str())
        .filter(|circuit| !circuit.is_empty())
        .collect();
    circuits.sort_unstable();
    circuits.dedup();
    let jumpers: Vec<&str> = arrangement
        .jumpers
        .iter()
        .filter(|jumper| jumper.terminals.contains(&terminal.id))
        .map(|jumper| jumper.id.as_str())
        .collect();
    vec![
        terminal.strip.clone(),
        terminal.number.to_string(),
        level.to_string(),
        terminal.rail.clone(),
        terminal.part.clone(),
        terminal.function.words().into(),
        terminal.marking.clone(),
        ends(Side::Lower),
        sections(Side::Lower),
        ends(Side::Upper),
        sections(Side::Upper),
        circuits.join(" + "),
        number(terminal.current_a, 3),
        jumpers.join(" + "),
        torque_words(terminal.spring_clamp, terminal.torque_nm),
        given(terminal.strip_mm),
        if terminal.spare { "yes" } else { "no" }.into(),
    ]
}

/// The cable and gland schedule as CSV: a line for each entry, wall by wall; empty what the catalogue does not give.
/// `clamping_place_percent` says where in the gland's range the nominal diameter lies, 0 at its lower end.
pub fn cable_schedule(arrangement: &Arrangement) -> String {
    cables(arrangement).csv()
}

pub(super) fn cables(arrangement: &Arrangement) -> List {
    let rows: Vec<Vec<String>> = tables::entries_in_order(arrangement)
        .into_iter()
        .map(|entry| {
            let cable = match &entry.purpose {
                EntryPurpose::Cable(tag) => {
                    arrangement.cables.iter().find(|cable| cable.tag == *tag)
                }
                EntryPurpose::Spare | EntryPurpose::Breather => None,
            };
            let range = entry.part.clamping_mm;
            let place = match (cable, range) {
                (Some(cable), Some([least, most])) if most > least => {
                    number((cable.diameter_mm - least) / (most - least) * 100.0, 0)
                }
                _ => String::new(),
            };
            vec![
                tables::purpose_words(&entry.purpose),
                cable.map(|cable| cable.cores.clone()).unwrap_or_default(),
                cable
                    .map(|cable| cable.kind.words().to_string())
                    .unwrap_or_default(),
                cable
                    .map(|cable| number(cable.diameter_mm, 2))
                    .unwrap_or_default(),
                cable
                    .map(|cable| {
                        if cable.diameter_estimated {
                            "yes"
                        } else {
                            "no"
                        }
                        .to_string()
                    })
                    .unwrap_or_default(),
                end_of_range(cable.and_then(|cable| cable.under_armour_mm), 0),
                end_of_range(cable.and_then(|cable| cable.under_armour_mm), 1),
                entry.id.clone(),
                entry.wall.name().into(),
                position(entry.u_mm),
                position(entry.v_mm),
                number(entry.hole_mm, 2),
                tables::thread_words(&entry.thread),
                entry.part.id.clone(),
                entry.part.description.clone(),
                end_of_range(range, 0),
                end_of_range(range, 1),
                place,
                end_of_range(entry.part.under_armour_mm, 0),
                end_of_range(entry.part.under_armour_mm, 1),
                given(entry.part.torque_nm),
                given(entry.part.spanner_mm),
                entry
                    .earth_plate
                    .as_ref()
                    .map(|plate| plate.id.clone())
                    .unwrap_or_default(),
            ]
        })
        .collect();
    List::new(
        "cables and glands",
        &[
            "cable",
            "cores",
            "circuits",
            "#diameter_mm",
            "diameter_estimated",
            "#under_armour_least_mm",
            "#under_armour_most_mm",
            "entry",
            "wall",
            "#u_mm",
            "#v_mm",
            "#hole_mm",
            "thread",
            "part",
            "description",
            "#clamping_least_mm",
            "#clamping_most_mm",
            "#clamping_place_percent",
            "#clamping_under_armour_least_mm",
            "#clamping_under_armour_most_mm",
            "#torque_of_body_in_wall_nm",
            "#spanner_mm",
            "earth_plate",
        ],
        rows,
    )
}

/// The lower (0) or upper (1) end of a range, or nothing where there is none.
fn end_of_range(range: Option<[f64; 2]>, end: usize) -> String {
    optional(range.and_then(|range| range.get(end).copied()), 2)
}

/// A number, or nothing where it is unknown.
fn optional(value: Option<f64>, decimals: usize) -> String {
    value
        .map(|value| number(value, decimals))
        .unwrap_or_default()
}
