//! Cables.

use super::ThreadSystem;
use crate::catalogue::{CircuitKind, ConductorBuild, Material};
use crate::source::Place;
use crate::space::Face;
use std::fmt;

/// One cable.
#[derive(Debug, Clone)]
pub struct Cable {
    /// Tag, unique.
    pub tag: String,
    /// Cores as the list words them.
    pub cores_text: String,
    /// Cores in order: numbered ones first, then `PE`.
    pub cores: Vec<Core>,
    /// Build of the conductors.
    pub build: ConductorBuild,
    /// Outside diameter, nominal.
    pub diameter_mm: f64,
    /// Least and greatest outside diameter with tolerance.
    pub diameter_range_mm: [f64; 2],
    /// Whether the diameter is estimated from cores and section.
    pub diameter_estimated: bool,
    /// Whether it is armoured.
    pub armoured: bool,
    /// Least and greatest diameter under the armour; present with `armoured`.
    pub under_armour_mm: Option<[f64; 2]>,
    /// Whether it has a screen that is connected to earth.
    pub screened: bool,
    /// Kind of its circuits.
    pub kind: CircuitKind,
    /// Walls through which it may enter, in order of preference.
    pub walls: Vec<Face>,
    /// Material that its gland must have.
    pub gland_material: Option<Material>,
    /// Gland that the list names.
    pub gland: Option<String>,
    /// Thread system of its gland; `None`: any, which no list asks for but an explanation tries.
    pub thread_system: Option<ThreadSystem>,
    /// Where the list says so.
    pub place: Place,
}

/// One core.
#[derive(Debug, Clone, PartialEq)]
pub struct Core {
    /// Its name.
    pub name: CoreName,
    /// Its section.
    pub section: Section,
}

/// The name of a core.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CoreName {
    /// A numbered core, from 1.
    Number(u32),
    /// The protective conductor.
    Earth,
    /// The screen's drain wire.
    Screen,
}

impl fmt::Display for CoreName {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            CoreName::Number(number) => write!(formatter, "{number}"),
            CoreName::Earth => formatter.write_str("PE"),
            CoreName::Screen => formatter.write_str("screen"),
        }
    }
}

/// A conductor's section.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Area.
    pub mm2: f64,
    /// Gauge, such as `14` or `1/0`, where the list gives one.
    pub awg: Option<String>,
}

impl fmt::Display for Section {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.awg {
            Some(gauge) => write!(formatter, "AWG {gauge}"),
            None => write!(formatter, "{} mm²", self.mm2),
        }
    }
}
