//! The page in a real browser: pointer, keyboard, sorting, filtering, printing, and nothing in the console.
//!
//! Needs `chromium` and `chromedriver` on the path. Where they are absent a test says so and passes, unless
//! `GLANDRAIL_REQUIRE_BROWSER=1`.

use crate::driver::{Browser, Key};
use crate::jobs;
use glandrail::arrangement::Arrangement;
use glandrail::sheets::page;
use serde_json::json;
use std::collections::BTreeMap;

/// A browser that shows the page of an arrangement, and the folder of the file; `None` where there is no
/// browser.
pub fn shown(arrangement: &Arrangement, width: u32) -> Option<(Browser, tempfile::TempDir)> {
    let browser = match Browser::open(width, 1000) {
        Ok(browser) => browser,
        Err(why) => {
            let required = std::env::var("GLANDRAIL_REQUIRE_BROWSER").is_ok_and(|is| is == "1");
            assert!(!required, "a browser is required: {why}");
            eprintln!("skipped: {why}");
            return None;
        }
    };
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("job.html");
    std::fs::write(&file, page(arrangement).expect("a page")).expect("written");
    browser.visit(&format!("file://{}", file.display()));
    Some((browser, folder))
}

/// Selector of the outline of a part in a view.
pub fn drawn(view: &str, key: &str) -> String {
    format!("#view-{view} [data-subject=\"{key}\"]:not(text)")
}

/// Whether every element that a selector finds has a class; false where it finds none.
pub fn all_have(browser: &Browser, selector: &str, class: &str) -> bool {
    let script = format!(
        "const found = [...document.querySelectorAll({})];
         return found.length > 0 && found.every((e) => e.classList.contains({}));",
        json!(selector),
        json!(class)
    );
    browser.run(&script) == true
}

pub fn text(browser: &Browser, selector: &str) -> String {
    let script = format!(
        "return document.querySelector({}).innerText;",
        json!(selector)
    );
    browser.run(&script).as_str().expect("text").to_string()
}

#[track_caller]
pub fn silent(browser: &Browser) {
    let complaints = browser.complaints();
    assert!(complaints.is_empty(), "console: {}", complaints.join("\n"));
}

#[test]
fn a_clicked_terminal_shows_its_data_and_lights_up_what_it_goes_with() {
    let arrangement = jobs::named("tank-farm-junction");
    let terminal = arrangement
        .terminals
        .iter()
        .find(|terminal| terminal.id == "X1:3");
    let terminal = terminal.expect("the third terminal");
    let wires: Vec<_> = arrangement
        .wires
        .iter()
        .filter(|wire| {
            terminal
                .clamps
                .iter()
                .any(|clamp| clamp.wires.contains(&wire.id))
        })
        .collect();
    let circuit = &wires.first().expect("it is wired").circuit;
    let Some((browser, _folder)) = shown(&arrangement, 1400) else {
        return;
    };
    browser.click(&drawn("inside", "terminal X1:3"));
    let panel = text(&browser, "#panel");
    assert!(panel.contains("Terminal X1:3"), "{panel}");
    assert!(panel.contains(&terminal.part), "{panel}");
    assert!(panel.contains(&format!("Circuit {circuit}")), "{panel}");
    for view in ["inside", "pictorial-open"] {
        assert!(
            all_have(&browser, &drawn(view, "terminal X1:3"), "chosen"),
            "{view}"
        );
    }
    assert!(all_have(
        &browser,
        "#terminals tr[data-subject=\"terminal X1:3\"]",
        "chosen"
    ));
    let row = format!("#circuits tr[data-subject=\"circuit {circuit}\"]");
    assert!(all_have(&browser, &row, "lit"), "the circuit in its table");
    // The other terminal of the circuit, and the entries of both of its cables, wherever they are drawn.
    assert!(all_have(&browser, &drawn("inside", "terminal X1:4"), "lit"));
    let mut cables = 0;
    let mut in_walls = BTreeMap::from(["bottom", "right", "top", "left"].map(|wall| (wall, 0)));
    for cable in &arrangement.cables {
        let key = format!("entry {}", cable.entry);
        let wall = arrangement
            .entries
            .iter()
            .find(|entry| entry.id == cable.entry);
        let wall = wall.expect("it is there").wall.name();
        let is_ours = wires.iter().any(|wire| {
            serde_json::to_string(wire)
                .expect("JSON")
                .contains(&format!("\"{}\"", cable.tag))
        });
        cables += u32::from(is_ours);
        *in_walls.entry(wall).or_default() += u64::from(is_ours);
        for selector in [
            drawn("inside", &key),
            drawn(wall, &key),
            format!("#cables tr[data-subject=\"{key}\"]"),
            format!("#drilling tr[data-subject=\"{key}\"]"),
        ] {
            assert_eq!(all_have(&browser, &selector, "lit"), is_ours, "{selector}");
        }
    }
    assert_eq!(cables, 2, "trunk and branch");
    assert!(
        !all_have(&browser, &drawn("inside", "terminal X1:5"), "lit"),
        "another circuit"
    );
    let frames = |selector: &str| {
        let script = format!(
            "return document.querySelectorAll({}).length;",
            json!(selector)
        );
        browser.run(&script).as_u64().expect("a count")
    };
    assert_eq!(frames("#view-inside .marks rect.first"), 1, "the terminal");
    assert_eq!(
        frames("#view-inside .marks rect.frame"),
        4,
        "its neighbour and two entries too"
    );
    for (wall, count) in in_walls {
        let found = frames(&format!("#view-{wall} .marks rect.frame"));
        assert_eq!(found, count, "entries of trunk and branch: {wall}");
    }
    // A link of the panel leads on, Escape lets go.
    browser.click("#panel .links button");
    assert!(!text(&browser, "#panel h2").contains("Terminal X1:3"));
    browser.press(&[Key::Escape]);
    assert_eq!(
        browser.run("return document.querySelectorAll('.chosen, .lit, .frame').length;"),
        0
    );
    assert_eq!(
        browser.run("return document.getElementById('panel').hidden;"),
        true
    );
    silent(&browser);
}

