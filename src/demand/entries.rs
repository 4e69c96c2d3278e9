//! Glands for cables, plugs for spare entries, a breather where one is asked for.

use super::build::Builder;
use super::glands::{choose_gland, earth_plate, hundredths};
use super::misfit::{Misfit, Nearest};
use super::refusals::section_in_words;
use super::suitability::suits;
use super::{EntryNeed, EntryPartNeed, EntryUse};
use crate::catalogue::{Catalogue, EntryEnvelope, Plug, PlugKind};
use crate::requirements::Cable;
use crate::source::Finding;
use crate::space::up_to_tenth;
use crate::standards::threads::Thread;

/// Adds all entries.
pub(super) fn add_entries(builder: &mut Builder<'_, '_>) {
    add_cables(builder);
    add_spares(builder);
    if builder.list.wishes.breather {
        add_breather(builder);
    }
}

/// Cables that are alike in all that an entry asks about have the same, whichever tables they stand in.
fn add_cables(builder: &mut Builder<'_, '_>) {
    let list = builder.list;
    let mut known: Vec<(&Cable, Option<EntryNeed<'_>>)> = Vec::new();
    // What has been told of one cable stands for its table, not for another.
    let mut told: Vec<(&Cable, Option<EntryNeed<'_>>)> = Vec::new();
    for (index, cable) in list.cables.iter().enumerate() {
        let of_all = known.iter().rev();
        let of_table = told.iter().rev().filter(|(of, _)| of.place == cable.place);
        let mut alike = of_all.chain(of_table);
        let entry = match alike.find(|(of, _)| same_entry(of, cable)) {
            Some((_, entry)) => entry.clone(),
            None => {
                let refused = builder.refusals.len();
                let entry = entry_of(builder, index);
                let is_told = builder.refusals.len() > refused;
                let kept = if is_told { &mut told } else { &mut known };
                kept.push((cable, entry.clone()));
                entry
            }
        };
        match entry {
            Some(entry) => builder.demand.entries.push(EntryNeed {
                purpose: EntryUse::Cable(index),
                ..entry
            }),
            None => builder.refusals.push(no_gland(builder, cable)),
        }
    }
}

/// Whether two cables are alike in all that decides their entry.
fn same_entry(one: &Cable, other: &Cable) -> bool {
    fn sections_mm2(cable: &Cable) -> impl Iterator<Item = f64> + '_ {
        cable.cores.iter().map(|core| core.section.mm2)
    }
    one.diameter_mm == other.diameter_mm
        && one.diameter_range_mm == other.diameter_range_mm
        && one.armoured == other.armoured
        && one.under_armour_mm == other.under_armour_mm
        && one.kind == other.kind
        && one.walls == other.walls
        && one.gland == other.gland
        && one.gland_material == other.gland_material
        && one.thread_system == other.thread_system
        && sections_mm2(one).eq(sections_mm2(other))
}

/// The entry of a cable; `None` where no gland serves it.
fn entry_of<'c>(builder: &mut Builder<'c, '_>, index: usize) -> Option<EntryNeed<'c>> {
    let cable = &builder.list.cables[index];
    let reserve_percent = builder.workshop.entries.clamping_reserve_percent;
    let area = &builder.list.area;
    let gland = choose_gland(builder.catalogue, area, cable, reserve_percent).ok()?;
    let mut wiring_space_mm: f64 = 0.0;
    for core in &cable.cores {
        match builder.workshop.wiring_space_mm(core.section.mm2) {
            Some(space_mm) => wiring_space_mm = wiring_space_mm.max(space_mm),
            None => {
                let message = format!(
                    "no wiring space is known for the {} cores of cable `{}`",
                    section_in_words(&core.section),
                    cable.tag
                );
                let finding = cable
                    .place
                    .error("cores", "demand-no-wiring-space", &message)
                    .expected("a step of the wiring space that holds the section")
                    .hint("add a `[[wiring_space]]` to the workshop rules");
                builder.refusals.push(finding);
                break;
            }
        }
    }
    Some(EntryNeed {
        purpose: EntryUse::Cable(index),
        part: EntryPartNeed::Gland(gland),
        thread: gland.thread,
        envelope_mm: up_to_tenth(gland.envelope.diameter_mm()),
        reach_in_mm: up_to_tenth(gland.envelope.reach_in_mm),
        walls: cable.walls.clone(),
        wiring_space_mm,
        earth_plate: earth_plate(builder.catalogue, area, gland.material, gland.thread),
    })
}

fn no_gland(builder: &Builder<'_, '_>, cable: &Cable) -> Finding {
    let reserve_percent = builder.workshop.entries.clamping_reserve_percent;
    let reason = choose_gland(
        builder.catalogue,
        &builder.list.area,
        cable,
        reserve_percent,
    )
    .err();
    let [least, most] = cable.diameter_range_mm;
    // A cable that may be of any diameter has an empty range.
    let diameter = if least <= most {
        let (least, most) = (hundredths(least), hundredths(most));
        let estimated = if cable.place.has("diameter_mm") {
            ""
        } else {
            " (estimated from its cores)"
        };
        format!(" of {least} to {most} mm diameter{estimated}")
    } else {
        String::new()
    };
    let message = format!("no gland takes cable `{}`{diameter}", cable.tag);
    cable
        .place
        .error("diameter_mm", "demand-no-gland", message)
        .expected("a gland in the catalogue whose clamping range holds the whole range")
        .hint(reason.unwrap_or_default())
}

fn choose_plug<'c>(
    builder: &Builder<'c, '_>,
    kind: PlugKind,
    thread: Option<Thread>,
) -> Option<&'c Plug> {
    plugs(builder.catalogue, kind, thread)
        .filter(|plug| check_plug(builder, plug).conditions == 0)
        .min_by(|a, b| {
            a.thread
                .major_diameter_mm()
                .total_cmp(&b.thread.major_diameter_mm())
                .then(a.material.is_metal().cmp(&b.material.is_metal()))
                .then(a.price.total_cmp(&b.price))
                .then(a.id.cmp(&b.id))
        })
}

