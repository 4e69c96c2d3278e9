//! What the heat assessment draws from an arrangement: counted conductors, loaded parts, groups.
//! Knows nothing of any method.

use super::assessment::DefinedArrangementUse;
use super::balance::BoxFace;
use super::bundles::GroupedConductor;
use super::conductors::{Conductor, conductor_heat};
use super::defined_arrangement::{self, Asked, CountedConductor};
use super::determined::Determined;
use super::inside::{self, LoadedPart, Question};
use crate::arrangement::{
    Arrangement, EntryPurpose, HeatLineKind, PlacedJumper, PlacedTerminal, Wire, WireEnd,
};
use crate::catalogue::ConductorBuild;
use crate::space::Face;
use crate::standards::ConductorClass;
use crate::standards::awg::{Stranding, WireSize};
use std::collections::{BTreeMap, BTreeSet};

/// Power of the lines of some kinds, W.
pub(super) fn power_of(arrangement: &Arrangement, kinds: &[HeatLineKind]) -> f64 {
    // From +0: the sum of no lines is −0 otherwise.
    arrangement
        .heat
        .lines
        .iter()
        .filter(|line| kinds.contains(&line.kind))
        .fold(0.0, |sum, line| sum + line.power_w)
}

/// The terminals at which a conductor ends.
fn terminals_of(wire: &Wire) -> impl Iterator<Item = &str> {
    [&wire.from, &wire.to]
        .into_iter()
        .filter_map(|end| match end {
            WireEnd::Terminal { terminal, .. } => Some(terminal.as_str()),
            _ => None,
        })
}

/// The conductors on each terminal.
fn wires_by_terminal(arrangement: &Arrangement) -> BTreeMap<&str, Vec<&Wire>> {
    let mut found: BTreeMap<&str, Vec<&Wire>> = BTreeMap::new();
    for wire in &arrangement.wires {
        for terminal in terminals_of(wire) {
            found.entry(terminal).or_default().push(wire);
        }
    }
    found
}

/// The potential of protective conductors.
const PROTECTIVE: &str = "PE";

pub(super) fn defined_arrangement_use(arrangement: &Arrangement) -> DefinedArrangementUse {
    let on_terminal = wires_by_terminal(arrangement);
    let (mut conductors, mut protective, mut unused) = (Vec::new(), 0, 0);
    for wire in &arrangement.wires {
        if !wire.circuit.is_empty() {
            conductors.push(CountedConductor {
                section_mm2: wire.section_mm2,
                current_a: wire.current_a,
            });
        } else if wire.potential == PROTECTIVE {
            protective += 1;
        } else {
            unused += 1;
        }
    }
    let links = arrangement
        .jumpers
        .iter()
        .flat_map(|jumper| links_of(jumper, &on_terminal));
    let before = conductors.len();
    conductors.extend(links);
    let jumper_links = (conductors.len() - before) as u32;
    let asked = Asked {
        class: arrangement.area.temperature_class,
        max_surface_c: arrangement.area.max_surface_c,
        ambient_c: arrangement.area.ambient_c[1],
    };
    let other_w = power_of(
        arrangement,
        &[HeatLineKind::Contacts, HeatLineKind::Elements],
    );
    DefinedArrangementUse {
        result: defined_arrangement::count(
            &arrangement.enclosure.defined_arrangement,
            asked,
            &conductors,
            other_w,
        ),
        counted: conductors.len() as u32,
        jumper_links,
        protective,
        unused,
    }
}

/// The links of a jumper as conductors. The certificate has no rows for jumpers: each link is taken as
/// a conductor of the thinnest section on its terminals, which permits fewest; 0 where there is none,
/// for which no row is found.
fn links_of(
    jumper: &PlacedJumper,
    on_terminal: &BTreeMap<&str, Vec<&Wire>>,
) -> Vec<CountedConductor> {
    let thinnest = jumper
        .terminals
        .iter()
        .filter_map(|terminal| on_terminal.get(terminal.as_str()))
        .flatten()
        .map(|wire| wire.section_mm2)
        .min_by(f64::total_cmp);
    let link = CountedConductor {
        section_mm2: thinnest.unwrap_or(0.0),
        current_a: jumper.current_a,
    };
    vec![link; jumper.terminals.len().saturating_sub(1)]
}

/// What the balance is asked.
pub(super) fn question(arrangement: &Arrangement) -> Question {
    let enclosure = &arrangement.enclosure;
    let on_terminal = wires_by_terminal(arrangement);
    let none = Vec::new();
    let terminals = arrangement.terminals.iter().map(|terminal| {
        let wires = on_terminal.get(terminal.id.as_str()).unwrap_or(&none);
        loaded_terminal(terminal, wires)
    });
    let faces: BTreeSet<BoxFace> = arrangement
        .entries
        .iter()
        .filter(|entry| matches!(entry.purpose, EntryPurpose::Cable(_)))
        .map(|entry| box_face(entry.wall))
        .collect();
    Question {
        outer_mm: enclosure.outer_mm,
        material: enclosure.material,
        wall_thickness_mm: enclosure.wall_thickness_mm,
        ambient_c: arrangement.area.ambient_c[1],
        power_w: arrangement.heat.power_at_limit_w,
        limit_c: arrangement.heat.row_class.limit_after_margin_c(),
        parts: terminals.chain(loaded_contacts(arrangement)).collect(),
        entry_faces: faces.into_iter().collect(),
    }
}

