//! docs/rules.md is what the rules say of themselves; docs/arrangement.md names every field of the file.

use crate::fixture::{hot, stainless, station};
use glandrail::arrangement::{CandidateName, EntryPlacing, LayoutRecord, Orientation, ProofRecord};
use glandrail::audit::{self, RuleGroup};
use glandrail::catalogue::DefinedArrangement;
use glandrail::standards::iec_60079_0::TemperatureClass;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// Set this to write docs/rules.md anew.
const WRITE: &str = "GLANDRAIL_WRITE_DOCS";

fn document(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("docs")
        .join(name)
}

fn heading(group: RuleGroup) -> &'static str {
    match group {
        RuleGroup::Record => "the arrangement as a document",
        RuleGroup::Suitability => "may the parts stand in the area",
        RuleGroup::Electrical => "voltages, currents, sections",
        RuleGroup::Distance => "clearance, creepage, intrinsically safe circuits",
        RuleGroup::Space => "room for everything",
        RuleGroup::Heat => "dissipated power",
        RuleGroup::Entries => "cables and what closes the entries",
        RuleGroup::Elements => "operating elements",
        RuleGroup::Completeness => "nothing forgotten",
    }
}

/// docs/rules.md from the rules themselves.
fn rules_document() -> String {
    let rules = audit::rules();
    let mut text = format!(
        "# The rules of the audit\n\n\
         Written by the program from its rules; do not edit. `{WRITE}=1 cargo test --test audit` writes it anew.\n\n\
         `glandrail audit ARRANGEMENT.json` measures these {} rules on an arrangement file and reports for each the\n\
         tightest case with required and measured figure and margin. A rule `holds`, `fails`, is `not determined`\n\
         because a datum is missing, which counts as failing, or `informs`: what was measured permits nothing, because it\n\
         is an estimate or a method by which the box is not rated. Such a rule can fail, and it is never counted among\n\
         those that hold. The status says how sure the figures are: `published`,\n\
         `common practice` (the workshop's rules, which a shop may change), `from memory` (not yet confirmed in a text).\n\
         `glandrail rules` lists them.\n",
        rules.len()
    );
    for group in RuleGroup::ALL {
        text.push_str(&format!("\n## {group}: {}\n", heading(group)));
        for rule in rules.iter().filter(|rule| rule.group == group) {
            let unit = if rule.unit.is_empty() {
                String::new()
            } else {
                format!(" · in {}", rule.unit)
            };
            let mut requires = rule.requires.to_string();
            if let Some(first) = requires.get(..1).map(str::to_uppercase) {
                requires.replace_range(..1, &first);
            }
            text.push_str(&format!(
                "\n### `{}`: {}\n\n{requires}.\n\n{} ({}){unit}\n",
                rule.id, rule.title, rule.clause, rule.status
            ));
        }
    }
    text
}

#[test]
fn the_rules_document_is_true() {
    let expected = rules_document();
    let path = document("rules.md");
    if std::env::var_os(WRITE).is_some() {
        std::fs::write(&path, &expected).expect("docs/rules.md can be written");
    }
    let found = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        found == expected,
        "docs/rules.md is not what the rules say: run with {WRITE}=1 to write it anew"
    );
}

/// A documented field: its type, and whether it may be missing.
#[derive(Debug, Clone)]
struct Field {
    kind: String,
    optional: bool,
}

/// The tables of docs/arrangement.md by heading.
fn tables() -> BTreeMap<String, BTreeMap<String, Field>> {
    let text = std::fs::read_to_string(document("arrangement.md")).expect("docs/arrangement.md");
    let mut tables: BTreeMap<String, BTreeMap<String, Field>> = BTreeMap::new();
    let mut heading = String::new();
    for line in text.lines() {
        if let Some(name) = line.strip_prefix("## ") {
            heading = name.to_string();
        }
        let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
        let [name, kind, unit, meaning] = cells[..] else {
            continue;
        };
        let Some(name) = name
            .strip_prefix('`')
            .and_then(|name| name.strip_suffix('`'))
        else {
            continue;
        };
        assert!(!meaning.is_empty(), "{heading}.{name} has no meaning");
        let unit_needed = [
            "_mm", "_mm2", "_v", "_a", "_w", "_c", "_k", "_kg", "_mohm", "_nm", "_j", "_percent",
        ];
        if unit_needed.iter().any(|ending| name.ends_with(ending)) {
            assert!(!unit.is_empty(), "{heading}.{name} has no unit");
        }
        let field = Field {
            kind: kind.replace(", *optional*", ""),
            optional: kind.contains("*optional*"),
        };
        let known = tables
            .entry(heading.clone())
            .or_default()
            .insert(name.to_string(), field);
        assert!(known.is_none(), "{heading}.{name} stands twice");
    }
    tables
}

