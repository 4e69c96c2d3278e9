//! Puts views and tables on sheets: chooses scales, fills the space, continues long tables.

mod flow;
mod frame;
mod place;
mod scale;

use super::drawing::{Group, Sheet};
use super::tables;
use super::views::ViewName;
use crate::arrangement::Arrangement;
use scale::{A3_MM, Scale};

pub(super) use place::bare;

/// A sheet without its frame: the number of sheets is not known yet.
#[derive(Debug, Clone)]
struct Page {
    name: String,
    title: String,
    scale: Option<Scale>,
    groups: Vec<Group>,
}

/// All sheets of an arrangement.
pub(super) fn drawings(arrangement: &Arrangement) -> Vec<Sheet> {
    let mut pages = Vec::new();
    let mut inside_tables = vec![tables::rails(arrangement), tables::strips(arrangement)];
    inside_tables.retain(|table| !table.rows.is_empty());
    pages.extend(place::pages(arrangement, "inside", "Inside", &[ViewName::Inside], inside_tables));
    let mut lid_tables = vec![tables::lid_holes(arrangement)];
    lid_tables.retain(|table| !table.rows.is_empty());
    pages.extend(place::pages(arrangement, "lid", "Lid, drilling", &[ViewName::Lid], lid_tables));
    let mut wall_tables = vec![tables::holes(arrangement)];
    wall_tables.retain(|table| !table.rows.is_empty());
    pages.extend(place::pages(arrangement, "walls", "Walls, drilling", &ViewName::WALLS, wall_tables));
    let count = pages.len();
    pages
        .into_iter()
        .enumerate()
        .map(|(index, page)| {
            let frame = frame::draw(arrangement, &page, index + 1, count);
            let job = &arrangement.job;
            let title = format!("{} {}: {}", job.tag, job.title, page.title);
            let mut groups = vec![frame];
            groups.extend(page.groups);
            Sheet { name: page.name, title, width_mm: A3_MM.0, height_mm: A3_MM.1, groups }
        })
        .collect()
}
