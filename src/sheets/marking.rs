//! The proposed marking in words. Decides nothing.

use super::summary::{Fit, block, sentences};
use crate::arrangement::Arrangement;
use crate::letters::capital;
use crate::marking::{Label, LabelKind, Marking};

/// The marking, short: strings, what is missing, warnings.
pub fn marking_proposed(marking: &Marking) -> String {
    let mut lines = strings(marking);
    lines.extend(
        marking
            .warnings
            .iter()
            .map(|notice| format!("{} ({})", notice.text, notice.reason)),
    );
    let mut out = String::new();
    sentences(&mut out, "Marking, proposed", &lines);
    out
}

/// The marking with everything that is to be written on the box, as a page of its own.
pub fn marking_page(arrangement: &Arrangement, marking: &Marking) -> String {
    let title = [arrangement.job.tag.as_str(), arrangement.job.title.as_str()].join("  ");
    let mut out = format!("{}\n", title.trim());
    sentences(&mut out, "Marking, proposed", &strings(marking));
    sentences(
        &mut out,
        "Rests on the certificates",
        &[marking.certificates.join(", ")],
    );
    let warnings: Vec<String> = marking
        .warnings
        .iter()
        .map(|notice| format!("{} ({}; {})", notice.text, notice.reason, notice.source))
        .collect();
    sentences(&mut out, "Warnings and notes", &warnings);
    let symbols = marking
        .earth_symbols
        .iter()
        .map(|symbol| vec![symbol.place.clone(), symbol.marks.clone()])
        .collect();
    block(&mut out, "Earth symbols", &[Fit::Left; 2], symbols);
    labels(&mut out, marking);
    let sources: Vec<String> = marking
        .sources
        .iter()
        .map(|source| source.to_string())
        .collect();
    sentences(&mut out, "Sources", &sources);
    out.push_str(&super::cautions(arrangement));
    out
}

fn strings(marking: &Marking) -> Vec<String> {
    let mut lines = marking.lines();
    lines.extend(
        marking
            .not_determined()
            .into_iter()
            .map(|(what, reason)| format!("{what}: no proposal, not determined: {reason}")),
    );
    let reserved = marking.reservations.iter();
    lines.extend(reserved.map(|text| format!("With a reservation: {text}")));
    lines.push(format!("{}.", capital(marking.note)));
    lines
}

/// Widest row of markings that stand together, in characters.
const MARKINGS_WIDTH: usize = 60;

/// Every label, with its colour where one is given. Consecutive numbers of a strip's terminals stand in one row, as
/// they are bought, and so do their markings.
fn labels(out: &mut String, marking: &Marking) {
    let mut rows: Vec<Vec<String>> = Vec::new();
    let mut last: Option<&Label> = None;
    for label in &marking.labels {
        let is_next = last.is_some_and(|last| follows(last, label));
        match rows.last_mut() {
            Some(row) if is_next && label.kind == LabelKind::TerminalNumber => {
                let first = row[2].split(' ').next().unwrap_or_default();
                row[2] = format!("{first} to {}", label.text);
            }
            Some(row) if is_next && row[2].chars().count() < MARKINGS_WIDTH => {
                row[2] = format!("{}, {}", row[2], label.text);
            }
            _ => rows.push(vec![
                label.kind.words().to_string(),
                place_of(label).to_string(),
                match &label.colour {
                    Some(colour) => format!("{} ({colour})", label.text),
                    None => label.text.clone(),
                },
            ]),
        }
        last = Some(label);
    }
    block(
        out,
        "Labels (colour where one is given)",
        &[Fit::Left; 4],
        rows,
    );
}

/// Where a label goes, as it is bought: of terminals the strip.
fn place_of(label: &Label) -> &str {
    match label.kind {
        // Which terminal an earth symbol marks stands in its own block.
        LabelKind::TerminalNumber | LabelKind::TerminalMarking | LabelKind::EarthSymbol => {
            label.place.split(':').next().unwrap_or_default()
        }
        _ => &label.place,
    }
}

/// Whether a label of a terminal stands in the row of the one before.
fn follows(last: &Label, label: &Label) -> bool {
    let number = |label: &Label| label.text.parse::<u32>().ok();
    let is_next = match label.kind {
        LabelKind::TerminalNumber => {
            number(last).and_then(|number| number.checked_add(1)) == number(label)
        }
        LabelKind::TerminalMarking => true,
        _ => false,
    };
    is_next && last.kind == label.kind && place_of(last) == place_of(label)
}
