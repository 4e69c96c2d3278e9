//! Two complete arrangements written by hand, and the little arithmetic that keeps their sums right
//! when a test takes a part away. Nothing here is computed by the library.
//!
//! A control station in glass-fibre reinforced polyester, seen from the front: emergency stop `S0` and
//! start button `PB1` in the upper half of the lid, lamp `H1` before the left end of the rail `R1`. On
//! the rail from the left: strip `X1` (control, 230 V), a partition, far to the right strip `X2`
//! (intrinsically safe). Bottom wall from the left: armoured cable `W1`, screened cable `W2`, a spare
//! entry, intrinsically safe cable `W3`. All parts are invented.

use glandrail::arrangement::*;
use glandrail::catalogue::*;
use glandrail::space::{Block, Face, Interior, Point, Rect};
use glandrail::standards::iec_60079_0::{DustGroup, EquipmentProtectionLevel, GasGroup, TemperatureClass};
use glandrail::standards::threads::Thread;
use std::collections::BTreeMap;

/// Room diagonal of 254 × 254 × 124 mm.
pub const DIAGONAL_MM: f64 = 380.010_525_969_9;

pub fn block(min: [f64; 3], max: [f64; 3]) -> Block {
    Block { min: Point::new(min[0], min[1], min[2]), max: Point::new(max[0], max[1], max[2]) }
}

pub fn thread(text: &str) -> Thread {
    text.parse().expect("a thread")
}

fn certificate(protection: &[&str], service_c: [f64; 2], ip: Option<&str>) -> Certificate {
    Certificate {
        number: Some("DEMO-C-000".into()),
        protection: protection.iter().map(|word| word.to_string()).collect(),
        epl: vec![EquipmentProtectionLevel::Gb, EquipmentProtectionLevel::Db],
        gas_group: Some(GasGroup::IIC),
        dust_group: Some(DustGroup::IIIC),
        service_c: Some(service_c),
        ip: ip.map(|text| IpCode::try_from(text.to_string()).expect("a degree of protection")),
    }
}

fn enclosure() -> EnclosureRecord {
    let most = BTreeMap::from([(thread("M20"), 5), (thread("M25"), 4)]);
    let wall = WallRecord {
        areas: vec![Rect::new(15.0, 14.0, 224.0, 96.0)],
        flange_plate: false,
        largest_thread: thread("M25"),
        most_entries: Some(most),
    };
    EnclosureRecord {
        id: "DEMO-G-2626".into(),
        description: "polyester enclosure 260 x 260 x 130 mm".into(),
        orientation: Orientation::Upright,
        material: Material::Grp,
        outer_mm: [260.0, 260.0, 130.0],
        interior: Interior { width_mm: 254.0, height_mm: 254.0, depth_mm: 124.0 },
        wall_thickness_mm: 3.0,
        plate: MountingPlate { x_mm: 12.0, y_mm: 12.0, width_mm: 230.0, height_mm: 230.0, standoff_mm: 8.0 },
        lid: Rect::new(23.0, 23.0, 208.0, 208.0),
        hinge: Some(Face::Left),
        walls: BTreeMap::from([(Face::Bottom, wall.clone()), (Face::Left, wall)]),
        certificate: certificate(&["eb", "tb"], [-50.0, 65.0], Some("IP66")),
        rated_voltage_v: Some(550.0),
        rated_current_a: Some(63.0),
        impact_j: Some(7.0),
        most_terminals: Some(40),
        rated_power: vec![
            RatedPower { class: TemperatureClass::T6, ambient_c: 40.0, power_w: 8.0 },
            RatedPower { class: TemperatureClass::T6, ambient_c: 50.0, power_w: 6.0 },
        ],
        defined_arrangement: Vec::new(),
        external_earth_mm2: None,
        mass_kg: 2.4,
        price: 88.0,
        lead_time_days: 5,
    }
}

