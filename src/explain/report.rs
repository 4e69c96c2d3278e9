//! An explanation as text: what conflicts, why, and the ways out. Decides nothing.

use super::facts::{Because, Conflict, Explanation, Group, Impossible, Named, Way};
use super::in_vain::{freely, two_boxes};
use super::report_holds::takes;
use super::report_possible::possible;
use super::sentence::{WIDTH, paragraph, uncapital};
use crate::letters::{capital, plural};
use crate::requirements::RequirementList;
use crate::sheets::number;
use std::fmt::Write as _;

/// The whole explanation.
pub fn text(list: &RequirementList, explanation: &Explanation) -> String {
    let mut out = heading(list);
    match explanation {
        Explanation::Impossible(facts) => impossible(&mut out, list, facts),
        Explanation::Possible(facts) => possible(&mut out, list, facts),
    }
    out
}

/// The short form: the deciding fact, the requirements that it comes from, and the cheapest ways out.
pub fn short(list: &RequirementList, facts: &Impossible) -> String {
    const WAYS: usize = 3;
    let mut out = String::new();
    if let Some(first) = facts.conflicts.first() {
        let members = first.members.iter().map(|member| {
            let words = &member.words;
            let fixed = if member.fixed && !member.id.starts_with("rule ") {
                " (fixed)"
            } else {
                ""
            };
            match member.line {
                Some(line) => format!("{words}, line {line}{fixed}"),
                None if member.id.starts_with("rule ") => words.clone(),
                None if member.id.ends_with(" diameter_mm") => {
                    format!("{words} (estimated){fixed}")
                }
                None => format!("{words} (usual){fixed}"),
            }
        });
        let members: Vec<String> = members.collect();
        let lead = match members.len() {
            0 => return out,
            1 => "What cannot be met: ",
            _ => "What cannot be met together: ",
        };
        paragraph(&mut out, &format!("{lead}{}.", members.join("; ")), 0);
        let because = deciding(&first.because);
        let said = match &first.because {
            Because::Parts(_) => because,
            // The figures are those of this set, not of the whole list.
            Because::Candidates(_) => {
                format!("With nothing else asked for, {}", uncapital(&because))
            }
        };
        paragraph(&mut out, &said, 0);
        let further = facts.conflicts.len() - 1;
        let least = if facts.all_conflicts { "" } else { "at least " };
        if further > 0 {
            let (are, conflicts) = (
                plural(further, "is", "are"),
                plural(further, "conflict", "conflicts"),
            );
            let said = format!(
                "There {are} {least}{further} further {conflicts}; a way out resolves all of them."
            );
            paragraph(&mut out, &said, 0);
        }
    }
    for (number, way) in facts.ways.iter().take(WAYS).enumerate() {
        let lead = if number == 0 { "Way out:" } else { "Or:" };
        paragraph(
            &mut out,
            &format!("{lead} {}; then {}.", changes(way), takes(list, way)),
            0,
        );
    }
    if facts.ways.is_empty() {
        paragraph(
            &mut out,
            "No way out was found among the changes that are looked for and that the list leaves open.",
            0,
        );
    }
    out
}

/// What decides a whole list, where the figures are those of the first conflict by itself.
fn headline(first: &Conflict, conflicts: usize) -> String {
    let because = deciding(&first.because);
    let which = match (&first.because, conflicts, first.members.len()) {
        (Because::Parts(_), ..) | (_, _, 0) => return because,
        (_, 1, 1) => "the requirement below",
        (_, 1, _) => "the requirements below",
        (_, _, 1) => "the one under 1",
        _ => "those under 1",
    };
    format!("With only {which} asked for, {}", uncapital(&because))
}

fn changes(way: &Way) -> String {
    let words: Vec<&str> = way
        .changes
        .iter()
        .map(|change| change.words.as_str())
        .collect();
    words.join(", and ")
}

fn heading(list: &RequirementList) -> String {
    let title = [list.job.tag.as_str(), list.job.title.as_str()].join("  ");
    format!("{}\n", title.trim())
}

