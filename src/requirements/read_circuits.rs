//! Reading `[[circuit]]` and `[[link]]`: from tags to cores and contacts.

use super::ends::{EndText, read_end};
use super::file::{CircuitTable, LinkTable};
use super::read_cables::{Named, tags_of};
use super::{Cable, Circuit, CircuitGroup, CoreName, ElementRequirement, End, Pole};
use crate::catalogue::{CircuitKind, TerminalFunction};
use crate::source::{Document, Findings, Located, Place, nearest};
use std::collections::{BTreeMap, BTreeSet};

/// Most poles of one circuit.
const MOST_POLES: u32 = 400;

/// Resolves references to cores and contacts and keeps account of what is used.
pub(super) struct Resolver<'a> {
    cables: &'a Named<Cable>,
    elements: &'a Named<ElementRequirement>,
    used: BTreeSet<End>,
    /// Cores and points that the list names one by one: never handed out as free ones.
    reserved: BTreeSet<End>,
    /// How far each cable's cores (by index) and each element's points have been handed out.
    next_core: BTreeMap<usize, usize>,
    next_point: BTreeMap<usize, usize>,
}

/// A reference in `from` or `to`: one cable or element, with the ends it names or none.
struct Target {
    owner: Owner,
    named: Vec<End>,
    /// How many of the named ends have been handed out.
    taken: usize,
}

#[derive(Clone, Copy)]
enum Owner {
    Cable(usize),
    Element(usize),
}

/// Why a reference could not be resolved; `None` where the reason has been told already.
type Refusal = Option<String>;

impl<'a> Resolver<'a> {
    pub(super) fn new(cables: &'a Named<Cable>, elements: &'a Named<ElementRequirement>) -> Self {
        Self {
            cables,
            elements,
            used: BTreeSet::new(),
            reserved: BTreeSet::new(),
            next_core: BTreeMap::new(),
            next_point: BTreeMap::new(),
        }
    }

    /// The targets that one text of `from` or `to` names.
    fn targets(&self, text: &str) -> Result<Vec<Target>, Refusal> {
        let EndText { tags, points } = read_end(text).map_err(Some)?;
        let mut targets = Vec::new();
        for tag in tags {
            if let Some(indices) = self.cables.by_tag.get(&tag) {
                for index in indices {
                    let named = points
                        .iter()
                        .map(|point| self.core(*index, point))
                        .collect::<Result<_, _>>()?;
                    targets.push(Target {
                        owner: Owner::Cable(*index),
                        named,
                        taken: 0,
                    });
                }
            } else if let Some(indices) = self.elements.by_tag.get(&tag) {
                for index in indices {
                    let named = points
                        .iter()
                        .map(|point| self.point(*index, point))
                        .collect::<Result<_, _>>()?;
                    targets.push(Target {
                        owner: Owner::Element(*index),
                        named,
                        taken: 0,
                    });
                }
            } else if self.cables.broken.contains(&tag) || self.elements.broken.contains(&tag) {
                return Err(None);
            } else {
                let known = self
                    .cables
                    .by_tag
                    .keys()
                    .chain(self.elements.by_tag.keys())
                    .map(String::as_str);
                let hint = nearest(&tag, known)
                    .map_or(String::new(), |known| format!("; did you mean `{known}`?"));
                return Err(Some(format!("there is no cable or element `{tag}`{hint}")));
            }
        }
        Ok(targets)
    }

    fn core(&self, cable: usize, name: &str) -> Result<End, Refusal> {
        let requirement = &self.cables.items[cable];
        let core = match name.parse::<u32>() {
            Ok(number) => CoreName::Number(number),
            Err(_) => {
                return Err(Some(format!(
                    "`{}/{name}` is not a numbered core; protective conductors and screens go to earth by themselves",
                    requirement.tag
                )));
            }
        };
        let count = requirement
            .cores
            .iter()
            .filter(|core| core.name != CoreName::Earth)
            .count();
        if !requirement.cores.iter().any(|known| known.name == core) {
            return Err(Some(format!(
                "cable `{}` has cores 1 to {count}, not {name}",
                requirement.tag
            )));
        }
        Ok(End::Core { cable, core })
    }

    fn point(&self, element: usize, name: &str) -> Result<End, Refusal> {
        let requirement = &self.elements.items[element];
        let known = points_of(requirement);
        if known.iter().any(|point| point == name) {
            return Ok(End::Contact {
                element,
                point: name.to_string(),
            });
        }
        let list = if known.is_empty() {
            "no points".to_string()
        } else {
            format!("points {}", known.join(", "))
        };
        Err(Some(format!(
            "element `{}` has {list}, not `{name}`",
            requirement.tag
        )))
    }

