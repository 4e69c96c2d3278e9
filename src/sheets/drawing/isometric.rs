//! Isometric pictures of blocks and round bodies: projection, and the order in which they hide each
//! other. Knows nothing of what a body stands for.
//!
//! Seen from the right front, from above or from below: x runs to the right, z (towards the reader) to
//! the left, y upwards. All three axes are drawn at full scale, as an isometric drawing has it
//! (ISO 5456-3, from memory).

use super::canvas::Canvas;
use super::geometry::Spot;
use super::shape::{Geometry, Shape, SubjectKey};
use super::style::{Colour, Layer, Pen};
use crate::space::{Block, Point};

/// Corners of the polygon that stands for a circle.
const CORNERS: usize = 40;

/// An axis of the box.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axis {
    /// To the right.
    X,
    /// Upwards.
    Y,
    /// Towards the reader.
    Z,
}

/// Where the reader stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stand {
    /// Before the box at the right, higher than it.
    Above,
    /// Before the box at the right, lower than it.
    Below,
}

impl Stand {
    /// Sign of the reader's height.
    fn sign(self) -> f64 {
        match self {
            Stand::Above => 1.0,
            Stand::Below => -1.0,
        }
    }

    /// The block as a reader from above would have it: mirrored in height for one from below.
    fn seen(self, block: &Block) -> Block {
        let mut seen = *block;
        if self == Stand::Below {
            (seen.min.y_mm, seen.max.y_mm) = (-block.max.y_mm, -block.min.y_mm);
        }
        seen
    }
}

/// A body to be pictured.
#[derive(Debug, Clone, PartialEq)]
pub struct Body {
    /// The block that it fills, or in which it lies if it is round.
    pub block: Block,
    /// Axis of a round body; `None` for a block.
    pub round: Option<Axis>,
    /// Filling.
    pub fill: Colour,
    /// What it stands for.
    pub subject: SubjectKey,
}

/// The place on the picture of a point, in millimetres of paper.
pub fn project(point: Point, stand: Stand, canvas: &Canvas) -> Spot {
    let cosine = 3.0_f64.sqrt() / 2.0;
    canvas.spot(
        (point.x_mm - point.z_mm) * cosine,
        point.y_mm - stand.sign() * (point.x_mm + point.z_mm) / 2.0,
    )
}

/// Draws bodies that do not cross each other, those behind first.
pub fn draw(bodies: &[Body], stand: Stand, canvas: &mut Canvas) {
    let blocks: Vec<Block> = bodies.iter().map(|body| stand.seen(&body.block)).collect();
    for index in order(&blocks) {
        match bodies[index].round {
            None => draw_block(&bodies[index], stand, canvas),
            Some(axis) => draw_round(&bodies[index], axis, stand, canvas),
        }
    }
}

/// Draws a flat polygon.
pub fn polygon(points: &[Point], stand: Stand, canvas: &Canvas) -> Shape {
    let spots = points
        .iter()
        .map(|point| project(*point, stand, canvas))
        .collect();
    outline(spots)
}

/// A circle on a plane across an axis, as a polygon.
pub fn circle(centre: Point, radius_mm: f64, axis: Axis) -> Vec<Point> {
    (0..CORNERS)
        .map(|index| {
            let angle = std::f64::consts::TAU * index as f64 / CORNERS as f64;
            let (a, b) = (radius_mm * angle.cos(), radius_mm * angle.sin());
            let Point { x_mm, y_mm, z_mm } = centre;
            match axis {
                Axis::X => Point::new(x_mm, y_mm + a, z_mm + b),
                Axis::Y => Point::new(x_mm + a, y_mm, z_mm + b),
                Axis::Z => Point::new(x_mm + a, y_mm + b, z_mm),
            }
        })
        .collect()
}

fn outline(spots: Vec<Spot>) -> Shape {
    Shape::new(
        Layer::Outline,
        Geometry::Polyline {
            spots,
            closed: true,
        },
    )
    .pen(Pen::solid(0.25))
}

