//! Breaks of the rules of `space`: the room for everything inside, in the walls and in the lid.

use super::{Broken, accessory, broken, shift_x};
use glandrail::arrangement::*;
use glandrail::catalogue::Most;
use glandrail::space::{Face, Rect};

/// Moves an entry of the bottom wall along the wall, with both its blocks.
fn move_entry(entry: &mut PlacedEntry, by_mm: f64) {
    entry.u_mm += by_mm;
    for block in [&mut entry.inside, &mut entry.outside] {
        shift_x(block, by_mm);
    }
}

/// Places the spare entry before the second one, their centres so far apart along the depth.
pub fn one_before_the_other(arrangement: &mut Arrangement, centres_mm: f64) {
    move_entry(&mut arrangement.entries[2], -40.0);
    for (at, by_mm) in [(1, -centres_mm / 2.0), (2, centres_mm / 2.0)] {
        let entry = &mut arrangement.entries[at];
        entry.v_mm += by_mm;
        for block in [&mut entry.inside, &mut entry.outside] {
            block.min.z_mm += by_mm;
            block.max.z_mm += by_mm;
        }
    }
}

/// A rib of 4 x 4 mm at the height of the first entry, so far to the right of the circle that it keeps free.
pub fn rib_beside_entry(arrangement: &mut Arrangement, apart_mm: f64) {
    let entry = &arrangement.entries[0];
    let rib = Rect {
        u_mm: entry.u_mm + entry.envelope_mm / 2.0 + apart_mm,
        v_mm: entry.v_mm - 2.0,
        width_mm: 4.0,
        height_mm: 4.0,
    };
    let walls = &mut arrangement.enclosure.walls;
    let wall = walls.get_mut(&entry.wall).expect("the entry's wall");
    wall.blocked.push(rib);
}

/// The drillable area of the bottom wall.
fn bottom_area(arrangement: &mut Arrangement) -> &mut Rect {
    let wall = arrangement.enclosure.walls.get_mut(&Face::Bottom);
    &mut wall.expect("a wall").areas[0]
}

/// Makes every footprint smaller than its hole, so that the hole alone passes the edge of the lid given.
fn hole_over_edge(arrangement: &mut Arrangement, lid: Rect) {
    for element in &mut arrangement.elements {
        element.footprint = Rect::new(element.x_mm - 5.0, element.y_mm - 5.0, 10.0, 10.0);
    }
    arrangement.enclosure.lid = lid;
}

