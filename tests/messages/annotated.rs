//! The lists in `lists/`: what is wrong stands beside what is wrong with it.
//!
//! A comment `#~ 9 list-cores: no unit => AWG 14` says that a finding with this code begins in column 9
//! of its line, that its message holds `no unit`, and that what was expected or its hint holds `AWG 14`.
//! `#~ ^ 9 …` speaks of the line above, `#~ 1:1 …` of line and column. Nothing else may be found.

use crate::job;
use glandrail::catalogue::Catalogue;
use glandrail::source::Finding;

/// What a comment says must be found.
#[derive(Debug)]
struct Expected {
    line_column: (usize, usize),
    code: String,
    message: String,
    remedy: String,
}

fn expected(text: &str) -> Vec<Expected> {
    let mut all = Vec::new();
    for (line, number) in text.lines().zip(1..) {
        for note in line.split("#~").skip(1) {
            let (place, rest) = note
                .trim()
                .split_once(" list-")
                .map(|(place, rest)| (place, format!("list-{rest}")))
                .or_else(|| {
                    let (place, rest) = note.trim().split_once(" demand-")?;
                    Some((place, format!("demand-{rest}")))
                })
                .or_else(|| {
                    let (place, rest) = note.trim().split_once(" source-")?;
                    Some((place, format!("source-{rest}")))
                })
                .unwrap_or_else(|| panic!("line {number}: `{note}` names no code"));
            let (code, words) = rest.split_once(": ").expect("code and words");
            let (message, remedy) = words.split_once(" => ").unwrap_or((words, ""));
            let place = place.trim();
            let (line, column) = match (place.strip_prefix('^'), place.split_once(':')) {
                (Some(column), _) => (number - 1, column.trim()),
                (None, Some((line, column))) => (line.parse().expect("a line"), column),
                (None, None) => (number, place),
            };
            all.push(Expected {
                line_column: (line, column.parse().expect("a column")),
                code: code.to_string(),
                message: message.trim().to_string(),
                remedy: remedy.trim().to_string(),
            });
        }
    }
    all.sort_by(|a, b| (a.line_column, &a.code).cmp(&(b.line_column, &b.code)));
    all
}

/// Compares what is found in one list with its notes; the differences in words.
fn differences(name: &str, text: &str) -> Vec<String> {
    let expected = expected(text);
    let found = job::findings(text, Catalogue::demo());
    let mut found: Vec<&Finding> = found.iter().collect();
    found.sort_by_key(|finding| (finding.line_column(), finding.code));
    let places = |expected: &Expected| (Some(expected.line_column), expected.code.clone());
    let wanted: Vec<_> = expected.iter().map(places).collect();
    let has: Vec<_> = found
        .iter()
        .map(|finding| (finding.line_column(), finding.code.to_string()))
        .collect();
    let mut differences = Vec::new();
    if wanted != has {
        let lines: Vec<String> = found.iter().map(|finding| finding.render_plain()).collect();
        differences.push(format!(
            "{name}: expected {wanted:?}, found\n{}",
            lines.join("\n")
        ));
        return differences;
    }
    for (expected, finding) in expected.iter().zip(found) {
        let remedy = [&finding.expected, &finding.hint]
            .into_iter()
            .flatten()
            .any(|text| text.contains(&expected.remedy));
        let told = expected.remedy.is_empty() || remedy;
        if !finding.message.contains(&expected.message) || !told {
            differences.push(format!(
                "{name}: {expected:?}\nfound {}",
                finding.render_plain()
            ));
        }
    }
    differences
}

#[test]
fn every_finding_is_where_and_what_its_note_says() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/messages/lists");
    let mut lists = 0;
    let mut notes = 0;
    let mut all = Vec::new();
    let mut paths: Vec<_> = std::fs::read_dir(folder)
        .expect("the folder")
        .map(|entry| entry.expect("an entry").path())
        .collect();
    paths.sort();
    for path in paths {
        let text = std::fs::read_to_string(&path).expect("text");
        let name = path.file_name().expect("a file").to_string_lossy();
        lists += 1;
        notes += expected(&text).len();
        all.extend(differences(&name, &text));
    }
    assert!(all.is_empty(), "{}", all.join("\n\n"));
    assert!(lists >= 10 && notes >= 100, "{lists} lists, {notes} notes");
}

/// The comparison itself notices a finding too few, too many, misplaced or misworded.
#[test]
fn the_comparison_can_fail() {
    let sound = "[job]\ntag = \"\" #~ 7 list-tag: no tag => JB-2107\n[area]\n#~ ^ 1 list-no-zone: neither => zone = 1\n";
    let text = format!("{sound}[[element]]\ntag = \"H1\"\nkind = \"lamp\"\n");
    assert_eq!(differences("sound", &text), Vec::<String>::new());
    for (from, to) in [
        ("#~ 7 list-tag: no tag => JB-2107", ""),
        ("7 list-tag", "8 list-tag"),
        ("list-tag", "list-tags"),
        ("no tag", "two tags"),
        ("JB-2107", "JB-9999"),
        ("tag = \"H1\"", "tag = \"\""),
    ] {
        assert_eq!(
            differences("changed", &text.replace(from, to)).len(),
            1,
            "{to}"
        );
    }
}
