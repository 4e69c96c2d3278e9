//! Hand-made arrangements of our invented scenario, the Hollin Quay bioethanol tank farm. They are laid
//! out by simple rules of thumb and judged by nobody: sheets must draw whatever they are given.

use glandrail::arrangement::*;
use glandrail::catalogue::*;
use glandrail::space::{Block, Face, Interior, Point, Rect};
use glandrail::standards::iec_60079_0::{EquipmentProtectionLevel, GasGroup, TemperatureClass};
use glandrail::standards::threads::Thread;
use glandrail::workshop::Workshop;
use std::collections::BTreeMap;

/// What differs between the boxes.
pub struct Plan {
    pub interior: Interior,
    /// Terminals by rail; the last rail is intrinsically safe.
    pub terminals: Vec<u32>,
    /// Width of a terminal.
    pub terminal_mm: f64,
    /// Entries by wall.
    pub entries: Vec<(Face, u32)>,
    pub elements: usize,
}

/// A box of 300 × 200 × 120 mm: two rails, 30 terminals, 12 entries in two walls, four elements.
pub fn small() -> Arrangement {
    build(&Plan {
        interior: Interior {
            width_mm: 300.0,
            height_mm: 200.0,
            depth_mm: 120.0,
        },
        terminals: vec![20, 10],
        terminal_mm: 5.2,
        entries: vec![(Face::Bottom, 6), (Face::Left, 6)],
        elements: 4,
    })
}

/// A box of 600 × 600 × 200 mm: three rails, 190 terminals, 46 entries in all walls, ten elements.
pub fn large() -> Arrangement {
    build(&Plan {
        interior: Interior {
            width_mm: 600.0,
            height_mm: 600.0,
            depth_mm: 200.0,
        },
        terminals: vec![90, 70, 30],
        terminal_mm: 5.2,
        entries: vec![
            (Face::Bottom, 18),
            (Face::Right, 8),
            (Face::Top, 6),
            (Face::Left, 14),
        ],
        elements: 10,
    })
}

/// The small box with words far longer than anybody should use, and characters that files must guard.
pub fn wordy() -> Arrangement {
    let mut arrangement = small();
    arrangement.job.tag = "JB-2107-AREA-51-LOADING-BAY-NORTH-EAST".into();
    arrangement.job.title = "A title that goes on <and> on & on \"without\" an end ".repeat(5);
    arrangement.catalogue_warning =
        Some("Invented data, not for use in any real installation. ".repeat(12));
    arrangement.enclosure.id = "DEMO-ENCLOSURE-WITH-A-NAME-AS-LONG-AS-THE-WALL-IT-HANGS-ON".into();
    for (index, entry) in arrangement.entries.iter_mut().enumerate() {
        if let EntryPurpose::Cable(tag) = &mut entry.purpose {
            *tag = format!("W-HOLLIN-QUAY-{index:03}-INSTRUMENT-CABLE-TO-THE-PUMP");
        }
        entry.part.id = format!("DEMO-GLAND-OF-MANY-WORDS-AND-SOME-MORE-{index}");
    }
    for element in &mut arrangement.elements {
        element.label = "Überdrucksicherungsanlagenabschaltung NORTH LOADING ARM".into();
        element.part = "DEMO-OPERATING-ELEMENT-OF-MANY-WORDS-AND-SOME-MORE-AND-YET-MORE".into();
    }
    for terminal in &mut arrangement.terminals {
        terminal.marking = "LONG-MARKING-1".into();
    }
    arrangement
}

/// A box without elements, rails or entries to speak of.
pub fn bare() -> Arrangement {
    build(&Plan {
        interior: Interior {
            width_mm: 110.0,
            height_mm: 75.0,
            depth_mm: 55.0,
        },
        terminals: vec![],
        terminal_mm: 5.2,
        entries: vec![(Face::Bottom, 1)],
        elements: 0,
    })
}

