//! Where a view is drawn: turns places on the box into places on paper and keeps text apart.

use super::geometry::{Area, Spot};
use super::shape::{Geometry, Shape, SubjectKey};
use super::style::{Colour, Layer};
use super::text::{Label, TextStyle};
use super::turn::Turn;

/// Free space kept around a text that looks for its place.
const TEXT_GAP_MM: f64 = 0.3;
/// A piece of a broken line shorter than this is left out.
const SHORTEST_PIECE_MM: f64 = 0.3;

/// What a text may stand on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ground {
    /// Neither text nor reserved areas.
    Free,
    /// Anything but text.
    Drawn,
}

/// A drawing in the making. The datum of the view is the origin of the paper.
#[derive(Debug, Clone, Default)]
pub struct Canvas {
    ratio: f64,
    turn: Turn,
    shapes: Vec<Shape>,
    /// Where text stands.
    taken: Vec<Area>,
    /// Where text that looks for its place must not stand.
    reserved: Vec<Area>,
    /// Circles whose lines text that looks for its place must not cross.
    circles: Vec<(Spot, f64)>,
    /// Rectangles whose edges such text must not cross either.
    frames: Vec<Area>,
    /// Bodies that lie over extension lines.
    covered: Vec<Area>,
    /// Rows of texts that dashed lines leave out whole: a dash between two texts would be read as theirs.
    rows: Vec<Area>,
}

impl Canvas {
    /// An empty canvas on which one millimetre of the box takes `ratio` millimetres of paper.
    pub fn new(ratio: f64) -> Self {
        Self {
            ratio,
            turn: Turn::None,
            shapes: Vec::new(),
            taken: Vec::new(),
            reserved: Vec::new(),
            circles: Vec::new(),
            frames: Vec::new(),
            covered: Vec::new(),
            rows: Vec::new(),
        }
    }

    /// The same canvas, on which places of the box are turned about the datum.
    pub fn turned(self, turn: Turn) -> Self {
        Self { turn, ..self }
    }

    /// How places of the box are turned.
    pub fn turn(&self) -> Turn {
        self.turn
    }

    /// Millimetres of paper for one of the box.
    pub fn ratio(&self) -> f64 {
        self.ratio
    }

    /// The place on paper of a place on the box.
    pub fn spot(&self, x_mm: f64, y_mm: f64) -> Spot {
        let (x_mm, y_mm) = self.turn.apply(x_mm, y_mm);
        Spot::new(x_mm * self.ratio, y_mm * self.ratio)
    }

    /// The rectangle on paper between two corners on the box.
    pub fn area(&self, x0_mm: f64, y0_mm: f64, x1_mm: f64, y1_mm: f64) -> Area {
        Area::between(self.spot(x0_mm, y0_mm), self.spot(x1_mm, y1_mm))
    }

    /// Draws a shape.
    pub fn add(&mut self, shape: Shape) {
        if let Geometry::Text(label) = &shape.geometry {
            self.taken.push(label.area());
        }
        self.shapes.push(shape);
    }

    /// Draws several shapes.
    pub fn add_all(&mut self, shapes: impl IntoIterator<Item = Shape>) {
        for shape in shapes {
            self.add(shape);
        }
    }

    /// Draws a straight line between two places on paper.
    pub fn line(&mut self, layer: Layer, from: Spot, to: Spot) {
        self.add(Shape::new(layer, Geometry::Line(from, to)));
    }

    /// Lets a body lie over extension lines, which are then broken at it.
    pub fn cover(&mut self, area: Area) {
        self.covered.push(area);
    }

    /// Keeps dashed lines out of a row of texts, also between them.
    pub fn keep_dashes_off(&mut self, row: Area) {
        self.rows.push(row);
    }

