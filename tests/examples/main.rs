//! The committed examples, run as a user runs them: the text of each answer and its exit status.
//!
//! After a wanted change: `INSTA_UPDATE=always cargo test --test examples`, then read the difference.

mod sets;
mod unserved;
mod unstated;

use assert_cmd::Command;
use std::path::{Path, PathBuf};

fn examples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("examples")
}

/// Runs `glandrail propose` on an example; gives exit status and standard output.
fn propose(name: &str, further: &[&str]) -> (i32, String, String) {
    let output = Command::cargo_bin("glandrail")
        .expect("the binary is built with the tests")
        .current_dir(examples())
        .env("NO_COLOR", "1")
        .arg("propose")
        .arg(format!("{name}.toml"))
        .args(further)
        .output()
        .expect("the binary runs");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("the output is UTF-8");
    (
        output.status.code().expect("an exit status"),
        text(output.stdout),
        text(output.stderr),
    )
}

/// The answer to an example as committed; every possible one carries its cautions.
fn check(name: &str, status: i32) {
    check_with(name, &[], status);
}

fn check_with(name: &str, further: &[&str], status: i32) {
    let (code, out, talk) = propose(name, further);
    assert_eq!(code, status, "{talk}");
    assert!(talk.is_empty(), "{talk}");
    assert!(
        out.contains("A design aid: the certificate and its holder"),
        "{out}"
    );
    let widest = out
        .lines()
        .map(|line| line.chars().count())
        .max()
        .unwrap_or(0);
    assert!(widest <= 100, "a line of {widest} characters");
    insta::assert_snapshot!(name, out);
}

#[test]
fn tank_farm_junction() {
    check("tank-farm-junction", 0);
}

#[test]
fn transfer_pump_power() {
    check("transfer-pump-power", 0);
}

#[test]
fn mixer_control_station() {
    check("mixer-control-station", 0);
}

#[test]
fn grain_conveyor_station() {
    check("grain-conveyor-station", 0);
}

#[test]
fn level_mixed_signals() {
    check("level-mixed-signals", 0);
}

#[test]
fn jetty_npt_awg() {
    check("jetty-npt-awg", 0);
}

#[test]
fn impossible_heater_feeds() {
    check("impossible-heater-feeds", 1);
}

/// Without rows the tank farm's entries find room in one wall less, and so the list in a smaller box.
/// The arrangement that comes out is audited again from its file.
#[test]
fn free_placement_gives_the_tank_farm_a_smaller_box() {
    let box_of = |placement: &str| -> (serde_json::Value, f64) {
        let (code, out, talk) = propose(
            "tank-farm-junction",
            &["--format", "json", "--placement", placement],
        );
        assert_eq!(code, 0, "{talk}");
        let value: serde_json::Value = serde_json::from_str(&out).expect("JSON");
        let outer = value["enclosure"]["outer_mm"]
            .as_array()
            .expect("three lengths")
            .iter()
            .map(|length| length.as_f64().expect("a length"))
            .product();
        (value, outer)
    };
    let (rows, rows_mm3) = box_of("rows");
    let (best, best_mm3) = box_of("best");
    assert!(best_mm3 < rows_mm3, "{best_mm3} against {rows_mm3}");
    let says_so = |value: &serde_json::Value| {
        let remarks = value["remarks"].as_array().expect("remarks");
        remarks.iter().any(|remark| {
            remark
                .as_str()
                .is_some_and(|text| text.contains("placed freely"))
        })
    };
    assert!(says_so(&best) && !says_so(&rows));
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("arrangement.json");
    std::fs::write(&path, best.to_string()).expect("written");
    let audit = |path: &Path| {
        Command::cargo_bin("glandrail")
            .expect("the binary is built with the tests")
            .arg("audit")
            .arg(path)
            .output()
            .expect("the binary runs")
            .status
            .code()
    };
    assert_eq!(audit(&path), Some(0));
    // A centre moved by a spanner's gap towards another one is found by the same rules as in rows.
    let mut moved = best.clone();
    let entries = moved["entries"].as_array_mut().expect("entries");
    let other = entries[1]["u_mm"].clone();
    entries[2]["u_mm"] = other;
    std::fs::write(&path, moved.to_string()).expect("written");
    assert_eq!(audit(&path), Some(1));
}

