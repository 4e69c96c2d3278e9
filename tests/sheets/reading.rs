//! The sheets that are read: every term of the heat, every rule of the record.

use crate::fixture;
use crate::samples::{every_example, every_fixture};
use glandrail::arrangement::{Arrangement, CAUTION};
use glandrail::audit::audit;
use glandrail::sheets::drawing::{Geometry, Sheet};
use glandrail::sheets::{Paper, drawings, fixed, number};

/// The sheets of a name and those that continue it.
fn named(arrangement: &Arrangement, name: &str, paper: Paper) -> Vec<Sheet> {
    drawings(arrangement, paper)
        .into_iter()
        .filter(|sheet| {
            sheet
                .name
                .trim_end_matches(|c: char| c == '-' || c.is_ascii_digit())
                == name
        })
        .collect()
}

/// Each arrangement with every paper.
fn on_every_paper(
    arrangements: impl IntoIterator<Item = (String, Arrangement)>,
) -> Vec<(String, Arrangement, Paper)> {
    arrangements
        .into_iter()
        .flat_map(|(name, arrangement)| {
            Paper::ALL.map(|paper| (format!("{name}, {paper:?}"), arrangement.clone(), paper))
        })
        .collect()
}

/// All texts of sheets, each once for each time it is written.
fn texts(sheets: &[Sheet]) -> Vec<String> {
    sheets
        .iter()
        .flat_map(|sheet| sheet.texts().map(|(label, _)| label.content.clone()))
        .collect()
}

#[test]
fn the_heat_sheet_has_every_term_the_row_and_the_sum() {
    let fixtures = every_fixture()
        .into_iter()
        .map(|(name, arrangement)| (name.to_string(), arrangement));
    for (name, arrangement, paper) in on_every_paper(fixtures.chain(every_example())) {
        let words = texts(&named(&arrangement, "heat", paper));
        let heat = &arrangement.heat;
        for line in &heat.lines {
            let power = fixed(line.power_w, 4);
            assert!(words.contains(&power), "{name}: {} {power}", line.item);
            // A term wider than its column is broken.
            let begin = line.item.split(' ').next().expect("a word");
            assert!(
                words.iter().any(|text| text.starts_with(begin)),
                "{name}: {begin}"
            );
        }
        assert!(words.contains(&fixed(heat.power_w, 4)), "{name}");
        let row = format!(
            "{} up to {} °C: {} W",
            heat.row_class,
            number(heat.row_ambient_c, 1),
            number(heat.rated_power_w, 2)
        );
        assert!(words.contains(&row), "{name}: {row}");
        assert!(words.iter().any(|text| text.contains(CAUTION)), "{name}");
    }
}

/// Steps of the chart and the two marks, read back through the marks of the axes.
#[test]
fn the_chart_shows_the_rows_and_the_place_of_the_box() {
    for (name, arrangement, paper) in on_every_paper(every_example()) {
        let sheets = named(&arrangement, "heat", paper);
        let group = sheets[0]
            .groups
            .iter()
            .find(|group| group.name == "chart")
            .expect("a chart");
        let frame = group
            .shapes
            .iter()
            .find_map(|shape| match &shape.geometry {
                Geometry::Rectangle(area) => Some(*area),
                _ => None,
            })
            .expect("axes");
        let label = |content: &str, beneath: bool| {
            group.shapes.iter().find_map(|shape| match &shape.geometry {
                Geometry::Text(label) if label.content == content => {
                    let is_beneath = label.at.y_mm < frame.bottom_mm - 2.0;
                    (is_beneath == beneath).then_some(label.at)
                }
                _ => None,
            })
        };
        // The scale of each axis from two of its marks.
        let of_axis = |beneath: bool| -> Vec<(f64, f64)> {
            group
                .shapes
                .iter()
                .filter_map(|shape| match &shape.geometry {
                    Geometry::Text(text) => {
                        let value: f64 = text.content.parse().ok()?;
                        let at = label(&text.content, beneath)?;
                        Some((value, if beneath { at.x_mm } else { at.y_mm + 0.9 }))
                    }
                    _ => None,
                })
                .collect()
        };
        let place = |marks: &[(f64, f64)], value: f64| {
            let (first, last) = (marks[0], marks[marks.len() - 1]);
            first.1 + (value - first.0) / (last.0 - first.0) * (last.1 - first.1)
        };
        let (watts, degrees) = (of_axis(false), of_axis(true));
        let circles: Vec<(f64, f64)> = group
            .shapes
            .iter()
            .filter_map(|shape| match &shape.geometry {
                Geometry::Circle { centre, .. } => Some((centre.x_mm, centre.y_mm)),
                _ => None,
            })
            .collect();
        let heat = &arrangement.heat;
        for (ambient_c, power_w) in [
            (arrangement.area.ambient_c[1], heat.power_w),
            (heat.row_ambient_c, heat.rated_power_w),
        ] {
            let wanted = (place(&degrees, ambient_c), place(&watts, power_w));
            assert!(
                circles
                    .iter()
                    .any(|at| (at.0 - wanted.0).abs() < 0.05 && (at.1 - wanted.1).abs() < 0.05),
                "{name}: {power_w} W at {ambient_c} °C at {wanted:?} in {circles:?}"
            );
        }
        let corners: Vec<(f64, f64)> = group
            .shapes
            .iter()
            .filter_map(|shape| match &shape.geometry {
                Geometry::Polyline { spots, .. } => Some(spots),
                _ => None,
            })
            .flatten()
            .map(|spot| (spot.x_mm, spot.y_mm))
            .collect();
        for row in &arrangement.enclosure.rated_power {
            let wanted = (place(&degrees, row.ambient_c), place(&watts, row.power_w));
            assert!(
                corners
                    .iter()
                    .any(|at| (at.0 - wanted.0).abs() < 0.05 && (at.1 - wanted.1).abs() < 0.05),
                "{name}: row {row:?}"
            );
        }
    }
}

