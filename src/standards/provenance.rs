//! Where a figure comes from, and what is said when a figure is asked for outside its range.
//! Knows nothing of any particular standard.

use std::borrow::Cow;
use std::fmt;

use serde::{Deserialize, Serialize};
use thiserror::Error;

/// How sure we are of a figure.
///
/// The order runs from the surest to the least sure, so that the larger of two is the weaker.
///
/// ```
/// use glandrail::standards::Status;
/// assert_eq!(Status::Published.weaker(Status::FromMemory), Status::FromMemory);
/// assert_eq!(Status::CommonPractice.to_string(), "common practice");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Status {
    /// Read in the standard, or in a text or public code that reprints it.
    #[serde(rename = "published")]
    Published,
    /// Usual in the trade; no published source.
    #[serde(rename = "common practice")]
    CommonPractice,
    /// Recalled and not yet confirmed in a text.
    #[serde(rename = "from memory")]
    FromMemory,
}

impl Status {
    /// The word used wherever the status is shown.
    pub const fn word(self) -> &'static str {
        match self {
            Status::Published => "published",
            Status::CommonPractice => "common practice",
            Status::FromMemory => "from memory",
        }
    }

    /// The status of a result that rests on both: the weaker one.
    pub fn weaker(self, other: Status) -> Status {
        self.max(other)
    }
}

impl fmt::Display for Status {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.word())
    }
}

/// The document, edition and clause behind a figure, and how sure we are of it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Source {
    /// Number or title of the document, such as `IEC 60079-7`.
    pub document: Cow<'static, str>,
    /// Year or edition, such as `2015+A1:2017`; empty where it does not matter.
    pub edition: Cow<'static, str>,
    /// Clause, table or equation; empty where the whole document is meant.
    pub clause: Cow<'static, str>,
    /// How sure we are of the figure.
    pub status: Status,
}

impl Source {
    /// A source known when the program is compiled.
    pub const fn new(
        document: &'static str,
        edition: &'static str,
        clause: &'static str,
        status: Status,
    ) -> Source {
        Source {
            document: Cow::Borrowed(document),
            edition: Cow::Borrowed(edition),
            clause: Cow::Borrowed(clause),
            status,
        }
    }

    /// Document, edition and clause without the status.
    pub fn citation(&self) -> String {
        let mut text = self.document.to_string();
        if !self.edition.is_empty() {
            text.push(':');
            text.push_str(&self.edition);
        }
        if !self.clause.is_empty() {
            text.push_str(", ");
            text.push_str(&self.clause);
        }
        text
    }
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} ({})", self.citation(), self.status)
    }
}

/// A figure was asked for that its source does not give. Never answered by extrapolation.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum OutOfRange {
    /// The value lies outside the range for which the source speaks.
    #[error(
        "{quantity} {}{} lies outside the valid range {}",
        readable(*.value),
        spaced(.unit),
        range(*.minimum, *.maximum, .unit)
    )]
    Outside {
        /// What the value measures, such as `working voltage`.
        quantity: &'static str,
        /// The value asked for.
        value: f64,
        /// Unit of the value and of both limits; `1` for a pure number.
        unit: &'static str,
        /// Smallest value the source speaks for.
        minimum: f64,
        /// Largest value the source speaks for.
        maximum: f64,
    },
    /// The source has a list of values and this is not one of them.
    #[error("{quantity} {}{} is not listed; listed are {valid}", readable(*.value), spaced(.unit))]
    NotListed {
        /// What the value measures.
        quantity: &'static str,
        /// The value asked for.
        value: f64,
        /// Unit of the value and the list; `1` for a pure number.
        unit: &'static str,
        /// The listed values, in words.
        valid: String,
    },
    /// The text is no value of this kind, or names one that the source does not give.
    #[error("`{value}` is no {quantity}; expected {valid}")]
    Unknown {
        /// What the text should name, such as `temperature class`.
        quantity: &'static str,
        /// The text as written.
        value: String,
        /// What would be accepted, in words.
        valid: String,
    },
}

/// A value without the tail of its binary fraction, in powers of ten where it would be a long row of digits.
fn readable(value: f64) -> String {
    if !value.is_finite() {
        return "(cannot be reckoned)".to_string();
    }
    if value.abs() >= 1e9 {
        return format!("{value:.1e}");
    }
    let digits = 6 - value.abs().max(1e-300).log10().floor() as i32;
    let power = 10f64.powi(digits.clamp(0, 15));
    let rounded = (value * power).round() / power;
    let shown = if rounded.is_finite() { rounded } else { value };
    shown.to_string()
}

/// A unit as it follows its number; a pure number has none.
fn spaced(unit: &str) -> String {
    if unit == "1" {
        String::new()
    } else {
        format!(" {unit}")
    }
}

/// A range in words. The smallest positive number stands for "above 0", the largest for "no end".
fn range(minimum: f64, maximum: f64, unit: &str) -> String {
    let unit = spaced(unit);
    match (minimum == f64::MIN_POSITIVE, maximum == f64::MAX) {
        (false, false) => format!("{minimum} to {maximum}{unit}"),
        (true, false) => format!("above 0 and up to {maximum}{unit}"),
        (false, true) => format!("from {minimum}{unit} up"),
        (true, true) => "above 0".into(),
    }
}

