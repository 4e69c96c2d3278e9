//! Positions of several holes of a face, each written once, at the edge to which its extension line has
//! a free way.

use super::parts::{EDGE_GAP_MM, Position, SMALL};
use crate::sheets::drawing::{Area, Canvas, Edge, Mark, marks};
use crate::sheets::number;

/// A hole to be dimensioned, in millimetres of the box.
#[derive(Debug, Clone, Copy)]
pub(super) struct Place {
    /// Its middle.
    pub centre: (f64, f64),
    /// The outline at which extension lines begin and which those of others should not cross.
    pub outline: Area,
}

/// The same place with its axes exchanged, so that one procedure serves both directions.
fn turned(place: &Place) -> Place {
    let Area {
        left_mm,
        bottom_mm,
        right_mm,
        top_mm,
    } = place.outline;
    Place {
        centre: (place.centre.1, place.centre.0),
        outline: Area::new(bottom_mm, left_mm, top_mm, right_mm),
    }
}

/// Writes the positions of all places along the edges of a view: those along u below, or above where
/// that way is freer; those along v to the left, or to the right.
pub(super) fn write(canvas: &mut Canvas, outer: Area, places: &[Place]) {
    let turn = canvas.turn();
    let places: Vec<Place> = places
        .iter()
        .map(|place| Place {
            centre: turn.apply(place.centre.0, place.centre.1),
            outline: turn.area(&place.outline),
        })
        .collect();
    let ratio = canvas.ratio();
    for Place { outline, .. } in &places {
        canvas.cover(Area::new(
            outline.left_mm * ratio,
            outline.bottom_mm * ratio,
            outline.right_mm * ratio,
            outline.top_mm * ratio,
        ));
    }
    let (below, above) = along(&places);
    let aside: Vec<Place> = places.iter().map(turned).collect();
    let (left, right) = along(&aside);
    for (edge, line_mm, found) in [
        (Edge::Lower, outer.bottom_mm - EDGE_GAP_MM, below),
        (Edge::Upper, outer.top_mm + EDGE_GAP_MM, above),
        (Edge::Left, outer.left_mm - EDGE_GAP_MM, left),
        (Edge::Right, outer.right_mm + EDGE_GAP_MM, right),
    ] {
        let found = found
            .into_iter()
            .map(|(position_mm, from_mm)| Mark {
                along_mm: position_mm * ratio,
                from_mm: from_mm * ratio,
                // Positions count from the datum whichever way the view is turned.
                content: number(position_mm.abs(), 2),
                subject: None,
            })
            .collect();
        marks(canvas, edge, line_mm, found, SMALL);
    }
}

/// Positions along the first axis with the place where their extension lines begin: those that lead to
/// the low edge, and those that lead to the high one.
fn along(places: &[Place]) -> (Vec<Position>, Vec<Position>) {
    let mut groups: Vec<(String, Vec<&Place>)> = Vec::new();
    for place in places {
        let name = number(place.centre.0, 2);
        match groups.iter_mut().find(|(known, _)| *known == name) {
            Some((_, members)) => members.push(place),
            None => groups.push((name, vec![place])),
        }
    }
    let (mut low, mut high) = (Vec::new(), Vec::new());
    for (name, members) in &groups {
        let position_mm = members[0].centre.0;
        let floor_mm = members
            .iter()
            .map(|place| place.outline.bottom_mm)
            .fold(f64::MAX, f64::min);
        let ceiling_mm = members
            .iter()
            .map(|place| place.outline.top_mm)
            .fold(f64::MIN, f64::max);
        let in_the_way = |place: &&Place| {
            number(place.centre.0, 2) != *name
                && place.outline.left_mm < position_mm
                && position_mm < place.outline.right_mm
        };
        let others: Vec<&Place> = places.iter().filter(in_the_way).collect();
        let under = others
            .iter()
            .filter(|place| place.outline.bottom_mm < floor_mm)
            .count();
        let over = others
            .iter()
            .filter(|place| place.outline.top_mm > ceiling_mm)
            .count();
        if over < under {
            high.push((position_mm, ceiling_mm));
        } else {
            low.push((position_mm, floor_mm));
        }
    }
    (low, high)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn place(u_mm: f64, v_mm: f64) -> Place {
        Place {
            centre: (u_mm, v_mm),
            outline: Area::new(u_mm - 10.0, v_mm - 10.0, u_mm + 10.0, v_mm + 10.0),
        }
    }

    #[test]
    fn a_hole_over_another_is_dimensioned_above() {
        let (low, high) = along(&[place(20.0, 20.0), place(25.0, 60.0), place(80.0, 60.0)]);
        assert_eq!(low, [(20.0, 10.0), (80.0, 50.0)]);
        assert_eq!(high, [(25.0, 70.0)]);
    }

    #[test]
    fn equal_positions_are_written_once_from_the_nearest() {
        let (low, high) = along(&[place(20.0, 60.0), place(20.0, 20.0)]);
        assert_eq!(low, [(20.0, 10.0)]);
        assert!(high.is_empty());
    }
}
