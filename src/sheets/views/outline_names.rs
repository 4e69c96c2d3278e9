//! Names on an outline: all of them, or none where they have no room.

use super::parts::SMALL;
use crate::sheets::drawing::{Area, Canvas, Colour, Label, Spot, SubjectKey, shortened, wrap};

/// Free space that names of neighbouring outlines keep where they can.
const APART_MM: f64 = 1.0;

/// Names on an outline, on a ground of its colour, as outlines may lie in each other: in one line, or in as
/// many as they need where that many have room; else none.
pub(super) fn write_names(
    names: &[&str],
    area: Area,
    ground: Colour,
    key: &SubjectKey,
    canvas: &mut Canvas,
) {
    const LINE_MM: f64 = 3.2;
    let width_mm = area.width_mm() - 1.0;
    let words = names.join(", ");
    let lines = wrap(&words, &SMALL, width_mm);
    let has_room = lines.len() as f64 * LINE_MM <= area.height_mm();
    if lines.len() > 1 && has_room {
        let block = |up_mm: f64| -> Vec<Label> {
            let first_mm = up_mm + (lines.len() - 1) as f64 * LINE_MM / 2.0;
            let placed = lines.iter().zip(0..).map(|(line, down)| {
                let up_mm = first_mm - f64::from(down) * LINE_MM;
                Label::centred(area.centre().moved(0.0, up_mm), SMALL, line.clone())
            });
            placed.collect()
        };
        let half_mm = (lines.len() - 1) as f64 * LINE_MM / 2.0 + 1.4;
        let within = |up_mm: &f64| *up_mm == 0.0 || up_mm.abs() + half_mm <= area.height_mm() / 2.0;
        let moved = [0.0, 0.5, -0.5, 1.0, -1.0, 2.0, -2.0].map(|moved| moved * LINE_MM);
        let mut blocks = moved.into_iter().filter(within).map(block);
        // All lines or none: they are judged before the first of them takes its place.
        let free = blocks.find(|block| block.iter().all(|label| canvas.is_free(&label.area())));
        if let Some(block) = free {
            canvas.write_lines_on(block, ground, key);
            return;
        }
    }
    // Names that are cut say less than none: those at the edges of the section and the table of depths are whole.
    if shortened(&words, &SMALL, width_mm) != words {
        return;
    }
    let places = [0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0]
        .map(|lines| lines * LINE_MM)
        .into_iter()
        .filter(|up_mm| f64::abs(*up_mm) + 1.4 <= area.height_mm() / 2.0 || *up_mm == 0.0)
        .map(|up_mm| Label::centred(area.centre().moved(0.0, up_mm), SMALL, words.clone()));
    let places: Vec<Label> = places.collect();
    // Outside where there is no room within.
    let outside = [area.top_mm + 1.6, area.bottom_mm - 1.6].map(|y_mm| {
        let middle_mm = (area.left_mm + area.right_mm) / 2.0;
        Label::centred(Spot::new(middle_mm, y_mm), SMALL, words.clone())
    });
    // Beside the names of another outline two names would be read as one.
    let apart = places
        .iter()
        .filter(|label| canvas.is_free(&label.area().grown(APART_MM)))
        .cloned();
    let places: Vec<Label> = apart.chain(places.iter().cloned()).chain(outside).collect();
    let centre = places.first().cloned();
    if !canvas.write_first_on(ground, places, Some(key))
        && let Some(label) = centre
    {
        // What is in the way is a name of something behind this outline.
        canvas.write_on(label, ground, Some(key));
    }
}
