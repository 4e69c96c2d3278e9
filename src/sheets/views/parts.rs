//! What several views draw alike: the outline of a face, words for an entry, distinct positions.

use crate::arrangement::{Arrangement, EntryPurpose, PlacedEntry};
use crate::catalogue::CircuitKind;
use crate::sheets::drawing::{
    Area, Canvas, Colour, Edge, Geometry, Layer, Mark, Pen, Shape, TextStyle, length,
};
use crate::sheets::tenth;
use crate::space::Face;

/// Small text: tags and numbers on views.
pub(super) const SMALL: TextStyle = TextStyle {
    height_mm: 1.8,
    bold: false,
    upwards: false,
    align: crate::sheets::drawing::Align::Start,
};
/// Between a view and the first row of labels along its edge.
pub(super) const EDGE_GAP_MM: f64 = 2.0;

/// The clear inside of a face and its outer outline, in millimetres of the box, from the datum.
#[derive(Debug, Clone, Copy)]
pub(in crate::sheets) struct FaceOutline {
    /// Extent of the inside.
    pub inner: (f64, f64),
    /// Outer left, lower, right and upper edge.
    pub outer: (f64, f64, f64, f64),
}

impl FaceOutline {
    /// The outline of a face as seen from outside; the back is taken as thick as the walls, since
    /// the arrangement does not tell.
    pub(in crate::sheets) fn of(arrangement: &Arrangement, face: Face) -> Self {
        let enclosure = &arrangement.enclosure;
        let interior = &enclosure.interior;
        let [width, height, depth] = enclosure.outer_mm;
        let across = |outer: f64, inner: f64| ((inner - outer) / 2.0, (inner + outer) / 2.0);
        let x = across(width, interior.width_mm);
        let y = across(height, interior.height_mm);
        let back_mm = enclosure
            .wall_thickness_mm
            .min((depth - interior.depth_mm).max(0.0));
        let z = (-back_mm, depth - back_mm);
        let (u, v, inner_v) = match face {
            Face::Bottom | Face::Top => (x, z, interior.depth_mm),
            Face::Left | Face::Right => (y, z, interior.depth_mm),
            Face::Lid | Face::Back => (x, y, interior.height_mm),
        };
        Self {
            inner: (interior.length_along_u_mm(face), inner_v),
            outer: (u.0, v.0, u.1, v.1),
        }
    }

    /// The outer outline on paper.
    pub(super) fn outer_area(&self, canvas: &Canvas) -> Area {
        let (left, lower, right, upper) = self.outer;
        canvas.area(left, lower, right, upper)
    }

    /// Keeps texts that look for their place off the edges of the face.
    pub(super) fn keep_clear(&self, canvas: &mut Canvas) {
        canvas.keep_off_edges(self.outer_area(canvas));
        canvas.keep_off_edges(canvas.area(0.0, 0.0, self.inner.0, self.inner.1));
    }

    /// Draws outer edges and, with the pen given, inner ones.
    pub(super) fn draw(&self, canvas: &mut Canvas, inner: Layer) {
        let outer = Geometry::Rectangle(self.outer_area(canvas));
        canvas.add(Shape::new(Layer::Outline, outer).pen(Pen::solid(0.5)));
        let area = canvas.area(0.0, 0.0, self.inner.0, self.inner.1);
        canvas.add(Shape::new(inner, Geometry::Rectangle(area)));
    }

    /// Dimensions the outer size and how far the datum lies inside the outer edges, above and to the
    /// right of what is drawn so far.
    pub(super) fn dimension(&self, canvas: &mut Canvas) {
        let drawn = crate::sheets::drawing::extent(canvas);
        let outer = self.outer_area(canvas);
        let ratio = canvas.ratio();
        let (up, aside) = (drawn.top_mm + 7.0, drawn.right_mm + 7.0);
        for (edge, (low, high), from_mm, line_mm) in [
            (
                Edge::Upper,
                (outer.left_mm, outer.right_mm),
                outer.top_mm + 1.0,
                up,
            ),
            (
                Edge::Right,
                (outer.bottom_mm, outer.top_mm),
                outer.right_mm + 1.0,
                aside,
            ),
        ] {
            // The datum is near to one of the two edges, whichever way the view is turned.
            let near = if low.abs() <= high.abs() { low } else { high };
            let words = tenth(near.abs() / ratio);
            length(canvas, edge, (near, 0.0), from_mm, line_mm, words);
            let words = tenth((high - low) / ratio);
            length(canvas, edge, (low, high), from_mm, line_mm + 7.0, words);
        }
    }
}

/// Whether an entry belongs to intrinsically safe circuits.
pub(super) fn is_intrinsically_safe(arrangement: &Arrangement, entry: &PlacedEntry) -> bool {
    entry.part.for_intrinsically_safe
        || matches!(&entry.purpose, EntryPurpose::Cable(tag)
        if arrangement.cables.iter().any(|cable| {
            cable.tag == *tag && cable.kind == CircuitKind::IntrinsicallySafe
        }))
}

/// The filling of an entry: light blue for intrinsically safe ones.
pub(super) fn entry_fill(arrangement: &Arrangement, entry: &PlacedEntry) -> Colour {
    if is_intrinsically_safe(arrangement, entry) {
        Colour::LightBlue
    } else {
        Colour::White
    }
}

/// A place to be dimensioned: its position along an edge, and where its own outline ends towards the
/// edge, both in millimetres of the box.
pub(super) type Position = (f64, f64);

/// Positions along an edge, each written once: equal ones (to a tenth) share one extension line, which
/// begins at the one nearest to the edge; centre lines lead on to those behind.
pub(super) fn position_marks(positions: &[Position], canvas: &Canvas, edge: Edge) -> Vec<Mark> {
    let mut marks: Vec<Mark> = Vec::new();
    for (position_mm, across_mm) in positions {
        let content = tenth(*position_mm);
        let from_mm = across_mm * canvas.ratio();
        match marks.iter_mut().find(|mark| mark.content == content) {
            Some(mark) => {
                mark.from_mm = match edge {
                    Edge::Lower | Edge::Left => mark.from_mm.min(from_mm),
                    Edge::Upper | Edge::Right => mark.from_mm.max(from_mm),
                };
            }
            None => marks.push(Mark {
                along_mm: position_mm * canvas.ratio(),
                from_mm,
                content,
                subject: None,
            }),
        }
    }
    marks
}
