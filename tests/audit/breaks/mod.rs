//! The table of breaks: for every rule at least one arrangement broken by hand.

mod completeness;
mod distance;
mod electrical;
mod elements;
mod entries;
mod heat;
mod record;
mod space;
mod suitability;

pub use space::{one_before_the_other, rib_beside_entry};

use crate::fixture::station;
use glandrail::arrangement::*;
use glandrail::space::{Block, Rect};

/// A rule, what was broken, the twin that holds, and the break.
pub struct Broken {
    pub rule: &'static str,
    pub what: &'static str,
    pub twin: fn() -> Arrangement,
    pub cut: fn(&mut Arrangement),
}

const fn broken(rule: &'static str, what: &'static str, cut: fn(&mut Arrangement)) -> Broken {
    Broken {
        rule,
        what,
        twin: station,
        cut,
    }
}

fn shift_x(block: &mut Block, by_mm: f64) {
    block.min.x_mm += by_mm;
    block.max.x_mm += by_mm;
}

/// Moves an element across the lid and makes its footprint, body and bare parts as narrow as given.
fn place_element(
    element: &mut PlacedElement,
    x_mm: f64,
    footprint_mm: f64,
    body_mm: f64,
    live_mm: f64,
) {
    element.x_mm = x_mm;
    element.footprint = Rect {
        u_mm: x_mm - footprint_mm / 2.0,
        width_mm: footprint_mm,
        ..element.footprint
    };
    element.body.min.x_mm = x_mm - body_mm / 2.0;
    element.body.max.x_mm = x_mm + body_mm / 2.0;
    let half_mm = live_mm / 2.0;
    for (part, [from_mm, to_mm]) in element
        .live
        .iter_mut()
        .zip([[-half_mm, -2.0], [2.0, half_mm]])
    {
        part.block.min.x_mm = x_mm + from_mm;
        part.block.max.x_mm = x_mm + to_mm;
    }
}

fn accessory<'a>(arrangement: &'a mut Arrangement, id: &str) -> &'a mut PlacedAccessory {
    arrangement
        .accessories
        .iter_mut()
        .find(|accessory| accessory.id == id)
        .expect("an accessory")
}

/// Every break.
pub fn all() -> impl Iterator<Item = &'static Broken> {
    [
        record::BREAKS,
        suitability::BREAKS,
        electrical::BREAKS,
        distance::BREAKS,
        space::BREAKS,
        heat::BREAKS,
        entries::BREAKS,
        elements::BREAKS,
        completeness::BREAKS,
    ]
    .into_iter()
    .flatten()
}

/// Breaks that a second rule must report too, since the datum decides both.
pub const TOGETHER: &[(&str, &str, &[&str])] = &[
    (
        "record.limits",
        "tolerance below nothing",
        &["record.numbers", "record.limits"],
    ),
    // An element's body, which may be metal, lies round its bare parts and comes near with them.
    (
        "distance.clearance",
        "button beside the emergency stop, bare parts 6.8 mm apart",
        &[
            "distance.clearance",
            "distance.creepage",
            "distance.earthed_metal",
            "distance.earth_creepage",
        ],
    ),
    (
        "distance.creepage",
        "tracking index unknown",
        &["distance.creepage", "distance.earth_creepage"],
    ),
    (
        "distance.earthed_metal",
        "end plate that may be of metal",
        &["distance.earthed_metal", "distance.earth_creepage"],
    ),
    // A hole lies in its footprint, and that in the lid: either rule says so for the other.
    (
        "space.lid_area",
        "hole over the left edge",
        &["record.coordinates", "space.lid_area"],
    ),
    (
        "space.lid_area",
        "hole over the right edge",
        &["record.coordinates", "space.lid_area"],
    ),
    (
        "space.lid_area",
        "hole over the lower edge",
        &["record.coordinates", "space.lid_area"],
    ),
    (
        "space.lid_area",
        "hole over the upper edge",
        &["record.coordinates", "space.lid_area"],
    ),
    (
        "heat.sum",
        "section without a resistance",
        &[
            "electrical.core_section",
            "heat.sum",
            "heat.power",
            "heat.entry_temperature",
            "heat.branching_temperature",
        ],
    ),
    (
        "electrical.terminal_current",
        "no row up to 1.5 mm²",
        &["electrical.terminal_current", "heat.branching_temperature"],
    ),
];
