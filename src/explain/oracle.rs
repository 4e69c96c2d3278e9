//! Whether some of the requirements of a list can be met: by deriving the demand and deciding the
//! candidates, with what is known of other sets.
//!
//! For each candidate the sets that it took and those that it did not are kept: what is within a set
//! that was taken is taken, what holds a set that was not is not. So most questions need no new decision.

use super::apply::{Change, Ease, apply};
use super::aspect::{Aspect, Requirement};
use super::enumerate::Oracle;
use super::set::Set;
use crate::arrangement::{EnclosureRecord, Orientation};
use crate::catalogue::{Catalogue, Enclosure};
use crate::demand::{self, Demand};
use crate::model::{Placement, Prepared, SearchOptions, measure, mount};
use crate::requirements::{Measure, RequirementList};
use crate::workshop::Workshop;
use std::collections::BTreeMap;
use std::rc::Rc;

/// One candidate with what is known of it.
struct Candidate<'c> {
    enclosure: &'c Enclosure,
    mounted: EnclosureRecord,
    volume_mm3: f64,
    taken: Vec<Set>,
    refused: Vec<Set>,
}

impl Candidate<'_> {
    fn known(&self, set: Set) -> Option<bool> {
        if self.taken.iter().any(|taken| set.is_within(*taken)) {
            return Some(true);
        }
        let refused = self.refused.iter().any(|refused| refused.is_within(set));
        refused.then_some(false)
    }

    fn learn_refused(&mut self, set: Set) {
        self.refused.retain(|known| !set.is_within(*known));
        self.refused.push(set);
    }

    fn learn_taken(&mut self, set: Set) {
        self.taken.retain(|known| !known.is_within(set));
        self.taken.push(set);
    }
}

/// Limits of the work.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    /// Most questions whether a set can be met.
    pub questions: usize,
    /// Most decisions of geometry.
    pub placements: usize,
    /// Time limit of one exact decision, s.
    pub decision_limit_s: f64,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            questions: 4000,
            placements: 6000,
            decision_limit_s: 2.0,
        }
    }
}

/// The oracle over a list and a catalogue.
pub struct ListOracle<'l, 'c> {
    list: &'l RequirementList,
    catalogue: &'c Catalogue,
    workshop: &'l Workshop,
    requirements: &'l [Requirement],
    candidates: Vec<Candidate<'c>>,
    /// Requirements that the demand does not depend on.
    of_enclosure: Set,
    demands: BTreeMap<Set, Option<Rc<Demand<'c>>>>,
    last: Option<usize>,
    /// Answers, with whether each was found without conclusions from other sets.
    asked: BTreeMap<Set, (bool, bool)>,
    limits: Limits,
    questions: usize,
    placements: usize,
    /// Whether some decision was left open within its time limit.
    pub undecided: bool,
}

impl<'l, 'c> ListOracle<'l, 'c> {
    /// The oracle, with what each requirement by itself excludes.
    pub fn new(
        list: &'l RequirementList,
        catalogue: &'c Catalogue,
        workshop: &'l Workshop,
        requirements: &'l [Requirement],
        limits: Limits,
    ) -> Self {
        let mut candidates: Vec<Candidate<'c>> = catalogue
            .enclosure
            .iter()
            .flat_map(|enclosure| {
                [Orientation::Upright, Orientation::Turned].map(|orientation| Candidate {
                    enclosure,
                    mounted: mount(enclosure, orientation),
                    volume_mm3: measure(enclosure, Measure::Volume),
                    taken: Vec::new(),
                    refused: Vec::new(),
                })
            })
            .filter(|candidate| {
                candidate.enclosure.turnable
                    || candidate.mounted.orientation == Orientation::Upright
            })
            .collect();
        // The largest first: most likely to take what can be taken at all.
        candidates.sort_by(|a, b| {
            b.volume_mm3
                .total_cmp(&a.volume_mm3)
                .then_with(|| a.enclosure.id.cmp(&b.enclosure.id))
        });
        let of_enclosure = requirements
            .iter()
            .enumerate()
            .filter(|(_, requirement)| is_of_enclosure(&requirement.aspect))
            .map(|(index, _)| index)
            .collect();
        let mut oracle = Self {
            list,
            catalogue,
            workshop,
            requirements,
            candidates,
            of_enclosure,
            demands: BTreeMap::new(),
            last: None,
            asked: BTreeMap::new(),
            limits,
            questions: 0,
            placements: 0,
            undecided: false,
        };
        oracle.learn_single_ones();
        oracle
    }

