//! Single figures of the trade, answered with source, status and intermediate values.
//! Knows nothing of requirement lists, catalogues or how an answer is printed.

mod answer;
mod box_heat;
mod conductor;
mod distance;
mod entries;
mod space;
mod temperature;

pub use answer::{Figure, Quantities, Quantity, Value, Verdict};
pub use box_heat::{BoxHeatQuestion, BoxMaterial, Given, box_heat};
pub use conductor::{PowerQuestion, power, resistance};
pub use distance::{Neighbour, clearance, creepage, separation};
pub use entries::{EntriesQuestion, entries};
pub use space::{ConductorSize, thread, wiring_space};
pub use temperature::temperature_class;

/// Every figure by name, with what it answers.
pub const FIGURES: [(&str, &str); 10] = [
    (
        "clearance",
        "least clearance through air at a working voltage",
    ),
    (
        "creepage",
        "least creepage at a working voltage along a material group",
    ),
    (
        "separation",
        "least distance of intrinsically safe terminals from others",
    ),
    (
        "resistance",
        "resistance of a conductor by section or gauge, class and temperature",
    ),
    (
        "power",
        "heat of a terminal with its conductors at a current",
    ),
    (
        "box-heat",
        "heat balance of a closed box: power to inside rise, or rise to power",
    ),
    (
        "wiring-space",
        "wiring space between terminal and wall by conductor size",
    ),
    (
        "entries",
        "positions of entries on one wall, in rows or freely",
    ),
    ("thread", "dimensions and clearance hole of an entry thread"),
    (
        "temperature-class",
        "limit, margin and self-heating of a temperature class",
    ),
];
