//! IEC 60947-5-1: mounting holes of control elements, their spacing, and the numbers on contacts.
//! Knows nothing of colours or functions.

use super::provenance::{OutOfRange, Source, Status, within, words};

/// Holes and key slots.
pub const HOLES: Source = Source::new("IEC 60947-5-1", "2016", "cl. 6.3.1", Status::FromMemory);
/// Least distances between centres.
pub const CENTRE_DISTANCES: Source = Source::new(
    "IEC 60947-5-1",
    "2016",
    "cl. 6.3.1, centre distances",
    Status::FromMemory,
);
/// Numbers of contact and lamp terminals.
pub const TERMINAL_NUMBERS: Source = Source::new(
    "IEC 60947-5-1",
    "",
    "terminal marking (EN 50005)",
    Status::FromMemory,
);

/// Utilisation categories of control-circuit devices, with the loads they are tested by.
pub const UTILISATION: Source = Source::new(
    "IEC 60947-5-1",
    "2016",
    "cl. 4.4, utilisation categories, tables 1 and 4",
    Status::FromMemory,
);

/// Thinnest panel for which the holes are meant, mm.
pub const PANEL_THICKNESS_MINIMUM_MM: f64 = 1.0;
/// Thickest panel for which the holes are meant, mm.
pub const PANEL_THICKNESS_MAXIMUM_MM: f64 = 6.0;

/// Size of the mounting hole of a control element.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub enum MountingHole {
    D12,
    D16,
    D22,
    D30,
}

words!(MountingHole, "mounting hole", "D12, D16, D22 or D30", {
    D12 => "D12", D16 => "D16", D22 => "D22", D30 => "D30",
});

/// The key slot of a mounting hole, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KeySlot {
    /// From the far edge of the hole to the end of the slot.
    pub depth_mm: f64,
    /// How much larger the depth may be.
    pub depth_plus_mm: f64,
    /// Width.
    pub width_mm: f64,
    /// How much larger the width may be.
    pub width_plus_mm: f64,
}

impl MountingHole {
    /// Diameter, mm, and how much larger it may be.
    ///
    /// ```
    /// use glandrail::standards::iec_60947_5_1::MountingHole;
    /// assert_eq!(MountingHole::D22.diameter_mm(), (22.3, 0.4));
    /// ```
    pub const fn diameter_mm(self) -> (f64, f64) {
        match self {
            MountingHole::D12 => (12.1, 0.2),
            MountingHole::D16 => (16.2, 0.2),
            MountingHole::D22 => (22.3, 0.4),
            MountingHole::D30 => (30.5, 0.5),
        }
    }

    /// Key slot; `None` for D12, which is not known.
    pub const fn key_slot(self) -> Option<KeySlot> {
        let (depth_mm, depth_plus_mm, width_mm) = match self {
            MountingHole::D12 => return None,
            MountingHole::D16 => (17.9, 0.2, 1.7),
            MountingHole::D22 => (24.1, 0.4, 3.2),
            MountingHole::D30 => (33.0, 0.5, 4.8),
        };
        Some(KeySlot {
            depth_mm,
            depth_plus_mm,
            width_mm,
            width_plus_mm: 0.2,
        })
    }

    /// Least distance between centres in the two directions, mm, the larger first.
    ///
    /// # Errors
    /// D12, for which no distance is known.
    ///
    /// ```
    /// use glandrail::standards::iec_60947_5_1::MountingHole;
    /// assert_eq!(MountingHole::D22.centre_distance_mm(), Ok((50.0, 30.0)));
    /// ```
    pub fn centre_distance_mm(self) -> Result<(f64, f64), OutOfRange> {
        match self {
            MountingHole::D16 => Ok((25.0, 25.0)),
            MountingHole::D22 => Ok((50.0, 30.0)),
            MountingHole::D30 => Ok((65.0, 50.0)),
            MountingHole::D12 => Err(OutOfRange::Unknown {
                quantity: "mounting hole with a known centre distance",
                value: self.to_string(),
                valid: "D16, D22 or D30".into(),
            }),
        }
    }
}

