//! The heat calculation as tables: every term, the row it is held against, the estimate beside it.
//! Calculates nothing but quotients that the record does not write out.

use crate::arrangement::{Arrangement, HeatLine, HeatLineKind};
use crate::audit::AuditReport;
use crate::heat::inside::{CableTemperature, InsideEstimate};
use crate::heat::{Determined, HeatAssessment};
use crate::letters::capital;
use crate::sheets::drawing::{Column, Table};
use crate::sheets::{fixed, number};
use std::collections::BTreeMap;

/// The tables of the calculation, in the order in which they are read.
pub(in crate::sheets) fn tables(
    arrangement: &Arrangement,
    heat: &HeatAssessment,
    report: &AuditReport,
) -> Vec<Table> {
    vec![
        terms(arrangement),
        rating(arrangement, heat),
        currents(arrangement),
        temperatures(arrangement, heat, report),
        faces(heat),
        sentences("assumptions", "Taken for granted", assumptions(heat)),
        sentences("warnings", "Heat: to be looked into", warnings(heat)),
        sources(heat),
    ]
}

/// The kind of a line in a word.
pub(in crate::sheets) fn kind_words(kind: HeatLineKind) -> &'static str {
    match kind {
        HeatLineKind::Conductors => "conductors",
        HeatLineKind::Terminals => "terminals",
        HeatLineKind::Jumpers => "jumpers",
        HeatLineKind::Contacts => "contacts",
        HeatLineKind::Elements => "elements",
    }
}

/// Whether a line is reckoned from current and resistance; else its power is given by the catalogue.
pub(in crate::sheets) fn is_reckoned(line: &HeatLine) -> bool {
    line.kind != HeatLineKind::Elements
}

fn terms(arrangement: &Arrangement) -> Table {
    let heat = &arrangement.heat;
    let mut rows: Vec<Vec<String>> = heat
        .lines
        .iter()
        .map(|line| {
            let reckoned = |text: String| {
                if is_reckoned(line) {
                    text
                } else {
                    "–".into()
                }
            };
            let length = if line.kind == HeatLineKind::Conductors {
                number(heat.conductor_length_mm, 1)
            } else {
                "–".into()
            };
            vec![
                line.item.clone(),
                line.count.to_string(),
                reckoned(number(line.current_a, 3)),
                length,
                reckoned(number(line.resistance_mohm, 4)),
                fixed(line.power_w / f64::from(line.count.max(1)) * 1000.0, 3),
                fixed(line.power_w, 4),
            ]
        })
        .collect();
    rows.push(vec![
        "sum".into(),
        String::new(),
        String::new(),
        String::new(),
        String::new(),
        String::new(),
        fixed(heat.power_w, 4),
    ]);
    Table {
        name: "terms".into(),
        title: format!(
            "Dissipated power for the certificate: number × I² × R at {} °C",
            number(heat.reference_c, 1)
        ),
        columns: vec![
            Column::sentences("Term"),
            Column::numbers("Number"),
            Column::numbers("I A"),
            Column::numbers("Length mm"),
            Column::numbers("R mΩ each"),
            Column::numbers("mW each"),
            Column::numbers("Power W"),
        ],
        rows,
    }
}

/// Currents of the circuits with their simultaneity: where the currents of the terms come from.
fn currents(arrangement: &Arrangement) -> Table {
    let mut groups: BTreeMap<(i64, i64), (f64, f64, Vec<&str>)> = BTreeMap::new();
    for circuit in &arrangement.circuits {
        let micro = |value: f64| (value * 1e6).round() as i64;
        let key = (-micro(circuit.current_a), -micro(circuit.simultaneity));
        groups
            .entry(key)
            .or_insert((circuit.current_a, circuit.simultaneity, Vec::new()))
            .2
            .push(&circuit.tag);
    }
    let rows = groups
        .into_values()
        .map(|(current_a, simultaneity, tags)| {
            vec![
                number(current_a, 3),
                number(simultaneity, 3),
                number(current_a * simultaneity, 3),
                tags.len().to_string(),
                tags.join(", "),
            ]
        })
        .collect();
    Table {
        name: "currents".into(),
        title: "Currents of the circuits".into(),
        columns: vec![
            Column::numbers("Largest A"),
            Column::numbers("Simultaneity"),
            Column::numbers("For the heat A"),
            Column::numbers("Circuits"),
            Column::sentences("Tags"),
        ],
        rows,
    }
}

fn rating(arrangement: &Arrangement, heat: &HeatAssessment) -> Table {
    let record = &arrangement.heat;
    let rated = &heat.rated;
    let watts = |power_w: f64| format!("{} W", fixed(power_w, 2));
    let rows = [
        (
            "Row of the certificate",
            format!(
                "{} up to {} °C: {} W",
                record.row_class,
                number(record.row_ambient_c, 1),
                number(record.rated_power_w, 2)
            ),
        ),
        (
            "Kept free",
            format!("{} %", number(record.reserve_percent, 1)),
        ),
        ("Permitted", watts(record.permitted_power_w)),
        ("Dissipated", watts(record.power_w)),
        ("Margin", watts(record.permitted_power_w - record.power_w)),
        (
            "Used",
            format!(
                "{} % of the permitted power: {}",
                fixed(rated.utilisation * 100.0, 1),
                if rated.holds { "holds" } else { "fails" }
            ),
        ),
        (
            "For information",
            format!(
                "{} with resistances at {} °C, the limit of the class less the margin of the type test",
                watts(record.power_at_limit_w),
                number(record.limit_c, 1)
            ),
        ),
        (
            "Length of conductor",
            format!(
                "{} mm for each connected conductor: the space diagonal of the inside",
                number(record.conductor_length_mm, 1)
            ),
        ),
    ];
    pairs("rating", "Against the certificate (this decides)", rows)
}

