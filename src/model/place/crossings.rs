//! Conductors that cross, seen from the front: straight from gland to terminal or contact.

use super::wires::Ends;
use crate::arrangement::PlacedTerminal;
use crate::demand::{WireNeed, WireNeedEnd};
use crate::space::Point;

/// A conductor as a straight line.
type Line = (Point, Point);

/// Number of pairs of cable conductors that cross. Those of one gland meet there and do not cross.
pub(super) fn count(ends: &Ends<'_>, terminals: &[PlacedTerminal], wires: &[WireNeed]) -> usize {
    let lines: Vec<Line> = wires
        .iter()
        .filter_map(|wire| {
            let cable = [&wire.from, &wire.to]
                .into_iter()
                .find_map(|end| match end {
                    WireNeedEnd::Core { cable, .. } => Some(*cable),
                    _ => None,
                })?;
            let entry = ends.entry_points.get(&cable)?;
            let far = super::wires::far_point(ends, terminals, wire)?;
            Some((*entry, far))
        })
        .collect();
    let pairs = lines.iter().enumerate();
    pairs
        .map(|(index, one)| {
            let others = lines[index + 1..].iter();
            others.filter(|other| cross(one, other)).count()
        })
        .sum()
}

/// Whether two lines cross at a point inside both.
fn cross(one: &Line, other: &Line) -> bool {
    let side = |line: &Line, point: &Point| {
        (line.1.x_mm - line.0.x_mm) * (point.y_mm - line.0.y_mm)
            - (line.1.y_mm - line.0.y_mm) * (point.x_mm - line.0.x_mm)
    };
    let apart = |line: &Line, of: &Line| side(line, &of.0) * side(line, &of.1) < -1e-6;
    apart(one, other) && apart(other, one)
}

#[cfg(test)]
mod tests {
    use super::cross;
    use crate::space::Point;

    fn line(from: (f64, f64), to: (f64, f64)) -> (Point, Point) {
        (
            Point::new(from.0, from.1, 0.0),
            Point::new(to.0, to.1, 50.0),
        )
    }

    #[test]
    fn lines_cross_inside_both_only() {
        let rising = line((0.0, 0.0), (10.0, 10.0));
        assert!(cross(&rising, &line((0.0, 10.0), (10.0, 0.0))));
        // Beside it, beyond its end, from the same gland, ending on it.
        assert!(!cross(&rising, &line((1.0, 0.0), (11.0, 10.0))));
        assert!(!cross(&rising, &line((20.0, 0.0), (0.0, 20.0 + 1e-9))));
        assert!(!cross(&rising, &line((0.0, 0.0), (10.0, 0.0))));
        assert!(!cross(&rising, &line((5.0, 5.0), (10.0, 0.0))));
    }
}
