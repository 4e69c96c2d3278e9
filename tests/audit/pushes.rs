//! Whatever the model returns on generated lists passes the audit; whatever is then pushed out of its
//! place is either caught, or proved harmless by geometry of this file alone (`harm.rs`).

#[path = "../second_opinion/cases/mod.rs"]
mod cases;
mod harm;
mod holes;

use cases::Case;
use glandrail::arrangement::Arrangement;
use glandrail::audit;
use glandrail::catalogue::Catalogue;
use glandrail::model::SearchOptions;
use glandrail::propose::{Answer, propose};
use glandrail::space::{Block, Face};
use glandrail::workshop::Workshop;
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// Generated cases that are tried, and how many of them must give an arrangement.
const CASES: u64 = 60;
const LEAST_FOUND: usize = 20;
/// Pushes that are tried.
const PUSHES: u32 = 3000;

/// What the model returned, with the catalogue that it was made from.
fn made() -> &'static [(u64, Arrangement, Catalogue)] {
    static MADE: OnceLock<Vec<(u64, Arrangement, Catalogue)>> = OnceLock::new();
    MADE.get_or_init(|| {
        (1..=CASES)
            .filter_map(|number| {
                let case = Case::new(number);
                let options = SearchOptions::default();
                let found = propose(&case.list(), &case.catalogue, &Workshop::default(), options);
                match found {
                    Ok(Answer::Found(found)) => {
                        Some((case.number, found.arrangement, case.catalogue))
                    }
                    Ok(Answer::Impossible { .. }) => None,
                    Err(error) => panic!("case {number} ({:?}): {error}", case.family),
                }
            })
            .collect()
    })
}

#[test]
fn whatever_the_model_returns_passes_the_audit() {
    let made = made();
    assert!(made.len() >= LEAST_FOUND, "only {} found", made.len());
    for (number, arrangement, catalogue) in made {
        let report = audit::audit(arrangement, Some(catalogue));
        let failing: Vec<&str> = report.failing().map(|rule| rule.text.as_str()).collect();
        assert!(report.holds(), "case {number}: {failing:#?}");
        // The geometry of the proofs agrees that nothing is wrong before anything is pushed.
        assert_eq!(harm::harm(arrangement, arrangement), None, "case {number}");
    }
}

/// What is pushed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Kind {
    EntryAlong,
    EntryAcross,
    Terminal,
    /// Everything on a rail, along it.
    Cluster,
    /// A rail alone, up or down.
    Rail,
    /// A rail with everything on it, up or down.
    Row,
    ElementAside,
    ElementUp,
    /// A partition, end plate or end stop along its rail.
    Accessory,
}

const KINDS: [Kind; 9] = [
    Kind::EntryAlong,
    Kind::EntryAcross,
    Kind::Terminal,
    Kind::Cluster,
    Kind::Rail,
    Kind::Row,
    Kind::ElementAside,
    Kind::ElementUp,
    Kind::Accessory,
];

fn shift(block: &mut Block, [x_mm, y_mm, z_mm]: [f64; 3]) {
    for corner in [&mut block.min, &mut block.max] {
        corner.x_mm += x_mm;
        corner.y_mm += y_mm;
        corner.z_mm += z_mm;
    }
}

/// The way in the box of a way along and across a wall, as docs/arrangement.md states it.
fn in_box(wall: Face, along_mm: f64, across_mm: f64) -> [f64; 3] {
    match wall {
        Face::Bottom => [along_mm, 0.0, across_mm],
        Face::Right => [0.0, along_mm, across_mm],
        Face::Top => [-along_mm, 0.0, across_mm],
        Face::Left => [0.0, -along_mm, across_mm],
        Face::Lid | Face::Back => panic!("no wall"),
    }
}

/// Shifts what stands on a rail.
fn shift_contents(arrangement: &mut Arrangement, rail: &str, way: [f64; 3]) {
    let terminals = arrangement.terminals.iter_mut();
    for terminal in terminals.filter(|part| part.rail == rail) {
        shift(&mut terminal.body, way);
        for part in &mut terminal.live {
            shift(&mut part.block, way);
        }
    }
    let accessories = arrangement.accessories.iter_mut();
    for accessory in accessories.filter(|part| part.rail == rail) {
        shift(&mut accessory.body, way);
    }
}