fn limits() -> Limits {
    Limits {
        gland_gap_mm: 5.0,
        gland_row_gap_mm: 10.0,
        gland_corner_mm: 3.0,
        rail_end_mm: 5.0,
        element_gap_mm: 5.0,
        emergency_stop_free_mm: 20.0,
        element_edge_mm: 20.0,
        contact_bend_mm: 25.0,
        lid_clearance_mm: 10.0,
        intrinsic_separation_mm: 50.0,
        tolerance_mm: 2.0,
        wiring_space: vec![
            WiringSpaceStep { up_to_mm2: 2.5, space_mm: 30.0 },
            WiringSpaceStep { up_to_mm2: 4.0, space_mm: 35.0 },
        ],
    }
}

/// Front face of the rail: plate 8 mm, rail 7.5 mm.
const FRONT_MM: f64 = 15.5;
/// Middle of the rail.
const MIDDLE_MM: f64 = 100.0;

/// A terminal 6 mm wide, 45 mm long, 42 mm high at the given left edge.
fn terminal(strip: &str, number: u32, x_mm: f64, marking: &str, potential: &str) -> PlacedTerminal {
    let safe = strip == "X2";
    let earth = potential == "PE";
    let foot_mm = if earth { 0.0 } else { 13.0 };
    let kind = if safe { CircuitKind::IntrinsicallySafe } else { CircuitKind::ExE };
    let range = Some([0.5, 4.0]);
    let clamps = [Side::Upper, Side::Lower].map(|side| Clamp { level: 0, side, wires: Vec::new() });
    PlacedTerminal {
        id: format!("{strip}:{number}"),
        strip: strip.into(),
        number,
        marking: marking.into(),
        part: if earth {
            "DEMO-T-PE"
        } else if safe {
            "DEMO-T-IS"
        } else {
            "DEMO-T-4"
        }
        .into(),
        description: "terminal 4 mm2, screw".into(),
        rail: "R1".into(),
        function: if earth { TerminalFunction::Earth } else { TerminalFunction::FeedThrough },
        kind,
        part_circuits: if earth {
            vec![CircuitKind::ExE, CircuitKind::IntrinsicallySafe]
        } else {
            vec![kind]
        },
        spare: potential.is_empty(),
        body: block([x_mm, MIDDLE_MM - 22.5, FRONT_MM], [x_mm + 6.0, MIDDLE_MM + 22.5, FRONT_MM + 42.0]),
        live: vec![LivePart {
            potential: potential.into(),
            block: block(
                [x_mm + 1.2, MIDDLE_MM - 16.5, FRONT_MM + foot_mm],
                [x_mm + 4.8, MIDDLE_MM + 16.5, FRONT_MM + 35.0],
            ),
        }],
        clamps: clamps.to_vec(),
        working_voltage_v: 0.0,
        current_a: 0.0,
        clamp_range: ClampRange { solid_mm2: range, stranded_mm2: range, flexible_mm2: range },
        conductors_per_clamp: 1,
        rated_voltage_v: if safe { 60.0 } else { 550.0 },
        ratings: vec![
            SectionRating { section_mm2: 1.0, current_a: 11.0 },
            SectionRating { section_mm2: 2.5, current_a: 21.0 },
        ],
        resistance_mohm: 0.6,
        tracking_index: Some(600.0),
        neighbour_distance_mm: Some(if safe { 6.5 } else { 10.5 }),
        rise_at_rated_k: Some(34.0),
        rail_profiles: vec!["TH35-7.5".into()],
        open_side: !earth,
        colour: if earth {
            "green-yellow"
        } else if safe {
            "light blue"
        } else {
            "beige"
        }
        .into(),
        torque_nm: Some(0.6),
        strip_mm: Some(9.0),
        certificate: certificate(if safe { &["eb", "ia"] } else { &["eb"] }, [-55.0, 110.0], None),
        mass_kg: 0.008,
        price: 0.9,
    }
}

