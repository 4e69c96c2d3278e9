//! The table of breaks: for every rule at least one arrangement broken by hand.

use crate::fixture::{
    arranged, bundled, find_terminal, hot, reheat, retotal, stainless, station, thread, untested,
};
use glandrail::arrangement::*;
use glandrail::catalogue::*;
use glandrail::space::{Block, Face, Rect};
use glandrail::standards::iec_60079_0::{DustGroup, EquipmentProtectionLevel};

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

fn remove_accessory(arrangement: &mut Arrangement, id: &str) {
    arrangement
        .accessories
        .retain(|accessory| accessory.id != id);
    retotal(arrangement);
}

/// Every break.
pub static ALL: &[Broken] = &[
    broken("record.format", "another format", |a| {
        a.format = "glandrail-arrangement/0".into()
    }),
    broken("record.format", "no caution", |a| a.caution.clear()),
    broken("record.numbers", "a negative figure", |a| {
        a.heat.power_at_limit_w = -1.0
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
    broken("record.live_parts", "bare part out of the body", |a| {
        a.elements[0].live[0].block.min.z_mm = 81.0
    }),
    broken("record.live_parts", "clamp on a level that is none", |a| {
        a.terminals[7].clamps[0].level = 1
    }),
    broken("record.totals", "price raised", |a| a.price += 1.0),
    broken("suitability.area", "dust group not stated", |a| {
        a.area.dust_group = None
    }),
    broken("suitability.epl", "terminal for Gc", |a| {
        a.terminals[0].certificate.epl = vec![EquipmentProtectionLevel::Gc];
    }),
    broken("suitability.epl", "plug without a level", |a| {
        a.entries[2].part.certificate.epl.clear()
    }),
    broken("suitability.gas_group", "terminal without a group", |a| {
        a.terminals[0].certificate.gas_group = None;
    }),
    broken("suitability.dust_group", "gland for IIIA", |a| {
        a.entries[0].part.certificate.dust_group = Some(DustGroup::IIIA);
    }),
    broken(
        "suitability.temperature_class",
        "dust asks for 80 °C",
        |a| a.area.max_surface_c = Some(80.0),
    ),
    broken("suitability.ambient", "gland up to 39 °C", |a| {
        a.entries[1].part.certificate.service_c = Some([-40.0, 39.0]);
    }),
    broken("suitability.ambient", "jumper of unknown range", |a| {
        a.jumpers[0].certificate.service_c = None
    }),
    broken("suitability.ip", "element with IP54", |a| {
        a.elements[0].certificate.ip = IpCode::try_from("IP54".to_string()).ok();
    }),
    broken("suitability.ip", "gland with IP67, jets asked for", |a| {
        a.entries[0].part.certificate.ip = IpCode::try_from("IP67".to_string()).ok();
    }),
    broken("suitability.protection", "terminal without eb", |a| {
        a.terminals[0].certificate.protection = vec!["tb".into()];
    }),
    broken("suitability.protection", "enclosure only for dust", |a| {
        a.enclosure.certificate.protection = vec!["tb".into()];
    }),
    broken("suitability.impact", "no impact test", |a| {
        a.enclosure.impact_j = None
    }),
    broken("suitability.impact", "impact test with 4 J", |a| {
        a.enclosure.impact_j = Some(4.0)
    }),
    broken("electrical.section", "clamp from 2.5 mm²", |a| {
        a.terminals[0].clamp_range.stranded_mm2 = Some([2.5, 4.0]);
    }),
    broken(
        "electrical.section",
        "contact takes no flexible conductor",
        |a| {
            a.elements[1].contacts[0].clamp_range.flexible_mm2 = None;
        },
    ),
    broken(
        "electrical.conductors_per_clamp",
        "screen and earth under one clamp",
        |a| {
            let earth = find_terminal(a, "X1:9");
            earth.clamps[0].wires.clear();
            earth.clamps[1].wires.push("C14".into());
            a.wires[13].to = WireEnd::Terminal {
                terminal: "X1:9".into(),
                level: 0,
                side: Side::Lower,
            };
        },
    ),
    broken("electrical.terminal_voltage", "terminal for 229 V", |a| {
        a.terminals[0].rated_voltage_v = 229.0
    }),
    broken("electrical.contact_voltage", "contact for 110 V", |a| {
        a.elements[0].contacts[0].rated_voltage_v = Some(110.0);
    }),
    broken(
        "electrical.contact_voltage",
        "lamp of unknown voltage",
        |a| {
            a.elements[2].contacts[0].rated_voltage_v = None;
        },
    ),
    broken("electrical.enclosure_voltage", "enclosure for 220 V", |a| {
        a.enclosure.rated_voltage_v = Some(220.0);
    }),
    broken("electrical.terminal_current", "terminal for 1.9 A", |a| {
        a.terminals[0].ratings[0].current_a = 1.9;
    }),
    broken(
        "electrical.terminal_current",
        "no row up to 1.5 mm²",
        |a| {
            a.terminals[0].ratings.remove(0);
        },
    ),
    broken("electrical.contact_current", "contact for 1.9 A", |a| {
        a.elements[0].contacts[0].rated_current_a = Some(1.9);
    }),
    broken("electrical.jumper_current", "jumper for 1.9 A", |a| {
        a.jumpers[0].rated_current_a = 1.9
    }),
    broken("electrical.jumper_terminals", "jumper of one pole", |a| {
        a.jumpers[0].poles = 1
    }),
    broken(
        "electrical.jumper_terminals",
        "terminals in the wrong order",
        |a| {
            a.jumpers[0].terminals.reverse();
        },
    ),
    broken("electrical.enclosure_current", "enclosure for 1.9 A", |a| {
        a.enclosure.rated_current_a = Some(1.9);
    }),
    broken(
        "electrical.circuit_kind",
        "terminal only for the other kind",
        |a| {
            a.terminals[0].part_circuits = vec![CircuitKind::IntrinsicallySafe];
        },
    ),
    broken(
        "electrical.circuit_kind",
        "intrinsically safe cores in another cable",
        |a| {
            // Glands and terminals stay what they were, so that only the cable is of the wrong kind.
            a.cables[2].kind = CircuitKind::ExE;
            a.entries[3].part.for_intrinsically_safe = false;
        },
    ),
    broken(
        "electrical.wire_current",
        "conductor reckoned with 1.9 A",
        |a| a.wires[0].current_a = 1.9,
    ),
    broken(
        "electrical.recorded_load",
        "terminal recorded with 1.9 A",
        |a| a.terminals[0].current_a = 1.9,
    ),
    broken(
        "electrical.recorded_load",
        "point recorded with 110 V",
        |a| {
            a.elements[0].contacts[0].points[0].working_voltage_v = 110.0;
        },
    ),
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
        a.enclosure.most_terminals = Some(11)
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
    broken("heat.length", "conductor counted with 300 mm", |a| {
        a.wires[0].heat_length_mm = 300.0
    }),
    broken("heat.currents", "full simultaneity", |a| {
        a.circuits[0].simultaneity = 1.0
    }),
    broken("heat.currents", "simultaneity above 1", |a| {
        a.circuits[2].simultaneity = 1.1
    }),
    broken("heat.sum", "a line too many", |a| {
        let mut line = a.heat.lines[10].clone();
        line.power_w = 0.01;
        a.heat.lines.push(line);
        a.heat.power_w += 0.01;
    }),
    broken("heat.sum", "section without a resistance", |a| {
        // What carries no current needs no resistance; this one carries 0.02 A.
        a.wires[14].section_mm2 = 1.2;
        // The power rule cannot be determined either: it is broken by the same datum. See below.
    }),
    broken("heat.lines", "one conductor too many in a line", |a| {
        a.heat.lines[0].count += 1
    }),
    broken("heat.row", "row that the certificate lacks", |a| {
        a.enclosure.rated_power.remove(0);
    }),
    broken("heat.row", "row for 39 °C", |a| {
        a.enclosure.rated_power[0].ambient_c = 39.0;
        a.heat.row_ambient_c = 39.0;
    }),
    broken("heat.reserve", "5 % kept free, 10 % asked for", |a| {
        a.heat.reserve_percent = 5.0;
        a.heat.permitted_power_w = 7.6;
    }),
    broken("heat.power", "rated for 1.2 W", |a| {
        a.enclosure.rated_power[0].power_w = 1.2;
        a.heat.rated_power_w = 1.2;
        a.heat.permitted_power_w = 1.08;
    }),
    Broken {
        rule: "heat.defined_arrangement",
        what: "room for eight conductors of 1.5 mm²",
        twin: arranged,
        cut: |a| a.enclosure.defined_arrangement[0].most_conductors = 8,
    },
    Broken {
        rule: "heat.defined_arrangement",
        what: "no row for 1 mm²",
        twin: arranged,
        cut: |a| {
            a.enclosure.defined_arrangement.pop();
        },
    },
    Broken {
        rule: "heat.defined_arrangement",
        what: "rows of a lower ambient temperature",
        twin: arranged,
        cut: |a| {
            for row in &mut a.enclosure.defined_arrangement {
                row.ambient_c = 35.0;
            }
        },
    },
    Broken {
        rule: "heat.bundles",
        what: "nobody told of the bundles",
        twin: bundled,
        cut: |a| a.notices.clear(),
    },
    Broken {
        rule: "heat.bundles",
        what: "told of another group",
        twin: bundled,
        cut: |a| a.notices[0].groups = vec!["power".into()],
    },
    Broken {
        rule: "heat.entry_temperature",
        what: "air above 70 °C, cables not marked",
        twin: hot,
        cut: |a| {
            a.terminals[0].rise_at_rated_k = Some(34.0);
            a.notices.clear();
        },
    },
    Broken {
        rule: "heat.branching_temperature",
        what: "cables marked for the entry alone",
        twin: hot,
        cut: |a| a.notices[0].cable_c = Some(80.0),
    },
    Broken {
        rule: "heat.branching_temperature",
        what: "rise unknown, no test announced",
        twin: untested,
        cut: |a| a.notices.clear(),
    },
    broken("entries.cable", "cable names another entry", |a| {
        a.cables[0].entry = "E2".into()
    }),
    broken("entries.closed", "gland without a cable", |a| {
        a.entries[2].part.clamping_mm = Some([7.0, 13.0])
    }),
    broken("entries.clamping", "cable 0.1 mm too thick", |a| {
        a.cables[1].diameter_range_mm = [8.7, 13.1]
    }),
    broken("entries.armour", "no armour clamp", |a| {
        a.entries[0].part.under_armour_mm = None
    }),
    broken("entries.armour", "0.1 mm too thick under the armour", |a| {
        a.cables[0].under_armour_mm = Some([11.0, 15.1]);
    }),
    broken("entries.wall", "cable only from the left", |a| {
        a.cables[0].walls = vec![Face::Left]
    }),
    broken("entries.intrinsic", "blue gland with another cable", |a| {
        a.entries[1].part.for_intrinsically_safe = true;
    }),
    broken("entries.earth_plate", "earth plate left out", |a| {
        a.entries[0].earth_plate = None;
        retotal(a);
    }),
    broken("entries.thread", "wall up to M20", |a| {
        a.enclosure
            .walls
            .get_mut(&Face::Bottom)
            .expect("a wall")
            .largest_thread = thread("M20");
    }),
    broken("entries.most", "certified for two M20", |a| {
        let wall = a.enclosure.walls.get_mut(&Face::Bottom).expect("a wall");
        wall.most_entries
            .as_mut()
            .expect("numbers")
            .insert(thread("M20"), 2);
    }),
    broken("entries.wall_thickness", "wall of 8.1 mm", |a| {
        a.enclosure.wall_thickness_mm = 8.1
    }),
    broken("entries.hole", "hole 0.8 mm over the thread", |a| {
        a.entries[1].hole_mm = 20.8
    }),
    broken("entries.hole", "hole 0.1 mm under the thread", |a| {
        a.entries[1].hole_mm = 19.9
    }),
    broken(
        "entries.envelope",
        "less kept free than the part takes",
        |a| a.entries[1].envelope_mm = 27.9,
    ),
    broken("elements.button_colour", "red start button", |a| {
        a.elements[1].colour = "red".into()
    }),
    broken("elements.button_colour", "red without a function", |a| {
        a.elements[1].function = "mixing".into();
        a.elements[1].colour = "red".into()
    }),
    broken("elements.lamp_colour", "green lamp for danger", |a| {
        a.elements[2].function = "emergency".into()
    }),
    broken(
        "elements.emergency_stop_colour",
        "no yellow background",
        |a| a.elements[0].background = None,
    ),
    broken("elements.emergency_stop_latch", "does not latch", |a| {
        a.elements[0].latching = false
    }),
    broken(
        "elements.emergency_stop_latch",
        "no contact that opens",
        |a| {
            a.elements[0].contacts[0].contact = Some(ContactKind::NO);
        },
    ),
    broken("elements.hole", "hole 0.1 mm too wide", |a| {
        a.elements[0].hole_mm = [22.8, 22.8]
    }),
    broken(
        "elements.centre_distance",
        "29.9 mm between D22 holes",
        |a| {
            a.limits.emergency_stop_free_mm = 0.0;
            a.limits.element_gap_mm = 0.0;
            place_element(&mut a.elements[0], 60.0, 24.0, 24.0, 12.0);
            place_element(&mut a.elements[1], 89.9, 24.0, 24.0, 12.0);
        },
    ),
    broken("elements.utilisation", "1.9 A as AC-15", |a| {
        a.elements[0].contacts[0].utilisation[0].current_a = 1.9;
    }),
    broken("elements.utilisation", "no row for 230 V", |a| {
        a.elements[0].contacts[0].utilisation[0].voltage_v = 110.0;
    }),
    broken("elements.power", "power of the lamp unknown", |a| {
        a.elements[2].power_w = 0.0;
        reheat(a);
    }),
    broken("completeness.cores", "a core left over", |a| {
        a.cables[0].core_count = 6
    }),
    broken("completeness.cores", "screen not connected", |a| {
        a.cables[0].screened = true
    }),
    broken(
        "completeness.wires",
        "clamp does not list its conductor",
        |a| {
            find_terminal(a, "X1:7").clamps[1].wires.clear();
        },
    ),
    broken(
        "completeness.wires",
        "clamp lists a conductor that ends elsewhere",
        |a| {
            find_terminal(a, "X1:8").clamps[1].wires.push("C99".into());
        },
    ),
    broken(
        "completeness.potentials",
        "conductor of another potential",
        |a| {
            a.wires[11].potential = "W2/1".into();
        },
    ),
    broken("completeness.circuits", "jumper left out", |a| {
        a.jumpers.clear();
        reheat(a);
        retotal(a);
    }),
    broken(
        "completeness.contact_points",
        "free points not reported",
        |a| a.remarks.clear(),
    ),
    broken(
        "completeness.spare_terminals",
        "no spare terminal left",
        |a| {
            let terminal = find_terminal(a, "X1:8");
            terminal.spare = false;
            terminal.marking = "8".into();
        },
    ),
    broken(
        "completeness.spare_entries",
        "two spare entries asked for",
        |a| {
            a.spare.entries.insert(thread("M20"), 2);
        },
    ),
    broken("completeness.earth", "earth on another terminal", |a| {
        find_terminal(a, "X1:9").function = TerminalFunction::FeedThrough;
    }),
    Broken {
        rule: "completeness.external_earth",
        what: "external earth terminal for 2.5 mm²",
        twin: stainless,
        cut: |a| a.enclosure.external_earth_mm2 = Some(2.5),
    },
    broken("completeness.end_stops", "end stop left out", |a| {
        remove_accessory(a, "A5")
    }),
    broken("completeness.end_plates", "end plate left out", |a| {
        remove_accessory(a, "A4");
        shift_x(&mut accessory(a, "A5").body, -2.0);
    }),
    broken("completeness.partitions", "partition left out", |a| {
        remove_accessory(a, "A3")
    }),
    broken("completeness.numbering", "number given twice", |a| {
        a.terminals[7].number = 7
    }),
    broken("completeness.marking", "terminal without a marking", |a| {
        a.terminals[0].marking.clear()
    }),
    broken("completeness.intrinsic_colour", "grey terminal", |a| {
        find_terminal(a, "X2:1").colour = "grey".into();
    }),
];

/// Breaks that a second rule must report too, since the datum decides both.
pub const TOGETHER: &[(&str, &str, &[&str])] = &[
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
    (
        "heat.sum",
        "section without a resistance",
        &[
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
