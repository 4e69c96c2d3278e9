//! The answer to a list as text.

use super::proof::{print_all, print_groups, wrapped};
use crate::arrangement::{CAUTION, CandidateName, EntryPlacing};
use crate::audit::{AuditReport, RuleResult, Verdict};
use crate::explain::{Impossible, report};
use crate::heat;
use crate::marking::marking_with;
use crate::model::{self, Excluded};
use crate::propose::Proposal;
use crate::requirements::RequirementList;
use crate::sheets::{self, number};
use std::io::{self, Write};

/// Prints a proposal: what is where, each margin, the proof, the cautions.
pub fn print_found(proposal: &Proposal, proof: bool, out: &mut dyn Write) -> io::Result<()> {
    let arrangement = &proposal.arrangement;
    writeln!(out, "{}", sheets::summary_body(arrangement).trim_end())?;
    let heat = heat::assess(arrangement);
    let marking = marking_with(arrangement, &heat);
    write!(out, "{}", sheets::heat_estimated(&heat))?;
    write!(out, "{}", sheets::marking_proposed(&marking))?;
    writeln!(out)?;
    print_margins(&proposal.audit, out)?;
    writeln!(out)?;
    print_proof(proposal, out)?;
    if proof {
        print_all(&proposal.excluded, out)?;
    } else {
        print_groups(&proposal.excluded, out)?;
        if !proposal.excluded.is_empty() {
            writeln!(out, "  --proof names every one of them with its reason.")?;
        }
    }
    writeln!(
        out,
        "{}",
        sheets::cautions_with_heat(arrangement, &heat, &proposal.audit).trim_end()
    )
}

/// What is proved about the size, and what is not.
fn print_proof(proposal: &Proposal, out: &mut dyn Write) -> io::Result<()> {
    let arrangement = &proposal.arrangement;
    let chosen = format!(
        "{} {}",
        arrangement.enclosure.id,
        arrangement.enclosure.orientation.words()
    );
    let smaller = proposal.excluded.len();
    let of = proposal.candidates;
    let claim = match &arrangement.proof {
        _ if !proposal.proven => format!(
            "Not proven: {chosen} holds, but some of the {smaller} candidates before it were not decided \
             within the time limit."
        ),
        Some(proof) if proof.is_smallest_however_placed() => {
            format!(
                "Proof: {chosen} is the smallest of {of} candidates, with entries in rows or placed freely; \
                 {smaller} before it were excluded."
            )
        }
        Some(proof) if !proof.proven_in_rows => format!(
            "Not proven: {chosen} holds with entries placed freely; {smaller} of {of} candidates come before \
             it."
        ),
        Some(proof) if proof.entries == EntryPlacing::Free => format!(
            "{chosen} takes the list with entries placed freely. Of {of} candidates {smaller} are smaller, and \
             none of them takes it with entries in rows (proved)."
        ),
        _ => format!(
            "Proof: {chosen} is the smallest of {of} candidates with entries in rows; {smaller} before it \
             were excluded."
        ),
    };
    wrapped(out, &claim, 0)?;
    say_open(
        "these smaller ones",
        &model::open_freely(&proposal.excluded),
        out,
    )
}

/// Most candidates that are named as open.
const MOST_NAMED: usize = 6;

/// Says which candidates remain open for entries in no rows.
fn say_open(which: &str, open: &[CandidateName], out: &mut dyn Write) -> io::Result<()> {
    if open.is_empty() {
        return Ok(());
    }
    let mut names: Vec<String> = open
        .iter()
        .take(MOST_NAMED)
        .map(|name| format!("{} {}", name.enclosure, name.orientation.words()))
        .collect();
    if open.len() > MOST_NAMED {
        names.push(format!("{} more", open.len() - MOST_NAMED));
    }
    let text = format!(
        "Open for entries placed freely are {which} (tried, not found, not disproved): {}.",
        names.join(", ")
    );
    wrapped(out, &text, 0)
}

