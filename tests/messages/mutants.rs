//! The examples, spoilt in thousands of ways that do not hang on chance: whatever comes of it, there
//! is an answer or a finding with a place, never a panic and never a fault of the program.

use crate::faults::is_known;
use crate::job;
use glandrail::catalogue::Catalogue;
use glandrail::propose::{Answer, ProposeError};
use glandrail::requirements::RequirementList;
use glandrail::source::Findings;
use std::panic::catch_unwind;

/// Spoilt texts of each example that are read.
const READ_OF_EACH: u64 = 900;
/// Those of them that can be read and are answered.
const ANSWERED_OF_EACH: usize = 150;

/// A generator that gives the same numbers on every machine (splitmix64).
struct Numbers(u64);

impl Numbers {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    fn below(&mut self, end: usize) -> usize {
        (self.next() % end.max(1) as u64) as usize
    }
}

/// Values that writers of lists do write.
const ODD_VALUES: [&str; 24] = [
    "0",
    "-1",
    "1",
    "2",
    "3",
    "1e300",
    "nan",
    "-inf",
    "0.0001",
    "400",
    "99999999",
    "\"\"",
    "\" \"",
    "\"W1..W9\"",
    "\"W1/1\"",
    "\"ä\"",
    "[]",
    "true",
    "{}",
    "[0, 0]",
    "\"2 x AWG 14\"",
    "\"bottom\"",
    "\"3 G 300 mm2\"",
    "\"intrinsically_safe\"",
];

/// Spoils a text in one to four ways.
fn spoilt(text: &str, seed: u64) -> String {
    let mut numbers = Numbers(seed);
    let mut lines: Vec<String> = text.lines().map(str::to_string).collect();
    for _ in 0..=numbers.below(4) {
        let at = numbers.below(lines.len());
        let other = numbers.below(lines.len());
        let with_value = |line: &String| line.contains(" = ");
        match numbers.below(9) {
            0 => drop(lines.remove(at)),
            1 => {
                let line = lines[other].clone();
                lines.insert(at, line);
            }
            2 => lines.swap(at, other),
            3 => lines.truncate(at.max(1)),
            // A value of another line under this line's key.
            4 if with_value(&lines[at]) && with_value(&lines[other]) => {
                let key = lines[at].split(" = ").next().unwrap_or_default();
                let value = lines[other].split_once(" = ").unwrap_or_default().1;
                lines[at] = format!("{key} = {value}");
            }
            5 if with_value(&lines[at]) => {
                let key = lines[at].split(" = ").next().unwrap_or_default();
                lines[at] = format!("{key} = {}", ODD_VALUES[numbers.below(ODD_VALUES.len())]);
            }
            // One letter less, or one digit changed.
            6 => {
                let mut letters: Vec<char> = lines[at].chars().collect();
                if !letters.is_empty() {
                    letters.remove(numbers.below(letters.len()));
                }
                lines[at] = letters.into_iter().collect();
            }
            _ => {
                let digit = char::from(b'0' + numbers.below(10) as u8);
                let line = &lines[at];
                if let Some(place) = line.find(|letter: char| letter.is_ascii_digit()) {
                    lines[at] = format!("{}{digit}{}", &line[..place], &line[place + 1..]);
                }
            }
        }
        if lines.is_empty() {
            break;
        }
    }
    lines.join("\n") + "\n"
}

fn examples() -> Vec<(String, String)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/examples");
    let mut examples: Vec<(String, String)> = std::fs::read_dir(folder)
        .expect("the folder")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "toml"))
        .map(|path| {
            let text = std::fs::read_to_string(&path).expect("text");
            (path.display().to_string(), text)
        })
        .collect();
    examples.sort();
    assert!(examples.len() >= 6);
    examples
}

/// Reads a text; a panic is told with the text.
fn read(text: &str) -> Result<RequirementList, Findings> {
    catch_unwind(|| job::read(text)).unwrap_or_else(|_| panic!("a panic in reading:\n{text}"))
}

#[test]
fn spoilt_examples_are_read_or_told_with_a_place() {
    let (mut sound, mut wrong) = (0, 0);
    for (name, text) in examples() {
        for seed in 0..READ_OF_EACH {
            let text = spoilt(&text, seed);
            match read(&text) {
                Ok(list) => {
                    sound += 1;
                    assert!(
                        !list.cables.is_empty() || !list.elements.is_empty(),
                        "{name} {seed}"
                    );
                }
                Err(findings) => {
                    wrong += 1;
                    assert!(findings.has_errors(), "{name} {seed}: no finding");
                    for finding in &findings {
                        assert!(finding.line_column().is_some(), "{name} {seed}: no place");
                        assert!(!finding.message.is_empty(), "{name} {seed}: no words");
                    }
                }
            }
        }
    }
    assert!(sound > 800 && wrong > 2_000, "{sound} sound, {wrong} wrong");
}

/// A catalogue with few enclosures, so that each list is answered soon.
fn few_enclosures() -> Catalogue {
    let mut catalogue = Catalogue::demo().clone();
    let mut number = 0;
    catalogue.enclosure.retain(|_| {
        number += 1;
        number % 6 == 0
    });
    catalogue
}

#[test]
fn spoilt_examples_are_answered_without_a_fault() {
    let catalogue = few_enclosures();
    let (mut found, mut impossible, mut input, mut known) = (0, 0, 0, 0);
    let mut faults: Vec<(String, String)> = Vec::new();
    for (_, text) in examples() {
        let readable = (0..).map(|seed| spoilt(&text, seed)).filter_map(|text| {
            let list = read(&text).ok()?;
            Some((text, list))
        });
        for (text, list) in readable.take(ANSWERED_OF_EACH) {
            let answer = catch_unwind(|| job::answer(&list, &catalogue));
            match answer {
                Ok(Ok(Answer::Found(_))) => found += 1,
                Ok(Ok(Answer::Impossible { .. })) => impossible += 1,
                Ok(Err(ProposeError::Input(findings) | ProposeError::NoPart(findings))) => {
                    assert!(findings.has_errors());
                    input += 1;
                }
                Ok(Err(ProposeError::Fault(fault))) if is_known(&fault) => known += 1,
                Ok(Err(ProposeError::Fault(fault))) => faults.push((text, fault)),
                Err(_) => faults.push((text, "a panic".to_string())),
            }
        }
    }
    // The shortest list for each kind of fault, so that the report is enough to mend them.
    let kind = |fault: &str| fault.replace(|letter: char| letter.is_ascii_digit(), "");
    faults.sort_by_key(|(text, fault)| (kind(fault), text.len()));
    faults.dedup_by_key(|(_, fault)| kind(fault));
    let report: Vec<String> = faults
        .iter()
        .map(|(text, fault)| format!("--- {fault}\n{text}"))
        .collect();
    println!("{known} with a known fault");
    assert!(report.is_empty(), "{}", report.join("\n"));
    assert!(
        found > 200 && impossible > 30 && input > 30 && known < 10,
        "{found} found, {impossible} impossible, {input} input, {known} known"
    );
}
