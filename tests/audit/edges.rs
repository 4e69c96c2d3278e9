//! Edges of rules and the words of what holds: figures exactly on a limit, and cases that no break has.

use crate::fixture::{arranged, block, bundled, find_terminal, stainless, station};
use crate::lengths::fails_by;
use crate::loads;
use glandrail::arrangement::*;
use glandrail::audit::{RuleResult, Verdict};
use glandrail::catalogue::{AccessoryKind, Material};
use glandrail::space::{Face, Rect};

/// What one rule says of the station after a change.
fn found(id: &str, change: impl FnOnce(&mut Arrangement)) -> RuleResult {
    loads::found(id, station(), change)
}

#[test]
fn only_a_thick_partition_that_insulates_and_stands_between_separates() {
    // Straight from the spare terminal X1:8 to X2:1 64.4 mm, round the partition 72.7 mm: without it the former is the
    // least distance, with it the way to the start button, 71.01 mm.
    let measured_mm = |change: fn(&mut PlacedAccessory)| {
        let rule = found("distance.intrinsic_other", |a| {
            change(&mut a.accessories[2])
        });
        rule.measured.expect("a distance")
    };
    let straight = |change| (measured_mm(change) - 64.4).abs() < 1e-6;
    assert!((measured_mm(|_| ()) - 71.0106).abs() < 1e-3);
    assert!(straight(|part| part.material = Some(Material::Steel)));
    assert!(straight(|part| part.material = None));
    assert!(straight(|part| part.kind = AccessoryKind::EndStop));
    assert!(straight(
        |part| part.body.max.x_mm = part.body.min.x_mm + 0.8
    ));
    assert!(!straight(
        |part| part.body.max.x_mm = part.body.min.x_mm + 0.9
    ));
    // One from wall to wall and from plate to lid, left or right of all terminals, closes nothing off.
    for x_mm in [4.0, 200.0] {
        let rule = found("distance.intrinsic_other", |a| {
            a.elements.clear();
            a.limits.intrinsic_separation_mm = 1000.0;
            a.accessories[2].body = block([x_mm, 0.0, 8.0], [x_mm + 2.0, 254.0, 124.0]);
        });
        assert_eq!(rule.verdict, Verdict::Fails, "{x_mm} mm");
    }
}

#[test]
fn a_block_of_an_entry_is_as_large_as_its_part() {
    for axis in 0..2 {
        let rule = found("record.coordinates", |a| {
            let inside = &mut a.entries[0].inside;
            let (least, most) = match axis {
                0 => (&mut inside.min.x_mm, &mut inside.max.x_mm),
                _ => (&mut inside.min.z_mm, &mut inside.max.z_mm),
            };
            *least += 0.5;
            *most -= 0.5;
        });
        fails_by(&rule, 1.0);
    }
}

#[test]
fn an_impossible_number_is_the_only_case_that_is_told() {
    let rule = |change: fn(&mut Arrangement)| found("record.numbers", change);
    for change in [
        |a: &mut Arrangement| a.terminals[0].mass_kg = f64::NAN,
        |a: &mut Arrangement| a.terminals[0].mass_kg = -1.0,
        |a: &mut Arrangement| a.terminals[0].body.max.x_mm = a.terminals[0].body.min.x_mm - 1.0,
        |a: &mut Arrangement| a.terminals[0].body.max.y_mm = a.terminals[0].body.min.y_mm - 1.0,
        |a: &mut Arrangement| a.terminals[0].body.max.z_mm = a.terminals[0].body.min.z_mm - 1.0,
    ] {
        let rule = rule(change);
        let counts = (rule.verdict, rule.failures, rule.cases);
        assert_eq!(counts, (Verdict::Fails, 1, 1), "{}", rule.text);
    }
    // A block without thickness is one.
    let flat = rule(|a| a.terminals[0].body.max.x_mm = a.terminals[0].body.min.x_mm);
    assert_eq!(flat.verdict, Verdict::Holds, "{}", flat.text);
}

#[test]
fn a_rail_of_no_length_is_none() {
    let rule = found("space.rail_cut", |a| {
        a.rails[0].length_mm = 0.0;
        a.rails[0].body.max.x_mm = a.rails[0].body.min.x_mm;
    });
    assert_eq!(rule.verdict, Verdict::Fails);
}

