//! The operating elements alone, from outside and as large as the paper allows: actuators, tags, legends. Its scale is
//! chosen so that every legend has room, which the drawing of the whole lid cannot promise.

use super::lid::{draw_element, write_label};
use crate::arrangement::Arrangement;
use crate::sheets::drawing::{Area, Canvas, Layer};

/// Kept round the footprints for legends that stand over them.
const MARGIN_MM: f64 = 12.0;

/// Draws the elements.
pub(super) fn draw(arrangement: &Arrangement, canvas: &mut Canvas) {
    draw_with_labels(arrangement, canvas);
}

/// Whether every legend has room at a scale.
pub(in crate::sheets) fn has_room(arrangement: &Arrangement, ratio: f64) -> bool {
    draw_with_labels(arrangement, &mut Canvas::new(ratio))
}

fn draw_with_labels(arrangement: &Arrangement, canvas: &mut Canvas) -> bool {
    let footprints = arrangement.elements.iter().map(|element| {
        let foot = &element.footprint;
        canvas.area(foot.u_mm, foot.v_mm, foot.right_mm(), foot.top_mm())
    });
    let footprints: Vec<Area> = footprints.collect();
    let Some(all) = footprints
        .iter()
        .copied()
        .reduce(|all, next| all.joined(&next))
    else {
        return true;
    };
    for element in &arrangement.elements {
        // Nobody drills by this view: its holes are not on their layer.
        draw_element(element, Layer::Outline, canvas);
    }
    for area in footprints {
        canvas.reserve(area);
    }
    let inner = all.grown(MARGIN_MM);
    let mut have_room = true;
    for element in &arrangement.elements {
        have_room &= write_label(arrangement, element, inner, canvas);
    }
    have_room
}
