//! The certificate's defined arrangement where it decides: the conductors of the demand against its rows.

use super::reason::Reason;
use crate::catalogue::Enclosure;
use crate::demand::{Demand, WireNeed, WireNeedEnd};
use crate::heat::defined_arrangement::{Asked, CountedConductor, MethodStatus, count};
use crate::requirements::RequirementList;

/// Passes an enclosure whose defined arrangement does not decide, or holds, or gives the reason against it.
pub(super) fn screen(
    list: &RequirementList,
    demand: &Demand<'_>,
    enclosure: &Enclosure,
) -> Result<(), Reason> {
    if !enclosure.defined_arrangement_decides {
        return Ok(());
    }
    let asked = Asked {
        class: list.area.temperature_class,
        max_surface_c: list.area.max_surface_c,
        ambient_c: list.area.ambient_c[1],
    };
    let found = count(
        &enclosure.defined_arrangement,
        asked,
        &conductors(demand),
        other_heat_w(demand),
    );
    let refuse = |why: String| Err(Reason::Certificate(why));
    match found.status {
        MethodStatus::Holds => Ok(()),
        MethodStatus::Exceeded => refuse(format!(
            "its defined arrangement, which decides, would be used to {:.2} of 1",
            found.utilisation.unwrap_or(f64::INFINITY)
        )),
        MethodStatus::NotDetermined | MethodStatus::NoRows => {
            let gaps: Vec<&str> = found.gaps.iter().map(|gap| gap.missing.as_str()).collect();
            let missing = if gaps.is_empty() {
                "it has no rows for the area".to_string()
            } else {
                gaps.join("; ")
            };
            refuse(format!(
                "its defined arrangement, which decides, does not speak of all: {missing}"
            ))
        }
    }
}

/// Conductors of circuits, and the links of jumpers, each as the thinnest conductor on its terminals.
fn conductors(demand: &Demand<'_>) -> Vec<CountedConductor> {
    let of_circuits = demand.wires.iter().filter(|wire| !wire.circuit.is_empty());
    let mut found: Vec<CountedConductor> = of_circuits
        .map(|wire| CountedConductor {
            section_mm2: wire.section.mm2,
            current_a: wire.current_a,
        })
        .collect();
    for cluster in demand.strips.iter().flat_map(|strip| &strip.clusters) {
        let Some(jumper) = &cluster.jumper else {
            continue;
        };
        let on_cluster = |wire: &&WireNeed| {
            [&wire.from, &wire.to].into_iter().any(|end| {
                matches!(end, WireNeedEnd::Terminal { terminal, .. } if cluster.terminals.contains(terminal))
            })
        };
        let wires = demand.wires.iter().filter(on_cluster);
        let thinnest = wires.map(|wire| wire.section.mm2).min_by(f64::total_cmp);
        let link = CountedConductor {
            section_mm2: thinnest.unwrap_or(0.0),
            current_a: jumper.current_a,
        };
        found.extend(std::iter::repeat_n(
            link,
            cluster.terminals.len().saturating_sub(1),
        ));
    }
    found
}

/// Heat of elements and contacts, of which no row speaks: 0 where there is none, W.
fn other_heat_w(demand: &Demand<'_>) -> f64 {
    let elements = demand.elements.iter();
    let own_w: f64 = elements
        .map(|element| element.part.power_w.unwrap_or(0.0))
        .sum();
    let in_contacts = demand
        .wires
        .iter()
        .any(|wire| matches!(wire.to, WireNeedEnd::Contact { .. }) && wire.current_a > 0.0);
    own_w + if in_contacts { 1.0 } else { 0.0 }
}
