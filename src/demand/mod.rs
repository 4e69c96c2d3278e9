//! What follows from a requirement list: terminals, entries, elements, conductors.
//!
//! The demand does not depend on the enclosure. Each part is chosen once, by a fixed rule stated in
//! its own file, so that "smallest" has one meaning: the smallest enclosure that takes these parts.

mod build;
mod choose_terminal;
mod colours;
mod earth;
mod elements;
mod entries;
mod feeding;
mod glands;
mod misfit;
mod neighbours;
mod refusals;
mod separator;
mod spares;
mod strips;
mod suitability;
mod unused;

pub use build::build;
pub use glands::{GlandUse, use_of_gland};
pub use separator::Separator;
pub use suitability::{Unsuitable, suits};

use crate::arrangement::Side;
use crate::catalogue::{
    Accessory, CircuitKind, ConductorBuild, ContactBlock, Gland, OperatingElement, Plug, Rail,
    Terminal,
};
use crate::requirements::{Contact, CoreName, Section};
use crate::space::Face;
use crate::standards::threads::Thread;

/// Everything that must be placed and wired, whatever the enclosure.
#[derive(Debug, Clone)]
pub struct Demand<'c> {
    /// Terminals; other lists refer to them by index.
    pub terminals: Vec<TerminalNeed<'c>>,
    /// Strips in the order in which they stand on the rails.
    pub strips: Vec<StripNeed<'c>>,
    /// Entries: cables in the order of the list, then spares, then the breather.
    pub entries: Vec<EntryNeed<'c>>,
    /// Operating elements in the order of the list.
    pub elements: Vec<ElementNeed<'c>>,
    /// Conductors inside the box.
    pub wires: Vec<WireNeed>,
    /// The rail that carries the terminals; `None` where there are no terminals.
    pub rail: Option<&'c Rail>,
    /// End stop of the rail; `None` where there are no terminals.
    pub end_stop: Option<&'c Accessory>,
    /// End plates by terminal id.
    pub end_plates: std::collections::BTreeMap<&'c str, &'c Accessory>,
    /// Partition between neighbouring strips of one rail; `None` where no two strips could meet.
    pub partition: Option<&'c Accessory>,
    /// Partition between intrinsically safe and other terminals of one rail; `None` where the workshop keeps
    /// them apart by distance alone, or both do not meet.
    pub separator: Option<Separator<'c>>,
    /// Strip and ids of two unlike terminals between which a partition must stand, should the second
    /// follow the first on a rail.
    pub divided: std::collections::BTreeSet<(usize, &'c str, &'c str)>,
    /// Values that were estimated, one sentence each.
    pub estimates: Vec<String>,
    /// Remarks for the reader, one sentence each.
    pub remarks: Vec<String>,
}

impl Demand<'_> {
    /// Number of terminals on rails.
    pub fn terminal_count(&self) -> usize {
        self.terminals.len()
    }

    /// Whether intrinsically safe and other circuits share the box.
    pub fn is_mixed(&self) -> bool {
        let intrinsically_safe = |strip: &&StripNeed| strip.kind == CircuitKind::IntrinsicallySafe;
        self.strips.iter().any(|strip| intrinsically_safe(&strip))
            && self
                .strips
                .iter()
                .any(|strip| !intrinsically_safe(&strip) && !strip.earth)
    }
}

/// A strip: terminals of one group.
#[derive(Debug, Clone)]
pub struct StripNeed<'c> {
    /// Name, such as `X1`; `PE` for the earth strip.
    pub name: String,
    /// Group, such as `control` or `earth`.
    pub group: String,
    /// Kind of its circuits.
    pub kind: CircuitKind,
    /// Whether it is the earth strip.
    pub earth: bool,
    /// Clusters in order.
    pub clusters: Vec<Cluster<'c>>,
}

/// Terminals that must stand side by side: linked ones, or a single one.
#[derive(Debug, Clone)]
pub struct Cluster<'c> {
    /// Indices of the terminals, from left to right; all are of one part.
    pub terminals: Vec<usize>,
    /// The jumper that links them; present for two or more.
    pub jumper: Option<JumperNeed<'c>>,
}

