//! Figures copied into an arrangement against the catalogue that they came from.

use crate::fixture::station;
use glandrail::arrangement::*;
use glandrail::audit;
use glandrail::catalogue::*;
use glandrail::space::Face;
use std::collections::BTreeMap;

/// A catalogue that holds exactly the parts of an arrangement.
fn catalogue_of(a: &Arrangement) -> Catalogue {
    let mut catalogue = Catalogue::default();
    catalogue.about.warning = a.catalogue_warning.clone();
    let enclosure = &a.enclosure;
    let walls = enclosure.walls.iter().map(|(wall, record)| {
        let areas_mm = record
            .areas
            .iter()
            .map(|area| [area.u_mm, area.v_mm, area.width_mm, area.height_mm]);
        let blocked_mm = record
            .blocked
            .iter()
            .map(|part| [part.u_mm, part.v_mm, part.width_mm, part.height_mm]);
        let known = EntryWall {
            areas_mm: areas_mm.collect(),
            blocked_mm: blocked_mm.collect(),
            flange_plate: record.flange_plate,
            largest_thread: record.largest_thread,
            most_entries: record.most_entries.clone(),
        };
        (*wall, known)
    });
    catalogue.enclosure.push(Enclosure {
        id: enclosure.id.clone(),
        description: enclosure.description.clone(),
        material: enclosure.material,
        outer_mm: enclosure.outer_mm,
        inner_mm: [
            enclosure.interior.width_mm,
            enclosure.interior.height_mm,
            enclosure.interior.depth_mm,
        ],
        wall_thickness_mm: enclosure.wall_thickness_mm,
        turnable: true,
        rail_directions: vec![RailDirection::Horizontal],
        plate: enclosure.plate,
        lid: Lid {
            x_mm: enclosure.lid.u_mm,
            y_mm: enclosure.lid.v_mm,
            width_mm: enclosure.lid.width_mm,
            height_mm: enclosure.lid.height_mm,
            hinge: enclosure.hinge,
        },
        walls: walls.collect::<BTreeMap<Face, EntryWall>>(),
        certificate: enclosure.certificate.clone(),
        rated_voltage_v: enclosure.rated_voltage_v,
        rated_current_a: enclosure.rated_current_a,
        impact_j: enclosure.impact_j,
        most_terminals: enclosure.most_terminals,
        rated_power: enclosure.rated_power.clone(),
        defined_arrangement: enclosure.defined_arrangement.clone(),
        defined_arrangement_decides: a.heat.defined_arrangement_decides,
        internal_earth_mm2: enclosure.internal_earth_mm2,
        external_earth_mm2: enclosure.external_earth_mm2,
        mass_kg: enclosure.mass_kg,
        price: enclosure.price,
        lead_time_days: enclosure.lead_time_days,
    });
    for rail in &a.rails {
        catalogue.rail.push(Rail {
            id: rail.part.clone(),
            description: String::new(),
            profile: rail.profile.clone(),
            width_mm: 35.0,
            height_mm: 7.5,
            stock_length_mm: 2000.0,
            mass_kg_per_m: 0.34,
            price_per_m: 4.2,
            lead_time_days: None,
        });
    }
    for terminal in &a.terminals {
        if catalogue
            .terminal
            .iter()
            .any(|part| part.id == terminal.part)
        {
            continue;
        }
        let earth = terminal.function == TerminalFunction::Earth;
        catalogue.terminal.push(Terminal {
            id: terminal.part.clone(),
            description: terminal.description.clone(),
            function: terminal.function,
            circuits: terminal.part_circuits.clone(),
            clamp: terminal.clamp_range,
            conductors_per_clamp: terminal.conductors_per_clamp,
            width_mm: 6.0,
            length_mm: 45.0,
            height_mm: 42.0,
            live: LiveInset {
                sides_mm: 1.2,
                ends_mm: 6.0,
                top_mm: 7.0,
                foot_mm: if earth { 0.0 } else { 13.0 },
            },
            rated_voltage_v: terminal.rated_voltage_v,
            ratings: terminal.ratings.clone(),
            resistance_mohm: terminal.resistance_mohm,
            rise_at_rated_k: terminal.rise_at_rated_k,
            tracking_index: terminal.tracking_index,
            neighbour_distance_mm: terminal.neighbour_distance_mm,
            colour: terminal.colour.clone(),
            certificate: terminal.certificate.clone(),
            spring_clamp: terminal.spring_clamp,
            torque_nm: terminal.torque_nm,
            strip_mm: terminal.strip_mm,
            rails: terminal.rail_profiles.clone(),
            open_side: terminal.open_side,
            mass_kg: terminal.mass_kg,
            price: terminal.price,
            lead_time_days: None,
        });
    }
    let blank = Accessory {
        id: String::new(),
        description: String::new(),
        kind: AccessoryKind::EndStop,
        fits: Vec::new(),
        width_mm: 0.0,
        length_mm: 0.0,
        height_mm: 0.0,
        poles: None,
        current_a: None,
        resistance_mohm: None,
        thread: None,
        material: Material::Polyamide,
        certificate: Certificate::default(),
        mass_kg: 0.0,
        price: 0.0,
        lead_time_days: None,
    };
    for accessory in &a.accessories {
        let body = &accessory.body;
        catalogue.accessory.push(Accessory {
            id: accessory.part.clone(),
            description: accessory.description.clone(),
            kind: accessory.kind,
            width_mm: body.max.x_mm - body.min.x_mm,
            length_mm: body.max.y_mm - body.min.y_mm,
            height_mm: body.max.z_mm - body.min.z_mm,
            certificate: accessory.certificate.clone(),
            mass_kg: accessory.mass_kg,
            price: accessory.price,
            ..blank.clone()
        });
    }
    for jumper in &a.jumpers {
        catalogue.accessory.push(Accessory {
            id: jumper.part.clone(),
            description: jumper.description.clone(),
            kind: AccessoryKind::Jumper,
            poles: Some(jumper.poles),
            current_a: Some(jumper.rated_current_a),
            resistance_mohm: Some(jumper.resistance_mohm),
            certificate: jumper.certificate.clone(),
            mass_kg: jumper.mass_kg,
            price: jumper.price,
            ..blank.clone()
        });
    }
    for entry in &a.entries {
        let part = &entry.part;
        match part.clamping_mm {
            Some(clamping_mm) => catalogue.gland.push(Gland {
                id: part.id.clone(),
                description: part.description.clone(),
                thread: entry.thread,
                clamping_mm,
                under_armour_mm: part.under_armour_mm,
                material: part.material,
                colour: part.colour.clone(),
                for_intrinsically_safe: part.for_intrinsically_safe,
                envelope: part.envelope,
                thread_length_mm: 12.0,
                wall_mm: part.wall_mm,
                hole_mm: entry.hole_mm,
                spanner_mm: part.spanner_mm.unwrap_or(0.0),
                torque_nm: part.torque_nm,
                certificate: part.certificate.clone(),
                mass_kg: part.mass_kg,
                price: part.price,
                lead_time_days: None,
            }),
            None => catalogue.plug.push(Plug {
                id: part.id.clone(),
                description: part.description.clone(),
                kind: PlugKind::StoppingPlug,
                thread: entry.thread,
                material: part.material,
                envelope: part.envelope,
                wall_mm: part.wall_mm,
                hole_mm: entry.hole_mm,
                torque_nm: part.torque_nm,
                certificate: part.certificate.clone(),
                mass_kg: part.mass_kg,
                price: part.price,
                lead_time_days: None,
            }),
        }
        if let Some(plate) = &entry.earth_plate {
            catalogue.accessory.push(Accessory {
                id: plate.id.clone(),
                description: plate.description.clone(),
                kind: AccessoryKind::EarthPlate,
                thread: Some(entry.thread),
                certificate: plate.certificate.clone(),
                mass_kg: plate.mass_kg,
                price: plate.price,
                ..blank.clone()
            });
        }
    }
    for element in &a.elements {
        let body = &element.body;
        let depth_mm = body.max.z_mm - body.min.z_mm;
        let own = element
            .contacts
            .iter()
            .find(|contact| contact.part.is_none());
        catalogue.element.push(OperatingElement {
            id: element.part.clone(),
            description: element.description.clone(),
            kind: element.kind,
            colour: element.colour.clone(),
            background: element.background.clone(),
            positions: None,
            latching: element.latching,
            hole: element.hole.clone(),
            hole_mm: element.hole_mm,
            footprint_mm: [element.footprint.width_mm, element.footprint.height_mm],
            body_mm: [body.max.x_mm - body.min.x_mm, body.max.y_mm - body.min.y_mm],
            depth_mm: vec![depth_mm; 3],
            live_inset_mm: 4.0,
            points: Vec::new(),
            rated_voltage_v: own.and_then(|contact| contact.rated_voltage_v),
            rated_current_a: own.and_then(|contact| contact.rated_current_a),
            power_w: (element.power_w > 0.0).then_some(element.power_w),
            clamp: own.map(|contact| contact.clamp_range).unwrap_or_default(),
            spring_clamp: own.is_some_and(|contact| contact.spring_clamp),
            torque_nm: own.and_then(|contact| contact.torque_nm),
            strip_mm: own.and_then(|contact| contact.strip_mm),
            certificate: own
                .map_or(&element.certificate, |contact| &contact.certificate)
                .clone(),
            mass_kg: element.mass_kg,
            price: element.price,
            lead_time_days: None,
        });
        for contact in &element.contacts {
            let Some(id) = contact.part.clone() else {
                continue;
            };
            catalogue.contact_block.push(ContactBlock {
                id,
                description: contact.description.clone(),
                contact: contact.contact.expect("a contact block"),
                fits: Vec::new(),
                circuits: contact.circuits.clone(),
                rated_voltage_v: contact.rated_voltage_v.expect("a contact block"),
                rated_current_a: contact.rated_current_a.expect("a contact block"),
                utilisation: contact.utilisation.clone(),
                resistance_mohm: contact.resistance_mohm,
                clamp: contact.clamp_range,
                spring_clamp: contact.spring_clamp,
                torque_nm: contact.torque_nm,
                strip_mm: contact.strip_mm,
                certificate: contact.certificate.clone(),
                mass_kg: contact.mass_kg,
                price: contact.price,
                lead_time_days: None,
            });
        }
    }
    catalogue
}

