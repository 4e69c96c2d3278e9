//! Turns one table into a plain serde struct and finds everything that is wrong with it on the way.
//!
//! Serde stops at the first error. So that one run finds all of them, the table is read as follows.
//! A value of the wrong kind is noted, and a stand-in of the right kind is handed on in its place
//! (see [`dummy`]). A field that is missing is noted, and the table is read again with a stand-in
//! for it. What serde or a type's own check refuses is noted and replaced by a stand-in as well, in
//! another reading. If a stand-in itself is refused, the table that holds it is given up in silence:
//! what caused it has been noted. A value that needed any stand-in is never handed out.
//!
//! Limits, which follow from serde: inside `#[serde(flatten)]`, `untagged` and internally tagged
//! types serde holds the values back from us, so unknown fields are not seen there and an error
//! points at the table around it.

mod dummy;
mod entries;
mod form;
mod reader;
mod refusal;
mod wanted;

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use serde::de::DeserializeOwned;

use self::reader::Reader;
use self::refusal::{Kind, Refusal};
pub(super) use self::wanted::Wanted;
use super::finding::Finding;
use super::findings::Findings;
use super::nearest::nearest;
use super::tree::{NodeId, Tree};
use super::unit::{UnitSlip, unit_of, unit_slip};

/// Each reading after the first is caused by one more error. The limit keeps the time bounded for
/// one table with very many of them; reaching it is said.
const MOST_READINGS: usize = 1000;

/// Known fields are listed in a hint up to this many.
const MOST_LISTED: usize = 12;

/// Reads the value at `node` as a `T`. None if anything but unknown fields is wrong with it.
pub(super) fn read<T: DeserializeOwned>(
    tree: &Tree,
    node: NodeId,
    findings: &mut Findings,
) -> Option<T> {
    let reading = Reading {
        tree,
        root: node,
        marks: RefCell::default(),
    };
    let mut value = None;
    let mut finished = false;
    for _ in 0..MOST_READINGS {
        reading.marks.borrow_mut().is_news = false;
        match T::deserialize(Reader::new(&reading, node)) {
            Ok(read) => value = Some(read),
            Err(refusal) => {
                if reading.note(refusal) {
                    continue;
                }
            }
        }
        finished = true;
        break;
    }
    if !finished {
        let message =
            format!("more than {MOST_READINGS} errors in one table; the rest is not listed");
        findings.push(Finding::error(
            "source-invalid-value",
            &tree.file,
            reading.head(node),
            message,
        ));
    }
    let is_sound = reading.is_sound();
    findings.extend(reading.into_findings());
    value.filter(|_| is_sound)
}

/// The finding that another kind of value stands at `node` than is wanted.
pub(super) fn mismatch(tree: &Tree, node: NodeId, wanted: &Wanted) -> Finding {
    let reading = Reading {
        tree,
        root: node,
        marks: RefCell::default(),
    };
    wanted::finding(&reading, node, wanted)
}

/// One table being read, and what has been found so far.
struct Reading<'t> {
    tree: &'t Tree,
    root: NodeId,
    marks: RefCell<Marks>,
}

#[derive(Default)]
struct Marks {
    findings: Vec<Finding>,
    /// Values for which a stand-in is handed on.
    bad: BTreeSet<NodeId>,
    /// Whether one of them was found in the present reading.
    is_news: bool,
    /// Fields that are not there, and what would be expected, once that is known.
    missing: BTreeMap<(NodeId, &'static str), Option<Wanted>>,
    /// Keys that have been reported as unknown.
    unknown: BTreeSet<NodeId>,
    /// Fields that an unknown key was probably meant to be: not reported as missing as well.
    misspelt: BTreeSet<(NodeId, &'static str)>,
}

impl Reading<'_> {
    fn is_sound(&self) -> bool {
        let marks = self.marks.borrow();
        marks.bad.is_empty() && marks.missing.is_empty()
    }

    fn head(&self, node: NodeId) -> super::Span {
        self.tree.node(node).head.clone()
    }

    /// The name of a value in messages: its path in the table, or in the file for the table itself.
    fn name(&self, node: NodeId) -> String {
        let start = if node == self.root {
            Tree::ROOT
        } else {
            self.root
        };
        self.tree.path(start, node).to_string()
    }

    /// The key that names a value and may end in its unit.
    fn field(&self, node: NodeId) -> String {
        self.tree.path(Tree::ROOT, node).last_key().to_owned()
    }

    fn is_bad(&self, node: NodeId) -> bool {
        self.marks.borrow().bad.contains(&node)
    }

    /// The fields known to be missing from a table.
    fn missing_in(&self, table: NodeId) -> Vec<&'static str> {
        let marks = self.marks.borrow();
        let from_here = marks.missing.range((table, "")..).map(|(key, _)| *key);
        from_here
            .take_while(|(other, _)| *other == table)
            .map(|(_, field)| field)
            .collect()
    }

    /// Notes a value that is wrong; from now on it is replaced by a stand-in.
    fn wrong(&self, node: NodeId, finding: Finding) {
        let mut marks = self.marks.borrow_mut();
        if marks.bad.insert(node) {
            marks.is_news = true;
            marks.findings.push(finding);
        }
    }

    fn error(&self, node: NodeId, code: &'static str, message: String) -> Finding {
        Finding::error(code, &self.tree.file, self.head(node), message)
    }

