//! Clearance and creepage between bare parts in three dimensions, and the separation of intrinsically
//! safe circuits. Knows nothing of currents and of what is drilled.
//!
//! Through air the shortest way counts: the straight line, or the way round the insulating slabs that
//! stand across a rail between two parts (partitions, end plates, closed side walls of terminals).
//! Solid insulation is no way through air. Distances inside one part belong to its certificate. What
//! accessories are made of is not recorded; they count as insulating. The workshop's tolerance is
//! subtracted from every distance that depends on how parts are placed, not from a certified one.

use super::case::{Cases, Rule};
use super::context::{Context, Live, Slab};
use super::measure;
use crate::catalogue::{AccessoryKind, CircuitKind, Material};
use crate::space::{Block, Face, Point};
use crate::standards::MaterialGroup;
use crate::standards::iec_60079_7::{
    DISTANCES, TRACKING_MATTERS_ABOVE_V, external_terminal_clearance_mm,
    external_terminal_creepage_mm,
};
use crate::standards::iec_60079_11::{
    EARTHED_METAL, EARTHED_METAL_MM, OTHER_CIRCUITS, OTHER_CIRCUITS_MM, PARTITION_GAP_MM,
    SEPARATE_CIRCUITS, SEPARATE_CIRCUITS_MM,
};
use std::collections::BTreeSet;

/// Parts farther apart than this are not measured where no voltage in the box asks for more; larger
/// than any requirement up to 1000 V with tolerance.
const NEAR_MM: f64 = 60.0;

/// Least thickness of an insulating partition between intrinsically safe and other terminals.
const PARTITION_THICKNESS_MM: f64 = 0.9;

/// The rules of this group.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "distance.clearance",
        title: "clearance between different potentials",
        requires: "between bare parts of different potential of two Ex e terminals or elements the way through air, less the workshop tolerance, reaches the table's clearance for the higher working voltage (which may exceed a row by 10 %), at least 3 mm; for equal neighbours the certified distance counts",
        source: DISTANCES,
        unit: "mm",
        check: clearance,
    },
    Rule {
        id: "distance.creepage",
        title: "creepage between different potentials",
        requires: "between bare parts of different potential of two Ex e terminals on one rail the way over surfaces, which is never shorter than the way through air, reaches the table's creepage for the higher working voltage and the worse material group of the two; above 10 V an unknown tracking index is not determined; for equal neighbours the certified distance counts",
        source: DISTANCES,
        unit: "mm",
        check: creepage,
    },
    Rule {
        id: "distance.earthed_metal",
        title: "clearance to earthed metal",
        requires: "from bare parts of Ex e circuits to rails, mounting plate, metal walls and lid, metal entries and bare parts connected to earth the way through air, less the workshop tolerance, reaches the table's clearance for the working voltage, at least 3 mm; to its own rail a terminal's distance is that of the part, without tolerance",
        source: DISTANCES,
        unit: "mm",
        check: earthed_metal,
    },
    Rule {
        id: "distance.intrinsic_other",
        title: "intrinsically safe apart from other circuits",
        requires: "bare parts of intrinsically safe circuits and of others (earth not counted) lie 50 mm apart or what the workshop asks beyond, in a straight line or round a partition of at least 0.9 mm; or a partition between them reaches within 1.5 mm of walls, lid and plate",
        source: OTHER_CIRCUITS,
        unit: "mm",
        check: intrinsic_other,
    },
    Rule {
        id: "distance.intrinsic_circuits",
        title: "separate intrinsically safe circuits",
        requires: "bare parts of separate intrinsically safe circuits lie 6 mm apart through air, less the workshop tolerance; for equal neighbours the certified distance counts; a spare terminal counts as a circuit of its own",
        source: SEPARATE_CIRCUITS,
        unit: "mm",
        check: intrinsic_circuits,
    },
    Rule {
        id: "distance.intrinsic_earth",
        title: "intrinsically safe apart from earthed metal",
        requires: "bare parts of intrinsically safe circuits lie 3 mm from earthed metal through air, less the workshop tolerance; to its own rail a terminal's distance is that of the part, without tolerance",
        source: EARTHED_METAL,
        unit: "mm",
        check: intrinsic_earth,
    },
];

