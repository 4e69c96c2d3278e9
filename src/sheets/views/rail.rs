//! One rail enlarged: every terminal with number and marking, and at each of its clamps where the
//! conductor comes from, as a fitter needs it. A long rail comes in parts.

use super::on_rails::{self, Numbers, front};
use super::parts::{EDGE_GAP_MM, SMALL, position_marks};
use super::stretch::Stretch;
use crate::arrangement::{Arrangement, PlacedRail, PlacedTerminal, Side};
use crate::sheets::drawing::{
    Align, Area, Canvas, Edge, Geometry, Label, Layer, Pen, Shape, Spot, advance_mm, extent, marks,
};
use crate::sheets::subject;
use crate::sheets::tenth;
use crate::sheets::wiring::far_end;

/// Between a terminal and the text at its clamp.
const GAP_MM: f64 = 1.0;

/// Short name and title of the view of a rail, or of a part of it.
pub(super) fn title(arrangement: &Arrangement, stretch: Stretch) -> (String, String) {
    let Some(rail) = arrangement.rails.get(stretch.rail) else {
        return (format!("rail-{}", stretch.rail), String::new());
    };
    let whole = format!(
        "Rail {}, {}, cut length {}",
        rail.id,
        rail.profile,
        tenth(rail.length_mm)
    );
    if stretch.parts == 1 {
        return (format!("rail-{}", rail.id), whole);
    }
    let (from_mm, to_mm) = stretch.span_mm(arrangement, rail);
    let number = stretch.part + 1;
    let part = format!(
        "part {number} of {}, x {} to {}",
        stretch.parts,
        tenth(from_mm),
        tenth(to_mm)
    );
    (
        format!("rail-{}-{number}", rail.id),
        format!("{whole}; {part}"),
    )
}

/// Draws a rail or a part of it.
pub(super) fn draw(arrangement: &Arrangement, stretch: Stretch, canvas: &mut Canvas) {
    let Some(part) = stretch.only(arrangement) else {
        return;
    };
    let Some(rail) = part.rails.get(stretch.rail) else {
        return;
    };
    on_rails::draw(&part, rail, Numbers::All, canvas);
    let mut longest_mm = 0.0_f64;
    for terminal in &part.terminals {
        write_ends(&part, terminal, Side::Lower, canvas);
        longest_mm = longest_mm.max(write_ends(&part, terminal, Side::Upper, canvas));
    }
    on_rails::write_strips(&part, rail, longest_mm + 2.0 * GAP_MM, canvas);
    let (left, right) = stretch.goes_on();
    let standing = on_rails::extent(&part, rail, canvas);
    let body = front(&rail.body, canvas);
    for x_mm in [left.then_some(body.left_mm), right.then_some(body.right_mm)]
        .into_iter()
        .flatten()
    {
        draw_break(x_mm, standing, canvas);
    }
    name_accessories(&part, rail, canvas);
    write_positions(&part, rail, (left, right), canvas);
}

/// Designations of end stops, end plates and partitions over them, further out with a leader where neighbours stand
/// close. Where there is no room the table of the order on the rails has them.
fn name_accessories(arrangement: &Arrangement, rail: &PlacedRail, canvas: &mut Canvas) {
    const STEP_MM: f64 = 2.0;
    const STEPS: i32 = 12;
    let on_rail = arrangement.accessories.iter();
    for accessory in on_rail.filter(|part| part.rail == rail.id) {
        let area = front(&accessory.body, canvas);
        let x_mm = area.centre().x_mm;
        let label = |out_mm: f64| Label {
            at: Spot::new(x_mm + SMALL.height_mm / 2.0, area.top_mm + GAP_MM + out_mm),
            style: SMALL.upwards().align(Align::Start),
            content: accessory.id.clone(),
        };
        let places = (0..STEPS).map(|step| f64::from(step) * STEP_MM);
        let key = subject::accessory(&accessory.id);
        let free = places
            .into_iter()
            .find(|out_mm| canvas.is_free(&label(*out_mm).area()));
        let Some(out_mm) = free else { continue };
        if out_mm > 0.0 {
            let leader = Geometry::Line(
                Spot::new(x_mm, area.top_mm),
                Spot::new(x_mm, area.top_mm + out_mm + GAP_MM / 2.0),
            );
            canvas.interrupted(&Shape::new(Layer::Dimensions, leader));
        }
        let text = Geometry::Text(label(out_mm));
        canvas.add(Shape::new(Layer::Text, text).of(key));
    }
}