/// The station with a lamp whose own path has the lamp's certificate, as a catalogue gives it.
pub fn twin() -> (Arrangement, Catalogue) {
    let mut arrangement = station();
    arrangement.elements[2].contacts[0].certificate = arrangement.elements[2].certificate.clone();
    let catalogue = catalogue_of(&arrangement);
    (arrangement, catalogue)
}

#[test]
fn the_twin_holds_with_its_catalogue() {
    let (arrangement, catalogue) = twin();
    let report = audit::audit(&arrangement, Some(&catalogue));
    let failing: Vec<_> = report
        .failing()
        .map(|rule| (rule.id, &rule.text, &rule.further))
        .collect();
    assert!(report.holds(), "{failing:#?}");
    assert!(report.compared_with_catalogue);
    assert!(report.rule("record.catalogue").unwrap().cases > 100);
    assert!(
        audit::audit(&arrangement, None)
            .rule("record.catalogue")
            .is_none()
    );
}

/// What makes a catalogue differ from the arrangement.
pub type Cut = fn(&mut Catalogue);

/// The comparison alone must fail once the catalogue is changed, and say the word.
pub fn tells(word: &str, cut: Cut) {
    let (arrangement, mut catalogue) = twin();
    cut(&mut catalogue);
    let report = audit::audit(&arrangement, Some(&catalogue));
    let failing: Vec<&str> = report.failing().map(|rule| rule.id).collect();
    assert_eq!(failing, ["record.catalogue"], "{word}");
    let text = &report.rule("record.catalogue").unwrap().text;
    assert!(text.contains(word), "{word}: {text}");
}