pub(super) fn impossible(out: &mut String, list: &RequirementList, facts: &Impossible) {
    let claim = match (&facts.enclosure, facts.undecided) {
        (Some(id), _) => format!("{id} does not take this list."),
        (None, false) => format!(
            "Cannot be made: none of the {} candidates of the catalogue takes this list.",
            facts.candidates
        ),
        (None, true) => format!(
            "Not found, and not proven impossible: of the {} candidates some were not decided within the \
             time limit; they count below as not taking the list. A longer --decision-limit may decide them.",
            facts.candidates
        ),
    };
    paragraph(out, &claim, 0);
    if !facts.without_part.is_empty() {
        let _ = writeln!(
            out,
            "No part of the catalogue serves these entries of the list:"
        );
        for sentence in &facts.without_part {
            paragraph(out, &format!("{}.", capital(sentence)), 2);
        }
    } else if facts.enclosure.is_none()
        && let Some(first) = facts.conflicts.first()
    {
        paragraph(out, &headline(first, facts.conflicts.len()), 0);
    }
    if let Some(tried) = &facts.freely {
        paragraph(out, &freely(tried, facts.enclosure.is_some()), 0);
    }
    let count = facts.conflicts.len();
    for (index, conflict) in facts.conflicts.iter().enumerate() {
        let number = if count > 1 {
            format!("{}  ", index + 1)
        } else {
            String::new()
        };
        let _ = writeln!(out);
        let lead = match conflict.members.as_slice() {
            [] => "The catalogue takes not even an empty list".to_string(),
            [_] => "This requirement cannot be met by itself".to_string(),
            members => format!(
                "These {} requirements cannot be met together",
                members.len()
            ),
        };
        let _ = writeln!(out, "{number}{lead}");
        for member in &conflict.members {
            member_line(out, member);
        }
        let earlier = &facts.conflicts[..index];
        match earlier
            .iter()
            .position(|earlier| earlier.because == conflict.because)
        {
            Some(earlier) => paragraph(out, &format!("Because: as under {}.", earlier + 1), 2),
            None => reasons(out, conflict, earlier, facts),
        }
    }
    if !facts.all_conflicts {
        let _ = writeln!(out);
        paragraph(
            out,
            "There may be further conflicts; --conflicts asks for more.",
            0,
        );
    }
    let _ = writeln!(out);
    for fault in &facts.faults {
        paragraph(
            out,
            &format!("A way out was left out, by an error of ours and not of your input: {fault}."),
            0,
        );
    }
    if facts.ways.is_empty() {
        let why = if facts.all_ways {
            "No way out: no change that is looked for, or that the list leaves open, is enough."
        } else {
            "No way out was found within the limits of the search."
        };
        paragraph(out, why, 0);
        two_boxes(out, facts);
        return;
    }
    let weighed = if facts.weighed {
        " (points, as the list weighs them)"
    } else {
        ""
    };
    paragraph(
        out,
        &format!("Ways out, each solved and audited again, the cheapest first{weighed}"),
        0,
    );
    for (index, way) in facts.ways.iter().enumerate() {
        let letter = (b'a' + (index % 26) as u8) as char;
        let points = match number(way.cost, 2) {
            one if one == "1" => "1 point".to_string(),
            more => format!("{more} points"),
        };
        paragraph(out, &format!("{letter}  {} ({points})", changes(way)), 2);
        paragraph(out, &format!("then {}", takes(list, way)), 5);
    }
    let further = if facts.cut_short {
        Some(
            "There may be further ways out, and cheaper mixtures of these: the list is so long that no more were looked for.",
        )
    } else if facts.all_ways {
        None
    } else {
        Some("There may be further ways out; --ways asks for more.")
    };
    if let Some(said) = further {
        paragraph(out, said, 2);
    }
    for said in hints(facts) {
        paragraph(out, said, 2);
    }
    if facts.enclosure.is_none() && facts.ways.iter().any(|way| way.second.is_some()) {
        paragraph(
            out,
            "Both boxes are audited; `glandrail propose --boxes 2` writes them and looks longer for a smaller pair.",
            2,
        );
    }
    if let Some(id) = &facts.enclosure {
        let said = format!(
            "These make {id} serve; after some of them a smaller enclosure may do, which `propose` tells."
        );
        paragraph(out, &said, 0);
    }
    two_boxes(out, facts);
}

/// What must be said beside some of the ways.
fn hints(facts: &Impossible) -> Vec<&'static str> {
    let mut changes = facts.ways.iter().flat_map(|way| &way.changes);
    let of_area = changes.any(|change| change.requirement.id.starts_with("area."));
    let second = |way: &Way| {
        let of = way.second.iter();
        of.flat_map(|second| second.holds.cautions.clone()).count()
    };
    let hot = |way: &Way| !way.holds.cautions.is_empty() || second(way) > 0;
    let mut said = Vec::new();
    if of_area {
        said.push(
            "Zone, group, class and ambient temperature are facts of the place: they change only with its \
             classification, not at a customer's wish. `fixed` keeps them.",
        );
    }
    if facts.ways.iter().any(hot) {
        said.push(
            "Where the estimate passes the class though the certificate permits the power, the rating stands; ask \
             the certificate holder before you offer it.",
        );
    }
    said
}

