//! Reading `[[link]]`: poles that jumpers join.

use super::Circuit;
use super::ends::{EndText, read_end};
use super::file::LinkTable;
use super::named::Named;
use super::resolve::{Refusal, refused, refused_with};
use crate::catalogue::TerminalFunction;
use crate::source::{Document, Findings, Place, nearest};
use std::collections::BTreeSet;

const CODE: &str = "list-link";

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
        let mut complete = true;
        for (index, text) in table.value.poles.iter().enumerate() {
            let field = format!("poles[{index}]");
            match read_pole(text, circuits) {
                Ok(poles) => {
                    if poles.iter().any(|pole| seen.contains(pole)) {
                        let message = format!("`{text}` is linked twice");
                        findings.push(
                            table
                                .place
                                .error(&field, CODE, message)
                                .expected("each pole in one link, once"),
                        );
                        complete = false;
                    }
                    seen.extend(&poles);
                    link.extend(poles);
                }
                Err(refusal) => {
                    complete = false;
                    findings.extend(refusal.map(|refused| {
                        let usual = "a pole of a circuit, such as `S1/2` or `S1..S4/2`";
                        refused.finding(&table.place, &field, CODE, usual)
                    }));
                }
            }
        }
        check_link(&link, complete, circuits, &table.place, findings);
        links.push(link);
    }
    links
}

fn read_pole(text: &str, circuits: &Named<Circuit>) -> Result<Vec<(usize, usize)>, Refusal> {
    let EndText { tags, points } = read_end(text).map_err(refused)?;
    let [number] = points.as_slice() else {
        return Err(refused(format!("`{text}` does not name one pole")));
    };
    let number: usize = number
        .parse()
        .map_err(|_| refused(format!("`{number}` is not the number of a pole")))?;
    let mut poles = Vec::new();
    for tag in tags {
        let Some(indices) = circuits.by_tag.get(&tag) else {
            if circuits.broken.contains(&tag) {
                return Err(None);
            }
            let hint = nearest(&tag, circuits.by_tag.keys().map(String::as_str))
                .map(|known| format!("did you mean `{known}`?"));
            return Err(refused_with(format!("there is no circuit `{tag}`"), hint));
        };
        for index in indices {
            let count = circuits.items[*index].poles.len();
            if !(1..=count).contains(&number) {
                let has = if count == 1 {
                    "pole 1 alone".to_string()
                } else {
                    format!("poles 1 to {count}")
                };
                return Err(refused(format!("circuit `{tag}` has {has}, not {number}")));
            }
            poles.push((*index, number - 1));
        }
    }
    Ok(poles)
}

/// Whether the poles of a link can stand side by side under one jumper. The first that cannot is told.
fn check_link(
    link: &[(usize, usize)],
    complete: bool,
    circuits: &Named<Circuit>,
    place: &Place,
    findings: &mut Findings,
) {
    let mut refuse = |message: String| {
        findings.push(
            place
                .error("poles", CODE, message)
                .expected("poles that one jumper can join"),
        );
    };
    if link.len() < 2 && complete {
        refuse("a link joins at least two poles".to_string());
    }
    let members = || link.iter().map(|(circuit, _)| &circuits.items[*circuit]);
    let Some(first) = members().next() else {
        return;
    };
    if let Some(other) = members().find(|other| other.group != first.group) {
        return refuse(format!(
            "`{}` is in group {} and `{}` in group {}, on different strips",
            first.tag,
            first.group.name(),
            other.tag,
            other.group.name()
        ));
    }
    if let Some(other) = members().find(|other| other.voltage_v != first.voltage_v) {
        return refuse(format!(
            "`{}` has {} V and `{}` {} V",
            first.tag, first.voltage_v, other.tag, other.voltage_v
        ));
    }
    let on_feed_through =
        |circuit: &&Circuit| !circuit.direct && circuit.terminal == TerminalFunction::FeedThrough;
    if let Some(other) = members().find(|other| !on_feed_through(other)) {
        return refuse(format!("`{}` is not on feed-through terminals", other.tag));
    }
    let named = || members().filter_map(|circuit| Some((circuit, circuit.terminal_part.as_ref()?)));
    if let Some((first, part)) = named().next()
        && let Some((other, other_part)) = named().find(|(_, other)| *other != part)
    {
        refuse(format!(
            "`{}` names terminal `{part}` and `{}` names `{other_part}`, one jumper joins terminals of one part",
            first.tag, other.tag
        ));
    }
}
