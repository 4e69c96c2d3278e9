//! docs/workshop.md against the code: names, units, defaults, the example.

use crate::{fields, page};
use glandrail::arrangement::WiringSpaceStep;
use glandrail::source::SourceFile;
use glandrail::workshop::*;

const PAGE: &str = include_str!("../../docs/workshop.md");

#[test]
fn every_rule_is_named_with_its_unit_and_default() {
    let tables: [(&str, &[&str]); 6] = [
        ("[entries]", fields::of::<EntryRules>()),
        ("[rails]", fields::of::<RailRules>()),
        ("[elements]", fields::of::<ElementRules>()),
        ("[conductors]", fields::of::<ConductorRules>()),
        ("[distances]", fields::of::<DistanceRules>()),
        ("[[wiring_space]]", fields::of::<WiringSpaceStep>()),
    ];
    let sections = page::sections(PAGE);
    assert_eq!(sections.len(), tables.len());
    assert_eq!(fields::of::<Workshop>().len(), tables.len());
    let defaults = serde_json::to_value(Workshop::default()).expect("plain data");
    for (section, (heading, fields)) in sections.iter().zip(tables) {
        assert_eq!(section.name, heading);
        let named: Vec<&str> = section.rows.iter().map(|row| row.field.as_str()).collect();
        assert_eq!(named, fields, "{heading}");
        for row in &section.rows {
            assert_eq!(row.unit, page::unit(&row.field), "{heading}: {}", row.field);
            let default = &defaults[heading.trim_matches(['[', ']'])][&row.field];
            let same = match default {
                serde_json::Value::Number(number) => row.default.parse().ok() == number.as_f64(),
                serde_json::Value::Bool(yes) => row.default == yes.to_string(),
                serde_json::Value::String(text) => &row.default == text,
                // The steps of the wiring space stand in a table of their own.
                _ => row.default == "see below",
            };
            assert!(
                same,
                "{heading}: {} is {default}, not {}",
                row.field, row.default
            );
        }
    }
}

#[test]
fn every_rule_states_its_status() {
    let rules = PAGE.split("## Findings").next().expect("a first piece");
    let rows: Vec<&str> = rules
        .lines()
        .filter(|line| line.starts_with("| `"))
        .collect();
    assert_eq!(rows.len(), 22);
    for row in rows {
        let status = row.split('|').nth(4).expect("a fourth column").trim();
        assert!(
            ["common practice", "published", "from memory"].contains(&status),
            "{row}"
        );
    }
}

#[test]
fn the_table_of_wiring_space_is_the_default() {
    let row = |start: &str| -> Vec<f64> {
        let line = PAGE
            .lines()
            .find(|line| line.starts_with(start))
            .expect("on the page");
        line.split('|')
            .filter_map(|cell| cell.trim().parse().ok())
            .collect()
    };
    let (sections, spaces) = (row("| up to mm² |"), row("| mm |"));
    let documented: Vec<WiringSpaceStep> = sections
        .into_iter()
        .zip(spaces)
        .map(|(up_to_mm2, space_mm)| WiringSpaceStep {
            up_to_mm2,
            space_mm,
        })
        .collect();
    assert_eq!(documented, Workshop::default().wiring_space);
}

#[test]
fn the_example_is_read() {
    let file = SourceFile::from_text("rules.toml", page::examples(PAGE));
    let rules = Workshop::from_file(file).expect("sound");
    assert_eq!(rules.entries.gap_mm, 8.0);
    assert_eq!(rules.rails.profile, "TH35-15");
    assert_eq!(rules.wiring_space_mm(1.0), Some(34.0));
}

#[test]
fn every_code_is_documented_in_its_words() {
    assert_eq!(page::codes(PAGE), CODES);
}
