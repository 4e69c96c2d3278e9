//! IEC 60715: mounting rails, their profile and main dimensions.
//! Knows nothing of what is snapped onto them.

use super::provenance::{Source, Status, words};

/// Rail names with width and height.
pub const PROFILES: Source = Source::new("IEC 60715", "", "rail profiles", Status::Published);
/// Sheet thickness, channel widths, tolerances and slots.
pub const DETAILS: Source = Source::new(
    "IEC 60715",
    "",
    "thickness, channel and tolerances",
    Status::FromMemory,
);

/// A rail profile.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RailProfile {
    /// Top hat, 15 mm wide.
    Th15,
    /// Top hat, 35 mm wide, 7.5 mm high.
    Th35Low,
    /// Top hat, 35 mm wide, 15 mm high, 1.5 mm sheet.
    Th35High,
    /// Top hat, 75 mm wide.
    Th75,
    /// G profile, 32 mm wide.
    G32,
    /// C profile, 20 mm wide.
    C20,
    /// C profile, 30 mm wide.
    C30,
    /// C profile, 40 mm wide.
    C40,
    /// C profile, 50 mm wide.
    C50,
}

words!(RailProfile, "rail profile", "TH 15-5.5, TH 35-7.5, TH 35-15, TH 75-25, G 32, C 20, C 30, C 40 or C 50", {
    Th15 => "TH 15-5.5",
    Th35Low => "TH 35-7.5",
    Th35High => "TH 35-15",
    Th75 => "TH 75-25",
    G32 => "G 32",
    C20 => "C 20",
    C30 => "C 30",
    C40 => "C 40",
    C50 => "C 50",
});

impl RailProfile {
    /// Overall width, mm.
    ///
    /// ```
    /// use glandrail::standards::iec_60715::RailProfile;
    /// assert_eq!(RailProfile::Th35Low.width_mm(), 35.0);
    /// ```
    pub const fn width_mm(self) -> f64 {
        match self {
            RailProfile::Th15 => 15.0,
            RailProfile::Th35Low | RailProfile::Th35High => 35.0,
            RailProfile::Th75 => 75.0,
            RailProfile::G32 => 32.0,
            RailProfile::C20 => 20.0,
            RailProfile::C30 => 30.0,
            RailProfile::C40 => 40.0,
            RailProfile::C50 => 50.0,
        }
    }

    /// Height over the mounting plate, mm; `None` where it is not known.
    pub const fn height_mm(self) -> Option<f64> {
        match self {
            RailProfile::Th15 => Some(5.5),
            RailProfile::Th35Low => Some(7.5),
            RailProfile::Th35High | RailProfile::G32 => Some(15.0),
            RailProfile::Th75 => Some(25.0),
            _ => None,
        }
    }

    /// Sheet thickness, mm; `None` where it is not known.
    pub const fn thickness_mm(self) -> Option<f64> {
        match self {
            RailProfile::Th15 | RailProfile::Th35Low => Some(1.0),
            RailProfile::Th35High | RailProfile::G32 => Some(1.5),
            RailProfile::Th75 => Some(3.0),
            _ => None,
        }
    }

    /// Width of the channel between the flange roots, mm; `None` where it is not known.
    pub const fn channel_mm(self) -> Option<f64> {
        match self {
            RailProfile::Th15 => Some(10.5),
            RailProfile::Th35Low | RailProfile::Th35High => Some(27.0),
            _ => None,
        }
    }

    /// Source of width and height. The heights of TH 75 and G 32 are recalled.
    pub const fn size_source(self) -> Source {
        match self {
            RailProfile::Th75 | RailProfile::G32 => DETAILS,
            _ => PROFILES,
        }
    }
}

/// Tolerance of the 35 mm width, mm, either way.
pub const TH35_WIDTH_TOLERANCE_MM: f64 = 0.3;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_carry_their_sizes() {
        for profile in RailProfile::ALL {
            let numbers = profile.word().split([' ', '-']).skip(1).collect::<Vec<_>>();
            assert_eq!(numbers[0].parse(), Ok(profile.width_mm()), "{profile}");
            if let Some(height) = numbers.get(1) {
                assert_eq!(height.parse().ok(), profile.height_mm(), "{profile}");
            }
        }
        assert_eq!("TH 35-15".parse(), Ok(RailProfile::Th35High));
    }
}
