//! The folder that a set is written into: what an earlier set left there, and what is not ours.

use super::{propose, sheets};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// Every file of a folder with what is in it, without the folders in it.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = std::fs::read_dir(folder).expect("the folder is there");
    entries
        .map(|entry| entry.expect("an entry"))
        .filter(|entry| entry.path().is_file())
        .map(|entry| {
            let name = entry.file_name().to_string_lossy().into_owned();
            (name, std::fs::read(entry.path()).expect("readable"))
        })
        .collect()
}

fn names(folder: &Path) -> BTreeSet<String> {
    files(folder).into_keys().collect()
}

/// The names in the list of contents of a folder; each row has its words and the same tag.
fn listed(folder: &Path, tag: &str) -> BTreeSet<String> {
    let text = std::fs::read_to_string(folder.join("contents.csv")).expect("a list of contents");
    let mut lines = text.lines();
    assert_eq!(lines.next(), Some("file,what,tag,revision"));
    lines
        .map(|line| {
            let (name, rest) = line.split_once(',').expect("cells");
            assert!(!rest.starts_with(','), "no words for {name}");
            assert!(rest.contains(&format!(",{tag},")), "{line}");
            name.to_string()
        })
        .collect()
}

/// The mixer's set in a folder, and the arrangement of it that does not hold: an element is moved onto its
/// neighbour's place.
fn written(paper: &str) -> (tempfile::TempDir, PathBuf, PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("set");
    let further = ["--paper", paper, "--out", out.to_str().expect("a path")];
    let (code, _, talk) = propose("mixer-control-station", &further);
    assert_eq!(code, 0, "{talk}");
    assert!(!talk.contains("removed"), "{talk}");
    let text = std::fs::read_to_string(out.join("arrangement.json")).expect("an arrangement");
    let mut value: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    let elements = value["elements"].as_array_mut().expect("elements");
    for key in ["x_mm", "y_mm"] {
        let place = elements[0][key].as_f64().expect("a place");
        elements[1][key] = serde_json::json!(place + 1.0);
    }
    let broken = folder.path().join("broken.json");
    std::fs::write(&broken, value.to_string()).expect("written");
    (folder, out, broken)
}

#[test]
fn the_list_of_contents_has_a_line_for_each_other_file() {
    let (_folder, out, _) = written("a3");
    let mut there = names(&out);
    assert!(there.remove("contents.csv"));
    assert_eq!(listed(&out, "LCS-4102"), there);
}

/// An arrangement that was edited until it does not hold is drawn, every file to read says so, and nothing of the earlier
/// set that it might be made from stays beside it. What is not of the set stays.
#[test]
fn sheets_of_what_does_not_hold_say_so_and_nothing_to_make_it_from_stays() {
    let (_folder, out, broken) = written("a3");
    let before = names(&out);
    std::fs::write(out.join("mine.dxf"), "mine").expect("written");
    let (code, talk) = sheets(&broken, &out);
    assert_eq!(code, 1, "{talk}");
    assert!(talk.contains("DOES NOT HOLD"), "{talk}");
    let after = files(&out);
    let is_for_making = |name: &&String| {
        let ends = [".dxf", ".csv", ".xlsx"];
        ends.iter().any(|end| name.ends_with(end))
            && !["mine.dxf", "contents.csv"].contains(&name.as_str())
    };
    let left: Vec<_> = after.keys().filter(is_for_making).collect();
    assert!(left.is_empty(), "{left:?}");
    assert_eq!(after["mine.dxf"], b"mine");
    let gone: Vec<&String> = before
        .iter()
        .filter(|name| !after.contains_key(*name))
        .collect();
    assert!(gone.len() > 15, "{gone:?}");
    let told: Vec<&str> = talk
        .lines()
        .filter(|line| line.starts_with("removed"))
        .collect();
    assert_eq!(told.len(), 1, "{talk}");
    assert!(
        told[0].contains(&format!(": {} files", gone.len())),
        "{talk}"
    );
    for name in gone {
        assert!(told[0].contains(name.as_str()), "{name}: {talk}");
    }
    let mut there = names(&out);
    there.remove("mine.dxf");
    there.remove("contents.csv");
    assert_eq!(listed(&out, "LCS-4102"), there);
    let mark = "DOES NOT HOLD – not for making";
    let mut drawings = 0;
    for (name, content) in &after {
        let text = String::from_utf8_lossy(content);
        if name.ends_with(".svg") {
            assert!(text.contains(mark), "{name}");
            drawings += 1;
        } else if name.ends_with(".txt") {
            assert!(text.starts_with("DOES NOT HOLD"), "{name}: {text}");
        } else if name.ends_with(".html") {
            assert!(text.contains("DOES NOT HOLD"), "{name}");
        }
    }
    assert!(drawings >= 18, "{drawings}");
}

