//! IEC 60079-14: what the installation asks of an enclosure and its entries.
//! Knows nothing of threads; it is told their diameter.

use super::provenance::{OutOfRange, Source, Status, within};

/// How much larger than the thread a clearance hole may be.
pub const CLEARANCE_HOLE: Source = Source::new(
    "IEC 60079-14",
    "2013",
    "cl. 10, clearance holes for cable glands",
    Status::FromMemory,
);
/// Intrinsically safe circuits, where told by a colour, are light blue.
pub const INTRINSICALLY_SAFE_COLOUR: Source = Source::new(
    "IEC 60079-14",
    "2013",
    "cl. 16.2.2, identification of intrinsically safe circuits",
    Status::FromMemory,
);

/// Most that a clearance hole may exceed the major diameter of the thread, mm.
pub const CLEARANCE_HOLE_EXCESS_MM: f64 = 0.7;

/// Largest clearance hole for a thread, mm.
///
/// # Errors
/// A major diameter outside 1 to 200 mm.
///
/// ```
/// use glandrail::standards::iec_60079_14::largest_clearance_hole_mm;
/// assert_eq!(largest_clearance_hole_mm(20.0), Ok(20.7));
/// ```
pub fn largest_clearance_hole_mm(major_diameter_mm: f64) -> Result<f64, OutOfRange> {
    let major = within("major diameter", major_diameter_mm, "mm", 1.0, 200.0)?;
    Ok(major + CLEARANCE_HOLE_EXCESS_MM)
}
