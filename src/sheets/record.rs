//! The record of the audit as tables: cautions, marking, what is not certain, rule by rule. Judges
//! nothing itself.

use super::drawing::{Column, Table};
use super::heat::calculation::{pairs, sentences};
use super::notes::{earthing, routes_apart};
use crate::arrangement::{Arrangement, CAUTION};
use crate::audit::{AuditReport, RuleResult};
use crate::catalogue::Most;
use crate::letters::capital;
use crate::marking::Marking;
use crate::number::short;
use crate::space::Face;
use crate::standards::Status;
use itertools::Itertools;

/// Digits after the point of a rule's figures.
pub(super) const DECIMALS: usize = 3;

/// Name of the table of what is not certain.
pub(super) const UNCERTAIN: &str = "uncertain";

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
    let reserved = marking.reservations.iter();
    proposed.extend(reserved.map(|text| format!("With a reservation: {text}")));
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
            UNCERTAIN,
            "What is not certain",
            uncertain(arrangement, report),
        ),
        rules(report, is_wide),
    ]
}

/// A figure of a rule, or nothing.
pub(super) fn figure(value: Option<f64>) -> String {
    let finite = value.filter(|value| value.is_finite());
    finite
        .map(|value| short(value, DECIMALS))
        .unwrap_or_default()
}

/// The sign of a required figure: `≥` a least, `≤` a greatest one; nothing where there is none.
pub(super) fn relation(rule: &RuleResult) -> String {
    match rule.required {
        Some(_) => rule.relation().to_string(),
        None => String::new(),
    }
}

/// A required figure of a rule with its sign.
fn required(rule: &RuleResult) -> String {
    format!("{} {}", relation(rule), figure(rule.required))
        .trim()
        .to_string()
}

/// How many rules come to what, in words.
pub(super) fn counted(report: &AuditReport) -> String {
    let mut words = vec![format!(
        "{} of {} hold",
        report.held_count(),
        report.rules.len()
    )];
    let mut tell = |count: usize, one: &str, more: &str| match count {
        0 => {}
        1 => words.push(format!("1 {one}")),
        count => words.push(format!("{count} {more}")),
    };
    tell(report.failing().count(), "does not hold", "do not hold");
    tell(report.idle_count(), "does not apply", "do not apply");
    tell(report.informing().count(), "informs", "inform");
    words.join(", ")
}

/// Rule by rule, each with its tightest case. A narrow table puts all words of a rule into one column.
fn rules(report: &AuditReport, is_wide: bool) -> Table {
    let figures = |rule: &RuleResult| {
        [
            required(rule),
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
        row.push(rule.verdict_words().to_string());
        row.push(rule.text.clone());
        row
    };
    let narrow = |rule: &RuleResult| {
        let cases = match rule.cases {
            0 => String::new(),
            1 => "1 case, ".to_string(),
            cases => format!("{cases} cases, tightest: "),
        };
        let words = format!(
            "{}\n{}; {} ({}). {}.",
            rule.id,
            rule.title,
            rule.clause,
            rule.status,
            capital(&format!("{cases}{}", rule.text))
        );
        let [required, measured, margin, unit] = figures(rule);
        let required = format!("{required} {unit}");
        let mut row = vec![words, required.trim().to_string(), measured, margin];
        row.push(rule.verdict_words().to_string());
        row
    };
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
        let [required, measured, margin, _] = figures;
        vec![
            Column::sentences("Rule: title; clause (source). Cases, tightest case"),
            required,
            measured,
            margin,
            Column::words("Verdict"),
        ]
    };
    Table {
        name: "rules".into(),
        title: format!("Rule by rule, measured anew: {}", counted(report)),
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
    lines.extend(earthing(arrangement));
    lines.extend(routes_apart(arrangement));
    lines.extend(mixed_threads(arrangement));
    for rule in report.informing() {
        lines.push(format!("For information: {}.", rule.text));
    }
    if !report.compared_with_catalogue {
        lines.push(
            "This record is made from the arrangement alone; its figures are compared with the catalogue \
             by `propose`, and by `audit` with that catalogue."
                .into(),
        );
    }
    if arrangement.estimates.is_empty() {
        lines.push("No value by which a rule is judged was estimated; lengths of conductors along their routes are \
             estimates.".into());
    }
    let estimated = arrangement.estimates.iter();
    lines.extend(estimated.map(|text| format!("Estimated: {text}")));
    lines.extend(arrangement.remarks.iter().map(|text| capital(text)));
    lines
}

/// Walls with entries of several threads whose numbers the certificate limits: each number was counted alone.
fn mixed_threads(arrangement: &Arrangement) -> Vec<String> {
    let limits = |wall: &Face| {
        let record = arrangement.enclosure.walls.get(wall)?;
        Most::limit(&record.most_entries)
    };
    let counted = |wall: &Face| {
        let limit = limits(wall)?;
        let entries = arrangement.entries.iter();
        let counts = entries
            .filter(|entry| entry.wall == *wall)
            .map(|entry| entry.thread)
            .counts();
        let words = counts
            .iter()
            .sorted()
            .map(|(thread, count)| match limit.get(thread) {
                Some(most) => format!("{count} {thread} of {most}"),
                None => format!("{count} {thread}"),
            })
            .join(", ");
        (counts.len() > 1).then(|| {
            format!(
                "Entries of the {} wall: {words}, each thread counted alone; whether the certificate allows them \
                 together it says itself.",
                wall.name()
            )
        })
    };
    Face::WALLS.iter().filter_map(counted).collect()
}
