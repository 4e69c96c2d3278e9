//! The tables that stand on sheets: holes, rails, strips, elements. Words shared with the views.

use super::behind_lid::positions_words;
use super::drawing::{Column, Table};
use super::number::position;
use super::wiring::far_end;
use super::{fixed, number, tenth};
use crate::arrangement::{Arrangement, EntryPurpose, PlacedEntry, PlacedTerminal, Side};
use crate::catalogue::CircuitKind;
use crate::space::Face;
use crate::standards::threads::Thread;

/// A thread as it is written.
pub(super) fn thread_words(thread: &Thread) -> String {
    thread.to_string()
}

/// What an entry is for, in a word: the cable's tag, `spare` or `breather`.
pub(super) fn purpose_words(purpose: &EntryPurpose) -> String {
    match purpose {
        EntryPurpose::Cable(tag) => tag.clone(),
        EntryPurpose::Spare => "spare".into(),
        EntryPurpose::Breather => "breather".into(),
    }
}

/// The size of a hole in the lid: a diameter, or width by height.
pub(super) fn hole_words(hole_mm: [f64; 2]) -> String {
    let [width, height] = hole_mm;
    if (width - height).abs() < 1e-6 {
        format!("Ø{}", number(width, 2))
    } else {
        format!("{} × {}", number(width, 2), number(height, 2))
    }
}

/// Entries in the order in which they are drilled: wall by wall, within a wall as the arrangement has
/// them.
pub(super) fn entries_in_order(arrangement: &Arrangement) -> Vec<&PlacedEntry> {
    let mut entries: Vec<&PlacedEntry> = arrangement.entries.iter().collect();
    entries.sort_by_key(|entry| entry.wall.wall_index().unwrap_or(usize::MAX));
    entries
}

/// The holes in some of the walls.
pub(super) fn holes(arrangement: &Arrangement, walls: &[Face]) -> Table {
    let rows = entries_in_order(arrangement)
        .into_iter()
        .filter(|entry| walls.contains(&entry.wall))
        .map(|entry| {
            vec![
                entry.id.clone(),
                entry.wall.name().into(),
                position(entry.u_mm),
                position(entry.v_mm),
                number(entry.hole_mm, 2),
                thread_words(&entry.thread),
                entry.part.id.clone(),
                purpose_words(&entry.purpose),
            ]
        })
        .collect();
    Table {
        name: "holes".into(),
        title: "Holes in the walls (mm from the datum of each wall)".into(),
        columns: vec![
            Column::words("Hole"),
            Column::words("Wall"),
            Column::numbers("u"),
            Column::numbers("v"),
            Column::numbers("Ø"),
            Column::words("Thread"),
            Column::sentences("Part"),
            Column::sentences("Cable"),
        ],
        rows,
    }
}

/// The holes in the lid.
pub(super) fn lid_holes(arrangement: &Arrangement) -> Table {
    let rows = arrangement
        .elements
        .iter()
        .map(|element| {
            let mut colour = element.colour.clone();
            if let Some(background) = &element.background {
                colour.push_str(&format!(" on {background}"));
            }
            vec![
                element.tag.clone(),
                position(element.x_mm),
                position(element.y_mm),
                hole_words(element.hole_mm),
                element.kind.words().into(),
                positions_words(element),
                colour,
                element.label.clone(),
                element.part.clone(),
            ]
        })
        .collect();
    let table = Table {
        name: "lid-holes".into(),
        title: "Holes in the lid (mm from the datum)".into(),
        columns: vec![
            Column::words("Element"),
            Column::numbers("x"),
            Column::numbers("y"),
            Column::words("Hole"),
            Column::sentences("Kind"),
            Column::sentences("Positions"),
            Column::sentences("Colour"),
            Column::sentences("Label"),
            Column::sentences("Part"),
        ],
        rows,
    };
    without_empty_columns(table)
}

