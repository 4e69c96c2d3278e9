//! A rule and the cases it collects. Knows nothing of any particular rule.

use super::context::Context;
pub(super) use super::figures::{figure_text, figures_within};
use super::figures::{figures_that_differ, figures_that_hold};
use super::report::{Case, MOST_FURTHER, RuleDescription, RuleGroup, RuleResult, Verdict};
use crate::letters::unit_of;
use crate::standards::Source;
use std::cmp::Ordering;

/// What binary fractions may add to or take from a figure that lies exactly on its limit, in the
/// unit of the figure (a millionth of a millimetre, ampere, watt …). Always in favour of the part.
pub(super) const SLACK: f64 = 1e-6;

/// Most failures that are kept while a rule runs; further ones are only counted.
const MOST_KEPT: usize = 500;

/// One rule: its words and the function that measures it.
pub(super) struct Rule {
    /// Stable id: group, full stop, name.
    pub id: &'static str,
    /// Title.
    pub title: &'static str,
    /// What it requires and how it is measured.
    pub requires: &'static str,
    /// Where its figures come from.
    pub source: Source,
    /// Unit of its figures; empty for a rule that is not one of figures.
    pub unit: &'static str,
    /// Measures every case.
    pub check: fn(&Context<'_>, &mut Cases),
}

impl Rule {
    /// The rule in words.
    pub fn description(&self, group: RuleGroup) -> RuleDescription {
        RuleDescription {
            id: self.id,
            group,
            title: self.title,
            requires: self.requires,
            clause: self.source.citation(),
            status: self.source.status,
            unit: self.unit,
        }
    }

    /// Runs the rule.
    pub fn run(&self, group: RuleGroup, context: &Context<'_>) -> RuleResult {
        let mut cases = Cases::new(self.unit);
        (self.check)(context, &mut cases);
        self.result(group, cases)
    }

    /// What the cases come to: the worst of them.
    fn result(&self, group: RuleGroup, cases: Cases) -> RuleResult {
        let Cases {
            count,
            failures,
            mut kept,
            tightest,
            nothing,
            ..
        } = cases;
        kept.sort_by(worse_first);
        let mut failing = kept.into_iter();
        let first = failing.next().or(tightest).unwrap_or_else(|| Case {
            verdict: Verdict::Holds,
            required: None,
            measured: None,
            margin: None,
            subject: Vec::new(),
            text: nothing
                .unwrap_or_else(|| "there is nothing to which the rule applies".to_string()),
        });
        RuleResult {
            id: self.id,
            group,
            title: self.title,
            clause: self.source.citation(),
            status: self.source.status,
            verdict: first.verdict,
            required: first.required,
            measured: first.measured,
            margin: first.margin,
            unit: self.unit,
            subject: first.subject,
            text: first.text,
            cases: count,
            failures,
            further: failing.take(MOST_FURTHER).collect(),
        }
    }
}

/// Failures first, then what is not determined, then by margin; a margin that is not a number or
/// missing counts as the worst among failures.
fn worse_first(a: &Case, b: &Case) -> Ordering {
    let margin = |case: &Case| match case.margin {
        Some(margin) if !margin.is_nan() => margin,
        _ => f64::NEG_INFINITY,
    };
    a.verdict
        .cmp(&b.verdict)
        .then(margin(a).total_cmp(&margin(b)))
}

/// The cases of one rule on one arrangement.
pub(super) struct Cases {
    unit: &'static str,
    count: u64,
    failures: u64,
    kept: Vec<Case>,
    tightest: Option<Case>,
    nothing: Option<String>,
}

impl Cases {
    fn new(unit: &'static str) -> Self {
        Self {
            unit,
            count: 0,
            failures: 0,
            kept: Vec::new(),
            tightest: None,
            nothing: None,
        }
    }

    /// A figure that must not be below a limit. `what` is worded only where it will be shown.
    pub fn at_least(
        &mut self,
        subject: &[&str],
        measured: f64,
        required: f64,
        what: impl FnOnce() -> String,
    ) {
        self.figure(
            subject,
            measured,
            required,
            measured - required,
            "at least",
            what,
        );
    }

