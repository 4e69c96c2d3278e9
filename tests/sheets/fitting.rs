//! What a fitter takes from the sheets: the order on the rails, names of everything, remarks that are whole.

use crate::samples::{every_example, every_fixture, named_example, on_every_paper};
use glandrail::arrangement::{Arrangement, WireEnd};
use glandrail::sheets::drawing::{Geometry, Label, Sheet, SubjectKey};
use glandrail::sheets::{Paper, all_lists};

fn all() -> Vec<(String, Arrangement)> {
    let fixtures = every_fixture()
        .into_iter()
        .map(|(name, arrangement)| (name.to_string(), arrangement));
    fixtures.chain(every_example()).collect()
}

/// The words on a sheet.
fn words(sheet: &Sheet) -> Vec<&str> {
    sheet
        .texts()
        .map(|(label, _)| label.content.as_str())
        .collect()
}

/// Each step begins where its first part begins and ends where its last one ends; nothing is left out or told twice.
#[test]
fn the_order_on_the_rails_is_that_of_the_arrangement() {
    let (mut terminals, mut accessories, mut jumpers) = (0, 0, 0);
    for (name, arrangement) in all() {
        let lists = all_lists(&arrangement);
        let (_, list) = lists
            .iter()
            .find(|(file, _)| *file == "rail-order.csv")
            .expect("the list");
        let mut counted = 0;
        let mut named: Vec<&str> = Vec::new();
        let mut last: (&str, f64) = ("", f64::MIN);
        for row in &list.rows {
            let [rail, from, to, what, names, count, part] = row.as_slice() else {
                panic!("{name}: {row:?}");
            };
            let number = |cell: &String| cell.parse::<f64>().expect("a number");
            let (from_mm, to_mm) = (number(from), number(to));
            let first = names.split(' ').next().unwrap_or_default();
            if what == "jumper" {
                let jumper = arrangement.jumpers.iter().find(|jumper| jumper.id == first);
                let linked = &jumper.expect("a jumper").terminals;
                assert!(
                    linked.iter().all(|id| names.contains(id.as_str())),
                    "{row:?}"
                );
                jumpers += 1;
                continue;
            }
            if last.0 == rail {
                assert!(from_mm >= last.1 - 1e-6, "{name}: {row:?} after {last:?}");
            }
            last = (rail, to_mm);
            let near = |a: f64, b: f64| (a - b).abs() < 0.006;
            if what == "terminals" {
                let index = arrangement.terminals.iter().position(|one| one.id == first);
                let index = index.expect("a terminal");
                let run =
                    &arrangement.terminals[index..index + count.parse::<usize>().expect("a count")];
                let (begin, end) = (&run[0], &run[run.len() - 1]);
                assert!(near(begin.body.min.x_mm, from_mm), "{name}: {row:?}");
                assert!(near(end.body.max.x_mm, to_mm), "{name}: {row:?}");
                assert!(run.iter().all(|one| one.part == *part && one.rail == *rail));
                assert!(run.len() == 1 || names.ends_with(&format!("– {}", end.number)));
                counted += run.len();
            } else {
                let found = arrangement.accessories.iter().find(|one| one.id == first);
                let found = found.expect("an accessory");
                assert_eq!((&found.part, &found.rail), (part, rail), "{name}");
                assert!(near(found.body.min.x_mm, from_mm) && near(found.body.max.x_mm, to_mm));
                named.push(first);
            }
        }
        let ids = arrangement.accessories.iter().map(|one| one.id.as_str());
        let mut ids: Vec<&str> = ids.collect();
        ids.sort_unstable();
        named.sort_unstable();
        assert_eq!(named, ids, "{name}");
        assert_eq!(counted, arrangement.terminals.len(), "{name}");
        terminals += counted;
        accessories += named.len();
    }
    assert!(terminals > 100 && accessories > 20 && jumpers > 4);
}

/// A remark that is cut is not one.
#[test]
fn every_remark_is_whole() {
    let mut remarks = 0;
    for (name, arrangement) in every_example() {
        for (paper, sheet) in on_every_paper(&arrangement) {
            let notes = sheet.groups.iter().filter(|group| group.name == "notes");
            for shape in notes.flat_map(|group| &group.shapes) {
                let Geometry::Text(label) = &shape.geometry else {
                    continue;
                };
                let words = &label.content;
                let is_cut = words.ends_with('…');
                assert!(!is_cut, "{name}, {paper:?}, {}: {words}", sheet.name);
                remarks += 1;
            }
        }
    }
    assert!(remarks > 100, "{remarks}");
}