/// The three faces that the reader sees.
fn draw_block(body: &Body, stand: Stand, canvas: &mut Canvas) {
    let (low, high) = (body.block.min, body.block.max);
    let at = |x: bool, y: bool, z: bool| {
        Point::new(
            if x { high.x_mm } else { low.x_mm },
            if y { high.y_mm } else { low.y_mm },
            if z { high.z_mm } else { low.z_mm },
        )
    };
    let above = stand == Stand::Above;
    let faces = [
        // Top or bottom, right, front.
        [
            (false, above, false),
            (true, above, false),
            (true, above, true),
            (false, above, true),
        ],
        [
            (true, false, false),
            (true, true, false),
            (true, true, true),
            (true, false, true),
        ],
        [
            (false, false, true),
            (true, false, true),
            (true, true, true),
            (false, true, true),
        ],
    ];
    for face in faces {
        let points = face.map(|(x, y, z)| at(x, y, z));
        canvas.add(
            polygon(&points, stand, canvas)
                .fill(body.fill)
                .of(body.subject.clone()),
        );
    }
}

/// The outline round both ends, then the end that the reader sees.
fn draw_round(body: &Body, axis: Axis, stand: Stand, canvas: &mut Canvas) {
    let (low, high) = (body.block.min, body.block.max);
    let middle = body.block.centre();
    let (radius_mm, ends) = match axis {
        Axis::X => (
            body.block.height_mm().min(body.block.depth_mm()) / 2.0,
            [
                Point {
                    x_mm: low.x_mm,
                    ..middle
                },
                Point {
                    x_mm: high.x_mm,
                    ..middle
                },
            ],
        ),
        Axis::Y => (
            body.block.width_mm().min(body.block.depth_mm()) / 2.0,
            [
                Point {
                    y_mm: low.y_mm,
                    ..middle
                },
                Point {
                    y_mm: high.y_mm,
                    ..middle
                },
            ],
        ),
        Axis::Z => (
            body.block.width_mm().min(body.block.height_mm()) / 2.0,
            [
                Point {
                    z_mm: low.z_mm,
                    ..middle
                },
                Point {
                    z_mm: high.z_mm,
                    ..middle
                },
            ],
        ),
    };
    let [mut far, mut near] = ends.map(|end| circle(end, radius_mm, axis));
    if axis == Axis::Y && stand == Stand::Below {
        std::mem::swap(&mut far, &mut near);
    }
    let both: Vec<Spot> = far
        .iter()
        .chain(&near)
        .map(|point| project(*point, stand, canvas))
        .collect();
    canvas.add(outline(hull(both)).fill(body.fill).of(body.subject.clone()));
    canvas.add(
        polygon(&near, stand, canvas)
            .fill(body.fill)
            .of(body.subject.clone()),
    );
}

/// The convex hull, counter-clockwise (Andrew's monotone chain).
fn hull(mut spots: Vec<Spot>) -> Vec<Spot> {
    spots.sort_by(|a, b| a.x_mm.total_cmp(&b.x_mm).then(a.y_mm.total_cmp(&b.y_mm)));
    let turns_left = |a: Spot, b: Spot, c: Spot| {
        (b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm) > 1e-9
    };
    let chain = |spots: &mut dyn Iterator<Item = Spot>| {
        let mut chain: Vec<Spot> = Vec::new();
        for spot in spots {
            while chain.len() > 1
                && !turns_left(chain[chain.len() - 2], chain[chain.len() - 1], spot)
            {
                chain.pop();
            }
            chain.push(spot);
        }
        chain.pop();
        chain
    };
    let mut around = chain(&mut spots.iter().copied());
    around.extend(chain(&mut spots.iter().rev().copied()));
    around
}

