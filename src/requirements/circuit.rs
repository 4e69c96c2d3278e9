//! Circuits and their poles.

use super::CoreName;
use crate::catalogue::{CircuitKind, TerminalFunction};
use crate::source::Place;
use crate::standards::iec_60947_5_1::UtilisationCategory;
use serde::{Deserialize, Serialize};

/// The group of a circuit: circuits of one group share a terminal strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum CircuitGroup {
    /// Power circuits.
    Power,
    /// Control circuits.
    Control,
    /// Signals and measurement.
    Signal,
    /// Intrinsically safe circuits.
    IntrinsicallySafe,
}

impl CircuitGroup {
    /// The name used in files and text.
    pub fn name(self) -> &'static str {
        match self {
            CircuitGroup::Power => "power",
            CircuitGroup::Control => "control",
            CircuitGroup::Signal => "signal",
            CircuitGroup::IntrinsicallySafe => "intrinsically_safe",
        }
    }
}

/// One circuit.
#[derive(Debug, Clone)]
pub struct Circuit {
    /// Tag, unique.
    pub tag: String,
    /// Group.
    pub group: CircuitGroup,
    /// Kind.
    pub kind: CircuitKind,
    /// Highest working voltage, V.
    pub voltage_v: f64,
    /// Largest continuous current, A.
    pub current_a: f64,
    /// Largest continuous current of each outgoing conductor where the circuit branches, A.
    pub branch_current_a: f64,
    /// Simultaneity factor, 0 to 1.
    pub simultaneity: f64,
    /// Utilisation category of what it switches, where the list states it.
    pub load: Option<UtilisationCategory>,
    /// Function of its terminals.
    pub terminal: TerminalFunction,
    /// Id of the terminal that the list names.
    pub terminal_part: Option<String>,
    /// Whether cores go straight to the contacts of an element, without a terminal between.
    pub direct: bool,
    /// Its poles.
    pub poles: Vec<Pole>,
    /// Where the list says so.
    pub place: Place,
}

/// One pole.
#[derive(Debug, Clone)]
pub struct Pole {
    /// Marking of its terminal.
    pub marking: String,
    /// Where it comes from. `None`: from a linked pole only.
    pub from: Option<End>,
    /// Where it goes to; several: it branches.
    pub to: Vec<End>,
}

/// What a pole is connected to.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum End {
    /// A core of a cable.
    Core {
        /// Index of the cable.
        cable: usize,
        /// Core.
        core: CoreName,
    },
    /// A point of an operating element.
    Contact {
        /// Index of the element.
        element: usize,
        /// Name of the point, such as `13` or `X1`.
        point: String,
    },
}
