//! Operating elements: colours by function, emergency stop, holes, spacing, contacts' utilisation.
//! Knows nothing of the lid's size.

use super::case::{Cases, Rule, SLACK};
use super::context::Context;
use super::measure;
use crate::arrangement::PlacedElement;
use crate::catalogue::ElementKind;
use crate::standards::iec_60204_1::{
    BUTTONS, Colour, ColourVerdict, EMERGENCY_STOP_BACKGROUND, EMERGENCY_STOP_COLOUR,
    EMERGENCY_STOP_LATCH, Function, LAMPS, LampMeaning, button_colour, lamp_colour, lamp_meaning,
};
use crate::standards::iec_60947_5_1::{CENTRE_DISTANCES, HOLES, MountingHole};
use crate::standards::{Source, Status};

const UTILISATION: Source = Source::new(
    "IEC 60947-5-1",
    "",
    "utilisation categories",
    Status::FromMemory,
);
const POWER: Source = Source::new("IEC 60079-7", "2015+A1:2017", "Annex E", Status::FromMemory);

/// How near a red stop button may not come to an emergency stop, mm; the standard says only "near".
const NEAR_EMERGENCY_MM: f64 = 20.0;

/// The rules of this group.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "elements.button_colour",
        title: "colours of buttons by function",
        requires: "a button whose function is start, stop, start-stop, hold-to-run, reset or reset-stop has a colour that the standard permits for it; red for stop only away from an emergency stop; other functions take no red",
        source: BUTTONS,
        unit: "",
        check: button_colours,
    },
    Rule {
        id: "elements.lamp_colour",
        title: "colours of lamps by meaning",
        requires: "a lamp has one of the colours of the standard, and the one of its meaning where its function names a meaning (emergency, abnormal, normal, mandatory, neutral)",
        source: LAMPS,
        unit: "",
        check: lamp_colours,
    },
    Rule {
        id: "elements.emergency_stop_colour",
        title: "colours of the emergency stop",
        requires: "an emergency stop is red on a yellow background",
        source: EMERGENCY_STOP_COLOUR,
        unit: "",
        check: emergency_stop_colour,
    },
    Rule {
        id: "elements.emergency_stop_latch",
        title: "emergency stop latches",
        requires: "an emergency stop latches and has at least one contact that opens",
        source: EMERGENCY_STOP_LATCH,
        unit: "",
        check: emergency_stop_latch,
    },
    Rule {
        id: "elements.hole",
        title: "holes of standard size",
        requires: "an element with a standard hole (D12, D16, D22, D30) has a round hole of that size within the standard's tolerance",
        source: HOLES,
        unit: "mm",
        check: holes,
    },
    Rule {
        id: "elements.centre_distance",
        title: "centre distances of standard holes",
        requires: "two elements with standard holes keep the standard's least centre distance: the smaller one across or the larger one along, in one sense for the whole lid; for two sizes the mean of both; a size for which no distance is known is kept apart by its footprint alone, and the rule informs",
        source: CENTRE_DISTANCES,
        unit: "mm",
        check: centre_distances,
    },
    Rule {
        id: "elements.utilisation",
        title: "contacts by utilisation category",
        requires: "for every wired contact block a row of a utilisation category reaches voltage and current of its circuit; which category the load is of is not in the list, the best one counts",
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

/// A colour as the standard names it; qualifying words such as `light` do not count.
fn colour_of(text: &str) -> Option<Colour> {
    let lower = text.to_ascii_lowercase().replace("gray", "grey");
    lower
        .split_whitespace()
        .next_back()
        .and_then(|word| word.parse().ok())
}

fn function_of(element: &PlacedElement) -> Option<Function> {
    let words = element
        .function
        .trim()
        .to_ascii_lowercase()
        .replace([' ', '_'], "-");
    match words.as_str() {
        "on" => Some(Function::Start),
        "off" => Some(Function::Stop),
        "start/stop" => Some(Function::StartStop),
        other => other.parse().ok(),
    }
}

fn button_colours(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there is no button");
    let elements = &context.arrangement.elements;
    let buttons = elements.iter().filter(|element| {
        matches!(
            element.kind,
            ElementKind::PushButton | ElementKind::IlluminatedPushButton
        )
    });
    for element in buttons {
        let tag = element.tag.as_str();
        let Some(colour) = colour_of(&element.colour) else {
            cases.unknown(&[tag], || {
                format!(
                    "the colour of {tag}, `{}`, is none of the standard",
                    element.colour
                )
            });
            continue;
        };
        let Some(function) = function_of(element) else {
            cases.is_so(colour != Colour::Red, &[tag], || {
                format!("{tag} {} is {colour}", with_function(element))
            });
            continue;
        };
        let near = elements
            .iter()
            .filter(|other| other.kind == ElementKind::EmergencyStop)
            .any(|stop| {
                measure::rect_distance_mm(&element.footprint, &stop.footprint)
                    < NEAR_EMERGENCY_MM - SLACK
            });
        let holds = match button_colour(function, colour) {
            ColourVerdict::Preferred | ColourVerdict::Permitted => true,
            ColourVerdict::PermittedAwayFromEmergency => !near,
            ColourVerdict::Forbidden | ColourVerdict::NotNamed => false,
        };
        cases.is_so(holds, &[tag], || {
            format!("{tag} for {function} is {colour}")
        });
    }
}

fn lamp_colours(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there is no lamp");
    for element in context
        .arrangement
        .elements
        .iter()
        .filter(|element| element.kind == ElementKind::Lamp)
    {
        let tag = element.tag.as_str();
        let Some(colour) = colour_of(&element.colour) else {
            cases.unknown(&[tag], || {
                format!(
                    "the colour of {tag}, `{}`, is none of the standard",
                    element.colour
                )
            });
            continue;
        };
        let meaning: Option<LampMeaning> = element.function.trim().parse().ok();
        let holds = match meaning {
            Some(meaning) => lamp_colour(meaning) == colour,
            None => lamp_meaning(colour).is_some(),
        };
        cases.is_so(holds, &[tag], || {
            format!("lamp {tag} {} is {colour}", with_function(element))
        });
    }
}

fn with_function(element: &PlacedElement) -> String {
    match element.function.trim() {
        "" => "of no stated function".to_string(),
        function => format!("with the function `{function}`"),
    }
}

fn emergency_stops<'a>(context: &Context<'a>) -> impl Iterator<Item = &'a PlacedElement> {
    context
        .arrangement
        .elements
        .iter()
        .filter(|element| element.kind == ElementKind::EmergencyStop)
}