fn accessory(id: &str, kind: AccessoryKind, x_mm: f64) -> PlacedAccessory {
    let (part, size) = match kind {
        AccessoryKind::EndStop => ("DEMO-A-STOP", [8.0, 44.0, 36.0]),
        AccessoryKind::Partition => ("DEMO-A-PART", [2.0, 70.0, 62.0]),
        _ => ("DEMO-A-PLATE", [2.0, 45.0, 42.0]),
    };
    let half_mm = size[1] / 2.0;
    PlacedAccessory {
        id: id.into(),
        part: part.into(),
        description: "accessory of the row".into(),
        kind,
        rail: "R1".into(),
        body: block(
            [x_mm, MIDDLE_MM - half_mm, FRONT_MM],
            [x_mm + size[0], MIDDLE_MM + half_mm, FRONT_MM + size[2]],
        ),
        certificate: certificate(&["eb", "ia"], [-55.0, 110.0], None),
        mass_kg: 0.006,
        price: 0.8,
    }
}

/// An entry in the bottom wall, 62 mm from the back.
fn entry(id: &str, purpose: EntryPurpose, u_mm: f64, size: &str) -> PlacedEntry {
    const V_MM: f64 = 62.0;
    let large = size == "M25";
    let (outside_mm, inside_mm) = if large { (34.6, 36.0) } else { (27.7, 28.0) };
    let reach_out_mm = if purpose == EntryPurpose::Spare { 6.0 } else { 30.0 };
    let clamping_mm = match (&purpose, large) {
        (EntryPurpose::Spare, _) => None,
        (_, true) => Some([13.0, 20.0]),
        (_, false) => Some([7.0, 13.0]),
    };
    let safe = id == "E4";
    PlacedEntry {
        id: id.into(),
        purpose,
        wall: Face::Bottom,
        u_mm,
        v_mm: V_MM,
        thread: thread(size),
        hole_mm: if large { 25.2 } else { 20.2 },
        envelope_mm: if large { 36.0 } else { 28.0 },
        inside: block(
            [u_mm - inside_mm / 2.0, 0.0, V_MM - inside_mm / 2.0],
            [u_mm + inside_mm / 2.0, 11.0, V_MM + inside_mm / 2.0],
        ),
        outside: block(
            [u_mm - outside_mm / 2.0, -3.0 - reach_out_mm, V_MM - outside_mm / 2.0],
            [u_mm + outside_mm / 2.0, -3.0, V_MM + outside_mm / 2.0],
        ),
        part: EntryPart {
            id: format!("DEMO-P-{size}-{id}"),
            description: "closing part".into(),
            material: if large { Material::Brass } else { Material::Polyamide },
            colour: if safe { "light blue" } else { "black" }.into(),
            clamping_mm,
            under_armour_mm: large.then_some([9.0, 15.0]),
            for_intrinsically_safe: safe,
            envelope: EntryEnvelope { outside_mm, inside_mm, reach_out_mm, reach_in_mm: 11.0 },
            wall_mm: [1.0, 8.0],
            spanner_mm: Some(24.0),
            torque_nm: Some(5.0),
            certificate: certificate(&["eb", "tb"], [-40.0, 75.0], Some("IP66")),
            mass_kg: 0.03,
            price: 3.5,
        },
        earth_plate: large.then(|| EarthPlateRecord {
            id: "DEMO-A-EARTH-M25".into(),
            description: "earth plate M25".into(),
            mass_kg: 0.01,
            price: 2.0,
        }),
    }
}

fn point(name: &str, potential: &str, current_a: f64) -> ContactPoint {
    let wired = !potential.is_empty();
    ContactPoint {
        name: name.into(),
        potential: potential.into(),
        wires: Vec::new(),
        working_voltage_v: if wired { 230.0 } else { 0.0 },
        current_a,
    }
}