    fn wrong_type(&self, node: NodeId, wanted: Wanted) {
        self.wrong(node, wanted::finding(self, node, &wanted));
    }

    fn unknown_word(&self, node: NodeId, given: &str, known: &[&'static str]) {
        let wanted = Wanted::Word(known.to_vec());
        let name = self.name(node);
        let message = format!("`{given}` is not known as `{name}`");
        let mut finding = self
            .error(node, "source-unknown-value", message)
            .expected(wanted.expected());
        if let Some(near) = nearest(given, known.iter().copied()) {
            finding = finding.hint(format!("did you mean `{near}`?"));
        }
        self.wrong(node, finding);
    }

    /// Notes a key that is none of the `known` fields of its table.
    fn unknown_field(&self, table: NodeId, entry: NodeId, known: &'static [&'static str]) {
        if !self.marks.borrow_mut().unknown.insert(entry) {
            return;
        }
        let key = self.tree.key(entry);
        let name = self.name(entry);
        let span = self.tree.node(entry).key_span.clone();
        let finding = |message: String| {
            Finding::error(
                "source-unknown-field",
                &self.tree.file,
                span.clone(),
                message,
            )
        };
        let slip = known
            .iter()
            .find_map(|field| Some((*field, unit_slip(key, field)?)));
        let near = nearest(key, known.iter().copied())
            .and_then(|near| known.iter().copied().find(|field| *field == near));
        let meant = slip.map(|(field, _)| field).or(near);
        let finding = match (slip, near) {
            (Some((field, slip)), _) => {
                let unit = unit_of(field).map_or_else(String::new, |unit| unit.symbol);
                match slip {
                    UnitSlip::Wrong => finding(format!("`{name}` has the wrong unit")),
                    UnitSlip::Left => finding(format!("`{name}` lacks its unit")),
                }
                .expected(format!("`{field}`, in {unit}"))
                .hint(format!("give the value in {unit} and write `{field}`"))
            }
            (None, Some(near)) => {
                finding(format!("unknown field `{name}`")).hint(format!("did you mean `{near}`?"))
            }
            (None, None) if known.is_empty() => {
                finding(format!("unknown field `{name}`")).hint("nothing is known here")
            }
            (None, None) => {
                let listed = wanted::listed(known, MOST_LISTED, ", ");
                finding(format!("unknown field `{name}`")).hint(format!("known here: {listed}"))
            }
        };
        let mut marks = self.marks.borrow_mut();
        if let Some(meant) = meant.filter(|meant| self.tree.entry(table, meant).is_none()) {
            marks.misspelt.insert((table, meant));
        }
        marks.findings.push(finding);
    }

    /// Takes up what a reading was refused for. Whether another reading can find more.
    fn note(&self, refusal: Refusal) -> bool {
        let node = refusal.node.unwrap_or(self.root);
        let mut marks = self.marks.borrow_mut();
        // A field that is there but was left out because it is wrong is not missing.
        if let Kind::Missing(field) = refusal.kind
            && !marks.missing.contains_key(&(node, field))
            && self.tree.entry(node, field).is_none()
        {
            marks.missing.insert((node, field), None);
            return true;
        }
        let inside = |other: &NodeId| self.tree.is_within(*other, node);
        let is_consequence =
            marks.bad.iter().any(inside) || marks.missing.keys().any(|(table, _)| inside(table));
        drop(marks);
        if !is_consequence {
            match refusal.kind {
                Kind::UnknownWord { given, known } => self.unknown_word(node, &given, known),
                Kind::WrongType { wanted } => self.wrong_type(node, Wanted::Other(wanted)),
                Kind::Invalid(message) => {
                    let message = format!("`{}`: {message}", self.name(node));
                    self.wrong(node, self.error(node, "source-invalid-value", message));
                }
                Kind::Missing(_) | Kind::Consequence => {}
            }
            if self.is_bad(node) {
                return node != self.root;
            }
        }
        // The next reading will go round what was found in this one.
        if self.marks.borrow().is_news {
            return !self.is_bad(self.root);
        }
        // Give up the value itself, or if that has been done in vain, the one around it.
        let mut marks = self.marks.borrow_mut();
        let mut here = node;
        while here != self.root {
            if marks.bad.insert(here) {
                return true;
            }
            match self.tree.node(here).parent {
                Some(parent) => here = parent,
                None => break,
            }
        }
        marks.bad.insert(self.root);
        false
    }

    fn into_findings(self) -> Vec<Finding> {
        let marks = self.marks.borrow();
        let mut findings = marks.findings.clone();
        for ((table, field), wanted) in &marks.missing {
            if marks.misspelt.contains(&(*table, field)) {
                continue;
            }
            let path = self.tree.path(self.root, *table).to_string();
            let name = if path.is_empty() {
                (*field).to_owned()
            } else {
                format!("{path}.{field}")
            };
            let finding = self.error(
                *table,
                "source-missing-field",
                format!("`{name}` is missing"),
            );
            let expected = wanted
                .as_ref()
                .and_then(|wanted| wanted.expected_of(field, None));
            findings.push(match expected {
                Some(expected) => finding.expected(expected),
                None => finding,
            });
        }
        findings
    }
}

#[cfg(test)]
mod random_tests;
#[cfg(test)]
mod tests;
