//! JSON Schemas of the files, so that an editor can complete and check a file while it is written. A schema
//! knows shapes and words; what the trade permits is known by the checks of each room.
//!
//! They are generated from the types that read the files (feature `schema`), committed in `docs/schema` and
//! kept true by a test. The program prints the committed text: deriving the generators would be a twelfth of
//! its build.

#[cfg(feature = "schema")]
mod generate;
#[cfg(feature = "schema")]
pub use generate::generated;

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
pub fn schema(name: SchemaName) -> &'static str {
    match name {
        SchemaName::List => include_str!("../../docs/schema/list.schema.json"),
        SchemaName::Catalogue => include_str!("../../docs/schema/catalogue.schema.json"),
        SchemaName::Workshop => include_str!("../../docs/schema/workshop.schema.json"),
        SchemaName::Arrangement => include_str!("../../docs/schema/arrangement.schema.json"),
    }
}
