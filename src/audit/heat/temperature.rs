//! Temperatures of cables: where the estimate passes the limits of the standard the box must carry the
//! marking for the cable. Knows nothing of ratings by power.
//!
//! The estimate is the audit's own (`balance.rs`). It may demand the marking, and it never clears the
//! box of it: below a limit, and above one with the marking, these rules inform. What cannot be
//! estimated needs the note that a test settles it.

use super::balance::inside_air_c;
use super::power::{copper_at_limit_c, dissipated_w};
use crate::arrangement::{EntryPurpose, PlacedTerminal, Wire, WireEnd};
use crate::audit::case::{Cases, Rule, figure_text};
use crate::audit::context::Context;
use crate::audit::electrical::rating_a;
use crate::number::short;
use crate::standards::iec_60079_0::{
    BRANCHING_TEMPERATURE_LIMIT_C, ENTRY_TEMPERATURE, ENTRY_TEMPERATURE_LIMIT_C,
};

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "heat.entry_temperature",
        title: "temperature at the cable entries",
        requires: "where the air inside, taken as the temperature at the entries, passes 70 °C by the audit's own heat balance at the highest ambient temperature and with the copper at the limit of the class, a notice `cable-temperature` names a temperature of the cables that is not below it; where there is no estimate the notice says that a test settles it; an estimate permits nothing, so that the rule informs or fails",
        source: ENTRY_TEMPERATURE,
        unit: "°C",
        check: entry,
    },
    Rule {
        id: "heat.branching_temperature",
        title: "temperature where conductors branch",
        requires: "the same for the terminals on which cores of cables end and 80 °C: the air inside and the terminal's rise at rated current by the square of its current; a rise that is unknown needs the notice that a test settles it",
        source: ENTRY_TEMPERATURE,
        unit: "°C",
        check: branching,
    },
];

/// The code of the notice.
const CODE: &str = "cable-temperature";

/// The air inside by the audit's own estimate, °C, or what is missing.
fn air_c(context: &Context<'_>) -> Result<f64, String> {
    let arrangement = context.arrangement;
    let class = arrangement.heat.row_class;
    let copper_c = copper_at_limit_c(class);
    let power_w = dissipated_w(context, copper_c).map_err(|(_, text)| text)?;
    let enclosure = &arrangement.enclosure;
    inside_air_c(
        enclosure.outer_mm,
        enclosure.material,
        enclosure.wall_thickness_mm,
        power_w,
        arrangement.area.ambient_c[1],
    )
}

/// A temperature against its limit and against what is marked.
fn judge(
    context: &Context<'_>,
    cases: &mut Cases,
    subject: &[&str],
    found: Result<(f64, String), String>,
    limit_c: f64,
) {
    let notices = context.arrangement.notices.iter();
    let notices: Vec<_> = notices.filter(|notice| notice.code == CODE).collect();
    let (found_c, what) = match found {
        Ok(found) => found,
        Err(missing) if notices.iter().any(|notice| notice.settled_by_test) => {
            cases.informs(subject, || {
                format!("no estimate: {missing}; the box says that a test settles it")
            });
            return;
        }
        Err(missing) => return cases.unknown(subject, || missing),
    };
    let marked_c = notices
        .iter()
        .filter_map(|notice| notice.cable_c)
        .fold(f64::NEG_INFINITY, f64::max);
    let required_c = limit_c.max(marked_c);
    if found_c > required_c || found_c.is_nan() {
        cases.at_most(subject, found_c, required_c, || {
            format!("{what} by the estimate, without a marking of the cables for it")
        });
    } else {
        cases.informs_at_most(subject, found_c, required_c, || {
            let marked = if found_c > limit_c {
                format!(
                    "above {} °C: the box is marked for cables of {} °C",
                    figure_text(limit_c),
                    figure_text(marked_c)
                )
            } else {
                format!(
                    "no marking of the cables is needed up to {} °C",
                    figure_text(limit_c)
                )
            };
            let found = short(found_c, 1);
            format!("{what}: {found} °C by an estimate, which permits nothing; {marked}")
        });
    }
}

fn entry(context: &Context<'_>, cases: &mut Cases) {
    let mut entries = context.arrangement.entries.iter();
    let Some(first) = entries.find(|entry| matches!(entry.purpose, EntryPurpose::Cable(_))) else {
        return cases.nothing("no cable enters the box");
    };
    let found = air_c(context).map(|air_c| (air_c, "temperature at the cable entries".to_string()));
    judge(
        context,
        cases,
        &[&first.id],
        found,
        ENTRY_TEMPERATURE_LIMIT_C,
    );
}

