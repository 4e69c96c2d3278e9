//! Lengths that the audit measures, against ones reckoned by hand: figures at and just beyond a limit, where a
//! wrong sign or sense would still give the right verdict for what lies far from it.

use crate::fixture::{block, find_terminal, station};
use crate::loads;
use glandrail::arrangement::*;
use glandrail::audit::{RuleResult, Verdict};
use glandrail::catalogue::AccessoryKind;
use glandrail::space::{Block, Rect};

/// What one rule says of the station after a change.
fn found(id: &str, change: impl FnOnce(&mut Arrangement)) -> RuleResult {
    loads::found(id, station(), change)
}

/// That a rule fails by so many millimetres.
pub fn fails_by(rule: &RuleResult, by_mm: f64) {
    let margin_mm = rule.margin.expect("a margin");
    assert_eq!(rule.verdict, Verdict::Fails, "{rule:?}");
    assert!((margin_mm + by_mm).abs() < 1e-6, "{rule:?}");
}

/// Shifts a block along one axis.
pub fn shift(block: &mut Block, axis: usize, by_mm: f64) {
    for point in [&mut block.min, &mut block.max] {
        match axis {
            0 => point.x_mm += by_mm,
            1 => point.y_mm += by_mm,
            _ => point.z_mm += by_mm,
        }
    }
}

#[test]
fn a_part_out_of_each_of_the_six_faces() {
    // The first end stop reaches from 12 to 20 mm, 78 to 122 mm and 15.5 to 51.5 mm in a room of 254 × 254 × 124 mm.
    for (axis, by_mm) in [
        (0, -13.0),
        (0, 235.0),
        (1, -79.0),
        (1, 133.0),
        (2, -16.5),
        (2, 73.5),
    ] {
        let rule = found("space.inside", |a| {
            shift(&mut a.accessories[0].body, axis, by_mm)
        });
        fails_by(&rule, 1.0);
        assert_eq!(rule.subject[0], "A1");
    }
}

#[test]
fn entries_one_aslant_of_the_other_are_round() {
    // Circles of 28 mm, one 26 mm aside and 26 mm before the other: their squares share 2 mm, they do not.
    let aslant = |by_mm: f64| {
        move |a: &mut Arrangement| {
            let entry = &mut a.entries[2];
            entry.u_mm += by_mm - 40.0;
            entry.v_mm += by_mm;
            for block in [&mut entry.inside, &mut entry.outside] {
                shift(block, 0, by_mm - 40.0);
                shift(block, 2, by_mm);
            }
        }
    };
    let apart = found("space.overlap", aslant(26.0));
    assert_eq!(apart.verdict, Verdict::Holds, "{apart:?}");
    // 15 mm either way: 28 − 15 √2.
    fails_by(
        &found("space.overlap", aslant(15.0)),
        28.0 - 15.0 * 2_f64.sqrt(),
    );
}

#[test]
fn centre_distances_side_by_side() {
    let beside = |x_mm: f64| {
        found("elements.centre_distance", |a| {
            a.elements.pop();
            (a.elements[1].x_mm, a.elements[1].y_mm) = (x_mm, 195.0);
        })
    };
    // Holes D22 side by side: the larger distance, 50 mm, lies upwards, 30 mm are left across.
    let rule = beside(90.0);
    assert_eq!(
        (rule.verdict, rule.measured, rule.required),
        (Verdict::Holds, Some(30.0), Some(30.0))
    );
    fails_by(&beside(89.5), 0.5);
    fails_by(&beside(30.5), 0.5);
}

#[test]
fn without_a_tolerance_near_parts_are_measured_all_the_same() {
    // Bare parts from 49 to 71 mm and from 75 to 97 mm; 230 V counts with 250 V: 5 mm.
    let rule = found("distance.clearance", |a| {
        a.limits.tolerance_mm = 0.0;
        let button = &mut a.elements[1];
        // Not the potential of the emergency stop's nearer part.
        button.live[0].potential = "C1/R".into();
        for part in &mut button.live {
            shift(&mut part.block, 0, -64.0);
        }
    });
    fails_by(&rule, 1.0);
    assert_eq!(rule.measured, Some(4.0));
}

#[test]
fn a_red_stop_button_keeps_away_from_the_emergency_stop() {
    // The emergency stop's plate ends at 85 mm. Red for stop is permitted, but not near it: 20 mm are taken as near.
    let verdict = |left_mm: f64| {
        let rule = found("elements.button_colour", |a| {
            let button = &mut a.elements[1];
            (button.function, button.colour) = ("stop".into(), "red".into());
            button.footprint.u_mm = left_mm;
        });
        rule.verdict
    };
    assert_eq!(verdict(105.0), Verdict::Holds);
    assert_eq!(verdict(104.9), Verdict::Fails);
    // Another actuator is no emergency device, however near.
    let beside_lamp = found("elements.button_colour", |a| {
        let lamp = a.elements[2].footprint;
        let button = &mut a.elements[1];
        (button.function, button.colour) = ("stop".into(), "red".into());
        button.footprint = Rect {
            u_mm: 120.0,
            v_mm: lamp.v_mm,
            ..lamp
        };
        a.elements[2].footprint.u_mm = 151.0;
    });
    assert_eq!(beside_lamp.verdict, Verdict::Holds);
}