/// Entries where the walls lie round the front, and what stands on the rails where these are drawn enlarged.
#[test]
fn everything_has_its_name_on_its_drawing() {
    let (mut entries, mut accessories) = (0, 0);
    for (name, arrangement) in every_example() {
        for (paper, sheet) in on_every_paper(&arrangement) {
            let words = words(&sheet);
            if sheet.name == "walls-round-front" {
                for entry in &arrangement.entries {
                    let is_there = words.contains(&entry.id.as_str());
                    assert!(is_there, "{name}, {paper:?}: {}", entry.id);
                    entries += 1;
                }
            }
            // On the smaller paper narrow parts may have no room for theirs.
            if paper == Paper::A3 && sheet.name == "terminals" && arrangement.rails.len() == 1 {
                for accessory in &arrangement.accessories {
                    assert!(
                        words.contains(&accessory.id.as_str()),
                        "{name}: {}",
                        accessory.id
                    );
                    accessories += 1;
                }
            }
        }
    }
    assert!(entries > 40 && accessories > 12, "{entries}, {accessories}");
}

/// The demo certificates name a number for each thread; how they go together they do not say.
#[test]
fn the_record_says_that_threads_were_counted_alone() {
    let told = |arrangement: &Arrangement| {
        let sheets = on_every_paper(arrangement);
        let record = sheets.iter().filter(|(_, sheet)| sheet.name == "record");
        let mut words = record.flat_map(|(_, sheet)| words(sheet));
        words.any(|words| words.starts_with("Entries of the bottom wall: 12 M16 of "))
    };
    let mut arrangement = named_example("tank-farm-junction");
    assert!(told(&arrangement));
    let one_thread = arrangement.entries.last().expect("an entry").thread;
    let mut entries = std::mem::take(&mut arrangement.entries);
    entries.retain(|entry| entry.thread == one_thread);
    assert_eq!(entries.len(), 12);
    arrangement.entries = entries;
    assert!(!told(&arrangement), "there is nothing to go together");
}

/// Two legends on one line with little between them would be engraved as one.
#[test]
fn legends_on_one_line_stand_apart() {
    const APART_MM: f64 = 1.5;
    let mut pairs = 0;
    for (name, arrangement) in every_example() {
        for (paper, sheet) in on_every_paper(&arrangement) {
            if !["lid", "elements"].contains(&sheet.name.as_str()) {
                continue;
            }
            let is_legend = |words: &str| {
                let mut elements = arrangement.elements.iter();
                words.len() > 2 && elements.any(|element| element.label.contains(words))
            };
            let views = sheet.groups.iter().filter(|group| group.view.is_some());
            let legends: Vec<(&Label, Option<&SubjectKey>)> = views
                .flat_map(|group| &group.shapes)
                .filter_map(|shape| match &shape.geometry {
                    Geometry::Text(label) if is_legend(&label.content) => {
                        Some((label, shape.subject.as_ref()))
                    }
                    _ => None,
                })
                .collect();
            for (label, of) in &legends {
                for (other, of_other) in legends.iter().filter(|(_, key)| key != of) {
                    let (one, two) = (label.area(), other.area());
                    let is_level = (one.centre().y_mm - two.centre().y_mm).abs() < 1.0;
                    if !is_level || one.left_mm > two.left_mm {
                        continue;
                    }
                    let gap_mm = two.left_mm - one.right_mm;
                    let words = (&label.content, &other.content, of, of_other);
                    assert!(gap_mm >= APART_MM, "{name}, {paper:?}: {words:?}, {gap_mm}");
                    pairs += 1;
                }
            }
        }
    }
    assert!(pairs > 20, "{pairs}");
}

/// A clamp without a text would be read as one without a conductor.
#[test]
fn every_core_is_named_at_its_clamp() {
    let mut cores = 0;
    for (name, arrangement) in every_example() {
        for paper in Paper::ALL {
            let sheets = glandrail::sheets::drawings(&arrangement, paper);
            let groups = sheets.iter().flat_map(|sheet| &sheet.groups);
            let on_rails = groups.filter(|group| group.name.starts_with("rail-"));
            let texts: Vec<&str> = on_rails
                .flat_map(|group| &group.shapes)
                .filter_map(|shape| match &shape.geometry {
                    Geometry::Text(label) => Some(label.content.as_str()),
                    _ => None,
                })
                .collect();
            for wire in &arrangement.wires {
                let (WireEnd::Core { cable, core }, WireEnd::Terminal { terminal, .. }) =
                    (&wire.from, &wire.to)
                else {
                    continue;
                };
                let words = format!("{cable}/{core}");
                let is_it = |text: &&str| text.split([' ', '|', '+']).any(|part| part == words);
                let is_there = texts.iter().any(is_it);
                assert!(is_there, "{name}, {paper:?}: {words} at {terminal}");
                cores += 1;
            }
        }
    }
    assert!(cores > 500, "{cores}");
}