/// Where a rail goes on: a thin line with a zigzag over all that stands on it (ISO 128, from memory).
fn draw_break(x_mm: f64, standing: Area, canvas: &mut Canvas) {
    let (low_mm, high_mm) = (standing.bottom_mm - 1.5, standing.top_mm + 1.5);
    let middle_mm = (low_mm + high_mm) / 2.0;
    let spots = [
        (0.0, low_mm),
        (0.0, middle_mm - 1.2),
        (-1.0, middle_mm - 0.6),
        (1.0, middle_mm + 0.6),
        (0.0, middle_mm + 1.2),
        (0.0, high_mm),
    ]
    .map(|(aside_mm, y_mm)| Spot::new(x_mm + aside_mm, y_mm))
    .to_vec();
    let line = Geometry::Polyline {
        spots,
        closed: false,
    };
    canvas.add(Shape::new(Layer::Outline, line).pen(Pen::solid(0.18)));
    canvas.reserve(Area::new(x_mm - 1.0, low_mm, x_mm + 1.0, high_mm));
}

/// The most that a text at a clamp takes along the rail: letters with tails take more than others.
pub(in crate::sheets) fn widest_end_mm(arrangement: &Arrangement) -> f64 {
    let terminals = arrangement.terminals.iter();
    let words = terminals.flat_map(|terminal| {
        [Side::Lower, Side::Upper].map(|side| words_of_ends(arrangement, terminal, side))
    });
    let widths = words.map(|content| {
        let label = Label {
            at: Spot::new(0.0, 0.0),
            style: SMALL.upwards(),
            content,
        };
        label.area().width_mm()
    });
    widths.fold(0.0, f64::max)
}

/// What is under the clamps of one side.
fn words_of_ends(arrangement: &Arrangement, terminal: &PlacedTerminal, side: Side) -> String {
    let mut words = Vec::new();
    for clamp in terminal.clamps.iter().filter(|clamp| clamp.side == side) {
        let ends: Vec<String> = clamp
            .wires
            .iter()
            .filter_map(|id| arrangement.wires.iter().find(|wire| wire.id == *id))
            .map(|wire| far_end(wire, &terminal.id, clamp.level, side))
            .collect();
        if !ends.is_empty() {
            words.push(ends.join(" + "));
        }
    }
    words.join(" | ")
}

/// Writes what is under the clamps of one side, reading upwards. Returns how long the text is; nothing
/// is written where the terminal is too narrow on paper.
fn write_ends(
    arrangement: &Arrangement,
    terminal: &PlacedTerminal,
    side: Side,
    canvas: &mut Canvas,
) -> f64 {
    let content = words_of_ends(arrangement, terminal, side);
    let area = front(&terminal.body, canvas);
    if content.is_empty() {
        return 0.0;
    }
    let (y_mm, align) = match side {
        Side::Lower => (area.bottom_mm - GAP_MM, Align::End),
        Side::Upper => (area.top_mm + GAP_MM, Align::Start),
    };
    let x_mm = area.centre().x_mm + SMALL.height_mm / 2.0;
    let label = Label {
        at: Spot::new(x_mm, y_mm),
        style: SMALL.upwards().align(align),
        content,
    };
    let length_mm = label.length_mm();
    if label.area().width_mm() > area.width_mm() {
        return 0.0;
    }
    canvas.add(Shape::new(Layer::Text, Geometry::Text(label)).of(subject::terminal(&terminal.id)));
    length_mm
}

/// Positions of the rail's ends, save those where it goes on, the outer sides of what stands on it, and
/// where each strip begins.
fn write_positions(
    arrangement: &Arrangement,
    rail: &PlacedRail,
    (goes_left, goes_right): (bool, bool),
    canvas: &mut Canvas,
) {
    let ends = [
        (!goes_left).then_some(rail.body.min.x_mm),
        (!goes_right).then_some(rail.body.max.x_mm),
    ];
    let mut positions: Vec<(f64, f64)> = ends
        .into_iter()
        .flatten()
        .map(|x_mm| (x_mm, rail.body.min.y_mm))
        .collect();
    for (_, terminals) in on_rails::strips(arrangement, rail) {
        if let (Some(first), Some(last)) = (terminals.first(), terminals.last()) {
            positions.push((first.body.min.x_mm, first.body.min.y_mm));
            positions.push((last.body.max.x_mm, last.body.min.y_mm));
        }
    }
    for accessory in arrangement
        .accessories
        .iter()
        .filter(|part| part.rail == rail.id)
    {
        positions.push((accessory.body.min.x_mm, accessory.body.min.y_mm));
        positions.push((accessory.body.max.x_mm, accessory.body.min.y_mm));
    }
    let found = position_marks(&positions, canvas, Edge::Lower);
    let line_mm = extent(canvas).bottom_mm - EDGE_GAP_MM;
    marks(canvas, Edge::Lower, line_mm, found, SMALL);
    let body = front(&rail.body, canvas);
    let middle = (rail.body.min.y_mm + rail.body.max.y_mm) / 2.0;
    let content = format!("y {}", tenth(middle));
    let width_mm = advance_mm(&content, &SMALL);
    let at = Spot::new(body.left_mm - 1.5 - width_mm / 2.0, body.centre().y_mm);
    canvas.add(Shape::new(
        Layer::Dimensions,
        Geometry::Text(Label::centred(at, SMALL, content)),
    ));
}
