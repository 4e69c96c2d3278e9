//! The requirement list as it stands in the file. Plain structs that mirror the TOML; checking and
//! resolving happens in the other files of this room. docs/requirement-list.md describes the fields
//! with their units and defaults.

use crate::arrangement::Orientation;
use crate::catalogue::{
    ConductorBuild, ContactKind, ElementKind, IpCode, Material, TerminalFunction,
};
use crate::requirements::{CircuitGroup, Measure, ThreadSystem};
use crate::space::Face;
use crate::standards::iec_60079_0::{
    DustGroup, EquipmentProtectionLevel, GasGroup, TemperatureClass, Zone,
};
use crate::standards::iec_60947_5_1::UtilisationCategory;
use crate::standards::threads::Thread;
use serde::de::{DeserializeOwned, Deserializer, SeqAccess, Visitor, value};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::fmt;
use std::marker::PhantomData;

/// A requirement list as a whole, as its schema describes it. Reading goes table by table, so that all
/// that is wrong is found in one run.
#[derive()]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(rename = "RequirementList"))]
#[allow(dead_code)] // Never made: only its schema is.
pub(crate) struct ListFile {
    /// What the box is for, and who asks for it.
    job: JobTable,
    /// The hazardous area it will stand in.
    area: AreaTable,
    /// What is wished of the enclosure itself.
    #[cfg_attr(feature = "schema", schemars(default, rename = "box"))]
    wishes: Option<BoxTable>,
    /// What is to be kept spare.
    spare: Option<SpareTable>,
    /// How the box and its cables are earthed.
    earthing: Option<EarthingTable>,
    /// The cables, one table each.
    #[cfg_attr(feature = "schema", schemars(default))]
    cable: Vec<CableTable>,
    /// The circuits, one table each.
    #[cfg_attr(feature = "schema", schemars(default))]
    circuit: Vec<CircuitTable>,
    /// The operating elements in the lid, one table each.
    #[cfg_attr(feature = "schema", schemars(default))]
    element: Vec<ElementTable>,
    /// Wires inside the box from core, terminal or element point to another, one table each.
    #[cfg_attr(feature = "schema", schemars(default))]
    link: Vec<LinkTable>,
    /// How dear a change of some requirement is, for explanations, one table each.
    #[cfg_attr(feature = "schema", schemars(default))]
    weight: Vec<WeightTable>,
}

/// `[job]`.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct JobTable {
    /// Tag of the box.
    pub tag: String,
    /// Title.
    #[serde(default)]
    pub title: String,
    /// Revision.
    #[serde(default)]
    pub revision: String,
    /// The customer's reference.
    #[serde(default)]
    pub customer_reference: String,
    /// Free notes.
    #[serde(default)]
    pub notes: String,
    /// Requirements that `explain` must not propose to change, such as `area` or `cable W1`.
    #[serde(default)]
    pub fixed: Vec<String>,
}

/// `[area]`.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct AreaTable {
    /// Zone or zones of the place.
    #[serde(default)]
    pub zone: Option<OneOrMany<Zone>>,
    /// Equipment protection levels, instead of zones or beside them.
    #[serde(default)]
    pub epl: Option<OneOrMany<EquipmentProtectionLevel>>,
    /// Gas group; needed with a gas zone.
    #[serde(default)]
    pub gas_group: Option<GasGroup>,
    /// Dust group; needed with a dust zone.
    #[serde(default)]
    pub dust_group: Option<DustGroup>,
    /// Temperature class; needed with a gas zone.
    #[serde(default)]
    pub temperature_class: Option<TemperatureClass>,
    /// Highest surface temperature; needed with a dust zone.
    #[serde(default)]
    pub max_surface_c: Option<f64>,
    /// Lowest and highest ambient temperature.
    #[serde(default)]
    pub ambient_c: Option<[f64; 2]>,
    /// Least degree of protection.
    #[serde(default)]
    pub ip: Option<IpCode>,
}

