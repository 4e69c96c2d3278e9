//! Random rows against a search through every place on a coarse grid, and lids that a reader can check by hand.

use super::{Across, BesideLine, across};
use crate::model::lid::{LidItem, LidProblem, LidRows};
use proptest::prelude::*;

/// Sizes are even and gaps whole, so that whole millimetres suffice wherever anything does.
fn item(element: usize, width_mm: f64, free_standing: bool, above: Option<usize>) -> LidItem {
    LidItem {
        element,
        width_mm,
        height_mm: 10.0,
        free_standing,
        rank: 0,
        row: None,
        order: (u32::MAX, 1, element),
        above,
        beside: None,
    }
}

fn problem(items: Vec<LidItem>) -> LidProblem {
    LidProblem {
        items,
        gap_mm: 1.0,
        free_mm: 2.0,
    }
}

/// Rows of up to three elements each, some of them asked above one of a lower row, some starts and stops, some with
/// a named place.
fn rows() -> impl Strategy<Value = (LidProblem, LidRows, f64)> {
    let sizes = (1u32..=2, prop::bool::weighted(0.15));
    let order = prop_oneof![
        4 => Just((u32::MAX, 1)),
        1 => Just((u32::MAX, 0)),
        1 => Just((u32::MAX, 2)),
        1 => (1u32..=3).prop_map(|named| (named, 1)),
    ];
    let target = (any::<prop::sample::Index>(), prop::bool::weighted(0.7));
    let rows = prop::collection::vec(prop::collection::vec((sizes, order, target), 1..=3), 1..=3);
    (rows, 0u32..=5).prop_filter_map("at most five elements", |(rows, spare)| {
        let count: usize = rows.iter().map(Vec::len).sum();
        let (mut items, mut places) = (Vec::new(), LidRows::new());
        for row in &rows {
            let below = items.len() + row.len();
            let mut place = Vec::new();
            for ((half, free), (named, starts), (target, is_asked)) in row {
                let above =
                    (*is_asked && below < count).then(|| below + target.index(count - below));
                let element = items.len();
                place.push(element);
                let mut known = item(element, f64::from(2 * half), *free, above);
                known.order = (*named, *starts, element);
                items.push(known);
            }
            places.push(place);
        }
        let problem = problem(items);
        for place in &mut places {
            problem.sort_row(place);
        }
        let lengths = places.iter().map(|row| problem.row_length_mm(row));
        let width_mm = lengths.fold(0.0, f64::max) + f64::from(spare);
        (count <= 5).then_some((problem, places, width_mm))
    })
}

/// Whether two elements of a row may stand there: far enough from each other, and in the order that is fixed.
fn may_stand(problem: &LidProblem, a: (usize, f64), b: (usize, f64)) -> bool {
    let (one, other) = (&problem.items[a.0], &problem.items[b.0]);
    let gap_mm = if one.free_standing || other.free_standing {
        2.0
    } else {
        1.0
    };
    let reason = |item: &LidItem| (item.free_standing, item.order.0, item.order.1);
    let is_fixed = one.order.0 != u32::MAX || reason(one) != reason(other);
    let goes_first = (reason(one), a.0) < (reason(other), b.0);
    (b.1 - a.1).abs() >= (one.width_mm + other.width_mm) / 2.0 + gap_mm
        && (!is_fixed || goes_first == (a.1 < b.1))
}

/// The most pairs that stand straight over all places in whole millimetres: every place of every element is tried.
fn most_straight(problem: &LidProblem, rows: &LidRows, width_mm: f64) -> usize {
    fn go_on(problem: &LidProblem, row_of: &[usize], width_mm: f64, known: &mut Vec<f64>) -> usize {
        let item = known.len();
        if item == problem.items.len() {
            let items = problem.items.iter().enumerate();
            let is_straight = |(item, one): &(usize, &LidItem)| {
                one.above.is_some_and(|below| known[*item] == known[below])
            };
            return items.filter(is_straight).count();
        }
        let half_mm = problem.items[item].width_mm / 2.0;
        let mut at_mm = half_mm;
        let mut most = 0;
        while at_mm + half_mm <= width_mm {
            let mut before = known.iter().enumerate();
            if before.all(|(other, other_mm)| {
                row_of[other] != row_of[item]
                    || may_stand(problem, (other, *other_mm), (item, at_mm))
            }) {
                known.push(at_mm);
                most = most.max(go_on(problem, row_of, width_mm, known));
                known.pop();
            }
            at_mm += 1.0;
        }
        most
    }
    let mut row_of = vec![0; problem.items.len()];
    for (row, items) in rows.iter().enumerate() {
        for item in items {
            row_of[*item] = row;
        }
    }
    go_on(problem, &row_of, width_mm, &mut Vec::new())
}