    /// Draws a line parallel to an axis, broken where a text stands and, if it is one of a dimension, at
    /// bodies that cover it, as drawing practice has it.
    pub fn interrupted(&mut self, line: &Shape) {
        let Geometry::Line(from, to) = line.geometry else {
            return self.add(line.clone());
        };
        let is_level = (from.y_mm - to.y_mm).abs() < 1e-9;
        let (low, high) = if is_level {
            (from.x_mm.min(to.x_mm), from.x_mm.max(to.x_mm))
        } else {
            (from.y_mm.min(to.y_mm), from.y_mm.max(to.y_mm))
        };
        let strip = Area::between(from, to).grown(TEXT_GAP_MM);
        let is_dimension = line.layer == Layer::Dimensions;
        // A line that begins at an edge is not covered by what ends there.
        let core = Area::between(from, to).grown(1e-3);
        let bodies = self.covered.iter().filter(|_| is_dimension);
        let bodies = bodies.map(|body| body.grown(-0.01));
        let bodies = bodies.filter(|body| body.meets(&core));
        let is_dashed = line.layer == Layer::Hidden;
        let rows = self.rows.iter().filter(|_| is_dashed).copied();
        let mut gaps: Vec<(f64, f64)> = self
            .taken
            .iter()
            .copied()
            .chain(rows)
            .map(|taken| taken.grown(TEXT_GAP_MM))
            .filter(|taken| taken.meets(&strip))
            .chain(bodies)
            .map(|taken| {
                if is_level {
                    (taken.left_mm, taken.right_mm)
                } else {
                    (taken.bottom_mm, taken.top_mm)
                }
            })
            .collect();
        gaps.push((high, high));
        gaps.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let mut begin = low;
        for (gap_low, gap_high) in gaps {
            let end = gap_low.min(high);
            if end - begin > SHORTEST_PIECE_MM {
                let piece = if is_level {
                    Geometry::Line(Spot::new(begin, from.y_mm), Spot::new(end, from.y_mm))
                } else {
                    Geometry::Line(Spot::new(from.x_mm, begin), Spot::new(from.x_mm, end))
                };
                self.add(Shape {
                    geometry: piece,
                    ..line.clone()
                });
            }
            begin = begin.max(gap_high);
        }
    }

    /// Draws the four sides of a rectangle, each broken where a text stands.
    pub fn interrupted_rectangle(&mut self, layer: Layer, area: Area, subject: &SubjectKey) {
        let corners = [
            Spot::new(area.left_mm, area.bottom_mm),
            Spot::new(area.right_mm, area.bottom_mm),
            Spot::new(area.right_mm, area.top_mm),
            Spot::new(area.left_mm, area.top_mm),
        ];
        for index in 0..4 {
            let side = Geometry::Line(corners[index], corners[(index + 1) % 4]);
            self.interrupted(&Shape::new(layer, side).of(subject.clone()));
        }
    }

    /// Whether an area of the paper is neither written on nor reserved.
    pub fn is_free(&self, area: &Area) -> bool {
        let wide = area.grown(TEXT_GAP_MM);
        let is_taken = self
            .taken
            .iter()
            .chain(&self.reserved)
            .any(|taken| taken.meets(&wide));
        let is_crossed = self
            .circles
            .iter()
            .any(|(centre, radius_mm)| area.meets_circle_line(*centre, *radius_mm));
        let is_cut = self
            .frames
            .iter()
            .any(|frame| frame.meets(area) && !frame.contains(area));
        !is_taken && !is_crossed && !is_cut
    }

    /// Whether any text stands in an area of the paper, wholly or in part.
    pub fn has_text_in(&self, area: &Area) -> bool {
        self.taken.iter().any(|taken| taken.meets(area))
    }

    /// Keeps texts that look for their place off the edges of a rectangle: they stand within or beside it.
    pub fn keep_off_edges(&mut self, frame: Area) {
        self.frames.push(frame);
    }

    /// Keeps texts that look for their place off the line of a circle: they stand within or beside it.
    pub fn keep_off_circle(&mut self, centre: Spot, radius_mm: f64) {
        self.circles.push((centre, radius_mm));
    }

    /// Keeps an area of the paper free of texts that look for their place.
    pub fn reserve(&mut self, area: Area) {
        self.reserved.push(area);
    }

