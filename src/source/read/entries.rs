//! The inside of lists and tables, handed on one value after the other.

use serde::de::value::StrDeserializer;
use serde::de::{DeserializeSeed, IntoDeserializer, MapAccess, SeqAccess};

use super::Reading;
use super::dummy::Dummy;
use super::reader::Reader;
use super::refusal::Refusal;
use crate::source::tree::NodeId;

/// Reads a value, or a stand-in if it is known to be wrong, and notes where it was refused.
pub(super) fn read_seed<'de, S: DeserializeSeed<'de>>(
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

/// The elements of a list still to be read.
pub(super) struct Elements<'p, 't> {
    reading: &'p Reading<'t>,
    left: std::slice::Iter<'t, NodeId>,
    /// A list of fixed length needs a stand-in where an element is wrong; others do without.
    keep_bad: bool,
}

impl<'p, 't> Elements<'p, 't> {
    pub(super) fn new(reading: &'p Reading<'t>, list: &'t [NodeId], keep_bad: bool) -> Self {
        Self {
            reading,
            left: list.iter(),
            keep_bad,
        }
    }
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
pub(super) struct Entries<'p, 't> {
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

impl<'p, 't> Entries<'p, 't> {
    /// `fields` are those the type knows, if it has said so.
    pub(super) fn new(
        reading: &'p Reading<'t>,
        table: NodeId,
        in_order: &'t [NodeId],
        fields: Option<&'static [&'static str]>,
    ) -> Self {
        let missing = if fields.is_some() {
            reading.missing_in(table)
        } else {
            Vec::new()
        };
        let left = in_order.iter();
        Self {
            reading,
            table,
            left,
            fields,
            bad: Vec::new(),
            missing,
            current: None,
        }
    }

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
