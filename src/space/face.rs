//! The six faces of a box and the only conversion between face and box coordinates.

use super::{Block, Point};
use serde::{Deserialize, Serialize};
use std::fmt;

/// A face of the enclosure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Face {
    /// The wall at y = 0.
    Bottom,
    /// The wall at the greatest x.
    Right,
    /// The wall at the greatest y.
    Top,
    /// The wall at x = 0.
    Left,
    /// The removable or hinged front.
    Lid,
    /// The back wall, z = 0.
    Back,
}

impl Face {
    /// The four walls that can carry entries, in the order in which u runs round the box.
    pub const WALLS: [Face; 4] = [Face::Bottom, Face::Right, Face::Top, Face::Left];

    /// The name used in files and text.
    pub fn name(self) -> &'static str {
        match self {
            Face::Bottom => "bottom",
            Face::Right => "right",
            Face::Top => "top",
            Face::Left => "left",
            Face::Lid => "lid",
            Face::Back => "back",
        }
    }

    /// Where this wall comes to lie when the box is turned a quarter clockwise, seen from the front.
    /// Lid and back stay what they are. Positions on a wall do not change: u runs round the box in
    /// one sense and turns with it.
    pub fn turned_clockwise(self) -> Face {
        match self {
            Face::Bottom => Face::Left,
            Face::Left => Face::Top,
            Face::Top => Face::Right,
            Face::Right => Face::Bottom,
            other => other,
        }
    }

    /// The index of a wall in [`Face::WALLS`]; `None` for lid and back.
    pub fn wall_index(self) -> Option<usize> {
        Self::WALLS.iter().position(|wall| *wall == self)
    }
}

impl fmt::Display for Face {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(self.name())
    }
}

/// The clear inside of an enclosure, millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Interior {
    /// Along x.
    pub width_mm: f64,
    /// Along y.
    pub height_mm: f64,
    /// Along z, from the back wall to the lid.
    pub depth_mm: f64,
}

impl Interior {
    /// The longest straight line inside the box: its space diagonal.
    pub fn diagonal_mm(&self) -> f64 {
        (self.width_mm.powi(2) + self.height_mm.powi(2) + self.depth_mm.powi(2)).sqrt()
    }

    /// The length of a face along u.
    pub fn length_along_u_mm(&self, face: Face) -> f64 {
        match face {
            Face::Bottom | Face::Top | Face::Lid | Face::Back => self.width_mm,
            Face::Left | Face::Right => self.height_mm,
        }
    }

    /// The point inside the box that lies `inward_mm` from position (u, v) of a face.
    ///
    /// On a wall u runs from left to right as seen from outside with the lid upwards, and v from the
    /// back towards the lid; on the lid u is x and v is y; the back is seen from inside like the lid.
    pub fn point(&self, face: Face, u_mm: f64, v_mm: f64, inward_mm: f64) -> Point {
        match face {
            Face::Bottom => Point::new(u_mm, inward_mm, v_mm),
            Face::Right => Point::new(self.width_mm - inward_mm, u_mm, v_mm),
            Face::Top => Point::new(self.width_mm - u_mm, self.height_mm - inward_mm, v_mm),
            Face::Left => Point::new(inward_mm, self.height_mm - u_mm, v_mm),
            Face::Lid => Point::new(u_mm, v_mm, self.depth_mm - inward_mm),
            Face::Back => Point::new(u_mm, v_mm, inward_mm),
        }
    }

    /// The position (u, v) on a face that lies straight before a point.
    pub fn on_face(&self, face: Face, point: Point) -> (f64, f64) {
        match face {
            Face::Bottom => (point.x_mm, point.z_mm),
            Face::Right => (point.y_mm, point.z_mm),
            Face::Top => (self.width_mm - point.x_mm, point.z_mm),
            Face::Left => (self.height_mm - point.y_mm, point.z_mm),
            Face::Lid | Face::Back => (point.x_mm, point.y_mm),
        }
    }

    /// The block that stands on a face: a rectangle of the face, given by its centre and extents,
    /// and a reach into the box from `from_mm` to `to_mm` (negative: outside).
    pub fn block(
        &self,
        face: Face,
        centre: (f64, f64),
        extent: (f64, f64),
        from_mm: f64,
        to_mm: f64,
    ) -> Block {
        let (u_mm, v_mm) = centre;
        let (half_u, half_v) = (extent.0 / 2.0, extent.1 / 2.0);
        let a = self.point(face, u_mm - half_u, v_mm - half_v, from_mm);
        let b = self.point(face, u_mm + half_u, v_mm + half_v, to_mm);
        Block::new(
            Point::new(a.x_mm.min(b.x_mm), a.y_mm.min(b.y_mm), a.z_mm.min(b.z_mm)),
            Point::new(a.x_mm.max(b.x_mm), a.y_mm.max(b.y_mm), a.z_mm.max(b.z_mm)),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOX: Interior = Interior {
        width_mm: 300.0,
        height_mm: 200.0,
        depth_mm: 120.0,
    };

    #[test]
    fn face_and_box_coordinates_are_each_others_inverse() {
        for face in [
            Face::Bottom,
            Face::Right,
            Face::Top,
            Face::Left,
            Face::Lid,
            Face::Back,
        ] {
            let point = BOX.point(face, 40.0, 30.0, 0.0);
            assert_eq!(BOX.on_face(face, point), (40.0, 30.0), "{face}");
        }
    }

    #[test]
    fn u_runs_round_the_box_without_a_gap() {
        // Where one wall's u ends, the next wall's u begins: the corner is the same point.
        for pair in [
            Face::Bottom,
            Face::Right,
            Face::Top,
            Face::Left,
            Face::Bottom,
        ]
        .windows(2)
        {
            let end = BOX.point(pair[0], BOX.length_along_u_mm(pair[0]), 10.0, 0.0);
            let start = BOX.point(pair[1], 0.0, 10.0, 0.0);
            assert_eq!(end, start, "{} then {}", pair[0], pair[1]);
        }
    }

    #[test]
    fn turning_four_times_leads_back() {
        for wall in Face::WALLS {
            let once = wall.turned_clockwise();
            assert_ne!(once, wall);
            assert_eq!(
                once.turned_clockwise()
                    .turned_clockwise()
                    .turned_clockwise(),
                wall
            );
        }
    }

    #[test]
    fn block_on_the_left_wall() {
        let block = BOX.block(Face::Left, (50.0, 60.0), (20.0, 10.0), 0.0, 8.0);
        assert_eq!(block.min, Point::new(0.0, 140.0, 55.0));
        assert_eq!(block.max, Point::new(8.0, 160.0, 65.0));
    }
}
