//! `glandrail rules`: the rules of the audit in words. Holds no rules.

use super::audit::{RecordFormat, json};
use super::{ExitStatus, Failure};
use crate::audit::{RuleGroup, rules};
use std::io::Write;

/// List the rules that the audit measures.
#[derive(Debug, Clone, clap::Args)]
pub struct RulesArgs {
    /// Only the rules of one group, such as `space`.
    #[arg(long, value_name = "GROUP", value_parser = group)]
    pub group: Option<RuleGroup>,
    /// Form of the list.
    #[arg(long, value_enum, default_value_t = RecordFormat::Text)]
    pub format: RecordFormat,
}

/// The group of a name.
fn group(name: &str) -> Result<RuleGroup, String> {
    RuleGroup::ALL
        .into_iter()
        .find(|group| group.word() == name)
        .ok_or_else(|| {
            let words: Vec<&str> = RuleGroup::ALL.iter().map(|group| group.word()).collect();
            format!("there is no group `{name}`; there are {}", words.join(", "))
        })
}

/// Prints the rules.
///
/// # Errors
/// An output that cannot be written.
pub fn run(args: &RulesArgs, out: &mut dyn Write) -> Result<ExitStatus, Failure> {
    let mut all = rules();
    all.retain(|rule| args.group.is_none_or(|group| rule.group == group));
    match args.format {
        RecordFormat::Json => json(&all, out)?,
        RecordFormat::Text => {
            let width = all.iter().map(|rule| rule.id.len()).max().unwrap_or(0);
            let title = all
                .iter()
                .map(|rule| rule.title.chars().count())
                .max()
                .unwrap_or(0);
            for rule in &all {
                writeln!(
                    out,
                    "{:width$}  {:title$}  {} ({})",
                    rule.id, rule.title, rule.clause, rule.status
                )?;
            }
        }
    }
    Ok(ExitStatus::Holds)
}
