//! The inside from the front, lid removed: plate, rails, terminals with number and marking, what else
//! stands on the rails, the entries at the walls, and the element bodies behind the lid, dashed.

use super::parts::{EDGE_GAP_MM, FaceOutline, SMALL, entry_fill, position_marks};
use crate::arrangement::{Arrangement, PlacedEntry, PlacedRail, PlacedTerminal};
use crate::catalogue::{AccessoryKind, CircuitKind, TerminalFunction};
use crate::sheets::drawing::{
    Align, Area, Canvas, Colour, Edge, Geometry, Label, Layer, Mark, Pen, Shape, Spot, TextStyle, advance_mm,
    datum, extent, hatch, marks,
};
use crate::sheets::{tables, tenth};
use crate::space::{Block, Face};

/// Draws the inside.
pub(super) fn draw(arrangement: &Arrangement, canvas: &mut Canvas) {
    let outline = FaceOutline::of(arrangement, Face::Lid);
    outline.draw(canvas, Layer::Outline);
    draw_plate(arrangement, canvas);
    for rail in &arrangement.rails {
        let shape = Shape::new(Layer::Outline, Geometry::Rectangle(front(&rail.body, canvas)));
        canvas.add(shape.pen(Pen::solid(0.25)).of(&rail.id));
    }
    draw_entries(arrangement, canvas);
    draw_accessories(arrangement, canvas);
    for terminal in &arrangement.terminals {
        draw_terminal(terminal, canvas);
    }
    draw_jumpers(arrangement, canvas);
    write_strips(arrangement, canvas);
    for rail in &arrangement.rails {
        write_rail(arrangement, rail, canvas);
    }
    draw_bodies(arrangement, canvas);
    datum(canvas, "x", "y");
    write_edges(arrangement, &outline, canvas);
    outline.dimension(canvas);
}

/// A block seen from the front.
fn front(block: &Block, canvas: &Canvas) -> Area {
    canvas.area(block.min.x_mm, block.min.y_mm, block.max.x_mm, block.max.y_mm)
}

fn draw_plate(arrangement: &Arrangement, canvas: &mut Canvas) {
    let plate = &arrangement.enclosure.plate;
    let area =
        canvas.area(plate.x_mm, plate.y_mm, plate.x_mm + plate.width_mm, plate.y_mm + plate.height_mm);
    canvas.add(Shape::new(Layer::Outline, Geometry::Rectangle(area)).pen(Pen::solid(0.18)).of("plate"));
}

/// Glands and plugs at the walls, those nearer to the lid over those behind.
fn draw_entries(arrangement: &Arrangement, canvas: &mut Canvas) {
    let mut entries: Vec<&PlacedEntry> = arrangement.entries.iter().collect();
    entries.sort_by(|a, b| a.inside.max.z_mm.total_cmp(&b.inside.max.z_mm).then(a.id.cmp(&b.id)));
    for entry in entries {
        let fill = entry_fill(arrangement, entry);
        for block in [&entry.outside, &entry.inside] {
            let shape = Shape::new(Layer::Outline, Geometry::Rectangle(front(block, canvas)));
            canvas.add(shape.pen(Pen::solid(0.25)).fill(fill).of(&entry.id));
        }
        let (inner, outer) = axis(entry, canvas);
        canvas.add(Shape::new(Layer::Centre, Geometry::Line(inner, outer)).of(&entry.id));
    }
}

/// The axis of an entry from its inner to its outer end.
fn axis(entry: &PlacedEntry, canvas: &Canvas) -> (Spot, Spot) {
    let (inside, outside) = (front(&entry.inside, canvas), front(&entry.outside, canvas));
    let middle = inside.centre();
    match entry.wall {
        Face::Bottom => (Spot::new(middle.x_mm, inside.top_mm + 1.0), Spot::new(middle.x_mm, outside.bottom_mm)),
        Face::Top => (Spot::new(middle.x_mm, inside.bottom_mm - 1.0), Spot::new(middle.x_mm, outside.top_mm)),
        Face::Left => (Spot::new(inside.right_mm + 1.0, middle.y_mm), Spot::new(outside.left_mm, middle.y_mm)),
        _ => (Spot::new(inside.left_mm - 1.0, middle.y_mm), Spot::new(outside.right_mm, middle.y_mm)),
    }
}

