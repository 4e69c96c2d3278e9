//! One file per command. Holds no calculation.

mod answer;
pub mod audit;
pub mod catalogue;
mod compare;
mod explain;
pub mod figure;
mod folder;
mod input;
mod interrupt;
mod outcome;
mod paper;
mod placement;
mod proof;
mod propose;
pub mod rules;
mod schema;
mod sheets;
mod solver;
mod two;

pub use outcome::{ExitStatus, Failure};

use clap::{Parser, Subcommand};
use std::io::{IsTerminal, Write};

/// Finds the smallest certified Ex e enclosure for a list of circuits, cables and operating elements,
/// lays it out to the millimetre and shows why it holds, or why it cannot be made.
#[derive(Debug, Parser)]
#[command(
    name = "glandrail",
    version,
    after_help = "Exit status: 0 it holds, 1 it does not hold or cannot be made, 2 bad input or usage, 3 a fault of glandrail.\n\
                  A design aid: the certificate and its holder, local codes and a competent person decide."
)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Find the smallest arrangement for a requirement list.
    Propose(propose::ProposeArgs),
    /// Measure every rule again on an arrangement.
    Audit(audit::AuditArgs),
    /// List the rules that the audit measures.
    Rules(rules::RulesArgs),
    /// Say why a list cannot be made and what would help, or why nothing smaller takes it.
    Explain(explain::ExplainArgs),
    /// Compare all candidates: what fits, what fails first, margins, and the trade-off front.
    Compare(compare::CompareArgs),
    /// Write drawings, schedules and lists of an arrangement.
    Sheets(sheets::SheetsArgs),
    /// Print the JSON Schema of a file, for editors that complete and check it.
    Schema(schema::SchemaArgs),
    /// Answer one question of the trade, with source and steps.
    Figure(figure::FigureArgs),
    /// Check, list, search and import parts.
    Catalogue(catalogue::CatalogueArgs),
}

/// Runs a command: data to `out`, talk to `talk`.
pub fn run(arguments: Arguments, out: &mut dyn Write, talk: &mut dyn Write) -> ExitStatus {
    let result = match arguments.command {
        Command::Propose(args) => propose::run(&args, out, talk),
        Command::Audit(args) => audit::run(&args, out),
        Command::Rules(args) => rules::run(&args, out),
        Command::Compare(args) => compare::run(&args, out, talk),
        Command::Explain(args) => explain::run(&args, out),
        Command::Sheets(args) => sheets::run(&args, talk),
        Command::Schema(args) => schema::run(&args, out),
        Command::Figure(args) => figure::run(args, out)
            .map(|holds| match holds {
                true => ExitStatus::Holds,
                false => ExitStatus::DoesNotHold,
            })
            .map_err(Failure::from),
        Command::Catalogue(args) => catalogue::run(&args, out)
            .map(ExitStatus::from)
            .map_err(Failure::from),
    };
    match result {
        Ok(status) => status,
        Err(failure) => {
            let colour = std::io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none();
            // Nothing is left to be done where even the talk cannot be written.
            let _ = failure.tell(talk, colour);
            failure.status()
        }
    }
}
