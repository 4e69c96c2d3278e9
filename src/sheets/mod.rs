//! Drawings, tables and text of an arrangement: what workshop, customer and file receive. Knows
//! nothing of how an arrangement is found or judged.
//!
//! Views turn an [`Arrangement`] into neutral shapes in millimetres of paper ([`drawing`]), layout puts
//! them on sheets with tables, and [`writers`] translate sheets into file formats.

mod behind_lid;
mod belonging;
mod clamping;
mod contents;
mod csv;
mod datum;
mod depth;
pub mod drawing;
mod failing;
mod fitting;
mod heat;
mod html;
mod layout;
mod list;
mod lists;
mod marking;
mod notes;
mod number;
mod parts_list;
mod rail_order;
mod record;
mod schedules;
mod set;
mod subject;
mod summary;
mod tables;
mod views;
mod wiring;
pub mod writers;

pub use contents::{CONTENTS, Contents, contents};
pub(crate) use csv::write as csv_text;
pub use failing::failing;
pub use heat::{heat_estimated, heat_tables};
pub use html::page;
pub use layout::Paper;
pub use list::{List, ListColumn};
pub use lists::{drilling_list, label_list, spare_list};
pub use marking::{marking_page, marking_proposed};
pub use number::{fixed, number};
pub use parts_list::{PartLine, longest_lead_time, part_lines, parts_list};
pub use schedules::all_lists;
pub use set::{SetError, SetFile, set, set_to_read};
pub use summary::{cautions, cautions_with_heat, summary, summary_body};
pub use views::ViewName;
pub use wiring::{cable_schedule, terminal_schedule};

use crate::arrangement::Arrangement;
use drawing::Sheet;
use number::tenth;

/// All drawing sheets of an arrangement: inside, lid and walls, with their tables continued on further
/// sheets where they are long.
pub fn drawings(arrangement: &Arrangement, paper: Paper) -> Vec<Sheet> {
    layout::drawings(arrangement, paper)
}

/// A sheet as a standalone SVG file.
pub fn svg(sheet: &Sheet) -> String {
    writers::svg::write(sheet)
}

/// A single view without sheet frame as a standalone SVG file, at the largest standard scale that fits
/// a page of A4.
pub fn view_svg(arrangement: &Arrangement, view: ViewName) -> String {
    let fails = failing(arrangement).is_some();
    writers::svg::write(&layout::bare(arrangement, view, fails))
}