#[test]
fn a_set_on_other_paper_leaves_no_sheet_of_the_earlier_one() {
    let (folder, out, _) = written("a4");
    let of_a4 = names(&out);
    let (code, talk) = sheets(&out.join("arrangement.json"), &out);
    assert_eq!(code, 0, "{talk}");
    let fresh = folder.path().join("fresh");
    let (code, _) = sheets(&out.join("arrangement.json"), &fresh);
    assert_eq!(code, 0);
    assert!(files(&out) == files(&fresh), "the folder is as a new one");
    let gone = of_a4.difference(&names(&out)).count();
    assert!(gone > 0, "the papers have the same sheets");
    let files = if gone == 1 { "file" } else { "files" };
    assert!(
        talk.contains(&format!(
            ": {gone} {files} of an earlier set (LCS-4102, revision "
        )),
        "{talk}"
    );
    // The same set again removes nothing and says nothing of it.
    let (_, talk) = sheets(&out.join("arrangement.json"), &out);
    assert!(!talk.contains("removed"), "{talk}");
}

#[test]
fn a_list_of_contents_of_somebody_else_is_not_written_over() {
    let (_folder, out, broken) = written("a3");
    let list = out.join("contents.csv");
    for theirs in [
        "chapter,page\nview-lid.svg,3\n".as_bytes(),
        b"".as_slice(),
        b"file,what,tag,revision\nview-lid.svg\n",
        b"\xff\xfe",
    ] {
        std::fs::write(&list, theirs).expect("written");
        let before = files(&out);
        let (code, talk) = sheets(&broken, &out);
        assert_eq!(code, 2, "{talk}");
        assert!(talk.contains("contents.csv"), "{talk}");
        assert!(talk.contains("nothing was written"), "{talk}");
        assert!(files(&out) == before, "nothing was written or removed");
    }
}

/// Only plain names that a set has are removed, whatever the list says.
#[test]
fn a_list_of_contents_cannot_lead_to_other_files() {
    let (folder, out, broken) = written("a3");
    let outside = folder.path().join("view-outside.svg");
    std::fs::create_dir(out.join("deep")).expect("a folder");
    let kept = [
        outside,
        out.join("deep/view-deep.svg"),
        out.join("letter.txt"),
    ];
    let mut text = "file,what,tag,revision\n".to_string();
    for (path, name) in kept
        .iter()
        .zip(["../view-outside.svg", "deep/view-deep.svg", "letter.txt"])
    {
        std::fs::write(path, "kept").expect("written");
        text += &format!("{name},x,T,A\n");
    }
    std::fs::write(out.join("view-old.svg"), "old").expect("written");
    text += "view-old.svg,x,T,A\n";
    text += &format!("{},x,T,A\n", kept[0].display());
    std::fs::write(out.join("contents.csv"), text).expect("written");
    let (code, talk) = sheets(&broken, &out);
    assert_eq!(code, 1, "{talk}");
    for path in &kept {
        assert!(path.exists(), "{}: {talk}", path.display());
    }
    assert!(!out.join("view-old.svg").exists(), "{talk}");
    assert!(
        talk.contains(": 1 file of an earlier set (T, revision A)"),
        "{talk}"
    );
}

