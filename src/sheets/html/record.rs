//! What the page says of rules, heat and marking: every rule with its figures, every term of the heat,
//! every proposed text. Decides nothing: the audit and the assessment do.

use super::markup::{Row, Table, escaped, sentences, terms};
use crate::arrangement::Arrangement;
use crate::audit::{AuditReport, RuleResult, Verdict};
use crate::heat::{Determined, HeatAssessment};
use crate::letters::capital;
use crate::marking::Marking;
use crate::sheets::record::relation;
use crate::sheets::{fixed, heat as heat_words, number, subject};

/// The rules whose margins a reader asks for first: what the box gives off and carries, what keeps parts
/// apart, what room there is for hand and spanner.
const KEY_RULES: [&str; 12] = [
    "heat.power",
    "distance.clearance",
    "distance.creepage",
    "distance.earthed_metal",
    "distance.intrinsic_other",
    "space.wiring",
    "space.lid_clearance",
    "space.entry_spacing",
    "space.element_gap",
    "entries.clamping",
    "electrical.terminal_current",
    "electrical.contact_current",
];

/// The verdict in one sentence.
pub(super) fn verdict(report: &AuditReport) -> String {
    let failing = report.failing().count();
    if failing > 0 {
        let all = report.rules.len();
        return format!("{failing} of {all} rules do not hold; none may be passed over.");
    }
    let informing = match report.informing().count() {
        0 => "",
        _ => " What informs permits nothing.",
    };
    format!(
        "No rule fails: {}.{informing}",
        crate::sheets::record::counted(report)
    )
}

/// A figure of a rule; nothing where it has none.
pub(super) fn figure(value: Option<f64>) -> String {
    value.map(|value| number(value, 3)).unwrap_or_default()
}

/// A row that stands for a rule, and leads to the parts that it measured.
fn of_rule(rule: &RuleResult, cells: Vec<String>) -> Row {
    Row {
        subject: Some(subject::rule(rule.id)),
        cells,
    }
}

/// What does not hold, then the margins that a reader asks for first.
pub(super) fn key_margins(report: &AuditReport) -> Table {
    let key = KEY_RULES
        .iter()
        .filter_map(|id| report.rule(id))
        .filter(|rule| rule.verdict == Verdict::Holds && rule.margin.is_some());
    let rows = report.failing().chain(key).map(|rule| {
        of_rule(
            rule,
            vec![
                capital(rule.title),
                rule.verdict_words().to_string(),
                relation(rule),
                figure(rule.required),
                figure(rule.measured),
                figure(rule.margin),
                rule.unit.to_string(),
                rule.text.clone(),
            ],
        )
    });
    let head = [
        "rule",
        "verdict",
        "≥ ≤",
        "required",
        "measured",
        "margin",
        "unit",
        "tightest case",
    ];
    Table::new("margins", "Key margins", &head, rows.collect())
}

/// Every rule.
pub(super) fn rules(report: &AuditReport) -> String {
    let rows = report.rules.iter().map(|rule| {
        of_rule(
            rule,
            vec![
                rule.id.to_string(),
                capital(rule.title),
                rule.verdict_words().to_string(),
                relation(rule),
                figure(rule.required),
                figure(rule.measured),
                figure(rule.margin),
                rule.unit.to_string(),
                rule.cases.to_string(),
                match rule.failures {
                    0 => String::new(),
                    failures => failures.to_string(),
                },
                rule.text.clone(),
                rule.clause.clone(),
                rule.status.to_string(),
            ],
        )
    });
    let head = [
        "rule",
        "title",
        "verdict",
        "≥ ≤",
        "required",
        "measured",
        "margin",
        "unit",
        "cases",
        "do not hold",
        "tightest case",
        "clause",
        "source is",
    ];
    let compared = if report.compared_with_catalogue {
        "The figures of the parts were compared with a catalogue."
    } else {
        "The figures of the parts are taken as the arrangement states them; `audit` with a catalogue \
         compares them."
    };
    let mut out = format!(
        "<p>{} {}</p>\n",
        escaped(&verdict(report)),
        escaped(compared)
    );
    out.push_str(&Table::new("rules", "Rule by rule", &head, rows.collect()).html());
    let further: Vec<String> = report
        .failing()
        .flat_map(|rule| {
            rule.further
                .iter()
                .map(move |case| format!("{}: {}", rule.id, case.text))
        })
        .collect();
    out + &sentences("Further cases that do not hold", &further)
}

