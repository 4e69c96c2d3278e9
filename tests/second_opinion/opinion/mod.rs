//! A plain, slow search that decides small lists by trying everything. Written from docs/model.md and
//! the data types, without the code of the model: where both agree, two readings of the page agree.

mod entries;
mod lid;
mod mounted;
mod rails;
mod screens;

use glandrail::arrangement::Orientation;
use glandrail::catalogue::{Catalogue, CircuitKind};
use glandrail::demand::{self, Demand};
use glandrail::requirements::RequirementList;
use glandrail::space::Face;
use glandrail::workshop::Workshop;
use itertools::Itertools;
use mounted::{Mounted, SAME_MM, candidates};
use rails::Stack;
pub use screens::Screen;
use std::collections::BTreeSet;

/// A candidate by id and orientation.
pub type Name = (String, Orientation);

/// What the search found.
#[derive(Debug)]
pub struct Opinion {
    /// The smallest candidate that holds, and what it took.
    pub chosen: Option<(Name, Taken)>,
    /// All candidates before it, with the screen that they failed; `None`: no arrangement holds.
    pub excluded: Vec<(Name, Option<Screen>)>,
}

/// What the smallest candidate took: the easiest way that holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    /// Fewest rails.
    pub rails: usize,
    /// Whether no way holds without a rail of both kinds.
    pub mixed_rail: bool,
    /// Whether no way holds without elements above all rows.
    pub band: bool,
    /// Whether no way holds with the first wall of the list alone.
    pub further_walls: bool,
}

/// Decides a list.
pub fn decide(list: &RequirementList, catalogue: &Catalogue, workshop: &Workshop) -> Opinion {
    let demand =
        demand::build(list, catalogue, workshop).expect("the generated lists can be served");
    let divisions = rails::divisions(&demand, workshop);
    let mut excluded = Vec::new();
    for candidate in candidates(catalogue, list) {
        let name = (candidate.id().to_string(), candidate.orientation);
        let screen = screens::fails(list, &demand, &candidate);
        let ways = match screen {
            Some(_) => Vec::new(),
            None => ways(list, &demand, workshop, &candidate, &divisions),
        };
        match easiest(list, &ways) {
            Some(taken) => {
                return Opinion {
                    chosen: Some((name, taken)),
                    excluded,
                };
            }
            None => excluded.push((name, screen)),
        }
    }
    Opinion {
        chosen: None,
        excluded,
    }
}

/// A way of arranging everything in a candidate.
struct Way {
    set: BTreeSet<Face>,
    rails: usize,
    mixed: bool,
    band: bool,
}

fn easiest(list: &RequirementList, ways: &[Way]) -> Option<Taken> {
    let rails = ways.iter().map(|way| way.rails).min()?;
    let first: BTreeSet<Face> = list.wishes.entry_walls.iter().take(1).copied().collect();
    Some(Taken {
        rails,
        mixed_rail: ways.iter().all(|way| way.mixed),
        band: ways.iter().all(|way| way.band),
        further_walls: !ways.iter().any(|way| way.set.is_subset(&first)),
    })
}

/// All ways, by set of walls.
fn ways(
    list: &RequirementList,
    demand: &Demand<'_>,
    workshop: &Workshop,
    candidate: &Mounted<'_>,
    divisions: &[Vec<rails::Row>],
) -> Vec<Way> {
    let mut ways = Vec::new();
    let single_rows = divisions
        .iter()
        .max_by_key(|rows| rows.len())
        .map_or(&[][..], Vec::as_slice);
    for set in list.wishes.entry_walls.iter().copied().powerset() {
        let set: BTreeSet<Face> = set.into_iter().collect();
        if !entries::fit(demand, workshop, candidate, &set) {
            continue;
        }
        if demand.terminals.is_empty() {
            if lid_fits(list, demand, workshop, candidate, &set, None) {
                ways.push(Way {
                    set,
                    rails: 0,
                    mixed: false,
                    band: false,
                });
            }
            continue;
        }
        if !candidate.takes_rails {
            continue;
        }
        let bounds = rails::bounds(demand, workshop, candidate, &set, single_rows);
        let stacks = rails::stacks(demand, workshop, candidate, &bounds, divisions);
        let fewest = stacks.iter().map(|stack| stack.rails).min();
        for stack in stacks {
            let in_front = in_front(demand, workshop, candidate, &stack)
                && lid_fits(list, demand, workshop, candidate, &set, None);
            // The rails are decided before the elements: the fewest are taken.
            let above = Some(stack.rails) == fewest
                && lid_fits(list, demand, workshop, candidate, &set, Some(&stack));
            if in_front || above {
                ways.push(Way {
                    set: set.clone(),
                    rails: stack.rails,
                    mixed: stack.mixed,
                    band: !in_front,
                });
            }
        }
    }
    ways
}

