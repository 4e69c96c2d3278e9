//! Which terminal serves a cluster of linked poles: the narrowest that every condition allows.

use super::JumperNeed;
use super::misfit::{Misfit, Nearest};
use super::refusals::section_in_words;
use super::suitability::suits;
use crate::catalogue::{
    Accessory, AccessoryKind, Catalogue, CircuitKind, ConductorBuild, Terminal, TerminalFunction,
};
use crate::requirements::{Area, Section};

/// What the terminals of one cluster must stand.
#[derive(Debug, Clone, PartialEq)]
pub struct TerminalTask {
    /// Function.
    pub function: TerminalFunction,
    /// Kind of circuit.
    pub kind: CircuitKind,
    /// Highest working voltage, V.
    pub voltage_v: f64,
    /// Conductors that must be clamped: build, section and current.
    pub conductors: Vec<(ConductorBuild, Section, f64)>,
    /// Number of terminals that must be linked; 1 where none.
    pub linked: u32,
    /// Current through the jumper, A.
    pub jumper_current_a: f64,
    /// Current through the jumper for the heat calculation, A.
    pub jumper_heat_current_a: f64,
    /// Id that the list names.
    pub named: Option<String>,
}

/// Chooses terminal and jumper: the narrowest terminal, then the lower, shorter, cheaper one, then by
/// id. The `Err` is a hint: which terminal comes nearest, and what it lacks.
pub fn choose<'c>(
    catalogue: &'c Catalogue,
    area: &Area,
    profile: &str,
    task: &TerminalTask,
) -> Result<(&'c Terminal, Option<JumperNeed<'c>>), String> {
    let mut candidates: Vec<&Terminal> = catalogue
        .terminal
        .iter()
        .filter(|terminal| {
            terminal.function == task.function && terminal.circuits.contains(&task.kind)
        })
        .filter(|terminal| {
            task.named
                .as_ref()
                .is_none_or(|named| *named == terminal.id)
        })
        .collect();
    candidates.sort_by(|a, b| {
        a.width_mm
            .total_cmp(&b.width_mm)
            .then(a.height_mm.total_cmp(&b.height_mm))
            .then(a.length_mm.total_cmp(&b.length_mm))
            .then(a.price.total_cmp(&b.price))
            .then(a.id.cmp(&b.id))
    });
    if candidates.is_empty() {
        return Err(match &task.named {
            Some(named) => format!(
                "`{named}` is no {} terminal for {} circuits",
                task.function.words(),
                task.kind.words()
            ),
            None => format!(
                "the catalogue has no {} terminal for {} circuits",
                task.function.words(),
                task.kind.words()
            ),
        });
    }
    let mut nearest = Nearest::of_none();
    for terminal in candidates {
        match check(catalogue, area, profile, task, terminal) {
            Ok(jumper) => return Ok((terminal, jumper)),
            Err(misfit) => nearest.note(&terminal.id, misfit),
        }
    }
    Err(nearest.words(task.named.is_some()).unwrap_or_default())
}

/// Checks every condition of one terminal.
fn check<'c>(
    catalogue: &'c Catalogue,
    area: &Area,
    profile: &str,
    task: &TerminalTask,
    terminal: &Terminal,
) -> Result<Option<JumperNeed<'c>>, Misfit> {
    let mut misfit = Misfit::default();
    if let Err(reason) = suits(&terminal.certificate, area, false) {
        misfit.add(format!("is not certified for the area ({reason})"), 1.0);
    }
    if !terminal.rails.iter().any(|rail| rail == profile) {
        misfit.add(format!("does not snap on {profile} rails"), 1.0);
    }
    check_clamp(task, terminal, &mut misfit);
    let (rated_v, needed_v) = (terminal.rated_voltage_v, task.voltage_v);
    if rated_v < needed_v {
        let reason = format!("is rated {rated_v} V where {needed_v} V is needed");
        misfit.add(reason, needed_v / rated_v);
    }
    check_current(task, terminal, &mut misfit);
    if task.linked < 2 {
        return if misfit.conditions == 0 {
            Ok(None)
        } else {
            Err(misfit)
        };
    }
    let part = choose_jumper(catalogue, area, terminal, task);
    if part.is_none() {
        let (reason, shortfall) = jumper_misfit(catalogue, terminal, task);
        misfit.add(reason, shortfall);
    }
    match part {
        Some(part) if misfit.conditions == 0 => Ok(Some(JumperNeed {
            part,
            current_a: task.jumper_current_a,
            heat_current_a: task.jumper_heat_current_a,
        })),
        _ => Err(misfit),
    }
}

