//! The neutral drawing: shapes in millimetres of paper, y upwards. Knows nothing of terminals, glands
//! or files; views make drawings and writers translate them.

mod canvas;
mod dimension;
mod geometry;
mod hatch;
pub mod isometric;
mod shape;
mod spread;
mod style;
mod table;
mod text;
mod turn;
mod widths;

pub use canvas::{Canvas, Ground};
pub use dimension::{Edge, Mark, centre_mark, datum, extent, length, marks};
pub use geometry::{Area, Spot};
pub use hatch::hatch;
pub use shape::{Geometry, Shape, SubjectKey, bounds};
pub use spread::spread;
pub use style::{Colour, Dash, LINE_WIDTHS_MM, Layer, Pen};
pub use table::{Column, LaidTable, Table};
pub use text::{Align, Label, TextStyle, advance_mm, shortened, wrap};
pub use turn::Turn;

/// One drawn thing of a sheet: a view, a table, the frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// Short name, such as `inside` or `frame`; unique on its sheet.
    pub name: String,
    /// Words for the reader, such as `Wall: bottom`.
    pub title: String,
    /// For a view: how places on paper follow from places on the box.
    pub view: Option<ViewFrame>,
    /// Its shapes, drawn in this order.
    pub shapes: Vec<Shape>,
}

/// Where the datum of a view lies on the paper, and how many millimetres of paper one of the box is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ViewFrame {
    /// The datum on the paper.
    pub datum: Spot,
    /// Millimetres of paper for one millimetre of the box.
    pub ratio: f64,
    /// How the view is turned about its datum.
    pub turn: Turn,
}

/// A sheet of paper with what is drawn on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Short name for file names, such as `inside`, `lid` or `walls`; unique in a set.
    pub name: String,
    /// Words for the reader, with the job that it belongs to.
    pub title: String,
    /// Words for the reader within the set, as a table of contents has them.
    pub heading: String,
    /// Width of the paper.
    pub width_mm: f64,
    /// Height of the paper.
    pub height_mm: f64,
    /// What is drawn, in this order.
    pub groups: Vec<Group>,
}

impl Sheet {
    /// All texts of the sheet with the boxes they take on the paper.
    pub fn texts(&self) -> impl Iterator<Item = (&Label, Area)> {
        self.groups
            .iter()
            .flat_map(|group| &group.shapes)
            .filter_map(|shape| match &shape.geometry {
                Geometry::Text(label) => Some((label, label.area())),
                _ => None,
            })
    }
}
