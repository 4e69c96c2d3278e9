//! docs/catalogue.md against the code: names, units, defaults, examples, codes.

use crate::{fields, page};
use glandrail::catalogue::*;
use serde_json::Value as Json;

pub const PAGE: &str = include_str!("../../docs/catalogue.md");

/// Heading, the fields of the type that stands behind it, and where its examples stand.
type Described = (
    &'static str,
    &'static [&'static str],
    &'static [&'static str],
);

fn described() -> Vec<Described> {
    vec![
        ("[about]", fields::of::<About>(), &["about"]),
        (
            "certificate",
            fields::of::<Certificate>(),
            &["enclosure", "0", "certificate"],
        ),
        (
            "[[enclosure]]",
            fields::of::<Enclosure>(),
            &["enclosure", "0"],
        ),
        (
            "plate",
            fields::of::<MountingPlate>(),
            &["enclosure", "0", "plate"],
        ),
        ("lid", fields::of::<Lid>(), &["enclosure", "0", "lid"]),
        (
            "walls.bottom",
            fields::of::<EntryWall>(),
            &["enclosure", "0", "walls", "bottom"],
        ),
        (
            "rated_power",
            fields::of::<RatedPower>(),
            &["enclosure", "0", "rated_power", "0"],
        ),
        (
            "defined_arrangement",
            fields::of::<DefinedArrangement>(),
            &["enclosure", "0", "defined_arrangement", "0"],
        ),
        ("[[terminal]]", fields::of::<Terminal>(), &["terminal", "0"]),
        (
            "clamp",
            fields::of::<ClampRange>(),
            &["terminal", "0", "clamp"],
        ),
        (
            "live",
            fields::of::<LiveInset>(),
            &["terminal", "0", "live"],
        ),
        (
            "ratings",
            fields::of::<SectionRating>(),
            &["terminal", "0", "ratings", "0"],
        ),
        (
            "[[accessory]]",
            fields::of::<Accessory>(),
            &["accessory", "0"],
        ),
        ("[[rail]]", fields::of::<Rail>(), &["rail", "0"]),
        ("[[gland]]", fields::of::<Gland>(), &["gland", "0"]),
        (
            "envelope",
            fields::of::<EntryEnvelope>(),
            &["gland", "0", "envelope"],
        ),
        ("[[plug]]", fields::of::<Plug>(), &["plug", "0"]),
        ("[[adapter]]", fields::of::<Adapter>(), &["adapter", "0"]),
        (
            "[[element]]",
            fields::of::<OperatingElement>(),
            &["element", "0"],
        ),
        (
            "[[contact_block]]",
            fields::of::<ContactBlock>(),
            &["contact_block", "0"],
        ),
        (
            "utilisation",
            fields::of::<UtilisationRating>(),
            &["contact_block", "0", "utilisation", "0"],
        ),
    ]
}

/// Reads a text as a catalogue file.
pub fn read(text: &str) -> (Option<Catalogue>, glandrail::source::Findings) {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let path = folder.path().join("catalogue.toml");
    std::fs::write(&path, text).expect("written");
    Catalogue::read_with_findings(&path)
}

#[test]
fn every_field_is_named_once_in_the_order_of_the_code() {
    let sections = page::sections(PAGE);
    let described = described();
    let headings: Vec<&str> = sections
        .iter()
        .map(|section| section.name.as_str())
        .collect();
    let expected: Vec<&str> = described.iter().map(|(heading, ..)| *heading).collect();
    assert_eq!(headings, expected);
    for (section, (heading, fields, _)) in sections.iter().zip(described) {
        let named: Vec<&str> = section.rows.iter().map(|row| row.field.as_str()).collect();
        assert_eq!(named, fields, "{heading}");
    }
}

#[test]
fn units_are_those_of_the_names() {
    for section in page::sections(PAGE) {
        for row in section.rows {
            // Areas are four lengths; lead time has no unit sign.
            assert_eq!(
                row.unit,
                page::unit(&row.field),
                "{}: {}",
                section.name,
                row.field
            );
        }
    }
}

