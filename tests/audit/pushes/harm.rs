//! A proof that a push did no harm, in geometry of its own: a part is still where it may be, shares no
//! room, keeps its gaps, and no distance of bare metal fell below what is enough for any voltage here
//! or below what it was. Knows nothing of the audit. What it cannot prove it calls harm.

use glandrail::arrangement::{Arrangement, EntryPurpose, PlacedTerminal, Side};
use glandrail::catalogue::{AccessoryKind, CircuitKind, ElementKind, Material};
use glandrail::space::{Block, Rect};

/// Room for binary fractions, mm.
const EPSILON_MM: f64 = 1e-6;
/// A clearance that is enough for every voltage up to 1000 V, with the workshop's tolerance, mm.
const AMPLE_MM: f64 = 20.0;

fn extent(block: &Block) -> [(f64, f64); 3] {
    [
        (block.min.x_mm, block.max.x_mm),
        (block.min.y_mm, block.max.y_mm),
        (block.min.z_mm, block.max.z_mm),
    ]
}

/// The gap of two blocks along each axis; negative where they overlap along it.
fn gaps(a: &Block, b: &Block) -> [f64; 3] {
    let (a, b) = (extent(a), extent(b));
    [0, 1, 2].map(|axis| (b[axis].0 - a[axis].1).max(a[axis].0 - b[axis].1))
}

fn share_room(a: &Block, b: &Block) -> bool {
    gaps(a, b).iter().all(|gap| *gap < -EPSILON_MM)
}

fn straight_mm(a: &Block, b: &Block) -> f64 {
    gaps(a, b)
        .map(|gap| gap.max(0.0).powi(2))
        .iter()
        .sum::<f64>()
        .sqrt()
}

/// How far a rectangle keeps inside another.
fn margin_mm(inner: &Rect, outer: &Rect) -> f64 {
    let right = |rect: &Rect| rect.u_mm + rect.width_mm;
    let top = |rect: &Rect| rect.v_mm + rect.height_mm;
    [
        inner.u_mm - outer.u_mm,
        right(outer) - right(inner),
        inner.v_mm - outer.v_mm,
        top(outer) - top(inner),
    ]
    .into_iter()
    .fold(f64::INFINITY, f64::min)
}

fn flat_gap_mm(a: &Rect, b: &Rect) -> f64 {
    let u = (b.u_mm - a.u_mm - a.width_mm).max(a.u_mm - b.u_mm - b.width_mm);
    let v = (b.v_mm - a.v_mm - a.height_mm).max(a.v_mm - b.v_mm - b.height_mm);
    u.max(0.0).hypot(v.max(0.0))
}

/// What a push did; `None` where it is proved harmless.
pub fn harm(before: &Arrangement, after: &Arrangement) -> Option<String> {
    bodies(after)
        .or_else(|| entries(after))
        .or_else(|| rails(after))
        .or_else(|| rows(after))
        .or_else(|| lid(after))
        .or_else(|| super::holes::holes(after))
        .or_else(|| wiring(after))
        .or_else(|| depth(after))
        .or_else(|| bare_metal(before, after))
}

fn named(arrangement: &Arrangement) -> Vec<(&str, &Block)> {
    let mut all: Vec<(&str, &Block)> = Vec::new();
    all.extend(arrangement.rails.iter().map(|one| (&*one.id, &one.body)));
    all.extend(
        arrangement
            .terminals
            .iter()
            .map(|one| (&*one.id, &one.body)),
    );
    all.extend(
        arrangement
            .accessories
            .iter()
            .map(|one| (&*one.id, &one.body)),
    );
    all.extend(
        arrangement
            .entries
            .iter()
            .map(|one| (&*one.id, &one.inside)),
    );
    all.extend(
        arrangement
            .elements
            .iter()
            .map(|one| (&*one.tag, &one.body)),
    );
    all
}

fn bodies(after: &Arrangement) -> Option<String> {
    let room = &after.enclosure.interior;
    let ends_mm = [room.width_mm, room.height_mm, room.depth_mm];
    let all = named(after);
    for (at, (name, body)) in all.iter().enumerate() {
        for (axis, (low_mm, high_mm)) in extent(body).into_iter().enumerate() {
            if low_mm < -EPSILON_MM || high_mm > ends_mm[axis] + EPSILON_MM {
                return Some(format!("{name} leaves the room"));
            }
        }
        for (other, block) in &all[at + 1..] {
            // Entries of one wall are round; `entries` measures their circles.
            let wall = |name: &str| {
                let mut entries = after.entries.iter();
                entries.find(|one| one.id == name).map(|one| one.wall)
            };
            let round = wall(name).is_some() && wall(name) == wall(other);
            if !round && share_room(body, block) {
                return Some(format!("{name} and {other} share room"));
            }
        }
    }
    None
}

