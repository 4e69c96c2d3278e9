//! Where entries of given envelopes find room on one wall, in rows or freely.

use super::answer::{Figure, Quantities, Value, Verdict};
use crate::model::{Placement, circles_in_rows};
use crate::packing::{Blocked, Bound, Circles, Effort, Placing};
use crate::space::Rect;
use crate::standards::{OutOfRange, Source, Status};

const GAPS: Source = Source::new(
    "workshop rules",
    "",
    "entries.gap_mm, entries.row_gap_mm",
    Status::CommonPractice,
);
const GEOMETRY: Source = Source::new("geometry", "", "circles in a rectangle", Status::Published);

/// Most entries of one question.
const MOST_ENTRIES: f64 = 200.0;
/// Longest extent, mm.
const MOST_MM: f64 = 10_000.0;

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct EntriesQuestion {
    /// Width and height of the rectangle in which envelopes may lie, mm.
    pub wall_mm: [f64; 2],
    /// Diameters of envelopes, mm, and how many there are of each.
    pub envelopes: Vec<(f64, u32)>,
    /// Least gap between two envelopes side by side, mm.
    pub gap_mm: f64,
    /// Least gap between two rows, mm.
    pub row_gap_mm: f64,
    /// Parts of the rectangle that no envelope may reach into, `[x, y, width, height]` from its lower left
    /// corner, mm.
    pub blocked_mm: Vec<[f64; 4]>,
    /// How they may be placed.
    pub placement: Placement,
    /// Time limit of the exact decision about rows, s.
    pub limit_s: f64,
}

/// Places entries on one wall.
///
/// # Errors
/// Lengths that are not above 0, or too long; no entry, or too many.
pub fn entries(question: &EntriesQuestion) -> Result<Figure, OutOfRange> {
    use crate::standards::provenance::within;
    let [width_mm, height_mm] = question.wall_mm;
    for length_mm in question.wall_mm {
        within("extent of the wall", length_mm, "mm", 1.0, MOST_MM)?;
    }
    for (envelope_mm, _) in &question.envelopes {
        within("envelope", *envelope_mm, "mm", 1.0, MOST_MM)?;
    }
    for gap_mm in [question.gap_mm, question.row_gap_mm] {
        within("gap", gap_mm, "mm", 0.0, MOST_MM)?;
    }
    for [x_mm, y_mm, part_width_mm, part_height_mm] in &question.blocked_mm {
        within("corner of a blocked part", *x_mm, "mm", -MOST_MM, MOST_MM)?;
        within("corner of a blocked part", *y_mm, "mm", -MOST_MM, MOST_MM)?;
        for extent_mm in [part_width_mm, part_height_mm] {
            within("extent of a blocked part", *extent_mm, "mm", 0.1, MOST_MM)?;
        }
    }
    let count = question
        .envelopes
        .iter()
        .map(|(_, count)| f64::from(*count))
        .sum();
    within("number of entries", count, "", 1.0, MOST_ENTRIES)?;
    let circles = Circles {
        width_mm,
        height_mm,
        diameters_mm: question
            .envelopes
            .iter()
            .flat_map(|(envelope_mm, count)| std::iter::repeat_n(*envelope_mm, *count as usize))
            .collect(),
        gap_mm: question.gap_mm,
        row_gap_mm: question.row_gap_mm,
        blocked: question
            .blocked_mm
            .iter()
            .map(|[x, y, width, height]| Blocked {
                from_mm: [*x, *y],
                to_mm: [x + width, y + height],
            })
            .collect(),
    };
    let found = placed(question, &circles);
    let word = match question.placement {
        Placement::Rows => "rows",
        Placement::Free => "free",
        Placement::Best => "best",
    };
    let asked = Quantities::new()
        .with("wall_width_mm", width_mm, "mm")
        .with("wall_height_mm", height_mm, "mm")
        .with("gap_mm", question.gap_mm, "mm")
        .with("row_gap_mm", question.row_gap_mm, "mm")
        .with("placement", word, "")
        .with("blocked_parts", question.blocked_mm.len() as f64, "");
    let mut steps = Quantities::new().with("entries_asked", count, "");
    let (number, proved) = match &found {
        Found::Placed { centres, how } => {
            let lines = circles
                .diameters_mm
                .iter()
                .zip(centres)
                .map(|(diameter_mm, [u_mm, v_mm])| {
                    Quantities::new()
                        .with("envelope_mm", *diameter_mm, "mm")
                        .with("u_mm", *u_mm, "mm")
                        .with("v_mm", *v_mm, "mm")
                })
                .collect();
            steps = steps
                .with("placed", *how, "")
                .with("positions", Value::Lines(lines), "");
            (count, true)
        }
        Found::No { why, proved } => {
            steps = steps
                .with("placed", "no", "")
                .with("because", why.as_str(), "");
            (0.0, *proved)
        }
    };
    let mut figure = Figure::new(
        "entries",
        asked,
        ("entries_placed", number, ""),
        "centres from the lower left corner; envelopes inside the rectangle, no pair nearer than its gap, none in what is blocked",
        vec![GAPS, GEOMETRY],
        steps,
    );
    figure.verdict = Some(Verdict {
        holds: number > 0.0,
        proved,
    });
    Ok(figure)
}

