//! Items by their tags: ranges and quantities written out, no tag twice, and an account of the tags
//! whose tables are wrong, so that references to them are no further errors.

use super::file::OneOrMany;
use super::tags::{LONGEST_RANGE, write_out};
use crate::source::{Document, Findings, Place};
use std::collections::{BTreeMap, BTreeSet};

/// Items of one kind together with the names under which the list may refer to them.
#[derive(Debug)]
pub(super) struct Named<T> {
    /// The items.
    pub items: Vec<T>,
    /// Indices by tag; a tag with a quantity stands for all its items.
    pub by_tag: BTreeMap<String, Vec<usize>>,
    /// Tags of tables that were given but could not be read.
    pub broken: BTreeSet<String>,
    /// The line of the table that gives a tag.
    lines: BTreeMap<String, usize>,
}

impl<T> Default for Named<T> {
    fn default() -> Self {
        Self {
            items: Vec::new(),
            by_tag: BTreeMap::new(),
            broken: BTreeSet::new(),
            lines: BTreeMap::new(),
        }
    }
}

/// A tag, and the common tag of the quantity that it belongs to.
pub(super) type Tag = (String, Option<String>);

impl<T> Named<T> {
    /// Whether the list gave no item, not even a broken one.
    pub fn is_empty(&self) -> bool {
        self.items.is_empty() && self.broken.is_empty()
    }

    /// Those of the tags of one table that are new. One finding tells of all the others.
    pub fn new_tags(
        &mut self,
        tags: Vec<Tag>,
        what: &str,
        place: &Place,
        findings: &mut Findings,
    ) -> Vec<Tag> {
        let taken = |tag: &str| self.by_tag.contains_key(tag) || self.broken.contains(tag);
        let mut seen = BTreeSet::new();
        let mut twice = Vec::new();
        let mut new = Vec::new();
        for (tag, group) in tags {
            let group_taken = group.as_deref().is_some_and(taken);
            if taken(&tag) || group_taken || !seen.insert(tag.clone()) {
                twice.push(group.filter(|_| group_taken).unwrap_or(tag));
            } else {
                new.push((tag, group));
            }
        }
        twice.dedup();
        if let Some(first) = twice.first() {
            let message = match twice.len() {
                1 => format!("the tag `{first}` is used twice"),
                count => format!("the tag `{first}` and {} more are used twice", count - 1),
            };
            let field = if place.has("tags") { "tags" } else { "tag" };
            let finding = place
                .error(field, "list-tag-twice", message)
                .expected(format!("a tag of its own for each {what}"));
            findings.push(match self.line_of(first) {
                Some(line) => finding.hint(format!("`{first}` stands on line {line} already")),
                None => finding,
            });
        }
        for (tag, group) in &new {
            for tag in group.iter().chain([tag]) {
                self.note(tag, place);
            }
        }
        new
    }

    /// Notes where a tag is given first.
    pub fn note(&mut self, tag: &str, place: &Place) {
        let field = if place.has("tags") { "tags" } else { "tag" };
        let line = || place.line_of(field);
        self.lines.entry(tag.to_string()).or_insert_with(line);
    }

    /// The line of the table that gave a tag first.
    pub fn line_of(&self, tag: &str) -> Option<usize> {
        self.lines.get(tag).copied()
    }

    /// Adds an item under its tag and the common tag of its quantity.
    pub fn add(&mut self, tag: String, group: Option<String>, item: T) {
        let index = self.items.len();
        self.by_tag.insert(tag, vec![index]);
        if let Some(group) = group {
            self.by_tag.entry(group).or_default().push(index);
        }
        self.items.push(item);
    }

    /// Notes tags whose table is wrong.
    pub fn add_broken(&mut self, tags: Vec<Tag>) {
        for (tag, group) in tags {
            self.broken.insert(tag);
            self.broken.extend(group);
        }
    }
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
        let table = place.inside(&path);
        let listed = (0..)
            .map(|index| format!("tags[{index}]"))
            .take_while(|field| table.has(field));
        let alone = ["tag", "tags"].into_iter().map(str::to_string);
        for field in listed.chain(alone).filter(|field| table.has(field)) {
            let text = &table.file().text[table.field(&field)];
            let text = text.trim_matches(['"', '\'']);
            tags.extend(write_out(text).unwrap_or_default());
        }
    }
    tags.retain(|tag| !known.contains_key(tag));
    tags
}

/// Whether a text can be a tag: something to read, and nothing that references take apart.
pub(super) fn is_tag(text: &str) -> bool {
    !text.trim().is_empty()
        && !text.contains(['/', ','])
        && !text.contains("..")
        && !text.contains(char::is_control)
}

/// Why a text is no tag.
pub(super) fn not_a_tag(text: &str) -> String {
    if text.trim().is_empty() {
        "the tag is empty".to_string()
    } else {
        format!("`{text}` is not a tag: it holds `/`, `,`, `..` or a control character")
    }
}

/// The tags of one table: each with the common tag it may also be named by.
pub(super) fn tags_of(
    tag: &Option<String>,
    tags: &Option<OneOrMany<String>>,
    quantity: Option<u32>,
    place: &Place,
    findings: &mut Findings,
) -> Vec<Tag> {
    let mut refuse = |field: &str, message: String| {
        findings.push(
            place
                .error(field, "list-tag", message)
                .expected("`tag = \"W1\"`, `tags = \"W1..W12\"` or `tag` with `quantity`"),
        );
        Vec::new()
    };
    match (tag, tags, quantity) {
        (Some(tag), None, _) if !is_tag(tag) => refuse("tag", not_a_tag(tag)),
        (Some(tag), None, None) => vec![(tag.trim().to_string(), None)],
        (Some(tag), None, Some(quantity @ 1..=10_000)) => {
            let tag = tag.trim();
            (1..=quantity)
                .map(|number| (format!("{tag}-{number}"), Some(tag.to_string())))
                .collect()
        }
        (Some(_), None, Some(quantity)) => refuse(
            "quantity",
            format!("a quantity of {quantity}; it must be from 1 to 10000"),
        ),
        (None, Some(texts), None) => {
            let mut all = Vec::new();
            for (index, text) in texts.0.iter().enumerate() {
                let field = format!("tags[{index}]");
                match write_out(text) {
                    Ok(tags) => match tags.iter().find(|tag| !is_tag(tag)) {
                        Some(tag) => return refuse(&field, not_a_tag(tag)),
                        None => all.extend(tags.into_iter().map(|tag| (tag, None))),
                    },
                    Err(reason) => return refuse(&field, reason),
                }
                if all.len() > LONGEST_RANGE {
                    return refuse(&field, format!("more than {LONGEST_RANGE} tags"));
                }
            }
            if all.is_empty() {
                return refuse("tags", "`tags` is an empty list".to_string());
            }
            all
        }
        (None, None, _) => refuse("", "neither `tag` nor `tags` is given".to_string()),
        _ => refuse(
            "tags",
            "`tags` cannot stand together with `tag` or `quantity`".to_string(),
        ),
    }
}
