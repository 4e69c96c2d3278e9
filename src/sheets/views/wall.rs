//! A wall from outside, lid upwards: drillable areas, holes with their numbers, positions from the
//! datum in the inner lower left corner.

use super::parts::{FaceOutline, SMALL, entry_fill};
use super::positions::{self, Place};
use crate::arrangement::{Arrangement, PlacedEntry, WallRecord};
use crate::sheets::drawing::{
    Align, Area, Canvas, Colour, Geometry, Label, Layer, Pen, Shape, Spot, TextStyle, advance_mm,
    centre_mark, datum,
};
use crate::sheets::subject;
use crate::sheets::{tables, tenth};
use crate::space::Face;

/// Height over and under the centre of a hole at which its number and its thread stand.
const INSIDE_MM: f64 = 2.3;
/// Between the corner of a text inside a hole and its edge.
const EDGE_MM: f64 = 0.3;

/// How far the axes of a hole reach into it.
const AXIS_MM: f64 = 1.0;

/// How much wider than its envelope the tag at an entry may be, so that it stays clear of neighbours.
const TAG_BEYOND_MM: f64 = 8.0;

/// Draws the view of a wall.
pub(super) fn draw(arrangement: &Arrangement, face: Face, canvas: &mut Canvas) {
    let outline = FaceOutline::of(arrangement, face);
    outline.draw(canvas, Layer::Hidden);
    outline.keep_clear(canvas);
    let entries: Vec<&PlacedEntry> = arrangement
        .entries
        .iter()
        .filter(|entry| entry.wall == face)
        .collect();
    for entry in &entries {
        draw_envelope(arrangement, entry, canvas);
    }
    for entry in &entries {
        let centre = canvas.spot(entry.u_mm, entry.v_mm);
        for size_mm in [entry.hole_mm, entry.envelope_mm] {
            canvas.keep_off_circle(centre, size_mm / 2.0 * canvas.ratio());
        }
    }
    let envelopes: Vec<(Spot, f64)> = entries
        .iter()
        .map(|entry| {
            let radius_mm = entry.envelope_mm / 2.0 * canvas.ratio();
            (canvas.spot(entry.u_mm, entry.v_mm), radius_mm)
        })
        .collect();
    for entry in &entries {
        draw_hole(entry, &envelopes, canvas);
    }
    // Before the tags, which keep off its letters.
    datum(canvas, "u", "v");
    for entry in &entries {
        write_tag(entry, &envelopes, canvas);
    }
    match arrangement.enclosure.walls.get(&face) {
        Some(wall) => draw_areas(wall, &envelopes, canvas),
        None => note(&outline, canvas, "not to be drilled"),
    }
    let places: Vec<Place> = entries
        .iter()
        .map(|entry| {
            let (u, v, half) = (entry.u_mm, entry.v_mm, entry.envelope_mm / 2.0);
            Place {
                centre: (u, v),
                outline: Area::new(u - half, v - half, u + half, v + half),
            }
        })
        .collect();
    let outer = outline.outer_area(canvas);
    positions::write(canvas, outer, &places);
    outline.dimension(canvas);
}

/// Draws a wall to show where it lies and what is in it: holes with their numbers where these have room, no positions.
pub(super) fn draw_plain(arrangement: &Arrangement, face: Face, canvas: &mut Canvas) {
    let outline = FaceOutline::of(arrangement, face);
    outline.draw(canvas, Layer::Hidden);
    outline.keep_clear(canvas);
    let entries = arrangement.entries.iter();
    let entries: Vec<&PlacedEntry> = entries.filter(|entry| entry.wall == face).collect();
    for entry in &entries {
        draw_envelope(arrangement, entry, canvas);
    }
    for entry in &entries {
        let centre = canvas.spot(entry.u_mm, entry.v_mm);
        let radius_mm = entry.hole_mm / 2.0 * canvas.ratio();
        canvas.add(
            Shape::new(Layer::Holes, Geometry::Circle { centre, radius_mm })
                .of(subject::entry(&entry.id)),
        );
        let envelope_mm = entry.envelope_mm / 2.0 * canvas.ratio();
        canvas.keep_off_circle(centre, envelope_mm);
    }
    for entry in &entries {
        let centre = canvas.spot(entry.u_mm, entry.v_mm);
        let (radius_mm, envelope_mm) = (
            entry.hole_mm / 2.0 * canvas.ratio(),
            entry.envelope_mm / 2.0 * canvas.ratio(),
        );
        name_plain(entry, centre, (radius_mm, envelope_mm), canvas);
    }
    if !arrangement.enclosure.walls.contains_key(&face) {
        note(&outline, canvas, "not to be drilled");
    }
}

