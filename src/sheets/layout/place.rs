//! Views on a sheet: the largest standard scale at which they fit, beside or above their tables.

use super::scale::{SCALES, Scale};
use super::{Page, Paper, flow, frame};
use crate::arrangement::Arrangement;
use crate::sheets::drawing::{
    Align, Area, Geometry, Group, Label, Layer, Shape, Spot, Table, TextStyle, ViewFrame,
    advance_mm,
};
use crate::sheets::views::{self, Subject, View, ViewName};
use std::cmp::Reverse;

/// Between views, and between a view and what surrounds it.
const GAP_MM: f64 = 7.0;
/// Height kept over a view for its title.
pub(super) const TITLE_MM: f64 = 8.0;
/// A column of tables narrower than this is not begun.
pub(super) const COLUMN_MM: f64 = 60.0;
/// The smallest ratio at which holes and elements are easily read.
pub(super) const READABLE: f64 = 0.4;

/// What goes on the sheets of one name.
pub(super) struct Chapter<'a> {
    /// Name of the first sheet.
    pub name: &'a str,
    /// Title of the sheets.
    pub title: &'a str,
    /// Views, in order.
    pub subjects: Vec<Subject>,
    /// The tables that go with some of the views.
    pub tables: &'a dyn Fn(&[Subject]) -> Vec<Table>,
    /// The smallest ratio that is easily read: views are spread over more sheets before they are drawn
    /// smaller, and tables stay beside views at this scale rather than move to a sheet of their own.
    pub readable: f64,
    /// The smallest ratio to which views shrink so that their tables find room on the same sheet.
    pub with_tables: f64,
    /// Remarks on each sheet with views.
    pub remarks: Vec<String>,
    /// The scales that the views may have, largest first.
    pub scales: &'static [Scale],
}

/// The pages of a chapter.
pub(super) fn pages(arrangement: &Arrangement, paper: Paper, chapter: &Chapter<'_>) -> Vec<Page> {
    let count = chapter.subjects.len();
    let mut best: Option<Vec<Composed>> = None;
    for size in [count, count.div_ceil(2), 1] {
        let parts: Option<Vec<Composed>> = chapter
            .subjects
            .chunks(size.max(1))
            .map(|part| compose(arrangement, paper, part, chapter))
            .collect();
        let Some(parts) = parts else { continue };
        let is_best = best
            .as_ref()
            .is_none_or(|found| worth_of(&parts, chapter) > worth_of(found, chapter));
        let (is_readable, ..) = worth_of(&parts, chapter);
        let is_complete = parts.iter().all(|part| part.left_over.is_empty());
        if is_best {
            best = Some(parts);
        }
        if is_readable && is_complete {
            break;
        }
    }
    let mut pages = Vec::new();
    for composed in best.unwrap_or_default() {
        let number = pages.len() + 1;
        let name = if number == 1 {
            chapter.name.to_string()
        } else {
            format!("{}-{number}", chapter.name)
        };
        let Composed {
            placed,
            tables,
            left_over,
            ..
        } = composed;
        let mut groups: Vec<Group> = Vec::new();
        let mut remarks = chapter.remarks.clone();
        if !left_over.is_empty() {
            remarks.push(format!("On the next sheet: {}.", flow::names(&left_over)));
        }
        let scale = placed.scale;
        groups.extend(
            placed
                .views
                .into_iter()
                .map(|(view, datum)| group(view, datum)),
        );
        groups.extend(tables);
        groups.push(Group {
            name: "notes".into(),
            title: String::new(),
            view: None,
            shapes: frame::notes(paper, scale.measures.then_some(scale), &remarks),
        });
        pages.push(Page {
            name,
            title: chapter.title.to_string(),
            scale: Some(scale),
            groups,
        });
        let number = pages.len() + 1;
        pages.extend(flow::pages(
            paper,
            chapter.name,
            chapter.title,
            &left_over,
            number,
        ));
    }
    pages
}