/// `[box]`.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct BoxTable {
    /// Permitted materials; all where missing.
    #[serde(default)]
    pub material: Option<OneOrMany<Material>>,
    /// Largest outer width, height and depth as mounted.
    #[serde(default)]
    pub max_outer_mm: Option<[f64; 3]>,
    /// Permitted orientations, in order of preference.
    #[serde(default)]
    pub orientation: Option<OneOrMany<Orientation>>,
    /// Walls that may carry entries, in order of preference.
    #[serde(default)]
    pub entry_walls: Option<OneOrMany<Face>>,
    /// Enclosures to choose from, or to leave out.
    #[serde(default)]
    pub enclosures: EnclosureWishes,
    /// What "smallest" means: compared in this order.
    #[serde(default)]
    pub smallest: Option<OneOrMany<Measure>>,
    /// Thread system of the glands of cables that name none.
    #[serde(default)]
    pub thread: Option<ThreadSystem>,
    /// Walls at which a hinged lid may hang.
    #[serde(default)]
    pub lid_hinge: Option<OneOrMany<Face>>,
    /// Whether a breather and drain is asked for.
    #[serde(default)]
    pub breather: bool,
}

/// `[box.enclosures]`.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct EnclosureWishes {
    /// Only these ids; any where empty.
    #[serde(default)]
    pub include: Vec<String>,
    /// Not these ids.
    #[serde(default)]
    pub exclude: Vec<String>,
}

/// `[spare]`.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SpareTable {
    /// Spare terminals as a share of those used in each strip, rounded up.
    #[serde(default)]
    pub terminals_percent: f64,
    /// Spare entries by thread.
    #[serde(default)]
    pub entries: BTreeMap<Thread, u32>,
    /// Share of the rated power to be kept free.
    #[serde(default)]
    pub heat_percent: f64,
}

/// `[earthing]`.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct EarthingTable {
    /// Whether an external earth terminal is asked for.
    #[serde(default)]
    pub external: bool,
    /// Earth terminals beyond those that cores and screens need.
    #[serde(default)]
    pub spare_terminals: u32,
}

/// `[[cable]]`.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CableTable {
    /// Tag of one cable, or the common tag of `quantity` alike.
    #[serde(default)]
    pub tag: Option<String>,
    /// Tags of cables alike; ranges such as `W1..W12` are written out.
    #[serde(default)]
    pub tags: Option<OneOrMany<String>>,
    /// Number of cables alike: `W-1`, `W-2` and so on.
    #[serde(default)]
    pub quantity: Option<u32>,
    /// Cores as [`read_cores`](super::read_cores) reads them.
    pub cores: String,
    /// Build of the conductors.
    #[serde(default)]
    pub conductor: Option<ConductorBuild>,
    /// Outside diameter; estimated where missing.
    #[serde(default)]
    pub diameter_mm: Option<f64>,
    /// Tolerance of the diameter, up and down.
    #[serde(default)]
    pub tolerance_mm: Option<f64>,
    /// The same as a share of the diameter.
    #[serde(default)]
    pub tolerance_percent: Option<f64>,
    /// Whether it is armoured.
    #[serde(default)]
    pub armoured: bool,
    /// Diameter under the armour.
    #[serde(default)]
    pub under_armour_mm: Option<f64>,
    /// Whether it has a screen with a drain wire that goes to earth.
    #[serde(default)]
    pub screened: bool,
    /// Whether its circuits are intrinsically safe.
    #[serde(default)]
    pub intrinsically_safe: bool,
    /// The only walls by which it may enter.
    #[serde(default)]
    pub wall: Option<OneOrMany<Face>>,
    /// The wall that it should enter by where there is room.
    #[serde(default)]
    pub prefer_wall: Option<Face>,
    /// Id of its gland.
    #[serde(default)]
    pub gland: Option<String>,
    /// Material that its gland must have.
    #[serde(default)]
    pub gland_material: Option<Material>,
    /// Thread system of its gland.
    #[serde(default)]
    pub thread: Option<ThreadSystem>,
}

