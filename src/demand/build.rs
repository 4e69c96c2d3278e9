//! From the requirement list to the demand, step by step.

use super::elements::{LARGEST_INTERNAL_MM2, add_elements};
use super::entries::add_entries;
use super::refusals::Refusals;
use super::separator::separator;
use super::{Demand, earth, neighbours, spares, strips};
use crate::catalogue::{AccessoryKind, Catalogue, CircuitKind, ConductorBuild};
use crate::requirements::{
    Circuit, CircuitGroup, CoreName, End, RequirementList, Section, estimate_diameter_mm,
};
use crate::source::{Findings, Place};
use crate::workshop::Workshop;
use std::collections::{BTreeMap, BTreeSet};

/// What the steps share while the demand grows.
pub(super) struct Builder<'c, 'l> {
    pub catalogue: &'c Catalogue,
    pub list: &'l RequirementList,
    pub workshop: &'l Workshop,
    pub demand: Demand<'c>,
    pub refusals: Refusals,
    /// The first pole of each link, by every pole of the link.
    link_head: BTreeMap<(usize, usize), (usize, usize)>,
    /// What the circuits make of each cable that they use.
    cable_use: BTreeMap<usize, CableUse>,
    /// Highest voltage of all circuits.
    highest_voltage_v: f64,
}

/// What the circuits make of one cable.
struct CableUse {
    /// Group of the first circuit.
    group: CircuitGroup,
    /// Highest voltage.
    voltage_v: f64,
}

/// Derives the demand.
///
/// # Errors
/// One finding for each entry of the list that no part of the catalogue serves.
pub fn build<'c>(
    list: &RequirementList,
    catalogue: &'c Catalogue,
    workshop: &Workshop,
) -> Result<Demand<'c>, Findings> {
    let link_head = list
        .links
        .iter()
        .filter_map(|link| link.iter().min().map(|head| (link, *head)))
        .flat_map(|(link, head)| link.iter().map(move |pole| (*pole, head)))
        .collect();
    let demand = Demand {
        terminals: Vec::new(),
        strips: Vec::new(),
        entries: Vec::new(),
        elements: Vec::new(),
        wires: Vec::new(),
        rail: None,
        end_stop: None,
        end_plates: BTreeMap::new(),
        partition: None,
        separator: None,
        divided: BTreeSet::new(),
        estimates: Vec::new(),
        remarks: Vec::new(),
    };
    let mut builder = Builder {
        catalogue,
        list,
        workshop,
        demand,
        refusals: Refusals::default(),
        link_head,
        cable_use: cable_use(list),
        highest_voltage_v: list
            .circuits
            .iter()
            .map(|circuit| circuit.voltage_v)
            .fold(0.0, f64::max),
    };
    require_enclosures(&mut builder);
    strips::add_strips(&mut builder);
    spares::add_spare_terminals(&mut builder);
    earth::add_earth_strip(&mut builder);
    add_entries(&mut builder);
    add_elements(&mut builder);
    add_rail_parts(&mut builder);
    neighbours::add_divisions(&mut builder);
    add_estimates(&mut builder);
    let unfed = super::feeding::remarks(list);
    builder.demand.remarks.extend(unfed);
    let findings = builder.refusals.findings();
    if findings.has_errors() {
        Err(findings)
    } else {
        Ok(builder.demand)
    }
}

/// A catalogue without enclosures has no answer to any list.
fn require_enclosures(builder: &mut Builder<'_, '_>) {
    if builder.catalogue.enclosure.is_empty() {
        let place = &builder.list.wishes.place;
        let finding = place
            .error("", "demand-no-enclosure", "the catalogue has no enclosure")
            .expected("a catalogue with enclosures");
        builder.refusals.push(finding);
    }
}

