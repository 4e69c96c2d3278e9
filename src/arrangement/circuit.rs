//! Cables, circuits and every conductor inside the box.

use super::rail::Side;
use crate::catalogue::{CircuitKind, ConductorBuild};
use crate::space::Face;
use crate::standards::iec_60947_5_1::UtilisationCategory;
use serde::{Deserialize, Serialize};

/// A cable that enters the box.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct CableRecord {
    /// Tag.
    pub tag: String,
    /// Cores as the list words them.
    pub cores: String,
    /// Kind of its circuits.
    pub kind: CircuitKind,
    /// Outside diameter, nominal.
    pub diameter_mm: f64,
    /// Least and greatest outside diameter with tolerance.
    pub diameter_range_mm: [f64; 2],
    /// Whether the diameter is estimated.
    pub diameter_estimated: bool,
    /// Whether it is armoured.
    pub armoured: bool,
    /// Least and greatest diameter under the armour; missing without armour.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub under_armour_mm: Option<[f64; 2]>,
    /// Whether it has a screen that is connected.
    pub screened: bool,
    /// Walls through which the list allows it to enter.
    pub walls: Vec<Face>,
    /// Entry that carries it.
    pub entry: String,
    /// Number of cores, protective conductor included.
    pub core_count: u32,
}

/// A circuit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct CircuitRecord {
    /// Tag.
    pub tag: String,
    /// Group, such as `control`.
    pub group: String,
    /// Kind.
    pub kind: CircuitKind,
    /// Highest working voltage.
    pub voltage_v: f64,
    /// Largest continuous current.
    pub current_a: f64,
    /// Simultaneity factor for the heat calculation, 0 to 1.
    pub simultaneity: f64,
    /// Utilisation category of what it switches (IEC 60947-5-1); missing where the list states none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub load: Option<UtilisationCategory>,
    /// Its poles.
    pub poles: Vec<PoleRecord>,
}

/// One pole of a circuit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct PoleRecord {
    /// Marking.
    pub marking: String,
    /// Name of its potential: that of the first of joined poles.
    pub potential: String,
    /// Where it comes from: `cable/core` or `element/point`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Where it goes to.
    pub to: Vec<String>,
}

/// What a conductor is connected to at one end.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WireEnd {
    /// Comes through an entry as this core of a cable.
    Core {
        /// Tag of the cable.
        cable: String,
        /// Name of the core: its number, `PE` or `screen`.
        core: String,
    },
    /// Under a clamp of a terminal.
    Terminal {
        /// Id of the terminal.
        terminal: String,
        /// Level of the clamp.
        level: u32,
        /// Side of the clamp.
        side: Side,
    },
    /// On a point of an operating element.
    Contact {
        /// Tag of the element.
        element: String,
        /// Name of the point.
        point: String,
    },
}

/// One conductor inside the box.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Wire {
    /// Id in this arrangement, such as `W12`.
    pub id: String,
    /// One end: a core, or the terminal of an internal wire.
    pub from: WireEnd,
    /// The other end: a terminal or a contact.
    pub to: WireEnd,
    /// The potential it carries: that of its pole, `PE`, or `cable/core` for an unused core.
    pub potential: String,
    /// Tag of its circuit; empty for protective conductors, screens and unused cores.
    pub circuit: String,
    /// Section.
    pub section_mm2: f64,
    /// Section as the list words it, such as `2.5 mm²` or `AWG 14`.
    pub section: String,
    /// Build.
    pub build: ConductorBuild,
    /// Largest continuous current, A.
    pub current_a: f64,
    /// Current for the heat calculation: with simultaneity applied, A.
    pub heat_current_a: f64,
    /// Length that counts for the heat: the largest inner dimension of the box.
    pub heat_length_mm: f64,
    /// Length along the route from gland to terminal, measured along the axes; an estimate.
    pub route_mm: f64,
}
