//! Breaks of the rules of `elements`: operating elements in the lid.

use super::{Broken, broken, place_element};
use crate::fixture::reheat;
use glandrail::catalogue::*;
use glandrail::standards::iec_60947_5_1::UtilisationCategory;

/// The breaks of this group.
pub static BREAKS: &[Broken] = &[
    broken("elements.button_colour", "red start button", |a| {
        a.elements[1].colour = "red".into()
    }),
    broken("elements.button_colour", "red without a function", |a| {
        a.elements[1].function = "mixing".into();
        a.elements[1].colour = "red".into()
    }),
    broken("elements.lamp_colour", "green lamp for danger", |a| {
        a.elements[2].function = "emergency".into()
    }),
    broken(
        "elements.emergency_stop_colour",
        "no yellow background",
        |a| a.elements[0].background = None,
    ),
    broken("elements.emergency_stop_latch", "does not latch", |a| {
        a.elements[0].latching = false
    }),
    broken(
        "elements.emergency_stop_latch",
        "no contact that opens",
        |a| {
            a.elements[0].contacts[0].contact = Some(ContactKind::NO);
        },
    ),
    broken("elements.hole", "hole 0.1 mm too wide", |a| {
        a.elements[0].hole_mm = [22.8, 22.8]
    }),
    broken(
        "elements.centre_distance",
        "29.9 mm between D22 holes",
        |a| {
            a.limits.emergency_stop_free_mm = 0.0;
            a.limits.element_gap_mm = 0.0;
            place_element(&mut a.elements[0], 60.0, 24.0, 24.0, 12.0);
            place_element(&mut a.elements[1], 89.9, 24.0, 24.0, 12.0);
        },
    ),
    broken("elements.utilisation", "1.9 A as AC-15", |a| {
        a.elements[0].contacts[0].utilisation[0].current_a = 1.9;
    }),
    broken("elements.utilisation", "no row for 230 V", |a| {
        a.elements[0].contacts[0].utilisation[0].voltage_v = 110.0;
    }),
    broken("elements.utilisation", "an a.c. row for a d.c. load", |a| {
        a.circuits[0].load = Some(UtilisationCategory::Dc12);
    }),
    broken("elements.utilisation", "a row for a lighter load", |a| {
        for contact in a.elements.iter_mut().flat_map(|one| &mut one.contacts) {
            for row in &mut contact.utilisation {
                row.category = UtilisationCategory::Ac14;
            }
        }
    }),
    broken(
        "elements.utilisation",
        "load not stated, no d.c. row",
        |a| {
            a.circuits[0].load = None;
        },
    ),
    broken("elements.power", "power of the lamp unknown", |a| {
        a.elements[2].power_w = 0.0;
        reheat(a);
    }),
];
