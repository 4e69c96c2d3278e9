//! The solvers behind good_lp, and how much effort one of them may spend. Knows nothing of what a program means.
//!
//! What a solver says is handed on as it says it; `Program` checks it.

use super::{Program, Sense};
#[cfg(feature = "highs")]
use good_lp::solvers::highs::{HighsProblem, highs};
use good_lp::solvers::{SolutionStatus, microlp::microlp};
use good_lp::variable::UnsolvedProblem;
use good_lp::{
    Expression, ResolutionError, Solution, SolverModel, Variable, WithTimeLimit, variable,
    variables,
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
    /// The solvers of this build.
    pub fn built_in() -> impl Iterator<Item = Solver> {
        [Solver::Microlp, Solver::Highs]
            .into_iter()
            .filter(|solver| solver.is_built_in())
    }

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

#[cfg(test)]
mod tests {
    use super::super::Decision;
    use super::*;

    /// A program of mixed variables and rows, the same for the same seed.
    fn program(seed: u64) -> Program {
        let mut state = seed;
        let mut next = |end: u64| {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1);
            (state >> 33) % end
        };
        let mut program = Program::default();
        let all: Vec<_> = (0..3 + next(5))
            .map(|index| {
                let (most, cost) = (1.0 + next(6) as f64, next(19) as f64 - 9.0);
                match next(4) {
                    0 => program.length(format!("length {index}"), 0.0, most, cost),
                    _ => program.integer(format!("count {index}"), 0.0, most, cost),
                }
            })
            .collect();
        for index in 0..2 + next(4) {
            let terms: Vec<_> = all
                .iter()
                .map(|var| (*var, next(13) as f64 - 4.0))
                .collect();
            let sense = match next(5) {
                0 => Sense::Equal,
                1 => Sense::AtLeast,
                _ => Sense::AtMost,
            };
            program.row(format!("row {index}"), terms, sense, next(30) as f64);
        }
        program
    }

    /// The least cost by each solver of the build; `None` where there is no solution.
    fn least(program: &Program, seed: u64) -> Vec<Option<f64>> {
        let cost = |solver| {
            let effort = Effort {
                limit_s: 20.0,
                solver,
            };
            match program.solve(effort) {
                Decision::Feasible {
                    values,
                    proven: true,
                } => {
                    let costs = program.variables.iter().zip(&values);
                    Some(costs.map(|(known, value)| known.cost * value).sum())
                }
                Decision::Infeasible => None,
                other => panic!("seed {seed}, {solver:?}: {other:?}"),
            }
        };
        Solver::built_in().map(cost).collect()
    }

    /// With the feature `highs` two solvers are asked; without it, whether the only one decides all.
    #[test]
    fn every_solver_of_the_build_says_the_same() {
        let (mut feasible, mut infeasible) = (0, 0);
        for seed in 1..200 {
            let answers = least(&program(seed), seed);
            for pair in answers.windows(2) {
                let same = match (pair[0], pair[1]) {
                    (Some(one), Some(other)) => (one - other).abs() < 1e-4,
                    (one, other) => one.is_none() && other.is_none(),
                };
                assert!(same, "seed {seed}: {answers:?}");
            }
            match answers[0] {
                Some(_) => feasible += 1,
                None => infeasible += 1,
            }
        }
        assert!(
            feasible >= 60 && infeasible >= 20,
            "{feasible} feasible, {infeasible} infeasible"
        );
    }

    #[cfg(not(feature = "highs"))]
    #[test]
    fn a_solver_that_is_not_built_in_decides_nothing() {
        let mut program = Program::default();
        program.binary("any", 1.0);
        let effort = Effort {
            limit_s: 1.0,
            solver: Solver::Highs,
        };
        assert!(matches!(program.solve(effort), Decision::Undecided(_)));
    }
}