/// How near a terminal comes to its rated current: the largest share over its conductors and itself.
/// `None` where it carries nothing.
fn load(terminal: &PlacedTerminal, wires: &[&Wire]) -> Option<Result<f64, String>> {
    let loaded = wires.iter().filter(|wire| wire.current_a > 0.0);
    let mut pairs: Vec<(f64, f64)> = loaded
        .map(|wire| (wire.section_mm2, wire.current_a))
        .collect();
    let thickest_mm2 = pairs.iter().map(|pair| pair.0).reduce(f64::max)?;
    pairs.push((thickest_mm2, terminal.current_a));
    let mut most: f64 = 0.0;
    for (section_mm2, current_a) in pairs {
        let Some(rated_a) = rating_a(&terminal.ratings, section_mm2).filter(|rated| *rated > 0.0)
        else {
            return Some(Err(format!(
                "{} has no rated current for {} mm²",
                terminal.id,
                figure_text(section_mm2)
            )));
        };
        most = most.max(current_a / rated_a);
    }
    // Beyond the rated current, which a rule of its own reports, the square law is all there is.
    Some(Ok(most))
}

/// The greatest rise of a terminal on which a core ends, K, with its name; `None` without current.
fn greatest_rise_k(context: &Context<'_>) -> Result<Option<(f64, String)>, String> {
    let mut greatest: Option<(f64, String)> = None;
    for terminal in &context.arrangement.terminals {
        let wires = context.wires_at(terminal);
        let takes_core = |wire: &&Wire| {
            [&wire.from, &wire.to]
                .iter()
                .any(|end| matches!(end, WireEnd::Core { .. }))
        };
        if !wires.iter().any(takes_core) {
            continue;
        }
        let Some(share) = load(terminal, wires) else {
            continue;
        };
        let rise_k = terminal.rise_at_rated_k.ok_or_else(|| {
            format!(
                "the rise of {} ({}) at rated current is not known",
                terminal.id, terminal.part
            )
        })?;
        let share = share?;
        let rise_k = rise_k * share * share;
        if greatest.as_ref().is_none_or(|known| rise_k > known.0) {
            greatest = Some((rise_k, terminal.id.clone()));
        }
    }
    for wire in &context.arrangement.wires {
        let on_contact = [&wire.from, &wire.to]
            .iter()
            .any(|end| matches!(end, WireEnd::Contact { .. }));
        let from_core = [&wire.from, &wire.to]
            .iter()
            .any(|end| matches!(end, WireEnd::Core { .. }));
        if on_contact && from_core && wire.current_a != 0.0 {
            return Err(format!(
                "{} ends on a contact, the rise of which is not known",
                wire.id
            ));
        }
    }
    Ok(greatest)
}

fn branching(context: &Context<'_>, cases: &mut Cases) {
    if context.arrangement.cables.is_empty() {
        return cases.nothing("no cable enters the box");
    }
    let air_c = match air_c(context) {
        Ok(air_c) => air_c,
        Err(missing) => {
            let subject = [context.arrangement.enclosure.id.as_str()];
            return judge(
                context,
                cases,
                &subject,
                Err(missing),
                BRANCHING_TEMPERATURE_LIMIT_C,
            );
        }
    };
    let enclosure = context.arrangement.enclosure.id.as_str();
    let mut at = |name: &str, found: Result<f64, String>| {
        let found = found.map(|found_c| {
            let what = format!("temperature where conductors branch, at {name}");
            (found_c, what)
        });
        judge(
            context,
            cases,
            &[name],
            found,
            BRANCHING_TEMPERATURE_LIMIT_C,
        );
    };
    match greatest_rise_k(context) {
        Ok(None) => at(enclosure, Ok(air_c)),
        Ok(Some((rise_k, name))) => at(&name, Ok(air_c + rise_k)),
        Err(missing) => {
            // The air alone passes the limit: no terminal can make it less, and how much more it makes is
            // not known all the same.
            if air_c > BRANCHING_TEMPERATURE_LIMIT_C {
                at(enclosure, Ok(air_c));
            }
            at(enclosure, Err(missing));
        }
    }
}