/// The table without columns that say nothing.
pub(super) fn without_empty_columns(table: Table) -> Table {
    let says = |index: &usize| {
        let mut cells = table.rows.iter().filter_map(|row| row.get(*index));
        cells.any(|cell| !cell.is_empty() && cell != "–")
    };
    let kept: Vec<usize> = (0..table.columns.len()).filter(says).collect();
    let rows = table.rows.iter().map(|row| {
        let cells = kept.iter().filter_map(|index| row.get(*index).cloned());
        cells.collect()
    });
    Table {
        rows: rows.collect(),
        columns: kept
            .iter()
            .filter_map(|index| table.columns.get(*index).cloned())
            .collect(),
        ..table
    }
}

/// The rails with cut length and position.
pub(super) fn rails(arrangement: &Arrangement) -> Table {
    let rows = arrangement
        .rails
        .iter()
        .map(|rail| {
            let free = arrangement.spare.free_terminals.get(&rail.id);
            vec![
                rail.id.clone(),
                rail.profile.clone(),
                tenth(rail.length_mm),
                fixed(rail.body.min.x_mm, 1),
                fixed((rail.body.min.y_mm + rail.body.max.y_mm) / 2.0, 1),
                rail.part.clone(),
                free.map(u32::to_string).unwrap_or_default(),
            ]
        })
        .collect();
    Table {
        name: "rails".into(),
        title: "Rails (mm; x of the left end, y of the middle)".into(),
        columns: vec![
            Column::words("Rail"),
            Column::words("Profile"),
            Column::numbers("Cut length"),
            Column::numbers("x"),
            Column::numbers("y"),
            Column::sentences("Part"),
            Column::numbers("Room for more"),
        ],
        rows,
    }
}

/// The depth stack, from the back wall to the lid.
pub(super) fn depths(arrangement: &Arrangement) -> Table {
    let mut rows: Vec<Vec<String>> = super::depth::levels(arrangement)
        .into_iter()
        .map(|level| {
            vec![
                level.words,
                fixed(level.from_mm, 1),
                fixed(level.to_mm, 1),
                fixed(level.to_mm - level.from_mm, 1),
            ]
        })
        .collect();
    for reaching in super::depth::reaching(arrangement) {
        rows.push(vec![
            format!(
                "{}, {} wall: axis {}, reaches {} mm in",
                reaching.names(),
                reaching.wall.name(),
                number(reaching.axis_mm(), 2),
                tenth(reaching.reach_mm)
            ),
            fixed(reaching.inside.min.z_mm, 1),
            fixed(reaching.inside.max.z_mm, 1),
            fixed(reaching.inside.max.z_mm - reaching.inside.min.z_mm, 1),
        ]);
    }
    let depth_mm = arrangement.enclosure.interior.depth_mm;
    rows.push(vec![
        "lid, inside".into(),
        fixed(depth_mm, 1),
        String::new(),
        String::new(),
    ]);
    if let Some(clearance_mm) = super::depth::least_clearance_mm(arrangement) {
        rows.push(vec![
            "least free depth before what stands on the rails".into(),
            String::new(),
            String::new(),
            fixed(clearance_mm, 1),
        ]);
    }
    Table {
        name: "depths".into(),
        title: "Depth stack (mm from the back wall)".into(),
        columns: vec![
            Column::sentences("Layer"),
            Column::numbers("From"),
            Column::numbers("To"),
            Column::numbers("Thick / free"),
        ],
        rows,
    }
}

/// The strips: which terminals of which part, from left to right.
pub(super) fn strips(arrangement: &Arrangement) -> Table {
    let rows = runs(arrangement)
        .into_iter()
        .map(|run| {
            let numbers = if run.first == run.last {
                run.first.to_string()
            } else {
                format!("{} – {}", run.first, run.last)
            };
            vec![
                run.strip.to_string(),
                numbers,
                run.count.to_string(),
                run.part.to_string(),
                run.rail.to_string(),
                run.group.replace('_', " "),
                run.kind.words().into(),
            ]
        })
        .collect();
    Table {
        name: "strips".into(),
        title: "Terminal strips, from left to right".into(),
        columns: vec![
            Column::words("Strip"),
            Column::words("Terminals"),
            Column::numbers("Quantity"),
            Column::sentences("Part"),
            Column::words("Rail"),
            Column::sentences("Group"),
            Column::words("Circuits"),
        ],
        rows,
    }
}

