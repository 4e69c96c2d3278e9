//! The model and the second opinion on every case of the sample.

use super::opinion::{Name, Screen};
use super::sample::{Class, Judged, SHARES, sample};
use super::theirs::{Theirs, answer};
use glandrail::arrangement::Orientation;
use glandrail::catalogue::Most;
use glandrail::demand::{self, Demand};
use glandrail::requirements::Measure;
use glandrail::workshop::Workshop;
use std::collections::{BTreeMap, BTreeSet};

#[test]
fn model_and_second_opinion_agree() {
    let mut wrong = Vec::new();
    for judged in sample() {
        let theirs = answer(&judged.list, &judged.case.catalogue);
        if let Some(fault) = &theirs.fault {
            wrong.push(format!("case {}: {fault}", judged.case.number));
        }
        if !theirs.proven {
            wrong.push(format!("case {}: not proved", judged.case.number));
        }
        if let Some(difference) = difference(judged, &theirs) {
            wrong.push(format!("case {}: {difference}", judged.case.number));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

fn difference(judged: &Judged, theirs: &Theirs) -> Option<String> {
    let chosen = judged.opinion.chosen.as_ref().map(|(name, _)| name.clone());
    if chosen != theirs.chosen {
        return Some(format!("tried out: {chosen:?}, model: {:?}", theirs.chosen));
    }
    let excluded: BTreeSet<&Name> = judged
        .opinion
        .excluded
        .iter()
        .map(|(name, _)| name)
        .collect();
    let modelled: BTreeSet<&Name> = theirs.excluded.iter().collect();
    (excluded != modelled).then(|| format!("excluded: {excluded:?}, model: {modelled:?}"))
}

#[test]
fn sample_has_its_shares() {
    let mut counts: BTreeMap<_, usize> = BTreeMap::new();
    for judged in sample() {
        *counts
            .entry((judged.case.family, judged.class))
            .or_default() += 1;
    }
    for (family, class, count) in SHARES {
        assert_eq!(
            counts.get(&(family, class)),
            Some(&count),
            "{family:?}, {class:?}"
        );
    }
    let of = |class: Class| -> usize {
        let classes = counts.iter().filter(|((_, of), _)| *of == class);
        classes.map(|(_, count)| count).sum()
    };
    assert_eq!(sample().len(), 259);
    assert_eq!(of(Class::Easy), 75);
    assert_eq!(of(Class::Hard), 120);
    assert_eq!(of(Class::NoRoom) + of(Class::Screened), 64);
}

/// What the sample must hold, with the least number of cases.
#[test]
fn sample_has_what_makes_boxes_hard() {
    let workshop = Workshop::default();
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for judged in sample() {
        let demand = demand::build(&judged.list, &judged.case.catalogue, &workshop)
            .unwrap_or_else(|findings| panic!("{}", findings.summary()));
        for feature in features(judged, &demand) {
            *counts.entry(feature).or_default() += 1;
        }
    }
    let least = [
        ("both kinds of circuit", 45),
        ("operating elements", 70),
        ("elements of one kind, terminals of the other", 8),
        ("both kinds on the lid", 4),
        ("a tied or preferred wall", 80),
        ("certified numbers of entries", 100),
        ("several drillable areas", 60),
        ("spare entries", 60),
        ("a breather", 15),
        ("spare terminals", 80),
        ("open-sided terminals", 150),
        ("jumpers", 30),
        ("double-level terminals", 3),
        ("price decides", 50),
        ("a box turned", 15),
        ("a smaller box excluded by its heat", 12),
        ("several rails needed", 12),
        ("a mixed rail needed", 10),
        ("elements above all rows needed", 15),
        ("further walls needed", 50),
        ("not the first box with room", 60),
    ];
    for (feature, least) in least {
        let count = counts.get(feature).copied().unwrap_or(0);
        assert!(
            count >= least,
            "{feature}: {count}, not {least}; {counts:#?}"
        );
    }
}

fn features(judged: &Judged, demand: &Demand<'_>) -> Vec<&'static str> {
    let list = &judged.list;
    // The walls of the chosen box.
    let walls = |each: &dyn Fn(&glandrail::catalogue::EntryWall) -> bool| {
        let chosen = judged.opinion.chosen.as_ref();
        let enclosures = judged
            .case
            .catalogue
            .enclosure
            .iter()
            .filter(|one| chosen.is_some_and(|((id, _), _)| *id == one.id));
        enclosures.flat_map(|one| one.walls.values()).any(each)
    };
    let clusters = || demand.strips.iter().flat_map(|strip| &strip.clusters);
    let on_lid: BTreeSet<_> = demand.elements.iter().filter_map(|one| one.kind).collect();
    let on_rails: BTreeSet<_> = demand
        .strips
        .iter()
        .filter(|strip| !strip.earth)
        .map(|strip| strip.kind)
        .collect();
    let taken = judged.opinion.chosen.as_ref();
    let some_screen = |of: Option<Screen>| {
        let excluded = &judged.opinion.excluded;
        taken.is_some() && excluded.iter().any(|(_, screen)| *screen == of)
    };
    let is =
        |test: &dyn Fn(&super::opinion::Taken) -> bool| taken.is_some_and(|(_, taken)| test(taken));
    let levels = |need: &glandrail::demand::TerminalNeed<'_>| need.part.levels();
    [
        (on_rails.len() > 1, "both kinds of circuit"),
        (!demand.elements.is_empty(), "operating elements"),
        (
            !on_lid.is_empty() && on_rails.iter().any(|kind| !on_lid.contains(kind)),
            "elements of one kind, terminals of the other",
        ),
        (on_lid.len() > 1, "both kinds on the lid"),
        (
            list.cables
                .iter()
                .any(|cable| cable.walls != list.wishes.entry_walls),
            "a tied or preferred wall",
        ),
        (
            walls(&|wall| matches!(wall.most_entries, Some(Most::Of(_)))),
            "certified numbers of entries",
        ),
        (
            walls(&|wall| wall.areas_mm.len() > 1),
            "several drillable areas",
        ),
        (!list.spare.entries.is_empty(), "spare entries"),
        (list.wishes.breather, "a breather"),
        (
            demand.terminals.iter().any(|need| need.spare),
            "spare terminals",
        ),
        (
            demand.terminals.iter().any(|need| need.part.open_side),
            "open-sided terminals",
        ),
        (
            clusters().any(|cluster| cluster.jumper.is_some()),
            "jumpers",
        ),
        (
            demand.terminals.iter().any(|need| levels(need) > 1),
            "double-level terminals",
        ),
        (list.wishes.smallest[0] == Measure::Price, "price decides"),
        (
            taken.is_some_and(|((_, orientation), _)| *orientation == Orientation::Turned),
            "a box turned",
        ),
        (
            some_screen(Some(Screen::Heat)),
            "a smaller box excluded by its heat",
        ),
        (is(&|taken| taken.rails > 1), "several rails needed"),
        (is(&|taken| taken.mixed_rail), "a mixed rail needed"),
        (is(&|taken| taken.band), "elements above all rows needed"),
        (is(&|taken| taken.further_walls), "further walls needed"),
        (some_screen(None), "not the first box with room"),
    ]
    .into_iter()
    .filter(|(there, _)| *there)
    .map(|(_, feature)| feature)
    .collect()
}

/// The generated catalogues pass the checks of a catalogue file.
#[test]
fn generated_catalogues_are_sound() {
    let folder = tempfile::tempdir().expect("a folder for the files of this test");
    for judged in sample().iter().step_by(12) {
        let path = folder.path().join(format!("{}.toml", judged.case.number));
        let text = toml::to_string(&judged.case.catalogue).expect("a catalogue can be written");
        std::fs::write(&path, text).expect("the folder can be written to");
        let read = glandrail::catalogue::Catalogue::read(&path)
            .unwrap_or_else(|findings| panic!("{}: {}", judged.case.number, findings.summary()));
        assert_eq!(read.enclosure, judged.case.catalogue.enclosure);
    }
}
