//! Stand-ins: values of whatever kind a type asks for, so that reading can go on behind an error.

use serde::de::value::StrDeserializer;
use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, IntoDeserializer, MapAccess, SeqAccess,
    VariantAccess, Visitor,
};

use super::Reading;
use super::refusal::Refusal;
use super::wanted::Wanted;
use crate::source::tree::NodeId;

/// A type that holds itself, and whose first form does so, would be built without end.
const DEEPEST: usize = 24;

/// A stand-in for one value.
#[derive(Clone, Copy)]
pub(super) struct Dummy<'p, 't> {
    reading: &'p Reading<'t>,
    /// The field it stands for, if that is missing: the type tells here what it would have been.
    missing: Option<(NodeId, &'static str)>,
    depth: usize,
}

impl<'p, 't> Dummy<'p, 't> {
    /// For a value that is there, but wrong.
    pub(super) fn new(reading: &'p Reading<'t>) -> Self {
        Self {
            reading,
            missing: None,
            depth: 0,
        }
    }

    /// For a field that is not there.
    pub(super) fn missing(reading: &'p Reading<'t>, table: NodeId, field: &'static str) -> Self {
        Self {
            reading,
            missing: Some((table, field)),
            depth: 0,
        }
    }

    fn wants(self, wanted: Wanted) {
        if let Some(field) = self.missing {
            let mut marks = self.reading.marks.borrow_mut();
            if let Some(known @ None) = marks.missing.get_mut(&field) {
                *known = Some(wanted);
            }
        }
    }

    fn inner(self) -> Result<Self, Refusal> {
        if self.depth == DEEPEST {
            return Err(Refusal::consequence());
        }
        Ok(Self {
            missing: None,
            depth: self.depth + 1,
            ..self
        })
    }

    fn list(self, length: usize) -> Result<DummyList<'p, 't>, Refusal> {
        Ok(DummyList {
            dummy: self.inner()?,
            left: length,
        })
    }

    pub(super) fn fields(
        self,
        fields: &'static [&'static str],
    ) -> Result<DummyFields<'p, 't>, Refusal> {
        Ok(DummyFields {
            dummy: self.inner()?,
            fields,
        })
    }
}

/// Whatever a type says against a stand-in follows from the error it stands for.
fn silenced<T>(result: Result<T, Refusal>) -> Result<T, Refusal> {
    result.map_err(|_| Refusal::consequence())
}

macro_rules! whole {
    ($($method:ident $type:ty, $visit:ident;)*) => {$(
        fn $method<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
            self.wants(Wanted::Whole { least: <$type>::MIN.into(), most: <$type>::MAX.into() });
            silenced(visitor.$visit(0))
        }
    )*};
}

impl<'de> Deserializer<'de> for Dummy<'_, '_> {
    type Error = Refusal;

    whole! {
        deserialize_i8 i8, visit_i8;
        deserialize_i16 i16, visit_i16;
        deserialize_i32 i32, visit_i32;
        deserialize_i64 i64, visit_i64;
        deserialize_u8 u8, visit_u8;
        deserialize_u16 u16, visit_u16;
        deserialize_u32 u32, visit_u32;
        deserialize_u64 u64, visit_u64;
    }

    fn deserialize_any<V: Visitor<'de>>(self, _: V) -> Result<V::Value, Refusal> {
        Err(Refusal::consequence())
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.wants(Wanted::Truth);
        silenced(visitor.visit_bool(false))
    }

    fn deserialize_f32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.deserialize_f64(visitor)
    }

    fn deserialize_f64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.wants(Wanted::Number);
        silenced(visitor.visit_f64(0.0))
    }

    fn deserialize_char<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.wants(Wanted::Text);
        silenced(visitor.visit_char(' '))
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.wants(Wanted::Text);
        silenced(visitor.visit_str(""))
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.deserialize_str(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        silenced(visitor.visit_none())
    }

    fn deserialize_unit<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        silenced(visitor.visit_unit())
    }

    fn deserialize_unit_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        silenced(visitor.visit_unit())
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        silenced(visitor.visit_newtype_struct(self))
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.wants(Wanted::List);
        silenced(visitor.visit_seq(self.list(0)?))
    }

    fn deserialize_tuple<V: Visitor<'de>>(
        self,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        self.wants(Wanted::ListOf(length));
        silenced(visitor.visit_seq(self.list(length)?))
    }

    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        self.deserialize_tuple(length, visitor)
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.wants(Wanted::Table(Vec::new()));
        silenced(visitor.visit_map(self.fields(&[])?))
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        self.wants(Wanted::Table(fields.to_vec()));
        silenced(visitor.visit_map(self.fields(fields)?))
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        self.wants(Wanted::Word(variants.to_vec()));
        let word = variants.first().ok_or_else(Refusal::consequence)?;
        silenced(visitor.visit_enum(DummyWord {
            dummy: self.inner()?,
            word,
        }))
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        silenced(visitor.visit_unit())
    }

    serde::forward_to_deserialize_any! { i128 u128 bytes byte_buf identifier }
}

/// A list of stand-ins.
pub(super) struct DummyList<'p, 't> {
    dummy: Dummy<'p, 't>,
    left: usize,
}

impl<'de> SeqAccess<'de> for DummyList<'_, '_> {
    type Error = Refusal;

    fn next_element_seed<T: DeserializeSeed<'de>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, Refusal> {
        if self.left == 0 {
            return Ok(None);
        }
        self.left -= 1;
        silenced(seed.deserialize(self.dummy)).map(Some)
    }
}

/// A table in which every field is a stand-in.
pub(super) struct DummyFields<'p, 't> {
    dummy: Dummy<'p, 't>,
    fields: &'static [&'static str],
}

impl<'de> MapAccess<'de> for DummyFields<'_, '_> {
    type Error = Refusal;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, Refusal> {
        let Some(field) = self.fields.first() else {
            return Ok(None);
        };
        let key: StrDeserializer<'_, Refusal> = field.into_deserializer();
        silenced(seed.deserialize(key)).map(Some)
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, Refusal> {
        self.fields = self.fields.get(1..).unwrap_or_default();
        silenced(seed.deserialize(self.dummy))
    }
}

/// One form of an enum, with stand-ins for what it holds.
struct DummyWord<'p, 't> {
    dummy: Dummy<'p, 't>,
    word: &'static str,
}

impl<'de> EnumAccess<'de> for DummyWord<'_, '_> {
    type Error = Refusal;
    type Variant = Self;

    fn variant_seed<V: DeserializeSeed<'de>>(self, seed: V) -> Result<(V::Value, Self), Refusal> {
        let word: StrDeserializer<'_, Refusal> = self.word.into_deserializer();
        Ok((silenced(seed.deserialize(word))?, self))
    }
}

impl<'de> VariantAccess<'de> for DummyWord<'_, '_> {
    type Error = Refusal;

    fn unit_variant(self) -> Result<(), Refusal> {
        Ok(())
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, Refusal> {
        silenced(seed.deserialize(self.dummy))
    }

    fn tuple_variant<V: Visitor<'de>>(
        self,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        self.dummy.deserialize_tuple(length, visitor)
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        self.dummy.deserialize_struct("", fields, visitor)
    }
}
