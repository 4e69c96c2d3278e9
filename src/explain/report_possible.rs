//! What is said of a list that can be made: what holds it, which limits are tight, and why nothing smaller does.

use super::facts::Possible;
use super::report::impossible;
use super::report_holds::named;
use super::sentence::paragraph;
use crate::arrangement::EntryPlacing;
use crate::requirements::RequirementList;
use crate::sheets::number;
use std::fmt::Write as _;

pub(super) fn possible(out: &mut String, list: &RequirementList, facts: &Possible) {
    let open = facts.open_for_free_placement.len();
    let smallest = match (facts.proven, open, facts.entries) {
        (false, _, _) => "the smallest found; smaller ones were not all decided".to_string(),
        (true, ..) if !facts.tried_freely => {
            "the smallest that takes this list with entries in rows".to_string()
        }
        (true, 0, _) => {
            "the smallest that takes this list, with entries in rows or placed freely".to_string()
        }
        (true, _, EntryPlacing::Rows) => format!(
            "the smallest that takes this list with entries in rows; free placement remains open for {open} \
             smaller"
        ),
        (true, _, EntryPlacing::Free) => format!(
            "with entries placed freely, smaller than any that takes this list with entries in rows; free \
             placement remains open for {open} still smaller"
        ),
    };
    paragraph(
        out,
        &format!("Can be made: {}, {smallest}.", named(list, &facts.holds)),
        0,
    );
    for caution in &facts.holds.cautions {
        paragraph(
            out,
            &format!("Caution: the certificate permits the power, but {caution}."),
            0,
        );
    }
    let _ = writeln!(out);
    if facts.tight.is_empty() {
        let _ = writeln!(out, "No limit is within a quarter of what it requires.");
    } else {
        let _ = writeln!(out, "Tightest limits (≥ at least, ≤ at most)");
        let _ = writeln!(
            out,
            "  {:<52} {:>10} {:>10} {:>10}",
            "", "required", "measured", "margin"
        );
        for tight in &facts.tight {
            let title: String = if tight.title.chars().count() > 52 {
                tight.title.chars().take(51).chain(['…']).collect()
            } else {
                tight.title.clone()
            };
            let [required, measured, margin] =
                [tight.required, tight.measured, tight.margin].map(|figure| number(figure, 2));
            let required = format!("{} {required}", tight.relation);
            let _ = writeln!(
                out,
                "  {title:<52} {required:>10} {measured:>10} {margin:>10} {}",
                tight.unit
            );
        }
    }
    let _ = writeln!(out);
    match (&facts.why_not, &facts.also_holds) {
        (Some(why_not), _) => impossible(out, list, why_not),
        (None, Some(also)) if also.enclosure == facts.holds.enclosure => {
            paragraph(out, &format!("{} is the one proposed.", also.enclosure), 0);
        }
        (None, Some(also)) => {
            paragraph(
                out,
                &format!(
                    "{} takes the list too, but it comes later in the objective.",
                    named(list, also)
                ),
                0,
            );
        }
        (None, None) => {
            let _ = writeln!(out, "There is no smaller enclosure in the catalogue.");
        }
    }
}
