//! The page on paper, printed by a browser: no page is nearly empty. The PDF is read with `pypdf` (from PyPI); where
//! it or the browser is absent the test says so and passes, unless one of `GLANDRAIL_REQUIRE_PYTHON` and
//! `GLANDRAIL_REQUIRE_BROWSER` is 1.

use crate::browser::shown;
use crate::jobs;
use crate::python;
use std::io::Write;
use std::process::Stdio;

/// How much of its height each printed page takes.
fn used(pdf: &str) -> Vec<f64> {
    let script = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/page/printing.py");
    let mut child = python::python()
        .arg(script)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("python was there a moment ago");
    let mut input = child.stdin.take().expect("an input");
    input.write_all(pdf.as_bytes()).expect("written");
    drop(input);
    let output = child.wait_with_output().expect("an answer");
    assert!(output.status.success());
    let said = String::from_utf8_lossy(&output.stdout);
    let shares = said.lines().map(|line| line.parse().expect("a share"));
    shares.collect()
}

#[test]
fn no_printed_page_is_nearly_empty() {
    if !python::has("import pypdf") {
        return;
    }
    for name in ["mixer-control-station", "tank-farm-junction"] {
        let Some((browser, _folder)) = shown(&jobs::named(name), 1400) else {
            return;
        };
        let used = used(&browser.printed());
        assert!(
            (10..=26).contains(&used.len()),
            "{name}: {} pages",
            used.len()
        );
        let (last, others) = used.split_last().expect("pages");
        let empty: Vec<(usize, f64)> = (1..)
            .zip(others.iter().copied())
            .filter(|(_, share)| *share < 0.4)
            .collect();
        assert!(
            empty.is_empty(),
            "{name}: of these pages so little is used: {empty:?}"
        );
        assert!(*last > 0.1, "{name}: {last} of the last page");
    }
}
