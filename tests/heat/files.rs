//! What `propose --out` writes of heat and marking.

use std::path::Path;

#[test]
fn heat_and_marking_are_written_as_text_and_data() {
    let list = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/tank-farm-junction.toml");
    let folder = tempfile::tempdir().expect("a folder");
    let run = assert_cmd::Command::cargo_bin("glandrail")
        .expect("the program")
        .arg("propose")
        .arg(&list)
        .arg("--out")
        .arg(folder.path())
        .assert()
        .success();
    let printed = String::from_utf8_lossy(&run.get_output().stdout).into_owned();
    assert!(printed.contains("\nHeat, estimated") && printed.contains("\nMarking, proposed"));
    let read = |name: &str| {
        std::fs::read_to_string(folder.path().join(name)).expect("a file of that name")
    };
    let heat: serde_json::Value = serde_json::from_str(&read("heat.json")).expect("JSON");
    let rise_k = heat["inside"]["known"]["balance"]["inside_rise_k"].as_f64();
    assert!(rise_k.expect("a rise") > 0.0);
    assert!(heat["rated"]["holds"].as_bool().expect("a verdict"));
    let marking: serde_json::Value = serde_json::from_str(&read("marking.json")).expect("JSON");
    assert_eq!(marking["gas"]["known"]["text"], "Ex eb IIC T6 Gb");
    assert!(read("heat.txt").contains("Faces of the heat balance"));
    assert!(read("marking.txt").contains("Labels"));
}
