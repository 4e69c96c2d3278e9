//! The proposed marking in words. Decides nothing.

use super::summary::{Fit, block, sentences};
use crate::arrangement::Arrangement;
use crate::letters::capital;
use crate::marking::{LabelKind, Marking};

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
    lines.push(format!("{}.", capital(marking.note)));
    lines
}

/// Every label; consecutive numbers of a strip's terminals stand in one row, as they are bought.
fn labels(out: &mut String, marking: &Marking) {
    let mut rows: Vec<Vec<String>> = Vec::new();
    // Strip, first and last number of the row that may still grow.
    let mut open: Option<(&str, &str, u32)> = None;
    for label in &marking.labels {
        let kind = label.kind.words().to_string();
        let number = match label.kind {
            LabelKind::TerminalNumber => label.text.parse::<u32>().ok(),
            _ => None,
        };
        let Some(number) = number else {
            open = None;
            rows.push(vec![kind, label.place.clone(), label.text.clone()]);
            continue;
        };
        let strip = label.place.split(':').next().unwrap_or_default();
        match (open, rows.last_mut()) {
            (Some((name, first, last)), Some(row)) if name == strip && last + 1 == number => {
                row[2] = format!("{first} to {number}");
                open = Some((name, first, number));
            }
            _ => {
                open = Some((strip, &label.text, number));
                rows.push(vec![kind, strip.to_string(), label.text.clone()]);
            }
        }
    }
    block(out, "Labels", &[Fit::Left; 3], rows);
}