#[test]
fn where_nothing_is_found_the_earlier_set_is_told_and_stays() {
    let (_folder, out, _) = written("a3");
    let path = out.to_str().expect("a path");
    let before = files(&out);
    for further in [vec!["--out", path], vec!["--boxes", "2", "--out", path]] {
        let (code, _, talk) = propose("impossible-heater-feeds", &further);
        assert_eq!(code, 1, "{talk}");
        let told: Vec<&str> = talk
            .lines()
            .filter(|line| line.contains("earlier answer"))
            .collect();
        assert_eq!(told.len(), 1, "{talk}");
        for words in [
            path,
            "(LCS-4102, revision ",
            "which is not the answer to this list",
        ] {
            assert!(told[0].contains(words), "{talk}");
        }
        assert!(files(&out) == before, "nothing was written or removed");
    }
    // Without an earlier set, or with a list of somebody else, there is nothing to tell.
    std::fs::write(out.join("contents.csv"), "chapter,page\n").expect("written");
    let (code, _, talk) = propose("impossible-heater-feeds", &["--out", path]);
    assert_eq!((code, talk.as_str()), (1, ""));
    std::fs::remove_file(out.join("contents.csv")).expect("removed");
    let (code, _, talk) = propose("impossible-heater-feeds", &["--out", path]);
    assert_eq!((code, talk.as_str()), (1, ""));
}

/// Each folder of two boxes has its own list; over it stands one of the two requirement lists.
#[test]
fn sets_of_two_boxes_are_replaced_folder_by_folder() {
    let (_folder, out, broken) = written("a3");
    let path = out.to_str().expect("a path");
    let both = ["--boxes", "2", "--out", path];
    let (code, _, talk) = propose("pump-row-two-boxes", &both);
    assert_eq!(code, 0, "{talk}");
    // The set of one box that was there went as a whole, but for its list of contents.
    let lists = ["box-1.toml", "box-2.toml", "contents.csv"].map(String::from);
    assert_eq!(names(&out), BTreeSet::from(lists), "{talk}");
    assert!(
        talk.contains("files of an earlier set (LCS-4102, revision "),
        "{talk}"
    );
    let second = out.join("box-2");
    for at in [out.join("box-1"), second.clone()] {
        let text = std::fs::read_to_string(at.join("arrangement.json")).expect("an arrangement");
        let value: serde_json::Value = serde_json::from_str(&text).expect("JSON");
        let mut there = names(&at);
        assert!(there.remove("contents.csv"));
        assert_eq!(
            listed(&at, value["job"]["tag"].as_str().expect("a tag")),
            there
        );
    }
    // A sheet of an earlier set of the second box goes, and only there.
    let list = second.join("contents.csv");
    let text = std::fs::read_to_string(&list).expect("a list") + "sheet-old.svg,x,T,A\n";
    std::fs::write(&list, text).expect("written");
    for at in [&out, &second] {
        std::fs::write(at.join("sheet-old.svg"), "old").expect("written");
    }
    let (code, _, talk) = propose("pump-row-two-boxes", &both);
    assert_eq!(code, 0, "{talk}");
    assert!(talk.contains(": 1 file of an earlier set"), "{talk}");
    assert!(!second.join("sheet-old.svg").exists() && out.join("sheet-old.svg").exists());
    // A set of one box beside them: the lists may have been changed and stay, the folders are told of.
    let (code, talk) = sheets(&broken, &out);
    assert_eq!(code, 1, "{talk}");
    assert!(out.join("box-1.toml").exists(), "{talk}");
    for number in 1..=2 {
        let told = format!("box-{number} still holds the set of an earlier answer");
        assert!(talk.contains(&told), "{talk}");
        assert!(out.join(format!("box-{number}/drawings.pdf")).exists());
    }
}
