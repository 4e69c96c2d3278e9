//! Cases that stand on an edge: one figure less, and the second opinion chooses another box. They show
//! that the sample's agreement is not for want of cases in which a rule decides.

use super::opinion::{self, Name};
use super::sample::judge;
use super::theirs::answer;
use glandrail::catalogue::{AccessoryKind, Catalogue, Most};
use glandrail::requirements::RequirementList;
use glandrail::workshop::Workshop;

/// A figure that is left out.
type Alteration = fn(&mut Workshop, &mut Catalogue);

/// What is left out, and numbers of cases that it decides.
const EDGES: [(&str, Alteration, &[u64]); 14] = [
    (
        "gap between entries",
        |rules, _| rules.entries.gap_mm = 0.0,
        &[381, 712, 1733],
    ),
    (
        "gap between rows of entries",
        |rules, _| rules.entries.row_gap_mm = 0.0,
        &[389, 712, 726],
    ),
    (
        "rail ends",
        |rules, _| rules.rails.end_mm = 0.0,
        &[1520, 2358, 2834],
    ),
    (
        "lid clearance",
        |rules, _| rules.rails.lid_clearance_mm = 0.0,
        &[9, 77, 87],
    ),
    (
        "gap between elements",
        |rules, _| rules.elements.gap_mm = 0.0,
        &[259, 655, 1079],
    ),
    (
        "edge of the lid",
        |rules, _| rules.elements.edge_mm = 0.0,
        &[15, 55, 231],
    ),
    (
        "bend behind contacts",
        |rules, _| rules.elements.contact_bend_mm = 0.0,
        &[15, 19, 135],
    ),
    (
        "separation of the kinds",
        |rules, _| rules.distances.intrinsic_separation_mm = 0.0,
        &[2, 51, 99, 179],
    ),
    (
        "wiring space of thick conductors",
        |rules, _| {
            let first_mm = rules.wiring_space[0].space_mm;
            rules
                .wiring_space
                .iter_mut()
                .for_each(|step| step.space_mm = first_mm);
        },
        &[5, 9, 68],
    ),
    (
        "end stops",
        |_, catalogue| set_width(catalogue, AccessoryKind::EndStop, 0.0),
        &[219, 306, 314],
    ),
    (
        "end plates",
        |_, catalogue| set_width(catalogue, AccessoryKind::EndPlate, 0.0),
        &[338, 715, 868],
    ),
    (
        "partitions",
        |_, catalogue| set_width(catalogue, AccessoryKind::Partition, 0.0),
        &[1520, 2318, 2852],
    ),
    (
        "reach of entries",
        |_, catalogue| {
            catalogue
                .gland
                .iter_mut()
                .for_each(|gland| gland.envelope.reach_in_mm = 0.0);
        },
        &[75, 92, 158],
    ),
    (
        "certified numbers",
        |_, catalogue| {
            let enclosures = catalogue.enclosure.iter_mut();
            enclosures
                .flat_map(|one| one.walls.values_mut())
                .for_each(|wall| wall.most_entries = Some(Most::NotLimited));
        },
        &[10, 18, 42],
    ),
];

fn set_width(catalogue: &mut Catalogue, kind: AccessoryKind, width_mm: f64) {
    let parts = catalogue
        .accessory
        .iter_mut()
        .filter(|part| part.kind == kind);
    parts.for_each(|part| part.width_mm = width_mm);
}

fn altered(list: &RequirementList, catalogue: &Catalogue, alter: Alteration) -> Option<Name> {
    let (mut rules, mut parts) = (Workshop::default(), catalogue.clone());
    alter(&mut rules, &mut parts);
    opinion::decide(list, &parts, &rules)
        .chosen
        .map(|(name, _)| name)
}

#[test]
fn model_and_second_opinion_agree_on_the_edges() {
    for (what, alter, numbers) in EDGES {
        assert!(!numbers.is_empty(), "{what}");
        for number in numbers {
            let judged = judge(*number).expect("a small case");
            let chosen = judged.opinion.chosen.map(|(name, _)| name);
            let without = altered(&judged.list, &judged.case.catalogue, alter);
            assert_ne!(chosen, without, "case {number} does not turn on {what}");
            let theirs = answer(&judged.list, &judged.case.catalogue);
            assert_eq!(chosen, theirs.chosen, "case {number}, {what}");
        }
    }
}

/// Cases that turn on a rule which is no figure: beside a plate near the wall and behind it is no room for
/// entries; between two rows the larger of their wiring spaces is free. Found by leaving the rule out.
const DECIDED_BY_A_RULE: [u64; 8] = [796, 966, 1172, 2875, 378, 818, 2141, 3345];

#[test]
fn model_and_second_opinion_agree_where_a_rule_decides() {
    for number in DECIDED_BY_A_RULE {
        let judged = judge(number).expect("a small case");
        let chosen = judged.opinion.chosen.map(|(name, _)| name);
        let theirs = answer(&judged.list, &judged.case.catalogue);
        assert_eq!(chosen, theirs.chosen, "case {number}");
    }
}

/// Looks for cases on an edge, to fill the list above.
#[test]
#[ignore = "prints numbers for EDGES; takes minutes"]
fn look_for_edges() {
    let mut found = vec![Vec::new(); EDGES.len()];
    for number in 1..=8000 {
        let Some(judged) = judge(number) else {
            continue;
        };
        let chosen = judged.opinion.chosen.map(|(name, _)| name);
        for ((_, alter, _), numbers) in EDGES.iter().zip(&mut found) {
            if numbers.len() < 4 && altered(&judged.list, &judged.case.catalogue, *alter) != chosen
            {
                numbers.push(number);
            }
        }
    }
    for ((what, _, _), numbers) in EDGES.iter().zip(&found) {
        println!("{what}: {numbers:?}");
    }
}
