//! Operating elements and their contact blocks: the smallest footprint that every condition allows.

use super::build::Builder;
use super::colours::{colour_is_preferred, colour_refusal};
use super::refusals::section_in_words;
use super::suitability::suits;
use super::{ElementNeed, WireNeedEnd};
use crate::catalogue::{CircuitKind, ClampRange, ConductorBuild, ContactBlock, OperatingElement};
use crate::requirements::{Circuit, ElementRequirement, Section};
use itertools::Itertools;
use std::collections::BTreeMap;

/// What is wired to a point of an element.
struct PointLoad {
    point: String,
    voltage_v: f64,
    current_a: f64,
    kind: CircuitKind,
    build: ConductorBuild,
    section: Section,
}

/// Adds all operating elements. Wires must have been added before.
pub(super) fn add_elements(builder: &mut Builder<'_, '_>) {
    let mut loads_of_all = loads(builder);
    for index in 0..builder.list.elements.len() {
        let requirement = &builder.list.elements[index];
        let loads = loads_of_all.remove(&index).unwrap_or_default();
        match choose_element(builder, requirement, &loads) {
            Ok((part, blocks)) => {
                let depth_mm = part
                    .depth_mm
                    .get(blocks.len())
                    .copied()
                    .unwrap_or(f64::INFINITY);
                let wired = !loads.is_empty();
                let kind = loads.iter().map(|load| load.kind).max();
                let points = requirement
                    .contacts
                    .iter()
                    .flat_map(|contact| &contact.points)
                    .chain(&requirement.own_points);
                let free = points
                    .filter(|point| loads.iter().all(|load| load.point != **point))
                    .join(", ");
                if !free.is_empty() {
                    builder.demand.remarks.push(format!(
                        "nothing is wired to `{}`, points {free}",
                        requirement.tag
                    ));
                }
                builder.demand.elements.push(ElementNeed {
                    index,
                    part,
                    blocks,
                    contacts: requirement.contacts.clone(),
                    depth_mm,
                    bend_mm: if wired {
                        builder.workshop.elements.contact_bend_mm
                    } else {
                        0.0
                    },
                    kind,
                });
            }
            Err(reason) => {
                let message = format!(
                    "no operating element serves `{}` ({}{})",
                    requirement.tag,
                    requirement
                        .colour
                        .as_ref()
                        .map_or(String::new(), |colour| format!("{colour} ")),
                    requirement.kind.words()
                );
                let finding = requirement
                    .place
                    .error("kind", "demand-no-element", &message)
                    .expected("a suitable operating element in the catalogue")
                    .hint(reason);
                builder.refusals.push(finding);
            }
        }
    }
}

/// What is wired to each element, by its index.
fn loads(builder: &Builder<'_, '_>) -> BTreeMap<usize, Vec<PointLoad>> {
    let list = builder.list;
    let circuits: BTreeMap<&str, &Circuit> = list
        .circuits
        .iter()
        .map(|circuit| (circuit.tag.as_str(), circuit))
        .collect();
    let mut loads: BTreeMap<usize, Vec<PointLoad>> = BTreeMap::new();
    for wire in &builder.demand.wires {
        if let WireNeedEnd::Contact { element, point } = &wire.to
            && let Some(circuit) = circuits.get(wire.circuit.as_str())
        {
            loads.entry(*element).or_default().push(PointLoad {
                point: point.clone(),
                voltage_v: circuit.voltage_v,
                current_a: wire.current_a,
                kind: circuit.kind,
                build: wire.build,
                section: wire.section.clone(),
            });
        }
    }
    loads
}

