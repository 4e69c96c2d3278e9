//! Places and areas on paper.

/// A place on paper, millimetres from the lower left corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// To the right.
    pub x_mm: f64,
    /// Upwards.
    pub y_mm: f64,
}

impl Spot {
    /// A place from its two coordinates.
    pub fn new(x_mm: f64, y_mm: f64) -> Self {
        Self { x_mm, y_mm }
    }

    /// The place moved by a distance.
    pub fn moved(self, right_mm: f64, up_mm: f64) -> Self {
        Self {
            x_mm: self.x_mm + right_mm,
            y_mm: self.y_mm + up_mm,
        }
    }
}

/// An upright rectangle on paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// Left edge.
    pub left_mm: f64,
    /// Lower edge.
    pub bottom_mm: f64,
    /// Right edge.
    pub right_mm: f64,
    /// Upper edge.
    pub top_mm: f64,
}

impl Area {
    /// A rectangle from its edges.
    pub fn new(left_mm: f64, bottom_mm: f64, right_mm: f64, top_mm: f64) -> Self {
        Self {
            left_mm,
            bottom_mm,
            right_mm,
            top_mm,
        }
    }

    /// A rectangle from any two opposite corners.
    pub fn between(a: Spot, b: Spot) -> Self {
        Self::new(
            a.x_mm.min(b.x_mm),
            a.y_mm.min(b.y_mm),
            a.x_mm.max(b.x_mm),
            a.y_mm.max(b.y_mm),
        )
    }

    /// Extent to the right.
    pub fn width_mm(&self) -> f64 {
        self.right_mm - self.left_mm
    }

    /// Extent upwards.
    pub fn height_mm(&self) -> f64 {
        self.top_mm - self.bottom_mm
    }

    /// The middle.
    pub fn centre(&self) -> Spot {
        Spot::new(
            (self.left_mm + self.right_mm) / 2.0,
            (self.bottom_mm + self.top_mm) / 2.0,
        )
    }

    /// The rectangle with each edge moved outwards.
    pub fn grown(&self, by_mm: f64) -> Self {
        Self::new(
            self.left_mm - by_mm,
            self.bottom_mm - by_mm,
            self.right_mm + by_mm,
            self.top_mm + by_mm,
        )
    }

    /// The rectangle with its left and right edges moved outwards.
    pub fn widened(&self, by_mm: f64) -> Self {
        Self {
            left_mm: self.left_mm - by_mm,
            right_mm: self.right_mm + by_mm,
            ..*self
        }
    }

    /// The rectangle moved by a distance.
    pub fn moved(&self, right_mm: f64, up_mm: f64) -> Self {
        Self::new(
            self.left_mm + right_mm,
            self.bottom_mm + up_mm,
            self.right_mm + right_mm,
            self.top_mm + up_mm,
        )
    }

    /// The smallest rectangle around both.
    pub fn joined(&self, other: &Area) -> Self {
        Self::new(
            self.left_mm.min(other.left_mm),
            self.bottom_mm.min(other.bottom_mm),
            self.right_mm.max(other.right_mm),
            self.top_mm.max(other.top_mm),
        )
    }

    /// Whether the line of a circle passes through it: part of it lies within the circle, part without.
    pub fn meets_circle_line(&self, centre: Spot, radius_mm: f64) -> bool {
        let beyond = |low: f64, high: f64, at: f64| (low - at).max(at - high).max(0.0);
        let nearest_mm = beyond(self.left_mm, self.right_mm, centre.x_mm).hypot(beyond(
            self.bottom_mm,
            self.top_mm,
            centre.y_mm,
        ));
        let far = |low: f64, high: f64, at: f64| (at - low).abs().max((high - at).abs());
        let farthest_mm = far(self.left_mm, self.right_mm, centre.x_mm).hypot(far(
            self.bottom_mm,
            self.top_mm,
            centre.y_mm,
        ));
        nearest_mm < radius_mm && radius_mm < farthest_mm
    }

    /// Whether the two have more than an edge in common.
    pub fn meets(&self, other: &Area) -> bool {
        self.left_mm < other.right_mm
            && other.left_mm < self.right_mm
            && self.bottom_mm < other.top_mm
            && other.bottom_mm < self.top_mm
    }

    /// Whether the other lies inside or on the edges.
    pub fn contains(&self, other: &Area) -> bool {
        self.left_mm <= other.left_mm
            && self.bottom_mm <= other.bottom_mm
            && self.right_mm >= other.right_mm
            && self.top_mm >= other.top_mm
    }
}