fn entries(after: &Arrangement) -> Option<String> {
    let (limits, room) = (&after.limits, &after.enclosure.interior);
    for (at, entry) in after.entries.iter().enumerate() {
        let half_mm = entry.envelope_mm / 2.0;
        let square = Rect {
            u_mm: entry.u_mm - half_mm,
            v_mm: entry.v_mm - half_mm,
            width_mm: entry.envelope_mm,
            height_mm: entry.envelope_mm,
        };
        let areas = after
            .enclosure
            .walls
            .get(&entry.wall)
            .map(|wall| &wall.areas);
        let fits = |area: &Rect| margin_mm(&square, area) >= -EPSILON_MM;
        if !areas.is_some_and(|areas| areas.iter().any(fits)) {
            return Some(format!("{} leaves what may be drilled", entry.id));
        }
        let length_mm = match entry.wall.name() {
            "top" | "bottom" => room.width_mm,
            _ => room.height_mm,
        };
        let inner = Rect {
            u_mm: 0.0,
            v_mm: 0.0,
            width_mm: length_mm,
            height_mm: room.depth_mm,
        };
        if margin_mm(&square, &inner) < limits.gland_corner_mm - EPSILON_MM {
            return Some(format!("{} stands in a corner", entry.id));
        }
        for other in after.entries[at + 1..]
            .iter()
            .filter(|other| other.wall == entry.wall)
        {
            let (along_mm, across_mm) = (
                (entry.u_mm - other.u_mm).abs(),
                (entry.v_mm - other.v_mm).abs(),
            );
            let halves_mm = half_mm + other.envelope_mm / 2.0;
            let pair = format!("{} and {}", entry.id, other.id);
            if along_mm.hypot(across_mm) < halves_mm + limits.gland_gap_mm - EPSILON_MM {
                return Some(format!("{pair} are too near"));
            }
            // The steeper the pair stands, the more of the gap between rows it needs.
            let angle = across_mm.atan2(along_mm);
            let rows_mm = (limits.gland_row_gap_mm - limits.gland_gap_mm).max(0.0);
            let gap_mm = limits.gland_gap_mm + rows_mm * angle.sin().powi(2);
            if along_mm.hypot(across_mm) < halves_mm + gap_mm - EPSILON_MM {
                return Some(format!("no spanner comes between {pair}"));
            }
        }
    }
    None
}

fn rails(after: &Arrangement) -> Option<String> {
    let (plate, room) = (&after.enclosure.plate, &after.enclosure.interior);
    for rail in &after.rails {
        let [x, y, _] = extent(&rail.body);
        let on_plate = y.0 >= plate.y_mm - EPSILON_MM
            && y.1 <= plate.y_mm + plate.height_mm + EPSILON_MM
            && x.0 >= plate.x_mm - EPSILON_MM
            && x.1 <= plate.x_mm + plate.width_mm + EPSILON_MM;
        if !on_plate {
            return Some(format!("rail {} leaves the plate", rail.id));
        }
        let end_mm = after.limits.rail_end_mm - EPSILON_MM;
        if x.0 < end_mm || room.width_mm - x.1 < end_mm {
            return Some(format!("rail {} is too near a wall", rail.id));
        }
    }
    None
}

/// What stands on a rail stands square across it, within its ends, clamped without a gap.
fn rows(after: &Arrangement) -> Option<String> {
    for rail in &after.rails {
        let [along, across, _] = extent(&rail.body);
        let mut row: Vec<(&str, &Block, bool)> = Vec::new();
        let terminals = after.terminals.iter().filter(|one| one.rail == rail.id);
        row.extend(terminals.map(|one| (&*one.id, &one.body, false)));
        let accessories = after.accessories.iter().filter(|one| one.rail == rail.id);
        row.extend(
            accessories.map(|one| (&*one.id, &one.body, one.kind == AccessoryKind::EndStop)),
        );
        row.sort_by(|a, b| a.1.min.x_mm.total_cmp(&b.1.min.x_mm));
        for (name, body, _) in &row {
            let [x, y, _] = extent(body);
            if x.0 < along.0 - EPSILON_MM || x.1 > along.1 + EPSILON_MM {
                return Some(format!("{name} leaves its rail"));
            }
            if (y.0 + y.1 - across.0 - across.1).abs() / 2.0 > EPSILON_MM {
                return Some(format!("{name} does not stand square on its rail"));
            }
        }
        if row.first().is_some_and(|one| !one.2) || row.last().is_some_and(|one| !one.2) {
            return Some(format!("an end of the row on {} is not held", rail.id));
        }
        for pair in row.windows(2) {
            let gap_mm = pair[1].1.min.x_mm - pair[0].1.max.x_mm;
            if gap_mm > EPSILON_MM && !(pair[0].2 && pair[1].2) {
                return Some(format!(
                    "{} and {} are loose on their rail",
                    pair[0].0, pair[1].0
                ));
            }
        }
    }
    None
}

