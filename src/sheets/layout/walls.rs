//! The sheets of the walls: holes to drill by, what is to be known when drilling, and where each wall lies.

use super::place::{self, Chapter};
use super::scale::SCALES;
use super::unfold::{self, Purpose};
use super::{Page, Paper, filled};
use crate::arrangement::Arrangement;
use crate::sheets::drawing::Table;
use crate::sheets::views::{Subject, ViewName};
use crate::sheets::{notes, tables};
use crate::space::Face;

/// The tables that go with some of the walls.
fn tables_of(arrangement: &Arrangement, faces: &[Face]) -> Vec<Table> {
    filled(vec![
        tables::holes(arrangement, faces),
        notes::for_drilling(arrangement, faces),
    ])
}

/// The walls with their holes: all four round the front where there is room for them at a scale at which holes are
/// easily read, else those that are drilled in rows, and then all four round the front once more, smaller.
pub(super) fn pages(arrangement: &Arrangement, paper: Paper) -> Vec<Page> {
    let (drilled, plain) = drilled_and_plain(arrangement);
    let names: Vec<&str> = plain.iter().map(|name| name.name()).collect();
    let remark =
        (!names.is_empty()).then(|| format!("Nothing is drilled in: {}.", names.join(", ")));
    let remarks: Vec<String> = remark.into_iter().collect();
    let rows = rows(arrangement, paper, &drilled, &remarks);
    let all = tables_of(arrangement, &Face::WALLS);
    let unfolded = unfold::pages(arrangement, paper, Purpose::Drilling, &all, &remarks);
    // In rows walls may be drawn larger, down to the template at 1:1; where each lies is then told by
    // a sheet of its own.
    if let Some(unfolded) = unfolded
        && least_ratio(&rows) <= least_ratio(&unfolded) + 1e-9
        && unfolded.len() <= rows.len()
    {
        return unfolded;
    }
    [rows, round_front(arrangement, paper)].concat()
}

/// The walls that are drilled, all where none is, and the others.
fn drilled_and_plain(arrangement: &Arrangement) -> (Vec<ViewName>, Vec<ViewName>) {
    let is_drilled = |name: &ViewName| {
        let mut entries = arrangement.entries.iter();
        entries.any(|entry| Some(entry.wall) == name.face())
    };
    let (drilled, plain): (Vec<ViewName>, Vec<ViewName>) =
        ViewName::WALLS.into_iter().partition(is_drilled);
    if drilled.is_empty() {
        (plain, drilled)
    } else {
        (drilled, plain)
    }
}

/// The least ratio at which the views of some pages are drawn.
fn least_ratio(pages: &[Page]) -> f64 {
    let scales = pages.iter().filter_map(|page| page.scale);
    scales.map(|scale| scale.ratio).fold(f64::MAX, f64::min)
}

/// Walls in rows, with the tables that go with those of each sheet.
fn rows(
    arrangement: &Arrangement,
    paper: Paper,
    drilled: &[ViewName],
    remarks: &[String],
) -> Vec<Page> {
    let tables = |subjects: &[Subject]| {
        let faces = subjects.iter().filter_map(|subject| match subject {
            Subject::Named(name) => name.face(),
            _ => None,
        });
        tables_of(arrangement, &faces.collect::<Vec<Face>>())
    };
    let chapter = Chapter {
        name: "walls",
        title: "Walls, drilling",
        subjects: drilled.iter().copied().map(Subject::Named).collect(),
        tables: &tables,
        readable: place::READABLE,
        with_tables: place::READABLE,
        remarks: remarks.to_vec(),
        scales: &SCALES,
    };
    place::pages(arrangement, paper, &chapter)
}

/// Where all walls lie.
fn round_front(arrangement: &Arrangement, paper: Paper) -> Vec<Page> {
    let told = "Where all four walls lie round the front. Positions and drilling: see the sheet of the walls.";
    let remarks = [told.to_string()];
    let pages = unfold::pages(arrangement, paper, Purpose::Place, &[], &remarks);
    let named = pages.unwrap_or_default().into_iter().map(|page| Page {
        name: "walls-round-front".into(),
        title: "Walls round the front".into(),
        ..page
    });
    named.collect()
}
