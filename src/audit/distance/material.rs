//! The creepage that the materials of two terminals ask for, and what hangs on a material that is not known.

use crate::arrangement::PlacedTerminal;
use crate::audit::case::Cases;
use crate::letters::plural;
use crate::standards::MaterialGroup;
use crate::standards::iec_60079_7::{TRACKING_MATTERS_ABOVE_V, external_terminal_creepage_mm};
use std::collections::{BTreeMap, BTreeSet};

/// Why no creepage can be asked for.
pub(super) enum Unjudged<'a> {
    /// A figure of the material of these terminals is missing or not admitted; for each in words.
    Material(Vec<(&'a PlacedTerminal, String)>),
    /// The voltage is none of the table.
    Voltage(String),
}

/// The creepage between two terminals for a voltage in the worse of their two materials.
pub(super) fn creepage_mm<'a>(
    voltage_v: f64,
    terminals: [&'a PlacedTerminal; 2],
) -> Result<(f64, MaterialGroup), Unjudged<'a>> {
    let group = if voltage_v <= TRACKING_MATTERS_ABOVE_V {
        // At such a voltage the group does not matter; the table's figures are equal.
        MaterialGroup::I
    } else {
        worse_group(terminals).map_err(Unjudged::Material)?
    };
    let required_mm = external_terminal_creepage_mm(voltage_v, group)
        .map_err(|error| Unjudged::Voltage(error.to_string()))?;
    Ok((required_mm, group))
}

fn worse_group(
    terminals: [&PlacedTerminal; 2],
) -> Result<MaterialGroup, Vec<(&PlacedTerminal, String)>> {
    let mut worst = MaterialGroup::I;
    let mut unknown = Vec::new();
    for terminal in terminals {
        let group = match terminal.tracking_index {
            None => Err("is unknown".to_string()),
            Some(index) => {
                MaterialGroup::from_cti(index).map_err(|error| format!("counts for none: {error}"))
            }
        };
        match group {
            Ok(group) => worst = worst.max(group),
            Err(why) => unknown.push((terminal, why)),
        }
    }
    if unknown.is_empty() {
        Ok(worst)
    } else {
        Err(unknown)
    }
}

/// The distances that hang on figures of materials: one entry for each part of the catalogue and reason.
#[derive(Default)]
pub(super) struct Hanging<'a> {
    of_part: BTreeMap<(&'a str, String), OnPart<'a>>,
}

/// The terminals of such a part that are concerned, and how many distances.
#[derive(Default)]
struct OnPart<'a> {
    terminals: BTreeSet<&'a str>,
    distances: usize,
}

/// Most terminals that a finding names.
const MOST_NAMED: usize = 3;

impl<'a> Hanging<'a> {
    /// One distance that hangs on such terminals. On two of the same part it hangs once.
    pub fn add(&mut self, unknown: Vec<(&'a PlacedTerminal, String)>) {
        let mut keys = BTreeSet::new();
        for (terminal, why) in unknown {
            let key = (terminal.part.as_str(), why);
            let on_part = self.of_part.entry(key.clone()).or_default();
            on_part.terminals.insert(terminal.id.as_str());
            if keys.insert(key) {
                on_part.distances += 1;
            }
        }
    }

    /// One finding for each part.
    pub fn tell(self, cases: &mut Cases) {
        for ((part, why), on_part) in self.of_part {
            let mut named: Vec<&str> = on_part.terminals.iter().copied().collect();
            let further = named.len().saturating_sub(MOST_NAMED);
            named.truncate(MOST_NAMED);
            cases.unknown(&named, || {
                let further = match further {
                    0 => String::new(),
                    count => format!(" and {count} more"),
                };
                format!(
                    "the tracking index of {part} ({}{further}) {why}; {} {} on it",
                    named.join(", "),
                    on_part.distances,
                    plural(on_part.distances, "distance hangs", "distances hang"),
                )
            });
        }
    }
}
