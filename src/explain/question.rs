//! The question put to a list, from end to end.

use super::because::{because, sentences};
use super::enumerate::{Known, conflicts};
use super::facts::{Conflict, Explanation, Impossible, Possible, Tight, TriedFreely, Way};
use super::gather::requirements;
use super::ground::Ground;
use super::known_names::check_names;
use super::oracle::{Limits, ListOracle};
use super::otherwise::otherwise;
use super::repairs::{Found, WayOut, ways_out};
use super::solve::{Holds, Served, proved, takes};
use super::telling::{named, told};
use super::work::Work;
use crate::audit::{AuditReport, RuleGroup, Verdict};
use crate::catalogue::Catalogue;
use crate::demand;
use crate::model::{self, Excluded, Outcome, Placement, Reason, SearchOptions};
use crate::propose::ProposeError;
use crate::requirements::{RequirementList, check_parts};
use crate::workshop::Workshop;
use itertools::Itertools;

/// How much is asked for.
#[derive(Debug, Clone, Copy)]
pub struct ExplainOptions {
    /// Most conflicts.
    pub conflicts: usize,
    /// Most ways out.
    pub ways: usize,
    /// How entries may be placed.
    pub placement: Placement,
    /// Limits of the work.
    pub limits: Limits,
}

impl ExplainOptions {
    fn search(&self) -> SearchOptions {
        SearchOptions {
            decision_limit_s: self.limits.decision_limit_s,
            placement: self.placement,
            ..SearchOptions::default()
        }
    }
}

impl Default for ExplainOptions {
    fn default() -> Self {
        Self {
            conflicts: 4,
            ways: 6,
            placement: Placement::default(),
            limits: Limits::default(),
        }
    }
}

/// Most tight limits that are told.
const MOST_TIGHT: usize = 6;

/// Explains a list. `why_not` names an enclosure; of a list that can be made, the question is then why
/// that one does not take it.
///
/// # Errors
/// Findings about the input, or a fault of the program.
pub fn explain(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    why_not: Option<&str>,
    options: ExplainOptions,
) -> Result<Explanation, ProposeError> {
    let _memory = model::remember();
    let mut findings = check_parts(list, catalogue);
    findings.extend(check_names(list));
    if findings.has_errors() {
        return Err(findings.into());
    }
    let search = options.search();
    let demand = demand::build(list, catalogue, workshop);
    // The answer is that of `propose`: in rows, or freely where rows find no room.
    let outcome = match &demand {
        Ok(demand) => Some(
            model::search(list, demand, catalogue, workshop, search)
                .map_err(ProposeError::Fault)?,
        ),
        Err(_) => None,
    };
    let Some(Outcome::Found(found)) = &outcome else {
        let (mut facts, _) = match why_not {
            None => impossible(list, catalogue, workshop, None, options),
            Some(id) => impossible(list, &alone(catalogue, id), workshop, Some(id), options),
        };
        if let Err(findings) = &demand {
            facts.without_part = sentences(findings);
        }
        if let Some(Outcome::Impossible { excluded, .. }) = &outcome
            && options.placement != Placement::Rows
        {
            facts.freely = Some(tried_freely(excluded, why_not));
        }
        return Ok(Explanation::Impossible(Box::new(facts)));
    };
    let (holds, audit) = proved(list, catalogue, workshop, found).map_err(ProposeError::Fault)?;
    let asked = match why_not {
        Some(id) => Some(id.to_string()),
        None => found
            .excluded
            .iter()
            .rev()
            .filter(|excluded| excluded.enclosure != holds.enclosure)
            // One that the list does not want, or its certificate does not allow, says little.
            .find_or_first(|excluded| {
                !matches!(
                    excluded.reason,
                    Reason::NotWanted(_)
                        | Reason::NotSo(_)
                        | Reason::TooLarge { .. }
                        | Reason::Certificate(_)
                )
            })
            .map(|excluded| excluded.enclosure.clone()),
    };
    let mut possible = Possible {
        proven: found.proven,
        entries: found.decided.entry_placing(),
        tried_freely: options.placement != Placement::Rows,
        open_for_free_placement: model::open_freely(&found.excluded),
        tight: tight(&audit),
        holds,
        why_not: None,
        also_holds: None,
    };
    if let Some(id) = asked {
        let alone = alone(catalogue, &id);
        match takes(list, &alone, workshop, search) {
            Some(also) => possible.also_holds = Some(checked(list, &alone, workshop, &also)?),
            None => {
                let (mut facts, _) = impossible(list, &alone, workshop, Some(&id), options);
                facts.freely = (options.placement != Placement::Rows)
                    .then(|| tried_freely(&found.excluded, Some(&id)));
                possible.why_not = Some(facts);
            }
        }
    }
    Ok(Explanation::Possible(Box::new(possible)))
}

