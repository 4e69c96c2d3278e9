//! JSON Schemas of the files, generated from the types that read them, so that an editor can complete
//! and check a file while it is written. A schema knows shapes and words; what the trade permits is
//! known by the checks of each room.

use crate::arrangement::Arrangement;
use crate::catalogue::Catalogue;
use crate::requirements::file::ListFile;
use crate::workshop::Workshop;
use schemars::transform::{Transform, transform_subschemas};
use schemars::{JsonSchema, Schema, SchemaGenerator, generate::SchemaSettings};

/// The files that have a schema.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, clap::ValueEnum)]
pub enum SchemaName {
    /// The requirement list.
    List,
    /// A catalogue, or one file of a folder of them.
    Catalogue,
    /// The workshop's rules.
    Workshop,
    /// An arrangement.
    Arrangement,
}

impl SchemaName {
    /// All schemas.
    pub const ALL: [SchemaName; 4] = [
        SchemaName::List,
        SchemaName::Catalogue,
        SchemaName::Workshop,
        SchemaName::Arrangement,
    ];

    /// The name used in files.
    pub fn name(self) -> &'static str {
        match self {
            SchemaName::List => "list",
            SchemaName::Catalogue => "catalogue",
            SchemaName::Workshop => "workshop",
            SchemaName::Arrangement => "arrangement",
        }
    }
}

/// The schema of a file (JSON Schema, draft 2020-12) as text.
pub fn schema(name: SchemaName) -> String {
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
    SchemaSettings::draft2020_12().into_generator()
}

/// The schema of a file that people write: a field that no table has is an error, as it is in reading.
fn written_by_hand<T: JsonSchema>() -> Schema {
    SchemaSettings::draft2020_12()
        .with_transform(OnlyKnownFields)
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
