//! Dimensions after ISO 129-1: positions from one datum, single lengths, and the mark of the datum.

use super::canvas::Canvas;
use super::geometry::{Area, Spot};
use super::shape::{Geometry, Shape, SubjectKey};
use super::spread::spread;
use super::style::{Colour, Layer, Pen};
use super::text::{Align, Label, TextStyle, advance_mm};

/// Distance across which a leader slants to its label, where labels had to be moved apart.
const SLANT_MM: f64 = 4.0;
/// Between the end of a leader and its label.
const GAP_MM: f64 = 0.7;
/// Length and half width of an arrow head.
const ARROW_MM: (f64, f64) = (2.5, 0.42);

/// The edge of a view along which labels stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// Below the view; labels read upwards.
    Lower,
    /// Above the view; labels read upwards.
    Upper,
    /// To the left.
    Left,
    /// To the right.
    Right,
}

/// A label on an edge with the place that its leader comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Place along the edge, millimetres of paper.
    pub along_mm: f64,
    /// Where the leader begins, across the edge, millimetres of paper.
    pub from_mm: f64,
    /// What it says.
    pub content: String,
    /// What it stands for.
    pub subject: Option<SubjectKey>,
}

impl Edge {
    /// A spot from its place along the edge and its coordinate across it.
    fn spot(self, along_mm: f64, across_mm: f64) -> Spot {
        match self {
            Edge::Lower | Edge::Upper => Spot::new(along_mm, across_mm),
            Edge::Left | Edge::Right => Spot::new(across_mm, along_mm),
        }
    }

    /// Sign of the direction away from the view.
    fn outwards(self) -> f64 {
        match self {
            Edge::Lower | Edge::Left => -1.0,
            Edge::Upper | Edge::Right => 1.0,
        }
    }
}

/// Writes labels along an edge, beginning at `line_mm` (across the edge), moved apart as little as
/// needed. Returns how far they reach, across the edge.
pub fn marks(
    canvas: &mut Canvas,
    edge: Edge,
    line_mm: f64,
    mut marks: Vec<Mark>,
    style: TextStyle,
) -> f64 {
    marks.sort_by(|a, b| a.along_mm.total_cmp(&b.along_mm));
    let out = edge.outwards();
    let style = match edge {
        Edge::Lower => style.upwards().align(Align::End),
        Edge::Upper => style.upwards().align(Align::Start),
        Edge::Left => style.align(Align::End),
        Edge::Right => style.align(Align::Start),
    };
    let pitch_mm = style.height_mm * 1.7;
    let wished: Vec<f64> = marks.iter().map(|mark| mark.along_mm).collect();
    let mut reach_mm = line_mm;
    for (mark, moved_mm) in marks.iter().zip(spread(&wished, pitch_mm)) {
        let end_mm = line_mm + out * SLANT_MM;
        let (from, bend) = (
            edge.spot(mark.along_mm, mark.from_mm),
            edge.spot(mark.along_mm, line_mm),
        );
        for line in [
            Geometry::Line(from, bend),
            Geometry::Line(bend, edge.spot(moved_mm, end_mm)),
        ] {
            let mut leader = Shape::new(Layer::Dimensions, line);
            leader.subject.clone_from(&mark.subject);
            let is_slanted = matches!(leader.geometry, Geometry::Line(a, b)
                if (a.x_mm - b.x_mm).abs() > 1e-9 && (a.y_mm - b.y_mm).abs() > 1e-9);
            if is_slanted {
                canvas.add(leader)
            } else {
                canvas.interrupted(&leader)
            }
        }
        let half = style.height_mm / 2.0;
        let base = if style.upwards { half } else { -half };
        let at = edge.spot(moved_mm + base, end_mm + out * GAP_MM);
        let label = Label {
            at,
            style,
            content: mark.content.clone(),
        };
        let far = label.area();
        reach_mm = match edge {
            Edge::Lower => reach_mm.min(far.bottom_mm),
            Edge::Upper => reach_mm.max(far.top_mm),
            Edge::Left => reach_mm.min(far.left_mm),
            Edge::Right => reach_mm.max(far.right_mm),
        };
        let mut shape = Shape::new(Layer::Dimensions, Geometry::Text(label)).without_edge();
        shape.subject.clone_from(&mark.subject);
        canvas.add(shape);
    }
    reach_mm
}

/// Marks the datum of a view: a circle on the origin and two arrows that name the axes; an
/// empty name is left out.
pub fn datum(canvas: &mut Canvas, right: &str, up: &str) {
    let origin = Spot::new(0.0, 0.0);
    let pen = Pen::solid(0.35);
    let circle = Geometry::Circle {
        centre: origin,
        radius_mm: 1.3,
    };
    canvas.add(Shape::new(Layer::Dimensions, circle).pen(pen).of("datum"));
    let turned = |x: f64, y: f64| {
        let (x, y) = canvas.turn().apply(x, y);
        Spot::new(x, y)
    };
    let axes = [
        (turned(1.0, 0.0), right, turned(8.0, 2.4)),
        (turned(0.0, 1.0), up, turned(2.2, 8.0)),
    ];
    for (along, name, at) in axes {
        let tip = Spot::new(along.x_mm * 9.0, along.y_mm * 9.0);
        canvas.add(Shape::new(Layer::Dimensions, Geometry::Line(origin, tip)).pen(pen));
        canvas.add(arrow(tip, along.x_mm, along.y_mm));
        if !name.is_empty() {
            // Close to the corner there is always something under the letter.
            let label = Label::centred(at, TextStyle::plain(2.5).bold(), name);
            canvas.write_on(label, Colour::White, None);
        }
    }
}

