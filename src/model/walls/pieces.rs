//! What is left of an area round its blocked parts: rectangles in which rows may lie, so far apart that
//! entries of two of them keep their gaps.

use crate::space::Rect;

/// Lengths below this are none, mm.
const NOTHING_MM: f64 = 1e-9;

/// The pieces of an area that are free of what is blocked. Each part is cut out so that the pieces beside
/// it keep `gap_mm`, those below and above it `row_gap_mm`; of the two ways to cut, along or across, the one
/// with the larger sum of the squares of its areas is taken: few large pieces take more rows than many small ones.
pub(super) fn free_of(area: Rect, blocked: &[Rect], gap_mm: f64, row_gap_mm: f64) -> Vec<Rect> {
    blocked.iter().fold(vec![area], |pieces, part| {
        pieces
            .into_iter()
            .flat_map(|piece| cut(piece, part, gap_mm, row_gap_mm))
            .collect()
    })
}

fn cut(piece: Rect, part: &Rect, gap_mm: f64, row_gap_mm: f64) -> Vec<Rect> {
    let common = piece.common(part);
    if common.width_mm <= NOTHING_MM || common.height_mm <= NOTHING_MM {
        return vec![piece];
    }
    // What is narrower than the gap keeps the pieces on both sides of it too near to each other.
    let wide_mm = ((gap_mm - part.width_mm) / 2.0).max(0.0);
    let high_mm = ((row_gap_mm - part.height_mm) / 2.0).max(0.0);
    let (left_mm, right_mm) = (part.u_mm - wide_mm, part.right_mm() + wide_mm);
    let (low_mm, top_mm) = (part.v_mm - high_mm, part.top_mm() + high_mm);
    let between = |u: [f64; 2], v: [f64; 2]| Rect::new(u[0], v[0], u[1] - u[0], v[1] - v[0]);
    let (us, vs) = ([piece.u_mm, piece.right_mm()], [piece.v_mm, piece.top_mm()]);
    // A gap is kept only from a piece that is there.
    let inner = |[from, to]: [f64; 2], [low, high]: [f64; 2], gap_mm: f64| {
        let start = if low > from { low + gap_mm } else { from };
        let end = if high < to { high - gap_mm } else { to };
        [start, end]
    };
    let along = inner(us, [left_mm, right_mm], gap_mm);
    let across = inner(vs, [low_mm, top_mm], row_gap_mm);
    let upright = [
        between([us[0], left_mm], vs),
        between([right_mm, us[1]], vs),
        between(along, [vs[0], low_mm]),
        between(along, [top_mm, vs[1]]),
    ];
    let level = [
        between(us, [vs[0], low_mm]),
        between(us, [top_mm, vs[1]]),
        between([us[0], left_mm], across),
        between([right_mm, us[1]], across),
    ];
    let largeness = |rects: &[Rect]| {
        let areas = rects.iter().map(|rect| {
            let (width_mm, height_mm) = (rect.width_mm.max(0.0), rect.height_mm.max(0.0));
            (width_mm * height_mm).powi(2)
        });
        areas.sum::<f64>()
    };
    let better = if largeness(&level) > largeness(&upright) {
        level
    } else {
        upright
    };
    better
        .into_iter()
        .filter(|rect| rect.width_mm > NOTHING_MM && rect.height_mm > NOTHING_MM)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rib_across_leaves_two_rooms_that_keep_the_gap() {
        let area = Rect::new(10.0, 10.0, 100.0, 60.0);
        let rib = Rect::new(58.0, 0.0, 4.0, 80.0);
        let pieces = free_of(area, &[rib], 6.0, 10.0);
        assert_eq!(
            pieces,
            [
                Rect::new(10.0, 10.0, 47.0, 60.0),
                Rect::new(63.0, 10.0, 47.0, 60.0)
            ]
        );
    }

    #[test]
    fn a_boss_below_leaves_the_room_above_it_whole() {
        let area = Rect::new(0.0, 0.0, 100.0, 60.0);
        let boss = Rect::new(40.0, 0.0, 20.0, 15.0);
        let pieces = free_of(area, &[boss], 5.0, 10.0);
        assert!(
            pieces.contains(&Rect::new(0.0, 15.0, 100.0, 45.0)),
            "{pieces:?}"
        );
        // Two pieces lie apart by the gap along u or by the gap between rows along v.
        for (index, one) in pieces.iter().enumerate() {
            for other in &pieces[..index] {
                let common = one.common(other);
                assert!(
                    common.width_mm <= -5.0 || common.height_mm <= -10.0,
                    "{one:?} {other:?}"
                );
            }
            assert!(one.common(&boss).area_mm2() == 0.0);
        }
    }

    #[test]
    fn what_lies_elsewhere_changes_nothing() {
        let area = Rect::new(0.0, 0.0, 50.0, 50.0);
        let apart = Rect::new(50.0, 0.0, 10.0, 10.0);
        assert_eq!(free_of(area, &[apart], 5.0, 10.0), [area]);
    }
}
