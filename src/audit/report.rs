//! What an audit says: one result per rule, with the tightest case and every further failure.
//! Knows nothing of how a rule measures.

use crate::standards::Status;
use serde::Serialize;
use std::fmt;

/// Most further failures that one result lists beyond its tightest case; the rest is counted.
pub const MOST_FURTHER: usize = 20;

/// The group of a rule: the file of `audit/` that holds it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RuleGroup {
    /// The arrangement as a document: numbers, names, coordinates, copied figures.
    Record,
    /// Whether the parts may stand in the area.
    Suitability,
    /// Voltages, currents, sections.
    Electrical,
    /// Clearance, creepage, separation of intrinsically safe circuits.
    Distance,
    /// Room: rails, wiring, depth, entries, lid.
    Space,
    /// Dissipated power.
    Heat,
    /// Cables and what closes the entries.
    Entries,
    /// Operating elements.
    Elements,
    /// Nothing forgotten.
    Completeness,
}

impl RuleGroup {
    /// Every group, in the order in which results are listed.
    pub const ALL: [RuleGroup; 9] = [
        RuleGroup::Record,
        RuleGroup::Suitability,
        RuleGroup::Electrical,
        RuleGroup::Distance,
        RuleGroup::Space,
        RuleGroup::Heat,
        RuleGroup::Entries,
        RuleGroup::Elements,
        RuleGroup::Completeness,
    ];

    /// The word with which the ids of its rules begin.
    pub fn word(self) -> &'static str {
        match self {
            RuleGroup::Record => "record",
            RuleGroup::Suitability => "suitability",
            RuleGroup::Electrical => "electrical",
            RuleGroup::Distance => "distance",
            RuleGroup::Space => "space",
            RuleGroup::Heat => "heat",
            RuleGroup::Entries => "entries",
            RuleGroup::Elements => "elements",
            RuleGroup::Completeness => "completeness",
        }
    }
}

impl fmt::Display for RuleGroup {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.pad(self.word())
    }
}

/// What a rule comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// At least one case breaks the rule.
    Fails,
    /// A datum that the rule needs is missing. Counts as failing.
    NotDetermined,
    /// Measured, but what was measured permits nothing: an estimate, or a second method beside the one
    /// that decides. Such a rule can fail; it never counts as one that holds.
    Informs,
    /// Every case keeps the rule, or there is none to which it applies.
    Holds,
}

impl Verdict {
    /// The words used in text.
    pub fn words(self) -> &'static str {
        match self {
            Verdict::Fails => "fails",
            Verdict::NotDetermined => "not determined",
            Verdict::Informs => "informs",
            Verdict::Holds => "holds",
        }
    }
}

impl Verdict {
    /// Whether the arrangement does not pass with it: it fails, or a datum is missing.
    pub fn is_failing(self) -> bool {
        matches!(self, Verdict::Fails | Verdict::NotDetermined)
    }
}

impl fmt::Display for Verdict {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.pad(self.words())
    }
}

/// One measured case of a rule.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Case {
    /// What this case comes to.
    pub verdict: Verdict,
    /// What is required, in the rule's unit; missing where the rule is not one of figures.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub required: Option<f64>,
    /// What was measured, in the rule's unit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub measured: Option<f64>,
    /// How far the measured figure lies on the right side; negative where it fails.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub margin: Option<f64>,
    /// Names of the parts concerned.
    pub subject: Vec<String>,
    /// One sentence with names and figures.
    pub text: String,
}

/// What one rule comes to on an arrangement.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RuleResult {
    /// Stable id, such as `space.entry_spacing`.
    pub id: &'static str,
    /// Group.
    pub group: RuleGroup,
    /// Title.
    pub title: &'static str,
    /// Document, edition and clause.
    pub clause: String,
    /// How sure the figures of the rule are.
    pub status: Status,
    /// What the rule comes to: its worst case.
    pub verdict: Verdict,
    /// Required figure of the tightest case.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub required: Option<f64>,
    /// Measured figure of the tightest case.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub measured: Option<f64>,
    /// Margin of the tightest case; negative where it fails.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub margin: Option<f64>,
    /// Unit of the three figures; empty for a rule that is not one of figures.
    pub unit: &'static str,
    /// Names of the parts of the tightest case.
    pub subject: Vec<String>,
    /// One sentence on the tightest case.
    pub text: String,
    /// Number of cases that were measured.
    pub cases: u64,
    /// Number of cases that fail or are not determined.
    pub failures: u64,
    /// Failures beyond the tightest case, worst first, at most [`MOST_FURTHER`].
    pub further: Vec<Case>,
}

