//! Circuits become terminals: one strip for each group, linked poles side by side.

use super::build::Builder;
use super::choose_terminal::{TerminalTask, choose};
use super::refusals::section_in_words;
use super::unused::{add_unused_core, unused_cores};
use super::{Cluster, LevelNeed, StripNeed, TerminalNeed, WireNeed, WireNeedEnd};
use crate::arrangement::Side;
use crate::catalogue::{CircuitKind, TerminalFunction};
use crate::requirements::{Circuit, CircuitGroup, CoreName, End};
use itertools::Itertools;
use std::collections::{BTreeMap, BTreeSet};

/// The order of the strips along the rails, intrinsically safe ones last.
const GROUPS: [CircuitGroup; 4] = [
    CircuitGroup::Power,
    CircuitGroup::Control,
    CircuitGroup::Signal,
    CircuitGroup::IntrinsicallySafe,
];

/// A pole by the indices of its circuit and within it.
type PoleIndex = (usize, usize);

/// One terminal as planned before its part is chosen.
struct Plan {
    marking: String,
    /// What each level carries: pole, its wire on the upper side, its wire on the lower side.
    levels: Vec<PlannedLevel>,
}

struct PlannedLevel {
    level: LevelNeed,
    circuit: String,
    upper: Option<PlannedEnd>,
    lower: Option<PlannedEnd>,
}

struct PlannedEnd {
    end: End,
    current_a: f64,
    heat_current_a: f64,
}

/// Builds all strips of circuits.
pub(super) fn add_strips(builder: &mut Builder<'_, '_>) {
    let mut unused: BTreeMap<CircuitGroup, Vec<(usize, CoreName)>> = BTreeMap::new();
    for (cable, core) in unused_cores(builder) {
        unused
            .entry(builder.group_of_cable(cable))
            .or_default()
            .push((cable, core));
    }
    for group in GROUPS {
        let strip = builder.demand.strips.len();
        let mut clusters = Vec::new();
        for poles in clusters_of_group(builder, group) {
            clusters.extend(add_cluster(builder, strip, &poles));
        }
        for (cable, core) in unused.remove(&group).unwrap_or_default() {
            clusters.extend(add_unused_core(builder, strip, cable, core));
        }
        if clusters.is_empty() {
            continue;
        }
        let kind = if group == CircuitGroup::IntrinsicallySafe {
            CircuitKind::IntrinsicallySafe
        } else {
            CircuitKind::ExE
        };
        builder.demand.strips.push(StripNeed {
            name: strip_name(builder),
            group: group.name().to_string(),
            kind,
            earth: false,
            clusters,
        });
    }
}

/// The next name of a strip that no element and no cable of the list has.
fn strip_name(builder: &Builder<'_, '_>) -> String {
    let list = builder.list;
    let is_taken = |name: &str| {
        list.elements.iter().any(|element| element.tag == name)
            || list.cables.iter().any(|cable| cable.tag == name)
            || builder.demand.strips.iter().any(|strip| strip.name == name)
    };
    (builder.demand.strips.len() + 1..)
        .map(|number| format!("X{number}"))
        .find(|name| !is_taken(name))
        .unwrap_or_default()
}

/// The poles of a group as clusters: linked poles together, the poles of a double-level pair
/// together, every other pole alone. Direct circuits need no terminal and are wired at once.
fn clusters_of_group(builder: &mut Builder<'_, '_>, group: CircuitGroup) -> Vec<Vec<PoleIndex>> {
    let list = builder.list;
    let link_of: BTreeMap<PoleIndex, usize> = list
        .links
        .iter()
        .enumerate()
        .flat_map(|(link, poles)| poles.iter().map(move |pole| (*pole, link)))
        .collect();
    let mut done: BTreeSet<PoleIndex> = BTreeSet::new();
    let mut clusters = Vec::new();
    for (index, circuit) in list
        .circuits
        .iter()
        .enumerate()
        .filter(|(_, circuit)| circuit.group == group)
    {
        if circuit.direct {
            add_direct(builder, index);
            continue;
        }
        if circuit.terminal == TerminalFunction::DoubleLevel {
            let poles: Vec<PoleIndex> =
                (0..circuit.poles.len()).map(|pole| (index, pole)).collect();
            clusters.extend(poles.chunks(2).map(<[PoleIndex]>::to_vec));
            continue;
        }
        for pole in 0..circuit.poles.len() {
            if done.contains(&(index, pole)) {
                continue;
            }
            let members = match link_of.get(&(index, pole)) {
                Some(link) => list.links[*link].iter().copied().sorted().collect(),
                None => vec![(index, pole)],
            };
            done.extend(members.iter().copied());
            clusters.push(members);
        }
    }
    clusters
}

