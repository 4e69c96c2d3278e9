//! The parts list: equal parts gathered, with quantity, mass, price and totals.

use super::fixed;
use super::list::List;
use crate::arrangement::Arrangement;
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

/// The parts list as CSV; its last line has the totals of mass and price and the longest lead time. That
/// of a part for which the arrangement gives none is `unknown`, and so is then the longest, with the reason.
pub fn parts_list(arrangement: &Arrangement) -> String {
    list(arrangement).csv()
}

pub(super) fn list(arrangement: &Arrangement) -> List {
    let lines = part_lines(arrangement);
    let row = |[quantity, id, description]: [String; 3], mass_kg, price, lead_time: String| {
        vec![
            quantity,
            id,
            description,
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
            "#mass_kg",
            "#price",
            "currency",
            "#lead_time_days",
        ],
        rows,
    )
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