/// What the audit estimates anew of the temperatures of cables: the record has these figures, and as they come
/// from formulas of its own they need not be the same to the last digit.
pub(in crate::sheets) fn by_the_audit(report: &AuditReport) -> Option<String> {
    let measured = |id: &str| report.rule(id).and_then(|rule| rule.measured);
    let anew: Vec<String> = [
        ("cable entry", measured("heat.entry_temperature")),
        ("branching point", measured("heat.branching_temperature")),
    ]
    .into_iter()
    .filter_map(|(what, found_c)| Some(format!("{what} {} °C", number(found_c?, 1))))
    .collect();
    (!anew.is_empty()).then(|| {
        format!(
            "{}: estimated anew by formulas of its own, as the record has it",
            anew.join(", ")
        )
    })
}

fn temperatures(arrangement: &Arrangement, heat: &HeatAssessment, report: &AuditReport) -> Table {
    let mut rows = match &heat.inside {
        Determined::Known(inside) => known_temperatures(arrangement, inside),
        Determined::NotDetermined(reason) => {
            vec![("Inside", format!("not determined: {reason}"))]
        }
    };
    if let Some(words) = by_the_audit(report) {
        rows.push(("By the audit", words));
    }
    pairs(
        "temperatures",
        "Temperatures, estimated (beside the rating, which they never replace)",
        rows,
    )
}

fn known_temperatures(
    arrangement: &Arrangement,
    inside: &InsideEstimate,
) -> Vec<(&'static str, String)> {
    let balance = &inside.balance;
    let mut rows = vec![
        (
            "Air inside",
            format!(
                "{} °C: {} K above {} °C at {} W (R at {} °C)",
                fixed(balance.inside_air_c, 1),
                fixed(balance.inside_rise_k, 1),
                number(balance.ambient_c, 1),
                fixed(balance.power_w, 2),
                number(arrangement.heat.limit_c, 1)
            ),
        ),
        (
            "Hottest terminal",
            match &inside.hottest {
                Determined::Known(part) => format!(
                    "{}: {} °C, {} {} °C; {} K above the air at {} A",
                    part.name,
                    fixed(part.temperature_c, 1),
                    within(part.within_limit),
                    number(part.limit_c, 1),
                    fixed(part.local_rise_k, 1),
                    number(part.current_a, 3)
                ),
                Determined::NotDetermined(reason) => format!("not determined: {reason}"),
            },
        ),
        ("Cable entry", cable(&inside.entry)),
        (
            "Branching point",
            match &inside.branching {
                Determined::Known(point) => cable(point),
                Determined::NotDetermined(reason) => format!("not determined: {reason}"),
            },
        ),
    ];
    if !inside.unknown_rises.is_empty() {
        let names: Vec<&str> = inside
            .unknown_rises
            .iter()
            .map(|part| part.name.as_str())
            .collect();
        rows.push(("Rise not known", names.join(", ")));
    }
    rows
}

fn within(holds: bool) -> &'static str {
    if holds { "within" } else { "above" }
}

fn cable(point: &CableTemperature) -> String {
    let [least, most] = point.between_c;
    format!(
        "{} to {} °C, {} {} °C",
        fixed(least, 1),
        fixed(most, 1),
        within(!point.passed),
        number(point.limit_c, 0)
    )
}

fn faces(heat: &HeatAssessment) -> Table {
    let faces = heat.inside.known().map(|inside| &inside.balance.faces);
    let rows = faces
        .into_iter()
        .flatten()
        .map(|face| {
            vec![
                format!("{:?}", face.face).to_lowercase(),
                fixed(face.area_m2, 4),
                fixed(face.power_w, 3),
                fixed(face.outer_surface_c, 1),
                fixed(face.inner_surface_c, 1),
            ]
        })
        .collect();
    Table {
        name: "faces".into(),
        title: "Faces of the heat balance, estimated".into(),
        columns: vec![
            Column::words("Face"),
            Column::numbers("Area m²"),
            Column::numbers("Passes W"),
            Column::numbers("Outside °C"),
            Column::numbers("Inside °C"),
        ],
        rows,
    }
}

fn assumptions(heat: &HeatAssessment) -> Vec<String> {
    heat.inside
        .known()
        .map(|inside| {
            inside
                .assumptions
                .iter()
                .map(|text| (*text).into())
                .collect()
        })
        .unwrap_or_default()
}

fn warnings(heat: &HeatAssessment) -> Vec<String> {
    heat.warnings
        .iter()
        .map(|warning| warning.text.clone())
        .collect()
}

fn sources(heat: &HeatAssessment) -> Table {
    Table {
        name: "sources".into(),
        title: "Where the methods come from".into(),
        columns: vec![Column::sentences("Source"), Column::words("Status")],
        rows: heat
            .sources
            .iter()
            .map(|source| vec![capital(&source.citation()), source.status.to_string()])
            .collect(),
    }
}

/// A table of one column, each line of which begins with a capital.
pub(in crate::sheets) fn sentences(name: &str, title: &str, lines: Vec<String>) -> Table {
    Table {
        name: name.into(),
        title: title.into(),
        columns: vec![Column::sentences("")],
        rows: lines.iter().map(|line| vec![capital(line)]).collect(),
    }
}

/// A table of a name and its value.
pub(in crate::sheets) fn pairs<'a>(
    name: &str,
    title: &str,
    rows: impl IntoIterator<Item = (&'a str, String)>,
) -> Table {
    Table {
        name: name.into(),
        title: title.into(),
        columns: vec![Column::words("What"), Column::sentences("Value")],
        rows: rows
            .into_iter()
            .map(|(what, value)| vec![what.to_string(), value])
            .collect(),
    }
}
