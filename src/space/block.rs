//! Points and blocks (boxes with sides parallel to the axes) inside the enclosure.

use serde::{Deserialize, Serialize};

/// A point in box coordinates, millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Point {
    /// To the right, seen from the front.
    pub x_mm: f64,
    /// Upwards.
    pub y_mm: f64,
    /// From the inside of the back wall towards the lid.
    pub z_mm: f64,
}

impl Point {
    /// A point from its three coordinates.
    pub fn new(x_mm: f64, y_mm: f64, z_mm: f64) -> Self {
        Self { x_mm, y_mm, z_mm }
    }
}

/// A block: all points between two opposite corners, in box coordinates, millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Block {
    /// The corner with the least coordinates.
    pub min: Point,
    /// The corner with the greatest coordinates.
    pub max: Point,
}

impl Block {
    /// A block from its two corners, least first.
    pub fn new(min: Point, max: Point) -> Self {
        Self { min, max }
    }

    /// Extent along x.
    pub fn width_mm(&self) -> f64 {
        self.max.x_mm - self.min.x_mm
    }

    /// Extent along y.
    pub fn height_mm(&self) -> f64 {
        self.max.y_mm - self.min.y_mm
    }

    /// Extent along z.
    pub fn depth_mm(&self) -> f64 {
        self.max.z_mm - self.min.z_mm
    }

    /// The middle of the block.
    pub fn centre(&self) -> Point {
        Point {
            x_mm: (self.min.x_mm + self.max.x_mm) / 2.0,
            y_mm: (self.min.y_mm + self.max.y_mm) / 2.0,
            z_mm: (self.min.z_mm + self.max.z_mm) / 2.0,
        }
    }

    /// The smallest block around both.
    pub fn joined(&self, other: &Block) -> Self {
        Self::new(
            Point::new(
                self.min.x_mm.min(other.min.x_mm),
                self.min.y_mm.min(other.min.y_mm),
                self.min.z_mm.min(other.min.z_mm),
            ),
            Point::new(
                self.max.x_mm.max(other.max.x_mm),
                self.max.y_mm.max(other.max.y_mm),
                self.max.z_mm.max(other.max.z_mm),
            ),
        )
    }
}
