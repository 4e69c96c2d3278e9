//! Reading `[[cable]]`.

use super::cores_text::read_cores;
use super::estimate::estimate_diameter_mm;
use super::file::{CableTable, OneOrMany};
use super::read::check_walls;
use super::tags::write_out;
use super::{BoxWishes, Cable};
use crate::catalogue::{CircuitKind, ConductorBuild};
use crate::source::{Document, Findings, Located, Place};
use crate::workshop::Workshop;
use std::collections::BTreeMap;

/// Items of one kind together with the names under which the list may refer to them.
#[derive(Debug, Default)]
pub struct Named<T> {
    /// The items.
    pub items: Vec<T>,
    /// Indices by tag; a tag with a quantity stands for all its items.
    pub by_tag: BTreeMap<String, Vec<usize>>,
    /// Tags of tables that were given but could not be read: references to them are no new error.
    pub broken: Vec<String>,
}

impl<T> Named<T> {
    /// Whether the list gave no item, not even a broken one.
    pub fn is_empty(&self) -> bool {
        self.items.is_empty() && self.broken.is_empty()
    }
}

/// Reads and checks all cables.
pub(super) fn read_cables(
    document: &Document,
    wishes: &BoxWishes,
    workshop: &Workshop,
    findings: &mut Findings,
) -> Named<Cable> {
    let mut named = Named {
        items: Vec::new(),
        by_tag: BTreeMap::new(),
        broken: Vec::new(),
    };
    for table in document.tables::<CableTable>("cable", findings) {
        let before = findings.len();
        let tags = tags_of(
            &table.value.tag,
            &table.value.tags,
            table.value.quantity,
            &table.place,
            findings,
        );
        let cable = read_cable(&table, wishes, workshop, findings);
        for (tag, group) in tags {
            if named.by_tag.contains_key(&tag) {
                findings.push(
                    table
                        .place
                        .error(
                            "tag",
                            "list-tag-twice",
                            format!("the tag `{tag}` is used twice"),
                        )
                        .expected("a tag of its own for each cable"),
                );
                continue;
            }
            let index = named.items.len();
            named.by_tag.insert(tag.clone(), vec![index]);
            if let Some(group) = group {
                named.by_tag.entry(group).or_default().push(index);
            }
            match &cable {
                Some(cable) if findings.len() == before => {
                    named.items.push(Cable {
                        tag,
                        ..cable.clone()
                    });
                }
                // A broken cable keeps its place, so that references to it are not errors too.
                _ => {
                    named.by_tag.remove(&tag);
                    named.broken.push(tag);
                }
            }
        }
    }
    named
        .broken
        .extend(broken_tags(document, "cable", &named.by_tag));
    named
}

/// Tags of tables that could not be read as a whole.
pub(super) fn broken_tags<T>(
    document: &Document,
    key: &str,
    known: &BTreeMap<String, T>,
) -> Vec<String> {
    let place = document.place();
    let mut tags = Vec::new();
    for index in 0.. {
        let path = format!("{key}[{index}]");
        if !place.has(&path) {
            break;
        }
        for field in ["tag", "tags"] {
            let path = format!("{path}.{field}");
            if place.has(&path) {
                let text = &place.file().text[place.field(&path)];
                let text = text.trim_matches(|letter| letter == '"' || letter == '\'');
                tags.extend(write_out(text).unwrap_or_default());
            }
        }
    }
    tags.retain(|tag| !known.contains_key(tag));
    tags
}

/// The tags of one table: each with the common tag it may also be named by.
pub(super) fn tags_of(
    tag: &Option<String>,
    tags: &Option<OneOrMany<String>>,
    quantity: Option<u32>,
    place: &Place,
    findings: &mut Findings,
) -> Vec<(String, Option<String>)> {
    let refuse = |field: &str, message: String, findings: &mut Findings| {
        findings.push(
            place
                .error(field, "list-tag", message)
                .expected("`tag = \"W1\"`, `tags = \"W1..W12\"` or `tag` with `quantity`"),
        );
        Vec::new()
    };
    match (tag, tags, quantity) {
        (Some(tag), None, None)
            if !tag.trim().is_empty() && !tag.contains('/') && !tag.contains("..") =>
        {
            vec![(tag.trim().to_string(), None)]
        }
        (Some(tag), None, Some(quantity @ 1..=10_000))
            if !tag.trim().is_empty() && !tag.contains('/') =>
        {
            (1..=quantity)
                .map(|number| (format!("{tag}-{number}"), Some(tag.clone())))
                .collect()
        }
        (None, Some(tags), None) => {
            let mut all = Vec::new();
            for text in &tags.0 {
                match write_out(text) {
                    Ok(tags) => all.extend(tags.into_iter().map(|tag| (tag, None))),
                    Err(reason) => return refuse("tags", reason, findings),
                }
            }
            all
        }
        (Some(tag), None, None) => refuse(
            "tag",
            format!("`{tag}` is not a tag: it must not be empty or hold `/` or `..`"),
            findings,
        ),
        (Some(_), None, Some(quantity)) => refuse(
            "quantity",
            format!("a quantity of {quantity}; it must be from 1 to 10000"),
            findings,
        ),
        (None, None, _) => refuse(
            "",
            "neither `tag` nor `tags` is given".to_string(),
            findings,
        ),
        _ => refuse(
            "tags",
            "`tags` cannot stand together with `tag` or `quantity`".to_string(),
            findings,
        ),
    }
}

