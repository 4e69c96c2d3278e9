//! The certificate's second method: conductors counted against rows of section and current.
//! Knows nothing of how the conductors lie in the box.
//!
//! Σ n/N over the pairs of section and current must not pass 1. All conductors are counted against
//! one table, that of one temperature class and ambient temperature, since a share of one table says
//! nothing about another. A conductor takes a row of its own section whose current is at least its
//! own. Where there is none the conductor is not determined: neither a thicker conductor's row nor a
//! lower current's says anything about it.

use crate::catalogue::DefinedArrangement;
use crate::standards::iec_60079_0::TemperatureClass;
use crate::standards::iec_60079_7::{ArrangementShare, arrangement_holds, arrangement_utilisation};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

pub use crate::standards::iec_60079_7::DEFINED_ARRANGEMENT as SOURCE;

/// Sections that differ by less than this share are one nominal section.
const SAME_SECTION: f64 = 1e-6;

/// What the area asks for.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Asked {
    /// Temperature class, for gas.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub class: Option<TemperatureClass>,
    /// Surface temperature, for dust, °C.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub max_surface_c: Option<f64>,
    /// Highest ambient temperature, °C.
    pub ambient_c: f64,
}

impl Asked {
    /// Whether a table of this class and ambient temperature may be used.
    fn allows(&self, class: TemperatureClass, ambient_c: f64) -> bool {
        self.class.is_none_or(|asked| class.covers(asked))
            && self
                .max_surface_c
                .is_none_or(|most_c| class.limit_c() <= most_c)
            && ambient_c >= self.ambient_c
    }
}

/// A conductor that counts: an incoming one or an internal link, never a protective one.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct CountedConductor {
    /// Section, mm².
    pub section_mm2: f64,
    /// Largest continuous current, A. Simultaneity is left out, which errs towards too much.
    pub current_a: f64,
}

/// How the method stands beside the rated power.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MethodStatus {
    /// Every conductor has a row, and the sum is not above 1.
    Holds,
    /// The sum of those that have a row is above 1 already.
    Exceeded,
    /// A datum is missing.
    NotDetermined,
    /// The certificate has no rows for the class and ambient temperature asked for.
    NoRows,
}

impl MethodStatus {
    /// The words used in text.
    pub const fn words(self) -> &'static str {
        match self {
            MethodStatus::Holds => "holds",
            MethodStatus::Exceeded => "does not hold",
            MethodStatus::NotDetermined => "not determined",
            MethodStatus::NoRows => "no rows in the certificate",
        }
    }
}

/// Conductors of one section and current against one row.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Share {
    /// Section of the conductors and of the row, mm².
    pub section_mm2: f64,
    /// Current of the conductors, A.
    pub current_a: f64,
    /// Number of conductors.
    pub used: u32,
    /// Current of the row, A.
    pub row_current_a: f64,
    /// Most conductors by the row.
    pub permitted: u32,
    /// Used by permitted.
    pub share: f64,
}

/// Conductors, or heat, for which the table has nothing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Gap {
    /// How many conductors.
    pub count: u32,
    /// Which datum is missing.
    pub missing: String,
}

/// The method applied to one box.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct DefinedArrangementResult {
    /// How it stands.
    pub status: MethodStatus,
    /// Class of the table used; missing without rows.
    pub class: Option<TemperatureClass>,
    /// Ambient temperature of the table used, °C.
    pub ambient_c: Option<f64>,
    /// Σ n/N over the conductors that have a row; missing without rows.
    pub utilisation: Option<f64>,
    /// Every term.
    pub shares: Vec<Share>,
    /// What has no row.
    pub gaps: Vec<Gap>,
}

/// Counts conductors against the rows of a certificate.
///
/// `other_power_w` is heat that is no conductor's or terminal's (contacts, lamps, meters): the rows do
/// not speak of it, so that with any of it the method is not determined. Of several tables the one
/// that determines most conductors is used, then the one with the smallest sum.
///
/// ```
/// use glandrail::catalogue::DefinedArrangement;
/// use glandrail::heat::defined_arrangement::{Asked, CountedConductor, MethodStatus, count};
/// use glandrail::standards::TemperatureClass::T6;
/// let row = DefinedArrangement {
///     class: T6, ambient_c: 40.0, section_mm2: 2.5, current_a: 16.0, most_conductors: 11,
/// };
/// let asked = Asked { class: Some(T6), max_surface_c: None, ambient_c: 40.0 };
/// let eleven = [CountedConductor { section_mm2: 2.5, current_a: 15.0 }; 11];
/// assert_eq!(count(&[row], asked, &eleven, 0.0).status, MethodStatus::Holds);
/// let stronger = [CountedConductor { section_mm2: 2.5, current_a: 17.0 }];
/// assert_eq!(count(&[row], asked, &stronger, 0.0).status, MethodStatus::NotDetermined);
/// ```
pub fn count(
    rows: &[DefinedArrangement],
    asked: Asked,
    conductors: &[CountedConductor],
    other_power_w: f64,
) -> DefinedArrangementResult {
    let pairs = pairs(conductors);
    // Ambient temperatures by their bits: those above 0 sort as the numbers do, and equal ones meet.
    let tables: BTreeSet<(TemperatureClass, u64)> = rows
        .iter()
        .filter(|row| asked.allows(row.class, row.ambient_c))
        .map(|row| (row.class, row.ambient_c.to_bits()))
        .collect();
    let best = tables
        .into_iter()
        .map(|(class, bits)| against(rows, class, f64::from_bits(bits), &pairs, other_power_w))
        .min_by(|a, b| {
            let missing = |result: &DefinedArrangementResult| -> u32 {
                result.gaps.iter().map(|gap| gap.count).sum()
            };
            let sum = |result: &DefinedArrangementResult| result.utilisation.unwrap_or(f64::MAX);
            missing(a).cmp(&missing(b)).then(sum(a).total_cmp(&sum(b)))
        });
    best.unwrap_or(DefinedArrangementResult {
        status: MethodStatus::NoRows,
        class: None,
        ambient_c: None,
        utilisation: None,
        shares: Vec::new(),
        gaps: Vec::new(),
    })
}

