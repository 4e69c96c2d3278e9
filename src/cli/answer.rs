//! The answer to a list as text.

use super::proof::{print_all, print_groups, wrapped};
use crate::arrangement::CAUTION;
use crate::audit::{AuditReport, RuleResult, Verdict};
use crate::explain::{Impossible, report};
use crate::heat;
use crate::marking::marking_with;
use crate::model::Excluded;
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
    let chosen = format!(
        "{} {}",
        arrangement.enclosure.id,
        arrangement.enclosure.orientation.words()
    );
    let smaller = proposal.excluded.len();
    let claim = if proposal.proven {
        format!(
            "Proof: {chosen} is the smallest of {} candidates; {smaller} before it were excluded.",
            proposal.candidates
        )
    } else {
        format!(
            "Not proven: {chosen} holds, but some of the {smaller} candidates before it were not decided \
             within the time limit."
        )
    };
    wrapped(out, &claim, 0)?;
    say_open(&proposal.excluded, out)?;
    if proof {
        print_all(&proposal.excluded, out)?;
    } else {
        print_groups(&proposal.excluded, out)?;
        if smaller > 0 {
            writeln!(out, "  --proof names every one of them with its reason.")?;
        }
    }
    writeln!(out, "{}", sheets::cautions(arrangement).trim_end())
}

/// How many candidates are disproved for entries in rows but neither placed nor disproved without.
pub fn open_freely(excluded: &[Excluded]) -> usize {
    excluded
        .iter()
        .filter(|candidate| candidate.reason.is_open_freely())
        .count()
}

/// Says what the claim leaves open about placing entries without rows.
fn say_open(excluded: &[Excluded], out: &mut dyn Write) -> io::Result<()> {
    let open = open_freely(excluded);
    if open == 0 {
        return Ok(());
    }
    let text = format!(
        "Not proven without rows: in {open} of those excluded the entries find no room in rows, and \
         free placement was tried and found none; that no free placement exists is not proved."
    );
    wrapped(out, &text, 0)
}

/// Each rule of figures with its margin; the others are counted.
fn print_margins(audit: &AuditReport, out: &mut dyn Write) -> io::Result<()> {
    writeln!(
        out,
        "Margins (tightest case of each rule, measured anew by the audit)"
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
        let agreement = rule.required == Some(0.0) && rule.margin == Some(0.0);
        if agreement || AGREEMENTS.iter().any(|start| rule.id.starts_with(start)) {
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
            number(required, 2),
            number(measured, 2),
            number(margin, 2),
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
        writeln!(out, "  {}", rule.text)?;
    }
    Ok(())
}

/// Rules that compare the arrangement with itself: they are counted, not listed.
const AGREEMENTS: [&str; 7] = [
    "record.",
    "electrical.wire_current",
    "heat.length",
    "heat.currents",
    "heat.sum",
    "heat.lines",
    "entries.envelope",
];

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
    out: &mut dyn Write,
) -> io::Result<()> {
    let title = [list.job.tag.as_str(), list.job.title.as_str()].join("  ");
    writeln!(out, "{}", title.trim())?;
    let claim = match (excluded.is_empty(), proven) {
        (true, _) => "Cannot be made: the catalogue has no enclosure.".to_string(),
        (false, true) => format!(
            "Cannot be made: each of the {} candidates is excluded.",
            excluded.len()
        ),
        (false, false) => {
            "Not found, and not proven impossible: some candidates were not decided within \
                           the time limit."
                .to_string()
        }
    };
    wrapped(out, &claim, 0)?;
    say_open(excluded, out)?;
    write!(out, "{}", report::short(list, why))?;
    writeln!(out, "`glandrail explain` tells the whole.")?;
    writeln!(out)?;
    writeln!(out, "Nearest")?;
    print_groups(excluded, out)?;
    writeln!(out)?;
    writeln!(out, "The first reason against each candidate")?;
    print_all(excluded, out)?;
    writeln!(out)?;
    writeln!(out, "{CAUTION}")
}
