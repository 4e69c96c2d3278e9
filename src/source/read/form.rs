//! Enums: a word alone, or a table whose only key is the word.

use serde::de::value::StrDeserializer;
use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, IntoDeserializer, VariantAccess, Visitor,
};

use super::Reading;
use super::dummy::Dummy;
use super::entries::read_seed;
use super::reader::Reader;
use super::refusal::{Kind, Refusal};
use crate::source::tree::NodeId;

/// One form of an enum: a word alone, or a table whose only key is the word.
pub(super) struct Form<'p, 't> {
    pub(super) reading: &'p Reading<'t>,
    pub(super) word: &'t str,
    /// Where the word stands.
    pub(super) word_node: NodeId,
    /// What stands under the word, if it is a key.
    pub(super) content: Option<NodeId>,
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
