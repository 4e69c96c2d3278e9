//! What the two opinions once found wrong, each with a small example, and a wide search by hand.

use super::cases::read;
use super::sample::judge;
use super::theirs::{answer, search};
use glandrail::catalogue::Catalogue;

const HEAD: &str =
    "[job]\ntag = \"JB-2\"\n[area]\nzone = 1\ngas_group = \"IIB\"\ntemperature_class = \"T6\"\n";

fn fault(text: &str) -> Option<String> {
    answer(&read(text), Catalogue::demo()).fault
}

/// One Ex e and one intrinsically safe core, both unused: the smallest box has both on one rail.
#[test]
fn a_rail_of_both_kinds_closes_each_row() {
    let text = format!(
        "{HEAD}[[cable]]\ntag = \"W0\"\ncores = \"1 x 1.5 mm2\"\ndiameter_mm = 8\n\
         [[cable]]\ntag = \"W1\"\ncores = \"1 x 1.5 mm2\"\ndiameter_mm = 8\nintrinsically_safe = true\n"
    );
    assert_eq!(fault(&text), None);
}

/// A lamp in a steel lid.
#[test]
fn a_lamp_fits_a_steel_lid_or_the_box_is_excluded() {
    let text = format!(
        "{HEAD}[box]\nmaterial = \"stainless\"\n[[cable]]\ntag = \"W0\"\ncores = \"2 x 1.5 mm2\"\ndiameter_mm = 8\n\
         [[element]]\ntag = \"H1\"\nkind = \"lamp\"\n\
         [[circuit]]\ntag = \"C1\"\npoles = 2\nvoltage_v = 230\ncurrent_a = 0.015\ndirect = true\nfrom = \"W0\"\nto = \"H1\"\n"
    );
    assert_eq!(fault(&text), None);
}

/// A rail of earth terminals alone between the Ex e rail and the intrinsically safe one: these are no
/// neighbours, and earth is of neither kind.
#[test]
fn a_rail_of_earth_terminals_may_stand_between_the_kinds() {
    let judged = judge(7022).expect("a small case");
    let chosen = judged.opinion.chosen.map(|(name, _)| name);
    assert!(chosen.is_some());
    assert_eq!(search(&judged.list, &judged.case.catalogue).chosen, chosen);
}

/// Intrinsically safe elements above an intrinsically safe rail; the Ex e rail below that is far away.
#[test]
fn elements_keep_the_separation_from_the_rails_of_the_other_kind_only() {
    let judged = judge(2999).expect("a small case");
    let chosen = judged.opinion.chosen.map(|(name, _)| name);
    assert!(chosen.is_some());
    assert_eq!(search(&judged.list, &judged.case.catalogue).chosen, chosen);
}

/// Earth terminals apart from intrinsically safe ones make a row of 48 mm, beside them with a partition
/// one of 70 mm; the lower one leaves room for the elements above it.
#[test]
fn the_least_height_on_the_fewest_rails_leaves_room_for_elements() {
    let judged = judge(3475).expect("a small case");
    let chosen = judged.opinion.chosen.map(|(name, _)| name);
    assert!(chosen.is_some());
    assert_eq!(search(&judged.list, &judged.case.catalogue).chosen, chosen);
}

/// Every small case up to a number, for a wide search by hand: shows where the two opinions differ.
#[test]
#[ignore = "takes a minute"]
fn all_cases_up_to_a_high_number() {
    let mut different = Vec::new();
    for number in 1..=8000 {
        let Some(judged) = judge(number) else {
            continue;
        };
        let theirs = answer(&judged.list, &judged.case.catalogue);
        let chosen = judged.opinion.chosen.map(|(name, _)| name);
        if chosen != theirs.chosen {
            different.push(format!(
                "case {number}: tried out {chosen:?}, model {:?}",
                theirs.chosen
            ));
        }
    }
    assert!(different.is_empty(), "{}", different.join("\n"));
}