    /// A figure that must not be above a limit.
    pub fn at_most(
        &mut self,
        subject: &[&str],
        measured: f64,
        required: f64,
        what: impl FnOnce() -> String,
    ) {
        self.figure(
            subject,
            measured,
            required,
            required - measured,
            "at most",
            what,
        );
    }

    fn figure(
        &mut self,
        subject: &[&str],
        measured: f64,
        required: f64,
        margin: f64,
        relation: &str,
        what: impl FnOnce() -> String,
    ) {
        let wanted = if relation == "at most" {
            "permitted"
        } else {
            "required"
        };
        let unit = self.unit;
        let figures = Some((required, measured, margin));
        // An endless sum is no figure: neither does it keep a limit, nor is it one that can be kept.
        if !measured.is_finite() || !required.is_finite() {
            return self.add(Verdict::Fails, figures, subject, || {
                format!(
                    "{}: cannot be reckoned from the figures of the file",
                    what()
                )
            });
        }
        // Written so that a margin that is not a number fails.
        let holds = margin >= -SLACK;
        let verdict = if holds {
            Verdict::Holds
        } else {
            Verdict::Fails
        };
        self.add(verdict, figures, subject, || {
            let (measured_text, required_text) = if holds {
                figures_that_hold(measured, required)
            } else {
                figures_that_differ(measured, required)
            };
            format!(
                "{}: {measured_text} {}, {relation} {required_text} {} {wanted}",
                what(),
                unit_of(measured, unit),
                unit_of(required, unit)
            )
        });
    }

    /// A figure that permits nothing, held against a limit that it should not pass.
    pub fn informs_at_most(
        &mut self,
        subject: &[&str],
        measured: f64,
        required: f64,
        text: impl FnOnce() -> String,
    ) {
        let figures = (required, measured, required - measured);
        self.add(Verdict::Informs, Some(figures), subject, text);
    }

    /// A figure that permits nothing, held against a limit that it should reach.
    pub fn informs_at_least(
        &mut self,
        subject: &[&str],
        measured: f64,
        required: f64,
        text: impl FnOnce() -> String,
    ) {
        let figures = (required, measured, measured - required);
        self.add(Verdict::Informs, Some(figures), subject, text);
    }

    /// A finding that permits nothing.
    pub fn informs(&mut self, subject: &[&str], text: impl FnOnce() -> String) {
        self.add(Verdict::Informs, None, subject, text);
    }

    /// Something that either is so or is not; `text` says what was found.
    pub fn is_so(&mut self, holds: bool, subject: &[&str], text: impl FnOnce() -> String) {
        let verdict = if holds {
            Verdict::Holds
        } else {
            Verdict::Fails
        };
        self.add(verdict, None, subject, text);
    }

    /// A case for which a datum is missing.
    pub fn unknown(&mut self, subject: &[&str], text: impl FnOnce() -> String) {
        self.add(Verdict::NotDetermined, None, subject, text);
    }

    /// What is said where the rule finds no case at all.
    pub fn nothing(&mut self, text: impl Into<String>) {
        self.nothing = Some(text.into());
    }

    fn add(
        &mut self,
        verdict: Verdict,
        figures: Option<(f64, f64, f64)>,
        subject: &[&str],
        text: impl FnOnce() -> String,
    ) {
        if self.counts(verdict, figures) {
            self.keep(verdict, figures, subject, text());
        }
    }

    /// Counts a case and says whether it will be shown, so that only then it is worded.
    fn counts(&mut self, verdict: Verdict, figures: Option<(f64, f64, f64)>) -> bool {
        self.count += 1;
        if verdict.is_failing() {
            self.failures += 1;
            return self.kept.len() < MOST_KEPT;
        }
        let margin = figures.map(|(_, _, margin)| margin);
        match &self.tightest {
            None => true,
            Some(known) if known.verdict != verdict => verdict < known.verdict,
            Some(known) => match (margin, known.margin) {
                (Some(new), Some(old)) => new < old,
                (Some(_), None) => true,
                (None, _) => false,
            },
        }
    }

