//! Rated voltages against the voltages of the circuits.

use super::{RATINGS, contacts, voltage_on};
use crate::audit::case::{Cases, Rule};
use crate::audit::context::Context;

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
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
];

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