    /// Hands out the next end of a target: the next one named, or the next free one.
    fn take(&mut self, target: &mut Target) -> Result<End, Refusal> {
        if !target.named.is_empty() {
            let Some(end) = target.named.get(target.taken).cloned() else {
                return Err(Some(format!(
                    "only {} are named, more poles need one",
                    target.named.len()
                )));
            };
            target.taken += 1;
            return self.claim(end);
        }
        let end = match target.owner {
            Owner::Cable(cable) => self.next_free_core(cable),
            Owner::Element(element) => self.next_free_point(element),
        };
        match end {
            Some(end) => self.claim(end),
            None => Err(Some(match target.owner {
                Owner::Cable(cable) => {
                    let cable = &self.cables.items[cable];
                    format!(
                        "cable `{}` ({}) has no free core left",
                        cable.tag, cable.cores_text
                    )
                }
                Owner::Element(element) => {
                    format!(
                        "element `{}` has no free point left",
                        self.elements.items[element].tag
                    )
                }
            })),
        }
    }

    fn next_free_core(&mut self, cable: usize) -> Option<End> {
        let cores = &self.cables.items[cable].cores;
        let next = self.next_core.entry(cable).or_insert(0);
        while let Some(core) = cores.get(*next) {
            *next += 1;
            let end = End::Core {
                cable,
                core: core.name,
            };
            if core.name != CoreName::Earth
                && !self.used.contains(&end)
                && !self.reserved.contains(&end)
            {
                return Some(end);
            }
        }
        None
    }

    fn next_free_point(&mut self, element: usize) -> Option<End> {
        let points = points_of(&self.elements.items[element]);
        let next = self.next_point.entry(element).or_insert(0);
        while let Some(point) = points.get(*next) {
            *next += 1;
            let end = End::Contact {
                element,
                point: point.clone(),
            };
            if !self.used.contains(&end) && !self.reserved.contains(&end) {
                return Some(end);
            }
        }
        None
    }

    fn claim(&mut self, end: End) -> Result<End, Refusal> {
        if self.used.insert(end.clone()) {
            Ok(end)
        } else {
            Err(Some(format!("{} is used twice", self.describe(&end))))
        }
    }

    fn describe(&self, end: &End) -> String {
        match end {
            End::Core { cable, core } => {
                format!("core {core} of cable `{}`", self.cables.items[*cable].tag)
            }
            End::Contact { element, point } => {
                format!(
                    "point {point} of element `{}`",
                    self.elements.items[*element].tag
                )
            }
        }
    }

    fn kind_of(&self, end: &End) -> Option<(CircuitKind, &str)> {
        match end {
            End::Core { cable, .. } => {
                let cable = &self.cables.items[*cable];
                Some((cable.kind, &cable.tag))
            }
            End::Contact { .. } => None,
        }
    }
}

/// All points of an element: those of its contacts, then its own.
fn points_of(element: &ElementRequirement) -> Vec<String> {
    element
        .contacts
        .iter()
        .flat_map(|contact| contact.points.iter().cloned())
        .chain(element.own_points.iter().cloned())
        .collect()
}

/// Reads and checks all circuits.
pub(super) fn read_circuits(
    document: &Document,
    resolver: &mut Resolver<'_>,
    findings: &mut Findings,
) -> Named<Circuit> {
    let tables = document.tables::<CircuitTable>("circuit", findings);
    reserve_named_ends(&tables, resolver);
    let mut named: Named<Circuit> = Named {
        items: Vec::new(),
        by_tag: BTreeMap::new(),
        broken: Vec::new(),
    };
    for table in &tables {
        let tags = tags_of(
            &table.value.tag,
            &table.value.tags,
            table.value.quantity,
            &table.place,
            findings,
        );
        let before = findings.len();
        check_figures(table, findings);
        let Some(poles) = resolve_poles(table, tags.len(), resolver, findings) else {
            named.broken.extend(tags.into_iter().map(|(tag, _)| tag));
            continue;
        };
        for ((tag, group), poles) in tags.into_iter().zip(poles) {
            if named.by_tag.contains_key(&tag) {
                findings.push(
                    table
                        .place
                        .error(
                            "tag",
                            "list-tag-twice",
                            format!("the circuit `{tag}` is named twice"),
                        )
                        .expected("a tag of its own for each circuit"),
                );
                continue;
            }
            let Some(kind) = kind_of_circuit(table, &tag, &poles, resolver, findings) else {
                continue;
            };
            named.by_tag.insert(tag.clone(), vec![named.items.len()]);
            if let Some(group) = group {
                named
                    .by_tag
                    .entry(group)
                    .or_default()
                    .push(named.items.len());
            }
            named.items.push(circuit(table, tag, kind, poles));
        }
        if findings.len() > before {
            named.broken.extend(named.by_tag.keys().cloned());
        }
    }
    named
}

