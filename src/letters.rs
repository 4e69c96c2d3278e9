//! Small matters of grammar: first letters of sentences, words for one and for several.

/// A sentence with its first letter in capitals.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Words that do not begin a sentence: with a small first letter.
pub(crate) fn small(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_lowercase().chain(letters).collect()
    })
}

/// The word for one, or for none or several.
pub(crate) fn plural<'w>(count: usize, one: &'w str, many: &'w str) -> &'w str {
    if count == 1 { one } else { many }
}

/// The unit of a figure: of what is counted, one is an entry, several are entries.
pub(crate) fn unit_of(figure: f64, unit: &str) -> &str {
    if figure != 1.0 {
        return unit;
    }
    match unit {
        "conductors" => "conductor",
        "entries" => "entry",
        "terminals" => "terminal",
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::unit_of;

    #[test]
    fn every_unit_that_is_counted_has_a_word_for_one() {
        for rule in crate::audit::rules() {
            let is_counted = rule.unit.len() > 3 && rule.unit.ends_with('s');
            assert_eq!(
                unit_of(1.0, rule.unit) != rule.unit,
                is_counted,
                "{}",
                rule.unit
            );
            assert_eq!(unit_of(2.0, rule.unit), rule.unit);
        }
    }
}
