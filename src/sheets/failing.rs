//! What is said on every page of an arrangement that does not pass the audit, such as a file that was edited.

use super::summary::paragraph;
use crate::arrangement::Arrangement;
use crate::audit::{AuditReport, audit};
use crate::letters::plural;

/// What stands large on every sheet and view.
pub(super) const MARK: &str = "DOES NOT HOLD – not for making";

/// In one line, for the title block of a sheet; none where everything holds.
pub(super) fn in_short(report: &AuditReport) -> Option<String> {
    let count = report.failing().count();
    let rules = plural(count, "rule", "rules");
    (count > 0)
        .then(|| format!("DOES NOT HOLD ({count} {rules}, see the record): not to be built."))
}

/// With the rules that do not hold or cannot be determined.
pub(super) fn in_words(report: &AuditReport) -> Option<String> {
    const MOST_NAMED: usize = 4;
    let ids: Vec<&str> = report.failing().map(|rule| rule.id).collect();
    let more = match ids.len().saturating_sub(MOST_NAMED) {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    let named = ids[..ids.len().min(MOST_NAMED)].join(", ");
    Some(format!(
        "{} Not held or not determined: {named}{more}; `glandrail audit` tells why",
        in_short(report)?
    ))
}

/// As it stands in what is written of an arrangement; none where it passes the audit.
pub fn failing(arrangement: &Arrangement) -> Option<String> {
    in_words(&audit(arrangement, None))
}

/// The first lines of a text of the set; nothing where everything holds.
pub(super) fn opening(failing: Option<&str>) -> String {
    let mut out = String::new();
    if let Some(failing) = failing {
        paragraph(&mut out, &format!("{failing}."), 0);
        out.push('\n');
    }
    out
}
