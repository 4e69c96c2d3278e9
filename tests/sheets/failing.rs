//! What does not hold says so, large, on every sheet and every view; what holds says nothing of the kind.

use crate::belonging::entities;
use crate::fixture;
use crate::samples::{every_example, every_fixture, every_fixture_on_every_paper};
use glandrail::sheets::drawing::Geometry;
use glandrail::sheets::{Paper, SetFile, ViewName, drawings, failing, set, set_to_read, view_svg};

pub const MARK: &str = "DOES NOT HOLD – not for making";

#[test]
fn every_sheet_of_what_does_not_hold_has_the_mark_in_its_margin_over_nothing() {
    for (name, arrangement, paper) in every_fixture_on_every_paper() {
        assert!(failing(&arrangement).is_some(), "{name} holds by chance");
        for sheet in drawings(&arrangement, paper) {
            let shapes: Vec<_> = sheet
                .groups
                .iter()
                .flat_map(|group| &group.shapes)
                .collect();
            let marks: Vec<_> = sheet
                .texts()
                .filter(|(label, _)| label.content == MARK)
                .collect();
            let [(label, area)] = marks[..] else {
                panic!("{name}, {}: {} marks", sheet.name, marks.len());
            };
            assert!(label.style.bold && label.style.upwards, "{name}");
            assert_eq!(label.style.height_mm, 7.0, "{name}");
            assert!(area.height_mm() > 100.0 && area.right_mm <= 15.0 && area.left_mm >= 0.0);
            for shape in shapes {
                let is_mark = matches!(&shape.geometry, Geometry::Text(of) if of.content == MARK);
                assert!(is_mark || !shape.area().meets(&area), "{name}: {shape:?}");
            }
        }
    }
}

/// The mark stands once in each view, over all that is drawn. Places are read from the DXF of the view, which has the
/// same shapes.
#[test]
fn every_view_of_what_does_not_hold_has_the_mark_over_the_drawing() {
    for (name, arrangement) in every_fixture() {
        let files = set(&arrangement, Paper::A3).expect("a set");
        for view in ViewName::ALL {
            let file = view_svg(&arrangement, view);
            assert_eq!(file.matches(MARK).count(), 1, "{name}, {}", view.name());
            let (_, written) = named(&files, &format!("view-{}.svg", view.name()));
            assert_eq!(file.as_bytes(), written, "{name}");
            if view.is_picture() {
                continue;
            }
            let (_, dxf) = named(&files, &format!("view-{}.dxf", view.name()));
            let all = entities(std::str::from_utf8(dxf).expect("text"));
            let (marks, rest): (Vec<_>, Vec<_>) =
                all.iter().partition(|entity| entity.text == MARK);
            assert_eq!(marks.len(), 1, "{name}, {}", view.name());
            assert_eq!(marks[0].style, "GLANDRAIL_BOLD");
            let highest = rest
                .iter()
                .map(|entity| entity.top)
                .fold(f64::MIN, f64::max);
            assert!(marks[0].bottom > highest, "{name}, {}", view.name());
        }
    }
}

fn named<'a>(files: &'a [SetFile], name: &str) -> &'a SetFile {
    files
        .iter()
        .find(|(file, _)| file == name)
        .unwrap_or_else(|| panic!("{name} is in the set"))
}

#[test]
fn texts_of_what_does_not_hold_begin_with_it() {
    let files = set_to_read(&fixture::small(), Paper::A4).expect("a set");
    for name in ["summary.txt", "heat.txt", "marking.txt"] {
        let text = String::from_utf8_lossy(&named(&files, name).1);
        assert!(text.starts_with("DOES NOT HOLD"), "{name}: {text}");
        let widest = text.lines().map(|line| line.chars().count()).max();
        assert!(widest <= Some(100), "{name}");
    }
}

#[test]
fn what_holds_has_no_mark() {
    let mut looked_at = 0;
    for (name, arrangement) in every_example() {
        assert_eq!(failing(&arrangement), None, "{name}");
        for (file, content) in set(&arrangement, Paper::A3).expect("a set") {
            let text = String::from_utf8_lossy(&content);
            assert!(!text.contains("DOES NOT HOLD"), "{name}, {file}");
            looked_at += usize::from(file.ends_with(".svg"));
        }
    }
    assert!(looked_at > 100, "{looked_at}");
}