/// Refuses a value outside `minimum ..= maximum`, and anything that is not a number.
pub fn within(
    quantity: &'static str,
    value: f64,
    unit: &'static str,
    minimum: f64,
    maximum: f64,
) -> Result<f64, OutOfRange> {
    if value >= minimum && value <= maximum {
        Ok(value)
    } else {
        Err(OutOfRange::Outside {
            quantity,
            value,
            unit,
            minimum,
            maximum,
        })
    }
}

/// The listed numbers as words: `0.5, 0.75, 1`.
pub(crate) fn listed<I: IntoIterator<Item = f64>>(values: I) -> String {
    values
        .into_iter()
        .map(|value| value.to_string())
        .collect::<Vec<_>>()
        .join(", ")
}

/// Implements serde as text through `Display` and `FromStr`.
macro_rules! serde_through_text {
    ($type:ty, $expected:literal) => {
        impl serde::Serialize for $type {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.collect_str(self)
            }
        }

        impl<'de> serde::Deserialize<'de> for $type {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                struct TextVisitor;
                impl serde::de::Visitor<'_> for TextVisitor {
                    type Value = $type;
                    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                        f.write_str($expected)
                    }
                    fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<$type, E> {
                        text.parse().map_err(E::custom)
                    }
                    // A list may write a bare number where the text is one: `class = 5`.
                    fn visit_i64<E: serde::de::Error>(self, number: i64) -> Result<$type, E> {
                        number.to_string().parse().map_err(E::custom)
                    }
                    fn visit_u64<E: serde::de::Error>(self, number: u64) -> Result<$type, E> {
                        number.to_string().parse().map_err(E::custom)
                    }
                }
                deserializer.deserialize_any(TextVisitor)
            }
        }
    };
}
pub(crate) use serde_through_text;

/// Implements serde as text through `Display` and `FromStr`, and the schema of such a text.
macro_rules! serde_as_text {
    ($type:ty, $expected:literal) => {
        $crate::standards::provenance::serde_through_text!($type, $expected);

        #[cfg(feature = "schema")]
        impl schemars::JsonSchema for $type {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($type).into()
            }

            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({ "type": "string", "description": $expected })
            }
        }
    };
}
pub(crate) use serde_as_text;

/// Implements `Display`, `FromStr` and serde for an enum whose values are plain words.
macro_rules! words {
    ($type:ident, $quantity:literal, $expected:literal, { $($variant:ident => $word:literal),+ $(,)? }) => {
        impl $type {
            /// Every value, in ascending order.
            pub const ALL: &'static [$type] = &[$($type::$variant),+];

            /// The word by which it is written and read.
            pub const fn word(self) -> &'static str {
                match self { $($type::$variant => $word),+ }
            }
        }

        impl std::fmt::Display for $type {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.pad(self.word())
            }
        }

        impl std::str::FromStr for $type {
            type Err = $crate::standards::OutOfRange;

            fn from_str(text: &str) -> Result<Self, Self::Err> {
                let wanted = text.trim();
                $type::ALL
                    .iter()
                    .copied()
                    .find(|value| value.word().eq_ignore_ascii_case(wanted))
                    .ok_or_else(|| $crate::standards::OutOfRange::Unknown {
                        quantity: $quantity,
                        value: text.to_string(),
                        valid: $expected.to_string(),
                    })
            }
        }

        $crate::standards::provenance::serde_through_text!($type, $expected);

        #[cfg(feature = "schema")]
        impl schemars::JsonSchema for $type {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($type).into()
            }

            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({ "enum": [$($word),+], "description": $expected })
            }
        }
    };
}
pub(crate) use words;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn source_reads_as_a_citation() {
        let source = Source::new("IEC 60079-7", "2015", "Table 2", Status::FromMemory);
        assert_eq!(
            source.to_string(),
            "IEC 60079-7:2015, Table 2 (from memory)"
        );
        let json = serde_json::to_string(&source).expect("plain data");
        assert!(json.contains("\"from memory\""));
        assert_eq!(
            serde_json::from_str::<Source>(&json).expect("round trip"),
            source
        );
    }

    #[test]
    fn not_a_number_is_out_of_range() {
        assert!(within("length", f64::NAN, "m", 0.0, 1.0).is_err());
        let error = within("length", 2.0, "m", 0.0, 1.0).expect_err("outside");
        assert_eq!(
            error.to_string(),
            "length 2 m lies outside the valid range 0 to 1 m"
        );
        let error = within("section", 0.0, "mm²", f64::MIN_POSITIVE, 240.0).expect_err("outside");
        assert_eq!(
            error.to_string(),
            "section 0 mm² lies outside the valid range above 0 and up to 240 mm²"
        );
        let error = within("ratio", -1.0, "1", 0.0, f64::MAX).expect_err("outside");
        assert_eq!(
            error.to_string(),
            "ratio -1 lies outside the valid range from 0 up"
        );
        let error = within("emissivity", 2.0, "1", 0.0, 1.0).expect_err("outside");
        assert_eq!(
            error.to_string(),
            "emissivity 2 lies outside the valid range 0 to 1"
        );
    }
}
