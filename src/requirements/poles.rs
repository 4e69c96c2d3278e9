//! The poles of circuits: which core or contact each one comes from and goes to.

use super::file::{CircuitTable, ConnectionTable, OneOrMany};
use super::read_circuits::MOST_POLES;
use super::resolve::{Refusal, Resolver, Target, refused_expecting};
use super::{End, Pole};
use crate::catalogue::TerminalFunction;
use crate::source::{Findings, Located, Place};

/// What a reference should look like.
const A_REFERENCE: &str = "a cable or element of the list, such as `W1`, `W1/3,4` or `PB1/13,14`";

/// The poles of each circuit of one table, or `None` with findings.
pub(super) fn resolve_poles(
    table: &Located<CircuitTable>,
    circuits: usize,
    resolver: &mut Resolver<'_>,
    findings: &mut Findings,
) -> Option<Vec<Vec<Pole>>> {
    let all = match &table.value.connections {
        Some(connections) => vec![core_by_core(
            table,
            connections,
            circuits,
            resolver,
            findings,
        )?],
        None => counted(table, circuits, resolver, findings)?,
    };
    let sound = check_shape(table, &all, resolver, findings);
    sound.then_some(all)
}

/// Tells why a reference was refused, unless that has been told already.
fn tell(place: &Place, field: &str, refusal: Refusal, findings: &mut Findings) {
    findings.extend(
        refusal.map(|refused| refused.finding(place, field, "list-reference", A_REFERENCE)),
    );
}

/// Poles that the list states line by line.
fn core_by_core(
    table: &Located<CircuitTable>,
    connections: &[ConnectionTable],
    circuits: usize,
    resolver: &mut Resolver<'_>,
    findings: &mut Findings,
) -> Option<Vec<Pole>> {
    let (value, place) = (&table.value, &table.place);
    let beside = [
        ("from", value.from.is_some()),
        ("to", value.to.is_some()),
        ("poles", value.poles.is_some()),
        ("marking", value.marking.is_some()),
        ("several tags", circuits != 1),
    ];
    if let Some((what, _)) = beside.into_iter().find(|(_, given)| *given) {
        let what = if circuits == 1 {
            format!("`{what}`")
        } else {
            what.to_string()
        };
        findings.push(
            place
                .error(
                    "connections",
                    "list-connections",
                    format!("`connections` stands together with {what}"),
                )
                .expected("one circuit with `connections` alone; each line has its own `from`, `to` and `marking`"),
        );
        return None;
    }
    if connections.is_empty() {
        findings.push(
            place
                .error("connections", "list-poles", "the circuit has no pole")
                .expected("at least one line, such as `{ from = \"W1/1\", to = \"W2/1\" }`"),
        );
        return None;
    }
    let mut poles = Vec::new();
    for (index, connection) in connections.iter().enumerate() {
        let mut ends = |text: &String, field: &str, findings: &mut Findings| {
            let path = format!("connections[{index}].{field}");
            let taken = resolver.targets(text).and_then(|targets| {
                let mut ends = Vec::new();
                for mut target in targets {
                    // Every core that the text names, or the next free one.
                    ends.push(resolver.take(&mut target, place.line())?);
                    while resolver.left_over(&target).is_some() {
                        ends.push(resolver.take(&mut target, place.line())?);
                    }
                }
                Ok(ends)
            });
            taken
                .map_err(|refusal| tell(place, &path, refusal, findings))
                .ok()
        };
        let mut from = match &connection.from {
            Some(text) => ends(text, "from", findings)?,
            None => Vec::new(),
        };
        let mut to = Vec::new();
        for text in connection.to.iter().flat_map(|to| &to.0) {
            to.extend(ends(text, "to", findings)?);
        }
        if from.len() > 1 {
            let path = format!("connections[{index}].from");
            let refusal = refused_expecting(
                format!("`from` names {} cores for one pole", from.len()),
                "one core or point",
            );
            tell(place, &path, refusal, findings);
            return None;
        }
        poles.push(Pole {
            marking: connection
                .marking
                .clone()
                .unwrap_or_else(|| (index + 1).to_string()),
            from: from.pop(),
            to,
        });
    }
    Some(poles)
}

/// The targets of `from` or `to`, each with the field that names it.
struct Field {
    targets: Vec<Target>,
    fields: Vec<String>,
}

fn read_field(
    place: &Place,
    name: &str,
    texts: &Option<OneOrMany<String>>,
    resolver: &Resolver<'_>,
    findings: &mut Findings,
) -> Option<Field> {
    let mut field = Field {
        targets: Vec::new(),
        fields: Vec::new(),
    };
    for (index, text) in texts.iter().flat_map(|texts| &texts.0).enumerate() {
        // A path that leads nowhere stands for the value above: the text that stands alone.
        let path = format!("{name}[{index}]");
        match resolver.targets(text) {
            Ok(found) => {
                field.fields.extend(found.iter().map(|_| path.clone()));
                field.targets.extend(found);
            }
            Err(refusal) => {
                tell(place, &path, refusal, findings);
                return None;
            }
        }
    }
    Some(field)
}

