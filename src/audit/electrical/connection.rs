//! Sections and numbers of conductors under clamps, jumpers over terminals, parts for their kind of
//! circuit.

use super::{build_word, contacts};
use crate::arrangement::{PlacedTerminal, Wire, WireEnd};
use crate::audit::case::{Cases, Rule, figure_text};
use crate::audit::context::Context;
use crate::audit::graph::side_word;
use crate::audit::measure;
use crate::catalogue::{CircuitKind, ClampRange, ConductorBuild};
use crate::standards::{Source, Status};

const CLAMPS: Source = Source::new(
    "IEC 60079-7",
    "2015+A1:2017",
    "cl. 4.2, electrical connections",
    Status::FromMemory,
);
const KINDS: Source = Source::new(
    "IEC 60079-14",
    "2013",
    "cl. 16, circuits that are intrinsically safe, and others",
    Status::FromMemory,
);

/// The rules of this file.
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
        id: "electrical.jumper_terminals",
        title: "jumpers over equal neighbours of one potential",
        requires: "a jumper links two or more equal terminals that stand side by side in the order named and carry one potential, no more than it has poles",
        source: CLAMPS,
        unit: "",
        check: jumper_terminals,
    },
    Rule {
        id: "electrical.circuit_kind",
        title: "parts for their kind of circuit",
        requires: "terminals, contacts and cables carry only circuits of a kind that they are for, and no terminal carries both kinds",
        source: KINDS,
        unit: "",
        check: circuit_kind,
    },
];

fn range_of(clamp: &ClampRange, build: ConductorBuild) -> Option<[f64; 2]> {
    match build {
        ConductorBuild::Solid => clamp.solid_mm2,
        ConductorBuild::Stranded => clamp.stranded_mm2,
        ConductorBuild::Flexible => clamp.flexible_mm2,
    }
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
                let side = side_word(clamp.side);
                format!(
                    "conductors under the {side} clamp of {}, level {}",
                    terminal.id, clamp.level
                )
            });
        }
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
        let WireEnd::Core { cable, .. } = &wire.from else {
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
