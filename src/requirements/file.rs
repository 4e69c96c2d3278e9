//! The requirement list as it stands in the file. Plain structs that mirror the TOML; checking and
//! resolving happens in the other files of this room. docs/requirement-list.md describes the fields.

use crate::arrangement::Orientation;
use crate::catalogue::{
    ConductorBuild, ContactKind, ElementKind, IpCode, Material, TerminalFunction,
};
use crate::requirements::{CircuitGroup, Measure, ThreadSystem};
use crate::space::Face;
use crate::standards::iec_60079_0::{
    DustGroup, EquipmentProtectionLevel, GasGroup, TemperatureClass, Zone,
};
use crate::standards::threads::Thread;
use serde::de::{DeserializeOwned, Deserializer, SeqAccess, Visitor, value};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::fmt;
use std::marker::PhantomData;

/// A requirement list as a whole, as its schema describes it. Reading goes table by table, so that all
/// that is wrong is found in one run.
#[derive(schemars::JsonSchema)]
#[schemars(rename = "RequirementList")]
#[allow(dead_code)] // Never made: only its schema is.
pub(crate) struct ListFile {
    job: JobTable,
    area: AreaTable,
    #[schemars(default, rename = "box")]
    wishes: Option<BoxTable>,
    spare: Option<SpareTable>,
    earthing: Option<EarthingTable>,
    #[schemars(default)]
    cable: Vec<CableTable>,
    #[schemars(default)]
    circuit: Vec<CircuitTable>,
    #[schemars(default)]
    element: Vec<ElementTable>,
    #[schemars(default)]
    link: Vec<LinkTable>,
}

/// `[job]`.
#[derive(Debug, Clone, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct JobTable {
    pub tag: String,
    #[serde(default)]
    pub title: String,
    #[serde(default)]
    pub revision: String,
    #[serde(default)]
    pub customer_reference: String,
    #[serde(default)]
    pub notes: String,
}

/// `[area]`.
#[derive(Debug, Clone, Serialize, Deserialize, schemars::JsonSchema)]
pub struct AreaTable {
    #[serde(default)]
    pub zone: Option<OneOrMany<Zone>>,
    #[serde(default)]
    pub epl: Option<OneOrMany<EquipmentProtectionLevel>>,
    #[serde(default)]
    pub gas_group: Option<GasGroup>,
    #[serde(default)]
    pub dust_group: Option<DustGroup>,
    #[serde(default)]
    pub temperature_class: Option<TemperatureClass>,
    #[serde(default)]
    pub max_surface_c: Option<f64>,
    #[serde(default)]
    pub ambient_c: Option<[f64; 2]>,
    #[serde(default)]
    pub ip: Option<IpCode>,
}

/// `[box]`.
#[derive(Debug, Clone, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct BoxTable {
    #[serde(default)]
    pub material: Option<OneOrMany<Material>>,
    #[serde(default)]
    pub max_outer_mm: Option<[f64; 3]>,
    #[serde(default)]
    pub orientation: Option<OneOrMany<Orientation>>,
    #[serde(default)]
    pub entry_walls: Option<OneOrMany<Face>>,
    #[serde(default)]
    pub enclosures: EnclosureWishes,
    #[serde(default)]
    pub smallest: Option<OneOrMany<Measure>>,
    #[serde(default)]
    pub thread: Option<ThreadSystem>,
    #[serde(default)]
    pub lid_hinge: Option<OneOrMany<Face>>,
    #[serde(default)]
    pub breather: bool,
}

/// `[box.enclosures]`.
#[derive(Debug, Clone, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct EnclosureWishes {
    #[serde(default)]
    pub include: Vec<String>,
    #[serde(default)]
    pub exclude: Vec<String>,
}

/// `[spare]`.
#[derive(Debug, Clone, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct SpareTable {
    #[serde(default)]
    pub terminals_percent: f64,
    #[serde(default)]
    pub entries: BTreeMap<Thread, u32>,
    #[serde(default)]
    pub heat_percent: f64,
}

/// `[earthing]`.
#[derive(Debug, Clone, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct EarthingTable {
    #[serde(default)]
    pub external: bool,
    #[serde(default)]
    pub spare_terminals: u32,
}

