//! Voltages, currents and sections of terminals, contacts, jumpers and enclosure. Knows nothing of
//! distances and temperatures.

use super::case::{Cases, Rule, figure_text};
use super::context::Context;
use super::measure;
use crate::arrangement::{PlacedContact, PlacedElement, PlacedJumper, PlacedTerminal, Wire};
use crate::catalogue::{CircuitKind, ClampRange, ConductorBuild, SectionRating};
use crate::standards::{Source, Status};
use std::collections::BTreeSet;

const CLAMPS: Source = Source::new(
    "IEC 60079-7",
    "2015+A1:2017",
    "terminals, certified connection",
    Status::FromMemory,
);
const RATINGS: Source = Source::new(
    "IEC 60079-7",
    "2015+A1:2017",
    "rated values",
    Status::FromMemory,
);
const KINDS: Source = Source::new(
    "IEC 60079-14",
    "",
    "selection of parts by circuit",
    Status::FromMemory,
);

/// The rules of this group.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "electrical.section",
        title: "conductor section in the clamp's range",
        requires: "every conductor lies in the range that its clamp takes for its build (solid, stranded, flexible); the margin is the distance to the nearer end of the range",
        source: CLAMPS,
        unit: "mm²",
        check: section,
    },
    Rule {
        id: "electrical.conductors_per_clamp",
        title: "conductors under one clamp",
        requires: "no more conductors under one clamp than the terminal is certified for",
        source: CLAMPS,
        unit: "conductors",
        check: conductors_per_clamp,
    },
    Rule {
        id: "electrical.terminal_voltage",
        title: "rated voltage of the terminals",
        requires: "the rated voltage of every terminal reaches the highest voltage of the circuits on it",
        source: RATINGS,
        unit: "V",
        check: terminal_voltage,
    },
    Rule {
        id: "electrical.contact_voltage",
        title: "rated voltage of the contacts",
        requires: "the rated voltage of every wired contact or element reaches the voltage of its circuit",
        source: RATINGS,
        unit: "V",
        check: contact_voltage,
    },
    Rule {
        id: "electrical.enclosure_voltage",
        title: "rated voltage of the enclosure",
        requires: "the rated voltage of the enclosure reaches the highest voltage of any circuit",
        source: RATINGS,
        unit: "V",
        check: enclosure_voltage,
    },
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
        id: "electrical.jumper_terminals",
        title: "jumpers over equal neighbours of one potential",
        requires: "a jumper links two or more equal terminals that stand side by side in the order named and carry one potential, no more than it has poles",
        source: CLAMPS,
        unit: "",
        check: jumper_terminals,
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
        id: "electrical.circuit_kind",
        title: "parts for their kind of circuit",
        requires: "terminals, contacts and cables carry only circuits of a kind that they are for, and no terminal carries both kinds",
        source: KINDS,
        unit: "",
        check: circuit_kind,
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
        title: "recorded loads of terminals and contacts",
        requires: "the current recorded for a terminal or a contact's point is not below the largest of its conductors, the voltage not below that of its circuits",
        source: RATINGS,
        unit: "",
        check: recorded_load,
    },
];

fn range_of(clamp: &ClampRange, build: ConductorBuild) -> Option<[f64; 2]> {
    match build {
        ConductorBuild::Solid => clamp.solid_mm2,
        ConductorBuild::Stranded => clamp.stranded_mm2,
        ConductorBuild::Flexible => clamp.flexible_mm2,
    }
}

pub(super) fn build_word(build: ConductorBuild) -> &'static str {
    match build {
        ConductorBuild::Solid => "solid",
        ConductorBuild::Stranded => "stranded",
        ConductorBuild::Flexible => "flexible",
    }
}