fn emergency_stop_colour(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there is no emergency stop");
    for element in emergency_stops(context) {
        let background = element.background.as_deref().unwrap_or("none");
        let holds = colour_of(&element.colour) == Some(Colour::Red)
            && colour_of(background) == Some(EMERGENCY_STOP_BACKGROUND);
        cases.is_so(holds, &[&element.tag], || {
            format!(
                "emergency stop {} is {} on {background}",
                element.tag, element.colour
            )
        });
    }
}

fn emergency_stop_latch(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there is no emergency stop");
    for element in emergency_stops(context) {
        let opens = element
            .contacts
            .iter()
            .any(|contact| contact.contact == Some(crate::catalogue::ContactKind::NC));
        cases.is_so(element.latching && opens, &[&element.tag], || {
            format!(
                "emergency stop {} {} and has {} contact that opens",
                element.tag,
                if element.latching {
                    "latches"
                } else {
                    "does not latch"
                },
                if opens { "a" } else { "no" }
            )
        });
    }
}

fn holes(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no element has a standard hole");
    for element in &context.arrangement.elements {
        let Some(name) = &element.hole else { continue };
        let tag = element.tag.as_str();
        let Ok(size) = name.parse::<MountingHole>() else {
            cases.unknown(&[tag], || {
                format!("hole `{name}` of {tag} is none of the standard")
            });
            continue;
        };
        let (least_mm, plus_mm) = size.diameter_mm();
        for measured_mm in element.hole_mm {
            cases.at_least(&[tag], measured_mm, least_mm, || {
                format!("hole of {tag} for {name}")
            });
            cases.at_most(&[tag], measured_mm, least_mm + plus_mm, || {
                format!("hole of {tag} for {name}")
            });
        }
    }
}