pub fn build(plan: &Plan) -> Arrangement {
    let interior = plan.interior;
    let mut box_of_parts = Parts {
        plan,
        rails: vec![],
        terminals: vec![],
        accessories: vec![],
        strips: vec![],
    };
    box_of_parts.fill_rails();
    let (entries, cables) = entries(plan);
    let elements = elements(plan);
    let mut wires = Vec::new();
    let mut circuits = Vec::new();
    connect(
        &mut box_of_parts.terminals,
        &cables,
        &mut wires,
        &mut circuits,
    );
    let jumpers = jumper(&box_of_parts.terminals).into_iter().collect();
    let free = box_of_parts
        .rails
        .iter()
        .map(|rail| (rail.id.clone(), 9))
        .collect();
    Arrangement {
        format: FORMAT.into(),
        caution: CAUTION.into(),
        catalogue_warning: Some(
            "Invented catalogue of the maker Demo: not for use in any real installation.".into(),
        ),
        catalogue: "Demo catalogue, first edition".into(),
        currency: "EUR".into(),
        job: JobRecord {
            tag: "JB-2107".into(),
            title: "Hollin Quay tank farm, loading pump P-21, field junction & control".into(),
            revision: "B".into(),
            customer_reference: "HQ-4500-118".into(),
            notes: String::new(),
        },
        area: AreaRecord {
            epl: vec![EquipmentProtectionLevel::Gb],
            gas_group: Some(GasGroup::IIB),
            dust_group: None,
            temperature_class: Some(TemperatureClass::T6),
            max_surface_c: None,
            ambient_c: [-20.0, 45.0],
            ip: IpCode {
                solids: 6,
                water: 6,
            },
        },
        enclosure: enclosure(interior),
        limits: Workshop::default().limits(),
        rails: box_of_parts.rails,
        strips: box_of_parts.strips,
        terminals: box_of_parts.terminals,
        accessories: box_of_parts.accessories,
        jumpers,
        entries,
        elements,
        cables,
        circuits,
        wires,
        spare: SpareRecord {
            terminals_percent: 20.0,
            entries: BTreeMap::from([(Thread::M20, 1)]),
            heat_percent: 10.0,
            free_terminals: free,
        },
        heat: RatedHeat {
            reference_c: 20.0,
            conductor_length_mm: interior.diagonal_mm(),
            row_class: TemperatureClass::T6,
            row_ambient_c: 50.0,
            rated_power_w: 9.0,
            reserve_percent: 10.0,
            permitted_power_w: 8.1,
            lines: vec![HeatLine {
                kind: HeatLineKind::Conductors,
                item: "conductors 2.5 mm² stranded".into(),
                count: 44,
                current_a: 6.0,
                resistance_mohm: 2.8,
                power_w: 4.4,
            }],
            power_w: 5.37,
            power_at_limit_w: 6.5,
            limit_c: 85.0,
        },
        mass_kg: 6.42,
        price: 812.5,
        estimates: vec!["Diameter of W102 estimated from its cores: 11.4 mm.".into()],
        remarks: vec!["The wall at the left carries the intrinsically safe cables.".into()],
    }
}

fn certificate() -> Certificate {
    Certificate {
        protection: vec!["eb".into()],
        ..Certificate::default()
    }
}

fn enclosure(interior: Interior) -> EnclosureRecord {
    let Interior {
        width_mm,
        height_mm,
        depth_mm,
    } = interior;
    let wall = |along: f64| WallRecord {
        areas: vec![Rect::new(12.0, 14.0, along - 24.0, depth_mm - 30.0)],
        flange_plate: false,
        largest_thread: Thread::M40,
        most_entries: None,
    };
    EnclosureRecord {
        id: "DEMO-G-3020".into(),
        description: "Enclosure, glass-fibre reinforced polyester".into(),
        orientation: Orientation::Upright,
        material: Material::Grp,
        outer_mm: [width_mm + 8.0, height_mm + 8.0, depth_mm + 10.0],
        interior,
        wall_thickness_mm: 4.0,
        plate: MountingPlate {
            x_mm: 8.0,
            y_mm: 8.0,
            width_mm: width_mm - 16.0,
            height_mm: height_mm - 16.0,
            standoff_mm: 6.0,
        },
        lid: Rect::new(16.0, 16.0, width_mm - 32.0, height_mm - 32.0),
        hinge: Some(Face::Left),
        walls: BTreeMap::from([
            (Face::Bottom, wall(width_mm)),
            (Face::Right, wall(height_mm)),
            (Face::Left, wall(height_mm)),
        ]),
        certificate: certificate(),
        rated_voltage_v: Some(690.0),
        rated_current_a: Some(125.0),
        impact_j: Some(7.0),
        most_terminals: None,
        rated_power: vec![RatedPower {
            class: TemperatureClass::T6,
            ambient_c: 50.0,
            power_w: 9.0,
        }],
        defined_arrangement: vec![],
        external_earth_mm2: Some(6.0),
        mass_kg: 3.1,
        price: 240.0,
        lead_time_days: 21,
    }
}

