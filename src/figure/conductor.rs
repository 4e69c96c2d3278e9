//! Resistance of conductors and the heat of terminals with their conductors, as answers.

use super::answer::{Figure, Quantities};
use crate::heat::conductors::{self, Conductor, REFERENCE_C, conductor_heat, resistance_heat_w};
use crate::standards::Awg;
use crate::standards::awg::Stranding;
use crate::standards::iec_60228::{TEMPERATURE_LAW, resistance_ratio};
use crate::standards::provenance::{OutOfRange, within};

fn describe(conductor: Conductor) -> Quantities {
    match conductor {
        Conductor::Metric { section_mm2, class } => Quantities::new()
            .with("section_mm2", section_mm2, "mm²")
            .with("conductor_class", class.word(), ""),
        Conductor::American { gauge, stranding } => {
            Quantities::new().with("gauge", gauge.to_string(), "").with(
                "stranding",
                match stranding {
                    Stranding::Solid => "solid",
                    Stranding::Stranded => "stranded",
                },
                "",
            )
        }
    }
}

/// Resistance of a conductor at a temperature.
///
/// # Errors
/// A section that is not listed, or a temperature outside −60 to 200 °C.
///
/// ```
/// use glandrail::heat::Conductor;
/// use glandrail::standards::ConductorClass;
/// let conductor = Conductor::Metric { section_mm2: 2.5, class: ConductorClass::Class5 };
/// let answer = glandrail::figure::resistance(conductor, 20.0).unwrap();
/// assert_eq!((answer.result, answer.unit), (7.98, "ohm/km"));
/// ```
pub fn resistance(conductor: Conductor, temperature_c: f64) -> Result<Figure, OutOfRange> {
    let result = conductor.resistance_ohm_per_km(temperature_c)?;
    let inputs = describe(conductor).with("temperature_c", temperature_c, "°C");
    let mut intermediate = Quantities::new()
        .with(
            "at_20_c_ohm_per_km",
            conductor.resistance_ohm_per_km(REFERENCE_C)?,
            "ohm/km",
        )
        .with("temperature_ratio", resistance_ratio(temperature_c)?, "");
    let gauge: Option<Awg> = match conductor {
        Conductor::American { gauge, .. } => Some(gauge),
        Conductor::Metric { .. } => None,
    };
    if let Some(gauge) = gauge {
        intermediate = intermediate.with("area_mm2", gauge.area_mm2(), "mm²");
        if let Ok(table) = gauge.table_8_ohm_per_km() {
            intermediate = intermediate.with("nec_table_8_at_75_c_ohm_per_km", table, "ohm/km");
        }
    }
    let figure = Figure::new(
        "resistance",
        inputs,
        ("resistance_ohm_per_km", result, "ohm/km"),
        "R(t) = R(20 °C) × (1 + 0.00393 (t − 20))",
        vec![conductor.source(), TEMPERATURE_LAW],
        intermediate,
    );
    Ok(match conductor {
        Conductor::American { stranding: Stranding::Stranded, .. } => figure
            .note("NEC chapter 9, Table 8 gives 14 to 8 AWG as for a solid wire, 2 % below a stranded one"),
        _ => figure,
    })
}

/// A terminal with its conductors, and the current through them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerQuestion {
    /// The conductor on it.
    pub conductor: Conductor,
    /// Conductors on it: two for a feed-through terminal wired on both sides.
    pub conductors: u32,
    /// Length of each, mm.
    pub length_mm: f64,
    /// Resistance of the terminal, mohm; without it the answer is that of the conductors alone.
    pub terminal_mohm: Option<f64>,
    /// Current, A.
    pub current_a: f64,
    /// Temperature of the conductors, °C.
    pub temperature_c: f64,
}

