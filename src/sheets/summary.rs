//! The text of a proposal for a terminal: aligned columns, at most 100 characters wide, no colours.

use super::failing::{failing, in_words};
use super::number::position;
use super::{fixed, number, tables, tenth};
use crate::arrangement::{Arrangement, CAUTION, EntryPurpose};
use crate::audit::AuditReport;
use crate::heat::HeatAssessment;
use std::fmt::Write as _;

/// Widest line, in characters.
pub const WIDTH: usize = 100;
/// Blanks before the rows of a block.
const INDENT: usize = 2;
/// Blanks between columns.
const GAP: usize = 2;

/// An arrangement in words: the box, its rails, strips, entries, elements, heat, spares, then
/// estimates, remarks and cautions.
pub fn summary(arrangement: &Arrangement) -> String {
    summary_body(arrangement) + &cautions(arrangement)
}

/// The summary without its cautions, for a page that closes with them itself.
pub fn summary_body(arrangement: &Arrangement) -> String {
    let mut out = String::new();
    head(&mut out, arrangement);
    rails(&mut out, arrangement);
    strips(&mut out, arrangement);
    entries(&mut out, arrangement);
    elements(&mut out, arrangement);
    conductors(&mut out, arrangement);
    heat(&mut out, arrangement);
    spares(&mut out, arrangement);
    sentences(&mut out, "Estimated", &arrangement.estimates);
    sentences(&mut out, "Remarks", &arrangement.remarks);
    out
}

/// The cautions, before them what the estimate of the heat warns of, and first what does not hold by the
/// report of the audit.
pub fn cautions_with_heat(
    arrangement: &Arrangement,
    heat: &HeatAssessment,
    report: &AuditReport,
) -> String {
    let warnings = heat.warnings.iter();
    let warned = warnings.map(|warning| format!("Heat: {}", warning.text));
    let cautions = in_words(report).into_iter().chain(warned);
    closing(arrangement, cautions.collect())
}

/// The cautions that close every page: that of the catalogue, and that of the program.
pub fn cautions(arrangement: &Arrangement) -> String {
    closing(arrangement, failing(arrangement).into_iter().collect())
}

fn closing(arrangement: &Arrangement, mut cautions: Vec<String>) -> String {
    let mut out = String::new();
    cautions.extend(arrangement.catalogue_warning.clone());
    cautions.push(CAUTION.to_string());
    sentences(&mut out, "Cautions", &cautions);
    out
}

fn head(out: &mut String, arrangement: &Arrangement) {
    let job = &arrangement.job;
    let mut title = [job.tag.as_str(), job.title.as_str()]
        .join("  ")
        .trim()
        .to_string();
    if !job.revision.is_empty() {
        let _ = write!(title, ", revision {}", job.revision);
    }
    paragraph(out, &title, 0);
    let enclosure = &arrangement.enclosure;
    let [width, height, depth] = enclosure.outer_mm.map(tenth);
    let line = format!(
        "{}, {}, {width} × {height} × {depth} mm, {}; {} kg, {} {}",
        enclosure.id,
        enclosure.material.words(),
        enclosure.orientation.words(),
        fixed(arrangement.mass_kg, 1),
        fixed(arrangement.price, 2),
        arrangement.currency
    );
    paragraph(out, line.trim(), 0);
}

fn rails(out: &mut String, arrangement: &Arrangement) {
    let rows = arrangement.rails.iter().map(|rail| {
        vec![
            rail.id.clone(),
            rail.profile.clone(),
            format!("{} mm", tenth(rail.length_mm)),
            format!("x {}", position(rail.body.min.x_mm)),
            format!(
                "y {}",
                position((rail.body.min.y_mm + rail.body.max.y_mm) / 2.0)
            ),
            match arrangement.spare.free_terminals.get(&rail.id) {
                Some(free) => format!("room for {free} more"),
                None => String::new(),
            },
        ]
    });
    block(
        out,
        "Rails",
        &[
            Fit::Left,
            Fit::Left,
            Fit::Right,
            Fit::Right,
            Fit::Right,
            Fit::Left,
        ],
        rows.collect(),
    );
}

