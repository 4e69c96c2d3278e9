//! The demo catalogue: its size, and that its figures agree with each other and with the rules that
//! its own files state.

use glandrail::catalogue::*;
use glandrail::standards::iec_60228::{ConductorClass, resistance_at_20_ohm_per_km};
use glandrail::standards::threads::across_corners_mm;
use glandrail::standards::{MaterialGroup, TemperatureClass, Thread, iec_60079_7, iec_60715};
use glandrail::workshop::Workshop;
use std::collections::{BTreeMap, BTreeSet};

fn demo() -> &'static Catalogue {
    Catalogue::demo()
}

#[test]
fn it_is_large_enough_and_marked() {
    let demo = demo();
    let of = |material| {
        demo.enclosure
            .iter()
            .filter(|part| part.material == material)
            .count()
    };
    assert_eq!(
        (
            of(Material::Grp),
            of(Material::Stainless),
            demo.enclosure.len()
        ),
        (30, 30, 60)
    );
    assert_eq!(
        (demo.terminal.len(), demo.accessory.len(), demo.rail.len()),
        (26, 90, 2)
    );
    assert_eq!(
        (demo.gland.len(), demo.plug.len(), demo.adapter.len()),
        (60, 32, 15)
    );
    assert_eq!((demo.element.len(), demo.contact_block.len()), (43, 6));
    let warning = demo.about.warning.as_deref().expect("a warning");
    assert!(
        warning.starts_with("Invented") && warning.contains("not for use"),
        "{warning}"
    );
    assert!(demo.about.title.contains("Hollin Quay"));
    for part in demo.parts() {
        assert!(part.id().starts_with("DEMO-"), "{}", part.id());
        assert!(!part.description().is_empty(), "{}", part.id());
    }
}

#[test]
fn enclosures_are_consistent() {
    let rules = Workshop::default();
    let lowest_terminal = demo()
        .terminal
        .iter()
        .map(|part| part.height_mm)
        .fold(f64::INFINITY, f64::min);
    for part in &demo().enclosure {
        let id = &part.id;
        for axis in 0..3 {
            assert_eq!(
                part.inner_mm[axis],
                part.outer_mm[axis] - 2.0 * part.wall_thickness_mm,
                "{id}"
            );
        }
        let [width, height, depth] = part.inner_mm;
        // The id says width and height in centimetres.
        let centimetres = format!(
            "{:02}{:02}",
            part.outer_mm[0] / 10.0,
            part.outer_mm[1] / 10.0
        );
        assert!(id.contains(&centimetres), "{id}");
        let lid = &part.lid;
        if lid.width_mm > 0.0 {
            let wall = part.wall_thickness_mm;
            for edge in [
                lid.x_mm,
                lid.y_mm,
                width - lid.x_mm - lid.width_mm,
                height - lid.y_mm - lid.height_mm,
            ] {
                assert!(edge + wall >= 25.0 - 1e-9, "{id}: {edge}");
            }
        } else {
            assert_eq!(lid.height_mm, 0.0, "{id}");
            assert_eq!(part.material, Material::Grp, "{id}");
        }
        let standoff = part.plate.standoff_mm;
        match part.material {
            Material::Grp => assert_eq!(standoff, 5.0, "{id}"),
            _ => assert!((8.0..=15.0).contains(&standoff), "{id}"),
        }
        let rail = iec_60715::RailProfile::Th35Low.height_mm().expect("known");
        let stack = standoff + rail + lowest_terminal + rules.rails.lid_clearance_mm;
        assert!(
            stack <= depth,
            "{id}: no terminal fits below the lid ({stack} mm of {depth} mm)"
        );
        assert!(part.walls.len() >= 3, "{id}");
    }
}

