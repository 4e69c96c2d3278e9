//! Reading `[[circuit]]`: its figures, its kind, its tags.

use super::file::CircuitTable;
use super::named::{Named, broken_tags, tags_of};
use super::poles::resolve_poles;
use super::read::as_written;
use super::resolve::Resolver;
use super::{Circuit, CircuitGroup, Pole};
use crate::catalogue::{CircuitKind, TerminalFunction};
use crate::source::{Document, Findings, Located};
use std::collections::BTreeMap;

/// Most poles of one circuit.
pub(super) const MOST_POLES: u32 = 400;

/// Reads and checks all circuits.
pub(super) fn read_circuits(
    document: &Document,
    resolver: &mut Resolver<'_>,
    findings: &mut Findings,
) -> Named<Circuit> {
    let tables = document.tables::<CircuitTable>("circuit", findings);
    // Ends that any circuit names one by one are kept for it, wherever it stands in the list.
    resolver.reserve(tables.iter().flat_map(|table| texts_of(&table.value)));
    let mut named: Named<Circuit> = Named::default();
    for table in &tables {
        let tags = tags_of(
            &table.value.tag,
            &table.value.tags,
            table.value.quantity,
            &table.place,
            findings,
        );
        let tags = named.new_tags(tags, "circuit", &table.place, findings);
        check_figures(table, findings);
        check_terminal(table, findings);
        if tags.is_empty() {
            continue;
        }
        let poles = resolve_poles(table, tags.len(), resolver, findings)
            .filter(|poles| has_one_kind(table, &tags, poles, resolver, findings));
        let Some(poles) = poles else {
            named.add_broken(tags);
            continue;
        };
        for ((tag, group), poles) in tags.into_iter().zip(poles) {
            let kind = kind_of(table, &poles, resolver);
            let circuit = circuit(table, tag.clone(), kind, poles);
            named.add(tag, group, circuit);
        }
    }
    let broken = broken_tags(document, "circuit", &named.by_tag);
    named.broken.extend(broken);
    named
}

/// All references of one table.
fn texts_of(value: &CircuitTable) -> impl Iterator<Item = &String> {
    let connected = value.connections.iter().flatten().flat_map(|connection| {
        connection
            .from
            .iter()
            .chain(connection.to.iter().flat_map(|to| &to.0))
    });
    value
        .from
        .iter()
        .chain(&value.to)
        .flat_map(|texts| &texts.0)
        .chain(connected)
}

fn check_figures(table: &Located<CircuitTable>, findings: &mut Findings) {
    let value = &table.value;
    let mut check = |field: &str, value: f64, least: f64, most: f64, unit: &str| {
        if !(least..=most).contains(&value) {
            findings.push(
                table
                    .place
                    .error(
                        field,
                        "list-range",
                        format!("`{field}` is {}", as_written(&table.place, field)),
                    )
                    .expected(format!("from {least} to {most}{unit}")),
            );
        }
    };
    check("voltage_v", value.voltage_v, 0.1, 11_000.0, " V");
    check("current_a", value.current_a, 0.0, 2_000.0, " A");
    if let Some(current_a) = value.branch_current_a {
        let most_a = value.current_a.max(0.0);
        let unit = " A, the current of the circuit";
        check("branch_current_a", current_a, 0.0, most_a, unit);
    }
    if let Some(share) = value.simultaneity {
        check("simultaneity", share, 0.0, 1.0, "");
    }
    if let Some(poles) = value.poles {
        let most = f64::from(MOST_POLES);
        check("poles", f64::from(poles), 1.0, most, "");
    }
}

/// Wishes for the terminals that contradict each other.
fn check_terminal(table: &Located<CircuitTable>, findings: &mut Findings) {
    let (value, place) = (&table.value, &table.place);
    if value.terminal == Some(TerminalFunction::Earth) {
        findings.push(
            place
                .error(
                    "terminal",
                    "list-terminal",
                    "a circuit cannot be on earth terminals",
                )
                .expected("`feed_through`, `disconnect` or `double_level`")
                .hint("protective conductors and screens get their earth terminals by themselves"),
        );
    }
    if value.direct && (value.terminal.is_some() || value.terminal_part.is_some()) {
        findings.push(
            place
                .error(
                    "direct",
                    "list-direct",
                    "a direct circuit has no terminals, yet the list names some",
                )
                .expected("either `direct = true`, or `terminal` and `terminal_part`"),
        );
    }
}