#[test]
fn a_figure_that_differs_is_found() {
    let cuts: [(&str, Cut); 25] = [
        ("catalogue_warning", |c| {
            c.about.warning = Some("not for use".into())
        }),
        ("rated_voltage_v", |c| c.terminal[0].rated_voltage_v = 400.0),
        ("ratings", |c| c.terminal[0].ratings[0].current_a = 10.0),
        ("neighbour_distance_mm", |c| {
            c.terminal[0].neighbour_distance_mm = None
        }),
        ("width", |c| c.terminal[0].width_mm = 6.2),
        ("bare width", |c| c.terminal[0].live.sides_mm = 1.0),
        ("bare height", |c| c.terminal[0].live.foot_mm = 12.0),
        ("which the catalogue does not have", |c| c.terminal.clear()),
        ("rated_current_a", |c| {
            c.accessory
                .iter_mut()
                .find(|part| part.kind == AccessoryKind::Jumper)
                .unwrap()
                .current_a = Some(10.0);
        }),
        ("thicker than it is", |c| {
            c.accessory
                .iter_mut()
                .find(|part| part.kind == AccessoryKind::Partition)
                .unwrap()
                .width_mm = 1.0;
        }),
        ("clamping_mm", |c| c.gland[0].clamping_mm = [14.0, 18.0]),
        ("thread", |c| c.plug[0].thread = "M16".parse().unwrap()),
        ("utilisation", |c| c.contact_block[0].utilisation.clear()),
        ("does not fit", |c| {
            c.contact_block[0].fits = vec!["DEMO-E-OTHER".into()]
        }),
        ("depth", |c| c.element[0].depth_mm = vec![16.0, 60.0]),
        ("does not carry", |c| c.element[0].depth_mm = vec![16.0]),
        ("power_w", |c| c.element[2].power_w = Some(1.2)),
        ("outer_mm", |c| {
            c.enclosure[0].outer_mm = [261.0, 260.0, 130.0]
        }),
        ("rated_power", |c| {
            c.enclosure[0].rated_power[0].power_w = 7.9
        }),
        ("areas", |c| {
            c.enclosure[0]
                .walls
                .get_mut(&Face::Bottom)
                .unwrap()
                .areas_mm[0][0] = 16.0;
        }),
        ("may be drilled by the record", |c| {
            c.enclosure[0].walls.remove(&Face::Left);
        }),
        ("hinge", |c| c.enclosure[0].lid.hinge = None),
        ("spring_clamp", |c| {
            let is_it = |part: &&mut glandrail::catalogue::Terminal| part.spring_clamp;
            c.terminal.iter_mut().find(is_it).unwrap().spring_clamp = false;
        }),
        ("spring_clamp", |c| c.element[2].spring_clamp = false),
        ("stock", |c| c.rail[0].stock_length_mm = 200.0),
    ];
    for (word, cut) in cuts {
        tells(word, cut);
    }
}