#[test]
fn each_part_on_a_rail_by_its_face_its_middle_and_its_ends() {
    let body = |id: &str, axis: usize, by_mm: f64| {
        let id = id.to_string();
        move |a: &mut Arrangement| shift(&mut find_terminal(a, &id).body, axis, by_mm)
    };
    for by_mm in [0.5, -0.5] {
        // In front of the rail's face, or in it.
        fails_by(&found("space.on_rail", body("X1:1", 2, by_mm)), 0.5);
        fails_by(&found("space.across_rail", body("X1:1", 1, by_mm)), 0.5);
    }
    // The rail ends at 242 mm, the room at 254 mm; 5 mm are asked for.
    fails_by(
        &found("space.rail_ends", |a| a.rails[0].body.max.x_mm = 250.0),
        1.0,
    );
    fails_by(
        &found("space.rail_ends", |a| a.rails[0].body.min.x_mm = 4.0),
        1.0,
    );
}

#[test]
fn a_rib_is_as_high_as_it_is() {
    // The first entry keeps 36 mm free round 60 mm and 62 mm. A rib 10 mm high, wholly below it or wholly above.
    let rib = |v_mm: f64| {
        found("space.entry_blocked", |a| {
            let entry = &a.entries[0];
            let wall = a.enclosure.walls.get_mut(&entry.wall).expect("a wall");
            wall.blocked.push(Rect::new(50.0, v_mm, 20.0, 10.0));
        })
    };
    for (v_mm, clear_mm) in [(33.0, 1.0), (81.0, 1.0)] {
        let rule = rib(v_mm);
        let measured_mm = rule.measured.expect("a distance");
        assert!((measured_mm - clear_mm).abs() < 1e-6, "{rule:?}");
        assert_eq!(rule.verdict, Verdict::Holds);
    }
    fails_by(&rib(35.0), 1.0);
    fails_by(&rib(79.0), 1.0);
}

#[test]
fn the_way_of_conductors_ends_at_the_next_part() {
    // A body above strip X2, 40 mm over the terminals that reach up to 122.5 mm, and one below, 35 mm under them.
    for (y_mm, way_mm) in [([162.5, 170.0], 40.0), ([30.0, 42.5], 35.0)] {
        let rule = found("space.wiring", |a| {
            a.accessories.push(PlacedAccessory {
                id: "A9".into(),
                body: block([120.0, y_mm[0], 20.0], [150.0, y_mm[1], 50.0]),
                ..a.accessories[0].clone()
            });
        });
        assert_eq!(rule.measured, Some(way_mm), "{rule:?}");
        assert_eq!(rule.subject[1], "A9");
    }
}

#[test]
fn two_strips_are_parted_by_two_end_stops_and_not_by_one() {
    let verdict = |stops: usize| {
        let rule = found("completeness.partitions", |a| {
            let partition = a.accessories.remove(2);
            for (index, x_mm) in [80.0, 100.0].into_iter().take(stops).enumerate() {
                let mut stop = a.accessories[0].clone();
                stop.id = format!("A9{index}");
                let by_mm = x_mm - stop.body.min.x_mm;
                shift(&mut stop.body, 0, by_mm);
                a.accessories.push(stop);
            }
            assert_eq!(partition.kind, AccessoryKind::Partition);
        });
        rule.verdict
    };
    assert_eq!(verdict(0), Verdict::Fails);
    assert_eq!(verdict(1), Verdict::Fails);
    assert_eq!(verdict(2), Verdict::Holds);
}

#[test]
fn only_a_partition_that_closes_the_room_stands_for_distance() {
    // From wall to wall and from the plate, 8 mm off the back, to the lid; a gap of 1.5 mm is permitted on each side.
    let verdict = |side: usize, gap_mm: f64| {
        let rule = found("distance.intrinsic_other", |a| {
            a.elements.clear();
            a.limits.intrinsic_separation_mm = 1000.0;
            let body = &mut a.accessories[2].body;
            *body = block([76.0, 0.0, 8.0], [78.0, 254.0, 124.0]);
            match side {
                0 => body.min.y_mm += gap_mm,
                1 => body.max.y_mm -= gap_mm,
                2 => body.min.z_mm += gap_mm,
                _ => body.max.z_mm -= gap_mm,
            }
        });
        rule.verdict
    };
    for side in 0..4 {
        assert_eq!(verdict(side, 1.5), Verdict::Holds, "side {side}");
        assert_eq!(verdict(side, 1.6), Verdict::Fails, "side {side}");
    }
}