/// Whether the clamp takes every conductor; of several that it does not take the worst is told.
fn check_clamp(task: &TerminalTask, terminal: &Terminal, misfit: &mut Misfit) {
    let worst = task
        .conductors
        .iter()
        .filter(|(build, section, _)| !terminal.clamp.takes(*build, section.mm2))
        .map(|(build, section, _)| match terminal.clamp.of(*build) {
            Some([least, most]) => {
                let takes = format!("{least} to {most} mm²");
                (
                    (section.mm2 / most).max(least / section.mm2),
                    takes,
                    section,
                )
            }
            None => (
                100.0,
                format!("no {} conductor", build_in_words(*build)),
                section,
            ),
        })
        .max_by(|a, b| a.0.total_cmp(&b.0));
    if let Some((shortfall, takes, section)) = worst {
        let needed = section_in_words(section);
        misfit.add(
            format!("clamps {takes} where {needed} is needed"),
            shortfall,
        );
        // What current it may carry with a conductor that it does not take cannot be judged.
        misfit.conditions += 1;
    }
}

/// Whether it may carry the currents with those conductors that it clamps.
fn check_current(task: &TerminalTask, terminal: &Terminal, misfit: &mut Misfit) {
    let worst = task
        .conductors
        .iter()
        .filter(|(build, section, _)| terminal.clamp.takes(*build, section.mm2))
        .filter_map(
            |(_, section, current_a)| match terminal.rated_current_a(section.mm2) {
                Some(rated_a) if rated_a >= *current_a => None,
                Some(rated_a) => Some((
                    current_a / rated_a,
                    format!("rated {rated_a} A"),
                    section,
                    current_a,
                )),
                None => Some((100.0, "not rated".to_string(), section, current_a)),
            },
        )
        .max_by(|a, b| a.0.total_cmp(&b.0));
    if let Some((shortfall, has, section, current_a)) = worst {
        let with = section_in_words(section);
        misfit.add(
            format!("is {has} with {with} where {current_a} A is needed"),
            shortfall,
        );
    }
}

fn build_in_words(build: ConductorBuild) -> &'static str {
    match build {
        ConductorBuild::Solid => "solid",
        ConductorBuild::Stranded => "stranded",
        ConductorBuild::Flexible => "flexible",
    }
}

/// What the jumpers of a terminal lack.
fn jumper_misfit(catalogue: &Catalogue, terminal: &Terminal, task: &TerminalTask) -> (String, f64) {
    let (linked, needed_a) = (task.linked, task.jumper_current_a);
    let strongest_a = catalogue
        .accessory
        .iter()
        .filter(|part| part.kind == AccessoryKind::Jumper && part.fits.contains(&terminal.id))
        .filter(|part| part.poles.is_some_and(|poles| poles >= linked))
        .filter_map(|part| part.current_a)
        .max_by(f64::total_cmp);
    match strongest_a {
        Some(most_a) if most_a < needed_a => (
            format!(
                "has a jumper for {linked} terminals that carries {most_a} A where {needed_a} A is needed"
            ),
            needed_a / most_a,
        ),
        Some(_) => (
            format!("has no jumper for {linked} terminals that may be used in the area"),
            1.0,
        ),
        None => (format!("has no jumper for {linked} terminals"), 1.0),
    }
}

/// The jumper with the fewest poles that suffices; a longer one is cut.
fn choose_jumper<'c>(
    catalogue: &'c Catalogue,
    area: &Area,
    terminal: &Terminal,
    task: &TerminalTask,
) -> Option<&'c Accessory> {
    catalogue
        .accessory
        .iter()
        .filter(|part| part.kind == AccessoryKind::Jumper && part.fits.contains(&terminal.id))
        .filter(|part| part.poles.is_some_and(|poles| poles >= task.linked))
        .filter(|part| {
            part.current_a
                .is_some_and(|current| current >= task.jumper_current_a)
        })
        .filter(|part| part.resistance_mohm.is_some())
        .filter(|part| suits(&part.certificate, area, false).is_ok())
        .min_by(|a, b| {
            a.poles
                .cmp(&b.poles)
                .then(a.price.total_cmp(&b.price))
                .then(a.id.cmp(&b.id))
        })
}
