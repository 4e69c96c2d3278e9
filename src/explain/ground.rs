//! What ways out are looked for in: a list, a catalogue and rules, and lists with changes tried in them.

use super::apply::{Change, Ease, apply};
use super::aspect::Requirement;
use super::ladder::{Ladder, ladder};
use super::solve::{Served, serves, takes};
use super::work::Work;
use crate::catalogue::Catalogue;
use crate::model::{self, Placement, SearchOptions};
use crate::requirements::RequirementList;
use crate::workshop::Workshop;

/// What the ways out are looked for in.
#[derive(Clone, Copy)]
pub struct Ground<'a> {
    /// The list.
    pub list: &'a RequirementList,
    /// The catalogue.
    pub catalogue: &'a Catalogue,
    /// The workshop rules.
    pub workshop: &'a Workshop,
    /// The requirements of the list.
    pub requirements: &'a [Requirement],
    /// Limit of each decision, and how entries may be placed in what is offered. Amounts are found with rows
    /// first, where that is enough.
    pub options: SearchOptions,
    /// Which candidate served last: most likely the next, too.
    pub served: &'a Served,
    /// How much has been solved so far.
    pub work: &'a Work,
}

/// One requirement of a way out.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Part {
    /// Its number.
    pub(super) index: usize,
    /// How far it is eased.
    pub(super) ease: Ease,
    /// What that costs, with the weight of the list.
    pub(super) points: f64,
}

/// A list with changes, and what takes it.
pub(super) struct Attempt {
    pub(super) found: model::Found,
    pub(super) list: RequirementList,
    pub(super) workshop: Workshop,
}

impl Ground<'_> {
    /// The steps of a requirement.
    pub(super) fn ladder(&self, index: usize) -> Ladder {
        let aspect = &self.requirements[index].aspect;
        ladder(self.list, self.catalogue, self.workshop, aspect)
    }

    /// The list and the rules with these changes.
    pub(super) fn changed(&self, eased: &[Part]) -> (RequirementList, Workshop) {
        let changes: Vec<Change> = eased
            .iter()
            .map(|part| Change {
                aspect: self.requirements[part.index].aspect.clone(),
                ease: part.ease.clone(),
            })
            .collect();
        apply(self.list, self.workshop, &changes)
    }

    fn options(&self, placement: Placement) -> SearchOptions {
        SearchOptions {
            placement,
            ..self.options
        }
    }

    /// Whether anything takes the list with these changes; entries placed as is given.
    pub(super) fn serves(&self, eased: &[Part], placement: Placement) -> bool {
        let (list, workshop) = self.changed(eased);
        let options = self.options(placement);
        self.work.count(&list, placement);
        serves(&list, self.catalogue, &workshop, options, self.served)
    }

    /// The smallest that takes the list with these changes.
    pub(super) fn attempt(&self, eased: &[Part]) -> Option<Attempt> {
        let (list, workshop) = self.changed(eased);
        let options = self.options(self.full());
        self.work.count(&list, self.full());
        let found = takes(&list, self.catalogue, &workshop, options)?;
        Some(Attempt {
            found,
            list,
            workshop,
        })
    }

    /// The place of what was found in the order of the objective.
    pub(super) fn rank(&self, attempt: &Attempt) -> usize {
        let candidates = model::candidates(self.list, self.catalogue);
        let mounted = &attempt.found.mounted;
        candidates
            .iter()
            .position(|(enclosure, orientation)| {
                enclosure.id == mounted.id && *orientation == mounted.orientation
            })
            .unwrap_or(candidates.len())
    }

    /// As entries may be placed in what is offered.
    pub(super) fn full(&self) -> Placement {
        self.options.placement
    }

    /// Rows, unless entries in no rows alone were asked for.
    pub(super) fn quick(&self) -> Placement {
        match self.options.placement {
            Placement::Free => Placement::Free,
            Placement::Rows | Placement::Best => Placement::Rows,
        }
    }
}