/// What was tried without rows and not disproved is said, beside the proof for rows.
#[test]
fn what_is_open_without_rows_is_said() {
    let (code, out, _) = propose("jetty-npt-awg", &["--proof"]);
    assert_eq!(code, 0);
    assert!(
        out.contains("is the smallest of 120 candidates with entries in rows"),
        "{out}"
    );
    assert!(
        out.contains("Open for entries placed freely are these smaller ones"),
        "{out}"
    );
    let in_one_line = out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        in_one_line
            .contains("no free placement was found either; that there is none is not proved"),
        "{out}"
    );
    let (_, json, _) = propose("jetty-npt-awg", &["--format", "json"]);
    let value: serde_json::Value = serde_json::from_str(&json).expect("JSON");
    let open = value["proof"]["open_for_free_placement"]
        .as_array()
        .expect("a list");
    assert!(!open.is_empty());
    for candidate in open {
        let name = candidate["enclosure"].as_str().expect("a name");
        assert!(out.contains(name), "{name} is open and not named");
    }
    let (_, rows, _) = propose("jetty-npt-awg", &["--placement", "rows", "--proof"]);
    assert!(!rows.contains("freely"), "{rows}");
    assert!(rows.contains("candidates with entries in rows"), "{rows}");
}

#[test]
fn pump_row_two_boxes() {
    check_with("pump-row-two-boxes", &["--boxes", "2"], 0);
    let (code, out, _) = propose("pump-row-two-boxes", &[]);
    assert_eq!(code, 1, "one box does not take it");
    assert!(out.contains("Cannot be made"), "{out}");
}

#[test]
fn two_boxes_are_written_as_two_lists_and_two_sets() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("both");
    let further = ["--boxes", "2", "--out", out.to_str().expect("a path")];
    let (code, _, talk) = propose("pump-row-two-boxes", &further);
    assert_eq!(code, 0, "{talk}");
    for number in 1..=2 {
        // The list is one that can be proposed from, and gives the arrangement that stands beside it.
        let list = out.join(format!("box-{number}.toml"));
        let output = Command::cargo_bin("glandrail")
            .expect("the binary is built with the tests")
            .args([
                "propose",
                list.to_str().expect("a path"),
                "--format",
                "json",
            ])
            .output()
            .expect("the binary runs");
        assert_eq!(output.status.code(), Some(0));
        let set = out.join(format!("box-{number}"));
        let arrangement = std::fs::read(set.join("arrangement.json")).expect("an arrangement");
        let trimmed = |bytes: Vec<u8>| String::from_utf8(bytes).expect("UTF-8").trim().to_string();
        assert_eq!(trimmed(output.stdout), trimmed(arrangement));
        assert!(set.join("drawings.pdf").exists());
    }
    let (code, json, _) = propose("pump-row-two-boxes", &["--boxes", "2", "--format", "json"]);
    assert_eq!(code, 0);
    let value: serde_json::Value = serde_json::from_str(&json).expect("JSON");
    assert_eq!(value["boxes"].as_array().map(Vec::len), Some(2));
    assert_eq!(value["division_proven"], false);
}

#[test]
fn every_example_is_tested() {
    let source = std::fs::read_to_string(
        Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/examples/main.rs"),
    )
    .expect("this file");
    for entry in std::fs::read_dir(examples()).expect("the folder of examples") {
        let path = entry.expect("an entry").path();
        let name = path
            .file_stem()
            .expect("a name")
            .to_string_lossy()
            .into_owned();
        assert!(
            source.contains(&format!("\"{name}\"")),
            "no test runs {name}"
        );
    }
}

