//! Glands for cables, plugs for spare entries, a breather where one is asked for.
//!
//! The gland of a cable is the one with the smallest thread whose clamping range takes the cable with
//! its tolerance; one that would clamp at the very end of its range only where no other fits.

use super::build::Builder;
use super::suitability::suits;
use super::{EntryNeed, EntryPartNeed, EntryUse};
use crate::catalogue::{
    Accessory, AccessoryKind, Catalogue, CircuitKind, EntryEnvelope, Gland, Material, Plug,
    PlugKind,
};
use crate::requirements::{Area, Cable, ThreadSystem};
use crate::space::up_to_tenth;
use crate::standards::threads::Thread;

/// Adds all entries.
pub(super) fn add_entries(builder: &mut Builder<'_, '_>) {
    for index in 0..builder.list.cables.len() {
        add_cable(builder, index);
    }
    add_spares(builder);
    if builder.list.wishes.breather {
        add_breather(builder);
    }
}

fn add_cable(builder: &mut Builder<'_, '_>, index: usize) {
    let cable = &builder.list.cables[index];
    let reserve_percent = builder.workshop.entries.clamping_reserve_percent;
    match choose_gland(
        builder.catalogue,
        &builder.list.area,
        cable,
        reserve_percent,
    ) {
        Ok(gland) => {
            let wiring_space_mm = cable
                .cores
                .iter()
                .filter_map(|core| builder.workshop.wiring_space_mm(core.section.mm2))
                .fold(0.0, f64::max);
            builder.demand.entries.push(EntryNeed {
                purpose: EntryUse::Cable(index),
                part: EntryPartNeed::Gland(gland),
                thread: gland.thread,
                envelope_mm: up_to_tenth(gland.envelope.diameter_mm()),
                reach_in_mm: up_to_tenth(gland.envelope.reach_in_mm),
                walls: cable.walls.clone(),
                wiring_space_mm,
                earth_plate: earth_plate(builder.catalogue, gland.material, gland.thread),
            });
        }
        Err(reason) => {
            let [least, most] = cable.diameter_range_mm;
            let message = format!(
                "no gland takes cable `{}` of {least:.1} to {most:.1} mm diameter",
                cable.tag
            );
            let mut finding = cable
                .place
                .error("diameter_mm", "demand-no-gland", &message)
                .expected("a gland in the catalogue whose clamping range holds the whole range");
            finding = finding.hint(reason);
            builder.refusals.push(finding);
        }
    }
}

/// The gland of a cable, or why none serves.
fn choose_gland<'c>(
    catalogue: &'c Catalogue,
    area: &Area,
    cable: &Cable,
    reserve_percent: f64,
) -> Result<&'c Gland, String> {
    let named: Vec<&Gland> = match &cable.gland {
        Some(id) => catalogue
            .gland
            .iter()
            .filter(|gland| gland.id == *id)
            .collect(),
        None => {
            let system = |gland: &&Gland| {
                gland.thread.is_metric() == (cable.thread_system == ThreadSystem::Metric)
            };
            catalogue.gland.iter().filter(system).collect()
        }
    };
    let suitable: Vec<&Gland> = named
        .iter()
        .copied()
        .filter(|gland| suits(&gland.certificate, area, true).is_ok())
        .collect();
    if suitable.is_empty() {
        let reason = named
            .first()
            .and_then(|gland| suits(&gland.certificate, area, true).err());
        return Err(match reason {
            Some(reason) => format!("no gland of the catalogue may be used in the area: {reason}"),
            None => "the catalogue has no gland of this thread system".to_string(),
        });
    }
    let matching: Vec<&Gland> = suitable
        .into_iter()
        .filter(|gland| matches_build(catalogue, gland, cable))
        .collect();
    if matching.is_empty() {
        return Err(if cable.armoured {
            "the catalogue has no suitable gland with an armour clamp".to_string()
        } else {
            "the catalogue has no suitable gland of this kind and material".to_string()
        });
    }
    let best = matching
        .iter()
        .copied()
        .filter(|gland| clamps(gland, cable))
        .min_by(|a, b| {
            near_end(a, cable, reserve_percent)
                .cmp(&near_end(b, cable, reserve_percent))
                .then(
                    a.thread
                        .major_diameter_mm()
                        .total_cmp(&b.thread.major_diameter_mm()),
                )
                .then(
                    a.envelope
                        .diameter_mm()
                        .total_cmp(&b.envelope.diameter_mm()),
                )
                .then(a.price.total_cmp(&b.price))
                .then(a.id.cmp(&b.id))
        });
    best.ok_or_else(|| {
        let least = matching
            .iter()
            .map(|gland| gland.clamping_mm[0])
            .fold(f64::INFINITY, f64::min);
        let most = matching
            .iter()
            .map(|gland| gland.clamping_mm[1])
            .fold(0.0, f64::max);
        let armour = cable.under_armour_mm.map_or(String::new(), |[a, b]| {
            format!("; under the armour {a:.1} to {b:.1} mm must be taken too")
        });
        format!("suitable glands of this kind clamp between {least} and {most} mm{armour}")
    })
}

/// Whether armour, kind of circuit and material of a gland go with a cable. Intrinsically safe cables
/// get a light blue gland where plastic ones are used; light blue ones are kept for them.
fn matches_build(catalogue: &Catalogue, gland: &Gland, cable: &Cable) -> bool {
    let intrinsically_safe = cable.kind == CircuitKind::IntrinsicallySafe;
    let colour = match (intrinsically_safe, gland.for_intrinsically_safe) {
        (false, marked) => !marked,
        (true, true) => true,
        (true, false) => gland.material.is_metal(),
    };
    let material = cable
        .gland_material
        .is_none_or(|material| material == gland.material);
    // A metal gland must be earthed, should the wall turn out to be plastic.
    let earthed = !gland.material.is_metal()
        || earth_plate(catalogue, gland.material, gland.thread).is_some();
    colour && material && earthed && cable.armoured == gland.under_armour_mm.is_some()
}

