//! Who solves the programs, as a word on the command line.

use super::Failure;
use crate::model::Solver;

/// Who solves the programs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum SolverName {
    /// Written in Rust, in every build.
    Microlp,
    /// Only in a build with `--features highs`.
    Highs,
}

impl SolverName {
    /// The solver, where this build holds it.
    pub fn built_in(self) -> Result<Solver, Failure> {
        let solver = match self {
            SolverName::Microlp => Solver::Microlp,
            SolverName::Highs => Solver::Highs,
        };
        if solver.is_built_in() {
            return Ok(solver);
        }
        Err(Failure::Input(
            "`--solver highs`: this program was built without HiGHS; expected a build with \
             `cargo build --release --features highs`, which needs cmake, a C++ compiler and libclang; \
             hint: `--solver microlp` answers the same"
                .to_string(),
        ))
    }
}
