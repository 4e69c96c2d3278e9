//! Heat three ways: of every example, and where data are missing or disagree.

use crate::boxes::{all, named};
use glandrail::arrangement::{Arrangement, HeatLineKind, Wire, WireEnd};
use glandrail::catalogue::{DefinedArrangement, Material, SectionRating};
use glandrail::heat::bundles::BundleWeight;
use glandrail::heat::comparison::Agreement;
use glandrail::heat::defined_arrangement::{Asked, CountedConductor, MethodStatus, count};
use glandrail::heat::inside::{ASSUMPTIONS, BARE_STAINLESS, closed_box};
use glandrail::heat::{CLASS_PASSED, HeatAssessment, assess, wire_heat_w};
use glandrail::standards::TemperatureClass::T6;

fn codes(heat: &HeatAssessment) -> Vec<&'static str> {
    heat.warnings.iter().map(|warning| warning.code).collect()
}

#[test]
fn the_figures_of_every_example_are_sensible() {
    for (name, arrangement) in all() {
        let heat = assess(arrangement);
        assert!(heat.rated.holds && heat.rated.utilisation > 0.0 && heat.rated.utilisation <= 1.0);
        let inside = heat.inside.known().expect("a material with known walls");
        let balance = &inside.balance;
        assert!(
            balance.inside_rise_k > 0.0 && balance.inside_rise_k < 60.0,
            "{name}"
        );
        assert_eq!(balance.ambient_c, arrangement.area.ambient_c[1], "{name}");
        // All of the power leaves through the five faces.
        assert_eq!(balance.faces.len(), 5, "{name}");
        let sum_w: f64 = balance.faces.iter().map(|face| face.power_w).sum();
        assert!(
            (sum_w - arrangement.heat.power_at_limit_w).abs() < 1e-6,
            "{name}"
        );
        for face in &balance.faces {
            assert!(
                balance.ambient_c < face.outer_surface_c
                    && face.outer_surface_c <= face.inner_surface_c
                    && face.inner_surface_c < balance.inside_air_c,
                "{name} {face:?}"
            );
        }
        let [least_c, most_c] = inside.entry.between_c;
        assert!(balance.ambient_c < least_c && least_c < most_c, "{name}");
        assert_eq!(most_c, balance.inside_air_c, "{name}");
        let hottest = inside
            .hottest
            .known()
            .expect("every terminal's rise is known");
        assert!(
            hottest.temperature_c > balance.inside_air_c && hottest.within_limit,
            "{name}"
        );
        let branching = inside.branching.known().expect("terminals are known");
        assert!(branching.between_c[1] <= hottest.temperature_c, "{name}");
        // The report speaks of boxes of this size, and gives a rise of the same order.
        let report = inside.report.known().expect("large enough");
        let ratio = report.rise_at_half_height_k / balance.inside_rise_k;
        assert!((0.3..4.0).contains(&ratio), "{name}: {ratio}");
        let comparison = heat.comparison.known().expect("known walls");
        assert_eq!(
            comparison.agreement,
            Agreement::Agrees,
            "{name}: {}",
            comparison.ratio
        );
        assert!(codes(&heat).is_empty(), "{name}: {:?}", heat.warnings);
        let json = serde_json::to_value(&heat).expect("plain data");
        assert!(
            json["note"].as_str().expect("words").contains("estimate"),
            "{name}"
        );
    }
}

/// The lines were added up by the model; here each wire is reckoned on its own.
#[test]
fn the_wires_give_the_heat_of_the_lines() {
    for (name, arrangement) in all() {
        let lines_w: f64 = arrangement
            .heat
            .lines
            .iter()
            .filter(|line| line.kind == HeatLineKind::Conductors)
            .map(|line| line.power_w)
            .sum();
        let wires_w: f64 = arrangement
            .wires
            .iter()
            .map(|wire| wire_heat_w(wire, arrangement.heat.reference_c).expect("a known section"))
            .sum();
        assert!(
            (lines_w - wires_w).abs() < 1e-9 * lines_w.max(1.0),
            "{name}"
        );
        let groups_w: f64 = assess(arrangement)
            .bundles
            .iter()
            .map(|group| *group.power_w.known().expect("known"))
            .sum();
        assert!(
            (lines_w - groups_w).abs() < 1e-9 * lines_w.max(1.0),
            "{name}"
        );
    }
}