/// Rail, end stop, end plates and partition.
fn add_rail_parts(builder: &mut Builder<'_, '_>) {
    if builder.demand.terminals.is_empty() {
        return;
    }
    let catalogue = builder.catalogue;
    let profile = &builder.workshop.rails.profile;
    builder.demand.rail = catalogue
        .rail
        .iter()
        .filter(|rail| rail.profile == *profile)
        .min_by(|a, b| {
            a.price_per_m
                .total_cmp(&b.price_per_m)
                .then(a.id.cmp(&b.id))
        });
    let accessory = |kind: AccessoryKind, fits: Option<&str>| {
        catalogue
            .accessory
            .iter()
            .filter(|part| part.kind == kind)
            .filter(|part| {
                part.fits.is_empty() || fits.is_some_and(|id| part.fits.iter().any(|fit| fit == id))
            })
            .min_by(|a, b| {
                a.width_mm
                    .total_cmp(&b.width_mm)
                    .then(a.price.total_cmp(&b.price))
                    .then(a.id.cmp(&b.id))
            })
    };
    builder.demand.end_stop = accessory(AccessoryKind::EndStop, None);
    builder.demand.partition = accessory(AccessoryKind::Partition, None);
    let distances = &builder.workshop.distances;
    if distances.intrinsic_partition && builder.demand.is_mixed() {
        let separation_mm = distances.intrinsic_separation_mm;
        builder.demand.separator = separator(&builder.demand, catalogue, separation_mm);
    }
    let mut missing: Vec<String> = Vec::new();
    if builder.demand.rail.is_none() {
        missing.push(format!("a rail of profile {profile}"));
    }
    if builder.demand.end_stop.is_none() {
        missing.push("an end stop".to_string());
    }
    if builder.demand.partition.is_none() && builder.demand.strips.len() > 1 {
        missing.push("a partition that fits every terminal".to_string());
    }
    for terminal in &builder.demand.terminals {
        if !terminal.part.open_side
            || builder
                .demand
                .end_plates
                .contains_key(terminal.part.id.as_str())
        {
            continue;
        }
        match accessory(AccessoryKind::EndPlate, Some(&terminal.part.id)) {
            Some(plate) => {
                builder.demand.end_plates.insert(&terminal.part.id, plate);
            }
            None => missing.push(format!("an end plate for `{}`", terminal.part.id)),
        }
    }
    missing.dedup();
    for part in missing {
        let finding = builder.list.wishes.place.error(
            "",
            "demand-no-accessory",
            format!("the catalogue lacks {part}"),
        );
        builder
            .refusals
            .push(finding.expected("a catalogue with all accessories of its terminals"));
    }
}

/// Below this share of what its cores make a cable at least, a diameter is worth a question: cables of one build
/// differ by about a tenth (status: common practice).
const LEAST_SHARE_OF_ESTIMATE: f64 = 0.7;

fn add_estimates(builder: &mut Builder<'_, '_>) {
    let mut told: Option<&Place> = None;
    for cable in &builder.list.cables {
        if !cable.diameter_estimated {
            // One remark for all cables of a table.
            if told.replace(&cable.place) == Some(&cable.place) {
                continue;
            }
            let (usual_mm, _) = estimate_diameter_mm(&cable.cores, cable.screened, cable.armoured);
            let has_mm = cable.diameter_mm;
            if has_mm < LEAST_SHARE_OF_ESTIMATE * usual_mm {
                builder.demand.remarks.push(format!(
                    "cable `{}` is given with {has_mm} mm diameter; with its cores ({}) about {usual_mm:.0} mm \
                     is usual",
                    cable.tag, cable.cores_text
                ));
            }
            continue;
        }
        let tag = &cable.tag;
        // Of an armoured cable the list may give the one diameter and leave the other open.
        let said = if cable.place.has("diameter_mm") {
            let [least, most] = cable.under_armour_mm.unwrap_or(cable.diameter_range_mm);
            format!(
                "diameter of cable `{tag}` under its armour estimated: {least:.1} to {most:.1} mm; enter the \
                 real one as `under_armour_mm`"
            )
        } else {
            let [least, most] = cable.diameter_range_mm;
            format!(
                "diameter of cable `{tag}` estimated from its cores: {least:.1} to {most:.1} mm; enter the \
                 real one"
            )
        };
        builder.demand.estimates.push(said);
    }
}