#[test]
fn the_tolerance_is_taken_off_between_intrinsically_safe_circuits() {
    let measured_mm = |tolerance_mm: f64| {
        let rule = found("distance.intrinsic_circuits", |a| {
            a.limits.tolerance_mm = tolerance_mm;
            for id in ["X2:1", "X2:2", "X2:3"] {
                find_terminal(a, id).neighbour_distance_mm = None;
            }
        });
        rule.measured.expect("a distance")
    };
    assert!((measured_mm(0.0) - measured_mm(2.0) - 2.0).abs() < 1e-9);
}

#[test]
fn no_tolerance_is_taken_off_above_the_terminal_s_own_rail() {
    let above = |by_mm: f64| {
        found("distance.earthed_metal", |a| {
            let rail_mm = a.rails[0].body.max.z_mm;
            find_terminal(a, "X1:1").live[0].block.min.z_mm = rail_mm + by_mm;
        })
    };
    assert_eq!(above(5.0).verdict, Verdict::Holds);
    fails_by(&above(4.9), 0.1);
}

#[test]
fn intrinsically_safe_parts_are_not_the_clearance_s() {
    let usual = found("distance.clearance", |_| ());
    let near = found("distance.clearance", |a| {
        let block = find_terminal(a, "X1:8").live[0].block;
        let part = &mut find_terminal(a, "X2:1").live[0];
        part.block = block;
        shift(&mut part.block, 0, 4.0);
    });
    assert_eq!(
        (near.verdict, near.cases),
        (Verdict::Holds, usual.cases),
        "{near:?}"
    );
}

#[test]
fn an_entry_keeps_off_each_corner() {
    // A circle of 28 mm in a wall of 254 × 124 mm; 3 mm are asked for.
    for (u_mm, v_mm) in [(16.0, 62.0), (238.0, 62.0), (140.0, 16.0), (140.0, 108.0)] {
        let rule = found("space.entry_corner", |a| {
            (a.entries[2].u_mm, a.entries[2].v_mm) = (u_mm, v_mm)
        });
        fails_by(&rule, 1.0);
    }
}

#[test]
fn room_to_strike_is_kept_round_the_emergency_stop_alone() {
    // Its plate ends at 85 mm; 20 mm are asked for. The lamp and the button are 10 mm apart.
    for reversed in [false, true] {
        let beside = |left_mm: f64| {
            found("space.emergency_stop_free", |a| {
                a.elements[1].footprint.u_mm = left_mm;
                let button = a.elements[1].footprint;
                a.elements[2].footprint = Rect {
                    u_mm: left_mm + button.width_mm + 10.0,
                    ..button
                };
                if reversed {
                    a.elements.reverse();
                }
            })
        };
        assert_eq!(beside(105.0).verdict, Verdict::Holds);
        fails_by(&beside(104.0), 1.0);
    }
}

#[test]
fn holes_may_touch_each_edge_of_the_lid() {
    // Holes of 22.3 mm with their centres from 40 to 150 mm and from 105 to 195 mm.
    let rule = found("space.lid_area", |a| {
        for element in &mut a.elements {
            element.footprint = Rect::new(element.x_mm - 5.0, element.y_mm - 5.0, 10.0, 10.0);
        }
        a.enclosure.lid = Rect::new(28.85, 93.85, 132.3, 112.3);
    });
    assert_eq!(rule.verdict, Verdict::Holds, "{rule:?}");
    assert!(rule.margin.is_some_and(|mm| mm.abs() < 1e-6), "{rule:?}");
}

#[test]
fn an_operated_element_keeps_off_each_outer_edge() {
    // The lid of 260 × 260 mm lies from −3 to 257 mm; 20 mm are asked for. The button's plate is 30 × 45 mm.
    for (u_mm, v_mm) in [(16.0, 172.5), (208.0, 172.5), (135.0, 16.0), (135.0, 193.0)] {
        let rule = found("space.element_edge", |a| {
            let plate = &mut a.elements[1].footprint;
            (plate.u_mm, plate.v_mm) = (u_mm, v_mm);
        });
        fails_by(&rule, 1.0);
    }
}

#[test]
fn a_rail_is_cut_to_whole_millimetres_and_to_its_body() {
    let verdict = |length_mm: f64, right_mm: f64| {
        let rule = found("space.rail_cut", |a| {
            (a.rails[0].length_mm, a.rails[0].body.max.x_mm) = (length_mm, right_mm);
        });
        rule.verdict
    };
    assert_eq!(verdict(230.0, 242.0), Verdict::Holds);
    assert_eq!(verdict(230.5, 242.5), Verdict::Fails);
    assert_eq!(verdict(230.0, 243.0), Verdict::Fails);
}
