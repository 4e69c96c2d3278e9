//! Values as a written list has them: tags in ranges, strings, words, numbers without noise.

use itertools::Itertools;
use serde::Serialize;

/// `tag` for one, `tags` for several, a range where they run on.
pub(super) fn tags_line(tags: &[&str]) -> String {
    match tags {
        [one] => format!("tag = {}\n", string(one)),
        [first, .., last] if runs_on(tags) => {
            format!("tags = {}\n", string(&format!("{first}..{last}")))
        }
        _ => format!("tags = {}\n", strings(tags)),
    }
}

/// Whether tags differ in their last number only, one more each, equally wide.
fn runs_on(tags: &[&str]) -> bool {
    let parts = |tag: &str| -> Option<(String, usize, u64)> {
        let stem = tag.trim_end_matches(|letter: char| letter.is_ascii_digit());
        let digits = &tag[stem.len()..];
        Some((stem.to_string(), digits.len(), digits.parse().ok()?))
    };
    tags.windows(2).all(|pair| {
        matches!((parts(pair[0]), parts(pair[1])), (Some(a), Some(b))
            if a.0 == b.0 && a.1 == b.1 && Some(b.2) == a.2.checked_add(1))
    })
}

/// The word that a file uses for a value.
pub(super) fn word(value: &impl Serialize) -> String {
    match serde_json::to_value(value) {
        Ok(serde_json::Value::String(word)) => word,
        Ok(other) => other.to_string(),
        Err(_) => String::new(),
    }
}

pub(super) fn string(text: &str) -> String {
    toml::Value::String(text.to_string()).to_string()
}

pub(super) fn strings(texts: &[impl AsRef<str>]) -> String {
    format!(
        "[{}]",
        texts.iter().map(|text| string(text.as_ref())).join(", ")
    )
}

pub(super) fn one_or_many(texts: &[String]) -> String {
    match texts {
        [one] => string(one),
        _ => strings(texts),
    }
}

/// Up to six decimals, without noise of the arithmetic.
pub(super) fn number(value: f64) -> String {
    let text = format!("{value:.6}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    // Smaller than six decimals can tell: as it is.
    if value != 0.0 && short.parse::<f64>().is_ok_and(|read| read == 0.0) {
        return format!("{value:?}");
    }
    short.to_string()
}

pub(super) fn numbers(values: &[f64]) -> String {
    format!("[{}]", values.iter().map(|value| number(*value)).join(", "))
}
