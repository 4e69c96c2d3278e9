//! The walls round the front as first-angle projection has them: what is seen from below lies over the
//! front, from the right to its left, and so on; the lid always lies outwards.

use super::place::{COLUMN_MM, READABLE};
use super::scale::{SCALES, Scale};
use super::{Page, Paper, flow, frame, paper, place};
use crate::arrangement::Arrangement;
use crate::sheets::drawing::{Area, Group, Spot, Table};
use crate::sheets::views::{self, Subject, View, ViewName};

/// Between neighbouring views.
const GAP_MM: f64 = 5.0;

/// A view with the place of its datum.
type Put = (View, Spot);

/// What the walls round the front are for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Purpose {
    /// To drill by: with positions, at a scale at which holes are easily read.
    Drilling,
    /// To show where each wall lies: without positions, at whatever scale fits.
    Place,
}

/// The sheet of all four walls round the front, with their tables beside or on further sheets. `None`
/// where they do not fit at a scale that serves the purpose.
pub(super) fn pages(
    arrangement: &Arrangement,
    paper: Paper,
    purpose: Purpose,
    tables: &[Table],
    remarks: &[String],
) -> Option<Vec<Page>> {
    let (scale, views) = SCALES
        .into_iter()
        .filter(|scale| purpose == Purpose::Place || scale.ratio >= READABLE - 1e-9)
        .find_map(|scale| Some((scale, cross(arrangement, paper, purpose, scale)?)))?;
    let right_mm = views
        .iter()
        .map(|put| taken(put).right_mm)
        .fold(0.0, f64::max);
    let (inner, above) = (paper.inner(), paper.above_block());
    let column = Area {
        left_mm: right_mm + GAP_MM,
        ..above
    };
    let lowest_mm = views
        .iter()
        .map(|put| taken(put).bottom_mm)
        .fold(inner.top_mm, f64::min);
    let under = Area {
        top_mm: lowest_mm - GAP_MM,
        ..paper.beside_block().unwrap_or(above)
    };
    let filled = [column, under]
        .into_iter()
        .filter(|area| area.width_mm() >= COLUMN_MM)
        .find_map(|area| flow::fill(tables, area));
    let title = "Walls, drilling";
    let further = match &filled {
        Some(_) => Vec::new(),
        None => flow::pages(paper, "walls", title, tables, 2),
    };
    let mut groups: Vec<Group> = views
        .into_iter()
        .map(|(view, datum)| place::group(view, datum))
        .collect();
    groups.extend(filled.unwrap_or_default());
    groups.push(Group {
        name: "notes".into(),
        title: String::new(),
        view: None,
        shapes: frame::notes(
            paper,
            (purpose == Purpose::Drilling).then_some(scale),
            remarks,
        ),
    });
    let mut pages = vec![Page {
        name: "walls".into(),
        title: title.into(),
        scale: Some(scale),
        groups,
    }];
    pages.extend(further);
    Some(pages)
}

/// The area of a view with its title.
fn taken((view, datum): &Put) -> Area {
    let area = view.area().moved(datum.x_mm, datum.y_mm);
    let title_mm = place::title_length_mm(view);
    Area {
        top_mm: area.top_mm + place::TITLE_MM,
        right_mm: area.right_mm.max(area.left_mm + title_mm),
        ..area
    }
}

/// The views in their places on the sheet; `None` if they do not fit.
fn cross(
    arrangement: &Arrangement,
    paper: Paper,
    purpose: Purpose,
    scale: Scale,
) -> Option<Vec<Put>> {
    let interior = &arrangement.enclosure.interior;
    let (width_mm, height_mm) = (
        interior.width_mm * scale.ratio,
        interior.height_mm * scale.ratio,
    );
    let front = views::draw(arrangement, Subject::Front, scale.ratio);
    let middle = taken(&(front.clone(), Spot::new(0.0, 0.0)));
    let mut put: Vec<Put> = vec![(front, Spot::new(0.0, 0.0))];
    let wall = |name: ViewName| {
        let subject = match purpose {
            Purpose::Drilling => Subject::Unfolded(name),
            Purpose::Place => Subject::Beside(name),
        };
        views::draw(arrangement, subject, scale.ratio)
    };
    // The middle row first: its height is where the views over and under it begin. A datum lies
    // where the corner of its wall does: see `views::turn_of`.
    let right = wall(ViewName::Right);
    let x_mm = middle.left_mm - GAP_MM - taken(&(right.clone(), Spot::new(0.0, 0.0))).right_mm;
    put.push((right, Spot::new(x_mm, 0.0)));
    let left = wall(ViewName::Left);
    let x_mm = middle.right_mm + GAP_MM - left.area().left_mm;
    put.push((left, Spot::new(x_mm, height_mm)));
    let row = put
        .iter()
        .map(taken)
        .reduce(|all, next| all.joined(&next))?;
    let bottom = wall(ViewName::Bottom);
    let y_mm = row.top_mm + GAP_MM - bottom.area().bottom_mm;
    put.push((bottom, Spot::new(0.0, y_mm)));
    let top = wall(ViewName::Top);
    let y_mm = row.bottom_mm - GAP_MM - place::TITLE_MM - top.area().top_mm;
    put.push((top, Spot::new(width_mm, y_mm)));
    let all = put
        .iter()
        .map(taken)
        .reduce(|all, next| all.joined(&next))?;
    let inner = paper.inner().grown(-3.0);
    let (right_mm, up_mm) = (inner.left_mm - all.left_mm, inner.top_mm - all.top_mm);
    for (_, datum) in &mut put {
        *datum = datum.moved(right_mm, up_mm);
    }
    let mut block = paper.block();
    block.top_mm += paper::NOTES_MM;
    let fits = put
        .iter()
        .map(taken)
        .all(|area| inner.grown(1e-6).contains(&area) && !area.grown(2.0).meets(&block));
    fits.then_some(put)
}
