//! A part of the rectangle that no circle may reach into: a rib, a boss, the fixing of a hinge.

/// A rectangle by its lower left and upper right corners, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blocked {
    /// Lower left corner.
    pub from_mm: [f64; 2],
    /// Upper right corner.
    pub to_mm: [f64; 2],
}

impl Blocked {
    /// How far a point lies from it; within it the distance to the nearest side, negative.
    pub fn distance_mm(&self, point: [f64; 2]) -> f64 {
        self.distance_and_way(point).0
    }

    /// The distance, and the direction in which it grows fastest.
    pub(super) fn distance_and_way(&self, point: [f64; 2]) -> (f64, [f64; 2]) {
        let before = [0, 1].map(|axis: usize| self.from_mm[axis] - point[axis]);
        let behind = [0, 1].map(|axis: usize| point[axis] - self.to_mm[axis]);
        let out = [0, 1].map(|axis| behind[axis].max(0.0) - before[axis].max(0.0));
        let distance_mm = (out[0] * out[0] + out[1] * out[1]).sqrt();
        if distance_mm > 0.0 {
            return (distance_mm, out.map(|part| part / distance_mm));
        }
        let sides = [
            (before[0], [-1.0, 0.0]),
            (behind[0], [1.0, 0.0]),
            (before[1], [0.0, -1.0]),
            (behind[1], [0.0, 1.0]),
        ];
        sides
            .into_iter()
            .fold((f64::NEG_INFINITY, [0.0, 0.0]), |best, side| {
                if side.0 > best.0 { side } else { best }
            })
    }
}
