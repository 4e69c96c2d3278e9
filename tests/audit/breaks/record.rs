//! Breaks of the rules of `record`: the record itself: its format, figures, identities, places and sums.

use super::{Broken, broken, shift_x};
use glandrail::arrangement::WiringSpaceStep;

/// The breaks of this group.
pub static BREAKS: &[Broken] = &[
    broken("record.format", "another format", |a| {
        a.format = "glandrail-arrangement/0".into()
    }),
    broken("record.format", "no name of the catalogue", |a| {
        a.catalogue = " ".into()
    }),
    broken("record.format", "no caution", |a| a.caution.clear()),
    broken("record.numbers", "a negative figure", |a| {
        a.wires[0].route_mm = -1.0
    }),
    broken("record.numbers", "a figure that is none", |a| {
        a.wires[0].route_mm = f64::NAN
    }),
    broken("record.identities", "a strip named twice", |a| {
        a.strips.push(a.strips[0].clone())
    }),
    broken("record.references", "a circuit that does not exist", |a| {
        a.wires[11].circuit = "C9".into()
    }),
    broken("record.coordinates", "outside of a plug 1 mm aside", |a| {
        shift_x(&mut a.entries[2].outside, 1.0)
    }),
    broken("record.coordinates", "lamp 0.1 mm off its hole", |a| {
        a.elements[2].y_mm += 0.1
    }),
    broken("record.outer_size", "0.1 mm too narrow outside", |a| {
        a.enclosure.outer_mm[0] = 259.9
    }),
    broken("record.outer_size", "0.1 mm too low outside", |a| {
        a.enclosure.outer_mm[1] = 259.9
    }),
    broken("record.outer_size", "no back wall in the depth", |a| {
        a.enclosure.outer_mm[2] = 126.9
    }),
    broken(
        "record.outer_size",
        "walls thicker than there is room",
        |a| a.enclosure.wall_thickness_mm = 3.1,
    ),
    broken("record.live_parts", "bare part out of the body", |a| {
        a.elements[0].live[0].block.min.z_mm = 81.0
    }),
    broken(
        "record.live_parts",
        "bare part out of the left of a terminal",
        |a| a.terminals[0].live[0].block.min.x_mm = 19.9,
    ),
    broken(
        "record.live_parts",
        "bare part out of the right of a terminal",
        |a| a.terminals[0].live[0].block.max.x_mm = 26.1,
    ),
    broken(
        "record.live_parts",
        "bare part out of the lower of a terminal",
        |a| a.terminals[0].live[0].block.min.y_mm = 77.4,
    ),
    broken(
        "record.live_parts",
        "bare part out of the upper of a terminal",
        |a| a.terminals[0].live[0].block.max.y_mm = 122.6,
    ),
    broken(
        "record.live_parts",
        "bare part out of the front of a terminal",
        |a| a.terminals[0].live[0].block.max.z_mm = 57.6,
    ),
    broken("record.live_parts", "clamp on a level that is none", |a| {
        a.terminals[7].clamps[0].level = 1
    }),
    broken("record.limits", "tolerance below nothing", |a| {
        a.limits.tolerance_mm = -0.1
    }),
    broken(
        "record.limits",
        "49.9 mm to intrinsically safe terminals",
        |a| a.limits.intrinsic_separation_mm = 49.9,
    ),
    broken(
        "record.limits",
        "25 mm² with less than is published",
        |a| {
            a.limits.wiring_space.push(WiringSpaceStep {
                up_to_mm2: 25.0,
                space_mm: 50.7,
            })
        },
    ),
    broken("record.totals", "price raised", |a| a.price += 1.0),
];
