//! What the page holds, read from its text: every part, links that lead somewhere, nothing from elsewhere,
//! and no text of the user as markup.

use crate::jobs;
use glandrail::arrangement::{Arrangement, EntryPurpose};
use glandrail::sheets::page;
use serde_json::Value;
use std::collections::BTreeSet;

/// The data that the script reads.
fn data(html: &str) -> Value {
    let (_, rest) = html
        .split_once(r#"<script type="application/json" id="job-data">"#)
        .expect("the page has its data");
    let (text, _) = rest.split_once("</script>").expect("the data end");
    serde_json::from_str(text).expect("the data are JSON")
}

/// What elements of one kind stand for.
fn subjects(html: &str, is_wanted: impl Fn(&str) -> bool) -> BTreeSet<&str> {
    html.split('<')
        .filter(|element| is_wanted(element))
        .filter_map(|element| element.split_once(r#" data-subject=""#))
        .filter_map(|(_, rest)| rest.split_once('"'))
        .map(|(key, _)| key)
        .collect()
}

/// Keys of all terminals, entries and elements.
fn parts(arrangement: &Arrangement) -> Vec<String> {
    let terminals = arrangement.terminals.iter();
    let entries = arrangement.entries.iter();
    let elements = arrangement.elements.iter();
    terminals
        .map(|terminal| format!("terminal {}", terminal.id))
        .chain(entries.map(|entry| format!("entry {}", entry.id)))
        .chain(elements.map(|element| format!("element {}", element.tag)))
        .collect()
}

#[test]
fn every_part_is_drawn_and_has_a_row_and_data() {
    for (name, arrangement) in jobs::examples() {
        let html = page(&arrangement).expect("a page");
        let about = data(&html);
        let rows = subjects(&html, |element| element.starts_with("tr "));
        let drawn = subjects(&html, |element| {
            ["rect ", "circle ", "polygon ", "path "]
                .iter()
                .any(|shape| element.starts_with(shape))
        });
        let wanted = parts(&arrangement);
        assert!(wanted.len() > 5, "{name} has parts");
        for key in wanted {
            assert!(drawn.contains(key.as_str()), "{name}: {key} is not drawn");
            assert!(rows.contains(key.as_str()), "{name}: {key} has no row");
            assert!(about[&key]["data"].is_array(), "{name}: no data of {key}");
        }
        for circuit in &arrangement.circuits {
            let key = format!("circuit {}", circuit.tag);
            assert!(rows.contains(key.as_str()), "{name}: {key} has no row");
        }
        for key in subjects(&html, |_| true) {
            assert!(about[key].is_object(), "{name}: nothing is known of {key}");
        }
    }
}

#[test]
fn links_lead_somewhere_and_both_ways() {
    for (name, arrangement) in jobs::examples() {
        let about = data(&page(&arrangement).expect("a page"));
        let all = about.as_object().expect("an object");
        let links = |key: &str| -> Vec<&str> {
            let links = about[key]["links"].as_array().expect("links");
            links.iter().filter_map(Value::as_str).collect()
        };
        for key in all.keys() {
            for other in links(key) {
                assert!(all.contains_key(other), "{name}: {key} leads to {other}");
                // A rule leads to what it measured; parts do not lead back to all their rules.
                assert!(
                    key.starts_with("rule ") || links(other).contains(&key.as_str()),
                    "{name}: {other}, {key}"
                );
            }
        }
        for entry in &arrangement.entries {
            if let EntryPurpose::Cable(tag) = &entry.purpose {
                let cable = format!("cable {tag}");
                let key = format!("entry {}", entry.id);
                assert!(links(&key).contains(&cable.as_str()), "{name}: {key}");
            }
        }
        for wire in arrangement
            .wires
            .iter()
            .filter(|wire| !wire.circuit.is_empty())
        {
            let circuit = format!("circuit {}", wire.circuit);
            assert!(!links(&circuit).is_empty(), "{name}: {circuit} has members");
        }
    }
}

#[test]
fn text_of_the_user_is_never_markup() {
    const EVIL: &str = "</script><script>alert(1)</script><img src=x onerror=alert(2)>\"'&";
    let mut arrangement = jobs::named("mixer-control-station");
    arrangement.job.tag = EVIL.into();
    arrangement.job.title = EVIL.into();
    arrangement.job.notes = EVIL.into();
    arrangement.catalogue_warning = Some(EVIL.into());
    arrangement.remarks = vec![EVIL.into()];
    arrangement.terminals[0].marking = EVIL.into();
    arrangement.terminals[0].id = EVIL.into();
    arrangement.elements[0].label = EVIL.into();
    arrangement.elements[0].tag = EVIL.into();
    arrangement.entries[0].part.description = EVIL.into();
    arrangement.cables[0].tag = EVIL.into();
    arrangement.circuits[0].tag = EVIL.into();
    let html = page(&arrangement).expect("a page");
    assert!(
        html.contains("&lt;/script&gt;&lt;script&gt;alert(1)"),
        "it is shown as text"
    );
    assert_eq!(
        html.matches("<script").count(),
        2,
        "the data and our own script"
    );
    assert_eq!(html.matches("</script").count(), 2);
    assert!(!html.contains("<img"));
    let title = data(&html)[format!("circuit {EVIL}")]["title"].clone();
    assert_eq!(
        title,
        format!("Circuit {EVIL}"),
        "the data hold it as it is"
    );
}

#[test]
fn the_page_needs_nothing_from_elsewhere() {
    for (name, arrangement) in jobs::examples() {
        let html = page(&arrangement).expect("a page");
        for address in [
            "http:", "https:", "//cdn", " src=", "@import", "url(", "<link", "<iframe",
        ] {
            assert!(!html.contains(address), "{name}: {address}");
        }
        assert!(
            html.contains("default-src 'none'"),
            "{name}: it may not load anything"
        );
    }
}

#[test]
fn the_page_is_the_same_every_time_and_says_what_it_is() {
    let arrangement = jobs::named("tank-farm-junction");
    let html = page(&arrangement).expect("a page");
    assert_eq!(html, page(&arrangement).expect("a page"));
    assert!(html.starts_with("<!DOCTYPE html>\n<html lang=\"en-GB\">"));
    let body = html.split_once("<body>").expect("a body").1;
    let caution = body
        .find("A design aid: the certificate and its holder, local codes and a competent person decide.")
        .expect("the caution");
    let summary = body.find("id=\"summary\"").expect("the summary");
    assert!(
        caution < summary,
        "the caution stands before everything else"
    );
    assert!(body.find("Invented demonstration data").expect("marked") < summary);
    // What does nothing without the script is made by the script.
    let (markup, _) = html.split_once("<script").expect("a script");
    for control in ["<button", "<input", "onclick"] {
        assert!(!markup.contains(control), "{control}");
    }
    let mut ids: Vec<&str> = html
        .split(" id=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .collect();
    let count = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), count, "every id is there once");
    for target in html.split("href=\"#").skip(1) {
        let id = target.split('"').next().expect("an end");
        assert!(
            ids.binary_search(&id).is_ok(),
            "{id} is linked and not there"
        );
    }
}

#[test]
fn a_rule_that_fails_stands_first() {
    let mut arrangement = jobs::named("tank-farm-junction");
    arrangement.heat.reserve_percent = 90.0;
    let html = page(&arrangement).expect("a page");
    assert!(html.contains("rules do not hold"), "the verdict says so");
    assert!(!html.contains("Every one of"), "and nothing else");
}

/// The parts that a rule measured in its tightest case are found by their names in the record.
#[test]
fn a_rule_leads_to_the_parts_that_it_measured() {
    for (name, arrangement) in jobs::examples() {
        let html = page(&arrangement).expect("a page");
        let about = data(&html);
        let report = glandrail::audit::audit(&arrangement, None);
        let rows = subjects(&html, |line| line.starts_with("tr"));
        let mut located = 0;
        for rule in &report.rules {
            let key = format!("rule {}", rule.id);
            assert!(rows.contains(key.as_str()), "{name}: {key} has no row");
            let links: Vec<&str> = about[&key]["links"]
                .as_array()
                .expect("links")
                .iter()
                .filter_map(Value::as_str)
                .collect();
            located += usize::from(!links.is_empty());
            for part in &rule.subject {
                let is_terminal = arrangement.terminals.iter().any(|t| t.id == *part);
                if is_terminal {
                    let wanted = format!("terminal {part}");
                    assert!(links.contains(&wanted.as_str()), "{name}, {key}: {links:?}");
                }
            }
        }
        assert!(located > 30, "{name}: only {located} rules lead to a part");
        let pair = &about["rule distance.clearance"]["links"];
        assert_eq!(pair.as_array().map(Vec::len), Some(2), "{name}: {pair}");
    }
}

/// Every rail that carries terminals is shown enlarged, with each of its terminals.
#[test]
fn every_rail_is_on_the_page_enlarged() {
    for (name, arrangement) in jobs::examples() {
        let html = page(&arrangement).expect("a page");
        for terminal in &arrangement.terminals {
            let begin = format!("id=\"view-rail-{}", terminal.rail);
            let key = format!("data-subject=\"terminal {}\"", terminal.id);
            let is_there = html.match_indices(&begin).any(|(at, _)| {
                html[at..]
                    .split("</figure>")
                    .next()
                    .is_some_and(|it| it.contains(&key))
            });
            assert!(is_there, "{name}: {} on {}", terminal.id, terminal.rail);
        }
    }
}

#[test]
fn what_does_not_hold_is_marked_on_every_drawing_and_printed_page_and_gives_no_lists() {
    const MARK: &str = "DOES NOT HOLD – not for making";
    let mut arrangement = jobs::named("tank-farm-junction");
    let on_pages = format!("@top-center {{ content: \"{MARK}\"");
    let sound = page(&arrangement).expect("a page");
    assert!(sound.contains("id=\"drilling\"") && !sound.contains(&on_pages));
    assert!(!sound.contains("class=\"drawings fails\""));
    assert!(sound.contains("@bottom-left { content: \"JB-2107, revision A. A design aid"));
    arrangement.entries[1].u_mm += 8.0;
    let broken = page(&arrangement).expect("a page");
    assert!(broken.contains(&on_pages), "over every printed page");
    assert!(broken.contains("class=\"drawings fails\""));
    assert!(broken.contains(&format!("figcaption::before {{ content: \"{MARK}\"")));
    for list in ["drilling", "terminals", "cables", "parts"] {
        assert!(!broken.contains(&format!("id=\"{list}\"")), "{list}");
    }
}

#[test]
fn a_tag_cannot_leave_the_style_of_the_printed_page() {
    let mut arrangement = jobs::named("tank-farm-junction");
    arrangement.job.tag = "X\"; } </style> * { display: none } \\".into();
    let html = page(&arrangement).expect("a page");
    assert_eq!(html.matches("</style").count(), 1, "our own");
    let style = html
        .split("<style>")
        .nth(1)
        .and_then(|rest| rest.split("</style>").next());
    let below = style.expect("a style").split("@bottom-left").nth(1);
    let line = below.and_then(|rest| rest.lines().next()).expect("a line");
    assert_eq!(line.matches('"').count(), 2, "{line}");
    assert!(!line.contains("display: none }"), "{line}");
}
