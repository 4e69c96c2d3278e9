//! Views: each turns an arrangement into neutral shapes, with the datum of the face as origin.

mod elements;
mod front;
mod inside;
mod lid;
mod on_rails;
mod outline_names;
mod parts;
mod pictorial;
mod positions;
mod rail;
mod section;
mod stretch;
mod wall;

pub(super) use elements::has_room;
pub(super) use parts::FaceOutline;
pub(super) use rail::widest_end_mm;
pub(super) use stretch::Stretch;

use super::drawing::{Area, Canvas, Shape, Turn, bounds};
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
    /// A section from the left: the depth stack.
    Section,
    /// The closed box in isometric projection.
    Pictorial,
    /// The opened box in isometric projection.
    Open,
}

impl ViewName {
    /// All views.
    pub const ALL: [ViewName; 9] = [
        ViewName::Inside,
        ViewName::Lid,
        ViewName::Bottom,
        ViewName::Right,
        ViewName::Top,
        ViewName::Left,
        ViewName::Section,
        ViewName::Pictorial,
        ViewName::Open,
    ];

    /// The four walls in the order in which u runs round the box.
    pub const WALLS: [ViewName; 4] = [
        ViewName::Bottom,
        ViewName::Right,
        ViewName::Top,
        ViewName::Left,
    ];

    /// The name used in files.
    pub fn name(self) -> &'static str {
        match self {
            ViewName::Inside => "inside",
            ViewName::Lid => "lid",
            ViewName::Bottom => "bottom",
            ViewName::Right => "right",
            ViewName::Top => "top",
            ViewName::Left => "left",
            ViewName::Section => "section",
            ViewName::Pictorial => "pictorial",
            ViewName::Open => "pictorial-open",
        }
    }

    /// Words for the reader.
    pub fn words(self) -> &'static str {
        match self {
            ViewName::Inside => "Inside, lid removed",
            ViewName::Lid => "Lid, seen from outside",
            ViewName::Bottom => "Bottom wall, seen from outside, lid upwards",
            ViewName::Right => "Right wall, seen from outside, lid upwards",
            ViewName::Top => "Top wall, seen from outside, lid upwards",
            ViewName::Left => "Left wall, seen from outside, lid upwards",
            ViewName::Section => "Section from the left, lid at the right",
            ViewName::Pictorial => "Isometric from below, closed",
            ViewName::Open => "Isometric from above, without lid, top and right wall",
        }
    }

    /// Whether it is a picture, not to be measured.
    pub fn is_picture(self) -> bool {
        matches!(self, ViewName::Pictorial | ViewName::Open)
    }

    /// The face that is looked at; `None` for the inside, the section and the pictures.
    pub fn face(self) -> Option<Face> {
        match self {
            ViewName::Inside | ViewName::Section | ViewName::Pictorial | ViewName::Open => None,
            ViewName::Lid => Some(Face::Lid),
            ViewName::Bottom => Some(Face::Bottom),
            ViewName::Right => Some(Face::Right),
            ViewName::Top => Some(Face::Top),
            ViewName::Left => Some(Face::Left),
        }
    }
}

/// What a view shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Subject {
    /// One of the named views.
    Named(ViewName),
    /// A rail or a part of it, with all that stands on it and the conductors that end there.
    Rail(Stretch),
    /// The operating elements alone, from outside, with their legends.
    Elements,
    /// The closed front, round which walls unfold.
    Front,
    /// A wall as it lies beside the front when unfolded.
    Unfolded(ViewName),
    /// The same without positions, to show where it lies.
    Beside(ViewName),
}

/// How a wall is turned when it lies beside the front: its back edge towards the front, its lid edge
/// outwards.
fn turn_of(name: ViewName) -> Turn {
    match name {
        ViewName::Right => Turn::Quarter,
        ViewName::Top => Turn::Half,
        ViewName::Left => Turn::ThreeQuarters,
        _ => Turn::None,
    }
}

/// From where an unfolded wall is seen.
fn unfolded_words(name: ViewName) -> &'static str {
    match name {
        ViewName::Bottom => "Bottom wall, from below",
        ViewName::Right => "Right wall, from the right",
        ViewName::Top => "Top wall, from above",
        ViewName::Left => "Left wall, from the left",
        other => other.words(),
    }
}

/// A drawn view; the datum is at the origin of the paper.
#[derive(Debug, Clone)]
pub(super) struct View {
    /// Short name.
    pub name: String,
    /// Words for the reader.
    pub title: String,
    /// Millimetres of paper for one of the box.
    pub ratio: f64,
    /// How it is turned.
    pub turn: Turn,
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
pub(super) fn draw(arrangement: &Arrangement, subject: Subject, ratio: f64) -> View {
    let turn = match subject {
        Subject::Unfolded(name) | Subject::Beside(name) => turn_of(name),
        _ => Turn::None,
    };
    let mut canvas = Canvas::new(ratio).turned(turn);
    let (name, title) = match subject {
        Subject::Named(name) => (name.name().to_string(), name.words().to_string()),
        Subject::Rail(stretch) => rail::title(arrangement, stretch),
        Subject::Elements => (
            "elements".into(),
            "Operating elements, seen from outside".into(),
        ),
        Subject::Front => ("front".into(), "Front, closed".into()),
        Subject::Unfolded(name) | Subject::Beside(name) => {
            (name.name().into(), unfolded_words(name).into())
        }
    };
    match subject {
        Subject::Named(ViewName::Inside) => inside::draw(arrangement, &mut canvas),
        Subject::Named(ViewName::Lid) => lid::draw(arrangement, &mut canvas),
        Subject::Named(ViewName::Bottom) => wall::draw(arrangement, Face::Bottom, &mut canvas),
        Subject::Named(ViewName::Right) => wall::draw(arrangement, Face::Right, &mut canvas),
        Subject::Named(ViewName::Top) => wall::draw(arrangement, Face::Top, &mut canvas),
        Subject::Named(ViewName::Left) => wall::draw(arrangement, Face::Left, &mut canvas),
        Subject::Named(ViewName::Section) => section::draw(arrangement, &mut canvas),
        Subject::Named(ViewName::Pictorial) => pictorial::draw_closed(arrangement, &mut canvas),
        Subject::Named(ViewName::Open) => pictorial::draw_open(arrangement, &mut canvas),
        Subject::Rail(stretch) => rail::draw(arrangement, stretch, &mut canvas),
        Subject::Elements => elements::draw(arrangement, &mut canvas),
        Subject::Front => front::draw(arrangement, &mut canvas),
        Subject::Unfolded(name) => {
            if let Some(face) = name.face() {
                wall::draw(arrangement, face, &mut canvas);
            }
        }
        Subject::Beside(name) => {
            if let Some(face) = name.face() {
                wall::draw_plain(arrangement, face, &mut canvas);
            }
        }
    }
    View {
        name,
        title,
        ratio,
        turn,
        shapes: canvas.into_shapes(),
    }
}