/// Calls `each` for every pair of bare parts of two owners that lie within reach of each other along x.
fn near_pairs<'a>(
    parts: &'a [Live<'a>],
    reach_mm: f64,
    mut each: impl FnMut(&'a Live<'a>, &'a Live<'a>),
) {
    let mut order: Vec<&Live> = parts.iter().collect();
    order.sort_by(|a, b| a.block.min.x_mm.total_cmp(&b.block.min.x_mm));
    for (index, a) in order.iter().enumerate() {
        for b in order.iter().skip(index + 1) {
            if b.block.min.x_mm - a.block.max.x_mm > reach_mm {
                break;
            }
            if a.owner != b.owner {
                each(a, b);
            }
        }
    }
}

/// The way through air between two bare parts: straight, or round the slabs that stand between them
/// on their common rail.
fn through_air_mm(a: &Live<'_>, b: &Live<'_>, slabs: &[Slab<'_>]) -> f64 {
    let straight = measure::distance_mm(a.block, b.block);
    let (Some(first), Some(second)) = (a.terminal, b.terminal) else {
        return straight;
    };
    if first.rail != second.rail {
        return straight;
    }
    let from_mm = a.block.max.x_mm.min(b.block.max.x_mm) - super::case::SLACK;
    let to_mm = a.block.min.x_mm.max(b.block.min.x_mm) + super::case::SLACK;
    let start = slabs.partition_point(|slab| {
        (slab.rail, slab.block.min.x_mm).partial_cmp(&(first.rail.as_str(), from_mm))
            == Some(std::cmp::Ordering::Less)
    });
    let between = slabs
        .iter()
        .skip(start)
        .take_while(|slab| slab.rail == first.rail && slab.block.min.x_mm <= to_mm);
    between
        .map(|slab| measure::around_mm(a.block, b.block, &slab.block))
        .fold(straight, f64::max)
}

/// The certified distance of two parts that are equal neighbours.
fn certified_mm(a: &Live<'_>, b: &Live<'_>) -> Option<f64> {
    let (first, second) = a.terminal.zip(b.terminal)?;
    if Context::equal_neighbours(first, second) {
        first.neighbour_distance_mm
    } else {
        None
    }
}

fn tolerance_mm(context: &Context<'_>) -> f64 {
    context.arrangement.limits.tolerance_mm
}

/// How far a search must reach: beyond every requirement of the box.
fn reach_mm(context: &Context<'_>) -> f64 {
    let circuits = context
        .arrangement
        .circuits
        .iter()
        .map(|circuit| circuit.voltage_v);
    let recorded = context
        .arrangement
        .terminals
        .iter()
        .map(|terminal| terminal.working_voltage_v);
    let highest_v = circuits.chain(recorded).fold(0.0, f64::max);
    // The largest creepage of a voltage is 160 mm; only a box above 1000 V needs to look so far.
    let needed_mm = if highest_v > 1000.0 { 200.0 } else { NEAR_MM };
    needed_mm + tolerance_mm(context).max(0.0)
}

/// Whether two parts of Ex e circuits have potentials that must be kept apart.
fn differ(a: &Live<'_>, b: &Live<'_>) -> bool {
    let both_ex_e = a.kind == CircuitKind::ExE && b.kind == CircuitKind::ExE;
    let spare = a.potential.is_empty() || b.potential.is_empty();
    both_ex_e && !a.is_earth() && !b.is_earth() && (spare || a.potential != b.potential)
}

fn clearance(context: &Context<'_>, cases: &mut Cases) {
    let (parts, slabs) = (context.live_parts(), context.insulating_slabs());
    let tolerance_mm = tolerance_mm(context);
    let reach_mm = reach_mm(context);
    near_pairs(&parts, reach_mm, |a, b| {
        if !differ(a, b) {
            return;
        }
        let voltage_v = a.voltage_v.max(b.voltage_v);
        let subject = [a.owner, b.owner];
        match external_terminal_clearance_mm(voltage_v) {
            Err(error) => {
                cases.unknown(&subject, || format!("{} and {}: {error}", a.owner, b.owner))
            }
            Ok(required_mm) => match certified_mm(a, b) {
                Some(certified_mm) => cases.at_least(&subject, certified_mm, required_mm, || {
                    format!(
                        "certified distance of {} and {}, {voltage_v} V",
                        a.owner, b.owner
                    )
                }),
                None => {
                    let measured_mm = through_air_mm(a, b, &slabs) - tolerance_mm;
                    cases.at_least(&subject, measured_mm, required_mm, || {
                        format!(
                            "clearance of {} (`{}`) and {} (`{}`), {voltage_v} V",
                            a.owner, a.potential, b.owner, b.potential
                        )
                    });
                }
            },
        }
    });
    cases.nothing(format!(
        "no two bare parts of different potential lie within {reach_mm} mm of each other"
    ));
}

fn creepage(context: &Context<'_>, cases: &mut Cases) {
    let (parts, slabs) = (context.live_parts(), context.insulating_slabs());
    let tolerance_mm = tolerance_mm(context);
    let reach_mm = reach_mm(context);
    near_pairs(&parts, reach_mm, |a, b| {
        let Some((first, second)) = a.terminal.zip(b.terminal) else {
            return;
        };
        if !differ(a, b) || first.rail != second.rail {
            return;
        }
        let voltage_v = a.voltage_v.max(b.voltage_v);
        let subject = [a.owner, b.owner];
        let group = if voltage_v <= TRACKING_MATTERS_ABOVE_V {
            // At such a voltage the group does not matter; the table's figures are equal.
            MaterialGroup::I
        } else {
            let indices = first.tracking_index.zip(second.tracking_index);
            let Some((one, other)) = indices else {
                cases.unknown(&subject, || {
                    format!(
                        "the tracking index of {} ({}) or {} ({}) is unknown",
                        a.owner, first.part, b.owner, second.part
                    )
                });
                return;
            };
            match MaterialGroup::from_cti(one.min(other)) {
                Ok(group) => group,
                Err(error) => {
                    cases.unknown(&subject, || format!("{} and {}: {error}", a.owner, b.owner));
                    return;
                }
            }
        };
        match external_terminal_creepage_mm(voltage_v, group) {
            Err(error) => {
                cases.unknown(&subject, || format!("{} and {}: {error}", a.owner, b.owner))
            }
            Ok(required_mm) => {
                let (measured_mm, certified) = match certified_mm(a, b) {
                    Some(certified_mm) => (certified_mm, "certified distance"),
                    None => (through_air_mm(a, b, &slabs) - tolerance_mm, "creepage"),
                };
                cases.at_least(&subject, measured_mm, required_mm, || {
                    format!(
                        "{certified} of {} and {}, {voltage_v} V, material group {group}",
                        a.owner, b.owner
                    )
                });
            }
        }
    });
    cases.nothing("no two bare parts of different potential lie near each other on one rail");
}

/// A piece of earthed metal with its name, and the rail if it is one.
struct Metal<'a> {
    name: String,
    block: Block,
    rail: Option<&'a str>,
}

