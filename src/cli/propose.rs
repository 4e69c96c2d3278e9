//! `glandrail propose`: the smallest arrangement for a list. Holds no calculation.

use super::answer::{print_found, print_impossible, print_no_part};
use super::input::{Inputs, Sources};
use super::outcome::tell_findings;
use super::paper::PaperName;
use super::placement::PlacementName;
use super::solver::SolverName;
use super::{ExitStatus, Failure, folder, interrupt, sheets, two};
use crate::demand;
use crate::explain::{ExplainOptions, Impossible, impossible};
use crate::model::{self, SearchOptions};
use crate::propose::{Answer, ProposeError, propose};
use crate::source::{Finding, Findings, write_folder};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

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
    /// The paper of the sheets that `--out` writes.
    #[arg(long, value_enum, default_value_t = PaperName::A3)]
    pub paper: PaperName,
    /// How the answer is printed: as text, or the arrangement as JSON.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
    /// Print the reason against every smaller candidate, not only their groups.
    #[arg(long)]
    pub proof: bool,
    /// Most seconds that one exact decision about a candidate may take.
    #[arg(long, value_name = "SECONDS", default_value_t = 10.0, value_parser = seconds)]
    pub decision_limit: f64,
    /// Most boxes: with 2, a list that no single enclosure takes is divided over two.
    #[arg(long, value_name = "NUMBER", default_value_t = 1, conflicts_with = "export_model", value_parser = clap::value_parser!(u8).range(1..=2))]
    pub boxes: u8,
    /// How entries are placed in the walls.
    #[arg(long, value_enum, default_value_t = PlacementName::Best)]
    pub placement: PlacementName,
    /// Search ten times as long for entries placed freely before a candidate is left open.
    #[arg(long)]
    pub patient: bool,
    /// Most seconds for the whole search. What is found by then is given, and said not to be proved; Ctrl-C
    /// does the same at once.
    #[arg(long, value_name = "SECONDS", value_parser = seconds)]
    pub time_limit: Option<f64>,
    /// Candidates decided at the same time; without it as many as there are cores. The answer is the same.
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    /// Who solves the programs.
    #[arg(long, value_enum, default_value_t = SolverName::Microlp)]
    pub solver: SolverName,
    /// Write the exact models of every candidate up to the one taken into this folder, in LP format, with
    /// an index of the program's own answers.
    #[arg(long, value_name = "DIR")]
    pub export_model: Option<PathBuf>,
    /// A question for `explain`, caught here for a hint.
    #[arg(long, value_name = "ID", hide = true)]
    pub why_not: Option<String>,
}

/// Writes the models of every candidate up to the one that is taken, and their index.
fn export_models(
    folder: &Path,
    inputs: &Inputs,
    options: SearchOptions,
    talk: &mut dyn Write,
) -> Result<(), Failure> {
    let (list, catalogue) = (&inputs.list, &inputs.catalogue);
    let demand = demand::build(list, catalogue, &inputs.workshop).map_err(ProposeError::NoPart)?;
    let exported = model::export(list, &demand, catalogue, &inputs.workshop, options)
        .map_err(Failure::Fault)?;
    let count = exported.files.len();
    let index = ("index.json".to_string(), json(&exported.index)? + "\n");
    write_folder(folder, exported.files.into_iter().chain([index]))?;
    writeln!(
        talk,
        "written to {}: index.json and {count} models in LP format",
        folder.display()
    )?;
    Ok(())
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
    if let Some(id) = &args.why_not {
        let list = args.list.display();
        return Err(Failure::Input(format!(
            "`--why-not` is a question for `explain`: glandrail explain {list} --why-not {id}"
        )));
    }
    let inputs = args.sources.read(&args.list)?;
    let options = SearchOptions {
        decision_limit_s: args.decision_limit,
        deadline: args
            .time_limit
            .map(|limit_s| Instant::now() + Duration::from_secs_f64(limit_s)),
        stop: Some(interrupt::stop_on_ctrl_c()?),
        threads: args.threads.map_or(0, usize::from),
        placement: args.placement.into(),
        patient: args.patient,
        solver: args.solver.built_in()?,
    };
    if args.boxes == 2 {
        return two::run(args, &inputs, options, out, talk);
    }
    let answer = match propose(&inputs.list, &inputs.catalogue, &inputs.workshop, options) {
        Err(ProposeError::NoPart(findings)) => {
            folder::tell_of_earlier(args.out.as_deref(), talk)?;
            return no_part(args.format, &inputs, options, &findings, out, talk);
        }
        answer => answer?,
    };
    if let Some(folder) = &args.export_model {
        export_models(folder, &inputs, options, talk)?;
    }
    match answer {
        Answer::Found(proposal) => {
            if let Some(folder) = &args.out {
                sheets::write(&proposal.arrangement, args.paper, folder, talk)?;
            }
            match args.format {
                Format::Text => print_found(&proposal, args.proof, out)?,
                Format::Json => writeln!(out, "{}", json(&proposal.arrangement)?)?,
            }
            Ok(ExitStatus::Holds)
        }
        Answer::Impossible { excluded, proven } => {
            folder::tell_of_earlier(args.out.as_deref(), talk)?;
            match args.format {
                Format::Text => {
                    let why = explained(&inputs, options);
                    print_impossible(&inputs.list, &excluded, proven, &why, args.proof, out)?;
                }
                Format::Json => {
                    let value = serde_json::json!({
                        "found": false,
                        "proven": proven,
                        "open_for_free_placement": model::open_freely(&excluded),
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

/// Why the list cannot be made, as `explain` has it.
fn explained(inputs: &Inputs, options: SearchOptions) -> Impossible {
    let usual = ExplainOptions {
        placement: options.placement,
        ..ExplainOptions::default()
    };
    let (list, catalogue) = (&inputs.list, &inputs.catalogue);
    impossible(list, catalogue, &inputs.workshop, None, usual).0
}

/// What is answered where no part of the catalogue serves some entry: each entry with its place, and the short
/// explanation. It is no bad input: another catalogue may serve it.
pub(super) fn no_part(
    format: Format,
    inputs: &Inputs,
    options: SearchOptions,
    findings: &Findings,
    out: &mut dyn Write,
    talk: &mut dyn Write,
) -> Result<ExitStatus, Failure> {
    tell_findings(findings, talk, false)?;
    match format {
        Format::Text => print_no_part(&inputs.list, &explained(inputs, options), out)?,
        Format::Json => {
            let entries: Vec<_> = findings.iter().map(entry_without_part).collect();
            let value = serde_json::json!({
                "found": false,
                "proven": true,
                "without_part": entries,
                "caution": crate::arrangement::CAUTION,
            });
            writeln!(out, "{value:#}")?;
        }
    }
    Ok(ExitStatus::DoesNotHold)
}

/// One entry of the list that no part serves.
fn entry_without_part(finding: &Finding) -> serde_json::Value {
    serde_json::json!({
        "code": finding.code,
        "message": finding.message,
        "hint": finding.hint,
    })
}

pub(super) fn json(value: &impl serde::Serialize) -> Result<String, Failure> {
    serde_json::to_string_pretty(value)
        .map_err(|error| Failure::Fault(format!("a value cannot be written as JSON: {error}")))
}
