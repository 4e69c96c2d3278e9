//! Tables poured into columns: of what a sheet with views has left, or of further sheets.

use super::{Page, Paper};
use crate::letters::small;
use crate::sheets::drawing::{Area, Group, Spot, Table};

/// Between tables and between columns.
const GAP_MM: f64 = 5.0;
/// A table is not begun at the foot of a column, nor ended at the head of one, with fewer rows than this.
const FEWEST_ROWS: usize = 3;
/// A table with no more rows than this is read at a glance: it rather goes whole to the next column than in
/// two pieces.
const GLANCE_ROWS: usize = 12;

/// What to do with rows that find no room.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Need {
    /// Give up, also where a short table would have to be broken.
    Whole,
    /// Give up where the columns end.
    Room,
    /// Draw a row that is taller than a whole column over its edge rather than lose it.
    All,
}

/// Pours tables into columns, the next of which `column` gives by index; returns each piece with the
/// index of its column. `None` where the columns end before the rows do, or where a row is taller than
/// a whole column, unless all are needed: then it is drawn over the edge rather than lost. A short table is
/// broken only where it has room in no column, or where there is need of room.
fn pour(
    tables: &[Table],
    width_mm: f64,
    need: Need,
    column: impl Fn(usize) -> Option<Area>,
) -> Option<Vec<(usize, Group)>> {
    let mut pieces = Vec::new();
    let mut index = 0;
    let mut area = column(0)?;
    let mut top_mm = area.top_mm;
    for table in tables {
        let laid = table.lay_out(width_mm);
        let (mut first, mut piece) = (0, 1);
        while first < laid.row_count() {
            let is_fresh = top_mm >= area.top_mm - 1e-9;
            let mut count = laid.rows_within(first, top_mm - area.bottom_mm);
            if is_fresh && count == 0 && need == Need::All {
                count = 1;
            }
            // Nor does it end in a column with fewer: some go over with the last ones.
            let over = laid.row_count() - first - count;
            if (1..FEWEST_ROWS).contains(&over) && count > 2 * FEWEST_ROWS {
                count -= FEWEST_ROWS - over;
            }
            let is_scrap = !is_fresh && count < FEWEST_ROWS.min(laid.row_count() - first);
            if count == 0 && is_fresh {
                return None;
            }
            let is_torn = need != Need::Room
                && !is_fresh
                && first == 0
                && count < laid.row_count()
                && laid.row_count() <= GLANCE_ROWS
                && column(index + 1).is_some_and(|next| laid.height_mm(0) <= next.height_mm());
            if count == 0 || is_scrap || is_torn {
                index += 1;
                area = column(index)?;
                top_mm = area.top_mm;
                continue;
            }
            let (shapes, tall) = laid.draw(Spot::new(area.left_mm, top_mm), first, count);
            let name = if piece == 1 {
                table.name.clone()
            } else {
                format!("{}-{piece}", table.name)
            };
            pieces.push((
                index,
                Group {
                    name,
                    title: table.title.clone(),
                    view: None,
                    shapes,
                },
            ));
            first += count;
            piece += 1;
            top_mm -= tall + GAP_MM;
        }
    }
    Some(pieces)
}

/// Splits an area into as many columns as the widest table leaves room for.
fn columns(tables: &[Table], area: Area) -> Vec<Area> {
    let natural_mm = tables
        .iter()
        .map(Table::column_width_mm)
        .fold(0.0, f64::max);
    let width_mm = natural_mm.min(area.width_mm()).max(1.0);
    let count = ((area.width_mm() + GAP_MM) / (width_mm + GAP_MM) + 1e-9)
        .floor()
        .max(1.0) as usize;
    (0..count)
        .map(|index| {
            let left_mm = area.left_mm + index as f64 * (width_mm + GAP_MM);
            Area::new(left_mm, area.bottom_mm, left_mm + width_mm, area.top_mm)
        })
        .collect()
}

/// Draws all tables in an area; `None` if they do not fit.
pub(super) fn fill(tables: &[Table], area: Area) -> Option<Vec<Group>> {
    if tables.is_empty() {
        return Some(Vec::new());
    }
    if area.height_mm() <= 0.0 || area.width_mm() <= 0.0 {
        return None;
    }
    let columns = columns(tables, area);
    let width_mm = columns.first()?.width_mm();
    let place = |need: Need| pour(tables, width_mm, need, |index| columns.get(index).copied());
    let pieces = place(Need::Whole).or_else(|| place(Need::Room))?;
    Some(pieces.into_iter().map(|(_, group)| group).collect())
}

/// What tables show, as one reads it in a title: their own titles up to the first bracket or comma.
pub(super) fn names(tables: &[Table]) -> String {
    let short = tables.iter().map(|table| {
        let words = table.title.split(['(', ',']).next().unwrap_or_default();
        small(words.trim())
    });
    let short: Vec<String> = short.collect();
    short.join(", ")
}

/// Pages of tables alone, the first with the given number.
pub(super) fn pages(
    paper: Paper,
    name: &str,
    title: &str,
    tables: &[Table],
    number: usize,
) -> Vec<Page> {
    if tables.iter().all(|table| table.rows.is_empty()) {
        return Vec::new();
    }
    let (inner, block) = (paper.inner(), paper.block());
    let whole = Area::new(
        inner.left_mm + 4.0,
        inner.bottom_mm + 4.0,
        inner.right_mm - 4.0,
        inner.top_mm - 4.0,
    );
    let columns: Vec<Area> = columns(tables, whole)
        .into_iter()
        .map(|column| {
            // Columns beside the title block run down to the border, the others end above it.
            let is_beside = column.right_mm < block.left_mm - 2.0;
            let bottom_mm = if is_beside {
                whole.bottom_mm
            } else {
                block.top_mm + 3.0
            };
            Area {
                bottom_mm,
                ..column
            }
        })
        .collect();
    written(
        name,
        &format!("{title}: {}", names(tables)),
        tables,
        number,
        columns.len(),
        |index| columns[index % columns.len()],
    )
}

/// Pages of tables alone in columns of equal width: `column` gives the area of each by its index over
/// all pages, of which each takes `per_page`. The first page has the given number.
pub(super) fn written(
    name: &str,
    title: &str,
    tables: &[Table],
    number: usize,
    per_page: usize,
    column: impl Fn(usize) -> Area,
) -> Vec<Page> {
    let width_mm = column(0).width_mm();
    let pieces = pour(tables, width_mm, Need::All, |index| Some(column(index))).unwrap_or_default();
    let mut pages: Vec<Page> = Vec::new();
    for (index, group) in pieces {
        while pages.len() <= index / per_page {
            let count = number + pages.len();
            let name = if count == 1 {
                name.to_string()
            } else {
                format!("{name}-{count}")
            };
            pages.push(Page {
                name,
                title: title.to_string(),
                scale: None,
                groups: Vec::new(),
            });
        }
        if let Some(page) = pages.last_mut() {
            page.groups.push(group);
        }
    }
    pages
}