/// What speaks for a way of dividing a chapter over sheets: first that all is easily read, then the fewest
/// sheets if it is, then the scale, in thousandths.
fn worth_of(parts: &[Composed], chapter: &Chapter<'_>) -> (bool, Reverse<usize>, i64) {
    let ratios = parts.iter().map(|part| part.placed.scale.ratio);
    let least = ratios.fold(f64::MAX, f64::min);
    let is_readable = least >= chapter.readable - 1e-9;
    let with_tables = parts.iter().filter(|part| !part.left_over.is_empty());
    let sheets = if is_readable {
        parts.len() + with_tables.count()
    } else {
        0
    };
    (
        is_readable,
        Reverse(sheets),
        (least * 1000.0).round() as i64,
    )
}

/// A sheet's views and tables in their places.
struct Composed {
    placed: Placed,
    tables: Vec<Group>,
    /// Tables that found no room.
    left_over: Vec<Table>,
}

/// Composes one sheet: tables in a column over the title block and views to its left, or views over
/// the whole width and tables under them. `None` if the views do not fit at any scale.
fn compose(
    arrangement: &Arrangement,
    paper: Paper,
    subjects: &[Subject],
    chapter: &Chapter<'_>,
) -> Option<Composed> {
    let tables = (chapter.tables)(subjects);
    let finished = |placed: Placed, region: Area| {
        // As many tables as there is room for, the first of them first; the others go to the next sheet.
        let (filled, count) = (0..=tables.len())
            .rev()
            .find_map(|count| {
                let some = &tables[..count];
                let filled = flow::fill(some, region).or_else(|| side_by_side(some, region))?;
                Some((filled, count))
            })
            .unwrap_or_default();
        Composed {
            placed,
            tables: filled,
            left_over: tables[count..].to_vec(),
        }
    };
    let wide = paper.above_block();
    let left = paper.beside_block();
    let beside = |scale: Scale| {
        let placed = place_at(arrangement, subjects, left?, scale, Spread::Evenly)?;
        let column = Area {
            left_mm: paper.block().left_mm,
            ..wide
        };
        Some(finished(placed, column))
    };
    let above = |scale: Scale, spread: Spread| {
        let placed = place_at(arrangement, subjects, wide, scale, spread)?;
        let lowest = placed
            .views
            .iter()
            .map(|(view, datum)| view.area().bottom_mm + datum.y_mm);
        let top_mm = lowest.fold(wide.top_mm, f64::min) - GAP_MM;
        let under = Area {
            top_mm,
            ..left.unwrap_or(wide)
        };
        let rightmost = placed
            .views
            .iter()
            .map(|(view, datum)| datum.x_mm + view.area().left_mm + width_mm_of(view));
        let right = Area {
            left_mm: rightmost.fold(wide.left_mm, f64::max) + GAP_MM,
            ..wide
        };
        // Upright paper has room for tables beside a narrow view rather than under it.
        let least_mm = tables
            .iter()
            .map(Table::least_width_mm)
            .fold(COLUMN_MM, f64::max);
        let is_under = flow::fill(&tables, under).is_some();
        let has_room = !is_under && right.width_mm() >= least_mm;
        if !is_under
            && !has_room
            && let Some(tables) = on_both(&tables, under, right)
        {
            let left_over = Vec::new();
            return Some(Composed {
                placed,
                tables,
                left_over,
            });
        }
        Some(finished(placed, if has_room { right } else { under }))
    };
    let worth = |composed: &Composed| {
        let ratio = composed.placed.scale.ratio;
        let complete = composed.left_over.is_empty();
        // The first table is the one that the views are read with.
        let has_first = complete || composed.left_over.len() < tables.len();
        let readable = ratio >= chapter.readable - 1e-9;
        (complete && readable, has_first && readable, ratio, complete)
    };
    // The largest scale at which the views fit, then those smaller ones at which they may make room.
    let mut best: Option<Composed> = None;
    for scale in chapter.scales.iter().copied() {
        if best.is_some() && scale.ratio < chapter.with_tables - 1e-9 {
            break;
        }
        let ways = [
            beside(scale),
            above(scale, Spread::Evenly),
            above(scale, Spread::ToTheLeft),
        ];
        for composed in ways.into_iter().flatten() {
            if best
                .as_ref()
                .is_none_or(|found| worth(&composed) > worth(found))
            {
                best = Some(composed);
            }
        }
        if best
            .as_ref()
            .is_some_and(|found| found.left_over.is_empty())
        {
            break;
        }
    }
    best
}

