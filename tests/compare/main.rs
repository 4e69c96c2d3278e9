//! The comparison of all candidates: against the search, its front against the definition, its forms.

use glandrail::arrangement::{EntryPlacing, Orientation};
use glandrail::catalogue::{Catalogue, Material};
use glandrail::compare::{
    Filter, Measured, Row, chart, compare, compare_on, mark_front, table, without_part,
};
use glandrail::demand;
use glandrail::model::{self, Outcome, SearchOptions};
use glandrail::propose::{Answer, ProposeError, propose};
use glandrail::requirements::RequirementList;
use glandrail::sheets;
use glandrail::source::SourceFile;
use glandrail::workshop::Workshop;

const JUNCTION: &str = include_str!("../../examples/tank-farm-junction.toml");
const IMPOSSIBLE: &str = include_str!("../../examples/impossible-heater-feeds.toml");

fn read(text: &str) -> RequirementList {
    RequirementList::from_source(
        SourceFile::from_text("list.toml", text),
        &Workshop::default(),
    )
    .unwrap_or_else(|findings| panic!("{}", findings.render_plain()))
}

fn rows(text: &str) -> Vec<Row> {
    let mut told = Vec::new();
    let rows = compare(
        &read(text),
        Catalogue::demo(),
        &Workshop::default(),
        SearchOptions::default(),
        &mut |done, all| told.push((done, all)),
    )
    .unwrap_or_else(|error| panic!("{error}"));
    let all = rows.len();
    assert_eq!(told, (1..=all).map(|done| (done, all)).collect::<Vec<_>>());
    rows
}

#[test]
fn the_first_that_fits_is_the_one_proposed() {
    let rows = rows(JUNCTION);
    let list = read(JUNCTION);
    let catalogue = Catalogue::demo();
    let workshop = Workshop::default();
    let Ok(Answer::Found(proposal)) =
        propose(&list, catalogue, &workshop, SearchOptions::default())
    else {
        panic!("the junction can be made");
    };
    let first = rows.iter().position(|row| row.fits).expect("one fits");
    let enclosure = &proposal.arrangement.enclosure;
    assert_eq!(rows[first].enclosure, enclosure.id);
    assert_eq!(rows[first].orientation, enclosure.orientation);
    for (row, excluded) in rows[..first].iter().zip(&proposal.excluded) {
        assert_eq!(row.reason.as_ref(), Some(&excluded.reason));
    }
    let heat = &proposal.arrangement.heat;
    let margin_w = rows[first].heat_w.expect("a row of rated power");
    assert!((margin_w - (heat.permitted_power_w - heat.power_w)).abs() < 1e-9);
}

/// Every candidate by itself, with a catalogue of nothing else, gives the same answer.
#[test]
fn each_row_agrees_with_the_search_over_that_enclosure_alone() {
    let list = read(JUNCTION);
    let workshop = Workshop::default();
    let rows = rows(JUNCTION);
    for enclosure in &Catalogue::demo().enclosure {
        let mut alone = Catalogue::demo().clone();
        alone.enclosure.retain(|part| part.id == enclosure.id);
        let demand = demand::build(&list, &alone, &workshop).expect("parts serve");
        let outcome = model::search(&list, &demand, &alone, &workshop, SearchOptions::default());
        let holds = matches!(outcome.expect("resistances are known"), Outcome::Found(_));
        let fits = rows
            .iter()
            .any(|row| row.enclosure == enclosure.id && row.fits);
        assert_eq!(holds, fits, "{}", enclosure.id);
    }
}

#[test]
fn the_front_is_what_no_other_beats() {
    let mut rows = rows(JUNCTION);
    for by in [
        vec![Measured::Heat, Measured::Volume],
        vec![Measured::Price],
        vec![Measured::Rail, Measured::Mass, Measured::Fill],
    ] {
        mark_front(&mut rows, &by);
        assert!(rows.iter().any(|row| row.front));
        for row in &rows {
            let beaten = rows.iter().filter(|other| other.fits).any(|other| {
                let losses = by
                    .iter()
                    .map(|measure| (measure.loss(other), measure.loss(row)));
                losses.clone().all(|(a, b)| a <= b) && losses.clone().any(|(a, b)| a < b)
            });
            assert_eq!(row.front, row.fits && !beaten, "{} {:?}", row.enclosure, by);
        }
    }
}

#[test]
fn text_is_narrow_and_values_are_complete() {
    for (text, some) in [(JUNCTION, true), (IMPOSSIBLE, false)] {
        let mut rows = rows(text);
        mark_front(&mut rows, &[Measured::Heat, Measured::Volume]);
        assert_eq!(rows.iter().any(|row| row.fits), some);
        let shown = table::text(&rows, "heat, volume");
        for line in shown.lines() {
            assert!(line.chars().count() <= 100, "{line}");
        }
        for row in &rows {
            assert!(shown.contains(&format!("{} {}", row.enclosure, row.orientation.words())));
        }
        let csv = table::csv(&rows);
        assert_eq!(csv.lines().count(), rows.len() + 1);
        let head: Vec<&str> = csv.lines().next().expect("a head").split(',').collect();
        let column = |name: &str| {
            head.iter()
                .position(|title| *title == name)
                .expect("a column")
        };
        for (line, row) in csv.lines().skip(1).zip(&rows) {
            let cells: Vec<&str> = line.split(',').collect();
            assert_eq!(cells[column("enclosure")], row.enclosure);
            assert_eq!(cells[column("fits")] == "yes", row.fits);
            assert_eq!(cells[column("rail_mm")].is_empty(), !row.fits);
        }
    }
}