/// The breaks of this group.
pub static BREAKS: &[Broken] = &[
    broken("space.inside", "locknut beyond back and lid", |a| {
        a.entries[0].inside.min.z_mm = -1.0;
        a.entries[0].inside.max.z_mm = 125.0;
    }),
    broken("space.overlap", "end stop 0.1 mm into a terminal", |a| {
        shift_x(&mut accessory(a, "A1").body, 0.1);
    }),
    broken("space.rail_on_plate", "plate 1 mm too narrow", |a| {
        a.enclosure.plate.width_mm = 229.0
    }),
    broken("space.rail_ends", "workshop asks for 12.5 mm", |a| {
        a.limits.rail_end_mm = 12.5
    }),
    broken("space.rail_cut", "cut to a tenth", |a| {
        a.rails[0].length_mm = 230.1
    }),
    broken("space.on_rail", "end stop 0.1 mm off the rail", |a| {
        let body = &mut accessory(a, "A5").body;
        body.min.z_mm += 0.1;
        body.max.z_mm += 0.1;
    }),
    broken("space.across_rail", "rail 1 mm below its row", |a| {
        a.rails[0].body.min.y_mm -= 1.0;
        a.rails[0].body.max.y_mm -= 1.0;
    }),
    broken("space.across_rail", "end stop 0.1 mm aside", |a| {
        let body = &mut accessory(a, "A5").body;
        body.min.y_mm += 0.1;
        body.max.y_mm += 0.1;
    }),
    broken("space.end_stops_hold", "end stop 0.1 mm off", |a| {
        shift_x(&mut accessory(a, "A5").body, 0.1)
    }),
    broken("space.rail_profile", "terminal for another rail", |a| {
        a.terminals[0].rail_profiles = vec!["TH15-5.5".into()];
    }),
    broken(
        "space.lid_clearance",
        "partition 9.9 mm below the lid",
        |a| {
            accessory(a, "A3").body.max.z_mm = 124.0 - 9.9;
        },
    ),
    broken("space.most_terminals", "certified for 11", |a| {
        a.enclosure.most_terminals = Some(Most::Of(11))
    }),
    broken(
        "space.wiring",
        "gland reaches to 29.9 mm before a terminal",
        |a| {
            a.entries[0].inside.max.y_mm = 77.5 - 29.9;
        },
    ),
    broken("space.wiring", "no step for the section", |a| {
        a.limits.wiring_space.clear()
    }),
    broken(
        "space.element_depth",
        "lamp 24.9 mm before a terminal",
        |a| {
            a.elements[2].body.min.z_mm = 57.5 + 24.9;
        },
    ),
    broken("space.entry_area", "gland 0.1 mm over the edge", |a| {
        move_entry(&mut a.entries[3], 45.1)
    }),
    broken("space.entry_area", "gland 0.1 mm over the left edge", |a| {
        let from_mm = a.entries[0].u_mm - 17.9;
        let area = bottom_area(a);
        area.width_mm -= from_mm - area.u_mm;
        area.u_mm = from_mm;
    }),
    broken(
        "space.entry_area",
        "gland 0.1 mm over the edge at the back",
        |a| {
            let from_mm = a.entries[0].v_mm - 17.9;
            let area = bottom_area(a);
            area.height_mm -= from_mm - area.v_mm;
            area.v_mm = from_mm;
        },
    ),
    broken(
        "space.entry_area",
        "gland 0.1 mm over the edge at the lid",
        |a| {
            let to_mm = a.entries[0].v_mm + 17.9;
            let area = bottom_area(a);
            area.height_mm = to_mm - area.v_mm;
        },
    ),
    broken("space.entry_area", "wall that must not be drilled", |a| {
        a.enclosure.walls.remove(&Face::Bottom);
    }),
    broken("space.entry_blocked", "a rib under an entry", |a| {
        rib_beside_entry(a, -0.1)
    }),
    broken("space.entry_blocked", "a boss wholly under an entry", |a| {
        rib_beside_entry(a, -12.0)
    }),
    broken("space.entry_spacing", "gland 1 mm too near", |a| {
        move_entry(&mut a.entries[1], -4.0)
    }),
    broken("space.entry_rows", "8 mm between two rows", |a| {
        one_before_the_other(a, 36.0)
    }),
    broken("space.entry_corner", "workshop asks for 42.5 mm", |a| {
        a.limits.gland_corner_mm = 42.5
    }),
    broken(
        "space.lid_area",
        "lid usable up to 1 mm before the button's edge",
        |a| {
            a.enclosure.lid.width_mm = 141.0;
        },
    ),
    broken("space.lid_area", "hole over the left edge", |a| {
        hole_over_edge(a, Rect::new(30.0, 23.0, 201.0, 208.0))
    }),
    broken("space.lid_area", "hole over the right edge", |a| {
        hole_over_edge(a, Rect::new(23.0, 23.0, 137.0, 208.0))
    }),
    broken("space.lid_area", "hole over the lower edge", |a| {
        hole_over_edge(a, Rect::new(23.0, 95.0, 208.0, 136.0))
    }),
    broken("space.lid_area", "hole over the upper edge", |a| {
        hole_over_edge(a, Rect::new(23.0, 23.0, 208.0, 180.0))
    }),
    broken("space.element_gap", "workshop asks for 43 mm", |a| {
        a.limits.element_gap_mm = 43.0
    }),
    broken(
        "space.emergency_stop_free",
        "workshop asks for 43 mm",
        |a| {
            a.limits.emergency_stop_free_mm = 43.0;
        },
    ),
    broken("space.element_edge", "workshop asks for 37.5 mm", |a| {
        a.limits.element_edge_mm = 37.5
    }),
];