/// `[[circuit]]`.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CircuitTable {
    /// Tag of one circuit, or the common tag of `quantity` alike.
    #[serde(default)]
    pub tag: Option<String>,
    /// Tags of circuits alike; ranges are written out.
    #[serde(default)]
    pub tags: Option<OneOrMany<String>>,
    /// Number of circuits alike: `S-1`, `S-2` and so on.
    #[serde(default)]
    pub quantity: Option<u32>,
    /// Number of poles.
    #[serde(default)]
    pub poles: Option<u32>,
    /// Highest working voltage.
    pub voltage_v: f64,
    /// Largest continuous current.
    pub current_a: f64,
    /// Largest continuous current of each branch of a circuit that branches.
    #[serde(default)]
    pub branch_current_a: Option<f64>,
    /// Share of the current that counts for heat, 0 to 1.
    #[serde(default)]
    pub simultaneity: Option<f64>,
    /// Utilisation category of what it switches (IEC 60947-5-1); the severe ones count where missing.
    #[serde(default)]
    pub load: Option<UtilisationCategory>,
    /// Group: circuits of one group share a strip.
    #[serde(default)]
    pub group: Option<CircuitGroup>,
    /// Where it comes from.
    #[serde(default)]
    pub from: Option<OneOrMany<String>>,
    /// Where it goes to.
    #[serde(default)]
    pub to: Option<OneOrMany<String>>,
    /// Pole by pole, instead of `poles`, `from` and `to`.
    #[serde(default)]
    pub connections: Option<Vec<ConnectionTable>>,
    /// Markings of the terminals, pole by pole.
    #[serde(default)]
    pub marking: Option<OneOrMany<String>>,
    /// Function of its terminals.
    #[serde(default)]
    pub terminal: Option<TerminalFunction>,
    /// Id of its terminals.
    #[serde(default)]
    pub terminal_part: Option<String>,
    /// Whether its cores go straight to the contacts, without terminals.
    #[serde(default)]
    pub direct: bool,
}

/// One line of `connections` of a circuit: one pole, core by core.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ConnectionTable {
    /// One core or point.
    #[serde(default)]
    pub from: Option<String>,
    /// Cores or points; several: the pole branches.
    #[serde(default)]
    pub to: Option<OneOrMany<String>>,
    /// Marking of the terminal.
    #[serde(default)]
    pub marking: Option<String>,
}

/// `[[element]]`.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ElementTable {
    /// Tag.
    pub tag: String,
    /// Kind.
    pub kind: ElementKind,
    /// What it does, such as `start` or `stop`.
    #[serde(default)]
    pub function: String,
    /// Text of the label.
    #[serde(default)]
    pub label: String,
    /// Colour of actuator or lens; any where missing.
    #[serde(default)]
    pub colour: Option<String>,
    /// Number of positions of a selector.
    #[serde(default)]
    pub positions: Option<u32>,
    /// Contacts in order.
    #[serde(default)]
    pub contacts: Vec<ContactKind>,
    /// Id of the operating element.
    #[serde(default)]
    pub part: Option<String>,
    /// Row on the lid, from the top, from 1.
    #[serde(default)]
    pub row: Option<u32>,
    /// Place in the row, from the left, from 1.
    #[serde(default)]
    pub order: Option<u32>,
    /// Tag of an element that this one stands above.
    #[serde(default)]
    pub above: Option<String>,
    /// Tag of an element that shares the row.
    #[serde(default)]
    pub beside: Option<String>,
}

/// `[[link]]`.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct LinkTable {
    /// Poles that jumpers join, such as `S1/2` or `S1..S4/2`.
    pub poles: Vec<String>,
}

/// `[[weight]]`.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct WeightTable {
    /// Requirements by the names that `fixed` uses, such as `area` or `circuit current_a`.
    pub of: OneOrMany<String>,
    /// Factor on the points that `explain` counts for a change of them.
    pub times: f64,
}

/// One value, or a list of them.
#[derive(Debug, Clone, Serialize)]
#[serde(transparent)]
pub struct OneOrMany<T>(pub Vec<T>);

#[cfg(feature = "schema")]
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