/// The heat: what is permitted, every term, then what is estimated beside it.
pub(super) fn heat(
    arrangement: &Arrangement,
    assessment: &HeatAssessment,
    report: &AuditReport,
) -> String {
    let rated = &arrangement.heat;
    let watts = |power_w: f64| format!("{} W", fixed(power_w, 2));
    let mut out = terms(&[
        ("Dissipated", watts(rated.power_w)),
        ("Permitted", watts(rated.permitted_power_w)),
        ("Margin", watts(rated.permitted_power_w - rated.power_w)),
        (
            "Rated",
            format!(
                "{} W for {} at {} °C, {} % kept free",
                number(rated.rated_power_w, 2),
                rated.row_class,
                number(rated.row_ambient_c, 1),
                number(rated.reserve_percent, 1)
            ),
        ),
        (
            "Resistances",
            format!(
                "at {} °C, {} mm of conductor for each connection",
                number(rated.reference_c, 1),
                number(rated.conductor_length_mm, 1)
            ),
        ),
        (
            "For information",
            format!(
                "{} W with resistances at {} °C, the limit of the class less the margin of the type test",
                fixed(rated.power_at_limit_w, 2),
                number(rated.limit_c, 1)
            ),
        ),
    ]);
    let unless_given = |value: f64, is_given: bool| {
        if is_given {
            String::new()
        } else {
            number(value, 3)
        }
    };
    let mut rows: Vec<Row> = rated
        .lines
        .iter()
        .map(|line| {
            let is_given = line.current_a == 0.0 && line.resistance_mohm == 0.0;
            Row::plain(vec![
                line.item.clone(),
                line.count.to_string(),
                unless_given(line.current_a, is_given),
                unless_given(line.resistance_mohm, is_given),
                fixed(line.power_w, 4),
            ])
        })
        .collect();
    let blank = String::new;
    rows.push(Row::plain(vec![
        "sum".into(),
        blank(),
        blank(),
        blank(),
        fixed(rated.power_w, 4),
    ]));
    let head = [
        "item",
        "count",
        "current, A",
        "resistance each, mΩ",
        "power, W",
    ];
    out.push_str(&Table::new("heat-terms", "Every term", &head, rows).html());
    let mut estimated = heat_words::estimated_lines(assessment);
    let anew = heat_words::calculation::by_the_audit(report);
    estimated.extend(anew.map(|words| format!("By the audit: {words}.")));
    out.push_str(&sentences(
        &format!("Estimated: {}", assessment.note),
        &estimated,
    ));
    out + &estimates(assessment)
}

/// The faces of the heat balance and the terms of the defined arrangement.
fn estimates(assessment: &HeatAssessment) -> String {
    let mut out = String::new();
    if let Determined::Known(inside) = &assessment.inside {
        let rows = inside.balance.faces.iter().map(|face| {
            Row::plain(vec![
                format!("{:?}", face.face).to_lowercase(),
                fixed(face.area_m2, 4),
                fixed(face.flux_w_m2, 2),
                fixed(face.power_w, 3),
                fixed(face.outer_surface_c, 1),
                fixed(face.inner_surface_c, 1),
            ])
        });
        let head = [
            "face",
            "area, m²",
            "flux, W/m²",
            "heat, W",
            "outside, °C",
            "inside, °C",
        ];
        let caption = "Heat balance, face by face";
        out.push_str(&Table::new("balance", caption, &head, rows.collect()).html());
        let assumed: Vec<String> = inside
            .assumptions
            .iter()
            .map(|text| capital(text))
            .collect();
        out.push_str(&sentences("Taken for granted", &assumed));
    }
    let shares = assessment
        .defined_arrangement
        .result
        .shares
        .iter()
        .map(|share| {
            Row::plain(vec![
                number(share.section_mm2, 3),
                number(share.current_a, 3),
                share.used.to_string(),
                number(share.row_current_a, 3),
                share.permitted.to_string(),
                fixed(share.share, 4),
            ])
        });
    let head = [
        "section, mm²",
        "current, A",
        "used",
        "row, A",
        "permitted",
        "share",
    ];
    out + &Table::new("defined", "Defined arrangement", &head, shares.collect()).html()
}

/// The proposed marking.
pub(super) fn marking(marking: &Marking) -> String {
    let mut out = format!(
        "<p>{}.</p>\n<p class=\"plate\">",
        escaped(&capital(marking.note))
    );
    let lines: Vec<String> = marking.lines().iter().map(|line| escaped(line)).collect();
    out.push_str(&lines.join("<br>"));
    out.push_str("</p>\n");
    let missing: Vec<String> = marking
        .not_determined()
        .into_iter()
        .map(|(what, reason)| format!("{what}: {reason}"))
        .collect();
    out.push_str(&sentences("No proposal, not determined", &missing));
    let rows = marking.warnings.iter().map(|notice| {
        Row::plain(vec![
            notice.text.clone(),
            notice.reason.clone(),
            notice.source.to_string(),
        ])
    });
    let head = ["text", "because", "source"];
    out.push_str(
        &Table::new(
            "warnings",
            "Warnings and notes outside",
            &head,
            rows.collect(),
        )
        .html(),
    );
    let rows = marking
        .earth_symbols
        .iter()
        .map(|symbol| Row::plain(vec![symbol.place.clone(), symbol.marks.clone()]));
    let head = ["place", "marks"];
    out.push_str(&Table::new("earth-symbols", "Earth symbols", &head, rows.collect()).html());
    out.push_str(&sentences(
        "Rests on the certificates",
        &marking.certificates,
    ));
    let sources: Vec<String> = marking.sources.iter().map(ToString::to_string).collect();
    out + &sentences("Sources", &sources)
}

#[cfg(test)]
mod tests {
    use super::KEY_RULES;

    #[test]
    fn every_key_rule_is_a_rule_with_a_unit() {
        let rules = crate::audit::rules();
        for id in KEY_RULES {
            let rule = rules.iter().find(|rule| rule.id == id);
            assert!(rule.is_some_and(|rule| !rule.unit.is_empty()), "{id}");
        }
    }
}
