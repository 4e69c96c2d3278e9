//! Breaks of the rules of `electrical`: sections, voltages, currents and kinds of circuits.

use super::{Broken, broken};
use crate::fixture::find_terminal;
use glandrail::arrangement::*;
use glandrail::catalogue::*;

/// The breaks of this group.
pub static BREAKS: &[Broken] = &[
    broken("electrical.section", "clamp from 2.5 mm²", |a| {
        a.terminals[0].clamp_range.stranded_mm2 = Some([2.5, 4.0]);
    }),
    broken(
        "electrical.section",
        "contact takes no flexible conductor",
        |a| {
            a.elements[1].contacts[0].clamp_range.flexible_mm2 = None;
        },
    ),
    broken(
        "electrical.conductors_per_clamp",
        "screen and earth under one clamp",
        |a| {
            let earth = find_terminal(a, "X1:9");
            earth.clamps[0].wires.clear();
            earth.clamps[1].wires.push("C14".into());
            a.wires[13].to = WireEnd::Terminal {
                terminal: "X1:9".into(),
                level: 0,
                side: Side::Lower,
            };
        },
    ),
    broken("electrical.core_section", "cable of 2.5 mm²", |a| {
        a.cables[0].cores = "5 x 2.5 mm2".into();
    }),
    broken("electrical.core_section", "a core more in words", |a| {
        a.cables[0].cores = "4 x 1.5 mm2 + 2 x 1.5 mm2".into();
    }),
    broken("electrical.core_section", "words that name nothing", |a| {
        a.cables[0].cores = "some cores".into();
    }),
    broken(
        "electrical.core_section",
        "2.5 mm² in words, 1.5 mm² in figures",
        |a| {
            a.wires[0].section = "2.5 mm²".into();
        },
    ),
    broken(
        "electrical.internal_section",
        "1 mm² behind cores of 1.5 mm²",
        |a| {
            // The lamp's 0.05 A make no heat that counts.
            a.wires[8].section_mm2 = 1.0;
            a.wires[8].section = "1 mm²".into();
        },
    ),
    broken("electrical.terminal_voltage", "terminal for 229 V", |a| {
        a.terminals[0].rated_voltage_v = 229.0
    }),
    broken("electrical.contact_voltage", "contact for 110 V", |a| {
        a.elements[0].contacts[0].rated_voltage_v = Some(110.0);
    }),
    broken(
        "electrical.contact_voltage",
        "lamp of unknown voltage",
        |a| {
            a.elements[2].contacts[0].rated_voltage_v = None;
        },
    ),
    broken("electrical.enclosure_voltage", "enclosure for 220 V", |a| {
        a.enclosure.rated_voltage_v = Some(220.0);
    }),
    broken("electrical.terminal_current", "terminal for 1.9 A", |a| {
        a.terminals[0].ratings[0].current_a = 1.9;
    }),
    broken(
        "electrical.terminal_current",
        "no row up to 1.5 mm²",
        |a| {
            a.terminals[0].ratings.remove(0);
        },
    ),
    broken("electrical.contact_current", "contact for 1.9 A", |a| {
        a.elements[0].contacts[0].rated_current_a = Some(1.9);
    }),
    broken(
        "electrical.contact_current",
        "contact of unknown rated current",
        |a| a.elements[0].contacts[0].rated_current_a = None,
    ),
    broken("electrical.jumper_current", "jumper for 1.9 A", |a| {
        a.jumpers[0].rated_current_a = 1.9
    }),
    broken("electrical.jumper_terminals", "jumper of one pole", |a| {
        a.jumpers[0].poles = 1
    }),
    broken(
        "electrical.jumper_terminals",
        "terminals in the wrong order",
        |a| {
            a.jumpers[0].terminals.reverse();
        },
    ),
    broken("electrical.enclosure_current", "enclosure for 1.9 A", |a| {
        a.enclosure.rated_current_a = Some(1.9);
    }),
    broken(
        "electrical.circuit_kind",
        "terminal only for the other kind",
        |a| {
            a.terminals[0].part_circuits = vec![CircuitKind::IntrinsicallySafe];
        },
    ),
    broken(
        "electrical.circuit_kind",
        "intrinsically safe cores in another cable",
        |a| {
            // Glands and terminals stay what they were, so that only the cable is of the wrong kind.
            a.cables[2].kind = CircuitKind::ExE;
            a.entries[3].part.for_intrinsically_safe = false;
        },
    ),
    broken(
        "electrical.wire_current",
        "conductor reckoned with 1.9 A",
        |a| a.wires[0].current_a = 1.9,
    ),
    broken(
        "electrical.recorded_load",
        "terminal recorded with 1.9 A",
        |a| a.terminals[0].current_a = 1.9,
    ),
    broken(
        "electrical.recorded_load",
        "jumper recorded with less than is sent across it",
        |a| a.jumpers[0].current_a *= 0.9,
    ),
    broken(
        "electrical.recorded_load",
        "point recorded with 110 V",
        |a| {
            a.elements[0].contacts[0].points[0].working_voltage_v = 110.0;
        },
    ),
];
