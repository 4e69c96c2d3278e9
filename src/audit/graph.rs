//! Which ends are electrically connected: a graph over conductors, terminals, jumpers and earth.
//! Knows nothing of rules.

use super::context::{Context, EARTH};
use crate::arrangement::{Side, WireEnd};
use crate::catalogue::TerminalFunction;
use std::collections::BTreeMap;

/// The name of an end as circuits write it: `cable/core` or `element/point`; terminals are named with
/// their level.
pub(super) fn end_name(end: &WireEnd) -> String {
    match end {
        WireEnd::Core { cable, core } => format!("{cable}/{core}"),
        WireEnd::Contact { element, point } => format!("{element}/{point}"),
        WireEnd::Terminal {
            terminal, level, ..
        } => node_of(terminal, *level),
    }
}

/// The name of a level of a terminal. The space keeps it apart from every end of a circuit.
fn node_of(terminal: &str, level: u32) -> String {
    format!("terminal {terminal} level {level}")
}

/// The side of a terminal in words.
pub(super) fn side_word(side: Side) -> &'static str {
    match side {
        Side::Upper => "upper",
        Side::Lower => "lower",
    }
}

/// Groups of connected nodes.
pub(super) struct Graph {
    numbers: BTreeMap<String, usize>,
    parents: Vec<usize>,
}

impl Graph {
    /// The graph of an arrangement. Contacts and disconnecting links count as open between their
    /// points and closed in themselves: a contact's two points are two potentials.
    pub fn of(context: &Context<'_>) -> Self {
        let mut graph = Self {
            numbers: BTreeMap::new(),
            parents: Vec::new(),
        };
        for wire in &context.arrangement.wires {
            graph.join(end_name(&wire.from), end_name(&wire.to));
        }
        for terminal in &context.arrangement.terminals {
            if terminal.function == TerminalFunction::Earth {
                // Earth terminals are connected to the rail, the rails to the plate.
                for level in 0..terminal.live.len().max(1) {
                    graph.join(node_of(&terminal.id, level as u32), EARTH.to_string());
                }
            }
        }
        for jumper in &context.arrangement.jumpers {
            for pair in jumper.terminals.windows(2) {
                if let [left, right] = pair {
                    graph.join(node_of(left, 0), node_of(right, 0));
                }
            }
        }
        graph
    }

    fn number(&mut self, name: String) -> usize {
        let next = self.parents.len();
        let number = *self.numbers.entry(name).or_insert(next);
        if number == next {
            self.parents.push(next);
        }
        number
    }

    fn root(&self, mut number: usize) -> usize {
        while let Some(parent) = self
            .parents
            .get(number)
            .copied()
            .filter(|parent| *parent != number)
        {
            number = parent;
        }
        number
    }

    fn join(&mut self, a: String, b: String) {
        let (a, b) = (self.number(a), self.number(b));
        let (a, b) = (self.root(a), self.root(b));
        // The smaller number becomes the root, so that the result does not depend on the order.
        if let Some(parent) = self.parents.get_mut(a.max(b)) {
            *parent = a.min(b);
        }
    }

    /// The group of a node; `None` where nothing is connected to it.
    pub fn group(&self, name: &str) -> Option<usize> {
        self.numbers.get(name).map(|number| self.root(*number))
    }
}
