//! `glandrail explain`: why a list cannot be made and what would help, or why nothing smaller takes it.

use super::input::Sources;
use super::placement::PlacementName;
use super::propose::{Format, seconds};
use super::{ExitStatus, Failure};
use crate::arrangement::CAUTION;
use crate::explain::{ExplainOptions, Explanation, Limits, explain, report};
use std::io::Write;
use std::path::PathBuf;

/// Say why a requirement list cannot be made, or why nothing smaller takes it.
#[derive(Debug, Clone, clap::Args)]
pub struct ExplainArgs {
    /// The requirement list, a TOML file.
    pub list: PathBuf,
    #[command(flatten)]
    pub sources: Sources,
    /// Ask about this enclosure.
    #[arg(long, value_name = "ID")]
    pub why_not: Option<String>,
    /// How the answer is printed.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
    /// Most conflicts that are told.
    #[arg(long, value_name = "NUMBER", default_value_t = 4, value_parser = clap::value_parser!(u32).range(1..=100))]
    pub conflicts: u32,
    /// Most ways out that are told.
    #[arg(long, value_name = "NUMBER", default_value_t = 6, value_parser = clap::value_parser!(u32).range(1..=26))]
    pub ways: u32,
    /// How entries may be placed in the walls: `rows` or `best`.
    #[arg(long, value_enum, default_value_t = PlacementName::Best)]
    pub placement: PlacementName,
    /// Most seconds that one exact decision about a candidate may take.
    #[arg(long, value_name = "SECONDS", default_value_t = 2.0, value_parser = seconds)]
    pub decision_limit: f64,
}

/// Runs the command.
pub fn run(args: &ExplainArgs, out: &mut dyn Write) -> Result<ExitStatus, Failure> {
    if args.placement == PlacementName::Free {
        return Err(Failure::Input(
            "conflicts are judged with entries in rows: `explain --placement` takes rows or best, which tries both"
                .to_string(),
        ));
    }
    let inputs = args.sources.read(&args.list)?;
    if let Some(id) = &args.why_not {
        let known = inputs
            .catalogue
            .enclosure
            .iter()
            .map(|part| part.id.as_str());
        if !known.clone().any(|part| part == id) {
            let hint = crate::source::nearest(id, known)
                .map_or(String::new(), |near| format!("; did you mean `{near}`?"));
            return Err(Failure::Input(format!(
                "the catalogue has no enclosure `{id}`{hint}"
            )));
        }
    }
    let options = ExplainOptions {
        conflicts: args.conflicts as usize,
        ways: args.ways as usize,
        placement: args.placement.into(),
        limits: Limits {
            decision_limit_s: args.decision_limit,
            ..Limits::default()
        },
    };
    let why_not = args.why_not.as_deref();
    let explanation = explain(
        &inputs.list,
        &inputs.catalogue,
        &inputs.workshop,
        why_not,
        options,
    )?;
    match args.format {
        Format::Text => {
            write!(out, "{}", report::text(&inputs.list, &explanation))?;
            writeln!(out, "\n{CAUTION}")?;
        }
        Format::Json => {
            let value = serde_json::json!({
                "tag": inputs.list.job.tag,
                "explanation": explanation,
                "caution": CAUTION,
            });
            writeln!(out, "{value:#}")?;
        }
    }
    Ok(match explanation {
        Explanation::Possible(_) => ExitStatus::Holds,
        Explanation::Impossible(_) => ExitStatus::DoesNotHold,
    })
}
