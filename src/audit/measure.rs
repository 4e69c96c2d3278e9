//! The audit's own measuring: distances between blocks and rectangles, walls, paths round partitions.
//! Knows nothing of rules, and uses none of the conversions of [`crate::space`], so that a mistake
//! there cannot hide here.

use crate::space::{Block, Face, Interior, Point, Rect};

/// The distance between two intervals; negative is how far they overlap.
pub fn apart_mm(a: (f64, f64), b: (f64, f64)) -> f64 {
    (b.0 - a.1).max(a.0 - b.1)
}

/// Extent of a block along x.
pub fn x_range(block: &Block) -> (f64, f64) {
    (block.min.x_mm, block.max.x_mm)
}

/// Extent of a block along y.
pub fn y_range(block: &Block) -> (f64, f64) {
    (block.min.y_mm, block.max.y_mm)
}

/// Extent of a block along z.
pub fn z_range(block: &Block) -> (f64, f64) {
    (block.min.z_mm, block.max.z_mm)
}

/// The shortest straight distance between two blocks; 0 where they touch or overlap.
pub fn distance_mm(a: &Block, b: &Block) -> f64 {
    let x = apart_mm(x_range(a), x_range(b)).max(0.0);
    let y = apart_mm(y_range(a), y_range(b)).max(0.0);
    let z = apart_mm(z_range(a), z_range(b)).max(0.0);
    (x * x + y * y + z * z).sqrt()
}

/// How far two blocks must be pushed to come free of each other; negative where a gap lies between
/// them (the widest of the gaps along the axes).
pub fn overlap_mm(a: &Block, b: &Block) -> f64 {
    let x = apart_mm(x_range(a), x_range(b));
    let y = apart_mm(y_range(a), y_range(b));
    let z = apart_mm(z_range(a), z_range(b));
    -(x.max(y).max(z))
}

/// The shortest path between two blocks round an insulating slab that stands between them in x.
///
/// The path leads over one of the slab's four edges. Each part of it is measured in the plane of x
/// and the axis across the edge, so that the result is never longer than the true path. Where the
/// slab does not stand between the blocks, it is the straight distance.
pub fn around_mm(a: &Block, b: &Block, slab: &Block) -> f64 {
    let straight = distance_mm(a, b);
    let (left, right) = if a.max.x_mm <= b.min.x_mm {
        (a, b)
    } else {
        (b, a)
    };
    let to_slab = slab.min.x_mm - left.max.x_mm;
    let from_slab = right.min.x_mm - slab.max.x_mm;
    let tolerated = -1e-9;
    if !(to_slab >= tolerated && from_slab >= tolerated) {
        return straight;
    }
    let thickness = (slab.max.x_mm - slab.min.x_mm).max(0.0);
    let over = |left_climb: f64, right_climb: f64| {
        to_slab.max(0.0).hypot(left_climb.max(0.0))
            + thickness
            + from_slab.max(0.0).hypot(right_climb.max(0.0))
    };
    let edges = [
        over(
            slab.max.z_mm - left.max.z_mm,
            slab.max.z_mm - right.max.z_mm,
        ),
        over(
            left.min.z_mm - slab.min.z_mm,
            right.min.z_mm - slab.min.z_mm,
        ),
        over(
            slab.max.y_mm - left.max.y_mm,
            slab.max.y_mm - right.max.y_mm,
        ),
        over(
            left.min.y_mm - slab.min.y_mm,
            right.min.y_mm - slab.min.y_mm,
        ),
    ];
    straight.max(edges.into_iter().fold(f64::INFINITY, f64::min))
}

/// A block in the coordinates of a wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnWall {
    /// Along the wall, left to right as seen from outside.
    pub u: (f64, f64),
    /// From the back towards the lid.
    pub v: (f64, f64),
    /// From the wall's inner face into the box; negative outside.
    pub inward: (f64, f64),
}

/// A block as seen from a wall; `None` for lid and back.
pub fn on_wall(interior: &Interior, wall: Face, block: &Block) -> Option<OnWall> {
    let mirrored = |range: (f64, f64), length: f64| (length - range.1, length - range.0);
    let (x, y, v) = (x_range(block), y_range(block), z_range(block));
    match wall {
        Face::Bottom => Some(OnWall { u: x, v, inward: y }),
        Face::Right => Some(OnWall {
            u: y,
            v,
            inward: mirrored(x, interior.width_mm),
        }),
        Face::Top => Some(OnWall {
            u: mirrored(x, interior.width_mm),
            v,
            inward: mirrored(y, interior.height_mm),
        }),
        Face::Left => Some(OnWall {
            u: mirrored(y, interior.height_mm),
            v,
            inward: x,
        }),
        Face::Lid | Face::Back => None,
    }
}

/// The length of a wall along u; `None` for lid and back.
pub fn wall_length_mm(interior: &Interior, wall: Face) -> Option<f64> {
    match wall {
        Face::Bottom | Face::Top => Some(interior.width_mm),
        Face::Left | Face::Right => Some(interior.height_mm),
        Face::Lid | Face::Back => None,
    }
}