fn choose_element<'c>(
    builder: &Builder<'c, '_>,
    requirement: &ElementRequirement,
    loads: &[PointLoad],
) -> Result<(&'c OperatingElement, Vec<&'c ContactBlock>), String> {
    let named = requirement.part.as_ref().and_then(|id| {
        let mut parts = builder.catalogue.element.iter();
        parts.find(|part| part.id == *id)
    });
    let mut reasons = match named {
        Some(part) => (
            0,
            format!("`{}` is {}", part.id, article(part.kind.words())),
        ),
        None => (
            0,
            format!("the catalogue has no {}", requirement.kind.words()),
        ),
    };
    let mut best: Option<(&OperatingElement, Vec<&ContactBlock>)> = None;
    let candidates = builder
        .catalogue
        .element
        .iter()
        .filter(|part| part.kind == requirement.kind);
    for part in candidates {
        match check(builder, requirement, loads, part) {
            Ok(blocks) => {
                if best.as_ref().is_none_or(|(known, known_blocks)| {
                    order(requirement, part, blocks.len())
                        < order(requirement, known, known_blocks.len())
                }) {
                    best = Some((part, blocks));
                }
            }
            Err((step, reason)) if step > reasons.0 => {
                reasons = (step, format!("the nearest one, `{}`, {reason}", part.id));
            }
            Err(_) => {}
        }
    }
    best.ok_or(reasons.1)
}

/// Whole tenths, so that lengths and prices compare.
fn tenths(value: f64) -> i64 {
    (value * 10.0).round() as i64
}

/// The order of choice: footprint, then depth, the colour that IEC 60204-1 prefers for the function, price, id.
fn order<'p>(
    requirement: &ElementRequirement,
    part: &'p OperatingElement,
    blocks: usize,
) -> (i64, i64, bool, i64, &'p str) {
    let depth_mm = part.depth_mm.get(blocks).copied().unwrap_or(0.0);
    (
        tenths(part.footprint_mm[0] * part.footprint_mm[1]),
        tenths(depth_mm),
        !colour_is_preferred(requirement, part),
        tenths(part.price * 10.0),
        part.id.as_str(),
    )
}

fn check<'c>(
    builder: &Builder<'c, '_>,
    requirement: &ElementRequirement,
    loads: &[PointLoad],
    part: &OperatingElement,
) -> Result<Vec<&'c ContactBlock>, (u32, String)> {
    if requirement
        .part
        .as_ref()
        .is_some_and(|named| *named != part.id)
    {
        return Err((0, "is not the one named".to_string()));
    }
    if let Some(colour) = &requirement.colour
        && !part.colour.eq_ignore_ascii_case(colour)
    {
        return Err((1, format!("is {}, asked for is {colour}", part.colour)));
    }
    if let Some(reason) = colour_refusal(builder.list, builder.workshop, requirement, part) {
        return Err((2, reason));
    }
    if requirement.positions.is_some() && part.positions != requirement.positions {
        let has = part
            .positions
            .map_or("an unknown number of".to_string(), |has| has.to_string());
        let asked = requirement.positions.unwrap_or_default();
        return Err((3, format!("has {has} positions, asked for are {asked}")));
    }
    if let Err(reason) = suits(&part.certificate, &builder.list.area, true) {
        return Err((4, format!("is not certified for the area ({reason})")));
    }
    if requirement.contacts.len() > part.most_blocks() {
        return Err((
            5,
            format!(
                "carries {} contact blocks; {} are needed",
                part.most_blocks(),
                requirement.contacts.len()
            ),
        ));
    }
    for point in &requirement.own_points {
        if !part.points.contains(point) {
            return Err((6, format!("has no point `{point}`")));
        }
    }
    for load in loads
        .iter()
        .filter(|load| requirement.own_points.contains(&load.point))
    {
        let voltage = part
            .rated_voltage_v
            .is_some_and(|rated| rated >= load.voltage_v);
        if !voltage {
            return Err((
                7,
                format!(
                    "is rated {} V; {} V is needed",
                    words(part.rated_voltage_v),
                    load.voltage_v
                ),
            ));
        }
        if part
            .rated_current_a
            .is_some_and(|rated| rated < load.current_a)
        {
            return Err((
                8,
                format!(
                    "is rated {} A; {} A is needed",
                    words(part.rated_current_a),
                    load.current_a
                ),
            ));
        }
        clamps(&part.clamp, load).map_err(|reason| (9, reason))?;
    }
    let mut blocks = Vec::new();
    for contact in &requirement.contacts {
        let on_contact: Vec<&PointLoad> = loads
            .iter()
            .filter(|load| contact.points.contains(&load.point))
            .collect();
        let mut reasons = (
            0,
            format!("fits no {:?} contact block of the catalogue", contact.kind),
        );
        let mut best: Option<&ContactBlock> = None;
        for block in builder
            .catalogue
            .contact_block
            .iter()
            .filter(|block| block.contact == contact.kind)
            .filter(|block| block.fits.is_empty() || block.fits.contains(&part.id))
        {
            match check_block(builder, block, &on_contact) {
                Ok(()) => {
                    let order =
                        |block: &ContactBlock| (tenths(block.price * 10.0), block.id.clone());
                    if best.is_none_or(|known| order(block) < order(known)) {
                        best = Some(block);
                    }
                }
                Err((step, reason)) if step > reasons.0 => {
                    reasons = (step, format!("its contact block `{}` {reason}", block.id));
                }
                Err(_) => {}
            }
        }
        blocks.push(best.ok_or((10, reasons.1))?);
    }
    Ok(blocks)
}