/// A filled arrow head with its point at `tip`, pointing along the direction given (a unit vector
/// parallel to an axis).
fn arrow(tip: Spot, right: f64, up: f64) -> Shape {
    let back = tip.moved(-right * ARROW_MM.0, -up * ARROW_MM.0);
    let spots = vec![
        tip,
        back.moved(-up * ARROW_MM.1, right * ARROW_MM.1),
        back.moved(up * ARROW_MM.1, -right * ARROW_MM.1),
    ];
    Shape::new(
        Layer::Dimensions,
        Geometry::Polyline {
            spots,
            closed: true,
        },
    )
    .fill(Colour::Black)
    .without_edge()
}

/// Dimensions a length along an edge: from and to along the edge (millimetres of paper), extension
/// lines from `from_mm` to the dimension line at `line_mm` (both across the edge).
pub fn length(
    canvas: &mut Canvas,
    edge: Edge,
    ends_mm: (f64, f64),
    from_mm: f64,
    line_mm: f64,
    content: impl Into<String>,
) {
    let (low, high) = (ends_mm.0.min(ends_mm.1), ends_mm.0.max(ends_mm.1));
    let beyond = line_mm + edge.outwards() * 1.5;
    for end in [low, high] {
        canvas.line(
            Layer::Dimensions,
            edge.spot(end, from_mm),
            edge.spot(end, beyond),
        );
    }
    let upright = matches!(edge, Edge::Left | Edge::Right);
    let (right, up) = if upright { (0.0, 1.0) } else { (1.0, 0.0) };
    let style = TextStyle::plain(2.5).align(Align::Middle);
    let style = if upright { style.upwards() } else { style };
    let content = content.into();
    let is_narrow = high - low < advance_mm(&content, &style) + 2.0;
    // Text stands above the dimension line, read from below or from the right.
    // Where it is too wide it goes beside, before the lower end.
    let (place, style) = if is_narrow {
        (low - 2.0 * ARROW_MM.0 - GAP_MM, style.align(Align::End))
    } else {
        ((low + high) / 2.0, style)
    };
    let (lift, half) = (if is_narrow { 0.0 } else { 1.0 }, style.height_mm / 2.0);
    let across = if is_narrow {
        if upright { half } else { -half }
    } else if upright {
        -lift
    } else {
        lift
    };
    let label = Label {
        at: edge.spot(place, line_mm + across),
        style,
        content,
    };
    if high - low < 3.0 * ARROW_MM.0 {
        // Too short for arrows inside: they point from outside.
        for (end, sign) in [(low, -1.0), (high, 1.0)] {
            let tail = edge.spot(end + sign * 2.0 * ARROW_MM.0, line_mm);
            canvas.line(Layer::Dimensions, edge.spot(end, line_mm), tail);
            canvas.add(arrow(edge.spot(end, line_mm), -sign * right, -sign * up));
        }
    } else {
        canvas.add(arrow(edge.spot(low, line_mm), -right, -up));
        canvas.add(arrow(edge.spot(high, line_mm), right, up));
    }
    canvas.line(
        Layer::Dimensions,
        edge.spot(low, line_mm),
        edge.spot(high, line_mm),
    );
    canvas.add(Shape::new(Layer::Dimensions, Geometry::Text(label)));
}

/// Crossing centre lines of a hole: a short cross in its middle and arms that stand out by
/// `beyond_mm`; the space between is left to numbers inside the hole.
pub fn centre_mark(canvas: &mut Canvas, centre: Spot, half: (f64, f64), beyond_mm: f64) {
    let inner = (half.0.min(half.1) * 0.25).min(0.8);
    for (right, up, reach) in [(1.0, 0.0, half.0), (0.0, 1.0, half.1)] {
        let pen = Pen::solid(0.18);
        let cross = (
            centre.moved(-right * inner, -up * inner),
            centre.moved(right * inner, up * inner),
        );
        canvas.add(Shape::new(Layer::Centre, Geometry::Line(cross.0, cross.1)).pen(pen));
        for sign in [-1.0, 1.0] {
            let from = (reach - 1.0).max(inner) * sign;
            let to = (reach + beyond_mm) * sign;
            let (a, b) = (
                centre.moved(right * from, up * from),
                centre.moved(right * to, up * to),
            );
            canvas.add(Shape::new(Layer::Centre, Geometry::Line(a, b)).pen(pen));
        }
    }
}

/// The area that a view takes so far.
pub fn extent(canvas: &Canvas) -> Area {
    super::shape::bounds(canvas.shapes()).unwrap_or(Area::new(0.0, 0.0, 0.0, 0.0))
}
