//! Puts views and tables on sheets: chooses scales, fills the space, continues long tables.

mod bare;
mod divide;
mod flow;
mod frame;
mod paper;
mod place;
mod reading;
mod scale;
mod unfold;
mod walls;

use super::drawing::{Group, Sheet, Table};
use super::views::{self, Stretch, Subject, ViewName, draw};
use super::{behind_lid, failing, notes, tables};
use crate::arrangement::Arrangement;
use crate::space::Face;
use place::Chapter;
use scale::{SCALES, SIZES, Scale};

pub(super) use bare::{bare, bare_within};
pub use paper::Paper;

/// A sheet without its frame: the number of sheets is not known yet.
#[derive(Debug, Clone)]
struct Page {
    name: String,
    title: String,
    scale: Option<Scale>,
    groups: Vec<Group>,
}

/// All sheets of an arrangement.
pub(super) fn drawings(arrangement: &Arrangement, paper: Paper) -> Vec<Sheet> {
    let (mut pages, of_rails) = divide::inside_and_section(arrangement, paper);
    for chapter in [terminals, lid, elements, walls::pages, pictorial] {
        pages.extend(chapter(arrangement, paper));
    }
    pages.extend(reading::fitting(arrangement, paper, of_rails));
    let heat = crate::heat::assess(arrangement);
    let report = crate::audit::audit(arrangement, None);
    pages.extend(reading::heat(arrangement, paper, &heat, &report));
    pages.extend(reading::record(arrangement, paper, &heat, &report));
    let failing = failing::in_short(&report);
    let count = pages.len();
    let (width_mm, height_mm) = paper.size_mm();
    pages
        .into_iter()
        .enumerate()
        .map(|(index, page)| {
            let frame = frame::draw(
                arrangement,
                paper,
                &page,
                (index + 1, count),
                failing.as_deref(),
            );
            let job = &arrangement.job;
            let title = format!("{} {}: {}", job.tag, job.title, page.title);
            let heading = heading_of(&page);
            let mut groups = vec![frame];
            groups.extend(page.groups);
            Sheet {
                name: page.name,
                title,
                heading,
                width_mm,
                height_mm,
                groups,
            }
        })
        .collect()
}

/// What a table of contents says of a sheet: its title, and the rails it shows, which tell sheets of the
/// same title apart.
fn heading_of(page: &Page) -> String {
    let is_rail = |group: &&Group| group.view.is_some() && group.name.starts_with("rail-");
    let rails: Vec<String> = page
        .groups
        .iter()
        .filter(is_rail)
        .map(|group| {
            // Name of the rail, and which part of it: profile and lengths stand over the view.
            let clauses = group.title.split([',', ';']).map(str::trim);
            let kept = clauses
                .enumerate()
                .filter(|(index, clause)| *index == 0 || clause.starts_with("part "));
            let kept: Vec<&str> = kept.map(|(_, clause)| clause).collect();
            kept.join(", ")
        })
        .collect();
    if rails.is_empty() {
        page.title.clone()
    } else {
        format!("{}: {}", page.title, rails.join("; "))
    }
}

/// The pictures.
fn pictorial(arrangement: &Arrangement, paper: Paper) -> Vec<Page> {
    place::pages(
        arrangement,
        paper,
        &Chapter {
            name: "pictorial",
            title: "Pictures",
            subjects: vec![
                Subject::Named(ViewName::Pictorial),
                Subject::Named(ViewName::Open),
            ],
            tables: &|_| Vec::new(),
            readable: 0.1,
            with_tables: 1.0,
            scales: &SIZES,
            remarks: vec![
                "Isometric: for orientation, not for measuring. Actuators are drawn flat.".into(),
            ],
        },
    )
}

/// Paper that a terminal takes along the rail so that its number and conductors are easily read.
const PITCH_MM: f64 = 2.5;

/// A rail is drawn in no more parts than this, however small it then becomes.
const MOST_PARTS: usize = 12;

/// The least scale at which the narrowest terminal has its number and conductors easily read.
fn rail_ratio(arrangement: &Arrangement) -> f64 {
    let widths = arrangement
        .terminals
        .iter()
        .map(|terminal| terminal.body.width_mm());
    let pitch_mm = PITCH_MM.max(views::widest_end_mm(arrangement));
    (pitch_mm / widths.fold(f64::MAX, f64::min)).min(1.0)
}

/// The fewest parts in which a rail is no wider than some paper at a scale that is easily read.
fn rail_parts(arrangement: &Arrangement, room_mm: f64, rail: usize) -> usize {
    let readable = rail_ratio(arrangement);
    let ratio = SCALES
        .into_iter()
        .map(|scale| scale.ratio)
        .rfind(|ratio| *ratio >= readable - 1e-9)
        .unwrap_or(1.0);
    (1..MOST_PARTS)
        .find(|parts| {
            Stretch::all(rail, *parts).all(|stretch| {
                let view = draw(arrangement, Subject::Rail(stretch), ratio);
                view.area().width_mm().max(place::title_length_mm(&view)) <= room_mm
            })
        })
        .unwrap_or(MOST_PARTS)
}