#[test]
fn the_words_of_what_holds() {
    let nothing = found("completeness.contact_points", |a| a.elements.clear());
    assert_eq!(
        (nothing.cases, nothing.text.as_str()),
        (0, "there are no contacts")
    );
    for (id, words) in [
        ("record.identities", "the part `A1` occurs once"),
        ("completeness.wires", "C1 comes from W1/1"),
        (
            "completeness.circuits",
            "W1/1 of C1 is connected with W1/1 (`C1/L`)",
        ),
        (
            "elements.lamp_colour",
            "lamp H1 with the function `normal` is green",
        ),
    ] {
        let rule = found(id, |_| ());
        assert!(rule.text.contains(words), "{id}: {}", rule.text);
    }
    let lower = found("completeness.wires", |a| {
        find_terminal(a, "X1:1").clamps[1].wires.clear()
    });
    let words = "C1 ends at the lower clamp of X1:1, level 0, which lists it 0 times";
    assert_eq!(lower.text, words);
    let unknown = found("heat.sum", |a| a.wires[14].section_mm2 = 1.2);
    assert!(unknown.text.contains("stranded"), "{}", unknown.text);
    for (limit, words) in [
        ("heat.power", "W permitted"),
        ("space.wiring", "mm required"),
    ] {
        let rule = found(limit, |_| ());
        assert!(rule.text.ends_with(words), "{}", rule.text);
    }
}

#[test]
fn a_conductor_is_looked_for_on_its_level_and_its_side() {
    // Listed twice as often as it ends there, were either clamp of the level meant.
    let rule = found("completeness.wires", |a| {
        let clamps = &mut find_terminal(a, "X1:1").clamps;
        assert_eq!(clamps.len(), 2);
        clamps.swap(0, 1);
        for clamp in clamps {
            clamp.wires.clear();
            clamp.wires.push("C1".into());
        }
    });
    // C1 ends at the lower clamp, which lists it once; the upper one lists it and not C2.
    assert_eq!(
        (rule.verdict, rule.failures),
        (Verdict::Fails, 2),
        "{rule:?}"
    );
}

#[test]
fn spare_terminals_are_asked_for_by_the_share_of_those_used() {
    // 8 used ones of the first strip but for earth, one spare.
    let required = |percent: f64| {
        let rule = found("completeness.spare_terminals", |a| {
            a.strips.truncate(1);
            a.spare.terminals_percent = percent;
        });
        rule.required.expect("a number")
    };
    let used = 7.0;
    assert_eq!(required(0.0), 0.0);
    assert_eq!(required(100.0), used);
    assert_eq!(required(100.1), used + 1.0);
    assert_eq!(required(1.0), 1.0);
}

#[test]
fn an_entry_keeps_free_the_larger_of_its_two_sides() {
    for (outside_mm, inside_mm) in [(37.0, 30.0), (30.0, 37.0)] {
        let rule = found("entries.envelope", |a| {
            let sizes = &mut a.entries[0].part.envelope;
            (sizes.outside_mm, sizes.inside_mm) = (outside_mm, inside_mm);
        });
        fails_by(&rule, 1.0);
    }
}

#[test]
fn a_jumper_links_neighbours_from_left_to_right() {
    let verdict =
        |change: fn(&mut Arrangement)| found("electrical.jumper_terminals", change).verdict;
    assert_eq!(verdict(|_| ()), Verdict::Holds);
    assert_eq!(
        verdict(|a| a.jumpers[0].terminals.reverse()),
        Verdict::Fails
    );
    // Neither has a bare part: nothing is known to be common.
    let bare = verdict(|a| {
        for id in ["X1:2", "X1:3"] {
            find_terminal(a, id).live.clear();
        }
    });
    assert_eq!(bare, Verdict::Fails);
}

#[test]
fn a_row_without_conductors_and_a_sum_of_exactly_one_permit_nothing() {
    let rule =
        |change: fn(&mut Arrangement)| loads::found("heat.defined_arrangement", arranged(), change);
    let none = rule(|a| a.enclosure.defined_arrangement[0].most_conductors = 0);
    assert_eq!(none.verdict, Verdict::NotDetermined, "{none:?}");
    assert!(none.text.contains("(T6, 40 °C"), "{}", none.text);
    // Eight of 16 and four of 8 fill the box; with a lamp's watt beside them no row speaks of it all.
    let full = |power_w: f64| {
        loads::found("heat.defined_arrangement", arranged(), |a| {
            a.enclosure.defined_arrangement[0].most_conductors = 16;
            a.enclosure.defined_arrangement[1].most_conductors = 8;
            a.elements[0].power_w = power_w;
        })
    };
    let (alone, beside) = (full(0.0), full(1.0));
    assert_eq!((alone.verdict, alone.measured), (Verdict::Holds, Some(1.0)));
    assert_eq!(beside.verdict, Verdict::NotDetermined);
    // A table for dust alone serves where both class and surface do.
    let warm = rule(|a| a.area.max_surface_c = Some(84.0));
    assert_eq!(warm.verdict, Verdict::NotDetermined, "{warm:?}");
}