/// The rated current with a conductor: the row with the largest section that is not above it.
fn rating_a(ratings: &[SectionRating], section_mm2: f64) -> Option<f64> {
    let mut best: Option<&SectionRating> = None;
    for row in ratings {
        let better = best.is_none_or(|known| row.section_mm2 > known.section_mm2);
        if row.section_mm2 <= section_mm2 + 1e-9 && better {
            best = Some(row);
        }
    }
    best.map(|row| row.current_a)
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

fn section(context: &Context<'_>, cases: &mut Cases) {
    let mut one = |owner: &str, clamp: &ClampRange, wire: &Wire| {
        let build = build_word(wire.build);
        match range_of(clamp, wire.build) {
            None => cases.is_so(false, &[owner, &wire.id], || {
                format!(
                    "{owner} takes no {build} conductor, {} is one of {}",
                    wire.id, wire.section
                )
            }),
            Some([least, most]) => {
                cases.at_least(&[owner, &wire.id], wire.section_mm2, least, || {
                    format!("section of {} ({build}) under {owner}", wire.id)
                });
                cases.at_most(&[owner, &wire.id], wire.section_mm2, most, || {
                    format!("section of {} ({build}) under {owner}", wire.id)
                });
            }
        }
    };
    for terminal in &context.arrangement.terminals {
        for wire in context.wires_at(terminal) {
            one(&terminal.id, &terminal.clamp_range, wire);
        }
    }
    for (name, _, contact) in contacts(context) {
        for wire in context.wires_on_contact(contact) {
            one(&name, &contact.clamp_range, wire);
        }
    }
}

fn conductors_per_clamp(context: &Context<'_>, cases: &mut Cases) {
    for terminal in &context.arrangement.terminals {
        for clamp in terminal
            .clamps
            .iter()
            .filter(|clamp| !clamp.wires.is_empty())
        {
            let most = f64::from(terminal.conductors_per_clamp);
            cases.at_most(&[&terminal.id], clamp.wires.len() as f64, most, || {
                let side = super::graph::side_word(clamp.side);
                format!(
                    "conductors under the {side} clamp of {}, level {}",
                    terminal.id, clamp.level
                )
            });
        }
    }
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

fn terminal_voltage(context: &Context<'_>, cases: &mut Cases) {
    for terminal in &context.arrangement.terminals {
        let working_v = voltage_on(context, terminal).max(terminal.working_voltage_v);
        if working_v > 0.0 {
            cases.at_least(&[&terminal.id], terminal.rated_voltage_v, working_v, || {
                format!("rated voltage of {} ({})", terminal.id, terminal.part)
            });
        }
    }
}

fn contact_voltage(context: &Context<'_>, cases: &mut Cases) {
    for (name, _, contact) in contacts(context) {
        for point in contact
            .points
            .iter()
            .filter(|point| !point.wires.is_empty())
        {
            let working_v = context
                .voltage_of(&point.potential)
                .max(point.working_voltage_v);
            match contact.rated_voltage_v {
                None => cases.unknown(&[&name], || {
                    format!("the rated voltage of {name} is unknown")
                }),
                Some(rated_v) => cases.at_least(&[&name], rated_v, working_v, || {
                    format!("rated voltage of the contact {name}")
                }),
            }
        }
    }
}

fn enclosure_voltage(context: &Context<'_>, cases: &mut Cases) {
    let enclosure = &context.arrangement.enclosure;
    for circuit in &context.arrangement.circuits {
        match enclosure.rated_voltage_v {
            None => cases.unknown(&[&enclosure.id], || {
                "the rated voltage of the enclosure is unknown".into()
            }),
            Some(rated_v) => {
                cases.at_least(
                    &[&enclosure.id, &circuit.tag],
                    rated_v,
                    circuit.voltage_v,
                    || {
                        format!(
                            "rated voltage of {} for circuit {}",
                            enclosure.id, circuit.tag
                        )
                    },
                );
            }
        }
    }
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

fn jumper_terminals(context: &Context<'_>, cases: &mut Cases) {
    for jumper in &context.arrangement.jumpers {
        let count = jumper.terminals.len();
        cases.is_so(
            count >= 2 && count as u64 <= u64::from(jumper.poles),
            &[&jumper.id],
            || {
                format!(
                    "jumper {} of {} poles links {count} terminals",
                    jumper.id, jumper.poles
                )
            },
        );
        for pair in jumper.terminals.windows(2) {
            let [left, right] = pair else { continue };
            let known = context
                .terminals
                .get(left.as_str())
                .zip(context.terminals.get(right.as_str()));
            let Some((a, b)) = known else {
                cases.is_so(false, &[&jumper.id, left, right], || {
                    format!(
                        "jumper {} names a terminal that does not exist: {left} or {right}",
                        jumper.id
                    )
                });
                continue;
            };
            let side_by_side = Context::equal_neighbours(a, b) && a.body.min.x_mm < b.body.min.x_mm;
            cases.is_so(side_by_side, &[&jumper.id, left, right], || {
                let gap = measure::apart_mm(measure::x_range(&a.body), measure::x_range(&b.body));
                format!(
                    "{left} ({}) and {right} ({}) on {} and {}, {} mm apart, under jumper {}",
                    a.part,
                    b.part,
                    a.rail,
                    b.rail,
                    figure_text(gap),
                    jumper.id
                )
            });
            let potential = |terminal: &PlacedTerminal| {
                terminal.live.first().map(|part| part.potential.clone())
            };
            let (at_left, at_right) = (potential(a), potential(b));
            cases.is_so(
                at_left.is_some() && at_left == at_right,
                &[&jumper.id, left, right],
                || {
                    format!(
                        "jumper {} links the potentials `{}` and `{}`",
                        jumper.id,
                        at_left.unwrap_or_default(),
                        at_right.unwrap_or_default()
                    )
                },
            );
        }
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

fn circuit_kind(context: &Context<'_>, cases: &mut Cases) {
    let words = |kinds: &[CircuitKind]| {
        kinds
            .iter()
            .map(|kind| kind.words())
            .collect::<Vec<_>>()
            .join(", ")
    };
    for terminal in &context.arrangement.terminals {
        cases.is_so(
            terminal.part_circuits.contains(&terminal.kind),
            &[&terminal.id],
            || {
                format!(
                    "{} carries {} circuits, {} is for {}",
                    terminal.id,
                    terminal.kind.words(),
                    terminal.part,
                    words(&terminal.part_circuits)
                )
            },
        );
        for wire in context.wires_at(terminal) {
            let Some(kind) = context.kind_of_circuit(&wire.circuit) else {
                continue;
            };
            cases.is_so(kind == terminal.kind, &[&terminal.id, &wire.id], || {
                format!(
                    "{} of an {} circuit on {}, an {} terminal",
                    wire.id,
                    kind.words(),
                    terminal.id,
                    terminal.kind.words()
                )
            });
        }
    }
    for (name, _, contact) in contacts(context) {
        for wire in context.wires_on_contact(contact) {
            let Some(kind) = context.kind_of_circuit(&wire.circuit) else {
                continue;
            };
            cases.is_so(contact.circuits.contains(&kind), &[&name, &wire.id], || {
                format!(
                    "{} of an {} circuit on {name}, which is for {}",
                    wire.id,
                    kind.words(),
                    words(&contact.circuits)
                )
            });
        }
    }
    for wire in &context.arrangement.wires {
        let crate::arrangement::WireEnd::Core { cable, .. } = &wire.from else {
            continue;
        };
        let known = context
            .cables
            .get(cable.as_str())
            .zip(context.kind_of_circuit(&wire.circuit));
        if let Some((cable, kind)) = known {
            cases.is_so(cable.kind == kind, &[&cable.tag, &wire.id], || {
                format!(
                    "{} of an {} circuit in {}, an {} cable",
                    wire.id,
                    kind.words(),
                    cable.tag,
                    cable.kind.words()
                )
            });
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
        let ends = [
            super::graph::end_name(&wire.from),
            super::graph::end_name(&wire.to),
        ];
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
}
