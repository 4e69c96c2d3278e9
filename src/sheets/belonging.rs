//! What a drawing of a single view says under it of the box it belongs to: a file that is passed on alone says whose it
//! is. Knows no file format.

use super::contents::box_words;
use super::drawing::{Geometry, Group, Label, Layer, Shape, Spot, TextStyle, bounds, wrap};
use crate::arrangement::{Arrangement, CAUTION};

/// Between the drawing and the first line, millimetres of paper.
const GAP_MM: f64 = 4.0;
/// From line to line, in heights of a capital.
const LINE: f64 = 2.0;
/// Lines are at least so long before they are broken, millimetres of paper.
const LEAST_LENGTH_MM: f64 = 160.0;

/// The drawing with lines of text under it: box and revision, title, view, enclosure, cautions.
pub(super) fn with_belonging(arrangement: &Arrangement, mut drawing: Group) -> Group {
    let Some(area) = bounds(&drawing.shapes) else {
        return drawing;
    };
    let job = &arrangement.job;
    let (plain, small) = (TextStyle::plain(2.5), TextStyle::plain(1.8));
    let enclosure = format!("Enclosure {}", arrangement.enclosure.id);
    let warning = arrangement.catalogue_warning.as_deref().unwrap_or_default();
    let lines = [
        (box_words(&job.tag, &job.revision), plain.bold()),
        (job.title.clone(), plain),
        (drawing.title.clone(), plain),
        (enclosure, plain),
        (CAUTION.to_string(), small),
        (warning.to_string(), small),
    ];
    let width_mm = area.width_mm().max(LEAST_LENGTH_MM);
    let mut y_mm = area.bottom_mm - GAP_MM;
    for (words, style) in lines {
        let broken = wrap(&words, &style, width_mm);
        for line in broken.into_iter().filter(|line| !line.is_empty()) {
            y_mm -= LINE * style.height_mm;
            drawing.shapes.push(Shape::new(
                Layer::Text,
                Geometry::Text(Label {
                    at: Spot::new(area.left_mm, y_mm),
                    style,
                    content: line,
                }),
            ));
        }
    }
    drawing
}