/// Length of the inside, diagonally through the room.
pub fn room_diagonal_mm(interior: &Interior) -> f64 {
    interior
        .width_mm
        .hypot(interior.height_mm)
        .hypot(interior.depth_mm)
}

/// How far a rectangle given by its ranges lies inside another; negative where it protrudes.
pub fn inside_mm(inner_u: (f64, f64), inner_v: (f64, f64), outer: &Rect) -> f64 {
    let left = inner_u.0 - outer.u_mm;
    let right = outer.u_mm + outer.width_mm - inner_u.1;
    let lower = inner_v.0 - outer.v_mm;
    let upper = outer.v_mm + outer.height_mm - inner_v.1;
    left.min(right).min(lower).min(upper)
}

/// The ranges of a rectangle along u and v.
pub fn ranges(rect: &Rect) -> ((f64, f64), (f64, f64)) {
    (
        (rect.u_mm, rect.u_mm + rect.width_mm),
        (rect.v_mm, rect.v_mm + rect.height_mm),
    )
}

/// The shortest straight distance between two rectangles; negative is how far they overlap.
pub fn rect_distance_mm(a: &Rect, b: &Rect) -> f64 {
    let ((au, av), (bu, bv)) = (ranges(a), ranges(b));
    let (u, v) = (apart_mm(au, bu), apart_mm(av, bv));
    if u <= 0.0 && v <= 0.0 {
        u.max(v)
    } else {
        u.max(0.0).hypot(v.max(0.0))
    }
}

/// The least distance of a block from the six faces of the room, negative outside, with the name of
/// that face.
pub fn inside_room_mm(interior: &Interior, block: &Block) -> (f64, Face) {
    [
        (block.min.x_mm, Face::Left),
        (interior.width_mm - block.max.x_mm, Face::Right),
        (block.min.y_mm, Face::Bottom),
        (interior.height_mm - block.max.y_mm, Face::Top),
        (block.min.z_mm, Face::Back),
        (interior.depth_mm - block.max.z_mm, Face::Lid),
    ]
    .into_iter()
    .min_by(|a, b| a.0.total_cmp(&b.0))
    .unwrap_or((f64::NAN, Face::Back))
}

/// The block behind one of the six faces of the room, thick enough to stand for the wall.
pub fn wall_block(interior: &Interior, face: Face) -> Block {
    /// Thickness that stands for a wall; only its inner face counts.
    const BEHIND_MM: f64 = 100.0;
    let least = Point {
        x_mm: -BEHIND_MM,
        y_mm: -BEHIND_MM,
        z_mm: -BEHIND_MM,
    };
    let most = Point {
        x_mm: interior.width_mm + BEHIND_MM,
        y_mm: interior.height_mm + BEHIND_MM,
        z_mm: interior.depth_mm + BEHIND_MM,
    };
    let mut block = Block {
        min: least,
        max: most,
    };
    match face {
        Face::Left => block.max.x_mm = 0.0,
        Face::Right => block.min.x_mm = interior.width_mm,
        Face::Bottom => block.max.y_mm = 0.0,
        Face::Top => block.min.y_mm = interior.height_mm,
        Face::Back => block.max.z_mm = 0.0,
        Face::Lid => block.min.z_mm = interior.depth_mm,
    }
    block
}

#[cfg(test)]
mod tests {
    use super::*;

    fn block(min: [f64; 3], max: [f64; 3]) -> Block {
        let point = |at: [f64; 3]| Point {
            x_mm: at[0],
            y_mm: at[1],
            z_mm: at[2],
        };
        Block {
            min: point(min),
            max: point(max),
        }
    }

    #[test]
    fn distance_is_measured_across_all_three_axes() {
        let a = block([0.0; 3], [1.0; 3]);
        assert_eq!(
            distance_mm(&a, &block([3.0, 4.0, 7.0], [4.0, 5.0, 8.0])),
            7.0
        );
        assert_eq!(
            distance_mm(&a, &block([1.0, 0.0, 0.0], [2.0, 1.0, 1.0])),
            0.0
        );
        assert_eq!(
            overlap_mm(&a, &block([0.75, 0.0, 0.0], [2.0, 1.0, 1.0])),
            0.25
        );
        assert_eq!(
            overlap_mm(&a, &block([3.0, 0.5, 0.5], [4.0, 1.0, 1.0])),
            -2.0
        );
    }