fn clamps(gland: &Gland, cable: &Cable) -> bool {
    let within = |[least, most]: [f64; 2], [from, to]: [f64; 2]| least <= from && to <= most;
    within(gland.clamping_mm, cable.diameter_range_mm)
        && match (gland.under_armour_mm, cable.under_armour_mm) {
            (Some(range), Some(needed)) => within(range, needed),
            (None, None) => true,
            _ => false,
        }
}

/// Whether the nominal diameter lies in the outermost share of the clamping range.
fn near_end(gland: &Gland, cable: &Cable, reserve_percent: f64) -> bool {
    let [least, most] = gland.clamping_mm;
    let reserve_mm = (most - least) * reserve_percent / 100.0;
    cable.diameter_mm < least + reserve_mm || cable.diameter_mm > most - reserve_mm
}

/// The part that earths a metal gland of this thread in a plastic wall.
fn earth_plate(catalogue: &Catalogue, material: Material, thread: Thread) -> Option<&Accessory> {
    catalogue
        .accessory
        .iter()
        .filter(|part| {
            material.is_metal()
                && part.kind == AccessoryKind::EarthPlate
                && part.thread == Some(thread)
        })
        .min_by(|a, b| a.price.total_cmp(&b.price).then(a.id.cmp(&b.id)))
}

fn choose_plug<'c>(
    builder: &Builder<'c, '_>,
    kind: PlugKind,
    thread: Option<Thread>,
) -> Option<&'c Plug> {
    builder
        .catalogue
        .plug
        .iter()
        .filter(|plug| plug.kind == kind && thread.is_none_or(|thread| plug.thread == thread))
        .filter(|plug| suits(&plug.certificate, &builder.list.area, true).is_ok())
        .filter(|plug| {
            !plug.material.is_metal()
                || earth_plate(builder.catalogue, plug.material, plug.thread).is_some()
        })
        .min_by(|a, b| {
            a.thread
                .major_diameter_mm()
                .total_cmp(&b.thread.major_diameter_mm())
                .then(a.material.is_metal().cmp(&b.material.is_metal()))
                .then(a.price.total_cmp(&b.price))
                .then(a.id.cmp(&b.id))
        })
}

/// Spare entries keep the room of a gland of the same thread, so that one can be fitted later.
fn add_spares(builder: &mut Builder<'_, '_>) {
    for (thread, count) in builder.list.spare.entries.clone() {
        let Some(plug) = choose_plug(builder, PlugKind::StoppingPlug, Some(thread)) else {
            let message = format!("no stopping plug closes a spare entry {thread}");
            let finding = builder
                .list
                .spare
                .place
                .error("entries", "demand-no-plug", &message)
                .expected("a suitable stopping plug of this thread in the catalogue");
            builder.refusals.push(finding);
            continue;
        };
        let room = room_of_gland(builder, thread);
        let diameter_mm = plug
            .envelope
            .diameter_mm()
            .max(room.map_or(0.0, |room| room.diameter_mm()));
        let reach_in_mm = plug
            .envelope
            .reach_in_mm
            .max(room.map_or(0.0, |room| room.reach_in_mm));
        for _ in 0..count {
            let need = plug_need(builder, EntryUse::Spare, plug, diameter_mm, reach_in_mm);
            builder.demand.entries.push(need);
        }
    }
}

/// The envelope of the smallest suitable gland of a thread.
fn room_of_gland(builder: &Builder<'_, '_>, thread: Thread) -> Option<EntryEnvelope> {
    builder
        .catalogue
        .gland
        .iter()
        .filter(|gland| {
            gland.thread == thread && suits(&gland.certificate, &builder.list.area, true).is_ok()
        })
        .map(|gland| gland.envelope)
        .min_by(|a, b| a.diameter_mm().total_cmp(&b.diameter_mm()))
}

fn add_breather(builder: &mut Builder<'_, '_>) {
    let Some(plug) = choose_plug(builder, PlugKind::Breather, None) else {
        let finding = builder
            .list
            .wishes
            .place
            .error(
                "breather",
                "demand-no-breather",
                "the catalogue has no breather that may be used in the area",
            )
            .expected("a suitable breather in the catalogue");
        builder.refusals.push(finding);
        return;
    };
    let mut need = plug_need(
        builder,
        EntryUse::Breather,
        plug,
        plug.envelope.diameter_mm(),
        plug.envelope.reach_in_mm,
    );
    // Water must be able to run out.
    need.walls = vec![crate::space::Face::Bottom];
    builder.demand.entries.push(need);
}

fn plug_need<'c>(
    builder: &Builder<'c, '_>,
    purpose: EntryUse,
    plug: &'c Plug,
    diameter_mm: f64,
    reach_in_mm: f64,
) -> EntryNeed<'c> {
    EntryNeed {
        purpose,
        part: EntryPartNeed::Plug(plug),
        thread: plug.thread,
        envelope_mm: up_to_tenth(diameter_mm),
        reach_in_mm: up_to_tenth(reach_in_mm),
        walls: builder.list.wishes.entry_walls.clone(),
        wiring_space_mm: 0.0,
        earth_plate: earth_plate(builder.catalogue, plug.material, plug.thread),
    }
}
