//! The parts list: equal parts gathered, with quantity, mass, price and totals.

use super::{csv, fixed};
use crate::arrangement::Arrangement;
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
    list.lines
}

/// The parts list as CSV; its last line has the totals of mass and price.
pub fn parts_list(arrangement: &Arrangement) -> String {
    let lines = part_lines(arrangement);
    let row = |quantity: String, id: &str, description: &str, mass_kg: f64, price: f64| {
        vec![
            quantity,
            id.to_string(),
            description.to_string(),
            fixed(mass_kg, 3),
            fixed(price, 2),
            arrangement.currency.clone(),
        ]
    };
    let mut rows: Vec<Vec<String>> = lines
        .iter()
        .map(|line| {
            row(
                line.quantity.to_string(),
                &line.id,
                &line.description,
                line.mass_kg,
                line.price,
            )
        })
        .collect();
    let mass_kg = lines.iter().map(|line| line.mass_kg).sum();
    let price = lines.iter().map(|line| line.price).sum();
    rows.push(row(String::new(), "total", "", mass_kg, price));
    csv::write(
        &[
            "quantity",
            "id",
            "description",
            "mass_kg",
            "price",
            "currency",
        ],
        &rows,
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
            });
        }
        let line = &mut self.lines[place];
        line.quantity += 1;
        line.mass_kg += mass_kg;
        line.price += price;
    }
}
