//! Views on a sheet: the largest standard scale at which they fit beside or above their tables.

use super::scale::{SCALES, Scale};
use super::{Page, flow, frame};
use crate::arrangement::Arrangement;
use crate::sheets::drawing::{
    Area, Geometry, Group, Label, LaidTable, Layer, Shape, Sheet, Spot, Table, TextStyle, ViewFrame, bounds,
};
use crate::sheets::views::{self, View, ViewName};

/// Between views, and between a view and what surrounds it.
const GAP_MM: f64 = 7.0;
/// Height kept over a view for its title.
const TITLE_MM: f64 = 8.0;
/// Height kept at the foot of the drawing space for the scale bar.
const BAR_MM: f64 = 9.0;
/// The smallest ratio at which all walls stay on one sheet; below it they are spread over more.
const SPREAD_BELOW: f64 = 0.4;

/// A way to use a sheet: where the views go and where the tables.
#[derive(Debug, Clone, Copy)]
struct Plan {
    views: Area,
    tables: Area,
}

/// Tables in a column over the title block, views to the left of it.
fn beside() -> Plan {
    let (inner, block) = (frame::inner(), frame::block());
    Plan {
        views: Area::new(inner.left_mm + 3.0, inner.bottom_mm + 3.0, block.left_mm - 4.0, inner.top_mm - 3.0),
        tables: Area::new(block.left_mm, block.top_mm + 4.0, inner.right_mm - 2.0, inner.top_mm - 3.0),
    }
}

/// Views over the whole width, tables to the left of the title block.
fn above() -> Plan {
    let (inner, block) = (frame::inner(), frame::block());
    Plan {
        views: Area::new(inner.left_mm + 3.0, block.top_mm + 2.0, inner.right_mm - 3.0, inner.top_mm - 3.0),
        tables: Area::new(inner.left_mm + 3.0, inner.bottom_mm + 2.0, block.left_mm - 3.0, block.top_mm),
    }
}

/// The pages for some views and their tables, named after the first.
pub(super) fn pages(
    arrangement: &Arrangement,
    name: &str,
    title: &str,
    wanted: &[ViewName],
    tables: Vec<Table>,
) -> Vec<Page> {
    let beside_tables: Vec<LaidTable> =
        tables.iter().map(|table| table.lay_out(beside().tables.width_mm())).collect();
    let fits_beside = flow::fits(&beside_tables, beside().tables);
    let mut best: Option<(Plan, Vec<Placed>)> = None;
    // Whole on one sheet with the tables beside, then with the tables elsewhere, then spread out.
    let sizes = [wanted.len(), wanted.len().div_ceil(2), 1];
    for size in sizes {
        for plan in [beside(), above()] {
            if size == wanted.len() && plan.tables.left_mm > plan.views.right_mm && !fits_beside {
                continue;
            }
            if size < wanted.len() && plan.tables.left_mm > plan.views.right_mm {
                continue;
            }
            let parts: Option<Vec<Placed>> =
                wanted.chunks(size.max(1)).map(|part| place(arrangement, part, plan.views)).collect();
            let Some(parts) = parts else { continue };
            let least = |parts: &[Placed]| parts.iter().map(|part| part.scale.ratio).fold(f64::MAX, f64::min);
            if best.as_ref().is_none_or(|(_, found)| least(&parts) > least(found) + 1e-9) {
                best = Some((plan, parts));
            }
        }
        if best.as_ref().is_some_and(|(_, parts)| parts.iter().all(|p| p.scale.ratio >= SPREAD_BELOW)) {
            break;
        }
    }
    // No box of any maker needs more paper than 1:20 on A3 (7 m); were one to, it is drawn over the edge.
    let Some((plan, parts)) = best else { return flow::pages(name, title, &tables, 1) };
    let is_beside = plan.tables.left_mm > plan.views.right_mm;
    let mut pages: Vec<Page> = parts
        .into_iter()
        .enumerate()
        .map(|(index, placed)| {
            let name = if index == 0 { name.to_string() } else { format!("{name}-{}", index + 1) };
            page(placed, name, title, plan.views)
        })
        .collect();
    let laid = if is_beside {
        beside_tables
    } else {
        tables.iter().map(|table| table.lay_out(plan.tables.width_mm())).collect()
    };
    let on_sheet = flow::fits(&laid, plan.tables);
    if on_sheet {
        if let Some(first) = pages.first_mut() {
            first.groups.extend(flow::stack(&tables, &laid, plan.tables));
        }
    } else {
        let number = pages.len() + 1;
        pages.extend(flow::pages(name, title, &tables, number));
    }
    pages
}

/// Views with their places on a sheet.
#[derive(Debug, Clone)]
struct Placed {
    scale: Scale,
    /// Each view with the place of its datum.
    views: Vec<(View, Spot)>,
}

