//! Which gland serves a cable, and what others lack for it.
//!
//! The gland of a cable is the one with the smallest thread whose clamping range takes the cable with
//! its tolerance; one that would clamp at the very end of its range only where no other fits.

use super::misfit::{Misfit, Nearest};
use super::suitability::suits;
use crate::catalogue::{Accessory, AccessoryKind, Catalogue, CircuitKind, Gland, Material};
use crate::requirements::{Area, Cable, ThreadSystem};
use crate::standards::threads::Thread;
use itertools::Itertools;

/// The gland of a cable, or why none serves.
pub(super) fn choose_gland<'c>(
    catalogue: &'c Catalogue,
    area: &Area,
    cable: &Cable,
    reserve_percent: f64,
) -> Result<&'c Gland, String> {
    let asked: Vec<&Gland> = match &cable.gland {
        Some(id) => catalogue
            .gland
            .iter()
            .filter(|gland| gland.id == *id)
            .collect(),
        None => {
            let system = |gland: &&Gland| {
                cable.thread_system.is_none_or(|system| {
                    gland.thread.is_metric() == (system == ThreadSystem::Metric)
                })
            };
            catalogue.gland.iter().filter(system).collect()
        }
    };
    if asked.is_empty() {
        let system = cable.thread_system.map_or("any", ThreadSystem::words);
        return Err(format!("the catalogue has no gland with {system} thread"));
    }
    let mut nearest = Nearest::of_none();
    let mut best: Option<&Gland> = None;
    for gland in asked {
        let misfit = check_gland(catalogue, area, gland, cable);
        if misfit.conditions > 0 {
            nearest.note(&gland.id, misfit);
            continue;
        }
        let order = |gland: &Gland| {
            (
                near_end(gland, cable, reserve_percent),
                micrometres(gland.thread.major_diameter_mm()),
                micrometres(gland.envelope.diameter_mm()),
                (gland.price * 100.0).round() as i64,
            )
        };
        if best.is_none_or(|known| (order(gland), &gland.id) < (order(known), &known.id)) {
            best = Some(gland);
        }
    }
    best.ok_or_else(|| nearest.words(cable.gland.is_some()).unwrap_or_default())
}

/// Whole micrometres, so that lengths compare.
fn micrometres(length_mm: f64) -> i64 {
    (length_mm * 1000.0).round() as i64
}

/// What a gland lacks for a cable in the area.
fn check_gland(catalogue: &Catalogue, area: &Area, gland: &Gland, cable: &Cable) -> Misfit {
    let mut misfit = Misfit::default();
    if let Err(reason) = suits(&gland.certificate, area, true) {
        misfit.add(format!("is not certified for the area ({reason})"), 1.0);
    }
    // A gland of another build is further off than one that is a little too small.
    const ANOTHER_BUILD: f64 = 2.0;
    for reason in build_mismatches(catalogue, area, gland, cable) {
        misfit.add(reason, ANOTHER_BUILD);
    }
    // Where only one of the two has an armour that is told above.
    let comparable = gland.under_armour_mm.is_some() == cable.under_armour_mm.is_some();
    let held = within(gland.clamping_mm, cable.diameter_range_mm);
    if !clamps(gland, cable) && (comparable || !held) {
        let shortfall = 1.0 + misfit_mm(gland, cable) / cable.diameter_mm;
        misfit.add(clamping_in_words(gland, cable), shortfall);
    }
    misfit
}

/// By how much the clamping ranges of a gland fall short of a cable.
fn misfit_mm(gland: &Gland, cable: &Cable) -> f64 {
    let short = |[least, most]: [f64; 2], [from, to]: [f64; 2]| {
        (least - from).max(0.0) + (to - most).max(0.0)
    };
    let armour_mm = match (gland.under_armour_mm, cable.under_armour_mm) {
        (Some(range), Some(needed)) => short(range, needed),
        _ => 0.0,
    };
    short(gland.clamping_mm, cable.diameter_range_mm) + armour_mm
}

pub(super) fn hundredths(length_mm: f64) -> f64 {
    (length_mm * 100.0).round() / 100.0
}

