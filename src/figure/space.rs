//! Wiring space and entry threads, as answers.

use super::answer::{Figure, Quantities};
use crate::standards::common_practice::{WIRING_SPACE, wiring_space_mm};
use crate::standards::iec_60079_14::{CLEARANCE_HOLE, largest_clearance_hole_mm};
use crate::standards::nec_312_6::{
    TABLE_A, TABLE_B, bending_space_a_mm, bending_space_b_mm, size_covering,
};
use crate::standards::provenance::OutOfRange;
use crate::standards::threads::{METRIC_PROFILE, MM_PER_INCH, across_corners_mm};
use crate::standards::{Thread, WireSize};

/// Size of a conductor, in either system.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ConductorSize {
    /// Section, mm².
    Section(f64),
    /// American size.
    Wire(WireSize),
}

/// Wiring space straight out of the clamp to the wall.
///
/// # Errors
/// A section that is not above 0 or above 240 mm².
///
/// ```
/// use glandrail::figure::{wiring_space, ConductorSize};
/// let answer = wiring_space(ConductorSize::Section(16.0)).unwrap();
/// assert_eq!((answer.result, answer.unit), (60.0, "mm"));
/// ```
pub fn wiring_space(size: ConductorSize) -> Result<Figure, OutOfRange> {
    let section_mm2 = match size {
        ConductorSize::Section(section_mm2) => section_mm2,
        ConductorSize::Wire(wire) => wire.area_mm2(),
    };
    let result = wiring_space_mm(section_mm2)?;
    let (inputs, compared) = match size {
        ConductorSize::Section(_) => (
            Quantities::new().with("section_mm2", section_mm2, "mm²"),
            size_covering(section_mm2)?,
        ),
        ConductorSize::Wire(wire) => (
            Quantities::new().with("wire_size", wire.to_string(), ""),
            wire,
        ),
    };
    let mut intermediate = Quantities::new()
        .with("section_mm2", section_mm2, "mm²")
        .with("compared_wire_size", compared.to_string(), "");
    let mut notes = Vec::new();
    if let Ok(Some(least)) = bending_space_a_mm(compared, 1) {
        intermediate = intermediate.with("nec_table_312_6_a_mm", least, "mm");
    }
    if let Ok(Some(least)) = bending_space_b_mm(compared) {
        intermediate = intermediate.with("nec_table_312_6_b_mm", least, "mm");
        if least > result {
            notes.push(format!(
                "where the conductor leaves through the wall opposite its terminal and NEC applies, \
                 Table 312.6(B) asks for {least} mm"
            ));
        }
    }
    let mut figure = Figure::new(
        "wiring-space",
        inputs,
        ("wiring_space_mm", result, "mm"),
        "step of common practice for the conductor section, from the clamp straight to the wall",
        vec![WIRING_SPACE, TABLE_A, TABLE_B],
        intermediate,
    );
    figure.notes = notes;
    Ok(figure)
}

/// The clearance hole of an entry thread, with the thread's own dimensions.
///
/// # Errors
/// A diameter for which the installation standard gives no largest hole; no listed thread has one.
pub fn thread(thread: Thread) -> Result<Figure, OutOfRange> {
    let major = thread.major_diameter_mm();
    let mut source = vec![
        thread.clearance_hole_source(),
        thread.source(),
        CLEARANCE_HOLE,
    ];
    let mut intermediate = Quantities::new()
        .with("major_diameter_mm", major, "mm")
        .with("pitch_mm", thread.pitch_mm(), "mm")
        .with("pitch_diameter_mm", thread.pitch_diameter_mm(), "mm")
        .with(
            "largest_clearance_hole_mm",
            largest_clearance_hole_mm(major)?,
            "mm",
        );
    if let Some(minor) = thread.minor_diameter_mm() {
        intermediate = intermediate.with("minor_diameter_mm", minor, "mm");
        source.push(METRIC_PROFILE);
    }
    if let Some(row) = thread.npt_row() {
        intermediate = intermediate
            .with(
                "hand_tight_length_mm",
                row.hand_tight_l1_in * MM_PER_INCH,
                "mm",
            )
            .with(
                "effective_length_mm",
                row.effective_l2_in * MM_PER_INCH,
                "mm",
            );
    }
    if let Some((least, most)) = thread.across_flats_mm() {
        intermediate = intermediate
            .with("across_flats_from_mm", least, "mm")
            .with("across_flats_to_mm", most, "mm")
            .with("across_corners_to_mm", across_corners_mm(most), "mm");
    }
    let figure = Figure::new(
        "thread",
        Quantities::new().with("thread", thread.to_string(), ""),
        ("clearance_hole_mm", thread.clearance_hole_mm(), "mm"),
        "major diameter + 0.2 mm, in tenths, never rounded down",
        source,
        intermediate,
    );
    Ok(if thread.is_metric() {
        figure
    } else {
        figure.note(
            "no chart of clearance holes for taper threads was found: the metric allowance is carried over",
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standards::Status;

    #[test]
    fn table_b_is_mentioned_where_it_asks_for_more() {
        let small = wiring_space(ConductorSize::Section(2.5)).expect("in range");
        assert!(small.notes.is_empty());
        assert_eq!(small.status, Status::CommonPractice);
        let large = wiring_space(ConductorSize::Section(50.0)).expect("in range");
        assert_eq!(
            large.intermediate.number("nec_table_312_6_a_mm"),
            Some(88.9)
        );
        assert!(large.notes[0].contains("140 mm"), "{:?}", large.notes);
        let gauge =
            wiring_space(ConductorSize::Wire("12".parse().expect("size"))).expect("in range");
        assert_eq!(gauge.result, 35.0);
        assert!(wiring_space(ConductorSize::Section(0.0)).is_err());
    }

    #[test]
    fn every_thread_is_answered() {
        for one in Thread::ALL {
            let answer = thread(*one).expect("listed");
            let largest = answer
                .intermediate
                .number("largest_clearance_hole_mm")
                .expect("a step");
            assert!(answer.result <= largest);
            assert_eq!(answer.status, Status::FromMemory);
        }
    }
}
