//! `glandrail schema`: the JSON Schema of a file. Holds no calculation.

use super::{ExitStatus, Failure};
use crate::schema::{SchemaName, schema};
use std::io::Write;

/// Print the JSON Schema of a file, for editors that complete and check TOML or JSON.
#[derive(Debug, Clone, clap::Args)]
pub struct SchemaArgs {
    /// Which file.
    #[arg(value_enum)]
    pub name: SchemaName,
}

/// Runs the command.
pub fn run(args: &SchemaArgs, out: &mut dyn Write) -> Result<ExitStatus, Failure> {
    write!(out, "{}", schema(args.name))?;
    Ok(ExitStatus::Holds)
}
