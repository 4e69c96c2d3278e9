//! The excluded candidates in words, grouped by the kind of reason.

use crate::model::Excluded;
use itertools::Itertools;
use std::collections::BTreeMap;
use std::io::{self, Write};

/// One line for each group: how many, and the one that came nearest, or one of those that fail alike.
pub fn print_groups(excluded: &[Excluded], out: &mut dyn Write) -> io::Result<()> {
    for (group, members) in groups(excluded) {
        writeln!(out, "  {:>3}  {group}", members.len())?;
        match (nearest(&members), most_common(&members)) {
            (Some(nearest), _) => wrapped(out, &format!("nearest: {}", line(nearest)), 7)?,
            (None, Some(common)) => wrapped(out, &format!("such as {}", line(common)), 7)?,
            (None, None) => {}
        }
    }
    Ok(())
}

/// Every candidate with its reason, by group; candidates with the same reason share a line.
pub fn print_all(excluded: &[Excluded], out: &mut dyn Write) -> io::Result<()> {
    for (group, members) in groups(excluded) {
        let word = if members.len() == 1 {
            "candidate"
        } else {
            "candidates"
        };
        writeln!(out, "  {group} ({} {word})", members.len())?;
        let mut by_reason: Vec<(String, Vec<&Excluded>)> = Vec::new();
        for member in members {
            let reason = member.reason.to_string();
            match by_reason.iter_mut().find(|(known, _)| *known == reason) {
                Some((_, same)) => same.push(member),
                None => by_reason.push((reason, vec![member])),
            }
        }
        for (reason, same) in by_reason {
            wrapped(out, &format!("{}: {reason}", names(&same)), 4)?;
        }
    }
    Ok(())
}

/// Groups in the order in which their first member stands.
fn groups(excluded: &[Excluded]) -> Vec<(&'static str, Vec<&Excluded>)> {
    let mut groups: Vec<(&'static str, Vec<&Excluded>)> = Vec::new();
    for candidate in excluded {
        let group = candidate.reason.kind();
        match groups.iter_mut().find(|(known, _)| *known == group) {
            Some((_, members)) => members.push(candidate),
            None => groups.push((group, vec![candidate])),
        }
    }
    groups
}

/// The first candidate with the reason that most of them have.
fn most_common<'a>(members: &[&'a Excluded]) -> Option<&'a Excluded> {
    let reasons = members.iter().counts_by(|member| member.reason.to_string());
    members
        .iter()
        .copied()
        .rev()
        .max_by_key(|member| reasons[&member.reason.to_string()])
}

/// The candidate whose figures come nearest; none where there are no figures.
fn nearest<'a>(members: &[&'a Excluded]) -> Option<&'a Excluded> {
    members
        .iter()
        .copied()
        .min_by(|a, b| a.reason.distance().total_cmp(&b.reason.distance()))
        .filter(|candidate| candidate.reason.distance().is_finite())
}

fn line(candidate: &Excluded) -> String {
    format!(
        "{} {}: {}",
        candidate.enclosure,
        candidate.orientation.words(),
        candidate.reason
    )
}

/// Enclosures with their orientations; an enclosure with both is named once.
fn names(candidates: &[&Excluded]) -> String {
    let mut orientations: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for candidate in candidates {
        orientations
            .entry(&candidate.enclosure)
            .or_default()
            .push(candidate.orientation.words());
    }
    candidates
        .iter()
        .map(|candidate| candidate.enclosure.as_str())
        .unique()
        .map(|enclosure| match orientations[enclosure].as_slice() {
            [one] => format!("{enclosure} {one}"),
            _ => enclosure.to_string(),
        })
        .join(", ")
}

/// Prints a paragraph with a hanging indent, at most 100 characters wide.
pub fn wrapped(out: &mut dyn Write, text: &str, indent: usize) -> io::Result<()> {
    let mut line = " ".repeat(indent);
    let mut empty = true;
    for word in text.split_whitespace() {
        if !empty && line.chars().count() + 1 + word.chars().count() > WIDTH {
            writeln!(out, "{line}")?;
            line = " ".repeat(indent + 2);
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    writeln!(out, "{line}")
}

/// Widest line, in characters.
const WIDTH: usize = 100;