/// Compares a value with its documented type; notes every field that was seen.
fn compare(
    tables: &BTreeMap<String, BTreeMap<String, Field>>,
    seen: &mut BTreeSet<String>,
    at: &str,
    kind: &str,
    value: &Value,
) {
    if let Some(of) = kind.strip_prefix("list of ") {
        let items = value
            .as_array()
            .unwrap_or_else(|| panic!("{at} is no list"));
        return items
            .iter()
            .for_each(|item| compare(tables, seen, at, of, item));
    }
    if let Some((_, of)) = kind
        .strip_prefix("by ")
        .and_then(|rest| rest.split_once(": "))
    {
        let items = value
            .as_object()
            .unwrap_or_else(|| panic!("{at} is no object"));
        return items
            .values()
            .for_each(|item| compare(tables, seen, at, of, item));
    }
    let fits = match kind {
        "text" | "word" => value.is_string(),
        "number" => value.is_number(),
        "whole number" => value.is_u64(),
        "true or false" => value.is_boolean(),
        "two numbers" => value.as_array().is_some_and(|items| items.len() == 2),
        "three numbers" => value.as_array().is_some_and(|items| items.len() == 3),
        _ => {
            let name = kind
                .trim_start_matches('[')
                .split(']')
                .next()
                .unwrap_or_default();
            let table = tables
                .get(name)
                .unwrap_or_else(|| panic!("{at}: there is no table `{name}` ({kind})"));
            if name == "purpose" && value.is_string() {
                return;
            }
            let fields = value
                .as_object()
                .unwrap_or_else(|| panic!("{at} is no object"));
            for (field, item) in fields {
                let documented = table
                    .get(field)
                    .unwrap_or_else(|| panic!("{name}.{field} is not documented ({at})"));
                seen.insert(format!("{name}.{field}"));
                compare(
                    tables,
                    seen,
                    &format!("{at}.{field}"),
                    &documented.kind,
                    item,
                );
            }
            for (field, documented) in table {
                assert!(
                    documented.optional || fields.contains_key(field),
                    "{at} has no {field}"
                );
            }
            return;
        }
    };
    assert!(fits, "{at} is documented as {kind}, it is {value}");
}

#[test]
fn the_arrangement_document_names_every_field() {
    let tables = tables();
    let mut seen = BTreeSet::new();
    let mut full = station();
    full.enclosure.defined_arrangement.push(DefinedArrangement {
        class: TemperatureClass::T6,
        ambient_c: 40.0,
        section_mm2: 2.5,
        current_a: 16.0,
        most_conductors: 40,
    });
    full.enclosure.internal_earth_mm2 = Some(16.0);
    full.lead_times_days.insert("DEMO-G-1".into(), 10);
    let wall = full.enclosure.walls.values_mut().next().expect("a wall");
    wall.blocked.push(wall.areas[0]);
    full.layout = Some(LayoutRecord {
        conductors_mm: 4000.0,
        conductors_at_least_mm: Some(3900.0),
        crossings: 12,
    });
    full.elements[0].positions = Some(3);
    full.proof = Some(ProofRecord {
        candidates: 12,
        smaller: 3,
        entries: EntryPlacing::Rows,
        tried_freely: true,
        proven_in_rows: true,
        open_for_free_placement: vec![CandidateName {
            enclosure: "DEMO-G-1".into(),
            orientation: Orientation::Upright,
        }],
    });
    for arrangement in [full, stainless(), hot()] {
        let value = serde_json::to_value(&arrangement).expect("plain data");
        compare(
            &tables,
            &mut seen,
            "arrangement",
            "[arrangement](#arrangement)",
            &value,
        );
    }
    let documented: BTreeSet<String> = tables
        .iter()
        .flat_map(|(name, fields)| fields.keys().map(move |field| format!("{name}.{field}")))
        .collect();
    let unknown: Vec<&String> = documented.difference(&seen).collect();
    assert!(
        unknown.is_empty(),
        "documented, but in no file: {unknown:?}"
    );
    assert!(seen.len() > 220, "{}", seen.len());
}
