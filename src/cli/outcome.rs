//! Exit status and failures of commands.

use super::{catalogue, figure};
use crate::propose::ProposeError;
use crate::source::{Findings, WriteError, render};
use std::io::Write;
use thiserror::Error;

/// What the exit status says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ExitStatus {
    /// 0: it holds.
    Holds,
    /// 1: it does not hold, or cannot be made.
    DoesNotHold,
    /// 2: bad input or usage.
    BadInput,
    /// 3: a fault of the program.
    Fault,
}

impl ExitStatus {
    /// The number handed to the operating system.
    pub fn code(self) -> u8 {
        match self {
            ExitStatus::Holds => 0,
            ExitStatus::DoesNotHold => 1,
            ExitStatus::BadInput => 2,
            ExitStatus::Fault => 3,
        }
    }
}

/// Why a command could not be carried out.
#[derive(Debug, Error)]
pub enum Failure {
    /// Something is wrong with a file.
    #[error("{}", .0.summary())]
    Findings(Findings),
    /// No part of the catalogue serves some entry of the list.
    #[error("{}", .0.summary())]
    NoPart(Findings),
    /// Something else is wrong with what the user gave.
    #[error("{0}")]
    Input(String),
    /// An output could not be written.
    #[error(transparent)]
    Write(#[from] WriteError),
    /// The stream for data could not be written.
    #[error("the output could not be written: {0}")]
    Output(#[from] std::io::Error),
    /// A fault of the program.
    #[error("fault in glandrail: {0}")]
    Fault(String),
}

impl Failure {
    /// The exit status that goes with it. A reader that closes the pipe early is no fault.
    pub fn status(&self) -> ExitStatus {
        match self {
            Failure::Output(error) if error.kind() == std::io::ErrorKind::BrokenPipe => {
                ExitStatus::Holds
            }
            Failure::Fault(_) => ExitStatus::Fault,
            Failure::NoPart(_) => ExitStatus::DoesNotHold,
            _ => ExitStatus::BadInput,
        }
    }

    /// Tells what went wrong.
    pub fn tell(&self, talk: &mut dyn Write, colour: bool) -> std::io::Result<()> {
        match self {
            Failure::Output(error) if error.kind() == std::io::ErrorKind::BrokenPipe => Ok(()),
            Failure::Findings(findings) => {
                // The last line of what is drawn is the summary.
                let drawn = render(findings, colour, MESSAGE_WIDTH);
                writeln!(talk, "{}; nothing was written", drawn.trim_end())
            }
            Failure::NoPart(findings) => {
                tell_findings(findings, talk, colour)?;
                writeln!(
                    talk,
                    "no candidate can be decided: `glandrail explain` says what would help"
                )
            }
            Failure::Fault(_) => writeln!(
                talk,
                "error: {self}\n  This is an error of ours, not of your input. Please report it with the list that caused it."
            ),
            other => writeln!(talk, "error: {other}"),
        }
    }
}

/// Draws findings that are no mistake of the input, without the sentence about what was not written.
pub(super) fn tell_findings(
    findings: &Findings,
    talk: &mut dyn Write,
    colour: bool,
) -> std::io::Result<()> {
    let drawn = render(findings, colour, MESSAGE_WIDTH);
    // The last line of what is drawn is the summary, which counts errors.
    let entries = drawn
        .trim_end()
        .rsplit_once('\n')
        .map_or("", |(entries, _)| entries);
    writeln!(talk, "{}\n", entries.trim_end())
}

/// Width in which messages are laid out.
const MESSAGE_WIDTH: usize = 100;

impl From<Findings> for Failure {
    fn from(findings: Findings) -> Self {
        Failure::Findings(findings)
    }
}

impl From<ProposeError> for Failure {
    fn from(error: ProposeError) -> Self {
        match error {
            ProposeError::Input(findings) => Failure::Findings(findings),
            ProposeError::NoPart(findings) => Failure::NoPart(findings),
            ProposeError::Fault(reason) => Failure::Fault(reason),
        }
    }
}

impl From<figure::FigureError> for Failure {
    fn from(error: figure::FigureError) -> Self {
        match error {
            figure::FigureError::Output(error) => Failure::Output(error),
            other => Failure::Input(other.to_string()),
        }
    }
}

impl From<catalogue::Answer> for ExitStatus {
    fn from(answer: catalogue::Answer) -> Self {
        match answer {
            catalogue::Answer::Found => ExitStatus::Holds,
            catalogue::Answer::Nothing => ExitStatus::DoesNotHold,
        }
    }
}

impl From<catalogue::CatalogueError> for Failure {
    fn from(error: catalogue::CatalogueError) -> Self {
        match error {
            catalogue::CatalogueError::Findings(findings) => Failure::Findings(findings),
            catalogue::CatalogueError::Output(error) => Failure::Output(error),
            catalogue::CatalogueError::Unwritable(_) => Failure::Fault(error.to_string()),
            other => Failure::Input(other.to_string()),
        }
    }
}
