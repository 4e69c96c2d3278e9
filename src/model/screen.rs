//! Filters that need no geometry: what the list wants and what the certificate allows.

use super::heat::{HeatTerms, permitted_row, rated_heat};
use super::mount::rail_direction;
use super::reason::Reason;
use crate::arrangement::{EnclosureRecord, Orientation};
use crate::catalogue::{Enclosure, Most};
use crate::demand::{Demand, EntryPartNeed, suits};
use crate::requirements::RequirementList;
use crate::space::Face;
use crate::standards::iec_60079_0::protective_conductor_mm2;
use itertools::Itertools;

/// Least energy of the impact test (IEC 60079-0, low risk of mechanical danger).
const LEAST_IMPACT_J: f64 = 4.0;
/// Least conductor that an external earth terminal must take, mm² (IEC 60079-0 clause 15.4).
const LEAST_EXTERNAL_EARTH_MM2: f64 = 4.0;

/// Passes a candidate or gives the first reason against it. Cheap tests come first.
pub fn screen(
    list: &RequirementList,
    demand: &Demand<'_>,
    terms: &HeatTerms,
    enclosure: &Enclosure,
    mounted: &EnclosureRecord,
) -> Result<(), Reason> {
    wanted(list, enclosure, mounted)?;
    if !demand.terminals.is_empty()
        && !enclosure
            .rail_directions
            .contains(&rail_direction(mounted.orientation))
    {
        return Err(Reason::NotSo(
            "its plate takes no level rails when it is mounted so".to_string(),
        ));
    }
    certificate(list, demand, mounted)?;
    let row = permitted_row(&list.area, mounted).ok_or_else(|| no_rating(list, mounted))?;
    terminal_count(demand, mounted)?;
    let heat = rated_heat(
        terms,
        row,
        mounted.interior.diagonal_mm(),
        list.spare.heat_percent,
    );
    if heat.power_w > heat.permitted_power_w {
        return Err(Reason::Heat {
            power_w: heat.power_w,
            permitted_w: heat.permitted_power_w,
            rating: format!("{} up to {:+} °C", row.class, row.ambient_c),
            reserve_percent: list.spare.heat_percent,
        });
    }
    super::defined::screen(list, demand, enclosure)?;
    entry_parts(demand, mounted)
}

fn wanted(
    list: &RequirementList,
    enclosure: &Enclosure,
    mounted: &EnclosureRecord,
) -> Result<(), Reason> {
    let wishes = &list.wishes;
    permitted(list, enclosure)?;
    if mounted.orientation == Orientation::Turned && !enclosure.turnable {
        return Err(Reason::NotSo(
            "its maker permits it upright only".to_string(),
        ));
    }
    if let Some(most) = wishes.max_outer_mm
        && mounted
            .outer_mm
            .iter()
            .zip(most)
            .any(|(has, most)| *has > most)
    {
        return Err(Reason::TooLarge {
            outer_mm: mounted.outer_mm,
            allowed_mm: most,
        });
    }
    if let Some(hinge) = mounted.hinge
        && !wishes.lid_hinge.is_empty()
        && !wishes.lid_hinge.contains(&hinge)
    {
        let why = format!("its lid is hinged at the {hinge}");
        return Err(Reason::NotWanted(why));
    }
    Ok(())
}

/// Whether the list permits an enclosure by its name and its material, however it is mounted.
pub fn permitted(list: &RequirementList, enclosure: &Enclosure) -> Result<(), Reason> {
    let wishes = &list.wishes;
    let refuse = |why: String| Err(Reason::NotWanted(why));
    if wishes.exclude.contains(&enclosure.id) {
        return refuse("the list excludes it".to_string());
    }
    if !wishes.include.is_empty() && !wishes.include.contains(&enclosure.id) {
        return refuse("the list permits only other enclosures".to_string());
    }
    if !wishes.materials.is_empty() && !wishes.materials.contains(&enclosure.material) {
        let materials = wishes
            .materials
            .iter()
            .map(|material| material.words())
            .join(" or ");
        return refuse(format!(
            "it is made of {}; the list asks for {materials}",
            enclosure.material.words()
        ));
    }
    Ok(())
}

fn certificate(
    list: &RequirementList,
    demand: &Demand<'_>,
    mounted: &EnclosureRecord,
) -> Result<(), Reason> {
    let refuse = |why: String| Err(Reason::Certificate(why));
    if let Err(unsuitable) = suits(&mounted.certificate, &list.area, true) {
        return refuse(unsuitable.to_string());
    }
    match mounted.impact_j {
        None => return refuse("its impact test is not known".to_string()),
        Some(energy) if energy < LEAST_IMPACT_J => {
            return refuse(format!(
                "it passed an impact of {energy} J; {LEAST_IMPACT_J} J is needed"
            ));
        }
        Some(_) => {}
    }
    let voltage_v = list
        .circuits
        .iter()
        .map(|circuit| circuit.voltage_v)
        .fold(0.0, f64::max);
    match mounted.rated_voltage_v {
        None => return refuse("its rated voltage is not known".to_string()),
        Some(rated) if rated < voltage_v => {
            return refuse(format!("it is rated {rated} V; {voltage_v} V is needed"));
        }
        Some(_) => {}
    }
    let current_a = list
        .circuits
        .iter()
        .map(|circuit| circuit.current_a)
        .fold(0.0, f64::max);
    match mounted.rated_current_a {
        None => return refuse("its rated current is not known".to_string()),
        Some(rated) if rated < current_a => {
            return refuse(format!("it is rated {rated} A; {current_a} A is needed"));
        }
        Some(_) => {}
    }
    let needs_external = list.earthing.external || mounted.material.is_metal();
    if needs_external
        && mounted
            .external_earth_mm2
            .is_none_or(|section| section < LEAST_EXTERNAL_EARTH_MM2)
    {
        return refuse("it has no external earth terminal for 4 mm²".to_string());
    }
    if mounted.material.is_metal() && !demand.strips.iter().any(|strip| strip.earth) {
        internal_earth(demand, mounted)?;
    }
    Ok(())
}