#[test]
fn the_record_has_every_rule_once_with_its_verdict() {
    let fixtures = every_fixture()
        .into_iter()
        .map(|(name, arrangement)| (name.to_string(), arrangement));
    for (name, arrangement, paper) in on_every_paper(fixtures.chain(every_example())) {
        let sheets = named(&arrangement, "record", paper);
        assert!(sheets.len() >= 2, "{name}: {}", sheets.len());
        let words = texts(&sheets);
        let report = audit(&arrangement, None);
        for rule in &report.rules {
            let wanted = if rule.verdict.is_failing() { 2 } else { 1 };
            let count = words.iter().filter(|text| *text == rule.id).count();
            assert_eq!(count, wanted, "{name}: {}", rule.id);
        }
        let of_verdict = [
            "holds",
            "does not apply",
            "informs",
            "fails",
            "not determined",
        ];
        for verdict in of_verdict {
            let of_rules = report
                .rules
                .iter()
                .map(|rule| match rule.verdict_words() == verdict {
                    true if !rule.verdict.is_failing() => 1,
                    true => 2,
                    false => 0,
                })
                .sum::<usize>();
            let written = words.iter().filter(|text| *text == verdict).count();
            assert_eq!(written, of_rules, "{name}: {verdict}");
        }
        let (held, idle) = (report.held_count(), report.idle_count());
        let failing = report.failing().count();
        let counted = held + idle + failing + report.informing().count();
        assert_eq!(counted, report.rules.len(), "{name}");
        assert!(idle > 0, "{name}: no box has everything");
        let joined = words.join(" ");
        let heading = format!("{held} of {} hold", report.rules.len());
        assert!(joined.contains(&heading), "{name}: {heading}");
        // Every paper has the tightest case of every rule; its words are broken into lines.
        for rule in &report.rules {
            let without_blanks = |text: &str| text.replace(' ', "").to_lowercase();
            let case = without_blanks(&rule.text);
            assert!(
                without_blanks(&joined).contains(&case),
                "{name}: {}",
                rule.text
            );
        }
        assert!(
            words
                .iter()
                .any(|text| text.contains("from memory, to be checked")),
            "{name}"
        );
        let pages = words.iter().filter(|text| text.contains(CAUTION)).count();
        assert!(
            pages > sheets.len(),
            "{name}: on each sheet and in the list of cautions"
        );
    }
}

#[test]
fn a_rule_that_fails_comes_first_with_its_words() {
    let paper = Paper::A3;
    let mut arrangement = fixture::small();
    arrangement.heat.rated_power_w = 1e-3;
    let first = &named(&arrangement, "record", paper)[..1];
    let words = texts(first);
    assert!(words.contains(&"Rules that do not hold".to_string()));
    let estimate = "A diameter was estimated.";
    arrangement.estimates.push(estimate.to_string());
    let all = texts(&named(&arrangement, "record", paper));
    assert!(all.contains(&format!("Estimated: {estimate}")), "{all:?}");
}
