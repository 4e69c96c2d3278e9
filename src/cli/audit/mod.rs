//! `glandrail audit`: every rule measured again on an arrangement file. Holds no rules.

mod text;

use super::{ExitStatus, Failure};
use crate::arrangement::{Arrangement, FORMAT};
use crate::audit::audit;
use crate::catalogue::Catalogue;
use crate::source::{Finding, Findings, SourceFile, nearest};
use std::io::Write;
use std::path::{Path, PathBuf};

/// Measure every rule again on an arrangement.
#[derive(Debug, Clone, clap::Args)]
pub struct AuditArgs {
    /// The arrangement as JSON, such as `propose --format json` prints it.
    #[arg(value_name = "ARRANGEMENT.json")]
    pub arrangement: PathBuf,
    /// Compare the copied figures with this catalogue too: a TOML file or a folder of them. An arrangement that names
    /// the embedded demo catalogue is compared with that one without asking.
    #[arg(long, value_name = "FILE_OR_DIR")]
    pub catalogue: Option<PathBuf>,
    /// Form of the record.
    #[arg(long, value_enum, default_value_t = RecordFormat::Text)]
    pub format: RecordFormat,
}

/// The catalogue with which the copied figures are compared.
enum Compared<'c> {
    /// The one that the command names.
    Given(&'c Catalogue),
    /// The embedded one, which the arrangement names.
    Embedded(&'c Catalogue),
    /// None.
    Nothing,
}

impl<'c> Compared<'c> {
    fn catalogue(&self) -> Option<&'c Catalogue> {
        match self {
            Compared::Given(catalogue) | Compared::Embedded(catalogue) => Some(catalogue),
            Compared::Nothing => None,
        }
    }
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
    // An arrangement of the demo catalogue is held against it without asking: it is at hand.
    let compared = match &catalogue {
        Some(given) => Compared::Given(given),
        None if arrangement.catalogue == Catalogue::demo().name() => {
            Compared::Embedded(Catalogue::demo())
        }
        None => Compared::Nothing,
    };
    let report = audit(&arrangement, compared.catalogue());
    match args.format {
        RecordFormat::Text => text::print(&report, &arrangement, &compared, out)?,
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

/// A line up to and with the sign at a place.
fn line_until(text: &str, start: usize, place: usize, end: usize) -> &str {
    let sign = text[place..end].chars().next().map_or(0, char::len_utf8);
    &text[start..place + sign]
}

/// The name of a field that nothing reads, and the fields that are known in its place, where an error of the
/// JSON reader tells of one.
fn unknown_field(message: &str) -> Option<(String, Vec<&str>)> {
    let rest = message.strip_prefix("unknown field `")?;
    let (name, known) = rest.split_once('`')?;
    // The known ones stand between the further quotation marks.
    let known = known.split('`').skip(1).step_by(2).collect();
    Some((name.to_string(), known))
}

/// Reads an arrangement. A field that is not known is refused: a misspelt limit would be none.
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
        let unknown = unknown_field(message);
        // An unknown field is told of behind its name; the finding points at the name.
        if let Some((name, _)) = &unknown
            && let Some(at) =
                line_until(&file.text, span.start, start, span.end).rfind(&format!("\"{name}\""))
        {
            start = span.start + at;
        }
        let finding = Finding::error("arrangement-json", &file, start..start, message)
            .expected("an arrangement as docs/arrangement.md describes it")
            .hint(match (other_format(&file.text), unknown) {
                (Some(other), _) => {
                    format!("the file has the format `{other}`, read here is `{FORMAT}`")
                }
                (None, Some((name, known))) => match nearest(&name, known) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => "take it out: what no rule reads must not look as if it counted".into(),
                },
                (None, None) => {
                    "let `propose --format json` write it anew, or mend the file at this place"
                        .into()
                }
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