#[test]
fn the_permitted_power_may_be_rounded() {
    let verdict = |percent: f64, permitted_w: f64| {
        let rule = found("heat.reserve", |a| {
            a.heat.reserve_percent = percent;
            a.heat.permitted_power_w = permitted_w;
        });
        rule.verdict
    };
    // 8 W less 10 %, within 0.1 %; less everything, exactly nothing.
    assert_eq!(verdict(10.0, 7.205), Verdict::Holds);
    assert_eq!(verdict(10.0, 7.21), Verdict::Fails);
    assert_eq!(verdict(100.0, 0.0), Verdict::Holds);
}

#[test]
fn what_overlaps_the_plate_is_found_at_each_of_its_edges() {
    // The plate reaches from 12 to 242 mm both ways and 8 mm high; a body 1 mm over its edge and in front of the back.
    for (min, max) in [
        ([2.0, 200.0, 4.0], [13.0, 210.0, 7.0]),
        ([241.0, 200.0, 4.0], [250.0, 210.0, 7.0]),
        ([200.0, 2.0, 4.0], [210.0, 13.0, 7.0]),
        ([200.0, 241.0, 4.0], [210.0, 250.0, 7.0]),
    ] {
        let rule = found("space.overlap", |a| {
            a.accessories[4].body = block(min, max);
        });
        fails_by(&rule, 1.0);
        assert!(
            rule.subject.contains(&"mounting plate".to_string()),
            "{rule:?}"
        );
    }
}

#[test]
fn entries_of_two_walls_are_blocks_to_each_other() {
    // In a corner: circles whose u and v differ, blocks that share 2 mm either way.
    let rule = found("space.overlap", |a| {
        a.entries[3].inside = a.entries[0].inside;
        a.entries[3].wall = Face::Left;
        a.entries[3].inside.min.y_mm = a.entries[0].inside.max.y_mm - 2.0;
        a.entries[3].inside.max.y_mm = a.entries[0].inside.max.y_mm + 20.0;
        (a.entries[3].u_mm, a.entries[3].v_mm) = (239.0, 62.0);
    });
    fails_by(&rule, 2.0);
}

#[test]
fn what_is_not_operated_may_stand_at_the_edge() {
    let rule = found("space.element_edge", |a| {
        let lamp = &mut a.elements[2].footprint;
        *lamp = Rect { u_mm: 0.0, ..*lamp };
    });
    assert_eq!(rule.verdict, Verdict::Holds, "{rule:?}");
}

#[test]
fn each_wall_of_metal_is_earthed_over_its_whole_face() {
    // A bare part of 4 mm, 6.9 mm from a wall; 5 mm and the tolerance of 2 mm are asked for.
    let (near_mm, far_mm, lid_mm) = (6.9, 254.0 - 6.9 - 4.0, 124.0 - 6.9 - 4.0);
    for (at, wall) in [
        ([near_mm, 127.0, 60.0], "left wall"),
        ([far_mm, 127.0, 60.0], "right wall"),
        ([20.0, near_mm, 60.0], "bottom wall"),
        ([230.0, near_mm, 60.0], "bottom wall"),
        ([20.0, far_mm, 60.0], "top wall"),
        ([230.0, far_mm, 60.0], "top wall"),
        ([20.0, 20.0, lid_mm], "lid wall"),
        ([230.0, 230.0, lid_mm], "lid wall"),
    ] {
        let rule = loads::found("distance.earthed_metal", stainless(), |a| {
            let lamp = &mut a.elements[2];
            lamp.live.truncate(1);
            lamp.live[0].block = block(at, at.map(|mm| mm + 4.0));
        });
        fails_by(&rule, 0.1);
        assert_eq!(rule.subject, ["H1", wall]);
    }
}

