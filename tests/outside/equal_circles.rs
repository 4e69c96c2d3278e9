//! `data/packing.csv`: radii of equal circles in a rectangle, checked against exact forms and simple
//! bounds, so that what is later measured against the file can trust it.

use crate::support::Table;

/// N and the side of the square in radii, exact, from an encyclopaedia.
fn exact_sides() -> Vec<(u32, f64)> {
    let (r2, r3, r6) = (2f64.sqrt(), 3f64.sqrt(), 6f64.sqrt());
    vec![
        (1, 2.0),
        (2, 2.0 + r2),
        (3, 2.0 + r2 / 2.0 + r6 / 2.0),
        (4, 4.0),
        (5, 2.0 + 2.0 * r2),
        (6, 2.0 + 12.0 / 13f64.sqrt()),
        (7, 4.0 + r3),
        (8, 2.0 + r2 + r6),
        (9, 6.0),
        (12, 2.0 + 15.0 * (2f64 / 17.0).sqrt()),
        (14, 6.0 + r3),
        (15, 4.0 + r2 + r6),
        (16, 8.0),
        (18, 2.0 + 24.0 / 13f64.sqrt()),
        (20, 130.0 / 17.0 + 16.0 * r2 / 17.0),
    ]
}

#[test]
fn squares_equal_their_exact_forms() {
    let table = Table::read("packing.csv");
    for (count, side) in exact_sides() {
        let radius = table
            .rows
            .iter()
            .find(|row| {
                table.number(row, "aspect") == 1.0 && table.number(row, "N") == f64::from(count)
            })
            .map(|row| table.number(row, "radius"))
            .expect("a row of the square");
        // Twelve decimals are printed.
        assert!((radius - 1.0 / side).abs() < 2e-12, "{count}");
    }
}

#[test]
fn every_row_is_possible_and_more_circles_are_smaller() {
    let table = Table::read("packing.csv");
    assert_eq!(table.rows.len(), 70);
    let mut last: Option<(f64, f64, f64)> = None;
    for row in &table.rows {
        let (aspect, count, radius) = (
            table.number(row, "aspect"),
            table.number(row, "N"),
            table.number(row, "radius"),
        );
        assert!(2.0 * radius <= aspect + 1e-12, "higher than the rectangle");
        // Discs that do not overlap cover less than the whole rectangle.
        let share = count * std::f64::consts::PI * radius * radius / aspect;
        assert!(share < 1.0, "{aspect} {count}: {share}");
        // One row of N circles is always possible where it is not higher than the rectangle.
        let in_a_row = (0.5 / count).min(aspect / 2.0);
        assert!(radius >= in_a_row - 1e-9, "{aspect} {count}");
        if let Some((last_aspect, last_count, last_radius)) = last
            && last_aspect == aspect
        {
            assert_eq!(count, last_count + 1.0);
            assert!(radius <= last_radius + 1e-9, "{aspect} {count}");
        }
        last = Some((aspect, count, radius));
    }
}