    /// Writes the first of the labels that touches no text yet written; false if none does.
    pub fn write_first(
        &mut self,
        labels: impl IntoIterator<Item = Label>,
        subject: Option<&SubjectKey>,
    ) -> bool {
        for label in labels {
            if self.is_free(&label.area()) {
                let mut shape = Shape::new(Layer::Text, Geometry::Text(label));
                shape.subject = subject.cloned();
                self.add(shape);
                return true;
            }
        }
        false
    }

    /// Like [`Canvas::write_first`], but if no label finds free space, the first that touches no text is
    /// written over what is drawn, on a white ground.
    pub fn write_over(&mut self, labels: Vec<Label>, subject: &SubjectKey) -> bool {
        if self.write_first(labels.iter().cloned(), Some(subject)) {
            return true;
        }
        let clear = labels.into_iter().find(|label| {
            let area = label.area();
            !self.taken.iter().any(|taken| taken.meets(&area))
        });
        let Some(label) = clear else { return false };
        self.write_on(label, Colour::White, Some(subject));
        true
    }

    /// Like [`Canvas::write_first`], on a ground of a colour that breaks whatever lines lie under the text.
    pub fn write_first_on(
        &mut self,
        colour: Colour,
        labels: impl IntoIterator<Item = Label>,
        subject: Option<&SubjectKey>,
    ) -> bool {
        let free = labels.into_iter().find(|label| self.is_free(&label.area()));
        let Some(label) = free else { return false };
        self.write_on(label, colour, subject);
        true
    }

    /// Writes a label where it is told to be, on a ground that breaks the lines under it.
    pub fn write_on(&mut self, label: Label, colour: Colour, subject: Option<&SubjectKey>) {
        let ground = Geometry::Rectangle(label.area().grown(TEXT_GAP_MM));
        self.add(Shape::new(Layer::Text, ground).fill(colour).without_edge());
        let mut shape = Shape::new(Layer::Text, Geometry::Text(label));
        shape.subject = subject.cloned();
        self.add(shape);
    }

    /// Writes lines that stand close to each other, on one ground under all of them.
    pub fn write_lines_on(&mut self, lines: Vec<Label>, colour: Colour, subject: &SubjectKey) {
        let areas = lines.iter().map(|label| label.area().grown(TEXT_GAP_MM));
        let Some(ground) = areas.reduce(|all, next| all.joined(&next)) else {
            return;
        };
        let ground = Geometry::Rectangle(ground);
        self.add(Shape::new(Layer::Text, ground).fill(colour).without_edge());
        for label in lines {
            self.add(Shape::new(Layer::Text, Geometry::Text(label)).of(subject.clone()));
        }
    }

    /// Writes the first of the blocks of lines that finds its ground; false if none does.
    pub fn write_block(
        &mut self,
        blocks: &[Vec<Label>],
        ground: Ground,
        subject: &SubjectKey,
    ) -> bool {
        let is_clear = |label: &Label| match ground {
            Ground::Free => self.is_free(&label.area()),
            Ground::Drawn => {
                let area = label.area().grown(TEXT_GAP_MM);
                !self.taken.iter().any(|taken| taken.meets(&area))
            }
        };
        let Some(block) = blocks.iter().find(|block| block.iter().all(is_clear)) else {
            return false;
        };
        for label in block {
            self.add(Shape::new(Layer::Text, Geometry::Text(label.clone())).of(subject.clone()));
        }
        true
    }

    /// Writes a label where it is told to be.
    pub fn write(&mut self, at: Spot, style: TextStyle, content: impl Into<String>) {
        let label = Label {
            at,
            style,
            content: content.into(),
        };
        self.add(Shape::new(Layer::Text, Geometry::Text(label)));
    }

    /// What has been drawn.
    pub fn into_shapes(self) -> Vec<Shape> {
        self.shapes
    }

    /// What has been drawn so far.
    pub fn shapes(&self) -> &[Shape] {
        &self.shapes
    }
}
