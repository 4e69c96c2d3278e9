//! What bare live parts must keep from earthed metal, as far as the choice of an enclosure depends on it.
//!
//! Inside a metal enclosure the lid, the walls and the ends of metal glands are earthed. The clearance
//! of the highest voltage that a part carries, and the workshop tolerance on top, must be kept.

use super::reason::Reason;
use crate::arrangement::{EnclosureRecord, Limits};
use crate::catalogue::CircuitKind;
use crate::demand::{Demand, EntryPartNeed, WireNeedEnd};
use crate::requirements::{Circuit, RequirementList};
use crate::standards::{MaterialGroup, iec_60079_7, iec_60079_11};

/// Distances from earthed metal, tolerance included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MetalDistances {
    /// Of the terminals' bare parts.
    pub terminals_mm: f64,
    /// What the elements' bare parts need beyond their own inset in their bodies.
    pub beyond_elements_mm: f64,
}

/// The distances for a demand.
pub fn metal_distances(
    list: &RequirementList,
    demand: &Demand<'_>,
    limits: &Limits,
) -> MetalDistances {
    let terminals_mm = list
        .circuits
        .iter()
        .map(|circuit| needed_mm(circuit.kind, circuit.voltage_v, limits))
        .fold(0.0, f64::max);
    let beyond_elements_mm = demand
        .elements
        .iter()
        .map(|need| {
            let over_lid_mm = over_lid_mm(list, demand, need.index, limits);
            over_lid_mm - need.part.live_inset_mm
        })
        .fold(0.0, f64::max);
    MetalDistances {
        terminals_mm,
        beyond_elements_mm,
    }
}

/// What bodies of elements side by side must leave between them: the material of a body is not known, so
/// that it may be earthed metal, and the surface of the lid leads to it.
pub fn between_elements_mm(list: &RequirementList, demand: &Demand<'_>, limits: &Limits) -> f64 {
    demand
        .elements
        .iter()
        .map(|need| over_lid_mm(list, demand, need.index, limits) - need.part.live_inset_mm)
        .fold(0.0, f64::max)
}

/// The reason against a metal lid whose elements have bare parts too near to it.
pub fn lid_reason(
    list: &RequirementList,
    demand: &Demand<'_>,
    mounted: &EnclosureRecord,
    limits: &Limits,
) -> Option<Reason> {
    if !mounted.material.is_metal() {
        return None;
    }
    demand.elements.iter().find_map(|need| {
        let needed_mm = element_needs_mm(list, demand, need.index, limits);
        (need.part.live_inset_mm < needed_mm - 1e-9).then(|| Reason::BareParts {
            part: need.part.id.clone(),
            has_mm: need.part.live_inset_mm,
            needed_mm,
        })
    })
}

/// Whether anything earthed reaches into the box: its own walls, or metal entry parts.
pub fn has_earthed_metal(demand: &Demand<'_>, mounted: &EnclosureRecord) -> bool {
    mounted.material.is_metal()
        || demand.entries.iter().any(|entry| match entry.part {
            EntryPartNeed::Gland(gland) => gland.material.is_metal(),
            EntryPartNeed::Plug(plug) => plug.material.is_metal(),
        })
}

/// What the bare parts of one element need from earthed metal: that of the most demanding circuit on it.
fn element_needs_mm(
    list: &RequirementList,
    demand: &Demand<'_>,
    element: usize,
    limits: &Limits,
) -> f64 {
    circuits_on(list, demand, element)
        .map(|circuit| needed_mm(circuit.kind, circuit.voltage_v, limits))
        .fold(0.0, f64::max)
}

/// What they need over the surface of a lid or wall, in the worst material that the table admits.
fn over_lid_mm(
    list: &RequirementList,
    demand: &Demand<'_>,
    element: usize,
    limits: &Limits,
) -> f64 {
    circuits_on(list, demand, element)
        .map(|circuit| match circuit.kind {
            CircuitKind::IntrinsicallySafe => {
                iec_60079_11::SEPARATE_CIRCUITS_MM + limits.tolerance_mm
            }
            CircuitKind::ExE => {
                let worst = MaterialGroup::IIIa;
                let creepage = iec_60079_7::external_terminal_creepage_mm(circuit.voltage_v, worst);
                creepage.unwrap_or(f64::INFINITY) + limits.tolerance_mm
            }
        })
        .fold(0.0, f64::max)
}

/// The circuits with a conductor on an element.
fn circuits_on<'l>(
    list: &'l RequirementList,
    demand: &'l Demand<'_>,
    element: usize,
) -> impl Iterator<Item = &'l Circuit> {
    demand
        .wires
        .iter()
        .filter(
            move |wire| matches!(&wire.to, WireNeedEnd::Contact { element: on, .. } if *on == element),
        )
        .filter_map(move |wire| {
            list.circuits
                .iter()
                .find(|circuit| circuit.tag == wire.circuit)
        })
}

/// Clearance of one circuit to earthed metal with the workshop tolerance. A voltage beyond the table is
/// infinitely far: nothing is extrapolated, and no part of a catalogue is rated there.
fn needed_mm(kind: CircuitKind, voltage_v: f64, limits: &Limits) -> f64 {
    let clearance_mm = match kind {
        CircuitKind::IntrinsicallySafe => iec_60079_11::EARTHED_METAL_MM,
        CircuitKind::ExE => {
            iec_60079_7::external_terminal_clearance_mm(voltage_v).unwrap_or(f64::INFINITY)
        }
    };
    clearance_mm + limits.tolerance_mm
}