/// The first table, which the views are read with, and the others in a column of their own at its right; `None` where
/// that has no room either.
fn side_by_side(tables: &[Table], region: Area) -> Option<Vec<Group>> {
    let (first, others) = tables.split_first()?;
    let wide_mm = first.natural_width_mm().max(first.least_width_mm());
    let left = Area {
        right_mm: region.left_mm + wide_mm,
        ..region
    };
    let right = Area {
        left_mm: left.right_mm + GAP_MM,
        ..region
    };
    if others.is_empty() || right.width_mm() < COLUMN_MM {
        return None;
    }
    let mut placed = flow::fill(std::slice::from_ref(first), left)?;
    placed.extend(flow::fill(others, right)?);
    Some(placed)
}

/// Tables under the views and, where those have no room for all, the last of them beside the views; `None` where
/// that does not help.
fn on_both(tables: &[Table], under: Area, right: Area) -> Option<Vec<Group>> {
    let beside = Area {
        bottom_mm: under.top_mm + GAP_MM,
        ..right
    };
    if beside.width_mm() < COLUMN_MM {
        return None;
    }
    (1..tables.len()).rev().find_map(|count| {
        let (first, last) = tables.split_at(count);
        let is_wide_enough = last
            .iter()
            .all(|table| table.least_width_mm() <= beside.width_mm());
        if !is_wide_enough {
            return None;
        }
        let mut placed = flow::fill(first, under)?;
        placed.extend(flow::fill(last, beside)?);
        Some(placed)
    })
}

/// How the views of a row share its width.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Spread {
    /// With equal space between them.
    Evenly,
    /// Close to one another at the left, so that tables find room at their right.
    ToTheLeft,
}

/// Views with their places on a sheet.
#[derive(Debug, Clone)]
pub(super) struct Placed {
    scale: Scale,
    /// Each view with the place of its datum.
    pub(super) views: Vec<(View, Spot)>,
}

/// Places views in rows, at the largest scale at which they fit; `None` where none does.
pub(super) fn place(
    arrangement: &Arrangement,
    subjects: &[Subject],
    region: Area,
) -> Option<Placed> {
    SCALES
        .into_iter()
        .find_map(|scale| place_at(arrangement, subjects, region, scale, Spread::Evenly))
}

/// Places views in rows at a scale; `None` where they do not fit.
fn place_at(
    arrangement: &Arrangement,
    subjects: &[Subject],
    region: Area,
    scale: Scale,
    spread: Spread,
) -> Option<Placed> {
    let drawn: Vec<View> = subjects
        .iter()
        .map(|subject| views::draw(arrangement, *subject, scale.ratio))
        .collect();
    rows(drawn, region, spread, is_level(subjects)).map(|views| Placed { scale, views })
}

/// Whether views show the same heights, so that side by side they stand level, as projection has it: the
/// section from the left at the right of the inside.
fn is_level(subjects: &[Subject]) -> bool {
    let of_the_box = |subject: &Subject| {
        matches!(
            subject,
            Subject::Named(ViewName::Inside | ViewName::Section)
        )
    };
    subjects.iter().all(of_the_box)
}

/// The width of a view or of its title, whichever is wider.
fn width_mm_of(view: &View) -> f64 {
    view.area().width_mm().max(title_length_mm(view))
}