/// Rules that compare the arrangement with itself.
const AGREEMENTS: [&str; 8] = [
    "record.",
    "electrical.internal_section",
    "electrical.wire_current",
    "heat.length",
    "heat.currents",
    "heat.sum",
    "heat.lines",
    "entries.envelope",
];

impl RuleResult {
    /// Whether the rule compares the arrangement with itself, so that its margin says nothing of what is built.
    pub fn is_agreement(&self) -> bool {
        let nothing = self.required == Some(0.0) && self.margin == Some(0.0);
        nothing || AGREEMENTS.iter().any(|start| self.id.starts_with(start))
    }

    /// Whether there is anything to which the rule applies. A rule that applies to nothing breaks nothing, and shows
    /// nothing either.
    pub fn applies(&self) -> bool {
        self.cases > 0 || self.verdict != Verdict::Holds
    }

    /// The verdict in words: `does not apply` where there is nothing to be measured.
    pub fn verdict_words(&self) -> &'static str {
        if self.applies() {
            self.verdict.words()
        } else {
            "does not apply"
        }
    }

    /// Whether the required figure is a least (`≥`) or a greatest one (`≤`); `=` where the figures do not tell.
    pub fn relation(&self) -> &'static str {
        let (Some(required), Some(measured), Some(margin)) =
            (self.required, self.measured, self.margin)
        else {
            return "=";
        };
        let (least, most) = (measured - required, required - measured);
        match least.total_cmp(&most) {
            std::cmp::Ordering::Equal if self.text.contains(", at most ") => "≤",
            std::cmp::Ordering::Equal if self.text.contains(", at least ") => "≥",
            std::cmp::Ordering::Equal => "=",
            _ if (margin - least).abs() < (margin - most).abs() => "≥",
            _ => "≤",
        }
    }
}

/// The record of an audit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AuditReport {
    /// Tag of the box.
    pub tag: String,
    /// Enclosure.
    pub enclosure: String,
    /// Whether copied figures were compared with a catalogue.
    pub compared_with_catalogue: bool,
    /// With which catalogue the copied figures were compared, or that they were with none, in words.
    pub comparison: String,
    /// Whether no rule fails or is not determined.
    pub holds: bool,
    /// One result a rule, in the order of the groups.
    pub rules: Vec<RuleResult>,
    /// The caution that stands in every result.
    pub caution: &'static str,
}

impl AuditReport {
    /// Whether no rule fails. A rule that is not determined fails; one that informs permits nothing and
    /// forbids nothing.
    pub fn holds(&self) -> bool {
        self.failing().next().is_none()
    }

    /// The rules that fail or are not determined, in the order of the report.
    pub fn failing(&self) -> impl Iterator<Item = &RuleResult> {
        self.rules.iter().filter(|rule| rule.verdict.is_failing())
    }

    /// The rules that inform, in the order of the report.
    pub fn informing(&self) -> impl Iterator<Item = &RuleResult> {
        self.rules
            .iter()
            .filter(|rule| rule.verdict == Verdict::Informs)
    }

    /// How many rules hold, each on something that was measured.
    pub fn held_count(&self) -> usize {
        let held = |rule: &&RuleResult| rule.verdict == Verdict::Holds && rule.applies();
        self.rules.iter().filter(held).count()
    }

    /// How many rules apply to nothing in this arrangement.
    pub fn idle_count(&self) -> usize {
        self.rules.iter().filter(|rule| !rule.applies()).count()
    }

    /// The result of one rule.
    pub fn rule(&self, id: &str) -> Option<&RuleResult> {
        self.rules.iter().find(|rule| rule.id == id)
    }
}

/// What a rule is, without an arrangement.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RuleDescription {
    /// Stable id.
    pub id: &'static str,
    /// Group.
    pub group: RuleGroup,
    /// Title.
    pub title: &'static str,
    /// What it requires and how it is measured.
    pub requires: &'static str,
    /// Document, edition and clause.
    pub clause: String,
    /// How sure the figures of the rule are.
    pub status: Status,
    /// Unit of its figures; empty for a rule that is not one of figures.
    pub unit: &'static str,
}