fn contact(kind: Option<ContactKind>, points: Vec<ContactPoint>) -> PlacedContact {
    let own = kind.is_none();
    let range = Some([0.5, 2.5]);
    PlacedContact {
        part: kind.map(|kind| format!("DEMO-K-{kind:?}")),
        description: if own { "" } else { "contact block" }.into(),
        contact: kind,
        points,
        circuits: vec![CircuitKind::ExE],
        rated_voltage_v: Some(400.0),
        rated_current_a: Some(if own { 0.1 } else { 10.0 }),
        utilisation: if own {
            Vec::new()
        } else {
            vec![UtilisationRating { category: "AC-15".into(), voltage_v: 230.0, current_a: 6.0 }]
        },
        resistance_mohm: if own { 0.0 } else { 12.0 },
        clamp_range: ClampRange { solid_mm2: range, stranded_mm2: range, flexible_mm2: range },
        certificate: certificate(if own { &["eb", "mb", "tb"] } else { &["db", "eb"] }, [-40.0, 75.0], None),
        mass_kg: if own { 0.0 } else { 0.018 },
        price: if own { 0.0 } else { 11.5 },
    }
}

/// An element with a body of 30 × 42 mm and two rows of bare parts 4 mm inside it.
fn element(tag: &str, kind: ElementKind, at: [f64; 2], footprint: [f64; 2], depth_mm: f64) -> PlacedElement {
    let [x_mm, y_mm] = at;
    let back_mm = 124.0 - depth_mm;
    let live = |potential: &str, from_mm: f64, to_mm: f64| LivePart {
        potential: potential.into(),
        block: block([x_mm + from_mm, y_mm - 17.0, back_mm + 4.0], [x_mm + to_mm, y_mm + 17.0, 116.0]),
    };
    let (function, colour, left, right, contacts) = match kind {
        ElementKind::EmergencyStop => (
            "emergency stop",
            "red",
            "C1/L",
            "C1/S",
            vec![contact(Some(ContactKind::NC), vec![point("11", "C1/L", 2.0), point("12", "C1/S", 2.0)])],
        ),
        ElementKind::PushButton => (
            "start",
            "green",
            "C1/S",
            "C1/R",
            vec![
                contact(Some(ContactKind::NO), vec![point("13", "C1/S", 2.0), point("14", "C1/R", 2.0)]),
                contact(Some(ContactKind::NC), vec![point("21", "", 0.0), point("22", "", 0.0)]),
            ],
        ),
        _ => (
            "normal",
            "green",
            "C2/L",
            "C2/N",
            vec![contact(None, vec![point("X1", "C2/L", 0.05), point("X2", "C2/N", 0.05)])],
        ),
    };
    let stop = kind == ElementKind::EmergencyStop;
    PlacedElement {
        tag: tag.into(),
        part: format!("DEMO-E-{tag}"),
        description: kind.words().into(),
        kind,
        function: function.into(),
        label: tag.into(),
        colour: colour.into(),
        background: stop.then(|| "yellow".to_string()),
        latching: stop,
        row: if y_mm > 150.0 { 1 } else { 2 },
        x_mm,
        y_mm,
        hole_mm: [22.3, 22.3],
        hole: Some("D22".into()),
        footprint: Rect::new(
            x_mm - footprint[0] / 2.0,
            y_mm - footprint[1] / 2.0,
            footprint[0],
            footprint[1],
        ),
        body: block([x_mm - 15.0, y_mm - 21.0, back_mm], [x_mm + 15.0, y_mm + 21.0, 124.0]),
        live: vec![live(left, -11.0, -2.0), live(right, 2.0, 11.0)],
        contacts,
        power_w: if kind == ElementKind::Lamp { 1.0 } else { 0.0 },
        certificate: certificate(&["eb", "mb", "tb"], [-40.0, 75.0], Some("IP66")),
        mass_kg: 0.04,
        price: 18.0,
    }
}

