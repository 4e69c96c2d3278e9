//! What kind of value a field takes, worded for people who write lists, not programs.

use super::Reading;
use crate::source::finding::Finding;
use crate::source::tree::{NodeId, Value};
use crate::source::unit::{Unit, unit_of};

/// Quoted values are cut to this many characters.
const LONGEST_QUOTE: usize = 40;

/// What kind of value is wanted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::source) enum Wanted {
    /// Any number.
    Number,
    /// A whole number within these bounds.
    Whole { least: i128, most: i128 },
    /// A text in quotes.
    Text,
    /// `true` or `false`.
    Truth,
    /// A list of any length.
    List,
    /// A list of this many entries.
    ListOf(usize),
    /// A table with these fields; none known means any.
    Table(Vec<&'static str>),
    /// A list of tables under this key.
    Tables(String),
    /// One of these words.
    Word(Vec<&'static str>),
    /// In the words of the type itself.
    Other(String),
}

impl Wanted {
    /// In the sentence "… must be …".
    fn noun(&self) -> String {
        match self {
            Self::Number => "a number".to_owned(),
            Self::Whole { .. } => "a whole number".to_owned(),
            Self::Text => "a text".to_owned(),
            Self::Truth => "true or false".to_owned(),
            Self::List => "a list".to_owned(),
            Self::ListOf(length) => format!("a list of {length}"),
            Self::Table(_) => "a table".to_owned(),
            Self::Tables(_) => "a list of tables".to_owned(),
            Self::Word(words) => format!("one of {}", listed(words, words.len(), ", ")),
            Self::Other(words) => words.clone(),
        }
    }

    /// What to write, without regard to the field and to what was found.
    pub(super) fn expected(&self) -> String {
        match self {
            Self::Word(words) if words.len() == 1 => listed(words, 1, ", "),
            Self::Text => "a text in quotes".to_owned(),
            Self::Truth => "true or false, without quotes".to_owned(),
            Self::List => "a list in brackets".to_owned(),
            Self::ListOf(length) => format!("a list of {length} in brackets"),
            Self::Table(fields) if !fields.is_empty() => {
                format!("a table with {}", listed(fields, super::MOST_LISTED, ", "))
            }
            Self::Tables(key) => format!("`[[{key}]]` above each"),
            Self::Whole { least, most } if *most <= i128::from(u16::MAX) => {
                format!("a whole number from {least} to {most}")
            }
            Self::Whole { least: 0, .. } => "a whole number, zero or more".to_owned(),
            _ => self.noun(),
        }
    }

    /// What to write for this field. `sample` is what was found, if it may serve as an example.
    pub(super) fn expected_of(&self, field: &str, sample: Option<&str>) -> Option<String> {
        let unit = unit_of(field);
        let expected = match (self, &unit) {
            (Self::Number | Self::Whole { .. }, Some(unit)) => {
                let noun = self.expected();
                let example = sample.or(unit.example);
                let such = example.map_or_else(String::new, |e| format!(", such as {e}"));
                format!("{noun} in {}{such}", unit.symbol)
            }
            (Self::List | Self::ListOf(_), Some(unit)) => {
                format!("{}, of numbers in {}", self.expected(), unit.symbol)
            }
            _ => {
                let such = sample.map_or_else(String::new, |e| format!(", such as {e}"));
                self.expected() + &such
            }
        };
        Some(expected)
    }
}

/// "`current_a` must be a number, found the text "16 A"", with what to write instead.
pub(super) fn finding(reading: &Reading<'_>, node: NodeId, wanted: &Wanted) -> Finding {
    let field = reading.field(node);
    let value = &reading.tree.node(node).value;
    let raw = reading.tree.file.at(&reading.head(node));
    let name = match reading.name(node) {
        name if name.is_empty() => "the file".to_owned(),
        name => format!("`{name}`"),
    };
    let message = match (wanted, value) {
        (Wanted::ListOf(_), Value::List(list)) => {
            format!(
                "{name} must be {}, found {} in it",
                wanted.noun(),
                list.len()
            )
        }
        _ => format!(
            "{name} must be {}, found {}",
            wanted.noun(),
            found(value, raw)
        ),
    };
    let is_short = raw.chars().count() <= LONGEST_QUOTE && !raw.contains('\n');
    let mut hint = None;
    let sample = match (wanted, value) {
        (Wanted::Number | Wanted::Whole { .. }, Value::Text(text)) => {
            let number = number_of(
                text,
                unit_of(&field).as_ref(),
                matches!(wanted, Wanted::Number),
            );
            hint = number.map(|number| format!("write {number}, without quotes and unit"));
            number.map(str::to_owned)
        }
        (Wanted::Whole { least, most }, Value::Float(float))
            if float.fract() == 0.0 && *float >= *least as f64 && *float <= *most as f64 =>
        {
            Some(format!("{float:.0}"))
        }
        (Wanted::Text, Value::Integer(_) | Value::Float(_) | Value::Boolean(_)) if is_short => {
            Some(format!("\"{raw}\""))
        }
        (Wanted::Truth, Value::Text(text)) => {
            let plain = text.to_lowercase();
            hint = match plain.as_str() {
                "true" | "yes" | "on" => Some("write true".to_owned()),
                "false" | "no" | "off" => Some("write false".to_owned()),
                _ => None,
            };
            None
        }
        (Wanted::List, Value::Text(_) | Value::Integer(_) | Value::Float(_)) if is_short => {
            Some(format!("[{raw}]"))
        }
        _ => None,
    };
    let finding = reading.error(node, "source-wrong-type", message);
    let finding = match wanted.expected_of(&field, sample.as_deref()) {
        // What the type says of itself stands in the message already.
        Some(expected) if !matches!(wanted, Wanted::Other(_)) => finding.expected(expected),
        _ => finding,
    };
    match hint {
        Some(hint) => finding.hint(hint),
        None => finding,
    }
}

fn found(value: &Value, raw: &str) -> String {
    match value {
        Value::Text(text) => format!("the text \"{}\"", shortened(text)),
        Value::Integer(_) | Value::Float(_) => format!("the number {raw}"),
        Value::Boolean(truth) => truth.to_string(),
        Value::Date(date) => format!("the date {date}"),
        Value::List(list) if list.is_empty() => "an empty list".to_owned(),
        Value::List(_) => "a list".to_owned(),
        Value::Table(_) => "a table".to_owned(),
    }
}

/// The number in a text such as "16 A", if what follows it is the field's own unit or nothing:
/// "2 kA" for a field in A must not be read as 2.
fn number_of<'a>(text: &'a str, unit: Option<&Unit>, fraction: bool) -> Option<&'a str> {
    let is_part = |c: char| c.is_ascii_digit() || c == '-' || (fraction && c == '.');
    let text = text.trim();
    let (number, rest) = text.split_at(text.find(|c| !is_part(c)).unwrap_or(text.len()));
    let rest = rest.trim();
    number.parse::<f64>().ok()?;
    (rest.is_empty() || unit.is_some_and(|unit| unit.symbol == rest)).then_some(number)
}

fn shortened(text: &str) -> String {
    let line = text.replace('\n', "\\n");
    match line.char_indices().nth(LONGEST_QUOTE) {
        Some((end, _)) => format!("{}…", &line[..end]),
        None => line,
    }
}

/// Words in backticks, cut after `most`.
pub(super) fn listed(words: &[&str], most: usize, between: &str) -> String {
    let quoted: Vec<_> = words
        .iter()
        .take(most)
        .map(|word| format!("`{word}`"))
        .collect();
    let more = if words.len() > most {
        format!("{between}…")
    } else {
        String::new()
    };
    quoted.join(between) + &more
}