/// Whether elements of one kind of circuit and terminals of the other share the box.
fn kinds_meet(demand: &Demand<'_>, terminals: &[CircuitKind]) -> bool {
    demand
        .elements
        .iter()
        .filter_map(|element| element.kind)
        .any(|kind| terminals.iter().any(|other| *other != kind))
}

/// Whether the deepest element with the bend of its conductors fits in front of the highest terminal.
fn in_front(
    demand: &Demand<'_>,
    workshop: &Workshop,
    candidate: &Mounted<'_>,
    stack: &Stack,
) -> bool {
    let kinds = demand
        .strips
        .iter()
        .filter(|strip| !strip.earth)
        .map(|strip| strip.kind)
        .collect_vec();
    let separation_mm = if kinds_meet(demand, &kinds) {
        workshop.distances.intrinsic_separation_mm
    } else {
        0.0
    };
    demand.elements.iter().all(|element| {
        let behind_mm = element.bend_mm.max(separation_mm);
        stack.front_mm + behind_mm + element.depth_mm <= candidate.depth_mm() + SAME_MM
    })
}

/// Whether the elements find room on the lid: above all rows of terminals where a stack is given.
fn lid_fits(
    list: &RequirementList,
    demand: &Demand<'_>,
    workshop: &Workshop,
    candidate: &Mounted<'_>,
    set: &BTreeSet<Face>,
    below: Option<&Stack>,
) -> bool {
    if demand.elements.is_empty() {
        return below.is_none();
    }
    let to_plate_mm = candidate.depth_mm() - candidate.enclosure.plate.standoff_mm;
    if demand
        .elements
        .iter()
        .any(|element| element.depth_mm + element.bend_mm > to_plate_mm + SAME_MM)
    {
        return false;
    }
    let room = lid::room(demand, workshop, candidate, set);
    let bottom_mm = below.map_or(room.v_mm, |stack| {
        let separation_mm = if kinds_meet(demand, &stack.top_kinds) {
            workshop.distances.intrinsic_separation_mm
        } else {
            0.0
        };
        room.v_mm
            .max(stack.top_mm + stack.free_above_mm.max(separation_mm))
    });
    lid::least_height_mm(list, demand, workshop, room.width_mm)
        .is_some_and(|height_mm| height_mm <= room.top_mm() - bottom_mm + SAME_MM)
}

/// All divisions of `count` things into groups.
fn divisions(count: usize) -> Vec<Vec<Vec<usize>>> {
    let mut all: Vec<Vec<Vec<usize>>> = vec![Vec::new()];
    for thing in 0..count {
        let mut longer = Vec::new();
        for division in &all {
            for group in 0..=division.len() {
                let mut next = division.clone();
                match next.get_mut(group) {
                    Some(members) => members.push(thing),
                    None => next.push(vec![thing]),
                }
                longer.push(next);
            }
        }
        all = longer;
    }
    all
}

#[cfg(test)]
mod tests {
    use super::divisions;

    #[test]
    fn divisions_are_as_many_as_the_bell_numbers() {
        for (count, bell) in [1, 1, 2, 5, 15, 52, 203, 877].into_iter().enumerate() {
            assert_eq!(divisions(count).len(), bell);
        }
    }
}
