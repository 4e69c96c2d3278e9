//! The page on paper, printed by a browser: no page is nearly empty. The PDF is read with `pypdf` (from PyPI); where
//! it or the browser is absent the test says so and passes, unless one of `GLANDRAIL_REQUIRE_PYTHON` and
//! `GLANDRAIL_REQUIRE_BROWSER` is 1.

use crate::browser::shown;
use crate::jobs;
use crate::python;

/// How much of its height each printed page takes.
fn used(pdf: &str) -> Vec<f64> {
    let said = python::answered("tests/page/printing.py", pdf);
    let shares = said.lines().map(|line| line.parse().expect("a share"));
    shares.collect()
}

#[test]
fn no_printed_page_is_nearly_empty() {
    if !python::has("import pypdf") {
        return;
    }
    for name in [
        "mixer-control-station",
        "grain-conveyor-station",
        "tank-farm-junction",
    ] {
        let Some((browser, _folder)) = shown(&jobs::named(name), 1400) else {
            return;
        };
        let used = used(&browser.printed());
        assert!(
            (10..=32).contains(&used.len()),
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
