//! The heat of a demand in a candidate: everything but the conductor length is the same for all.

use crate::arrangement::{EnclosureRecord, HeatLine, HeatLineKind, RatedHeat};
use crate::catalogue::{ConductorBuild, RatedPower};
use crate::demand::{Demand, WireNeedEnd};
use crate::requirements::{Area, Section};
use crate::standards::awg::{Awg, Stranding};
use crate::standards::iec_60228::{self, ConductorClass};
use crate::workshop::Workshop;
use std::collections::BTreeMap;

/// The terms of the heat calculation, before the length of the conductors is known.
#[derive(Debug, Clone)]
pub struct HeatTerms {
    reference_c: f64,
    conductors: Vec<ConductorTerm>,
    others: Vec<HeatLine>,
}

#[derive(Debug, Clone)]
struct ConductorTerm {
    item: String,
    count: u32,
    current_a: f64,
    /// Resistance at the reference temperature.
    ohm_per_km: f64,
}

/// Gathers the terms.
///
/// # Errors
/// A conductor for which no resistance is known.
pub fn heat_terms(demand: &Demand<'_>, workshop: &Workshop) -> Result<HeatTerms, String> {
    let reference_c = workshop.conductors.reference_c;
    let mut conductors: BTreeMap<(String, i64), ConductorTerm> = BTreeMap::new();
    for wire in demand.wires.iter().filter(|wire| wire.heat_current_a > 0.0) {
        let item = format!("conductors {} {}", wire.section, build_word(wire.build));
        let key = (item.clone(), micro(wire.heat_current_a));
        match conductors.get_mut(&key) {
            Some(term) => term.count += 1,
            None => {
                let ohm_per_km = ohm_per_km(&wire.section, wire.build, reference_c)?;
                conductors.insert(
                    key,
                    ConductorTerm {
                        item,
                        count: 1,
                        current_a: wire.heat_current_a,
                        ohm_per_km,
                    },
                );
            }
        }
    }
    let mut others: BTreeMap<(HeatLineKind, String, i64), HeatLine> = BTreeMap::new();
    let mut add = |kind: HeatLineKind, item: String, current_a: f64, resistance_mohm: f64| {
        let line = others
            .entry((kind, item.clone(), micro(current_a)))
            .or_insert(HeatLine {
                kind,
                item,
                count: 0,
                current_a,
                resistance_mohm,
                power_w: 0.0,
            });
        line.count += 1;
    };
    for terminal in &demand.terminals {
        for level in terminal
            .levels
            .iter()
            .filter(|level| level.heat_current_a > 0.0)
        {
            let item = format!("terminals {}", terminal.part.id);
            add(
                HeatLineKind::Terminals,
                item,
                level.heat_current_a,
                terminal.part.resistance_mohm,
            );
        }
    }
    for cluster in demand.strips.iter().flat_map(|strip| &strip.clusters) {
        let Some(jumper) = &cluster.jumper else {
            continue;
        };
        // A jumper over n terminals has n − 1 bridges, each taken with the whole current.
        let bridges = cluster.terminals.len().saturating_sub(1);
        for _ in 0..bridges {
            let item = format!("bridges of jumper {}", jumper.part.id);
            let resistance_mohm = jumper.part.resistance_mohm.unwrap_or(0.0);
            add(
                HeatLineKind::Jumpers,
                item,
                jumper.heat_current_a,
                resistance_mohm,
            );
        }
    }
    let mut others: Vec<HeatLine> = others.into_values().collect();
    others.extend(contact_lines(demand));
    others.extend(element_lines(demand));
    for line in others
        .iter_mut()
        .filter(|line| line.kind != HeatLineKind::Elements)
    {
        line.power_w =
            f64::from(line.count) * line.current_a.powi(2) * line.resistance_mohm / 1000.0;
    }
    Ok(HeatTerms {
        reference_c,
        conductors: conductors.into_values().collect(),
        others,
    })
}

/// Contacts, by part and current: that of the wires on their points.
fn contact_lines(demand: &Demand<'_>) -> Vec<HeatLine> {
    let mut lines: BTreeMap<(String, i64), HeatLine> = BTreeMap::new();
    let mut currents: BTreeMap<(usize, String), f64> = BTreeMap::new();
    for wire in &demand.wires {
        if let WireNeedEnd::Contact { element, point } = &wire.to {
            let current = currents.entry((*element, point.clone())).or_insert(0.0);
            *current = current.max(wire.heat_current_a);
        }
    }
    for element in &demand.elements {
        for (block, contact) in element.blocks.iter().zip(&element.contacts) {
            let current_a = contact
                .points
                .iter()
                .filter_map(|point| currents.get(&(element.index, point.clone())))
                .fold(0.0, |most: f64, current| most.max(*current));
            if current_a <= 0.0 {
                continue;
            }
            let item = format!("contacts {}", block.id);
            let line = lines
                .entry((item.clone(), micro(current_a)))
                .or_insert(HeatLine {
                    kind: HeatLineKind::Contacts,
                    item,
                    count: 0,
                    current_a,
                    resistance_mohm: block.resistance_mohm,
                    power_w: 0.0,
                });
            line.count += 1;
        }
    }
    lines.into_values().collect()
}