fn cable(tag: &str, entry: &str, cores: u32, diameter_mm: f64) -> CableRecord {
    let safe = tag == "W3";
    let armoured = tag == "W1";
    CableRecord {
        tag: tag.into(),
        cores: format!("{cores} x 1.5 mm2"),
        kind: if safe { CircuitKind::IntrinsicallySafe } else { CircuitKind::ExE },
        diameter_mm,
        diameter_range_mm: [diameter_mm * 0.97, diameter_mm * 1.03],
        diameter_estimated: false,
        armoured,
        under_armour_mm: armoured.then_some([11.0, 12.0]),
        screened: tag == "W2",
        walls: vec![Face::Bottom],
        entry: entry.into(),
        core_count: cores,
    }
}

fn circuit(
    tag: &str,
    voltage_v: f64,
    current_a: f64,
    simultaneity: f64,
    poles: Vec<PoleRecord>,
) -> CircuitRecord {
    let safe = tag.starts_with('I');
    CircuitRecord {
        tag: tag.into(),
        group: if safe { "intrinsically_safe" } else { "control" }.into(),
        kind: if safe { CircuitKind::IntrinsicallySafe } else { CircuitKind::ExE },
        voltage_v,
        current_a,
        simultaneity,
        poles,
    }
}

fn pole(potential: &str, from: &str, to: &[&str]) -> PoleRecord {
    PoleRecord {
        marking: potential.rsplit('/').next().unwrap_or_default().into(),
        potential: potential.into(),
        from: Some(from.into()),
        to: to.iter().map(|end| end.to_string()).collect(),
    }
}

/// Adds a conductor and writes it into the lists of both its ends.
fn connect(arrangement: &mut Arrangement, from: WireEnd, to: WireEnd, potential: &str) {
    let id = format!("C{}", arrangement.wires.len() + 1);
    let circuit = arrangement
        .circuits
        .iter()
        .find(|circuit| circuit.poles.iter().any(|pole| pole.potential == potential));
    let (tag, voltage_v, current_a, share) = circuit.map_or((String::new(), 0.0, 0.0, 1.0), |circuit| {
        (circuit.tag.clone(), circuit.voltage_v, circuit.current_a, circuit.simultaneity)
    });
    for end in [&from, &to] {
        match end {
            WireEnd::Core { .. } => {}
            WireEnd::Terminal { terminal, side, .. } => {
                let at = find_terminal(arrangement, terminal);
                at.working_voltage_v = voltage_v;
                at.current_a = current_a;
                let clamp = at.clamps.iter_mut().find(|clamp| clamp.side == *side).expect("a clamp");
                clamp.wires.push(id.clone());
            }
            WireEnd::Contact { element, point } => {
                let at =
                    arrangement.elements.iter_mut().find(|part| part.tag == *element).expect("an element");
                let mut points = at.contacts.iter_mut().flat_map(|contact| &mut contact.points);
                points.find(|known| known.name == *point).expect("a point").wires.push(id.clone());
            }
        }
    }
    let internal = matches!(to, WireEnd::Contact { .. });
    let safe = potential.starts_with('I');
    arrangement.wires.push(Wire {
        id,
        from,
        to,
        potential: potential.into(),
        circuit: tag,
        section_mm2: if safe { 1.0 } else { 1.5 },
        section: if safe { "1 mm²" } else { "1.5 mm²" }.into(),
        build: if internal { ConductorBuild::Flexible } else { ConductorBuild::Stranded },
        current_a,
        heat_current_a: current_a * share,
        heat_length_mm: DIAGONAL_MM,
        route_mm: 150.0,
    });
}

pub fn find_terminal<'a>(arrangement: &'a mut Arrangement, id: &str) -> &'a mut PlacedTerminal {
    arrangement.terminals.iter_mut().find(|terminal| terminal.id == id).expect("a terminal")
}

fn core(cable: &str, core: &str) -> WireEnd {
    WireEnd::Core { cable: cable.into(), core: core.into() }
}

fn upper(terminal: &str) -> WireEnd {
    WireEnd::Terminal { terminal: terminal.into(), level: 0, side: Side::Upper }
}

