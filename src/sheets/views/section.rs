//! A section from the left: walls cut, and the depth stack of plate, rails, terminals and what else stands
//! on them, bodies of elements, glands that reach in, and lid. The page's x is the depth z, so that the lid is at the right.

use super::outline_names::write_names;
use super::parts::{EDGE_GAP_MM, FaceOutline, SMALL, entry_fill};
use crate::arrangement::{Arrangement, PlacedEntry};
use crate::sheets::depth;
use crate::sheets::drawing::{
    Align, Area, Canvas, Colour, Edge, Geometry, Label, Layer, Mark, Pen, Shape, Spot, SubjectKey,
    datum, extent, hatch, length, marks, shortened,
};
use crate::sheets::subject;
use crate::sheets::{number, tenth};
use crate::space::{Block, Face};
use itertools::Itertools;
use std::collections::BTreeMap;

/// Distance between the lines of a cut wall.
const HATCH_MM: f64 = 1.4;
/// Longest words at a depth; the table of the stack has the whole.
const WORDS_MM: f64 = 44.0;

/// Draws the section.
pub(super) fn draw(arrangement: &Arrangement, canvas: &mut Canvas) {
    let outline = outline(arrangement);
    draw_far_entries(arrangement, canvas);
    draw_walls(&outline, canvas);
    draw_plate(arrangement, canvas);
    draw_entries(arrangement, canvas);
    draw_rails(arrangement, canvas);
    draw_bodies(arrangement, canvas);
    // Close to the plate there is no room to name the height; the wall and inside views have it.
    datum(canvas, "z", "");
    write_reach(arrangement, &outline, canvas);
    write_clearance(arrangement, &outline, canvas);
    write_depths(arrangement, &outline, canvas);
    outline.dimension(canvas);
}

/// The outline of the section: that of the left wall with depth to the right.
fn outline(arrangement: &Arrangement) -> FaceOutline {
    let side = FaceOutline::of(arrangement, Face::Left);
    let (low_y, low_z, high_y, high_z) = side.outer;
    FaceOutline {
        inner: (side.inner.1, side.inner.0),
        outer: (low_z, low_y, high_z, high_y),
    }
}

/// A block seen from the left.
fn side(block: &Block, canvas: &Canvas) -> Area {
    canvas.area(
        block.min.z_mm,
        block.min.y_mm,
        block.max.z_mm,
        block.max.y_mm,
    )
}

/// Back, bottom, top and lid, cut; the lid ends at its inner face.
fn draw_walls(outline: &FaceOutline, canvas: &mut Canvas) {
    let (left, lower, right, upper) = outline.outer;
    let (depth, height) = outline.inner;
    let cut = [
        (left, lower, 0.0, upper),
        (0.0, lower, depth, 0.0),
        (0.0, height, depth, upper),
        (depth, lower, right, upper),
    ];
    for (x0, y0, x1, y1) in cut {
        let area = canvas.area(x0, y0, x1, y1);
        if area.width_mm() > 1e-9 && area.height_mm() > 1e-9 {
            canvas.add_all(hatch(area, HATCH_MM));
            canvas.reserve(area);
        }
    }
    outline.draw(canvas, Layer::Outline);
    let (from, to) = (canvas.spot(depth, lower), canvas.spot(depth, upper));
    canvas.line(Layer::Outline, from, to);
}

/// The face of the plate as a thick line; what carries it is not known and drawn hidden.
fn draw_plate(arrangement: &Arrangement, canvas: &mut Canvas) {
    let plate = &arrangement.enclosure.plate;
    let top_mm = plate.y_mm + plate.height_mm;
    let room = canvas.area(0.0, plate.y_mm, plate.standoff_mm, top_mm);
    canvas.reserve(room);
    canvas.add(Shape::new(Layer::Hidden, Geometry::Rectangle(room)).of("plate"));
    let face = Geometry::Line(
        canvas.spot(plate.standoff_mm, plate.y_mm),
        canvas.spot(plate.standoff_mm, top_mm),
    );
    canvas.add(
        Shape::new(Layer::Outline, face)
            .pen(Pen::solid(0.7))
            .of("plate"),
    );
}

