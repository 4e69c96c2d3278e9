//! Clearance, creepage and the separation of intrinsically safe terminals, as answers.

use super::answer::{Figure, Quantities};
use crate::standards::iec_60079_7::{
    self, DISTANCES, EXTERNAL_TERMINAL_MINIMUM_MM, EXTERNAL_TERMINALS, TEN_PERCENT_RULE,
    TRACKING_MATTERS_ABOVE_V, row_for,
};
use crate::standards::iec_60079_11::{self, PartitionMaterial, partition_thickness_mm};
use crate::standards::provenance::{OutOfRange, words};
use crate::standards::{MaterialGroup, Source};

/// Least clearance at a working voltage; for terminals of external conductors at least 3 mm.
///
/// # Errors
/// A voltage below 0 or above 11 000 V.
///
/// ```
/// let answer = glandrail::figure::clearance(400.0, false).unwrap();
/// assert_eq!((answer.result, answer.unit), (6.0, "mm"));
/// ```
pub fn clearance(voltage_v: f64, external_terminal: bool) -> Result<Figure, OutOfRange> {
    let table = iec_60079_7::clearance_mm(voltage_v)?;
    let inputs = Quantities::new().with("voltage_v", voltage_v, "V").with(
        "external_terminal",
        external_terminal,
        "",
    );
    distance(
        "clearance",
        "clearance_mm",
        inputs,
        voltage_v,
        table,
        external_terminal,
    )
}

/// Least creepage at a working voltage; for terminals of external conductors at least 3 mm.
///
/// # Errors
/// A voltage below 0 or above 11 000 V.
///
/// ```
/// use glandrail::standards::MaterialGroup;
/// let answer = glandrail::figure::creepage(275.0, MaterialGroup::I, false).unwrap();
/// assert_eq!(answer.result, 5.0);
/// assert_eq!(answer.intermediate.number("row_voltage_v"), Some(250.0));
/// ```
pub fn creepage(
    voltage_v: f64,
    group: MaterialGroup,
    external_terminal: bool,
) -> Result<Figure, OutOfRange> {
    let table = iec_60079_7::creepage_mm(voltage_v, group)?;
    let inputs = Quantities::new()
        .with("voltage_v", voltage_v, "V")
        .with("material_group", group.word(), "")
        .with("external_terminal", external_terminal, "");
    let figure = distance(
        "creepage",
        "creepage_mm",
        inputs,
        voltage_v,
        table,
        external_terminal,
    )?;
    Ok(if voltage_v <= TRACKING_MATTERS_ABOVE_V {
        figure.note("at 10 V and below the tracking index of the material does not matter")
    } else {
        figure
    })
}

fn distance(
    name: &'static str,
    result_key: &'static str,
    inputs: Quantities,
    voltage_v: f64,
    table_mm: f64,
    external_terminal: bool,
) -> Result<Figure, OutOfRange> {
    let row = row_for(voltage_v)?;
    let mut intermediate = Quantities::new()
        .with("row_voltage_v", row.voltage_v, "V")
        .with("row_serves_up_to_v", row.voltage_v * 11.0 / 10.0, "V")
        .with("table_mm", table_mm, "mm");
    let mut source = vec![DISTANCES, TEN_PERCENT_RULE];
    let mut result = table_mm;
    let mut formula = "table figure of the first row whose voltage is exceeded by at most 10 %";
    if external_terminal {
        intermediate = intermediate.with("minimum_mm", EXTERNAL_TERMINAL_MINIMUM_MM, "mm");
        source.push(EXTERNAL_TERMINALS);
        result = table_mm.max(EXTERNAL_TERMINAL_MINIMUM_MM);
        formula = "larger of 3 mm and the table figure of the first row whose voltage is exceeded by at most 10 %";
    }
    let figure = Figure::new(
        name,
        inputs,
        (result_key, result, "mm"),
        formula,
        source,
        intermediate,
    );
    Ok(if result < EXTERNAL_TERMINAL_MINIMUM_MM {
        figure.note("a terminal for external conductors needs at least 3 mm: ask with --external")
    } else {
        figure
    })
}

/// What an intrinsically safe terminal is to be kept away from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Neighbour {
    /// Terminals that are not intrinsically safe.
    OtherTerminals,
    /// Terminals of another intrinsically safe circuit.
    SeparateCircuit,
    /// Earthed metal and other conductive parts.
    EarthedMetal,
}

words!(Neighbour, "neighbour", "other-terminals, separate-circuit or earthed-metal", {
    OtherTerminals => "other-terminals",
    SeparateCircuit => "separate-circuit",
    EarthedMetal => "earthed-metal",
});

/// Least distance of intrinsically safe terminals from a neighbour.
pub fn separation(neighbour: Neighbour) -> Figure {
    let (distance_mm, formula, source): (_, _, Source) = match neighbour {
        Neighbour::OtherTerminals => (
            iec_60079_11::OTHER_CIRCUITS_MM,
            "fixed distance between bare parts, or a partition instead",
            iec_60079_11::OTHER_CIRCUITS,
        ),
        Neighbour::SeparateCircuit => (
            iec_60079_11::SEPARATE_CIRCUITS_MM,
            "fixed distance between bare parts",
            iec_60079_11::SEPARATE_CIRCUITS,
        ),
        Neighbour::EarthedMetal => (
            iec_60079_11::EARTHED_METAL_MM,
            "fixed distance from bare parts of external conductors",
            iec_60079_11::EARTHED_METAL,
        ),
    };
    let inputs = Quantities::new().with("neighbour", neighbour.word(), "");
    let mut intermediate = Quantities::new();
    let mut source = vec![source];
    if neighbour == Neighbour::OtherTerminals {
        intermediate = intermediate.with("partition_gap_mm", iec_60079_11::PARTITION_GAP_MM, "mm");
        for (key, material) in [
            (
                "metal_partition_thickness_mm",
                PartitionMaterial::EarthedMetal,
            ),
            (
                "insulating_partition_thickness_mm",
                PartitionMaterial::Insulating,
            ),
        ] {
            if let Some(thickness_mm) = partition_thickness_mm(material) {
                intermediate = intermediate.with(key, thickness_mm, "mm");
            }
        }
        source.extend([
            iec_60079_11::PARTITION_REACH,
            iec_60079_11::PARTITION_THICKNESS,
        ]);
    }
    Figure::new(
        "separation",
        inputs,
        ("distance_mm", distance_mm, "mm"),
        formula,
        source,
        intermediate,
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standards::Status;

    #[test]
    fn the_minimum_of_external_terminals_is_shown_and_sourced() {
        let answer = clearance(24.0, true).expect("in range");
        assert_eq!(answer.result, 3.0);
        assert_eq!(answer.intermediate.number("table_mm"), Some(1.7));
        assert_eq!(answer.source.len(), 3);
        assert_eq!(answer.status, Status::FromMemory);
        assert!(clearance(12_000.0, false).is_err());
    }

    #[test]
    fn separation_offers_the_partition_only_where_it_helps() {
        assert_eq!(separation(Neighbour::OtherTerminals).result, 50.0);
        let circuits = separation(Neighbour::SeparateCircuit);
        assert_eq!((circuits.result, circuits.status), (6.0, Status::Published));
        assert!(circuits.intermediate.0.is_empty());
        assert_eq!(separation(Neighbour::EarthedMetal).result, 3.0);
    }
}
