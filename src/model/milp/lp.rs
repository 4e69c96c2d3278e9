//! A program as text in the LP format that general-purpose solvers read.
//!
//! Names of variables and rows hold spaces here, which the format does not allow: each gets a short
//! name, and a comment above it says what it is.

use super::{Program, Sense, Var};
use std::fmt::Write;

/// Terms on one line: the format limits the length of lines.
const TERMS_ON_A_LINE: usize = 8;

impl Program {
    /// The program in LP format; `about` stands as a comment at its head, line by line.
    pub fn lp(&self, about: &str) -> String {
        let mut text = String::new();
        for line in about.lines() {
            put(&mut text, &format!("\\ {line}\n"));
        }
        put(&mut text, "\\\n\\ Variables:\n");
        for (index, variable) in self.variables.iter().enumerate() {
            put(&mut text, &format!("\\ x{index}: {}\n", variable.name));
        }
        put(&mut text, "Minimize\n cost:");
        let cost: Vec<(Var, f64)> = self
            .variables
            .iter()
            .enumerate()
            .filter(|(_, variable)| variable.cost != 0.0)
            .map(|(index, variable)| (Var(index), variable.cost))
            .collect();
        put_terms(&mut text, &cost);
        put(&mut text, "\nSubject To\n");
        for (index, row) in self.rows.iter().enumerate() {
            put(&mut text, &format!("\\ {}\n r{index}:", row.name));
            put_terms(&mut text, &row.terms);
            let sense = match row.sense {
                Sense::AtMost => "<=",
                Sense::AtLeast => ">=",
                Sense::Equal => "=",
            };
            put(&mut text, &format!(" {sense} {}\n", row.bound));
        }
        put(&mut text, "Bounds\n");
        for (index, variable) in self.variables.iter().enumerate() {
            let (least, most) = (variable.least, variable.most);
            put(&mut text, &format!(" {least} <= x{index} <= {most}\n"));
        }
        if self.variables.iter().any(|variable| variable.integer) {
            put(&mut text, "General\n");
            for (index, _) in self
                .variables
                .iter()
                .enumerate()
                .filter(|(_, variable)| variable.integer)
            {
                put(&mut text, &format!(" x{index}\n"));
            }
        }
        put(&mut text, "End\n");
        text
    }
}

/// A sum of products; the format wants at least one term.
fn put_terms(text: &mut String, terms: &[(Var, f64)]) {
    if terms.is_empty() {
        put(text, " 0 x0");
    }
    for (index, (var, factor)) in terms.iter().enumerate() {
        if index > 0 && index % TERMS_ON_A_LINE == 0 {
            put(text, "\n ");
        }
        let sign = if *factor < 0.0 { '-' } else { '+' };
        put(text, &format!(" {sign} {} x{}", factor.abs(), var.0));
    }
}

fn put(text: &mut String, more: &str) {
    text.write_str(more)
        .expect("writing into a string does not fail");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_small_program_reads_as_the_format_wants() {
        let mut program = Program::default();
        let count = program.integer("count of a", 0.0, 3.0, 1.0);
        let length = program.length("length", 0.5, 12.5, 0.0);
        program.row(
            "room for both",
            vec![(count, 2.5), (length, -1.0)],
            Sense::AtLeast,
            -4.0,
        );
        let expected = "\\ An example\n\\\n\\ Variables:\n\\ x0: count of a\n\\ x1: length\n\
            Minimize\n cost: + 1 x0\nSubject To\n\\ room for both\n r0: + 2.5 x0 - 1 x1 >= -4\n\
            Bounds\n 0 <= x0 <= 3\n 0.5 <= x1 <= 12.5\nGeneral\n x0\nEnd\n";
        assert_eq!(program.lp("An example"), expected);
    }
}