fn keeps_gaps_and_edges(
    problem: &LidProblem,
    rows: &LidRows,
    width_mm: f64,
    across: &Across,
) -> Result<(), TestCaseError> {
    for (row, decided) in across.rows.iter().zip(rows) {
        let sorted = |row: &[usize]| {
            let mut row = row.to_vec();
            row.sort_unstable();
            row
        };
        prop_assert_eq!(sorted(row), sorted(decided));
        let mut end_mm = 0.0;
        for (place, item) in row.iter().enumerate() {
            let (known, centre_mm) = (&problem.items[*item], across.centre_mm[*item]);
            let left = place.checked_sub(1).map(|left| &problem.items[row[left]]);
            let gap_mm = left.map_or(0.0, |left| {
                problem.gap_between_mm(left.free_standing, known.free_standing)
            });
            prop_assert!(centre_mm - known.width_mm / 2.0 >= end_mm + gap_mm - 1e-6);
            for before in &row[..place] {
                let before = (*before, across.centre_mm[*before]);
                prop_assert!(may_stand(problem, before, (*item, centre_mm + 1e-6)));
            }
            end_mm = centre_mm + known.width_mm / 2.0;
        }
        prop_assert!(end_mm <= width_mm + 1e-6);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn as_many_stand_straight_as_any_place_allows((problem, rows, width_mm) in rows()) {
        let across = across(&problem, &rows, width_mm);
        keeps_gaps_and_edges(&problem, &rows, width_mm, &across)?;
        let mut straight = 0;
        for (item, known) in problem.items.iter().enumerate() {
            let Some(below) = known.above else { continue };
            let stands = across.centre_mm[item] == across.centre_mm[below];
            let told = across.beside_line.iter().any(|beside| beside.pair == (item, below));
            prop_assert_ne!(stands, told);
            straight += usize::from(stands);
        }
        prop_assert_eq!(straight, most_straight(&problem, &rows, width_mm));
    }

    #[test]
    fn rows_without_wishes_are_spread_evenly((mut problem, rows, width_mm) in rows()) {
        for item in &mut problem.items {
            item.above = None;
        }
        let across = across(&problem, &rows, width_mm);
        prop_assert_eq!(&across.rows, &rows);
        for row in &rows {
            let spare_mm = width_mm - problem.row_length_mm(row);
            let share_mm = crate::space::down_to_tenth(spare_mm / (row.len() + 1) as f64);
            let first = row[0];
            let before_mm = across.centre_mm[first] - problem.items[first].width_mm / 2.0;
            prop_assert!((before_mm - share_mm).abs() < 1e-6);
            for (a, b) in row.iter().zip(&row[1..]) {
                let apart_mm = across.centre_mm[*b] - across.centre_mm[*a];
                prop_assert!((apart_mm - problem.between_centres_mm(*a, *b) - share_mm).abs() < 1e-6);
            }
        }
    }
}

#[test]
fn a_lamp_stands_over_its_button_and_the_buttons_stay_evenly_spread() {
    let problem = problem(vec![
        item(0, 10.0, false, Some(1)),
        item(1, 10.0, false, None),
        item(2, 10.0, false, None),
    ]);
    let across = across(&problem, &vec![vec![0], vec![1, 2]], 51.0);
    assert!(across.beside_line.is_empty());
    // 51 less two buttons and a gap leaves 30: a third of it before, between and after.
    assert_eq!(across.centre_mm, [15.0, 15.0, 36.0]);
}

#[test]
fn a_column_runs_through_rows_that_are_not_next_to_each_other() {
    let problem = problem(vec![
        item(0, 10.0, false, Some(3)),
        item(1, 10.0, false, None),
        item(2, 10.0, false, None),
        item(3, 20.0, false, None),
    ]);
    let rows = vec![vec![0], vec![1, 2], vec![3]];
    let across = across(&problem, &rows, 51.0);
    assert_eq!(
        across.centre_mm,
        [25.5, 15.0, 36.0, 25.5].map(|x_mm: f64| x_mm - 0.0)
    );
}

/// The same with the places in the rows named by the list.
fn with_named_places(mut problem: LidProblem) -> LidProblem {
    for item in &mut problem.items {
        item.order.0 = item.element as u32;
    }
    problem
}

#[test]
fn crossing_wishes_are_met_by_an_exchange_where_the_list_fixes_no_order() {
    let problem = problem(vec![
        item(0, 10.0, false, Some(3)),
        item(1, 10.0, false, Some(2)),
        item(2, 10.0, false, None),
        item(3, 10.0, false, None),
    ]);
    let rows = vec![vec![0, 1], vec![2, 3]];
    let free = across(&problem, &rows, 100.0);
    assert!(free.beside_line.is_empty());
    // Of the two exchanges that do, one is enough.
    let exchanged = free
        .rows
        .iter()
        .zip(&rows)
        .filter(|(one, other)| one != other);
    assert_eq!(exchanged.count(), 1);
}

#[test]
fn a_row_of_more_orders_than_are_tried_follows_the_one_below() {
    // Eight lamps in the opposite order of their buttons, and one without a wish among them.
    let mut items: Vec<LidItem> = (0..8)
        .map(|lamp| item(lamp, 10.0, false, Some(16 - lamp)))
        .collect();
    items.push(item(8, 10.0, false, None));
    items.extend((9..17).map(|button| item(button, 10.0, false, None)));
    let rows = vec![(0..9).collect(), (9..17).collect()];
    let across = across(&problem(items), &rows, 150.0);
    assert!(across.beside_line.is_empty(), "{:?}", across.beside_line);
    assert_eq!(across.rows[0], [7, 6, 5, 4, 3, 2, 1, 0, 8]);
    assert_eq!(across.rows[1], rows[1]);
}

#[test]
fn crossing_wishes_leave_the_first_straight_and_name_it() {
    let problem = with_named_places(problem(vec![
        item(0, 10.0, false, Some(3)),
        item(1, 10.0, false, Some(2)),
        item(2, 10.0, false, None),
        item(3, 10.0, false, None),
    ]));
    let across = across(&problem, &vec![vec![0, 1], vec![2, 3]], 100.0);
    let told = BesideLine {
        pair: (1, 2),
        because_of: vec![(0, 3)],
        is_too_narrow: false,
    };
    assert_eq!(across.beside_line, [told]);
    assert_eq!(across.centre_mm[0], across.centre_mm[3]);
}

#[test]
fn a_lid_too_narrow_for_one_line_is_told_as_such() {
    // The upper row leaves its second the right half only, the lower row its first the left half.
    let problem = with_named_places(problem(vec![
        item(0, 30.0, false, None),
        item(1, 10.0, false, Some(2)),
        item(2, 10.0, false, None),
        item(3, 30.0, false, None),
    ]));
    let rows = vec![vec![0, 1], vec![2, 3]];
    let narrow = across(&problem, &rows, 45.0);
    let told = BesideLine {
        pair: (1, 2),
        because_of: Vec::new(),
        is_too_narrow: true,
    };
    assert_eq!(narrow.beside_line, [told]);
    assert!(across(&problem, &rows, 80.0).beside_line.is_empty());
}

#[test]
fn a_wide_meter_moves_its_button_only_as_far_as_it_must() {
    // The meter's centre lies 20 to 25 mm from the left; evenly spread, its button would stand at 13.3 mm.
    let problem = problem(vec![
        item(0, 40.0, false, Some(1)),
        item(1, 10.0, false, None),
        item(2, 10.0, false, None),
    ]);
    let across = across(&problem, &vec![vec![0], vec![1, 2]], 45.0);
    assert_eq!(across.centre_mm[..2], [20.0, 20.0]);
    // 45 less 25, where the moved button ends, the gap and the other leaves 9: half of it before and after.
    assert!((across.centre_mm[2] - 35.5).abs() < 1e-9);
}