/// The clamping ranges of a gland that do not hold those of the cable, with both.
fn clamping_in_words(gland: &Gland, cable: &Cable) -> String {
    let short = |[least, most]: [f64; 2], [from, to]: [f64; 2], where_: &str| {
        let (cable_from, cable_to) = (hundredths(from), hundredths(to));
        (!within([least, most], [from, to])).then(|| {
            format!(
                "{least} to {most} mm{where_} where the cable has {cable_from} to {cable_to} mm"
            )
        })
    };
    let outside = short(gland.clamping_mm, cable.diameter_range_mm, "");
    let under = match (gland.under_armour_mm, cable.under_armour_mm) {
        (Some(range), Some(needed)) => short(range, needed, " under the armour"),
        _ => None,
    };
    let both = outside.into_iter().chain(under).join(" and ");
    format!("clamps {both}")
}

/// Why armour, kind of circuit or material of a gland do not go with a cable. Intrinsically safe
/// cables get a light blue gland where plastic ones are used; light blue ones are kept for them.
fn build_mismatches(
    catalogue: &Catalogue,
    area: &Area,
    gland: &Gland,
    cable: &Cable,
) -> Vec<String> {
    let intrinsically_safe = cable.kind == CircuitKind::IntrinsicallySafe;
    let metal = gland.material.is_metal();
    let mut reasons = Vec::new();
    if cable.armoured && gland.under_armour_mm.is_none() {
        reasons.push("has no armour clamp, and the cable is armoured".to_string());
    }
    if !cable.armoured && gland.under_armour_mm.is_some() {
        reasons.push("clamps armour, and the cable has none".to_string());
    }
    if let Some(material) = cable.gland_material
        && material != gland.material
    {
        let (has, asked) = (gland.material.words(), material.words());
        reasons.push(format!("is made of {has} where {asked} is asked for"));
    }
    if !intrinsically_safe && gland.for_intrinsically_safe {
        reasons.push("is kept for intrinsically safe circuits".to_string());
    }
    if intrinsically_safe && !gland.for_intrinsically_safe && !metal {
        reasons.push("is not marked for intrinsically safe circuits".to_string());
    }
    // A metal gland must be earthed, should the wall turn out to be plastic.
    if metal && earth_plate(catalogue, area, gland.material, gland.thread).is_none() {
        reasons
            .push("has no earth plate in the catalogue that is certified for the area".to_string());
    }
    reasons
}

fn within([least, most]: [f64; 2], [from, to]: [f64; 2]) -> bool {
    least <= from && to <= most
}

fn clamps(gland: &Gland, cable: &Cable) -> bool {
    within(gland.clamping_mm, cable.diameter_range_mm)
        && match (gland.under_armour_mm, cable.under_armour_mm) {
            (Some(range), Some(needed)) => within(range, needed),
            (None, None) => true,
            _ => false,
        }
}

/// How a gland would be used for a cable.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GlandUse {
    /// It does not clamp the whole range of the cable.
    Not,
    /// It clamps with some of its range to spare.
    Within,
    /// It clamps at the very end of its range: taken where no other fits.
    NearEnd,
}

/// How a gland would be used for a cable, by its clamping ranges alone.
pub fn use_of_gland(gland: &Gland, cable: &Cable, reserve_percent: f64) -> GlandUse {
    match (
        clamps(gland, cable),
        near_end(gland, cable, reserve_percent),
    ) {
        (false, _) => GlandUse::Not,
        (true, false) => GlandUse::Within,
        (true, true) => GlandUse::NearEnd,
    }
}

/// Whether the nominal diameter lies in the outermost share of the clamping range.
fn near_end(gland: &Gland, cable: &Cable, reserve_percent: f64) -> bool {
    let [least, most] = gland.clamping_mm;
    let reserve_mm = (most - least) * reserve_percent / 100.0;
    cable.diameter_mm < least + reserve_mm || cable.diameter_mm > most - reserve_mm
}

/// The part that earths a metal gland of this thread in a plastic wall, certified for the area.
pub(super) fn earth_plate<'c>(
    catalogue: &'c Catalogue,
    area: &Area,
    material: Material,
    thread: Thread,
) -> Option<&'c Accessory> {
    catalogue
        .accessory
        .iter()
        .filter(|part| {
            material.is_metal()
                && part.kind == AccessoryKind::EarthPlate
                && part.thread == Some(thread)
                && suits(&part.certificate, area, false).is_ok()
        })
        .min_by(|a, b| a.price.total_cmp(&b.price).then(a.id.cmp(&b.id)))
}
