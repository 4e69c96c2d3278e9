//! Checks of accessories and rails.

use super::certificate;
use super::checker::{Checker, MOST_CURRENT_A, MOST_PRICE, MOST_RESISTANCE_MOHM};
use super::terminal::profile;
use crate::catalogue::reading::Parts;
use crate::catalogue::{Accessory, AccessoryKind, Rail};
use std::collections::BTreeSet;

/// Most terminals that one jumper links.
const MOST_POLES: u32 = 100;

/// Checks one accessory; `parts` to find the terminals it fits.
pub(super) fn check(part: &Accessory, parts: &Parts, checker: &mut Checker<'_>) {
    // An earth plate is certified with the gland that it belongs to.
    if part.kind == AccessoryKind::EarthPlate {
        certificate::check_what_it_says(&part.certificate, checker);
    } else {
        certificate::check(&part.certificate, checker);
    }
    let terminals: BTreeSet<&str> = parts
        .terminal
        .iter()
        .map(|part| part.value.id.as_str())
        .collect();
    let unsound = |id: &str| !parts.is_sound(id);
    checker.fits(
        &part.fits,
        "a terminal",
        &terminals,
        &parts.written_ids,
        unsound,
    );
    match part.kind {
        AccessoryKind::EndStop | AccessoryKind::EndPlate | AccessoryKind::Partition => {
            checker.positive("width_mm", part.width_mm, 100.0);
            checker.positive("length_mm", part.length_mm, 500.0);
            checker.positive("height_mm", part.height_mm, 500.0);
            if part.kind == AccessoryKind::EndPlate {
                checker.needs(
                    "fits",
                    !part.fits.is_empty(),
                    "an end plate",
                    "fits = [\"…\"]",
                );
            }
        }
        AccessoryKind::Jumper => {
            checker.needs("fits", !part.fits.is_empty(), "a jumper", "fits = [\"…\"]");
            checker.needs("poles", part.poles.is_some(), "a jumper", "poles = 2");
            checker.needs(
                "current_a",
                part.current_a.is_some(),
                "a jumper",
                "current_a = 20",
            );
            checker.needs(
                "resistance_mohm",
                part.resistance_mohm.is_some(),
                "a jumper",
                "resistance_mohm = 0.2",
            );
            if let Some(poles) = part.poles
                && !(2..=MOST_POLES).contains(&poles)
            {
                checker.error(
                    "poles",
                    "catalogue-range",
                    format!("`poles` is {poles}"),
                    format!("a number from 2 to {MOST_POLES}"),
                    "it is the number of terminals that the jumper links",
                );
            }
        }
        AccessoryKind::EarthPlate => {
            checker.needs(
                "thread",
                part.thread.is_some(),
                "an earth plate",
                "thread = \"M20\"",
            );
        }
    }
    checker.positive_if("current_a", part.current_a, MOST_CURRENT_A);
    checker.positive_if(
        "resistance_mohm",
        part.resistance_mohm,
        MOST_RESISTANCE_MOHM,
    );
    checker.mass_and_price(part.mass_kg, part.price);
}

/// Checks one rail.
pub(super) fn check_rail(part: &Rail, checker: &mut Checker<'_>) {
    profile("profile", &part.profile, checker);
    checker.positive("width_mm", part.width_mm, 200.0);
    checker.positive("height_mm", part.height_mm, 200.0);
    checker.positive("stock_length_mm", part.stock_length_mm, 20_000.0);
    checker.between("mass_kg_per_m", part.mass_kg_per_m, 0.0, 100.0);
    checker.between("price_per_m", part.price_per_m, 0.0, MOST_PRICE);
}