fn strips(out: &mut String, arrangement: &Arrangement) {
    let rows = tables::runs(arrangement).into_iter().map(|run| {
        let numbers = if run.first == run.last {
            run.first.to_string()
        } else {
            format!("{}–{}", run.first, run.last)
        };
        let spare = if run.spare > 0 {
            format!("{} spare", run.spare)
        } else {
            String::new()
        };
        vec![
            run.strip.to_string(),
            numbers,
            format!("{} × {}", run.count, run.part),
            run.rail.to_string(),
            run.kind.words().to_string(),
            spare,
        ]
    });
    block(out, "Terminals", &[Fit::Left; 6], rows.collect());
}

fn entries(out: &mut String, arrangement: &Arrangement) {
    let rows: Vec<Vec<String>> = tables::entries_in_order(arrangement)
        .into_iter()
        .map(|entry| {
            vec![
                entry.wall.name().to_string(),
                entry.id.clone(),
                tables::purpose_words(&entry.purpose),
                tables::thread_words(&entry.thread),
                entry.part.id.clone(),
                format!("u {}", position(entry.u_mm)),
                format!("v {}", position(entry.v_mm)),
            ]
        })
        .collect();
    let fits = [
        Fit::Left,
        Fit::Left,
        Fit::Left,
        Fit::Left,
        Fit::Left,
        Fit::Right,
        Fit::Right,
    ];
    block(out, "Entries", &fits, rows);
}

fn elements(out: &mut String, arrangement: &Arrangement) {
    let rows = arrangement.elements.iter().map(|element| {
        vec![
            element.tag.clone(),
            element.kind.words().to_string(),
            element.colour.clone(),
            format!("x {}", position(element.x_mm)),
            format!("y {}", position(element.y_mm)),
            element.label.clone(),
        ]
    });
    let fits = [
        Fit::Left,
        Fit::Left,
        Fit::Left,
        Fit::Right,
        Fit::Right,
        Fit::Left,
    ];
    block(out, "Lid", &fits, rows.collect());
}

fn heat(out: &mut String, arrangement: &Arrangement) {
    let heat = &arrangement.heat;
    let margin = heat.permitted_power_w - heat.power_w;
    let rows = heat
        .lines
        .iter()
        .map(|line| {
            let given = line.current_a == 0.0 && line.resistance_mohm == 0.0;
            let figures = if given {
                String::new()
            } else {
                format!(
                    "{} A, {} mΩ each",
                    number(line.current_a, 3),
                    number(line.resistance_mohm, 3)
                )
            };
            vec![
                format!("{} ×", line.count),
                line.item.clone(),
                figures,
                format!("{} W", fixed(line.power_w, 3)),
            ]
        })
        .collect();
    let heading = format!(
        "Heat (resistances at {} °C, {} mm of conductor for each connection)",
        number(heat.reference_c, 1),
        number(heat.conductor_length_mm, 1)
    );
    block(
        out,
        &heading,
        &[Fit::Right, Fit::Left, Fit::Left, Fit::Right],
        rows,
    );
    let rated = format!(
        "{} W of {} W permitted ({} W rated for {:?} at {} °C, {} % kept free): margin {} W",
        fixed(heat.power_w, 2),
        fixed(heat.permitted_power_w, 2),
        number(heat.rated_power_w, 2),
        heat.row_class,
        number(heat.row_ambient_c, 1),
        number(heat.reserve_percent, 1),
        fixed(margin, 2)
    );
    let rated = match heat.row_ambient_c > arrangement.area.ambient_c[1] + 1e-9 {
        true => format!(
            "{rated}; a row of the certificate serves every ambient up to its own, so the {} °C asked for as well",
            number(arrangement.area.ambient_c[1], 1)
        ),
        false => rated,
    };
    let warm = format!(
        "with resistances at {} °C, the limit of the class less the margin of the type test: {} W",
        number(heat.limit_c, 1),
        fixed(heat.power_at_limit_w, 2)
    );
    if heat.lines.is_empty() {
        sentences(out, "Heat", &[rated]);
    } else {
        paragraph(out, &rated, INDENT);
        paragraph(out, &warm, INDENT);
    }
}

