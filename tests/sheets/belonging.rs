//! Each DXF and each CSV of a set says which box it is of.

use crate::failing::MARK;
use crate::samples::{every_example, every_fixture};
use glandrail::arrangement::CAUTION;
use glandrail::sheets::{Paper, ViewName, all_lists, set};

/// An entity of a DXF file: what a test of places and words needs.
#[derive(Debug)]
pub struct Entity {
    pub kind: String,
    pub layer: String,
    pub style: String,
    pub text: String,
    /// From the left, of a text where it begins.
    pub left: f64,
    pub bottom: f64,
    pub top: f64,
    pub height: f64,
}

/// The entities of a file, read pair by pair.
pub fn entities(file: &str) -> Vec<Entity> {
    let begin = file.find("\nENTITIES\n").expect("a section of entities");
    let end = file[begin..].find("\nENDSEC").expect("its end") + begin;
    let lines: Vec<&str> = file[begin..end].lines().skip(2).collect();
    let pairs: Vec<(&str, &str)> = lines
        .chunks_exact(2)
        .map(|pair| (pair[0], pair[1]))
        .collect();
    let starts: Vec<usize> = (0..pairs.len()).filter(|at| pairs[*at].0 == "0").collect();
    let ends = starts.iter().skip(1).copied().chain([pairs.len()]);
    starts
        .iter()
        .zip(ends)
        .map(|(from, to)| entity(&pairs[*from..to]))
        .collect()
}

fn entity(pairs: &[(&str, &str)]) -> Entity {
    let word = |code: &str| {
        let found = pairs.iter().find(|pair| pair.0 == code);
        found.map_or(String::new(), |pair| pair.1.to_string())
    };
    let numbers = |codes: &[&str]| -> Vec<f64> {
        let found = pairs.iter().filter(|pair| codes.contains(&pair.0));
        found
            .map(|pair| pair.1.parse().expect("a number"))
            .collect()
    };
    let kind = word("0");
    let round = ["CIRCLE", "ARC"].contains(&kind.as_str());
    let size = numbers(&["40"]).first().copied().unwrap_or(0.0);
    let ys = numbers(&["20", "21", "22", "23"]);
    let lowest = ys.iter().copied().fold(f64::MAX, f64::min);
    let highest = ys.iter().copied().fold(f64::MIN, f64::max);
    // Letters with tails reach a third of their height under the line, accents as much over it.
    let (under, over) = match kind.as_str() {
        _ if round => (size, size),
        "TEXT" if pairs.contains(&("50", "90")) => (0.0, 0.0),
        "TEXT" => (size / 3.0, size * 4.0 / 3.0),
        _ => (0.0, 0.0),
    };
    Entity {
        layer: word("8"),
        style: word("7"),
        text: decoded(&word("1")),
        left: numbers(&["10"]).into_iter().fold(f64::MAX, f64::min),
        bottom: lowest - under,
        top: highest + over,
        height: if kind == "TEXT" { size } else { 0.0 },
        kind,
    }
}

/// Letters that are given by number, and the signs that begin codes, as they are read.
fn decoded(text: &str) -> String {
    let mut parts = text.split("\\U+");
    let mut out = parts.next().unwrap_or_default().to_string();
    for part in parts {
        let code = u32::from_str_radix(&part[..4], 16).expect("a number");
        out.push(char::from_u32(code).expect("a letter"));
        out.push_str(&part[4..]);
    }
    out.replace("%%%", "%")
}

#[test]
fn every_dxf_says_under_its_drawing_which_box_it_is_of() {
    let fixtures = every_fixture()
        .into_iter()
        .map(|(name, arrangement)| (name.to_string(), arrangement));
    for (name, mut arrangement) in fixtures.chain(every_example()) {
        if arrangement.job.revision.is_empty() {
            arrangement.job.revision = "C".into();
        }
        let files = set(&arrangement, Paper::A3).expect("a set");
        for view in ViewName::ALL.into_iter().filter(|view| !view.is_picture()) {
            let at = format!("{name}, {}", view.name());
            let wanted = format!("view-{}.dxf", view.name());
            let (_, content) = files
                .iter()
                .find(|(file, _)| *file == wanted)
                .expect("a DXF");
            let all = entities(std::str::from_utf8(content).expect("text"));
            let job = &arrangement.job;
            let first = format!("{}, revision {}", job.tag, job.revision);
            let begin = all
                .iter()
                .position(|entity| entity.text == first && entity.style == "GLANDRAIL_BOLD")
                .unwrap_or_else(|| panic!("{at}: no `{first}`"));
            let (drawing, lines) = all.split_at(begin);
            let said: Vec<&str> = lines
                .iter()
                .flat_map(|line| line.text.split_whitespace())
                .collect();
            let said = said.join(" ");
            let warning = arrangement.catalogue_warning.clone().unwrap_or_default();
            let enclosure = format!("Enclosure {}", arrangement.enclosure.id);
            for words in [&job.title, view.words(), &enclosure, CAUTION, &warning] {
                let words: Vec<&str> = words.split_whitespace().collect();
                assert!(said.contains(&words.join(" ")), "{at}: {words:?} in {said}");
            }
            // Under everything, each line under the one before, none larger than the texts of the drawing are.
            let mut floor = drawing
                .iter()
                .map(|entity| entity.bottom)
                .fold(f64::MAX, f64::min);
            let largest = drawing.iter().filter(|entity| entity.text != MARK);
            let largest = largest.map(|entity| entity.height).fold(0.0, f64::max);
            for line in lines {
                assert_eq!(
                    (line.kind.as_str(), line.layer.as_str()),
                    ("TEXT", "text"),
                    "{at}"
                );
                assert!(line.top <= floor, "{at}: {line:?} over {floor}");
                assert!(line.height <= largest * 1.4, "{at}: {line:?}, {largest}");
                assert!((line.left - lines[0].left).abs() < 1e-6, "{at}");
                floor = line.bottom;
            }
        }
    }
}

#[test]
fn every_csv_of_a_set_ends_with_tag_and_revision_and_no_other_list_does() {
    for (name, mut arrangement) in every_fixture() {
        arrangement.job.tag = "JB-7".into();
        arrangement.job.revision = "C".into();
        let files = set(&arrangement, Paper::A3).expect("a set");
        for (file, list) in all_lists(&arrangement) {
            let (_, content) = files.iter().find(|(of, _)| of == file).expect("a list");
            let text = std::str::from_utf8(content).expect("text");
            let alone = list.csv();
            assert!(
                !alone
                    .lines()
                    .next()
                    .expect("a head")
                    .ends_with(",tag,revision")
            );
            let (lines, wanted): (Vec<_>, Vec<_>) =
                (text.lines().collect(), alone.lines().collect());
            assert_eq!(lines.len(), wanted.len(), "{name}, {file}");
            for (index, (line, wanted)) in lines.iter().zip(wanted).enumerate() {
                let end = if index == 0 {
                    ",tag,revision"
                } else {
                    ",JB-7,C"
                };
                assert_eq!(*line, format!("{wanted}{end}"), "{name}, {file}");
            }
        }
    }
}
