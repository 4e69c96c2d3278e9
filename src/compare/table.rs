//! The comparison as text and as comma-separated values. Decides nothing.

use super::Row;
use crate::arrangement::EntryPlacing;
use crate::sheets::{csv_text, fixed, number};
use crate::space::Face;
use std::fmt::Write as _;

/// Widest line, in characters.
const WIDTH: usize = 100;

/// The table for reading: those that fit with their margins, the others with what fails first.
pub fn text(rows: &[Row], front: &str) -> String {
    let mut out = String::new();
    let fitting: Vec<&Row> = rows.iter().filter(|row| row.fits).collect();
    let others: Vec<&Row> = rows.iter().filter(|row| !row.fits).collect();
    if rows.is_empty() {
        return "No candidate passes what --only and the filters ask for.\n".to_string();
    }
    let fit = match fitting.len() {
        1 => "1 candidate that fits".to_string(),
        count => format!("{count} candidates that fit"),
    };
    let not = match others.len() {
        1 => "1 that does not".to_string(),
        count => format!("{count} that do not"),
    };
    let _ = writeln!(out, "Shown: {fit}, {not}");
    let currency = rows.first().map_or("", |row| row.currency.as_str());
    if !fitting.is_empty() {
        let _ = writeln!(
            out,
            "  {:<25}{:>7}{:>6}{:>8}{:>6}{:>7}{:>6}{:>6}{:>6}{:>21}",
            "",
            "volume",
            "mass",
            "price",
            "heat",
            "rail",
            "walls",
            "lid",
            "depth",
            "fill of each wall, %"
        );
        let _ = writeln!(
            out,
            "  {:<25}{:>7}{:>6}{:>8}{:>6}{:>7}{:>6}{:>6}{:>6}{:>5}{:>6}{:>5}{:>5}",
            "", "l", "kg", currency, "W", "mm", "mm", "mm", "mm", "bot.", "right", "top", "left"
        );
    }
    for row in &fitting {
        let margins = row.margins.as_ref();
        let shown =
            |figure: Option<f64>| figure.map_or("–".to_string(), |figure| fixed(figure, 1));
        let fill = |wall: Face| {
            let percent = margins.and_then(|margins| margins.fill_percent.get(&wall));
            percent.map_or("–".to_string(), |percent| fixed(*percent, 0))
        };
        let _ = writeln!(
            out,
            "{} {:<25}{:>7}{:>6}{:>8}{:>6}{:>7}{:>6}{:>6}{:>6}{:>5}{:>6}{:>5}{:>5}",
            if row.front { '*' } else { ' ' },
            format!("{}{}", name(row), if is_free(row) { " +" } else { "" }),
            fixed(row.volume_l, 2),
            fixed(row.mass_kg, 2),
            fixed(row.price, 2),
            shown(row.heat_w),
            shown(margins.and_then(|margins| margins.rail_mm)),
            shown(margins.and_then(|margins| margins.walls_mm)),
            shown(margins.and_then(|margins| margins.lid_mm)),
            shown(margins.and_then(|margins| margins.depth_mm)),
            fill(Face::Bottom),
            fill(Face::Right),
            fill(Face::Top),
            fill(Face::Left),
        );
    }
    if !fitting.is_empty() {
        if fitting.iter().any(|row| row.front) {
            let _ = writeln!(
                out,
                "  * on the front of {front}: no other is as good in all of them and better in one."
            );
        }
        let _ = writeln!(
            out,
            "  volume, mass, price: those of the empty enclosure.\n  \
             heat, rail, walls, lid, depth: what is left beyond what is required; –: there is none."
        );
        if fitting.iter().any(|row| is_free(row)) {
            let _ = writeln!(out, "  + entries placed freely, because rows find no room.");
        }
    }
    if !others.is_empty() {
        let _ = writeln!(out, "\nDoes not fit: the first thing that fails");
        for row in others {
            let head = format!("  {:<26}{:>8} l  ", name(row), fixed(row.volume_l, 2));
            let words = row.words.clone().unwrap_or_default();
            let indent = head.chars().count();
            let mut lead = head;
            for line in in_lines(&words, WIDTH - indent) {
                let _ = writeln!(out, "{lead}{line}");
                lead = " ".repeat(indent);
            }
        }
    }
    out
}

fn is_free(row: &Row) -> bool {
    row.placement == Some(EntryPlacing::Free)
}

fn name(row: &Row) -> String {
    format!("{} {}", row.enclosure, row.orientation.words())
}

/// A text in lines of at most so many characters; at least one line.
fn in_lines(text: &str, most: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let last = lines.last_mut().expect("there is always a line");
        if last.is_empty() {
            last.push_str(word);
        } else if last.chars().count() + 1 + word.chars().count() <= most {
            last.push(' ');
            last.push_str(word);
        } else {
            lines.push(word.to_string());
        }
    }
    lines
}

/// Every figure as comma-separated values.
pub fn csv(rows: &[Row]) -> String {
    let mut head = vec![
        "enclosure",
        "orientation",
        "fits",
        "placement",
        "front",
        "volume_l",
        "mass_kg",
        "price",
        "currency",
        "heat_w",
        "rail_mm",
        "walls_mm",
        "lid_mm",
        "depth_mm",
    ];
    let walls = [
        (Face::Bottom, "fill_bottom_percent"),
        (Face::Right, "fill_right_percent"),
        (Face::Top, "fill_top_percent"),
        (Face::Left, "fill_left_percent"),
    ];
    head.extend(walls.map(|(_, title)| title));
    head.extend(["kind_of_reason", "reason"]);
    let lines: Vec<Vec<String>> = rows
        .iter()
        .map(|row| {
            let margins = row.margins.as_ref();
            let shown =
                |figure: Option<f64>| figure.map_or(String::new(), |figure| number(figure, 3));
            let word = |yes: bool| if yes { "yes" } else { "no" }.to_string();
            let mut cells = vec![
                row.enclosure.clone(),
                row.orientation.words().to_string(),
                word(row.fits),
                row.placement.map_or("", EntryPlacing::word).to_string(),
                word(row.front),
                number(row.volume_l, 3),
                number(row.mass_kg, 3),
                number(row.price, 2),
                row.currency.clone(),
                shown(row.heat_w),
                shown(margins.and_then(|margins| margins.rail_mm)),
                shown(margins.and_then(|margins| margins.walls_mm)),
                shown(margins.and_then(|margins| margins.lid_mm)),
                shown(margins.and_then(|margins| margins.depth_mm)),
            ];
            cells.extend(walls.map(|(wall, _)| {
                shown(margins.and_then(|margins| margins.fill_percent.get(&wall).copied()))
            }));
            let kind = match &row.reason {
                Some(reason) => reason.kind(),
                None if row.without_part => "no part serves the list",
                None => "",
            };
            cells.push(kind.to_string());
            cells.push(row.words.clone().unwrap_or_default());
            cells
        })
        .collect();
    csv_text(&head, &lines)
}