fn lid(after: &Arrangement) -> Option<String> {
    let (limits, enclosure) = (&after.limits, &after.enclosure);
    for (at, element) in after.elements.iter().enumerate() {
        if margin_mm(&element.footprint, &enclosure.lid) < -EPSILON_MM {
            return Some(format!("{} leaves the lid's area", element.tag));
        }
        let [width_mm, height_mm, _] = enclosure.outer_mm;
        let outer = Rect {
            u_mm: (enclosure.interior.width_mm - width_mm) / 2.0,
            v_mm: (enclosure.interior.height_mm - height_mm) / 2.0,
            width_mm,
            height_mm,
        };
        let watched = matches!(
            element.kind,
            ElementKind::Lamp | ElementKind::Ammeter | ElementKind::Voltmeter
        );
        let edge_mm = margin_mm(&element.footprint, &outer);
        if !watched && edge_mm < limits.element_edge_mm - EPSILON_MM {
            return Some(format!("{} is too near the edge of the lid", element.tag));
        }
        for other in &after.elements[at + 1..] {
            let stop = [element.kind, other.kind].contains(&ElementKind::EmergencyStop);
            let asked_mm = if stop {
                limits.element_gap_mm.max(limits.emergency_stop_free_mm)
            } else {
                limits.element_gap_mm
            };
            if flat_gap_mm(&element.footprint, &other.footprint) < asked_mm - EPSILON_MM {
                return Some(format!("{} and {} are too near", element.tag, other.tag));
            }
        }
    }
    None
}

/// The room that the conductors of one side of a terminal need, straight out of its clamps.
fn corridor(after: &Arrangement, terminal: &PlacedTerminal, side: Side) -> Option<Block> {
    let clamps = terminal.clamps.iter().filter(|clamp| clamp.side == side);
    let names: Vec<&String> = clamps.flat_map(|clamp| &clamp.wires).collect();
    let wires = after.wires.iter().filter(|wire| names.contains(&&wire.id));
    let section_mm2 = wires.map(|wire| wire.section_mm2).reduce(f64::max)?;
    let steps = after.limits.wiring_space.iter();
    let step = steps
        .filter(|step| step.up_to_mm2 >= section_mm2)
        .map(|step| step.space_mm);
    let space_mm = step.reduce(f64::min)?;
    let mut block = terminal.body;
    if side == Side::Upper {
        block.min.y_mm = terminal.body.max.y_mm;
        block.max.y_mm = terminal.body.max.y_mm + space_mm;
    } else {
        block.max.y_mm = terminal.body.min.y_mm;
        block.min.y_mm = terminal.body.min.y_mm - space_mm;
    }
    Some(block)
}

fn wiring(after: &Arrangement) -> Option<String> {
    for terminal in &after.terminals {
        for side in [Side::Upper, Side::Lower] {
            let Some(corridor) = corridor(after, terminal, side) else {
                continue;
            };
            let height_mm = after.enclosure.interior.height_mm;
            if corridor.min.y_mm < -EPSILON_MM || corridor.max.y_mm > height_mm + EPSILON_MM {
                return Some(format!("{} is too near a wall for its wires", terminal.id));
            }
            for (name, body) in named(after) {
                let own = name == terminal.id || name == terminal.rail;
                let mut body = *body;
                if after.rails.iter().any(|rail| rail.id == name) {
                    // The room in front of a rail may be filled later.
                    body.max.z_mm = after.enclosure.interior.depth_mm;
                }
                if !own && share_room(&corridor, &body) {
                    return Some(format!(
                        "{name} stands before the clamps of {}",
                        terminal.id
                    ));
                }
            }
        }
    }
    None
}

fn depth(after: &Arrangement) -> Option<String> {
    let on_rails = after.rails.iter().map(|one| (&one.id, &one.body));
    let on_rails = on_rails.chain(after.terminals.iter().map(|one| (&one.id, &one.body)));
    let on_rails = on_rails.chain(after.accessories.iter().map(|one| (&one.id, &one.body)));
    for (name, below) in on_rails {
        for element in &after.elements {
            let wired = element.contacts.iter().any(|contact| {
                contact.part.is_some() || contact.points.iter().any(|one| !one.wires.is_empty())
            });
            let bend_mm = if wired {
                after.limits.contact_bend_mm
            } else {
                0.0
            };
            let mut body = element.body;
            body.min.z_mm -= bend_mm;
            if share_room(&body, below) {
                return Some(format!(
                    "no room for wires between {} and {name}",
                    element.tag
                ));
            }
        }
    }
    None
}

