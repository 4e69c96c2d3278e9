//! What a certificate does not state is no permission, and what it asks for beside the rated power is kept: one
//! enclosure of the demo catalogue with one datum changed.

use glandrail::catalogue::{Catalogue, DefinedArrangement, Enclosure, Most};
use glandrail::model::SearchOptions;
use glandrail::propose::{Answer, propose};
use glandrail::requirements::RequirementList;
use glandrail::source::SourceFile;
use glandrail::standards::iec_60079_0::TemperatureClass;
use glandrail::workshop::Workshop;

/// Two cables joined pole by pole; 24 V and 0.5 A, without protective conductor.
const LIST: &str = r#"
[job]
tag = "JB-9101"

[area]
zone = 1
gas_group = "IIB"
temperature_class = "T6"
ambient_c = [-20, 40]

[[cable]]
tags = ["W1", "W2"]
cores = "4 x 1.5 mm2"
diameter_mm = 10

[[circuit]]
tag = "S1"
poles = 4
voltage_v = 24
current_a = 0.5
from = "W1"
to = "W2"
"#;

/// What is answered with one enclosure alone, changed; the reasons against it where it is refused.
fn answer(
    id: &str,
    change: impl FnOnce(&mut Enclosure),
) -> Result<glandrail::arrangement::Arrangement, String> {
    let mut catalogue = Catalogue::demo().clone();
    catalogue.enclosure.retain(|part| part.id == id);
    change(catalogue.enclosure.first_mut().expect("the enclosure"));
    let list = RequirementList::from_source(
        SourceFile::from_text("list.toml", LIST),
        &Workshop::default(),
    )
    .unwrap_or_else(|findings| panic!("{}", findings.render_plain()));
    let found = propose(
        &list,
        &catalogue,
        &Workshop::default(),
        SearchOptions::default(),
    );
    match found.expect("no fault") {
        Answer::Found(proposal) => Ok(proposal.arrangement),
        Answer::Impossible { excluded, .. } => {
            let reasons = excluded.iter().map(|one| one.reason.to_string());
            Err(reasons.collect::<Vec<_>>().join("\n"))
        }
    }
}

fn refused(id: &str, change: impl FnOnce(&mut Enclosure)) -> String {
    answer(id, change).expect_err("nothing permits it")
}

#[test]
fn numbers_that_are_not_stated_permit_nothing() {
    for (stated, most) in [
        (true, Some(Most::NotLimited)),
        (true, Some(Most::Of(8))),
        (false, None),
    ] {
        let found = answer("DEMO-S-2520", |part| part.most_terminals = most);
        assert_eq!(found.is_ok(), stated, "{most:?}");
    }
    let terminals = refused("DEMO-S-2520", |part| part.most_terminals = None);
    assert!(terminals.contains("how many terminals"), "{terminals}");
    let entries = refused("DEMO-S-2520", |part| {
        part.walls
            .values_mut()
            .for_each(|wall| wall.most_entries = None);
    });
    assert!(entries.contains("how many entries"), "{entries}");
    // With one wall stated the entries go there.
    let found = answer("DEMO-S-2520", |part| {
        for (face, wall) in &mut part.walls {
            if *face != glandrail::space::Face::Left {
                wall.most_entries = None;
            }
        }
    });
    let walls = found.expect("one wall").entries;
    assert!(
        walls
            .iter()
            .all(|entry| entry.wall == glandrail::space::Face::Left)
    );
}

#[test]
fn metal_needs_an_earth_terminal_inside() {
    assert!(answer("DEMO-S-2520", |_| ()).is_ok());
    let unknown = refused("DEMO-S-2520", |part| part.internal_earth_mm2 = None);
    assert!(unknown.contains("earth terminal inside"), "{unknown}");
    let small = refused("DEMO-S-2520", |part| part.internal_earth_mm2 = Some(1.0));
    assert!(small.contains("1.5 mm² is needed"), "{small}");
    // Plastic needs none.
    assert!(answer("DEMO-G-2418", |part| part.internal_earth_mm2 = None).is_ok());
}

#[test]
fn a_defined_arrangement_that_decides_is_kept() {
    let rows = |most_conductors: u32| {
        move |part: &mut Enclosure| {
            part.defined_arrangement = vec![DefinedArrangement {
                class: TemperatureClass::T6,
                ambient_c: 40.0,
                section_mm2: 1.5,
                current_a: 10.0,
                most_conductors,
            }];
            part.defined_arrangement_decides = true;
        }
    };
    // Eight conductors.
    let kept = answer("DEMO-S-2520", rows(8)).expect("eight of eight");
    assert!(kept.heat.defined_arrangement_decides);
    let beyond = refused("DEMO-S-2520", rows(7));
    assert!(beyond.contains("1.14 of 1"), "{beyond}");
    let without = refused("DEMO-S-2520", |part| {
        rows(8)(part);
        part.defined_arrangement[0].section_mm2 = 2.5;
    });
    assert!(without.contains("does not speak of all"), "{without}");
    let usual = answer("DEMO-S-2520", |_| ()).expect("the rated power decides");
    assert!(!usual.heat.defined_arrangement_decides);
}
