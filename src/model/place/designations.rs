//! The designations of what the program places: no two things in a box have the same one, whatever tags the
//! list gives to its elements and cables. The rule stands in docs/arrangement.md.
//!
//! The letters are our own. Those with which a list usually names its elements (`S`, `R`, `P`, `H` and others
//! of IEC 81346-2) are left to it.

use crate::arrangement::{Arrangement, EntryPurpose};
use crate::catalogue::AccessoryKind;
use std::collections::{BTreeMap, BTreeSet};

const RAIL: &str = "RL";
const JUMPER: &str = "JP";
const ENTRY: &str = "E";

fn letters_of(kind: AccessoryKind) -> &'static str {
    match kind {
        AccessoryKind::EndStop => "ST",
        AccessoryKind::EndPlate => "PL",
        AccessoryKind::Partition => "PT",
        AccessoryKind::Jumper => JUMPER,
        AccessoryKind::EarthPlate => "EP",
    }
}

/// Names that are taken, and the last number given to each group of letters.
struct Names {
    taken: BTreeSet<String>,
    last: BTreeMap<&'static str, u32>,
}

impl Names {
    /// The next name of these letters that nothing else has.
    fn next(&mut self, letters: &'static str) -> String {
        let last = self.last.entry(letters).or_insert(0);
        loop {
            *last += 1;
            let name = format!("{letters}{last}");
            if self.taken.insert(name.clone()) {
                return name;
            }
        }
    }
}

/// Gives rails, what stands on them, jumpers and entries their designations, in the order of the arrangement.
pub(super) fn designate(arrangement: &mut Arrangement) {
    let elements = arrangement.elements.iter().map(|part| part.tag.clone());
    let cables = arrangement.cables.iter().map(|cable| cable.tag.clone());
    let strips = arrangement.strips.iter().map(|strip| strip.name.clone());
    let mut names = Names {
        taken: elements.chain(cables).chain(strips).collect(),
        last: BTreeMap::new(),
    };
    let mut rails: BTreeMap<String, String> = BTreeMap::new();
    for rail in &mut arrangement.rails {
        let name = names.next(RAIL);
        rails.insert(std::mem::replace(&mut rail.id, name.clone()), name);
    }
    let new_rail = |rail: &String| rails.get(rail).cloned().unwrap_or_else(|| rail.clone());
    for terminal in &mut arrangement.terminals {
        terminal.rail = new_rail(&terminal.rail);
    }
    for accessory in &mut arrangement.accessories {
        accessory.rail = new_rail(&accessory.rail);
        accessory.id = names.next(letters_of(accessory.kind));
    }
    arrangement.spare.free_terminals = std::mem::take(&mut arrangement.spare.free_terminals)
        .into_iter()
        .map(|(rail, free)| (new_rail(&rail), free))
        .collect();
    for jumper in &mut arrangement.jumpers {
        jumper.id = names.next(JUMPER);
    }
    for entry in &mut arrangement.entries {
        entry.id = names.next(ENTRY);
        let EntryPurpose::Cable(tag) = &entry.purpose else {
            continue;
        };
        let mut cables = arrangement.cables.iter_mut();
        if let Some(cable) = cables.find(|cable| cable.tag == *tag) {
            cable.entry = entry.id.clone();
        }
    }
}
