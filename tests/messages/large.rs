//! Lists far beyond what fits any box get a clear answer.

use crate::job;
use glandrail::catalogue::Catalogue;
use glandrail::propose::Answer;
use std::fmt::Write;

/// 10 000 circuits by count: one entry of the list each for trunks, branches and circuits.
#[test]
fn ten_thousand_circuits_by_count_are_impossible_with_reasons() {
    let text = job::completed(
        "[[cable]]\ntags = \"T1..T10000\"\ncores = \"2 x 1.5 mm2\"\ndiameter_mm = 9\n\
         [[cable]]\ntags = \"B1..B10000\"\ncores = \"2 x 1.5 mm2\"\ndiameter_mm = 9\n\
         [[circuit]]\ntags = \"C1..C10000\"\npoles = 2\nvoltage_v = 24\ncurrent_a = 0.1\n\
         from = \"T1..T10000\"\nto = \"B1..B10000\"\n",
    );
    impossible_with_reasons(&text);
}

/// 10 000 circuits written out, linked in tens, with an element on every tenth.
#[test]
fn ten_thousand_circuits_written_out_are_impossible_with_reasons() {
    let mut text = String::new();
    for number in 1..=10_000 {
        let to = if number % 10 == 0 {
            writeln!(
                text,
                "[[element]]\ntag = \"S{number}\"\nkind = \"push_button\"\ncontacts = [\"NO\"]"
            )
            .expect("memory");
            format!("to = \"S{number}\"\n")
        } else {
            String::new()
        };
        writeln!(
            text,
            "[[cable]]\ntag = \"W{number}\"\ncores = \"2 x 1.5 mm2\"\ndiameter_mm = 9\n\
             [[circuit]]\ntag = \"C{number}\"\npoles = 2\nvoltage_v = 24\ncurrent_a = 0.1\n\
             from = \"W{number}\"\n{to}"
        )
        .expect("memory");
    }
    for number in 0..1_000 {
        let (first, last) = (10 * number + 1, 10 * number + 10);
        writeln!(text, "[[link]]\npoles = [\"C{first}..C{last}/2\"]").expect("memory");
    }
    impossible_with_reasons(&job::completed(&text));
}

fn impossible_with_reasons(text: &str) {
    let list = job::read(text).unwrap_or_else(|findings| panic!("{}", findings.render_plain()));
    assert_eq!(list.circuits.len(), 10_000);
    let answer = job::answer(&list, Catalogue::demo());
    match answer {
        Ok(Answer::Impossible { excluded, .. }) => {
            let enclosures = Catalogue::demo().enclosure.len();
            assert!(excluded.len() >= enclosures, "a reason for every enclosure");
            assert!(
                excluded
                    .iter()
                    .all(|one| !one.reason.to_string().is_empty())
            );
        }
        Ok(Answer::Found(found)) => panic!("found {}", found.arrangement.enclosure.id),
        Err(error) => panic!("{error}"),
    }
}

/// 10 000 circuits that are all wrong: each is told once.
#[test]
fn ten_thousand_wrong_circuits_are_told_one_by_one() {
    let mut text = String::from("[[cable]]\ntag = \"W1\"\ncores = \"2 x 1.5 mm2\"\n");
    for number in 1..=10_000 {
        writeln!(
            text,
            "[[circuit]]\ntag = \"C{number}\"\npoles = 2\nvoltage_v = -1\ncurrent_a = 1\nfrom = \"V{number}\""
        )
        .expect("memory");
    }
    let findings = job::read(&job::completed(&text)).expect_err("all are wrong");
    assert_eq!(findings.len(), 20_000);
    assert_eq!(findings.render_plain().lines().count(), 20_000);
}

/// 10 000 cables that no gland takes and no terminal serves: one finding for each entry of the list.
#[test]
fn ten_thousand_cables_alike_are_one_finding() {
    let text = job::completed(
        "[[cable]]\ntag = \"W\"\nquantity = 10000\ncores = \"2 x 300 mm2\"\ndiameter_mm = 120\n",
    );
    let findings = job::findings(&text, Catalogue::demo());
    let codes: Vec<_> = findings.iter().map(|finding| finding.code).collect();
    assert_eq!(codes, ["demand-no-terminal", "demand-no-gland"]);
    assert!(
        findings
            .iter()
            .all(|one| one.message.contains("9999 more like it"))
    );
}

/// Ranges that multiply are cut off before they fill the memory.
#[test]
fn ranges_have_an_end() {
    let tags: Vec<String> = ('A'..='Z')
        .map(|letter| format!("\"{letter}1..{letter}20000\""))
        .collect();
    let text = format!(
        "[[cable]]\ntags = [{}]\ncores = \"2 x 1.5 mm2\"\n",
        tags.join(", ")
    );
    let findings = job::read(&job::completed(&text)).expect_err("too many");
    assert!(
        findings
            .render_plain()
            .contains("list-tag]: more than 20000 tags"),
        "{}",
        findings.render_plain()
    );
}
