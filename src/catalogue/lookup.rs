//! Finding parts by id or by words. Lists keep the order of the files.

use super::{
    Accessory, Adapter, Catalogue, ContactBlock, Enclosure, Gland, OperatingElement, Plug, Rail,
    Terminal,
};
use serde::Serialize;

/// The kinds of part, named as their tables in the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PartKind {
    /// `[[enclosure]]`
    Enclosure,
    /// `[[terminal]]`
    Terminal,
    /// `[[accessory]]`
    Accessory,
    /// `[[rail]]`
    Rail,
    /// `[[gland]]`
    Gland,
    /// `[[plug]]`
    Plug,
    /// `[[adapter]]`
    Adapter,
    /// `[[element]]`
    Element,
    /// `[[contact_block]]`
    ContactBlock,
}

impl PartKind {
    /// All kinds, in the order of every list.
    pub const ALL: [PartKind; 9] = [
        PartKind::Enclosure,
        PartKind::Terminal,
        PartKind::Accessory,
        PartKind::Rail,
        PartKind::Gland,
        PartKind::Plug,
        PartKind::Adapter,
        PartKind::Element,
        PartKind::ContactBlock,
    ];

    /// The name of its table in a catalogue file.
    pub fn table(self) -> &'static str {
        match self {
            PartKind::Enclosure => "enclosure",
            PartKind::Terminal => "terminal",
            PartKind::Accessory => "accessory",
            PartKind::Rail => "rail",
            PartKind::Gland => "gland",
            PartKind::Plug => "plug",
            PartKind::Adapter => "adapter",
            PartKind::Element => "element",
            PartKind::ContactBlock => "contact_block",
        }
    }

    /// The words used in text.
    pub fn words(self) -> &'static str {
        match self {
            PartKind::Element => "operating element",
            PartKind::ContactBlock => "contact block",
            other => other.table(),
        }
    }
}

impl std::str::FromStr for PartKind {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let known = || PartKind::ALL.into_iter();
        known().find(|kind| kind.table() == text).ok_or_else(|| {
            let names: Vec<&str> = known().map(PartKind::table).collect();
            format!("`{text}` is not a kind of part: {}", names.join(", "))
        })
    }
}

