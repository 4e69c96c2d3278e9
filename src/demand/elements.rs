//! Operating elements and their contact blocks: the smallest footprint that every condition allows.

use super::build::Builder;
use super::colours::{colour_is_preferred, colour_refusal};
use super::misfit::{Misfit, Nearest};
use super::refusals::section_in_words;
use super::suitability::suits;
use super::{ElementNeed, WireNeedEnd};
use crate::catalogue::{
    Catalogue, CircuitKind, ClampRange, ConductorBuild, ContactBlock, ContactKind, OperatingElement,
};
use crate::requirements::{Circuit, ElementRequirement, Section};
use crate::standards::iec_60947_5_1::UtilisationCategory;
use itertools::Itertools;
use std::collections::BTreeMap;

/// What is wired to a point of an element.
struct PointLoad {
    point: String,
    voltage_v: f64,
    current_a: f64,
    kind: CircuitKind,
    /// Utilisation category, where the list states it.
    load: Option<UtilisationCategory>,
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
                load: circuit.load,
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
    let named = requirement.part.as_ref();
    let mut nearest = Nearest::of_none();
    let mut best: Option<(&OperatingElement, Vec<&ContactBlock>)> = None;
    let candidates = builder
        .catalogue
        .element
        .iter()
        .filter(|part| part.kind == requirement.kind)
        .filter(|part| named.is_none_or(|named| *named == part.id));
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
            Err(misfit) => nearest.note(&part.id, misfit),
        }
    }
    best.ok_or_else(|| {
        let known = nearest.words(named.is_some());
        known.unwrap_or_else(|| none_of_the_kind(builder.catalogue, requirement))
    })
}

/// What is said where no part is of the kind that is asked for.
fn none_of_the_kind(catalogue: &Catalogue, requirement: &ElementRequirement) -> String {
    let named = requirement.part.as_ref();
    let named = named.and_then(|id| catalogue.element.iter().find(|part| part.id == *id));
    match named {
        Some(part) => format!("`{}` is {}", part.id, article(part.kind.words())),
        None => format!("the catalogue has no {}", requirement.kind.words()),
    }
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

/// The contact blocks of a part that meets every condition, else all that it does not meet.
fn check<'c>(
    builder: &Builder<'c, '_>,
    requirement: &ElementRequirement,
    loads: &[PointLoad],
    part: &OperatingElement,
) -> Result<Vec<&'c ContactBlock>, Misfit> {
    let mut misfit = Misfit::default();
    if let Some(colour) = &requirement.colour
        && !part.colour.eq_ignore_ascii_case(colour)
    {
        // Another colour than the one that the list names is further off than one that its function forbids.
        const ANOTHER_COLOUR: f64 = 2.0;
        let reason = format!("is {} where {colour} is asked for", part.colour);
        misfit.add(reason, ANOTHER_COLOUR);
    } else if let Some(reason) = colour_refusal(builder.list, builder.workshop, requirement, part) {
        misfit.add(reason, 1.0);
    }
    if let Some(asked) = requirement.positions
        && part.positions != Some(asked)
    {
        let has = part
            .positions
            .map_or("an unknown number of".to_string(), |has| has.to_string());
        let reason = format!("has {has} positions where {asked} are asked for");
        let ratio = part
            .positions
            .map_or(1.0, |has| f64::from(asked) / f64::from(has.max(1)));
        misfit.add(reason, ratio.max(1.0 / ratio));
    }
    if let Err(reason) = suits(&part.certificate, &builder.list.area, true) {
        misfit.add(format!("is not certified for the area ({reason})"), 1.0);
    }
    let (most, asked) = (part.most_blocks(), requirement.contacts.len());
    if asked > most {
        let reason = format!("carries {most} contact blocks where {asked} are needed");
        misfit.add(reason, asked as f64 / most.max(1) as f64);
    }
    for point in &requirement.own_points {
        if !part.points.contains(point) {
            misfit.add(format!("has no point `{point}`"), 1.0);
        }
    }
    check_own_points(requirement, loads, part, &mut misfit);
    let mut blocks = Vec::new();
    for contact in &requirement.contacts {
        let on_contact: Vec<&PointLoad> = loads
            .iter()
            .filter(|load| contact.points.contains(&load.point))
            .collect();
        match choose_block(builder, contact.kind, part, &on_contact) {
            Ok(block) => blocks.push(block),
            Err((reason, shortfall)) => misfit.add_once(reason, shortfall),
        }
    }
    if misfit.conditions == 0 {
        Ok(blocks)
    } else {
        Err(misfit)
    }
}