#[test]
fn the_chart_draws_every_candidate_with_a_heat_margin() {
    let mut rows = rows(JUNCTION);
    mark_front(&mut rows, &[Measured::Heat, Measured::Volume]);
    let drawn = sheets::svg(&chart("JB-2107", &rows));
    let with_margin = rows.iter().filter(|row| row.heat_w.is_some()).count();
    // Three circles stand in the legend.
    assert_eq!(drawn.matches("<circle").count(), with_margin + 3);
    assert_eq!(drawn, sheets::svg(&chart("JB-2107", &rows)));
}

/// Where no part serves the list nothing is drawn, and not for want of a rated power.
#[test]
fn the_chart_of_what_no_part_serves_says_so() {
    let list = read(&JUNCTION.replacen("voltage_v = 24", "voltage_v = 11000", 1));
    let (catalogue, workshop) = (Catalogue::demo(), Workshop::default());
    let options = SearchOptions::default();
    let compared = compare(&list, catalogue, &workshop, options, &mut |_, _| {});
    let Err(ProposeError::NoPart(findings)) = compared else {
        panic!("no terminal is rated 11 kV");
    };
    let rows = without_part(&list, catalogue, &findings);
    assert!(rows.len() > 100 && rows.iter().all(|row| !row.fits && row.without_part));
    let drawn = sheets::svg(&chart("JB-2107", &rows));
    assert_eq!(drawn.matches("<circle").count(), 3, "the legend alone");
    assert!(
        drawn.contains("No part of the catalogue serves the list"),
        "{drawn}"
    );
    assert!(!drawn.contains("rated power for the area"), "{drawn}");
}

#[test]
fn the_number_of_threads_changes_no_byte() {
    for text in [JUNCTION, IMPOSSIBLE] {
        let told = |workers| {
            let rows = compare_on(
                workers,
                &read(text),
                Catalogue::demo(),
                &Workshop::default(),
                SearchOptions::default(),
                &mut |_, _| {},
            );
            let rows = rows.unwrap_or_else(|error| panic!("{error}"));
            let json = serde_json::to_string(&rows).expect("plain data");
            (json, table::text(&rows, ""), table::csv(&rows))
        };
        let one = told(1);
        assert_eq!(one, told(2));
        assert_eq!(one, told(7));
    }
}

/// Each filter shows exactly the candidates that the catalogue says, and together they show fewer.
#[test]
fn filters_show_what_the_catalogue_says() {
    let mut rows = rows(JUNCTION);
    mark_front(&mut rows, &[Measured::Heat, Measured::Volume]);
    let part = |row: &Row| {
        let all = &Catalogue::demo().enclosure;
        all.iter()
            .find(|part| part.id == row.enclosure)
            .expect("a part")
    };
    let shown = |filter: &Filter| -> Vec<usize> {
        (0..rows.len())
            .filter(|row| filter.passes(&rows[*row]))
            .collect()
    };
    let wanted = |holds: &dyn Fn(&Row) -> bool| -> Vec<usize> {
        (0..rows.len()).filter(|row| holds(&rows[*row])).collect()
    };
    let none = Filter::default();
    assert_eq!(shown(&none).len(), rows.len());
    let grp = Filter {
        materials: vec![Material::Grp],
        ..none.clone()
    };
    assert_eq!(
        shown(&grp),
        wanted(&|row| part(row).material == Material::Grp)
    );
    let cheap = Filter {
        max_price: Some(100.0),
        ..none.clone()
    };
    assert_eq!(shown(&cheap), wanted(&|row| part(row).price <= 100.0));
    let light = Filter {
        max_mass_kg: Some(3.0),
        ..none.clone()
    };
    assert_eq!(shown(&light), wanted(&|row| part(row).mass_kg <= 3.0));
    let small = Filter {
        max_volume_l: Some(7.2),
        ..none.clone()
    };
    let litres = |row: &Row| part(row).outer_mm.iter().product::<f64>() / 1e6;
    assert_eq!(shown(&small), wanted(&|row| litres(row) <= 7.2 + 1e-9));
    // A turned enclosure is as wide as it was high.
    let low = Filter {
        max_outer_mm: Some([400.0, 200.0, 130.0]),
        ..none.clone()
    };
    let inside = wanted(&|row| {
        let [width, height, depth] = part(row).outer_mm;
        let [width, height] = match row.orientation {
            Orientation::Upright => [width, height],
            Orientation::Turned => [height, width],
        };
        width <= 400.0 && height <= 200.0 && depth <= 130.0
    });
    assert_eq!(shown(&low), inside);
    assert!(inside.len() >= 4 && inside.len() < rows.len());
    let front = Filter {
        front: true,
        ..none.clone()
    };
    assert_eq!(shown(&front), wanted(&|row| row.front));
    let both = Filter {
        materials: vec![Material::Grp],
        front: true,
        ..none
    };
    assert!(shown(&both).len() < shown(&front).len());
}

#[test]
fn a_table_explains_the_marks_that_it_has_and_says_that_it_is_empty() {
    let mut rows = rows(JUNCTION);
    mark_front(&mut rows, &[Measured::Heat, Measured::Volume]);
    let marked = table::text(&rows, "heat, volume");
    assert!(marked.contains("* on the front of"), "{marked}");
    rows.retain(|row| row.fits && !row.front && row.placement == Some(EntryPlacing::Rows));
    rows.truncate(1);
    let plain = table::text(&rows, "heat, volume");
    assert!(plain.starts_with("Shown: 1 candidate that fits, 0 that do not\n"));
    assert!(!plain.contains('*') && !plain.contains('+'), "{plain}");
    rows.clear();
    assert!(table::text(&rows, "heat, volume").starts_with("No candidate passes"));
}
