//! The words for what was tried and did not help: entries placed freely, two boxes. Decides nothing.

use super::facts::{Impossible, TriedFreely};
use super::sentence::paragraph;

/// What is said about entries in no rows where conflicts are judged in rows.
pub(super) fn freely(tried: &TriedFreely, one: bool) -> String {
    const MOST_NAMED: usize = 4;
    let lead = "Conflicts are judged with entries in rows, ways out with rows or without.";
    if tried.open.is_empty() {
        return format!(
            "{lead} For the list as it is, placing them freely would not help (proved)."
        );
    }
    let tried_so = "For the list as it is, placing them freely was tried and nothing was found";
    if one {
        return format!("{lead} {tried_so}; that it is impossible is not proved.");
    }
    let mut names: Vec<String> = tried
        .open
        .iter()
        .take(MOST_NAMED)
        .map(|name| format!("{} {}", name.enclosure, name.orientation.words()))
        .collect();
    if tried.open.len() > MOST_NAMED {
        names.push(format!("{} more", tried.open.len() - MOST_NAMED));
    }
    format!(
        "{lead} {tried_so}; that it is impossible is not proved for {}.",
        names.join(", ")
    )
}

/// What is said of two boxes where none were found.
pub(super) fn two_boxes(out: &mut String, facts: &Impossible) {
    let Some(tried) = &facts.two_boxes else {
        return;
    };
    let because = |lead: &str| match &tried.because {
        Some(because) => format!(" ({lead}{because})"),
        None => String::new(),
    };
    let said = match tried.fit_nowhere.as_slice() {
        [] if tried.divisions == 1 => format!(
            "Two boxes: the only division that was looked at does not serve{}.",
            because("")
        ),
        [] => format!(
            "Two boxes: none of the {} divisions that were looked at serves, which proves nothing; `glandrail \
             propose --boxes 2` looks at more{}.",
            tried.divisions,
            because("in the nearest one, ")
        ),
        [one, rest @ ..] => {
            let others = match rest {
                [] => String::new(),
                [other] => format!(", nor {other}"),
                more => format!(", nor any of {} other cables and elements", more.len()),
            };
            let because = because("nearest: ");
            format!(
                "Two boxes would not help: no enclosure takes {one} even by itself{because}{others}."
            )
        }
    };
    paragraph(out, &said, 0);
}
