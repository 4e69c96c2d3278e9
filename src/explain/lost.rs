//! What a list loses with the cables and elements that are left out: circuits that lead nowhere any more.

use super::names::names_of;
use crate::letters::plural;
use crate::requirements::RequirementList;

/// Circuits that went with what was left out.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Lost {
    /// Circuits that are gone wholly, by tag.
    pub(super) circuits: Vec<String>,
    /// Circuits of which some poles are gone.
    pub(super) poles_of: Vec<String>,
    /// Whether no circuit is left of a list that had some.
    pub(super) is_all: bool,
}

/// Compares a list with what is left of it.
pub(super) fn lost(list: &RequirementList, left: &RequirementList) -> Lost {
    let mut lost = Lost {
        circuits: Vec::new(),
        poles_of: Vec::new(),
        is_all: left.circuits.is_empty() && !list.circuits.is_empty(),
    };
    for circuit in &list.circuits {
        let same = left.circuits.iter().find(|other| other.tag == circuit.tag);
        match same {
            None => lost.circuits.push(circuit.tag.clone()),
            Some(other) if other.poles.len() < circuit.poles.len() => {
                lost.poles_of.push(circuit.tag.clone());
            }
            Some(_) => {}
        }
    }
    lost
}

impl Lost {
    /// Points beside those of what is left out: ten for each circuit.
    pub(super) fn points(&self) -> f64 {
        10.0 * self.circuits.len() as f64
    }

    /// In words, such as `circuits M1, M2 go with it`; nothing where no circuit loses anything. `gone` is the number
    /// of cables and elements that are left out.
    pub(super) fn words(&self, gone: usize) -> Option<String> {
        let them = plural(gone, "it", "them");
        let of = |tags: &[String]| names_of(tags.iter().map(String::as_str));
        let gone = match self.circuits.as_slice() {
            [] => None,
            [one] => Some(format!("circuit {one} goes with {them}")),
            more => Some(format!("circuits {} go with {them}", of(more))),
        };
        let poles = match self.poles_of.as_slice() {
            [] => None,
            [one] => Some(format!("circuit {one} loses poles")),
            more => Some(format!("circuits {} lose poles", of(more))),
        };
        let both: Vec<String> = gone.into_iter().chain(poles).collect();
        (!both.is_empty()).then(|| both.join(", "))
    }
}