/// Voltage, current and clamps of the part's own points, each by its worst load.
fn check_own_points(
    requirement: &ElementRequirement,
    loads: &[PointLoad],
    part: &OperatingElement,
    misfit: &mut Misfit,
) {
    let own = || {
        let wired = loads.iter();
        wired.filter(|load| requirement.own_points.contains(&load.point))
    };
    let voltage_v = own().map(|load| load.voltage_v).fold(0.0, f64::max);
    let current_a = own().map(|load| load.current_a).fold(0.0, f64::max);
    if own().next().is_some() && part.rated_voltage_v.is_none_or(|rated| rated < voltage_v) {
        let rated = words(part.rated_voltage_v);
        let shortfall = part.rated_voltage_v.map_or(1.0, |rated| voltage_v / rated);
        let reason = format!("is rated {rated} V where {voltage_v} V is needed");
        misfit.add(reason, shortfall);
    }
    if let Some(rated) = part.rated_current_a
        && rated < current_a
    {
        let reason = format!("is rated {rated} A where {current_a} A is needed");
        misfit.add(reason, current_a / rated);
    }
    for load in own() {
        if let Err(reason) = clamps(&part.clamp, load) {
            misfit.add_once(reason, 1.0);
        }
    }
}

/// The cheapest contact block of a kind that fits a part and stands what is wired to it, else what the nearest
/// one lacks.
fn choose_block<'c>(
    builder: &Builder<'c, '_>,
    kind: ContactKind,
    part: &OperatingElement,
    loads: &[&PointLoad],
) -> Result<&'c ContactBlock, (String, f64)> {
    let mut nearest = Nearest::of_none();
    let mut best: Option<&ContactBlock> = None;
    let fitting = builder
        .catalogue
        .contact_block
        .iter()
        .filter(|block| block.contact == kind)
        .filter(|block| block.fits.is_empty() || block.fits.contains(&part.id));
    for block in fitting {
        let misfit = check_block(builder, block, loads);
        if misfit.conditions > 0 {
            nearest.note(&block.id, misfit);
            continue;
        }
        let order = |block: &ContactBlock| (tenths(block.price * 10.0), block.id.clone());
        if best.is_none_or(|known| order(block) < order(known)) {
            best = Some(block);
        }
    }
    best.ok_or_else(|| match nearest.into_known() {
        Some((misfit, id)) => (
            format!("takes contact block `{id}`, which {}", misfit.words()),
            misfit.shortfall(),
        ),
        None => (
            format!("fits no {kind:?} contact block of the catalogue"),
            1.0,
        ),
    })
}

/// What a contact block lacks for what is wired to it.
fn check_block(builder: &Builder<'_, '_>, block: &ContactBlock, loads: &[&PointLoad]) -> Misfit {
    let mut misfit = Misfit::default();
    if let Err(reason) = suits(&block.certificate, &builder.list.area, false) {
        misfit.add(format!("is not certified for the area ({reason})"), 1.0);
    }
    for load in loads {
        if !block.circuits.contains(&load.kind) {
            let reason = format!("is not for {} circuits", load.kind.words());
            misfit.add_once(reason, 1.0);
        }
        let (rated_v, needed_v) = (block.rated_voltage_v, load.voltage_v);
        if rated_v < needed_v {
            let reason = format!("is rated {rated_v} V where {needed_v} V is needed");
            misfit.add_once(reason, needed_v / rated_v);
        }
        let (rated_a, needed_a) = (block.rated_current_a, load.current_a);
        if rated_a < needed_a {
            let reason = format!("is rated {rated_a} A where {needed_a} A is needed");
            misfit.add_once(reason, needed_a / rated_a);
        }
        if let Err(reason) = clamps(&block.clamp, load) {
            misfit.add_once(reason, 1.0);
        }
        for category in categories(load) {
            check_utilisation(block, load, category, &mut misfit);
        }
    }
    misfit
}

/// The categories by which a contact is asked for a load: the one that the list states, else the severe ones; an
/// intrinsically safe circuit of which nothing is stated is one of direct current (common practice).
fn categories(load: &PointLoad) -> Vec<UtilisationCategory> {
    match (load.load, load.kind) {
        (Some(stated), _) => vec![stated],
        (None, CircuitKind::IntrinsicallySafe) => vec![UtilisationCategory::Dc13],
        (None, CircuitKind::ExE) => UtilisationCategory::WHERE_UNKNOWN.to_vec(),
    }
}

/// What a contact block lacks to switch a load of one category.
fn check_utilisation(
    block: &ContactBlock,
    load: &PointLoad,
    category: UtilisationCategory,
    misfit: &mut Misfit,
) {
    let (needed_v, needed_a) = (load.voltage_v, load.current_a);
    let best_a = block
        .utilisation
        .iter()
        .filter(|row| row.category.covers(category) && row.voltage_v >= needed_v)
        .map(|row| row.current_a)
        .max_by(f64::total_cmp);
    let unstated = if load.load.is_none() {
        ", which counts because the list states no `load`"
    } else {
        ""
    };
    match best_a {
        Some(best_a) if best_a >= needed_a => {}
        Some(best_a) => {
            let reason = format!(
                "switches at most {best_a} A at {needed_v} V as {category}{unstated}, where {needed_a} A is needed"
            );
            misfit.add_once(reason, needed_a / best_a);
        }
        None => {
            let reason = format!("has no rating as {category} for {needed_v} V{unstated}");
            misfit.add_once(reason, 1.0);
        }
    }
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