struct Parts<'a> {
    plan: &'a Plan,
    rails: Vec<PlacedRail>,
    terminals: Vec<PlacedTerminal>,
    accessories: Vec<PlacedAccessory>,
    strips: Vec<StripRecord>,
}

impl Parts<'_> {
    /// Rails at equal distances; on each an end stop, terminals (on the first also earth), an end stop.
    fn fill_rails(&mut self) {
        let interior = self.plan.interior;
        let rails = self.plan.terminals.len();
        for index in 0..rails {
            let y_mm = (interior.height_mm * (index as f64 + 0.75) / (rails as f64 + 0.35)).round();
            let id = format!("R{}", index + 1);
            self.rails.push(PlacedRail {
                id: id.clone(),
                part: "DEMO-RAIL-35".into(),
                profile: "TH35-7.5".into(),
                length_mm: interior.width_mm - 40.0,
                body: block(
                    20.0,
                    y_mm - 17.5,
                    6.0,
                    interior.width_mm - 20.0,
                    y_mm + 17.5,
                    13.5,
                ),
                mass_kg: 0.1,
                price: 2.4,
            });
            let is_safe = rails > 1 && index + 1 == rails;
            let mut x_mm = 28.0;
            x_mm = self.accessory(&id, AccessoryKind::EndStop, x_mm, 8.0, y_mm);
            let count = self.plan.terminals[index];
            let earths = if index == 0 { (count / 5).min(12) } else { 0 };
            let strip = format!("X{}", index + 1);
            self.strips.push(StripRecord {
                name: strip.clone(),
                group: if is_safe {
                    "signal".into()
                } else {
                    "control".into()
                },
                kind: if is_safe {
                    CircuitKind::IntrinsicallySafe
                } else {
                    CircuitKind::ExE
                },
            });
            for number in 1..=count - earths {
                x_mm = self.terminal(&id, &strip, number, is_safe, false, x_mm, y_mm);
                if number == 8 {
                    x_mm = self.accessory(&id, AccessoryKind::Partition, x_mm, 2.0, y_mm);
                }
            }
            x_mm = self.accessory(&id, AccessoryKind::EndPlate, x_mm, 1.5, y_mm);
            if earths > 0 {
                self.strips.push(StripRecord {
                    name: "PE".into(),
                    group: "earth".into(),
                    kind: CircuitKind::ExE,
                });
            }
            for number in 1..=earths {
                x_mm = self.terminal(&id, "PE", number, false, true, x_mm, y_mm);
            }
            self.accessory(&id, AccessoryKind::EndStop, x_mm, 8.0, y_mm);
        }
    }

    fn accessory(
        &mut self,
        rail: &str,
        kind: AccessoryKind,
        x_mm: f64,
        width_mm: f64,
        y_mm: f64,
    ) -> f64 {
        let (part, description, half) = match kind {
            AccessoryKind::EndStop => ("DEMO-STOP-8", "End stop", 18.0),
            AccessoryKind::Partition => ("DEMO-PART-2", "Partition", 26.0),
            _ => ("DEMO-EP-15", "End plate", 22.5),
        };
        self.accessories.push(PlacedAccessory {
            id: format!("A{}", self.accessories.len() + 1),
            part: part.into(),
            description: description.into(),
            kind,
            rail: rail.into(),
            body: block(x_mm, y_mm - half, 13.5, x_mm + width_mm, y_mm + half, 55.0),
            certificate: certificate(),
            mass_kg: 0.01,
            price: 0.8,
        });
        x_mm + width_mm
    }

    #[allow(clippy::too_many_arguments)] // a fixture's shorthand, called in two places
    fn terminal(
        &mut self,
        rail: &str,
        strip: &str,
        number: u32,
        is_safe: bool,
        is_earth: bool,
        x_mm: f64,
        y_mm: f64,
    ) -> f64 {
        let width_mm = if is_earth {
            self.plan.terminal_mm + 1.0
        } else {
            self.plan.terminal_mm
        };
        let id = format!("{strip}:{number}");
        let body = block(x_mm, y_mm - 22.5, 13.5, x_mm + width_mm, y_mm + 22.5, 60.0);
        let kind = if is_safe {
            CircuitKind::IntrinsicallySafe
        } else {
            CircuitKind::ExE
        };
        let (part, colour) = match (is_earth, is_safe) {
            (true, _) => ("DEMO-T-PE4", "green-yellow"),
            (_, true) => ("DEMO-T-25I", "light blue"),
            _ => ("DEMO-T-25", "grey"),
        };
        self.terminals.push(PlacedTerminal {
            id: id.clone(),
            strip: strip.into(),
            number,
            marking: String::new(),
            part: part.into(),
            description: format!("Terminal, {colour}"),
            rail: rail.into(),
            function: if is_earth {
                TerminalFunction::Earth
            } else {
                TerminalFunction::FeedThrough
            },
            kind,
            part_circuits: vec![kind],
            spare: true,
            body,
            live: vec![],
            clamps: [Side::Lower, Side::Upper]
                .map(|side| Clamp {
                    level: 0,
                    side,
                    wires: vec![],
                })
                .to_vec(),
            working_voltage_v: 0.0,
            current_a: 0.0,
            clamp_range: ClampRange {
                solid_mm2: None,
                stranded_mm2: Some([0.5, 2.5]),
                flexible_mm2: None,
            },
            conductors_per_clamp: 1,
            rated_voltage_v: 550.0,
            ratings: vec![SectionRating {
                section_mm2: 2.5,
                current_a: 21.0,
            }],
            resistance_mohm: 0.9,
            tracking_index: Some(600.0),
            neighbour_distance_mm: Some(8.0),
            rise_at_rated_k: None,
            rail_profiles: vec!["TH35-7.5".into()],
            open_side: true,
            colour: colour.into(),
            torque_nm: Some(0.6),
            strip_mm: Some(9.0),
            certificate: certificate(),
            mass_kg: 0.012,
            price: 1.35,
        });
        x_mm + width_mm
    }
}