fn plugs(
    catalogue: &Catalogue,
    kind: PlugKind,
    thread: Option<Thread>,
) -> impl Iterator<Item = &Plug> {
    let of_kind = catalogue.plug.iter().filter(move |plug| plug.kind == kind);
    of_kind.filter(move |plug| thread.is_none_or(|thread| plug.thread == thread))
}

/// What a plug lacks for the area.
fn check_plug(builder: &Builder<'_, '_>, plug: &Plug) -> Misfit {
    let mut misfit = Misfit::default();
    if let Err(reason) = suits(&plug.certificate, &builder.list.area, true) {
        misfit.add(format!("is not certified for the area ({reason})"), 1.0);
    }
    let earthed = earth_plate(
        builder.catalogue,
        &builder.list.area,
        plug.material,
        plug.thread,
    );
    if plug.material.is_metal() && earthed.is_none() {
        misfit.add(
            "has no earth plate in the catalogue that is certified for the area".to_string(),
            1.0,
        );
    }
    misfit
}

/// Why no plug of a kind and thread serves: what the nearest one lacks.
fn nearest_plug(builder: &Builder<'_, '_>, kind: PlugKind, thread: Option<Thread>) -> String {
    let mut nearest = Nearest::of_none();
    for plug in plugs(builder.catalogue, kind, thread) {
        nearest.note(&plug.id, check_plug(builder, plug));
    }
    nearest.words(false).unwrap_or_else(|| {
        let what = match kind {
            PlugKind::StoppingPlug => "stopping plug",
            PlugKind::Breather => "breather",
        };
        let of = thread.map_or(String::new(), |thread| format!(" with thread {thread}"));
        format!("the catalogue has no {what}{of}")
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
                .expected("a suitable stopping plug of this thread in the catalogue")
                .hint(nearest_plug(builder, PlugKind::StoppingPlug, Some(thread)));
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
            .expected("a suitable breather in the catalogue")
            .hint(nearest_plug(builder, PlugKind::Breather, None));
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
        earth_plate: earth_plate(
            builder.catalogue,
            &builder.list.area,
            plug.material,
            plug.thread,
        ),
    }
}
