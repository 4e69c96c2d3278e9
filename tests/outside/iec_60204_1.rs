//! IEC 60204-1, colours of actuators by their function, as its clause on push-buttons words them (from memory).

use glandrail::standards::iec_60204_1::{Colour, ColourVerdict, Function, button_colour};

#[test]
fn colours_of_actuators() {
    use Colour::{Black, Blue, Green, Grey, Red, White, Yellow};
    use ColourVerdict::{Forbidden, NotNamed, Permitted, PermittedAwayFromEmergency, Preferred};
    let rows = [
        // White, grey, black, red, yellow, green, blue.
        (
            Function::Start,
            [
                Preferred, Permitted, Permitted, Forbidden, NotNamed, Permitted, NotNamed,
            ],
        ),
        (
            Function::Stop,
            [
                Permitted,
                Permitted,
                Preferred,
                PermittedAwayFromEmergency,
                NotNamed,
                Forbidden,
                NotNamed,
            ],
        ),
        (
            Function::StartStop,
            [
                Preferred, Preferred, Preferred, Forbidden, Forbidden, Forbidden, NotNamed,
            ],
        ),
        (
            Function::HoldToRun,
            [
                Preferred, Preferred, Preferred, Forbidden, Forbidden, Forbidden, NotNamed,
            ],
        ),
        (
            Function::Reset,
            [
                Permitted, Permitted, Permitted, NotNamed, NotNamed, Forbidden, Permitted,
            ],
        ),
        (
            Function::ResetStop,
            [
                Permitted, Permitted, Preferred, NotNamed, NotNamed, Forbidden, NotNamed,
            ],
        ),
        (
            Function::EmergencyStop,
            [
                Forbidden, Forbidden, Forbidden, Preferred, Forbidden, Forbidden, Forbidden,
            ],
        ),
    ];
    let colours = [White, Grey, Black, Red, Yellow, Green, Blue];
    for (function, verdicts) in rows {
        for (colour, verdict) in colours.into_iter().zip(verdicts) {
            assert_eq!(
                button_colour(function, colour),
                verdict,
                "{function} {colour}"
            );
        }
    }
}