fn lower(terminal: &str) -> WireEnd {
    WireEnd::Terminal { terminal: terminal.into(), level: 0, side: Side::Lower }
}

fn on(element: &str, point: &str) -> WireEnd {
    WireEnd::Contact { element: element.into(), point: point.into() }
}

fn area() -> AreaRecord {
    AreaRecord {
        epl: vec![EquipmentProtectionLevel::Gb, EquipmentProtectionLevel::Db],
        gas_group: Some(GasGroup::IIB),
        dust_group: Some(DustGroup::IIIB),
        temperature_class: Some(TemperatureClass::T6),
        max_surface_c: Some(85.0),
        ambient_c: [-20.0, 40.0],
        ip: IpCode::try_from("IP65".to_string()).expect("a degree of protection"),
    }
}

/// The control station described above.
pub fn station() -> Arrangement {
    let strip = |name: &str, group: &str, kind| StripRecord { name: name.into(), group: group.into(), kind };
    let jumper = PlacedJumper {
        id: "J1".into(),
        part: "DEMO-A-JUMP-2".into(),
        description: "jumper for two".into(),
        terminals: vec!["X1:2".into(), "X1:3".into()],
        poles: 2,
        rated_current_a: 21.0,
        current_a: 2.0,
        resistance_mohm: 0.3,
        certificate: certificate(&["eb"], [-55.0, 110.0], None),
        mass_kg: 0.002,
        price: 0.6,
    };
    let mut station = Arrangement {
        format: FORMAT.into(),
        caution: CAUTION.into(),
        catalogue_warning: Some("invented data, not for use".into()),
        catalogue: "Demo parts of the tests, edition 1".into(),
        currency: "EUR".into(),
        job: JobRecord { tag: "LCS-2107".into(), title: "Loading pump P-21".into(), ..JobRecord::default() },
        area: area(),
        enclosure: enclosure(),
        limits: limits(),
        rails: vec![PlacedRail {
            id: "R1".into(),
            part: "DEMO-R-TH35-7.5".into(),
            profile: "TH35-7.5".into(),
            length_mm: 230.0,
            body: block([12.0, MIDDLE_MM - 17.5, 8.0], [242.0, MIDDLE_MM + 17.5, FRONT_MM]),
            mass_kg: 0.08,
            price: 1.0,
        }],
        strips: vec![
            strip("X1", "control", CircuitKind::ExE),
            strip("X2", "intrinsically_safe", CircuitKind::IntrinsicallySafe),
        ],
        terminals: vec![
            terminal("X1", 1, 20.0, "L", "C1/L"),
            terminal("X1", 2, 26.0, "S", "C1/S"),
            terminal("X1", 3, 32.0, "S", "C1/S"),
            terminal("X1", 4, 38.0, "R", "C1/R"),
            terminal("X1", 5, 44.0, "L", "C2/L"),
            terminal("X1", 6, 50.0, "N", "C2/N"),
            terminal("X1", 7, 56.0, "2", "W2/2"),
            terminal("X1", 8, 62.0, "", ""),
            terminal("X1", 9, 70.0, "PE", "PE"),
            terminal("X2", 1, 130.0, "1", "I1/1"),
            terminal("X2", 2, 136.0, "1", "I2/1"),
            terminal("X2", 3, 142.0, "", ""),
        ],
        accessories: vec![
            accessory("A1", AccessoryKind::EndStop, 12.0),
            accessory("A2", AccessoryKind::EndPlate, 68.0),
            accessory("A3", AccessoryKind::Partition, 76.0),
            accessory("A4", AccessoryKind::EndPlate, 148.0),
            accessory("A5", AccessoryKind::EndStop, 150.0),
        ],
        jumpers: vec![jumper],
        entries: vec![
            entry("E1", EntryPurpose::Cable("W1".into()), 60.0, "M25"),
            entry("E2", EntryPurpose::Cable("W2".into()), 100.0, "M20"),
            entry("E3", EntryPurpose::Spare, 140.0, "M20"),
            entry("E4", EntryPurpose::Cable("W3".into()), 180.0, "M20"),
        ],
        elements: vec![
            element("S0", ElementKind::EmergencyStop, [60.0, 195.0], [50.0, 50.0], 42.0),
            element("PB1", ElementKind::PushButton, [150.0, 195.0], [30.0, 45.0], 42.0),
            element("H1", ElementKind::Lamp, [40.0, 105.0], [30.0, 45.0], 40.0),
        ],
        cables: vec![cable("W1", "E1", 5, 17.0), cable("W2", "E2", 2, 9.0), cable("W3", "E4", 4, 9.5)],
        circuits: vec![
            circuit(
                "C1",
                230.0,
                2.0,
                0.8,
                vec![
                    pole("C1/L", "W1/1", &["S0/11"]),
                    pole("C1/S", "S0/12", &["W2/1", "PB1/13"]),
                    pole("C1/R", "PB1/14", &["W1/2"]),
                ],
            ),
            circuit(
                "C2",
                230.0,
                0.05,
                1.0,
                vec![pole("C2/L", "W1/3", &["H1/X1"]), pole("C2/N", "W1/4", &["H1/X2"])],
            ),
            circuit("I1", 24.0, 0.02, 1.0, vec![pole("I1/1", "W3/1", &["W3/3"])]),
            circuit("I2", 24.0, 0.02, 1.0, vec![pole("I2/1", "W3/2", &["W3/4"])]),
        ],
        wires: Vec::new(),
        spare: SpareRecord {
            terminals_percent: 10.0,
            entries: BTreeMap::from([(thread("M20"), 1)]),
            heat_percent: 10.0,
            free_terminals: BTreeMap::from([("R1".to_string(), 12)]),
        },
        heat: RatedHeat {
            reference_c: 20.0,
            conductor_length_mm: DIAGONAL_MM,
            row_class: TemperatureClass::T6,
            row_ambient_c: 40.0,
            rated_power_w: 8.0,
            reserve_percent: 10.0,
            permitted_power_w: 7.2,
            lines: Vec::new(),
            power_w: 0.0,
            power_at_limit_w: 0.0,
            limit_c: 85.0,
        },
        mass_kg: 0.0,
        price: 0.0,
        estimates: Vec::new(),
        remarks: vec!["contact 21-22 of `PB1` is not wired".into()],
    };
    for (from, to, potential) in [
        (core("W1", "1"), lower("X1:1"), "C1/L"),
        (upper("X1:1"), on("S0", "11"), "C1/L"),
        (upper("X1:2"), on("S0", "12"), "C1/S"),
        (core("W2", "1"), lower("X1:2"), "C1/S"),
        (upper("X1:3"), on("PB1", "13"), "C1/S"),
        (upper("X1:4"), on("PB1", "14"), "C1/R"),
        (core("W1", "2"), lower("X1:4"), "C1/R"),
        (core("W1", "3"), lower("X1:5"), "C2/L"),
        (upper("X1:5"), on("H1", "X1"), "C2/L"),
        (core("W1", "4"), lower("X1:6"), "C2/N"),
        (upper("X1:6"), on("H1", "X2"), "C2/N"),
        (core("W2", "2"), lower("X1:7"), "W2/2"),
        (core("W1", "PE"), lower("X1:9"), "PE"),
        (core("W2", "screen"), upper("X1:9"), "PE"),
        (core("W3", "1"), lower("X2:1"), "I1/1"),
        (core("W3", "3"), upper("X2:1"), "I1/1"),
        (core("W3", "2"), lower("X2:2"), "I2/1"),
        (core("W3", "4"), upper("X2:2"), "I2/1"),
    ] {
        connect(&mut station, from, to, potential);
    }
    reheat(&mut station);
    retotal(&mut station);
    station
}

