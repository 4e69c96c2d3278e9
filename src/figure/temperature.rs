//! Temperature classes, as answers.

use super::answer::{Figure, Quantities};
use crate::standards::TemperatureClass;
use crate::standards::iec_60079_0::{DEFAULT_AMBIENT_MAXIMUM_C, TEMPERATURE_CLASSES};
use crate::standards::provenance::{OutOfRange, within};

/// What a temperature class leaves for self-heating at an ambient temperature.
///
/// # Errors
/// An ambient temperature outside −60 to 100 °C.
///
/// ```
/// use glandrail::standards::TemperatureClass;
/// let answer = glandrail::figure::temperature_class(TemperatureClass::T6, 40.0).unwrap();
/// assert_eq!((answer.result, answer.unit), (40.0, "K"));
/// ```
pub fn temperature_class(class: TemperatureClass, ambient_c: f64) -> Result<Figure, OutOfRange> {
    let ambient_c = within("ambient temperature", ambient_c, "°C", -60.0, 100.0)?;
    let result = class.self_heating_k(ambient_c);
    let covered: Vec<&str> = TemperatureClass::ALL
        .iter()
        .filter(|other| class.covers(**other))
        .map(|other| other.word())
        .collect();
    let figure = Figure::new(
        "temperature-class",
        Quantities::new()
            .with("temperature_class", class.word(), "")
            .with("ambient_c", ambient_c, "°C"),
        ("self_heating_k", result, "K"),
        "limit of the class − margin of the type test − ambient temperature",
        vec![TEMPERATURE_CLASSES, class.margin_source()],
        Quantities::new()
            .with("limit_c", class.limit_c(), "°C")
            .with("type_test_margin_k", class.type_test_margin_k(), "K")
            .with("limit_after_margin_c", class.limit_after_margin_c(), "°C")
            .with("serves", covered.join(", "), ""),
    );
    let figure = if result <= 0.0 {
        figure.note(
            "nothing is left for self-heating: the class cannot be met at this ambient temperature",
        )
    } else {
        figure
    };
    Ok(if ambient_c > DEFAULT_AMBIENT_MAXIMUM_C {
        figure.note("above +40 °C the ambient range must be marked")
    } else {
        figure
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standards::Status;

    #[test]
    fn a_hot_place_leaves_nothing_and_says_so() {
        let answer = temperature_class(TemperatureClass::T6, 85.0).expect("in range");
        assert_eq!(answer.result, -5.0);
        assert_eq!(answer.notes.len(), 2);
        assert_eq!(answer.status, Status::Published);
        let warm_class = temperature_class(TemperatureClass::T1, 40.0).expect("in range");
        assert_eq!(
            warm_class.status,
            Status::FromMemory,
            "its margin of 10 K is recalled"
        );
        assert!(warm_class.notes.is_empty());
        assert!(temperature_class(TemperatureClass::T6, 101.0).is_err());
    }
}
