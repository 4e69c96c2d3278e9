//! Positions of entries.

use super::{clean, clean_block};
use crate::arrangement::{
    EarthPlateRecord, EnclosureRecord, EntryPart, EntryPurpose, Limits, PlacedEntry,
};
use crate::demand::{Demand, EntryNeed, EntryPartNeed, EntryUse};
use crate::model::FreeEntry;
use crate::model::walls::{EntryRow, spread};
use crate::requirements::RequirementList;
use crate::space::Face;
use itertools::Itertools;

/// Places entries wall by wall, and numbers them in that order. Entries in no row keep their places and
/// are numbered from left to right.
pub(super) fn place(
    list: &RequirementList,
    demand: &Demand<'_>,
    mounted: &EnclosureRecord,
    limits: &Limits,
    rows: &[EntryRow],
    free: &[FreeEntry],
) -> Result<Vec<PlacedEntry>, String> {
    let mut placed = Vec::new();
    let in_rows = spots(demand, limits, rows);
    for wall in Face::WALLS {
        for spot in in_rows.iter().filter(|spot| spot.wall == wall) {
            let id = format!("E{}", placed.len() + 1);
            let need = &demand.entries[spot.entry];
            placed.push(entry_at(
                list, mounted, id, need, wall, spot.u_mm, spot.v_mm,
            )?);
        }
        let mut free = free.iter().filter(|entry| entry.wall == wall).collect_vec();
        free.sort_by(|a, b| a.u_mm.total_cmp(&b.u_mm).then(a.v_mm.total_cmp(&b.v_mm)));
        for at in free {
            let id = format!("E{}", placed.len() + 1);
            let need = &demand.entries[at.entry];
            placed.push(entry_at(list, mounted, id, need, wall, at.u_mm, at.v_mm)?);
        }
    }
    if placed.len() != demand.entries.len() {
        return Err(format!(
            "{} of {} entries were placed",
            placed.len(),
            demand.entries.len()
        ));
    }
    Ok(placed)
}

/// A place in a row with the entry that stands there.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot {
    /// Index of the row, and of the place within it.
    pub row: usize,
    pub index: usize,
    pub entry: usize,
    pub wall: Face,
    pub u_mm: f64,
    pub v_mm: f64,
}

/// The places wall by wall: rows are spread over their area, entries over their row.
pub(super) fn spots(demand: &Demand<'_>, limits: &Limits, rows: &[EntryRow]) -> Vec<Spot> {
    let mut spots = Vec::new();
    for wall in Face::WALLS {
        let on_wall = rows.iter().enumerate().filter(|(_, row)| row.wall == wall);
        for (_, rows) in &on_wall.chunk_by(|(_, row)| row.area_index) {
            let rows = rows.collect_vec();
            let heights = rows
                .iter()
                .map(|(_, row)| row_height_mm(demand, row))
                .collect_vec();
            let area = rows[0].1.area;
            let centres = spread(area.v_mm, area.height_mm, &heights, limits.gland_row_gap_mm);
            for ((row_index, row), v_mm) in rows.iter().zip(centres) {
                let envelopes = row
                    .entries
                    .iter()
                    .map(|entry| demand.entries[*entry].envelope_mm)
                    .collect_vec();
                let along = spread(area.u_mm, area.width_mm, &envelopes, limits.gland_gap_mm);
                for ((index, entry), u_mm) in row.entries.iter().enumerate().zip(along) {
                    spots.push(Spot {
                        row: *row_index,
                        index,
                        entry: *entry,
                        wall,
                        u_mm,
                        v_mm,
                    });
                }
            }
        }
    }
    spots
}

fn row_height_mm(demand: &Demand<'_>, row: &EntryRow) -> f64 {
    row.entries
        .iter()
        .map(|entry| demand.entries[*entry].envelope_mm)
        .fold(0.0, f64::max)
}

fn entry_at(
    list: &RequirementList,
    mounted: &EnclosureRecord,
    id: String,
    need: &EntryNeed<'_>,
    wall: Face,
    u_mm: f64,
    v_mm: f64,
) -> Result<PlacedEntry, String> {
    let part = entry_part(need);
    let (u_mm, v_mm) = (clean(u_mm), clean(v_mm));
    let envelope = part.envelope;
    let interior = mounted.interior;
    let square = |diameter_mm: f64| (diameter_mm, diameter_mm);
    let out_mm = mounted.wall_thickness_mm + envelope.reach_out_mm;
    let plastic_wall = !mounted.material.is_metal();
    let earth_plate = match (plastic_wall && part.material.is_metal(), need.earth_plate) {
        (false, _) => None,
        (true, Some(plate)) => Some(EarthPlateRecord {
            id: plate.id.clone(),
            description: plate.description.clone(),
            certificate: plate.certificate.clone(),
            mass_kg: plate.mass_kg,
            price: plate.price,
        }),
        (true, None) => return Err(format!("no earth plate for `{}`", part.id)),
    };
    Ok(PlacedEntry {
        id,
        purpose: match need.purpose {
            EntryUse::Cable(cable) => EntryPurpose::Cable(list.cables[cable].tag.clone()),
            EntryUse::Spare => EntryPurpose::Spare,
            EntryUse::Breather => EntryPurpose::Breather,
        },
        wall,
        u_mm,
        v_mm,
        thread: need.thread,
        hole_mm: match need.part {
            EntryPartNeed::Gland(gland) => gland.hole_mm,
            EntryPartNeed::Plug(plug) => plug.hole_mm,
        },
        envelope_mm: need.envelope_mm,
        inside: clean_block(interior.block(
            wall,
            (u_mm, v_mm),
            square(envelope.inside_mm),
            0.0,
            envelope.reach_in_mm,
        )),
        outside: clean_block(interior.block(
            wall,
            (u_mm, v_mm),
            square(envelope.outside_mm),
            -out_mm,
            -mounted.wall_thickness_mm,
        )),
        part,
        earth_plate,
    })
}

fn entry_part(need: &EntryNeed<'_>) -> EntryPart {
    match need.part {
        EntryPartNeed::Gland(gland) => EntryPart {
            id: gland.id.clone(),
            description: gland.description.clone(),
            material: gland.material,
            colour: gland.colour.clone(),
            clamping_mm: Some(gland.clamping_mm),
            under_armour_mm: gland.under_armour_mm,
            for_intrinsically_safe: gland.for_intrinsically_safe,
            envelope: gland.envelope,
            wall_mm: gland.wall_mm,
            spanner_mm: Some(gland.spanner_mm),
            torque_nm: gland.torque_nm,
            certificate: gland.certificate.clone(),
            mass_kg: gland.mass_kg,
            price: gland.price,
        },
        EntryPartNeed::Plug(plug) => EntryPart {
            id: plug.id.clone(),
            description: plug.description.clone(),
            material: plug.material,
            colour: String::new(),
            clamping_mm: None,
            under_armour_mm: None,
            for_intrinsically_safe: false,
            envelope: plug.envelope,
            wall_mm: plug.wall_mm,
            spanner_mm: None,
            torque_nm: plug.torque_nm,
            certificate: plug.certificate.clone(),
            mass_kg: plug.mass_kg,
            price: plug.price,
        },
    }
}