/// An area takes the body and locknut of every plain gland up to the wall's largest thread.
#[test]
fn walls_take_their_largest_thread() {
    for part in &demo().enclosure {
        for (face, wall) in &part.walls {
            let side = |area: &[f64; 4]| area[2].min(area[3]);
            let shortest = wall.areas_mm.iter().map(side).fold(f64::INFINITY, f64::min);
            let fits = demo().gland.iter().filter(|gland| {
                gland.thread == wall.largest_thread && gland.material == Material::Polyamide
            });
            let envelopes: Vec<f64> = fits.map(|gland| gland.envelope.diameter_mm()).collect();
            assert!(
                !envelopes.is_empty(),
                "{}: no gland {}",
                part.id,
                wall.largest_thread
            );
            assert!(
                envelopes.iter().all(|envelope| *envelope <= shortest),
                "{} {face}",
                part.id
            );
        }
    }
    let certified = demo().enclosure.iter().filter(|part| {
        part.walls
            .values()
            .any(|wall| matches!(wall.most_entries, Some(Most::Of(_))))
    });
    assert_eq!(certified.count(), 20);
}

/// The rule that the files state: exposed surface × coefficient × half the rise that is left.
#[test]
fn rated_power_follows_its_stated_rule() {
    let mut missing = 0;
    for part in &demo().enclosure {
        let [width, height, depth] = part.outer_mm.map(|length| length / 1000.0);
        let exposed_m2 = width * height + 2.0 * (width + height) * depth;
        let coefficient = if part.material == Material::Grp {
            5.0
        } else {
            5.5
        };
        for row in &part.rated_power {
            let rise = row.class.limit_c() - 5.0 - row.ambient_c;
            let exact = exposed_m2 * coefficient * rise / 2.0;
            assert!(
                row.power_w <= exact + 1e-9 && row.power_w > exact - 0.1 - 1e-9,
                "{}: {row:?}",
                part.id
            );
        }
        let has = |class, ambient| {
            part.rated_power
                .iter()
                .any(|row| row.class == class && row.ambient_c == ambient)
        };
        assert!(
            has(TemperatureClass::T6, 40.0) && has(TemperatureClass::T4, 40.0),
            "{}",
            part.id
        );
        missing += usize::from(!has(TemperatureClass::T6, 50.0));
    }
    assert!(
        (5..20).contains(&missing),
        "{missing} enclosures lack T6 at 50 °C"
    );
}

/// The rule that the files state: T6 power over the heat of one conductor and half a terminal.
#[test]
fn defined_arrangements_follow_their_stated_rule() {
    let resistance = |section: f64| {
        let names: BTreeMap<String, f64> = demo()
            .terminal
            .iter()
            .map(|part| (part.id.clone(), part.resistance_mohm))
            .collect();
        let name = if section <= 2.5 {
            "DEMO-T-2".to_string()
        } else {
            format!("DEMO-T-{section}")
        };
        names[&name]
    };
    let mut with_rows = 0;
    for part in demo()
        .enclosure
        .iter()
        .filter(|part| !part.defined_arrangement.is_empty())
    {
        with_rows += 1;
        let power = part
            .rated_power
            .iter()
            .find(|row| row.class == TemperatureClass::T6 && row.ambient_c == 40.0);
        let power_w = power.expect("tested above").power_w;
        let length_m = part
            .inner_mm
            .iter()
            .map(|length| length * length)
            .sum::<f64>()
            .sqrt()
            / 1000.0;
        for row in &part.defined_arrangement {
            let per_km = resistance_at_20_ohm_per_km(row.section_mm2, ConductorClass::Class2)
                .expect("listed");
            let mohm = per_km * length_m + resistance(row.section_mm2) / 2.0;
            let most = (power_w / (row.current_a.powi(2) * mohm / 1000.0) + 1e-9)
                .floor()
                .min(400.0);
            assert_eq!(f64::from(row.most_conductors), most, "{}: {row:?}", part.id);
        }
    }
    assert_eq!(with_rows, 12);
}

