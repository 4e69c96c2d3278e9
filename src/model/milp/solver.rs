//! The solvers behind good_lp, and how much effort one of them may spend. Knows nothing of what a program means.
//!
//! What a solver says is handed on as it says it; `Program` checks it.

use super::{Program, Sense};
#[cfg(feature = "highs")]
use good_lp::solvers::highs::{HighsProblem, highs};
use good_lp::solvers::{SolutionStatus, microlp::microlp};
use good_lp::variable::UnsolvedProblem;
use good_lp::{
    Expression, ResolutionError, Solution, SolverModel, Variable, WithTimeLimit,
    variable, variables,
};

/// Who solves a program.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Solver {
    /// microlp, written in Rust; in every build.
    #[default]
    Microlp,
    /// HiGHS, written in C++; only in a build with the feature `highs`.
    Highs,
}

/// What one exact decision may take.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effort {
    /// Time limit, s; 0 for none at all.
    pub limit_s: f64,
    /// Who solves it.
    pub solver: Solver,
}

impl Effort {
    /// So many seconds of the usual solver.
    pub fn of_seconds(limit_s: f64) -> Self {
        Self {
            limit_s,
            solver: Solver::default(),
        }
    }
}

/// What a solver says, unchecked.
pub(super) enum Answered {
    /// Values, and whether the solver says that their cost is least.
    Point { values: Vec<f64>, optimal: bool },
    /// There is no solution.
    Infeasible,
    /// Neither, and why.
    Nothing(String),
}

impl Solver {
    /// Whether this build holds it.
    pub fn is_built_in(self) -> bool {
        match self {
            Solver::Microlp => true,
            Solver::Highs => cfg!(feature = "highs"),
        }
    }

    /// Solves a program.
    pub(super) fn answer(self, program: &Program, limit_s: f64) -> Answered {
        let (problem, handles) = stated(program);
        match self {
            Solver::Microlp => {
                let model = problem.using(microlp).with_time_limit(limit_s);
                asked(model, program, &handles)
            }
            #[cfg(feature = "highs")]
            Solver::Highs => match exactly(problem.using(highs)) {
                Ok(model) => asked(model.set_time_limit(limit_s), program, &handles),
                Err(why) => Answered::Nothing(why),
            },
            #[cfg(not(feature = "highs"))]
            Solver::Highs => Answered::Nothing("this build holds no HiGHS".to_string()),
        }
    }
}

/// HiGHS stops at a gap of its own unless it is told to go on to the optimum. One thread: the candidates
/// already run side by side, and the answer must not depend on which thread is first.
#[cfg(feature = "highs")]
fn exactly(model: HighsProblem) -> Result<HighsProblem, String> {
    model
        .set_threads(1)
        .set_mip_rel_gap(0.0)
        .and_then(|model| model.set_mip_abs_gap(0.0))
        .map_err(|error| format!("the gap of HiGHS cannot be set to 0: {error}"))
}

/// The variables and the cost, in good_lp's words.
fn stated(program: &Program) -> (UnsolvedProblem, Vec<Variable>) {
    let mut vars = variables!();
    let handles: Vec<Variable> = program
        .variables
        .iter()
        .map(|known| {
            let definition = variable().min(known.least).max(known.most);
            vars.add(if known.integer {
                definition.integer()
            } else {
                definition
            })
        })
        .collect();
    let cost: Expression = handles
        .iter()
        .zip(&program.variables)
        .map(|(handle, known)| known.cost * *handle)
        .sum();
    (vars.minimise(cost), handles)
}

/// Adds the constraints and asks.
fn asked<M>(mut model: M, program: &Program, handles: &[Variable]) -> Answered
where
    M: SolverModel<Error = ResolutionError>,
{
    for row in &program.rows {
        let sum: Expression = row
            .terms
            .iter()
            .map(|(var, factor)| *factor * handles[var.0])
            .sum();
        model.add_constraint(match row.sense {
            Sense::AtMost => sum.leq(row.bound),
            Sense::AtLeast => sum.geq(row.bound),
            Sense::Equal => sum.eq(row.bound),
        });
    }
    match model.solve() {
        Ok(solution) => Answered::Point {
            values: handles
                .iter()
                .map(|handle| solution.value(*handle))
                .collect(),
            optimal: matches!(solution.status(), SolutionStatus::Optimal),
        },
        Err(ResolutionError::Infeasible) => Answered::Infeasible,
        Err(error) => Answered::Nothing(error.to_string()),
    }
}