    fn keep(
        &mut self,
        verdict: Verdict,
        figures: Option<(f64, f64, f64)>,
        subject: &[&str],
        text: String,
    ) {
        let case = Case {
            verdict,
            required: figures.map(|(required, _, _)| required),
            measured: figures.map(|(_, measured, _)| measured),
            margin: figures.map(|(_, _, margin)| margin),
            subject: subject.iter().map(|name| (*name).to_string()).collect(),
            text,
        };
        if verdict.is_failing() {
            self.kept.push(case);
        } else {
            self.tightest = Some(case);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The text of a rule with one figure that must not pass a limit.
    fn text_at_most(measured: f64, required: f64) -> (Verdict, String) {
        let mut cases = Cases::new("mm");
        cases.at_most(&["A"], measured, required, || "distance".into());
        let case = cases
            .kept
            .into_iter()
            .chain(cases.tightest)
            .next()
            .expect("one case");
        (case.verdict, case.text)
    }

    #[test]
    fn noise_of_the_arithmetic_is_not_written_and_what_fails_is() {
        let (verdict, text) = text_at_most(1.421_085_471_520_200_4e-14, 0.0);
        assert_eq!(verdict, Verdict::Holds);
        assert_eq!(text, "distance: 0 mm, at most 0 mm permitted");
        let (_, text) = text_at_most(2.999_999_999_999, 3.0);
        assert_eq!(text, "distance: 3 mm, at most 3 mm permitted");
        let (_, text) = text_at_most(2.9996, 3.0);
        assert_eq!(text, "distance: 2.9996 mm, at most 3 mm permitted");
        let (verdict, text) = text_at_most(2e-6, 0.0);
        assert_eq!(verdict, Verdict::Fails);
        assert_eq!(text, "distance: 0.000002 mm, at most 0 mm permitted");
    }

    #[test]
    fn an_endless_figure_fails_on_either_side_and_is_told_in_words() {
        let pairs = [
            (f64::INFINITY, 3.0),
            (3.0, f64::INFINITY),
            (f64::NEG_INFINITY, 3.0),
        ];
        for (measured, required) in pairs {
            let (verdict, text) = text_at_most(measured, required);
            assert_eq!(verdict, Verdict::Fails);
            assert_eq!(
                text,
                "distance: cannot be reckoned from the figures of the file"
            );
        }
    }

    #[test]
    fn not_a_number_never_holds() {
        let mut cases = Cases::new("mm");
        cases.at_least(&["A"], f64::NAN, 3.0, || "distance".into());
        cases.at_most(&["A"], 3.0, f64::NAN, || "distance".into());
        assert_eq!((cases.count, cases.failures), (2, 2));
    }

    #[test]
    fn what_informs_hides_no_failure_and_is_not_hidden_by_what_holds() {
        let rule = Rule {
            id: "heat.test",
            title: "test",
            requires: "nothing",
            source: crate::standards::iec_60079_7::BUNDLE,
            unit: "K",
            check: |_, _| {},
        };
        let mut mixed = Cases::new("K");
        mixed.at_most(&["A"], 1.0, 1.0, || "tight".into());
        mixed.informs_at_most(&["B"], 9.0, 3.0, || "far beyond".into());
        mixed.at_most(&["C"], 1.0, 1.0, || "tight".into());
        let mixed = rule.result(RuleGroup::Heat, mixed);
        assert_eq!(mixed.verdict, Verdict::Informs);
        let figures = (mixed.margin, mixed.failures, mixed.cases);
        assert_eq!(figures, (Some(-6.0), 0, 3));
        let mut failing = Cases::new("K");
        failing.informs(&["B"], || "an estimate".into());
        failing.at_most(&["A"], 2.0, 1.0, || "too much".into());
        let failing = rule.result(RuleGroup::Heat, failing);
        assert_eq!((failing.verdict, failing.failures), (Verdict::Fails, 1));
    }

    #[test]
    fn a_figure_on_its_limit_holds_and_a_hundredth_beyond_fails() {
        let mut cases = Cases::new("mm");
        cases.at_least(&["A"], 0.1 + 0.2, 0.3, || "distance".into());
        cases.at_least(&["A"], 2.99, 3.0, || "distance".into());
        assert_eq!((cases.count, cases.failures), (2, 1));
    }
}