/// Entries of the far wall, behind everything.
fn draw_far_entries(arrangement: &Arrangement, canvas: &mut Canvas) {
    for entry in of_walls(arrangement, &[Face::Right]) {
        let area = side(&entry.inside, canvas);
        let (centre, radius_mm) = (area.centre(), area.width_mm().min(area.height_mm()) / 2.0);
        canvas.keep_off_circle(centre, radius_mm);
        let circle = Geometry::Circle { centre, radius_mm };
        canvas.add(
            Shape::new(Layer::Outline, circle)
                .pen(Pen::solid(0.18))
                .fill(entry_fill(arrangement, entry))
                .of(subject::entry(&entry.id)),
        );
    }
}

/// Entries in the bottom and the top wall; those of one row hide each other.
fn draw_entries(arrangement: &Arrangement, canvas: &mut Canvas) {
    let mut drawn: Vec<Area> = Vec::new();
    for entry in of_walls(arrangement, &[Face::Bottom, Face::Top]) {
        let whole = side(&entry.outside, canvas).joined(&side(&entry.inside, canvas));
        let is_same = |known: &Area| same(known, &whole);
        if drawn.iter().any(is_same) {
            continue;
        }
        drawn.push(whole);
        let fill = entry_fill(arrangement, entry);
        for block in [&entry.outside, &entry.inside] {
            let shape = Shape::new(Layer::Outline, Geometry::Rectangle(side(block, canvas)));
            canvas.add(
                shape
                    .pen(Pen::solid(0.25))
                    .fill(fill)
                    .of(subject::entry(&entry.id)),
            );
        }
        let (inside, outside) = (side(&entry.inside, canvas), side(&entry.outside, canvas));
        let middle_mm = inside.centre().x_mm;
        let all = inside.joined(&outside).grown(1.0);
        canvas.line(
            Layer::Centre,
            Spot::new(middle_mm, all.bottom_mm),
            Spot::new(middle_mm, all.top_mm),
        );
    }
}

/// Whether two outlines are the same on paper.
fn same(a: &Area, b: &Area) -> bool {
    a.grown(0.05).contains(b) && b.grown(0.05).contains(a)
}

/// Entries of some walls, the farthest first.
fn of_walls<'a>(arrangement: &'a Arrangement, walls: &[Face]) -> Vec<&'a PlacedEntry> {
    let mut entries: Vec<&PlacedEntry> = arrangement
        .entries
        .iter()
        .filter(|entry| walls.contains(&entry.wall))
        .collect();
    entries.sort_by(|a, b| {
        let x_mm = |entry: &PlacedEntry| entry.inside.max.x_mm;
        x_mm(b).total_cmp(&x_mm(a)).then(a.id.cmp(&b.id))
    });
    entries
}

/// A distinct outline of something on a rail.
struct Standing {
    area: Area,
    key: SubjectKey,
    /// Whether it is a terminal.
    is_terminal: bool,
    /// Names of the strips that it stands for.
    strips: Vec<String>,
}

/// Adds an outline, or the name of its strip to an equal one.
fn gather(standing: &mut Vec<Standing>, next: Standing) {
    let known = standing
        .iter_mut()
        .find(|known| known.is_terminal == next.is_terminal && same(&known.area, &next.area));
    match known {
        Some(known) => {
            for name in next.strips {
                if !known.strips.contains(&name) {
                    known.strips.push(name);
                }
            }
        }
        None => standing.push(next),
    }
}

/// Rails in profile and the outlines of what stands on them, each distinct one once: end stops, end plates
/// and partitions thin, terminals over them and filled, with the names of their strips.
fn draw_rails(arrangement: &Arrangement, canvas: &mut Canvas) {
    for rail in &arrangement.rails {
        let area = side(&rail.body, canvas);
        canvas.add(
            Shape::new(Layer::Outline, Geometry::Rectangle(area))
                .fill(Colour::Grey)
                .of(subject::rail(&rail.id)),
        );
        let mut standing: Vec<Standing> = Vec::new();
        for part in arrangement
            .accessories
            .iter()
            .filter(|part| part.rail == rail.id)
        {
            let next = Standing {
                area: side(&part.body, canvas),
                key: subject::accessory(&part.id),
                is_terminal: false,
                strips: Vec::new(),
            };
            gather(&mut standing, next);
        }
        for terminal in arrangement
            .terminals
            .iter()
            .filter(|terminal| terminal.rail == rail.id)
        {
            let next = Standing {
                area: side(&terminal.body, canvas),
                key: subject::terminal(&terminal.id),
                is_terminal: true,
                strips: vec![terminal.strip.clone()],
            };
            gather(&mut standing, next);
        }
        // Terminals over the rest, the largest first, so that none hides another.
        standing.sort_by(|a, b| {
            let size = |part: &Standing| part.area.width_mm() * part.area.height_mm();
            a.is_terminal
                .cmp(&b.is_terminal)
                .then(size(b).total_cmp(&size(a)))
        });
        for part in &standing {
            let (width_mm, fill) = if part.is_terminal {
                (0.35, Colour::Grey)
            } else {
                (0.18, Colour::White)
            };
            canvas.add(
                Shape::new(Layer::Outline, Geometry::Rectangle(part.area))
                    .pen(Pen::solid(width_mm))
                    .fill(fill)
                    .of(part.key.clone()),
            );
        }
        write_standing(&rail.id, area, &standing, canvas);
    }
}

