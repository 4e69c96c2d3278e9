//! A rectangle on a face of the box.

use serde::{Deserialize, Serialize};

/// A rectangle with sides parallel to its face's axes, in millimetres. `u` and `v` name the lower
/// left corner; on the lid and the mounting plate they are x and y.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Rect {
    /// Left edge.
    pub u_mm: f64,
    /// Lower edge.
    pub v_mm: f64,
    /// Extent along u.
    pub width_mm: f64,
    /// Extent along v.
    pub height_mm: f64,
}

impl Rect {
    /// A rectangle from its lower left corner and its extents.
    pub fn new(u_mm: f64, v_mm: f64, width_mm: f64, height_mm: f64) -> Self {
        Self {
            u_mm,
            v_mm,
            width_mm,
            height_mm,
        }
    }

    /// Right edge.
    pub fn right_mm(&self) -> f64 {
        self.u_mm + self.width_mm
    }

    /// Upper edge.
    pub fn top_mm(&self) -> f64 {
        self.v_mm + self.height_mm
    }

    /// Area in square millimetres; nothing for a rectangle that has been shrunk away.
    pub fn area_mm2(&self) -> f64 {
        self.width_mm.max(0.0) * self.height_mm.max(0.0)
    }

    /// The rectangle shrunk by the given distances from left, right, bottom and top. Extents may
    /// become negative: nothing fits then.
    pub fn shrunk(&self, left_mm: f64, right_mm: f64, bottom_mm: f64, top_mm: f64) -> Self {
        Self {
            u_mm: self.u_mm + left_mm,
            v_mm: self.v_mm + bottom_mm,
            width_mm: self.width_mm - left_mm - right_mm,
            height_mm: self.height_mm - bottom_mm - top_mm,
        }
    }

    /// The part that this rectangle shares with another; extents are negative where they are apart.
    pub fn common(&self, other: &Rect) -> Self {
        let u_mm = self.u_mm.max(other.u_mm);
        let v_mm = self.v_mm.max(other.v_mm);
        Self {
            u_mm,
            v_mm,
            width_mm: self.right_mm().min(other.right_mm()) - u_mm,
            height_mm: self.top_mm().min(other.top_mm()) - v_mm,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn common_part_of_two_rectangles() {
        let a = Rect::new(0.0, 0.0, 100.0, 50.0);
        let b = Rect::new(60.0, 20.0, 100.0, 50.0);
        assert_eq!(a.common(&b), Rect::new(60.0, 20.0, 40.0, 30.0));
        let apart = Rect::new(200.0, 0.0, 10.0, 10.0);
        assert!(a.common(&apart).width_mm < 0.0);
        assert_eq!(a.common(&apart).area_mm2(), 0.0);
    }
}
