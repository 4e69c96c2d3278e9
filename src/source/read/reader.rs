//! The serde side of reading: hands the values of the tree to the type that asks for them.

use serde::de::value::StrDeserializer;
use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, IntoDeserializer, MapAccess, SeqAccess,
    VariantAccess, Visitor,
};

use super::Reading;
use super::dummy::Dummy;
use super::refusal::{Kind, Refusal};
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

    /// The elements of a list; those known to be wrong are left out.
    fn elements(self, list: &'t [NodeId], keep_bad: bool) -> Elements<'p, 't> {
        Elements {
            reading: self.reading,
            left: list.iter(),
            keep_bad,
        }
    }

    /// The entries of a table; `fields` are those its type knows, if it has said so.
    fn entries(
        self,
        in_order: &'t [NodeId],
        fields: Option<&'static [&'static str]>,
    ) -> Entries<'p, 't> {
        let marks = self.reading.marks.borrow();
        let all = marks.missing.range((self.node, "")..).map(|(key, _)| *key);
        let missing = all
            .take_while(|(table, _)| *table == self.node)
            .map(|(_, field)| field);
        let missing = if fields.is_some() {
            missing.collect()
        } else {
            Vec::new()
        };
        Entries {
            reading: self.reading,
            table: self.node,
            left: in_order.iter(),
            fields,
            bad: Vec::new(),
            missing,
            current: None,
        }
    }
}

/// Reads a value, or a stand-in if it is known to be wrong, and notes where it was refused.
fn read_seed<'de, S: DeserializeSeed<'de>>(
    reading: &Reading<'_>,
    node: NodeId,
    seed: S,
) -> Result<S::Value, Refusal> {
    if reading.is_bad(node) {
        seed.deserialize(Dummy::new(reading))
            .map_err(|_| Refusal::consequence())
    } else {
        seed.deserialize(Reader::new(reading, node))
            .map_err(|refusal| refusal.at(node))
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

/// The elements of a list still to be read.
struct Elements<'p, 't> {
    reading: &'p Reading<'t>,
    left: std::slice::Iter<'t, NodeId>,
    /// A list of fixed length needs a stand-in where an element is wrong; others do without.
    keep_bad: bool,
}

impl<'de> SeqAccess<'de> for Elements<'_, '_> {
    type Error = Refusal;

    fn next_element_seed<T: DeserializeSeed<'de>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, Refusal> {
        let (reading, keep_bad) = (self.reading, self.keep_bad);
        match self
            .left
            .find(|element| keep_bad || !reading.is_bad(**element))
        {
            Some(element) => read_seed(reading, *element, seed).map(Some),
            None => Ok(None),
        }
    }
}

/// The entries of a table still to be read, then the stand-ins for what is missing.
struct Entries<'p, 't> {
    reading: &'p Reading<'t>,
    table: NodeId,
    left: std::slice::Iter<'t, NodeId>,
    fields: Option<&'static [&'static str]>,
    /// Fields known to be wrong are put off to the end: their stand-ins may be refused, and what
    /// is wrong with the others should be found before that.
    bad: Vec<NodeId>,
    missing: Vec<&'static str>,
    current: Option<NodeId>,
}

impl Entries<'_, '_> {
    fn key<'de, K: DeserializeSeed<'de>>(
        &mut self,
        entry: NodeId,
        seed: K,
    ) -> Result<K::Value, Refusal> {
        self.current = Some(entry);
        let key: StrDeserializer<'_, Refusal> = self.reading.tree.key(entry).into_deserializer();
        seed.deserialize(key).map_err(|refusal| refusal.at(entry))
    }
}

impl<'de> MapAccess<'de> for Entries<'_, '_> {
    type Error = Refusal;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, Refusal> {
        for entry in self.left.by_ref() {
            let is_bad = self.reading.is_bad(*entry);
            match self.fields {
                Some(fields) if !fields.contains(&self.reading.tree.key(*entry)) => {
                    self.reading.unknown_field(self.table, *entry, fields);
                    continue;
                }
                Some(_) if is_bad => {
                    self.bad.push(*entry);
                    continue;
                }
                // Under keys of the user's own making nothing is needed in its place.
                None if is_bad => continue,
                _ => {}
            }
            return self.key(*entry, seed).map(Some);
        }
        if let Some(entry) = self.bad.pop() {
            return self.key(entry, seed).map(Some);
        }
        self.current = None;
        let Some(field) = self.missing.last() else {
            return Ok(None);
        };
        let key: StrDeserializer<'_, Refusal> = field.into_deserializer();
        seed.deserialize(key)
            .map_err(|_| Refusal::consequence())
            .map(Some)
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, Refusal> {
        if let Some(entry) = self.current {
            return read_seed(self.reading, entry, seed);
        }
        match self.missing.pop() {
            Some(field) => {
                let dummy = Dummy::missing(self.reading, self.table, field);
                seed.deserialize(dummy).map_err(|_| Refusal::consequence())
            }
            None => Err(Refusal::consequence()),
        }
    }
}

/// One form of an enum: a word alone, or a table whose only key is the word.
struct Form<'p, 't> {
    reading: &'p Reading<'t>,
    word: &'t str,
    word_node: NodeId,
    content: Option<NodeId>,
}

impl Form<'_, '_> {
    fn lacks_content(&self) -> Refusal {
        let wanted = format!("a table `{{ {} = … }}`", self.word);
        Refusal::from(Kind::WrongType { wanted }).at(self.word_node)
    }
}

impl<'de> EnumAccess<'de> for Form<'_, '_> {
    type Error = Refusal;
    type Variant = Self;

    fn variant_seed<V: DeserializeSeed<'de>>(self, seed: V) -> Result<(V::Value, Self), Refusal> {
        let word: StrDeserializer<'_, Refusal> = self.word.into_deserializer();
        let word = seed
            .deserialize(word)
            .map_err(|refusal| refusal.at(self.word_node))?;
        Ok((word, self))
    }
}

impl<'de> VariantAccess<'de> for Form<'_, '_> {
    type Error = Refusal;

    fn unit_variant(self) -> Result<(), Refusal> {
        match self.content {
            None => Ok(()),
            Some(content) => {
                let wanted = format!("the text \"{}\" alone", self.word);
                Err(Refusal::from(Kind::WrongType { wanted }).at(content))
            }
        }
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, Refusal> {
        let content = self.content.ok_or_else(|| self.lacks_content())?;
        read_seed(self.reading, content, seed)
    }

    fn tuple_variant<V: Visitor<'de>>(
        self,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        let content = self.content.ok_or_else(|| self.lacks_content())?;
        if self.reading.is_bad(content) {
            return Dummy::new(self.reading).deserialize_tuple(length, visitor);
        }
        let reader = Reader::new(self.reading, content);
        reader
            .deserialize_tuple(length, visitor)
            .map_err(|refusal| refusal.at(content))
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Refusal> {
        let content = self.content.ok_or_else(|| self.lacks_content())?;
        if self.reading.is_bad(content) {
            return Dummy::new(self.reading).deserialize_struct("", fields, visitor);
        }
        let reader = Reader::new(self.reading, content);
        reader
            .deserialize_struct("", fields, visitor)
            .map_err(|refusal| refusal.at(content))
    }
}
