//! The committed schemas are those of the types, and hold for every example, the demo catalogue, the
//! default rules and a made arrangement.
//!
//! After a wanted change: `GLANDRAIL_WRITE_SCHEMAS=1 cargo test --test schema`, then read the
//! difference. Files are checked with `jsonschema` (from PyPI) by `python3`, or the interpreter named in
//! `GLANDRAIL_PYTHON`; where it is absent that test says so and passes, unless
//! `GLANDRAIL_REQUIRE_PYTHON=1`.

#[path = "../support/python.rs"]
mod python;

use glandrail::requirements::TABLES;
use glandrail::schema::{SchemaName, generated, schema};
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn committed(name: SchemaName) -> PathBuf {
    root().join(format!("docs/schema/{}.schema.json", name.name()))
}

#[test]
fn the_committed_schemas_are_those_of_the_types() {
    for name in SchemaName::ALL {
        let path = committed(name);
        if std::env::var("GLANDRAIL_WRITE_SCHEMAS").as_deref() == Ok("1") {
            std::fs::write(&path, generated(name)).expect("written");
        }
        let text = std::fs::read_to_string(&path).expect("a committed schema");
        assert!(
            text == generated(name),
            "{} is not what the types say; see the head of this test",
            path.display()
        );
    }
}

#[test]
fn the_schema_of_the_list_has_the_tables_that_are_read() {
    let schema: serde_json::Value = serde_json::from_str(schema(SchemaName::List)).expect("JSON");
    let mut known: Vec<&str> = schema["properties"]
        .as_object()
        .expect("tables")
        .keys()
        .map(String::as_str)
        .collect();
    let mut read = TABLES.to_vec();
    known.sort_unstable();
    read.sort_unstable();
    assert_eq!(known, read);
}

/// Fields without a description, and quantities whose description has no unit, each with its path.
fn poorly_described(value: &serde_json::Value, path: &str, found: &mut Vec<String>) {
    const UNITS: [(&str, &str); 12] = [
        ("_mm", "mm"),
        ("_mm2", "mm²"),
        ("_a", "A"),
        ("_v", "V"),
        ("_c", "°C"),
        ("_w", "W"),
        ("_kg", "kg"),
        ("_nm", "N·m"),
        ("_mohm", "mΩ"),
        ("_days", "days"),
        ("_percent", "%"),
        ("price", "currency"),
    ];
    match value {
        serde_json::Value::Object(object) => {
            if let Some(properties) = object.get("properties").and_then(|all| all.as_object()) {
                for (name, property) in properties {
                    let words = property["description"].as_str().unwrap_or_default();
                    if words.trim().len() < 3 {
                        found.push(format!("{path}.{name} has no description"));
                    }
                    let unit = UNITS.iter().find(|(end, _)| name.ends_with(end));
                    if let Some((_, unit)) = unit.filter(|(_, unit)| {
                        !words
                            .split([' ', ',', '.', ';', ':', '(', ')'])
                            .any(|word| word == *unit)
                    }) {
                        found.push(format!("{path}.{name} does not say {unit}: {words}"));
                    }
                }
            }
            for (key, inner) in object {
                poorly_described(inner, &format!("{path}/{key}"), found);
            }
        }
        serde_json::Value::Array(all) => {
            for inner in all {
                poorly_described(inner, path, found);
            }
        }
        _ => {}
    }
}

#[test]
fn every_field_of_every_schema_has_a_description_and_its_unit() {
    for name in SchemaName::ALL {
        let schema: serde_json::Value = serde_json::from_str(schema(name)).expect("JSON");
        let mut found = Vec::new();
        poorly_described(&schema, name.name(), &mut found);
        assert!(found.is_empty(), "{}", found.join("\n"));
        let count = schema.to_string().matches("\"description\"").count();
        assert!(count > 20, "{}: {count} descriptions", name.name());
    }
}

/// What the other library has against files, a line each; nothing where they are sound.
fn faults(name: SchemaName, files: &[PathBuf]) -> String {
    let output = python::python()
        .arg(root().join("tests/schema/check.py"))
        .arg(committed(name))
        .args(files)
        .output()
        .expect("python was there a moment ago");
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{errors}");
    String::from_utf8(output.stdout).expect("text")
}

fn toml_files(folder: &Path) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("a folder")
        .map(|entry| entry.expect("a file").path())
        .filter(|path| path.extension().is_some_and(|kind| kind == "toml"))
        .collect();
    files.sort();
    assert!(!files.is_empty());
    files
}

#[test]
fn another_library_accepts_sound_files_and_refuses_a_slip() {
    if !python::has("import jsonschema, tomllib") {
        return;
    }
    let examples = toml_files(&root().join("examples"));
    assert_eq!(faults(SchemaName::List, &examples), "");
    let demo = toml_files(&root().join("src/catalogue/demo"));
    assert_eq!(faults(SchemaName::Catalogue, &demo), "");
    let folder = tempfile::tempdir().expect("a folder");
    let rules = folder.path().join("rules.toml");
    let defaults = glandrail::workshop::Workshop::default();
    std::fs::write(&rules, toml::to_string(&defaults).expect("TOML")).expect("written");
    assert_eq!(
        faults(SchemaName::Workshop, std::slice::from_ref(&rules)),
        ""
    );
    let made = assert_cmd::Command::cargo_bin("glandrail")
        .expect("the binary is built with the tests")
        .arg("propose")
        .arg(root().join("examples/transfer-pump-power.toml"))
        .args(["--format", "json"])
        .output()
        .expect("it runs");
    let arrangement = folder.path().join("arrangement.json");
    std::fs::write(&arrangement, made.stdout).expect("written");
    assert_eq!(faults(SchemaName::Arrangement, &[arrangement]), "");
    // A misspelt field and a word that does not exist.
    let slip = folder.path().join("slip.toml");
    let text = std::fs::read_to_string(&examples[0]).expect("an example");
    std::fs::write(
        &slip,
        format!("{text}\n[[cable]]\ntag = \"W1\"\ncors = \"3x2.5\"\n"),
    )
    .expect("written");
    let found = faults(SchemaName::List, &[slip]);
    assert!(found.contains("cors"), "{found}");
    std::fs::write(&rules, "[entries]\ngap_mm = \"wide\"\n").expect("written");
    let found = faults(SchemaName::Workshop, &[rules]);
    assert!(
        found.contains("gap_mm") && found.contains("wide"),
        "{found}"
    );
}
