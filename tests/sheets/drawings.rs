//! Drawings: text apart and inside, holes where the arrangement has them, views to scale.

use crate::failing::MARK;
use crate::fixture;
use crate::samples::{every_example, every_fixture, every_fixture_on_every_paper, on_every_paper};
use glandrail::arrangement::Arrangement;
use glandrail::sheets::drawing::{Area, Geometry, Sheet};
use glandrail::sheets::{Paper, ViewName, drawings, svg, view_svg};

/// Texts that touch each other, and texts that leave the sheet's border.
fn faults(sheet: &Sheet) -> Vec<String> {
    let border = Area::new(20.0, 10.0, sheet.width_mm - 10.0, sheet.height_mm - 10.0);
    // What says that nothing holds stands in the margin, clear of the centring mark.
    let margin = Area::new(0.0, 0.0, 15.0, sheet.height_mm);
    let texts: Vec<(&str, Area)> = sheet
        .texts()
        .map(|(label, area)| (label.content.as_str(), area))
        .collect();
    let mut faults = Vec::new();
    for (index, (words, area)) in texts.iter().enumerate() {
        let room = if *words == MARK { &margin } else { &border };
        if !room.contains(area) {
            faults.push(format!(
                "{}: `{words}` leaves the border at {area:?}",
                sheet.name
            ));
        }
        // Boxes that share an edge up to rounding do not touch.
        let core = area.grown(-0.01);
        for (other, place) in &texts[index + 1..] {
            if core.meets(place) {
                faults.push(format!(
                    "{}: `{words}` touches `{other}` at {area:?}",
                    sheet.name
                ));
            }
        }
    }
    faults
}

#[test]
fn no_text_touches_another_or_leaves_the_border() {
    let mut found = Vec::new();
    for (name, arrangement) in every_fixture() {
        for (paper, sheet) in on_every_paper(&arrangement) {
            found.extend(
                faults(&sheet)
                    .into_iter()
                    .map(|fault| format!("{name}, {paper:?}, {fault}")),
            );
        }
    }
    assert!(
        found.is_empty(),
        "{} faults:\n{}",
        found.len(),
        found.join("\n")
    );
}

/// The value of an attribute in a line of SVG.
fn attribute<'a>(line: &'a str, name: &str) -> Option<&'a str> {
    let begin = line.find(&format!(" {name}=\""))? + name.len() + 3;
    line[begin..].split('"').next()
}

fn number(line: &str, name: &str) -> Option<f64> {
    attribute(line, name)?.parse().ok()
}

/// Circles of holes in a file: view, what they stand for, place on the face and diameter, all read
/// back through the scale and datum that the file states.
pub fn holes(file: &str) -> Vec<(String, String, [f64; 3])> {
    let mut found = Vec::new();
    let mut view: Option<(String, [f64; 3], u32)> = None;
    let mut is_hole = false;
    for line in file.lines() {
        if line.starts_with("<g id=") {
            let frame =
                ["data-datum-x", "data-datum-y", "data-scale"].map(|name| number(line, name));
            view = match frame {
                [Some(x), Some(y), Some(scale)] => Some((
                    attribute(line, "id").expect("a view has an id").to_string(),
                    [x, y, scale],
                    number(line, "data-turn").unwrap_or(0.0) as u32,
                )),
                _ => None,
            };
        } else if line.starts_with("<g class=") {
            is_hole = attribute(line, "class") == Some("holes");
        } else if is_hole && line.starts_with("<circle") {
            let (name, [x0, y0, scale], turn) = view.clone().expect("holes lie in views");
            let [x, y, r] =
                ["cx", "cy", "r"].map(|name| number(line, name).expect("a circle is complete"));
            let subject = attribute(line, "data-of").expect("a hole says whose it is");
            let (right, up) = ((x - x0) / scale, (y0 - y) / scale);
            let (u, v) = match turn {
                90 => (up, -right),
                180 => (-right, -up),
                270 => (-up, right),
                _ => (right, up),
            };
            found.push((name, subject.to_string(), [u, v, 2.0 * r / scale]));
        }
    }
    found
}

