//! The inside from the front, lid removed: plate, rails, terminals with number and marking, what else
//! stands on the rails, the entries at the walls, and the element bodies behind the lid, dashed.

use super::on_rails::{self, Numbers, front};
use super::parts::{EDGE_GAP_MM, FaceOutline, SMALL, entry_fill, position_marks};
use crate::arrangement::{Arrangement, PlacedEntry, PlacedRail};
use crate::sheets::drawing::{
    Align, Area, Canvas, Edge, Geometry, Label, Layer, Mark, Pen, Shape, Spot, advance_mm, datum,
    extent, marks, shortened,
};
use crate::sheets::subject;
use crate::sheets::{tables, tenth};
use crate::space::Face;

/// Longest tag at an entry; the hole table has the whole of a longer one.
const TAG_MM: f64 = 36.0;

/// Draws the inside.
pub(super) fn draw(arrangement: &Arrangement, canvas: &mut Canvas) {
    let outline = FaceOutline::of(arrangement, Face::Lid);
    outline.draw(canvas, Layer::Outline);
    draw_plate(arrangement, canvas);
    draw_entries(arrangement, canvas);
    for rail in &arrangement.rails {
        on_rails::draw(arrangement, rail, Numbers::Legible, canvas);
    }
    // Before all text that looks for its place: the letters of the axes have theirs.
    datum(canvas, "x", "y");
    for rail in &arrangement.rails {
        on_rails::write_strips(arrangement, rail, 1.2, canvas);
    }
    for rail in &arrangement.rails {
        write_rail(arrangement, rail, canvas);
    }
    for rail in &arrangement.rails {
        on_rails::keep_dashes_off(arrangement, rail, canvas);
    }
    draw_bodies(arrangement, canvas);
    write_plate(arrangement, canvas);
    write_edges(arrangement, &outline, canvas);
    outline.dimension(canvas);
}

/// The mounting plate on paper.
fn plate_area(arrangement: &Arrangement, canvas: &Canvas) -> Area {
    let plate = &arrangement.enclosure.plate;
    canvas.area(
        plate.x_mm,
        plate.y_mm,
        plate.x_mm + plate.width_mm,
        plate.y_mm + plate.height_mm,
    )
}

fn draw_plate(arrangement: &Arrangement, canvas: &mut Canvas) {
    let area = plate_area(arrangement, canvas);
    canvas.add(
        Shape::new(Layer::Outline, Geometry::Rectangle(area))
            .pen(Pen::solid(0.18))
            .of("plate"),
    );
}

/// Names the plate along its right or left edge, the higher the better, clear of all that stands on it or before it.
/// Where nothing is clear its edges tell its size.
fn write_plate(arrangement: &Arrangement, canvas: &mut Canvas) {
    const STEP_MM: f64 = 3.0;
    let plate = &arrangement.enclosure.plate;
    let area = plate_area(arrangement, canvas);
    let content = format!(
        "mounting plate {} × {}",
        tenth(plate.width_mm),
        tenth(plate.height_mm)
    );
    let entries = arrangement.entries.iter();
    let blocks = entries
        .flat_map(|entry| [&entry.inside, &entry.outside])
        .chain(arrangement.elements.iter().map(|part| &part.body))
        .chain(arrangement.rails.iter().map(|rail| &rail.body))
        .chain(arrangement.terminals.iter().map(|part| &part.body))
        .chain(arrangement.accessories.iter().map(|part| &part.body));
    // Axes stand out beyond the bodies of entries.
    let busy: Vec<Area> = blocks
        .map(|block| front(block, canvas).grown(1.2))
        .collect();
    let heights = (0..)
        .map(|step| area.top_mm - 3.2 - STEP_MM * f64::from(step))
        .take_while(|y_mm| *y_mm > area.bottom_mm + 1.0);
    let places: Vec<Label> = heights
        .flat_map(|y_mm| {
            [
                (area.right_mm - 1.5, Align::End),
                (area.left_mm + 1.5, Align::Start),
            ]
            .map(|(x_mm, align)| Label {
                at: Spot::new(x_mm, y_mm),
                style: SMALL.align(align),
                content: content.clone(),
            })
        })
        .filter(|label| {
            let words = label.area();
            area.contains(&words) && !busy.iter().any(|other| other.meets(&words))
        })
        .collect();
    canvas.write_first(places, Some(&"plate".into()));
}

