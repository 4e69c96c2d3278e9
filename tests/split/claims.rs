//! What is said about a division: the bound, the options, and what no number of boxes would do.

use crate::{EXAMPLE, read, two};
use glandrail::catalogue::{Catalogue, Enclosure, Most};
use glandrail::model::{Placement, SearchOptions};
use glandrail::propose::{Answer, propose};
use glandrail::split::{TwoAnswer, propose_up_to_two};
use glandrail::workshop::Workshop;

/// The bound is below what was found, and no pair of enclosures below it takes even what must be in one of
/// them: asked here for every cable and element by itself.
#[test]
fn no_two_enclosures_below_the_bound_take_every_cable() {
    let two = two(EXAMPLE);
    let least = two.together_at_least.expect("cables can be asked alone");
    assert!(
        least > 0.0 && least <= two.together,
        "{least} {}",
        two.together
    );
    let sum: f64 = two
        .boxes
        .iter()
        .map(|of| {
            let outer = of.proposal.arrangement.enclosure.outer_mm;
            outer.iter().product::<f64>()
        })
        .sum();
    assert!((sum - two.together).abs() < 1.0);
    // The list cut down to its two largest cables alone, in pairs of enclosures below the bound.
    let whole = read(EXAMPLE);
    let terminals = glandrail::demand::build(&whole, Catalogue::demo(), &Workshop::default())
        .expect("parts serve")
        .terminal_count();
    let enclosures = &Catalogue::demo().enclosure;
    let volume = |part: &Enclosure| part.outer_mm.iter().product::<f64>();
    let trunk = |part: &Enclosure, tag: &str| {
        let mut alone = Catalogue::demo().clone();
        alone.enclosure.retain(|of| of.id == part.id);
        let mut one = whole.clone();
        one.circuits.clear();
        one.elements.clear();
        one.cables.retain(|cable| cable.tag == tag);
        let options = SearchOptions::default();
        matches!(
            propose(&one, &alone, &Workshop::default(), options),
            Ok(Answer::Found(_))
        )
    };
    let tags = ["W2630", "W2631", "W2660", "W2661"];
    let taken: Vec<[bool; 4]> = enclosures
        .iter()
        .map(|part| tags.map(|tag| volume(part) < least && trunk(part, tag)))
        .collect();
    let mut below = 0;
    for (one, a) in enclosures.iter().zip(&taken) {
        for (other, b) in enclosures.iter().zip(&taken) {
            if volume(one) + volume(other) >= least - 1.0 {
                continue;
            }
            below += 1;
            let allowed = [one, other].map(|part| match part.most_terminals {
                Some(Most::Of(most)) => most as usize,
                Some(Most::NotLimited) => usize::MAX / 4,
                None => 0,
            });
            // A box that takes none of them is none of two.
            let all =
                a.contains(&true) && b.contains(&true) && a.iter().zip(b).all(|(a, b)| *a || *b);
            assert!(
                !all || allowed[0] + allowed[1] < terminals,
                "{} and {} are below the bound",
                one.id,
                other.id
            );
        }
    }
    assert!(below > 0, "the bound excludes nothing");
}

/// Divisions are compared, and both boxes answered, with the options that were asked for.
#[test]
fn each_box_is_answered_with_the_options_asked_for() {
    for placement in [Placement::Free, Placement::Best] {
        let options = SearchOptions {
            placement,
            ..SearchOptions::default()
        };
        let (catalogue, workshop) = (Catalogue::demo(), Workshop::default());
        let answer = propose_up_to_two(&read(EXAMPLE), catalogue, &workshop, options);
        let boxes = match answer {
            Ok(TwoAnswer::Two(two)) => two.boxes.map(|of| (of.text, of.proposal)),
            // Without rows one box may do: then that is the answer, and what else is asked says the same.
            Ok(TwoAnswer::One(one)) => {
                let Ok(Answer::Found(alone)) =
                    propose(&read(EXAMPLE), catalogue, &workshop, options)
                else {
                    panic!("one box is enough");
                };
                assert_eq!(one.arrangement, alone.arrangement);
                continue;
            }
            other => panic!("no answer: {other:?}"),
        };
        for (text, proposal) in boxes {
            let Ok(Answer::Found(again)) = propose(&read(&text), catalogue, &workshop, options)
            else {
                panic!("the derived list cannot be made");
            };
            assert_eq!(again.arrangement, proposal.arrangement);
        }
    }
}

fn printed(text: &str) -> (Option<i32>, String) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("list.toml");
    std::fs::write(&path, text).expect("written");
    let output = assert_cmd::Command::cargo_bin("glandrail")
        .expect("the program")
        .args(["propose", "--boxes", "2"])
        .arg(&path)
        .output()
        .expect("it runs");
    let text = String::from_utf8(output.stdout).expect("text");
    assert!(text.lines().all(|line| line.chars().count() <= 100));
    // As one line, so that no line break hides a word.
    let words: Vec<&str> = text.split_whitespace().collect();
    (output.status.code(), words.join(" "))
}

/// What is proved for any number of boxes is said so, and what is only searched for is not.
#[test]
fn no_number_of_boxes_is_said_only_where_it_is_proved() {
    let alone = EXAMPLE.replace(
        "\n[spare]",
        "\nenclosures = { include = [\"DEMO-G-0909\"] }\n[spare]",
    );
    let (status, told) = printed(&alone);
    assert_eq!(status, Some(1));
    let claim = "No number of boxes would do, for no enclosure takes these even alone, with what the list asks of each box: \
                 cable W2630";
    assert!(told.contains(claim), "{told}");
    let (status, told) = printed(include_str!("../../examples/impossible-heater-feeds.toml"));
    assert_eq!(status, Some(1));
    assert!(!told.contains("No number of boxes"), "{told}");
    assert!(
        told.contains("That is a search and no proof: another division might hold."),
        "{told}"
    );
}
