//! IEC 60715, profiles of rails: height over the plate, sheet and channel (from memory).

use glandrail::standards::iec_60715::RailProfile;

#[test]
fn profiles_of_rails() {
    for (profile, height_mm, thickness_mm, channel_mm) in [
        (RailProfile::Th15, Some(5.5), Some(1.0), Some(10.5)),
        (RailProfile::Th35Low, Some(7.5), Some(1.0), Some(27.0)),
        (RailProfile::Th35High, Some(15.0), Some(1.5), Some(27.0)),
        (RailProfile::Th75, Some(25.0), Some(3.0), None),
        (RailProfile::G32, Some(15.0), Some(1.5), None),
        (RailProfile::C40, None, None, None),
    ] {
        assert_eq!(profile.height_mm(), height_mm, "{profile:?}");
        assert_eq!(profile.thickness_mm(), thickness_mm, "{profile:?}");
        assert_eq!(profile.channel_mm(), channel_mm, "{profile:?}");
    }
}
