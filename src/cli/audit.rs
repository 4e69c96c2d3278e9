//! `glandrail audit`: every rule measured again on an arrangement file. Holds no rules.

use super::{ExitStatus, Failure};
use crate::arrangement::{Arrangement, FORMAT};
use crate::audit::{AuditReport, RuleResult, Verdict, audit};
use crate::catalogue::Catalogue;
use crate::source::{Finding, Findings, SourceFile};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Measure every rule again on an arrangement.
#[derive(Debug, Clone, clap::Args)]
pub struct AuditArgs {
    /// The arrangement as JSON, such as `propose --format json` prints it.
    #[arg(value_name = "ARRANGEMENT.json")]
    pub arrangement: PathBuf,
    /// Compare the copied figures with this catalogue too: a TOML file or a folder of them.
    #[arg(long, value_name = "FILE_OR_DIR")]
    pub catalogue: Option<PathBuf>,
    /// Form of the record.
    #[arg(long, value_enum, default_value_t = RecordFormat::Text)]
    pub format: RecordFormat,
}

/// The form in which a record is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum RecordFormat {
    /// An aligned table, what fails first.
    Text,
    /// JSON with every figure.
    Json,
}

/// Audits a file and prints the record.
///
/// # Errors
/// Files that cannot be read, with line and column, and an output that cannot be written.
pub fn run(args: &AuditArgs, out: &mut dyn Write) -> Result<ExitStatus, Failure> {
    let arrangement = read(&args.arrangement);
    let catalogue = args.catalogue.as_deref().map(Catalogue::read).transpose();
    let (arrangement, catalogue) = match (arrangement, catalogue) {
        (Ok(arrangement), Ok(catalogue)) => (arrangement, catalogue),
        (arrangement, catalogue) => {
            let mut findings = Findings::new();
            arrangement
                .err()
                .into_iter()
                .for_each(|found| findings.extend(found));
            catalogue
                .err()
                .into_iter()
                .for_each(|found| findings.extend(found));
            return Err(findings.into());
        }
    };
    let report = audit(&arrangement, catalogue.as_ref());
    match args.format {
        RecordFormat::Text => print(&report, out)?,
        RecordFormat::Json => json(&report, out)?,
    }
    Ok(if report.holds() {
        ExitStatus::Holds
    } else {
        ExitStatus::DoesNotHold
    })
}

/// The format that a file names, where it is another than the one read here.
fn other_format(text: &str) -> Option<String> {
    let value: serde_json::Value = serde_json::from_str(text).ok()?;
    let format = value.get("format")?.as_str()?;
    (format != FORMAT).then(|| format.to_string())
}

/// Reads an arrangement.
///
/// # Errors
/// What is wrong with the file; where it is not JSON or not an arrangement, with line and column.
pub fn read(path: &Path) -> Result<Arrangement, Findings> {
    let mut findings = Findings::new();
    let file = match SourceFile::read(path) {
        Ok(file) => file,
        Err(error) => {
            findings.push(error.finding());
            return Err(findings);
        }
    };
    serde_json::from_str(&file.text).map_err(|error| {
        let full = error.to_string();
        // The place is shown by the finding itself.
        let message = full
            .rsplit_once(" at line ")
            .map_or(full.as_str(), |(message, _)| message);
        let line = error.line().clamp(1, file.line_count().max(1));
        let span = file.line_span(line);
        // The column counts bytes; a place inside a sign moves to its beginning.
        let mut start = (span.start + error.column().saturating_sub(1)).min(span.end);
        while !file.text.is_char_boundary(start) {
            start -= 1;
        }
        let finding = Finding::error("arrangement-json", &file, start..start, message)
            .expected("an arrangement as docs/arrangement.md describes it")
            .hint(match other_format(&file.text) {
                Some(other) => {
                    format!("the file has the format `{other}`, read here is `{FORMAT}`")
                }
                None => "let `propose --format json` write it anew, or mend the file at this place"
                    .into(),
            });
        findings.push(finding);
        findings
    })
}

/// Writes a value as JSON with a line end.
pub(super) fn json(value: &impl serde::Serialize, out: &mut dyn Write) -> Result<(), Failure> {
    let text = serde_json::to_string_pretty(value).map_err(|error| {
        Failure::Fault(format!("the record cannot be written as JSON: {error}"))
    })?;
    writeln!(out, "{text}")?;
    Ok(())
}

/// A figure of the table: at most three decimals.
fn figure(value: Option<f64>) -> String {
    let Some(value) = value else {
        return "-".to_string();
    };
    let text = format!("{value:.3}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" {
        "0".to_string()
    } else {
        short.to_string()
    }
}

fn print(report: &AuditReport, out: &mut dyn Write) -> io::Result<()> {
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
    let compared = if report.compared_with_catalogue {
        "compared"
    } else {
        "not compared"
    };
    writeln!(
        out,
        "{} rules measured{informing}; figures {compared} with a catalogue",
        report.rules.len()
    )?;
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
            rule.verdict,
            figure(rule.required),
            figure(rule.measured),
            figure(rule.margin),
        )?;
    }
    writeln!(out)?;
    writeln!(out, "{}", report.caution)
}
