//! Holes agree with the arrangement to a hundredth of a millimetre in every format, and other people's
//! libraries read our files.
//!
//! DXF and PDF are read with `ezdxf` and `pypdf` (from PyPI) by `python3`, or the interpreter named in
//! `GLANDRAIL_PYTHON`. Where Python or the libraries are absent that test says so and passes, unless
//! `GLANDRAIL_REQUIRE_PYTHON=1`.

use crate::drawings::{dedup_same, holes};
use crate::python;
use crate::samples::{every_example, every_fixture};
use glandrail::arrangement::{Arrangement, CAUTION};
use glandrail::sheets::{Paper, SetFile, drawings, set};

/// A hole: face, what it is for, position and size (the diameter, or width and height).
type Hole = (String, String, [f64; 2], [f64; 2]);

/// The holes of an arrangement, by face and name.
fn expected(arrangement: &Arrangement) -> Vec<Hole> {
    let entries = arrangement.entries.iter().map(|entry| {
        (
            entry.wall.name().to_string(),
            entry.id.clone(),
            [entry.u_mm, entry.v_mm],
            [entry.hole_mm; 2],
        )
    });
    let elements = arrangement.elements.iter().map(|element| {
        (
            "lid".to_string(),
            element.tag.clone(),
            [element.x_mm, element.y_mm],
            element.hole_mm,
        )
    });
    let mut holes: Vec<Hole> = entries.chain(elements).collect();
    holes.sort_by_key(|hole| (hole.0.clone(), hole.1.clone()));
    holes
}

fn is_round(hole: &Hole) -> bool {
    (hole.3[0] - hole.3[1]).abs() < 1e-6
}

#[track_caller]
fn close(ours: f64, wanted: f64, what: &str) {
    assert!(
        (ours - wanted).abs() <= 0.01,
        "{what}: {ours} instead of {wanted}"
    );
}

fn text<'a>(files: &'a [SetFile], name: &str) -> &'a str {
    let (_, content) = files
        .iter()
        .find(|(file, _)| file == name)
        .unwrap_or_else(|| panic!("{name} is in the set"));
    std::str::from_utf8(content).expect("text")
}

/// Circles on the layer of holes of a DXF file: x, y and diameter, read pair by pair.
fn dxf_holes(file: &str) -> Vec<[f64; 3]> {
    let lines: Vec<&str> = file.lines().collect();
    let pairs: Vec<(&str, &str)> = lines
        .chunks(2)
        .map(|pair| (pair[0].trim(), pair[1]))
        .collect();
    let mut found = Vec::new();
    for entity in pairs.split(|pair| pair.0 == "0").zip(
        // The pairs that separate entities name their kind.
        std::iter::once("").chain(pairs.iter().filter(|pair| pair.0 == "0").map(|pair| pair.1)),
    ) {
        let (codes, kind) = entity;
        let value = |code: &str| codes.iter().find(|pair| pair.0 == code).map(|pair| pair.1);
        if kind == "CIRCLE" && value("8") == Some("holes") {
            let number =
                |code: &str| -> f64 { value(code).expect("complete").parse().expect("a number") };
            found.push([number("10"), number("20"), 2.0 * number("40")]);
        }
    }
    found
}

/// Each of the holes is among those found, and no other.
#[track_caller]
fn same(found: &[[f64; 3]], wanted: &[&Hole], what: &str) {
    assert_eq!(found.len(), wanted.len(), "{what}");
    for (_, id, [x, y], [diameter, _]) in wanted {
        let is_there = found.iter().any(|[fx, fy, fd]| {
            (fx - x).abs() <= 0.01 && (fy - y).abs() <= 0.01 && (fd - diameter).abs() <= 0.01
        });
        assert!(is_there, "{what}: {id} at {x}, {y} is missing in {found:?}");
    }
}

fn on_every_paper() -> Vec<(String, Arrangement, Paper)> {
    every_fixture()
        .into_iter()
        .map(|(name, arrangement)| (name.to_string(), arrangement))
        .chain(every_example())
        .flat_map(|(name, arrangement)| {
            Paper::ALL.map(|paper| (format!("{name}, {paper:?}"), arrangement.clone(), paper))
        })
        .collect()
}

#[test]
fn holes_agree_in_svg_dxf_and_csv() {
    for (name, arrangement, paper) in on_every_paper() {
        let files = set(&arrangement, paper).expect("a set");
        let wanted = expected(&arrangement);
        let mut drawn: Vec<_> = files
            .iter()
            .filter(|(file, _)| file.starts_with("sheet-") && file.ends_with(".svg"))
            .flat_map(|(_, content)| holes(std::str::from_utf8(content).expect("text")))
            .collect();
        drawn.sort_by_key(|hole| (hole.0.clone(), hole.1.clone()));
        dedup_same(&mut drawn);
        let round: Vec<&Hole> = wanted.iter().filter(|hole| is_round(hole)).collect();
        assert_eq!(drawn.len(), round.len(), "{name}");
        for ((face, id, place), hole) in drawn.iter().zip(&round) {
            assert_eq!((face, id), (&hole.0, &hole.1), "{name}");
            close(place[0], hole.2[0], &format!("{name}, SVG, {id}"));
            close(place[1], hole.2[1], &format!("{name}, SVG, {id}"));
            close(place[2], hole.3[0], &format!("{name}, SVG, {id}"));
        }
        for face in ["bottom", "right", "top", "left", "lid"] {
            let of_face: Vec<&Hole> = round.iter().copied().filter(|h| h.0 == face).collect();
            let found = dxf_holes(text(&files, &format!("view-{face}.dxf")));
            same(&found, &of_face, &format!("{name}, DXF, {face}"));
        }
        let list = text(&files, "drilling-list.csv");
        let rows: Vec<Vec<&str>> = list
            .lines()
            .skip(1)
            .map(|line| line.split(',').collect())
            .collect();
        assert_eq!(rows.len(), wanted.len(), "{name}");
        for (face, id, place, size) in &wanted {
            let row = rows
                .iter()
                .find(|row| row[0] == face && row[1] == id)
                .unwrap_or_else(|| panic!("{name}: {id} is in the list"));
            for (column, value) in [(2, place[0]), (3, place[1]), (5, size[0]), (6, size[1])] {
                let number = row[column].parse().expect("a number");
                close(number, value, &format!("{name}, CSV, {id}"));
            }
        }
    }
}