/// Wires a direct circuit: its cores go straight to the contacts.
fn add_direct(builder: &mut Builder<'_, '_>, index: usize) {
    let circuit = &builder.list.circuits[index];
    for (pole_index, pole) in circuit.poles.iter().enumerate() {
        let ends: Vec<&End> = pole.from.iter().chain(&pole.to).collect();
        let (Some(End::Core { cable, core }), Some(End::Contact { element, point })) = (
            ends.iter()
                .find(|end| matches!(end, End::Core { .. }))
                .copied(),
            ends.iter()
                .find(|end| matches!(end, End::Contact { .. }))
                .copied(),
        ) else {
            continue;
        };
        let (section, build) = builder.core(*cable, *core);
        builder.demand.wires.push(WireNeed {
            from: WireNeedEnd::Core {
                cable: *cable,
                core: *core,
            },
            to: WireNeedEnd::Contact {
                element: *element,
                point: point.clone(),
            },
            potential: builder.potential((index, pole_index)),
            circuit: circuit.tag.clone(),
            section,
            build,
            current_a: circuit.current_a,
            heat_current_a: circuit.current_a * circuit.simultaneity,
        });
    }
}

/// Adds the terminals of one cluster of poles and the wires on them.
fn add_cluster<'c>(
    builder: &mut Builder<'c, '_>,
    strip: usize,
    poles: &[PoleIndex],
) -> Option<Cluster<'c>> {
    let first = &builder.list.circuits[poles[0].0];
    let plans = if first.terminal == TerminalFunction::DoubleLevel {
        vec![plan_double(builder, poles)]
    } else {
        plan_linked(builder, poles)
    };
    let linked = plans.len() as u32;
    let jumper_current: (f64, f64) = poles
        .iter()
        .map(|(circuit, _)| &builder.list.circuits[*circuit])
        .fold((0.0, 0.0), |sum, circuit| {
            (
                sum.0 + circuit.current_a,
                sum.1 + circuit.current_a * circuit.simultaneity,
            )
        });
    let voltage_v = poles
        .iter()
        .map(|(circuit, _)| builder.list.circuits[*circuit].voltage_v)
        .fold(0.0, f64::max);
    let mut task = TerminalTask {
        function: first.terminal,
        kind: first.kind,
        voltage_v,
        conductors: Vec::new(),
        linked,
        jumper_current_a: jumper_current.0,
        jumper_heat_current_a: jumper_current.1,
        named: poles
            .iter()
            .find_map(|(circuit, _)| builder.list.circuits[*circuit].terminal_part.clone()),
    };
    for end in plans
        .iter()
        .flat_map(|plan| &plan.levels)
        .flat_map(|level| [&level.upper, &level.lower])
        .flatten()
    {
        let (section, build) = builder.conductor_of(&end.end, first);
        task.conductors.push((build, section, end.current_a));
    }
    let place = first.place.clone();
    let described = describe(first, &task);
    let chosen = choose(
        builder.catalogue,
        &builder.list.area,
        &builder.workshop.rails.profile,
        &task,
    );
    let (part, jumper) = match chosen {
        Ok(chosen) => chosen,
        Err(reason) => {
            builder.refusals.push(
                place
                    .error(
                        "tag",
                        "demand-no-terminal",
                        format!("no terminal serves {described}"),
                    )
                    .expected("a suitable terminal in the catalogue")
                    .hint(reason),
            );
            add_loads(builder, &plans, poles[0].0);
            return None;
        }
    };
    let mut terminals = Vec::new();
    for plan in plans {
        let terminal = builder.demand.terminals.len();
        terminals.push(terminal);
        for (level, planned) in plan.levels.iter().enumerate() {
            for (side, end) in [(Side::Upper, &planned.upper), (Side::Lower, &planned.lower)] {
                if let Some(end) = end {
                    add_wire(
                        builder,
                        terminal,
                        level as u32,
                        side,
                        planned,
                        end,
                        poles[0].0,
                    );
                }
            }
        }
        builder.demand.terminals.push(TerminalNeed {
            part,
            strip,
            marking: plan.marking,
            spare: false,
            levels: plan
                .levels
                .into_iter()
                .map(|planned| planned.level)
                .collect(),
        });
    }
    Some(Cluster { terminals, jumper })
}

/// The wires to contacts of what has no terminal: nothing is placed any more, but an element that does not stand
/// the circuit either must be told of.
fn add_loads(builder: &mut Builder<'_, '_>, plans: &[Plan], circuit: usize) {
    const NOWHERE: usize = usize::MAX;
    for planned in plans.iter().flat_map(|plan| &plan.levels) {
        for end in [&planned.upper, &planned.lower].into_iter().flatten() {
            if matches!(end.end, End::Contact { .. }) {
                add_wire(builder, NOWHERE, 0, Side::Lower, planned, end, circuit);
            }
        }
    }
}

fn describe(circuit: &Circuit, task: &TerminalTask) -> String {
    let sections = task
        .conductors
        .iter()
        .map(|(_, section, _)| section_in_words(section))
        .unique()
        .join(" and ");
    let conductors = if sections.is_empty() {
        "no conductors".to_string()
    } else {
        format!("conductors of {sections}")
    };
    format!(
        "circuit `{}` ({} V, {} A, {conductors})",
        circuit.tag, task.voltage_v, circuit.current_a
    )
}