/// Keeps one of neighbours that are the same hole at the same place up to rounding.
pub fn dedup_same(holes: &mut Vec<(String, String, [f64; 3])>) {
    holes.dedup_by(|a, b| {
        let is_same_hole = (&a.0, &a.1) == (&b.0, &b.1);
        is_same_hole && a.2.iter().zip(&b.2).all(|(a, b)| (a - b).abs() < 0.01)
    });
}

#[test]
fn holes_in_the_file_lie_where_the_arrangement_has_them() {
    for (name, arrangement, paper) in every_fixture_on_every_paper() {
        let mut found: Vec<_> = drawings(&arrangement, paper)
            .iter()
            .flat_map(|sheet| holes(&svg(sheet)))
            .collect();
        let mut expected: Vec<(String, String, [f64; 3])> = arrangement
            .entries
            .iter()
            .map(|e| {
                (
                    e.wall.name().to_string(),
                    e.id.clone(),
                    [e.u_mm, e.v_mm, e.hole_mm],
                )
            })
            .chain(arrangement.elements.iter().map(|element| {
                let place = [element.x_mm, element.y_mm, element.hole_mm[0]];
                ("lid".to_string(), element.tag.clone(), place)
            }))
            .collect();
        let key = |hole: &(String, String, [f64; 3])| (hole.0.clone(), hole.1.clone());
        found.sort_by_key(key);
        expected.sort_by_key(key);
        // A wall may also be drawn round the front, at the same places.
        dedup_same(&mut found);
        assert_eq!(found.len(), expected.len(), "{name}");
        for (found, expected) in found.iter().zip(&expected) {
            assert_eq!(key(found), key(expected), "{name}");
            for (a, b) in found.2.iter().zip(&expected.2) {
                assert!(
                    (a - b).abs() < 0.01,
                    "{name}, {}: {a} instead of {b}",
                    found.1
                );
            }
        }
    }
}

#[test]
fn a_view_is_to_scale_on_paper() {
    let arrangement = fixture::small();
    let file = view_svg(&arrangement, ViewName::Lid);
    let root = file
        .lines()
        .find(|line| line.starts_with("<svg "))
        .expect("a root");
    // A user unit is a millimetre of paper.
    let width = attribute(root, "width")
        .and_then(|width| width.strip_suffix("mm"))
        .expect("in mm");
    let height = attribute(root, "height")
        .and_then(|height| height.strip_suffix("mm"))
        .expect("in mm");
    assert_eq!(
        attribute(root, "viewBox"),
        Some(format!("0 0 {width} {height}").as_str())
    );
    let view = file
        .lines()
        .find(|line| line.contains("data-scale"))
        .expect("a view");
    let scale = number(view, "data-scale").expect("a scale");
    assert!([1.0, 0.5, 0.4, 0.2, 0.1].contains(&scale));
    let outer = file
        .lines()
        .find(|line| line.starts_with("<rect x=") && !line.contains("data-of"))
        .expect("the outer outline is drawn first");
    let size = ["width", "height"].map(|name| number(outer, name).expect("a size") / scale);
    assert!(
        (size[0] - 308.0).abs() < 0.01 && (size[1] - 208.0).abs() < 0.01,
        "{size:?}"
    );
}

#[test]
fn every_terminal_entry_and_element_is_drawn_and_every_sheet_carries_the_cautions() {
    for (name, arrangement, paper) in every_fixture_on_every_paper() {
        let sheets = drawings(&arrangement, paper);
        let names: Vec<&str> = sheets.iter().map(|sheet| sheet.name.as_str()).collect();
        for wanted in ["inside", "lid", "walls"] {
            assert!(names.contains(&wanted), "{name}: {names:?}");
        }
        let files: Vec<String> = sheets.iter().map(svg).collect();
        for (sheet, file) in sheets.iter().zip(&files) {
            assert!(
                file.contains(glandrail::arrangement::CAUTION),
                "{name}, {}",
                sheet.name
            );
            assert!(
                file.contains("not for use in any real installation"),
                "{name}, {}",
                sheet.name
            );
            let count = format!(
                "{} of {}",
                names.iter().position(|n| *n == sheet.name).unwrap_or(0) + 1,
                names.len()
            );
            assert!(
                file.contains(&format!(">{count}<")),
                "{name}, {}: {count}",
                sheet.name
            );
        }
        let all = files.concat();
        let ids = arrangement
            .terminals
            .iter()
            .map(|terminal| &terminal.id)
            .chain(arrangement.accessories.iter().map(|part| &part.id))
            .chain(arrangement.jumpers.iter().map(|part| &part.id))
            .chain(arrangement.rails.iter().map(|part| &part.id))
            .chain(arrangement.entries.iter().map(|part| &part.id))
            .chain(arrangement.elements.iter().map(|part| &part.tag));
        for id in ids {
            assert!(
                all.contains(&format!("data-of=\"{id}\"")),
                "{name}: {id} is not drawn"
            );
        }
    }
}