/// Names of the strips on the outlines of their terminals, and of the rail over or under them all.
fn write_standing(rail: &str, profile: Area, standing: &[Standing], canvas: &mut Canvas) {
    let whole = standing
        .iter()
        .map(|part| part.area)
        .fold(profile, |all, next| all.joined(&next));
    // Seen along the rail its strips lie behind one another: one label names them all.
    let terminals: Vec<&Standing> = standing.iter().filter(|part| part.is_terminal).collect();
    let areas = terminals.iter().map(|part| part.area);
    if let (Some(first), Some(area)) = (
        terminals.first(),
        areas.reduce(|all, next| all.joined(&next)),
    ) {
        let names: Vec<&str> = terminals
            .iter()
            .flat_map(|part| part.strips.iter().map(String::as_str))
            .unique()
            .collect();
        write_names(&names, area, Colour::Grey, &first.key, canvas);
    }
    let at = |x_mm: f64, y_mm: f64, align: Align| Label {
        at: Spot::new(x_mm, y_mm),
        style: SMALL.bold().align(align),
        content: format!("rail {rail}"),
    };
    let middle_mm = (whole.left_mm + whole.right_mm) / 2.0;
    let (over, under) = (whole.top_mm + 1.1, whole.bottom_mm - 2.9);
    let mut places = Vec::new();
    for away_mm in [0.0, 3.0, 6.0] {
        for y_mm in [over + away_mm, under - away_mm] {
            places.push(at(middle_mm, y_mm, Align::Middle));
            places.push(at(whole.left_mm, y_mm, Align::Start));
            places.push(at(whole.right_mm, y_mm, Align::End));
        }
    }
    canvas.write_first(places, Some(&subject::rail(rail)));
}

/// Bodies of elements behind the lid: rows that are seen as one outline share one label.
fn draw_bodies(arrangement: &Arrangement, canvas: &mut Canvas) {
    let mut groups: Vec<(Area, Vec<&str>)> = Vec::new();
    for element in &arrangement.elements {
        let area = side(&element.body, canvas);
        let known = groups.iter_mut().find(|(known, _)| same(known, &area));
        match known {
            Some((_, tags)) => tags.push(&element.tag),
            None => groups.push((area, vec![&element.tag])),
        }
    }
    groups.sort_by(|a, b| {
        let size = |area: &Area| area.width_mm() * area.height_mm();
        size(&b.0).total_cmp(&size(&a.0))
    });
    for (area, tags) in &groups {
        canvas.add(
            Shape::new(Layer::Outline, Geometry::Rectangle(*area))
                .pen(Pen::solid(0.25))
                .fill(Colour::White)
                .of(subject::element(tags[0])),
        );
    }
    for (area, tags) in &groups {
        write_names(
            tags,
            *area,
            Colour::White,
            &subject::element(tags[0]),
            canvas,
        );
    }
}

/// How far bodies of glands and plugs reach in: the farthest of the bottom and of the top wall, beside the
/// lid, measured from the inside of the wall.
fn write_reach(arrangement: &Arrangement, outline: &FaceOutline, canvas: &mut Canvas) {
    let height_mm = outline.inner.1;
    let from_mm = outline.outer_area(canvas).right_mm + 1.0;
    let line_mm = extent(canvas).right_mm + 6.0;
    for wall in [Face::Bottom, Face::Top] {
        let farthest = depth::reaching(arrangement)
            .into_iter()
            .filter(|reaching| reaching.wall == wall)
            .map(|reaching| reaching.reach_mm)
            .fold(0.0, f64::max);
        if farthest <= 0.0 {
            continue;
        }
        let ends = match wall {
            Face::Bottom => (0.0, farthest),
            _ => (height_mm - farthest, height_mm),
        };
        let on_paper = (ends.0 * canvas.ratio(), ends.1 * canvas.ratio());
        length(
            canvas,
            Edge::Right,
            on_paper,
            from_mm,
            line_mm,
            tenth(farthest),
        );
    }
}

