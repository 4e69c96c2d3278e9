//! `glandrail propose`: the smallest arrangement for a list. Holds no calculation.

use super::answer::{open_freely, print_found, print_impossible};
use super::input::Sources;
use super::placement::PlacementName;
use super::{ExitStatus, Failure, sheets};
use crate::explain::{ExplainOptions, impossible};
use crate::model::SearchOptions;
use crate::propose::{Answer, propose};
use std::io::Write;
use std::path::PathBuf;

/// Find the smallest arrangement for a requirement list.
#[derive(Debug, Clone, clap::Args)]
pub struct ProposeArgs {
    /// The requirement list, a TOML file.
    pub list: PathBuf,
    #[command(flatten)]
    pub sources: Sources,
    /// Write arrangement.json, drawings, schedules, lists, heat and marking into this folder.
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
    /// How entries are placed in the walls.
    #[arg(long, value_enum, default_value_t = PlacementName::Rows)]
    pub placement: PlacementName,
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
        placement: args.placement.into(),
    };
    let answer = propose(&inputs.list, &inputs.catalogue, &inputs.workshop, options)?;
    match answer {
        Answer::Found(proposal) => {
            if let Some(folder) = &args.out {
                sheets::write(&proposal.arrangement, folder, talk)?;
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
                        "open_for_free_placement": open_freely(&excluded),
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
