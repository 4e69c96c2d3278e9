//! `glandrail catalogue`: is a catalogue sound, what is in it, and parts from CSV. Holds no checks.

use crate::catalogue::{Catalogue, Part, PartKind, import};
use crate::source::{Findings, SourceFile, nearest};
use serde::Serialize;
use std::collections::BTreeMap;
use std::io::Write;
use std::path::PathBuf;

/// Check, list, search and import parts.
#[derive(Debug, Clone, clap::Args)]
pub struct CatalogueArgs {
    /// The catalogue: a TOML file or a folder of them; without it the demo catalogue.
    #[arg(long, global = true, value_name = "PATH")]
    pub catalogue: Option<PathBuf>,
    /// What to do.
    #[command(subcommand)]
    pub command: CatalogueCommand,
}

/// What to do with a catalogue.
#[derive(Debug, Clone, clap::Subcommand)]
pub enum CatalogueCommand {
    /// Say whether the catalogue is sound, and how many parts of each kind it has.
    Check,
    /// List the parts of one kind, or all.
    List {
        /// Kind of part: enclosure, terminal, accessory, rail, gland, plug, adapter, element or contact_block.
        kind: Option<PartKind>,
    },
    /// List the parts whose kind, id or description hold all these words.
    Search {
        /// The words, upper and lower case alike.
        #[arg(required = true)]
        words: Vec<String>,
    },
    /// Show one part with all its fields, as it would stand in a file.
    Show {
        /// Id of the part.
        id: String,
    },
    /// Print parts from a CSV file as catalogue text, checked.
    Import {
        /// The CSV file; its first line names the columns.
        csv: PathBuf,
        /// The mapping file: which column goes into which field.
        #[arg(long, value_name = "FILE")]
        map: PathBuf,
        /// Kind of the parts.
        #[arg(long)]
        kind: PartKind,
    },
}

/// Whether there was anything to show; what the exit status says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Answer {
    /// The catalogue is sound, or there are such parts.
    Found,
    /// No part answers to the words or the kind.
    Nothing,
}

