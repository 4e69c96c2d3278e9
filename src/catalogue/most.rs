//! The most that a certificate allows of something: a figure, or that it states no limit.

use serde::de::value::MapAccessDeserializer;
use serde::de::{Deserialize, Deserializer, Error, IntoDeserializer, MapAccess, Visitor};
use serde::{Serialize, Serializer};
use std::fmt;
use std::marker::PhantomData;

/// The word that says of a certificate that it was read and states no limit.
pub const NOT_LIMITED: &str = "not limited";

/// The most that a certificate allows. Where it is not known the field that holds it is missing, which is no
/// permission; that there is no limit has to be said.
///
/// ```
/// use glandrail::catalogue::Most;
/// let most = |text| serde_json::from_str::<Most<u32>>(text).ok();
/// assert_eq!(most("60"), Some(Most::Of(60)));
/// assert_eq!(most("\"not limited\""), Some(Most::NotLimited));
/// assert_eq!(most("\"none\""), None);
/// assert_eq!(Most::limit(&None), Some(0));
/// assert_eq!(serde_json::to_string(&Most::<u32>::NotLimited).unwrap(), "\"not limited\"");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Most<T> {
    /// The certificate states no limit.
    NotLimited,
    /// It allows no more than this.
    Of(T),
}

impl<T: Clone + Default> Most<T> {
    /// The limit that counts: none where the certificate states none; the least there is, which permits nothing,
    /// where it is not known.
    pub fn limit(stated: &Option<Most<T>>) -> Option<T> {
        match stated {
            Some(Most::NotLimited) => None,
            Some(Most::Of(most)) => Some(most.clone()),
            None => Some(T::default()),
        }
    }
}

impl<T: Serialize> Serialize for Most<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Most::NotLimited => serializer.serialize_str(NOT_LIMITED),
            Most::Of(most) => most.serialize(serializer),
        }
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Most<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(MostVisitor(PhantomData))
    }
}

struct MostVisitor<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> Visitor<'de> for MostVisitor<T> {
    type Value = Most<T>;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            formatter,
            "the most that the certificate allows, or \"{NOT_LIMITED}\""
        )
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Self::Value, E> {
        if text == NOT_LIMITED {
            Ok(Most::NotLimited)
        } else {
            Err(E::invalid_value(serde::de::Unexpected::Str(text), &self))
        }
    }

    fn visit_i64<E: Error>(self, number: i64) -> Result<Self::Value, E> {
        T::deserialize(number.into_deserializer()).map(Most::Of)
    }

    fn visit_u64<E: Error>(self, number: u64) -> Result<Self::Value, E> {
        T::deserialize(number.into_deserializer()).map(Most::Of)
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<Self::Value, A::Error> {
        T::deserialize(MapAccessDeserializer::new(map)).map(Most::Of)
    }
}

#[cfg(feature = "schema")]
impl<T: schemars::JsonSchema> schemars::JsonSchema for Most<T> {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        format!("Most_{}", T::schema_name()).into()
    }

    fn inline_schema() -> bool {
        true
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let most = generator.subschema_for::<T>();
        schemars::json_schema!({ "anyOf": [most, { "const": NOT_LIMITED }] })
    }
}