/// Places views in rows, at the largest scale at which they fit; `None` where none does.
fn place(arrangement: &Arrangement, wanted: &[ViewName], region: Area) -> Option<Placed> {
    SCALES.into_iter().find_map(|scale| {
        let drawn: Vec<View> =
            wanted.iter().map(|name| views::draw(arrangement, *name, scale.ratio)).collect();
        rows(drawn, region).map(|views| Placed { scale, views })
    })
}

/// Views from left to right in rows from the top, spread over the region; `None` if they do not fit.
fn rows(drawn: Vec<View>, region: Area) -> Option<Vec<(View, Spot)>> {
    let mut rows: Vec<Vec<View>> = vec![Vec::new()];
    let mut width_mm = 0.0;
    for view in drawn {
        let wide = view.area().width_mm();
        if wide > region.width_mm() {
            return None;
        }
        let row = rows.last_mut().expect("there is always a row");
        let longer = if row.is_empty() { wide } else { width_mm + GAP_MM + wide };
        if longer <= region.width_mm() {
            row.push(view);
            width_mm = longer;
        } else {
            rows.push(vec![view]);
            width_mm = wide;
        }
    }
    let height = |row: &[View]| row.iter().map(|view| view.area().height_mm()).fold(0.0, f64::max) + TITLE_MM;
    let gaps = (rows.len() - 1) as f64 * GAP_MM;
    let needed: f64 = rows.iter().map(|row| height(row)).sum::<f64>() + gaps + BAR_MM;
    if needed > region.height_mm() {
        return None;
    }
    let spare_mm = ((region.height_mm() - needed) / (rows.len() as f64 + 1.0)).min(18.0);
    let mut top_mm = region.top_mm - spare_mm;
    let mut placed = Vec::new();
    for row in rows {
        let tall = height(&row);
        let wide: f64 = row.iter().map(|view| view.area().width_mm()).sum();
        let free = region.width_mm() - wide - (row.len() - 1) as f64 * GAP_MM;
        let apart = (free / (row.len() as f64 + 1.0)).min(25.0);
        let mut left_mm = region.left_mm + apart;
        for view in row {
            let area = view.area();
            // Titles of a row stand on one line: views hang from it.
            let datum = Spot::new(left_mm - area.left_mm, top_mm - TITLE_MM - area.top_mm);
            left_mm += area.width_mm() + GAP_MM + apart;
            placed.push((view, datum));
        }
        top_mm -= tall + GAP_MM + spare_mm;
    }
    Some(placed)
}

/// A page with placed views, their titles and the scale bar.
fn page(placed: Placed, name: String, title: &str, region: Area) -> Page {
    let mut groups: Vec<Group> = placed.views.into_iter().map(|(view, datum)| group(view, datum)).collect();
    let at = Spot::new(region.left_mm + 3.0, region.bottom_mm + 1.0);
    groups.push(Group {
        name: "scale-bar".into(),
        title: String::new(),
        view: None,
        shapes: frame::scale_bar(at, placed.scale),
    });
    Page { name, title: title.to_string(), scale: Some(placed.scale), groups }
}

/// A view moved to its place, with its title over it.
fn group(view: View, datum: Spot) -> Group {
    let area = view.area().moved(datum.x_mm, datum.y_mm);
    let mut shapes: Vec<Shape> =
        view.shapes.into_iter().map(|shape| shape.moved(datum.x_mm, datum.y_mm)).collect();
    let label = Label {
        at: Spot::new(area.left_mm, area.top_mm + 3.0),
        style: TextStyle::plain(2.5).bold(),
        content: view.name.words().to_string(),
    };
    shapes.push(Shape::new(Layer::Text, Geometry::Text(label)));
    Group {
        name: view.name.name().into(),
        title: view.name.words().into(),
        view: Some(ViewFrame { datum, ratio: view.ratio }),
        shapes,
    }
}

/// A single view without frame on paper of just its size.
pub(in crate::sheets) fn bare(arrangement: &Arrangement, name: ViewName) -> Sheet {
    const MARGIN_MM: f64 = 4.0;
    let page = Area::new(0.0, 0.0, 277.0, 190.0);
    let placed = place(arrangement, &[name], page);
    let view = match placed.and_then(|placed| placed.views.into_iter().next()) {
        Some((view, _)) => view,
        None => views::draw(arrangement, name, SCALES[SCALES.len() - 1].ratio),
    };
    let area = view.area().grown(MARGIN_MM);
    let ratio = view.ratio;
    let datum = Spot::new(-area.left_mm, -area.bottom_mm);
    let shapes: Vec<Shape> = view.shapes.into_iter().map(|shape| shape.moved(datum.x_mm, datum.y_mm)).collect();
    debug_assert!(bounds(&shapes).is_some());
    let title = format!("{} {}: {}", arrangement.job.tag, arrangement.job.title, name.words());
    let group = Group {
        name: name.name().into(),
        title: name.words().into(),
        view: Some(ViewFrame { datum, ratio }),
        shapes,
    };
    Sheet {
        name: name.name().into(),
        title,
        width_mm: area.width_mm(),
        height_mm: area.height_mm(),
        groups: vec![group],
    }
}
