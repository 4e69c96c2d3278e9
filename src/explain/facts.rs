//! The facts of an explanation, with their figures. Nothing here decides or draws.

use super::solve::Holds;
use crate::arrangement::{CandidateName, EntryPlacing};
use crate::model::Excluded;
use serde::Serialize;

/// An explanation.
#[derive(Debug, Clone, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Explanation {
    /// The list cannot be made.
    Impossible(Box<Impossible>),
    /// The list can be made.
    Possible(Box<Possible>),
}

/// Why nothing, or a named enclosure, takes the list.
#[derive(Debug, Clone, Serialize)]
pub struct Impossible {
    /// The enclosure that was asked about; `None`: the whole catalogue.
    pub enclosure: Option<String>,
    /// Number of candidates, enclosures times orientations.
    pub candidates: usize,
    /// Minimal conflicts, the smallest first.
    pub conflicts: Vec<Conflict>,
    /// Whether these are all minimal conflicts.
    pub all_conflicts: bool,
    /// Ways out, the cheapest first.
    pub ways: Vec<Way>,
    /// Whether these are all ways out that change nothing needlessly.
    pub all_ways: bool,
    /// Whether the list is so long that no more ways were looked for, nor these for a cheaper mixture of their
    /// changes.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub cut_short: bool,
    /// Ways out that were left out because what was found did not pass the audit: faults of the program.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub faults: Vec<String>,
    /// Whether some candidate was left open within the time limit of a decision, and counted as one
    /// that does not take the list.
    pub undecided: bool,
    /// Whether the list weighs changes itself.
    pub weighed: bool,
    /// What came of entries in no rows, which conflicts and ways out leave aside; `None` where it was not
    /// asked about.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub freely: Option<TriedFreely>,
    /// Entries of the whole list that no part of the catalogue serves, one sentence each; conflicts name the least
    /// that cannot be met, these all.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub without_part: Vec<String>,
    /// What was tried with two boxes where no pair was found; `None` where one was, or where that was not asked.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub two_boxes: Option<TriedTwo>,
}

/// No division over two boxes was found.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TriedTwo {
    /// Number of divisions that were looked at.
    pub divisions: usize,
    /// Cables and elements that no enclosure takes even by themselves: then no division can serve.
    pub fit_nowhere: Vec<String>,
    /// What stands against the first of these, or else against the division that comes nearest.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub because: Option<String>,
}

/// Entries in no rows were tried for the whole list, and nothing was found.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TriedFreely {
    /// Candidates for which that is not disproved; of all others it is.
    pub open: Vec<CandidateName>,
}

/// Requirements that cannot be met together, though they can without any one of them.
#[derive(Debug, Clone, Serialize)]
pub struct Conflict {
    /// The requirements; none: the catalogue takes nothing at all.
    pub members: Vec<Named>,
    /// What excludes each candidate when only these are asked for.
    pub because: Because,
}

/// A requirement by its name.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Named {
    /// Its id.
    pub id: String,
    /// What it asks for.
    pub words: String,
    /// Line of the list; `None` where what is usual counts.
    pub line: Option<usize>,
    /// That line as written.
    pub quote: Option<String>,
    /// Whether it must not change.
    pub fixed: bool,
}

/// Why nothing serves a conflict.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Because {
    /// No part of the catalogue serves an entry of the list: one sentence each.
    Parts(Vec<String>),
    /// Each candidate is excluded: the reasons by group.
    Candidates(Vec<Group>),
}

/// Candidates that are excluded for one kind of reason.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Group {
    /// The kind of reason.
    pub reason: String,
    /// Number of candidates.
    pub count: usize,
    /// The one that comes nearest, or an example where the reason has no figures.
    pub nearest: Excluded,
    /// Whether it is nearest by a figure.
    pub by_figure: bool,
    /// Of candidates that are too large: whether this one would take these requirements but for its size.
    pub serves_otherwise: bool,
    /// Needed over available of the nearest; missing where there are no figures.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ratio: Option<f64>,
}

/// A way out.
#[derive(Debug, Clone, Serialize)]
pub struct Way {
    /// What is asked for instead.
    pub changes: Vec<Eased>,
    /// Cost in points; docs/explain.md.
    pub cost: f64,
    /// What then holds, solved and audited again.
    pub holds: Holds,
    /// The second box, where two take what one does not.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub second: Option<Second>,
}

/// The second of two boxes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Second {
    /// What holds it, audited like the first.
    pub holds: Holds,
    /// The cables that then join the two, such as `W-JB-1-1-2: 4 x 1.5 mm2`.
    pub connecting: Vec<String>,
}

/// A requirement that is eased.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Eased {
    /// The requirement.
    pub requirement: Named,
    /// How far.
    pub ease: super::Ease,
    /// In words.
    pub words: String,
    /// What would serve in its place at the same cost, the other changes as they are.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub alternatives: Vec<Alternative>,
}

/// What would serve in place of a change.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Alternative {
    /// How far the requirement is eased then.
    pub ease: super::Ease,
    /// The enclosure that then takes the list.
    pub enclosure: String,
}

/// What can be said of a list that can be made.
#[derive(Debug, Clone, Serialize)]
pub struct Possible {
    /// The smallest that holds.
    pub holds: Holds,
    /// Whether it is proved that none before it takes the list with entries in rows.
    pub proven: bool,
    /// Whether its entries are in rows.
    pub entries: EntryPlacing,
    /// Whether smaller candidates were tried with entries placed freely too.
    pub tried_freely: bool,
    /// Candidates before it for which entries in no rows were tried, not found, and not disproved.
    pub open_for_free_placement: Vec<CandidateName>,
    /// The tightest limits, the tightest first.
    pub tight: Vec<Tight>,
    /// Why the next smaller enclosure, or the one named, does not take the list; `None` where there is
    /// no smaller one, or the one named does.
    pub why_not: Option<Impossible>,
    /// The enclosure that was named, should it hold as well.
    pub also_holds: Option<Holds>,
}

/// A rule with little margin.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Tight {
    /// Id of the audit's rule.
    pub rule: String,
    /// Its title.
    pub title: String,
    /// Whether the required figure is a least (`≥`) or a greatest one (`≤`).
    pub relation: &'static str,
    /// Required.
    pub required: f64,
    /// Measured.
    pub measured: f64,
    /// Margin; never negative.
    pub margin: f64,
    /// Unit of the three.
    pub unit: String,
}
