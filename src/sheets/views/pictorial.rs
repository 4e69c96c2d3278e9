//! Pictures of the box in isometric projection: closed and seen from below, where most
//! entries are, and opened with lid, top and right wall taken away. For orientation; nothing is measured in them.

use super::parts::{FaceOutline, SMALL, entry_fill};
use crate::arrangement::{Arrangement, PlacedEntry};
use crate::catalogue::{CircuitKind, TerminalFunction};
use crate::sheets::drawing::isometric::{self, Axis, Body, Stand, circle, polygon, project};
use crate::sheets::drawing::{Area, Canvas, Colour, Label, Pen, SubjectKey};
use crate::sheets::subject;
use crate::space::{Block, Face, Point};

/// Draws the closed box with its entries and what sits on the lid.
pub(super) fn draw_closed(arrangement: &Arrangement, canvas: &mut Canvas) {
    let outer = outer(arrangement);
    let mut bodies = vec![Body {
        block: outer,
        round: None,
        fill: Colour::White,
        subject: "enclosure".into(),
    }];
    bodies.extend(arrangement.entries.iter().map(|entry| Body {
        block: outside_of(&entry.outside, &outer, entry.wall),
        round: Some(axis(entry)),
        fill: entry_fill(arrangement, entry),
        subject: subject::entry(&entry.id),
    }));
    isometric::draw(&bodies, Stand::Below, canvas);
    draw_lid(arrangement, &outer, canvas);
    write_tags(arrangement, canvas);
}

/// Draws back, left and bottom wall from inside with everything that stands before them.
pub(super) fn draw_open(arrangement: &Arrangement, canvas: &mut Canvas) {
    let enclosure = &arrangement.enclosure;
    let interior = &enclosure.interior;
    let (w, h, d) = (interior.width_mm, interior.height_mm, interior.depth_mm);
    let outer = outer(arrangement);
    // Entries outside the left and the bottom wall are hidden behind the walls, save for what sticks out.
    let behind: Vec<Body> = of_walls(arrangement, &[Face::Left, Face::Bottom])
        .map(|entry| Body {
            block: outside_of(&entry.outside, &outer, entry.wall),
            round: Some(axis(entry)),
            fill: entry_fill(arrangement, entry),
            subject: subject::entry(&entry.id),
        })
        .collect();
    isometric::draw(&behind, Stand::Above, canvas);
    let thick = Pen::solid(0.35);
    let (low, high) = (outer.min, outer.max);
    // The cut edges of back, left and bottom wall, then their inner faces.
    let rim = [
        Point::new(low.x_mm, low.y_mm, high.z_mm),
        Point::new(low.x_mm, high.y_mm, high.z_mm),
        Point::new(low.x_mm, high.y_mm, low.z_mm),
        Point::new(high.x_mm, high.y_mm, low.z_mm),
        Point::new(high.x_mm, low.y_mm, low.z_mm),
        Point::new(high.x_mm, low.y_mm, high.z_mm),
    ];
    let rim_shape = polygon(
        &rim.map(|point| clamp_depth(point, d)),
        Stand::Above,
        canvas,
    );
    canvas.add(rim_shape.pen(thick).fill(Colour::Grey).of("enclosure"));
    let corner = |x: f64, y: f64, z: f64| Point::new(x, y, z);
    let faces = [
        [
            corner(0.0, 0.0, 0.0),
            corner(w, 0.0, 0.0),
            corner(w, h, 0.0),
            corner(0.0, h, 0.0),
        ],
        [
            corner(0.0, 0.0, 0.0),
            corner(0.0, h, 0.0),
            corner(0.0, h, d),
            corner(0.0, 0.0, d),
        ],
        [
            corner(0.0, 0.0, 0.0),
            corner(w, 0.0, 0.0),
            corner(w, 0.0, d),
            corner(0.0, 0.0, d),
        ],
    ];
    for face in faces {
        let shape = polygon(&face, Stand::Above, canvas);
        canvas.add(
            shape
                .pen(Pen::solid(0.25))
                .fill(Colour::White)
                .of("enclosure"),
        );
    }
    isometric::draw(&contents(arrangement), Stand::Above, canvas);
    write_rails(arrangement, canvas);
}

