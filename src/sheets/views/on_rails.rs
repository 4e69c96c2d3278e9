//! What stands on the rails, seen from the front: terminals with number and marking, end stops, end
//! plates, partitions, jumpers.

use super::parts::SMALL;
use crate::arrangement::{Arrangement, PlacedRail, PlacedTerminal};
use crate::catalogue::{AccessoryKind, CircuitKind, TerminalFunction};
use crate::sheets::drawing::{
    Align, Area, Canvas, Colour, Geometry, Label, Layer, Pen, Shape, Spot, TextStyle, advance_mm,
    hatch,
};
use crate::sheets::subject;
use crate::space::Block;

/// Which terminals are numbered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Numbers {
    /// Every one that has room.
    All,
    /// Where terminals are narrow: the first, the last and every fifth of a strip.
    Legible,
}

/// A terminal narrower than this on paper makes a row of turned numbers a grey band.
const LEGIBLE_MM: f64 = 3.0;

/// Draws a rail with all that stands on it.
pub(super) fn draw(
    arrangement: &Arrangement,
    rail: &PlacedRail,
    numbers: Numbers,
    canvas: &mut Canvas,
) {
    let shape = Shape::new(
        Layer::Outline,
        Geometry::Rectangle(front(&rail.body, canvas)),
    );
    canvas.add(shape.pen(Pen::solid(0.25)).of(subject::rail(&rail.id)));
    draw_accessories(arrangement, rail, canvas);
    for (_, terminals) in strips(arrangement, rail) {
        // All numbers of a strip are turned if one has to be.
        let narrow_mm = terminals
            .iter()
            .map(|t| front(&t.body, canvas).width_mm())
            .fold(f64::MAX, f64::min);
        let longest_mm = terminals
            .iter()
            .map(|terminal| advance_mm(&terminal.number.to_string(), &SMALL.bold()))
            .fold(0.0, f64::max);
        let turned = longest_mm + 0.6 > narrow_mm;
        let ends = [terminals.first(), terminals.last()].map(|t| t.map(|t| t.number));
        for terminal in &terminals {
            let is_numbered = numbers == Numbers::All
                || !turned
                || narrow_mm >= LEGIBLE_MM
                || terminal.number % 5 == 0
                || ends.contains(&Some(terminal.number));
            draw_terminal(terminal, turned, is_numbered, canvas);
        }
    }
    draw_jumpers(arrangement, rail, canvas);
}

/// The terminals of a rail, grouped by neighbours of one strip.
pub(super) fn strips<'a>(
    arrangement: &'a Arrangement,
    rail: &PlacedRail,
) -> Vec<(&'a str, Vec<&'a PlacedTerminal>)> {
    let mut strips: Vec<(&str, Vec<&PlacedTerminal>)> = Vec::new();
    for terminal in arrangement
        .terminals
        .iter()
        .filter(|terminal| terminal.rail == rail.id)
    {
        match strips.last_mut() {
            Some((name, members)) if *name == terminal.strip => members.push(terminal),
            _ => strips.push((&terminal.strip, vec![terminal])),
        }
    }
    strips
}

/// A block seen from the front.
pub(super) fn front(block: &Block, canvas: &Canvas) -> Area {
    canvas.area(
        block.min.x_mm,
        block.min.y_mm,
        block.max.x_mm,
        block.max.y_mm,
    )
}

/// What a rail and all that stands on it takes on paper.
pub(super) fn extent(arrangement: &Arrangement, rail: &PlacedRail, canvas: &Canvas) -> Area {
    let terminals = arrangement
        .terminals
        .iter()
        .filter(|terminal| terminal.rail == rail.id)
        .map(|terminal| &terminal.body);
    arrangement
        .accessories
        .iter()
        .filter(|part| part.rail == rail.id)
        .map(|part| &part.body)
        .chain(terminals)
        .fold(front(&rail.body, canvas), |all, body| {
            all.joined(&front(body, canvas))
        })
}

