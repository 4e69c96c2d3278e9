//! Shapes: lines, polylines, circles, arcs and text, each on a layer.

use super::geometry::{Area, Spot};
use super::style::{Colour, Layer, Pen};
use super::text::Label;

/// What is drawn.
#[derive(Debug, Clone, PartialEq)]
pub enum Geometry {
    /// A straight line.
    Line(Spot, Spot),
    /// Straight lines through several places.
    Polyline {
        /// The places.
        spots: Vec<Spot>,
        /// Whether the last is joined with the first.
        closed: bool,
    },
    /// An upright rectangle.
    Rectangle(Area),
    /// A circle.
    Circle {
        /// Its middle.
        centre: Spot,
        /// Its radius.
        radius_mm: f64,
    },
    /// An arc, counter-clockwise from the first angle to the second.
    Arc {
        /// Middle of its circle.
        centre: Spot,
        /// Its radius.
        radius_mm: f64,
        /// Where it begins, degrees from the right, counter-clockwise.
        from_deg: f64,
        /// Where it ends.
        to_deg: f64,
    },
    /// A line of text.
    Text(Label),
}

/// What a shape stands for: kind and name of a part, such as `terminal` and `X1:3`. Names are unique only
/// within a kind: an operating element may be tagged as an entry is numbered.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct SubjectKey {
    /// Kind in one word; empty for what only drawings name, such as the datum.
    pub kind: &'static str,
    /// Name within its kind.
    pub name: String,
}

impl SubjectKey {
    /// A key of a kind.
    pub fn new(kind: &'static str, name: &str) -> Self {
        Self {
            kind,
            name: name.to_string(),
        }
    }
}

impl From<&str> for SubjectKey {
    fn from(name: &str) -> Self {
        Self::new("", name)
    }
}

impl From<&String> for SubjectKey {
    fn from(name: &String) -> Self {
        Self::new("", name)
    }
}

/// A shape with its looks.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// What is drawn.
    pub geometry: Geometry,
    /// Layer.
    pub layer: Layer,
    /// Pen of the line; `None` for a filling without edge and for text.
    pub pen: Option<Pen>,
    /// Filling.
    pub fill: Option<Colour>,
    /// What it stands for: writers may pass it on.
    pub subject: Option<SubjectKey>,
}

impl Shape {
    /// A shape drawn with the usual pen of its layer.
    pub fn new(layer: Layer, geometry: Geometry) -> Self {
        let pen = if matches!(geometry, Geometry::Text(_)) {
            None
        } else {
            Some(layer.pen())
        };
        Self {
            geometry,
            layer,
            pen,
            fill: None,
            subject: None,
        }
    }

    /// The same with another pen.
    pub fn pen(self, pen: Pen) -> Self {
        Self {
            pen: Some(pen),
            ..self
        }
    }

    /// The same with a filling.
    pub fn fill(self, colour: Colour) -> Self {
        Self {
            fill: Some(colour),
            ..self
        }
    }

    /// The same without an edge.
    pub fn without_edge(self) -> Self {
        Self { pen: None, ..self }
    }

    /// The same, standing for something.
    pub fn of(self, subject: impl Into<SubjectKey>) -> Self {
        Self {
            subject: Some(subject.into()),
            ..self
        }
    }

    /// The smallest upright rectangle around it; the width of the pen is not counted.
    pub fn area(&self) -> Area {
        match &self.geometry {
            Geometry::Line(a, b) => Area::between(*a, *b),
            Geometry::Polyline { spots, .. } => spots
                .iter()
                .map(|spot| Area::between(*spot, *spot))
                .reduce(|all, next| all.joined(&next))
                .unwrap_or(Area::new(0.0, 0.0, 0.0, 0.0)),
            Geometry::Rectangle(area) => *area,
            Geometry::Circle { centre, radius_mm }
            | Geometry::Arc {
                centre, radius_mm, ..
            } => Area::between(*centre, *centre).grown(*radius_mm),
            Geometry::Text(label) => label.area(),
        }
    }

    /// The shape moved by a distance.
    pub fn moved(mut self, right_mm: f64, up_mm: f64) -> Self {
        match &mut self.geometry {
            Geometry::Line(a, b) => {
                *a = a.moved(right_mm, up_mm);
                *b = b.moved(right_mm, up_mm);
            }
            Geometry::Polyline { spots, .. } => {
                for spot in spots {
                    *spot = spot.moved(right_mm, up_mm);
                }
            }
            Geometry::Rectangle(area) => *area = area.moved(right_mm, up_mm),
            Geometry::Circle { centre, .. } | Geometry::Arc { centre, .. } => {
                *centre = centre.moved(right_mm, up_mm);
            }
            Geometry::Text(label) => label.at = label.at.moved(right_mm, up_mm),
        }
        self
    }
}

/// The smallest upright rectangle around all shapes; `None` where there are none.
pub fn bounds(shapes: &[Shape]) -> Option<Area> {
    shapes
        .iter()
        .map(Shape::area)
        .reduce(|all, next| all.joined(&next))
}
