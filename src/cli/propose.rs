//! `glandrail propose`: the smallest arrangement for a list. Holds no calculation.

use super::answer::{print_found, print_impossible};
use super::input::Sources;
use super::{ExitStatus, Failure};
use crate::arrangement::Arrangement;
use crate::explain::{ExplainOptions, impossible};
use crate::heat;
use crate::marking::marking_with;
use crate::model::SearchOptions;
use crate::propose::{Answer, propose};
use crate::sheets::{self, ViewName};
use crate::source::write_folder;
use std::io::Write;
use std::path::PathBuf;

/// Find the smallest arrangement for a requirement list.
#[derive(Debug, Clone, clap::Args)]
pub struct ProposeArgs {
    /// The requirement list, a TOML file.
    pub list: PathBuf,
    #[command(flatten)]
    pub sources: Sources,
    /// Write arrangement.json, views, schedules, heat and marking into this folder.
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// How the answer is printed: as text, or the arrangement as JSON.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
    /// Print the reason against every smaller candidate, not only their groups.
    #[arg(long)]
    pub proof: bool,
    /// Most seconds that one exact decision about a candidate may take.
    #[arg(long, value_name = "SECONDS", default_value_t = 10.0, value_parser = seconds)]
    pub decision_limit: f64,
}

/// How an answer is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum Format {
    /// For reading.
    Text,
    /// For programs.
    Json,
}

pub(super) fn seconds(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(seconds) if (0.01..=86_400.0).contains(&seconds) => Ok(seconds),
        _ => Err("a number of seconds from 0.01 to 86400".to_string()),
    }
}

/// Runs the command.
pub fn run(
    args: &ProposeArgs,
    out: &mut dyn Write,
    talk: &mut dyn Write,
) -> Result<ExitStatus, Failure> {
    let inputs = args.sources.read(&args.list)?;
    let options = SearchOptions {
        decision_limit_s: args.decision_limit,
    };
    let answer = propose(&inputs.list, &inputs.catalogue, &inputs.workshop, options)?;
    match answer {
        Answer::Found(proposal) => {
            if let Some(folder) = &args.out {
                let files = files(&proposal.arrangement)?;
                write_folder(folder, files.iter().map(|(name, content)| (name, content)))?;
                let names = files
                    .iter()
                    .map(|(name, _)| name.as_str())
                    .collect::<Vec<_>>()
                    .join(", ");
                writeln!(talk, "written to {}: {names}", folder.display())?;
            }
            match args.format {
                Format::Text => print_found(&proposal, args.proof, out)?,
                Format::Json => writeln!(out, "{}", json(&proposal.arrangement)?)?,
            }
            Ok(ExitStatus::Holds)
        }
        Answer::Impossible { excluded, proven } => {
            match args.format {
                Format::Text => {
                    let usual = ExplainOptions::default();
                    let (list, catalogue) = (&inputs.list, &inputs.catalogue);
                    let (why, _) = impossible(list, catalogue, &inputs.workshop, None, usual);
                    print_impossible(list, &excluded, proven, &why, out)?;
                }
                Format::Json => {
                    let value = serde_json::json!({
                        "found": false,
                        "proven": proven,
                        "excluded": excluded,
                        "caution": crate::arrangement::CAUTION,
                    });
                    writeln!(out, "{value:#}")?;
                }
            }
            Ok(ExitStatus::DoesNotHold)
        }
    }
}

fn json(value: &impl serde::Serialize) -> Result<String, Failure> {
    serde_json::to_string_pretty(value)
        .map_err(|error| Failure::Fault(format!("a value cannot be written as JSON: {error}")))
}

/// The files of `--out`: the arrangement, its drawings and lists, heat and marking.
fn files(arrangement: &Arrangement) -> Result<Vec<(String, String)>, Failure> {
    let mut files = vec![("arrangement.json".to_string(), json(arrangement)? + "\n")];
    for view in ViewName::ALL {
        files.push((
            format!("view-{}.svg", view.name()),
            sheets::view_svg(arrangement, view),
        ));
    }
    for sheet in sheets::drawings(arrangement) {
        files.push((format!("sheet-{}.svg", sheet.name), sheets::svg(&sheet)));
    }
    files.push((
        "parts-list.csv".to_string(),
        sheets::parts_list(arrangement),
    ));
    files.push((
        "terminal-schedule.csv".to_string(),
        sheets::terminal_schedule(arrangement),
    ));
    files.push((
        "cable-schedule.csv".to_string(),
        sheets::cable_schedule(arrangement),
    ));
    files.push(("summary.txt".to_string(), sheets::summary(arrangement)));
    let heat = heat::assess(arrangement);
    let marking = marking_with(arrangement, &heat);
    let heat_page = sheets::heat_estimated(&heat).trim_start().to_string()
        + &sheets::heat_tables(&heat)
        + &sheets::cautions(arrangement);
    files.push(("heat.txt".to_string(), heat_page));
    files.push(("heat.json".to_string(), json(&heat)? + "\n"));
    files.push((
        "marking.txt".to_string(),
        sheets::marking_page(arrangement, &marking),
    ));
    files.push(("marking.json".to_string(), json(&marking)? + "\n"));
    Ok(files)
}