fn block(x0: f64, y0: f64, z0: f64, x1: f64, y1: f64, z1: f64) -> Block {
    Block::new(Point::new(x0, y0, z0), Point::new(x1, y1, z1))
}

/// Entries in one row a wall while they fit, else in two; the last of a wall is spare.
fn entries(plan: &Plan) -> (Vec<PlacedEntry>, Vec<CableRecord>) {
    let (mut entries, mut cables) = (Vec::new(), Vec::new());
    for (wall, count) in &plan.entries {
        let along = plan.interior.length_along_u_mm(*wall);
        let rows = if f64::from(*count) * 33.0 + 30.0 > along {
            2
        } else {
            1
        };
        let per_row = count.div_ceil(rows);
        for index in 0..*count {
            let (row, place) = (index / per_row, index % per_row);
            let u_mm = glandrail::space::to_tenth(
                20.0 + (f64::from(place) + 0.5) * (along - 40.0) / f64::from(per_row),
            );
            let v_mm = if rows == 1 {
                plan.interior.depth_mm / 2.0
            } else {
                plan.interior.depth_mm * (0.3 + 0.37 * f64::from(row))
            };
            let number = entries.len() + 1;
            let is_safe = *wall == Face::Left;
            let is_large = index == 0 && !is_safe;
            let purpose = match index {
                last if last + 1 == *count && *count > 1 => {
                    if is_safe {
                        EntryPurpose::Breather
                    } else {
                        EntryPurpose::Spare
                    }
                }
                _ => EntryPurpose::Cable(format!("W{}", 100 + number)),
            };
            if let EntryPurpose::Cable(tag) = &purpose {
                cables.push(cable(tag, number, is_safe, is_large));
            }
            entries.push(entry(
                plan,
                number,
                purpose,
                *wall,
                (u_mm, v_mm),
                is_safe,
                is_large,
            ));
        }
    }
    (entries, cables)
}

fn cable(tag: &str, number: usize, is_safe: bool, is_large: bool) -> CableRecord {
    let (cores, count, diameter_mm) = if is_large {
        ("16 × 1.5 mm²", 16, 17.5)
    } else {
        ("2 × 1.5 mm²", 2, 9.2)
    };
    CableRecord {
        tag: tag.into(),
        cores: cores.into(),
        kind: if is_safe {
            CircuitKind::IntrinsicallySafe
        } else {
            CircuitKind::ExE
        },
        diameter_mm,
        diameter_range_mm: [diameter_mm * 0.97, diameter_mm * 1.03],
        diameter_estimated: number == 2,
        armoured: false,
        under_armour_mm: None,
        screened: is_safe,
        walls: Face::WALLS.to_vec(),
        entry: format!("E{number}"),
        core_count: count,
    }
}