#[test]
fn milliamperes_are_told_from_amperes() {
    let signals = assess(&named("tank-farm-junction"));
    assert!(signals.conductors.negligible);
    assert!(signals.conductors.power_w > 0.0);
    let is_negligible = |group: &glandrail::heat::bundles::BundleGroup| {
        group.weight == BundleWeight::NegligibleHeat
    };
    assert!(signals.bundles.iter().all(is_negligible));
    let power = assess(&named("transfer-pump-power"));
    assert!(!power.conductors.negligible);
    assert!(
        power
            .bundles
            .iter()
            .any(|group| group.weight == BundleWeight::Weight)
    );
    let mixed = assess(&named("level-mixed-signals"));
    let weights: Vec<(&str, BundleWeight)> = mixed
        .bundles
        .iter()
        .map(|group| (group.group.as_str(), group.weight))
        .collect();
    assert_eq!(
        weights,
        [
            ("control", BundleWeight::Weight),
            ("intrinsically_safe", BundleWeight::NegligibleHeat)
        ]
    );
}

/// Rows for every conductor of a box of one section, `most` of them permitted.
fn with_rows(arrangement: &mut Arrangement, most_conductors: u32) {
    arrangement.enclosure.defined_arrangement = vec![DefinedArrangement {
        class: T6,
        ambient_c: 50.0,
        section_mm2: 1.5,
        current_a: 6.0,
        most_conductors,
    }];
}

#[test]
fn the_defined_arrangement_counts_conductors_without_protective_ones() {
    let mut arrangement = named("tank-farm-junction");
    assert_eq!(
        assess(&arrangement).defined_arrangement.result.status,
        MethodStatus::NoRows
    );
    with_rows(&mut arrangement, 50);
    let used = assess(&arrangement).defined_arrangement;
    // Twelve pairs, in and out; the wires beyond are protective ones.
    assert_eq!((used.counted, used.jumper_links), (48, 0));
    assert!(used.protective > 0);
    let all = used.counted + used.protective + used.unused;
    assert_eq!(all as usize, arrangement.wires.len());
    assert_eq!(used.result.status, MethodStatus::Holds);
    assert!((used.result.utilisation.expect("a sum") - 0.96).abs() < 1e-12);
    with_rows(&mut arrangement, 47);
    let heat = assess(&arrangement);
    assert_eq!(
        heat.defined_arrangement.result.status,
        MethodStatus::Exceeded
    );
    assert_eq!(codes(&heat), ["defined-arrangement-passed"]);
    // One conductor of a section without a row: not determined, and it says which.
    with_rows(&mut arrangement, 50);
    let mut wires = arrangement.wires.iter_mut();
    let mut of_circuit = wires.by_ref().filter(|wire| !wire.circuit.is_empty());
    of_circuit.next().expect("a wire").section_mm2 = 2.5;
    // Two that become unused cores are told as such.
    for wire in of_circuit.take(2) {
        wire.circuit.clear();
        wire.potential = "W1/9".into();
    }
    let unused = assess(&arrangement).defined_arrangement.unused;
    assert_eq!(unused, used.unused + 2);
    let result = assess(&arrangement).defined_arrangement.result;
    assert_eq!(result.status, MethodStatus::NotDetermined);
    assert!(
        result.gaps[0].missing.contains("2.5 mm² at 0.5 A"),
        "{:?}",
        result.gaps
    );
    assert_eq!(result.gaps[0].count, 1);
}

#[test]
fn each_section_has_its_own_share() {
    let row = |section_mm2, most_conductors| DefinedArrangement {
        class: T6,
        ambient_c: 40.0,
        section_mm2,
        current_a: 5.0,
        most_conductors,
    };
    let conductor = |section_mm2| CountedConductor {
        section_mm2,
        current_a: 1.0,
    };
    let asked = Asked {
        class: Some(T6),
        max_surface_c: None,
        ambient_c: 40.0,
    };
    // Near sections: 1/10 + 2/20.
    let conductors = [0.75, 1.0, 1.0].map(conductor);
    let result = count(&[row(0.75, 10), row(1.0, 20)], asked, &conductors, 0.0);
    let shares = result.shares.iter();
    let shares: Vec<_> = shares.map(|one| (one.section_mm2, one.used)).collect();
    assert_eq!(shares, [(0.75, 1), (1.0, 2)]);
    assert_eq!(result.utilisation, Some(0.2));
}

#[test]
fn links_of_jumpers_count_as_conductors() {
    let arrangement = named("jetty-npt-awg");
    let used = assess(&arrangement).defined_arrangement;
    let links: usize = arrangement
        .jumpers
        .iter()
        .map(|jumper| jumper.terminals.len() - 1)
        .sum();
    assert!(links > 0);
    assert_eq!(used.jumper_links as usize, links);
    // No certificate row speaks of American sections.
    assert_eq!(used.result.status, MethodStatus::NotDetermined);
}

