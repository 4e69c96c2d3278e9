//! Protective conductors and screens get earth terminals: one clamp each.

use super::build::Builder;
use super::choose_terminal::{TerminalTask, choose};
use super::refusals::section_in_words;
use super::{Cluster, LevelNeed, StripNeed, TerminalNeed, WireNeed, WireNeedEnd};
use crate::arrangement::Side;
use crate::catalogue::{CircuitKind, ConductorBuild, Terminal, TerminalFunction};
use crate::requirements::{CoreName, Section};

/// The potential of earth.
pub(super) const EARTH: &str = "PE";

/// Section for which spare earth terminals are chosen where the list has no protective conductor.
const SPARE_EARTH_MM2: f64 = 2.5;

struct EarthConductor {
    cable: usize,
    core: CoreName,
    section: Section,
    build: ConductorBuild,
}

/// Builds the earth strip: conductors by the terminal that takes them, the widest terminal first;
/// two conductors share one terminal, one on either side.
pub(super) fn add_earth_strip(builder: &mut Builder<'_, '_>) {
    let strip = builder.demand.strips.len();
    let mut groups: Vec<(&Terminal, Vec<EarthConductor>)> = Vec::new();
    for conductor in earth_conductors(builder) {
        let Some(part) = choose_earth(
            builder,
            Some(conductor.cable),
            conductor.build,
            &conductor.section,
        ) else {
            continue;
        };
        match groups.iter_mut().find(|(known, _)| known.id == part.id) {
            Some((_, conductors)) => conductors.push(conductor),
            None => groups.push((part, vec![conductor])),
        }
    }
    groups.sort_by(|a, b| {
        b.0.width_mm
            .total_cmp(&a.0.width_mm)
            .then(a.0.id.cmp(&b.0.id))
    });
    let mut clusters = Vec::new();
    for (part, conductors) in &groups {
        for pair in conductors.chunks(2) {
            let terminal = add_earth_terminal(builder, part, strip, false);
            for (conductor, side) in pair.iter().zip([Side::Upper, Side::Lower]) {
                builder.demand.wires.push(WireNeed {
                    from: WireNeedEnd::Core {
                        cable: conductor.cable,
                        core: conductor.core,
                    },
                    to: WireNeedEnd::Terminal {
                        terminal,
                        level: 0,
                        side,
                    },
                    potential: EARTH.to_string(),
                    circuit: String::new(),
                    section: conductor.section.clone(),
                    build: conductor.build,
                    current_a: 0.0,
                    heat_current_a: 0.0,
                });
            }
            clusters.push(Cluster {
                terminals: vec![terminal],
                jumper: None,
            });
        }
    }
    let spares = builder.list.earthing.spare_terminals;
    if spares > 0 {
        let most_used = groups
            .iter()
            .max_by_key(|(_, conductors)| conductors.len())
            .map(|(part, _)| *part);
        let part = match most_used {
            Some(part) => Some(part),
            None => {
                let section = Section {
                    mm2: SPARE_EARTH_MM2,
                    awg: None,
                };
                choose_earth(builder, None, ConductorBuild::Stranded, &section)
            }
        };
        for part in part
            .into_iter()
            .flat_map(|part| std::iter::repeat_n(part, spares as usize))
        {
            let terminal = add_earth_terminal(builder, part, strip, true);
            clusters.push(Cluster {
                terminals: vec![terminal],
                jumper: None,
            });
        }
    }
    if !clusters.is_empty() {
        builder.demand.strips.push(StripNeed {
            name: EARTH.to_string(),
            group: "earth".to_string(),
            kind: CircuitKind::ExE,
            earth: true,
            clusters,
        });
    }
}

fn earth_conductors(builder: &Builder<'_, '_>) -> Vec<EarthConductor> {
    let mut conductors = Vec::new();
    for (cable, requirement) in builder.list.cables.iter().enumerate() {
        for core in requirement
            .cores
            .iter()
            .filter(|core| core.name == CoreName::Earth)
        {
            conductors.push(EarthConductor {
                cable,
                core: CoreName::Earth,
                section: core.section.clone(),
                build: requirement.build,
            });
        }
        if requirement.screened {
            let (section, build) = builder.core(cable, CoreName::Screen);
            conductors.push(EarthConductor {
                cable,
                core: CoreName::Screen,
                section,
                build,
            });
        }
    }
    conductors
}

fn choose_earth<'c>(
    builder: &mut Builder<'c, '_>,
    cable: Option<usize>,
    build: ConductorBuild,
    section: &Section,
) -> Option<&'c Terminal> {
    let task = TerminalTask {
        function: TerminalFunction::Earth,
        kind: CircuitKind::ExE,
        voltage_v: 0.0,
        conductors: vec![(build, section.clone(), 0.0)],
        linked: 1,
        jumper_current_a: 0.0,
        jumper_heat_current_a: 0.0,
        named: None,
    };
    match choose(
        builder.catalogue,
        &builder.list.area,
        &builder.workshop.rails.profile,
        &task,
    ) {
        Ok((part, _)) => Some(part),
        Err(reason) => {
            let (place, field) = match cable {
                Some(cable) => (&builder.list.cables[cable].place, "cores"),
                None => (&builder.list.earthing.place, "spare_terminals"),
            };
            let message = format!(
                "no earth terminal takes a conductor of {}",
                section_in_words(section)
            );
            let finding = place
                .error(field, "demand-no-earth-terminal", &message)
                .expected("a suitable earth terminal in the catalogue")
                .hint(reason);
            builder.refusals.push(finding);
            None
        }
    }
}

fn add_earth_terminal<'c>(
    builder: &mut Builder<'c, '_>,
    part: &'c Terminal,
    strip: usize,
    spare: bool,
) -> usize {
    let terminal = builder.demand.terminals.len();
    builder.demand.terminals.push(TerminalNeed {
        part,
        strip,
        marking: EARTH.to_string(),
        spare,
        levels: vec![LevelNeed {
            potential: EARTH.to_string(),
            voltage_v: 0.0,
            current_a: 0.0,
            heat_current_a: 0.0,
        }],
    });
    terminal
}