/// `[[cable]]`.
#[derive(Debug, Clone, Serialize, Deserialize, schemars::JsonSchema)]
pub struct CableTable {
    #[serde(default)]
    pub tag: Option<String>,
    #[serde(default)]
    pub tags: Option<OneOrMany<String>>,
    #[serde(default)]
    pub quantity: Option<u32>,
    pub cores: String,
    #[serde(default)]
    pub conductor: Option<ConductorBuild>,
    #[serde(default)]
    pub diameter_mm: Option<f64>,
    #[serde(default)]
    pub tolerance_mm: Option<f64>,
    #[serde(default)]
    pub tolerance_percent: Option<f64>,
    #[serde(default)]
    pub armoured: bool,
    #[serde(default)]
    pub under_armour_mm: Option<f64>,
    #[serde(default)]
    pub screened: bool,
    #[serde(default)]
    pub intrinsically_safe: bool,
    #[serde(default)]
    pub wall: Option<OneOrMany<Face>>,
    #[serde(default)]
    pub prefer_wall: Option<Face>,
    #[serde(default)]
    pub gland: Option<String>,
    #[serde(default)]
    pub gland_material: Option<Material>,
    #[serde(default)]
    pub thread: Option<ThreadSystem>,
}

/// `[[circuit]]`.
#[derive(Debug, Clone, Serialize, Deserialize, schemars::JsonSchema)]
pub struct CircuitTable {
    #[serde(default)]
    pub tag: Option<String>,
    #[serde(default)]
    pub tags: Option<OneOrMany<String>>,
    #[serde(default)]
    pub quantity: Option<u32>,
    #[serde(default)]
    pub poles: Option<u32>,
    pub voltage_v: f64,
    pub current_a: f64,
    #[serde(default)]
    pub branch_current_a: Option<f64>,
    #[serde(default)]
    pub simultaneity: Option<f64>,
    #[serde(default)]
    pub group: Option<CircuitGroup>,
    #[serde(default)]
    pub from: Option<OneOrMany<String>>,
    #[serde(default)]
    pub to: Option<OneOrMany<String>>,
    #[serde(default)]
    pub connections: Option<Vec<ConnectionTable>>,
    #[serde(default)]
    pub marking: Option<OneOrMany<String>>,
    #[serde(default)]
    pub terminal: Option<TerminalFunction>,
    #[serde(default)]
    pub terminal_part: Option<String>,
    #[serde(default)]
    pub direct: bool,
}

/// One line of `connections` of a circuit: one pole, core by core.
#[derive(Debug, Clone, Serialize, Deserialize, schemars::JsonSchema)]
pub struct ConnectionTable {
    #[serde(default)]
    pub from: Option<String>,
    #[serde(default)]
    pub to: Option<OneOrMany<String>>,
    #[serde(default)]
    pub marking: Option<String>,
}

/// `[[element]]`.
#[derive(Debug, Clone, Serialize, Deserialize, schemars::JsonSchema)]
pub struct ElementTable {
    pub tag: String,
    pub kind: ElementKind,
    #[serde(default)]
    pub function: String,
    #[serde(default)]
    pub label: String,
    #[serde(default)]
    pub colour: Option<String>,
    #[serde(default)]
    pub positions: Option<u32>,
    #[serde(default)]
    pub contacts: Vec<ContactKind>,
    #[serde(default)]
    pub part: Option<String>,
    #[serde(default)]
    pub row: Option<u32>,
    #[serde(default)]
    pub order: Option<u32>,
    #[serde(default)]
    pub above: Option<String>,
    #[serde(default)]
    pub beside: Option<String>,
}

/// `[[link]]`.
#[derive(Debug, Clone, Serialize, Deserialize, schemars::JsonSchema)]
pub struct LinkTable {
    pub poles: Vec<String>,
}

/// One value, or a list of them.
#[derive(Debug, Clone, Serialize)]
#[serde(transparent)]
pub struct OneOrMany<T>(pub Vec<T>);

impl<T: schemars::JsonSchema> schemars::JsonSchema for OneOrMany<T> {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        format!("OneOrMany_{}", T::schema_name()).into()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let one = generator.subschema_for::<T>();
        schemars::json_schema!({ "anyOf": [one, { "type": "array", "items": one }] })
    }
}

impl<'de, T: DeserializeOwned> Deserialize<'de> for OneOrMany<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(OneOrManyVisitor(PhantomData))
    }
}

struct OneOrManyVisitor<T>(PhantomData<T>);

impl<'de, T: DeserializeOwned> Visitor<'de> for OneOrManyVisitor<T> {
    type Value = OneOrMany<T>;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("a value or a list of values")
    }

    fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<Self::Value, E> {
        T::deserialize(value::StrDeserializer::<E>::new(text)).map(|one| OneOrMany(vec![one]))
    }

    fn visit_i64<E: serde::de::Error>(self, number: i64) -> Result<Self::Value, E> {
        T::deserialize(value::I64Deserializer::<E>::new(number)).map(|one| OneOrMany(vec![one]))
    }

    fn visit_u64<E: serde::de::Error>(self, number: u64) -> Result<Self::Value, E> {
        T::deserialize(value::U64Deserializer::<E>::new(number)).map(|one| OneOrMany(vec![one]))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Self::Value, A::Error> {
        let mut many = Vec::new();
        while let Some(one) = list.next_element()? {
            many.push(one);
        }
        Ok(OneOrMany(many))
    }
}