/// Views from left to right in rows from the top, spread over the region, hung from one line or with their
/// datums on one line; `None` if they do not fit.
fn rows(
    drawn: Vec<View>,
    region: Area,
    spread: Spread,
    is_level: bool,
) -> Option<Vec<(View, Spot)>> {
    let mut rows: Vec<Vec<View>> = vec![Vec::new()];
    let mut width_mm = 0.0;
    for view in drawn {
        let wide = width_mm_of(&view);
        if wide > region.width_mm() {
            return None;
        }
        let row = rows.last_mut().expect("there is always a row");
        let longer = if row.is_empty() {
            wide
        } else {
            width_mm + GAP_MM + wide
        };
        if longer <= region.width_mm() {
            row.push(view);
            width_mm = longer;
        } else {
            rows.push(vec![view]);
            width_mm = wide;
        }
    }
    // How far a view hangs down from the line of its row, and how far the datum lies under that line.
    let drop_mm = |row: &[View], view: &View| {
        let ascents = row.iter().map(|view| view.area().top_mm);
        if is_level {
            ascents.fold(0.0, f64::max)
        } else {
            view.area().top_mm
        }
    };
    let height = |row: &[View]| {
        row.iter()
            .map(|view| drop_mm(row, view) - view.area().bottom_mm)
            .fold(0.0, f64::max)
            + TITLE_MM
    };
    let gaps = (rows.len() - 1) as f64 * GAP_MM;
    let needed: f64 = rows.iter().map(|row| height(row)).sum::<f64>() + gaps;
    if needed > region.height_mm() {
        return None;
    }
    let spare_mm = ((region.height_mm() - needed) / (rows.len() as f64 + 1.0)).min(6.0);
    let mut top_mm = region.top_mm - spare_mm;
    let mut placed = Vec::new();
    for row in rows {
        let tall = height(&row);
        let wide: f64 = row.iter().map(width_mm_of).sum();
        let free = region.width_mm() - wide - (row.len() - 1) as f64 * GAP_MM;
        let apart = match spread {
            Spread::Evenly => (free / (row.len() as f64 + 1.0)).min(25.0),
            Spread::ToTheLeft => 0.0,
        };
        let mut left_mm = region.left_mm + apart;
        let drops: Vec<f64> = row.iter().map(|view| drop_mm(&row, view)).collect();
        for (view, drop_mm) in row.into_iter().zip(drops) {
            let area = view.area();
            // Titles of a row stand on one line: views hang from it, unless they stand level.
            let datum = Spot::new(left_mm - area.left_mm, top_mm - TITLE_MM - drop_mm);
            left_mm += width_mm_of(&view) + GAP_MM + apart;
            placed.push((view, datum));
        }
        top_mm -= tall + GAP_MM + spare_mm;
    }
    Some(placed)
}

/// Letters of a view's title.
const VIEW_TITLE: TextStyle = TextStyle {
    height_mm: 2.5,
    bold: true,
    upwards: false,
    align: Align::Start,
};

/// Length of a view's title.
pub(super) fn title_length_mm(view: &View) -> f64 {
    advance_mm(&view.title, &VIEW_TITLE)
}

/// A view moved to its place, with its title over it.
pub(super) fn group(view: View, datum: Spot) -> Group {
    let area = view.area().moved(datum.x_mm, datum.y_mm);
    let mut shapes: Vec<Shape> = view
        .shapes
        .into_iter()
        .map(|shape| shape.moved(datum.x_mm, datum.y_mm))
        .collect();
    let label = Label {
        at: Spot::new(area.left_mm, area.top_mm + 3.0),
        style: VIEW_TITLE,
        content: view.title.clone(),
    };
    shapes.push(Shape::new(Layer::Text, Geometry::Text(label)));
    Group {
        name: view.name,
        title: view.title,
        view: Some(ViewFrame {
            datum,
            ratio: view.ratio,
            turn: view.turn,
        }),
        shapes,
    }
}
