//! Scalable Vector Graphics 1.1: one millimetre of paper is one user unit, text stays text.

use crate::sheets::drawing::{Align, Colour, Geometry, Group, Label, Layer, Shape, Sheet, Spot};
use crate::sheets::number;
use std::fmt::Write as _;

/// Digits after the point: a hundredth of a millimetre of the box is kept down to a scale of 1:50.
const DECIMALS: usize = 4;
/// The letter form whose widths the drawing was measured with, then whatever sans-serif there is.
/// `textLength` below keeps every line as long as it was measured with any of them.
const FONT: &str = "Liberation Sans, Arimo, sans-serif";

/// Writes a sheet as a standalone SVG document.
///
/// Views carry `data-scale`, `data-datum-x` and `data-datum-y` (millimetres from the upper left
/// corner of the sheet), and `data-turn` (degrees counter-clockwise) where they are turned about the datum, so
/// that places on the box can be read back from the file; shapes that stand
/// for a part carry `data-of`.
pub fn write(sheet: &Sheet) -> String {
    let mut out = String::new();
    let (width, height) = (length(sheet.width_mm), length(sheet.height_mm));
    let _ = writeln!(out, r#"<?xml version="1.0" encoding="UTF-8"?>"#);
    let _ = writeln!(
        out,
        r#"<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}" fill="none" stroke-linecap="butt" stroke-linejoin="miter" font-family="{FONT}">"#
    );
    let _ = writeln!(out, "<title>{}</title>", escaped(&sheet.title));
    let _ = writeln!(
        out,
        r##"<rect class="paper" width="{width}" height="{height}" fill="#ffffff"/>"##
    );
    for group in &sheet.groups {
        write_group(&mut out, group, sheet.height_mm);
    }
    out.push_str("</svg>\n");
    out
}

fn write_group(out: &mut String, group: &Group, height_mm: f64) {
    let _ = write!(out, r#"<g id="{}""#, escaped(&group.name));
    if let Some(view) = &group.view {
        let _ = write!(
            out,
            r#" data-scale="{}" data-datum-x="{}" data-datum-y="{}""#,
            number(view.ratio, DECIMALS),
            length(view.datum.x_mm),
            length(height_mm - view.datum.y_mm)
        );
        if view.turn.degrees() != 0 {
            let _ = write!(out, r#" data-turn="{}""#, view.turn.degrees());
        }
    }
    out.push_str(">\n");
    if !group.title.is_empty() {
        let _ = writeln!(out, "<title>{}</title>", escaped(&group.title));
    }
    // Neighbouring shapes with the same looks share one group, which keeps files small.
    let mut open: Option<String> = None;
    for shape in &group.shapes {
        let looks = looks(shape);
        if open.as_ref() != Some(&looks) {
            if open.is_some() {
                out.push_str("</g>\n");
            }
            let _ = writeln!(out, "<g {looks}>");
            open = Some(looks);
        }
        write_shape(out, shape, height_mm);
    }
    if open.is_some() {
        out.push_str("</g>\n");
    }
    out.push_str("</g>\n");
}

/// The attributes that a shape shares with its neighbours.
fn looks(shape: &Shape) -> String {
    let mut looks = format!(r#"class="{}""#, shape.layer.name());
    if let Geometry::Text(label) = &shape.geometry {
        let size = number(label.style.size_mm(), 3);
        let _ = write!(looks, r##" fill="#000000" font-size="{size}""##);
        if label.style.bold {
            looks.push_str(r#" font-weight="bold""#);
        }
        return looks;
    }
    if let Some(fill) = shape.fill {
        let _ = write!(looks, r#" fill="{}""#, hex(fill));
    }
    if let Some(pen) = &shape.pen {
        let _ = write!(
            looks,
            r##" stroke="#000000" stroke-width="{}""##,
            number(pen.width_mm, 2)
        );
        let dashes = pen.dashes_mm();
        if !dashes.is_empty() {
            let dashes: Vec<String> = dashes.iter().map(|dash| number(*dash, 2)).collect();
            let _ = write!(looks, r#" stroke-dasharray="{}""#, dashes.join(" "));
        }
        if shape.layer == Layer::Frame {
            looks.push_str(r#" stroke-linecap="square""#);
        }
    }
    looks
}

fn write_shape(out: &mut String, shape: &Shape, height_mm: f64) {
    let place = |spot: &Spot| (length(spot.x_mm), length(height_mm - spot.y_mm));
    let subject = match &shape.subject {
        Some(subject) => format!(r#" data-of="{}""#, escaped(subject)),
        None => String::new(),
    };
    let _ = match &shape.geometry {
        Geometry::Line(a, b) => {
            let ((x1, y1), (x2, y2)) = (place(a), place(b));
            writeln!(
                out,
                r#"<line x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}"{subject}/>"#
            )
        }
        Geometry::Polyline { spots, closed } => {
            let points: Vec<String> = spots
                .iter()
                .map(|spot| {
                    let (x, y) = place(spot);
                    format!("{x},{y}")
                })
                .collect();
            let name = if *closed { "polygon" } else { "polyline" };
            writeln!(out, r#"<{name} points="{}"{subject}/>"#, points.join(" "))
        }
        Geometry::Rectangle(area) => {
            let (x, y) = place(&Spot::new(area.left_mm, area.top_mm));
            let (width, height) = (length(area.width_mm()), length(area.height_mm()));
            writeln!(
                out,
                r#"<rect x="{x}" y="{y}" width="{width}" height="{height}"{subject}/>"#
            )
        }
        Geometry::Circle { centre, radius_mm } => {
            let (x, y) = place(centre);
            writeln!(
                out,
                r#"<circle cx="{x}" cy="{y}" r="{}"{subject}/>"#,
                length(*radius_mm)
            )
        }
        Geometry::Arc {
            centre,
            radius_mm,
            from_deg,
            to_deg,
        } => {
            let end = |degrees: f64| {
                let angle = degrees.to_radians();
                place(&centre.moved(radius_mm * angle.cos(), radius_mm * angle.sin()))
            };
            let ((x1, y1), (x2, y2)) = (end(*from_deg), end(*to_deg));
            let large = i32::from((to_deg - from_deg).rem_euclid(360.0) > 180.0);
            let radius = length(*radius_mm);
            writeln!(
                out,
                r#"<path d="M{x1} {y1}A{radius} {radius} 0 {large} 0 {x2} {y2}"{subject}/>"#
            )
        }
        Geometry::Text(label) => write_text(out, label, place(&label.at), &subject),
    };
}

fn write_text(
    out: &mut String,
    label: &Label,
    (x, y): (String, String),
    subject: &str,
) -> std::fmt::Result {
    let anchor = match label.style.align {
        Align::Start => "",
        Align::Middle => r#" text-anchor="middle""#,
        Align::End => r#" text-anchor="end""#,
    };
    let place = if label.style.upwards {
        format!(r#"transform="translate({x} {y}) rotate(-90)""#)
    } else {
        format!(r#"x="{x}" y="{y}""#)
    };
    let width = number(label.length_mm(), 3);
    writeln!(
        out,
        r#"<text {place}{anchor} textLength="{width}" lengthAdjust="spacingAndGlyphs"{subject}>{}</text>"#,
        escaped(&label.content)
    )
}

fn length(value_mm: f64) -> String {
    number(value_mm, DECIMALS)
}

fn hex(colour: Colour) -> String {
    let [red, green, blue] = colour.rgb();
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// Text for use in an element or an attribute; control characters, which XML forbids, are left out.
pub(super) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            control if control.is_control() => out.push(' '),
            other => out.push(other),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_of_the_user_cannot_break_the_file() {
        assert_eq!(escaped("a<b & \"c\"\u{7}"), "a&lt;b &amp; &quot;c&quot; ");
    }
}