#[test]
fn estimate_and_rating_that_disagree_are_told_either_way() {
    for (factor, code) in [
        (3.0, "rating-above-estimate"),
        (0.3, "rating-below-estimate"),
    ] {
        let mut arrangement = named("tank-farm-junction");
        arrangement.heat.rated_power_w *= factor;
        arrangement.heat.permitted_power_w *= factor;
        assert_eq!(codes(&assess(&arrangement)), [code]);
    }
}

#[test]
fn a_hot_box_calls_for_a_note_on_the_cable() {
    let mut arrangement = named("transfer-pump-power");
    arrangement.heat.power_at_limit_w = 32.0;
    let heat = assess(&arrangement);
    let inside = heat.inside.known().expect("in range");
    assert!(inside.entry.passed && inside.balance.inside_air_c > 70.0);
    let found = codes(&heat);
    assert!(found.contains(&"entry-temperature"), "{found:?}");
    assert!(found.contains(&"branching-temperature"), "{found:?}");
}

#[test]
fn what_the_data_do_not_say_is_named() {
    let mut arrangement = named("tank-farm-junction");
    for terminal in &mut arrangement.terminals {
        terminal.rise_at_rated_k = None;
    }
    let heat = assess(&arrangement);
    let inside = heat.inside.known().expect("known walls");
    assert!(inside.hottest.known().is_none());
    assert!(
        inside
            .branching
            .reason()
            .expect("unknown")
            .contains("no rise at rated current")
    );
    assert_eq!(inside.unknown_rises.len(), 24);

    arrangement.enclosure.material = Material::Aluminium;
    let heat = assess(&arrangement);
    assert!(heat.inside.reason().expect("unknown").contains("aluminium"));
    assert!(
        heat.comparison
            .reason()
            .expect("unknown")
            .contains("aluminium")
    );
    // The rating needs none of it.
    assert!(heat.rated.holds);

    let mut arrangement = named("tank-farm-junction");
    arrangement.wires[0].section_mm2 = 1.7;
    let bundles = assess(&arrangement).bundles;
    let unknown = bundles.iter().find_map(|group| group.power_w.reason());
    assert!(unknown.expect("unknown").contains("1.7"), "{unknown:?}");
}

#[test]
fn of_the_conductors_on_a_terminal_the_one_nearest_its_rated_current_decides() {
    let arrangement = named("tank-farm-junction");
    let ends_on = |wire: &Wire, id: &str| {
        [&wire.from, &wire.to]
            .into_iter()
            .any(|end| matches!(end, WireEnd::Terminal { terminal, .. } if terminal.as_str() == id))
    };
    let count = |id: &str| {
        let wires = arrangement.wires.iter();
        wires.filter(|wire| ends_on(wire, id)).count()
    };
    let terminals = arrangement.terminals.iter();
    let twice = terminals.map(|terminal| terminal.id.clone());
    let twice = twice.filter(|id| count(id) == 2).collect::<Vec<_>>();
    let id = twice.first().expect("two conductors").clone();
    let hottest = |sizes: [(f64, f64); 2], terminal_a: f64| {
        let mut arrangement = arrangement.clone();
        let mut sizes = sizes.into_iter();
        for wire in &mut arrangement.wires {
            if ends_on(wire, &id) {
                (wire.section_mm2, wire.current_a) = sizes.next().expect("two conductors");
            }
        }
        let mut terminals = arrangement.terminals.iter_mut();
        let terminal = terminals.find(|terminal| terminal.id == id);
        let terminal = terminal.expect("the terminal");
        let rating = |section_mm2, current_a| SectionRating {
            section_mm2,
            current_a,
        };
        terminal.ratings = vec![rating(1.0, 6.0), rating(4.0, 32.0)];
        (terminal.current_a, terminal.rise_at_rated_k) = (terminal_a, Some(60.0));
        let heat = assess(&arrangement);
        let hottest = &heat.inside.known().expect("in range").hottest;
        let hottest = hottest.known().expect("known");
        assert_eq!(hottest.name, id);
        (hottest.current_a, hottest.rated_current_a)
    };
    // 5 A of the 6 A for 1 mm² is nearer than 8 A of the 32 A for 4 mm².
    assert_eq!(hottest([(1.0, 5.0), (4.0, 8.0)], 8.0), (5.0, 6.0));
    assert_eq!(hottest([(4.0, 8.0), (1.0, 5.0)], 8.0), (5.0, 6.0));
    // One of 4 mm² without current gives the terminal no rating.
    assert_eq!(hottest([(4.0, 0.0), (1.0, 5.0)], 5.5), (5.5, 6.0));
}