/// Whether all cables of the circuits of one table are of one kind and the group agrees. The first
/// circuit that is wrong is told.
fn has_one_kind(
    table: &Located<CircuitTable>,
    tags: &[(String, Option<String>)],
    circuits: &[Vec<Pole>],
    resolver: &Resolver<'_>,
    findings: &mut Findings,
) -> bool {
    let place = &table.place;
    for ((tag, _), poles) in tags.iter().zip(circuits) {
        let kinds = kinds_of_cables(poles, resolver);
        if let (Some(ex_e), Some(safe)) = (
            kinds.get(&CircuitKind::ExE),
            kinds.get(&CircuitKind::IntrinsicallySafe),
        ) {
            findings.push(
                place
                    .error("from", "list-mixed-kinds", format!("circuit `{tag}` joins cable `{safe}`, which is intrinsically safe, with `{ex_e}`, which is not"))
                    .expected("cables of one kind"),
            );
            return false;
        }
        let safe_cables = kinds
            .keys()
            .next()
            .map(|kind| *kind == CircuitKind::IntrinsicallySafe);
        let safe_group = table
            .value
            .group
            .map(|group| group == CircuitGroup::IntrinsicallySafe);
        if let (Some(group), Some(cables)) = (safe_group, safe_cables)
            && group != cables
        {
            let be = if cables { "are" } else { "are not" };
            findings.push(
                place
                    .error("group", "list-mixed-kinds", format!("the cables of circuit `{tag}` {be} intrinsically safe, its group says otherwise"))
                    .hint("set `intrinsically_safe = true` on the cables and `group = \"intrinsically_safe\"` on the circuit, or neither"),
            );
            return false;
        }
    }
    true
}

fn kinds_of_cables<'r>(
    poles: &[Pole],
    resolver: &'r Resolver<'_>,
) -> BTreeMap<CircuitKind, &'r str> {
    let ends = poles
        .iter()
        .flat_map(|pole| pole.from.iter().chain(&pole.to));
    let mut kinds = BTreeMap::new();
    for (kind, cable) in ends.filter_map(|end| resolver.kind_of(end)) {
        kinds.entry(kind).or_insert(cable);
    }
    kinds
}

/// The kind of a circuit: intrinsically safe if its cables are, or its group where it has no cable.
fn kind_of(table: &Located<CircuitTable>, poles: &[Pole], resolver: &Resolver<'_>) -> CircuitKind {
    let by_group = table.value.group.map(|group| match group {
        CircuitGroup::IntrinsicallySafe => CircuitKind::IntrinsicallySafe,
        _ => CircuitKind::ExE,
    });
    let by_cables = || kinds_of_cables(poles, resolver).keys().next().copied();
    by_group.or_else(by_cables).unwrap_or(CircuitKind::ExE)
}

fn circuit(
    table: &Located<CircuitTable>,
    tag: String,
    kind: CircuitKind,
    poles: Vec<Pole>,
) -> Circuit {
    let value = &table.value;
    let usual_group = match kind {
        CircuitKind::IntrinsicallySafe => CircuitGroup::IntrinsicallySafe,
        CircuitKind::ExE => CircuitGroup::Control,
    };
    Circuit {
        tag,
        group: value.group.unwrap_or(usual_group),
        kind,
        voltage_v: value.voltage_v,
        current_a: value.current_a,
        branch_current_a: value.branch_current_a.unwrap_or(value.current_a),
        simultaneity: value.simultaneity.unwrap_or(1.0),
        load: value.load,
        terminal: value.terminal.unwrap_or(TerminalFunction::FeedThrough),
        terminal_part: value.terminal_part.clone(),
        direct: value.direct,
        poles,
        place: table.place.clone(),
    }
}