/// Whether the pictures of two blocks may share a place: for each pair of axes their extents along the
/// reader's line of sight must meet.
fn may_hide(a: &Block, b: &Block) -> bool {
    let meets = |a: [f64; 2], b: [f64; 2]| a[0] < b[1] - 1e-9 && b[0] < a[1] - 1e-9;
    let spans = |block: &Block| {
        let (low, high) = (block.min, block.max);
        [
            [low.x_mm - high.y_mm, high.x_mm - low.y_mm],
            [low.y_mm - high.z_mm, high.y_mm - low.z_mm],
            [low.x_mm - high.z_mm, high.x_mm - low.z_mm],
        ]
    };
    let (a, b) = (spans(a), spans(b));
    (0..3).all(|index| meets(a[index], b[index]))
}

/// Whether `a` lies behind a plane that `b` lies before.
fn is_behind(a: &Block, b: &Block) -> bool {
    let slack = 1e-6;
    a.max.x_mm <= b.min.x_mm + slack
        || a.max.y_mm <= b.min.y_mm + slack
        || a.max.z_mm <= b.min.z_mm + slack
}

/// Indices in an order in which each body comes after those it hides. Where bodies hide each other in
/// a ring, or cross, the one that lies farthest back comes first.
fn order(blocks: &[Block]) -> Vec<usize> {
    let count = blocks.len();
    let mut hidden_by: Vec<Vec<usize>> = vec![Vec::new(); count];
    let mut waits_for = vec![0_usize; count];
    for a in 0..count {
        for b in a + 1..count {
            let (first, second) = (&blocks[a], &blocks[b]);
            if !may_hide(first, second) {
                continue;
            }
            match (is_behind(first, second), is_behind(second, first)) {
                (true, false) => {
                    hidden_by[a].push(b);
                    waits_for[b] += 1;
                }
                (false, true) => {
                    hidden_by[b].push(a);
                    waits_for[a] += 1;
                }
                _ => {}
            }
        }
    }
    let nearness = |index: usize| {
        let centre = blocks[index].centre();
        centre.x_mm + centre.y_mm + centre.z_mm
    };
    let mut left: Vec<usize> = (0..count).collect();
    left.sort_by(|a, b| nearness(*a).total_cmp(&nearness(*b)).then(a.cmp(b)));
    let mut order = Vec::with_capacity(count);
    while !left.is_empty() {
        let place = left
            .iter()
            .position(|index| waits_for[*index] == 0)
            .unwrap_or(0);
        let index = left.remove(place);
        for front in &hidden_by[index] {
            waits_for[*front] = waits_for[*front].saturating_sub(1);
        }
        order.push(index);
    }
    order
}

#[cfg(test)]
mod tests {
    use super::*;

    fn body(low: [f64; 3], high: [f64; 3]) -> Block {
        let point = |[x, y, z]: [f64; 3]| Point::new(x, y, z);
        Block::new(point(low), point(high))
    }

    #[test]
    fn what_is_nearer_is_drawn_later() {
        // A long low block before a tall one, and a small one on top of the long one: sorting by
        // the middle alone would draw the long one too late.
        let bodies = [
            body([0.0, 0.0, 50.0], [300.0, 10.0, 60.0]),
            body([0.0, 0.0, 0.0], [20.0, 100.0, 40.0]),
            body([5.0, 10.0, 50.0], [15.0, 20.0, 60.0]),
        ];
        let order = order(&bodies);
        let place = |index: usize| order.iter().position(|i| *i == index).expect("drawn");
        assert_eq!(order.len(), 3);
        assert!(place(1) < place(0));
        assert!(place(0) < place(2));
    }

    #[test]
    fn the_hull_of_a_square_with_a_spot_inside_is_the_square() {
        let spots = [(0.0, 0.0), (4.0, 0.0), (2.0, 2.0), (4.0, 4.0), (0.0, 4.0)];
        let around = hull(spots.map(|(x, y)| Spot::new(x, y)).to_vec());
        assert_eq!(around.len(), 4);
        assert!(!around.contains(&Spot::new(2.0, 2.0)));
    }
}
