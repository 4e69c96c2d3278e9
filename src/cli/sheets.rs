//! `glandrail sheets`: drawings, schedules and lists of an arrangement file. Holds no calculation.

use super::{ExitStatus, Failure};
use crate::arrangement::{Arrangement, FORMAT};
use crate::sheets::{self, SetError};
use crate::source::write_folder;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Write drawings, schedules and lists of an arrangement.
#[derive(Debug, Clone, clap::Args)]
pub struct SheetsArgs {
    /// The arrangement, a JSON file as `propose` writes it.
    pub arrangement: PathBuf,
    /// The folder that the files are written into; made if it is not there.
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,
}

/// Runs the command.
pub fn run(args: &SheetsArgs, talk: &mut dyn Write) -> Result<ExitStatus, Failure> {
    let arrangement = read(&args.arrangement)?;
    write(&arrangement, &args.out, talk)?;
    Ok(ExitStatus::Holds)
}

/// Writes the set of an arrangement into a folder, all files or none, and says which.
pub(super) fn write(
    arrangement: &Arrangement,
    folder: &Path,
    talk: &mut dyn Write,
) -> Result<(), Failure> {
    let files = sheets::set(arrangement)?;
    write_folder(folder, files.iter().map(|(name, content)| (name, content)))?;
    let names: Vec<&str> = files.iter().map(|(name, _)| name.as_str()).collect();
    writeln!(
        talk,
        "written to {}: {}",
        folder.display(),
        names.join(", ")
    )?;
    Ok(())
}

/// Reads an arrangement file.
fn read(path: &Path) -> Result<Arrangement, Failure> {
    let name = path.display();
    let text = std::fs::read_to_string(path)
        .map_err(|error| Failure::Input(format!("{name} cannot be read: {error}")))?;
    // The format is asked first: a file of another version would else be refused for a field.
    let format = serde_json::from_str::<serde_json::Value>(&text)
        .map_err(|error| Failure::Input(format!("{name} is not JSON: {error}")))?
        .get("format")
        .and_then(|format| format.as_str().map(str::to_string));
    match format {
        Some(format) if format == FORMAT => {}
        Some(other) => {
            return Err(Failure::Input(format!(
                "{name} has the format \"{other}\", but \"{FORMAT}\" is read here"
            )));
        }
        None => {
            return Err(Failure::Input(format!(
                "{name} is no arrangement: it has no \"format\": \"{FORMAT}\""
            )));
        }
    }
    serde_json::from_str(&text)
        .map_err(|error| Failure::Input(format!("{name} is no complete arrangement: {error}")))
}

impl From<SetError> for Failure {
    fn from(error: SetError) -> Self {
        Failure::Fault(error.to_string())
    }
}
