//! One rail enlarged: every terminal with number and marking, and at each of its clamps where the
//! conductor comes from, as a fitter needs it.

use super::on_rails::{self, Numbers, front};
use super::parts::{EDGE_GAP_MM, SMALL, position_marks};
use crate::arrangement::{Arrangement, PlacedRail, PlacedTerminal, Side};
use crate::sheets::drawing::{
    Align, Canvas, Edge, Geometry, Label, Layer, Shape, Spot, advance_mm, extent, marks,
};
use crate::sheets::subject;
use crate::sheets::tenth;
use crate::sheets::wiring::far_end;

/// Between a terminal and the text at its clamp.
const GAP_MM: f64 = 1.0;

/// Short name and title of the view of a rail.
pub(super) fn title(arrangement: &Arrangement, index: usize) -> (String, String) {
    match arrangement.rails.get(index) {
        Some(rail) => (
            format!("rail-{}", rail.id),
            format!(
                "Rail {}, {}, cut length {}",
                rail.id,
                rail.profile,
                tenth(rail.length_mm)
            ),
        ),
        None => (format!("rail-{index}"), String::new()),
    }
}

/// Draws the rail with this index.
pub(super) fn draw(arrangement: &Arrangement, index: usize, canvas: &mut Canvas) {
    let Some(rail) = arrangement.rails.get(index) else {
        return;
    };
    on_rails::draw(arrangement, rail, Numbers::All, canvas);
    let mut longest_mm = 0.0_f64;
    for terminal in arrangement
        .terminals
        .iter()
        .filter(|terminal| terminal.rail == rail.id)
    {
        write_ends(arrangement, terminal, Side::Lower, canvas);
        longest_mm = longest_mm.max(write_ends(arrangement, terminal, Side::Upper, canvas));
    }
    on_rails::write_strips(arrangement, rail, longest_mm + 2.0 * GAP_MM, canvas);
    write_positions(arrangement, rail, canvas);
}

/// Writes what is under the clamps of one side, reading upwards. Returns how long the text is; nothing
/// is written where the terminal is too narrow on paper.
fn write_ends(
    arrangement: &Arrangement,
    terminal: &PlacedTerminal,
    side: Side,
    canvas: &mut Canvas,
) -> f64 {
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
    let content = words.join(" | ");
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

/// Positions of the rail's ends, the outer sides of what stands on it, and where each strip begins.
fn write_positions(arrangement: &Arrangement, rail: &PlacedRail, canvas: &mut Canvas) {
    let mut positions = vec![
        (rail.body.min.x_mm, rail.body.min.y_mm),
        (rail.body.max.x_mm, rail.body.min.y_mm),
    ];
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