fn draw_accessories(arrangement: &Arrangement, rail: &PlacedRail, canvas: &mut Canvas) {
    for accessory in arrangement
        .accessories
        .iter()
        .filter(|part| part.rail == rail.id)
    {
        let area = front(&accessory.body, canvas);
        canvas.reserve(area);
        let shape = Shape::new(Layer::Outline, Geometry::Rectangle(area))
            .pen(Pen::solid(0.25))
            .of(subject::accessory(&accessory.id));
        match accessory.kind {
            AccessoryKind::EndStop => {
                canvas.add(shape.fill(Colour::White));
                canvas.add_all(hatch(area, 1.2));
            }
            _ => canvas.add(shape.fill(Colour::Grey)),
        }
    }
}

fn draw_terminal(terminal: &PlacedTerminal, turned: bool, is_numbered: bool, canvas: &mut Canvas) {
    let area = front(&terminal.body, canvas);
    let base = if terminal.kind == CircuitKind::IntrinsicallySafe {
        Colour::LightBlue
    } else {
        Colour::White
    };
    let is_earth = terminal.function == TerminalFunction::Earth;
    if is_earth {
        // Green and yellow: bands across, the text on the yellow ones.
        let (low, high) = (area.height_mm() * 0.4, area.height_mm() * 0.6);
        for (from, to, colour) in [
            (0.0, low, Colour::Yellow),
            (low, high, Colour::Green),
            (high, area.height_mm(), Colour::Yellow),
        ] {
            let band = Area::new(
                area.left_mm,
                area.bottom_mm + from,
                area.right_mm,
                area.bottom_mm + to,
            );
            canvas.add(
                Shape::new(Layer::Outline, Geometry::Rectangle(band))
                    .fill(colour)
                    .without_edge(),
            );
        }
    }
    let mut body = Shape::new(Layer::Outline, Geometry::Rectangle(area)).pen(Pen::solid(0.25));
    if !is_earth {
        body = body.fill(base);
    }
    canvas.add(body.of(subject::terminal(&terminal.id)));
    canvas.reserve(area);
    write_terminal(terminal, area, (turned, is_numbered), canvas);
}

/// Number in the lower half, marking in the upper one; turned where the terminal is too narrow. The
/// middle is left to jumpers. What does not fit at this scale is left to the table.
fn write_terminal(
    terminal: &PlacedTerminal,
    area: Area,
    (turned, is_numbered): (bool, bool),
    canvas: &mut Canvas,
) {
    let middle = area.centre();
    let half_mm = area.height_mm() / 2.0;
    let mut write = |content: &str, style: TextStyle, turned: bool, dy: f64, room_mm: f64| {
        if content.is_empty() {
            return;
        }
        let length = advance_mm(content, &style);
        let turned = turned || length + 0.6 > area.width_mm();
        let style = if turned { style.upwards() } else { style };
        let label = Label::centred(middle.moved(0.0, dy), style, content);
        let taken = label.area();
        if taken.height_mm() > room_mm || !area.contains(&taken) {
            return;
        }
        canvas.add(
            Shape::new(Layer::Text, Geometry::Text(label)).of(subject::terminal(&terminal.id)),
        );
    };
    let room_mm = half_mm - 1.8;
    let number = if is_numbered {
        terminal.number.to_string()
    } else {
        String::new()
    };
    write(
        &number,
        SMALL.bold(),
        turned,
        -(half_mm + 0.8) / 2.0,
        room_mm,
    );
    let marking = if terminal.spare && terminal.marking.is_empty() {
        "SPARE"
    } else {
        &terminal.marking
    };
    write(marking, SMALL, false, (half_mm + 0.8) / 2.0, room_mm);
}

/// Keeps the outlines of what lies before the terminals out of their rows of numbers and markings, where a dash would
/// be read as a minus.
pub(super) fn keep_dashes_off(arrangement: &Arrangement, rail: &PlacedRail, canvas: &mut Canvas) {
    for (_, terminals) in strips(arrangement, rail) {
        let areas = terminals.iter().map(|part| front(&part.body, canvas));
        let Some(whole) = areas.reduce(|all, next| all.joined(&next)) else {
            continue;
        };
        let texts = canvas
            .shapes()
            .iter()
            .filter_map(|shape| match &shape.geometry {
                Geometry::Text(label) => Some(label.area()),
                _ => None,
            });
        let (upper, lower): (Vec<Area>, Vec<Area>) = texts
            .filter(|area| whole.contains(area))
            .partition(|area| area.centre().y_mm > whole.centre().y_mm);
        for row in [upper, lower] {
            if let Some(row) = row.into_iter().reduce(|all, next| all.joined(&next)) {
                canvas.keep_dashes_off(row);
            }
        }
    }
}