#[test]
fn the_impossible_example_names_every_candidate() {
    let (_, out, _) = propose("impossible-heater-feeds", &["--proof"]);
    for enclosure in &glandrail::catalogue::Catalogue::demo().enclosure {
        assert!(out.contains(&enclosure.id), "{} is not named", enclosure.id);
    }
}

#[test]
fn json_is_the_arrangement_and_the_same_every_time() {
    let (code, first, _) = propose("tank-farm-junction", &["--format", "json"]);
    assert_eq!(code, 0);
    let (_, second, _) = propose("tank-farm-junction", &["--format", "json"]);
    assert_eq!(first, second, "same input, same bytes");
    let arrangement: glandrail::arrangement::Arrangement =
        serde_json::from_str(&first).expect("the output is an arrangement");
    let again = serde_json::to_string_pretty(&arrangement).expect("it can be written");
    assert_eq!(
        first.trim_end(),
        again,
        "read and written again, nothing is lost"
    );
}

#[test]
fn a_folder_gets_all_files_or_none() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("set");
    let (code, _, talk) = propose(
        "mixer-control-station",
        &["--out", out.to_str().expect("a path")],
    );
    assert_eq!(code, 0, "{talk}");
    for name in [
        "arrangement.json",
        "view-inside.svg",
        "view-lid.svg",
        "view-bottom.svg",
        "view-right.svg",
        "view-top.svg",
        "view-left.svg",
    ] {
        let text = std::fs::read_to_string(out.join(name)).expect(name);
        assert!(text.len() > 200, "{name} is empty");
    }
    for name in [
        "drawings.pdf",
        "view-bottom.dxf",
        "drilling-list.csv",
        "workshop-notes.csv",
        "contact-table.csv",
        "internal-wires.csv",
        "label-list.csv",
        "spare-capacity.csv",
        "heat-calculation.csv",
        "audit-record.csv",
        "schedules.xlsx",
        "contents.csv",
    ] {
        let size = std::fs::metadata(out.join(name)).expect(name).len();
        assert!(size > 50, "{name} is empty");
    }
    // The gallery shows these sheets as they are written.
    for sheet in [
        "inside",
        "terminals",
        "lid",
        "elements",
        "walls",
        "pictorial",
        "parts",
        "heat",
        "record",
    ] {
        let written = std::fs::read(out.join(format!("sheet-{sheet}.svg"))).expect(sheet);
        let picture = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join(format!("docs/pictures/gallery-{sheet}.svg"));
        let shown = std::fs::read(picture).expect("a picture of the gallery");
        assert!(
            written == shown,
            "docs/pictures/gallery-{sheet}.svg is not what is written; copy it anew"
        );
    }
    // From the arrangement alone the same files come, byte by byte.
    let again = folder.path().join("again");
    let (code, talk) = sheets(&out.join("arrangement.json"), &again);
    assert_eq!(code, 0, "{talk}");
    for entry in std::fs::read_dir(&out).expect("the set") {
        let path = entry.expect("a file").path();
        let name = path.file_name().expect("a name");
        let first = std::fs::read(&path).expect("read");
        let second = std::fs::read(again.join(name)).expect("written again");
        assert!(first == second, "{}", path.display());
    }
    // A file stands where the folder should be: nothing is written.
    let blocked = folder.path().join("blocked");
    std::fs::write(&blocked, "not a folder").expect("a file");
    let (code, _, talk) = propose(
        "mixer-control-station",
        &["--out", blocked.to_str().expect("a path")],
    );
    assert_eq!(code, 2, "{talk}");
    assert_eq!(
        std::fs::read_to_string(&blocked).expect("still there"),
        "not a folder"
    );
}

/// Runs `glandrail sheets`; gives exit status and talk.
fn sheets(arrangement: &Path, out: &Path) -> (i32, String) {
    let output = Command::cargo_bin("glandrail")
        .expect("the binary is built with the tests")
        .env("NO_COLOR", "1")
        .arg("sheets")
        .arg(arrangement)
        .arg("--out")
        .arg(out)
        .output()
        .expect("the binary runs");
    (
        output.status.code().expect("an exit status"),
        String::from_utf8(output.stderr).expect("UTF-8"),
    )
}