#[test]
fn air_beyond_the_class_is_told_though_no_rise_is_known() {
    let mut arrangement = named("transfer-pump-power");
    arrangement.heat.power_at_limit_w = 60.0;
    for terminal in &mut arrangement.terminals {
        terminal.rise_at_rated_k = None;
    }
    let heat = assess(&arrangement);
    let inside = heat.inside.known().expect("in range");
    let limit_c = arrangement.heat.row_class.limit_after_margin_c();
    assert!(inside.hottest.known().is_none());
    let passed = inside.balance.inside_air_c > limit_c;
    assert_eq!(codes(&heat).contains(&CLASS_PASSED), passed);
    assert!(passed, "{} °C", inside.balance.inside_air_c);
}

#[test]
fn one_film_below_its_published_range_is_told() {
    // Among these there are rises at which no face has both films below.
    let mut single = 0;
    for side_mm in [60.0, 80.0, 120.0, 271.0, 600.0] {
        let closed_box = closed_box([side_mm; 3], Material::Grp, 3.0).expect("known");
        for step in 1..200 {
            let balance = closed_box.for_rise(0.2 * f64::from(step), 40.0);
            let balance = balance.expect("in range");
            let faces = balance.faces.iter();
            let below: Vec<[bool; 2]> = faces
                .map(|face| [&face.outside, &face.inside].map(|film| film.below_published_range))
                .collect();
            let told = below.iter().flatten().any(|below| *below);
            assert_eq!(balance.below_published_range, told, "{side_mm} mm, {step}");
            single += u32::from(told && !below.contains(&[true; 2]));
        }
    }
    assert!(single > 0);
}

#[test]
fn bare_stainless_steel_is_among_the_assumptions_of_its_boxes() {
    for (name, arrangement) in all() {
        let heat = assess(arrangement);
        let found = &heat.inside.known().expect("in range").assumptions;
        let bare = arrangement.enclosure.material == Material::Stainless;
        assert!(found.starts_with(&ASSUMPTIONS), "{name}");
        assert_eq!(found.contains(&BARE_STAINLESS), bare, "{name}");
    }
}

#[test]
fn the_rise_of_contacts_is_named_as_unknown_and_decides_where_a_core_ends_on_one() {
    let mut arrangement = named("mixer-control-station");
    let heat = assess(&arrangement);
    let inside = heat.inside.known().expect("in range");
    let contacts = inside.unknown_rises.iter();
    let contacts = contacts.filter(|unknown| unknown.missing.contains("contacts and elements"));
    assert!(contacts.count() > 0, "{:?}", inside.unknown_rises);
    assert!(inside.branching.known().is_some());
    let mut wires = arrangement.wires.iter_mut();
    let wire =
        wires.find(|wire| matches!(wire.to, WireEnd::Contact { .. }) && wire.current_a > 0.0);
    wire.expect("a conductor to a contact").from = WireEnd::Core {
        cable: "W1".into(),
        core: "1".into(),
    };
    let heat = assess(&arrangement);
    let branching = &heat.inside.known().expect("in range").branching;
    let reason = branching.reason().expect("not determined");
    assert!(reason.contains("contacts and elements"), "{reason}");
}

#[test]
fn a_very_small_box_gets_no_estimate_of_the_report() {
    let mut arrangement = named("tank-farm-junction");
    arrangement.enclosure.outer_mm = [80.0, 80.0, 60.0];
    let heat = assess(&arrangement);
    let inside = heat.inside.known().expect("in range");
    assert!(
        inside
            .report
            .reason()
            .expect("refused")
            .contains("effective cooling surface")
    );
    let comparison = heat.comparison.known().expect("in range");
    assert!(comparison.report_power_w.known().is_none());
}

/// The reference value of the balance, through an arrangement: 21.209 W warm the air of a plastic box of
/// 271 × 271 × 135 mm on a wall by 20 K.
#[test]
fn the_reference_box() {
    let mut arrangement = named("tank-farm-junction");
    arrangement.enclosure.outer_mm = [271.0, 271.0, 135.0];
    arrangement.enclosure.wall_thickness_mm = 4.0;
    arrangement.area.ambient_c = [-20.0, 40.0];
    arrangement.heat.power_at_limit_w = 21.209;
    arrangement.heat.row_ambient_c = 40.0;
    arrangement.heat.rated_power_w = 21.2;
    let heat = assess(&arrangement);
    let inside = heat.inside.known().expect("in range");
    assert!((inside.balance.inside_rise_k - 20.0).abs() < 1e-3);
    let comparison = heat.comparison.known().expect("in range");
    assert!(
        (comparison.ratio - 1.0).abs() < 1e-3,
        "{}",
        comparison.ratio
    );
    let report_w = comparison.report_power_w.known().expect("large enough");
    assert!((report_w - 18.55).abs() < 0.01);
}