/// Plans the terminals of linked poles: the incoming conductor above, outgoing ones below, a further
/// terminal for each further outgoing conductor.
fn plan_linked(builder: &Builder<'_, '_>, poles: &[PoleIndex]) -> Vec<Plan> {
    let list = builder.list;
    let potential = builder.potential(poles[0]);
    let mut fed_through: (f64, f64) = (0.0, 0.0);
    for (circuit, pole) in poles {
        let circuit = &list.circuits[*circuit];
        if circuit.poles[*pole].from.is_none() {
            fed_through.0 += circuit.current_a;
            fed_through.1 += circuit.current_a * circuit.simultaneity;
        }
    }
    let mut plans = Vec::new();
    for (circuit_index, pole_index) in poles {
        let circuit = &list.circuits[*circuit_index];
        let pole = &circuit.poles[*pole_index];
        let incoming = pole.from.as_ref().map(|end| {
            // The first incoming conductor also feeds those linked poles that have none of their own.
            let extra = std::mem::take(&mut fed_through);
            PlannedEnd {
                end: end.clone(),
                current_a: circuit.current_a + extra.0,
                heat_current_a: circuit.current_a * circuit.simultaneity + extra.1,
            }
        });
        let outgoing_a = if pole.to.len() > 1 {
            circuit.branch_current_a
        } else {
            circuit.current_a
        };
        let mut outgoing = pole.to.iter().map(|end| PlannedEnd {
            end: end.clone(),
            current_a: outgoing_a,
            heat_current_a: outgoing_a * circuit.simultaneity,
        });
        let level = |upper: &Option<PlannedEnd>, lower: &Option<PlannedEnd>| {
            let ends = [upper, lower].into_iter().flatten();
            let current_a = ends.clone().map(|end| end.current_a).fold(0.0, f64::max);
            let heat_current_a = ends.map(|end| end.heat_current_a).fold(0.0, f64::max);
            LevelNeed {
                potential: potential.clone(),
                voltage_v: circuit.voltage_v,
                current_a,
                heat_current_a,
            }
        };
        let lower = outgoing.next();
        let mut terminals = vec![(incoming, lower)];
        terminals.extend(outgoing.map(|end| (None, Some(end))));
        for (upper, lower) in terminals {
            plans.push(Plan {
                marking: pole.marking.clone(),
                levels: vec![PlannedLevel {
                    level: level(&upper, &lower),
                    circuit: circuit.tag.clone(),
                    upper,
                    lower,
                }],
            });
        }
    }
    plans
}

/// Plans one double-level terminal for one or two poles.
fn plan_double(builder: &Builder<'_, '_>, poles: &[PoleIndex]) -> Plan {
    let levels = poles
        .iter()
        .map(|(circuit_index, pole_index)| {
            let circuit = &builder.list.circuits[*circuit_index];
            let pole = &circuit.poles[*pole_index];
            let end = |end: &End| PlannedEnd {
                end: end.clone(),
                current_a: circuit.current_a,
                heat_current_a: circuit.current_a * circuit.simultaneity,
            };
            PlannedLevel {
                level: LevelNeed {
                    potential: builder.potential((*circuit_index, *pole_index)),
                    voltage_v: circuit.voltage_v,
                    current_a: circuit.current_a,
                    heat_current_a: circuit.current_a * circuit.simultaneity,
                },
                circuit: circuit.tag.clone(),
                upper: pole.from.as_ref().map(end),
                lower: pole.to.first().map(end),
            }
        })
        .collect();
    let marking = poles
        .iter()
        .map(|(circuit, pole)| {
            builder.list.circuits[*circuit].poles[*pole]
                .marking
                .as_str()
        })
        .join("/");
    Plan { marking, levels }
}

/// Adds the wire between a terminal's clamp and the end that a pole names.
fn add_wire(
    builder: &mut Builder<'_, '_>,
    terminal: usize,
    level: u32,
    side: Side,
    planned: &PlannedLevel,
    end: &PlannedEnd,
    circuit: usize,
) {
    let (section, build) = builder.conductor_of(&end.end, &builder.list.circuits[circuit]);
    let clamp = WireNeedEnd::Terminal {
        terminal,
        level,
        side,
    };
    let (from, to) = match &end.end {
        End::Core { cable, core } => (
            WireNeedEnd::Core {
                cable: *cable,
                core: *core,
            },
            clamp,
        ),
        End::Contact { element, point } => (
            clamp,
            WireNeedEnd::Contact {
                element: *element,
                point: point.clone(),
            },
        ),
    };
    builder.demand.wires.push(WireNeed {
        from,
        to,
        potential: planned.level.potential.clone(),
        circuit: planned.circuit.clone(),
        section,
        build,
        current_a: end.current_a,
        heat_current_a: end.heat_current_a,
    });
}