fn draw_accessories(arrangement: &Arrangement, canvas: &mut Canvas) {
    for accessory in &arrangement.accessories {
        let area = front(&accessory.body, canvas);
        let shape =
            Shape::new(Layer::Outline, Geometry::Rectangle(area)).pen(Pen::solid(0.25)).of(&accessory.id);
        match accessory.kind {
            AccessoryKind::EndStop => {
                canvas.add(shape.fill(Colour::White));
                canvas.add_all(hatch(area, 1.2));
            }
            _ => canvas.add(shape.fill(Colour::Grey)),
        }
    }
}

fn draw_terminal(terminal: &PlacedTerminal, canvas: &mut Canvas) {
    let area = front(&terminal.body, canvas);
    let base = if terminal.kind == CircuitKind::IntrinsicallySafe { Colour::LightBlue } else { Colour::White };
    let is_earth = terminal.function == TerminalFunction::Earth;
    if is_earth {
        // Green and yellow: bands across, the text on the yellow ones.
        let third = area.height_mm() / 3.0;
        for (index, colour) in [Colour::Yellow, Colour::Green, Colour::Yellow].into_iter().enumerate() {
            let low = area.bottom_mm + index as f64 * third;
            let band = Area::new(area.left_mm, low, area.right_mm, low + third);
            canvas.add(Shape::new(Layer::Outline, Geometry::Rectangle(band)).fill(colour).without_edge());
        }
    }
    let mut body = Shape::new(Layer::Outline, Geometry::Rectangle(area)).pen(Pen::solid(0.25));
    if !is_earth {
        body = body.fill(base);
    }
    canvas.add(body.of(&terminal.id));
    write_terminal(terminal, area, canvas);
}

/// Number in the lower half, marking in the upper one; turned where the terminal is too narrow. The
/// middle is left to jumpers. What does not fit at this scale is left to the table.
fn write_terminal(terminal: &PlacedTerminal, area: Area, canvas: &mut Canvas) {
    let middle = area.centre();
    let half_mm = area.height_mm() / 2.0;
    let mut write = |content: &str, style: TextStyle, dy: f64, room_mm: f64| {
        let length = advance_mm(content, &style);
        let turned = length + 0.6 > area.width_mm();
        let (along, across) = if turned { (length, style.height_mm) } else { (style.height_mm, length) };
        if along > room_mm || across + 0.1 > area.width_mm() {
            return;
        }
        let style = if turned { style.upwards() } else { style };
        let label = Label::centred(middle.moved(0.0, dy), style, content);
        canvas.add(Shape::new(Layer::Text, Geometry::Text(label)).of(&terminal.id));
    };
    let room_mm = half_mm - 1.6;
    write(&terminal.number.to_string(), SMALL.bold(), -(half_mm + 0.8) / 2.0, room_mm);
    let marking = if terminal.spare && terminal.marking.is_empty() { "spare" } else { &terminal.marking };
    write(marking, SMALL, (half_mm + 0.8) / 2.0, room_mm);
}

fn draw_jumpers(arrangement: &Arrangement, canvas: &mut Canvas) {
    for jumper in &arrangement.jumpers {
        let spots: Vec<Spot> = jumper
            .terminals
            .iter()
            .filter_map(|id| arrangement.terminals.iter().find(|terminal| terminal.id == *id))
            .map(|terminal| front(&terminal.body, canvas).centre())
            .collect();
        for spot in &spots {
            let dot = Geometry::Circle { centre: *spot, radius_mm: 0.6 };
            canvas.add(Shape::new(Layer::Outline, dot).fill(Colour::Black).without_edge().of(&jumper.id));
        }
        let line = Geometry::Polyline { spots, closed: false };
        canvas.add(Shape::new(Layer::Outline, line).pen(Pen::solid(0.7)).of(&jumper.id));
    }
}

