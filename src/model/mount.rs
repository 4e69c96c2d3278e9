//! An enclosure in one of its orientations: all figures turned into the mounted position.

use crate::arrangement::{EnclosureRecord, Orientation, WallRecord};
use crate::catalogue::{Enclosure, MountingPlate, RailDirection};
use crate::space::{Face, Interior, Rect};
use std::collections::BTreeMap;

/// Turns the catalogue's figures into the mounted position.
///
/// Turned a quarter clockwise, seen from the front, a point (x, y) of a face of width W comes to lie at
/// (y, W − x); positions on a wall stay what they are, since u runs round the box.
pub fn mount(enclosure: &Enclosure, orientation: Orientation) -> EnclosureRecord {
    let [outer_w, outer_h, outer_d] = enclosure.outer_mm;
    let [inner_w, inner_h, inner_d] = enclosure.inner_mm;
    let lid = Rect::new(
        enclosure.lid.x_mm,
        enclosure.lid.y_mm,
        enclosure.lid.width_mm,
        enclosure.lid.height_mm,
    );
    let plate = Rect::new(
        enclosure.plate.x_mm,
        enclosure.plate.y_mm,
        enclosure.plate.width_mm,
        enclosure.plate.height_mm,
    );
    let walls = |turn: fn(Face) -> Face| -> BTreeMap<Face, WallRecord> {
        enclosure
            .walls
            .iter()
            .map(|(face, wall)| {
                let rects = |of: &[[f64; 4]]| -> Vec<Rect> {
                    of.iter()
                        .map(|[u, v, width, height]| Rect::new(*u, *v, *width, *height))
                        .collect()
                };
                let record = WallRecord {
                    areas: rects(&wall.areas_mm),
                    blocked: rects(&wall.blocked_mm),
                    flange_plate: wall.flange_plate,
                    largest_thread: wall.largest_thread,
                    most_entries: wall.most_entries.clone(),
                };
                (turn(*face), record)
            })
            .collect()
    };
    let turn_rect = |rect: Rect| {
        Rect::new(
            rect.v_mm,
            inner_w - rect.right_mm(),
            rect.height_mm,
            rect.width_mm,
        )
    };
    let (outer_mm, interior, lid, plate, hinge, walls) = match orientation {
        Orientation::Upright => (
            [outer_w, outer_h, outer_d],
            Interior {
                width_mm: inner_w,
                height_mm: inner_h,
                depth_mm: inner_d,
            },
            lid,
            plate,
            enclosure.lid.hinge,
            walls(|face| face),
        ),
        Orientation::Turned => (
            [outer_h, outer_w, outer_d],
            Interior {
                width_mm: inner_h,
                height_mm: inner_w,
                depth_mm: inner_d,
            },
            turn_rect(lid),
            turn_rect(plate),
            enclosure.lid.hinge.map(Face::turned_clockwise),
            walls(Face::turned_clockwise),
        ),
    };
    EnclosureRecord {
        id: enclosure.id.clone(),
        description: enclosure.description.clone(),
        orientation,
        material: enclosure.material,
        outer_mm,
        interior,
        wall_thickness_mm: enclosure.wall_thickness_mm,
        plate: MountingPlate {
            x_mm: plate.u_mm,
            y_mm: plate.v_mm,
            width_mm: plate.width_mm,
            height_mm: plate.height_mm,
            standoff_mm: enclosure.plate.standoff_mm,
        },
        lid,
        hinge,
        walls,
        certificate: enclosure.certificate.clone(),
        rated_voltage_v: enclosure.rated_voltage_v,
        rated_current_a: enclosure.rated_current_a,
        impact_j: enclosure.impact_j,
        most_terminals: enclosure.most_terminals,
        rated_power: enclosure.rated_power.clone(),
        defined_arrangement: enclosure.defined_arrangement.clone(),
        internal_earth_mm2: enclosure.internal_earth_mm2,
        external_earth_mm2: enclosure.external_earth_mm2,
        mass_kg: enclosure.mass_kg,
        price: enclosure.price,
        lead_time_days: enclosure.lead_time_days,
    }
}

/// The rail direction that a horizontal rail of the mounted box has in the upright one.
pub fn rail_direction(orientation: Orientation) -> RailDirection {
    match orientation {
        Orientation::Upright => RailDirection::Horizontal,
        Orientation::Turned => RailDirection::Vertical,
    }
}
