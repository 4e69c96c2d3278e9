//! Which parts a rule of the record measured in its tightest case: the record names them, the page finds
//! them in drawings and tables. Measures nothing itself.

use super::links::{About, Links};
use super::markup::key_text;
use super::record::figure;
use crate::arrangement::{Arrangement, Wire, WireEnd};
use crate::audit::{AuditReport, RuleResult};
use crate::letters::{capital, unit_of};
use crate::sheets::drawing::SubjectKey;
use crate::sheets::subject;
use std::collections::BTreeSet;

/// Adds every rule of the record, with its figures and the parts of its tightest case. Parts do not lead
/// back to rules: each has dozens that name it.
pub(super) fn with_rules(
    arrangement: &Arrangement,
    report: &AuditReport,
    mut links: Links,
) -> Links {
    let rules: Vec<(String, About)> = report
        .rules
        .iter()
        .map(|rule| {
            let parts = rule
                .subject
                .iter()
                .flat_map(|name| named(arrangement, &links, rule, name))
                .collect();
            (key_text(&subject::rule(rule.id)), about(rule, parts))
        })
        .collect();
    links.extend(rules);
    links
}

/// What is known of a rule.
fn about(rule: &RuleResult, parts: BTreeSet<String>) -> About {
    let of = |value: Option<f64>| {
        let words = figure(value);
        if words.is_empty() {
            words
        } else {
            format!("{words} {}", unit_of(value.unwrap_or_default(), rule.unit))
        }
    };
    let data = vec![
        ("Rule", rule.id.to_string()),
        ("Verdict", rule.verdict.words().to_string()),
        ("Required", of(rule.required)),
        ("Measured", of(rule.measured)),
        ("Margin", of(rule.margin)),
        ("Tightest", rule.text.clone()),
        ("Clause", rule.clause.clone()),
        ("Source is", rule.status.to_string()),
    ];
    About {
        title: capital(rule.title),
        data: data
            .into_iter()
            .filter(|(_, words)| !words.is_empty())
            .collect(),
        links: parts,
    }
}

/// Whether a rule measures elements, which may bear the same names as rails and end stops.
fn is_of_elements(rule: &RuleResult) -> bool {
    ["element", "contact", "lid_area", "emergency", "utilisation"]
        .iter()
        .any(|word| rule.id.contains(word))
}

/// The keys of what the record calls by a name: a part, the end of a conductor, all terminals of a strip.
/// A name that no part bears, such as that of the enclosure, leads nowhere.
fn named(arrangement: &Arrangement, links: &Links, rule: &RuleResult, name: &str) -> Vec<String> {
    let kinds: [fn(&str) -> SubjectKey; 8] = if is_of_elements(rule) {
        [
            subject::element,
            subject::terminal,
            subject::entry,
            subject::cable,
            subject::circuit,
            subject::rail,
            subject::accessory,
            subject::jumper,
        ]
    } else {
        [
            subject::terminal,
            subject::entry,
            subject::rail,
            subject::accessory,
            subject::jumper,
            subject::element,
            subject::cable,
            subject::circuit,
        ]
    };
    let find = |name: &str| {
        kinds
            .iter()
            .map(|kind| key_text(&kind(name)))
            .find(|key| links.contains_key(key))
    };
    if let Some(key) = find(name) {
        return vec![key];
    }
    // A core is named after its cable, a contact after its element.
    if let Some(key) = name.split_once('/').and_then(|(owner, _)| {
        [subject::element, subject::cable]
            .iter()
            .map(|kind| key_text(&kind(owner)))
            .find(|key| links.contains_key(key))
    }) {
        return vec![key];
    }
    if let Some(wire) = arrangement.wires.iter().find(|wire| wire.id == name) {
        return ends(arrangement, wire);
    }
    arrangement
        .terminals
        .iter()
        .filter(|terminal| terminal.strip == name)
        .map(|terminal| key_text(&subject::terminal(&terminal.id)))
        .collect()
}

/// The parts that a conductor joins.
fn ends(arrangement: &Arrangement, wire: &Wire) -> Vec<String> {
    [&wire.from, &wire.to]
        .into_iter()
        .filter_map(|end| match end {
            WireEnd::Core { cable, .. } => arrangement
                .cables
                .iter()
                .find(|known| known.tag == *cable)
                .map(|known| subject::entry(&known.entry)),
            WireEnd::Terminal { terminal, .. } => Some(subject::terminal(terminal)),
            WireEnd::Contact { element, .. } => Some(subject::element(element)),
        })
        .map(|key| key_text(&key))
        .collect()
}
