//! The `glandrail` command.

use clap::Parser;
use glandrail::cli::{self, Arguments};
use std::io::{self, Write};
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let mut out = io::BufWriter::new(io::stdout().lock());
    let mut talk = io::stderr().lock();
    let status = cli::run(arguments, &mut out, &mut talk);
    // A reader that has closed the pipe has had what it wanted.
    let _ = out.flush();
    ExitCode::from(status.code())
}
