//! Hatching: parallel lines at 45° inside a rectangle.

use super::geometry::{Area, Spot};
use super::shape::{Geometry, Shape};
use super::style::{Layer, Pen};

/// Lines at 45°, rising to the right, at equal distances inside a rectangle.
pub fn hatch(area: Area, distance_mm: f64) -> Vec<Shape> {
    // A line at 45° is the set y − x = c; c runs from the lower right to the upper left corner.
    let step = distance_mm * std::f64::consts::SQRT_2;
    let first = area.bottom_mm - area.right_mm;
    let last = area.top_mm - area.left_mm;
    let count = ((last - first) / step).floor() as usize;
    (1..=count)
        .map(|index| first + index as f64 * step)
        .filter_map(|c| {
            let from = area.left_mm.max(area.bottom_mm - c);
            let to = area.right_mm.min(area.top_mm - c);
            (to > from).then(|| Geometry::Line(Spot::new(from, from + c), Spot::new(to, to + c)))
        })
        .map(|line| Shape::new(Layer::Outline, line).pen(Pen::solid(0.18)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_stays_inside() {
        let area = Area::new(3.0, 4.0, 13.0, 9.0);
        let lines = hatch(area, 1.0);
        assert!(lines.len() > 8);
        for line in lines {
            assert!(area.grown(1e-9).contains(&line.area()));
        }
    }
}
