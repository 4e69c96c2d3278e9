//! Which terminal serves a cluster of linked poles: the narrowest that every condition allows.

use super::JumperNeed;
use super::suitability::suits;
use crate::catalogue::{
    Accessory, AccessoryKind, Catalogue, CircuitKind, ConductorBuild, Terminal, TerminalFunction,
};
use crate::requirements::Area;

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
    pub conductors: Vec<(ConductorBuild, f64, f64)>,
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
/// id. The `Err` holds the reason why the best of the refused ones was refused.
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
    let mut furthest = (0, String::new());
    for terminal in candidates {
        match check(catalogue, area, profile, task, terminal) {
            Ok(jumper) => return Ok((terminal, jumper)),
            Err((step, reason)) if step > furthest.0 => {
                furthest = (step, format!("`{}`: {reason}", terminal.id));
            }
            Err(_) => {}
        }
    }
    Err(furthest.1)
}

/// Checks one terminal. An error carries how far it came, so that the reason of the terminal that
/// came nearest is told.
fn check<'c>(
    catalogue: &'c Catalogue,
    area: &Area,
    profile: &str,
    task: &TerminalTask,
    terminal: &Terminal,
) -> Result<Option<JumperNeed<'c>>, (u32, String)> {
    if let Err(reason) = suits(&terminal.certificate, area, false) {
        return Err((1, reason.to_string()));
    }
    if !terminal.rails.iter().any(|rail| rail == profile) {
        return Err((2, format!("does not snap on {profile} rails")));
    }
    for (build, section_mm2, _) in &task.conductors {
        if !terminal.clamp.takes(*build, *section_mm2) {
            let range = terminal.clamp.of(*build);
            let takes = range.map_or("none of this build".to_string(), |[a, b]| {
                format!("{a} to {b} mm²")
            });
            return Err((3, format!("clamps {takes}, needed is {section_mm2:.4} mm²")));
        }
    }
    if terminal.rated_voltage_v < task.voltage_v {
        return Err((
            4,
            format!(
                "is rated {} V, needed are {} V",
                terminal.rated_voltage_v, task.voltage_v
            ),
        ));
    }
    for (_, section_mm2, current_a) in &task.conductors {
        let rated = terminal.rated_current_a(*section_mm2);
        if rated.is_none_or(|rated| rated < *current_a) {
            let has = rated.map_or("not rated".to_string(), |rated| format!("rated {rated} A"));
            return Err((
                5,
                format!("is {has} with {section_mm2:.4} mm², needed are {current_a} A"),
            ));
        }
    }
    if task.linked < 2 {
        return Ok(None);
    }
    let part = choose_jumper(catalogue, area, terminal, task).ok_or_else(|| {
        (
            6,
            format!(
                "has no jumper for {} terminals and {} A",
                task.linked, task.jumper_current_a
            ),
        )
    })?;
    Ok(Some(JumperNeed {
        part,
        current_a: task.jumper_current_a,
        heat_current_a: task.jumper_heat_current_a,
    }))
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