/// Lamps, meters and potentiometers with their power.
fn element_lines(demand: &Demand<'_>) -> Vec<HeatLine> {
    let mut lines: BTreeMap<&str, HeatLine> = BTreeMap::new();
    for element in &demand.elements {
        let Some(power_w) = element.part.power_w.filter(|power| *power > 0.0) else {
            continue;
        };
        let line = lines.entry(&element.part.id).or_insert_with(|| HeatLine {
            kind: HeatLineKind::Elements,
            item: format!("{} {}", element.part.kind.words(), element.part.id),
            count: 0,
            current_a: 0.0,
            resistance_mohm: 0.0,
            power_w: 0.0,
        });
        line.count += 1;
        line.power_w += power_w;
    }
    lines.into_values().collect()
}

/// The row of rated power that the area may use: its class at least as strict, its ambient at least
/// as high as asked for; of several the one that permits most. Nothing is extrapolated.
pub fn permitted_row(area: &Area, mounted: &EnclosureRecord) -> Option<RatedPower> {
    mounted
        .rated_power
        .iter()
        .filter(|row| {
            area.temperature_class
                .is_none_or(|class| row.class.covers(class))
        })
        .filter(|row| {
            area.max_surface_c
                .is_none_or(|surface_c| row.class.limit_c() <= surface_c)
        })
        .filter(|row| row.ambient_c >= area.ambient_c[1])
        .copied()
        .max_by(|a, b| {
            a.power_w
                .total_cmp(&b.power_w)
                .then(b.ambient_c.total_cmp(&a.ambient_c))
        })
}

/// The whole calculation for one length of conductor.
pub fn rated_heat(
    terms: &HeatTerms,
    row: RatedPower,
    conductor_length_mm: f64,
    reserve_percent: f64,
) -> RatedHeat {
    let mut lines: Vec<HeatLine> = terms
        .conductors
        .iter()
        .map(|term| {
            // ohm/km is milliohm per metre.
            let resistance_mohm = term.ohm_per_km * conductor_length_mm / 1000.0;
            HeatLine {
                kind: HeatLineKind::Conductors,
                item: term.item.clone(),
                count: term.count,
                current_a: term.current_a,
                resistance_mohm,
                power_w: f64::from(term.count) * term.current_a.powi(2) * resistance_mohm / 1000.0,
            }
        })
        .collect();
    lines.extend(terms.others.iter().cloned());
    let power_w: f64 = lines.iter().map(|line| line.power_w).sum();
    let limit_c = row.class.limit_after_margin_c();
    let warm = |temperature_c: f64| {
        iec_60228::resistance_ratio(temperature_c.min(WARMEST_COPPER_C)).unwrap_or(1.0)
    };
    let warmer = warm(limit_c) / warm(terms.reference_c);
    let power_at_limit_w = lines
        .iter()
        .map(|line| {
            if line.kind == HeatLineKind::Elements {
                line.power_w
            } else {
                line.power_w * warmer
            }
        })
        .sum();
    RatedHeat {
        reference_c: terms.reference_c,
        conductor_length_mm,
        row_class: row.class,
        row_ambient_c: row.ambient_c,
        rated_power_w: row.power_w,
        reserve_percent,
        permitted_power_w: row.power_w * (1.0 - reserve_percent / 100.0),
        lines,
        power_w,
        power_at_limit_w,
        limit_c,
        defined_arrangement_decides: false,
    }
}

/// The temperature up to which copper's linear law is used, °C.
const WARMEST_COPPER_C: f64 = 200.0;

/// Resistance of a conductor.
fn ohm_per_km(section: &Section, build: ConductorBuild, temperature_c: f64) -> Result<f64, String> {
    match &section.awg {
        Some(gauge) => {
            let stranding = if build == ConductorBuild::Solid {
                Stranding::Solid
            } else {
                Stranding::Stranded
            };
            let gauge: Awg = gauge
                .parse()
                .map_err(|error| format!("AWG {gauge}: {error}"))?;
            gauge
                .resistance_ohm_per_km(stranding, temperature_c)
                .map_err(|error| error.to_string())
        }
        None => {
            let class = match build {
                ConductorBuild::Solid => ConductorClass::Class1,
                ConductorBuild::Stranded => ConductorClass::Class2,
                ConductorBuild::Flexible => ConductorClass::Class5,
            };
            iec_60228::resistance_ohm_per_km(section.mm2, class, temperature_c)
                .map_err(|error| error.to_string())
        }
    }
}

fn build_word(build: ConductorBuild) -> &'static str {
    match build {
        ConductorBuild::Solid => "solid",
        ConductorBuild::Stranded => "stranded",
        ConductorBuild::Flexible => "flexible",
    }
}

/// A current as a whole number of microamperes, so that equal currents group together.
fn micro(current_a: f64) -> i64 {
    (current_a * 1e6).round() as i64
}
