//! Views: each turns an arrangement into neutral shapes, with the datum of the face as origin.

mod inside;
mod lid;
mod parts;
mod wall;

use super::drawing::{Area, Canvas, Shape, bounds};
use crate::arrangement::Arrangement;
use crate::space::Face;

/// The views that can be drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ViewName {
    /// From the front without the lid: plate, rails, terminals, and entries at the walls.
    Inside,
    /// The lid from outside.
    Lid,
    /// The bottom wall from outside, lid upwards; the other walls likewise.
    Bottom,
    /// The right wall.
    Right,
    /// The top wall.
    Top,
    /// The left wall.
    Left,
}

impl ViewName {
    /// All views.
    pub const ALL: [ViewName; 6] = [
        ViewName::Inside,
        ViewName::Lid,
        ViewName::Bottom,
        ViewName::Right,
        ViewName::Top,
        ViewName::Left,
    ];

    /// The four walls in the order in which u runs round the box.
    pub const WALLS: [ViewName; 4] = [ViewName::Bottom, ViewName::Right, ViewName::Top, ViewName::Left];

    /// The name used in files.
    pub fn name(self) -> &'static str {
        match self {
            ViewName::Inside => "inside",
            ViewName::Lid => "lid",
            ViewName::Bottom => "bottom",
            ViewName::Right => "right",
            ViewName::Top => "top",
            ViewName::Left => "left",
        }
    }

    /// Words for the reader.
    pub fn words(self) -> &'static str {
        match self {
            ViewName::Inside => "Inside, lid removed",
            ViewName::Lid => "Lid, seen from outside",
            ViewName::Bottom => "Bottom wall, seen from outside",
            ViewName::Right => "Right wall, seen from outside",
            ViewName::Top => "Top wall, seen from outside",
            ViewName::Left => "Left wall, seen from outside",
        }
    }

    /// The face that is looked at; `None` for the inside.
    pub fn face(self) -> Option<Face> {
        match self {
            ViewName::Inside => None,
            ViewName::Lid => Some(Face::Lid),
            ViewName::Bottom => Some(Face::Bottom),
            ViewName::Right => Some(Face::Right),
            ViewName::Top => Some(Face::Top),
            ViewName::Left => Some(Face::Left),
        }
    }
}

/// A drawn view; the datum is at the origin of the paper.
#[derive(Debug, Clone)]
pub(super) struct View {
    /// Which one.
    pub name: ViewName,
    /// Millimetres of paper for one of the box.
    pub ratio: f64,
    /// Its shapes.
    pub shapes: Vec<Shape>,
}

impl View {
    /// The area that it takes on paper.
    pub(super) fn area(&self) -> Area {
        bounds(&self.shapes).unwrap_or(Area::new(0.0, 0.0, 0.0, 0.0))
    }
}

/// Draws a view at a scale.
pub(super) fn draw(arrangement: &Arrangement, name: ViewName, ratio: f64) -> View {
    let mut canvas = Canvas::new(ratio);
    match name {
        ViewName::Inside => inside::draw(arrangement, &mut canvas),
        ViewName::Lid => lid::draw(arrangement, &mut canvas),
        ViewName::Bottom => wall::draw(arrangement, Face::Bottom, &mut canvas),
        ViewName::Right => wall::draw(arrangement, Face::Right, &mut canvas),
        ViewName::Top => wall::draw(arrangement, Face::Top, &mut canvas),
        ViewName::Left => wall::draw(arrangement, Face::Left, &mut canvas),
    }
    View { name, ratio, shapes: canvas.into_shapes() }
}
