//! The tables that stand on sheets: holes, rails, strips, elements. Words shared with the views.

use super::drawing::{Column, Table};
use super::number::position;
use super::{fixed, number, tenth};
use crate::arrangement::{Arrangement, EntryPurpose, PlacedEntry};
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
                colour,
                element.label.clone(),
                element.part.clone(),
            ]
        })
        .collect();
    Table {
        name: "lid-holes".into(),
        title: "Holes in the lid (mm from the datum)".into(),
        columns: vec![
            Column::words("Element"),
            Column::numbers("x"),
            Column::numbers("y"),
            Column::words("Hole"),
            Column::sentences("Kind"),
            Column::sentences("Colour"),
            Column::sentences("Label"),
            Column::sentences("Part"),
        ],
        rows,
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
            Column::numbers("Terminals that still fit"),
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
            Column::numbers("from"),
            Column::numbers("to"),
            Column::numbers("thick / free"),
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
                run.group.to_string(),
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

/// What goes under each clamp: a line for each level of each terminal, strip by strip in the order of the
/// rails. A column in which nothing stands is left out.
pub(super) fn clamps(arrangement: &Arrangement) -> Table {
    let list = super::wiring::terminals(arrangement);
    let cell = |row: &[String], heading: &str| {
        let place = list
            .columns
            .iter()
            .position(|known| known.heading == heading);
        place.map(|place| row[place].clone()).unwrap_or_default()
    };
    let several_levels = list.rows.iter().any(|row| cell(row, "level") != "0");
    let terminal = |row: &[String]| {
        let level = match several_levels {
            true => format!(" level {}", cell(row, "level")),
            false => String::new(),
        };
        format!("{}:{}{level}", cell(row, "strip"), cell(row, "number"))
    };
    let marking = |row: &[String]| match cell(row, "spare").as_str() {
        "yes" => "spare".to_string(),
        _ => cell(row, "marking"),
    };
    let section = |row: &[String]| {
        let (below, above) = (
            cell(row, "lower_section_mm2"),
            cell(row, "upper_section_mm2"),
        );
        match (below.is_empty(), above.is_empty() || above == below) {
            (true, _) => above,
            (false, true) => below,
            (false, false) => format!("{below} | {above}"),
        }
    };
    type Cell<'a> = Box<dyn Fn(&[String]) -> String + 'a>;
    let of = |heading: &'static str| -> Cell<'_> { Box::new(move |row| cell(row, heading)) };
    let all: Vec<(Column, Cell<'_>)> = vec![
        (Column::words("Terminal"), Box::new(terminal)),
        (Column::words("Mark"), Box::new(marking)),
        (Column::sentences("Below"), of("lower_conductors")),
        (Column::sentences("Above"), of("upper_conductors")),
        (Column::words("mm²"), Box::new(section)),
        (Column::sentences("Circuit"), of("circuit")),
        (Column::sentences("Jumper"), of("jumper")),
    ];
    let (columns, cells): (Vec<Column>, Vec<Cell<'_>>) = all
        .into_iter()
        .filter(|(_, cell)| list.rows.iter().any(|row| !cell(row).is_empty()))
        .unzip();
    Table {
        name: "clamps".into(),
        title: "Terminal schedule".into(),
        columns,
        rows: list
            .rows
            .iter()
            .map(|row| cells.iter().map(|cell| cell(row)).collect())
            .collect(),
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