/// Whether a contact block stands what is wired to it; the error carries how far it came.
fn check_block(
    builder: &Builder<'_, '_>,
    block: &ContactBlock,
    loads: &[&PointLoad],
) -> Result<(), (u32, String)> {
    if let Err(reason) = suits(&block.certificate, &builder.list.area, false) {
        return Err((1, format!("is not certified for the area ({reason})")));
    }
    for load in loads {
        if !block.circuits.contains(&load.kind) {
            return Err((2, format!("is not for {} circuits", load.kind.words())));
        }
        if block.rated_voltage_v < load.voltage_v {
            let (rated, needed) = (block.rated_voltage_v, load.voltage_v);
            return Err((3, format!("is rated {rated} V; {needed} V is needed")));
        }
        if block.rated_current_a < load.current_a {
            let (rated, needed) = (block.rated_current_a, load.current_a);
            return Err((4, format!("is rated {rated} A; {needed} A is needed")));
        }
        clamps(&block.clamp, load).map_err(|reason| (5, reason))?;
        // Which category the load is of is not in the list, so the best one counts.
        let best_a = block
            .utilisation
            .iter()
            .filter(|row| row.voltage_v >= load.voltage_v)
            .map(|row| row.current_a)
            .max_by(f64::total_cmp);
        match best_a {
            Some(best_a) if best_a >= load.current_a => {}
            Some(best_a) => {
                let (volts, needed) = (load.voltage_v, load.current_a);
                let reason =
                    format!("switches at most {best_a} A at {volts} V; {needed} A is needed");
                return Err((6, reason));
            }
            None => {
                let reason = format!("has no utilisation category for {} V", load.voltage_v);
                return Err((6, reason));
            }
        }
    }
    Ok(())
}

fn clamps(range: &ClampRange, load: &PointLoad) -> Result<(), String> {
    if range.takes(load.build, load.section.mm2) {
        Ok(())
    } else {
        Err(format!(
            "does not clamp a conductor of {}",
            section_in_words(&load.section)
        ))
    }
}

/// The word with its article: `a lamp`, `an ammeter`.
fn article(word: &str) -> String {
    let article = if word.starts_with(['a', 'e', 'i', 'o', 'u']) {
        "an"
    } else {
        "a"
    };
    format!("{article} {word}")
}

fn words(value: Option<f64>) -> String {
    value.map_or("an unknown number of".to_string(), |value| {
        value.to_string()
    })
}

/// Largest section of an internal wire to a contact: contacts do not take more.
pub(super) const LARGEST_INTERNAL_MM2: f64 = 2.5;