/// Long lists stay legible: every terminal's number is written on some sheet, and every core.
#[test]
fn every_number_and_core_is_written() {
    for (name, arrangement, paper) in every_fixture_on_every_paper() {
        let texts: Vec<String> = drawings(&arrangement, paper)
            .iter()
            .flat_map(|sheet| {
                sheet
                    .texts()
                    .map(|(label, _)| label.content.clone())
                    .collect::<Vec<_>>()
            })
            .collect();
        for terminal in &arrangement.terminals {
            assert!(
                texts.contains(&terminal.number.to_string()),
                "{name}: {}",
                terminal.id
            );
        }
        for wire in &arrangement.wires {
            let glandrail::arrangement::WireEnd::Core { cable, core } = &wire.from else {
                continue;
            };
            assert!(
                texts.contains(&format!("{cable}/{core}")),
                "{name}: {cable}/{core}"
            );
        }
        for entry in &arrangement.entries {
            assert!(texts.contains(&entry.id), "{name}: {}", entry.id);
        }
        // Each element is named in the view of the lid, in its table, and behind it in the inside view.
        for element in &arrangement.elements {
            let count = texts.iter().filter(|text| **text == element.tag).count();
            assert!(count >= 3, "{name}: {} {count}", element.tag);
            for word in element.label.split_whitespace() {
                // A word wider than its column is broken: its beginning must be there all the same.
                let begin: String = word.chars().take(8).collect();
                assert!(
                    texts.iter().any(|text| text.contains(&begin)),
                    "{name}: {word}"
                );
            }
        }
    }
}

#[test]
fn text_is_never_smaller_than_the_smallest_standard_height() {
    for (name, arrangement, paper) in every_fixture_on_every_paper() {
        for sheet in drawings(&arrangement, paper) {
            for (label, _) in sheet.texts() {
                assert!(
                    [1.8, 2.5, 3.5, 5.0, 7.0].contains(&label.style.height_mm),
                    "{name}: `{}`",
                    label.content
                );
            }
        }
    }
}

#[test]
fn the_same_arrangement_gives_the_same_bytes() {
    let (first, second) = (fixture::large(), fixture::large());
    let files = |arrangement: &Arrangement| {
        drawings(arrangement, Paper::A3)
            .iter()
            .map(svg)
            .collect::<String>()
    };
    assert_eq!(files(&first), files(&second));
}

#[test]
fn a_small_view_looks_as_it_did() {
    insta::assert_snapshot!(view_svg(&fixture::bare(), ViewName::Bottom));
}

/// Writes all drawings of the fixtures to the folder in `SHEETS_OUT`, to be looked at.
#[test]
#[ignore = "writes files to look at"]
fn write_to_look_at() {
    let folder =
        std::path::PathBuf::from(std::env::var("SHEETS_OUT").expect("SHEETS_OUT names a folder"));
    let fixtures = every_fixture()
        .into_iter()
        .map(|(name, arrangement)| (name.to_string(), arrangement));
    for (name, arrangement) in fixtures.chain(every_example()) {
        let text = glandrail::sheets::summary(&arrangement);
        std::fs::write(folder.join(format!("{name}.txt")), text).expect("written");
        for (paper, sheet) in on_every_paper(&arrangement) {
            std::fs::write(
                folder.join(format!("{paper:?}-{name}-{}.svg", sheet.name)),
                svg(&sheet),
            )
            .expect("written");
        }
        for view in ViewName::ALL {
            let file = folder.join(format!("{name}-view-{}.svg", view.name()));
            std::fs::write(file, view_svg(&arrangement, view)).expect("written");
        }
    }
}

