//! Tables of the page in a browser: sorted by number or word, and filtered.

use crate::browser::{shown, silent};
use crate::driver::Browser;
use crate::jobs;
use serde_json::{Value, json};

/// The cells of a column, top to bottom, of rows that are not hidden.
fn column(browser: &Browser, table: &str, head: &str) -> Vec<String> {
    let script = format!(
        "const table = document.getElementById({});
         const at = [...table.tHead.rows[0].cells].findIndex((c) => c.textContent === {});
         return [...table.tBodies[0].rows].filter((r) => r.offsetHeight > 0)
             .map((r) => r.cells[at].textContent);",
        json!(table),
        json!(head)
    );
    let found = browser.run(&script);
    let found = found.as_array().expect("a list");
    found
        .iter()
        .map(|cell| cell.as_str().expect("text").to_string())
        .collect()
}

/// Clicks the head of a column.
fn sort(browser: &Browser, table: &str, head: &str) -> Value {
    let script = format!(
        "const head = [...document.getElementById({}).tHead.rows[0].cells]
             .find((c) => c.textContent === {});
         head.querySelector('button').click();
         return head.getAttribute('aria-sort');",
        json!(table),
        json!(head)
    );
    browser.run(&script)
}

#[test]
fn tables_sort_by_number_or_word_and_filter() {
    let arrangement = jobs::named("tank-farm-junction");
    let Some((browser, _folder)) = shown(&arrangement, 1400) else {
        return;
    };
    assert_eq!(sort(&browser, "rules", "Required"), "ascending");
    let filled = |cells: &[String]| -> Vec<f64> {
        let filled = cells.iter().filter(|cell| !cell.is_empty());
        filled.map(|cell| cell.parse().expect("a number")).collect()
    };
    let rising = column(&browser, "rules", "Required");
    let figures = filled(&rising);
    assert!(figures.len() > 20 && figures.is_sorted(), "{figures:?}");
    assert!(
        figures.iter().any(|figure| *figure >= 100.0),
        "more digits than others"
    );
    assert!(
        rising.iter().skip(figures.len()).all(String::is_empty),
        "unknown ones last"
    );
    assert_eq!(sort(&browser, "rules", "Required"), "descending");
    let falling = column(&browser, "rules", "Required");
    assert!(filled(&falling).iter().rev().is_sorted());
    assert!(falling.last().is_some_and(String::is_empty), "still last");
    // Words with numbers in them: X1:2 before X1:10.
    sort(&browser, "terminals", "Terminal");
    let names = column(&browser, "terminals", "Terminal");
    let place = |name: &str| names.iter().position(|other| other == name).expect("there");
    assert!(place("X1:2") < place("X1:10") && place("PE:1") < place("X1:1"));
    assert_eq!(names.len(), arrangement.terminals.len());
    browser.type_into("#terminals-filter", "w2115");
    let wanted = arrangement
        .terminals
        .iter()
        .filter(|terminal| {
            arrangement.wires.iter().any(|wire| {
                terminal
                    .clamps
                    .iter()
                    .any(|clamp| clamp.wires.contains(&wire.id))
                    && serde_json::to_string(&wire.from)
                        .expect("JSON")
                        .contains("\"W2115\"")
            })
        })
        .count();
    assert!(wanted > 0);
    assert_eq!(column(&browser, "terminals", "Terminal").len(), wanted);
    let said = browser.run("return document.querySelector('#terminals-filter + output').value;");
    assert_eq!(
        said,
        format!("{wanted} of {} rows", arrangement.terminals.len())
    );
    browser.type_into("#terminals-filter", " no such row");
    assert!(column(&browser, "terminals", "Terminal").is_empty());
    silent(&browser);
}
