//! The words of both: what stands in them, and that no line is too wide.

use crate::boxes::{all, named};
use glandrail::heat::assess;
use glandrail::marking::marking;
use glandrail::sheets::{heat_estimated, heat_tables, marking_page, marking_proposed};

const WIDTH: usize = 100;

#[test]
fn no_line_is_wider_than_the_page() {
    for (name, arrangement) in all() {
        let (heat, marking) = (assess(arrangement), marking(arrangement));
        for text in [
            heat_estimated(&heat),
            heat_tables(&heat),
            marking_proposed(&marking),
            marking_page(arrangement, &marking),
        ] {
            for line in text.lines() {
                assert!(line.chars().count() <= WIDTH, "{name}: {line}");
            }
            assert!(
                !text.contains("NaN") && !text.contains("inf "),
                "{name}: {text}"
            );
        }
    }
}

#[test]
fn the_text_says_what_it_is() {
    let arrangement = named("tank-farm-junction");
    let heat = heat_estimated(&assess(&arrangement));
    assert!(heat.contains("an estimate beside the certificate's rating, which it never replaces"));
    assert!(
        heat.contains("negligible, which is up to 0.129 W"),
        "{heat}"
    );
    let joined = heat.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(joined.contains("has no weight"), "{heat}");
    assert!(
        heat.contains("Defined arrangement: no rows in the certificate."),
        "{heat}"
    );
    let words = marking_proposed(&marking(&arrangement));
    assert!(words.contains("Marking, proposed"));
    assert!(words.contains("A proposal for the certificate holder"));
    assert!(words.contains("Ex eb IIC T6 Gb"));
}

#[test]
fn what_is_not_determined_stands_in_the_text() {
    let mut arrangement = named("tank-farm-junction");
    arrangement.enclosure.certificate.gas_group = None;
    let words = marking_proposed(&marking(&arrangement));
    assert!(
        words.contains("gas: no proposal, not determined"),
        "{words}"
    );
    assert!(!words.contains("Ex eb"), "{words}");
    arrangement.heat.rated_power_w *= 3.0;
    let heat = heat_estimated(&assess(&arrangement));
    assert!(
        heat.contains("Warning: the certificate permits 38.7 W"),
        "{heat}"
    );
}

#[test]
fn the_page_gathers_the_numbers_of_a_strip() {
    let arrangement = named("tank-farm-junction");
    let page = marking_page(&arrangement, &marking(&arrangement));
    let count = arrangement
        .terminals
        .iter()
        .filter(|terminal| terminal.strip == "X1")
        .count();
    let row = page
        .lines()
        .find(|line| line.trim_start().starts_with("terminal number  ") && line.contains("X1"))
        .expect("a row for the strip");
    assert!(row.trim_end().ends_with(&format!("1 to {count}")), "{row}");
}
