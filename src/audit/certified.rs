//! Every part that has a certificate, with where it stands. Knows nothing of what is asked of certificates.

use super::context::Context;
use crate::catalogue::{Certificate, CircuitKind};

/// Where a part stands, as far as its certificate is concerned.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Role {
    /// The enclosure, entries, elements: part of the boundary to the outside.
    Boundary,
    /// A terminal or contact with bare metal, for circuits of this kind.
    Inner(CircuitKind),
    /// A jumper, an accessory on the rail, an earth plate.
    Auxiliary,
}

/// Every part that has a certificate, with its name and role.
pub(super) fn parts<'a>(context: &Context<'a>) -> Vec<(String, Role, &'a Certificate)> {
    let arrangement = context.arrangement;
    let mut all = vec![(
        arrangement.enclosure.id.clone(),
        Role::Boundary,
        &arrangement.enclosure.certificate,
    )];
    for terminal in &arrangement.terminals {
        all.push((
            terminal.id.clone(),
            Role::Inner(terminal.kind),
            &terminal.certificate,
        ));
    }
    for accessory in &arrangement.accessories {
        all.push((
            accessory.id.clone(),
            Role::Auxiliary,
            &accessory.certificate,
        ));
    }
    for jumper in &arrangement.jumpers {
        all.push((jumper.id.clone(), Role::Auxiliary, &jumper.certificate));
    }
    for entry in &arrangement.entries {
        all.push((entry.id.clone(), Role::Boundary, &entry.part.certificate));
        if let Some(plate) = &entry.earth_plate {
            let name = format!("{} ({})", entry.id, plate.id);
            all.push((name, Role::Auxiliary, &plate.certificate));
        }
    }
    for element in &arrangement.elements {
        all.push((element.tag.clone(), Role::Boundary, &element.certificate));
        for contact in element
            .contacts
            .iter()
            .filter(|contact| contact.part.is_some())
        {
            let kinds = context.wires_on_contact(contact).into_iter();
            let kinds: Vec<CircuitKind> = kinds
                .filter_map(|wire| context.kind_of_circuit(&wire.circuit))
                .collect();
            let safe = if kinds.is_empty() {
                contact.circuits.contains(&CircuitKind::IntrinsicallySafe)
                    && !contact.circuits.contains(&CircuitKind::ExE)
            } else {
                kinds
                    .iter()
                    .all(|kind| *kind == CircuitKind::IntrinsicallySafe)
            };
            let kind = if safe {
                CircuitKind::IntrinsicallySafe
            } else {
                CircuitKind::ExE
            };
            let points: Vec<&str> = contact
                .points
                .iter()
                .map(|point| point.name.as_str())
                .collect();
            let name = format!("{}/{}", element.tag, points.join("-"));
            all.push((name, Role::Inner(kind), &contact.certificate));
        }
    }
    all
}