/// The arrangement with one part pushed, and the name of the part; `None` where there is none of it.
fn pushed(
    arrangement: &Arrangement,
    kind: Kind,
    which: prop::sample::Index,
    by_mm: f64,
) -> Option<(Arrangement, String)> {
    let mut after = arrangement.clone();
    let count = match kind {
        Kind::EntryAlong | Kind::EntryAcross => after.entries.len(),
        Kind::Terminal => after.terminals.len(),
        Kind::Cluster | Kind::Rail | Kind::Row => after.rails.len(),
        Kind::ElementAside | Kind::ElementUp => after.elements.len(),
        Kind::Accessory => after.accessories.len(),
    };
    if count == 0 {
        return None;
    }
    let at = which.index(count);
    let name = match kind {
        Kind::EntryAlong | Kind::EntryAcross => {
            let (along_mm, across_mm) = if kind == Kind::EntryAlong {
                (by_mm, 0.0)
            } else {
                (0.0, by_mm)
            };
            let entry = &mut after.entries[at];
            entry.u_mm += along_mm;
            entry.v_mm += across_mm;
            let way = in_box(entry.wall, along_mm, across_mm);
            shift(&mut entry.inside, way);
            shift(&mut entry.outside, way);
            entry.id.clone()
        }
        Kind::Terminal => {
            let terminal = &mut after.terminals[at];
            shift(&mut terminal.body, [by_mm, 0.0, 0.0]);
            for part in &mut terminal.live {
                shift(&mut part.block, [by_mm, 0.0, 0.0]);
            }
            terminal.id.clone()
        }
        Kind::Accessory => {
            shift(&mut after.accessories[at].body, [by_mm, 0.0, 0.0]);
            after.accessories[at].id.clone()
        }
        Kind::Cluster => {
            let id = after.rails[at].id.clone();
            shift_contents(&mut after, &id, [by_mm, 0.0, 0.0]);
            id
        }
        Kind::Rail | Kind::Row => {
            shift(&mut after.rails[at].body, [0.0, by_mm, 0.0]);
            let id = after.rails[at].id.clone();
            if kind == Kind::Row {
                shift_contents(&mut after, &id, [0.0, by_mm, 0.0]);
            }
            id
        }
        Kind::ElementAside | Kind::ElementUp => {
            let (x_mm, y_mm) = if kind == Kind::ElementAside {
                (by_mm, 0.0)
            } else {
                (0.0, by_mm)
            };
            let element = &mut after.elements[at];
            element.x_mm += x_mm;
            element.y_mm += y_mm;
            element.footprint.u_mm += x_mm;
            element.footprint.v_mm += y_mm;
            shift(&mut element.body, [x_mm, y_mm, 0.0]);
            for part in &mut element.live {
                shift(&mut part.block, [x_mm, y_mm, 0.0]);
            }
            element.tag.clone()
        }
    };
    Some((after, name))
}

#[test]
fn whatever_is_pushed_is_caught_or_harmless() {
    let made = made();
    let config = Config {
        cases: PUSHES,
        failure_persistence: None,
        ..Config::default()
    };
    // The generator's fixed seed: the same pushes on every run.
    let mut runner =
        TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha));
    let push = (
        any::<prop::sample::Index>(),
        prop::sample::select(&KINDS[..]),
        any::<prop::sample::Index>(),
        5..=800_i32,
        any::<bool>(),
    );
    let counts: RefCell<BTreeMap<Kind, [u32; 2]>> = RefCell::default();
    let slipped: RefCell<Vec<String>> = RefCell::default();
    let result = runner.run(&push, |(case, kind, which, tenths, backwards)| {
        let (number, arrangement, _) = case.get(made);
        let by_mm = f64::from(if backwards { -tenths } else { tenths }) / 10.0;
        let Some((after, name)) = pushed(arrangement, kind, which, by_mm) else {
            return Ok(());
        };
        let caught = !audit::audit(&after, None).holds();
        let harm = harm::harm(arrangement, &after);
        if let (false, Some(harm)) = (caught, harm) {
            slipped.borrow_mut().push(format!(
                "case {number}: {kind:?} {name} by {by_mm} mm is not caught: {harm}"
            ));
        }
        counts.borrow_mut().entry(kind).or_default()[usize::from(caught)] += 1;
        Ok(())
    });
    assert!(result.is_ok(), "{result:?}");
    let (slipped, counts) = (slipped.into_inner(), counts.into_inner());
    assert!(
        slipped.is_empty(),
        "{} slip through\n{}\n{counts:?}",
        slipped.len(),
        slipped[..slipped.len().min(25)].join("\n")
    );
    let of = |caught: usize| counts.values().map(|both| both[caught]).sum::<u32>();
    assert!(of(0) >= 150, "harmless too rarely: {counts:?}");
    assert!(of(1) >= 1500, "caught too rarely: {counts:?}");
    for kind in KINDS {
        let both = counts.get(&kind).copied().unwrap_or_default();
        assert!(both[1] >= 40, "{kind:?}: {both:?}");
    }
}