/// Ends that any circuit names one by one are kept for it, wherever it stands in the list.
fn reserve_named_ends(tables: &[Located<CircuitTable>], resolver: &mut Resolver<'_>) {
    let mut reserved = BTreeSet::new();
    for table in tables {
        let value = &table.value;
        let connected = value.connections.iter().flatten().flat_map(|connection| {
            connection
                .from
                .iter()
                .chain(connection.to.iter().flat_map(|to| &to.0))
        });
        let texts = value
            .from
            .iter()
            .chain(&value.to)
            .flat_map(|texts| &texts.0)
            .chain(connected);
        for target in texts
            .filter_map(|text| resolver.targets(text).ok())
            .flatten()
        {
            reserved.extend(target.named);
        }
    }
    resolver.reserved = reserved;
}

fn check_figures(table: &Located<CircuitTable>, findings: &mut Findings) {
    let value = &table.value;
    let mut check = |field: &str, value: f64, least: f64, most: f64, unit: &str| {
        if !(least..=most).contains(&value) {
            findings.push(
                table
                    .place
                    .error(field, "list-range", format!("`{field}` is {value}"))
                    .expected(format!("from {least} to {most} {unit}")),
            );
        }
    };
    check("voltage_v", value.voltage_v, 0.1, 11_000.0, "V");
    check("current_a", value.current_a, 0.0, 2_000.0, "A");
    if let Some(current_a) = value.branch_current_a {
        check("branch_current_a", current_a, 0.0, value.current_a, "A");
    }
    if let Some(share) = value.simultaneity {
        check("simultaneity", share, 0.0, 1.0, "");
    }
    if let Some(poles) = value.poles {
        check(
            "poles",
            f64::from(poles),
            1.0,
            f64::from(MOST_POLES),
            "poles",
        );
    }
}

