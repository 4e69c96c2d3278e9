//! Common practice of the trade that is a function of something: no published source stands behind
//! it, and a shop may change it. Knows nothing of boxes.

use super::awg::WireSize;
use super::provenance::{OutOfRange, Source, Status, within};

/// Wiring space between terminal and wall.
pub const WIRING_SPACE: Source = Source::new(
    "common practice",
    "",
    "wiring space from terminal to wall by conductor section",
    Status::CommonPractice,
);

/// Distances that a workshop keeps where it states none of its own.
pub const USUAL_LIMITS: Source = Source::new(
    "common practice",
    "",
    "distances of the workshop",
    Status::CommonPractice,
);
/// Between the envelopes of neighbouring entries of one row, mm.
pub const GLAND_GAP_MM: f64 = 5.0;
/// Between the envelopes of neighbouring rows of entries, mm.
pub const GLAND_ROW_GAP_MM: f64 = 10.0;
/// Between the envelope of an entry and an inner corner of the box, mm.
pub const GLAND_CORNER_MM: f64 = 3.0;
/// Between rail ends and walls, mm.
pub const RAIL_END_MM: f64 = 5.0;
/// Between footprints of operating elements, mm.
pub const ELEMENT_GAP_MM: f64 = 5.0;
/// Around an emergency stop, free of other elements, mm.
pub const EMERGENCY_STOP_FREE_MM: f64 = 20.0;
/// Between an element that is operated and the outer edge of the lid, mm.
pub const ELEMENT_EDGE_MM: f64 = 20.0;
/// Behind a contact block, for its conductors to bend, mm.
pub const CONTACT_BEND_MM: f64 = 25.0;
/// Between the highest terminal and the lid, mm.
pub const LID_CLEARANCE_MM: f64 = 10.0;
/// Taken off every measured clearance before it is compared, mm.
pub const TOLERANCE_MM: f64 = 2.0;

/// Heat of conductors that is negligible: our own figures.
pub const NEGLIGIBLE_HEAT: Source = Source::new(
    "common practice",
    "",
    "negligible heat of conductors",
    Status::CommonPractice,
);
/// Share of the rated power up to which the heat of the conductors is negligible. Our own figure: a
/// hundredth of the rating is far below what a rating is sure to.
pub const NEGLIGIBLE_SHARE: f64 = 0.01;
/// Power up to which it is negligible whatever the rating, W. Our own figure: by the heat balance it
/// warms the air of a very small box, 80 × 80 × 60 mm, by less than 1 K.
pub const NEGLIGIBLE_W: f64 = 0.1;

/// Largest section of the step, mm², and wiring space straight out of the clamp, mm.
pub const WIRING_SPACES: [(f64, f64); 14] = [
    (2.5, 30.0),
    (4.0, 35.0),
    (6.0, 40.0),
    (10.0, 50.0),
    (16.0, 60.0),
    (25.0, 75.0),
    (35.0, 90.0),
    (50.0, 105.0),
    (70.0, 125.0),
    (95.0, 150.0),
    (120.0, 170.0),
    (150.0, 190.0),
    (185.0, 210.0),
    (240.0, 240.0),
];

/// Wiring space from the clamp straight to the wall for a conductor, mm. A section between two
/// steps takes the larger one.
///
/// # Errors
/// A section that is not above 0 or above 240 mm².
///
/// ```
/// use glandrail::standards::common_practice::wiring_space_mm;
/// assert_eq!(wiring_space_mm(1.5), Ok(30.0));
/// assert_eq!(wiring_space_mm(2.6), Ok(35.0));
/// assert!(wiring_space_mm(300.0).is_err());
/// ```
pub fn wiring_space_mm(section_mm2: f64) -> Result<f64, OutOfRange> {
    let (largest, largest_space) = WIRING_SPACES[WIRING_SPACES.len() - 1];
    let section = within(
        "conductor section",
        section_mm2,
        "mm²",
        f64::MIN_POSITIVE,
        largest,
    )?;
    let step = WIRING_SPACES.iter().find(|(step, _)| section <= *step);
    Ok(step.map_or(largest_space, |(_, space)| *space))
}

/// Wiring space for an American size, mm: that of its area.
///
/// # Errors
/// A size above 240 mm² (473 kcmil).
///
/// ```
/// use glandrail::standards::common_practice::wiring_space_of_size_mm;
/// assert_eq!(wiring_space_of_size_mm("14".parse().unwrap()), Ok(30.0));
/// assert_eq!(wiring_space_of_size_mm("12".parse().unwrap()), Ok(35.0));
/// ```
pub fn wiring_space_of_size_mm(size: WireSize) -> Result<f64, OutOfRange> {
    wiring_space_mm(size.area_mm2())
}