/// The named terminals with what comes to their clamps and the circuit they serve, in the order named.
pub(super) fn terminals(arrangement: &Arrangement, ids: &[String]) -> Table {
    let ends = |terminal: &PlacedTerminal, side: Side| -> (Vec<String>, Vec<&str>) {
        let mut words = Vec::new();
        let mut circuits = Vec::new();
        for clamp in terminal.clamps.iter().filter(|clamp| clamp.side == side) {
            let wires = clamp
                .wires
                .iter()
                .filter_map(|id| arrangement.wires.iter().find(|wire| wire.id == *id));
            for wire in wires {
                words.push(far_end(wire, &terminal.id, clamp.level, side));
                circuits.push(wire.circuit.as_str());
            }
        }
        (words, circuits)
    };
    let rows = ids
        .iter()
        .filter_map(|id| {
            let is_it = |terminal: &&PlacedTerminal| terminal.id == *id;
            arrangement.terminals.iter().find(is_it)
        })
        .map(|terminal| {
            let (lower, mut circuits) = ends(terminal, Side::Lower);
            let (upper, others) = ends(terminal, Side::Upper);
            circuits.extend(others);
            circuits.retain(|circuit| !circuit.is_empty());
            circuits.sort_unstable();
            circuits.dedup();
            let marking = if terminal.spare && terminal.marking.is_empty() {
                "spare".to_string()
            } else {
                terminal.marking.clone()
            };
            vec![
                terminal.id.clone(),
                marking,
                circuits.join(", "),
                lower.join(" + "),
                upper.join(" + "),
            ]
        })
        .collect();
    Table {
        name: "terminal-schedule".into(),
        title: "Terminal schedule".into(),
        columns: vec![
            Column::words("Terminal"),
            Column::words("Marking"),
            Column::words("Circuit"),
            Column::words("Lower clamp"),
            Column::words("Upper clamp"),
        ],
        rows,
    }
}

/// Neighbouring terminals of one strip and part on one rail, numbered without a gap.
pub(super) struct Run<'a> {
    /// Strip.
    pub strip: &'a str,
    /// First number.
    pub first: u32,
    /// Last number.
    pub last: u32,
    /// How many terminals.
    pub count: u32,
    /// How many of them are spare.
    pub spare: u32,
    /// Part.
    pub part: &'a str,
    /// Rail.
    pub rail: &'a str,
    /// Group of the strip.
    pub group: &'a str,
    /// Kind of its circuits.
    pub kind: CircuitKind,
}

/// The terminals as runs, in the order of the arrangement.
pub(super) fn runs(arrangement: &Arrangement) -> Vec<Run<'_>> {
    let mut runs: Vec<Run<'_>> = Vec::new();
    for terminal in &arrangement.terminals {
        let spare = u32::from(terminal.spare);
        if let Some(run) = runs.last_mut()
            && run.strip == terminal.strip
            && run.part == terminal.part
            && run.rail == terminal.rail
            && run.last + 1 == terminal.number
        {
            run.last = terminal.number;
            run.count += 1;
            run.spare += spare;
            continue;
        }
        let strip = arrangement
            .strips
            .iter()
            .find(|strip| strip.name == terminal.strip);
        runs.push(Run {
            strip: &terminal.strip,
            first: terminal.number,
            last: terminal.number,
            count: 1,
            spare,
            part: &terminal.part,
            rail: &terminal.rail,
            group: strip.map_or("", |strip| strip.group.as_str()),
            kind: strip.map_or(terminal.kind, |strip| strip.kind),
        });
    }
    runs
}