/// A point no farther to the front than the inside of the lid.
fn clamp_depth(point: Point, depth_mm: f64) -> Point {
    Point {
        z_mm: point.z_mm.min(depth_mm),
        ..point
    }
}

/// Everything inside: plate, rails, what stands on them, entries of the walls that are drawn.
fn contents(arrangement: &Arrangement) -> Vec<Body> {
    let plate = &arrangement.enclosure.plate;
    let block = |fill: Colour, subject: SubjectKey, block: Block| Body {
        block,
        round: None,
        fill,
        subject,
    };
    // The thickness of the plate is not known: it is drawn as thin as can be seen.
    let thick_mm = plate.standoff_mm.min(2.0);
    let plate_block = Block::new(
        Point::new(plate.x_mm, plate.y_mm, plate.standoff_mm - thick_mm),
        Point::new(
            plate.x_mm + plate.width_mm,
            plate.y_mm + plate.height_mm,
            plate.standoff_mm,
        ),
    );
    let mut bodies = vec![block(Colour::White, "plate".into(), plate_block)];
    for rail in &arrangement.rails {
        bodies.push(block(Colour::Grey, subject::rail(&rail.id), rail.body));
    }
    for terminal in &arrangement.terminals {
        let fill = if terminal.function == TerminalFunction::Earth {
            Colour::Yellow
        } else if terminal.kind == CircuitKind::IntrinsicallySafe {
            Colour::LightBlue
        } else {
            Colour::White
        };
        bodies.push(block(fill, subject::terminal(&terminal.id), terminal.body));
    }
    for part in &arrangement.accessories {
        bodies.push(block(Colour::Grey, subject::accessory(&part.id), part.body));
    }
    for entry in of_walls(arrangement, &[Face::Left, Face::Bottom]) {
        bodies.push(Body {
            block: entry.inside,
            round: Some(axis(entry)),
            fill: entry_fill(arrangement, entry),
            subject: subject::entry(&entry.id),
        });
    }
    bodies
}

/// Footprints and actuators on the lid, flat: how far they stand out is not known.
fn draw_lid(arrangement: &Arrangement, outer: &Block, canvas: &mut Canvas) {
    let z_mm = outer.max.z_mm;
    for element in &arrangement.elements {
        let foot = &element.footprint;
        let corners = [
            Point::new(foot.u_mm, foot.v_mm, z_mm),
            Point::new(foot.right_mm(), foot.v_mm, z_mm),
            Point::new(foot.right_mm(), foot.top_mm(), z_mm),
            Point::new(foot.u_mm, foot.top_mm(), z_mm),
        ];
        let ground = element
            .background
            .as_deref()
            .and_then(Colour::by_name)
            .unwrap_or(Colour::White);
        let footprint = polygon(&corners, Stand::Below, canvas);
        canvas.add(
            footprint
                .pen(Pen::solid(0.18))
                .fill(ground)
                .of(subject::element(&element.tag)),
        );
        let [width, height] = element.hole_mm;
        let centre = Point::new(element.x_mm, element.y_mm, z_mm);
        let colour = Colour::by_name(&element.colour).unwrap_or(Colour::White);
        let actuator = if (width - height).abs() < 1e-6 {
            circle(centre, width / 2.0, Axis::Z)
        } else {
            let (u, v) = (width / 2.0, height / 2.0);
            [(-u, -v), (u, -v), (u, v), (-u, v)]
                .map(|(x, y)| Point::new(centre.x_mm + x, centre.y_mm + y, z_mm))
                .to_vec()
        };
        let shape = polygon(&actuator, Stand::Below, canvas);
        canvas.add(
            shape
                .pen(Pen::solid(0.35))
                .fill(colour)
                .of(subject::element(&element.tag)),
        );
    }
}

