//! Why serde refused a value, before it is put into words.

use std::fmt;

use serde::de;

use crate::source::tree::NodeId;

/// Why a reading stopped, and at which value.
#[derive(Debug)]
pub(super) struct Refusal {
    pub(super) kind: Kind,
    /// The innermost value that was being read; filled in on the way out.
    pub(super) node: Option<NodeId>,
}

#[derive(Debug)]
pub(super) enum Kind {
    /// A field without default is not there.
    Missing(&'static str),
    /// A word that is none of the known ones.
    UnknownWord {
        given: String,
        known: &'static [&'static str],
    },
    /// A value of another kind than the type takes.
    WrongType { wanted: String },
    /// The type's own check refused.
    Invalid(String),
    /// A stand-in was refused; what caused it is noted already.
    Consequence,
}

impl Refusal {
    pub(super) fn consequence() -> Self {
        Self {
            kind: Kind::Consequence,
            node: None,
        }
    }

    /// Says where it happened, unless a value further in has done so.
    pub(super) fn at(self, node: NodeId) -> Self {
        Self {
            node: self.node.or(Some(node)),
            ..self
        }
    }
}

impl From<Kind> for Refusal {
    fn from(kind: Kind) -> Self {
        Self { kind, node: None }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}", self.kind)
    }
}

impl std::error::Error for Refusal {}

impl de::Error for Refusal {
    fn custom<T: fmt::Display>(message: T) -> Self {
        Kind::Invalid(message.to_string()).into()
    }

    fn invalid_type(_: de::Unexpected<'_>, expected: &dyn de::Expected) -> Self {
        Kind::WrongType {
            wanted: expected.to_string(),
        }
        .into()
    }

    fn invalid_value(_: de::Unexpected<'_>, expected: &dyn de::Expected) -> Self {
        Kind::WrongType {
            wanted: expected.to_string(),
        }
        .into()
    }

    fn unknown_variant(given: &str, known: &'static [&'static str]) -> Self {
        Kind::UnknownWord {
            given: given.to_owned(),
            known,
        }
        .into()
    }

    fn missing_field(field: &'static str) -> Self {
        Kind::Missing(field).into()
    }
}
