//! The search beside the tables and the program, on drawn problems.

use super::super::{EntryArea, EntryClass, EntryProblem, EntryRow, tables};
use super::kinds::Kinds;
use super::search::Found;
use super::{place, plan, prices, read_rows};
use crate::model::walls::greedy;
use crate::space::{Face, Rect};
use crate::standards::threads::Thread;
use proptest::prelude::*;
use std::collections::BTreeMap;

const WALLS: [Face; 3] = [Face::Bottom, Face::Left, Face::Right];
const THREADS: [Thread; 5] = [
    Thread::M16,
    Thread::M20,
    Thread::M25,
    Thread::M32,
    Thread::M40,
];

prop_compose! {
    /// Few enough of each kind for the tables, in areas that are about as large as what they are to take.
    fn problem(most_kinds: usize, most_of_a_kind: usize)(
        kinds in prop::collection::vec(
            (200u32..520, 1..=most_of_a_kind, prop::bool::weighted(0.3)),
            1..=most_kinds,
        ),
        areas in prop::collection::vec((600u32..3200, 250u32..1500), 1..=3),
        gap in 0u32..80,
        coarse in prop::bool::ANY,
    ) -> EntryProblem {
        let mut entry = 0;
        let classes = kinds
            .iter()
            .enumerate()
            .map(|(kind, (tenths, count, bottom))| {
                let members = (entry..entry + count).collect();
                entry += count;
                let tenths = if coarse { tenths / 50 * 50 } else { *tenths };
                EntryClass {
                    envelope_mm: f64::from(tenths) / 10.0,
                    thread: THREADS[kind % THREADS.len()],
                    walls: if *bottom { vec![Face::Bottom] } else { WALLS.to_vec() },
                    members,
                }
            })
            .collect();
        let areas: Vec<EntryArea> = areas
            .iter()
            .zip(WALLS)
            .map(|((width, height), wall)| EntryArea {
                wall,
                index: 0,
                rect: Rect::new(0.0, 0.0, f64::from(*width) / 10.0, f64::from(*height) / 10.0),
                largest_thread: if wall == Face::Right { Thread::M25 } else { Thread::M63 },
            })
            .collect();
        EntryProblem {
            classes,
            whole: areas.clone(),
            areas,
            blocked: BTreeMap::new(),
            gap_mm: f64::from(gap) / 10.0,
            row_gap_mm: f64::from(gap) / 10.0 + 4.0,
            certified: BTreeMap::new(),
        }
    }
}

/// Measures rows anew: every entry once, on a wall that it may use, within the area's length and height.
fn is_kept(problem: &EntryProblem, rows: &[EntryRow]) -> bool {
    let class_of = |entry: &usize| {
        let mut all = problem.classes.iter();
        all.find(|class| class.members.contains(entry))
    };
    let mut placed: Vec<usize> = rows.iter().flat_map(|row| row.entries.clone()).collect();
    placed.sort_unstable();
    let all: usize = problem
        .classes
        .iter()
        .map(|class| class.members.len())
        .sum();
    let row_fits = |row: &EntryRow| {
        let area = problem.areas.iter().find(|area| area.wall == row.wall);
        let envelopes: Vec<f64> = row
            .entries
            .iter()
            .filter_map(class_of)
            .map(|class| class.envelope_mm)
            .collect();
        let gaps_mm = (envelopes.len() as f64 - 1.0) * problem.gap_mm;
        area.is_some_and(|area| {
            let permitted = |entry: &usize| {
                class_of(entry).is_some_and(|class| {
                    class.walls.contains(&area.wall)
                        && class.thread.major_diameter_mm()
                            <= area.largest_thread.major_diameter_mm()
                })
            };
            row.entries.iter().all(permitted)
                && envelopes.iter().sum::<f64>() + gaps_mm <= area.rect.width_mm + 1e-6
        })
    };
    let area_fits = |area: &EntryArea| {
        let heights: Vec<f64> = rows
            .iter()
            .filter(|row| row.wall == area.wall)
            .map(|row| {
                let classes = row.entries.iter().filter_map(class_of);
                classes.map(|class| class.envelope_mm).fold(0.0, f64::max)
            })
            .collect();
        let gaps_mm = (heights.len() as f64 - 1.0) * problem.row_gap_mm;
        heights.is_empty() || heights.iter().sum::<f64>() + gaps_mm <= area.rect.height_mm + 1e-6
    };
    placed == (0..all).collect::<Vec<_>>()
        && rows.iter().all(row_fits)
        && problem.areas.iter().all(area_fits)
}