/// How long the conductors are, how short they could be, and how many cross.
fn conductors(out: &mut String, arrangement: &Arrangement) {
    let Some(layout) = &arrangement.layout else {
        return;
    };
    let metres = |length_mm: f64| fixed(length_mm / 1e3, 2);
    // A hundredth of the length is less than a fitter's cut.
    let least = match layout.conductors_at_least_mm {
        Some(least_mm) if layout.conductors_mm - least_mm < 0.01 * layout.conductors_mm => {
            ", the least with these terminals and holes".to_string()
        }
        Some(least_mm) => format!(
            ", at least {} m with these terminals and holes",
            metres(least_mm)
        ),
        None => String::new(),
    };
    let line = format!(
        "{} m along their routes{least}; seen from the front {}",
        metres(layout.conductors_mm),
        match layout.crossings {
            0 => "none cross".to_string(),
            1 => "one pair crosses".to_string(),
            pairs => format!("{pairs} pairs cross"),
        }
    );
    sentences(out, "Conductors", &[line]);
}

fn spares(out: &mut String, arrangement: &Arrangement) {
    let terminals = arrangement
        .terminals
        .iter()
        .filter(|terminal| terminal.spare)
        .count();
    let entries = arrangement
        .entries
        .iter()
        .filter(|entry| entry.purpose == EntryPurpose::Spare)
        .count();
    let line = format!(
        "{terminals} of {} terminals, {entries} of {} entries",
        arrangement.terminals.len(),
        arrangement.entries.len()
    );
    sentences(out, "Spare", &[line]);
}

/// How a column is aligned.
#[derive(Debug, Clone, Copy)]
pub(super) enum Fit {
    Left,
    Right,
}

/// A heading and rows in aligned columns; nothing where there are no rows. A row that would be wider
/// than the page ends with dots: the tables on the sheets have it whole.
pub(super) fn block(out: &mut String, heading: &str, fits: &[Fit], rows: Vec<Vec<String>>) {
    if rows.is_empty() {
        return;
    }
    let widths: Vec<usize> = (0..fits.len())
        .map(|column| {
            rows.iter()
                .filter_map(|row| row.get(column))
                .map(|cell| cell.chars().count())
                .max()
                .unwrap_or(0)
        })
        .collect();
    let _ = writeln!(out, "\n{heading}");
    for row in rows {
        let mut line = " ".repeat(INDENT);
        for ((cell, width), fit) in row.iter().zip(&widths).zip(fits) {
            if *width == 0 {
                continue;
            }
            let blanks = " ".repeat(width - cell.chars().count());
            match fit {
                Fit::Left => line.extend([cell.as_str(), blanks.as_str()]),
                Fit::Right => line.extend([blanks.as_str(), cell.as_str()]),
            }
            line.push_str(&" ".repeat(GAP));
        }
        let line = line.trim_end();
        if line.chars().count() > WIDTH {
            let kept: String = line.chars().take(WIDTH - 1).collect();
            let _ = writeln!(out, "{}…", kept.trim_end());
        } else {
            let _ = writeln!(out, "{line}");
        }
    }
}

/// A heading and sentences, each broken to the width; nothing where there are none.
pub(super) fn sentences(out: &mut String, heading: &str, sentences: &[String]) {
    if sentences.is_empty() {
        return;
    }
    let _ = writeln!(out, "\n{heading}");
    for sentence in sentences {
        paragraph(out, sentence, INDENT);
    }
}

/// Words broken to the width, following lines indented by two more than the first.
pub(super) fn paragraph(out: &mut String, words: &str, indent: usize) {
    let mut line = " ".repeat(indent);
    let mut is_begun = false;
    for word in words.split_whitespace() {
        let wide = line.chars().count() + usize::from(is_begun) + word.chars().count();
        if is_begun && wide > WIDTH {
            let _ = writeln!(out, "{line}");
            line = " ".repeat(indent + 2);
            is_begun = false;
        }
        if is_begun {
            line.push(' ');
        }
        line.push_str(word);
        is_begun = true;
    }
    if is_begun {
        let _ = writeln!(out, "{line}");
    }
}