#[test]
fn a_turned_box_is_compared_as_mounted() {
    // The same station, mounted turned: its catalogue entry describes the box a quarter turn back, that
    // is three more quarters on.
    let (mut arrangement, mut catalogue) = twin();
    arrangement.enclosure.orientation = Orientation::Turned;
    let before = catalogue.enclosure[0].clone();
    let upright = &mut catalogue.enclosure[0];
    upright.outer_mm = [before.outer_mm[1], before.outer_mm[0], before.outer_mm[2]];
    upright.inner_mm = [before.inner_mm[1], before.inner_mm[0], before.inner_mm[2]];
    // Mounted, the plate lies 12 from the left and below in a field of 254: upright it lies 12 from the
    // left and, being 230 high, 12 from above in the same sense, so that only the edges change roles.
    upright.plate.x_mm = 254.0 - before.plate.y_mm - before.plate.height_mm;
    upright.plate.y_mm = before.plate.x_mm;
    upright.lid.x_mm = 254.0 - before.lid.y_mm - before.lid.height_mm;
    upright.lid.y_mm = before.lid.x_mm;
    // Bottom as mounted was right, left as mounted was bottom.
    upright.walls = BTreeMap::from([
        (Face::Right, before.walls[&Face::Bottom].clone()),
        (Face::Bottom, before.walls[&Face::Left].clone()),
    ]);
    upright.lid.hinge = Some(Face::Bottom);
    let report = audit::audit(&arrangement, Some(&catalogue));
    let rule = report.rule("record.catalogue").unwrap();
    assert!(report.holds(), "{} {:#?}", rule.text, rule.further);

    catalogue.enclosure[0].turnable = false;
    let report = audit::audit(&arrangement, Some(&catalogue));
    assert!(!report.holds());
}
