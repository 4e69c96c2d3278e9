//! The field names of a struct, asked from its own `Deserialize`.

use serde::de::value::Error;
use serde::de::{Deserialize, Deserializer, Error as _, Visitor};
use std::cell::Cell;

/// The field names that `T` reads, in the order of its definition.
pub fn of<'de, T: Deserialize<'de>>() -> &'static [&'static str] {
    let names = Cell::new(None);
    let read = T::deserialize(Probe(&names));
    assert!(read.is_err(), "the probe gives no value");
    names.get().expect("the type is a struct with named fields")
}

/// Notes the names it is asked for and refuses to give values.
struct Probe<'a>(&'a Cell<Option<&'static [&'static str]>>);

impl<'de> Deserializer<'de> for Probe<'_> {
    type Error = Error;

    fn deserialize_any<V: Visitor<'de>>(self, _visitor: V) -> Result<V::Value, Error> {
        Err(Error::custom("not a struct"))
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _name: &'static str,
        fields: &'static [&'static str],
        _visitor: V,
    ) -> Result<V::Value, Error> {
        self.0.set(Some(fields));
        Err(Error::custom("names only"))
    }

    serde::forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf option unit
        unit_struct newtype_struct seq tuple tuple_struct map enum identifier ignored_any
    }
}