/// The name of each strip over the first of its terminals on each rail.
fn write_strips(arrangement: &Arrangement, canvas: &mut Canvas) {
    for rail in &arrangement.rails {
        let mut previous = "";
        for terminal in arrangement.terminals.iter().filter(|terminal| terminal.rail == rail.id) {
            if terminal.strip == previous {
                continue;
            }
            previous = &terminal.strip;
            let area = front(&terminal.body, canvas);
            let style = TextStyle::plain(2.5).bold();
            let at = |y_mm: f64| Label { at: Spot::new(area.left_mm, y_mm), style, content: terminal.strip.clone() };
            canvas.write_first([at(area.top_mm + 1.2), at(area.bottom_mm - 3.7), at(area.top_mm + 4.8)], None);
        }
    }
}

/// Name, profile, and cut length of a rail: on its free end, else above or below what stands on it.
fn write_rail(arrangement: &Arrangement, rail: &PlacedRail, canvas: &mut Canvas) {
    let body = front(&rail.body, canvas);
    let on_rail = arrangement
        .terminals
        .iter()
        .filter(|terminal| terminal.rail == rail.id)
        .map(|terminal| &terminal.body)
        .chain(arrangement.accessories.iter().filter(|part| part.rail == rail.id).map(|part| &part.body));
    let taken = on_rail.map(|block| front(block, canvas)).reduce(|all, next| all.joined(&next));
    let taken = taken.unwrap_or(Area::new(body.left_mm, body.bottom_mm, body.left_mm, body.top_mm));
    let words = format!("{}  {}  L = {}", rail.id, rail.profile, tenth(rail.length_mm));
    let length = advance_mm(&words, &SMALL);
    let free = (taken.right_mm.max(body.left_mm), body.right_mm);
    let within = (free.1 - free.0 > length + 1.5).then(|| {
        Label::centred(Spot::new((free.0 + free.1) / 2.0, body.centre().y_mm), SMALL, words.clone())
    });
    let at = |x_mm: f64, y_mm: f64, align: Align| Label {
        at: Spot::new(x_mm, y_mm),
        style: SMALL.align(align),
        content: words.clone(),
    };
    let (over, under) = (taken.top_mm.max(body.top_mm) + 1.2, taken.bottom_mm.min(body.bottom_mm) - 3.2);
    let around = [
        at(body.right_mm, over, Align::End),
        at(body.right_mm, under, Align::End),
        at(body.left_mm, under, Align::Start),
        at(body.left_mm, over, Align::Start),
        at(body.centre().x_mm, over, Align::Middle),
        at(body.centre().x_mm, under, Align::Middle),
    ];
    canvas.write_first(within.into_iter().chain(around), Some(&rail.id));
}

/// Bodies of elements behind the lid, over everything else, dashed.
fn draw_bodies(arrangement: &Arrangement, canvas: &mut Canvas) {
    for element in &arrangement.elements {
        let area = front(&element.body, canvas);
        canvas.add(Shape::new(Layer::Hidden, Geometry::Rectangle(area)).of(&element.tag));
        let at = |x_mm: f64, y_mm: f64, align: Align| Label {
            at: Spot::new(x_mm, y_mm),
            style: SMALL.align(align),
            content: element.tag.clone(),
        };
        let (inner, outer) = (area.top_mm - 2.8, area.top_mm + 0.9);
        canvas.write_first(
            [
                Label::centred(area.centre(), SMALL, element.tag.clone()),
                at(area.left_mm + 0.8, inner, Align::Start),
                at(area.right_mm - 0.8, inner, Align::End),
                at(area.left_mm + 0.8, area.bottom_mm + 1.0, Align::Start),
                at(area.left_mm, outer, Align::Start),
                at(area.right_mm, outer, Align::End),
                at(area.left_mm, area.bottom_mm - 2.8, Align::Start),
                at(area.right_mm, area.bottom_mm - 2.8, Align::End),
            ],
            Some(&element.tag),
        );
    }
}

