//! What contacts switch, by utilisation category, and the power of what dissipates.

use crate::arrangement::{PlacedContact, PlacedElement};
use crate::audit::case::{Cases, Rule, SLACK, figure_text};
use crate::audit::context::Context;
use crate::catalogue::{CircuitKind, ElementKind, UtilisationRating};
use crate::standards::iec_60947_5_1::{UTILISATION, UtilisationCategory};
use crate::standards::{Source, Status};

const POWER: Source = Source::new("IEC 60079-7", "2015+A1:2017", "Annex E", Status::FromMemory);

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "elements.utilisation",
        title: "contacts by utilisation category",
        requires: "for every wired contact block a rating reaches voltage and current of its circuit by the utilisation category of the load, or by a severer one of the same kind of current; where the list states no category AC-15 and DC-13 count both (DC-13 alone for an intrinsically safe circuit), and the rule informs",
        source: UTILISATION,
        unit: "A",
        check: utilisation,
    },
    Rule {
        id: "elements.power",
        title: "power of lamps, meters and potentiometers",
        requires: "for every lamp, meter and potentiometer the power that it dissipates is known",
        source: POWER,
        unit: "",
        check: power,
    },
];

/// The category by which a contact is judged, and whether the list states it.
struct Judged {
    category: UtilisationCategory,
    stated: bool,
}

/// The categories of what a contact switches: that of every circuit on it that states one; for one that states
/// none electromagnets of either kind of current, of direct current alone where it is intrinsically safe.
fn judged_by(context: &Context<'_>, contact: &PlacedContact) -> Vec<Judged> {
    let mut found: Vec<Judged> = Vec::new();
    let mut add = |category, stated| {
        if !found.iter().any(|known| known.category == category) {
            found.push(Judged { category, stated });
        }
    };
    for wire in context.wires_on_contact(contact) {
        let circuit = context.circuits.get(wire.circuit.as_str());
        match circuit.map(|circuit| (circuit.load, circuit.kind)) {
            Some((Some(load), _)) => add(load, true),
            Some((None, CircuitKind::IntrinsicallySafe)) => add(UtilisationCategory::Dc13, false),
            Some((None, CircuitKind::ExE)) | None => {
                add(UtilisationCategory::Ac15, false);
                add(UtilisationCategory::Dc13, false);
            }
        }
    }
    found
}

/// The largest current for which a contact is rated at a voltage by a category, or by one of the same kind of
/// current that stands for a heavier load.
fn rated_a(contact: &PlacedContact, category: UtilisationCategory, voltage_v: f64) -> Option<f64> {
    let same_current = |row: &&UtilisationRating| {
        row.category.is_alternating() == category.is_alternating()
            && severity(row.category) >= severity(category)
    };
    let rows = contact.utilisation.iter().filter(same_current);
    rows.filter(|row| row.voltage_v >= voltage_v - SLACK)
        .map(|row| row.current_a)
        .max_by(f64::total_cmp)
}

/// How heavy the loads of a category are among those of its kind of current.
fn severity(category: UtilisationCategory) -> u8 {
    use UtilisationCategory::{Ac12, Ac13, Ac14, Ac15, Dc12, Dc13, Dc14};
    match category {
        Ac12 | Dc12 => 1,
        Ac13 | Dc13 => 2,
        Ac14 | Dc14 => 3,
        Ac15 => 4,
    }
}

fn utilisation(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no contact block is wired");
    for element in &context.arrangement.elements {
        let blocks = element.contacts.iter();
        for contact in blocks.filter(|contact| contact.part.is_some()) {
            switched(context, element, contact, cases);
        }
    }
}

/// One contact block against what is wired to it.
fn switched(
    context: &Context<'_>,
    element: &PlacedElement,
    contact: &PlacedContact,
    cases: &mut Cases,
) {
    let wires = context.wires_on_contact(contact);
    let current_a = wires.iter().map(|wire| wire.current_a).fold(0.0, f64::max);
    let wired = contact
        .points
        .iter()
        .filter(|point| !point.wires.is_empty());
    let voltage_v = wired
        .map(|point| {
            context
                .voltage_of(&point.potential)
                .max(point.working_voltage_v)
        })
        .fold(0.0, f64::max);
    let part = contact.part.as_deref().unwrap_or_default();
    let subject = [element.tag.as_str(), part];
    for Judged { category, stated } in judged_by(context, contact) {
        let told = if stated {
            ""
        } else {
            "; the load of its circuit is not stated, so that the severe category counts"
        };
        match rated_a(contact, category, voltage_v) {
            None => cases.unknown(&subject, || {
                format!(
                    "{part} of {} has no rating as {category} for {} V{told}",
                    element.tag,
                    figure_text(voltage_v)
                )
            }),
            Some(rated_a) if stated || rated_a < current_a - SLACK => {
                cases.at_least(&subject, rated_a, current_a, || {
                    format!(
                        "rating of {part} of {} at {} V as {category}{told}",
                        element.tag,
                        figure_text(voltage_v)
                    )
                });
            }
            Some(rated_a) => cases.informs_at_least(&subject, rated_a, current_a, || {
                format!(
                    "{part} of {} is rated {} A at {} V as {category}, {} A are needed{told}",
                    element.tag,
                    figure_text(rated_a),
                    figure_text(voltage_v),
                    figure_text(current_a)
                )
            }),
        }
    }
}

fn power(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there is no lamp, meter or potentiometer");
    for element in &context.arrangement.elements {
        let dissipates = match element.kind {
            ElementKind::Lamp
            | ElementKind::IlluminatedPushButton
            | ElementKind::Ammeter
            | ElementKind::Voltmeter
            | ElementKind::Potentiometer => true,
            ElementKind::PushButton | ElementKind::EmergencyStop | ElementKind::Selector => false,
        };
        if dissipates && element.power_w > 0.0 {
            cases.is_so(true, &[&element.tag], || {
                format!(
                    "{} dissipates {} W",
                    element.tag,
                    figure_text(element.power_w)
                )
            });
        } else if dissipates {
            cases.unknown(&[&element.tag], || {
                format!("the power of {} is unknown", element.tag)
            });
        }
    }
}