#[test]
fn what_is_pointed_at_is_shown_for_the_while() {
    let Some((browser, _folder)) = shown(&jobs::named("mixer-control-station"), 1400) else {
        return;
    };
    browser.point_at(&drawn("lid", "element S0"));
    assert!(text(&browser, "#panel h2").contains("Element S0"));
    assert!(all_have(
        &browser,
        &drawn("pictorial", "element S0"),
        "chosen"
    ));
    assert!(all_have(
        &browser,
        "#circuits tr[data-subject=\"circuit ES\"]",
        "lit"
    ));
    browser.click("#view-lid [data-subject=\"element S0\"]:not(text)");
    browser.point_at("h1");
    assert!(
        text(&browser, "#panel h2").contains("Element S0"),
        "a chosen one stays"
    );
    browser.click("#panel .close");
    assert_eq!(
        browser.run("return document.getElementById('panel').hidden;"),
        true
    );
    browser.point_at(&drawn("lid", "element S1"));
    browser.point_at("h1");
    assert_eq!(
        browser.run("return document.getElementById('panel').hidden;"),
        true
    );
    silent(&browser);
}

#[test]
fn the_keyboard_reaches_everything() {
    let Some((browser, _folder)) = shown(&jobs::named("mixer-control-station"), 1400) else {
        return;
    };
    browser.press(&[Key::Tab]);
    let first = "return document.activeElement.className;";
    assert_eq!(browser.run(first), "skip", "the skip link comes first");
    // From the button before the first drawing the next stop is a part of it, and there is only one.
    let stops = "return document.querySelectorAll('#view-inside svg [tabindex=\"0\"]').length;";
    assert_eq!(browser.run(stops), 1);
    browser.run("document.querySelector('#view-inside figcaption button').focus();");
    browser.press(&[Key::Tab]);
    let subject = "return document.activeElement.dataset.subject || '';";
    let here = browser.run(subject);
    let here = here.as_str().expect("text");
    assert!(here.contains(' '), "the focus is on a part: {here}");
    let name = "return document.activeElement.getAttribute('aria-label');";
    assert!(
        browser
            .run(name)
            .as_str()
            .is_some_and(|name| name.contains(' '))
    );
    browser.press(&[Key::Right]);
    let next = browser.run(subject);
    let next = next.as_str().expect("text");
    assert!(next.contains(' ') && next != here, "from {here} to {next}");
    browser.press(&[Key::Enter]);
    assert!(all_have(
        &browser,
        &format!("#view-inside [data-subject=\"{next}\"]"),
        "chosen"
    ));
    browser.press(&[Key::Tab]);
    let left = "return document.activeElement.closest('#view-inside') === null;";
    assert_eq!(browser.run(left), true, "Tab leaves the drawing");
    assert!(all_have(
        &browser,
        &format!("#view-inside [data-subject=\"{next}\"]"),
        "chosen"
    ));
    browser.press(&[Key::Escape]);
    assert_eq!(
        browser.run("return document.querySelectorAll('.chosen').length;"),
        0
    );
    // A row is chosen by the button in it.
    browser.run("document.querySelector('#terminals td.name button').focus();");
    browser.press(&[Key::Enter]);
    let row = "return document.querySelector('#terminals tr').nextSibling, \
               document.activeElement.closest('tr').classList.contains('chosen');";
    assert_eq!(browser.run(row), true);
    silent(&browser);
}

