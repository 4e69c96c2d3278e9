//! The record of an audit as text. Judges nothing.

use super::Compared;
use crate::arrangement::Arrangement;
use crate::audit::{AuditReport, RuleResult, Verdict};
use crate::letters::capital;
use crate::number::short;
use crate::standards::Status;
use std::io::{self, Write};

/// A figure of the table: at most three decimals.
fn figure(value: Option<f64>) -> String {
    let Some(value) = value else {
        return "-".to_string();
    };
    if value.is_finite() {
        short(value, 3)
    } else {
        "-".to_string()
    }
}

/// The required figure, as a least or a greatest one.
fn required(rule: &RuleResult) -> String {
    match rule.required {
        Some(_) => format!("{} {}", rule.relation(), figure(rule.required)),
        None => figure(None),
    }
}

/// Prints the record: what fails with its cases, the table of all rules, what is not certain, the sources.
pub(super) fn print(
    report: &AuditReport,
    arrangement: &Arrangement,
    compared: &Compared<'_>,
    out: &mut dyn Write,
) -> io::Result<()> {
    let failing: Vec<&RuleResult> = report.failing().collect();
    let informing = match report.informing().count() {
        0 => String::new(),
        1 => ", 1 informs and permits nothing".to_string(),
        count => format!(", {count} inform and permit nothing"),
    };
    let result = match failing.len() {
        0 => "holds".to_string(),
        1 => "does not hold: 1 rule fails".to_string(),
        count => format!("does not hold: {count} rules fail"),
    };
    writeln!(
        out,
        "Audit of {} in {}: {result}",
        report.tag, report.enclosure
    )?;
    let idle = match report.idle_count() {
        0 => String::new(),
        1 => ", 1 does not apply".to_string(),
        count => format!(", {count} do not apply"),
    };
    writeln!(
        out,
        "{} rules measured{informing}{idle}",
        report.rules.len()
    )?;
    match compared {
        Compared::Given(_) => writeln!(out, "{}", capital(&report.comparison))?,
        Compared::Embedded(_) => writeln!(
            out,
            "Figures of the parts compared with the embedded catalogue, which the arrangement names"
        )?,
        Compared::Nothing => writeln!(
            out,
            "{}; --catalogue gives one",
            capital(&report.comparison)
        )?,
    }
    if !failing.is_empty() {
        writeln!(out)?;
    }
    for rule in &failing {
        let word = if rule.verdict == Verdict::Fails {
            "FAILS"
        } else {
            "NOT DETERMINED"
        };
        writeln!(out, "{word} {}: {}", rule.id, rule.title)?;
        writeln!(out, "    {}", rule.text)?;
        for case in &rule.further {
            writeln!(out, "    {}", case.text)?;
        }
        let listed = 1 + rule.further.len() as u64;
        if rule.failures > listed {
            writeln!(out, "    and {} more", rule.failures - listed)?;
        }
        writeln!(out, "    {} ({})", rule.clause, rule.status)?;
    }
    let mut rows = failing;
    rows.extend(report.informing());
    rows.extend(
        report
            .rules
            .iter()
            .filter(|rule| rule.verdict == Verdict::Holds),
    );
    let width = rows.iter().map(|rule| rule.id.len()).max().unwrap_or(0);
    writeln!(out)?;
    let head = format!(
        "{:width$}  {:<14} {:>10} {:>10} {:>10}",
        "rule", "verdict", "required", "measured", "margin"
    );
    writeln!(out, "{head} unit         tightest case")?;
    for rule in rows {
        let subject = if rule.subject.is_empty() {
            "-".to_string()
        } else {
            rule.subject.join(", ")
        };
        let unit = if rule.unit.is_empty() { "-" } else { rule.unit };
        writeln!(
            out,
            "{:width$}  {:<14} {:>10} {:>10} {:>10} {unit:<12} {subject}",
            rule.id,
            rule.verdict_words(),
            required(rule),
            figure(rule.measured),
            figure(rule.margin),
        )?;
    }
    writeln!(out)?;
    uncertain(report, arrangement, out)?;
    sources(report, out)?;
    writeln!(out)?;
    writeln!(out, "{}", report.caution)
}

/// What informs, in words, and what the file says was estimated.
fn uncertain(
    report: &AuditReport,
    arrangement: &Arrangement,
    out: &mut dyn Write,
) -> io::Result<()> {
    writeln!(out, "What is not certain")?;
    if !report.compared_with_catalogue {
        writeln!(
            out,
            "  all figures of the parts: compared with no catalogue"
        )?;
    }
    for rule in report.informing() {
        writeln!(out, "  {}: {}", rule.id, rule.text)?;
    }
    for estimate in &arrangement.estimates {
        writeln!(out, "  estimated: {estimate}")?;
    }
    let from_memory = report.rules.iter();
    let from_memory = from_memory.filter(|rule| rule.status == Status::FromMemory);
    writeln!(
        out,
        "  {} of {} rules have figures or clauses from memory, see below",
        from_memory.count(),
        report.rules.len()
    )
}

/// Clause and status of every rule, the rules of one source together, in the order of the record.
fn sources(report: &AuditReport, out: &mut dyn Write) -> io::Result<()> {
    let mut of_source: Vec<(String, Vec<&str>)> = Vec::new();
    for rule in &report.rules {
        let source = format!("{} ({})", rule.clause, rule.status);
        match of_source.iter_mut().find(|(known, _)| *known == source) {
            Some((_, rules)) => rules.push(rule.id),
            None => of_source.push((source, vec![rule.id])),
        }
    }
    writeln!(out)?;
    writeln!(out, "Sources of the rules")?;
    for (source, rules) in of_source {
        writeln!(out, "  {source}: {}", rules.join(", "))?;
    }
    Ok(())
}
