//! The page in windows of different widths, its contrast, and text of the user in it.

use crate::browser::{drawn, shown, silent, text};
use crate::jobs;
use serde_json::json;

#[test]
fn nothing_of_the_page_is_wider_than_the_window() {
    // Chromium opens no window narrower than 500 pixels.
    for width in [1400, 700, 500] {
        let Some((browser, _folder)) = shown(&jobs::named("level-mixed-signals"), width) else {
            return;
        };
        let inner = browser.run("return window.innerWidth;").as_u64();
        assert!(
            inner.is_some_and(|inner| inner <= u64::from(width)),
            "{inner:?} of {width}"
        );
        let beyond = browser.run(
            "const root = document.documentElement;
             return root.scrollWidth - root.clientWidth;",
        );
        assert_eq!(beyond, 0, "at {width} pixels");
        silent(&browser);
    }
}

/// What a reader sees first on a telephone: words and drawings with a size, within the window.
#[test]
fn a_narrow_window_shows_the_page() {
    for name in ["level-mixed-signals", "mixer-control-station"] {
        let arrangement = jobs::named(name);
        let Some((browser, _folder)) = shown(&arrangement, 500) else {
            return;
        };
        let seen = browser.run(
            "const inside = (e) => {
               const box = e.getBoundingClientRect();
               return box.width > 0 && box.height > 0 && box.left >= 0
                 && box.right <= window.innerWidth + 0.5;
             };
             const at = document.elementFromPoint(innerWidth / 2, 60);
             return {
               first: document.querySelector('h1').innerText.trim(),
               hit: at !== null && at !== document.documentElement && at !== document.body,
               headings: [...document.querySelectorAll('h1, h2')].filter((e) => e.offsetParent)
                 .map((e) => [e.innerText, inside(e)]),
               drawings: [...document.querySelectorAll('figure svg')].map(inside),
             };",
        );
        let first = seen["first"].as_str().expect("text");
        assert!(first.starts_with(&arrangement.job.tag), "{first}");
        assert_eq!(seen["hit"], true, "nothing is drawn at the head");
        let headings = seen["headings"].as_array().expect("headings");
        assert!(headings.len() >= 5, "{headings:?}");
        for heading in headings {
            assert_eq!(heading[1], true, "{heading}");
        }
        let drawings = seen["drawings"].as_array().expect("drawings");
        assert!(drawings.len() >= 5, "{drawings:?}");
        assert!(
            drawings.iter().all(|is_inside| is_inside == true),
            "{drawings:?}"
        );
        silent(&browser);
    }
}

/// Contrast of text against the ground behind it after WCAG 2, worked out by the browser for every text
/// that is seen; only those below 4.5 are given.
const POOR_CONTRAST: &str = "
    const channels = (colour) => colour.match(/[\\d.]+/g).map(Number);
    const light = (colour) => {
      const [r, g, b] = channels(colour).slice(0, 3).map((c) => c / 255)
        .map((c) => c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const ground = (element) => {
      for (let e = element; e; e = e.parentElement) {
        const colour = getComputedStyle(e).backgroundColor;
        const alpha = channels(colour)[3];
        if (alpha === undefined || alpha > 0) return colour;
      }
      return 'rgb(255, 255, 255)';
    };
    const poor = [];
    let seen = 0;
    for (const element of document.querySelectorAll('body *:not(svg, svg *, script)')) {
      if (!element.innerText || element.offsetHeight === 0) continue;
      const [a, b] = [light(getComputedStyle(element).color), light(ground(element))];
      const contrast = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
      seen += 1;
      if (contrast < 4.5) poor.push(element.tagName + ' ' + contrast.toFixed(2));
    }
    return { seen, poor };";

#[test]
fn text_stands_out_from_its_ground() {
    let Some((browser, _folder)) = shown(&jobs::named("mixer-control-station"), 1400) else {
        return;
    };
    browser.click(&drawn("lid", "element S0"));
    let found = browser.run(POOR_CONTRAST);
    assert!(
        found["seen"].as_u64().is_some_and(|seen| seen > 500),
        "{found}"
    );
    assert_eq!(found["poor"], json!([]));
}

#[test]
fn text_of_the_user_is_shown_and_not_run() {
    const EVIL: &str = "<script>window.hit = 1</script><b onclick=x>";
    let mut arrangement = jobs::named("mixer-control-station");
    arrangement.job.title = EVIL.into();
    arrangement.elements[0].label = EVIL.into();
    let Some((browser, _folder)) = shown(&arrangement, 1400) else {
        return;
    };
    assert!(text(&browser, "h1").contains(EVIL));
    let key = format!("element {}", arrangement.elements[0].tag);
    browser.click(&drawn("lid", &key));
    assert!(
        text(&browser, "#panel").contains(EVIL),
        "as text in the panel too"
    );
    assert_eq!(browser.run("return window.hit === undefined;"), true);
    silent(&browser);
}
