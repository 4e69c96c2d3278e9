//! The figures of the enclosure, turned as it is mounted, compared with those of the catalogue.

use super::comparison::begin;
use crate::arrangement::Orientation;
use crate::audit::case::Cases;
use crate::audit::context::Context;
use crate::catalogue::Catalogue;
use crate::space::Face;
use serde_json::json;

const ENCLOSURE: &[(&str, &str)] = &[
    ("description", "description"),
    ("material", "material"),
    ("wall_thickness_mm", "wall_thickness_mm"),
    ("certificate", "certificate"),
    ("rated_voltage_v", "rated_voltage_v"),
    ("rated_current_a", "rated_current_a"),
    ("impact_j", "impact_j"),
    ("most_terminals", "most_terminals"),
    ("rated_power", "rated_power"),
    ("defined_arrangement", "defined_arrangement"),
    ("internal_earth_mm2", "internal_earth_mm2"),
    ("external_earth_mm2", "external_earth_mm2"),
    ("mass_kg", "mass_kg"),
    ("price", "price"),
    ("lead_time_days", "lead_time_days"),
];

/// A rectangle `[u, v, width, height]` of the lid or plate after a quarter turn clockwise of a box that
/// was `width_mm` wide: what was to the right is now below.
fn turned(rect: [f64; 4], width_mm: f64) -> [f64; 4] {
    let [u, v, width, height] = rect;
    [v, width_mm - u - width, height, width]
}

/// Where a wall lies after a quarter turn clockwise, seen from the front.
fn wall_after_turn(wall: Face) -> Face {
    match wall {
        Face::Top => Face::Right,
        Face::Right => Face::Bottom,
        Face::Bottom => Face::Left,
        Face::Left => Face::Top,
        Face::Lid => Face::Lid,
        Face::Back => Face::Back,
    }
}

pub(super) fn enclosure(context: &Context<'_>, catalogue: &Catalogue, cases: &mut Cases) {
    let record = &context.arrangement.enclosure;
    let found = begin(
        cases,
        &record.id,
        &record.id,
        &catalogue.enclosure,
        |part| &part.id,
    );
    let Some((mut compare, part)) = found else {
        return;
    };
    compare.fields(record, part, ENCLOSURE);
    compare.values(
        "catalogue_warning",
        &json!(context.arrangement.catalogue_warning),
        &json!(catalogue.about.warning),
    );
    compare.values(
        "defined_arrangement_decides",
        &json!(context.arrangement.heat.defined_arrangement_decides),
        &json!(part.defined_arrangement_decides),
    );
    let turn = record.orientation == Orientation::Turned;
    compare
        .cases
        .is_so(!turn || part.turnable, &[&record.id], || {
            format!("{} is mounted {}", record.id, record.orientation.words())
        });
    let swapped = |size: [f64; 3]| {
        if turn {
            [size[1], size[0], size[2]]
        } else {
            size
        }
    };
    compare.values(
        "outer_mm",
        &json!(record.outer_mm),
        &json!(swapped(part.outer_mm)),
    );
    let interior = [
        record.interior.width_mm,
        record.interior.height_mm,
        record.interior.depth_mm,
    ];
    compare.values("interior", &json!(interior), &json!(swapped(part.inner_mm)));
    let upright_width_mm = part.inner_mm[0];
    let placed = |rect: [f64; 4]| {
        if turn {
            turned(rect, upright_width_mm)
        } else {
            rect
        }
    };
    let plate = &record.plate;
    let of_part = [
        part.plate.x_mm,
        part.plate.y_mm,
        part.plate.width_mm,
        part.plate.height_mm,
    ];
    let of_record = [plate.x_mm, plate.y_mm, plate.width_mm, plate.height_mm];
    compare.values("plate", &json!(of_record), &json!(placed(of_part)));
    compare.values(
        "plate.standoff_mm",
        &json!(plate.standoff_mm),
        &json!(part.plate.standoff_mm),
    );
    let of_part = [
        part.lid.x_mm,
        part.lid.y_mm,
        part.lid.width_mm,
        part.lid.height_mm,
    ];
    let of_record = [
        record.lid.u_mm,
        record.lid.v_mm,
        record.lid.width_mm,
        record.lid.height_mm,
    ];
    compare.values("lid", &json!(of_record), &json!(placed(of_part)));
    let lies = |wall: Face| if turn { wall_after_turn(wall) } else { wall };
    compare.values(
        "hinge",
        &json!(record.hinge),
        &json!(part.lid.hinge.map(lies)),
    );
    for (wall, known) in &part.walls {
        let Some(of_record) = record.walls.get(&lies(*wall)) else {
            compare.cases.is_so(true, &[&record.id], || {
                format!(
                    "the {wall} wall of the catalogue is not recorded; no entry may stand there"
                )
            });
            continue;
        };
        let areas: Vec<[f64; 4]> = of_record
            .areas
            .iter()
            .map(|area| [area.u_mm, area.v_mm, area.width_mm, area.height_mm])
            .collect();
        compare.values("areas", &json!(areas), &json!(known.areas_mm));
        let blocked: Vec<[f64; 4]> = of_record
            .blocked
            .iter()
            .map(|part| [part.u_mm, part.v_mm, part.width_mm, part.height_mm])
            .collect();
        compare.values("blocked", &json!(blocked), &json!(known.blocked_mm));
        compare.fields(
            of_record,
            known,
            &[
                ("flange_plate", "flange_plate"),
                ("largest_thread", "largest_thread"),
                ("most_entries", "most_entries"),
            ],
        );
    }
    for wall in record.walls.keys() {
        let known = part.walls.keys().any(|of_part| lies(*of_part) == *wall);
        compare.cases.is_so(known, &[&record.id], || {
            format!(
                "the {wall} wall of {} may be drilled by the record",
                record.id
            )
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quarter_turn_puts_the_right_edge_below() {
        // A box 300 wide; a rectangle 10 from the left and 20 from below, 100 wide, 50 high.
        assert_eq!(
            turned([10.0, 20.0, 100.0, 50.0], 300.0),
            [20.0, 190.0, 50.0, 100.0]
        );
    }
}