impl Builder<'_, '_> {
    /// The name of a pole's potential: `circuit/number` of the first of linked poles.
    pub(super) fn potential(&self, pole: (usize, usize)) -> String {
        let (circuit, index) = self.link_head.get(&pole).copied().unwrap_or(pole);
        format!("{}/{}", self.list.circuits[circuit].tag, index + 1)
    }

    /// Section and build of a core.
    pub(super) fn core(&self, cable: usize, core: CoreName) -> (Section, ConductorBuild) {
        let requirement = &self.list.cables[cable];
        if core == CoreName::Screen {
            let mm2 = self.workshop.conductors.drain_wire_mm2;
            return (Section { mm2, awg: None }, ConductorBuild::Flexible);
        }
        let section = requirement
            .cores
            .iter()
            .find(|known| known.name == core)
            .map(|known| known.section.clone())
            .unwrap_or(Section {
                mm2: f64::INFINITY,
                awg: None,
            });
        (section, requirement.build)
    }

    /// Section and build of the conductor that leads to an end: a core's own, or an internal wire of
    /// the workshop's usual section, larger where the circuit's cores are.
    pub(super) fn conductor_of(&self, end: &End, circuit: &Circuit) -> (Section, ConductorBuild) {
        match end {
            End::Core { cable, core } => self.core(*cable, *core),
            End::Contact { .. } => {
                let largest_core_mm2 = circuit
                    .poles
                    .iter()
                    .flat_map(|pole| pole.from.iter().chain(&pole.to))
                    .filter_map(|end| match end {
                        End::Core { cable, core } => Some(self.core(*cable, *core).0.mm2),
                        End::Contact { .. } => None,
                    })
                    .fold(0.0, f64::max);
                let usual = self.workshop.elements.wire_mm2;
                let continued = if largest_core_mm2 > usual {
                    LARGEST_INTERNAL_MM2
                } else {
                    usual
                };
                (
                    Section {
                        mm2: usual.max(continued),
                        awg: None,
                    },
                    ConductorBuild::Flexible,
                )
            }
        }
    }

    /// The group whose strip takes a cable's unused cores: that of the first circuit that uses the
    /// cable.
    pub(super) fn group_of_cable(&self, cable: usize) -> CircuitGroup {
        let by_kind = match self.list.cables[cable].kind {
            CircuitKind::IntrinsicallySafe => CircuitGroup::IntrinsicallySafe,
            CircuitKind::ExE => CircuitGroup::Control,
        };
        self.cable_use
            .get(&cable)
            .map_or(by_kind, |used| used.group)
    }

    /// The highest voltage of the circuits on a cable; of all circuits where it carries none.
    pub(super) fn voltage_of_cable(&self, cable: usize) -> f64 {
        self.cable_use
            .get(&cable)
            .map_or(self.highest_voltage_v, |used| used.voltage_v)
    }
}

/// What the circuits make of each cable.
fn cable_use(list: &RequirementList) -> BTreeMap<usize, CableUse> {
    let mut uses: BTreeMap<usize, CableUse> = BTreeMap::new();
    for circuit in &list.circuits {
        for end in circuit
            .poles
            .iter()
            .flat_map(|pole| pole.from.iter().chain(&pole.to))
        {
            if let End::Core { cable, .. } = end {
                let used = uses.entry(*cable).or_insert(CableUse {
                    group: circuit.group,
                    voltage_v: circuit.voltage_v,
                });
                used.voltage_v = used.voltage_v.max(circuit.voltage_v);
            }
        }
    }
    uses
}
