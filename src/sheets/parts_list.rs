//! The parts list: equal parts gathered, with quantity, mass, price and totals.

use super::behind_lid::is_internal;
use super::fixed;
use super::list::List;
use crate::arrangement::Arrangement;
use crate::catalogue::{Certificate, ConductorBuild};
use itertools::Itertools;
use std::collections::BTreeMap;

/// Equal parts of a list.
#[derive(Debug, Clone, PartialEq)]
pub struct PartLine {
    /// Catalogue id.
    pub id: String,
    /// Line of the catalogue.
    pub description: String,
    /// How many. Rails are counted by piece; each length is a line of its own.
    pub quantity: u32,
    /// Mass of all, kg.
    pub mass_kg: f64,
    /// Price of all, in the currency of the arrangement.
    pub price: f64,
    /// Usual lead time, days; `None` where the arrangement does not say.
    pub lead_time_days: Option<u32>,
}

/// The parts of an arrangement in the order in which they are put together: enclosure, rails,
/// terminals, accessories, jumpers, entries, elements, contact blocks.
pub fn part_lines(arrangement: &Arrangement) -> Vec<PartLine> {
    let mut list = Gathered::default();
    let enclosure = &arrangement.enclosure;
    list.add(
        &enclosure.id,
        &enclosure.description,
        enclosure.mass_kg,
        enclosure.price,
    );
    // Zero stands for a catalogue that gives none.
    let lead_time = Some(enclosure.lead_time_days).filter(|days| *days > 0);
    if let Some(line) = list.lines.first_mut() {
        line.lead_time_days = lead_time;
    }
    for rail in &arrangement.rails {
        let words = format!(
            "Rail {}, cut to {} mm",
            rail.profile,
            super::tenth(rail.length_mm)
        );
        list.add(&rail.part, &words, rail.mass_kg, rail.price);
    }
    for part in &arrangement.terminals {
        list.add(&part.part, &part.description, part.mass_kg, part.price);
    }
    for part in &arrangement.accessories {
        list.add(&part.part, &part.description, part.mass_kg, part.price);
    }
    for part in &arrangement.jumpers {
        list.add(&part.part, &part.description, part.mass_kg, part.price);
    }
    for entry in &arrangement.entries {
        list.add(
            &entry.part.id,
            &entry.part.description,
            entry.part.mass_kg,
            entry.part.price,
        );
        if let Some(plate) = &entry.earth_plate {
            list.add(&plate.id, &plate.description, plate.mass_kg, plate.price);
        }
    }
    for element in &arrangement.elements {
        list.add(
            &element.part,
            &element.description,
            element.mass_kg,
            element.price,
        );
        for contact in &element.contacts {
            if let Some(id) = &contact.part {
                list.add(id, &contact.description, contact.mass_kg, contact.price);
            }
        }
    }
    for line in list.lines.iter_mut().filter(|line| line.id != enclosure.id) {
        line.lead_time_days = arrangement.lead_times_days.get(&line.id).copied();
    }
    list.lines
}

/// The longest lead time of some parts in days, where that of each is known; with the words that say what
/// it is, or why it is not known.
pub fn longest_lead_time(lines: &[PartLine]) -> (Option<u32>, String) {
    let known = lines.iter().filter_map(|line| line.lead_time_days).max();
    let unknown: Vec<&str> = lines
        .iter()
        .filter(|line| line.lead_time_days.is_none())
        .map(|line| line.id.as_str())
        .unique()
        .collect();
    match (known, unknown.as_slice()) {
        (days, []) => (days, "longest lead time".to_string()),
        (None, _) => (None, "lead time: none is known".to_string()),
        (Some(days), [only]) => (
            None,
            format!("lead time: not known for {only}; the others at most {days} days"),
        ),
        (Some(days), [first, rest @ ..]) => (
            None,
            format!(
                "lead time: not known for {first} and {} more; the others at most {days} days",
                rest.len()
            ),
        ),
    }
}