/// A section and current with the number of its conductors.
type Pair = (f64, f64, u32);

/// Equal conductors together, by section and current.
fn pairs(conductors: &[CountedConductor]) -> Vec<Pair> {
    let mut pairs: BTreeMap<(i64, i64), Pair> = BTreeMap::new();
    // Millionths of mm² and A, so that equal figures group together whatever their last bit.
    let millionths = |value: f64| (value * 1e6).round() as i64;
    for conductor in conductors {
        let key = (
            millionths(conductor.section_mm2),
            millionths(conductor.current_a),
        );
        let (section_mm2, current_a) = (conductor.section_mm2, conductor.current_a);
        pairs.entry(key).or_insert((section_mm2, current_a, 0)).2 += 1;
    }
    pairs.into_values().collect()
}

/// A figure as it is named in text: American sections have no round one in mm².
fn thousandths(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}

/// The pairs against one table.
fn against(
    rows: &[DefinedArrangement],
    class: TemperatureClass,
    ambient_c: f64,
    pairs: &[Pair],
    other_power_w: f64,
) -> DefinedArrangementResult {
    let table = || {
        rows.iter()
            .filter(|row| row.class == class && row.ambient_c == ambient_c)
    };
    let (mut shares, mut gaps) = (Vec::new(), Vec::new());
    for &(section_mm2, current_a, used) in pairs {
        let row = table()
            .filter(|row| (row.section_mm2 - section_mm2).abs() <= SAME_SECTION * section_mm2)
            .filter(|row| row.current_a >= current_a && row.most_conductors > 0)
            .max_by_key(|row| row.most_conductors);
        match row {
            Some(row) => shares.push(Share {
                section_mm2,
                current_a,
                used,
                row_current_a: row.current_a,
                permitted: row.most_conductors,
                share: f64::from(used) / f64::from(row.most_conductors),
            }),
            None => gaps.push(Gap {
                count: used,
                missing: format!(
                    "a row for {} mm² at {} A or more ({class}, {ambient_c} °C)",
                    thousandths(section_mm2),
                    thousandths(current_a)
                ),
            }),
        }
    }
    // Written so that a power that is not a number counts as heat that is not covered.
    let covered = other_power_w <= 0.0;
    if !covered {
        gaps.push(Gap {
            count: 0,
            missing: format!(
                "a word on the {other_power_w:.2} W of contacts and elements: the rows count conductors"
            ),
        });
    }
    let counted: Vec<ArrangementShare> = shares
        .iter()
        .map(|share| ArrangementShare {
            used: share.used,
            permitted: share.permitted,
        })
        .collect();
    let holds = arrangement_holds(&counted).unwrap_or(false);
    DefinedArrangementResult {
        status: match (holds, gaps.is_empty()) {
            (false, _) => MethodStatus::Exceeded,
            (true, true) => MethodStatus::Holds,
            (true, false) => MethodStatus::NotDetermined,
        },
        class: Some(class),
        ambient_c: Some(ambient_c),
        utilisation: arrangement_utilisation(&counted).ok(),
        shares,
        gaps,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use TemperatureClass::{T4, T5, T6};

    fn row(
        class: TemperatureClass,
        ambient_c: f64,
        section_mm2: f64,
        current_a: f64,
        most: u32,
    ) -> DefinedArrangement {
        DefinedArrangement {
            class,
            ambient_c,
            section_mm2,
            current_a,
            most_conductors: most,
        }
    }

    fn some(count: usize, section_mm2: f64, current_a: f64) -> Vec<CountedConductor> {
        vec![
            CountedConductor {
                section_mm2,
                current_a
            };
            count
        ]
    }

    const T6_AT_40: Asked = Asked {
        class: Some(T6),
        max_surface_c: None,
        ambient_c: 40.0,
    };

    /// The invented example of three pairs: 6 of 20, 5 of 16, and 4 or 3 of 10.
    #[test]
    fn the_sum_of_three_pairs_decides() {
        let rows = [
            row(T6, 40.0, 4.0, 20.0, 20),
            row(T6, 40.0, 25.0, 63.0, 16),
            row(T6, 40.0, 10.0, 35.0, 10),
        ];
        let with = |last: usize| {
            let conductors = [
                some(6, 4.0, 20.0),
                some(5, 25.0, 63.0),
                some(last, 10.0, 35.0),
            ]
            .concat();
            count(&rows, T6_AT_40, &conductors, 0.0)
        };
        let refused = with(4);
        assert_eq!(refused.status, MethodStatus::Exceeded);
        assert!((refused.utilisation.expect("a sum") - 1.0125).abs() < 1e-12);
        let mut shares: Vec<f64> = refused.shares.iter().map(|share| share.share).collect();
        shares.sort_by(f64::total_cmp);
        assert_eq!(shares, [0.3, 0.3125, 0.4]);
        let accepted = with(3);
        assert_eq!(accepted.status, MethodStatus::Holds);
        assert!((accepted.utilisation.expect("a sum") - 0.9125).abs() < 1e-12);
    }

    #[test]
    fn the_row_with_the_next_current_up_is_used_and_none_below() {
        let rows = [
            row(T6, 40.0, 2.5, 10.0, 29),
            row(T6, 40.0, 2.5, 16.0, 11),
            row(T6, 40.0, 4.0, 25.0, 7),
        ];
        let result = count(&rows, T6_AT_40, &some(1, 2.5, 10.0), 0.0);
        assert_eq!(
            (result.shares[0].row_current_a, result.shares[0].permitted),
            (10.0, 29)
        );
        let result = count(&rows, T6_AT_40, &some(1, 2.5, 10.1), 0.0);
        assert_eq!(
            (result.shares[0].row_current_a, result.shares[0].permitted),
            (16.0, 11)
        );
        // Neither the row of 16 A nor that of the thicker conductor speaks of 2.5 mm² at 20 A.
        let result = count(&rows, T6_AT_40, &some(2, 2.5, 20.0), 0.0);
        assert_eq!(result.status, MethodStatus::NotDetermined);
        assert_eq!(result.gaps[0].count, 2);
        assert!(
            result.gaps[0].missing.contains("2.5 mm² at 20 A"),
            "{:?}",
            result.gaps
        );
    }

    #[test]
    fn only_tables_that_are_hot_and_strict_enough_serve() {
        let conductors = some(1, 2.5, 10.0);
        for (class, ambient_c) in [(T5, 40.0), (T6, 35.0)] {
            let result = count(
                &[row(class, ambient_c, 2.5, 10.0, 9)],
                T6_AT_40,
                &conductors,
                0.0,
            );
            assert_eq!(result.status, MethodStatus::NoRows, "{class} {ambient_c}");
            assert_eq!(result.utilisation, None);
        }
        let dust = Asked {
            class: None,
            max_surface_c: Some(100.0),
            ambient_c: 40.0,
        };
        let rows = [row(T4, 40.0, 2.5, 10.0, 30), row(T5, 40.0, 2.5, 10.0, 20)];
        assert_eq!(count(&rows, dust, &conductors, 0.0).class, Some(T5));
    }

    #[test]
    fn shares_of_two_tables_are_never_added() {
        // T5 knows only 2.5 mm², T6 only 4 mm²: no table determines both.
        let rows = [row(T5, 40.0, 2.5, 10.0, 20), row(T6, 40.0, 4.0, 10.0, 20)];
        let asked = Asked {
            class: Some(T5),
            ..T6_AT_40
        };
        let conductors = [some(2, 2.5, 10.0), some(1, 4.0, 10.0)].concat();
        let result = count(&rows, asked, &conductors, 0.0);
        assert_eq!(result.status, MethodStatus::NotDetermined);
        assert_eq!((result.class, result.shares.len()), (Some(T5), 1));
    }

    #[test]
    fn heat_of_elements_is_not_in_the_rows_but_an_excess_stays_one() {
        let rows = [row(T6, 40.0, 2.5, 10.0, 2)];
        let result = count(&rows, T6_AT_40, &some(1, 2.5, 10.0), 1.5);
        assert_eq!(result.status, MethodStatus::NotDetermined);
        let result = count(&rows, T6_AT_40, &some(3, 2.5, 10.0), 1.5);
        assert_eq!(result.status, MethodStatus::Exceeded);
        let result = count(&rows, T6_AT_40, &some(1, 2.5, 10.0), f64::NAN);
        assert_eq!(result.status, MethodStatus::NotDetermined);
    }

    #[test]
    fn a_row_that_permits_none_is_no_row() {
        let result = count(
            &[row(T6, 40.0, 2.5, 10.0, 0)],
            T6_AT_40,
            &some(1, 2.5, 1.0),
            0.0,
        );
        assert_eq!(result.status, MethodStatus::NotDetermined);
    }
}
