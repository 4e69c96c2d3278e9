//! Areas filled one after another, at the least cost of less preferred walls.

use super::area::AreaTable;
use super::states::States;
use crate::model::walls::{EntryProblem, EntryRow, Undivided};
use crate::space::Face;
use std::collections::BTreeMap;
use std::rc::Rc;

/// No way leads to a state.
const NO_WAY: u32 = u32::MAX;

/// The cheapest ways to each state of what is left after an area: their cost, and what the area takes.
struct Ways {
    cost: Vec<u32>,
    taken: Vec<usize>,
}

pub(super) fn fill_areas(
    problem: &EntryProblem,
    states: &States,
    keys: &[(u64, Vec<bool>)],
    tables: &BTreeMap<(u64, Vec<bool>), Rc<AreaTable>>,
) -> Result<Vec<EntryRow>, Undivided> {
    let takeable: Vec<Vec<usize>> = problem
        .areas
        .iter()
        .zip(keys)
        .map(|(area, key)| {
            let table = &tables[key];
            (0..states.all.len())
                .filter(|state| table.height_mm[*state] <= area.rect.height_mm + 1e-9)
                .filter(|state| keeps_certified(problem, area.wall, &states.all[*state]))
                .collect()
        })
        .collect();
    if !all_find_room(states, &takeable) {
        return Err(Undivided::Impossible);
    }
    let everything = states.all.len() - 1;
    let mut steps: Vec<Ways> = Vec::new();
    let mut cost_so_far = vec![NO_WAY; states.all.len()];
    cost_so_far[everything] = 0;
    for (area, takeable) in problem.areas.iter().zip(&takeable) {
        let costs: Vec<u32> = takeable
            .iter()
            .map(|state| cost_on(problem, area.wall, &states.all[*state]))
            .collect();
        let mut ways = Ways {
            cost: vec![NO_WAY; states.all.len()],
            taken: vec![0; states.all.len()],
        };
        for left in (0..=everything).filter(|left| cost_so_far[*left] != NO_WAY) {
            for (state, cost) in takeable.iter().zip(&costs) {
                if *state > left || !states.holds(left, *state) {
                    continue;
                }
                let cost = cost_so_far[left] + cost;
                // Indices are numbers of mixed base, so they subtract as the counts do.
                let rest = left - state;
                if cost < ways.cost[rest] {
                    ways.cost[rest] = cost;
                    ways.taken[rest] = *state;
                }
            }
        }
        cost_so_far.clone_from(&ways.cost);
        steps.push(ways);
    }
    if cost_so_far[0] == NO_WAY {
        return Err(Undivided::Impossible);
    }
    let mut rest = 0;
    let mut taken: Vec<usize> = steps
        .iter()
        .rev()
        .map(|ways| {
            let state = ways.taken[rest];
            rest += state;
            state
        })
        .collect();
    taken.reverse();
    Ok(read_rows(problem, states, keys, tables, &taken))
}

/// Whether the areas take everything, whatever it costs. An area that takes more leaves less to the others,
/// so only what no other state exceeds is tried, and of what is left only what no other is below.
fn all_find_room(states: &States, takeable: &[Vec<usize>]) -> bool {
    let mut left = vec![states.all.len() - 1];
    if left == [0] {
        return true;
    }
    for takeable in takeable {
        let mut largest: Vec<usize> = Vec::new();
        for state in takeable.iter().rev() {
            if !largest.iter().any(|known| states.holds(*known, *state)) {
                largest.push(*state);
            }
        }
        let mut rests: Vec<usize> = left
            .iter()
            .flat_map(|left| largest.iter().map(|state| states.less(*left, *state)))
            .collect();
        rests.sort_unstable();
        rests.dedup();
        left.clear();
        for rest in rests {
            if !left.iter().any(|known| states.holds(rest, *known)) {
                left.push(rest);
            }
        }
        if left.first() == Some(&0) {
            return true;
        }
    }
    false
}

fn keeps_certified(problem: &EntryProblem, wall: Face, taken: &[u32]) -> bool {
    problem.certified.get(&wall).is_none_or(|threads| {
        threads.iter().all(|(thread, most)| {
            let of_thread = problem
                .classes
                .iter()
                .zip(taken)
                .filter(|(class, _)| class.thread == *thread);
            of_thread.map(|(_, count)| count).sum::<u32>() <= *most
        })
    })
}

/// Each entry on a wall costs the wall's place in its order of preference.
fn cost_on(problem: &EntryProblem, wall: Face, taken: &[u32]) -> u32 {
    problem
        .classes
        .iter()
        .zip(taken)
        .map(|(class, count)| {
            class
                .walls
                .iter()
                .position(|known| *known == wall)
                .unwrap_or(0) as u32
                * count
        })
        .sum()
}

/// Deals the members of each class out to the rows, in the order of the list.
fn read_rows(
    problem: &EntryProblem,
    states: &States,
    keys: &[(u64, Vec<bool>)],
    tables: &BTreeMap<(u64, Vec<bool>), Rc<AreaTable>>,
    taken: &[usize],
) -> Vec<EntryRow> {
    let mut members: Vec<std::slice::Iter<'_, usize>> = problem
        .classes
        .iter()
        .map(|class| class.members.iter())
        .collect();
    let mut rows = Vec::new();
    for ((area, key), state) in problem.areas.iter().zip(keys).zip(taken) {
        let table = &tables[key];
        let mut left = states.all[*state].clone();
        while let Some(row) = table.row[states.index(&left)] {
            let counts = &states.all[row];
            let mut entries = Vec::new();
            for (class, count) in counts.iter().enumerate() {
                entries.extend(members[class].by_ref().take(*count as usize).copied());
                left[class] -= count;
            }
            rows.push(area.row(entries));
        }
    }
    rows
}