/// Heat of a terminal with its conductors.
///
/// # Errors
/// A section that is not listed, no conductor or more than 100, a temperature outside −60 to
/// 200 °C, a length, resistance or current below 0 or beyond any terminal box.
pub fn power(question: PowerQuestion) -> Result<Figure, OutOfRange> {
    let PowerQuestion {
        conductor,
        conductors,
        length_mm,
        terminal_mohm,
        current_a,
        temperature_c,
    } = question;
    within(
        "number of conductors",
        f64::from(conductors),
        "1",
        0.0,
        100.0,
    )?;
    let each = conductor_heat(conductor, length_mm, current_a, temperature_c)?;
    let terminal_w = resistance_heat_w(terminal_mohm.unwrap_or(0.0), current_a)?;
    let conductors_w = f64::from(conductors) * each.power_w;
    let mut inputs = describe(conductor)
        .with("conductors", f64::from(conductors), "")
        .with("length_mm", length_mm, "mm");
    if let Some(terminal_mohm) = terminal_mohm {
        inputs = inputs.with("terminal_mohm", terminal_mohm, "mohm");
    }
    let inputs =
        inputs
            .with("current_a", current_a, "A")
            .with("temperature_c", temperature_c, "°C");
    let intermediate = Quantities::new()
        .with(
            "resistance_ohm_per_km",
            each.resistance_ohm_per_km,
            "ohm/km",
        )
        .with(
            "resistance_per_conductor_mohm",
            each.resistance_mohm,
            "mohm",
        )
        .with("power_per_conductor_w", each.power_w, "W")
        .with("conductors_w", conductors_w, "W");
    let (intermediate, formula) = match terminal_mohm {
        Some(_) => (
            intermediate.with("terminal_w", terminal_w, "W"),
            "P = I² × (R_terminal + n × R' × L)",
        ),
        None => (intermediate, "P = I² × n × R' × L"),
    };
    let figure = Figure::new(
        "power",
        inputs,
        ("power_w", terminal_w + conductors_w, "W"),
        formula,
        vec![conductors::SOURCE, conductor.source(), TEMPERATURE_LAW],
        intermediate,
    );
    let figure = match terminal_mohm {
        Some(_) => figure,
        None => figure.note("the conductors alone: the resistance of the terminal is not given, so its heat is missing"),
    };
    Ok(if temperature_c == REFERENCE_C {
        figure.note("resistances at 20 °C, the reference of the rated dissipated power; warm ones are higher")
    } else {
        figure.note("not at 20 °C: not to be compared with a rated dissipated power")
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standards::ConductorClass;

    #[test]
    fn the_parts_add_up_to_the_result() {
        let conductor = Conductor::Metric {
            section_mm2: 2.5,
            class: ConductorClass::Class5,
        };
        let question = PowerQuestion {
            conductor,
            conductors: 2,
            length_mm: 405.0,
            terminal_mohm: Some(1.0),
            current_a: 10.0,
            temperature_c: 20.0,
        };
        let answer = power(question).expect("in range");
        let number = |key| answer.intermediate.number(key).expect("a step");
        assert!((number("conductors_w") + number("terminal_w") - answer.result).abs() < 1e-12);
        assert!(
            (answer.result - (0.1 + 2.0 * 0.32319)).abs() < 1e-9,
            "{}",
            answer.result
        );
        let alone = power(PowerQuestion {
            terminal_mohm: None,
            ..question
        })
        .expect("in range");
        assert!((alone.result - number("conductors_w")).abs() < 1e-12);
        assert!(alone.notes[0].contains("the resistance of the terminal is not given"));
        assert!(
            power(PowerQuestion {
                current_a: -1.0,
                ..question
            })
            .is_err()
        );
        assert!(
            power(PowerQuestion {
                conductors: 101,
                ..question
            })
            .is_err()
        );
    }

    #[test]
    fn a_gauge_shows_its_table_figure() {
        let conductor = Conductor::American {
            gauge: "14".parse().expect("gauge"),
            stranding: Stranding::Stranded,
        };
        let answer = resistance(conductor, 75.0).expect("in range");
        let table = answer
            .intermediate
            .number("nec_table_8_at_75_c_ohm_per_km")
            .expect("listed");
        assert!(
            answer.result > table,
            "stranded 14 AWG is above the row of a solid wire"
        );
    }
}