/// The number of an entry in its hole, else beside it, else across it: none is left out.
fn name_plain(
    entry: &PlacedEntry,
    centre: Spot,
    (radius_mm, envelope_mm): (f64, f64),
    canvas: &mut Canvas,
) {
    let key = subject::entry(&entry.id);
    let number =
        |dx: f64, dy: f64| Label::centred(centre.moved(dx, dy), SMALL.bold(), entry.id.clone());
    let half_mm = number(0.0, 0.0).length_mm() / 2.0;
    let (beside, over) = (envelope_mm + half_mm + 0.6, envelope_mm + 1.7);
    let is_inside = half_mm.hypot(SMALL.height_mm / 2.0) <= radius_mm - EDGE_MM;
    let inside = is_inside.then(|| number(0.0, 0.0));
    let near = [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)];
    let outside = near.map(|(right, up)| number(right * beside, up * over));
    if !canvas.write_first(inside.into_iter().chain(outside), Some(&key)) {
        canvas.write_on(number(0.0, 0.0), Colour::White, Some(&key));
    }
}

/// The envelope: the larger of hexagon and locknut across corners.
fn draw_envelope(arrangement: &Arrangement, entry: &PlacedEntry, canvas: &mut Canvas) {
    let centre = canvas.spot(entry.u_mm, entry.v_mm);
    let radius_mm = entry.envelope_mm / 2.0 * canvas.ratio();
    let envelope = Shape::new(Layer::Outline, Geometry::Circle { centre, radius_mm });
    canvas.add(
        envelope
            .pen(Pen::solid(0.18))
            .fill(entry_fill(arrangement, entry))
            .of(subject::entry(&entry.id)),
    );
}

/// The hole with its number above and its thread below the centre.
fn draw_hole(entry: &PlacedEntry, envelopes: &[(Spot, f64)], canvas: &mut Canvas) {
    let centre = canvas.spot(entry.u_mm, entry.v_mm);
    let radius_mm = entry.hole_mm / 2.0 * canvas.ratio();
    let envelope_mm = entry.envelope_mm / 2.0 * canvas.ratio();
    canvas.add(
        Shape::new(Layer::Holes, Geometry::Circle { centre, radius_mm })
            .of(subject::entry(&entry.id)),
    );
    centre_mark(canvas, centre, (radius_mm, radius_mm), AXIS_MM);
    let number =
        |dx: f64, dy: f64| Label::centred(centre.moved(dx, dy), SMALL.bold(), entry.id.clone());
    let width_mm = advance_mm(&entry.id, &SMALL.bold());
    let inside = has_room(radius_mm, width_mm).then(|| number(0.0, INSIDE_MM));
    let beside = envelope_mm + width_mm / 2.0 + 0.6;
    let above = envelope_mm + 1.7;
    let outside = [
        number(0.0, above),
        number(0.0, -above),
        number(beside, 0.0),
        number(-beside, 0.0),
        number(beside, above),
        number(-beside, above),
        number(beside, -above),
        number(-beside, -above),
    ];
    // Where it cannot be taken for another's before where it could be.
    let (own, doubtful): (Vec<Label>, Vec<Label>) = outside
        .into_iter()
        .partition(|label| is_its_own(label, centre, envelopes));
    let places = inside.into_iter().chain(own).chain(doubtful).collect();
    canvas.write_over(places, &subject::entry(&entry.id));
    let thread = tables::thread_words(&entry.thread);
    let label = Label::centred(centre.moved(0.0, -INSIDE_MM), SMALL, thread);
    if has_room(radius_mm, label.length_mm()) {
        canvas.write_first([label], Some(&subject::entry(&entry.id)));
    }
}

/// Whether a text over or under the centre stays inside the hole with its corners, clear of the ends of its axes.
fn has_room(radius_mm: f64, width_mm: f64) -> bool {
    let high_mm = INSIDE_MM + SMALL.height_mm / 2.0;
    (width_mm / 2.0).hypot(high_mm) <= radius_mm - EDGE_MM && high_mm <= radius_mm - AXIS_MM
}

/// Between the middles of two lines of text that stand over each other.
const LINE_MM: f64 = 2.9;

/// How far a text lies from the edge of an envelope; less than nothing where it begins within.
fn distance_mm(label: &Label, (centre, radius_mm): &(Spot, f64)) -> f64 {
    let area = label.area();
    let to = |at: f64, low: f64, high: f64| (low - at).max(at - high).max(0.0);
    let dx_mm = to(centre.x_mm, area.left_mm, area.right_mm);
    let dy_mm = to(centre.y_mm, area.bottom_mm, area.top_mm);
    dx_mm.hypot(dy_mm) - radius_mm
}

/// Whether a text lies beside all envelopes: the canvas keeps it off their lines, but within one it would be read as
/// said of that entry.
fn is_clear(label: &Label, envelopes: &[(Spot, f64)]) -> bool {
    let mut distances = envelopes
        .iter()
        .map(|envelope| distance_mm(label, envelope));
    distances.all(|distance_mm| distance_mm >= 0.0)
}

