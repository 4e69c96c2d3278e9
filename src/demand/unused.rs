//! Cores that no circuit uses: each gets a terminal of its own, so that no end hangs free.

use super::build::Builder;
use super::choose_terminal::{TerminalTask, choose};
use super::refusals::section_in_words;
use super::{Cluster, LevelNeed, TerminalNeed, WireNeed, WireNeedEnd};
use crate::arrangement::Side;
use crate::catalogue::{ConductorBuild, TerminalFunction};
use crate::requirements::{Circuit, CoreName, End, Section};
use std::collections::BTreeSet;

/// Numbered cores that no pole uses, by cable and number. Each gets a terminal of its own.
pub(super) fn unused_cores(builder: &Builder<'_, '_>) -> Vec<(usize, CoreName)> {
    let ends = |circuit: &Circuit| -> Vec<End> {
        circuit
            .poles
            .iter()
            .flat_map(|pole| pole.from.iter().chain(&pole.to).cloned())
            .collect()
    };
    let used: BTreeSet<(usize, CoreName)> = builder
        .list
        .circuits
        .iter()
        .flat_map(ends)
        .filter_map(|end| match end {
            End::Core { cable, core } => Some((cable, core)),
            End::Contact { .. } => None,
        })
        .collect();
    builder
        .list
        .cables
        .iter()
        .enumerate()
        .flat_map(|(index, cable)| cable.cores.iter().map(move |core| (index, core.name)))
        .filter(|core| core.1 != CoreName::Earth && !used.contains(core))
        .collect()
}

/// Adds a terminal for an unused core. Its voltage is taken as the highest on its cable, or in the
/// box where its cable carries no circuit.
pub(super) fn add_unused_core<'c>(
    builder: &mut Builder<'c, '_>,
    strip: usize,
    cable_index: usize,
    core: CoreName,
) -> Option<Cluster<'c>> {
    let cable = &builder.list.cables[cable_index];
    let (section, build): (Section, ConductorBuild) = builder.core(cable_index, core);
    let voltage_v = builder.voltage_of_cable(cable_index);
    let task = TerminalTask {
        function: TerminalFunction::FeedThrough,
        kind: cable.kind,
        voltage_v,
        conductors: vec![(build, section.clone(), 0.0)],
        linked: 1,
        jumper_current_a: 0.0,
        jumper_heat_current_a: 0.0,
        named: None,
    };
    let part = match choose(
        builder.catalogue,
        &builder.list.area,
        &builder.workshop.rails.profile,
        &task,
    ) {
        Ok((part, _)) => part,
        Err(reason) => {
            let message = format!(
                "no terminal serves core {core} of cable `{}` ({voltage_v} V, {})",
                cable.tag,
                section_in_words(&section)
            );
            builder.refusals.push(
                cable
                    .place
                    .error("cores", "demand-no-terminal", &message)
                    .expected("a suitable terminal in the catalogue")
                    .hint(reason),
            );
            return None;
        }
    };
    let potential = format!("{}/{core}", cable.tag);
    let terminal = builder.demand.terminals.len();
    builder.demand.wires.push(WireNeed {
        from: WireNeedEnd::Core {
            cable: cable_index,
            core,
        },
        to: WireNeedEnd::Terminal {
            terminal,
            level: 0,
            side: Side::Upper,
        },
        potential: potential.clone(),
        circuit: String::new(),
        section,
        build,
        current_a: 0.0,
        heat_current_a: 0.0,
    });
    builder.demand.terminals.push(TerminalNeed {
        part,
        strip,
        marking: potential.clone(),
        spare: false,
        levels: vec![LevelNeed {
            potential,
            voltage_v,
            current_a: 0.0,
            heat_current_a: 0.0,
        }],
    });
    Some(Cluster {
        terminals: vec![terminal],
        jumper: None,
    })
}
