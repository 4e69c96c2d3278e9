//! What the model says of a case, and which faults of the model are known.

use super::opinion::Name;
use glandrail::catalogue::Catalogue;
use glandrail::demand;
use glandrail::model::{self, Excluded, Outcome, Placement, SearchOptions};
use glandrail::propose::{Answer, ProposeError, propose};
use glandrail::requirements::RequirementList;
use glandrail::workshop::Workshop;

/// The model's answer.
#[derive(Debug, PartialEq)]
pub struct Theirs {
    pub chosen: Option<Name>,
    pub excluded: Vec<Name>,
    pub proven: bool,
    /// What `propose` reports in place of a proposal.
    pub fault: Option<String>,
    /// The proposal's arrangement as a file.
    pub json: Option<String>,
}

/// The plain search knows rows only.
fn in_rows() -> SearchOptions {
    SearchOptions {
        placement: Placement::Rows,
        ..SearchOptions::default()
    }
}

/// Asks `propose`; where that reports a fault, the search alone for what was chosen.
pub fn answer(list: &RequirementList, catalogue: &Catalogue) -> Theirs {
    let workshop = Workshop::default();
    let options = in_rows();
    match propose(list, catalogue, &workshop, options) {
        Ok(Answer::Found(found)) => {
            let enclosure = &found.arrangement.enclosure;
            Theirs {
                chosen: Some((enclosure.id.clone(), enclosure.orientation)),
                excluded: names(&found.excluded),
                proven: found.proven,
                fault: None,
                json: serde_json::to_string(&found.arrangement).ok(),
            }
        }
        Ok(Answer::Impossible { excluded, proven }) => Theirs {
            chosen: None,
            excluded: names(&excluded),
            proven,
            fault: None,
            json: None,
        },
        Err(ProposeError::Fault(fault)) => Theirs {
            fault: Some(fault),
            ..search(list, catalogue)
        },
        Err(ProposeError::Input(findings) | ProposeError::NoPart(findings)) => {
            panic!("{}", findings.summary())
        }
    }
}

/// What the search chooses, before anything is placed and audited.
pub fn search(list: &RequirementList, catalogue: &Catalogue) -> Theirs {
    let workshop = Workshop::default();
    let demand = demand::build(list, catalogue, &workshop)
        .unwrap_or_else(|findings| panic!("{}", findings.summary()));
    let outcome = model::search(list, &demand, catalogue, &workshop, in_rows());
    let (chosen, excluded, proven) = match outcome.expect("the search itself does not fail") {
        Outcome::Found(found) => (
            Some((found.mounted.id.clone(), found.mounted.orientation)),
            found.excluded,
            found.proven,
        ),
        Outcome::Impossible { excluded, proven } => (None, excluded, proven),
    };
    Theirs {
        chosen,
        excluded: names(&excluded),
        proven,
        fault: None,
        json: None,
    }
}

fn names(excluded: &[Excluded]) -> Vec<Name> {
    excluded
        .iter()
        .map(|one| (one.enclosure.clone(), one.orientation))
        .collect()
}
