//! The closed front, as the middle round which the walls unfold: outline and what sits on the lid, no
//! holes and no positions, which the sheet of the lid has.

use super::parts::{FaceOutline, SMALL};
use crate::arrangement::Arrangement;
use crate::sheets::drawing::{Canvas, Colour, Geometry, Label, Layer, Pen, Shape};
use crate::sheets::subject;
use crate::space::Face;

/// Draws the front.
pub(super) fn draw(arrangement: &Arrangement, canvas: &mut Canvas) {
    let outline = FaceOutline::of(arrangement, Face::Lid);
    outline.draw(canvas, Layer::Hidden);
    for element in &arrangement.elements {
        let foot = &element.footprint;
        let area = canvas.area(foot.u_mm, foot.v_mm, foot.right_mm(), foot.top_mm());
        canvas.add(
            Shape::new(Layer::Outline, Geometry::Rectangle(area))
                .pen(Pen::solid(0.18))
                .fill(Colour::White)
                .of(subject::element(&element.tag)),
        );
    }
    for element in &arrangement.elements {
        let centre = canvas.spot(element.x_mm, element.y_mm);
        canvas.write_first(
            [Label::centred(centre, SMALL, element.tag.clone())],
            Some(&subject::element(&element.tag)),
        );
    }
}
