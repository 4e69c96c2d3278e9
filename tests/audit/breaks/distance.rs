//! Breaks of the rules of `distance`: distances between bare parts, and to earthed metal.

use super::{Broken, accessory, broken, place_element, shift_x};
use crate::fixture::{find_terminal, shielded, stainless};

/// The breaks of this group.
pub static BREAKS: &[Broken] = &[
    broken(
        "distance.clearance",
        "button beside the emergency stop, bare parts 6.8 mm apart",
        |a| {
            a.limits.emergency_stop_free_mm = 0.0;
            a.limits.element_gap_mm = 0.0;
            place_element(&mut a.elements[0], 60.0, 30.0, 30.0, 23.2);
            place_element(&mut a.elements[1], 90.0, 30.0, 30.0, 23.2);
            // Mounted upside down, so that different potentials face each other.
            a.elements[1].live[0].potential = "C1/R".into();
            a.elements[1].live[1].potential = "C1/S".into();
        },
    ),
    broken(
        "distance.clearance",
        "bare parts of the lamp 3.5 mm in front of a spare terminal",
        |a| {
            // Between two terminals of a rail or two elements the way through air stands for the way over
            // surfaces too, and no creepage of the table is below its clearance: there creepage fails as well.
            // No surface joins a terminal and an element, and a terminal without voltage may lie nearer to
            // metal than to 230 V.
            a.limits.contact_bend_mm = 0.0;
            find_terminal(a, "X1:8").live[0].block.max.z_mm = 52.0;
            let lamp = &mut a.elements[2];
            place_element(lamp, 65.0, 30.0, 6.0, 5.6);
            lamp.body.min.z_mm = 57.5;
            for part in &mut lamp.live {
                part.block.min.z_mm = 57.5;
            }
        },
    ),
    broken("distance.creepage", "tracking index unknown", |a| {
        a.terminals[0].tracking_index = None
    }),
    broken(
        "distance.creepage",
        "material group IIIa with 7.9 mm",
        |a| {
            a.terminals[0].tracking_index = Some(175.0);
            a.terminals[0].neighbour_distance_mm = Some(7.9);
        },
    ),
    broken(
        "distance.earthed_metal",
        "bare part 4.9 mm over the rail",
        |a| {
            a.terminals[0].live[0].block.min.z_mm = 15.5 + 4.9;
        },
    ),
    Broken {
        rule: "distance.earthed_metal",
        what: "bare part 6.9 mm behind the metal lid",
        twin: stainless,
        cut: |a| a.elements[0].live[0].block.max.z_mm = 124.0 - 6.9,
    },
    broken(
        "distance.earthed_metal",
        "end plate that may be of metal",
        |a| accessory(a, "A2").material = None,
    ),
    broken(
        "distance.earth_creepage",
        "button 7 mm from the body of the emergency stop",
        |a| {
            // 9 mm less 2 mm of tolerance: enough through air at 230 V, not over a lid of group IIIa.
            a.limits.emergency_stop_free_mm = 0.0;
            a.limits.element_gap_mm = 0.0;
            place_element(&mut a.elements[0], 60.0, 30.0, 30.0, 22.0);
            place_element(&mut a.elements[1], 95.0, 30.0, 30.0, 22.0);
        },
    ),
    broken(
        "distance.earth_creepage",
        "tracking index of the earth terminal unknown",
        |a| find_terminal(a, "X1:9").tracking_index = None,
    ),
    broken(
        "distance.intrinsic_other",
        "strip moved to 49.9 mm round the partition",
        |a| {
            let by_mm = -24.0;
            for terminal in a
                .terminals
                .iter_mut()
                .filter(|terminal| terminal.strip == "X2")
            {
                shift_x(&mut terminal.body, by_mm);
                shift_x(&mut terminal.live[0].block, by_mm);
            }
            for id in ["A4", "A5"] {
                shift_x(&mut accessory(a, id).body, by_mm);
            }
        },
    ),
    Broken {
        rule: "distance.intrinsic_other",
        what: "partition 1.6 mm from the lid",
        twin: shielded,
        cut: |a| accessory(a, "A3").body.max.z_mm = 124.0 - 1.6,
    },
    Broken {
        rule: "distance.intrinsic_other",
        what: "partition 1.6 mm from a wall",
        twin: shielded,
        cut: |a| accessory(a, "A3").body.min.y_mm = 1.6,
    },
    Broken {
        rule: "distance.intrinsic_other",
        what: "partition of 0.8 mm",
        twin: shielded,
        cut: |a| accessory(a, "A3").body.max.x_mm = 80.8,
    },
    broken("distance.intrinsic_other", "workshop asks for 73 mm", |a| {
        a.limits.intrinsic_separation_mm = 73.0
    }),
    broken(
        "distance.intrinsic_circuits",
        "neighbours certified for 5.9 mm",
        |a| {
            find_terminal(a, "X2:1").neighbour_distance_mm = Some(5.9);
        },
    ),
    broken(
        "distance.intrinsic_earth",
        "bare part 2.9 mm over the rail",
        |a| {
            find_terminal(a, "X2:1").live[0].block.min.z_mm = 15.5 + 2.9;
        },
    ),
];
