//! Rated currents against the currents of the circuits, and the currents that the record reckons with.

use super::{RATINGS, contacts, voltage_on};
use crate::arrangement::PlacedJumper;
use crate::audit::case::{Cases, Rule, figure_text};
use crate::audit::context::Context;
use crate::audit::graph::end_name;
use crate::catalogue::SectionRating;
use std::collections::BTreeSet;

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "electrical.terminal_current",
        title: "rated current of the terminals",
        requires: "with each section under its clamps a terminal carries the current of that conductor; the row of the largest section that is not above the conductor's counts, and below the first row nothing is known",
        source: RATINGS,
        unit: "A",
        check: terminal_current,
    },
    Rule {
        id: "electrical.contact_current",
        title: "rated current of the contacts",
        requires: "the rated current of every wired contact or element reaches the current on its points",
        source: RATINGS,
        unit: "A",
        check: contact_current,
    },
    Rule {
        id: "electrical.jumper_current",
        title: "rated current of the jumpers",
        requires: "a jumper carries its recorded current and the largest current that its conductors can send from one part of it to the other",
        source: RATINGS,
        unit: "A",
        check: jumper_current,
    },
    Rule {
        id: "electrical.enclosure_current",
        title: "rated current of the enclosure",
        requires: "no circuit has a current above the rated current of the enclosure",
        source: RATINGS,
        unit: "A",
        check: enclosure_current,
    },
    Rule {
        id: "electrical.wire_current",
        title: "currents of the conductors",
        requires: "the conductor at the beginning of a pole, and every conductor of a pole that does not branch, is reckoned with the current of its circuit",
        source: RATINGS,
        unit: "A",
        check: wire_current,
    },
    Rule {
        id: "electrical.recorded_load",
        title: "recorded loads of terminals, contacts and jumpers",
        requires: "the current recorded for a terminal or a contact's point is not below the largest of its conductors, the voltage not below that of its circuits; the current of a jumper not below what is sent across it",
        source: RATINGS,
        unit: "",
        check: recorded_load,
    },
];

/// The rated current with a conductor: the row with the largest section that is not above it.
pub fn rating_a(ratings: &[SectionRating], section_mm2: f64) -> Option<f64> {
    let mut best: Option<&SectionRating> = None;
    for row in ratings {
        let better = best.is_none_or(|known| row.section_mm2 > known.section_mm2);
        if row.section_mm2 <= section_mm2 + 1e-9 && better {
            best = Some(row);
        }
    }
    best.map(|row| row.current_a)
}

fn terminal_current(context: &Context<'_>, cases: &mut Cases) {
    for terminal in &context.arrangement.terminals {
        let mut largest_mm2 = f64::NEG_INFINITY;
        let mut check = |section_mm2: f64, current_a: f64, what: &str| {
            if current_a == 0.0 {
                return;
            }
            match rating_a(&terminal.ratings, section_mm2) {
                None => cases.unknown(&[&terminal.id], || {
                    format!(
                        "{} has no rated current for {} mm² or a smaller section ({what})",
                        terminal.id,
                        figure_text(section_mm2)
                    )
                }),
                Some(rated_a) => cases.at_least(&[&terminal.id], rated_a, current_a, || {
                    format!(
                        "rated current of {} with {} mm² for the current of {what}",
                        terminal.id,
                        figure_text(section_mm2)
                    )
                }),
            }
        };
        for wire in context.wires_at(terminal) {
            largest_mm2 = largest_mm2.max(wire.section_mm2);
            check(wire.section_mm2, wire.current_a, &wire.id);
        }
        if largest_mm2.is_finite() {
            check(largest_mm2, terminal.current_a, "the terminal");
        }
    }
}

fn contact_current(context: &Context<'_>, cases: &mut Cases) {
    for (name, element, contact) in contacts(context) {
        for point in contact
            .points
            .iter()
            .filter(|point| !point.wires.is_empty())
        {
            let wires = point
                .wires
                .iter()
                .filter_map(|id| context.wires.get(id.as_str()));
            let current_a = wires
                .map(|wire| wire.current_a)
                .fold(point.current_a, f64::max);
            match contact.rated_current_a {
                // A lamp or meter that is rated by its power takes the current that it takes.
                None if contact.part.is_none() && element.power_w > 0.0 => {
                    cases.is_so(true, &[&name], || {
                        format!(
                            "{name} is rated by its power, {} W",
                            figure_text(element.power_w)
                        )
                    });
                }
                None => cases.unknown(&[&name], || {
                    format!("the rated current of {name} is unknown")
                }),
                Some(rated_a) => cases.at_least(&[&name], rated_a, current_a, || {
                    format!("rated current of the contact {name}, point {}", point.name)
                }),
            }
        }
    }
}