    #[test]
    fn the_path_round_a_slab_climbs_its_lowest_edge() {
        let a = block([0.0, 0.0, 0.0], [1.0, 10.0, 10.0]);
        let b = block([9.0, 0.0, 0.0], [10.0, 10.0, 10.0]);
        // The top edge is the nearest one: 3 up over a run of 4 on either side, 0 thick.
        let slab = block([5.0, -50.0, -50.0], [5.0, 60.0, 13.0]);
        assert_eq!(around_mm(&a, &b, &slab), 10.0);
        assert_eq!(around_mm(&b, &a, &slab), 10.0);
        // A slab that ends below the top of the blocks shields nothing.
        let low = block([5.0, -50.0, -50.0], [5.0, 60.0, 8.0]);
        assert_eq!(around_mm(&a, &b, &low), 8.0);
        // A slab beside the blocks shields nothing.
        let beside = block([20.0, -50.0, -50.0], [20.0, 60.0, 60.0]);
        assert_eq!(around_mm(&a, &b, &beside), 8.0);
    }

    #[test]
    fn the_path_round_a_slab_takes_any_of_its_four_edges() {
        // 5 and 7 mm before and behind a slab of 2 mm. One edge lies 12 mm beyond the left block and 24 mm
        // beyond the right one, the others far out: 13 + 2 + 25.
        let left = block([0.0, 32.0, 22.0], [10.0, 188.0, 88.0]);
        let right = block([24.0, 44.0, 34.0], [30.0, 176.0, 76.0]);
        let far = block([15.0, -500.0, -500.0], [17.0, 500.0, 500.0]);
        let mut edges = [far; 4];
        edges[0].max.z_mm = 100.0;
        edges[1].min.z_mm = 10.0;
        edges[2].max.y_mm = 200.0;
        edges[3].min.y_mm = 20.0;
        for slab in &edges {
            assert_eq!(around_mm(&left, &right, slab), 40.0, "{slab:?}");
            assert_eq!(around_mm(&right, &left, slab), 40.0, "{slab:?}");
        }
        // Where it stands against one of the blocks there is only the climb and the way from it.
        let mut against = edges[3];
        (against.min.x_mm, against.max.x_mm) = (10.0, 17.0);
        assert_eq!(around_mm(&left, &right, &against), 12.0 + 7.0 + 25.0);
        // Into a block it shields nothing.
        against.min.x_mm = 9.0;
        assert_eq!(around_mm(&left, &right, &against), 14.0);
        against = edges[3];
        against.max.x_mm = 25.0;
        assert_eq!(around_mm(&left, &right, &against), 14.0);
    }

    #[test]
    fn a_block_as_seen_from_each_wall() {
        let room = Interior {
            width_mm: 300.0,
            height_mm: 200.0,
            depth_mm: 120.0,
        };
        let seen = |wall, min, max| on_wall(&room, wall, &block(min, max)).expect("a wall");
        let bottom = seen(Face::Bottom, [10.0, 0.0, 30.0], [20.0, 5.0, 40.0]);
        assert_eq!(
            (bottom.u, bottom.v, bottom.inward),
            ((10.0, 20.0), (30.0, 40.0), (0.0, 5.0))
        );
        let right = seen(Face::Right, [295.0, 10.0, 30.0], [300.0, 20.0, 40.0]);
        assert_eq!((right.u, right.inward), ((10.0, 20.0), (0.0, 5.0)));
        let top = seen(Face::Top, [280.0, 195.0, 30.0], [290.0, 200.0, 40.0]);
        assert_eq!((top.u, top.inward), ((10.0, 20.0), (0.0, 5.0)));
        let left = seen(Face::Left, [0.0, 180.0, 30.0], [5.0, 190.0, 40.0]);
        assert_eq!((left.u, left.inward), ((10.0, 20.0), (0.0, 5.0)));
        assert_eq!(on_wall(&room, Face::Lid, &block([0.0; 3], [1.0; 3])), None);
    }

    #[test]
    fn rectangles_apart_and_overlapping() {
        let a = Rect {
            u_mm: 0.0,
            v_mm: 0.0,
            width_mm: 10.0,
            height_mm: 10.0,
        };
        let at = |u_mm, v_mm| Rect {
            u_mm,
            v_mm,
            width_mm: 10.0,
            height_mm: 10.0,
        };
        assert_eq!(rect_distance_mm(&a, &at(13.0, 14.0)), 5.0);
        assert_eq!(rect_distance_mm(&a, &at(13.0, 5.0)), 3.0);
        assert_eq!(rect_distance_mm(&a, &at(8.0, 5.0)), -2.0);
        assert_eq!(inside_mm((1.0, 9.0), (2.0, 9.5), &a), 0.5);
    }

    #[test]
    fn the_nearest_face_is_named() {
        let room = Interior {
            width_mm: 300.0,
            height_mm: 200.0,
            depth_mm: 120.0,
        };
        assert_eq!(
            inside_room_mm(&room, &block([10.0, 20.0, 30.0], [298.0, 40.0, 50.0])),
            (2.0, Face::Right)
        );
        assert_eq!(
            distance_mm(&wall_block(&room, Face::Top), &block([10.0; 3], [20.0; 3])),
            180.0
        );
        assert!((room_diagonal_mm(&room) - 380.0).abs() < 1.0);
    }
}
