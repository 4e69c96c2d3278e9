//! The two solvers of a build with the feature `highs`: the same programs, the same answers.

use super::opinion::Name;
use super::sample::sample;
use glandrail::demand;
use glandrail::model::{self, Outcome, Placement, SearchOptions, Solver};
use glandrail::workshop::Workshop;

/// What is chosen, and what is excluded before it.
type Said = (Option<Name>, Vec<Name>);

#[test]
fn both_solvers_choose_and_exclude_the_same() {
    let workshop = Workshop::default();
    let mut on_rails = 0;
    for judged in sample() {
        let (list, catalogue) = (&judged.list, &judged.case.catalogue);
        let number = judged.case.number;
        let demand = demand::build(list, catalogue, &workshop).expect("a good list");
        let said = |solver| -> Said {
            let options = SearchOptions {
                solver,
                placement: Placement::Rows,
                ..SearchOptions::default()
            };
            let name = |one: &model::Excluded| (one.enclosure.clone(), one.orientation);
            match model::search(list, &demand, catalogue, &workshop, options) {
                Ok(Outcome::Found(found)) => {
                    assert!(found.proven, "case {number}");
                    let chosen = (found.mounted.id.clone(), found.mounted.orientation);
                    (Some(chosen), found.excluded.iter().map(name).collect())
                }
                Ok(Outcome::Impossible { excluded, proven }) => {
                    assert!(proven, "case {number}");
                    (None, excluded.iter().map(name).collect())
                }
                Err(fault) => panic!("case {number}: {fault}"),
            }
        };
        assert_eq!(said(Solver::Microlp), said(Solver::Highs), "case {number}");
        on_rails += usize::from(!demand.strips.is_empty());
    }
    assert!(on_rails >= 100, "{on_rails} lists with terminals on rails");
}