/// The largest current that the conductors on either side of any place of the jumper can send across
/// it, never more than the circuits of its potential take together.
fn sent_across_a(context: &Context<'_>, jumper: &PlacedJumper) -> f64 {
    let mut potentials = BTreeSet::new();
    let mut sums = Vec::new();
    for id in &jumper.terminals {
        let Some(terminal) = context.terminals.get(id.as_str()) else {
            continue;
        };
        potentials.extend(terminal.live.first().map(|part| part.potential.as_str()));
        sums.push(
            context
                .wires_at(terminal)
                .iter()
                .map(|wire| wire.current_a)
                .sum::<f64>(),
        );
    }
    let supply_a: f64 = potentials
        .into_iter()
        .filter_map(|potential| context.circuits_of_potential.get(potential))
        .flatten()
        .map(|circuit| circuit.current_a)
        .sum();
    let total_a: f64 = sums.iter().sum();
    let mut left_a = 0.0;
    let mut most_a: f64 = 0.0;
    for sum in sums {
        left_a += sum;
        most_a = most_a.max(f64::min(left_a, total_a - left_a));
    }
    most_a.min(supply_a)
}

fn jumper_current(context: &Context<'_>, cases: &mut Cases) {
    for jumper in &context.arrangement.jumpers {
        let needed_a = sent_across_a(context, jumper).max(jumper.current_a);
        cases.at_least(&[&jumper.id], jumper.rated_current_a, needed_a, || {
            format!(
                "rated current of jumper {} over {}",
                jumper.id,
                jumper.terminals.join(", ")
            )
        });
    }
}

fn enclosure_current(context: &Context<'_>, cases: &mut Cases) {
    let enclosure = &context.arrangement.enclosure;
    for circuit in &context.arrangement.circuits {
        match enclosure.rated_current_a {
            None => cases.unknown(&[&enclosure.id], || {
                "the rated current of the enclosure is unknown".into()
            }),
            Some(rated_a) => {
                cases.at_least(
                    &[&enclosure.id, &circuit.tag],
                    rated_a,
                    circuit.current_a,
                    || {
                        format!(
                            "rated current of {} for circuit {}",
                            enclosure.id, circuit.tag
                        )
                    },
                );
            }
        }
    }
}

fn wire_current(context: &Context<'_>, cases: &mut Cases) {
    for wire in &context.arrangement.wires {
        let Some(circuit) = context.circuits.get(wire.circuit.as_str()) else {
            continue;
        };
        let poles = circuit
            .poles
            .iter()
            .filter(|pole| pole.potential == wire.potential);
        let ends = [end_name(&wire.from), end_name(&wire.to)];
        let full = poles.into_iter().any(|pole| {
            pole.to.len() <= 1 || pole.from.as_ref().is_some_and(|from| ends.contains(from))
        });
        if full {
            cases.at_least(
                &[&wire.id, &circuit.tag],
                wire.current_a,
                circuit.current_a,
                || {
                    format!(
                        "current with which {} of circuit {} is reckoned",
                        wire.id, circuit.tag
                    )
                },
            );
        }
    }
}

fn recorded_load(context: &Context<'_>, cases: &mut Cases) {
    let mut one = |name: &str, recorded: (f64, f64), found: (f64, f64)| {
        cases.is_so(recorded.0 >= found.0 - 1e-9, &[name], || {
            format!(
                "{name}: {} A recorded, its conductors carry {} A",
                figure_text(recorded.0),
                figure_text(found.0)
            )
        });
        cases.is_so(recorded.1 >= found.1 - 1e-9, &[name], || {
            format!(
                "{name}: {} V recorded, its circuits have {} V",
                figure_text(recorded.1),
                figure_text(found.1)
            )
        });
    };
    for terminal in &context.arrangement.terminals {
        let current_a = context
            .wires_at(terminal)
            .iter()
            .map(|wire| wire.current_a)
            .fold(0.0, f64::max);
        one(
            &terminal.id,
            (terminal.current_a, terminal.working_voltage_v),
            (current_a, voltage_on(context, terminal)),
        );
    }
    for (_, element, contact) in contacts(context) {
        for point in &contact.points {
            let wires = point
                .wires
                .iter()
                .filter_map(|id| context.wires.get(id.as_str()));
            let current_a = wires.map(|wire| wire.current_a).fold(0.0, f64::max);
            let voltage_v = context.voltage_of(&point.potential);
            one(
                &format!("{}/{}", element.tag, point.name),
                (point.current_a, point.working_voltage_v),
                (current_a, voltage_v),
            );
        }
    }
    for jumper in &context.arrangement.jumpers {
        let carried_a = sent_across_a(context, jumper);
        cases.is_so(jumper.current_a >= carried_a - 1e-9, &[&jumper.id], || {
            format!(
                "{}: {} A recorded, {} A are sent across it",
                jumper.id,
                figure_text(jumper.current_a),
                figure_text(carried_a)
            )
        });
    }
}
