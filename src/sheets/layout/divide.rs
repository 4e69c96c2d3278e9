//! The inside and the section: on one sheet where both are easily read there, else on two, with the tables
//! of the inside where there is room for them.

use super::place::{self, Chapter};
use super::scale::SCALES;
use super::{Page, Paper, filled};
use crate::arrangement::Arrangement;
use crate::sheets::drawing::Table;
use crate::sheets::tables;
use crate::sheets::views::{Subject, ViewName};
use std::cmp::Reverse;

/// Which tables go with which of inside and section.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Division {
    /// Both views on one sheet.
    Together,
    /// A sheet each, with its own tables.
    Apart,
    /// A sheet each, all tables with the section.
    TablesWithSection,
    /// A sheet each, those of the rails with the parts.
    TablesWithParts,
}

/// The tables of the inside: rails and strips.
fn of_rails(arrangement: &Arrangement) -> Vec<Table> {
    filled(vec![
        tables::rails(arrangement),
        tables::strips(arrangement),
    ])
}

/// Inside and section: the way of dividing them over sheets that is easily read on the fewest; where none is
/// easily read, the one with the largest drawings. With the tables that find room on neither, which then
/// go with those of the parts rather than on a sheet of their own.
pub(super) fn inside_and_section(
    arrangement: &Arrangement,
    paper: Paper,
) -> (Vec<Page>, Vec<Table>) {
    let bare = |pages: &[Page]| pages.iter().filter(|page| page.scale.is_none()).count();
    let worth = |pages: &[Page]| {
        let ratio_of = |name: &str| {
            let shows = |page: &&Page| page.groups.iter().any(|group| group.name == name);
            let page = pages.iter().find(shows);
            let ratio = page
                .and_then(|page| page.scale)
                .map_or(0.0, |scale| scale.ratio);
            (ratio * 1000.0).round() as i64
        };
        let (inside, section) = (ratio_of("inside"), ratio_of("section"));
        let is_readable = inside.min(section) as f64 >= place::READABLE * 1000.0 - 1e-6;
        let fewest = if is_readable { pages.len() } else { 0 };
        (
            is_readable,
            Reverse(fewest),
            inside,
            section,
            Reverse(pages.len()),
            Reverse(bare(pages)),
        )
    };
    let mut best: Option<Vec<Page>> = None;
    for division in [
        Division::Together,
        Division::Apart,
        Division::TablesWithSection,
    ] {
        let pages = divided(arrangement, paper, division);
        if best
            .as_ref()
            .is_none_or(|found| worth(&pages) > worth(found))
        {
            best = Some(pages);
        }
    }
    let best = best.unwrap_or_default();
    if bare(&best) == 0 {
        return (best, Vec::new());
    }
    let pages = divided(arrangement, paper, Division::TablesWithParts);
    if worth(&pages) > worth(&best) {
        (pages, of_rails(arrangement))
    } else {
        (best, Vec::new())
    }
}

/// Inside and section, divided over sheets in one way.
fn divided(arrangement: &Arrangement, paper: Paper, division: Division) -> Vec<Page> {
    let of_rails = || of_rails(arrangement);
    let of_depths = || vec![tables::depths(arrangement)];
    let mut enlarged = String::new();
    if !arrangement.rails.is_empty() {
        enlarged
            .push_str("Each rail enlarged with its conductors: see the sheets of the terminals.");
    }
    let depths = "Depths from the inside of the back wall.".to_string();
    let chapter = |name, title, subjects: &[ViewName], tables: Vec<Table>, remarks: Vec<String>| {
        let tables = filled(tables);
        place::pages(
            arrangement,
            paper,
            &Chapter {
                name,
                title,
                subjects: subjects.iter().copied().map(Subject::Named).collect(),
                tables: &|_| tables.clone(),
                readable: place::READABLE,
                with_tables: place::READABLE,
                remarks,
                scales: &SCALES,
            },
        )
    };
    let (inside, section) = (ViewName::Inside, ViewName::Section);
    if division == Division::Together {
        let tables = of_rails().into_iter().chain(of_depths()).collect();
        let title = "Inside and section";
        let views = [inside, section];
        let pages = chapter("inside", title, &views, tables, vec![enlarged, depths]);
        // Where there is no room for both, the chapter spreads them: then they are better divided here.
        let shown = pages.first().map_or(0, |page| {
            let views = page.groups.iter().filter(|group| group.view.is_some());
            views.count()
        });
        return if shown == views.len() {
            pages
        } else {
            Vec::new()
        };
    }
    let (of_inside, of_section, title) = match division {
        Division::TablesWithSection => {
            enlarged.push_str(" Rails and strips in tables: see the sheet of the section.");
            let all = of_rails().into_iter().chain(of_depths()).collect();
            (Vec::new(), all, "Section, depth stack, rails and strips")
        }
        Division::TablesWithParts => {
            enlarged.push_str(" Rails and strips in tables: see the sheet of the parts.");
            (Vec::new(), of_depths(), "Section, depth stack")
        }
        _ => (of_rails(), of_depths(), "Section, depth stack"),
    };
    let remarks = vec![enlarged.trim().to_string()];
    let mut pages = chapter("inside", "Inside", &[inside], of_inside, remarks);
    pages.extend(chapter(
        "section",
        title,
        &[section],
        of_section,
        vec![depths],
    ));
    pages
}
