//! Every certified part of an arrangement with what it is used for. Knows nothing of marking strings.

use crate::arrangement::{Arrangement, PlacedContact};
use crate::catalogue::{Certificate, CircuitKind};
use std::collections::BTreeMap;

/// A part that has a certificate.
#[derive(Debug, Clone)]
pub(super) struct UsedPart<'a> {
    /// Its name in the arrangement, with its catalogue id where that differs.
    pub name: String,
    /// Its certificate.
    pub certificate: &'a Certificate,
    /// Whether it is part of the boundary to the outside: enclosure, entries, elements. These alone
    /// keep dust out.
    pub boundary: bool,
    /// Whether it carries Ex e circuits, or none at all.
    pub increased_safety: bool,
    /// Whether it carries intrinsically safe circuits.
    pub intrinsically_safe: bool,
}

/// Every certified part. Rails have no certificate of their own.
pub(super) fn used_parts(arrangement: &Arrangement) -> Vec<UsedPart<'_>> {
    let plain = |name: String, certificate, boundary| UsedPart {
        name,
        certificate,
        boundary,
        increased_safety: true,
        intrinsically_safe: false,
    };
    let carrying = |name: String, certificate, kinds: &[CircuitKind]| UsedPart {
        name,
        certificate,
        boundary: false,
        increased_safety: kinds.contains(&CircuitKind::ExE),
        intrinsically_safe: kinds.contains(&CircuitKind::IntrinsicallySafe),
    };
    let enclosure = &arrangement.enclosure;
    let mut parts = vec![plain(enclosure.id.clone(), &enclosure.certificate, true)];
    for terminal in &arrangement.terminals {
        let name = format!("{} ({})", terminal.id, terminal.part);
        parts.push(carrying(name, &terminal.certificate, &[terminal.kind]));
    }
    for accessory in &arrangement.accessories {
        let name = format!("{} ({})", accessory.id, accessory.part);
        parts.push(plain(name, &accessory.certificate, false));
    }
    let kinds: BTreeMap<&str, CircuitKind> = arrangement
        .terminals
        .iter()
        .map(|terminal| (terminal.id.as_str(), terminal.kind))
        .collect();
    for jumper in &arrangement.jumpers {
        let name = format!("{} ({})", jumper.id, jumper.part);
        let linked: Vec<CircuitKind> = jumper
            .terminals
            .iter()
            .filter_map(|terminal| kinds.get(terminal.as_str()).copied())
            .collect();
        parts.push(carrying(name, &jumper.certificate, &linked));
    }
    for entry in &arrangement.entries {
        let name = format!("{} ({})", entry.id, entry.part.id);
        parts.push(plain(name, &entry.part.certificate, true));
        if let Some(plate) = &entry.earth_plate {
            let name = format!("{} ({})", entry.id, plate.id);
            parts.push(plain(name, &plate.certificate, false));
        }
    }
    for element in &arrangement.elements {
        let name = format!("{} ({})", element.tag, element.part);
        // Its own path (lamp, meter, potentiometer) is certified with it.
        let own_path = element.contacts.iter().filter(|own| own.part.is_none());
        let intrinsically_safe = own_path
            .flat_map(|own| kinds_on(arrangement, own))
            .any(|kind| kind == CircuitKind::IntrinsicallySafe);
        parts.push(UsedPart {
            intrinsically_safe,
            ..plain(name, &element.certificate, true)
        });
        for contact in &element.contacts {
            let Some(part) = &contact.part else { continue };
            let name = format!("{} ({part})", element.tag);
            parts.push(carrying(
                name,
                &contact.certificate,
                &kinds_on(arrangement, contact),
            ));
        }
    }
    parts
}

/// The kinds of circuit on a contact; where nothing is wired, those it may carry.
fn kinds_on(arrangement: &Arrangement, contact: &PlacedContact) -> Vec<CircuitKind> {
    let on_it = |id: &String| contact.points.iter().any(|point| point.wires.contains(id));
    let wired: Vec<CircuitKind> = arrangement
        .wires
        .iter()
        .filter(|wire| on_it(&wire.id))
        .filter_map(|wire| {
            let circuit = arrangement
                .circuits
                .iter()
                .find(|circuit| circuit.tag == wire.circuit)?;
            Some(circuit.kind)
        })
        .collect();
    if wired.is_empty() {
        contact.circuits.clone()
    } else {
        wired
    }
}
