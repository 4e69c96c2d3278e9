//! The schemas as the types have them.

use super::SchemaName;
use crate::arrangement::Arrangement;
use crate::catalogue::Catalogue;
use crate::requirements::file::ListFile;
use crate::workshop::Workshop;
use schemars::transform::{Transform, transform_subschemas};
use schemars::{JsonSchema, Schema, SchemaGenerator, generate::SchemaSettings};

/// The schema of a file as its types have it, which is what is to be committed.
pub fn generated(name: SchemaName) -> String {
    let schema = match name {
        SchemaName::List => written_by_hand::<ListFile>(),
        // A catalogue may be a folder of files, of which only one says what catalogue it is.
        SchemaName::Catalogue => {
            let mut schema = written_by_hand::<Catalogue>();
            schema.remove("required");
            schema
        }
        SchemaName::Workshop => written_by_hand::<Workshop>(),
        SchemaName::Arrangement => generator().into_root_schema_for::<Arrangement>(),
    };
    format!("{:#}\n", schema.as_value())
}

fn generator() -> SchemaGenerator {
    SchemaSettings::draft2020_12()
        .with_transform(Described)
        .into_generator()
}

/// The schema of a file that people write: a field that no table has is an error, as it is in reading.
fn written_by_hand<T: JsonSchema>() -> Schema {
    SchemaSettings::draft2020_12()
        .with_transform(OnlyKnownFields)
        .with_transform(Described)
        .into_generator()
        .into_root_schema_for::<T>()
}

/// Forbids fields that are not described.
#[derive(Debug, Clone)]
struct OnlyKnownFields;

impl Transform for OnlyKnownFields {
    fn transform(&mut self, schema: &mut Schema) {
        if schema.get("properties").is_some() && schema.get("additionalProperties").is_none() {
            schema.insert("additionalProperties".into(), false.into());
        }
        transform_subschemas(self, schema);
    }
}

/// Units by the end of a field's name, the longer ends first.
const UNITS: [(&str, &str); 16] = [
    ("_kg_per_m", "kg/m"),
    ("price_per_m", "currency of the catalogue per metre"),
    ("_percent", "%"),
    ("_days", "days"),
    ("_mohm", "mΩ"),
    ("_mm2", "mm²"),
    ("_mm", "mm"),
    ("_kg", "kg"),
    ("_nm", "N·m"),
    ("_a", "A"),
    ("_v", "V"),
    ("_c", "°C"),
    ("_k", "K"),
    ("_w", "W"),
    ("_j", "J"),
    ("price", "currency of the catalogue"),
];

/// The unit that the name of a field carries.
fn unit(field: &str) -> Option<&'static str> {
    UNITS
        .iter()
        .find(|(end, _)| field.ends_with(end))
        .map(|(_, unit)| *unit)
}

/// Whether a description says its unit, as a word of its own.
fn says(text: &str, unit: &str) -> bool {
    let first = unit.split(' ').next().unwrap_or(unit);
    text.split_whitespace()
        .any(|word| word.trim_matches([',', '.', ';', ':', '(', ')']) == first)
}

/// Gives the value of a variant the words of the variant, and every quantity its unit.
#[derive(Debug, Clone)]
struct Described;

impl Transform for Described {
    fn transform(&mut self, schema: &mut Schema) {
        let words = schema.get("description").cloned();
        if let Some(properties) = schema
            .get_mut("properties")
            .and_then(|all| all.as_object_mut())
        {
            let is_only = properties.len() == 1;
            for (name, property) in properties {
                describe(name, property, words.as_ref().filter(|_| is_only));
            }
        }
        transform_subschemas(self, schema);
    }
}

/// Adds to the description of one field what it lacks: the words of its variant, its unit.
fn describe(name: &str, property: &mut serde_json::Value, words: Option<&serde_json::Value>) {
    let Some(property) = property.as_object_mut() else {
        return;
    };
    if let (false, Some(words)) = (property.contains_key("description"), words) {
        property.insert("description".into(), words.clone());
    }
    let Some(serde_json::Value::String(text)) = property.get_mut("description") else {
        return;
    };
    if let Some(unit) = unit(name).filter(|unit| !says(text, unit)) {
        text.push_str(&format!(" Unit: {unit}."));
    }
}
