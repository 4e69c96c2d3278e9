//! The full words for each kind of impossibility, and for lists that can be made.
//!
//! After a wanted change: `INSTA_UPDATE=always cargo test --test explain`, then read the difference.

use crate::support::read;
use glandrail::catalogue::Catalogue;
use glandrail::explain::{ExplainOptions, Explanation, explain, report};
use glandrail::workshop::Workshop;

/// The usual area of the tank farm.
const AREA: &str = "zone = 1\ngas_group = \"IIB\"\ntemperature_class = \"T6\"\nambient_c = [-20, 40]\nip = \"IP66\"\n";

/// A list from its parts: area, box and what follows.
fn list(title: &str, area: &str, wishes: &str, rest: &str) -> String {
    format!(
        "[job]\ntag = \"JB-9001\"\ntitle = \"{title}\"\n\n[area]\n{area}\n[box]\n{wishes}\n{rest}"
    )
}

/// Two cables with a circuit between them.
fn pair(cores: &str, further: &str, poles: u32, voltage_v: u32, current_a: u32) -> String {
    format!(
        "[[cable]]\ntags = [\"W1\", \"W2\"]\ncores = \"{cores}\"\n{further}\n\n[[circuit]]\ntag = \"S1\"\npoles = {poles}\n\
         voltage_v = {voltage_v}\ncurrent_a = {current_a}\nfrom = \"W1\"\nto = \"W2\"\n"
    )
}

fn told(text: &str, impossible: bool, why_not: Option<&str>) -> String {
    let list = read(text);
    let options = ExplainOptions::default();
    let told = explain(
        &list,
        Catalogue::demo(),
        &Workshop::default(),
        why_not,
        options,
    )
    .unwrap_or_else(|error| panic!("{error}\n{text}"));
    assert_eq!(
        matches!(told, Explanation::Impossible(_)),
        impossible,
        "{text}"
    );
    let words = report::text(&list, &told);
    assert!(!words.contains("error of ours"), "{words}");
    for line in words.lines() {
        assert!(line.chars().count() <= 100, "{line}");
    }
    let short = match &told {
        Explanation::Impossible(facts) => format!("\nIn short\n{}", report::short(&list, facts)),
        Explanation::Possible(_) => String::new(),
    };
    format!("{text}\n----\n{words}{short}")
}

#[test]
fn heat() {
    let rest = "[[cable]]\ntags = \"W1..W12\"\ncores = \"4 x 35 mm2\"\ndiameter_mm = 32\n\n[[circuit]]\ntags = \"S1..S6\"\n\
                poles = 4\nvoltage_v = 400\ncurrent_a = 100\nfrom = \"W1..W6\"\nto = \"W7..W12\"\n";
    let text = list("Feeders", AREA, "", rest);
    insta::assert_snapshot!(told(&text, true, None));
}

#[test]
fn ambient_without_rating() {
    let area = AREA.replace("40]", "60]");
    let text = list(
        "Boiler house",
        &area,
        "",
        &pair("4 x 1.5 mm2", "diameter_mm = 11", 4, 230, 2),
    );
    insta::assert_snapshot!(told(&text, true, None));
}

#[test]
fn wall_too_short() {
    let rest = "[[cable]]\ntags = \"W1..W80\"\ncores = \"2 x 1.5 mm2\"\ndiameter_mm = 25\n";
    let text = list("Collector", AREA, "entry_walls = [\"bottom\"]\n", rest);
    insta::assert_snapshot!(told(&text, true, None));
}

#[test]
fn cable_too_thick() {
    let text = list(
        "Pump",
        AREA,
        "",
        &pair("3 x 35 mm2", "diameter_mm = 95", 3, 400, 60),
    );
    insta::assert_snapshot!(told(&text, true, None));
}

#[test]
fn rails_too_short() {
    let wishes = "enclosures.include = [\"DEMO-G-2118\"]\n";
    let text = list(
        "Marshalling",
        AREA,
        wishes,
        &pair("61 x 1.5 mm2", "diameter_mm = 28", 60, 24, 1),
    );
    insta::assert_snapshot!(told(&text, true, None));
}

