//! Text against the lines of the drawing: what can be read is not crossed by what can be seen.

use crate::samples::{every_example, every_fixture, on_every_paper};
use glandrail::sheets::drawing::{
    Area, Colour, Geometry, Group, Label, Layer, Shape, Sheet, Spot, TextStyle,
};

/// How far a line may reach into the box of a text: the box keeps room for tails and accents that most
/// words do not have.
const REACH_MM: f64 = 0.2;

/// A line through a text.
#[derive(Debug)]
#[allow(dead_code, reason = "read where a fault is told")]
struct Crossing {
    words: String,
    at: Area,
    layer: Layer,
    /// Whose line it is.
    line_of: String,
    /// Whether text and line stand for the same part.
    is_own: bool,
}

/// The part of a straight line that lies within an area (Liang and Barsky).
fn within(area: &Area, from: Spot, to: Spot) -> Option<(Spot, Spot)> {
    let (dx, dy) = (to.x_mm - from.x_mm, to.y_mm - from.y_mm);
    let (mut begin, mut end) = (0.0_f64, 1.0_f64);
    for (step, least, most) in [
        (dx, area.left_mm - from.x_mm, area.right_mm - from.x_mm),
        (dy, area.bottom_mm - from.y_mm, area.top_mm - from.y_mm),
    ] {
        if step.abs() < 1e-12 {
            if least > 0.0 || most < 0.0 {
                return None;
            }
            continue;
        }
        let (a, b) = (least / step, most / step);
        begin = begin.max(a.min(b));
        end = end.min(a.max(b));
    }
    let at = |share: f64| from.moved(share * dx, share * dy);
    (begin < end).then(|| (at(begin), at(end)))
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

/// Whether the filling of a shape lies over a place.
fn covers(shape: &Shape, at: Spot) -> bool {
    let inside = |spots: &[Spot]| {
        let next = spots.iter().cycle().skip(1);
        let crossed = spots.iter().zip(next).filter(|(a, b)| {
            (a.y_mm > at.y_mm) != (b.y_mm > at.y_mm)
                && at.x_mm < (b.x_mm - a.x_mm) * (at.y_mm - a.y_mm) / (b.y_mm - a.y_mm) + a.x_mm
        });
        crossed.count() % 2 == 1
    };
    shape.fill.is_some()
        && match &shape.geometry {
            Geometry::Rectangle(area) => {
                (area.left_mm..=area.right_mm).contains(&at.x_mm)
                    && (area.bottom_mm..=area.top_mm).contains(&at.y_mm)
            }
            Geometry::Circle { centre, radius_mm } => {
                (at.x_mm - centre.x_mm).hypot(at.y_mm - centre.y_mm) <= *radius_mm
            }
            Geometry::Polyline {
                spots,
                closed: true,
            } => inside(spots),
            _ => false,
        }
}

/// How much of a line within an area is seen, of the parts that later fillings leave, in millimetres.
fn seen_mm(core: &Area, line: &Shape, later: &[Shape]) -> f64 {
    const STEP_MM: f64 = 0.05;
    pieces(&line.geometry)
        .into_iter()
        .filter_map(|(from, to)| within(core, from, to))
        .map(|(from, to)| {
            let (dx, dy) = (to.x_mm - from.x_mm, to.y_mm - from.y_mm);
            let length_mm = dx.hypot(dy);
            let steps = (length_mm / STEP_MM).ceil().max(1.0) as u32;
            let seen = (0..steps).filter(|step| {
                let share = (f64::from(*step) + 0.5) / f64::from(steps);
                let at = from.moved(share * dx, share * dy);
                !later.iter().any(|shape| covers(shape, at))
            });
            length_mm * seen.count() as f64 / f64::from(steps)
        })
        .sum()
}

/// Lines that cross the texts of a group, save where a filling hides them.
fn crossings_of(group: &Group) -> Vec<Crossing> {
    let mut found = Vec::new();
    for text in &group.shapes {
        let Geometry::Text(label) = &text.geometry else {
            continue;
        };
        let core = label.area().grown(-REACH_MM);
        for (index, line) in group.shapes.iter().enumerate() {
            if line.pen.is_none() || seen_mm(&core, line, &group.shapes[index + 1..]) <= 0.05 {
                continue;
            }
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
    found
}

/// Lines through the texts of a sheet's views and chart; tables and title block are ruled by their own
/// cells.
fn crossings(sheet: &Sheet) -> Vec<(String, Crossing)> {
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
fn no_line_of_another_part_crosses_a_text() {
    let fixtures = every_fixture()
        .into_iter()
        .map(|(name, arrangement)| (name.to_string(), arrangement));
    let (mut faults, mut texts) = (Vec::new(), 0);
    for (name, arrangement) in fixtures.chain(every_example()) {
        for (paper, sheet) in on_every_paper(&arrangement) {
            texts += sheet.texts().count();
            for (view, crossing) in crossings(&sheet) {
                if !crossing.is_own {
                    faults.push(format!(
                        "{name}, {paper:?}, {}, {view}: {crossing:?}",
                        sheet.name
                    ));
                }
            }
        }
    }
    assert!(texts > 10_000, "only {texts} texts were looked at");
    assert!(
        faults.is_empty(),
        "{} faults:\n{}",
        faults.len(),
        faults.join("\n")
    );
}

/// The test sees what it looks for: a line through a text, but not one under a ground or beside it.
#[test]
fn a_line_through_a_text_is_found() {
    let label = Label::centred(Spot::new(10.0, 10.0), TextStyle::plain(2.5), "X1");
    let text = Shape::new(Layer::Text, Geometry::Text(label.clone())).of("X1");
    let line = |y_mm: f64| {
        let ends = (Spot::new(0.0, y_mm), Spot::new(20.0, y_mm));
        Shape::new(Layer::Outline, Geometry::Line(ends.0, ends.1)).of("rail")
    };
    let ground = Shape::new(Layer::Text, Geometry::Rectangle(label.area().grown(0.3)))
        .fill(Colour::White)
        .without_edge();
    let group = |shapes: Vec<Shape>| Group {
        name: "view".into(),
        title: String::new(),
        view: None,
        shapes,
    };
    assert_eq!(
        crossings_of(&group(vec![line(10.0), text.clone()])).len(),
        1
    );
    assert_eq!(
        crossings_of(&group(vec![text.clone(), line(10.0)])).len(),
        1
    );
    assert!(crossings_of(&group(vec![line(13.0), text.clone()])).is_empty());
    let hidden = vec![line(10.0), ground.clone(), text.clone()];
    assert!(crossings_of(&group(hidden)).is_empty());
    let over = vec![ground, line(10.0), text];
    assert_eq!(crossings_of(&group(over)).len(), 1);
}