#[test]
fn the_examples_are_a_sound_catalogue() {
    let (catalogue, findings) = read(&page::examples(PAGE));
    assert_eq!(findings.render_plain(), "");
    let catalogue = catalogue.expect("no findings");
    let kinds: std::collections::BTreeSet<PartKind> = catalogue.parts().map(Part::kind).collect();
    assert_eq!(kinds.len(), PartKind::ALL.len(), "an example of each kind");
}

/// The value at a path, in TOML.
fn toml_at<'a>(value: &'a mut toml::Value, path: &[&str]) -> &'a mut toml::Table {
    let mut here = value;
    for step in path {
        here = match step.parse::<usize>() {
            Ok(index) => &mut here.as_array_mut().expect("a list")[index],
            Err(_) => here.get_mut(*step).expect("in the examples"),
        };
    }
    here.as_table_mut().expect("a table")
}

/// Leaves out each field in turn: a required one is missed, any other takes its documented default.
#[test]
fn defaults_are_as_documented() {
    let whole: toml::Value = toml::Value::Table(page::examples(PAGE).parse().expect("sound"));
    let (mut required, mut defaulted) = (0, 0);
    for (section, (heading, _, path)) in page::sections(PAGE).iter().zip(described()) {
        for row in &section.rows {
            let mut changed = whole.clone();
            // Jumpers have no thread and lamps no positions: those stand in the second example.
            let mut path = path.to_vec();
            if !toml_at(&mut changed, &path).contains_key(&row.field) {
                path[1] = "1";
            }
            let removed = toml_at(&mut changed, &path).remove(&row.field);
            assert!(
                removed.is_some(),
                "{heading}: {} is in no example",
                row.field
            );
            let (catalogue, findings) = read(&toml::to_string(&changed).expect("plain data"));
            let missed = findings
                .iter()
                .any(|finding| finding.code == "source-missing-field");
            assert_eq!(
                missed,
                row.default == "required",
                "{heading}: {}",
                row.field
            );
            required += usize::from(missed);
            let Some(catalogue) = catalogue else { continue };
            let mut json = serde_json::to_value(&catalogue).expect("plain data");
            for step in &path {
                json = match step.parse::<usize>() {
                    Ok(index) => json[index].take(),
                    Err(_) => json[*step].take(),
                };
            }
            let actual = json[&row.field].take();
            defaulted += 1;
            if let Some(literal) = row
                .default
                .strip_prefix('`')
                .and_then(|rest| rest.strip_suffix('`'))
            {
                let expected: Json = serde_json::from_str(literal).expect("a value");
                let same = actual == expected
                    || (actual.as_f64().is_some() && actual.as_f64() == expected.as_f64());
                assert!(same, "{heading}: {} is {actual}, not {expected}", row.field);
            } else if row.default == "empty" {
                assert_eq!(
                    actual,
                    Json::String(String::new()),
                    "{heading}: {}",
                    row.field
                );
            } else {
                let nothing = match &actual {
                    Json::Null => true,
                    Json::Array(list) => list.is_empty(),
                    Json::Object(map) => map.is_empty(),
                    _ => false,
                };
                assert!(nothing, "{heading}: {} is {actual}", row.field);
            }
        }
    }
    assert!(
        required > 80 && defaulted > 40,
        "{required} required, {defaulted} defaulted"
    );
}

#[test]
fn a_catalogue_is_written_and_read_without_loss() {
    let demo = Catalogue::demo();
    let (again, findings) = read(&toml::to_string(demo).expect("plain data"));
    assert_eq!(findings.render_plain(), "");
    assert_eq!(again.as_ref(), Some(demo));
}

#[test]
fn every_code_is_documented_in_its_words() {
    let listed: Vec<_> = CODES.iter().chain(import::CODES).copied().collect();
    assert_eq!(page::codes(PAGE), listed);
}
