//! Temperature classes and the groups of gases and dusts. Knows nothing of zones.

use crate::standards::provenance::{Source, Status, words};

/// Temperature classes and their limits.
pub const TEMPERATURE_CLASSES: Source =
    Source::new("IEC 60079-0", "2007", "Table 2", Status::Published);
/// Margin of 5 K below the limit in the type test, T3 to T6.
pub const MARGIN_T3_TO_T6: Source = Source::new(
    "IEC 60079-0",
    "",
    "cl. 26.5.1.3, T3 to T6",
    Status::Published,
);
/// Margin of 10 K below the limit in the type test, T1 and T2; and the rule for dust.
pub const MARGIN_OTHERS: Source = Source::new(
    "IEC 60079-0",
    "",
    "cl. 26.5.1.3, T1, T2 and Group III",
    Status::FromMemory,
);
/// Which class and which group covers which.
pub const COVERING: Source = Source::new("IEC 60079-0", "", "cl. 4 and 5", Status::Published);

/// Temperature class of a surface that gas can reach. T6 is the coolest and the greatest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)] // the names say it all
pub enum TemperatureClass {
    T1,
    T2,
    T3,
    T4,
    T5,
    T6,
}

words!(TemperatureClass, "temperature class", "T1, T2, T3, T4, T5 or T6", {
    T1 => "T1", T2 => "T2", T3 => "T3", T4 => "T4", T5 => "T5", T6 => "T6",
});

impl TemperatureClass {
    /// Greatest surface temperature, °C.
    ///
    /// ```
    /// use glandrail::standards::TemperatureClass;
    /// assert_eq!(TemperatureClass::T6.limit_c(), 85.0);
    /// ```
    pub const fn limit_c(self) -> f64 {
        match self {
            TemperatureClass::T1 => 450.0,
            TemperatureClass::T2 => 300.0,
            TemperatureClass::T3 => 200.0,
            TemperatureClass::T4 => 135.0,
            TemperatureClass::T5 => 100.0,
            TemperatureClass::T6 => 85.0,
        }
    }

    /// Margin that the type test keeps below the limit, K: 5 for T3 to T6, 10 for T1 and T2.
    pub const fn type_test_margin_k(self) -> f64 {
        match self {
            TemperatureClass::T1 | TemperatureClass::T2 => 10.0,
            _ => 5.0,
        }
    }

    /// Where the margin comes from.
    pub const fn margin_source(self) -> Source {
        match self {
            TemperatureClass::T1 | TemperatureClass::T2 => MARGIN_OTHERS,
            _ => MARGIN_T3_TO_T6,
        }
    }

    /// Greatest surface temperature less the margin of the type test, °C.
    ///
    /// ```
    /// use glandrail::standards::TemperatureClass;
    /// assert_eq!(TemperatureClass::T6.limit_after_margin_c(), 80.0);
    /// assert_eq!(TemperatureClass::T1.limit_after_margin_c(), 440.0);
    /// ```
    pub const fn limit_after_margin_c(self) -> f64 {
        self.limit_c() - self.type_test_margin_k()
    }

    /// Self-heating that is left at an ambient temperature, K. Negative where there is none.
    ///
    /// ```
    /// use glandrail::standards::TemperatureClass;
    /// assert_eq!(TemperatureClass::T6.self_heating_k(40.0), 40.0);
    /// assert_eq!(TemperatureClass::T3.self_heating_k(100.0), 95.0);
    /// ```
    pub fn self_heating_k(self, ambient_c: f64) -> f64 {
        self.limit_after_margin_c() - ambient_c
    }

    /// Whether equipment of this class may stand where `required` is asked for.
    ///
    /// ```
    /// use glandrail::standards::TemperatureClass::{T4, T6};
    /// assert!(T6.covers(T4) && !T4.covers(T6));
    /// ```
    pub fn covers(self, required: TemperatureClass) -> bool {
        self >= required
    }

    /// The coolest class whose limit is not below a surface temperature; `None` above 450 °C.
    pub fn of_surface_c(surface_c: f64) -> Option<TemperatureClass> {
        Self::ALL
            .iter()
            .rev()
            .copied()
            .find(|class| surface_c <= class.limit_c())
    }
}

/// Margin below a marked surface temperature of dust equipment, K: 5 up to 200 °C, 10 above.
pub fn dust_type_test_margin_k(marked_surface_c: f64) -> f64 {
    if marked_surface_c <= 200.0 { 5.0 } else { 10.0 }
}

/// Explosion group of gases. IIC is the most demanding and the greatest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub enum GasGroup {
    IIA,
    IIB,
    IIC,
}

words!(GasGroup, "gas group", "IIA, IIB or IIC", { IIA => "IIA", IIB => "IIB", IIC => "IIC" });

impl GasGroup {
    /// Whether equipment of this group may stand where `required` is asked for.
    ///
    /// ```
    /// use glandrail::standards::GasGroup::{IIA, IIB, IIC};
    /// assert!(IIC.covers(IIA) && IIB.covers(IIB) && !IIB.covers(IIC));
    /// ```
    pub fn covers(self, required: GasGroup) -> bool {
        self >= required
    }
}

/// Group of dusts: flyings, non-conductive, conductive. IIIC is the greatest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DustGroup {
    /// Combustible flyings.
    IIIA,
    /// Non-conductive dust.
    IIIB,
    /// Conductive dust.
    IIIC,
}

words!(DustGroup, "dust group", "IIIA, IIIB or IIIC", { IIIA => "IIIA", IIIB => "IIIB", IIIC => "IIIC" });

impl DustGroup {
    /// Whether equipment of this group may stand where `required` is asked for.
    ///
    /// ```
    /// use glandrail::standards::DustGroup::{IIIA, IIIC};
    /// assert!(IIIC.covers(IIIA) && !IIIA.covers(IIIC));
    /// ```
    pub fn covers(self, required: DustGroup) -> bool {
        self >= required
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn surface_temperatures_find_their_class() {
        assert_eq!(
            TemperatureClass::of_surface_c(85.0),
            Some(TemperatureClass::T6)
        );
        assert_eq!(
            TemperatureClass::of_surface_c(85.1),
            Some(TemperatureClass::T5)
        );
        assert_eq!(TemperatureClass::of_surface_c(451.0), None);
        assert_eq!(TemperatureClass::of_surface_c(f64::NAN), None);
    }
}
