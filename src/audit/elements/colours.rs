//! Colours by function, and what makes an emergency stop one. Knows nothing of holes and contacts' ratings.

use crate::arrangement::PlacedElement;
use crate::audit::case::{Cases, Rule, SLACK};
use crate::audit::context::Context;
use crate::audit::measure;
use crate::catalogue::ElementKind;
use crate::standards::iec_60204_1::{
    BUTTONS, Colour, ColourVerdict, EMERGENCY_STOP_BACKGROUND, EMERGENCY_STOP_COLOUR,
    EMERGENCY_STOP_LATCH, Function, LAMPS, LampMeaning, button_colour, lamp_colour, lamp_meaning,
};

/// How near a red stop button may not come to an emergency stop, mm; the standard says only "near".
const NEAR_EMERGENCY_MM: f64 = 20.0;

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "elements.button_colour",
        title: "colours of buttons by function",
        requires: "a button whose function is start, stop, start-stop, hold-to-run, reset or reset-stop has a colour that the standard permits for it; red for stop only away from an emergency stop; other functions take no red, and otherwise their colour is not judged, so that the rule informs",
        source: BUTTONS,
        unit: "",
        check: button_colours,
    },
    Rule {
        id: "elements.lamp_colour",
        title: "colours of lamps by meaning",
        requires: "a lamp has one of the colours of the standard, and the one of its meaning where its function names a meaning (emergency, abnormal, normal, mandatory, neutral); where it names none the colour is not judged, and the rule informs",
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
        let Some(colour) = known_colour(element, cases) else {
            continue;
        };
        let Some(function) = function_of(element) else {
            let text = || format!("{tag} {} is {colour}", with_function(element));
            if colour == Colour::Red {
                cases.is_so(false, &[tag], text);
            } else {
                cases.informs(&[tag], || not_judged(&text()));
            }
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
        let Some(colour) = known_colour(element, cases) else {
            continue;
        };
        let meaning: Option<LampMeaning> = element.function.trim().parse().ok();
        let text = || format!("lamp {tag} {} is {colour}", with_function(element));
        match meaning {
            Some(meaning) => cases.is_so(lamp_colour(meaning) == colour, &[tag], text),
            None if lamp_meaning(colour).is_none() => cases.is_so(false, &[tag], text),
            None => cases.informs(&[tag], || not_judged(&text())),
        }
    }
}

/// The colour of an element; none, and told, where it is none of the standard.
fn known_colour(element: &PlacedElement, cases: &mut Cases) -> Option<Colour> {
    let known = colour_of(&element.colour);
    if known.is_none() {
        cases.unknown(&[&element.tag], || {
            format!(
                "the colour of {}, `{}`, is none of the standard",
                element.tag, element.colour
            )
        });
    }
    known
}

/// That a colour is not judged, since the standard does not name what it is for.
fn not_judged(found: &str) -> String {
    format!("{found}; the standard names no such function, so that its colour is not judged")
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
        let Some(background) = element.background.as_deref() else {
            cases.unknown(&[&element.tag], || {
                format!(
                    "the background of emergency stop {} is missing",
                    element.tag
                )
            });
            continue;
        };
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
