//! Small questions whose answers are known by geometry.

use super::{Blocked, Bound, Circles, Effort, Placing};

fn circles(width_mm: f64, height_mm: f64, diameters: &[(f64, usize)], gap_mm: f64) -> Circles {
    Circles {
        width_mm,
        height_mm,
        diameters_mm: diameters
            .iter()
            .flat_map(|(diameter, count)| std::iter::repeat_n(*diameter, *count))
            .collect(),
        gap_mm,
        row_gap_mm: gap_mm,
        blocked: Vec::new(),
    }
}

#[track_caller]
fn placed(question: &Circles) -> Vec<[f64; 2]> {
    match question.place(Effort::Thorough) {
        Placing::Placed(centres) => {
            assert!(question.holds(&centres));
            centres
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn three_circles_nest_where_rows_would_not() {
    // Two below, one in the hollow above: height 20 + 25 · √3 / 2, with a gap of 5.
    let height = 20.0 + 25.0 * 3f64.sqrt() / 2.0;
    placed(&circles(45.0, height + 0.1, &[(20.0, 3)], 5.0));
    let lower = circles(45.0, height - 0.1, &[(20.0, 3)], 5.0).place(Effort::Thorough);
    assert!(!matches!(lower, Placing::Placed(_)), "{lower:?}");
}

#[test]
fn what_fits_to_the_hair_is_found_on_its_grid() {
    for centre in placed(&circles(110.0, 20.0, &[(20.0, 4), (15.0, 1)], 3.75)) {
        for at in centre {
            assert!((at * 1000.0 - (at * 1000.0).round()).abs() < 1e-6, "{at}");
        }
    }
    placed(&circles(60.0, 60.0, &[(20.0, 9)], 0.0));
    placed(&circles(85.0, 85.0, &[(25.0, 9)], 5.0));
}

#[test]
fn each_bound_proves_what_it_says() {
    let bound = |question: Circles| match question.place(Effort::Thorough) {
        Placing::Impossible(bound) => bound,
        other => panic!("{other:?}"),
    };
    assert!(matches!(
        bound(circles(100.0, 30.0, &[(31.0, 1)], 5.0)),
        Bound::Single { .. }
    ));
    assert!(matches!(
        bound(circles(100.0, 100.0, &[(20.0, 30)], 0.0)),
        Bound::Area { .. }
    ));
    // Two circles in a square: side (2 + √2) r.
    let side = 20.0 * (2.0 + 2f64.sqrt());
    assert!(matches!(
        bound(circles(side - 0.01, side - 0.01, &[(40.0, 2)], 0.0)),
        Bound::Count { .. } | Bound::Line { .. }
    ));
    placed(&circles(side + 0.1, side + 0.1, &[(40.0, 2)], 0.0));
    // Three in a line that is too short by a tenth.
    assert!(matches!(
        bound(circles(69.9, 20.0, &[(20.0, 3)], 5.0)),
        Bound::Count { .. } | Bound::Line { .. }
    ));
    placed(&circles(70.0, 20.0, &[(20.0, 3)], 5.0));
}

#[test]
fn no_bound_contradicts_a_placing_that_holds() {
    // Circles are put down at random; a rectangle drawn round them takes them, whatever a bound says.
    let mut random = super::random::Random::new();
    let mut judged = 0;
    for _ in 0..400 {
        let count = 2 + random.below(7);
        let gap_mm = random.between(0.0, 8.0);
        let mut done: Vec<([f64; 2], f64)> = Vec::new();
        for _ in 0..400 {
            let diameter = random.between(10.0, 40.0);
            let at = [random.between(0.0, 120.0), random.between(0.0, 60.0)];
            let free = done.iter().all(|(other, size)| {
                (at[0] - other[0]).hypot(at[1] - other[1]) >= (diameter + size) / 2.0 + gap_mm
            });
            if free && done.len() < count {
                done.push((at, diameter));
            }
        }
        let least = |axis: usize| {
            done.iter()
                .map(|(at, size)| at[axis] - size / 2.0)
                .fold(f64::INFINITY, f64::min)
        };
        let most = |axis: usize| {
            done.iter()
                .map(|(at, size)| at[axis] + size / 2.0)
                .fold(0.0, f64::max)
        };
        let question = Circles {
            width_mm: most(0) - least(0),
            height_mm: most(1) - least(1),
            diameters_mm: done.iter().map(|(_, size)| *size).collect(),
            gap_mm,
            row_gap_mm: gap_mm,
            blocked: Vec::new(),
        };
        let bound = super::bounds::disproved(&question);
        assert!(bound.is_none(), "{question:?}: {bound:?}");
        judged += 1;
    }
    assert_eq!(judged, 400);
}

#[test]
fn circles_above_each_other_keep_the_larger_gap() {
    let mut question = circles(20.0, 50.0, &[(20.0, 2)], 5.0);
    placed(&question);
    question.row_gap_mm = 10.0;
    let centres = placed(&question);
    assert!((centres[0][1] - centres[1][1]).abs() >= 30.0 - 1e-6);
    question.height_mm = 49.9;
    assert!(!matches!(
        question.place(Effort::Thorough),
        Placing::Placed(_)
    ));
}

#[test]
fn the_same_question_has_the_same_answer() {
    let question = circles(130.0, 95.0, &[(36.0, 4), (27.0, 5)], 3.0);
    assert_eq!(
        question.place(Effort::Thorough),
        question.place(Effort::Thorough)
    );
}

#[test]
fn circles_keep_clear_of_what_is_blocked() {
    // A rib across the middle leaves two rooms of 45 by 30: two circles each.
    let mut question = circles(100.0, 20.0, &[(20.0, 4)], 5.0);
    question.blocked = vec![Blocked {
        from_mm: [45.0, 0.0],
        to_mm: [55.0, 20.0],
    }];
    let centres = placed(&question);
    assert_eq!(centres.iter().filter(|centre| centre[0] < 50.0).count(), 2);
    // Without the rib the same circles could stand where it is.
    let mut moved = centres.clone();
    moved[0] = [50.0, 10.0];
    assert!(!question.holds(&moved));
    // A wider rib leaves no room for the fourth.
    question.blocked[0].from_mm[0] = 44.0;
    assert!(!matches!(question.place(Effort::Quick), Placing::Placed(_)));
}

#[test]
fn a_boss_in_a_corner_is_gone_round() {
    // A boss of 30 by 30 in the lower left corner of 60 by 60: three circles of 28 stand round it.
    let mut question = circles(60.0, 60.0, &[(28.0, 3)], 2.0);
    question.blocked = vec![Blocked {
        from_mm: [0.0, 0.0],
        to_mm: [30.0, 30.0],
    }];
    for centre in placed(&question) {
        // Not within the boss, nor nearer to it than half a diameter.
        let out = [0, 1].map(|axis: usize| (centre[axis] - 30.0).max(0.0));
        assert!(out[0].hypot(out[1]) >= 14.0 - 1e-9, "{centre:?}");
    }
}

#[test]
fn the_distance_from_a_blocked_part_has_a_sign() {
    let part = Blocked {
        from_mm: [10.0, 20.0],
        to_mm: [30.0, 60.0],
    };
    assert_eq!(part.distance_mm([33.0, 64.0]), 5.0);
    assert_eq!(part.distance_mm([4.0, 40.0]), 6.0);
    assert_eq!(part.distance_mm([13.0, 40.0]), -3.0);
    assert_eq!(part.distance_mm([20.0, 58.0]), -2.0);
}

/// Who waits longer loses nothing, and finds what the quick search leaves open.
#[test]
fn patience_finds_more() {
    let mut more = 0;
    for count in 8..24usize {
        // Tighter and tighter, until the quick search finds nothing.
        for side in 0..14 {
            let side_mm = (count as f64).sqrt() * 20.0 * (1.04 - 0.01 * f64::from(side));
            let question = circles(side_mm * 1.3, side_mm / 1.3, &[(20.0, count)], 0.0);
            let quick = question.place(Effort::Quick);
            if matches!(quick, Placing::Placed(_)) {
                continue;
            }
            let patient = question.place(Effort::Patient);
            if let Placing::Placed(centres) = &patient {
                assert!(question.holds(centres));
                more += 1;
            }
            assert!(quick == Placing::Open || patient == quick);
            break;
        }
    }
    assert!(more >= 1, "patience has found nothing");
}