/// Whether a material conducts.
fn conducts(material: Material) -> bool {
    match material {
        Material::Grp | Material::Polyamide => false,
        Material::Stainless | Material::Steel | Material::Aluminium | Material::Brass => true,
    }
}

/// Everything earthed beside the bare parts of earth terminals.
fn earthed<'a>(context: &Context<'a>) -> Vec<Metal<'a>> {
    let arrangement = context.arrangement;
    let enclosure = &arrangement.enclosure;
    let plate = &enclosure.plate;
    let mut metal = vec![Metal {
        name: "mounting plate".to_string(),
        block: Block {
            min: Point {
                x_mm: plate.x_mm,
                y_mm: plate.y_mm,
                z_mm: 0.0,
            },
            max: Point {
                x_mm: plate.x_mm + plate.width_mm,
                y_mm: plate.y_mm + plate.height_mm,
                z_mm: plate.standoff_mm,
            },
        },
        rail: None,
    }];
    for rail in &arrangement.rails {
        metal.push(Metal {
            name: rail.id.clone(),
            block: rail.body,
            rail: Some(&rail.id),
        });
    }
    if conducts(enclosure.material) {
        for face in [
            Face::Bottom,
            Face::Right,
            Face::Top,
            Face::Left,
            Face::Lid,
            Face::Back,
        ] {
            let block = measure::wall_block(context.interior(), face);
            metal.push(Metal {
                name: format!("{face} wall"),
                block,
                rail: None,
            });
        }
    }
    for entry in arrangement
        .entries
        .iter()
        .filter(|entry| conducts(entry.part.material))
    {
        metal.push(Metal {
            name: entry.id.clone(),
            block: entry.inside,
            rail: None,
        });
    }
    metal
}

