//! Fields that nothing reads: refused wherever they stand, with place and hint.

use crate::fixture::{arranged, hot};
use glandrail::cli::audit::read;
use serde_json::Value;

/// Objects whose keys are names that the arrangement gives, not fields.
const BY_NAME: [&str; 5] = [
    "/enclosure/walls",
    "/most_entries",
    "/spare/entries",
    "/spare/free_terminals",
    "/lead_times_days",
];

/// The paths of every table of fields in a value.
fn tables(value: &Value, path: &str, found: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            if !BY_NAME.iter().any(|end| path.ends_with(end)) {
                found.push(path.to_string());
            }
            for (name, inner) in fields {
                tables(inner, &format!("{path}/{}", name.replace('/', "~1")), found);
            }
        }
        Value::Array(all) => {
            for (index, inner) in all.iter().enumerate() {
                tables(inner, &format!("{path}/{index}"), found);
            }
        }
        _ => {}
    }
}

/// What is said of a file with this text.
fn said(text: &str) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("arrangement.json");
    std::fs::write(&path, text).expect("written");
    match read(&path) {
        Ok(_) => "read".to_string(),
        Err(findings) => findings.render_plain(),
    }
}

#[test]
fn an_unknown_field_is_refused_in_every_table() {
    let mut read_as_sound = Vec::new();
    let mut tried = 0;
    for arrangement in [arranged(), hot()] {
        let sound = serde_json::to_value(&arrangement).expect("plain data");
        assert_eq!(said(&sound.to_string()), "read");
        let mut paths = Vec::new();
        tables(&sound, "", &mut paths);
        for path in paths {
            let mut broken = sound.clone();
            let table = broken.pointer_mut(&path).expect("a table");
            table["tolerence_mm"] = 0.0.into();
            let told = said(&broken.to_string());
            tried += 1;
            if told == "read" {
                read_as_sound.push(path);
            }
        }
    }
    assert!(tried > 400, "{tried} tables");
    assert!(read_as_sound.is_empty(), "{read_as_sound:#?}");
}

#[test]
fn a_misspelt_limit_is_told_with_its_place_and_the_nearest_name() {
    let text = serde_json::to_string_pretty(&arranged()).expect("plain data");
    let slip = text.replace("\"tolerance_mm\"", "\"tolerence_mm\"");
    let line = 1 + text
        .lines()
        .position(|line| line.contains("\"tolerance_mm\""))
        .expect("a limit");
    let told = said(&slip);
    assert!(told.contains(&format!(":{line}:5: ")), "{told}");
    assert!(told.contains("unknown field `tolerence_mm`"), "{told}");
    assert!(told.contains("did you mean `tolerance_mm`?"), "{told}");
    let other = said(&text.replacen("\"limits\": {", "\"limits\": { \"whatever\": 1,", 1));
    assert!(other.contains("no rule reads"), "{other}");
}