/// Metal with no earth terminal among those of the list: the enclosure's own one, for the protective conductor that
/// belongs to the thickest conductor.
fn internal_earth(demand: &Demand<'_>, mounted: &EnclosureRecord) -> Result<(), Reason> {
    let refuse = |why: String| Err(Reason::Certificate(why));
    let Some(section_mm2) = mounted.internal_earth_mm2 else {
        return refuse(
            "it is not known to have an earth terminal inside, and the list asks for none (`spare_terminals` in \
             `[earthing]` gives one)"
                .to_string(),
        );
    };
    let sections = demand.wires.iter().map(|wire| wire.section.mm2);
    let thickest_mm2 = sections.fold(0.0, f64::max);
    let needed_mm2 = protective_conductor_mm2(thickest_mm2).unwrap_or(0.0);
    if section_mm2 < needed_mm2 {
        return refuse(format!(
            "its earth terminal inside takes {section_mm2} mm²; {needed_mm2} mm² is needed"
        ));
    }
    Ok(())
}

/// The number of terminals that the certificate allows.
fn terminal_count(demand: &Demand<'_>, mounted: &EnclosureRecord) -> Result<(), Reason> {
    let needed = demand.terminals.len() as u32;
    match mounted.most_terminals {
        None if needed > 0 => Err(Reason::Certificate(
            "it is not known how many terminals it allows".to_string(),
        )),
        Some(Most::Of(allowed)) if needed > allowed => {
            Err(Reason::TerminalCount { needed, allowed })
        }
        None | Some(Most::Of(_) | Most::NotLimited) => Ok(()),
    }
}

fn no_rating(list: &RequirementList, mounted: &EnclosureRecord) -> Reason {
    let area = &list.area;
    let class = area.temperature_class.map(|class| class.to_string());
    let surface = area
        .max_surface_c
        .map(|surface| format!("{surface} °C surface"));
    let asked = class.into_iter().chain(surface).join(" and ");
    // Where the list asks for none, every class has been looked at.
    let asked = if asked.is_empty() {
        "any class".to_string()
    } else {
        asked
    };
    // Of each class the row for the warmest place says all.
    let mut warmest: Vec<(String, f64)> = Vec::new();
    for row in &mounted.rated_power {
        let class = row.class.to_string();
        match warmest.iter_mut().find(|(known, _)| *known == class) {
            Some((_, ambient_c)) => *ambient_c = ambient_c.max(row.ambient_c),
            None => warmest.push((class, row.ambient_c)),
        }
    }
    let rows = warmest
        .iter()
        .map(|(class, ambient_c)| format!("{class} up to {ambient_c:+} °C"))
        .join(", ");
    // Where no row for another place would do either, the ambient temperature is not what is missing.
    let mut anywhere = area.clone();
    anywhere.ambient_c = [f64::NEG_INFINITY; 2];
    let needed = if permitted_row(&anywhere, mounted).is_some() {
        format!("{asked} at {:+} °C", area.ambient_c[1])
    } else {
        asked
    };
    Reason::NoRating {
        needed,
        has: if rows.is_empty() {
            "no rating at all".to_string()
        } else {
            rows
        },
    }
}

/// Certified numbers, threads and wall thickness.
fn entry_parts(demand: &Demand<'_>, mounted: &EnclosureRecord) -> Result<(), Reason> {
    for entry in &demand.entries {
        if !entry
            .walls
            .iter()
            .any(|wall| mounted.walls.contains_key(wall))
        {
            return Err(Reason::NoWall {
                walls: entry.walls.clone(),
            });
        }
        let is_stated = |wall: &Face| {
            let record = mounted.walls.get(wall);
            record.is_some_and(|record| record.most_entries.is_some())
        };
        if !entry.walls.iter().any(is_stated) {
            return Err(Reason::Certificate(
                "it is not known how many entries it allows in the walls that may be used"
                    .to_string(),
            ));
        }
        let takes = |wall: &&Face| {
            mounted
                .walls
                .get(*wall)
                .is_some_and(|record| thread_fits(entry.thread, record.largest_thread))
        };
        if !entry.walls.iter().any(|wall| takes(&wall)) {
            return Err(Reason::Thread {
                needed: entry.thread,
                walls: entry.walls.clone(),
            });
        }
        let (part, takes_mm) = match entry.part {
            EntryPartNeed::Gland(gland) => (&gland.id, gland.wall_mm),
            EntryPartNeed::Plug(plug) => (&plug.id, plug.wall_mm),
        };
        let wall_mm = mounted.wall_thickness_mm;
        if !(takes_mm[0]..=takes_mm[1]).contains(&wall_mm) {
            return Err(Reason::WallThickness {
                part: part.clone(),
                takes_mm,
                wall_mm,
            });
        }
    }
    Ok(())
}

/// Whether a thread is not larger than the largest permitted; systems are compared by diameter.
pub fn thread_fits(
    thread: crate::standards::threads::Thread,
    largest: crate::standards::threads::Thread,
) -> bool {
    thread.major_diameter_mm() <= largest.major_diameter_mm()
}