/// One part of any kind.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Part<'a> {
    /// An enclosure.
    Enclosure(&'a Enclosure),
    /// A terminal.
    Terminal(&'a Terminal),
    /// An accessory.
    Accessory(&'a Accessory),
    /// A rail.
    Rail(&'a Rail),
    /// A gland.
    Gland(&'a Gland),
    /// A plug or breather.
    Plug(&'a Plug),
    /// A thread adapter.
    Adapter(&'a Adapter),
    /// An operating element.
    Element(&'a OperatingElement),
    /// A contact block.
    ContactBlock(&'a ContactBlock),
}

/// Calls the same expression for whichever part it is.
macro_rules! each {
    ($part:expr, $name:ident => $value:expr) => {
        match $part {
            Part::Enclosure($name) => $value,
            Part::Terminal($name) => $value,
            Part::Accessory($name) => $value,
            Part::Rail($name) => $value,
            Part::Gland($name) => $value,
            Part::Plug($name) => $value,
            Part::Adapter($name) => $value,
            Part::Element($name) => $value,
            Part::ContactBlock($name) => $value,
        }
    };
}

impl<'a> Part<'a> {
    /// Its id.
    pub fn id(self) -> &'a str {
        each!(self, part => &part.id)
    }

    /// Its line for the parts list.
    pub fn description(self) -> &'a str {
        each!(self, part => &part.description)
    }

    /// Its usual lead time in days; `None` where the catalogue gives none.
    pub fn lead_time_days(self) -> Option<u32> {
        match self {
            // Zero stands for an enclosure without one.
            Part::Enclosure(part) => Some(part.lead_time_days).filter(|days| *days > 0),
            Part::Terminal(part) => part.lead_time_days,
            Part::Accessory(part) => part.lead_time_days,
            Part::Rail(part) => part.lead_time_days,
            Part::Gland(part) => part.lead_time_days,
            Part::Plug(part) => part.lead_time_days,
            Part::Adapter(part) => part.lead_time_days,
            Part::Element(part) => part.lead_time_days,
            Part::ContactBlock(part) => part.lead_time_days,
        }
    }

    /// Its kind.
    pub fn kind(self) -> PartKind {
        match self {
            Part::Enclosure(_) => PartKind::Enclosure,
            Part::Terminal(_) => PartKind::Terminal,
            Part::Accessory(_) => PartKind::Accessory,
            Part::Rail(_) => PartKind::Rail,
            Part::Gland(_) => PartKind::Gland,
            Part::Plug(_) => PartKind::Plug,
            Part::Adapter(_) => PartKind::Adapter,
            Part::Element(_) => PartKind::Element,
            Part::ContactBlock(_) => PartKind::ContactBlock,
        }
    }
}

/// A lookup of one kind by id.
macro_rules! by_id {
    ($($(#[$doc:meta])* $name:ident: $list:ident -> $type:ty;)+) => {
        impl Catalogue {
            $($(#[$doc])*
            pub fn $name(&self, id: &str) -> Option<&$type> {
                self.$list.iter().find(|part| part.id == id)
            })+
        }
    };
}

by_id! {
    /// The enclosure of this id.
    enclosure_by_id: enclosure -> Enclosure;
    /// The terminal of this id.
    terminal_by_id: terminal -> Terminal;
    /// The accessory of this id.
    accessory_by_id: accessory -> Accessory;
    /// The rail of this id.
    rail_by_id: rail -> Rail;
    /// The gland of this id.
    gland_by_id: gland -> Gland;
    /// The plug or breather of this id.
    plug_by_id: plug -> Plug;
    /// The thread adapter of this id.
    adapter_by_id: adapter -> Adapter;
    /// The operating element of this id.
    element_by_id: element -> OperatingElement;
    /// The contact block of this id.
    contact_block_by_id: contact_block -> ContactBlock;
}

impl Catalogue {
    /// All parts, by kind in the order of [`PartKind::ALL`], each kind in the order of the files.
    pub fn parts(&self) -> impl Iterator<Item = Part<'_>> {
        let enclosures = self.enclosure.iter().map(Part::Enclosure);
        enclosures
            .chain(self.terminal.iter().map(Part::Terminal))
            .chain(self.accessory.iter().map(Part::Accessory))
            .chain(self.rail.iter().map(Part::Rail))
            .chain(self.gland.iter().map(Part::Gland))
            .chain(self.plug.iter().map(Part::Plug))
            .chain(self.adapter.iter().map(Part::Adapter))
            .chain(self.element.iter().map(Part::Element))
            .chain(self.contact_block.iter().map(Part::ContactBlock))
    }

    /// The part of this id, whatever its kind.
    ///
    /// ```
    /// use glandrail::catalogue::{Catalogue, PartKind};
    /// let part = Catalogue::demo().part("DEMO-G-3020").expect("in the demo catalogue");
    /// assert_eq!(part.kind(), PartKind::Enclosure);
    /// ```
    pub fn part(&self, id: &str) -> Option<Part<'_>> {
        self.parts().find(|part| part.id() == id)
    }

    /// The parts whose kind, id or description hold every one of these words, upper and lower case
    /// alike; all parts if there are none.
    pub fn search(&self, words: &[String]) -> Vec<Part<'_>> {
        let words: Vec<String> = words.iter().map(|word| word.to_lowercase()).collect();
        self.parts()
            .filter(|part| {
                let text = format!(
                    "{} {} {}",
                    part.kind().words(),
                    part.id(),
                    part.description()
                )
                .to_lowercase();
                words.iter().all(|word| text.contains(word))
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_part_is_found_by_its_id() {
        let demo = Catalogue::demo();
        for part in demo.parts() {
            assert_eq!(demo.part(part.id()), Some(part), "{}", part.id());
        }
        assert_eq!(demo.gland_by_id("DEMO-G-3020"), None);
        assert!(demo.enclosure_by_id("DEMO-G-3020").is_some());
    }

    #[test]
    fn a_search_takes_all_words() {
        let words = |text: &str| text.split(' ').map(str::to_owned).collect::<Vec<_>>();
        let found = Catalogue::demo().search(&words("Gland m20 armoured brass"));
        assert!(!found.is_empty());
        for part in &found {
            assert!(
                matches!(part, Part::Gland(gland) if gland.under_armour_mm.is_some()),
                "{}",
                part.id()
            );
        }
        assert!(
            Catalogue::demo()
                .search(&words("gland m20 nonsense"))
                .is_empty()
        );
        assert_eq!(
            Catalogue::demo().search(&[]).len(),
            Catalogue::demo().parts().count()
        );
    }

    #[test]
    fn kinds_are_read_by_their_table_name() {
        for kind in PartKind::ALL {
            assert_eq!(kind.table().parse(), Ok(kind));
        }
        assert!(
            "terminals"
                .parse::<PartKind>()
                .unwrap_err()
                .contains("contact_block")
        );
    }
}