/// The poles of each circuit of one table.
fn resolve_poles(
    table: &Located<CircuitTable>,
    circuits: usize,
    resolver: &mut Resolver<'_>,
    findings: &mut Findings,
) -> Option<Vec<Vec<Pole>>> {
    let (value, place) = (&table.value, &table.place);
    let refuse =
        |field: &str, refusal: Refusal, findings: &mut Findings| {
            if let Some(reason) = refusal {
                let mut parts = reason.splitn(2, "; did you mean ");
                let mut finding = place.error(
                    field,
                    "list-reference",
                    parts.next().unwrap_or_default().to_string(),
                );
                if let Some(hint) = parts.next() {
                    finding = finding.hint(format!("did you mean {hint}"));
                }
                findings.push(finding.expected(
                    "a cable or element of the list, such as `W1`, `W1/3,4` or `PB1/13,14`",
                ));
            }
        };
    if let Some(connections) = &value.connections {
        if value.from.is_some() || value.to.is_some() || value.poles.is_some() || circuits != 1 {
            findings.push(
                place
                    .error(
                        "connections",
                        "list-connections",
                        "`connections` stands together with `from`, `to`, `poles` or several tags",
                    )
                    .expected("one circuit, core by core, with `connections` alone"),
            );
            return None;
        }
        let mut poles = Vec::new();
        for (index, connection) in connections.iter().enumerate() {
            let mut ends =
                |text: &String, field: &str, findings: &mut Findings| -> Option<Vec<End>> {
                    let path = format!("connections[{index}].{field}");
                    let taken = resolver.targets(text).and_then(|targets| {
                        targets
                            .into_iter()
                            .map(|mut target| resolver.take(&mut target))
                            .collect::<Result<Vec<_>, _>>()
                    });
                    taken
                        .map_err(|refusal| refuse(&path, refusal, findings))
                        .ok()
                };
            let from = match &connection.from {
                Some(text) => Some(ends(text, "from", findings)?),
                None => None,
            };
            let mut to = Vec::new();
            for text in connection.to.iter().flat_map(|to| &to.0) {
                to.extend(ends(text, "to", findings)?);
            }
            if from.as_ref().is_some_and(|from| from.len() > 1) {
                refuse(
                    &format!("connections[{index}].from"),
                    Some("`from` names more than one core".to_string()),
                    findings,
                );
                return None;
            }
            poles.push(Pole {
                marking: connection
                    .marking
                    .clone()
                    .unwrap_or_else(|| (index + 1).to_string()),
                from: from.and_then(|mut from| from.pop()),
                to,
            });
        }
        return Some(vec![poles]);
    }
    let Some(pole_count) = value.poles.filter(|poles| (1..=MOST_POLES).contains(poles)) else {
        if value.poles.is_none() {
            findings.push(
                place
                    .error(
                        "",
                        "list-poles",
                        "the circuit names neither `poles` nor `connections`",
                    )
                    .expected("`poles = 2` with `from` and `to`, or `connections` core by core"),
            );
        }
        return None;
    };
    let side = |field: &str,
                texts: &Option<super::file::OneOrMany<String>>,
                resolver: &Resolver<'_>,
                findings: &mut Findings| {
        let mut targets = Vec::new();
        for text in texts.iter().flat_map(|texts| &texts.0) {
            match resolver.targets(text) {
                Ok(found) => targets.extend(found),
                Err(refusal) => {
                    refuse(field, refusal, findings);
                    return None;
                }
            }
        }
        Some(targets)
    };
    let (from, to) = (
        side("from", &value.from, resolver, findings),
        side("to", &value.to, resolver, findings),
    );
    let (mut from, mut to) = (from?, to?);
    for (field, count) in [("from", from.len()), ("to", to.len())] {
        let fits = count <= 1 || count == circuits || (field == "to" && circuits == 1);
        if !fits {
            findings.push(
                place
                    .error(
                        field,
                        "list-distribution",
                        format!(
                            "`{field}` names {count} cables or elements for {circuits} circuits"
                        ),
                    )
                    .expected(format!("one for all circuits, or {circuits}, one for each")),
            );
            return None;
        }
    }
    let mut all = Vec::new();
    for index in 0..circuits {
        let mut poles = Vec::new();
        for pole in 0..pole_count as usize {
            let mut incoming = None;
            let position = if from.len() > 1 { index } else { 0 };
            if let Some(target) = from.get_mut(position) {
                match resolver.take(target) {
                    Ok(end) => incoming = Some(end),
                    Err(refusal) => {
                        refuse("from", refusal, findings);
                        return None;
                    }
                }
            }
            let branches = circuits == 1 && to.len() > 1;
            let range = match to.len() {
                0 => 0..0,
                _ if branches => 0..to.len(),
                1 => 0..1,
                _ => index..index + 1,
            };
            let mut outgoing = Vec::new();
            for target in &mut to[range] {
                match resolver.take(target) {
                    Ok(end) => outgoing.push(end),
                    Err(refusal) => {
                        refuse("to", refusal, findings);
                        return None;
                    }
                }
            }
            poles.push(Pole {
                marking: marking(value, index, pole),
                from: incoming,
                to: outgoing,
            });
        }
        all.push(poles);
    }
    for (field, targets) in [("from", &from), ("to", &to)] {
        if let Some(target) = targets
            .iter()
            .find(|target| target.taken < target.named.len())
        {
            let reason = format!(
                "{} are named, only {} are needed",
                target.named.len(),
                target.taken
            );
            refuse(field, Some(reason), findings);
            return None;
        }
    }
    Some(all)
}

/// Marking of a pole: the list's own, repeated for each circuit, or the pole's number.
fn marking(value: &CircuitTable, _circuit: usize, pole: usize) -> String {
    let given = value
        .marking
        .as_ref()
        .and_then(|markings| markings.0.get(pole).cloned());
    given.unwrap_or_else(|| (pole + 1).to_string())
}