/// Each rule of figures with its margin; the others are counted.
fn print_margins(audit: &AuditReport, out: &mut dyn Write) -> io::Result<()> {
    writeln!(
        out,
        "Margins (tightest case of each rule, measured anew by the audit; ≥ at least, ≤ at most)"
    )?;
    writeln!(
        out,
        "  {:<52} {:>10} {:>10} {:>10}",
        "", "required", "measured", "margin"
    )?;
    let mut without = 0;
    let informs = |rule: &&RuleResult| rule.verdict == Verdict::Informs;
    for rule in audit.rules.iter().filter(|rule| !informs(rule)) {
        // A rule that compares the file with itself has no margin of interest to an engineer.
        if rule.is_agreement() {
            without += 1;
            continue;
        }
        let (Some(required), Some(measured), Some(margin)) =
            (rule.required, rule.measured, rule.margin)
        else {
            without += 1;
            continue;
        };
        writeln!(
            out,
            "  {:<52} {:>10} {:>10} {:>10} {}",
            shortened(rule.title, 52),
            format!("{} {}", rule.relation(), figure(required)),
            figure(measured),
            figure(margin),
            rule.unit
        )?;
    }
    writeln!(out, "  {without} further rules hold.")?;
    let informing: Vec<&RuleResult> = audit.informing().collect();
    if !informing.is_empty() {
        writeln!(out)?;
        writeln!(out, "For information (permits nothing)")?;
    }
    for rule in informing {
        wrapped(out, &rule.text, 2)?;
    }
    Ok(())
}

/// Two decimals, of what is below one three: 0.015 A is not 0.01 A.
fn figure(value: f64) -> String {
    number(value, if value.abs() < 1.0 { 3 } else { 2 })
}

fn shortened(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_string();
    }
    text.chars().take(most - 1).chain(['…']).collect()
}

/// Prints why nothing holds: every candidate with its first reason, grouped.
pub fn print_impossible(
    list: &RequirementList,
    excluded: &[Excluded],
    proven: bool,
    why: &Impossible,
    proof: bool,
    out: &mut dyn Write,
) -> io::Result<()> {
    let title = [list.job.tag.as_str(), list.job.title.as_str()].join("  ");
    writeln!(out, "{}", title.trim())?;
    let count = excluded.len();
    let open = model::open_freely(excluded);
    let claim = match (proven, open.is_empty()) {
        _ if excluded.is_empty() => "Cannot be made: the catalogue has no enclosure.".to_string(),
        (true, true) => format!("Cannot be made: each of the {count} candidates is excluded."),
        (true, false) => format!(
            "Not found: each of the {count} candidates is excluded with entries in rows, and in none were \
             they placed freely."
        ),
        (false, _) => {
            "Not found, and not proven impossible: some candidates were not decided within \
                       the time limit."
                .to_string()
        }
    };
    wrapped(out, &claim, 0)?;
    say_open("these candidates", &open, out)?;
    write!(out, "{}", report::short(list, why))?;
    writeln!(out, "`glandrail explain` tells the whole.")?;
    writeln!(out)?;
    writeln!(out, "The first reason against each candidate")?;
    if proof {
        print_all(excluded, out)?;
    } else {
        print_groups(excluded, out)?;
        writeln!(out, "  --proof names every one of them with its reason.")?;
    }
    writeln!(out)?;
    writeln!(out, "{CAUTION}")
}

/// Why nothing is proposed where no part serves some entry of the list.
pub fn print_no_part(
    list: &RequirementList,
    why: &Impossible,
    out: &mut dyn Write,
) -> io::Result<()> {
    let title = [list.job.tag.as_str(), list.job.title.as_str()].join("  ");
    writeln!(out, "{}", title.trim())?;
    let claim = "Cannot be made: no part of the catalogue serves some entries of the list.";
    wrapped(out, claim, 0)?;
    write!(out, "{}", report::short(list, why))?;
    writeln!(out, "`glandrail explain` tells the whole.")?;
    writeln!(out)?;
    writeln!(out, "{CAUTION}")
}