fn checked(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    found: &model::Found,
) -> Result<Holds, ProposeError> {
    proved(list, catalogue, workshop, found)
        .map(|(holds, _)| holds)
        .map_err(ProposeError::Fault)
}

/// What is open for entries in no rows, in all candidates or those of one enclosure.
fn tried_freely(excluded: &[Excluded], enclosure: Option<&str>) -> TriedFreely {
    let mut open = model::open_freely(excluded);
    open.retain(|name| enclosure.is_none_or(|id| name.enclosure == id));
    TriedFreely { open }
}

/// The catalogue with one enclosure.
fn alone(catalogue: &Catalogue, id: &str) -> Catalogue {
    let mut alone = catalogue.clone();
    alone.enclosure.retain(|enclosure| enclosure.id == id);
    alone
}

/// Why no candidate of a catalogue takes a list, with the ways out as they were solved.
pub fn impossible(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    enclosure: Option<&str>,
    options: ExplainOptions,
) -> (Impossible, Vec<WayOut>) {
    let _memory = model::remember();
    let all = requirements(list);
    let mut oracle = ListOracle::new(list, catalogue, workshop, &all, options.limits);
    let mut known = Known::default();
    let (sets, all_conflicts) = conflicts(&mut oracle, all.len(), options.conflicts, &mut known);
    let named = |index: usize| named(list, &all[index]);
    let conflicts = sets
        .iter()
        .map(|set| Conflict {
            members: set.members().map(named).collect(),
            because: because(&mut oracle, catalogue, *set, options),
        })
        .collect();
    let (served, work) = (Served::default(), Work::default());
    let ground = Ground {
        list,
        catalogue,
        workshop,
        requirements: &all,
        options: SearchOptions {
            decision_limit_s: options.limits.decision_limit_s,
            placement: options.placement,
            ..SearchOptions::default()
        },
        served: &served,
        work: &work,
    };
    let Found {
        ways,
        complete: all_ways,
        mut faults,
    } = ways_out(ground, &mut oracle, &mut known, options.ways);
    let mut told_ways: Vec<Way> = ways.iter().map(|way| told(ground, way)).collect();
    let mut two_boxes = None;
    // Of one enclosure the question is not how else the list could be made.
    if enclosure.is_none() {
        let mut other = otherwise(ground, options.placement);
        faults.append(&mut other.faults);
        two_boxes = other.two_boxes;
        let mut further = other.ways;
        // Beside the changes of the list, not in place of one; of equal cost what leaves the list as it is comes
        // first.
        further.append(&mut told_ways);
        told_ways = further;
        told_ways.sort_by(|a, b| a.cost.total_cmp(&b.cost));
        told_ways.truncate(MOST_TOLD);
    }
    let facts = Impossible {
        enclosure: enclosure.map(str::to_string),
        candidates: model::candidates(list, catalogue).len(),
        conflicts,
        all_conflicts,
        ways: told_ways,
        all_ways,
        cut_short: work.is_enough(),
        faults,
        undecided: oracle.undecided,
        weighed: !list.weights.is_empty(),
        freely: None,
        without_part: Vec::new(),
        two_boxes,
    };
    (facts, ways)
}

/// Most ways that are told: as many as there are letters.
const MOST_TOLD: usize = 26;

/// The rules of an audit with the least margin in proportion to what is required.
fn tight(audit: &AuditReport) -> Vec<Tight> {
    let mut rules: Vec<(f64, Tight)> = audit
        .rules
        .iter()
        .filter(|rule| rule.verdict == Verdict::Holds)
        .filter_map(|rule| {
            let (required, measured, margin) = (rule.required?, rule.measured?, rule.margin?);
            let room = matches!(
                rule.group,
                RuleGroup::Space | RuleGroup::Heat | RuleGroup::Distance
            );
            if !room || rule.is_agreement() || required.abs() < 1e-9 || rule.unit.is_empty() {
                return None;
            }
            let tight = Tight {
                rule: rule.id.to_string(),
                title: rule.title.to_string(),
                relation: rule.relation(),
                required,
                measured,
                margin,
                unit: rule.unit.to_string(),
            };
            Some((margin / required.abs(), tight))
        })
        .filter(|(share, _)| *share < 0.25)
        .collect();
    rules.sort_by(|a, b| a.0.total_cmp(&b.0));
    rules
        .into_iter()
        .map(|(_, tight)| tight)
        .take(MOST_TIGHT)
        .collect()
}
