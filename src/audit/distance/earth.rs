//! Clearance to earthed metal, of Ex e and of intrinsically safe circuits.

use super::{along_rail_mm, near_pairs, reach_mm, through_air_mm, tolerance_mm};
use crate::audit::case::{Cases, Rule};
use crate::audit::context::{Context, Live, Slab, may_conduct};
use crate::audit::measure;
use crate::catalogue::CircuitKind;
use crate::space::{Block, Face, Point};
use crate::standards::iec_60079_7::{DISTANCES, external_terminal_clearance_mm};
use crate::standards::iec_60079_11::{EARTHED_METAL, EARTHED_METAL_MM};

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "distance.earthed_metal",
        title: "clearance to earthed metal",
        requires: "from bare parts of Ex e circuits to rails, mounting plate, metal walls and lid, what metal entries and their locknuts take up inside, accessories of metal or of an unknown material, the bodies of other elements (whose material is not known) and bare parts connected to earth the way through air, less the workshop tolerance, reaches the table's clearance for the working voltage, at least 3 mm; to its own rail a terminal's distance is that of the part, without tolerance",
        source: DISTANCES,
        unit: "mm",
        check: earthed_metal,
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

/// A piece of metal that is earthed, or may be, with its name.
pub(super) struct Metal<'a> {
    pub name: String,
    pub block: Block,
    pub kind: MetalKind<'a>,
}

/// What decides how the way to a piece of metal is measured.
pub(super) enum MetalKind<'a> {
    /// The rail of this id: the distance of its own terminals is theirs, without tolerance.
    Rail(&'a str),
    /// An accessory on the rail of this id: slabs between it and a terminal shield it.
    OnRail(&'a str),
    /// The body of this element: its own bare parts lie in it by its certificate.
    Element(&'a str),
    /// The part of an entry inside.
    Entry,
    /// Plate and walls.
    Fixed,
}

/// Everything earthed beside the bare parts of earth terminals.
pub(super) fn earthed<'a>(context: &Context<'a>) -> Vec<Metal<'a>> {
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
        kind: MetalKind::Fixed,
    }];
    for rail in &arrangement.rails {
        metal.push(Metal {
            name: rail.id.clone(),
            block: rail.body,
            kind: MetalKind::Rail(&rail.id),
        });
    }
    if may_conduct(Some(enclosure.material)) {
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
                kind: MetalKind::Fixed,
            });
        }
    }
    for entry in arrangement
        .entries
        .iter()
        .filter(|entry| may_conduct(Some(entry.part.material)))
    {
        metal.push(Metal {
            name: entry.id.clone(),
            block: entry.inside,
            kind: MetalKind::Entry,
        });
    }
    for accessory in arrangement
        .accessories
        .iter()
        .filter(|accessory| may_conduct(accessory.material))
    {
        metal.push(Metal {
            name: accessory.id.clone(),
            block: accessory.body,
            kind: MetalKind::OnRail(&accessory.rail),
        });
    }
    for element in &arrangement.elements {
        metal.push(Metal {
            name: format!("body of {}", element.tag),
            block: element.body,
            kind: MetalKind::Element(&element.tag),
        });
    }
    metal
}

/// The way from a bare part to a piece of metal, the tolerance taken off; `None` where it is inside one
/// part.
pub(super) fn way_to_metal_mm(
    part: &Live<'_>,
    piece: &Metal<'_>,
    slabs: &[Slab<'_>],
    tolerance_mm: f64,
) -> Option<f64> {
    let straight_mm = measure::distance_mm(part.block, &piece.block);
    let rail = part.terminal.map(|terminal| terminal.rail.as_str());
    match piece.kind {
        MetalKind::Rail(id) if rail == Some(id) => Some(straight_mm),
        MetalKind::Element(tag) if part.terminal.is_none() && part.owner == tag => None,
        MetalKind::OnRail(id) if rail == Some(id) => {
            Some(along_rail_mm(id, part.block, &piece.block, slabs) - tolerance_mm)
        }
        _ => Some(straight_mm - tolerance_mm),
    }
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
            let Some(measured_mm) = way_to_metal_mm(part, piece, &slabs, tolerance_mm) else {
                continue;
            };
            cases.at_least(&[part.owner, &piece.name], measured_mm, required_mm, || {
                format!(
                    "clearance of {} (`{}`) to {}",
                    part.owner,
                    part.potential_words(),
                    piece.name
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
                    part.owner,
                    part.potential_words(),
                    earth.owner
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