/// Measures the bare parts of one kind of circuit against all earthed metal.
fn to_earth(
    context: &Context<'_>,
    cases: &mut Cases,
    kind: CircuitKind,
    required: impl Fn(&Live<'_>) -> Result<f64, String>,
) {
    let (parts, slabs) = (context.live_parts(), context.insulating_slabs());
    let tolerance_mm = tolerance_mm(context);
    let metal = earthed(context);
    for part in parts
        .iter()
        .filter(|part| part.kind == kind && !part.is_earth())
    {
        let required_mm = match required(part) {
            Ok(required_mm) => required_mm,
            Err(error) => {
                cases.unknown(&[part.owner], || format!("{}: {error}", part.owner));
                continue;
            }
        };
        for piece in &metal {
            let own = part
                .terminal
                .is_some_and(|terminal| piece.rail == Some(terminal.rail.as_str()));
            let allowance_mm = if own { 0.0 } else { tolerance_mm };
            let measured_mm = measure::distance_mm(part.block, &piece.block) - allowance_mm;
            cases.at_least(&[part.owner, &piece.name], measured_mm, required_mm, || {
                format!(
                    "clearance of {} (`{}`) to {}",
                    part.owner, part.potential, piece.name
                )
            });
        }
    }
    near_pairs(&parts, reach_mm(context), |a, b| {
        let (part, earth) = if b.is_earth() { (a, b) } else { (b, a) };
        if part.kind != kind || part.is_earth() || !earth.is_earth() {
            return;
        }
        let measured_mm = through_air_mm(part, earth, &slabs) - tolerance_mm;
        if let Ok(required_mm) = required(part) {
            cases.at_least(&[part.owner, earth.owner], measured_mm, required_mm, || {
                format!(
                    "clearance of {} (`{}`) to the earthed {}",
                    part.owner, part.potential, earth.owner
                )
            });
        }
    });
}

fn earthed_metal(context: &Context<'_>, cases: &mut Cases) {
    to_earth(context, cases, CircuitKind::ExE, |part| {
        external_terminal_clearance_mm(part.voltage_v).map_err(|error| error.to_string())
    });
    cases.nothing("there are no bare parts of Ex e circuits");
}

fn intrinsic_earth(context: &Context<'_>, cases: &mut Cases) {
    to_earth(context, cases, CircuitKind::IntrinsicallySafe, |_| {
        Ok(EARTHED_METAL_MM)
    });
    cases.nothing("there are no intrinsically safe circuits");
}

/// Whether a partition closes the whole cross-section of the room but for the permitted gap.
fn closes_the_room(context: &Context<'_>, slab: &Block) -> bool {
    let interior = context.interior();
    let plate_mm = context.arrangement.enclosure.plate.standoff_mm;
    slab.min.y_mm <= PARTITION_GAP_MM
        && interior.height_mm - slab.max.y_mm <= PARTITION_GAP_MM
        && interior.depth_mm - slab.max.z_mm <= PARTITION_GAP_MM
        && slab.min.z_mm <= plate_mm + PARTITION_GAP_MM
}

fn intrinsic_other(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("intrinsically safe and other circuits do not meet in this box");
    let parts = context.live_parts();
    let counted: Vec<&Live> = parts.iter().filter(|part| !part.is_earth()).collect();
    let safe = counted
        .iter()
        .filter(|part| part.kind == CircuitKind::IntrinsicallySafe);
    let required_mm = context
        .arrangement
        .limits
        .intrinsic_separation_mm
        .max(OTHER_CIRCUITS_MM);
    let partitions: Vec<&Block> = context
        .arrangement
        .accessories
        .iter()
        .filter(|accessory| accessory.kind == AccessoryKind::Partition)
        .map(|accessory| &accessory.body)
        .filter(|body| body.max.x_mm - body.min.x_mm >= PARTITION_THICKNESS_MM)
        .collect();
    for part in safe {
        for other in counted
            .iter()
            .filter(|other| other.kind == CircuitKind::ExE)
        {
            let straight_mm = measure::distance_mm(part.block, other.block);
            let between = partitions.iter().filter(|slab| {
                let (left, right) = if part.block.max.x_mm <= other.block.min.x_mm {
                    (part.block, other.block)
                } else {
                    (other.block, part.block)
                };
                left.max.x_mm <= slab.min.x_mm && slab.max.x_mm <= right.min.x_mm
            });
            let measured_mm = between
                .map(|slab| {
                    if closes_the_room(context, slab) {
                        // No way leads round it; the separation is that of the partition.
                        straight_mm.max(required_mm)
                    } else {
                        measure::around_mm(part.block, other.block, slab)
                    }
                })
                .fold(straight_mm, f64::max);
            cases.at_least(&[part.owner, other.owner], measured_mm, required_mm, || {
                format!(
                    "distance of the intrinsically safe {} and {}",
                    part.owner, other.owner
                )
            });
        }
    }
}

fn intrinsic_circuits(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no two intrinsically safe circuits lie near each other");
    let (parts, slabs) = (context.live_parts(), context.insulating_slabs());
    let tolerance_mm = tolerance_mm(context);
    let circuits = |part: &Live<'_>| -> BTreeSet<&str> {
        let known = context.circuits_of_potential.get(part.potential);
        known
            .into_iter()
            .flatten()
            .map(|circuit| circuit.tag.as_str())
            .collect()
    };
    let safe = |part: &Live<'_>| part.kind == CircuitKind::IntrinsicallySafe && !part.is_earth();
    near_pairs(&parts, reach_mm(context), |a, b| {
        if !safe(a) || !safe(b) {
            return;
        }
        let (of_a, of_b) = (circuits(a), circuits(b));
        // A potential without a circuit is that of a spare terminal or an unused core: always separate.
        if !of_a.is_empty() && !of_a.is_disjoint(&of_b) {
            return;
        }
        if !a.potential.is_empty() && a.potential == b.potential {
            return;
        }
        let measured_mm =
            certified_mm(a, b).unwrap_or_else(|| through_air_mm(a, b, &slabs) - tolerance_mm);
        cases.at_least(
            &[a.owner, b.owner],
            measured_mm,
            SEPARATE_CIRCUITS_MM,
            || {
                format!(
                    "distance of the separate intrinsically safe circuits on {} and {}",
                    a.owner, b.owner
                )
            },
        );
    });
}
