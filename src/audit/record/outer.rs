//! The outer size of the enclosure against its interior and its walls.

use super::document::RECORD;
use crate::audit::case::{Cases, Rule};
use crate::audit::context::Context;

/// The rule of this file.
pub(super) static RULES: &[Rule] = &[Rule {
    id: "record.outer_size",
    title: "outer size holds interior and walls",
    requires: "the outer width and height of the enclosure are at least those of its interior with the thickness of two walls, the outer depth at least that of the interior with one: every side wall and the back are taken to be as thick as recorded, of the lid nothing is assumed, since the file does not say its thickness",
    source: RECORD,
    unit: "mm",
    check: outer_size,
}];

fn outer_size(context: &Context<'_>, cases: &mut Cases) {
    let enclosure = &context.arrangement.enclosure;
    let interior = &enclosure.interior;
    let [width_mm, height_mm, depth_mm] = enclosure.outer_mm;
    for (what, outer_mm, inner_mm, walls) in [
        ("width", width_mm, interior.width_mm, 2.0),
        ("height", height_mm, interior.height_mm, 2.0),
        ("depth", depth_mm, interior.depth_mm, 1.0),
    ] {
        let least_mm = inner_mm + walls * enclosure.wall_thickness_mm;
        cases.at_least(&[&enclosure.id], outer_mm, least_mm, || {
            format!("outer {what} of {}", enclosure.id)
        });
    }
}
