//! Spares and earth: is there as much as was asked for, and what earthing needs.

use super::wiring::words_of;
use crate::arrangement::{EntryPurpose, Wire, WireEnd};
use crate::audit::case::{Cases, Rule, SLACK};
use crate::audit::context::{Context, EARTH};
use crate::catalogue::{Material, TerminalFunction};
use crate::letters::plural;
use crate::standards::iec_60079_0::{
    EXTERNAL_BONDING, EXTERNAL_BONDING_MM2, INTERNAL_EARTH, protective_conductor_mm2,
};
use crate::standards::{Source, Status};

const EARTHING: Source = Source::new(
    "IEC 60079-0",
    "2017",
    "cl. 15, earthing and bonding",
    Status::FromMemory,
);
const ASKED: Source = Source::new("requirement list", "", "spare", Status::CommonPractice);

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "completeness.spare_terminals",
        title: "spare terminals",
        requires: "every strip has the share of spare terminals asked for, of its used terminals other than earth, rounded up",
        source: ASKED,
        unit: "terminals",
        check: spare_terminals,
    },
    Rule {
        id: "completeness.spare_entries",
        title: "spare entries",
        requires: "there are as many spare entries of each thread as asked for",
        source: ASKED,
        unit: "entries",
        check: spare_entries,
    },
    Rule {
        id: "completeness.earth",
        title: "protective conductors on earth terminals",
        requires: "every protective conductor and screen that comes with a cable ends on an earth terminal, and nothing else does",
        source: EARTHING,
        unit: "",
        check: earth,
    },
    Rule {
        id: "completeness.internal_earth",
        title: "earth terminal inside",
        requires: "in an enclosure of metal stands an earth terminal, or the enclosure has one of its own for the protective conductor that belongs to the thickest conductor (of the exceptions of the clause none is taken)",
        source: INTERNAL_EARTH,
        unit: "mm²",
        check: internal_earth,
    },
    Rule {
        id: "completeness.external_earth",
        title: "external earth terminal",
        requires: "an enclosure of metal has an external earth terminal for at least 4 mm²",
        source: EXTERNAL_BONDING,
        unit: "mm²",
        check: external_earth,
    },
];

fn spare_terminals(context: &Context<'_>, cases: &mut Cases) {
    let percent = context.arrangement.spare.terminals_percent;
    for strip in &context.arrangement.strips {
        let of_strip = context.arrangement.terminals.iter().filter(|terminal| {
            terminal.strip == strip.name && terminal.function != TerminalFunction::Earth
        });
        let (spare, used): (Vec<_>, Vec<_>) = of_strip.partition(|terminal| terminal.spare);
        // A spare terminal with a conductor under it is none.
        let free = spare
            .iter()
            .filter(|terminal| context.wires_at(terminal).is_empty())
            .count();
        for terminal in &spare {
            let wires = context.wires_at(terminal).len();
            cases.is_so(wires == 0, &[&terminal.id], || {
                format!(
                    "{} is recorded as spare and has {} on it",
                    terminal.id,
                    plural(wires, "conductor", "conductors")
                )
            });
        }
        let required = (used.len() as f64 * percent / 100.0 - SLACK)
            .ceil()
            .max(0.0);
        cases.at_least(&[&strip.name], free as f64, required, || {
            format!(
                "spare terminals of strip {} with {} used ones",
                strip.name,
                used.len()
            )
        });
    }
}

fn spare_entries(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no spare entries are asked for");
    for (thread, asked) in &context.arrangement.spare.entries {
        let entries = context.arrangement.entries.iter();
        let count = entries
            .filter(|entry| entry.purpose == EntryPurpose::Spare && entry.thread == *thread)
            .count();
        cases.at_least(
            &[&thread.to_string()],
            count as f64,
            f64::from(*asked),
            || format!("spare entries {thread}"),
        );
    }
}

fn earth(context: &Context<'_>, cases: &mut Cases) {
    let is_earth = |end: &WireEnd| match end {
        WireEnd::Terminal { terminal, .. } => context
            .terminals
            .get(terminal.as_str())
            .map(|terminal| terminal.function == TerminalFunction::Earth),
        _ => None,
    };
    let protects = |wire: &Wire| {
        let ends = [&wire.from, &wire.to].into_iter();
        let core = ends.filter_map(|end| match end {
            WireEnd::Core { core, .. } => Some(core.as_str()),
            _ => None,
        });
        wire.potential == EARTH
            || core
                .into_iter()
                .any(|core| core == "PE" || core == "screen")
    };
    for wire in &context.arrangement.wires {
        let ends = [is_earth(&wire.from), is_earth(&wire.to)];
        let on_earth = ends.contains(&Some(true));
        let elsewhere = ends.contains(&Some(false)) || matches!(wire.to, WireEnd::Contact { .. });
        if protects(wire) {
            cases.is_so(on_earth && !elsewhere, &[&wire.id], || {
                format!(
                    "{} of earth leads from {} to {}",
                    wire.id,
                    words_of(&wire.from),
                    words_of(&wire.to)
                )
            });
        } else if on_earth {
            cases.is_so(false, &[&wire.id], || {
                format!(
                    "{} with the potential `{}` is on an earth terminal",
                    wire.id, wire.potential
                )
            });
        }
    }
}

fn is_metal(material: Material) -> bool {
    !matches!(material, Material::Grp | Material::Polyamide)
}

fn internal_earth(context: &Context<'_>, cases: &mut Cases) {
    let enclosure = &context.arrangement.enclosure;
    cases.nothing("the enclosure is not of metal");
    if !is_metal(enclosure.material) {
        return;
    }
    let mut terminals = context.arrangement.terminals.iter();
    if let Some(earth) = terminals.find(|one| one.function == TerminalFunction::Earth) {
        return cases.is_so(true, &[&enclosure.id, &earth.id], || {
            format!("earth terminal {} stands in {}", earth.id, enclosure.id)
        });
    }
    let Some(section_mm2) = enclosure.internal_earth_mm2 else {
        return cases.unknown(&[&enclosure.id], || {
            format!(
                "no earth terminal stands in {}, and the largest conductor of one of its own is missing",
                enclosure.id
            )
        });
    };
    let sections = context
        .arrangement
        .wires
        .iter()
        .map(|wire| wire.section_mm2);
    let thickest_mm2 = sections.fold(0.0, f64::max);
    // A box without conductors asks for none.
    let required_mm2 = protective_conductor_mm2(thickest_mm2).unwrap_or(0.0);
    cases.at_least(&[&enclosure.id], section_mm2, required_mm2, || {
        format!(
            "largest conductor of the earth terminal inside {}",
            enclosure.id
        )
    });
}

fn external_earth(context: &Context<'_>, cases: &mut Cases) {
    let enclosure = &context.arrangement.enclosure;
    cases.nothing("the enclosure is not of metal");
    if !is_metal(enclosure.material) {
        return;
    }
    let Some(section_mm2) = enclosure.external_earth_mm2 else {
        return cases.unknown(&[&enclosure.id], || {
            format!(
                "the largest conductor of an external earth terminal of {} is missing",
                enclosure.id
            )
        });
    };
    cases.at_least(&[&enclosure.id], section_mm2, EXTERNAL_BONDING_MM2, || {
        format!(
            "largest conductor of the external earth terminal of {}",
            enclosure.id
        )
    });
}
