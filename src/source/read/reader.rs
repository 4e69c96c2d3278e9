//! The serde side of reading: hands the values of the tree to the type that asks for them.

use serde::de::{Deserializer, Visitor};

use super::Reading;
use super::dummy::Dummy;
use super::entries::{Elements, Entries};
use super::form::Form;
use super::refusal::Refusal;
use super::wanted::Wanted;
use crate::source::tree::{NodeId, Value};

/// One value about to be read.
#[derive(Clone, Copy)]
pub(super) struct Reader<'p, 't> {
    reading: &'p Reading<'t>,
    node: NodeId,
}

impl<'p, 't> Reader<'p, 't> {
    pub(super) fn new(reading: &'p Reading<'t>, node: NodeId) -> Self {
        Self { reading, node }
    }

    fn value(self) -> &'t Value {
        &self.reading.tree.node(self.node).value
    }

    /// Notes that another kind of value is wanted and gives a stand-in of that kind.
    fn instead(self, wanted: Wanted) -> Dummy<'p, 't> {
        self.reading.wrong_type(self.node, wanted);
        Dummy::new(self.reading)
    }

    /// A float as read, or a stand-in for one that is no use in a calculation.
    fn finite(self, float: f64) -> f64 {
        if float.is_finite() {
            return float;
        }
        let raw = self.reading.tree.file.at(&self.reading.head(self.node));
        let message = format!(
            "`{}` must be a finite number, found {raw}",
            self.reading.name(self.node)
        );
        let finding = self.reading.error(self.node, "source-not-finite", message);
        let finding = match Wanted::Number.expected_of(&self.reading.field(self.node), None) {
            Some(expected) => finding.expected(expected),
            None => finding,
        };
        self.reading.wrong(self.node, finding);
        0.0
    }

    fn elements(self, list: &'t [NodeId], keep_bad: bool) -> Elements<'p, 't> {
        Elements::new(self.reading, list, keep_bad)
    }

    fn entries(
        self,
        in_order: &'t [NodeId],
        fields: Option<&'static [&'static str]>,
    ) -> Entries<'p, 't> {
        Entries::new(self.reading, self.node, in_order, fields)
    }
}

macro_rules! whole {
    ($($method:ident $type:ty;)*) => {$(
        fn $method<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
            match self.value() {
                Value::Integer(integer) if <$type>::try_from(*integer).is_ok() => {
                    visitor.visit_i64(*integer)
                }
                _ => {
                    let least = <$type>::MIN.into();
                    let most = <$type>::MAX.into();
                    self.instead(Wanted::Whole { least, most }).$method(visitor)
                }
            }
        }
    )*};
}

impl<'de> Deserializer<'de> for Reader<'_, '_> {
    type Error = Refusal;

    whole! {
        deserialize_i8 i8;
        deserialize_i16 i16;
        deserialize_i32 i32;
        deserialize_i64 i64;
        deserialize_u8 u8;
        deserialize_u16 u16;
        deserialize_u32 u32;
        deserialize_u64 u64;
    }

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        match self.value() {
            Value::Text(text) => visitor.visit_str(text),
            Value::Integer(integer) => visitor.visit_i64(*integer),
            Value::Float(float) => visitor.visit_f64(self.finite(*float)),
            Value::Boolean(truth) => visitor.visit_bool(*truth),
            Value::Date(date) => visitor.visit_str(date),
            Value::List(list) => visitor.visit_seq(self.elements(list, false)),
            Value::Table(table) => visitor.visit_map(self.entries(&table.in_order, None)),
        }
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        match self.value() {
            Value::Boolean(truth) => visitor.visit_bool(*truth),
            _ => self.instead(Wanted::Truth).deserialize_bool(visitor),
        }
    }

    fn deserialize_f32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.deserialize_f64(visitor)
    }

    fn deserialize_f64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        match self.value() {
            Value::Float(float) => visitor.visit_f64(self.finite(*float)),
            // Lists hold figures far below 2^53, up to which every whole number is a float.
            Value::Integer(integer) => visitor.visit_f64(*integer as f64),
            _ => self.instead(Wanted::Number).deserialize_f64(visitor),
        }
    }

    fn deserialize_char<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.deserialize_str(visitor)
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        match self.value() {
            Value::Text(text) => visitor.visit_str(text),
            // A date is as good as the same date in quotes.
            Value::Date(date) => visitor.visit_str(date),
            _ => self.instead(Wanted::Text).deserialize_str(visitor),
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        self.deserialize_str(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        visitor.visit_some(self)
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        match self.value() {
            Value::List(list) => visitor.visit_seq(self.elements(list, false)),
            _ => self.instead(Wanted::List).deserialize_seq(visitor),
        }
    }

    fn deserialize_tuple<V: Visitor<'de>>(
        self,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        match self.value() {
            Value::List(list) if list.len() == length => {
                visitor.visit_seq(self.elements(list, true))
            }
            _ => self
                .instead(Wanted::ListOf(length))
                .deserialize_tuple(length, visitor),
        }
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
        match self.value() {
            Value::Table(table) => visitor.visit_map(self.entries(&table.in_order, None)),
            _ => self
                .instead(Wanted::Table(Vec::new()))
                .deserialize_map(visitor),
        }
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        match self.value() {
            Value::Table(table) => visitor.visit_map(self.entries(&table.in_order, Some(fields))),
            _ => {
                let dummy = self.instead(Wanted::Table(fields.to_vec()));
                dummy.deserialize_struct(name, fields, visitor)
            }
        }
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        let (word, word_node, content) = match self.value() {
            Value::Text(text) => (text.as_str(), self.node, None),
            Value::Table(table) if table.in_order.len() == 1 => {
                let entry = table.in_order[0];
                (self.reading.tree.key(entry), entry, Some(entry))
            }
            _ => {
                let dummy = self.instead(Wanted::Word(variants.to_vec()));
                return dummy.deserialize_enum(name, variants, visitor);
            }
        };
        if !variants.contains(&word) {
            self.reading.unknown_word(self.node, word, variants);
            return Dummy::new(self.reading).deserialize_enum(name, variants, visitor);
        }
        let form = Form {
            reading: self.reading,
            word,
            word_node,
            content,
        };
        visitor.visit_enum(form)
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Refusal> {
        visitor.visit_unit()
    }

    serde::forward_to_deserialize_any! {
        i128 u128 bytes byte_buf unit unit_struct identifier
    }
}