    /// The list with all its requirements.
    pub fn whole(&self) -> &'l RequirementList {
        self.list
    }

    /// The list with only these requirements, and the rules that then hold.
    pub fn only(&self, set: Set) -> (RequirementList, Workshop) {
        apply(self.list, self.workshop, &self.given_up(set))
    }

    fn given_up(&self, set: Set) -> Vec<Change> {
        self.requirements
            .iter()
            .enumerate()
            .filter(|(index, _)| !set.has(*index))
            .map(|(_, requirement)| Change {
                aspect: requirement.aspect.clone(),
                ease: Ease::GivenUp,
            })
            .collect()
    }

    fn demand(
        &mut self,
        set: Set,
        list: &RequirementList,
        workshop: &Workshop,
    ) -> Option<Rc<Demand<'c>>> {
        let key = set.less(self.of_enclosure);
        if let Some(known) = self.demands.get(&key) {
            return known.clone();
        }
        let demand = demand::build(list, self.catalogue, workshop)
            .ok()
            .map(Rc::new);
        self.demands.insert(key, demand.clone());
        demand
    }

    /// What area and wishes exclude, each by itself: found by the screens alone.
    fn learn_single_ones(&mut self) {
        for index in 0..self.requirements.len() {
            if !is_of_area(&self.requirements[index].aspect) && !self.of_enclosure.has(index) {
                continue;
            }
            let set = Set::one(index);
            let (list, workshop) = self.only(set);
            let Some(demand) = self.demand(set, &list, &workshop) else {
                continue;
            };
            let Ok(prepared) = Prepared::new(&list, &demand, &workshop, SearchOptions::default())
            else {
                continue;
            };
            for candidate in &mut self.candidates {
                if !list
                    .wishes
                    .orientations
                    .contains(&candidate.mounted.orientation)
                    || prepared
                        .screen(candidate.enclosure, &candidate.mounted)
                        .is_err()
                {
                    candidate.learn_refused(set);
                }
            }
        }
    }

    fn decide(&mut self, set: Set, exactly: bool) -> bool {
        self.questions += 1;
        if !exactly {
            let known = |candidate: &Candidate<'_>| candidate.known(set);
            if self
                .candidates
                .iter()
                .any(|candidate| known(candidate) == Some(true))
            {
                return true;
            }
            if self
                .candidates
                .iter()
                .all(|candidate| known(candidate) == Some(false))
            {
                return false;
            }
        }
        if let Some((holds, by_itself)) = self.asked.get(&set)
            && (*by_itself || !exactly)
        {
            return *holds;
        }
        let holds = self.search(set, exactly);
        self.asked.insert(set, (holds, exactly));
        holds
    }

    fn search(&mut self, set: Set, exactly: bool) -> bool {
        let (list, workshop) = self.only(set);
        // Conflicts are judged with entries in rows: only there a refusal is always a proof.
        let options = SearchOptions {
            decision_limit_s: self.limits.decision_limit_s,
            placement: Placement::Rows,
            ..SearchOptions::default()
        };
        let demand = self.demand(set, &list, &workshop);
        let prepared = demand
            .as_ref()
            .and_then(|demand| Prepared::new(&list, demand, &workshop, options).ok());
        let Some(prepared) = prepared else {
            for candidate in &mut self.candidates {
                if candidate.known(set).is_none() {
                    candidate.learn_refused(set);
                }
            }
            return false;
        };
        let mut open = Vec::new();
        for (index, candidate) in self.candidates.iter_mut().enumerate() {
            if !exactly && candidate.known(set) == Some(false) {
                continue;
            }
            let wanted = list
                .wishes
                .orientations
                .contains(&candidate.mounted.orientation);
            if wanted
                && prepared
                    .screen(candidate.enclosure, &candidate.mounted)
                    .is_ok()
            {
                open.push(index);
            } else {
                candidate.learn_refused(set);
            }
        }
        // The one that served last is asked first.
        open.sort_by_key(|index| Some(*index) != self.last);
        for index in open {
            self.placements += 1;
            let candidate = &mut self.candidates[index];
            match prepared.place(&candidate.mounted) {
                Ok(_) => {
                    candidate.learn_taken(set);
                    self.last = Some(index);
                    return true;
                }
                Err(reason) => {
                    self.undecided |= reason.is_undecided();
                    candidate.learn_refused(set);
                }
            }
        }
        false
    }
}

impl Oracle for ListOracle<'_, '_> {
    fn holds(&mut self, set: Set) -> bool {
        self.decide(set, false)
    }

    fn holds_exactly(&mut self, set: Set) -> bool {
        self.decide(set, true)
    }

    fn is_spent(&self) -> bool {
        self.questions >= self.limits.questions || self.placements >= self.limits.placements
    }
}

/// Whether the demand does not depend on it.
fn is_of_enclosure(aspect: &Aspect) -> bool {
    matches!(
        aspect,
        Aspect::Material
            | Aspect::Size
            | Aspect::Orientation
            | Aspect::Include
            | Aspect::Exclude
            | Aspect::Hinge
            | Aspect::HeatReserve
            | Aspect::ExternalEarth
            | Aspect::Class
            | Aspect::Surface
    )
}

fn is_of_area(aspect: &Aspect) -> bool {
    matches!(
        aspect,
        Aspect::GasLevel
            | Aspect::DustLevel
            | Aspect::GasGroup
            | Aspect::DustGroup
            | Aspect::Class
            | Aspect::Surface
            | Aspect::Hottest
            | Aspect::Coldest
            | Aspect::Ip
            | Aspect::Voltage(_)
    )
}
