//! Drawings: text apart and inside, holes where the arrangement has them, views to scale.

use crate::fixture;
use glandrail::arrangement::Arrangement;
use glandrail::sheets::drawing::{Area, Sheet};
use glandrail::sheets::{ViewName, drawings, svg, view_svg};

fn every_fixture() -> Vec<(&'static str, Arrangement)> {
    vec![("small", fixture::small()), ("large", fixture::large()), ("bare", fixture::bare())]
}

/// Texts that touch each other, and texts that leave the sheet's border.
fn faults(sheet: &Sheet) -> Vec<String> {
    let border = Area::new(20.0, 10.0, sheet.width_mm - 10.0, sheet.height_mm - 10.0);
    let texts: Vec<(&str, Area)> =
        sheet.texts().map(|(label, area)| (label.content.as_str(), area)).collect();
    let mut faults = Vec::new();
    for (index, (words, area)) in texts.iter().enumerate() {
        if !border.contains(area) {
            faults.push(format!("{}: `{words}` leaves the border at {area:?}", sheet.name));
        }
        // Boxes that share an edge up to rounding do not touch.
        let core = area.grown(-0.01);
        for (other, place) in &texts[index + 1..] {
            if core.meets(place) {
                faults.push(format!("{}: `{words}` touches `{other}` at {area:?}", sheet.name));
            }
        }
    }
    faults
}

#[test]
fn no_text_touches_another_or_leaves_the_border() {
    let mut found = Vec::new();
    for (name, arrangement) in every_fixture() {
        for sheet in drawings(&arrangement) {
            found.extend(faults(&sheet).into_iter().map(|fault| format!("{name}, {fault}")));
        }
    }
    assert!(found.is_empty(), "{} faults:\n{}", found.len(), found.join("\n"));
}

/// Writes all drawings of the fixtures to the folder in `SHEETS_OUT`, to be looked at.
#[test]
#[ignore = "writes files to look at"]
fn write_to_look_at() {
    let folder = std::path::PathBuf::from(std::env::var("SHEETS_OUT").expect("SHEETS_OUT names a folder"));
    for (name, arrangement) in every_fixture() {
        for sheet in drawings(&arrangement) {
            std::fs::write(folder.join(format!("{name}-{}.svg", sheet.name)), svg(&sheet)).expect("written");
        }
        for view in ViewName::ALL {
            let file = folder.join(format!("{name}-view-{}.svg", view.name()));
            std::fs::write(file, view_svg(&arrangement, view)).expect("written");
        }
    }
}