/// A jumper over a cluster.
#[derive(Debug, Clone)]
pub struct JumperNeed<'c> {
    /// The part.
    pub part: &'c Accessory,
    /// Largest current through it, A.
    pub current_a: f64,
    /// Current for the heat calculation, A.
    pub heat_current_a: f64,
}

/// One terminal.
#[derive(Debug, Clone)]
pub struct TerminalNeed<'c> {
    /// The part.
    pub part: &'c Terminal,
    /// Index of its strip.
    pub strip: usize,
    /// Marking; empty for a spare terminal.
    pub marking: String,
    /// Whether it is spare.
    pub spare: bool,
    /// What each level carries, the lower one first.
    pub levels: Vec<LevelNeed>,
}

/// What one current path of a terminal carries.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelNeed {
    /// Potential; empty for a spare terminal.
    pub potential: String,
    /// Working voltage, V.
    pub voltage_v: f64,
    /// Largest continuous current, A.
    pub current_a: f64,
    /// Current for the heat calculation, A.
    pub heat_current_a: f64,
}

/// One end of a conductor.
#[derive(Debug, Clone, PartialEq)]
pub enum WireNeedEnd {
    /// A core of a cable.
    Core {
        /// Index of the cable.
        cable: usize,
        /// Core.
        core: CoreName,
    },
    /// A clamp of a terminal.
    Terminal {
        /// Index of the terminal.
        terminal: usize,
        /// Level.
        level: u32,
        /// Side.
        side: Side,
    },
    /// A point of an operating element.
    Contact {
        /// Index of the element.
        element: usize,
        /// Name of the point.
        point: String,
    },
}

/// One conductor.
#[derive(Debug, Clone)]
pub struct WireNeed {
    /// One end: a core, or the terminal of an internal wire.
    pub from: WireNeedEnd,
    /// The other end.
    pub to: WireNeedEnd,
    /// Potential.
    pub potential: String,
    /// Tag of the circuit; empty for protective conductors, screens and unused cores.
    pub circuit: String,
    /// Section.
    pub section: Section,
    /// Build.
    pub build: ConductorBuild,
    /// Largest continuous current, A.
    pub current_a: f64,
    /// Current for the heat calculation, A.
    pub heat_current_a: f64,
}

/// What closes an entry.
#[derive(Debug, Clone, Copy)]
pub enum EntryPartNeed<'c> {
    /// A gland for a cable.
    Gland(&'c Gland),
    /// A stopping plug or breather.
    Plug(&'c Plug),
}

/// What an entry is for.
#[derive(Debug, Clone, PartialEq)]
pub enum EntryUse {
    /// The cable with this index.
    Cable(usize),
    /// Spare.
    Spare,
    /// Breather and drain.
    Breather,
}

/// One entry.
#[derive(Debug, Clone)]
pub struct EntryNeed<'c> {
    /// What it is for.
    pub purpose: EntryUse,
    /// The part.
    pub part: EntryPartNeed<'c>,
    /// Thread in the wall.
    pub thread: Thread,
    /// Diameter kept free on the wall, rounded up to a tenth.
    pub envelope_mm: f64,
    /// Reach into the box.
    pub reach_in_mm: f64,
    /// Walls that it may be in, in order of preference.
    pub walls: Vec<Face>,
    /// Wiring space that the largest conductor of its cable needs; 0 without conductors.
    pub wiring_space_mm: f64,
    /// Earth plate, should the wall be plastic; `None` where the part does not need one.
    pub earth_plate: Option<&'c Accessory>,
}

/// One operating element.
#[derive(Debug, Clone)]
pub struct ElementNeed<'c> {
    /// Index in the list.
    pub index: usize,
    /// The part.
    pub part: &'c OperatingElement,
    /// Contact blocks, in the order of the contacts.
    pub blocks: Vec<&'c ContactBlock>,
    /// The contacts that the blocks make.
    pub contacts: Vec<Contact>,
    /// Depth behind the lid, without the bend of conductors.
    pub depth_mm: f64,
    /// Room behind it for conductors to bend; 0 where nothing is wired.
    pub bend_mm: f64,
    /// Whether it carries intrinsically safe circuits; `None` where nothing is wired.
    pub kind: Option<CircuitKind>,
}