fn entry(
    plan: &Plan,
    number: usize,
    purpose: EntryPurpose,
    wall: Face,
    (u_mm, v_mm): (f64, f64),
    is_safe: bool,
    is_large: bool,
) -> PlacedEntry {
    let (thread, hole_mm, envelope_mm, reach_mm) = if is_large {
        (Thread::M32, 32.2, 42.0, 38.0)
    } else {
        (Thread::M20, 20.2, 27.7, 28.0)
    };
    let is_cable = matches!(purpose, EntryPurpose::Cable(_));
    let (id, description, colour) = match (&purpose, is_safe, is_large) {
        (EntryPurpose::Breather, ..) => ("DEMO-BRE-M20", "Breather and drain, brass", ""),
        (EntryPurpose::Spare, ..) => ("DEMO-PLUG-M20", "Stopping plug, polyamide", "black"),
        (_, true, _) => (
            "DEMO-GP-M20-B",
            "Gland, polyamide, light blue",
            "light blue",
        ),
        (_, _, true) => ("DEMO-GP-M32", "Gland, polyamide", "black"),
        _ => ("DEMO-GP-M20", "Gland, polyamide", "black"),
    };
    let extent = (envelope_mm, envelope_mm);
    PlacedEntry {
        id: format!("E{number}"),
        wall,
        u_mm,
        v_mm,
        thread,
        hole_mm,
        envelope_mm,
        inside: plan.interior.block(
            wall,
            (u_mm, v_mm),
            (envelope_mm - 2.0, envelope_mm - 2.0),
            0.0,
            9.0,
        ),
        outside: plan.interior.block(
            wall,
            (u_mm, v_mm),
            extent,
            if is_cable { -4.0 - reach_mm } else { -10.0 },
            -4.0,
        ),
        part: EntryPart {
            id: id.into(),
            description: description.into(),
            material: Material::Polyamide,
            colour: colour.into(),
            clamping_mm: is_cable.then_some(if is_large { [13.0, 21.0] } else { [6.0, 13.0] }),
            under_armour_mm: None,
            for_intrinsically_safe: is_safe && is_cable,
            envelope: EntryEnvelope {
                outside_mm: envelope_mm,
                inside_mm: envelope_mm - 2.0,
                reach_out_mm: reach_mm,
                reach_in_mm: 9.0,
            },
            wall_mm: [1.0, 6.0],
            spanner_mm: is_cable.then_some(24.0),
            torque_nm: Some(if is_large { 7.0 } else { 4.0 }),
            certificate: certificate(),
            mass_kg: 0.02,
            price: 4.6,
        },
        purpose,
        earth_plate: None,
    }
}