fn member_line(out: &mut String, member: &Named) {
    let fixed = if member.fixed { ", fixed" } else { "" };
    let place = match (member.line, &member.quote) {
        (Some(line), Some(quote)) => format!("line {line}: {quote}{fixed}"),
        _ if member.id.starts_with("rule ") => "rule of the standard".to_string(),
        _ if member.id.ends_with(" diameter_mm") => {
            format!("estimated from the cores, the list says nothing{fixed}")
        }
        _ => format!("usual where the list says nothing{fixed}"),
    };
    let words = &member.words;
    let _ = match words.chars().count() {
        short @ ..=46 if 4 + 48 + place.chars().count() <= WIDTH => {
            writeln!(out, "    {words}{}{place}", " ".repeat(48 - short))
        }
        _ => {
            paragraph(out, words, 4);
            paragraph(out, &place, 8);
            Ok(())
        }
    };
}

fn reasons(out: &mut String, conflict: &Conflict, earlier: &[Conflict], facts: &Impossible) {
    let one = facts.enclosure.is_some();
    match &conflict.because {
        // What stands above for the whole list is told once.
        Because::Parts(sentences) if sentences.iter().all(|of| facts.without_part.contains(of)) => {
            let which = if facts.without_part.len() > sentences.len() {
                let named: Vec<&str> = sentences.iter().map(|of| lead(of)).collect();
                format!("Because, as said above, {}.", named.join(", and "))
            } else {
                "Because of what is said above.".to_string()
            };
            paragraph(out, &which, 2);
        }
        Because::Parts(sentences) => {
            for sentence in sentences {
                paragraph(out, &format!("Because {sentence}."), 2);
            }
        }
        Because::Candidates(groups) if one => {
            for group in groups {
                let orientation = group.nearest.orientation.words();
                let other = if group.count > 1 {
                    " (the other orientation fails by the same kind of reason)"
                } else {
                    ""
                };
                let said = format!("Because, {orientation}: {}{other}.", group.nearest.reason);
                paragraph(out, &said, 2);
            }
        }
        Because::Candidates(groups) => {
            let _ = writeln!(out, "  Because every candidate is excluded:");
            for group in groups {
                // What excludes the same ones by the same figures is told once.
                let told = earlier.iter().position(|earlier| match &earlier.because {
                    Because::Candidates(told) => told.contains(group),
                    Because::Parts(_) => false,
                });
                match told {
                    Some(told) => {
                        let _ = writeln!(
                            out,
                            "    {:>3}  {}, as under {}",
                            group.count,
                            group.reason,
                            told + 1
                        );
                    }
                    None => {
                        let _ = writeln!(out, "    {:>3}  {}", group.count, group.reason);
                        paragraph(out, &nearest(group), 9);
                    }
                }
            }
        }
    }
}

/// A sentence without what follows its first semicolon.
fn lead(sentence: &str) -> &str {
    sentence.split_once(';').map_or(sentence, |(lead, _)| lead)
}

fn nearest(group: &Group) -> String {
    let lead = match (group.by_figure, group.count) {
        (_, 1) => "",
        (true, _) if group.serves_otherwise => "nearest of those that would do otherwise: ",
        (true, _) => "nearest: ",
        (false, _) => "such as ",
    };
    let candidate = &group.nearest;
    format!(
        "{lead}{} {}: {}",
        candidate.enclosure,
        candidate.orientation.words(),
        candidate.reason
    )
}

/// Of the reasons that come about as near as the nearest, the one that excludes most.
fn weightiest(groups: &[Group]) -> Option<&Group> {
    const ABOUT_AS_NEAR: f64 = 1.25;
    let first = groups.first()?;
    let near = |group: &&Group| match (group.ratio, first.ratio) {
        (Some(ratio), Some(nearest)) => ratio <= nearest * ABOUT_AS_NEAR,
        _ => first.ratio.is_none(),
    };
    // The first of equal ones: the groups come nearest first.
    groups
        .iter()
        .filter(near)
        .rev()
        .max_by_key(|group| group.count)
}

/// The fact that decides: of the weightiest reason, the candidate that comes nearest.
fn deciding(because: &Because) -> String {
    match because {
        Because::Parts(sentences) => {
            let each = sentences
                .iter()
                .map(|sentence| format!("{}.", capital(sentence)));
            each.collect::<Vec<_>>().join(" ")
        }
        Because::Candidates(groups) => match weightiest(groups) {
            Some(group) if group.by_figure => format!(
                "What comes nearest is {} {}{}: {}.",
                group.nearest.enclosure,
                group.nearest.orientation.words(),
                if group.serves_otherwise {
                    ", which would do but for its size"
                } else {
                    ""
                },
                group.nearest.reason
            ),
            Some(group) => format!(
                "None serves: {} {}, for one, fails because {}.",
                group.nearest.enclosure,
                group.nearest.orientation.words(),
                group.nearest.reason
            ),
            None => "The catalogue has no enclosure.".to_string(),
        },
    }
}
