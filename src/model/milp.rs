//! Mixed-integer linear programs in neutral form, and the one border to the solver behind good_lp.
//!
//! What comes back across the border is not trusted: integers are rounded, every bound and constraint
//! is checked again with the rounded values, and "infeasible" is believed only where the solver says
//! that it has proved it.

mod lp;
mod solver;

pub use solver::{Effort, Solver};

use super::memory::{Key, recalled};
use solver::Answered;

/// How far a solver value may be from an integer, and a checked constraint from being kept, in units
/// of its row. Lengths in rows are millimetres, so this is far below the tenth that matters.
const SLACK: f64 = 1e-5;

/// A variable: its index in the program.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Var(usize);

/// Which way a constraint binds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sense {
    /// At most.
    AtMost,
    /// At least.
    AtLeast,
    /// Equal.
    Equal,
}

#[derive(Debug, Clone)]
struct Variable {
    name: String,
    least: f64,
    most: f64,
    integer: bool,
    cost: f64,
}

#[derive(Debug, Clone)]
struct Row {
    name: String,
    terms: Vec<(Var, f64)>,
    sense: Sense,
    bound: f64,
}

/// A program that minimises a cost.
#[derive(Debug, Clone, Default)]
pub struct Program {
    variables: Vec<Variable>,
    rows: Vec<Row>,
}

/// What the solver found out.
#[derive(Debug, Clone, PartialEq)]
pub enum Decision {
    /// Values that keep every constraint; `proven` where the solver proved them optimal.
    Feasible {
        /// One value for each variable.
        values: Vec<f64>,
        /// Whether the cost is proved least.
        proven: bool,
    },
    /// Proved to have no solution.
    Infeasible,
    /// Neither: stopped at the limit, or the solver failed. Says which.
    Undecided(String),
}

impl Program {
    /// Adds an integer variable with bounds and cost.
    pub fn integer(&mut self, name: impl Into<String>, least: f64, most: f64, cost: f64) -> Var {
        self.add(name.into(), least, most, true, cost)
    }

    /// Adds a variable that is 0 or 1.
    pub fn binary(&mut self, name: impl Into<String>, cost: f64) -> Var {
        self.integer(name, 0.0, 1.0, cost)
    }

    /// Adds a continuous variable with bounds and cost.
    pub fn length(&mut self, name: impl Into<String>, least: f64, most: f64, cost: f64) -> Var {
        self.add(name.into(), least, most, false, cost)
    }

    fn add(&mut self, name: String, least: f64, most: f64, integer: bool, cost: f64) -> Var {
        self.variables.push(Variable {
            name,
            least,
            most,
            integer,
            cost,
        });
        Var(self.variables.len() - 1)
    }

    /// Adds a constraint.
    pub fn row(
        &mut self,
        name: impl Into<String>,
        terms: Vec<(Var, f64)>,
        sense: Sense,
        bound: f64,
    ) {
        self.rows.push(Row {
            name: name.into(),
            terms,
            sense,
            bound,
        });
    }

    /// A variable that can only be 0, for what finds no place at all.
    pub fn nowhere(&mut self, what: String) -> Var {
        self.integer(format!("no place for {what}"), 0.0, 0.0, 0.0)
    }

    /// Number of variables.
    pub fn size(&self) -> usize {
        self.variables.len()
    }

    /// Solves the program with so much effort; one that is remembered is not solved again.
    pub fn solve(&self, effort: Effort) -> Decision {
        recalled(
            || self.in_numbers(effort.solver),
            || self.solve_anew(effort),
        )
    }

    /// All of the program but its names, and who solves it. Every list of numbers is preceded by its length, so that no two
    /// programs give the same.
    fn in_numbers(&self, solver: Solver) -> Key {
        let mut key = vec![solver as u64, self.variables.len() as u64];
        for known in &self.variables {
            let figures = [known.least, known.most, known.cost];
            key.extend(figures.map(f64::to_bits));
            key.push(u64::from(known.integer));
        }
        for row in &self.rows {
            key.push(row.terms.len() as u64);
            for (var, factor) in &row.terms {
                key.extend([var.0 as u64, factor.to_bits()]);
            }
            key.extend([row.sense as u64, row.bound.to_bits()]);
        }
        key
    }

    fn solve_anew(&self, effort: Effort) -> Decision {
        if effort.limit_s <= 0.0 {
            return Decision::Undecided("stopped before this was decided".to_string());
        }
        match effort.solver.answer(self, effort.limit_s) {
            Answered::Point { values, optimal } => self.check(values, optimal),
            Answered::Infeasible => Decision::Infeasible,
            Answered::Nothing(why) => Decision::Undecided(why),
        }
    }