#[test]
fn the_search_agrees_with_the_tables() {
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let (mut possible, mut impossible, mut missed) = (0, 0, 0);
    let mut planned = (0, 0, 0);
    for _ in 0..2000 {
        let drawn = problem(4, 6)
            .new_tree(&mut runner)
            .expect("a problem is drawn");
        let problem = proptest::strategy::ValueTree::current(&drawn);
        let Some(by_tables) = tables::place(&problem) else {
            continue;
        };
        let by_search = place(&problem).expect("so small a search comes to its end");
        assert_eq!(by_search.is_ok(), by_tables.is_ok(), "{problem:?}");
        // Plans by themselves, which `place` asks only after a short search.
        let kinds = Kinds::new(&problem);
        let counts: Vec<u32> = kinds.kinds.iter().map(|kind| kind.count).collect();
        if let Some(capacities) = prices::telling(&kinds, &counts) {
            match plan::run(&kinds, &counts, &capacities) {
                Found::Rows(rows) => {
                    let rows = read_rows(&problem, &kinds, &rows);
                    assert!(is_kept(&problem, &rows), "{problem:?}: {rows:?}");
                    planned.0 += 1;
                }
                Found::Nothing => {
                    assert!(by_tables.is_err(), "{problem:?}");
                    planned.1 += 1;
                }
                Found::Open => planned.2 += 1,
            }
        }
        match by_search {
            Ok(rows) => {
                assert!(is_kept(&problem, &rows), "{problem:?}: {rows:?}");
                possible += 1;
                missed += u32::from(greedy::place(&problem).is_none());
            }
            Err(_) => impossible += 1,
        }
    }
    assert!(
        possible >= 500 && impossible >= 500,
        "{possible} possible, {impossible} impossible"
    );
    assert!(missed >= 20, "{missed} were out of the quick way's reach");
    assert!(
        planned.0 >= 500 && planned.1 >= 50 && planned.2 <= 20,
        "{planned:?}"
    );
}

#[test]
fn the_search_comes_to_an_end_where_tables_do_not_reach() {
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let (mut possible, mut impossible, mut open) = (0, 0, 0);
    for _ in 0..200 {
        let drawn = problem(6, 14)
            .new_tree(&mut runner)
            .expect("a problem is drawn");
        let problem = proptest::strategy::ValueTree::current(&drawn);
        match place(&problem) {
            Some(Ok(rows)) => {
                assert!(is_kept(&problem, &rows), "{problem:?}: {rows:?}");
                possible += 1;
            }
            Some(Err(_)) => {
                assert!(greedy::place(&problem).is_none(), "{problem:?}");
                impossible += 1;
            }
            None => open += 1,
        }
    }
    assert!(
        possible >= 10 && impossible >= 50,
        "{possible} possible, {impossible} impossible, {open} open"
    );
    assert!(open <= 4, "{open} of 200 are left to the program");
}

/// Hundreds of entries of few kinds: so many that no search over rows comes to an end, and no program.
#[test]
fn hundreds_of_entries_are_decided_by_plans() {
    let crowd = |counts: &[(usize, f64)], widths: &[f64]| -> EntryProblem {
        let mut entry = 0;
        let classes = counts
            .iter()
            .map(|(count, envelope_mm)| {
                let members = (entry..entry + count).collect();
                entry += count;
                EntryClass {
                    envelope_mm: *envelope_mm,
                    thread: Thread::M16,
                    walls: WALLS.to_vec(),
                    members,
                }
            })
            .collect();
        let areas: Vec<EntryArea> = widths
            .iter()
            .zip(WALLS)
            .map(|(width_mm, wall)| EntryArea {
                wall,
                index: 0,
                rect: Rect::new(0.0, 0.0, *width_mm, 168.0),
                largest_thread: Thread::M63,
            })
            .collect();
        EntryProblem {
            classes,
            whole: areas.clone(),
            areas,
            blocked: BTreeMap::new(),
            gap_mm: 5.0,
            row_gap_mm: 10.0,
            certified: BTreeMap::new(),
        }
    };
    let mut decided = (0, 0);
    for (first, second, gap) in [
        (28.9, 19.7, 775.0),
        (35.8, 28.9, 775.0),
        (40.0, 31.0, 700.0),
    ] {
        for share in [0.2, 0.35, 0.5] {
            let mut held = true;
            // More and more of them, until they find no room: what holds once never fails for fewer.
            for all in (150..500).step_by(10) {
                let tall = (f64::from(all) * share) as usize;
                let problem = crowd(
                    &[(tall, first), (all as usize - tall, second)],
                    &[gap, 960.0, 960.0],
                );
                match place(&problem).expect("decided") {
                    Ok(rows) => {
                        assert!(held, "{all} find room, fewer did not");
                        assert!(is_kept(&problem, &rows), "{problem:?}");
                        decided.0 += 1;
                    }
                    Err(_) => {
                        held = false;
                        decided.1 += 1;
                    }
                }
            }
        }
    }
    assert!(decided.0 >= 50 && decided.1 >= 50, "{decided:?}");
}
