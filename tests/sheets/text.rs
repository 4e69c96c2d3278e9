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
                    && words.contains(&format!("{:.1}", entry.u_mm).as_str())
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
            .any(|line| line.starts_with("W102,") && line.contains(",yes,E2,"))
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
        list.trim_end().ends_with(&format!("{price:.2},EUR,21")),
        "{list}"
    );
    assert!(list.contains("10,DEMO-T-25I,"));
}