/// Why there is no answer.
#[derive(Debug, thiserror::Error)]
pub enum CatalogueError {
    /// Something is wrong with a file.
    #[error("{0}")]
    Findings(Findings),
    /// There is no part of this id.
    #[error("there is no part `{id}`{}", .near.as_ref().map(|near| format!("; did you mean `{near}`?")).unwrap_or_default())]
    UnknownPart {
        /// The id that was asked for.
        id: String,
        /// The nearest id that there is.
        near: Option<String>,
    },
    /// A part cannot be put into words: our own fault.
    #[error("the part cannot be written as TOML: {0}")]
    Unwritable(toml::ser::Error),
    /// The answer could not be written out.
    #[error("the answer cannot be written: {0}")]
    Output(#[from] std::io::Error),
}

impl From<Findings> for CatalogueError {
    fn from(findings: Findings) -> Self {
        Self::Findings(findings)
    }
}

/// Runs the command and writes its answer to `out`. Warnings about a sound catalogue go there too,
/// as part of the answer of `check`, and as comments before imported parts.
///
/// # Errors
/// Files that cannot be read or are unsound, an unknown id, and an `out` that refuses.
pub fn run(args: &CatalogueArgs, out: &mut dyn Write) -> Result<Answer, CatalogueError> {
    match &args.command {
        CatalogueCommand::Import { csv, map, kind } => run_import(csv, map, *kind, out),
        command => {
            let read;
            let (catalogue, warnings) = match &args.catalogue {
                None => (Catalogue::demo(), Findings::new()),
                Some(path) => match Catalogue::read_with_findings(path) {
                    (Some(catalogue), warnings) => {
                        read = catalogue;
                        (&read, warnings)
                    }
                    (None, findings) => return Err(findings.into()),
                },
            };
            answer(command, catalogue, &warnings, out)
        }
    }
}

fn answer(
    command: &CatalogueCommand,
    catalogue: &Catalogue,
    warnings: &Findings,
    out: &mut dyn Write,
) -> Result<Answer, CatalogueError> {
    match command {
        CatalogueCommand::Check => check(catalogue, warnings, out),
        CatalogueCommand::List { kind } => {
            let parts = catalogue
                .parts()
                .filter(|part| kind.is_none_or(|kind| part.kind() == kind));
            list(&parts.collect::<Vec<_>>(), out)
        }
        CatalogueCommand::Search { words } => list(&catalogue.search(words), out),
        CatalogueCommand::Show { id } => match catalogue.part(id) {
            Some(part) => show(part, out),
            None => {
                let near = nearest(id, catalogue.parts().map(Part::id));
                Err(CatalogueError::UnknownPart {
                    id: id.clone(),
                    near,
                })
            }
        },
        CatalogueCommand::Import { .. } => unreachable!("imports read no catalogue"),
    }
}

fn check(
    catalogue: &Catalogue,
    warnings: &Findings,
    out: &mut dyn Write,
) -> Result<Answer, CatalogueError> {
    write!(out, "{}", warnings.render_plain())?;
    let edition = if catalogue.about.edition.is_empty() {
        String::new()
    } else {
        format!(", {}", catalogue.about.edition)
    };
    writeln!(out, "{}{edition}", catalogue.about.title)?;
    if let Some(warning) = &catalogue.about.warning {
        writeln!(out, "Warning: {warning}")?;
    }
    for kind in PartKind::ALL {
        let count = catalogue.parts().filter(|part| part.kind() == kind).count();
        writeln!(out, "{count:>6}  {}", kind.table())?;
    }
    let verdict = if warnings.is_empty() {
        "sound".to_owned()
    } else {
        format!("sound, with {}", warnings.summary())
    };
    writeln!(out, "The catalogue is {verdict}.")?;
    Ok(Answer::Found)
}

/// One line a part: kind, id, description, in columns.
fn list(parts: &[Part<'_>], out: &mut dyn Write) -> Result<Answer, CatalogueError> {
    let width =
        |text: fn(Part<'_>) -> usize| parts.iter().map(|part| text(*part)).max().unwrap_or(0);
    let kinds = width(|part| part.kind().table().chars().count());
    let ids = width(|part| part.id().chars().count());
    for part in parts {
        let line = format!(
            "{:kinds$}  {:ids$}  {}",
            part.kind().table(),
            part.id(),
            part.description()
        );
        writeln!(out, "{}", line.trim_end())?;
    }
    Ok(if parts.is_empty() {
        Answer::Nothing
    } else {
        Answer::Found
    })
}

fn show(part: Part<'_>, out: &mut dyn Write) -> Result<Answer, CatalogueError> {
    let table: BTreeMap<&str, [Part<'_>; 1]> = BTreeMap::from([(part.kind().table(), [part])]);
    let text = toml_text(&table)?;
    write!(out, "{text}")?;
    Ok(Answer::Found)
}

fn toml_text(value: &impl Serialize) -> Result<String, CatalogueError> {
    toml::to_string(value).map_err(CatalogueError::Unwritable)
}

fn run_import(
    csv: &std::path::Path,
    map: &std::path::Path,
    kind: PartKind,
    out: &mut dyn Write,
) -> Result<Answer, CatalogueError> {
    let files = [csv, map].map(SourceFile::read);
    let [csv, map] = match files {
        [Ok(csv), Ok(map)] => [csv, map],
        files => {
            let unreadable: Findings = files
                .into_iter()
                .filter_map(Result::err)
                .map(|error| error.finding())
                .collect();
            return Err(unreadable.into());
        }
    };
    let imported = import::import(&csv, &map, kind)?;
    for warning in &imported.warnings {
        writeln!(out, "# {}", warning.render_plain())?;
    }
    write!(out, "{}", imported.text)?;
    Ok(if imported.parts == 0 {
        Answer::Nothing
    } else {
        Answer::Found
    })
}
