//! Checks of what closes an entry: glands, plugs, adapters.

use super::certificate;
use super::checker::{Checker, MOST_TORQUE_NM};
use crate::catalogue::{Adapter, EntryEnvelope, Gland, Plug};
use crate::standards::Thread;

/// Largest diameter of a cable or a hexagon, mm.
const MOST_DIAMETER_MM: f64 = 300.0;
/// How much a clearance hole may exceed the thread's major diameter, mm (installation texts around
/// IEC 60079-14, from memory).
const MOST_PLAY_MM: f64 = 0.7;

/// Checks one gland.
pub(super) fn check_gland(part: &Gland, checker: &mut Checker<'_>) {
    certificate::check(&part.certificate, checker);
    certificate::check_ip_in_wall(&part.certificate, checker);
    let clamping = checker.range("clamping_mm", part.clamping_mm, MOST_DIAMETER_MM);
    if let Some(under) = part.under_armour_mm
        && checker.range("under_armour_mm", under, MOST_DIAMETER_MM)
        && clamping
        && (under[0] > part.clamping_mm[0] || under[1] > part.clamping_mm[1])
    {
        checker.error(
            "under_armour_mm",
            "catalogue-range",
            format!(
                "{} to {} mm under the armour is more than {} to {} mm over the sheath",
                under[0], under[1], part.clamping_mm[0], part.clamping_mm[1]
            ),
            "diameters below those of `clamping_mm`",
            "`clamping_mm` is over the outer sheath, `under_armour_mm` over the inner one",
        );
    }
    envelope(&part.envelope, part.hole_mm, checker);
    hole(part.thread, part.hole_mm, checker);
    walls(part.wall_mm, checker);
    checker.positive("thread_length_mm", part.thread_length_mm, 200.0);
    if part.thread_length_mm > 0.0 && part.wall_mm[1] >= part.thread_length_mm {
        checker.error(
            "wall_mm",
            "catalogue-thread",
            format!(
                "a thread of {} mm does not pass a wall of {} mm and its locknut",
                part.thread_length_mm, part.wall_mm[1]
            ),
            format!("walls below {} mm", part.thread_length_mm),
            "leave room for the locknut",
        );
    }
    let spanner = checker.positive("spanner_mm", part.spanner_mm, MOST_DIAMETER_MM);
    if spanner && part.spanner_mm > part.envelope.outside_mm && part.envelope.outside_mm > 0.0 {
        checker.error(
            "spanner_mm",
            "catalogue-envelope",
            format!(
                "{} mm across flats is more than the envelope of {} mm",
                part.spanner_mm, part.envelope.outside_mm
            ),
            "at most `envelope.outside_mm`, which is across corners",
            "across corners is across flats times 1.1547 for a hexagon",
        );
    }
    checker.positive_if("torque_nm", part.torque_nm, MOST_TORQUE_NM);
    checker.mass_and_price(part.mass_kg, part.price);
}

/// Checks one plug or breather.
pub(super) fn check_plug(part: &Plug, checker: &mut Checker<'_>) {
    certificate::check(&part.certificate, checker);
    certificate::check_ip_in_wall(&part.certificate, checker);
    envelope(&part.envelope, part.hole_mm, checker);
    hole(part.thread, part.hole_mm, checker);
    walls(part.wall_mm, checker);
    checker.positive_if("torque_nm", part.torque_nm, MOST_TORQUE_NM);
    checker.mass_and_price(part.mass_kg, part.price);
}

/// Checks one thread adapter.
pub(super) fn check_adapter(part: &Adapter, checker: &mut Checker<'_>) {
    certificate::check(&part.certificate, checker);
    certificate::check_ip_in_wall(&part.certificate, checker);
    if part.male == part.female {
        checker.error(
            "female",
            "catalogue-thread",
            format!("both threads are {}", part.male),
            "two different threads",
            "an adapter changes the thread",
        );
    }
    envelope(&part.envelope, part.hole_mm, checker);
    hole(part.male, part.hole_mm, checker);
    walls(part.wall_mm, checker);
    checker.mass_and_price(part.mass_kg, part.price);
}

/// The hole lets the thread through without much play.
fn hole(thread: Thread, hole_mm: f64, checker: &mut Checker<'_>) {
    if !checker.positive("hole_mm", hole_mm, MOST_DIAMETER_MM) {
        return;
    }
    let major = thread.major_diameter_mm();
    if hole_mm < major || hole_mm > major + MOST_PLAY_MM {
        checker.error(
            "hole_mm",
            "catalogue-hole",
            format!("a hole of {hole_mm} mm does not suit {thread}, whose major diameter is {major:.1} mm"),
            format!("{major:.1} to {:.1} mm, usually {}", major + MOST_PLAY_MM, thread.clearance_hole_mm()),
            "the hole is the thread plus its clearance",
        );
    }
}

/// The parts on both sides of the wall cover the hole.
fn envelope(envelope: &EntryEnvelope, hole_mm: f64, checker: &mut Checker<'_>) {
    let diameters = [
        ("envelope.outside_mm", envelope.outside_mm),
        ("envelope.inside_mm", envelope.inside_mm),
    ];
    for (field, diameter) in diameters {
        if checker.positive(field, diameter, MOST_DIAMETER_MM) && diameter <= hole_mm {
            checker.error(
                field,
                "catalogue-envelope",
                format!("{diameter} mm does not cover the hole of {hole_mm} mm"),
                "a diameter above `hole_mm`",
                "give the hexagon across corners",
            );
        }
    }
    checker.between("envelope.reach_out_mm", envelope.reach_out_mm, 0.0, 500.0);
    checker.between("envelope.reach_in_mm", envelope.reach_in_mm, 0.0, 500.0);
}

fn walls(wall_mm: [f64; 2], checker: &mut Checker<'_>) {
    let least = checker.between("wall_mm[0]", wall_mm[0], 0.0, 100.0);
    if least & checker.positive("wall_mm[1]", wall_mm[1], 100.0) {
        checker.rising("wall_mm", wall_mm);
    }
}