/// The free depth before what stands on the rails, as a dimension over the box. With bodies behind the
/// lid it is not free everywhere: the table of the stack has the least.
fn write_clearance(arrangement: &Arrangement, outline: &FaceOutline, canvas: &mut Canvas) {
    if !arrangement.elements.is_empty() {
        return;
    }
    let depth_mm = outline.inner.0;
    let front_mm = arrangement
        .terminals
        .iter()
        .map(|terminal| terminal.body.max.z_mm)
        .chain(
            arrangement
                .accessories
                .iter()
                .map(|part| part.body.max.z_mm),
        )
        .reduce(f64::max);
    let Some(front_mm) = front_mm else { return };
    let line_mm = extent(canvas).top_mm + 6.0;
    let from_mm = outline.outer_area(canvas).top_mm + 1.0;
    let ends = (front_mm * canvas.ratio(), depth_mm * canvas.ratio());
    length(
        canvas,
        Edge::Upper,
        ends,
        from_mm,
        line_mm,
        tenth(depth_mm - front_mm),
    );
}

/// Depths of the stack from the inside of the back wall: what stands on the plate along the lower
/// edge, what hangs from the lid along the upper one.
fn write_depths(arrangement: &Arrangement, outline: &FaceOutline, canvas: &mut Canvas) {
    let (outer, drawn) = (outline.outer_area(canvas), extent(canvas));
    let ratio = canvas.ratio();
    let (mut standing, mut hanging) = (Vec::new(), Vec::new());
    for level in depth::levels(arrangement) {
        let (depth_mm, from_mm) = if level.hangs {
            (level.from_mm, level.reach_mm.1)
        } else {
            (level.to_mm, level.reach_mm.0)
        };
        let words = format!("{}  {}", tenth(depth_mm), level.words);
        let mark = Mark {
            along_mm: depth_mm * ratio,
            from_mm: from_mm * ratio,
            content: shortened(&words, &SMALL, WORDS_MM),
            subject: None,
        };
        if level.hangs {
            hanging.push(mark);
        } else {
            standing.push(mark);
        }
    }
    // Axes of what reaches in through the bottom and the top wall, on the side where it is.
    for wall in [Face::Bottom, Face::Top] {
        let mut axes: BTreeMap<i64, Vec<depth::Reaching>> = BTreeMap::new();
        for reaching in depth::reaching(arrangement) {
            if reaching.wall == wall {
                // Equal to a hundredth of a millimetre is one axis.
                let hundredths = (reaching.axis_mm() * 100.0).round() as i64;
                axes.entry(hundredths).or_default().push(reaching);
            }
        }
        for on_axis in axes.values() {
            let Some(first) = on_axis.first() else {
                continue;
            };
            let names: Vec<String> = on_axis.iter().map(depth::Reaching::names).collect();
            let words = format!(
                "{}  axis of {}",
                number(first.axis_mm(), 2),
                names.join(", ")
            );
            let (marks, from_mm) = if wall == Face::Bottom {
                (&mut standing, drawn.bottom_mm.min(outer.bottom_mm) - 0.5)
            } else {
                (&mut hanging, drawn.top_mm.max(outer.top_mm) + 0.5)
            };
            marks.push(Mark {
                along_mm: first.axis_mm() * ratio,
                from_mm,
                content: shortened(&words, &SMALL, WORDS_MM),
                subject: first.ids.first().map(|id| subject::entry(id)),
            });
        }
    }
    let lid_mm = outline.inner.0;
    standing.push(Mark {
        along_mm: lid_mm * ratio,
        from_mm: outer.bottom_mm - 0.5,
        content: format!("{}  lid, inside", tenth(lid_mm)),
        subject: Some("lid".into()),
    });
    let (low, high) = (
        outer.bottom_mm.min(drawn.bottom_mm) - EDGE_GAP_MM,
        outer.top_mm.max(drawn.top_mm) + EDGE_GAP_MM,
    );
    marks(canvas, Edge::Lower, low, standing, SMALL);
    marks(canvas, Edge::Upper, high, hanging, SMALL);
}