/// Bare parts with their owner, potential and kind; metal that may be earthed counts as one potential.
fn metal(arrangement: &Arrangement) -> Vec<(&str, &str, Option<CircuitKind>, Block)> {
    let mut all: Vec<(&str, &str, Option<CircuitKind>, Block)> = Vec::new();
    for terminal in &arrangement.terminals {
        for part in &terminal.live {
            all.push((
                &terminal.id,
                &part.potential,
                Some(terminal.kind),
                part.block,
            ));
        }
    }
    for element in &arrangement.elements {
        for part in &element.live {
            let circuits = arrangement.circuits.iter();
            let kind = circuits
                .filter(|one| {
                    one.poles
                        .iter()
                        .any(|pole| pole.potential == part.potential)
                })
                .map(|one| one.kind)
                .next();
            let kind = kind.or(Some(CircuitKind::ExE));
            all.push((&element.tag, &part.potential, kind, part.block));
        }
    }
    for rail in &arrangement.rails {
        all.push((&rail.id, "PE", None, rail.body));
    }
    for entry in &arrangement.entries {
        let metal = !matches!(entry.part.material, Material::Grp | Material::Polyamide);
        if metal || entry.purpose == EntryPurpose::Breather {
            all.push((&entry.id, "PE", None, entry.inside));
        }
    }
    all
}

/// The shortest way from one block to another that does not pass a plate between them, by trying the
/// places where it crosses the plane of the plate outside it; `None` where the plate is not between.
fn round_mm(a: &Block, b: &Block, plate: &Block) -> Option<f64> {
    let (left, right) = if a.max.x_mm <= b.min.x_mm {
        (a, b)
    } else {
        (b, a)
    };
    if !(left.max.x_mm <= plate.min.x_mm && plate.max.x_mm <= right.min.x_mm) {
        return None;
    }
    let from_mm = |block: &Block, x_mm: f64, y_mm: f64, z_mm: f64| {
        let [x, y, z] = extent(block);
        let out = |at: f64, range: (f64, f64)| (range.0 - at).max(at - range.1).max(0.0);
        (out(x_mm, x).powi(2) + out(y_mm, y).powi(2) + out(z_mm, z).powi(2)).sqrt()
    };
    let [_, y, z] = extent(plate);
    let mut least_mm = f64::INFINITY;
    let steps = 400;
    for step in 0..=steps {
        let share = f64::from(step) / f64::from(steps);
        let at = |range: (f64, f64)| range.0 + (range.1 - range.0) * share;
        for (y_mm, z_mm) in [(at(y), z.0), (at(y), z.1), (y.0, at(z)), (y.1, at(z))] {
            let way_mm = from_mm(left, plate.min.x_mm, y_mm, z_mm)
                + from_mm(right, plate.max.x_mm, y_mm, z_mm)
                + plate.max.x_mm
                - plate.min.x_mm;
            least_mm = least_mm.min(way_mm);
        }
    }
    Some(least_mm)
}

/// The distance of two bare parts, round the one partition between them that leads furthest round.
fn way_mm(arrangement: &Arrangement, a: &Block, b: &Block) -> f64 {
    let plates = arrangement.accessories.iter();
    let plates = plates.filter(|one| one.kind == AccessoryKind::Partition);
    plates
        .filter_map(|plate| round_mm(a, b, &plate.body))
        .fold(straight_mm(a, b), f64::max)
}

fn bare_metal(before: &Arrangement, after: &Arrangement) -> Option<String> {
    let (old, new) = (metal(before), metal(after));
    for (at, a) in new.iter().enumerate() {
        for (other, b) in new.iter().enumerate().skip(at + 1) {
            if a.0 == b.0 || (!a.1.is_empty() && a.1 == b.1) || (a.2.is_none() && b.2.is_none()) {
                continue;
            }
            let kinds = [a.2, b.2];
            let apart = kinds.contains(&Some(CircuitKind::IntrinsicallySafe))
                && kinds.contains(&Some(CircuitKind::ExE));
            let enough_mm = if apart {
                after.limits.intrinsic_separation_mm
            } else {
                AMPLE_MM
            };
            if straight_mm(&a.3, &b.3) >= enough_mm - EPSILON_MM {
                continue;
            }
            let way = way_mm(after, &a.3, &b.3);
            let was = way_mm(before, &old[at].3, &old[other].3);
            if way < enough_mm - EPSILON_MM && way < was - EPSILON_MM {
                return Some(format!(
                    "bare metal of {} and {} comes {way:.2} mm near, {was:.2} mm before",
                    a.0, b.0
                ));
            }
        }
    }
    None
}
