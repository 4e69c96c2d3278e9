//! The room inside a candidate: where terminals and elements may stand, given the walls with entries.

use super::decide::Problem;
use super::metal::has_earthed_metal;
use crate::arrangement::EnclosureRecord;
use crate::space::{Face, Rect};

/// Where terminals may stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Left end of rows, x.
    pub left_mm: f64,
    /// Right end of rows, x.
    pub right_mm: f64,
    /// What bounds the rows below: wall or entries, y.
    pub bottom_mm: f64,
    /// What bounds the rows above: wall, entries or elements, y.
    pub top_mm: f64,
}

/// What the highest terminals keep from the lid: the workshop's clearance, under a metal lid also the
/// clearance of their bare parts, which lie below their tops.
pub(super) fn lid_clearance_mm(problem: &Problem<'_, '_>, mounted: &EnclosureRecord) -> f64 {
    let usual_mm = problem.limits.lid_clearance_mm;
    if !mounted.material.is_metal() {
        return usual_mm;
    }
    let inset_mm = problem
        .demand
        .terminals
        .iter()
        .map(|terminal| terminal.part.live.top_mm)
        .fold(f64::INFINITY, f64::min);
    usual_mm.max(problem.metal.terminals_mm - inset_mm)
}

/// Where terminals may stand, given the walls that carry entries: clear of what reaches in; next to a
/// side wall with entries also clear by the wiring space of the largest conductor that may enter there.
pub(super) fn bounds(
    problem: &Problem<'_, '_>,
    mounted: &EnclosureRecord,
    walls: &[Face],
) -> Bounds {
    let interior = mounted.interior;
    let reach = |wall: Face| {
        let through = problem
            .demand
            .entries
            .iter()
            .filter(|entry| entry.walls.contains(&wall));
        if walls.contains(&wall) {
            through.map(|entry| entry.reach_in_mm).fold(0.0, f64::max)
        } else {
            0.0
        }
    };
    let side = |wall: Face| {
        let through = problem
            .demand
            .entries
            .iter()
            .filter(|entry| entry.walls.contains(&wall));
        let space_mm = through
            .map(|entry| entry.wiring_space_mm)
            .fold(0.0, f64::max);
        let space_mm = if walls.contains(&wall) { space_mm } else { 0.0 };
        // Bare parts of the last terminal lie behind its end stop at least.
        let metal_mm = if mounted.material.is_metal() {
            problem.metal.terminals_mm - problem.rails.end_stop_mm
        } else {
            0.0
        };
        let clear_mm = problem.limits.rail_end_mm.max(metal_mm);
        clear_mm.max(reach(wall) + space_mm)
    };
    let plate = mounted.plate;
    let left_mm = side(Face::Left).max(plate.x_mm);
    let right_mm = (interior.width_mm - side(Face::Right)).min(plate.x_mm + plate.width_mm);
    // The rail itself must lie on the plate; the row around it is higher by half the difference.
    let overhang_mm = problem
        .rails
        .groups
        .iter()
        .map(|group| group.length_mm)
        .fold(f64::INFINITY, f64::min)
        .max(problem.rails.base_length_mm);
    let rail_mm = problem.demand.rail.map_or(0.0, |rail| rail.width_mm);
    let margin_mm = problem
        .rails
        .groups
        .iter()
        .map(|group| group.wiring_space_mm)
        .fold(f64::INFINITY, f64::min)
        + (overhang_mm - rail_mm) / 2.0;
    let margin_mm = if margin_mm.is_finite() {
        margin_mm
    } else {
        0.0
    };
    Bounds {
        left_mm,
        right_mm,
        bottom_mm: reach(Face::Bottom).max(plate.y_mm - margin_mm).max(0.0),
        top_mm: (interior.height_mm - reach(Face::Top))
            .min(plate.y_mm + plate.height_mm + margin_mm)
            .min(interior.height_mm),
    }
}

/// The part of the lid's usable rectangle where elements may lie: clear of the lid's outer edge, and of
/// what reaches in through the walls.
pub(super) fn lid_rect(
    problem: &Problem<'_, '_>,
    mounted: &EnclosureRecord,
    walls: &[Face],
) -> Rect {
    let interior = mounted.interior;
    let beyond_mm = if has_earthed_metal(problem.demand, mounted) {
        problem.metal.beyond_elements_mm
    } else {
        0.0
    };
    let edge =
        |outer_mm: f64, inner_mm: f64| problem.limits.element_edge_mm - (outer_mm - inner_mm) / 2.0;
    let (edge_x, edge_y) = (
        edge(mounted.outer_mm[0], interior.width_mm),
        edge(mounted.outer_mm[1], interior.height_mm),
    );
    let reach = |wall: Face| {
        let through = problem
            .demand
            .entries
            .iter()
            .filter(|entry| entry.walls.contains(&wall));
        let reach_mm: f64 = if walls.contains(&wall) {
            through.map(|entry| entry.reach_in_mm).fold(0.0, f64::max)
        } else {
            0.0
        };
        reach_mm + beyond_mm
    };
    let clear = Rect::new(0.0, 0.0, interior.width_mm, interior.height_mm).shrunk(
        edge_x.max(reach(Face::Left)),
        edge_x.max(reach(Face::Right)),
        edge_y.max(reach(Face::Bottom)),
        edge_y.max(reach(Face::Top)),
    );
    mounted.lid.common(&clear)
}