/// Every rail enlarged, without frame, on paper of a width and a height; each with its title. Rails that
/// carry nothing are left out.
pub(super) fn rails_within(
    arrangement: &Arrangement,
    (width_mm, height_mm): (f64, f64),
) -> Vec<(String, Sheet)> {
    let carries = |rail: &usize| {
        let id = &arrangement.rails[*rail].id;
        arrangement.terminals.iter().any(|part| part.rail == *id)
    };
    (0..arrangement.rails.len())
        .rev()
        .filter(carries)
        .flat_map(|rail| Stretch::all(rail, rail_parts(arrangement, width_mm, rail)))
        .map(|stretch| {
            let subject = Subject::Rail(stretch);
            let view = draw(arrangement, subject, 1.0);
            let size = (width_mm, height_mm);
            let sheet = bare::bare_subject(arrangement, subject, &view.name, size);
            (view.title, sheet)
        })
        .collect()
}

/// Every rail enlarged with the conductors on its terminals.
fn terminals(arrangement: &Arrangement, paper: Paper) -> Vec<Page> {
    let room_mm = paper.above_block().width_mm();
    let tables = |subjects: &[Subject]| {
        let ids: Vec<String> = subjects
            .iter()
            .filter_map(|subject| match subject {
                Subject::Rail(stretch) => stretch.only(arrangement),
                _ => None,
            })
            .flat_map(|part| part.terminals.into_iter().map(|terminal| terminal.id))
            .collect();
        filled(vec![tables::terminals(arrangement, &ids)])
    };
    place::pages(
        arrangement,
        paper,
        &Chapter {
            name: "terminals",
            title: "Terminals and conductors",
            subjects: (0..arrangement.rails.len())
                .rev()
                .flat_map(|rail| Stretch::all(rail, rail_parts(arrangement, room_mm, rail)))
                .map(Subject::Rail)
                .collect(),
            tables: &tables,
            readable: rail_ratio(arrangement),
            with_tables: 1.0,
            remarks: vec![
                "At each clamp: cable / core, or element / point, of the conductor.".into(),
            ],
            scales: &SCALES,
        },
    )
}

/// The lid with its holes.
fn lid(arrangement: &Arrangement, paper: Paper) -> Vec<Page> {
    let remark = if arrangement.elements.is_empty() {
        "Nothing is drilled in the lid."
    } else {
        "Holes are drawn round; whether one needs a notch against turning, the instructions of its element \
         say. Colours are those of the actuators. All legends stand in the table and on the sheet of the elements."
    };
    place::pages(
        arrangement,
        paper,
        &Chapter {
            name: "lid",
            title: if arrangement.elements.is_empty() {
                "Lid"
            } else {
                "Lid, drilling"
            },
            subjects: vec![Subject::Named(ViewName::Lid)],
            tables: &|_| {
                filled(vec![
                    tables::lid_holes(arrangement),
                    notes::for_drilling(arrangement, &[Face::Lid]),
                ])
            },
            readable: place::READABLE,
            with_tables: place::READABLE,
            remarks: vec![remark.to_string()],
            scales: &SCALES,
        },
    )
}

/// The smallest scale at which every legend of the elements has room; the largest where none has.
fn legends_ratio(arrangement: &Arrangement) -> f64 {
    let ratios = SCALES.into_iter().map(|scale| scale.ratio);
    ratios
        .take_while(|ratio| views::has_room(arrangement, *ratio))
        .last()
        .unwrap_or(1.0)
}

/// The elements enlarged, with their contacts and the internal wires; nothing where the lid carries none and no wire
/// is laid in the box.
fn elements(arrangement: &Arrangement, paper: Paper) -> Vec<Page> {
    let tables = filled(behind_lid::tables(arrangement));
    if arrangement.elements.is_empty() {
        return flow::pages(paper, "elements", "Inside", &tables, 1);
    }
    let ratio = legends_ratio(arrangement);
    place::pages(
        arrangement,
        paper,
        &Chapter {
            name: "elements",
            title: "Elements and wiring",
            subjects: vec![Subject::Elements],
            tables: &|_| tables.clone(),
            readable: ratio,
            with_tables: ratio,
            remarks: vec![
                "Seen from outside: from behind left and right are exchanged. Actuators are drawn a little wider than their \
                 holes, not to scale; where a legend sits, the instructions of the element say."
                    .into(),
            ],
            scales: &SCALES,
        },
    )
}

/// The elements enlarged, without frame, on paper of a width and a height.
pub(super) fn elements_within(arrangement: &Arrangement, size_mm: (f64, f64)) -> Sheet {
    bare::bare_subject(arrangement, Subject::Elements, "elements", size_mm)
}

/// Tables that have rows.
fn filled(mut tables: Vec<Table>) -> Vec<Table> {
    tables.retain(|table| !table.rows.is_empty());
    tables
}
