//! Summary and schedules: complete, within the width, sums that add up.

use crate::fixture;
use glandrail::sheets::{cable_schedule, part_lines, parts_list, summary, terminal_schedule};

#[test]
fn the_summary_names_everything_within_a_hundred_characters() {
    for arrangement in [fixture::small(), fixture::large(), fixture::bare()] {
        let text = summary(&arrangement);
        for line in text.lines() {
            assert!(line.chars().count() <= 100, "{line}");
            assert_eq!(line, line.trim_end());
        }
        for entry in &arrangement.entries {
            let found = text.lines().any(|line| {
                let words: Vec<&str> = line.split_whitespace().collect();
                words.contains(&entry.id.as_str())
                    && words.iter().any(|word| *word == entry.wall.name())
            });
            assert!(found, "{} is missing in\n{text}", entry.id);
        }
        for rail in &arrangement.rails {
            assert!(text.contains(&rail.profile));
        }
        for element in &arrangement.elements {
            assert!(text.contains(&element.tag));
        }
        assert!(text.contains(glandrail::arrangement::CAUTION));
        assert!(text.contains("not for use"));
        assert!(text.contains("margin 2.73 W"), "{text}");
    }
}

#[test]
fn the_terminal_schedule_has_every_terminal_and_every_core() {
    let arrangement = fixture::small();
    let schedule = terminal_schedule(&arrangement);
    assert_eq!(schedule.lines().count(), 1 + arrangement.terminals.len());
    let columns = schedule.lines().next().expect("a head").split(',').count();
    for line in schedule.lines() {
        assert_eq!(line.split(',').count(), columns, "{line}");
    }
    for wire in &arrangement.wires {
        let glandrail::arrangement::WireEnd::Core { cable, core } = &wire.from else {
            continue;
        };
        assert!(
            schedule.contains(&format!(",{cable}/{core},")),
            "{cable}/{core}"
        );
    }
    assert_eq!(
        schedule
            .lines()
            .filter(|line| line.contains(",J1,"))
            .count(),
        3
    );
}

#[test]
fn the_cable_schedule_says_where_in_the_range_a_cable_lies() {
    let schedule = cable_schedule(&fixture::small());
    // 17.5 mm in a gland for 13 to 21 mm: (17.5 − 13) / 8 = 56 %.
    let line = schedule
        .lines()
        .find(|line| line.starts_with("W101,"))
        .expect("W101");
    assert!(line.contains(",13,21,56,"), "{line}");
    assert!(
        schedule
            .lines()
            .any(|line| line.starts_with("W102,") && line.contains(",yes,,,E2,"))
    );
}

#[test]
fn the_parts_list_counts_every_part_and_adds_up() {
    let arrangement = fixture::small();
    let lines = part_lines(&arrangement);
    let count: u32 = lines.iter().map(|line| line.quantity).sum();
    let contacts: usize = arrangement
        .elements
        .iter()
        .map(|element| element.contacts.len())
        .sum();
    let expected = 1
        + arrangement.rails.len()
        + arrangement.terminals.len()
        + arrangement.accessories.len()
        + arrangement.jumpers.len()
        + arrangement.entries.len()
        + arrangement.elements.len()
        + contacts;
    assert_eq!(count as usize, expected);
    let price: f64 = lines.iter().map(|line| line.price).sum();
    let list = parts_list(&arrangement);
    assert!(
        list.trim_end()
            .ends_with(&format!("{price:.2},EUR,unknown")),
        "{list}"
    );
    assert!(list.contains("10,DEMO-T-25I,"));
}

/// Positions in the summary are those of the arrangement to a hundredth of a millimetre, as in drawings
/// and lists.
#[test]
fn the_summary_has_every_hole_where_the_arrangement_has_it() {
    // Words far too long break their lines.
    let fixtures = crate::samples::every_fixture()
        .into_iter()
        .filter(|(name, _)| *name != "wordy")
        .map(|(name, arrangement)| (name.to_string(), arrangement));
    for (name, arrangement) in fixtures.chain(crate::samples::every_example()) {
        let text = summary(&arrangement);
        let after = |words: &[&str], axis: &str| -> Option<f64> {
            let place = words.iter().position(|word| *word == axis)?;
            words.get(place + 1)?.parse().ok()
        };
        let is_there = |id: &str, axes: [(&str, f64); 2]| {
            text.lines().any(|line| {
                let words: Vec<&str> = line.split_whitespace().collect();
                id.split_whitespace().all(|part| words.contains(&part))
                    && axes.iter().all(|(axis, wanted)| {
                        after(&words, axis)
                            .is_some_and(|found| (found - wanted).abs() <= 0.005 + 1e-9)
                    })
            })
        };
        for entry in &arrangement.entries {
            assert!(
                is_there(&entry.id, [("u", entry.u_mm), ("v", entry.v_mm)]),
                "{name}: {} at {}, {} in\n{text}",
                entry.id,
                entry.u_mm,
                entry.v_mm
            );
        }
        for element in &arrangement.elements {
            assert!(
                is_there(&element.tag, [("x", element.x_mm), ("y", element.y_mm)]),
                "{name}: {} at {}, {} in\n{text}",
                element.tag,
                element.x_mm,
                element.y_mm
            );
        }
    }
}