/// Along the edges: which cable enters where, then the positions of the rails.
fn write_edges(arrangement: &Arrangement, outline: &FaceOutline, canvas: &mut Canvas) {
    let outer = outline.outer_area(canvas);
    let mut reach = extent(canvas);
    let walls =
        [(Face::Bottom, Edge::Lower), (Face::Top, Edge::Upper), (Face::Left, Edge::Left), (Face::Right, Edge::Right)];
    for (wall, edge) in walls {
        let found: Vec<Mark> = arrangement
            .entries
            .iter()
            .filter(|entry| entry.wall == wall)
            .map(|entry| {
                let (_, end) = axis(entry, canvas);
                let (along_mm, from_mm) =
                    if matches!(edge, Edge::Lower | Edge::Upper) { (end.x_mm, end.y_mm) } else { (end.y_mm, end.x_mm) };
                let content = format!("{} {}", entry.id, tables::purpose_words(&entry.purpose));
                Mark { along_mm, from_mm, content, subject: Some(entry.id.clone()) }
            })
            .collect();
        if found.is_empty() {
            continue;
        }
        let line_mm = match edge {
            Edge::Lower => reach.bottom_mm,
            Edge::Upper => reach.top_mm,
            Edge::Left => reach.left_mm,
            Edge::Right => reach.right_mm,
        };
        marks(canvas, edge, line_mm, found, SMALL);
    }
    reach = extent(canvas);
    let has_entries = |face: Face| arrangement.entries.iter().any(|entry| entry.wall == face);
    // Positions of rails stand where no entry is in the way, if there is such a wall.
    let (side, side_mm) = if has_entries(Face::Left) && !has_entries(Face::Right) {
        (Edge::Right, reach.right_mm)
    } else {
        (Edge::Left, reach.left_mm)
    };
    let (end, end_mm) = if has_entries(Face::Bottom) && !has_entries(Face::Top) {
        (Edge::Upper, reach.top_mm)
    } else {
        (Edge::Lower, reach.bottom_mm)
    };
    let blocked = |face: Face, edge_mm: f64, free_mm: f64| if has_entries(face) { edge_mm } else { free_mm };
    let middle = |rail: &PlacedRail| (rail.body.min.y_mm + rail.body.max.y_mm) / 2.0;
    let up: Vec<Mark> = arrangement
        .rails
        .iter()
        .map(|rail| {
            let (face, own_mm, sign) = match side {
                Edge::Right => (Face::Right, rail.body.max.x_mm, 1.0),
                _ => (Face::Left, rail.body.min.x_mm, -1.0),
            };
            let from_mm = blocked(face, side_mm + sign * 0.5, own_mm * canvas.ratio());
            let content = format!("{}  {}", rail.id, tenth(middle(rail)));
            Mark { along_mm: middle(rail) * canvas.ratio(), from_mm, content, subject: Some(rail.id.clone()) }
        })
        .collect();
    let gap = |edge: Edge| if matches!(edge, Edge::Left | Edge::Lower) { -EDGE_GAP_MM } else { EDGE_GAP_MM };
    let side_line = match side {
        Edge::Right => side_mm.max(outer.right_mm),
        _ => side_mm.min(outer.left_mm),
    };
    marks(canvas, side, side_line + gap(side), up, SMALL);
    let ends: Vec<(f64, f64)> = arrangement
        .rails
        .iter()
        .flat_map(|rail| [(rail.body.min.x_mm, middle(rail)), (rail.body.max.x_mm, middle(rail))])
        .collect();
    let mut along = position_marks(&ends, canvas, end);
    let end_face = if end == Edge::Upper { Face::Top } else { Face::Bottom };
    for mark in &mut along {
        mark.from_mm = blocked(end_face, end_mm + gap(end) / 4.0, mark.from_mm);
    }
    marks(canvas, end, end_mm + gap(end), along, SMALL);
}
