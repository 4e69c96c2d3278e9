//! The paper of the sheets, as a word on the command line.

use crate::sheets::Paper;

/// The paper of the sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum PaperName {
    /// Crosswise, 420 × 297 mm.
    A3,
    /// Upright, 210 × 297 mm: smaller scales, more sheets.
    A4,
}

impl From<PaperName> for Paper {
    fn from(name: PaperName) -> Paper {
        match name {
            PaperName::A3 => Paper::A3,
            PaperName::A4 => Paper::A4,
        }
    }
}
