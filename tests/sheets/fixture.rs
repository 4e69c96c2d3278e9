//! Hand-made arrangements of our invented scenario, the Hollin Quay bioethanol tank farm. They are laid
//! out by simple rules of thumb and judged by nobody: sheets must draw whatever they are given.

mod elements;
mod entries;
mod rails;
mod wires;

use elements::elements;
use entries::entries;
use glandrail::arrangement::*;
use glandrail::catalogue::*;
use glandrail::space::{Block, Face, Interior, Point, Rect};
use glandrail::standards::iec_60079_0::{EquipmentProtectionLevel, GasGroup, TemperatureClass};
use glandrail::standards::threads::Thread;
use glandrail::workshop::Workshop;
use rails::Parts;
use std::collections::BTreeMap;
use wires::{connect, jumper};

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
            defined_arrangement_decides: false,
        },
        notices: Vec::new(),
        mass_kg: 6.42,
        price: 812.5,
        lead_times_days: BTreeMap::new(),
        estimates: vec!["Diameter of W102 estimated from its cores: 11.4 mm.".into()],
        remarks: vec!["The wall at the left carries the intrinsically safe cables.".into()],
        layout: None,
        proof: None,
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
        blocked: Vec::new(),
        areas: vec![Rect::new(12.0, 14.0, along - 24.0, depth_mm - 30.0)],
        flange_plate: false,
        largest_thread: Thread::M40,
        most_entries: Some(Most::NotLimited),
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
        most_terminals: Some(Most::NotLimited),
        rated_power: vec![RatedPower {
            class: TemperatureClass::T6,
            ambient_c: 50.0,
            power_w: 9.0,
        }],
        defined_arrangement: vec![],
        internal_earth_mm2: None,
        external_earth_mm2: Some(6.0),
        mass_kg: 3.1,
        price: 240.0,
        lead_time_days: 21,
    }
}

fn block(x0: f64, y0: f64, z0: f64, x1: f64, y1: f64, z1: f64) -> Block {
    Block::new(Point::new(x0, y0, z0), Point::new(x1, y1, z1))
}
