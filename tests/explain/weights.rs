//! Weights of the list: they put the ways out in another order, and nothing else.

use crate::support::read;
use glandrail::catalogue::Catalogue;
use glandrail::explain::{
    Ease, ExplainOptions, Impossible, impossible, ladder, report, requirements,
};
use glandrail::workshop::Workshop;

const HEATERS: &str = include_str!("../../examples/impossible-heater-feeds.toml");

fn facts(weights: &str) -> Impossible {
    let list = read(&format!("{HEATERS}{weights}"));
    let options = ExplainOptions {
        ways: 26,
        ..ExplainOptions::default()
    };
    impossible(
        &list,
        Catalogue::demo(),
        &Workshop::default(),
        None,
        options,
    )
    .0
}

/// The ways out by their words, in the order told.
fn words(facts: &Impossible) -> Vec<String> {
    let way = |way: &glandrail::explain::Way| {
        let words = way.changes.iter().map(|change| change.words.as_str());
        words.collect::<Vec<_>>().join(", and ")
    };
    facts.ways.iter().map(way).collect()
}

#[test]
fn weights_put_the_ways_out_in_another_order() {
    let usual = facts("");
    assert!(usual.ways.len() >= 3, "{:?}", words(&usual));
    let last = usual.ways.last().expect("some");
    let first = usual.ways.first().expect("some");
    let (cheap, dear) = (
        &last.changes[0].requirement.id,
        &first.changes[0].requirement.id,
    );
    assert_ne!(cheap, dear);
    let weighed = facts(&format!(
        "\n[[weight]]\nof = \"{cheap}\"\ntimes = 0.01\n\n[[weight]]\nof = [\"{dear}\"]\ntimes = 100\n"
    ));
    assert_ne!(words(&weighed), words(&usual));
    assert_eq!(&weighed.ways[0].changes[0].requirement.id, cheap);
    assert_eq!(weighed.conflicts.len(), usual.conflicts.len());
    assert!(weighed.weighed && !usual.weighed);
}

/// The stated formula: the sum of points times factor, and sorted by it.
#[test]
fn the_cost_is_the_sum_of_points_times_factor() {
    let weights = "\n[[weight]]\nof = \"area\"\ntimes = 3\n\n[[weight]]\nof = [\"area.ambient_c (highest)\", \"circuit current_a\"]\ntimes = 0.5\n";
    let text = format!("{HEATERS}{weights}");
    let list = read(&text);
    let all = requirements(&list);
    let facts = facts(weights);
    let mut seen = 0;
    for way in &facts.ways {
        let mut sum = 0.0;
        for change in &way.changes {
            let id = change.requirement.id.as_str();
            // How the list is made is no requirement of it.
            if ["placement", "partition", "boxes"].contains(&id) {
                sum = way.cost;
                continue;
            }
            let requirement = all.iter().find(|known| known.id == id).expect("known");
            let steps = ladder(
                &list,
                Catalogue::demo(),
                &Workshop::default(),
                &requirement.aspect,
            )
            .steps;
            let points = match change.ease {
                // Two for each millimetre less, one for each cable.
                Ease::Diameter {
                    diameter_mm,
                    cables,
                } => {
                    let has = list.cables.iter().find(|cable| id.contains(&cable.tag));
                    2.0 * (has.expect("a cable").diameter_mm - diameter_mm) + cables as f64
                }
                _ => {
                    let step = steps.iter().find(|(ease, _)| *ease == change.ease);
                    step.expect("a step").1
                }
            };
            let factor = match id {
                "area.ambient_c (highest)" => 0.5,
                _ if id.starts_with("area") => 3.0,
                _ if id.ends_with(" current_a") => 0.5,
                _ => 1.0,
            };
            seen += usize::from(factor != 1.0);
            sum += points * factor;
        }
        assert!((way.cost - sum).abs() < 1e-9, "{} is not {sum}", way.cost);
    }
    assert!(seen >= 2, "{seen} changes with a weight");
    assert!(
        facts
            .ways
            .windows(2)
            .all(|pair| pair[0].cost <= pair[1].cost)
    );
    let told = glandrail::explain::Explanation::Impossible(Box::new(facts));
    assert!(report::text(&list, &told).contains("points, as the list weighs them"));
}
