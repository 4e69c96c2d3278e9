//! The command line of `glandrail figure`, parsed and run.

use clap::Parser;

use super::text::{five_digits, suffix};
use super::*;
use crate::figure::{Quantities, Value};

#[derive(Debug, Parser)]
struct Line {
    #[command(flatten)]
    args: FigureArgs,
}

fn parse(words: &str) -> Result<FigureArgs, clap::Error> {
    Line::try_parse_from(std::iter::once("figure").chain(words.split(' '))).map(|line| line.args)
}

fn output(words: &str) -> String {
    let mut out = Vec::new();
    run(parse(words).expect(words), &mut out).expect(words);
    String::from_utf8(out).expect("text")
}

fn json_of(words: &str) -> serde_json::Value {
    serde_json::from_str(&output(&format!("{words} --format json"))).expect("JSON")
}

/// One question for every figure.
const QUESTIONS: [&str; 15] = [
    "clearance --voltage 690",
    "creepage --voltage 275 --group II --external",
    "creepage --voltage 275 --cti 600",
    "separation",
    "separation --from separate-circuit",
    "resistance --section 2.5 --class 5 --temperature 80",
    "resistance --awg 1/0 --temperature -20",
    "power --section 2.5 --class 5 --current 10 --length 405 --conductors 2 --terminal-resistance 1",
    "box-heat --size 271x271x135 --material grp --mounting wall --ambient 40 --power 21.209",
    "box-heat --size 271x271x135 --material stainless --inside-rise 20 --ambient -20",
    "wiring-space --section 16",
    "wiring-space --awg 4/0",
    "thread M20",
    "entries --wall 300x120 --envelope 36x4,27x8 --gap 5 --placement free",
    "temperature-class T6 --ambient 50",
];

#[test]
fn every_figure_answers_in_text_and_json_alike() {
    for question in QUESTIONS {
        let answer = json_of(question);
        for key in [
            "name",
            "inputs",
            "result",
            "unit",
            "formula",
            "source",
            "status",
            "intermediate",
        ] {
            assert!(
                answer.get(key).is_some_and(|value| !value.is_null()),
                "{question}: {key}"
            );
        }
        let text = output(question);
        let result = answer["result"].as_f64().expect("a number");
        assert!(
            text.lines()
                .next()
                .expect("a line")
                .contains(&five_digits(result)),
            "{question}: {text}"
        );
        assert!(
            text.contains(answer["status"].as_str().expect("a word")),
            "{question}"
        );
    }
}

#[test]
fn the_list_and_the_subcommands_are_the_same() {
    let asked: std::collections::BTreeSet<&str> = QUESTIONS
        .iter()
        .filter_map(|question| question.split(' ').next())
        .collect();
    let listed: std::collections::BTreeSet<&str> = FIGURES.iter().map(|(name, _)| *name).collect();
    assert_eq!(asked, listed);
    let text = output("--list");
    assert_eq!(text.lines().count(), FIGURES.len());
    assert_eq!(
        json_of("--list").as_array().map(Vec::len),
        Some(FIGURES.len())
    );
}

#[test]
fn every_key_ends_with_its_unit() {
    fn check(quantities: &Quantities, question: &str) {
        for quantity in &quantities.0 {
            assert!(
                quantity.key.ends_with(suffix(quantity.unit)),
                "{question}: {}",
                quantity.key
            );
            assert!(
                quantity.unit.is_empty() || !suffix(quantity.unit).is_empty(),
                "{question}: {}",
                quantity.unit
            );
            if let Value::Lines(lines) = &quantity.value {
                lines.iter().for_each(|line| check(line, question));
            }
        }
    }
    for question in QUESTIONS {
        let answer =
            answer(parse(question).expect(question).figure.expect("a name")).expect(question);
        check(&answer.inputs, question);
        check(&answer.intermediate, question);
        assert!(
            answer.result_key.ends_with(suffix(answer.unit)),
            "{question}"
        );
    }
}

