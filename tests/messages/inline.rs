//! Bad input that cannot carry a note beside it: files that are no files, text that is no TOML, line
//! ends and marks, lists that are empty, catalogues that are empty or contradict themselves.

use crate::job;
use glandrail::catalogue::Catalogue;
use glandrail::propose::Answer;
use glandrail::requirements::RequirementList;
use glandrail::source::Findings;
use glandrail::workshop::Workshop;

fn read_file(path: &std::path::Path) -> Findings {
    RequirementList::read(path, &Workshop::default()).expect_err("a finding")
}

fn lines(findings: &Findings) -> Vec<String> {
    findings
        .iter()
        .map(|finding| finding.render_plain())
        .collect()
}

#[test]
fn files_that_cannot_be_read() {
    let folder = tempfile::tempdir().expect("a folder");
    let missing = folder.path().join("missing.toml");
    let told = lines(&read_file(&missing));
    assert_eq!(told.len(), 1);
    assert!(
        told[0].contains("error[source-file]: ") && told[0].contains("does not exist"),
        "{}",
        told[0]
    );
    let told = lines(&read_file(folder.path()));
    assert!(told[0].contains("is a folder, not a file"), "{}", told[0]);
    let bytes = folder.path().join("bytes.toml");
    std::fs::write(&bytes, b"[job]\ntag = \"\xff\xfe\"\n").expect("written");
    let told = lines(&read_file(&bytes));
    assert_eq!(told.len(), 1);
    assert!(told[0].contains("source-file"), "{}", told[0]);
}

#[test]
fn text_that_is_no_toml() {
    for (text, place) in [
        ("[job\ntag = \"JB-1\"\n", "list.toml:1:"),
        ("[job]\ntag = JB-1\n", "list.toml:2:"),
        ("[job]\ntag = \"JB-1\n", "list.toml:2:"),
        ("[job]\ntag = \"JB-1\"\ntag = \"JB-2\"\n", "list.toml:3:"),
        ("[job]\ntag : \"JB-1\"\n", "list.toml:2:"),
        ("[job]\nrevision = 99999999999999999999\n", "list.toml:2:"),
        ("{\"job\": {\"tag\": \"JB-1\"}}", "list.toml:1:"),
        ("\0", "list.toml:1:"),
    ] {
        let told = lines(&job::read(text).expect_err("no TOML"));
        assert!(!told.is_empty());
        for line in &told {
            assert!(line.contains("error[source-syntax]: "), "{text:?}: {line}");
        }
        assert!(told[0].starts_with(place), "{text:?}: {}", told[0]);
    }
}

/// A mark at the beginning and line ends of two letters neither disturb nor move a place.
#[test]
fn byte_order_mark_and_two_letter_line_ends() {
    let text = job::completed("[[cable]]\ntag = \"W1\"\ncores = \"2 x 1.5 mm2\"\n");
    let windows = format!("\u{feff}{}", text.replace('\n', "\r\n"));
    let list = job::read(&windows).expect("sound");
    assert_eq!((list.cables.len(), list.cables[0].place.line()), (1, 1));
    let wrong = windows.replace("2 x 1.5 mm2", "2 x 1.5");
    let told = lines(&job::read(&wrong).expect_err("no unit"));
    assert_eq!(told.len(), 1);
    assert!(
        told[0].starts_with("list.toml:3:9: error[list-cores]: "),
        "{}",
        told[0]
    );
}

#[test]
fn lists_without_anything() {
    let told = lines(&job::read("").expect_err("empty"));
    assert_eq!(told.len(), 2, "{told:#?}");
    assert!(
        told[0].contains("source-missing-table]: the table `job` is missing"),
        "{}",
        told[0]
    );
    assert!(
        told[1].contains("source-missing-table]: the table `area` is missing"),
        "{}",
        told[1]
    );
    let told = lines(&job::read(&job::completed("")).expect_err("nothing in it"));
    assert_eq!(told.len(), 1);
    assert!(
        told[0].contains("list-empty]: the list has neither cables nor operating elements"),
        "{}",
        told[0]
    );
    // Elements without cables are a list: a blank for somebody else's wiring.
    let list = job::read(&job::completed(
        "[[element]]\ntag = \"H1\"\nkind = \"lamp\"\n",
    ))
    .expect("a list");
    assert_eq!((list.cables.len(), list.elements.len()), (0, 1));
    let answer = job::answer(&list, Catalogue::demo());
    assert!(matches!(answer, Ok(Answer::Found(_))), "{answer:?}");
}

#[test]
fn all_findings_of_a_file_come_in_one_run() {
    let text = "[job]\ntitel = 1\n[area]\nzone = 1\n[[cable]]\ntag = \"W1\"\ncores = \"3\"\n[[circuit]]\ntag = \"C1\"\nvoltage_v = \"24 V\"\ncurrent_a = 1\n";
    let findings = job::read(text).expect_err("wrong");
    let codes: Vec<_> = findings.iter().map(|finding| finding.code).collect();
    assert_eq!(
        codes,
        [
            "source-missing-field",
            "source-unknown-field",
            "list-missing-area",
            "list-missing-area",
            "list-cores",
            "source-wrong-type",
        ]
    );
}

#[test]
fn an_empty_catalogue_is_told_at_once() {
    let mut empty = Catalogue::demo().clone();
    empty.enclosure.clear();
    let list =
        job::completed("[[cable]]\ntag = \"W1\"\ncores = \"2 x 1.5 mm2\"\ndiameter_mm = 9\n");
    let told = lines(&job::findings(&list, &empty));
    assert_eq!(told.len(), 1, "{told:#?}");
    assert!(
        told[0].contains("error[demand-no-enclosure]: the catalogue has no enclosure"),
        "{}",
        told[0]
    );
    empty.terminal.clear();
    empty.gland.clear();
    empty.rail.clear();
    empty.accessory.clear();
    let findings = job::findings(&list, &empty);
    let codes: Vec<_> = findings.iter().map(|finding| finding.code).collect();
    assert_eq!(
        codes,
        [
            "demand-no-enclosure",
            "demand-no-terminal",
            "demand-no-gland"
        ]
    );
    // As a file it is refused before any list is looked at.
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("empty.toml");
    std::fs::write(&path, "[about]\ntitle = \"nothing\"\n").expect("written");
    let told = lines(&Catalogue::read(&path).expect_err("empty"));
    assert!(
        told.iter().any(|line| line.contains("catalogue-empty")),
        "{told:#?}"
    );
}

#[test]
fn a_contradicting_row_of_a_catalogue_is_told_with_its_place() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("catalogue.toml");
    let gland = "[about]\ntitle = \"one\"\n[[gland]]\nid = \"G\"\nthread = \"M20\"\nclamping_mm = [13, 7]\n";
    std::fs::write(&path, gland).expect("written");
    let findings = Catalogue::read(&path).expect_err("the range runs backwards");
    let told = lines(&findings);
    let place =
        |line: &&String| line.contains("catalogue.toml:6:") || line.contains("catalogue.toml:3:");
    assert!(told.iter().any(|line| place(&line)), "{told:#?}");
}