#[test]
fn the_sheets_of_every_example_are_free_of_touching_text() {
    let examples = every_example();
    assert!(
        examples.len() >= 7,
        "only {} examples were made",
        examples.len()
    );
    for (name, arrangement) in examples {
        for (paper, sheet) in on_every_paper(&arrangement) {
            let found = faults(&sheet);
            assert!(found.is_empty(), "{name}, {paper:?}: {}", found.join("\n"));
        }
    }
}

#[test]
fn sheets_have_the_size_of_their_paper_and_nothing_leaves_the_border() {
    for (name, arrangement, paper) in every_fixture_on_every_paper() {
        let (width_mm, height_mm) = paper.size_mm();
        for sheet in drawings(&arrangement, paper) {
            assert_eq!((sheet.width_mm, sheet.height_mm), (width_mm, height_mm));
            let border = paper.inner().grown(0.01);
            for group in sheet.groups.iter().filter(|group| group.name != "frame") {
                let drawn = glandrail::sheets::drawing::bounds(&group.shapes).expect("drawn");
                assert!(
                    border.contains(&drawn),
                    "{name}, {}: {} leaves the border at {drawn:?}",
                    sheet.name,
                    group.name
                );
            }
        }
    }
}

/// Views, tables and title block keep apart: what surrounds one does not reach into another.
#[test]
fn views_and_tables_do_not_lie_over_each_other() {
    let fixtures = every_fixture()
        .into_iter()
        .map(|(name, arrangement)| (name.to_string(), arrangement));
    for (name, arrangement) in fixtures.chain(every_example()) {
        for (paper, sheet) in on_every_paper(&arrangement) {
            let inner = paper.inner();
            let block = Area::new(
                inner.right_mm - 180.0,
                inner.bottom_mm,
                inner.right_mm,
                inner.bottom_mm + 63.0,
            );
            let mut taken = vec![("title block".to_string(), block)];
            for group in sheet.groups.iter().filter(|group| group.name != "frame") {
                let drawn = glandrail::sheets::drawing::bounds(&group.shapes).expect("drawn");
                taken.push((group.name.clone(), drawn.grown(-0.3)));
            }
            for (index, (one, area)) in taken.iter().enumerate() {
                for (other, place) in &taken[index + 1..] {
                    assert!(
                        !area.meets(place),
                        "{name}, {paper:?}, {}: {one} {area:?} lies over {other} {place:?}",
                        sheet.name
                    );
                }
            }
        }
    }
}

/// Texts through which the line of a hole or of an entry's envelope passes, save where a white ground
/// under the text breaks the line.
fn crossed(sheet: &Sheet) -> Vec<String> {
    let mut faults = Vec::new();
    let is_wall = |name: &str| ["bottom", "right", "top", "left"].contains(&name);
    for group in sheet.groups.iter().filter(|group| is_wall(&group.name)) {
        for (index, shape) in group.shapes.iter().enumerate() {
            let Geometry::Text(label) = &shape.geometry else {
                continue;
            };
            let area = label.area().grown(-0.05);
            let has_ground = index > 0
                && matches!(&group.shapes[index - 1].geometry, Geometry::Rectangle(ground)
                    if ground.contains(&label.area()));
            if has_ground {
                continue;
            }
            for other in &group.shapes {
                if let Geometry::Circle { centre, radius_mm } = other.geometry
                    && area.meets_circle_line(centre, radius_mm)
                {
                    faults.push(format!(
                        "{}: a circle crosses `{}` at {area:?}",
                        sheet.name, label.content
                    ));
                }
            }
        }
    }
    faults
}

#[test]
fn no_hole_crosses_a_text_on_the_walls() {
    let fixtures = every_fixture()
        .into_iter()
        .map(|(name, arrangement)| (name.to_string(), arrangement));
    let mut holes_seen = 0;
    for (name, arrangement) in fixtures.chain(every_example()) {
        holes_seen += arrangement.entries.len();
        for (paper, sheet) in on_every_paper(&arrangement) {
            let found = crossed(&sheet);
            assert!(found.is_empty(), "{name}, {paper:?}: {}", found.join("\n"));
        }
    }
    assert!(holes_seen > 50, "{holes_seen} holes");
}