/// How much nearer to its own envelope than to any other a text is, so that it is read as said of its own.
const NEARER_MM: f64 = 0.8;

/// Whether a text at the envelope of an entry cannot be taken for that of another.
fn is_its_own(label: &Label, centre: Spot, envelopes: &[(Spot, f64)]) -> bool {
    let (own, others): (Vec<_>, Vec<_>) = envelopes.iter().partition(|(middle, _)| {
        (middle.x_mm - centre.x_mm).hypot(middle.y_mm - centre.y_mm) < 1e-9
    });
    let own_mm = own.iter().map(|envelope| distance_mm(label, envelope));
    let own_mm = own_mm.fold(f64::MAX, f64::min);
    let mut others = others.iter().map(|envelope| distance_mm(label, envelope));
    others.all(|other_mm| other_mm >= own_mm + NEARER_MM)
}

/// What the entry is for, above, under or beside its envelope where there is room, or beyond its number if that
/// stands there; the hole table has it in any case.
fn write_tag(entry: &PlacedEntry, envelopes: &[(Spot, f64)], canvas: &mut Canvas) {
    let centre = canvas.spot(entry.u_mm, entry.v_mm);
    let envelope_mm = entry.envelope_mm / 2.0 * canvas.ratio();
    let words = tables::purpose_words(&entry.purpose);
    let label = |dy: f64| Label::centred(centre.moved(0.0, dy), SMALL, words.clone());
    if advance_mm(&words, &SMALL) > 2.0 * envelope_mm + TAG_BEYOND_MM {
        return;
    }
    let away = envelope_mm + 1.7;
    let beyond: Vec<Label> = [1.0, -1.0]
        .into_iter()
        .filter(|side| {
            let number = Label::centred(
                centre.moved(0.0, side * away),
                SMALL.bold(),
                entry.id.clone(),
            );
            canvas
                .shapes()
                .iter()
                .any(|shape| shape.geometry == Geometry::Text(number.clone()))
        })
        .map(|side| label(side * (away + LINE_MM)))
        .collect();
    let beside_mm = envelope_mm + advance_mm(&words, &SMALL) / 2.0 + 0.6;
    let beside =
        |side: f64| Label::centred(centre.moved(side * beside_mm, 0.0), SMALL, words.clone());
    let all = [label(away), label(-away)]
        .into_iter()
        .chain(beyond)
        .chain([beside(1.0), beside(-1.0)]);
    canvas.write_first(
        all.filter(|label| is_clear(label, envelopes) && is_its_own(label, centre, envelopes)),
        Some(&subject::entry(&entry.id)),
    );
}

/// The rectangles that may be drilled.
fn draw_areas(wall: &WallRecord, envelopes: &[(Spot, f64)], canvas: &mut Canvas) {
    for area in &wall.areas {
        let paper = canvas.area(area.u_mm, area.v_mm, area.right_mm(), area.top_mm());
        let kind = if wall.flange_plate {
            "flange plate"
        } else {
            "drillable"
        };
        let words = format!(
            "{kind} {} × {}",
            tenth(area.width_mm),
            tenth(area.height_mm)
        );
        let at = |x_mm: f64, y_mm: f64, align: Align| Label {
            at: Spot::new(x_mm, y_mm),
            style: SMALL.align(align),
            content: words.clone(),
        };
        let (over, under) = (paper.top_mm + 0.9, paper.top_mm - 2.8);
        let (low, below) = (paper.bottom_mm + 1.0, paper.bottom_mm - 2.8);
        let (left, right) = (paper.left_mm + 1.0, paper.right_mm - 1.0);
        let places = [
            at(left, under, Align::Start),
            at(right, under, Align::End),
            at(left, low, Align::Start),
            at(right, low, Align::End),
            at(left, over, Align::Start),
            at(right, over, Align::End),
            at(left, below, Align::Start),
            at(right, below, Align::End),
        ];
        canvas.write_first(
            places
                .into_iter()
                .filter(|label| is_clear(label, envelopes)),
            None,
        );
        canvas.interrupted_rectangle(Layer::Centre, paper, &"drillable".into());
    }
    for part in &wall.blocked {
        let paper = canvas.area(part.u_mm, part.v_mm, part.right_mm(), part.top_mm());
        canvas.interrupted_rectangle(Layer::Hidden, paper, &"blocked".into());
        canvas.write_first(
            [Label {
                at: Spot::new(paper.right_mm + 0.8, paper.top_mm + 0.9),
                style: SMALL.align(Align::Start),
                content: "blocked".to_string(),
            }],
            None,
        );
    }
}

/// A remark in the middle of the wall.
fn note(outline: &FaceOutline, canvas: &mut Canvas, words: &str) {
    let middle = canvas.spot(outline.inner.0 / 2.0, outline.inner.1 / 2.0);
    let style = TextStyle::plain(2.5);
    canvas.write_first([Label::centred(middle, style, words)], None);
}
