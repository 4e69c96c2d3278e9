//! What a shop can buy: enclosures, terminals, glands, elements. Knows nothing of requirements.

mod certificate;
mod check;
mod demo;
mod element;
mod enclosure;
mod entry;
pub mod import;
mod lookup;
mod most;
mod reading;
mod terminal;

pub use certificate::{Certificate, IpCode};
pub use check::CODES;
pub use element::{ContactBlock, ContactKind, ElementKind, OperatingElement, UtilisationRating};
pub use enclosure::{
    DefinedArrangement, Enclosure, EntryWall, Lid, Material, MountingPlate, RailDirection,
    RatedPower,
};
pub use entry::{Adapter, EntryEnvelope, Gland, Plug, PlugKind};
pub use lookup::{Part, PartKind};
pub use most::{Most, NOT_LIMITED};
pub use terminal::{
    Accessory, AccessoryKind, CircuitKind, ClampRange, ConductorBuild, LiveInset, Rail,
    SectionRating, Terminal, TerminalFunction,
};

use serde::{Deserialize, Serialize};

/// A checked catalogue. Every id is unique over all kinds of part.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Catalogue {
    /// What catalogue it is.
    pub about: About,
    /// Enclosures.
    #[serde(default)]
    pub enclosure: Vec<Enclosure>,
    /// Terminals.
    #[serde(default)]
    pub terminal: Vec<Terminal>,
    /// Accessories of terminals and glands.
    #[serde(default)]
    pub accessory: Vec<Accessory>,
    /// Rails.
    #[serde(default)]
    pub rail: Vec<Rail>,
    /// Glands.
    #[serde(default)]
    pub gland: Vec<Gland>,
    /// Stopping plugs and breathers.
    #[serde(default)]
    pub plug: Vec<Plug>,
    /// Thread adapters.
    #[serde(default)]
    pub adapter: Vec<Adapter>,
    /// Operating elements.
    #[serde(default)]
    pub element: Vec<OperatingElement>,
    /// Contact blocks.
    #[serde(default)]
    pub contact_block: Vec<ContactBlock>,
}

impl Catalogue {
    /// Title and edition, as an arrangement names the catalogue that its parts came from.
    pub fn name(&self) -> String {
        let words = [self.about.title.as_str(), self.about.edition.as_str()];
        let words = words.into_iter().filter(|text| !text.is_empty());
        words.collect::<Vec<_>>().join(", ")
    }
}

/// The head of a catalogue.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct About {
    /// Title.
    pub title: String,
    /// Edition or date.
    #[serde(default)]
    pub edition: String,
    /// Currency of all prices, such as `EUR`.
    #[serde(default)]
    pub currency: String,
    /// A warning that goes into every report, such as that the data are invented.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub warning: Option<String>,
}
