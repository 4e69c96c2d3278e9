//! Quarter turns of a view on its paper, so that walls lie round the front as they unfold. Text is not
//! turned with them.

use super::geometry::{Area, Spot};

/// How a view is turned, counter-clockwise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Turn {
    /// Not at all.
    #[default]
    None,
    /// A quarter.
    Quarter,
    /// Upside down.
    Half,
    /// Three quarters.
    ThreeQuarters,
}

impl Turn {
    /// The angle, degrees.
    pub fn degrees(self) -> u32 {
        match self {
            Turn::None => 0,
            Turn::Quarter => 90,
            Turn::Half => 180,
            Turn::ThreeQuarters => 270,
        }
    }

    /// A pair of coordinates, turned about the datum.
    pub fn apply(self, x: f64, y: f64) -> (f64, f64) {
        match self {
            Turn::None => (x, y),
            Turn::Quarter => (-y, x),
            Turn::Half => (-x, -y),
            Turn::ThreeQuarters => (y, -x),
        }
    }

    /// A rectangle, turned about the datum.
    pub fn area(self, area: &Area) -> Area {
        let corner = |x: f64, y: f64| {
            let (x, y) = self.apply(x, y);
            Spot::new(x, y)
        };
        Area::between(
            corner(area.left_mm, area.bottom_mm),
            corner(area.right_mm, area.top_mm),
        )
    }
}
