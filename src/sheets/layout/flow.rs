//! Tables on a sheet: stacked where they fit, else in columns over as many sheets as they need.

use super::{Page, frame};
use crate::sheets::drawing::{Area, Group, LaidTable, Spot, Table};

/// Between tables.
const GAP_MM: f64 = 5.0;

/// Whether tables, one under the other, fit an area.
pub(super) fn fits(tables: &[LaidTable], area: Area) -> bool {
    let gaps = tables.len().saturating_sub(1) as f64 * GAP_MM;
    let tall: f64 = tables.iter().map(|table| table.height_mm(0)).sum::<f64>() + gaps;
    tall <= area.height_mm() && tables.iter().all(|table| table.width_mm() <= area.width_mm() + 1e-6)
}

/// Draws tables one under the other from the top of an area.
pub(super) fn stack(tables: &[Table], laid: &[LaidTable], area: Area) -> Vec<Group> {
    let mut top_mm = area.top_mm;
    let mut groups = Vec::new();
    for (table, laid) in tables.iter().zip(laid) {
        let (shapes, tall) = laid.draw(Spot::new(area.left_mm, top_mm), 0, laid.row_count());
        groups.push(Group { name: table.name.clone(), title: table.title.clone(), view: None, shapes });
        top_mm -= tall + GAP_MM;
    }
    groups
}

/// Pages of tables, the first with the given number: in two columns where all are narrow enough.
pub(super) fn pages(name: &str, title: &str, tables: &[Table], number: usize) -> Vec<Page> {
    let (inner, block) = (frame::inner(), frame::block());
    let whole = Area::new(inner.left_mm + 4.0, inner.bottom_mm + 4.0, inner.right_mm - 4.0, inner.top_mm - 4.0);
    let half_mm = (whole.width_mm() - GAP_MM) / 2.0;
    let narrow = tables.iter().all(|table| table.natural_width_mm() <= half_mm);
    let columns = if narrow {
        // The right column ends above the title block, the left one runs down beside it.
        let split_mm = block.left_mm.min(whole.left_mm + half_mm + GAP_MM) - GAP_MM;
        vec![
            Area::new(whole.left_mm, whole.bottom_mm, split_mm, whole.top_mm),
            Area::new(whole.right_mm - half_mm, block.top_mm + 3.0, whole.right_mm, whole.top_mm),
        ]
    } else {
        vec![Area::new(whole.left_mm, block.top_mm + 3.0, whole.right_mm, whole.top_mm)]
    };
    let width_mm = columns.iter().map(Area::width_mm).fold(f64::MAX, f64::min);
    let new_page = |index: usize| Page {
        name: if number + index == 1 { name.to_string() } else { format!("{name}-{}", number + index) },
        title: format!("{title}, tables"),
        scale: None,
        groups: Vec::new(),
    };
    let mut pages = vec![new_page(0)];
    let mut column = 0;
    let mut top_mm = columns[0].top_mm;
    for table in tables {
        let laid = table.lay_out(width_mm);
        let mut first = 0;
        let mut piece = 1;
        while first < laid.row_count() {
            let area = columns[column];
            let is_fresh = top_mm >= area.top_mm - 1e-9;
            let mut count = laid.rows_within(first, top_mm - area.bottom_mm);
            if count == 0 && is_fresh {
                // A row taller than the sheet cannot be helped: it is drawn rather than lost.
                count = 1;
            }
            if count == 0 {
                column += 1;
                if column == columns.len() {
                    column = 0;
                    pages.push(new_page(pages.len()));
                }
                top_mm = columns[column].top_mm;
                continue;
            }
            let (shapes, tall) = laid.draw(Spot::new(area.left_mm, top_mm), first, count);
            let name =
                if piece == 1 { table.name.clone() } else { format!("{}-{piece}", table.name) };
            let page = pages.last_mut().expect("there is always a page");
            page.groups.push(Group { name, title: table.title.clone(), view: None, shapes });
            first += count;
            piece += 1;
            top_mm -= tall + GAP_MM;
        }
    }
    pages
}
