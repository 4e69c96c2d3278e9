//! One candidate by itself: what all candidates share is worked out once, then each is screened and
//! decided. The search goes through them in order; explanations and comparisons ask about single ones.

use super::decide::{Decided, Problem, decide};
use super::free::Asked;
use super::heat::{HeatTerms, heat_terms, permitted_row, rated_heat};
use super::lid::{LidProblem, lid_problem};
use super::metal::{MetalDistances, lid_reason, metal_distances};
use super::mount::mount;
use super::rails::{RailProblem, rail_problem};
use super::reason::Reason;
use super::screen::screen;
use super::search::{Found, SearchOptions};
use crate::arrangement::{EnclosureRecord, Limits, Orientation};
use crate::catalogue::Enclosure;
use crate::demand::Demand;
use crate::requirements::RequirementList;
use crate::workshop::Workshop;

/// What all candidates of one list share.
pub struct Prepared<'l, 'd, 'c> {
    list: &'l RequirementList,
    demand: &'d Demand<'c>,
    terms: HeatTerms,
    limits: Limits,
    rails: RailProblem,
    lid: LidProblem,
    metal: MetalDistances,
    options: SearchOptions,
    asked: Asked,
}

impl<'l, 'd, 'c> Prepared<'l, 'd, 'c> {
    /// Works out what all candidates share.
    ///
    /// # Errors
    /// A conductor for which no resistance is known.
    pub fn new(
        list: &'l RequirementList,
        demand: &'d Demand<'c>,
        workshop: &Workshop,
        options: SearchOptions,
    ) -> Result<Self, String> {
        let limits = workshop.limits();
        Ok(Self {
            list,
            demand,
            terms: heat_terms(demand, workshop)?,
            rails: rail_problem(demand, workshop, &limits),
            lid: lid_problem(list, demand, &limits),
            metal: metal_distances(list, demand, &limits),
            limits,
            options,
            asked: Asked::with(options.free_effort()),
        })
    }

    /// The terms of the heat calculation.
    pub fn terms(&self) -> &HeatTerms {
        &self.terms
    }

    /// Passes a candidate through the screens that need no geometry.
    ///
    /// # Errors
    /// The first reason against it.
    pub fn screen(&self, enclosure: &Enclosure, mounted: &EnclosureRecord) -> Result<(), Reason> {
        screen(self.list, self.demand, &self.terms, enclosure, mounted)?;
        match lid_reason(self.list, self.demand, mounted, &self.limits) {
            Some(reason) => Err(reason),
            None => Ok(()),
        }
    }

    /// Decides the geometry of a candidate that has passed the screens.
    ///
    /// # Errors
    /// The reason why it cannot take the demand, or that this was not decided.
    pub fn place(&self, mounted: &EnclosureRecord) -> Result<Decided, Reason> {
        decide(&self.problem(), mounted)
    }

    /// What the decision about a candidate is told.
    pub(super) fn problem(&self) -> Problem<'_, 'c> {
        Problem {
            demand: self.demand,
            limits: &self.limits,
            rails: &self.rails,
            lid: &self.lid,
            metal: self.metal,
            walls: &self.list.wishes.entry_walls,
            patience: self.options.patience(),
            placement: self.options.placement,
            asked: &self.asked,
        }
    }

    /// Power that would be dissipated in a candidate and the power permitted, W; `None` where its
    /// certificate has no row for the area.
    pub fn heat_w(&self, mounted: &EnclosureRecord) -> Option<(f64, f64)> {
        let row = permitted_row(&self.list.area, mounted)?;
        let diagonal_mm = mounted.interior.diagonal_mm();
        let heat = rated_heat(&self.terms, row, diagonal_mm, self.list.spare.heat_percent);
        Some((heat.power_w, heat.permitted_power_w))
    }

    /// Decides one candidate wholly, as the search does.
    ///
    /// # Errors
    /// The first reason against it.
    pub fn decide_candidate(
        &self,
        enclosure: &Enclosure,
        orientation: Orientation,
    ) -> Result<Found, Reason> {
        let mounted = mount(enclosure, orientation);
        self.screen(enclosure, &mounted)?;
        let decided = self.place(&mounted)?;
        Ok(Found {
            mounted,
            decided,
            excluded: Vec::new(),
            proven: true,
            candidates: 1,
            terms: self.terms.clone(),
        })
    }
}