/// The number of every part's certificate by the part's id; parts without one are missing.
pub(super) fn certificates(arrangement: &Arrangement) -> BTreeMap<&str, &str> {
    let enclosure = &arrangement.enclosure;
    let mut all: Vec<(&str, &Certificate)> = vec![(&enclosure.id, &enclosure.certificate)];
    let terminals = arrangement.terminals.iter();
    all.extend(terminals.map(|part| (part.part.as_str(), &part.certificate)));
    let accessories = arrangement.accessories.iter();
    all.extend(accessories.map(|part| (part.part.as_str(), &part.certificate)));
    let jumpers = arrangement.jumpers.iter();
    all.extend(jumpers.map(|part| (part.part.as_str(), &part.certificate)));
    for entry in &arrangement.entries {
        all.push((&entry.part.id, &entry.part.certificate));
        let plates = entry.earth_plate.iter();
        all.extend(plates.map(|plate| (plate.id.as_str(), &plate.certificate)));
    }
    for element in &arrangement.elements {
        all.push((&element.part, &element.certificate));
        let contacts = element.contacts.iter();
        all.extend(contacts.filter_map(|own| Some((own.part.as_deref()?, &own.certificate))));
    }
    all.into_iter()
        .filter_map(|(id, certificate)| Some((id, certificate.number.as_deref()?)))
        .collect()
}

/// The parts list as CSV; its last line has the totals of mass and price and the longest lead time. That
/// of a part for which the arrangement gives none is `unknown`, and so is then the longest, with the reason.
pub fn parts_list(arrangement: &Arrangement) -> String {
    list(arrangement).csv()
}

pub(super) fn list(arrangement: &Arrangement) -> List {
    let lines = part_lines(arrangement);
    let certificates = certificates(arrangement);
    let row = |[quantity, id, description]: [String; 3], mass_kg, price, lead_time: String| {
        let certificate = certificates.get(id.as_str());
        let certificate = certificate.map(|number| (*number).to_string());
        vec![
            quantity,
            id,
            description,
            certificate.unwrap_or_default(),
            fixed(mass_kg, 3),
            fixed(price, 2),
            arrangement.currency.clone(),
            lead_time,
        ]
    };
    let days = |days: Option<u32>| days.map_or("unknown".to_string(), |days| days.to_string());
    let mut rows: Vec<Vec<String>> = lines
        .iter()
        .map(|line| {
            let words = [
                line.quantity.to_string(),
                line.id.clone(),
                line.description.clone(),
            ];
            row(words, line.mass_kg, line.price, days(line.lead_time_days))
        })
        .collect();
    rows.extend(wires(arrangement).into_iter().map(|(count, words)| {
        let mut cells = vec![String::new(); 8];
        cells[0] = count.to_string();
        cells[2] = words;
        cells
    }));
    let mass_kg = lines.iter().map(|line| line.mass_kg).sum();
    let price = lines.iter().map(|line| line.price).sum();
    let (longest, why) = longest_lead_time(&lines);
    let words = [String::new(), "total".into(), why];
    rows.push(row(words, mass_kg, price, days(longest)));
    List::new(
        "parts",
        &[
            "#quantity",
            "id",
            "description",
            "certificate",
            "#mass_kg",
            "#price",
            "currency",
            "#lead_time_days",
        ],
        rows,
    )
}

/// The internal wires by section and build: how many, and what they are. They are in no catalogue, so that neither
/// mass nor price is counted.
pub(super) fn wires(arrangement: &Arrangement) -> Vec<(u32, String)> {
    let mut groups: Vec<(&str, ConductorBuild, u32, f64)> = Vec::new();
    for wire in arrangement.wires.iter().filter(|wire| is_internal(wire)) {
        let is_equal = |group: &&mut (&str, ConductorBuild, u32, f64)| {
            group.0 == wire.section && group.1 == wire.build
        };
        match groups.iter_mut().find(is_equal) {
            Some((_, _, count, route_mm)) => {
                *count += 1;
                *route_mm += wire.route_mm;
            }
            None => groups.push((&wire.section, wire.build, 1, wire.route_mm)),
        }
    }
    let words = groups.into_iter().map(|(section, build, count, route_mm)| {
        let words = format!(
            "internal wire {section} {}, colour not stated, {} m along the routes (estimated); not in the \
             catalogue, mass and price not counted",
            build.words(),
            fixed(route_mm / 1000.0, 1)
        );
        (count, words)
    });
    words.collect()
}

/// Lines in the order of first appearance, found again by id and description.
#[derive(Default)]
struct Gathered {
    lines: Vec<PartLine>,
    places: BTreeMap<(String, String), usize>,
}

impl Gathered {
    fn add(&mut self, id: &str, description: &str, mass_kg: f64, price: f64) {
        let key = (id.to_string(), description.to_string());
        let next = self.lines.len();
        let place = *self.places.entry(key).or_insert(next);
        if place == next {
            self.lines.push(PartLine {
                id: id.to_string(),
                description: description.to_string(),
                quantity: 0,
                mass_kg: 0.0,
                price: 0.0,
                lead_time_days: None,
            });
        }
        let line = &mut self.lines[place];
        line.quantity += 1;
        line.mass_kg += mass_kg;
        line.price += price;
    }
}
