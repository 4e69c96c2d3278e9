//! The nearest of a set of known names, for hints. Knows nothing of what the names mean.

/// The known name nearest to `wanted`, if one is near enough to be what the writer meant.
///
/// Near enough is at most one slip (a letter added, lost, changed, or two swapped) in every three
/// letters, and at least one; upper case, spaces and hyphens do not count. Of names equally near
/// the alphabetically first is taken, so that the answer does not hang on the order of the names.
///
/// ```
/// use glandrail::source::nearest;
/// assert_eq!(nearest("cabel", ["cable", "circuit"]), Some("cable".to_owned()));
/// assert_eq!(nearest("voltage", ["cable", "circuit"]), None);
/// ```
pub fn nearest<'a>(wanted: &str, known: impl IntoIterator<Item = &'a str>) -> Option<String> {
    let plain_wanted = plain(wanted);
    let allowed = (plain_wanted.chars().count() / 3).max(1);
    known
        .into_iter()
        .filter_map(|name| {
            let plain_name = plain(name);
            // Names of two letters would be near to nearly anything.
            let slips = strsim::damerau_levenshtein(&plain_wanted, &plain_name);
            let near = slips <= allowed && slips < plain_name.chars().count();
            near.then_some((slips, name))
        })
        .min()
        .map(|(_, name)| name.to_owned())
}

fn plain(name: &str) -> String {
    name.chars()
        .map(|c| if matches!(c, '-' | ' ') { '_' } else { c })
        .flat_map(char::to_lowercase)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_forgiven_and_strangers_are_not() {
        let known = ["diameter_mm", "gas_group", "zone", "v"];
        assert_eq!(
            nearest("diametre_mm", known).as_deref(),
            Some("diameter_mm")
        );
        assert_eq!(nearest("Gas-Group", known).as_deref(), Some("gas_group"));
        assert_eq!(nearest("zoen", known).as_deref(), Some("zone"));
        assert_eq!(nearest("w", known), None);
        assert_eq!(nearest("colour", known), None);
        assert_eq!(nearest("", known), None);
        assert_eq!(nearest("zone", []), None);
    }

    #[test]
    fn ties_do_not_hang_on_the_order() {
        assert_eq!(nearest("cat", ["hat", "bat"]).as_deref(), Some("bat"));
        assert_eq!(nearest("cat", ["bat", "hat"]).as_deref(), Some("bat"));
    }
}