fn draw_jumpers(arrangement: &Arrangement, rail: &PlacedRail, canvas: &mut Canvas) {
    for jumper in &arrangement.jumpers {
        let spots: Vec<Spot> = jumper
            .terminals
            .iter()
            .filter_map(|id| {
                arrangement
                    .terminals
                    .iter()
                    .find(|terminal| terminal.id == *id && terminal.rail == rail.id)
            })
            .map(|terminal| front(&terminal.body, canvas).centre())
            .collect();
        if spots.is_empty() {
            continue;
        }
        for spot in &spots {
            let dot = Geometry::Circle {
                centre: *spot,
                radius_mm: 0.6,
            };
            canvas.add(
                Shape::new(Layer::Outline, dot)
                    .fill(Colour::Black)
                    .without_edge()
                    .of(subject::jumper(&jumper.id)),
            );
        }
        let line = Geometry::Polyline {
            spots,
            closed: false,
        };
        canvas.add(
            Shape::new(Layer::Outline, line)
                .pen(Pen::solid(0.7))
                .of(subject::jumper(&jumper.id)),
        );
    }
}

/// How many lines further out the name of a strip is tried before it is written over what is drawn.
const STRIP_TRIES: i32 = 8;

/// Writes the name of each strip over or under its terminals, clear of other text; further out with a leader
/// where there is no room. `over_mm` is the distance of the first try from the terminal.
pub(super) fn write_strips(
    arrangement: &Arrangement,
    rail: &PlacedRail,
    over_mm: f64,
    canvas: &mut Canvas,
) {
    for (name, terminals) in strips(arrangement, rail) {
        let areas = terminals.iter().map(|part| front(&part.body, canvas));
        let (Some(first), Some(whole)) = (
            terminals.first().map(|part| front(&part.body, canvas)),
            areas.reduce(|all, next| all.joined(&next)),
        ) else {
            continue;
        };
        write_strip(name, first, whole, over_mm, canvas);
    }
}

/// Writes the name of one strip, whose first terminal and whose whole take these areas.
fn write_strip(name: &str, first: Area, whole: Area, over_mm: f64, canvas: &mut Canvas) {
    const LINE_MM: f64 = 3.6;
    let style = TextStyle::plain(2.5).bold();
    let at = |x_mm: f64, y_mm: f64, align: Align| Label {
        at: Spot::new(x_mm, y_mm),
        style: style.align(align),
        content: name.to_string(),
    };
    let (over, under) = (first.top_mm + over_mm, first.bottom_mm - 3.7);
    let beside = |y_mm: f64| {
        [
            at(first.left_mm, y_mm, Align::Start),
            at(whole.right_mm, y_mm, Align::End),
            at(whole.centre().x_mm, y_mm, Align::Middle),
        ]
    };
    let near: Vec<Label> = [over, under, over + LINE_MM]
        .into_iter()
        .map(|y_mm| at(first.left_mm, y_mm, Align::Start))
        .chain([over, under].into_iter().flat_map(beside))
        .collect();
    if canvas.write_first(near, None) {
        return;
    }
    let far: Vec<Label> = (1..=STRIP_TRIES)
        .map(f64::from)
        .flat_map(|line| [over + line * LINE_MM, under - line * LINE_MM])
        .flat_map(beside)
        .collect();
    let Some(label) = far.iter().find(|label| canvas.is_free(&label.area())) else {
        // Better over a line than not at all.
        canvas.write_over(far, &"strip".into());
        return;
    };
    let words = label.area();
    let x_mm = whole
        .centre()
        .x_mm
        .clamp(words.left_mm + 0.5, words.right_mm - 0.5);
    let ends = if words.bottom_mm > whole.top_mm {
        (
            Spot::new(x_mm, whole.top_mm),
            Spot::new(x_mm, words.bottom_mm - 0.4),
        )
    } else {
        (
            Spot::new(x_mm, words.top_mm + 0.4),
            Spot::new(x_mm, whole.bottom_mm),
        )
    };
    canvas.add(Shape::new(Layer::Text, Geometry::Text(label.clone())));
    canvas.interrupted(&Shape::new(
        Layer::Dimensions,
        Geometry::Line(ends.0, ends.1),
    ));
}
