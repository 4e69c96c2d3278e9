//! Text against the lines of the drawing: what can be read is not crossed by what can be seen.

use crate::drawings::{every_example, every_fixture, on_every_paper};
use glandrail::sheets::drawing::{Area, Geometry, Group, Layer, Shape, Sheet, Spot};

/// How far a line may reach into the box of a text: the box keeps room for tails and accents that most
/// words do not have.
const REACH_MM: f64 = 0.2;

/// A line through a text.
#[derive(Debug)]
pub struct Crossing {
    pub words: String,
    pub at: Area,
    pub layer: Layer,
    /// Whose line it is.
    pub line_of: String,
    /// Whether text and line stand for the same part.
    pub is_own: bool,
}

/// The share of a straight line that lies within an area (Liang and Barsky), as a length.
fn within_mm(area: &Area, from: Spot, to: Spot) -> f64 {
    let (dx, dy) = (to.x_mm - from.x_mm, to.y_mm - from.y_mm);
    let (mut begin, mut end) = (0.0_f64, 1.0_f64);
    for (step, least, most) in [
        (dx, area.left_mm - from.x_mm, area.right_mm - from.x_mm),
        (dy, area.bottom_mm - from.y_mm, area.top_mm - from.y_mm),
    ] {
        if step.abs() < 1e-12 {
            if least > 0.0 || most < 0.0 {
                return 0.0;
            }
            continue;
        }
        let (a, b) = (least / step, most / step);
        begin = begin.max(a.min(b));
        end = end.min(a.max(b));
    }
    (end - begin).max(0.0) * dx.hypot(dy)
}

/// Straight pieces of a shape's line, arcs and circles in small steps.
fn pieces(geometry: &Geometry) -> Vec<(Spot, Spot)> {
    let round = |centre: Spot, radius_mm: f64, from_deg: f64, turn_deg: f64| {
        let steps = 48;
        let at = |index: i32| {
            let angle = (from_deg + turn_deg * f64::from(index) / f64::from(steps)).to_radians();
            centre.moved(radius_mm * angle.cos(), radius_mm * angle.sin())
        };
        (0..steps).map(|index| (at(index), at(index + 1))).collect()
    };
    let through = |spots: &[Spot], closed: bool| -> Vec<(Spot, Spot)> {
        let last = spots.last().zip(spots.first()).filter(|_| closed);
        let steps = spots.windows(2).map(|pair| (pair[0], pair[1]));
        steps.chain(last.map(|(a, b)| (*a, *b))).collect()
    };
    match geometry {
        Geometry::Line(a, b) => vec![(*a, *b)],
        Geometry::Polyline { spots, closed } => through(spots, *closed),
        Geometry::Rectangle(area) => {
            let corners = [
                Spot::new(area.left_mm, area.bottom_mm),
                Spot::new(area.right_mm, area.bottom_mm),
                Spot::new(area.right_mm, area.top_mm),
                Spot::new(area.left_mm, area.top_mm),
            ];
            through(&corners, true)
        }
        Geometry::Circle { centre, radius_mm } => round(*centre, *radius_mm, 0.0, 360.0),
        Geometry::Arc {
            centre,
            radius_mm,
            from_deg,
            to_deg,
        } => round(
            *centre,
            *radius_mm,
            *from_deg,
            (to_deg - from_deg).rem_euclid(360.0),
        ),
        Geometry::Text(_) => Vec::new(),
    }
}

/// Whether a filling hides all that was drawn under an area before it.
fn hides(shape: &Shape, area: &Area) -> bool {
    let is_corner_within = |centre: &Spot, radius_mm: f64| {
        let far = |low: f64, high: f64, at: f64| (at - low).abs().max((high - at).abs());
        far(area.left_mm, area.right_mm, centre.x_mm).hypot(far(
            area.bottom_mm,
            area.top_mm,
            centre.y_mm,
        )) <= radius_mm
    };
    shape.fill.is_some()
        && match &shape.geometry {
            Geometry::Rectangle(ground) => ground.contains(area),
            Geometry::Circle { centre, radius_mm } => is_corner_within(centre, *radius_mm),
            _ => false,
        }
}

/// Lines that cross the texts of a group, save those that a filling hides.
fn crossings_of(group: &Group) -> Vec<Crossing> {
    let mut found = Vec::new();
    for (index, text) in group.shapes.iter().enumerate() {
        let Geometry::Text(label) = &text.geometry else {
            continue;
        };
        let core = label.area().grown(-REACH_MM);
        let (before, after) = group.shapes.split_at(index);
        let ground = before.iter().rposition(|shape| hides(shape, &core));
        let seen = &before[ground.map_or(0, |ground| ground)..];
        let own_ground = ground.is_some();
        for (place, line) in seen.iter().chain(after).enumerate() {
            // The edge of the ground itself lies round the text.
            if own_ground && place == 0 || line.pen.is_none() {
                continue;
            }
            let length_mm: f64 = pieces(&line.geometry)
                .into_iter()
                .map(|(from, to)| within_mm(&core, from, to))
                .sum();
            if length_mm > 0.05 {
                found.push(Crossing {
                    words: label.content.clone(),
                    at: label.area(),
                    layer: line.layer,
                    line_of: line
                        .subject
                        .as_ref()
                        .map(|key| format!("{} {}", key.kind, key.name))
                        .unwrap_or_default(),
                    is_own: text.subject.is_some() && text.subject == line.subject,
                });
            }
        }
    }
    found
}

/// Lines through the texts of a sheet's views and chart; tables and title block are ruled by their own
/// cells.
pub fn crossings(sheet: &Sheet) -> Vec<(String, Crossing)> {
    sheet
        .groups
        .iter()
        .filter(|group| group.view.is_some() || group.name == "chart")
        .flat_map(|group| {
            crossings_of(group)
                .into_iter()
                .map(move |crossing| (group.name.clone(), crossing))
        })
        .collect()
}

#[test]
fn report() {
    let fixtures = every_fixture()
        .into_iter()
        .map(|(name, arrangement)| (name.to_string(), arrangement));
    let mut count = std::collections::BTreeMap::<String, usize>::new();
    for (name, arrangement) in fixtures.chain(every_example()) {
        for (paper, sheet) in on_every_paper(&arrangement) {
            for (view, c) in crossings(&sheet) {
                *count
                    .entry(format!("{view} {:?} own={}", c.layer, c.is_own))
                    .or_default() += 1;
                println!(
                    "X {name} {paper:?} {} {view}: `{}` x {:?} of {} own={} at {:.1},{:.1}",
                    sheet.name, c.words, c.layer, c.line_of, c.is_own, c.at.left_mm, c.at.bottom_mm
                );
            }
        }
    }
    println!("{count:#?}");
}
