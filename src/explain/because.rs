//! What excludes the candidates when only the requirements of a conflict are asked for.

use super::alike::alike;
use super::facts::{Because, Group};
use super::oracle::ListOracle;
use super::question::ExplainOptions;
use super::set::Set;
use crate::catalogue::Catalogue;
use crate::demand;
use crate::model::{self, Excluded, Outcome, Placement, Prepared, Reason, SearchOptions};
use crate::requirements::RequirementList;
use crate::source::{Findings, Severity};
use itertools::Itertools;
use std::collections::BTreeSet;

/// Errors about parts that are missing, those that are alike in one sentence.
pub(super) fn sentences(findings: &Findings) -> Vec<String> {
    let errors = findings.iter();
    let errors = errors.filter(|finding| finding.severity == Severity::Error);
    let sentences = errors.map(|finding| match &finding.hint {
        Some(hint) => format!("{}; {hint}", finding.message),
        None => finding.message.clone(),
    });
    alike(sentences.collect())
}

/// What excludes each candidate when only the requirements of a set are asked for.
pub(super) fn because(
    oracle: &mut ListOracle<'_, '_>,
    catalogue: &Catalogue,
    set: Set,
    options: ExplainOptions,
) -> Because {
    let (list, workshop) = oracle.only(set);
    let demand = match demand::build(&list, catalogue, &workshop) {
        Ok(demand) => demand,
        Err(findings) => {
            return Because::Parts(sentences(&findings));
        }
    };
    let search = SearchOptions {
        decision_limit_s: options.limits.decision_limit_s,
        placement: Placement::Rows,
        ..SearchOptions::default()
    };
    match model::search(&list, &demand, catalogue, &workshop, search) {
        Ok(Outcome::Impossible { excluded, .. }) => {
            let wanted = wanted(oracle.whole(), catalogue);
            let mut unlimited = list.clone();
            unlimited.wishes.max_outer_mm = None;
            let prepared = Prepared::new(&unlimited, &demand, &workshop, search);
            let takes = |member: &Excluded| {
                let of = catalogue.enclosure.iter();
                let mut of = of.filter(|enclosure| enclosure.id == member.enclosure);
                match (&prepared, of.next()) {
                    (Ok(prepared), Some(enclosure)) => prepared
                        .decide_candidate(enclosure, member.orientation)
                        .is_ok(),
                    _ => false,
                }
            };
            Because::Candidates(groups(excluded, &wanted, &takes))
        }
        Ok(Outcome::Found(found)) => Because::Parts(vec![format!(
            "`{}` takes these alone: the answer is not certain",
            found.mounted.id
        )]),
        Err(reason) => Because::Parts(vec![reason]),
    }
}

/// The enclosures that the whole list permits by name and material.
fn wanted(list: &RequirementList, catalogue: &Catalogue) -> BTreeSet<String> {
    let enclosures = catalogue.enclosure.iter();
    enclosures
        .filter(|enclosure| model::permitted(list, enclosure).is_ok())
        .map(|enclosure| enclosure.id.clone())
        .collect()
}

/// Reasons by group, the largest group last: what excludes few by little is nearest to a way out. The one that
/// comes nearest is one that the whole list permits, if there is any; of those that are too large one that would do
/// otherwise (`takes`), for a smaller one says nothing.
fn groups(
    excluded: Vec<Excluded>,
    wanted: &BTreeSet<String>,
    takes: &dyn Fn(&Excluded) -> bool,
) -> Vec<Group> {
    let mut groups: Vec<(&'static str, Vec<Excluded>)> = Vec::new();
    for candidate in excluded {
        let group = candidate.reason.kind();
        match groups.iter_mut().find(|(known, _)| *known == group) {
            Some((_, members)) => members.push(candidate),
            None => groups.push((group, vec![candidate])),
        }
    }
    let mut told: Vec<Group> = groups
        .into_iter()
        .filter_map(|(reason, members)| group(reason, members, wanted, takes))
        .collect();
    told.sort_by(|a, b| {
        let key = |group: &Group| group.ratio.unwrap_or(f64::INFINITY);
        key(a).total_cmp(&key(b)).then(b.count.cmp(&a.count))
    });
    told
}

fn group(
    reason: &str,
    mut members: Vec<Excluded>,
    wanted: &BTreeSet<String>,
    takes: &dyn Fn(&Excluded) -> bool,
) -> Option<Group> {
    let unwanted = |member: &Excluded| !wanted.contains(&member.enclosure);
    members.sort_by(|a, b| {
        let far = |member: &Excluded| member.reason.distance();
        let key = |member: &Excluded| far(member).is_infinite() || unwanted(member);
        key(a).cmp(&key(b)).then(far(a).total_cmp(&far(b)))
    });
    let too_large = |member: &&Excluded| matches!(member.reason, Reason::TooLarge { .. });
    let would_do = members
        .iter()
        .filter(too_large)
        .find(|member| takes(member));
    let serves_otherwise = would_do.is_some();
    let by_distance = would_do.or(members.first())?;
    let ratio = by_distance.reason.distance();
    let by_figure = ratio.is_finite();
    // Without figures the reason that is told is that of most candidates.
    let nearest = if by_figure {
        by_distance.clone()
    } else {
        let texts = members.iter().counts_by(|member| member.reason.to_string());
        let most = members
            .iter()
            .rev()
            .max_by_key(|member| (!unwanted(member), texts[&member.reason.to_string()]))?;
        most.clone()
    };
    Some(Group {
        reason: reason.to_string(),
        count: members.len(),
        nearest,
        by_figure,
        serves_otherwise,
        ratio: by_figure.then_some(ratio),
    })
}
