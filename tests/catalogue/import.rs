//! Parts from CSV: a sound import reads as a catalogue, and faults point at their row or mapping.

use crate::documentation::read;
use glandrail::catalogue::PartKind;
use glandrail::catalogue::import::{CODES, Imported, import};
use glandrail::source::{Findings, SourceFile};
use std::collections::BTreeSet;

const CSV: &str = "\
Order no;Text;Colour;Width cm;Length;Height;Solid from;Solid to;I 2,5;I 4;Price;Open side;Ex types;Rails
IMP-1;\"terminal 4 mm2; screw\";beige;0,62;48;44;0,5;6;21;28;1.234,50;yes;eb ia;TH35-7.5
IMP-2;terminal 2.5 mm2;;0,52;45;42;;;21;;0,85;-;eb;TH35-7.5 TH35-15
";

const MAP: &str = r#"
separator = ";"
decimal_comma = true

[text]
id = "Order no"
description = "Text"
colour = "Colour"

[number]
width_mm = "Width cm"
length_mm = "Length"
height_mm = "Height"
"clamp.solid_mm2[0]" = "Solid from"
"clamp.solid_mm2[1]" = "Solid to"
"ratings[0].current_a" = "I 2,5"
"ratings[1].current_a" = "I 4"
price = "Price"

[factor]
width_mm = 10

[flag]
open_side = "Open side"

[list]
"certificate.protection" = "Ex types"
rails = "Rails"

[fixed]
function = "feed_through"
circuits = ["ex_e"]
clamp = { stranded_mm2 = [0.5, 2.5] }
live = { sides_mm = 1.2, ends_mm = 6, top_mm = 7, foot_mm = 13 }
rated_voltage_v = 550
ratings = [{ section_mm2 = 2.5 }, { section_mm2 = 4 }]
resistance_mohm = 0.6
certificate = { number = "PAGE-C-4", epl = ["Gb"] }
mass_kg = 0.01
"#;

fn run(csv: &str, map: &str) -> Result<Imported, Findings> {
    import(
        &SourceFile::from_text("parts.csv", csv),
        &SourceFile::from_text("map.toml", map),
        PartKind::Terminal,
    )
}

/// File, line and code of each finding.
fn found(csv: &str, map: &str) -> Vec<(String, Option<usize>, &'static str)> {
    let findings = run(csv, map).expect_err("broken on purpose");
    let place = |finding: &glandrail::source::Finding| {
        (
            finding.file.name.clone(),
            finding.line_column().map(|(line, _)| line),
            finding.code,
        )
    };
    findings.iter().map(place).collect()
}

fn one(file: &str, line: usize, code: &'static str) -> Vec<(String, Option<usize>, &'static str)> {
    vec![(file.to_owned(), Some(line), code)]
}

#[test]
fn a_sound_import_reads_as_a_catalogue() {
    let imported = run(CSV, MAP).unwrap_or_else(|findings| panic!("{}", findings.render_plain()));
    assert_eq!((imported.parts, imported.warnings.len()), (2, 0));
    let enclosure: String = crate::page::examples(crate::documentation::PAGE)
        .split("[[terminal]]")
        .next()
        .expect("a first piece")
        .to_owned();
    let (catalogue, findings) = read(&(enclosure + &imported.text));
    assert_eq!(findings.render_plain(), "");
    let catalogue = catalogue.expect("sound");
    let [first, second] = &catalogue.terminal[..] else {
        panic!("two terminals")
    };
    assert_eq!(first.description, "terminal 4 mm2; screw");
    assert_eq!(
        (first.width_mm, first.price, first.open_side),
        (6.2, 1234.5, true)
    );
    assert_eq!(first.clamp.solid_mm2, Some([0.5, 6.0]));
    assert_eq!(first.clamp.stranded_mm2, Some([0.5, 2.5]));
    assert_eq!(first.certificate.protection, ["eb", "ia"]);
    assert_eq!(first.certificate.epl.len(), 1);
    assert_eq!(first.rated_current_a(4.0), Some(28.0));
    // Empty cells leave out the field, and the row of the list with what is fixed in it.
    assert_eq!((second.colour.as_str(), second.open_side), ("", false));
    assert_eq!(second.clamp.solid_mm2, None);
    assert_eq!(second.ratings.len(), 1);
    assert_eq!(second.rails, ["TH35-7.5", "TH35-15"]);
}

#[test]
fn faults_of_cells_and_rows_point_at_the_row() {
    assert_eq!(
        found(&CSV.replace(";48;", ";4 8;"), MAP)[0],
        one("parts.csv", 2, "import-cell")[0]
    );
    assert_eq!(
        found(&CSV.replace(";yes;", ";perhaps;"), MAP),
        one("parts.csv", 2, "import-cell")
    );
    assert_eq!(
        found(&CSV.replace("0,85;-;", "0,85;"), MAP),
        one("parts.csv", 3, "import-row")
    );
    assert_eq!(
        found(&CSV.replace("IMP-2", "\"IMP-2"), MAP)[0].2,
        "import-csv"
    );
    assert_eq!(found("", MAP)[0].2, "import-csv");
}

#[test]
fn faults_of_parts_point_at_the_row() {
    assert_eq!(
        found(&CSV.replace("IMP-2", "IMP-1"), MAP),
        one("parts.csv", 3, "catalogue-duplicate-id")
    );
    assert_eq!(
        found(&CSV.replace(";21;28;", ";21;20;"), MAP),
        one("parts.csv", 2, "catalogue-ratings")
    );
    assert_eq!(
        found(&CSV.replace("0,52;45;", "0,52;;"), MAP),
        one("parts.csv", 3, "source-missing-field")
    );
    assert_eq!(found(&CSV.replace(";0,5;6;", ";0,5;;"), MAP)[0].1, Some(2));
}

#[test]
fn faults_of_the_mapping_point_at_the_mapping() {
    let line_of = |text: &str, needle: &str| {
        text[..text.find(needle).expect("there")]
            .matches('\n')
            .count()
            + 1
    };
    let map = MAP.replace("\"Length\"", "\"Lenght\"");
    assert_eq!(
        found(CSV, &map),
        one("map.toml", line_of(&map, "\"Lenght\""), "import-column")
    );
    let map = MAP.replace("colour = \"Colour\"", "color = \"Colour\"");
    assert_eq!(
        found(CSV, &map),
        one("map.toml", line_of(&map, "color"), "source-unknown-field")
    );
    let map = MAP.replace("[factor]\nwidth_mm", "[factor]\nwidth");
    assert_eq!(
        found(CSV, &map),
        one("map.toml", line_of(&map, "width = 10"), "import-column")
    );
    let map = MAP.replace("[flag]", "[flags]");
    assert_eq!(found(CSV, &map)[0].2, "source-unknown-field");
    let map = MAP.replace("separator = \";\"", "separator = \"--\"");
    assert!(found(CSV, &map)[0].2.starts_with("source-"));
}

#[test]
fn codes_are_listed_once() {
    let distinct: BTreeSet<&str> = CODES.iter().map(|(code, _)| *code).collect();
    assert_eq!(distinct.len(), CODES.len());
    assert_eq!(
        distinct,
        BTreeSet::from(["import-cell", "import-column", "import-csv", "import-row"])
    );
}
