//! Sentences that say the same of several things, told once.

use super::names::names_of;
use super::words::shortened;

/// Sentences that differ only in the first name between backticks become one with all names. A voltage
/// or current of zero is one that was given up, and is left out.
pub(super) fn alike(sentences: Vec<String>) -> Vec<String> {
    let mut told: Vec<(String, Vec<String>, String)> = Vec::new();
    for sentence in sentences {
        let sentence = sentence.replace("(0 V, ", "(").replace(", 0 A, ", ", ");
        let sentence = sentence.replace("(0 A, ", "(").replace(" at 0 V", "");
        let mut parts = sentence.splitn(3, '`');
        let (lead, name, rest) = match (parts.next(), parts.next(), parts.next()) {
            (Some(lead), Some(name), Some(rest)) => (lead, name, rest),
            _ => (sentence.as_str(), "", ""),
        };
        match told
            .iter_mut()
            .find(|(known, _, known_rest)| known == lead && known_rest == rest)
        {
            Some((_, names, _)) if names.iter().any(|known| known == name) => {}
            Some((_, names, _)) => names.push(name.to_string()),
            None => told.push((lead.to_string(), vec![name.to_string()], rest.to_string())),
        }
    }
    told.into_iter()
        .map(|(lead, names, rest)| {
            let names = shortened(names_of(names.iter().map(String::as_str)));
            if names.is_empty() {
                lead
            } else {
                format!("{lead}`{names}`{rest}")
            }
        })
        .collect()
}
