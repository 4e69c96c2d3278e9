//! The shape of every answer: what was asked, what came out, and everything in between.
//! Knows nothing of the figures themselves.

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};

use crate::standards::{Source, Status};

/// A value of an input or intermediate step.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Value {
    /// A number in the unit that the key ends with.
    Number(#[serde(serialize_with = "ten_digits")] f64),
    /// A word.
    Text(String),
    /// A yes or no.
    Flag(bool),
    /// Lines of equal kind, such as the faces of a box.
    Lines(Vec<Quantities>),
}

impl From<f64> for Value {
    fn from(number: f64) -> Value {
        Value::Number(number)
    }
}

impl From<bool> for Value {
    fn from(flag: bool) -> Value {
        Value::Flag(flag)
    }
}

impl From<String> for Value {
    fn from(text: String) -> Value {
        Value::Text(text)
    }
}

impl From<&str> for Value {
    fn from(text: &str) -> Value {
        Value::Text(text.to_string())
    }
}

/// Ten significant digits: more than any source has, and without the last bits, in which the
/// mathematics of different machines may differ.
fn ten_digits<S: Serializer>(number: &f64, serializer: S) -> Result<S::Ok, S::Error> {
    let rounded = format!("{number:.9e}").parse().unwrap_or(*number);
    serializer.serialize_f64(rounded)
}

/// A named value.
#[derive(Debug, Clone, PartialEq)]
pub struct Quantity {
    /// Key, ending with the unit where there is one: `voltage_v`.
    pub key: &'static str,
    /// Value.
    pub value: Value,
    /// Unit as printed; empty for words and pure numbers.
    pub unit: &'static str,
}

/// Named values in the order of the calculation; serialised as a map of key to value.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Quantities(pub Vec<Quantity>);

impl Quantities {
    /// None yet.
    pub fn new() -> Quantities {
        Quantities::default()
    }

    /// With one more.
    pub fn with(
        mut self,
        key: &'static str,
        value: impl Into<Value>,
        unit: &'static str,
    ) -> Quantities {
        self.0.push(Quantity {
            key,
            value: value.into(),
            unit,
        });
        self
    }

    /// The number under a key; `None` where there is none.
    pub fn number(&self, key: &str) -> Option<f64> {
        self.0
            .iter()
            .find(|quantity| quantity.key == key)
            .and_then(|quantity| match quantity.value {
                Value::Number(number) => Some(number),
                _ => None,
            })
    }
}

impl Serialize for Quantities {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(self.0.len()))?;
        for quantity in &self.0 {
            map.serialize_entry(quantity.key, &quantity.value)?;
        }
        map.end()
    }
}

/// Whether what was asked holds, for figures that answer a yes or no besides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Verdict {
    /// Whether it holds.
    pub holds: bool,
    /// Whether that is proved, either way.
    pub proved: bool,
}

/// An answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Figure {
    /// Name of the figure.
    pub name: &'static str,
    /// What was asked.
    pub inputs: Quantities,
    /// Key of the result, ending with its unit: `clearance_mm`.
    pub result_key: &'static str,
    /// The result.
    #[serde(serialize_with = "ten_digits")]
    pub result: f64,
    /// Its unit.
    pub unit: &'static str,
    /// Whether it holds; nothing where the answer is a number alone.
    #[serde(flatten)]
    pub verdict: Option<Verdict>,
    /// How it follows from the inputs.
    pub formula: &'static str,
    /// Where it comes from, the deciding source first.
    pub source: Vec<Source>,
    /// The weakest status of all sources.
    pub status: Status,
    /// Everything between question and result.
    pub intermediate: Quantities,
    /// What the reader must know besides: assumptions, traps.
    pub notes: Vec<String>,
}

impl Figure {
    /// An answer whose status is the weakest of its sources.
    ///
    /// At least one source is expected; without any the status is `from memory`, since nothing
    /// vouches for the figure.
    pub(super) fn new(
        name: &'static str,
        inputs: Quantities,
        result: (&'static str, f64, &'static str),
        formula: &'static str,
        source: Vec<Source>,
        intermediate: Quantities,
    ) -> Figure {
        let (result_key, result, unit) = result;
        let status = source
            .iter()
            .map(|source| source.status)
            .max()
            .unwrap_or(Status::FromMemory);
        Figure {
            name,
            inputs,
            result_key,
            result,
            unit,
            verdict: None,
            formula,
            source,
            status,
            intermediate,
            notes: Vec::new(),
        }
    }

    /// With one more note.
    pub(super) fn note(mut self, text: impl Into<String>) -> Figure {
        self.notes.push(text.into());
        self
    }
}
