//! The technical report's estimate for a closed box given in millimetres.
//! Knows nothing of films and walls: the report has its own constants for them.

use super::balance::{ClosedBox, Mounting};
use crate::standards::iec_tr_60890::{self, Installation, OuterSize, Rise};
use crate::standards::provenance::OutOfRange;

fn size_of(closed_box: &ClosedBox) -> OuterSize {
    OuterSize {
        width_m: closed_box.width_mm / 1000.0,
        height_m: closed_box.height_mm / 1000.0,
        depth_m: closed_box.depth_mm / 1000.0,
    }
}

fn installation_of(closed_box: &ClosedBox) -> Installation {
    match closed_box.mounting {
        Mounting::Free => Installation::Free,
        Mounting::Wall => Installation::Wall,
    }
}

/// Rise of the air inside at a power. The wall's material does not enter.
///
/// # Errors
/// A box too small for the report's equations (effective surface below 0.08 m²), where they would
/// permit far too much; one above 12 m²; a negative power.
pub fn rise_for_power(closed_box: &ClosedBox, power_w: f64) -> Result<Rise, OutOfRange> {
    iec_tr_60890::temperature_rise(size_of(closed_box), installation_of(closed_box), power_w)
}

/// Power that gives a rise of the air at half the height.
///
/// # Errors
/// As [`rise_for_power`], and a negative rise.
pub fn power_for_rise(
    closed_box: &ClosedBox,
    rise_at_half_height_k: f64,
) -> Result<Rise, OutOfRange> {
    iec_tr_60890::power_for_rise(
        size_of(closed_box),
        installation_of(closed_box),
        rise_at_half_height_k,
    )
}