/// The kind of a circuit: intrinsically safe if its cables are. All must agree.
fn kind_of_circuit(
    table: &Located<CircuitTable>,
    tag: &str,
    poles: &[Pole],
    resolver: &Resolver<'_>,
    findings: &mut Findings,
) -> Option<CircuitKind> {
    let place = &table.place;
    let ends = poles
        .iter()
        .flat_map(|pole| pole.from.iter().chain(&pole.to));
    let mut kinds = BTreeMap::new();
    for (kind, cable) in ends.filter_map(|end| resolver.kind_of(end)) {
        kinds.entry(kind).or_insert(cable);
    }
    if let (Some(ex_e), Some(safe)) = (
        kinds.get(&CircuitKind::ExE),
        kinds.get(&CircuitKind::IntrinsicallySafe),
    ) {
        findings.push(
            place
                .error("from", "list-mixed-kinds", format!("circuit `{tag}` joins cable `{safe}`, which is intrinsically safe, with `{ex_e}`, which is not"))
                .expected("cables of one kind"),
        );
        return None;
    }
    let by_group = table
        .value
        .group
        .map(|group| group == CircuitGroup::IntrinsicallySafe);
    let by_cables = kinds
        .keys()
        .next()
        .map(|kind| *kind == CircuitKind::IntrinsicallySafe);
    match (by_group, by_cables) {
        (Some(group), Some(cables)) if group != cables => {
            let (word, field) = if cables {
                ("are", "group")
            } else {
                ("are not", "group")
            };
            findings.push(
                place
                    .error(field, "list-mixed-kinds", format!("the cables of circuit `{tag}` {word} intrinsically safe, its group says otherwise"))
                    .hint("set `intrinsically_safe = true` on the cables and `group = \"intrinsically_safe\"` on the circuit, or neither"),
            );
            None
        }
        (group, cables) => Some(match group.or(cables) {
            Some(true) => CircuitKind::IntrinsicallySafe,
            _ => CircuitKind::ExE,
        }),
    }
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
        terminal: value.terminal.unwrap_or(TerminalFunction::FeedThrough),
        terminal_part: value.terminal_part.clone(),
        direct: value.direct,
        poles,
        place: table.place.clone(),
    }
}

/// Reads and checks all links.
pub(super) fn read_links(
    document: &Document,
    circuits: &Named<Circuit>,
    findings: &mut Findings,
) -> Vec<Vec<(usize, usize)>> {
    let mut links = Vec::new();
    let mut seen: BTreeSet<(usize, usize)> = BTreeSet::new();
    for table in document.tables::<LinkTable>("link", findings) {
        let mut link = Vec::new();
        for (index, text) in table.value.poles.iter().enumerate() {
            match read_link_pole(text, circuits) {
                Ok(poles) => {
                    for pole in poles {
                        if !seen.insert(pole) {
                            let message = format!("`{text}` is linked twice");
                            findings.push(table.place.error(
                                &format!("poles[{index}]"),
                                "list-link",
                                message,
                            ));
                        }
                        link.push(pole);
                    }
                }
                Err(None) => {}
                Err(Some(reason)) => findings.push(
                    table
                        .place
                        .error(&format!("poles[{index}]"), "list-link", reason)
                        .expected("a pole of a circuit, such as `S1/2` or `S1..S4/2`"),
                ),
            }
        }
        check_link(&link, circuits, &table.place, findings);
        links.push(link);
    }
    links
}

fn read_link_pole(text: &str, circuits: &Named<Circuit>) -> Result<Vec<(usize, usize)>, Refusal> {
    let EndText { tags, points } = read_end(text).map_err(Some)?;
    let [number] = points.as_slice() else {
        return Err(Some(format!("`{text}` does not name one pole")));
    };
    let number: usize = number
        .parse()
        .map_err(|_| Some(format!("`{number}` is not the number of a pole")))?;
    let mut poles = Vec::new();
    for tag in tags {
        let Some(indices) = circuits.by_tag.get(&tag) else {
            if circuits.broken.contains(&tag) {
                return Err(None);
            }
            let hint = nearest(&tag, circuits.by_tag.keys().map(String::as_str))
                .map_or(String::new(), |known| format!("; did you mean `{known}`?"));
            return Err(Some(format!("there is no circuit `{tag}`{hint}")));
        };
        for index in indices {
            let count = circuits.items[*index].poles.len();
            if !(1..=count).contains(&number) {
                return Err(Some(format!(
                    "circuit `{tag}` has poles 1 to {count}, not {number}"
                )));
            }
            poles.push((*index, number - 1));
        }
    }
    Ok(poles)
}

fn check_link(
    link: &[(usize, usize)],
    circuits: &Named<Circuit>,
    place: &Place,
    findings: &mut Findings,
) {
    let members: Vec<&Circuit> = link
        .iter()
        .map(|(circuit, _)| &circuits.items[*circuit])
        .collect();
    let Some(first) = members.first() else { return };
    let mut refuse = |message: String| {
        findings.push(
            place
                .error("poles", "list-link", message)
                .expected("poles that jumpers can join"),
        );
    };
    if members.len() < 2 {
        refuse("a link joins at least two poles".to_string());
    }
    for other in &members {
        if other.group != first.group {
            refuse(format!(
                "`{}` and `{}` are of different groups, on different strips",
                first.tag, other.tag
            ));
        } else if other.voltage_v != first.voltage_v {
            refuse(format!(
                "`{}` and `{}` have different voltages",
                first.tag, other.tag
            ));
        } else if other.direct || other.terminal != TerminalFunction::FeedThrough {
            refuse(format!("`{}` is not on feed-through terminals", other.tag));
        }
    }
}
