//! Single views without a frame, on paper of just their size.

use super::place::place;
use super::scale::SCALES;
use crate::arrangement::Arrangement;
use crate::sheets::drawing::{
    Area, Geometry, Group, Label, Layer, Shape, Sheet, Spot, TextStyle, ViewFrame,
};
use crate::sheets::failing;
use crate::sheets::views::{self, Subject, ViewName};

/// Paper that a single view fits, millimetres.
const PAGE_MM: (f64, f64) = (277.0, 190.0);

/// A single view without frame on paper of just its size; of an arrangement that `fails` it says so over the drawing.
pub(in crate::sheets) fn bare(arrangement: &Arrangement, name: ViewName, fails: bool) -> Sheet {
    let subject = Subject::Named(name);
    bare_marked(arrangement, subject, name.name(), PAGE_MM, fails)
}

/// A single view without frame at the largest standard scale that fits a width and a height of paper.
pub(in crate::sheets) fn bare_within(
    arrangement: &Arrangement,
    name: ViewName,
    (width_mm, height_mm): (f64, f64),
) -> Sheet {
    let subject = Subject::Named(name);
    bare_subject(arrangement, subject, name.name(), (width_mm, height_mm))
}

/// Any view without frame at the largest standard scale that fits a width and a height of paper.
pub(super) fn bare_subject(
    arrangement: &Arrangement,
    subject: Subject,
    name: &str,
    page_mm: (f64, f64),
) -> Sheet {
    bare_marked(arrangement, subject, name, page_mm, false)
}

/// That the arrangement does not hold, over a drawing that takes this area.
fn mark_over(area: Area) -> Shape {
    const GAP_MM: f64 = 3.0;
    let style = TextStyle::plain(3.5).bold();
    let middle_mm = (area.left_mm + area.right_mm) / 2.0;
    let at = Spot::new(middle_mm, area.top_mm + GAP_MM + style.height_mm);
    Shape::new(
        Layer::Text,
        Geometry::Text(Label::centred(at, style, failing::MARK)),
    )
}

fn bare_marked(
    arrangement: &Arrangement,
    subject: Subject,
    name: &str,
    (width_mm, height_mm): (f64, f64),
    fails: bool,
) -> Sheet {
    const MARGIN_MM: f64 = 4.0;
    let page = Area::new(0.0, 0.0, width_mm, height_mm);
    let placed = place(arrangement, &[subject], page);
    let mut view = match placed.and_then(|placed| placed.views.into_iter().next()) {
        Some((view, _)) => view,
        None => views::draw(arrangement, subject, SCALES[SCALES.len() - 1].ratio),
    };
    if fails {
        let mark = mark_over(view.area());
        view.shapes.push(mark);
    }
    let area = view.area().grown(MARGIN_MM);
    let (ratio, turn) = (view.ratio, view.turn);
    let datum = Spot::new(-area.left_mm, -area.bottom_mm);
    let shapes: Vec<Shape> = view
        .shapes
        .into_iter()
        .map(|shape| shape.moved(datum.x_mm, datum.y_mm))
        .collect();
    let title = format!(
        "{} {}: {}",
        arrangement.job.tag, arrangement.job.title, view.title
    );
    let heading = view.title.clone();
    let group = Group {
        name: view.name,
        title: view.title,
        view: Some(ViewFrame { datum, ratio, turn }),
        shapes,
    };
    Sheet {
        name: name.into(),
        title,
        heading,
        width_mm: area.width_mm(),
        height_mm: area.height_mm(),
        groups: vec![group],
    }
}
