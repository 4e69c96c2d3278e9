//! Checks of an enclosure's rows of rated power and defined arrangement.

use super::checker::{Checker, MOST_CURRENT_A, MOST_POWER_W, MOST_SECTION_MM2};
use crate::catalogue::{DefinedArrangement, Enclosure};

/// Bounds of an ambient temperature in a row of the certificate, °C.
const AMBIENT_C: [f64; 2] = [-60.0, 100.0];

/// Checks all rows of one enclosure.
pub(super) fn check(part: &Enclosure, checker: &mut Checker<'_>) {
    rated_power(part, checker);
    defined_arrangement(part, checker);
}

/// Rated power falls with the ambient and with a stricter class; each row is given once.
fn rated_power(part: &Enclosure, checker: &mut Checker<'_>) {
    let rows = &part.rated_power;
    for (index, row) in rows.iter().enumerate() {
        let field = format!("rated_power[{index}]");
        checker.positive(&format!("{field}.power_w"), row.power_w, MOST_POWER_W);
        checker.between(
            &format!("{field}.ambient_c"),
            row.ambient_c,
            AMBIENT_C[0],
            AMBIENT_C[1],
        );
        if row.ambient_c >= row.class.limit_c() {
            checker.error(
                &field,
                "catalogue-rated-power",
                format!(
                    "the ambient {} °C leaves nothing below the limit of {}",
                    row.ambient_c, row.class
                ),
                format!("an ambient below {} °C", row.class.limit_c()),
                "correct class or ambient",
            );
        }
        if let Some([_, highest]) = part.certificate.service_c
            && row.ambient_c > highest
        {
            checker.error(
                &field,
                "catalogue-rated-power",
                format!(
                    "the ambient {} °C lies above the service temperature {highest} °C",
                    row.ambient_c
                ),
                "an ambient within `certificate.service_c`",
                "correct the row or `service_c`",
            );
        }
        for other in &rows[..index] {
            let (class, ambient) = (row.class, row.ambient_c);
            let words = |power: f64, class, ambient| format!("{power} W at {class}, {ambient} °C");
            if class == other.class && ambient == other.ambient_c {
                checker.error(
                    &field,
                    "catalogue-rated-power",
                    format!("{class} at {ambient} °C is given twice"),
                    "one row for each class and ambient",
                    "keep one of them",
                );
            } else if (class.covers(other.class)
                && ambient >= other.ambient_c
                && row.power_w > other.power_w)
                || (other.class.covers(class)
                    && other.ambient_c >= ambient
                    && other.power_w > row.power_w)
            {
                let this = words(row.power_w, class, ambient);
                let that = words(other.power_w, other.class, other.ambient_c);
                checker.error(
                    &format!("{field}.power_w"),
                    "catalogue-rated-power",
                    format!("{this} contradicts {that}"),
                    "a power that does not rise with the ambient or with a stricter class",
                    "compare both rows with the certificate",
                );
            }
        }
    }
}

/// A row that is harder in every respect never admits more conductors.
fn defined_arrangement(part: &Enclosure, checker: &mut Checker<'_>) {
    let rows = &part.defined_arrangement;
    for (index, row) in rows.iter().enumerate() {
        let field = format!("defined_arrangement[{index}]");
        checker.positive(
            &format!("{field}.section_mm2"),
            row.section_mm2,
            MOST_SECTION_MM2,
        );
        checker.positive(&format!("{field}.current_a"), row.current_a, MOST_CURRENT_A);
        checker.between(
            &format!("{field}.ambient_c"),
            row.ambient_c,
            AMBIENT_C[0],
            AMBIENT_C[1],
        );
        if row.most_conductors == 0 {
            checker.error(
                &format!("{field}.most_conductors"),
                "catalogue-range",
                "`most_conductors` is 0",
                "a number of 1 or more",
                "leave the row out",
            );
        }
        for other in rows[..index]
            .iter()
            .filter(|other| other.section_mm2 == row.section_mm2)
        {
            // A row that is harder in every respect must not admit more.
            let harder = |a: &DefinedArrangement, b: &DefinedArrangement| {
                a.class.covers(b.class) && a.ambient_c >= b.ambient_c && a.current_a >= b.current_a
            };
            let (down, up) = (harder(row, other), harder(other, row));
            if down && up {
                checker.error(
                    &field,
                    "catalogue-arrangement",
                    format!(
                        "{} mm² at {} A is given twice for {} at {} °C",
                        row.section_mm2, row.current_a, row.class, row.ambient_c
                    ),
                    "one row for each class, ambient, section and current",
                    "keep one of them",
                );
            } else if (down && row.most_conductors > other.most_conductors)
                || (up && other.most_conductors > row.most_conductors)
            {
                checker.error(
                    &format!("{field}.most_conductors"),
                    "catalogue-arrangement",
                    format!(
                        "{} conductors of {} mm² at {} A contradict {} at {} A",
                        row.most_conductors,
                        row.section_mm2,
                        row.current_a,
                        other.most_conductors,
                        other.current_a
                    ),
                    "fewer conductors at a higher current, ambient or stricter class",
                    "compare both rows with the certificate",
                );
            }
        }
    }
}