#[test]
fn mass_and_price_do_not_simply_follow_the_volume() {
    let volume = |part: &Enclosure| part.outer_mm.iter().product::<f64>();
    let mut sorted: Vec<&Enclosure> = demo().enclosure.iter().collect();
    sorted.sort_by(|a, b| volume(a).total_cmp(&volume(b)));
    assert!(sorted.windows(2).any(|pair| pair[1].price < pair[0].price));
    assert!(
        sorted
            .windows(2)
            .any(|pair| pair[1].mass_kg < pair[0].mass_kg)
    );
    let by_id = |id: &str| demo().enclosure_by_id(id).expect("listed");
    let (plastic, steel) = (by_id("DEMO-G-4030"), by_id("DEMO-S-4030"));
    assert!(plastic.price < steel.price && plastic.mass_kg < steel.mass_kg);
}

/// Live parts keep the distance for the rated voltage to the rail, with the workshop's tolerance.
#[test]
fn terminals_keep_their_distance_to_the_rail() {
    let tolerance = Workshop::default().distances.tolerance_mm;
    for part in &demo().terminal {
        assert_eq!(part.tracking_index, Some(600.0), "{}", part.id);
        assert!(part.neighbour_distance_mm.is_some(), "{}", part.id);
        if part.function == TerminalFunction::Earth {
            continue;
        }
        let creepage =
            iec_60079_7::creepage_mm(part.rated_voltage_v, MaterialGroup::I).expect("in the table");
        assert!(part.live.foot_mm - tolerance >= creepage, "{}", part.id);
    }
}

#[test]
fn terminals_have_what_goes_with_them() {
    for part in &demo().terminal {
        let fitting = |kind| {
            demo()
                .accessory
                .iter()
                .filter(move |other| other.kind == kind && other.fits.contains(&part.id))
        };
        if part.open_side {
            let plates: Vec<&Accessory> = fitting(AccessoryKind::EndPlate).collect();
            assert_eq!(plates.len(), 1, "{}", part.id);
            assert!(
                plates[0].length_mm >= part.length_mm && plates[0].height_mm >= part.height_mm,
                "{}",
                part.id
            );
        }
        if matches!(
            part.function,
            TerminalFunction::FeedThrough | TerminalFunction::Disconnect
        ) {
            let poles: BTreeSet<u32> = fitting(AccessoryKind::Jumper)
                .filter_map(|jumper| jumper.poles)
                .collect();
            assert_eq!(poles, BTreeSet::from([2, 3, 4, 5, 10]), "{}", part.id);
        }
        assert_eq!(part.rails, ["TH35-7.5", "TH35-15"], "{}", part.id);
    }
    let sections = |function| {
        demo()
            .terminal
            .iter()
            .filter(move |part| part.function == function)
    };
    for part in
        sections(TerminalFunction::FeedThrough).filter(|part| part.circuits == [CircuitKind::ExE])
    {
        let largest = part.clamp.stranded_mm2.expect("all take stranded ones")[1];
        let earth = sections(TerminalFunction::Earth)
            .any(|earth| earth.clamp.takes(ConductorBuild::Stranded, largest));
        assert!(earth, "no earth terminal takes {largest} mm²");
    }
}

#[test]
fn entries_agree_with_their_threads() {
    for gland in &demo().gland {
        assert_eq!(
            gland.hole_mm,
            gland.thread.clearance_hole_mm(),
            "{}",
            gland.id
        );
        let corners = across_corners_mm(gland.spanner_mm);
        assert!(
            (0.0..0.1 + 1e-9).contains(&(gland.envelope.outside_mm - corners)),
            "{}",
            gland.id
        );
        assert_eq!(
            gland.envelope.reach_in_mm,
            gland.thread_length_mm - gland.wall_mm[0],
            "{}",
            gland.id
        );
        assert_eq!(
            gland.colour == "light blue",
            gland.for_intrinsically_safe,
            "{}",
            gland.id
        );
    }
    let all = Thread::ALL.iter().copied();
    let threads: Vec<Thread> = all
        .filter(|thread| {
            (Thread::M12..=Thread::M63).contains(thread)
                || (Thread::Npt1_2..=Thread::Npt2).contains(thread)
        })
        .collect();
    assert_eq!(threads.len(), 14);
    for thread in threads {
        for is_metal in [false, true] {
            let plug = demo().plug.iter().any(|plug| {
                plug.kind == PlugKind::StoppingPlug
                    && plug.thread == thread
                    && plug.material.is_metal() == is_metal
            });
            assert!(plug, "no plug {thread}, metal: {is_metal}");
        }
        if demo()
            .gland
            .iter()
            .any(|gland| gland.thread == thread && gland.material.is_metal())
        {
            let plate = demo()
                .accessory
                .iter()
                .any(|part| part.kind == AccessoryKind::EarthPlate && part.thread == Some(thread));
            assert!(plate, "no earth plate {thread}");
        }
    }
}

