//! The main job from end to end: list → demand → search → arrangement → audit.

use crate::arrangement::{Arrangement, ProofRecord};
use crate::audit::{self, AuditReport};
use crate::catalogue::Catalogue;
use crate::demand;
use crate::model::{self, Excluded, Found, Outcome, Placement, SearchOptions};
use crate::requirements::{RequirementList, check_parts};
use crate::source::Findings;
use crate::workshop::Workshop;
use itertools::Itertools;
use thiserror::Error;

/// An answer to a list.
#[derive(Debug, Clone)]
pub enum Answer {
    /// The smallest arrangement that holds.
    Found(Box<Proposal>),
    /// No candidate of the catalogue holds.
    Impossible {
        /// Why each candidate was excluded, in the order of the objective.
        excluded: Vec<Excluded>,
        /// Whether every candidate was disproved.
        proven: bool,
    },
}

/// A proposal that has passed the audit.
#[derive(Debug, Clone)]
pub struct Proposal {
    /// What is where.
    pub arrangement: Arrangement,
    /// Every rule measured anew.
    pub audit: AuditReport,
    /// Why each smaller candidate was excluded, in the order of the objective.
    pub excluded: Vec<Excluded>,
    /// Whether every smaller candidate was disproved.
    pub proven: bool,
    /// Number of candidates, enclosures times orientations.
    pub candidates: usize,
}

/// Why there is no answer.
#[derive(Debug, Error)]
pub enum ProposeError {
    /// The input is wrong.
    #[error("{}", .0.summary())]
    Input(Findings),
    /// The list is sound, but no part of the catalogue serves some entry of it: it cannot be made.
    #[error("{}", .0.summary())]
    NoPart(Findings),
    /// A fault of the program: what it found does not pass its own audit, or cannot be placed.
    #[error("fault in glandrail: {0}")]
    Fault(String),
}

impl From<Findings> for ProposeError {
    fn from(findings: Findings) -> Self {
        ProposeError::Input(findings)
    }
}

/// Answers a list.
///
/// # Errors
/// Findings about the input, or a fault of the program. A list that cannot be made is no error.
pub fn propose(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
) -> Result<Answer, ProposeError> {
    let findings = check_parts(list, catalogue);
    if findings.has_errors() {
        return Err(findings.into());
    }
    let demand = demand::build(list, catalogue, workshop).map_err(ProposeError::NoPart)?;
    let outcome =
        model::search(list, &demand, catalogue, workshop, options).map_err(ProposeError::Fault)?;
    match outcome {
        Outcome::Impossible { excluded, proven } => Ok(Answer::Impossible { excluded, proven }),
        Outcome::Found(found) => {
            let mut arrangement = model::arrange(list, &demand, catalogue, workshop, &found)
                .map_err(ProposeError::Fault)?;
            arrangement.proof = Some(proof(&found, options.placement));
            let audit = audit::audit(&arrangement, Some(catalogue));
            if !audit.holds() {
                return Err(ProposeError::Fault(format!(
                    "the arrangement in `{}` does not pass the audit: {}",
                    arrangement.enclosure.id,
                    failures_in_words(&audit)
                )));
            }
            Ok(Answer::Found(Box::new(Proposal {
                arrangement,
                audit,
                excluded: found.excluded,
                proven: found.proven,
                candidates: found.candidates,
            })))
        }
    }
}

/// What is proved about the size of what was found.
fn proof(found: &Found, placement: Placement) -> ProofRecord {
    let open = model::open_freely(&found.excluded);
    ProofRecord {
        candidates: found.candidates,
        smaller: found.excluded.len(),
        entries: found.decided.entry_placing(),
        tried_freely: placement != Placement::Rows,
        // Where rows were not asked about, only what is disproved freely is disproved in rows too.
        proven_in_rows: found.proven && (placement != Placement::Free || open.is_empty()),
        open_for_free_placement: open,
    }
}

/// The rules that fail, for the report of a fault.
fn failures_in_words(audit: &AuditReport) -> String {
    audit
        .failing()
        .map(|rule| format!("{} ({}): {}", rule.id, rule.verdict.words(), rule.text))
        .join("; ")
}