#[test]
fn the_worst_comes_first_and_of_equals_the_first() {
    let told = |tops_mm: [f64; 2]| {
        let rule = found("space.lid_clearance", |a| {
            for (terminal, top_mm) in a.terminals.iter_mut().zip(tops_mm) {
                terminal.body.max.z_mm = top_mm;
            }
        });
        rule.subject[0].clone()
    };
    // What is no number is worse than any; the lid lies at 124 mm, all else is below 80 mm.
    assert_eq!(told([200.0, f64::NAN]), "X1:2");
    assert_eq!(told([f64::NAN, 200.0]), "X1:1");
    assert_eq!(told([200.0, 210.0]), "X1:2");
    assert_eq!(told([210.0, 200.0]), "X1:1");
    assert_eq!(told([90.0, 90.0]), "X1:1");
}

#[test]
fn what_compares_the_file_with_itself_is_told_apart() {
    let mut rule = found("space.wiring", |_| ());
    let mut agrees = |id, required, margin| {
        (rule.id, rule.required, rule.margin) = (id, Some(required), Some(margin));
        rule.is_agreement()
    };
    assert!(agrees("space.wiring", 0.0, 0.0));
    assert!(!agrees("space.wiring", 0.0, 1.0));
    assert!(!agrees("space.wiring", 5.0, 0.0));
    assert!(agrees("heat.sum", 5.0, 1.0));
}

#[test]
fn a_breather_clamps_no_cable() {
    let verdict = |entry: usize| {
        let rule = found("entries.closed", |a| {
            a.entries[entry].purpose = EntryPurpose::Breather
        });
        rule.verdict
    };
    assert_eq!(verdict(2), Verdict::Holds);
    assert_eq!(verdict(0), Verdict::Fails);
}

#[test]
fn centres_far_apart_both_ways_count_the_wider_way() {
    // Holes D22, 60 mm across and 100 mm up: 30 mm are asked for upwards where the larger 50 mm lie across.
    let rule = found("elements.centre_distance", |a| {
        a.elements.pop();
        (a.elements[1].x_mm, a.elements[1].y_mm) = (120.0, 95.0);
    });
    assert_eq!((rule.measured, rule.required), (Some(100.0), Some(30.0)));
}

#[test]
fn the_negligible_share_grows_with_the_rating() {
    // 0.135 W of a bundle are less than a hundredth of 100 W.
    let rule = loads::found("heat.bundles", bundled(), |a| a.heat.rated_power_w = 100.0);
    assert_eq!(rule.verdict, Verdict::Holds, "{rule:?}");
}

#[test]
fn a_rib_under_an_entry_and_one_aslant_of_it() {
    // The circle of 36 mm round (60, 62).
    let rib = |rib: Rect| {
        found("space.entry_blocked", |a| {
            let wall = a.enclosure.walls.get_mut(&Face::Bottom).expect("a wall");
            a.entries.truncate(1);
            wall.blocked.push(rib);
        })
    };
    fails_by(&rib(Rect::new(50.0, 52.0, 20.0, 20.0)), 10.0 + 18.0);
    let aslant = rib(Rect::new(80.0, 82.0, 10.0, 10.0));
    let clear_mm = aslant.measured.expect("a distance");
    assert!((clear_mm - (20.0 * 2_f64.sqrt() - 18.0)).abs() < 1e-6);
}

#[test]
fn the_way_of_a_conductor_by_the_side_on_which_it_ends() {
    // 21.5 mm to the top wall.
    let top = found("space.wiring", |a| {
        let body = &mut find_terminal(a, "X1:1").body;
        body.min.y_mm += 110.0;
        body.max.y_mm += 110.0;
    });
    fails_by(&top, 8.5);
    assert_eq!(top.subject, ["X1:1", "top wall"]);
    // 32 mm below: enough for 2.5 mm² and not for 4 mm², whatever ends above.
    let below = |section_mm2: f64| {
        found("space.wiring", |a| {
            a.wires[0].section_mm2 = section_mm2;
            a.accessories.push(PlacedAccessory {
                id: "A9".into(),
                body: block([20.0, 35.0, 20.0], [26.0, 45.5, 50.0]),
                ..a.accessories[0].clone()
            });
        })
    };
    fails_by(&below(4.0), 3.0);
    assert_eq!(below(2.5).verdict, Verdict::Holds);
}