#[test]
fn other_libraries_read_dxf_and_pdf_and_find_the_same_holes() {
    if !python::has("import ezdxf, pypdf") {
        return;
    }
    let script = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sheets/formats.py");
    for (name, arrangement, paper) in on_every_paper() {
        let folder = tempfile::tempdir().expect("a folder");
        for (file, content) in set(&arrangement, paper).expect("a set") {
            std::fs::write(folder.path().join(file), content).expect("written");
        }
        let output = python::python()
            .arg(&script)
            .arg(folder.path())
            .output()
            .expect("python was there a moment ago");
        let errors = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{name}: {errors}");
        let answer = String::from_utf8(output.stdout).expect("text");
        let lines: Vec<Vec<&str>> = answer
            .lines()
            .map(|line| line.split_whitespace().collect())
            .collect();
        let of = |kind: &str| -> Vec<&Vec<&str>> {
            lines.iter().filter(|line| line[0] == kind).collect()
        };
        assert_eq!(of("dxf").len(), 7, "{name}: a file for each view");
        for line in of("dxf") {
            assert_eq!(line[2], "0", "{name}: faults in {}", line[1]);
        }
        assert_eq!(of("said").len(), 7, "{name}: a file for each view");
        for line in of("said") {
            let said = line[2..].join(" ");
            let enclosure = format!("Enclosure {}", arrangement.enclosure.id);
            for words in [&arrangement.job.tag, &enclosure, CAUTION] {
                assert!(said.contains(words), "{name}, {}: {said}", line[1]);
            }
        }
        let layers: Vec<&str> = of("layer")
            .iter()
            .filter(|line| line[1] == "view-bottom.dxf")
            .map(|line| line[2])
            .collect();
        for layer in ["outline", "hidden", "centre", "holes", "dimensions", "text"] {
            assert!(layers.contains(&layer), "{name}: {layer} in {layers:?}");
        }
        let wanted = expected(&arrangement);
        for face in ["bottom", "right", "top", "left", "lid"] {
            let file = format!("view-{face}.dxf");
            let found: Vec<[f64; 3]> = of("hole")
                .iter()
                .filter(|line| line[1] == file)
                .map(|line| [2, 3, 4].map(|index| line[index].parse().expect("a number")))
                .collect();
            let of_face: Vec<&Hole> = wanted
                .iter()
                .filter(|hole| hole.0 == face && is_round(hole))
                .collect();
            same(&found, &of_face, &format!("{name}, {file}"));
        }
        check_words(&name, &of("words")[0][2..], &wanted, &arrangement);
        check_outline(&name, &of("outline"), &arrangement, paper);
    }
}

/// Every sheet has its bookmark, in order, which says number and heading and leads to its page.
fn check_outline(name: &str, found: &[&Vec<&str>], arrangement: &Arrangement, paper: Paper) {
    let sheets = drawings(arrangement, paper);
    let found: Vec<(usize, String)> = found
        .iter()
        .map(|line| (line[2].parse().expect("a number"), line[3..].join(" ")))
        .collect();
    let wanted: Vec<(usize, String)> = sheets
        .iter()
        .zip(1..)
        .map(|(sheet, number)| {
            let words = format!("{number} {}", sheet.heading);
            (
                number,
                words.split_whitespace().collect::<Vec<_>>().join(" "),
            )
        })
        .collect();
    assert_eq!(found, wanted, "{name}");
    for sheet in &sheets {
        assert!(!sheet.heading.is_empty(), "{name}: {}", sheet.name);
        assert!(
            sheet
                .title
                .contains(sheet.heading.split(": ").next().expect("words")),
            "{name}"
        );
    }
}

/// In the document's tables each hole stands with its position: number, wall and two numbers follow
/// each other for a wall; tag and two numbers for the lid.
fn check_words(name: &str, words: &[&str], wanted: &[Hole], arrangement: &Arrangement) {
    for (face, id, place, _) in wanted {
        let begin: Vec<&str> = if face == "lid" {
            id.split_whitespace().collect()
        } else {
            vec![id, face]
        };
        let count = begin.len();
        let is_there = words.windows(count + 2).any(|row| {
            row[..count] == begin[..]
                && (0..2).all(|index| {
                    row[count + index]
                        .parse::<f64>()
                        .is_ok_and(|value| (value - place[index]).abs() <= 0.01)
                })
        });
        assert!(is_there, "{name}, PDF: {id} at {place:?}");
    }
    let all = words.join(" ");
    assert!(all.contains(CAUTION), "{name}");
    // A tag longer than its field is cut.
    let tag: String = arrangement.job.tag.chars().take(8).collect();
    assert!(all.contains(&tag), "{name}: {tag}");
}