fn read_cable(
    table: &Located<CableTable>,
    wishes: &BoxWishes,
    workshop: &Workshop,
    findings: &mut Findings,
) -> Option<Cable> {
    let (value, place) = (&table.value, &table.place);
    let cores = match read_cores(&value.cores) {
        Ok(cores) => cores,
        Err(reason) => {
            findings.push(
                place
                    .error("cores", "list-cores", reason)
                    .expected("such as `24 x 1.5 mm2`, `5 G 2.5 mm2` or `3 x AWG 14`"),
            );
            return None;
        }
    };
    let (estimate_mm, estimate_under_mm) =
        estimate_diameter_mm(&cores, value.screened, value.armoured);
    let estimated = value.diameter_mm.is_none();
    let diameter_mm = value.diameter_mm.unwrap_or(estimate_mm);
    let rules = &workshop.conductors;
    let usual_percent = if estimated {
        rules.estimated_tolerance_percent
    } else {
        rules.given_tolerance_percent
    };
    let share = value.tolerance_percent.unwrap_or(usual_percent) / 100.0;
    let tolerance_mm = value.tolerance_mm.unwrap_or(diameter_mm * share);
    let under_armour_mm = value.armoured.then(|| match value.under_armour_mm {
        Some(under_mm) => {
            let tolerance_mm = under_mm * rules.given_tolerance_percent / 100.0;
            [under_mm - tolerance_mm, under_mm + tolerance_mm]
        }
        // Only the outside is known: what lies under the armour is in proportion to the estimate.
        None => {
            let under_mm = diameter_mm * estimate_under_mm / estimate_mm;
            let tolerance_mm = under_mm * rules.estimated_tolerance_percent / 100.0;
            [under_mm - tolerance_mm, under_mm + tolerance_mm]
        }
    });
    let before = findings.len();
    check_lengths(value, diameter_mm, tolerance_mm, place, findings);
    let walls = read_walls(value, wishes, place, findings);
    (findings.len() == before).then(|| Cable {
        tag: String::new(),
        cores_text: value.cores.clone(),
        cores,
        build: value.conductor.unwrap_or(ConductorBuild::Stranded),
        diameter_mm,
        diameter_range_mm: [diameter_mm - tolerance_mm, diameter_mm + tolerance_mm],
        diameter_estimated: estimated || (value.armoured && value.under_armour_mm.is_none()),
        armoured: value.armoured,
        under_armour_mm,
        screened: value.screened,
        kind: if value.intrinsically_safe {
            CircuitKind::IntrinsicallySafe
        } else {
            CircuitKind::ExE
        },
        walls,
        gland_material: value.gland_material,
        gland: value.gland.clone(),
        thread_system: value.thread.unwrap_or(wishes.thread_system),
        place: place.clone(),
    })
}

fn check_lengths(
    value: &CableTable,
    diameter_mm: f64,
    tolerance_mm: f64,
    place: &Place,
    findings: &mut Findings,
) {
    let mut refuse = |field: &str, message: String, expected: &str| {
        findings.push(place.error(field, "list-range", message).expected(expected));
    };
    if !(1.0..=150.0).contains(&diameter_mm) {
        refuse(
            "diameter_mm",
            format!("a diameter of {diameter_mm:.1} mm"),
            "a diameter from 1 to 150 mm",
        );
    }
    if value.tolerance_mm.is_some() && value.tolerance_percent.is_some() {
        refuse(
            "tolerance_percent",
            "the tolerance is given twice".to_string(),
            "either `tolerance_mm` or `tolerance_percent`",
        );
    }
    if tolerance_mm < 0.0 || tolerance_mm >= diameter_mm {
        let field = if value.tolerance_mm.is_some() {
            "tolerance_mm"
        } else {
            "tolerance_percent"
        };
        refuse(
            field,
            format!("a tolerance of {tolerance_mm:.1} mm"),
            "from 0 to less than the diameter",
        );
    }
    match value.under_armour_mm {
        Some(_) if !value.armoured => refuse(
            "under_armour_mm",
            "a diameter under the armour, but the cable is not armoured".to_string(),
            "`armoured = true`, or no `under_armour_mm`",
        ),
        Some(under_mm) if under_mm <= 0.0 || under_mm >= diameter_mm => refuse(
            "under_armour_mm",
            format!("a diameter of {under_mm} mm under the armour"),
            "more than 0 and less than the outside diameter",
        ),
        _ => {}
    }
}

/// The walls of a cable: its own tie, else the box's walls, the preferred one first.
fn read_walls(
    value: &CableTable,
    wishes: &BoxWishes,
    place: &Place,
    findings: &mut Findings,
) -> Vec<crate::space::Face> {
    let mut walls = match &value.wall {
        Some(walls) => {
            check_walls(&walls.0, "wall", place, findings);
            for wall in walls
                .0
                .iter()
                .filter(|wall| !wishes.entry_walls.contains(wall))
            {
                findings.push(
                    place
                        .error(
                            "wall",
                            "list-wall-not-permitted",
                            format!("`{wall}` is not among the box's entry walls"),
                        )
                        .hint(
                            "add it to `entry_walls` of `[box]`, or let the cable enter elsewhere",
                        ),
                );
            }
            walls.0.clone()
        }
        None => wishes.entry_walls.clone(),
    };
    if let Some(preferred) = value.prefer_wall {
        match walls.iter().position(|wall| *wall == preferred) {
            Some(position) => walls[..=position].rotate_right(1),
            None => findings.push(
                place
                    .error(
                        "prefer_wall",
                        "list-wall-not-permitted",
                        format!("`{preferred}` is not a wall that the cable may enter by"),
                    )
                    .hint("add it to `entry_walls` of `[box]`"),
            ),
        }
    }
    walls
}
