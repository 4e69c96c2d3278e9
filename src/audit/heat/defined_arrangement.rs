//! The certificate's second method: the shares of its rows that the conductors take, summed up.
//! Knows nothing of power and temperatures.
//!
//! A certificate may state the largest dissipated power, rows of a defined arrangement, or both, and
//! either of them is enough. This program rates by the power; then the sum informs. Where the file says
//! that the defined arrangement decides too, the same sum holds or fails.

use crate::audit::case::{Cases, Rule, figure_text};
use crate::audit::context::{Context, EARTH};
use crate::standards::iec_60079_0::TemperatureClass;
use crate::standards::iec_60079_7::DEFINED_ARRANGEMENT;
use std::collections::BTreeMap;

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[Rule {
    id: "heat.defined_arrangement",
    title: "defined arrangement: summed utilisation",
    requires: "the numbers of conductors, each divided by the most that the certificate's row for their section and at least their current permits, give no more than 1 together, in one table for a class and ambient temperature that serve the area; incoming conductors, internal links and jumpers count, protective conductors and unused cores do not; a conductor without a row, or heat of contacts and elements, is not determined; informs where the rated power alone decides",
    source: DEFINED_ARRANGEMENT,
    unit: "of 1",
    check: utilisation,
}];

/// Sections and currents that differ by less are equal, mm² and A.
const EQUAL: f64 = 1e-6;

/// What one table of the certificate says of the conductors.
struct Sum {
    table: String,
    share: f64,
    /// Conductors for which the table has no row, and the first of them in words.
    without_row: (usize, String),
}

/// Section and current of everything that counts.
fn counted(context: &Context<'_>) -> Vec<(f64, f64)> {
    let arrangement = context.arrangement;
    let wires = arrangement.wires.iter();
    let mut found: Vec<(f64, f64)> = wires
        .filter(|wire| !wire.circuit.is_empty() && wire.potential != EARTH)
        .map(|wire| (wire.section_mm2, wire.current_a))
        .collect();
    for jumper in &arrangement.jumpers {
        // No row speaks of jumpers: each link counts as the thinnest conductor on its terminals.
        let terminals = jumper
            .terminals
            .iter()
            .filter_map(|id| context.terminals.get(id.as_str()));
        let thinnest_mm2 = terminals
            .flat_map(|terminal| context.wires_at(terminal))
            .map(|wire| wire.section_mm2)
            .fold(f64::INFINITY, f64::min);
        for _ in 1..jumper.terminals.len() {
            found.push((thinnest_mm2, jumper.current_a));
        }
    }
    found
}

/// Rows of one table: section, largest current, most conductors.
type Rows = Vec<(f64, f64, u32)>;

/// The sum by each table that may be used in the area.
fn sums(context: &Context<'_>) -> Vec<Sum> {
    let area = &context.arrangement.area;
    let mut tables: BTreeMap<(TemperatureClass, i64), Rows> = BTreeMap::new();
    for row in &context.arrangement.enclosure.defined_arrangement {
        // Classes are in the order of their limits, the coolest last.
        let cool_enough = area
            .temperature_class
            .is_none_or(|asked| row.class >= asked)
            && area
                .max_surface_c
                .is_none_or(|most_c| row.class.limit_c() <= most_c);
        if cool_enough && row.ambient_c >= area.ambient_c[1] {
            tables
                .entry((row.class, (row.ambient_c * 1000.0).round() as i64))
                .or_default()
                .push((row.section_mm2, row.current_a, row.most_conductors));
        }
    }
    let conductors = counted(context);
    let of_table = |((class, thousandths), rows): ((TemperatureClass, i64), Rows)| {
        let mut share = 0.0;
        let mut without_row = (0, String::new());
        for (section_mm2, current_a) in &conductors {
            let fitting = rows
                .iter()
                .filter(|(row_mm2, row_a, _): &&(f64, f64, u32)| {
                    (row_mm2 - section_mm2).abs() <= EQUAL * section_mm2
                        && row_a + EQUAL >= *current_a
                })
                .map(|(_, _, most)| *most)
                .max()
                .filter(|most| *most > 0);
            match fitting {
                Some(most) => share += 1.0 / f64::from(most),
                None => {
                    without_row.0 += 1;
                    if without_row.1.is_empty() {
                        without_row.1 = format!(
                            "{} mm² at {} A",
                            figure_text(*section_mm2),
                            figure_text(*current_a)
                        );
                    }
                }
            }
        }
        Sum {
            table: format!("{class:?}, {} °C", figure_text(thousandths as f64 / 1000.0)),
            share,
            without_row,
        }
    };
    tables.into_iter().map(of_table).collect()
}

fn utilisation(context: &Context<'_>, cases: &mut Cases) {
    let arrangement = context.arrangement;
    let enclosure = arrangement.enclosure.id.as_str();
    let decides = arrangement.heat.defined_arrangement_decides;
    // The table that speaks of most conductors, then the one that they fill least.
    let best = sums(context).into_iter().min_by(|a, b| {
        let missing = a.without_row.0.cmp(&b.without_row.0);
        missing.then(a.share.total_cmp(&b.share))
    });
    let Some(best) = best else {
        let text = || {
            format!(
                "the certificate of {enclosure} has no rows of a defined arrangement for the area"
            )
        };
        if decides {
            cases.unknown(&[enclosure], text);
        } else {
            cases.informs(&[enclosure], text);
        }
        return;
    };
    let other_heat = arrangement.elements.iter().any(|element| {
        let contacts = element.contacts.iter();
        let heated = contacts
            .flat_map(|contact| &contact.points)
            .any(|point| point.current_a > 0.0);
        element.power_w != 0.0 || heated
    });
    let mut missing = Vec::new();
    if best.without_row.0 > 0 {
        missing.push(format!(
            "{} of the conductors have no row ({}: {})",
            best.without_row.0, best.table, best.without_row.1
        ));
    }
    if other_heat {
        missing.push("no row speaks of the heat of contacts and elements".to_string());
    }
    let what = || format!("summed utilisation of {enclosure} ({})", best.table);
    // A sum beyond 1 stays beyond it whatever is missing.
    if !missing.is_empty() && best.share <= 1.0 + EQUAL {
        let text = || {
            let share = figure_text(best.share);
            format!("{}: {share} so far, but {}", what(), missing.join("; "))
        };
        if decides {
            cases.unknown(&[enclosure], text);
        } else {
            cases.informs(&[enclosure], text);
        }
    } else if decides {
        cases.at_most(&[enclosure], best.share, 1.0, what);
    } else {
        cases.informs_at_most(&[enclosure], best.share, 1.0, || {
            let share = figure_text(best.share);
            format!("{}: {share} of 1; the rated power decides here", what())
        });
    }
}
