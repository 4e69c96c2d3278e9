//! All lists of an arrangement together: as CSV files, and as one workbook.

use super::contents::box_words;
use super::heat::calculation;
use super::list::List;
use super::writers::xlsx::{self, Workbook};
use super::{
    behind_lid, fixed, lists, notes, number, parts_list, rail_order, record, tenth, wiring,
};
use crate::arrangement::{Arrangement, CAUTION, HeatLineKind};
use crate::audit::{AuditReport, audit};
use itertools::Itertools;

/// The lists with the names of their CSV files, in the order in which the workbook has them.
pub fn all_lists(arrangement: &Arrangement) -> Vec<(&'static str, List)> {
    let report = audit(arrangement, None);
    vec![
        ("parts-list.csv", parts_list::list(arrangement)),
        ("rail-order.csv", rail_order::list(arrangement)),
        ("terminal-schedule.csv", wiring::terminals(arrangement)),
        ("cable-schedule.csv", wiring::cables(arrangement)),
        ("contact-table.csv", behind_lid::contacts(arrangement)),
        ("internal-wires.csv", behind_lid::wires(arrangement)),
        ("drilling-list.csv", lists::drilling(arrangement)),
        ("workshop-notes.csv", notes::list(arrangement)),
        ("label-list.csv", lists::labels(arrangement)),
        ("spare-capacity.csv", lists::spare(arrangement)),
        ("heat-calculation.csv", heat(arrangement)),
        ("audit-record.csv", record_list(&report)),
    ]
}

/// The workbook: a page about the box and a worksheet for each list.
pub(super) fn workbook(arrangement: &Arrangement, lists: &[(&str, List)]) -> Vec<u8> {
    let job = &arrangement.job;
    let about = about(arrangement);
    let sheets: Vec<&List> = std::iter::once(&about)
        .chain(lists.iter().map(|(_, list)| list))
        .collect();
    let title = format!("{} {}", job.tag, job.title);
    // Tag and revision first: the end of what is long is cut.
    let parts = [box_words(&job.tag, &job.revision), job.title.clone()];
    let header = parts.iter().filter(|part| !part.is_empty()).join(": ");
    let mut footer = vec![CAUTION];
    footer.extend(arrangement.catalogue_warning.as_deref());
    xlsx::write(&Workbook {
        title: title.trim(),
        header: &header,
        footer: &footer,
        sheets: &sheets,
    })
}

/// What the workbook is about, and its cautions.
fn about(arrangement: &Arrangement) -> List {
    let job = &arrangement.job;
    let enclosure = &arrangement.enclosure;
    let [width, height, depth] = enclosure.outer_mm.map(tenth);
    let rows = [
        ("tag", job.tag.clone()),
        ("title", job.title.clone()),
        ("revision", job.revision.clone()),
        ("customer reference", job.customer_reference.clone()),
        (
            "enclosure",
            format!(
                "{}, {width} × {height} × {depth} mm, {}",
                enclosure.id,
                enclosure.orientation.words()
            ),
        ),
        ("catalogue", arrangement.catalogue.clone()),
        (
            "catalogue's warning",
            arrangement.catalogue_warning.clone().unwrap_or_default(),
        ),
        ("caution", CAUTION.to_string()),
    ];
    let rows = rows
        .into_iter()
        .filter(|(_, value)| !value.is_empty())
        .map(|(what, value)| vec![what.to_string(), value])
        .collect();
    List::new("box", &["what", "value"], rows)
}

/// Every term of the heat calculation, their sum, and what it is held against.
fn heat(arrangement: &Arrangement) -> List {
    let heat = &arrangement.heat;
    let mut rows: Vec<Vec<String>> = heat
        .lines
        .iter()
        .map(|line| {
            let reckoned = |text: String| {
                if calculation::is_reckoned(line) {
                    text
                } else {
                    String::new()
                }
            };
            let length = if line.kind == HeatLineKind::Conductors {
                number(heat.conductor_length_mm, 1)
            } else {
                String::new()
            };
            vec![
                calculation::kind_words(line.kind).into(),
                line.item.clone(),
                line.count.to_string(),
                reckoned(number(line.current_a, 3)),
                length,
                reckoned(number(line.resistance_mohm, 4)),
                fixed(line.power_w, 4),
            ]
        })
        .collect();
    let row = format!(
        "{} up to {} °C",
        heat.row_class,
        number(heat.row_ambient_c, 1)
    );
    let kept = format!("{} % of the rated power", number(heat.reserve_percent, 1));
    let reference = format!("resistances at {} °C", number(heat.reference_c, 1));
    for (what, item, power_w) in [
        ("total", reference, heat.power_w),
        ("rated", row, heat.rated_power_w),
        (
            "kept free",
            kept,
            heat.rated_power_w - heat.permitted_power_w,
        ),
        ("permitted", String::new(), heat.permitted_power_w),
        (
            "margin",
            String::new(),
            heat.permitted_power_w - heat.power_w,
        ),
    ] {
        let mut cells = vec![String::new(); 7];
        cells[0] = what.into();
        cells[1] = item;
        cells[6] = fixed(power_w, 4);
        rows.push(cells);
    }
    List::new(
        "heat",
        &[
            "kind",
            "item",
            "#number",
            "#current_a",
            "#length_mm",
            "#resistance_mohm",
            "#power_w",
        ],
        rows,
    )
}

/// The audit's record: a line for each rule.
fn record_list(report: &AuditReport) -> List {
    let rows = report
        .rules
        .iter()
        .map(|rule| {
            vec![
                rule.id.to_string(),
                rule.title.to_string(),
                rule.clause.clone(),
                rule.status.to_string(),
                record::relation(rule),
                record::figure(rule.required),
                record::figure(rule.measured),
                record::figure(rule.margin),
                rule.unit.to_string(),
                rule.cases.to_string(),
                rule.failures.to_string(),
                rule.verdict_words().to_string(),
                rule.text.clone(),
            ]
        })
        .collect();
    List::new(
        "record",
        &[
            "rule",
            "title",
            "clause",
            "source_status",
            "relation",
            "#required",
            "#measured",
            "#margin",
            "unit",
            "#cases",
            "#failures",
            "verdict",
            "tightest_case",
        ],
        rows,
    )
}
