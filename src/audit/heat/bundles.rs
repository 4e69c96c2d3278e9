//! Bundles of conductors: where their limit has weight, and whether the workshop is told.
//! Knows nothing of routes: how conductors are bundled is settled when they are laid.
//!
//! A group of circuits has no weight where the heat of its conductors, with that of all groups that
//! give less, is negligible, or where it has no more conductors than one bundle may have. Where it has
//! weight the arrangement must carry the instruction; that it is followed is not measured, so that
//! such a case informs.

use super::power::conductor_w;
use crate::audit::case::{Cases, Rule, figure_text};
use crate::audit::context::Context;
use crate::letters::plural;
use crate::standards::common_practice::{NEGLIGIBLE_SHARE, NEGLIGIBLE_W};
use crate::standards::iec_60079_7::{BUNDLE, BUNDLE_LIMIT};
use std::collections::BTreeMap;

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[Rule {
    id: "heat.bundles",
    title: "bundles of at most six conductors",
    requires: "for a group of circuits with more than six conductors whose heat, with that of all groups that give less, is above 1 % of the rated power and 0.1 W, the arrangement carries an instruction `bundles` to the workshop that names the group; that it is followed is not measured, so that the rule then informs; any other group holds, with the reason",
    source: BUNDLE,
    unit: "conductors",
    check: bundles,
}];

/// The code of the instruction.
const CODE: &str = "bundles";

/// Heat that may be unknown, in words.
fn heat_words(heat_w: f64) -> String {
    if heat_w.is_finite() {
        format!("{} W", figure_text(heat_w))
    } else {
        "a heat that cannot be reckoned".to_string()
    }
}

fn bundles(context: &Context<'_>, cases: &mut Cases) {
    let arrangement = context.arrangement;
    // Heat of each group, W, or infinite where it is unknown, and its conductors.
    let mut groups: BTreeMap<&str, (f64, u32)> = BTreeMap::new();
    for wire in &arrangement.wires {
        let Some(circuit) = context.circuits.get(wire.circuit.as_str()) else {
            continue;
        };
        let heat_w = conductor_w(context, wire, arrangement.heat.reference_c);
        let group = groups.entry(circuit.group.as_str()).or_insert((0.0, 0));
        group.0 += heat_w.unwrap_or(f64::INFINITY);
        group.1 += 1;
    }
    let negligible_w = NEGLIGIBLE_W.max(NEGLIGIBLE_SHARE * arrangement.heat.rated_power_w);
    for (name, (heat_w, count)) in &groups {
        let conductors = plural(*count as usize, "conductor", "conductors");
        let cooler = |other: &(&&str, &(f64, u32))| {
            (other.1.0, *other.0).partial_cmp(&(*heat_w, name)) != Some(std::cmp::Ordering::Greater)
        };
        let together_w: f64 = groups.iter().filter(cooler).map(|other| other.1.0).sum();
        if together_w <= negligible_w {
            cases.is_so(true, &[name], || {
                format!(
                    "the limit of {BUNDLE_LIMIT} has no weight for the {count} {conductors} of `{name}`: their \
                     heat, with that of all cooler groups, is {} W, negligible up to {} W",
                    figure_text(together_w),
                    figure_text(negligible_w)
                )
            });
        } else if *count <= BUNDLE_LIMIT {
            let most = f64::from(BUNDLE_LIMIT);
            cases.at_most(&[name], f64::from(*count), most, || {
                format!("conductors of `{name}`, which one bundle may hold")
            });
        } else {
            let told = arrangement
                .notices
                .iter()
                .filter(|notice| notice.code == CODE)
                .any(|notice| notice.groups.iter().any(|group| group == name));
            let text = || {
                format!(
                    "`{name}` has {count} {conductors} with {}; {}",
                    heat_words(*heat_w),
                    if told {
                        "the workshop is told to bundle at most six of them, which is not measured"
                    } else {
                        "no instruction tells the workshop to bundle at most six of them"
                    }
                )
            };
            let (count, most) = (f64::from(*count), f64::from(BUNDLE_LIMIT));
            if told {
                cases.informs_at_most(&[name], count, most, text);
            } else {
                cases.at_most(&[name], count, most, text);
            }
        }
    }
    cases.nothing("no conductor belongs to a circuit");
}