/// The utilisation category of what a contact switches, in each kind of current from the lightest load to the
/// severest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum UtilisationCategory {
    /// Resistive loads and solid-state loads behind optocouplers, a.c.
    Ac12,
    /// Solid-state loads behind transformers, a.c.
    Ac13,
    /// Small electromagnets up to 72 VA, a.c.
    Ac14,
    /// Electromagnets above 72 VA, a.c.
    Ac15,
    /// Resistive loads and solid-state loads behind optocouplers, d.c.
    Dc12,
    /// Electromagnets, d.c.
    Dc13,
    /// Electromagnets with economy resistors, d.c.
    Dc14,
}

words!(
    UtilisationCategory,
    "utilisation category",
    "AC-12, AC-13, AC-14, AC-15, DC-12, DC-13 or DC-14 (IEC 60947-5-1)",
    {
        Ac12 => "AC-12", Ac13 => "AC-13", Ac14 => "AC-14", Ac15 => "AC-15",
        Dc12 => "DC-12", Dc13 => "DC-13", Dc14 => "DC-14",
    }
);

impl UtilisationCategory {
    /// What counts of a load of which nothing is known: electromagnets, in either kind of current.
    pub const WHERE_UNKNOWN: [UtilisationCategory; 2] =
        [UtilisationCategory::Ac15, UtilisationCategory::Dc13];

    /// Whether it is one of alternating current.
    pub const fn is_alternating(self) -> bool {
        match self {
            UtilisationCategory::Ac12
            | UtilisationCategory::Ac13
            | UtilisationCategory::Ac14
            | UtilisationCategory::Ac15 => true,
            UtilisationCategory::Dc12 | UtilisationCategory::Dc13 | UtilisationCategory::Dc14 => {
                false
            }
        }
    }

    /// Whether a rating by this category covers a load of another: the same kind of current, and a load that is
    /// not more severe.
    ///
    /// ```
    /// use glandrail::standards::iec_60947_5_1::UtilisationCategory::*;
    /// assert!(Ac15.covers(Ac12) && Dc13.covers(Dc13));
    /// assert!(!Ac12.covers(Ac15) && !Ac15.covers(Dc12) && !Dc14.covers(Ac12));
    /// ```
    pub fn covers(self, load: UtilisationCategory) -> bool {
        self.is_alternating() == load.is_alternating() && self >= load
    }
}

/// What a contact does when its element is at rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Contact {
    /// Opens when operated (NC).
    NormallyClosed,
    /// Closes when operated (NO).
    NormallyOpen,
}

words!(Contact, "contact", "NC or NO", { NormallyClosed => "NC", NormallyOpen => "NO" });

/// The two terminal numbers of the contact in a place: place, then 1–2 for NC or 3–4 for NO.
///
/// # Errors
/// A place outside 1 to 9: the number has one digit for it.
///
/// ```
/// use glandrail::standards::iec_60947_5_1::{contact_terminals, Contact};
/// assert_eq!(contact_terminals(1, Contact::NormallyClosed), Ok(["11".into(), "12".into()]));
/// assert_eq!(contact_terminals(2, Contact::NormallyOpen), Ok(["23".into(), "24".into()]));
/// ```
pub fn contact_terminals(place: u8, contact: Contact) -> Result<[String; 2], OutOfRange> {
    within("place of the contact", f64::from(place), "1", 1.0, 9.0)?;
    let first = match contact {
        Contact::NormallyClosed => 1,
        Contact::NormallyOpen => 3,
    };
    Ok([format!("{place}{first}"), format!("{place}{}", first + 1)])
}

/// Terminals of an indicator lamp.
pub const LAMP_TERMINALS: [&str; 2] = ["X1", "X2"];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn holes_fit_within_their_centre_distance() {
        for hole in [MountingHole::D16, MountingHole::D22, MountingHole::D30] {
            let (larger, smaller) = hole.centre_distance_mm().expect("known");
            let (diameter, plus) = hole.diameter_mm();
            assert!(larger >= smaller && smaller > diameter + plus);
            let slot = hole.key_slot().expect("known");
            assert!(slot.depth_mm > diameter);
        }
        assert!(MountingHole::D12.centre_distance_mm().is_err());
    }

    #[test]
    fn places_have_one_digit() {
        assert!(contact_terminals(0, Contact::NormallyOpen).is_err());
        assert!(contact_terminals(10, Contact::NormallyOpen).is_err());
    }
}