#[test]
fn sheets_refuses_what_is_no_arrangement() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("set");
    let file = folder.path().join("file.json");
    for (content, wanted) in [
        ("{ not json", "arrangement-json"),
        ("{}", "missing field `format`"),
        (
            "{\"format\": \"glandrail-arrangement/99\"}",
            "glandrail-arrangement/99",
        ),
        (
            "{\"format\": \"glandrail-arrangement/1\"}",
            "missing field `caution`",
        ),
    ] {
        std::fs::write(&file, content).expect("written");
        let (code, talk) = sheets(&file, &out);
        assert_eq!(code, 2, "{talk}");
        assert!(talk.contains(wanted), "{talk}");
        assert!(!out.exists(), "nothing is written");
    }
    let (code, talk) = sheets(&folder.path().join("absent.json"), &out);
    assert_eq!(code, 2, "{talk}");
    assert!(talk.contains("does not exist"), "{talk}");
}

/// Every file that one thread writes is written by four of them to the last byte.
#[test]
fn the_number_of_threads_changes_no_file() {
    for name in [
        "tank-farm-junction",
        "jetty-npt-awg",
        "mixer-control-station",
    ] {
        let folder = tempfile::tempdir().expect("a folder");
        let written = |threads: &str| {
            let out = folder.path().join(threads);
            let (code, answer, talk) = propose(
                name,
                &["--threads", threads, "--out", out.to_str().expect("a path")],
            );
            assert_eq!(code, 0, "{talk}");
            let mut files: Vec<(std::ffi::OsString, Vec<u8>)> = std::fs::read_dir(&out)
                .expect("the folder is there")
                .map(|entry| {
                    let entry = entry.expect("an entry");
                    let bytes = std::fs::read(entry.path()).expect("readable");
                    (entry.file_name(), bytes)
                })
                .collect();
            files.sort();
            (answer, files)
        };
        let (one, four) = (written("1"), written("4"));
        assert_eq!(one.0, four.0, "{name}");
        assert!(one.1.len() > 30, "{name}: {} files", one.1.len());
        for (a, b) in one.1.iter().zip(&four.1) {
            assert_eq!(a.0, b.0, "{name}");
            assert!(a.1 == b.1, "{name}: {:?} differs", a.0);
        }
        assert_eq!(one.1.len(), four.1.len(), "{name}");
    }
}

/// The answer that the README quotes is part of the real one, and its picture is the view as written.
/// After a wanted change of the picture: `GLANDRAIL_WRITE_DOCS=1 cargo test --test examples readme`.
#[test]
fn readme_is_true() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let readme = std::fs::read_to_string(root.join("README.md")).expect("the README");
    let quoted = readme
        .split("```text\n")
        .nth(1)
        .and_then(|rest| rest.split("```").next())
        .expect("a quoted answer");
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("set");
    let (code, answer, talk) = propose(
        "tank-farm-junction",
        &["--out", out.to_str().expect("a path")],
    );
    assert_eq!(code, 0, "{talk}");
    let mut lines = 0;
    for line in quoted
        .lines()
        .filter(|line| !line.trim().is_empty() && line.trim() != "…")
    {
        assert!(
            answer.lines().any(|known| known == line),
            "the answer has no line `{line}`"
        );
        lines += 1;
    }
    assert!(lines >= 6, "{lines} lines are quoted");
    let picture = root.join("docs/pictures/tank-farm-inside.svg");
    let view = std::fs::read_to_string(out.join("view-inside.svg")).expect("the view");
    if std::env::var_os("GLANDRAIL_WRITE_DOCS").is_some() {
        std::fs::write(&picture, &view).expect("the picture");
    }
    let shown = std::fs::read_to_string(&picture).expect("the picture");
    assert!(shown == view, "the picture is not the view as written");
}
