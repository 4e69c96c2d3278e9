//! Puts views and tables on sheets: chooses scales, fills the space, continues long tables.

mod divide;
mod flow;
mod frame;
mod paper;
mod place;
mod reading;
mod scale;
mod unfold;

use super::drawing::{Group, Sheet, Table};
use super::views::{Stretch, Subject, ViewName, draw};
use super::{failing, tables};
use crate::arrangement::Arrangement;
use crate::space::Face;
use place::Chapter;
use scale::{SCALES, SIZES, Scale};

pub use paper::Paper;
pub(super) use place::{bare, bare_within};

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
    for chapter in [terminals, lid, walls, pictorial] {
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
    (PITCH_MM / widths.fold(f64::MAX, f64::min)).min(1.0)
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
            let sheet = place::bare_subject(arrangement, subject, &view.name, size);
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
         say. Colours are those of the actuators."
    };
    place::pages(
        arrangement,
        paper,
        &Chapter {
            name: "lid",
            title: "Lid, drilling",
            subjects: vec![Subject::Named(ViewName::Lid)],
            tables: &|_| filled(vec![tables::lid_holes(arrangement)]),
            readable: place::READABLE,
            with_tables: place::READABLE,
            remarks: vec![remark.to_string()],
            scales: &SCALES,
        },
    )
}

/// What a drilling shop asks of every hole in a wall: catalogues give the holes of entries so.
const CLEARANCE_HOLES: &str = "All holes are clearance holes, not tapped.";

/// The walls with their holes: all four round the front where there is room for them, else those that
/// are drilled round the front, else those in rows. Where none is drilled, all are drawn.
fn walls(arrangement: &Arrangement, paper: Paper) -> Vec<Page> {
    let is_drilled = |name: &ViewName| {
        arrangement
            .entries
            .iter()
            .any(|entry| Some(entry.wall) == name.face())
    };
    let (mut drilled, mut plain): (Vec<ViewName>, Vec<ViewName>) =
        ViewName::WALLS.into_iter().partition(is_drilled);
    if drilled.is_empty() {
        std::mem::swap(&mut drilled, &mut plain);
    }
    let tables = |subjects: &[Subject]| {
        let faces: Vec<Face> = subjects
            .iter()
            .filter_map(|subject| match subject {
                Subject::Named(name) => name.face(),
                _ => None,
            })
            .collect();
        filled(vec![tables::holes(arrangement, &faces)])
    };
    let names: Vec<&str> = plain.iter().map(|name| name.name()).collect();
    let remark =
        (!names.is_empty()).then(|| format!("Nothing is drilled in: {}.", names.join(", ")));
    let faces: Vec<Face> = drilled.iter().filter_map(|name| name.face()).collect();
    let all_tables = filled(vec![tables::holes(arrangement, &faces)]);
    let is_any = !arrangement.entries.is_empty();
    let remarks: Vec<String> = is_any
        .then(|| CLEARANCE_HOLES.to_string())
        .into_iter()
        .chain(remark)
        .collect();
    let round_front = |tables: &[Table], remarks: &[String]| {
        [ViewName::WALLS.to_vec(), drilled.clone()]
            .into_iter()
            .find_map(|walls| unfold::pages(arrangement, paper, &walls, tables, remarks))
    };
    let rows = place::pages(
        arrangement,
        paper,
        &Chapter {
            name: "walls",
            title: "Walls, drilling",
            subjects: drilled.iter().copied().map(Subject::Named).collect(),
            tables: &tables,
            readable: place::READABLE,
            with_tables: place::READABLE,
            remarks: remarks.clone(),
            scales: &SCALES,
        },
    );
    let unfolded = round_front(&all_tables, &remarks);
    let Some(unfolded) = unfolded else {
        return rows;
    };
    // In rows walls may be drawn larger, down to the template at 1:1; where each lies is then told by
    // a sheet of its own.
    let least = |pages: &[Page]| {
        let ratios = pages.iter().filter_map(|page| page.scale);
        ratios.map(|scale| scale.ratio).fold(f64::MAX, f64::min)
    };
    if least(&rows) <= least(&unfolded) + 1e-9 && unfolded.len() <= rows.len() {
        return unfolded;
    }
    let told =
        ["Where the walls lie round the front. Drill by the sheet of the walls.".to_string()];
    let mut pages = rows;
    let round = round_front(&[], &told).unwrap_or_default();
    pages.extend(round.into_iter().map(|page| Page {
        name: "walls-round-front".into(),
        title: "Walls round the front".into(),
        ..page
    }));
    pages
}

/// Tables that have rows.
fn filled(mut tables: Vec<Table>) -> Vec<Table> {
    tables.retain(|table| !table.rows.is_empty());
    tables
}