#[test]
fn depth_behind_an_element() {
    let rest = "[[cable]]\ntag = \"W1\"\ncores = \"7 x 1.5 mm2\"\ndiameter_mm = 12\n\n[[element]]\ntag = \"S0\"\n\
                kind = \"emergency_stop\"\ncolour = \"red\"\nlabel = \"STOP\"\ncontacts = [\"NC\", \"NC\", \"NC\"]\n\n[[circuit]]\ntag = \"ES\"\n\
                poles = 6\nvoltage_v = 230\ncurrent_a = 1\nload = \"AC-15\"\nfrom = \"W1\"\nto = \"S0\"\n";
    let text = list(
        "Stop button",
        AREA,
        "enclosures.include = [\"DEMO-G-1515\", \"DEMO-G-1818\"]\n",
        rest,
    );
    insta::assert_snapshot!(told(&text, true, None));
}

#[test]
fn separation() {
    let rest = format!(
        "{}\n[[cable]]\ntags = [\"Y1\", \"Y2\"]\ncores = \"8 x 1.5 mm2\"\ndiameter_mm = 13\nintrinsically_safe = true\n\n[[circuit]]\n\
         tag = \"I1\"\npoles = 8\nvoltage_v = 24\ncurrent_a = 0.02\nfrom = \"Y1\"\nto = \"Y2\"\n",
        pair("8 x 1.5 mm2", "diameter_mm = 13", 8, 230, 1)
    );
    let text = list(
        "Level",
        AREA,
        "enclosures.include = [\"DEMO-G-1515\", \"DEMO-G-1812\"]\n",
        &rest,
    );
    insta::assert_snapshot!(told(&text, true, None));
}

#[test]
fn voltage() {
    let text = list(
        "Motor",
        AREA,
        "",
        &pair("3 x 10 mm2", "diameter_mm = 18", 3, 1140, 30),
    );
    insta::assert_snapshot!(told(&text, true, None));
}

#[test]
fn zone() {
    let area = AREA.replace("zone = 1", "zone = 0");
    let text = list(
        "Inside the tank",
        &area,
        "",
        &pair("4 x 1.5 mm2", "diameter_mm = 11", 4, 24, 1),
    );
    insta::assert_snapshot!(told(&text, true, None));
}

#[test]
fn material() {
    let text = list(
        "Quay",
        AREA,
        "material = \"aluminium\"\n",
        &pair("4 x 1.5 mm2", "diameter_mm = 11", 4, 24, 1),
    );
    insta::assert_snapshot!(told(&text, true, None));
}

#[test]
fn size_limit() {
    let wishes = "max_outer_mm = [150, 120, 100]\n";
    let text = list(
        "Narrow bay",
        AREA,
        wishes,
        &pair("12 x 2.5 mm2", "diameter_mm = 19", 12, 230, 6),
    );
    insta::assert_snapshot!(told(&text, true, None));
}

#[test]
fn three_together() {
    let text = include_str!("../../examples/impossible-heater-feeds.toml");
    insta::assert_snapshot!(told(text, true, None));
}

#[test]
fn possible_and_why_not() {
    let text = include_str!("../../examples/tank-farm-junction.toml");
    insta::assert_snapshot!(told(text, false, None));
    insta::assert_snapshot!(told(text, false, Some("DEMO-G-1212")));
}

/// With the class given up a box without a row for so warm a place has none for any class.
#[test]
fn an_ambient_without_a_rating_in_any_class_is_a_sentence() {
    let area = AREA.replace("[-20, 40]", "[-20, 60]");
    let text = list(
        "x",
        &area,
        "",
        &pair("2 x 1.5 mm2", "diameter_mm = 9.2", 2, 24, 1),
    );
    let words = told(&text, true, Some("DEMO-G-1818"));
    assert!(words.contains("for any class at +60 °C"), "{words}");
}

#[test]
fn a_name_in_fixed_that_means_nothing_is_a_finding() {
    let text = list(
        "x",
        AREA,
        "",
        &pair("4 x 1.5 mm2", "diameter_mm = 11", 4, 24, 1),
    )
    .replacen("\n[area]", "fixed = [\"cable W3\"]\n\n[area]", 1);
    let told = explain(
        &read(&text),
        Catalogue::demo(),
        &Workshop::default(),
        None,
        ExplainOptions::default(),
    );
    let error = told.expect_err("`cable W3` is not in the list");
    assert!(
        matches!(error, glandrail::propose::ProposeError::Input(ref findings) if findings.render_plain().contains("list-fixed-unknown")),
        "{error}"
    );
}