/// Two rows in the lid: lamps above, buttons below, the emergency stop last.
fn elements(plan: &Plan) -> Vec<PlacedElement> {
    use ElementKind::*;
    let kinds = [
        ("H1", Lamp, "white", "PUMP P-21 READY"),
        ("S1", PushButton, "green", "START"),
        ("S2", PushButton, "red", "STOP"),
        ("S0", EmergencyStop, "red", "EMERGENCY STOP"),
        ("H2", Lamp, "yellow", "FAULT OF THE LOADING PUMP"),
        ("S3", Selector, "black", "LOCAL / REMOTE"),
        ("P1", Ammeter, "black", "MOTOR CURRENT"),
        ("S4", IlluminatedPushButton, "blue", "ACKNOWLEDGE"),
        ("R1", Potentiometer, "black", "FLOW SETPOINT"),
        ("H3", Lamp, "green", "RUNNING"),
    ];
    let count = plan.elements;
    let per_row = count.div_ceil(2).max(1);
    let pitch_mm = (plan.interior.width_mm - 40.0) / per_row as f64;
    kinds
        .into_iter()
        .take(count)
        .enumerate()
        .map(|(index, (tag, kind, colour, label))| {
            let (row, place) = (index / per_row, index % per_row);
            let x_mm = glandrail::space::to_tenth(20.0 + (place as f64 + 0.5) * pitch_mm);
            let y_mm = plan.interior.height_mm * if row == 0 { 0.68 } else { 0.32 };
            let is_meter = kind == Ammeter;
            let hole_mm = if is_meter { [68.0, 68.0] } else { [22.5, 22.5] };
            let (width, height) = if is_meter { (74.0, 86.0) } else { (42.0, 58.0) };
            let footprint = Rect::new(x_mm - width / 2.0, y_mm - height / 2.0 + 6.0, width, height);
            let depth_mm = plan.interior.depth_mm;
            PlacedElement {
                tag: tag.into(),
                part: format!("DEMO-EL-{tag}"),
                description: format!("Operating element, {}", kind.words()),
                kind,
                function: String::new(),
                label: label.into(),
                colour: colour.into(),
                background: (kind == EmergencyStop).then(|| "yellow".to_string()),
                latching: kind == EmergencyStop,
                row: row as u32 + 1,
                x_mm,
                y_mm,
                hole_mm,
                hole: (!is_meter).then(|| "D22".to_string()),
                footprint,
                body: block(
                    x_mm - 15.0,
                    y_mm - 15.0,
                    depth_mm - 50.0,
                    x_mm + 15.0,
                    y_mm + 15.0,
                    depth_mm,
                ),
                live: vec![],
                contacts: vec![PlacedContact {
                    part: Some("DEMO-CB-NO".into()),
                    description: "Contact block, normally open".into(),
                    contact: Some(ContactKind::NO),
                    points: vec![],
                    circuits: vec![CircuitKind::ExE],
                    rated_voltage_v: Some(250.0),
                    rated_current_a: Some(6.0),
                    resistance_mohm: 20.0,
                    clamp_range: ClampRange::default(),
                    certificate: certificate(),
                    mass_kg: 0.03,
                    price: 9.5,
                }],
                power_w: if kind == Lamp { 0.5 } else { 0.0 },
                certificate: certificate(),
                mass_kg: 0.08,
                price: 31.0,
            }
        })
        .collect()
}

/// Cores of the cables to the lower clamps of the terminals of their kind, in order.
fn connect(
    terminals: &mut [PlacedTerminal],
    cables: &[CableRecord],
    wires: &mut Vec<Wire>,
    circuits: &mut Vec<CircuitRecord>,
) {
    for cable in cables {
        for core in 1..=cable.core_count {
            let Some(terminal) = terminals.iter_mut().find(|t| {
                t.spare && t.kind == cable.kind && t.function == TerminalFunction::FeedThrough
            }) else {
                continue;
            };
            let id = format!("W{}", wires.len() + 1);
            let circuit = format!("{}-{}", cable.tag, core.div_ceil(2));
            let marking = if core % 2 == 1 { "L" } else { "N" };
            terminal.spare = false;
            terminal.marking = marking.into();
            terminal.working_voltage_v = 24.0;
            terminal.current_a = 0.5;
            terminal.clamps[0].wires.push(id.clone());
            wires.push(Wire {
                id,
                from: WireEnd::Core {
                    cable: cable.tag.clone(),
                    core: core.to_string(),
                },
                to: WireEnd::Terminal {
                    terminal: terminal.id.clone(),
                    level: 0,
                    side: Side::Lower,
                },
                potential: format!("{circuit}/{marking}"),
                circuit: circuit.clone(),
                section_mm2: 1.5,
                section: "1.5 mm²".into(),
                build: ConductorBuild::Stranded,
                current_a: 0.5,
                heat_current_a: 0.5,
                heat_length_mm: 380.0,
                route_mm: 210.0,
            });
            if core % 2 == 1 {
                circuits.push(CircuitRecord {
                    tag: circuit,
                    group: "control".into(),
                    kind: cable.kind,
                    voltage_v: 24.0,
                    current_a: 0.5,
                    simultaneity: 1.0,
                    poles: vec![],
                });
            }
        }
    }
}

fn jumper(terminals: &[PlacedTerminal]) -> Option<PlacedJumper> {
    let linked: Vec<String> = terminals
        .iter()
        .take(3)
        .map(|terminal| terminal.id.clone())
        .collect();
    (linked.len() == 3).then(|| PlacedJumper {
        id: "J1".into(),
        part: "DEMO-J-10".into(),
        description: "Jumper, 10 poles".into(),
        terminals: linked,
        poles: 10,
        rated_current_a: 21.0,
        current_a: 0.5,
        heat_current_a: 0.5,
        resistance_mohm: 0.2,
        certificate: certificate(),
        mass_kg: 0.005,
        price: 2.2,
    })
}
