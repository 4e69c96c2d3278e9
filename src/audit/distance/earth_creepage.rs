//! Creepage to earthed metal of Ex e circuits: over the terminals of a rail, and over the lid.
//!
//! A terminal's surface ends at its rail, an element's at the lid: the way over the part itself belongs to
//! its certificate and rated voltage. Beyond that a surface leads from a terminal over its neighbours to
//! earth terminals and metal accessories of the same rail, and from an element over a lid and walls that
//! insulate to the bodies of other elements and to metal entries. The way through air stands for it.

use super::earth::{MetalKind, earthed, way_to_metal_mm};
use super::material::{Hanging, Unjudged, creepage_mm};
use super::{near_pairs, reach_mm, through_air_mm, tolerance_mm};
use crate::audit::case::{Cases, Rule, figure_text};
use crate::audit::context::Context;
use crate::catalogue::CircuitKind;
use crate::standards::MaterialGroup;
use crate::standards::iec_60079_7::{DISTANCES, external_terminal_creepage_mm};

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[Rule {
    id: "distance.earth_creepage",
    title: "creepage to earthed metal",
    requires: "from bare parts of Ex e terminals to earth terminals and to accessories of metal or of an unknown material on the same rail, and from those of elements to the bodies of other elements (whose material is not known) and to metal entries, the way over surfaces, which is never shorter than the way through air, less the workshop tolerance, reaches the table's creepage for the working voltage and the material group, between elements and over the lid group IIIa; to its own rail and lid the creepage of a part is that of its certificate",
    source: DISTANCES,
    unit: "mm",
    check: creepage,
}];

fn creepage(context: &Context<'_>, cases: &mut Cases) {
    let (parts, slabs) = (context.live_parts(), context.insulating_slabs());
    let tolerance_mm = tolerance_mm(context);
    let metal = earthed(context);
    let mut hanging = Hanging::default();
    let live = |kind, earth: bool| kind == CircuitKind::ExE && !earth;
    for part in parts.iter().filter(|part| live(part.kind, part.is_earth())) {
        let required = match part.terminal {
            Some(terminal) => creepage_mm(part.voltage_v, [terminal, terminal]),
            None => external_terminal_creepage_mm(part.voltage_v, MaterialGroup::IIIa)
                .map(|required_mm| (required_mm, MaterialGroup::IIIa))
                .map_err(|error| Unjudged::Voltage(error.to_string())),
        };
        let rail = part.terminal.map(|terminal| terminal.rail.as_str());
        for piece in &metal {
            let joined = match piece.kind {
                MetalKind::OnRail(id) => rail == Some(id),
                MetalKind::Element(_) | MetalKind::Entry => rail.is_none(),
                MetalKind::Rail(_) | MetalKind::Fixed => false,
            };
            let way_mm = way_to_metal_mm(part, piece, &slabs, tolerance_mm);
            let Some(measured_mm) = way_mm.filter(|_| joined) else {
                continue;
            };
            match &required {
                Err(Unjudged::Material(unknown)) => hanging.add(unknown.clone()),
                Err(Unjudged::Voltage(text)) => cases.unknown(&[part.owner, &piece.name], || {
                    format!("{} and {}: {text}", part.owner, piece.name)
                }),
                Ok((required_mm, group)) => {
                    cases.at_least(
                        &[part.owner, &piece.name],
                        measured_mm,
                        *required_mm,
                        || {
                            format!(
                                "creepage of {} (`{}`) to {}, {} V, material group {group}",
                                part.owner,
                                part.potential_words(),
                                piece.name,
                                figure_text(part.voltage_v)
                            )
                        },
                    );
                }
            }
        }
    }
    near_pairs(&parts, reach_mm(context), |a, b| {
        let (part, earth) = if b.is_earth() { (a, b) } else { (b, a) };
        let Some((first, second)) = part.terminal.zip(earth.terminal) else {
            return;
        };
        if part.kind != CircuitKind::ExE
            || part.is_earth()
            || !earth.is_earth()
            || first.rail != second.rail
        {
            return;
        }
        let subject = [part.owner, earth.owner];
        match creepage_mm(part.voltage_v, [first, second]) {
            Err(Unjudged::Material(unknown)) => hanging.add(unknown),
            Err(Unjudged::Voltage(text)) => cases.unknown(&subject, || {
                format!("{} and {}: {text}", part.owner, earth.owner)
            }),
            Ok((required_mm, group)) => {
                let measured_mm = through_air_mm(part, earth, &slabs) - tolerance_mm;
                cases.at_least(&subject, measured_mm, required_mm, || {
                    format!(
                        "creepage of {} (`{}`) to the earthed {}, {} V, material group {group}",
                        part.owner,
                        part.potential_words(),
                        earth.owner,
                        figure_text(part.voltage_v)
                    )
                });
            }
        }
    });
    hanging.tell(cases);
    cases.nothing("no insulating surface leads from a bare part to earthed metal of another part");
}