/// The row of a rule in the record.
fn rule_row(id: &str) -> String {
    format!("#rules tr[data-subject=\"rule {id}\"]")
}

#[test]
fn a_rule_lights_up_what_it_measured() {
    let arrangement = jobs::named("mixer-control-station");
    let report = glandrail::audit::audit(&arrangement, None);
    let pair = &report.rule("distance.clearance").expect("a rule").subject;
    assert_eq!(pair.len(), 2, "{pair:?}");
    let Some((browser, _folder)) = shown(&arrangement, 1400) else {
        return;
    };
    let lit = |terminal: &str| {
        let key = format!("terminal {terminal}");
        let rail = format!("[id^=\"view-rail-\"] [data-subject=\"{key}\"]:not(text)");
        [drawn("inside", &key), drawn("section", &key), rail]
            .iter()
            .map(|selector| all_have(&browser, selector, "lit"))
            .collect::<Vec<bool>>()
    };
    // Pointed at, for the while, without a panel over the rows.
    browser.point_at(&rule_row("distance.clearance"));
    for terminal in pair {
        let found = lit(terminal);
        assert!(found[0] && found[2], "{terminal}: {found:?}");
    }
    let hidden = "return document.getElementById('panel').hidden;";
    assert_eq!(browser.run(hidden), true);
    assert_eq!(
        browser.run("return document.querySelectorAll('#view-inside .marks rect.frame').length;"),
        2
    );
    browser.point_at("#record h2");
    assert_eq!(
        browser.run("return document.querySelectorAll('.lit').length;"),
        0
    );
    // Chosen, it stays and is told; the drawings are one press away.
    browser.click(&format!(
        "{} td.name button",
        rule_row("space.entry_spacing")
    ));
    assert!(all_have(
        &browser,
        &rule_row("space.entry_spacing"),
        "chosen"
    ));
    let panel = text(&browser, "#panel");
    assert!(
        panel.contains("space.entry_spacing") && panel.contains("Measured on"),
        "{panel}"
    );
    browser.click("#panel .see");
    let in_drawing = "return document.activeElement.closest('figure') !== null;";
    assert_eq!(browser.run(in_drawing), true);
    let held = "return document.querySelectorAll('figure .lit').length > 0;";
    assert_eq!(browser.run(held), true);
    silent(&browser);
}

#[test]
fn rules_are_reached_by_keyboard() {
    let Some((browser, _folder)) = shown(&jobs::named("mixer-control-station"), 1400) else {
        return;
    };
    let button = format!("{} td.name button", rule_row("space.wiring"));
    browser.run(&format!(
        "document.querySelector({}).focus();",
        json!(button)
    ));
    let lit = "return document.querySelectorAll('#view-inside .lit').length;";
    assert_ne!(browser.run(lit), 0, "the focus lights up");
    browser.press(&[Key::Tab]);
    browser.press(&[Key::Enter]);
    let next = "return document.activeElement.closest('tr').classList.contains('chosen');";
    assert_eq!(browser.run(next), true);
    browser.press(&[Key::Escape]);
    assert_eq!(
        browser.run("return document.querySelectorAll('.chosen').length;"),
        0
    );
    silent(&browser);
}