/// The elements with a standard hole whose distances are known, and these two distances.
fn spaced<'a>(context: &Context<'a>) -> Vec<(&'a PlacedElement, f64, f64)> {
    let elements = context.arrangement.elements.iter();
    elements
        .filter_map(|element| {
            let size: MountingHole = element.hole.as_deref()?.parse().ok()?;
            let (larger_mm, smaller_mm) = size.centre_distance_mm().ok()?;
            Some((element, larger_mm, smaller_mm))
        })
        .collect()
}

fn centre_distances(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there are no two elements with standard holes");
    let all = spaced(context);
    let holes = context.arrangement.elements.iter();
    let holes: Vec<&PlacedElement> = holes.filter(|element| element.hole.is_some()).collect();
    let is_spaced = |tag: &str| all.iter().any(|(known, _, _)| known.tag == tag);
    if holes.len() > 1 {
        for element in holes.iter().filter(|element| !is_spaced(&element.tag)) {
            cases.informs(&[&element.tag], || {
                format!(
                    "no least centre distance is known for the hole {} of {}; its footprint alone keeps it apart",
                    element.hole.as_deref().unwrap_or_default(),
                    element.tag
                )
            });
        }
    }
    // How far the nearest pair is beyond its least distance, with the larger distance upwards or across.
    let margin_mm =
        |a: &(&PlacedElement, f64, f64), b: &(&PlacedElement, f64, f64), upwards: bool| {
            let (larger_mm, smaller_mm) = ((a.1 + b.1) / 2.0, (a.2 + b.2) / 2.0);
            let (across, up) = if upwards {
                (smaller_mm, larger_mm)
            } else {
                (larger_mm, smaller_mm)
            };
            let (x_mm, y_mm) = ((a.0.x_mm - b.0.x_mm).abs(), (a.0.y_mm - b.0.y_mm).abs());
            if x_mm - across >= y_mm - up {
                (x_mm, across)
            } else {
                (y_mm, up)
            }
        };
    let worst = |upwards: bool| {
        let mut worst_mm = f64::INFINITY;
        for (index, a) in all.iter().enumerate() {
            for b in all.iter().skip(index + 1) {
                let (measured_mm, required_mm) = margin_mm(a, b, upwards);
                worst_mm = worst_mm.min(measured_mm - required_mm);
            }
        }
        worst_mm
    };
    let upwards = worst(true) >= worst(false);
    for (index, a) in all.iter().enumerate() {
        for b in all.iter().skip(index + 1) {
            let (measured_mm, required_mm) = margin_mm(a, b, upwards);
            cases.at_least(&[&a.0.tag, &b.0.tag], measured_mm, required_mm, || {
                format!("centre distance of {} and {}", a.0.tag, b.0.tag)
            });
        }
    }
}

fn utilisation(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no contact block is wired");
    for element in &context.arrangement.elements {
        for contact in element
            .contacts
            .iter()
            .filter(|contact| contact.part.is_some())
        {
            let wires = context.wires_on_contact(contact);
            let current_a = wires.iter().map(|wire| wire.current_a).fold(0.0, f64::max);
            let potentials = contact
                .points
                .iter()
                .filter(|point| !point.wires.is_empty());
            let voltage_v = potentials
                .map(|point| {
                    context
                        .voltage_of(&point.potential)
                        .max(point.working_voltage_v)
                })
                .fold(0.0, f64::max);
            if wires.is_empty() {
                continue;
            }
            let part = contact.part.as_deref().unwrap_or_default();
            let subject = [element.tag.as_str(), part];
            let rows = contact
                .utilisation
                .iter()
                .filter(|row| row.voltage_v >= voltage_v - SLACK);
            match rows.max_by(|a, b| a.current_a.total_cmp(&b.current_a)) {
                None => cases.unknown(&subject, || {
                    format!(
                        "{part} of {} has no row of a utilisation category for {voltage_v} V",
                        element.tag
                    )
                }),
                Some(row) => cases.at_least(&subject, row.current_a, current_a, || {
                    format!(
                        "rating of {part} of {} at {voltage_v} V as {}",
                        element.tag, row.category
                    )
                }),
            }
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
                format!("{} dissipates {} W", element.tag, element.power_w)
            });
        } else if dissipates {
            cases.unknown(&[&element.tag], || {
                format!("the power of {} is unknown", element.tag)
            });
        }
    }
}
