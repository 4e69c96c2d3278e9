//! IEC 60204-1 with IEC 60073 and ISO 13850: colours of push-buttons and indicator lamps by function.
//! Knows nothing of parts or places.

use super::provenance::{Source, Status, words};

/// Colours of push-buttons.
pub const BUTTONS: Source = Source::new(
    "IEC 60204-1",
    "",
    "colours of push-buttons, Table 2 (with IEC 60073)",
    Status::Published,
);
/// Colours of indicator lamps.
pub const LAMPS: Source = Source::new(
    "IEC 60204-1",
    "",
    "Table 4 (with IEC 60073)",
    Status::Published,
);
/// Red actuator on yellow.
pub const EMERGENCY_STOP_COLOUR: Source = Source::new(
    "ISO 13850",
    "",
    "colour (with IEC 60204-1)",
    Status::Published,
);
/// The emergency stop latches, and its colours are used for nothing else.
pub const EMERGENCY_STOP_LATCH: Source = Source::new(
    "ISO 13850",
    "2015",
    "latching and reset",
    Status::FromMemory,
);

/// A colour of an actuator, lamp or background.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub enum Colour {
    White,
    Grey,
    Black,
    Red,
    Yellow,
    Green,
    Blue,
}

words!(Colour, "colour", "white, grey, black, red, yellow, green or blue", {
    White => "white", Grey => "grey", Black => "black", Red => "red", Yellow => "yellow",
    Green => "green", Blue => "blue",
});

/// What an actuator does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Function {
    /// Start or ON.
    Start,
    /// Stop or OFF.
    Stop,
    /// Alternately start and stop.
    StartStop,
    /// Runs while held.
    HoldToRun,
    /// Reset.
    Reset,
    /// Reset that also acts as stop.
    ResetStop,
    /// Emergency stop.
    EmergencyStop,
}

words!(Function, "function of an actuator",
    "start, stop, start-stop, hold-to-run, reset, reset-stop or emergency-stop", {
    Start => "start", Stop => "stop", StartStop => "start-stop", HoldToRun => "hold-to-run",
    Reset => "reset", ResetStop => "reset-stop", EmergencyStop => "emergency-stop",
});

/// What the standard says of a colour for a function.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ColourVerdict {
    /// The one to take first.
    Preferred,
    /// May be used.
    Permitted,
    /// May be used, but not near an emergency device.
    PermittedAwayFromEmergency,
    /// Must not be used.
    Forbidden,
    /// Not named for the function. Not a permission.
    NotNamed,
}

/// Whether a colour may be used for an actuator of a function.
///
/// ```
/// use glandrail::standards::iec_60204_1::{button_colour, Colour, ColourVerdict, Function};
/// assert_eq!(button_colour(Function::Start, Colour::White), ColourVerdict::Preferred);
/// assert_eq!(button_colour(Function::Start, Colour::Red), ColourVerdict::Forbidden);
/// assert_eq!(button_colour(Function::EmergencyStop, Colour::Red), ColourVerdict::Preferred);
/// ```
pub const fn button_colour(function: Function, colour: Colour) -> ColourVerdict {
    use ColourVerdict::{Forbidden, NotNamed, Permitted, PermittedAwayFromEmergency, Preferred};
    match (function, colour) {
        (Function::EmergencyStop, Colour::Red) => Preferred,
        (Function::EmergencyStop, _) => Forbidden,
        (Function::Start, Colour::White) => Preferred,
        (Function::Start, Colour::Grey | Colour::Black | Colour::Green) => Permitted,
        (Function::Start, Colour::Red) => Forbidden,
        (Function::Stop, Colour::Black) => Preferred,
        (Function::Stop, Colour::Grey | Colour::White) => Permitted,
        (Function::Stop, Colour::Red) => PermittedAwayFromEmergency,
        (Function::Stop, Colour::Green) => Forbidden,
        (
            Function::StartStop | Function::HoldToRun,
            Colour::White | Colour::Grey | Colour::Black,
        ) => Preferred,
        (
            Function::StartStop | Function::HoldToRun,
            Colour::Red | Colour::Yellow | Colour::Green,
        ) => Forbidden,
        (Function::Reset, Colour::Blue | Colour::White | Colour::Grey | Colour::Black) => Permitted,
        (Function::ResetStop, Colour::Black) => Preferred,
        (Function::ResetStop, Colour::White | Colour::Grey) => Permitted,
        (Function::Reset | Function::ResetStop, Colour::Green) => Forbidden,
        _ => NotNamed,
    }
}

/// Background directly behind the actuator of an emergency stop.
pub const EMERGENCY_STOP_BACKGROUND: Colour = Colour::Yellow;

/// What a lamp tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LampMeaning {
    /// Emergency or danger.
    Emergency,
    /// Abnormal condition, warning.
    Abnormal,
    /// Normal or safe condition.
    Normal,
    /// Mandatory action by the operator.
    Mandatory,
    /// Neutral: anything else.
    Neutral,
}

words!(LampMeaning, "meaning of a lamp", "emergency, abnormal, normal, mandatory or neutral", {
    Emergency => "emergency", Abnormal => "abnormal", Normal => "normal",
    Mandatory => "mandatory", Neutral => "neutral",
});

/// Colour of a lamp by its meaning.
///
/// ```
/// use glandrail::standards::iec_60204_1::{lamp_colour, Colour, LampMeaning};
/// assert_eq!(lamp_colour(LampMeaning::Normal), Colour::Green);
/// ```
pub const fn lamp_colour(meaning: LampMeaning) -> Colour {
    match meaning {
        LampMeaning::Emergency => Colour::Red,
        LampMeaning::Abnormal => Colour::Yellow,
        LampMeaning::Normal => Colour::Green,
        LampMeaning::Mandatory => Colour::Blue,
        LampMeaning::Neutral => Colour::White,
    }
}

/// What a lamp of a colour tells; `None` for grey and black, which no lamp has.
pub const fn lamp_meaning(colour: Colour) -> Option<LampMeaning> {
    match colour {
        Colour::Red => Some(LampMeaning::Emergency),
        Colour::Yellow => Some(LampMeaning::Abnormal),
        Colour::Green => Some(LampMeaning::Normal),
        Colour::Blue => Some(LampMeaning::Mandatory),
        Colour::White => Some(LampMeaning::Neutral),
        Colour::Grey | Colour::Black => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn red_is_kept_for_stopping_and_green_never_stops() {
        for function in Function::ALL {
            let stops = matches!(function, Function::Stop | Function::EmergencyStop);
            let red = button_colour(*function, Colour::Red);
            let red_usable = !matches!(red, ColourVerdict::Forbidden | ColourVerdict::NotNamed);
            assert_eq!(red_usable, stops, "{function}");
            let green = button_colour(*function, Colour::Green);
            assert_eq!(
                green == ColourVerdict::Permitted,
                *function == Function::Start,
                "{function}"
            );
        }
    }

    #[test]
    fn lamp_colours_and_meanings_are_inverse() {
        for meaning in LampMeaning::ALL {
            assert_eq!(lamp_meaning(lamp_colour(*meaning)), Some(*meaning));
        }
    }
}
