//! The record of the audit as tables: cautions, marking, what is not certain, rule by rule. Judges
//! nothing itself.

use super::drawing::{Column, Table};
use super::heat::calculation::{pairs, sentences};
use super::number;
use crate::arrangement::{Arrangement, CAUTION};
use crate::audit::{AuditReport, RuleResult, Verdict};
use crate::letters::capital;
use crate::marking::Marking;
use crate::standards::Status;

/// Digits after the point of a rule's figures.
pub(super) const DECIMALS: usize = 3;

/// The tables of the record, in the order in which they are read, for wide or for narrow paper.
pub(super) fn tables(
    arrangement: &Arrangement,
    report: &AuditReport,
    marking: &Marking,
    is_wide: bool,
) -> Vec<Table> {
    let mut proposed = marking.lines();
    proposed.extend(
        marking
            .not_determined()
            .into_iter()
            .map(|(what, reason)| format!("{what}: no proposal, not determined: {reason}")),
    );
    proposed.extend(
        marking
            .warnings
            .iter()
            .map(|notice| format!("{} ({})", notice.text, notice.reason)),
    );
    proposed.push(capital(marking.note));
    let cautions = arrangement
        .catalogue_warning
        .iter()
        .cloned()
        .chain([CAUTION.to_string()])
        .collect();
    // What is short and weighs most comes first; the rules, which may begin on any sheet, come last.
    vec![
        failing(report),
        subject(arrangement),
        sentences("cautions", "Cautions", cautions),
        sentences("marking", "Marking, proposed", proposed),
        sentences(
            "uncertain",
            "What is not certain",
            uncertain(arrangement, report),
        ),
        rules(report, is_wide),
    ]
}

/// A figure of a rule, or nothing.
pub(super) fn figure(value: Option<f64>) -> String {
    value
        .map(|value| number(value, DECIMALS))
        .unwrap_or_default()
}

/// Rule by rule. A wide table has the tightest case of every rule; a narrow one puts title, clause and
/// source into one column and leaves the cases to the list.
fn rules(report: &AuditReport, is_wide: bool) -> Table {
    let figures = |rule: &RuleResult| {
        [
            figure(rule.required),
            figure(rule.measured),
            figure(rule.margin),
            rule.unit.to_string(),
        ]
    };
    let wide = |rule: &RuleResult| {
        let mut row = vec![
            rule.id.to_string(),
            rule.title.to_string(),
            rule.clause.clone(),
            rule.status.to_string(),
        ];
        row.extend(figures(rule));
        row.push(rule.cases.to_string());
        row.push(rule.verdict.to_string());
        row.push(rule.text.clone());
        row
    };
    let narrow = |rule: &RuleResult| {
        let words = format!("{}: {} ({})", rule.title, rule.clause, rule.status);
        let mut row = vec![rule.id.to_string(), words];
        row.extend(figures(rule));
        row.push(rule.verdict.to_string());
        row
    };
    let held = report
        .rules
        .iter()
        .filter(|rule| rule.verdict == Verdict::Holds)
        .count();
    let figures = [
        Column::numbers("Required"),
        Column::numbers("Measured"),
        Column::numbers("Margin"),
        Column::words("Unit"),
    ];
    let columns: Vec<Column> = if is_wide {
        let before = [
            Column::words("Rule"),
            Column::sentences("Title"),
            Column::sentences("Clause"),
            Column::words("Source"),
        ];
        let after = [
            Column::numbers("Cases"),
            Column::words("Verdict"),
            Column::sentences("Tightest case"),
        ];
        before.into_iter().chain(figures).chain(after).collect()
    } else {
        [
            Column::words("Rule"),
            Column::sentences("Title: clause (source)"),
        ]
        .into_iter()
        .chain(figures)
        .chain([Column::words("Verdict")])
        .collect()
    };
    let informing = match report.informing().count() {
        0 => String::new(),
        1 => ", 1 informs".to_string(),
        count => format!(", {count} inform"),
    };
    Table {
        name: "rules".into(),
        title: format!(
            "Rule by rule, measured anew on this arrangement: {held} of {} hold{informing}",
            report.rules.len()
        ),
        columns,
        rows: report
            .rules
            .iter()
            .map(|rule| if is_wide { wide(rule) } else { narrow(rule) })
            .collect(),
    }
}

/// What the record is a record of: revision, enclosure with its certificate, area, catalogue, program.
fn subject(arrangement: &Arrangement) -> Table {
    let (job, enclosure) = (&arrangement.job, &arrangement.enclosure);
    let certificate = &enclosure.certificate;
    let groups = [
        certificate.gas_group.map(|group| group.to_string()),
        certificate.dust_group.map(|group| group.to_string()),
    ];
    let certified: Vec<String> = certificate
        .protection
        .iter()
        .map(|kind| format!("Ex {kind}"))
        .chain(groups.into_iter().flatten())
        .chain(certificate.epl.iter().map(ToString::to_string))
        .collect();
    let rows = [
        ("Box", format!("{} {}", job.tag, job.title)),
        ("Revision", job.revision.clone()),
        (
            "Enclosure",
            format!(
                "{}, certificate {} ({})",
                enclosure.id,
                certificate.number.as_deref().unwrap_or("not stated"),
                certified.join(", ")
            ),
        ),
        ("Catalogue", arrangement.catalogue.clone()),
        (
            "Program",
            format!(
                "glandrail {}, arrangement file {}",
                env!("CARGO_PKG_VERSION"),
                arrangement.format
            ),
        ),
    ];
    let rows = rows
        .into_iter()
        .filter(|(_, value)| !value.trim().is_empty());
    pairs("subject", "What this is a record of", rows)
}

fn failing(report: &AuditReport) -> Table {
    Table {
        name: "failing".into(),
        title: "Rules that do not hold".into(),
        columns: vec![
            Column::words("Rule"),
            Column::words("Verdict"),
            Column::sentences("Tightest case"),
        ],
        rows: report
            .failing()
            .map(|rule| {
                vec![
                    rule.id.to_string(),
                    rule.verdict.to_string(),
                    rule.text.clone(),
                ]
            })
            .collect(),
    }
}

/// Estimates, remarks, and how many rules rest on figures that are not published ones at hand.
fn uncertain(arrangement: &Arrangement, report: &AuditReport) -> Vec<String> {
    let count = |status: Status| {
        report
            .rules
            .iter()
            .filter(|rule| rule.status == status)
            .count()
    };
    let mut lines = vec![format!(
        "{} of {} rules have figures or clauses from memory, to be checked against the document before \
         they are relied on; {} rest on common practice (see Source).",
        count(Status::FromMemory),
        report.rules.len(),
        count(Status::CommonPractice)
    )];
    for rule in report.informing() {
        lines.push(format!(
            "For information, permitting nothing: {}.",
            rule.text
        ));
    }
    if !report.compared_with_catalogue {
        lines.push(
            "This record is made from the arrangement alone; its figures are compared with the catalogue \
             by `propose` and by `audit --catalogue`."
                .into(),
        );
    }
    if arrangement.estimates.is_empty() {
        lines.push("No value of this arrangement was estimated.".into());
    }
    let estimated = arrangement.estimates.iter();
    lines.extend(estimated.map(|text| format!("Estimated: {text}")));
    lines.extend(arrangement.remarks.iter().map(|text| capital(text)));
    lines
}