/// No gap between the clamping ranges of one series: every cable in between finds a gland.
#[test]
fn clamping_ranges_leave_no_gap() {
    let series = |prefix: &str| -> Vec<[f64; 2]> {
        let rest = |gland: &Gland| {
            gland
                .id
                .strip_prefix(prefix)
                .is_some_and(|rest| !rest.starts_with(['A', 'B']))
        };
        demo()
            .gland
            .iter()
            .filter(|gland| rest(gland))
            .map(|gland| gland.clamping_mm)
            .collect()
    };
    for prefix in [
        "DEMO-P-M",
        "DEMO-P-B-M",
        "DEMO-B-M",
        "DEMO-B-A-M",
        "DEMO-B-NPT",
        "DEMO-B-A-NPT",
    ] {
        let mut ranges = series(prefix);
        ranges.sort_by(|a, b| a[0].total_cmp(&b[0]));
        assert!(ranges.len() >= 5, "{prefix}");
        for pair in ranges.windows(2) {
            assert!(pair[1][0] < pair[0][1], "{prefix}: {pair:?}");
        }
    }
}

#[test]
fn elements_cover_every_kind_and_colour() {
    let colours = |kind| -> BTreeSet<&str> {
        demo()
            .element
            .iter()
            .filter(|part| part.kind == kind)
            .map(|part| part.colour.as_str())
            .collect()
    };
    let buttons = BTreeSet::from(["black", "blue", "green", "red", "white", "yellow"]);
    assert_eq!(colours(ElementKind::PushButton), buttons);
    let lamps = BTreeSet::from(["blue", "green", "red", "white", "yellow"]);
    assert_eq!(colours(ElementKind::Lamp), lamps);
    assert_eq!(colours(ElementKind::IlluminatedPushButton), lamps);
    assert_eq!(colours(ElementKind::EmergencyStop), BTreeSet::from(["red"]));
    for kind in [
        ElementKind::Selector,
        ElementKind::Ammeter,
        ElementKind::Voltmeter,
        ElementKind::Potentiometer,
    ] {
        assert!(!colours(kind).is_empty(), "{kind:?}");
    }
    for kind in [ContactKind::NO, ContactKind::NC] {
        for circuit in [CircuitKind::ExE, CircuitKind::IntrinsicallySafe] {
            let blocks = demo()
                .contact_block
                .iter()
                .filter(|block| block.contact == kind && block.circuits.contains(&circuit));
            assert!(blocks.count() >= 1, "{kind:?} for {circuit:?}");
        }
    }
    let gap = Workshop::default().elements.gap_mm;
    for part in &demo().element {
        let Some(hole) = part.hole.as_deref() else {
            continue;
        };
        let hole: glandrail::standards::iec_60947_5_1::MountingHole =
            hole.parse().expect("checked on reading");
        let (larger, smaller) = hole.centre_distance_mm().expect("D22 and D30 are known");
        let [width, height] = part.footprint_mm;
        assert!(
            width.max(height) + gap >= larger && width.min(height) + gap >= smaller,
            "{}",
            part.id
        );
    }
}