enum Found {
    Placed {
        centres: Vec<[f64; 2]>,
        how: &'static str,
    },
    No {
        why: String,
        proved: bool,
    },
}

fn placed(question: &EntriesQuestion, circles: &Circles) -> Found {
    let mut no_rows = String::new();
    let parts: Vec<Rect> = question
        .blocked_mm
        .iter()
        .map(|[x, y, width, height]| Rect::new(*x, *y, *width, *height))
        .collect();
    if question.placement != Placement::Free {
        let rows = circles_in_rows(
            circles.width_mm,
            circles.height_mm,
            &circles.diameters_mm,
            circles.gap_mm,
            circles.row_gap_mm,
            &parts,
            question.limit_s,
        );
        let (why, proved) = match rows {
            Ok(Some(centres)) => {
                return Found::Placed {
                    centres: centres.into_iter().map(|(u, v)| [u, v]).collect(),
                    how: "in rows",
                };
            }
            Ok(None) => ("no division into rows takes them all".to_string(), true),
            Err(why) => (format!("rows are not decided: {why}"), false),
        };
        if question.placement == Placement::Rows {
            return Found::No { why, proved };
        }
        no_rows = format!("{why}; ");
    }
    match circles.place(Effort::Thorough) {
        Placing::Placed(centres) => Found::Placed {
            centres,
            how: "freely",
        },
        Placing::Impossible(bound) => Found::No {
            why: words(&bound),
            proved: true,
        },
        Placing::Open => Found::No {
            why: format!("{no_rows}free placement found nothing, which proves nothing"),
            proved: false,
        },
    }
}

fn words(bound: &Bound) -> String {
    match bound {
        Bound::Single {
            diameter_mm,
            extent_mm,
        } => format!("one envelope of {diameter_mm} mm is larger than {extent_mm} mm"),
        Bound::Area {
            needed_mm2,
            available_mm2,
        } => format!(
            "with their gaps they need at least {needed_mm2:.1} mm², there are {available_mm2:.1} mm²"
        ),
        Bound::Count {
            diameter_mm,
            circles,
            most,
        } => format!(
            "of {circles} envelopes of at least {diameter_mm} mm at most {most} keep their distance"
        ),
        Bound::Line {
            needed_mm,
            available_mm,
        } => format!(
            "they must follow one another over at least {needed_mm:.1} mm, there are {available_mm} mm"
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(wall_mm: [f64; 2], envelopes: &[(f64, u32)], placement: Placement) -> Figure {
        entries(&EntriesQuestion {
            wall_mm,
            envelopes: envelopes.to_vec(),
            gap_mm: 5.0,
            row_gap_mm: 5.0,
            blocked_mm: Vec::new(),
            placement,
            limit_s: 10.0,
        })
        .expect("in range")
    }

    #[test]
    fn free_placement_takes_what_rows_do_not() {
        let wall_mm = [45.0, 42.0];
        let verdict = |placement| {
            asked(wall_mm, &[(20.0, 3)], placement)
                .verdict
                .expect("one")
        };
        let rows = verdict(Placement::Rows);
        assert!(!rows.holds && rows.proved);
        for placement in [Placement::Free, Placement::Best] {
            assert!(verdict(placement).holds);
        }
    }

    #[test]
    fn what_is_not_proved_is_not_called_proved() {
        // Nothing is known that takes these, and no bound here is sharp enough to say that nothing can.
        let answer = asked([130.0, 80.0], &[(36.0, 4), (27.0, 4)], Placement::Best);
        let verdict = answer.verdict.expect("one");
        assert!(!verdict.holds && !verdict.proved, "{answer:?}");
        let verdict = asked([45.0, 30.0], &[(20.0, 3)], Placement::Best)
            .verdict
            .expect("one");
        assert!(!verdict.holds && verdict.proved);
        assert!(
            entries(&EntriesQuestion {
                wall_mm: [100.0, 100.0],
                envelopes: vec![(10.0, 201)],
                gap_mm: 0.0,
                row_gap_mm: 0.0,
                blocked_mm: Vec::new(),
                placement: Placement::Free,
                limit_s: 1.0,
            })
            .is_err()
        );
    }
}