    /// Rounds integers and checks every bound and constraint again.
    fn check(&self, mut values: Vec<f64>, proven: bool) -> Decision {
        for (value, known) in values.iter_mut().zip(&self.variables) {
            if known.integer {
                let rounded = value.round();
                if (rounded - *value).abs() > SLACK {
                    return Decision::Undecided(format!(
                        "`{}` came back as {value}, not an integer",
                        known.name
                    ));
                }
                *value = rounded;
            }
            if *value < known.least - SLACK || *value > known.most + SLACK {
                return Decision::Undecided(format!(
                    "`{}` came back as {value}, outside its bounds",
                    known.name
                ));
            }
        }
        for row in &self.rows {
            let sum: f64 = row
                .terms
                .iter()
                .map(|(var, factor)| factor * values[var.0])
                .sum();
            let kept = match row.sense {
                Sense::AtMost => sum <= row.bound + SLACK,
                Sense::AtLeast => sum >= row.bound - SLACK,
                Sense::Equal => (sum - row.bound).abs() <= SLACK,
            };
            if !kept {
                return Decision::Undecided(format!("the solver's point breaks `{}`", row.name));
            }
        }
        Decision::Feasible { values, proven }
    }
}

impl Var {
    /// The variable's value among those of a decision.
    pub fn of(self, values: &[f64]) -> f64 {
        values[self.0]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_knapsack_is_solved_to_proven_optimum() {
        let mut program = Program::default();
        let a = program.integer("a", 0.0, 10.0, -3.0);
        let b = program.integer("b", 0.0, 10.0, -5.0);
        program.row("room", vec![(a, 2.0), (b, 4.0)], Sense::AtMost, 11.0);
        let Decision::Feasible { values, proven } = program.solve(Effort::of_seconds(10.0)) else {
            panic!("feasible")
        };
        assert!(proven);
        // 5 of the first alone, worth 15; 3 + 1 leave 1 of the room unused, worth 14.
        assert_eq!((a.of(&values), b.of(&values)), (5.0, 0.0));
    }

    #[test]
    fn programs_that_differ_in_one_figure_are_told_apart() {
        let program = |most: f64, factor: f64, sense, bound: f64, integer: bool| {
            let mut program = Program::default();
            let a = program.add("a".into(), 0.0, most, integer, 1.0);
            let b = program.binary("b", 0.0);
            program.row("row", vec![(a, factor), (b, 1.0)], sense, bound);
            program
        };
        let all = [
            program(3.0, 1.0, Sense::AtMost, 2.0, true),
            program(4.0, 1.0, Sense::AtMost, 2.0, true),
            program(3.0, 2.0, Sense::AtMost, 2.0, true),
            program(3.0, 1.0, Sense::AtLeast, 2.0, true),
            program(3.0, 1.0, Sense::AtMost, 1.0, true),
            program(3.0, 1.0, Sense::AtMost, 2.0, false),
        ];
        for (index, one) in all.iter().enumerate() {
            for other in &all[..index] {
                assert_ne!(
                    one.in_numbers(Solver::Microlp),
                    other.in_numbers(Solver::Microlp)
                );
            }
            assert_eq!(
                one.in_numbers(Solver::Microlp),
                one.clone().in_numbers(Solver::Microlp)
            );
        }
    }

    #[test]
    fn what_cannot_be_is_proved_so() {
        let mut program = Program::default();
        let a = program.integer("a", 0.0, 10.0, 0.0);
        program.row("parity", vec![(a, 2.0)], Sense::Equal, 7.0);
        assert_eq!(
            program.solve(Effort::of_seconds(10.0)),
            Decision::Infeasible
        );
    }

    #[test]
    fn a_point_that_breaks_a_row_does_not_cross_the_border() {
        let mut program = Program::default();
        let a = program.integer("a", 0.0, 10.0, 0.0);
        program.row("limit", vec![(a, 1.0)], Sense::AtMost, 3.0);
        assert!(matches!(
            program.check(vec![4.0], true),
            Decision::Undecided(_)
        ));
        assert!(matches!(
            program.check(vec![2.5], true),
            Decision::Undecided(_)
        ));
        assert!(matches!(
            program.check(vec![-1.0], true),
            Decision::Undecided(_)
        ));
        assert!(matches!(
            program.check(vec![3.0], true),
            Decision::Feasible { .. }
        ));
    }
}
