//! Names of requirements: tags in short, and which requirement a name of `fixed` means.

use super::aspect::{Aspect, Requirement};
use crate::requirements::RequirementList;

/// Tags in short: runs of three and more that count up are written as a range.
pub fn names_of<'t>(tags: impl Iterator<Item = &'t str>) -> String {
    let split = |tag: &str| -> Option<(String, u64, usize)> {
        let stem = tag.trim_end_matches(|letter: char| letter.is_ascii_digit());
        let digits = &tag[stem.len()..];
        Some((stem.to_string(), digits.parse().ok()?, digits.len()))
    };
    let tags: Vec<&str> = tags.collect();
    let mut words: Vec<String> = Vec::new();
    let mut start = 0;
    while start < tags.len() {
        let mut end = start;
        while end + 1 < tags.len()
            && let (Some((stem, number, width)), Some((next_stem, next, next_width))) =
                (split(tags[end]), split(tags[end + 1]))
            && stem == next_stem
            && next == number + 1
            && (width == next_width || !tags[start][stem.len()..].starts_with('0'))
        {
            end += 1;
        }
        if end >= start + 2 {
            words.push(format!("{}..{}", tags[start], tags[end]));
        } else {
            words.extend(tags[start..=end].iter().map(|tag| tag.to_string()));
        }
        start = end + 1;
    }
    words.join(", ")
}

/// Whether a name of `fixed` means this requirement: its id, the beginning of it up to a dot or a
/// blank, the kind and the field of it (`circuit current_a`), or the tag of one of the cables, circuits or
/// elements in it (then with what follows).
pub fn names(list: &RequirementList, requirement: &Requirement, name: &str) -> bool {
    let id = &requirement.id;
    let begins = |whole: &str| {
        whole
            .strip_prefix(name)
            .is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', ' ']))
    };
    if begins(id) {
        return true;
    }
    let tags: Vec<&str> = match &requirement.aspect {
        Aspect::Cables(members)
        | Aspect::CableWalls(members)
        | Aspect::Diameter(members)
        | Aspect::GlandMaterial(members)
        | Aspect::Gland(members)
        | Aspect::GlandThread(members) => members
            .iter()
            .map(|index| list.cables[*index].tag.as_str())
            .collect(),
        Aspect::Current(members) | Aspect::Voltage(members) | Aspect::Terminal(members) => members
            .iter()
            .map(|index| list.circuits[*index].tag.as_str())
            .collect(),
        _ => Vec::new(),
    };
    let Some((kind, rest)) = id.split_once(' ') else {
        return false;
    };
    let field = rest.rsplit_once(' ').map(|(_, field)| field);
    let of_kind = match requirement.aspect {
        Aspect::Cables(_) | Aspect::Element(_) => false,
        _ => field.is_some_and(|field| name == format!("{kind} {field}")),
    };
    if of_kind {
        return true;
    }
    tags.iter().any(|tag| {
        let whole = match field {
            Some(field) if !tags.contains(&field) => format!("{kind} {tag} {field}"),
            _ => format!("{kind} {tag}"),
        };
        begins(&whole)
    })
}

#[cfg(test)]
mod tests {
    use super::names_of;

    #[test]
    fn runs_are_written_as_ranges() {
        let names = |tags: &[&str]| names_of(tags.iter().copied());
        assert_eq!(names(&["W1", "W2", "W3", "W7"]), "W1..W3, W7");
        assert_eq!(names(&["W1", "W2"]), "W1, W2");
        assert_eq!(names(&["W09", "W10", "W11"]), "W09..W11");
        assert_eq!(names(&["A", "B"]), "A, B");
        assert_eq!(names(&["W9", "W10", "W11"]), "W9..W11");
        assert_eq!(names(&["W09", "W010", "W011"]), "W09, W010, W011");
    }
}
