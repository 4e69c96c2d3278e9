//! Elements in the lid: usable rectangle, gaps, room for a hand.

use crate::audit::case::{Cases, Rule};
use crate::audit::context::Context;
use crate::audit::measure;
use crate::catalogue::ElementKind;
use crate::space::Rect;
use crate::standards::{Source, Status};

const CERTIFICATE: Source = Source::new(
    "certificate of the enclosure",
    "",
    "usable rectangle of the lid",
    Status::Published,
);
const GAP: Source = Source::new(
    "workshop rules",
    "",
    "elements.gap_mm",
    Status::CommonPractice,
);
const FREE: Source = Source::new(
    "workshop rules",
    "",
    "elements.emergency_stop_free_mm",
    Status::CommonPractice,
);
const EDGE: Source = Source::new(
    "workshop rules",
    "",
    "elements.edge_mm",
    Status::CommonPractice,
);

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "space.lid_area",
        title: "elements inside the usable rectangle of the lid",
        requires: "the footprint and the hole of every element lie in the usable rectangle of the lid",
        source: CERTIFICATE,
        unit: "mm",
        check: lid_area,
    },
    Rule {
        id: "space.element_gap",
        title: "gap between elements",
        requires: "between the footprints of two elements there is the workshop's gap",
        source: GAP,
        unit: "mm",
        check: element_gap,
    },
    Rule {
        id: "space.emergency_stop_free",
        title: "room round an emergency stop",
        requires: "round the footprint of an emergency stop no other footprint comes nearer than the workshop allows",
        source: FREE,
        unit: "mm",
        check: emergency_stop_free,
    },
    Rule {
        id: "space.element_edge",
        title: "operated elements clear of the edge of the lid",
        requires: "between the footprint of an element that is operated and the outer edge of the lid there is the workshop's distance; the inside lies in the middle of the outer size",
        source: EDGE,
        unit: "mm",
        check: element_edge,
    },
];

fn lid_area(context: &Context<'_>, cases: &mut Cases) {
    let lid = &context.arrangement.enclosure.lid;
    for element in &context.arrangement.elements {
        let (x, y) = measure::ranges(&element.footprint);
        cases.at_least(&[&element.tag], measure::inside_mm(x, y, lid), 0.0, || {
            format!(
                "distance of the footprint of {} from the edge of the usable lid",
                element.tag
            )
        });
        let [width_mm, height_mm] = element.hole_mm;
        let x = (element.x_mm - width_mm / 2.0, element.x_mm + width_mm / 2.0);
        let y = (
            element.y_mm - height_mm / 2.0,
            element.y_mm + height_mm / 2.0,
        );
        cases.at_least(&[&element.tag], measure::inside_mm(x, y, lid), 0.0, || {
            format!(
                "distance of the hole of {} from the edge of the usable lid",
                element.tag
            )
        });
    }
}

/// Every pair of elements for which `counts` says so, with the distance of their footprints.
fn pairs(
    context: &Context<'_>,
    cases: &mut Cases,
    required_mm: f64,
    counts: impl Fn(ElementKind, ElementKind) -> bool,
) {
    let elements = &context.arrangement.elements;
    for (index, a) in elements.iter().enumerate() {
        for b in elements
            .iter()
            .skip(index + 1)
            .filter(|b| counts(a.kind, b.kind))
        {
            let measured_mm = measure::rect_distance_mm(&a.footprint, &b.footprint);
            cases.at_least(&[&a.tag, &b.tag], measured_mm, required_mm, || {
                format!("gap between the footprints of {} and {}", a.tag, b.tag)
            });
        }
    }
}

fn element_gap(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there are no two elements");
    pairs(
        context,
        cases,
        context.arrangement.limits.element_gap_mm,
        |_, _| true,
    );
}

fn emergency_stop_free(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there is no emergency stop beside other elements");
    let stop = ElementKind::EmergencyStop;
    let required_mm = context.arrangement.limits.emergency_stop_free_mm;
    pairs(context, cases, required_mm, |a, b| a == stop || b == stop);
}

fn operated(kind: ElementKind) -> bool {
    match kind {
        ElementKind::PushButton
        | ElementKind::EmergencyStop
        | ElementKind::Selector
        | ElementKind::IlluminatedPushButton
        | ElementKind::Potentiometer => true,
        ElementKind::Lamp | ElementKind::Ammeter | ElementKind::Voltmeter => false,
    }
}

fn element_edge(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there is no element that is operated");
    let enclosure = &context.arrangement.enclosure;
    let [width_mm, height_mm, _] = enclosure.outer_mm;
    let outer = Rect {
        u_mm: (enclosure.interior.width_mm - width_mm) / 2.0,
        v_mm: (enclosure.interior.height_mm - height_mm) / 2.0,
        width_mm,
        height_mm,
    };
    let required_mm = context.arrangement.limits.element_edge_mm;
    for element in context
        .arrangement
        .elements
        .iter()
        .filter(|element| operated(element.kind))
    {
        let (x, y) = measure::ranges(&element.footprint);
        cases.at_least(
            &[&element.tag],
            measure::inside_mm(x, y, &outer),
            required_mm,
            || {
                format!(
                    "distance of the footprint of {} from the outer edge of the lid",
                    element.tag
                )
            },
        );
    }
}