/// Glands and plugs at the walls, those nearer to the lid over those behind.
fn draw_entries(arrangement: &Arrangement, canvas: &mut Canvas) {
    let mut entries: Vec<&PlacedEntry> = arrangement.entries.iter().collect();
    entries.sort_by(|a, b| {
        a.inside
            .max
            .z_mm
            .total_cmp(&b.inside.max.z_mm)
            .then(a.id.cmp(&b.id))
    });
    for entry in entries {
        let fill = entry_fill(arrangement, entry);
        for block in [&entry.outside, &entry.inside] {
            let shape = Shape::new(Layer::Outline, Geometry::Rectangle(front(block, canvas)));
            canvas.add(
                shape
                    .pen(Pen::solid(0.25))
                    .fill(fill)
                    .of(subject::entry(&entry.id)),
            );
        }
        let (inner, outer) = axis(entry, canvas);
        canvas.add(
            Shape::new(Layer::Centre, Geometry::Line(inner, outer)).of(subject::entry(&entry.id)),
        );
    }
}

/// The axis of an entry from its inner to its outer end.
fn axis(entry: &PlacedEntry, canvas: &Canvas) -> (Spot, Spot) {
    let (inside, outside) = (front(&entry.inside, canvas), front(&entry.outside, canvas));
    let middle = inside.centre();
    match entry.wall {
        Face::Bottom => (
            Spot::new(middle.x_mm, inside.top_mm + 1.0),
            Spot::new(middle.x_mm, outside.bottom_mm),
        ),
        Face::Top => (
            Spot::new(middle.x_mm, inside.bottom_mm - 1.0),
            Spot::new(middle.x_mm, outside.top_mm),
        ),
        Face::Left => (
            Spot::new(inside.right_mm + 1.0, middle.y_mm),
            Spot::new(outside.left_mm, middle.y_mm),
        ),
        _ => (
            Spot::new(inside.left_mm - 1.0, middle.y_mm),
            Spot::new(outside.right_mm, middle.y_mm),
        ),
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
        .chain(
            arrangement
                .accessories
                .iter()
                .filter(|part| part.rail == rail.id)
                .map(|part| &part.body),
        );
    let taken = on_rail
        .map(|block| front(block, canvas))
        .reduce(|all, next| all.joined(&next));
    let taken = taken.unwrap_or(Area::new(
        body.left_mm,
        body.bottom_mm,
        body.left_mm,
        body.top_mm,
    ));
    let mut words = format!(
        "{}  {}  L = {}",
        rail.id,
        rail.profile,
        tenth(rail.length_mm)
    );
    if sides_taken(arrangement) {
        words.push_str(&format!("  y = {}", tenth(rail.body.centre().y_mm)));
    }
    // Where no leader tells its height the label does, in the fewest words too; cut lengths stand in the table.
    let short = if sides_taken(arrangement) {
        format!("{}  y = {}", rail.id, tenth(rail.body.centre().y_mm))
    } else {
        format!("{}  L = {}", rail.id, tenth(rail.length_mm))
    };
    let length = advance_mm(&words, &SMALL);
    let free = (taken.right_mm.max(body.left_mm), body.right_mm);
    let within = (free.1 - free.0 > length + 1.5).then(|| {
        Label::centred(
            Spot::new((free.0 + free.1) / 2.0, body.centre().y_mm),
            SMALL,
            words.clone(),
        )
    });
    let (over, under) = (
        taken.top_mm.max(body.top_mm) + 1.2,
        taken.bottom_mm.min(body.bottom_mm) - 3.2,
    );
    let around = |content: &str| {
        let at = |x_mm: f64, y_mm: f64, align: Align| Label {
            at: Spot::new(x_mm, y_mm),
            style: SMALL.align(align),
            content: content.to_string(),
        };
        [
            at(body.right_mm, over, Align::End),
            at(body.right_mm, under, Align::End),
            at(body.left_mm, under, Align::Start),
            at(body.left_mm, over, Align::Start),
            at(body.centre().x_mm, over, Align::Middle),
            at(body.centre().x_mm, under, Align::Middle),
        ]
    };
    // Clear of the lines of plate and walls if it can be, with fewer words if need be.
    let inner = &arrangement.enclosure.interior;
    let room = canvas.area(0.0, 0.0, inner.width_mm, inner.height_mm);
    let on_plate = plate_area(arrangement, canvas);
    let kept = |content: &str, area: Area| {
        around(content)
            .into_iter()
            .filter(move |label| area.grown(-0.5).contains(&label.area()))
    };
    // Over the rail before under it, where it would seem to name the rail below.
    let (high, low): (Vec<Label>, Vec<Label>) = kept(&words, on_plate)
        .chain(kept(&short, on_plate))
        .chain(kept(&short, room))
        .chain(around(&words))
        .partition(|label| label.at.y_mm >= over - 1e-9);
    let places: Vec<Label> = within.into_iter().chain(high).chain(low).collect();
    canvas.write_first(places, Some(&subject::rail(&rail.id)));
}

/// Bodies of elements behind the lid, over everything else, dashed.
fn draw_bodies(arrangement: &Arrangement, canvas: &mut Canvas) {
    for element in &arrangement.elements {
        let area = front(&element.body, canvas);
        let at = |x_mm: f64, y_mm: f64, align: Align| Label {
            at: Spot::new(x_mm, y_mm),
            style: SMALL.align(align),
            content: element.tag.clone(),
        };
        let (inner, outer) = (area.top_mm - 2.8, area.top_mm + 0.9);
        let mut places = vec![
            Label::centred(area.centre(), SMALL, element.tag.clone()),
            at(area.left_mm + 0.8, inner, Align::Start),
            at(area.right_mm - 0.8, inner, Align::End),
            at(area.left_mm + 0.8, area.bottom_mm + 1.0, Align::Start),
            at(area.right_mm - 0.8, area.bottom_mm + 1.0, Align::End),
            at(area.left_mm, outer, Align::Start),
            at(area.right_mm, outer, Align::End),
            at(area.left_mm, area.bottom_mm - 2.8, Align::Start),
            at(area.right_mm, area.bottom_mm - 2.8, Align::End),
        ];
        // Then anywhere on the body, from the middle outwards.
        for step in 1..8 {
            let share = f64::from(step) / 16.0;
            for (right, up) in [
                (0.0, 1.0),
                (0.0, -1.0),
                (1.0, 0.0),
                (-1.0, 0.0),
                (1.0, 1.0),
                (-1.0, -1.0),
            ] {
                let spot = area.centre().moved(
                    right * share * area.width_mm(),
                    up * share * area.height_mm(),
                );
                places.push(Label::centred(spot, SMALL, element.tag.clone()));
            }
        }
        canvas.write_over(places, &subject::element(&element.tag));
        canvas.interrupted_rectangle(Layer::Hidden, area, &subject::element(&element.tag));
    }
}

/// Whether entries stand at both sides, so that a leader from a rail to the edge would cross them: the
/// rail itself says where it is then.
fn sides_taken(arrangement: &Arrangement) -> bool {
    [Face::Left, Face::Right]
        .into_iter()
        .all(|face| arrangement.entries.iter().any(|entry| entry.wall == face))
}

/// Along the edges: which cable enters where, then the positions of the rails.
fn write_edges(arrangement: &Arrangement, outline: &FaceOutline, canvas: &mut Canvas) {
    let outer = outline.outer_area(canvas);
    let mut reach = extent(canvas);
    let walls = [
        (Face::Bottom, Edge::Lower),
        (Face::Top, Edge::Upper),
        (Face::Left, Edge::Left),
        (Face::Right, Edge::Right),
    ];
    for (wall, edge) in walls {
        let found: Vec<Mark> = arrangement
            .entries
            .iter()
            .filter(|entry| entry.wall == wall)
            .map(|entry| {
                let (_, end) = axis(entry, canvas);
                let (along_mm, from_mm) = if matches!(edge, Edge::Lower | Edge::Upper) {
                    (end.x_mm, end.y_mm)
                } else {
                    (end.y_mm, end.x_mm)
                };
                let words = format!("{} {}", entry.id, tables::purpose_words(&entry.purpose));
                let content = shortened(&words, &SMALL, TAG_MM);
                Mark {
                    along_mm,
                    from_mm,
                    content,
                    subject: Some(subject::entry(&entry.id)),
                }
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
    let blocked =
        |face: Face, edge_mm: f64, free_mm: f64| if has_entries(face) { edge_mm } else { free_mm };
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
            Mark {
                along_mm: middle(rail) * canvas.ratio(),
                from_mm,
                content,
                subject: Some(subject::rail(&rail.id)),
            }
        })
        .collect();
    let gap = |edge: Edge| {
        if matches!(edge, Edge::Left | Edge::Lower) {
            -EDGE_GAP_MM
        } else {
            EDGE_GAP_MM
        }
    };
    let side_line = match side {
        Edge::Right => side_mm.max(outer.right_mm),
        _ => side_mm.min(outer.left_mm),
    };
    if !sides_taken(arrangement) {
        marks(canvas, side, side_line + gap(side), up, SMALL);
    }
    let ends: Vec<(f64, f64)> = arrangement
        .rails
        .iter()
        .flat_map(|rail| {
            [
                (rail.body.min.x_mm, middle(rail)),
                (rail.body.max.x_mm, middle(rail)),
            ]
        })
        .collect();
    let mut along = position_marks(&ends, canvas, end);
    let end_face = if end == Edge::Upper {
        Face::Top
    } else {
        Face::Bottom
    };
    for mark in &mut along {
        mark.from_mm = blocked(end_face, end_mm + gap(end) / 4.0, mark.from_mm);
    }
    marks(canvas, end, end_mm + gap(end), along, SMALL);
}
