//! What of a requirement list can be given up by itself, with where the list says so.
//!
//! Cables and circuits that one table writes out are one requirement; so are circuits of one voltage.
//! What only describes (tags, labels, the objective) is none. A requirement that asks for nothing
//! (no spare, any material) is left out.

/// One thing that a list asks for. Indices are those of the list's cables, circuits and elements.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Aspect {
    /// Equipment protection level for gas.
    GasLevel,
    /// Equipment protection level for dust.
    DustLevel,
    /// Gas group.
    GasGroup,
    /// Dust group.
    DustGroup,
    /// Temperature class.
    Class,
    /// Maximum surface temperature for dust.
    Surface,
    /// Highest ambient temperature.
    Hottest,
    /// Lowest ambient temperature.
    Coldest,
    /// Degree of protection.
    Ip,
    /// Material of the enclosure.
    Material,
    /// Largest outer size.
    Size,
    /// Orientation.
    Orientation,
    /// Walls that may carry entries.
    EntryWalls,
    /// Only these enclosures.
    Include,
    /// Not these enclosures.
    Exclude,
    /// Wall of the hinge.
    Hinge,
    /// Breather and drain.
    Breather,
    /// Share of spare terminals.
    SpareTerminals,
    /// Spare entries.
    SpareEntries,
    /// Share of the rated power kept free.
    HeatReserve,
    /// External earth terminal.
    ExternalEarth,
    /// Spare earth terminals.
    SpareEarth,
    /// Cables of one table.
    Cables(Vec<usize>),
    /// Diameter of cables of one table.
    Diameter(Vec<usize>),
    /// Walls to which cables of one table are tied.
    CableWalls(Vec<usize>),
    /// Material of the glands of cables of one table.
    GlandMaterial(Vec<usize>),
    /// Gland that the list names for cables of one table.
    Gland(Vec<usize>),
    /// Thread system that the list names for the glands of these cables.
    GlandThread(Vec<usize>),
    /// Current of the circuits of one table.
    Current(Vec<usize>),
    /// Voltage, of all circuits of this voltage.
    Voltage(Vec<usize>),
    /// Terminal that the list names for circuits of one table.
    Terminal(Vec<usize>),
    /// An operating element.
    Element(usize),
    /// The part that the list names for an element.
    ElementPart(usize),
    /// The colour that the list names for an element.
    ElementColour(usize),
    /// Rows, orders and neighbours that the list wishes for its elements.
    Placing,
    /// Separation between intrinsically safe and other circuits: a rule, not a wish.
    Separation,
}

impl Aspect {
    /// Whether to ask for less of it means to leave out a cable or an element.
    pub fn leaves_out(&self) -> bool {
        matches!(self, Aspect::Cables(_) | Aspect::Element(_))
    }
}

/// A requirement: what it is, its name, and where it stands.
#[derive(Debug, Clone)]
pub struct Requirement {
    /// What it is.
    pub aspect: Aspect,
    /// Its name, such as `area.temperature_class` or `cable W1..W4`. Unique in the list.
    pub id: String,
    /// Line of the list, from 1; `None` where the list says nothing and what is usual counts.
    pub line: Option<usize>,
    /// That line as written.
    pub quote: Option<String>,
    /// Whether the list says that it must not change, or it is a rule of a standard.
    pub fixed: bool,
    /// Factor on the points that a change of it costs.
    pub weight: f64,
}