#[test]
fn box_heat_goes_both_ways() {
    let reverse = json_of(
        "box-heat --size 271x271x135 --material grp --mounting wall --ambient 40 --inside-rise 20",
    );
    assert_eq!(reverse["result_key"], "power_w");
    let power = reverse["result"].as_f64().expect("a number");
    assert!((power - 21.209).abs() < 1e-3);
    assert_eq!(
        reverse["intermediate"]["faces"].as_array().map(Vec::len),
        Some(5)
    );
    let forward = json_of(&format!(
        "box-heat --size 271x271x135 --material grp --mounting wall --ambient 40 --power {power}"
    ));
    assert!((forward["result"].as_f64().expect("a number") - 20.0).abs() < 1e-6);
}

#[test]
fn what_is_out_of_range_is_an_error_that_says_the_range() {
    let mut out = Vec::new();
    let error = run(
        parse("clearance --voltage 12000").expect("parses"),
        &mut out,
    )
    .expect_err("too high");
    assert_eq!(
        error.to_string(),
        "working voltage 12000 V lies outside the valid range 0 to 11000 V"
    );
    assert!(out.is_empty(), "nothing is printed beside the error");
    let error = run(
        parse("resistance --section 3 --class 2").expect("parses"),
        &mut out,
    )
    .expect_err("not listed");
    assert!(error.to_string().contains("3 mm² is not listed"), "{error}");
    let error = run(
        parse("creepage --voltage 24 --cti 100").expect("parses"),
        &mut out,
    )
    .expect_err("group IIIb");
    assert!(
        error.to_string().starts_with("comparative tracking index"),
        "{error}"
    );
    assert!(
        run(parse("--format text").expect("parses"), &mut out).is_err(),
        "no name, no answer"
    );
}

#[test]
fn questions_that_contradict_or_lack_something_are_refused_while_parsing() {
    for words in [
        "clearance",
        "creepage --voltage 24",
        "creepage --voltage 24 --group I --cti 600",
        "resistance --section 2.5",
        "resistance --section 2.5 --class 5 --awg 14",
        "resistance --class 5",
        "box-heat --size 271x271 --material grp --power 5",
        "box-heat --size 271x271x135 --material grp",
        "box-heat --size 271x271x135 --material grp --power 5 --inside-rise 5",
        "box-heat --size 271x271x135 --material wood --power 5",
        "thread M21",
        "temperature-class T7",
        "wiring-space",
        "nonsense",
    ] {
        assert!(parse(words).is_err(), "{words}");
    }
}

#[test]
fn text_reads_without_the_json() {
    let text = output("creepage --voltage 275 --group II --external");
    assert_eq!(
        text,
        "\
creepage: 6.3 mm (from memory)
  larger of 3 mm and the table figure of the first row whose voltage is exceeded by at most 10 %
asked
  voltage            275 V
  material group     II
  external terminal  yes
steps
  row voltage       250 V
  row serves up to  275 V
  table             6.3 mm
  minimum           3 mm
sources
  IEC 60079-7:2015+A1:2017, Table 2 (from memory)
  IEC 60079-7:2015+A1:2017, note to Table 2 (from memory)
  IEC 60079-7:2015+A1:2017, cl. 4.3 (from memory)
"
    );
}

#[test]
fn faces_stand_side_by_side() {
    let text = output("box-heat --size 271x271x135 --material grp --ambient 40 --inside-rise 20");
    let line = |start: &str| -> Vec<String> {
        let found = text
            .lines()
            .find(|line| line.trim_start().starts_with(start))
            .expect(start);
        found.split_whitespace().map(str::to_string).collect()
    };
    assert_eq!(
        line("face "),
        ["face", "front", "left", "right", "top", "bottom"]
    );
    assert_eq!(
        line("flux "),
        [
            "flux", "95.236", "95.236", "95.236", "109.92", "88.162", "W/m²"
        ]
    );
    let steps = text
        .lines()
        .skip_while(|line| *line != "steps")
        .take_while(|line| *line != "sources");
    assert!(
        steps.into_iter().all(|line| line.chars().count() < 90),
        "{text}"
    );
}
