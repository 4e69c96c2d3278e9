//! Single views without a frame, on paper of just their size.

use super::place::place;
use super::scale::SCALES;
use crate::arrangement::Arrangement;
use crate::sheets::drawing::{Area, Group, Shape, Sheet, Spot, ViewFrame};
use crate::sheets::views::{self, Subject, ViewName};

/// A single view without frame on paper of just its size.
pub(in crate::sheets) fn bare(arrangement: &Arrangement, name: ViewName) -> Sheet {
    bare_within(arrangement, name, (277.0, 190.0))
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
    (width_mm, height_mm): (f64, f64),
) -> Sheet {
    const MARGIN_MM: f64 = 4.0;
    let page = Area::new(0.0, 0.0, width_mm, height_mm);
    let placed = place(arrangement, &[subject], page);
    let view = match placed.and_then(|placed| placed.views.into_iter().next()) {
        Some((view, _)) => view,
        None => views::draw(arrangement, subject, SCALES[SCALES.len() - 1].ratio),
    };
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