/// Names of the elements, clear of the actuators.
fn write_tags(arrangement: &Arrangement, canvas: &mut Canvas) {
    let z_mm = outer(arrangement).max.z_mm;
    let place = |x_mm: f64, y_mm: f64, canvas: &Canvas| {
        project(Point::new(x_mm, y_mm, z_mm), Stand::Below, canvas)
    };
    for element in &arrangement.elements {
        let [width, height] = element.hole_mm.map(|size| size / 2.0);
        let corners = [
            (-width, -height),
            (width, -height),
            (width, height),
            (-width, height),
        ]
        .map(|(x, y)| place(element.x_mm + x, element.y_mm + y, canvas));
        if let Some(area) = corners
            .into_iter()
            .map(|spot| Area::between(spot, spot))
            .reduce(|all, next| all.joined(&next))
        {
            // The corners of a circle's square reach farther than the circle.
            canvas.reserve(area.grown(-0.12 * area.height_mm()));
        }
    }
    for element in &arrangement.elements {
        let foot = &element.footprint;
        let (left, right) = (foot.u_mm, foot.right_mm());
        let spots = [
            (element.x_mm, foot.v_mm, -1.8),
            (element.x_mm, foot.top_mm(), 1.8),
            (left, foot.v_mm, -1.8),
            (right, foot.top_mm(), 1.8),
            (element.x_mm, foot.v_mm, -3.8),
            (element.x_mm, foot.top_mm(), 3.8),
        ];
        let labels = spots
            .map(|(x, y, dy)| {
                let spot = place(x, y, canvas).moved(0.0, dy);
                Label::centred(spot, SMALL, element.tag.clone())
            })
            .to_vec();
        let key = subject::element(&element.tag);
        if !canvas.write_first_on(Colour::White, labels.iter().cloned(), Some(&key)) {
            canvas.write_over(labels, &key);
        }
    }
}

/// Names of the rails beside their right ends.
fn write_rails(arrangement: &Arrangement, canvas: &mut Canvas) {
    for rail in &arrangement.rails {
        let body = &rail.body;
        let end = Point::new(
            arrangement.enclosure.outer_mm[0],
            (body.min.y_mm + body.max.y_mm) / 2.0,
            body.min.z_mm,
        );
        // Clear of the edge of the cut wall, which stands before this end.
        let label = Label {
            at: project(end, Stand::Above, canvas).moved(4.0, -0.9),
            style: SMALL.bold(),
            content: format!("rail {}", rail.id),
        };
        canvas.write_first([label], Some(&subject::rail(&rail.id)));
    }
}

/// The outer block of the enclosure.
fn outer(arrangement: &Arrangement) -> Block {
    let front = FaceOutline::of(arrangement, Face::Lid);
    let side = FaceOutline::of(arrangement, Face::Bottom);
    Block::new(
        Point::new(front.outer.0, front.outer.1, side.outer.1),
        Point::new(front.outer.2, front.outer.3, side.outer.3),
    )
}

/// The outside envelope of an entry with its inner end on the outer face of its wall.
fn outside_of(block: &Block, outer: &Block, wall: Face) -> Block {
    let mut moved = *block;
    match wall {
        Face::Bottom => moved.max.y_mm = outer.min.y_mm,
        Face::Top => moved.min.y_mm = outer.max.y_mm,
        Face::Left => moved.max.x_mm = outer.min.x_mm,
        Face::Right => moved.min.x_mm = outer.max.x_mm,
        Face::Lid => moved.min.z_mm = outer.max.z_mm,
        Face::Back => moved.max.z_mm = outer.min.z_mm,
    }
    moved
}

/// The axis of an entry.
fn axis(entry: &PlacedEntry) -> Axis {
    match entry.wall {
        Face::Left | Face::Right => Axis::X,
        Face::Bottom | Face::Top => Axis::Y,
        Face::Lid | Face::Back => Axis::Z,
    }
}

fn of_walls<'a>(
    arrangement: &'a Arrangement,
    walls: &'a [Face],
) -> impl Iterator<Item = &'a PlacedEntry> {
    arrangement
        .entries
        .iter()
        .filter(move |entry| walls.contains(&entry.wall))
}
