//! Which colours a button or lamp may have for what it does (IEC 60204-1).

use crate::catalogue::{ElementKind, OperatingElement};
use crate::requirements::{ElementRequirement, RequirementList};
use crate::standards::iec_60204_1::{
    Colour, ColourVerdict, Function, LampMeaning, button_colour, lamp_colour, lamp_meaning,
};
use crate::workshop::Workshop;

/// Least distance between a red stop button and an emergency stop; the standard says "near" only.
const AWAY_FROM_EMERGENCY_MM: f64 = 20.0;

/// Why the colour of a part does not go with what the list wants of it; `None` where it does.
pub(super) fn colour_refusal(
    list: &RequirementList,
    workshop: &Workshop,
    requirement: &ElementRequirement,
    part: &OperatingElement,
) -> Option<String> {
    let button = is_button(part);
    if !button && part.kind != ElementKind::Lamp {
        return None;
    }
    let Some(colour) = colour_of(part) else {
        return Some(format!(
            "is {}, which is no colour of IEC 60204-1",
            part.colour
        ));
    };
    let permitted = if button {
        button_permits(list, workshop, &requirement.function, colour)
    } else {
        lamp_permits(&requirement.function, colour)
    };
    if permitted {
        return None;
    }
    Some(match requirement.function.as_str() {
        "" => format!("is {colour}, which IEC 60204-1 permits for certain functions only"),
        function => format!("is {colour}, which IEC 60204-1 does not permit for `{function}`"),
    })
}

/// Whether the colour of a button is the one that the standard prefers for its function: white for start and on,
/// black for stop and off.
pub(super) fn colour_is_preferred(
    requirement: &ElementRequirement,
    part: &OperatingElement,
) -> bool {
    match (
        is_button(part),
        function_of(&requirement.function),
        colour_of(part),
    ) {
        (true, Some(function), Some(colour)) => {
            button_colour(function, colour) == ColourVerdict::Preferred
        }
        _ => false,
    }
}

fn is_button(part: &OperatingElement) -> bool {
    matches!(
        part.kind,
        ElementKind::PushButton | ElementKind::IlluminatedPushButton
    )
}

/// The colour of a part, where it is one of the standard; `light blue` is blue.
fn colour_of(part: &OperatingElement) -> Option<Colour> {
    let words = part.colour.to_ascii_lowercase().replace("gray", "grey");
    words.split_whitespace().next_back()?.parse().ok()
}

fn button_permits(
    list: &RequirementList,
    workshop: &Workshop,
    function: &str,
    colour: Colour,
) -> bool {
    let Some(function) = function_of(function) else {
        return colour != Colour::Red;
    };
    match button_colour(function, colour) {
        ColourVerdict::Preferred | ColourVerdict::Permitted => true,
        ColourVerdict::PermittedAwayFromEmergency => {
            workshop.elements.emergency_stop_free_mm >= AWAY_FROM_EMERGENCY_MM
                || list
                    .elements
                    .iter()
                    .all(|element| element.kind != ElementKind::EmergencyStop)
        }
        ColourVerdict::Forbidden | ColourVerdict::NotNamed => false,
    }
}

/// The function of a button, as the list words it.
fn function_of(text: &str) -> Option<Function> {
    let words = text.trim().to_ascii_lowercase().replace([' ', '_'], "-");
    match words.as_str() {
        "on" => Some(Function::Start),
        "off" => Some(Function::Stop),
        "start/stop" => Some(Function::StartStop),
        other => other.parse().ok(),
    }
}

fn lamp_permits(function: &str, colour: Colour) -> bool {
    match function.trim().parse::<LampMeaning>() {
        Ok(meaning) => lamp_colour(meaning) == colour,
        Err(_) => lamp_meaning(colour).is_some(),
    }
}