/// The same station in stainless steel: its walls are earthed metal, the gland needs no earth plate.
pub fn stainless() -> Arrangement {
    let mut box_of_steel = station();
    box_of_steel.enclosure.id = "DEMO-S-2626".into();
    box_of_steel.enclosure.material = Material::Stainless;
    box_of_steel.enclosure.external_earth_mm2 = Some(16.0);
    for entry in &mut box_of_steel.entries {
        entry.earth_plate = None;
    }
    retotal(&mut box_of_steel);
    box_of_steel
}

/// Writes the lines and the sum of the heat calculation, counted by hand from the drawing: conductors
/// with 1.6 A (2 A at 0.8), 0.05 A and 0.02 A, IEC 60228 at 20 °C: 12.1 and 13.3 ohm/km for 1.5 mm²
/// class 2 and 5, 18.1 for 1 mm² class 2.
pub fn reheat(arrangement: &mut Arrangement) {
    let length_km = DIAGONAL_MM / 1e6;
    let line = |kind, item: &str, count: u32, current_a: f64, resistance_mohm: f64| HeatLine {
        kind,
        item: item.into(),
        count,
        current_a,
        resistance_mohm,
        power_w: f64::from(count) * current_a * current_a * resistance_mohm / 1000.0,
    };
    let conductor = |item: &str, count, current_a, ohm_per_km: f64| {
        line(HeatLineKind::Conductors, item, count, current_a, ohm_per_km * length_km * 1000.0)
    };
    let mut lines = vec![
        conductor("1.5 mm² stranded", 3, 1.6, 12.1),
        conductor("1.5 mm² flexible", 4, 1.6, 13.3),
        conductor("1.5 mm² stranded", 2, 0.05, 12.1),
        conductor("1.5 mm² flexible", 2, 0.05, 13.3),
        conductor("1 mm² stranded", 4, 0.02, 18.1),
        line(HeatLineKind::Terminals, "DEMO-T-4", 4, 1.6, 0.6),
        line(HeatLineKind::Terminals, "DEMO-T-4", 2, 0.05, 0.6),
        line(HeatLineKind::Terminals, "DEMO-T-IS", 2, 0.02, 0.6),
        line(HeatLineKind::Contacts, "contact blocks", 2, 1.6, 12.0),
    ];
    if !arrangement.jumpers.is_empty() {
        lines.push(line(HeatLineKind::Jumpers, "DEMO-A-JUMP-2", 1, 1.6, 0.3));
    }
    let lamp_w: f64 = arrangement.elements.iter().map(|element| element.power_w).sum();
    let mut lamp = line(HeatLineKind::Elements, "H1", 1, 0.0, 0.0);
    lamp.power_w = lamp_w;
    lines.push(lamp);
    arrangement.heat.power_w = lines.iter().map(|line| line.power_w).sum();
    arrangement.heat.power_at_limit_w = arrangement.heat.power_w * 1.25;
    arrangement.heat.lines = lines;
}

/// Writes the totals of mass and price.
pub fn retotal(arrangement: &mut Arrangement) {
    let mut mass_kg = arrangement.enclosure.mass_kg;
    let mut price = arrangement.enclosure.price;
    let mut add = |part_kg: f64, part_price: f64| {
        mass_kg += part_kg;
        price += part_price;
    };
    arrangement.rails.iter().for_each(|part| add(part.mass_kg, part.price));
    arrangement.terminals.iter().for_each(|part| add(part.mass_kg, part.price));
    arrangement.accessories.iter().for_each(|part| add(part.mass_kg, part.price));
    arrangement.jumpers.iter().for_each(|part| add(part.mass_kg, part.price));
    for entry in &arrangement.entries {
        add(entry.part.mass_kg, entry.part.price);
        entry.earth_plate.iter().for_each(|plate| add(plate.mass_kg, plate.price));
    }
    for element in &arrangement.elements {
        add(element.mass_kg, element.price);
        element.contacts.iter().for_each(|contact| add(contact.mass_kg, contact.price));
    }
    arrangement.mass_kg = mass_kg;
    arrangement.price = price;
}