/// A terminal as a part with current.
///
/// Each conductor on it is held against the rated current for its own section, and the current of the
/// terminal (jumpers included) against that for its thickest conductor; what comes nearest to its rated
/// current decides.
fn loaded_terminal(terminal: &PlacedTerminal, wires: &[&Wire]) -> LoadedPart {
    let loaded: Vec<&&Wire> = wires.iter().filter(|wire| wire.current_a > 0.0).collect();
    let thickest = loaded
        .iter()
        .map(|wire| wire.section_mm2)
        .max_by(f64::total_cmp);
    let of_terminal = thickest.map(|section_mm2| (terminal.current_a, section_mm2));
    let pairs: Option<Vec<(f64, f64)>> = loaded
        .iter()
        .map(|wire| (wire.current_a, wire.section_mm2))
        .chain(of_terminal)
        .map(|(current_a, section_mm2)| {
            inside::rated_current_a(&terminal.ratings, section_mm2)
                .map(|rated_a| (current_a, rated_a))
        })
        .collect();
    let deciding = pairs.and_then(|pairs| {
        pairs
            .into_iter()
            .max_by(|a, b| (a.0 / a.1).total_cmp(&(b.0 / b.1)))
    });
    let rise_at_rated = match (terminal.rise_at_rated_k, deciding) {
        (Some(rise_k), Some((_, rated_a))) => Determined::Known((rise_k, rated_a)),
        (None, _) => Determined::NotDetermined(format!(
            "the catalogue gives no rise at rated current for {}",
            terminal.part
        )),
        (_, None) => Determined::NotDetermined(format!(
            "the catalogue gives no rated current of {} for its conductors",
            terminal.part
        )),
    };
    LoadedPart {
        name: terminal.id.clone(),
        current_a: deciding.map_or(terminal.current_a, |(current_a, _)| current_a),
        rise_at_rated,
        takes_core: wires
            .iter()
            .any(|wire| matches!(wire.from, WireEnd::Core { .. })),
    }
}

/// Contacts and elements' own paths with current. A catalogue gives no rise for them.
fn loaded_contacts(arrangement: &Arrangement) -> impl Iterator<Item = LoadedPart> {
    arrangement.elements.iter().flat_map(move |element| {
        element.contacts.iter().map(move |contact| {
            let current_a = contact
                .points
                .iter()
                .map(|point| point.current_a)
                .fold(0.0, f64::max);
            let points: Vec<&str> = contact
                .points
                .iter()
                .map(|point| point.name.as_str())
                .collect();
            let takes_core = arrangement.wires.iter().any(|wire| {
                matches!(wire.from, WireEnd::Core { .. })
                    && matches!(&wire.to, WireEnd::Contact { element: tag, point }
                        if *tag == element.tag && points.contains(&point.as_str()))
            });
            LoadedPart {
                name: format!("{}/{}", element.tag, points.join("-")),
                current_a,
                rise_at_rated: Determined::NotDetermined(
                    "a catalogue gives no rise for contacts and elements".into(),
                ),
                takes_core,
            }
        })
    })
}

fn box_face(face: Face) -> BoxFace {
    match face {
        Face::Bottom => BoxFace::Bottom,
        Face::Right => BoxFace::Right,
        Face::Top => BoxFace::Top,
        Face::Left => BoxFace::Left,
        Face::Lid => BoxFace::Front,
        Face::Back => BoxFace::Rear,
    }
}

/// Conductors of circuits with their group and heat.
pub(super) fn grouped_conductors(arrangement: &Arrangement) -> Vec<GroupedConductor> {
    let groups: BTreeMap<&str, &str> = arrangement
        .circuits
        .iter()
        .map(|circuit| (circuit.tag.as_str(), circuit.group.as_str()))
        .collect();
    arrangement
        .wires
        .iter()
        .filter(|wire| !wire.circuit.is_empty())
        .map(|wire| GroupedConductor {
            group: groups
                .get(wire.circuit.as_str())
                .map_or_else(String::new, |group| (*group).to_string()),
            current_a: wire.current_a,
            power_w: wire_heat_w(wire, arrangement.heat.reference_c).into(),
        })
        .collect()
}

/// Heat of one conductor of the arrangement at a temperature, W.
///
/// # Errors
/// A section for which no resistance is known, in words.
pub fn wire_heat_w(wire: &Wire, temperature_c: f64) -> Result<f64, String> {
    let conductor = conductor_of(wire)?;
    conductor_heat(
        conductor,
        wire.heat_length_mm,
        wire.heat_current_a,
        temperature_c,
    )
    .map(|heat| heat.power_w)
    .map_err(|error| format!("{}: {error}", wire.id))
}

/// The conductor of a wire by what decides its resistance.
fn conductor_of(wire: &Wire) -> Result<Conductor, String> {
    let words = wire.section.as_str();
    if words.contains("AWG") || words.contains("kcmil") {
        let size: WireSize = words
            .parse()
            .map_err(|error| format!("{}: {error}", wire.id))?;
        return match size {
            WireSize::Gauge(gauge) => Ok(Conductor::American {
                gauge,
                stranding: match wire.build {
                    ConductorBuild::Solid => Stranding::Solid,
                    ConductorBuild::Stranded | ConductorBuild::Flexible => Stranding::Stranded,
                },
            }),
            WireSize::Kcmil(_) => Err(format!("{}: no resistance is known for {words}", wire.id)),
        };
    }
    Ok(Conductor::Metric {
        section_mm2: wire.section_mm2,
        class: match wire.build {
            ConductorBuild::Solid => ConductorClass::Class1,
            ConductorBuild::Stranded => ConductorClass::Class2,
            ConductorBuild::Flexible => ConductorClass::Class5,
        },
    })
}
