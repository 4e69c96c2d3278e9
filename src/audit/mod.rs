//! Measures an arrangement again from scratch: one result a rule, with clause, required and measured
//! figure and margin. Knows nothing of how an arrangement is made, and shares neither formula nor
//! geometry with what makes it: it sees the arrangement, the catalogue's data and published figures.
//!
//! A datum that is missing is never permission: such a rule is `not determined` and does not hold. An
//! estimate, or a method that does not decide, is no permission either: its rule `informs` or fails.

mod case;
mod certified;
mod completeness;
mod context;
mod distance;
mod electrical;
mod elements;
mod entries;
mod figures;
mod graph;
mod heat;
mod measure;
mod record;
mod report;
mod space;
mod suitability;

pub use report::{
    AuditReport, Case, MOST_FURTHER, RuleDescription, RuleGroup, RuleResult, Verdict,
};

use crate::arrangement::{Arrangement, CAUTION};
use crate::catalogue::Catalogue;
use crate::parallel::on_all_cores;
use case::Rule;
use context::Context;

/// Every rule with its group, in the order of the report.
fn all_rules() -> impl Iterator<Item = (RuleGroup, &'static Rule)> {
    RuleGroup::ALL.into_iter().flat_map(|group| {
        let files: &[&'static [Rule]] = match group {
            RuleGroup::Record => &record::RULES,
            RuleGroup::Suitability => &[suitability::RULES],
            RuleGroup::Electrical => &electrical::RULES,
            RuleGroup::Distance => &distance::RULES,
            RuleGroup::Space => &space::RULES,
            RuleGroup::Heat => &heat::RULES,
            RuleGroup::Entries => &[entries::RULES],
            RuleGroup::Elements => &elements::RULES,
            RuleGroup::Completeness => &completeness::RULES,
        };
        files
            .iter()
            .flat_map(|rules| rules.iter())
            .map(move |rule| (group, rule))
            .collect::<Vec<_>>()
    })
}

/// From so many wires on the rules are measured on all cores: with fewer it takes longer to share them out.
const MANY_WIRES: usize = 100;

/// Measures every rule on an arrangement. With a catalogue the figures copied from it are compared too;
/// without one that rule is left out of the report.
///
/// Nothing that an arrangement can contain makes this panic.
pub fn audit(arrangement: &Arrangement, catalogue: Option<&Catalogue>) -> AuditReport {
    let context = Context::new(arrangement, catalogue);
    let rules: Vec<(RuleGroup, &Rule)> = all_rules()
        .filter(|(_, rule)| catalogue.is_some() || rule.id != record::COMPARISON)
        .collect();
    let measure = |(group, rule): &(RuleGroup, &Rule)| rule.run(*group, &context);
    let rules: Vec<RuleResult> = if arrangement.wires.len() < MANY_WIRES {
        rules.iter().map(measure).collect()
    } else {
        on_all_cores(&rules, measure)
    };
    let holds = !rules.iter().any(|rule| rule.verdict.is_failing());
    AuditReport {
        tag: arrangement.job.tag.clone(),
        enclosure: arrangement.enclosure.id.clone(),
        compared_with_catalogue: catalogue.is_some(),
        comparison: comparison(arrangement, catalogue),
        holds,
        rules,
        caution: CAUTION,
    }
}

/// With which catalogue the copied figures are compared, in words.
fn comparison(arrangement: &Arrangement, catalogue: Option<&Catalogue>) -> String {
    if let Some(catalogue) = catalogue {
        return format!(
            "figures of the parts compared with the catalogue `{}`",
            catalogue.name()
        );
    }
    let named = match arrangement.catalogue.trim() {
        "" => "it names no catalogue".to_string(),
        name => format!("it names `{name}`"),
    };
    format!(
        "figures of the parts NOT compared with any catalogue: they are believed as the file states them ({named})"
    )
}

/// Every rule in words, in the order of the report.
pub fn rules() -> Vec<RuleDescription> {
    all_rules()
        .map(|(group, rule)| rule.description(group))
        .collect()
}
