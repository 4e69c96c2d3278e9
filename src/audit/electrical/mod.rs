//! Voltages, currents and sections of terminals, contacts, jumpers and enclosure. Knows nothing of
//! distances and temperatures.

mod connection;
mod cores;
mod current;
mod voltage;

pub(super) use current::rating_a;

use super::case::Rule;
use super::context::Context;
use crate::arrangement::{PlacedContact, PlacedElement, PlacedTerminal};
use crate::catalogue::ConductorBuild;
use crate::standards::{Source, Status};

const RATINGS: Source = Source::new(
    "IEC 60079-7",
    "2015+A1:2017",
    "cl. 4 and 5, rated values",
    Status::FromMemory,
);

/// The rules of this group.
pub(super) static RULES: [&[Rule]; 4] = [
    connection::RULES,
    cores::RULES,
    voltage::RULES,
    current::RULES,
];

pub(super) fn build_word(build: ConductorBuild) -> &'static str {
    match build {
        ConductorBuild::Solid => "solid",
        ConductorBuild::Stranded => "stranded",
        ConductorBuild::Flexible => "flexible",
    }
}

/// Every contact with its element and the name of both.
fn contacts<'a>(context: &Context<'a>) -> Vec<(String, &'a PlacedElement, &'a PlacedContact)> {
    let mut all = Vec::new();
    for element in &context.arrangement.elements {
        for contact in &element.contacts {
            let points: Vec<&str> = contact
                .points
                .iter()
                .map(|point| point.name.as_str())
                .collect();
            all.push((
                format!("{}/{}", element.tag, points.join("-")),
                element,
                contact,
            ));
        }
    }
    all
}

/// The highest voltage that the conductors of a terminal carry by their circuits.
fn voltage_on(context: &Context<'_>, terminal: &PlacedTerminal) -> f64 {
    let wires = context.wires_at(terminal).iter();
    let by_wires = wires.map(|wire| {
        let circuit = context
            .circuits
            .get(wire.circuit.as_str())
            .map_or(0.0, |circuit| circuit.voltage_v);
        circuit.max(context.voltage_of(&wire.potential))
    });
    let by_live = terminal
        .live
        .iter()
        .map(|part| context.voltage_of(&part.potential));
    by_wires.chain(by_live).fold(0.0, f64::max)
}