/// Poles that are counted: the cores of `from` and `to` are dealt out in their order.
fn counted(
    table: &Located<CircuitTable>,
    circuits: usize,
    resolver: &mut Resolver<'_>,
    findings: &mut Findings,
) -> Option<Vec<Vec<Pole>>> {
    let (value, place) = (&table.value, &table.place);
    let Some(pole_count) = value.poles else {
        findings.push(
            place
                .error(
                    "",
                    "list-poles",
                    "the circuit names neither `poles` nor `connections`",
                )
                .expected("`poles = 2` with `from` and `to`, or `connections` core by core"),
        );
        return None;
    };
    if !(1..=MOST_POLES).contains(&pole_count) {
        // Out of range: told with the other figures.
        return None;
    }
    let mut from = read_field(place, "from", &value.from, resolver, findings);
    let mut to = read_field(place, "to", &value.to, resolver, findings);
    let (from, to) = (from.as_mut()?, to.as_mut()?);
    for (field, count) in [("from", from.targets.len()), ("to", to.targets.len())] {
        let fits = count <= 1 || count == circuits || (field == "to" && circuits == 1);
        if !fits {
            let names = format!("`{field}` names {count} cables or elements");
            let (message, expected) = if circuits == 1 {
                (
                    format!("{names} for one circuit"),
                    "one; a circuit can branch on its `to` side only".to_string(),
                )
            } else {
                (
                    format!("{names} for {circuits} circuits"),
                    format!("one for all circuits, or {circuits}, one for each"),
                )
            };
            findings.push(
                place
                    .error(field, "list-distribution", message)
                    .expected(expected),
            );
            return None;
        }
    }
    let mut take = |field: &mut Field, position: usize, findings: &mut Findings| {
        let taken = resolver.take(&mut field.targets[position], place.line());
        taken
            .map_err(|refusal| tell(place, &field.fields[position], refusal, findings))
            .ok()
    };
    let branches = circuits == 1 && to.targets.len() > 1;
    let mut all = Vec::new();
    for index in 0..circuits {
        let mut poles = Vec::new();
        for pole in 0..pole_count as usize {
            let incoming = match from.targets.len() {
                0 => None,
                1 => Some(take(from, 0, findings)?),
                _ => Some(take(from, index, findings)?),
            };
            let positions = match to.targets.len() {
                0 => 0..0,
                count if branches => 0..count,
                1 => 0..1,
                _ => index..index + 1,
            };
            let mut outgoing = Vec::new();
            for position in positions {
                outgoing.push(take(to, position, findings)?);
            }
            poles.push(Pole {
                marking: marking(value, pole),
                from: incoming,
                to: outgoing,
            });
        }
        all.push(poles);
    }
    for field in [from, to] {
        for (target, path) in field.targets.iter().zip(&field.fields) {
            if let Some(reason) = resolver.left_over(target) {
                let refusal = refused_expecting(reason, "as many as there are poles");
                tell(place, path, refusal, findings);
                return None;
            }
        }
    }
    Some(all)
}

/// Marking of a pole: the list's own, repeated for each circuit, or the pole's number.
fn marking(value: &CircuitTable, pole: usize) -> String {
    let given = value
        .marking
        .as_ref()
        .and_then(|markings| markings.0.get(pole).cloned());
    given.unwrap_or_else(|| (pole + 1).to_string())
}

/// Whether the poles can be built at all: ends on each, no branch where terminals cannot branch,
/// one core and one contact where no terminal stands between.
fn check_shape(
    table: &Located<CircuitTable>,
    circuits: &[Vec<Pole>],
    resolver: &Resolver<'_>,
    findings: &mut Findings,
) -> bool {
    let (value, place) = (&table.value, &table.place);
    let poles = || {
        circuits.iter().flatten().enumerate().map(|(index, pole)| {
            let line = format!("connections[{index}]");
            let field = if place.has(&line) {
                line
            } else {
                String::new()
            };
            (field, pole)
        })
    };
    let given = value.marking.as_ref().map_or(0, |given| given.0.len());
    if let Some(count) = value.poles
        && given > count as usize
    {
        findings.push(
            place
                .error(
                    "marking",
                    "list-marking",
                    format!("{given} markings, but `poles` is {count}"),
                )
                .expected("one marking for each pole; they repeat with each circuit"),
        );
        return false;
    }
    if let Some((field, _)) = poles().find(|(_, pole)| pole.marking.trim().is_empty()) {
        let field = if field.is_empty() {
            "marking".to_string()
        } else {
            format!("{field}.marking")
        };
        findings.push(
            place
                .error(&field, "list-marking", "a marking is empty")
                .expected("a text that can stand on a terminal, or no `marking` at all"),
        );
        return false;
    }
    if let Some((field, _)) = poles().find(|(_, pole)| pole.from.is_none() && pole.to.is_empty()) {
        findings.push(
            place
                .error(&field, "list-poles", "a pole names neither `from` nor `to`")
                .expected("a core or contact on at least one side"),
        );
        return false;
    }
    if value.terminal == Some(TerminalFunction::DoubleLevel)
        && let Some((field, _)) = poles().find(|(_, pole)| pole.to.len() > 1)
    {
        findings.push(
            place
                .error(
                    if field.is_empty() { "to" } else { &field },
                    "list-terminal",
                    "a circuit that branches cannot be on double-level terminals",
                )
                .expected("one conductor out for each pole, or feed-through terminals"),
        );
        return false;
    }
    let core_and_contact = |pole: &Pole| {
        let ends: Vec<&End> = pole.from.iter().chain(&pole.to).collect();
        let cores = ends.iter().filter(|end| matches!(end, End::Core { .. }));
        ends.len() == 2 && cores.count() == 1
    };
    if value.direct
        && let Some((field, pole)) = poles().find(|(_, pole)| !core_and_contact(pole))
    {
        let ends = pole.from.iter().chain(&pole.to);
        let ends: Vec<String> = ends.map(|end| resolver.describe(end)).collect();
        findings.push(
            place
                .error(
                    if field.is_empty() { "direct" } else { &field },
                    "list-direct",
                    format!("a direct circuit cannot join {}", ends.join(" and ")),
                )
                .expected("at each pole one core and one point of an element"),
        );
        return false;
    }
    true
}
