//! `glandrail sheets`: drawings, schedules and lists of an arrangement file. Holds no calculation.

use super::paper::PaperName;
use super::{ExitStatus, Failure, folder};
use crate::arrangement::{Arrangement, FORMAT};
use crate::sheets::{self, SetError};
use itertools::Itertools;
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
    /// The paper of the sheets.
    #[arg(long, value_enum, default_value_t = PaperName::A3)]
    pub paper: PaperName,
}

/// Runs the command.
pub fn run(args: &SheetsArgs, talk: &mut dyn Write) -> Result<ExitStatus, Failure> {
    let arrangement = super::audit::read(&args.arrangement)?;
    if arrangement.format != FORMAT {
        return Err(Failure::Input(format!(
            "{} has the format `{}`, but `{FORMAT}` is read here",
            args.arrangement.display(),
            arrangement.format
        )));
    }
    write(&arrangement, args.paper, &args.out, talk)?;
    match sheets::failing(&arrangement) {
        Some(failing) => {
            writeln!(
                talk,
                "{failing}. Lists and DXF, from which it would be made, are not written."
            )?;
            Ok(ExitStatus::DoesNotHold)
        }
        None => Ok(ExitStatus::Holds),
    }
}

/// Writes the set of an arrangement into a folder, all files or none, and says which. Of one that does not hold
/// nothing is written from which it would be made.
pub(super) fn write(
    arrangement: &Arrangement,
    paper: PaperName,
    folder: &Path,
    talk: &mut dyn Write,
) -> Result<(), Failure> {
    let files = match sheets::failing(arrangement) {
        Some(_) => sheets::set_to_read(arrangement, paper.into())?,
        None => sheets::set(arrangement, paper.into())?,
    };
    let words = files.iter().map(|(name, _)| name).join(", ");
    let files = files
        .into_iter()
        .map(|(name, content)| (name.into(), content))
        .collect();
    folder::replace(folder, files, &words, talk)
}

impl From<SetError> for Failure {
    fn from(error: SetError) -> Self {
        Failure::Fault(error.to_string())
    }
}
