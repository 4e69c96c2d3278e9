//! A parsed TOML document as a flat list of nodes, each knowing its place in the text and its
//! parent. Knows nothing of what the keys mean.

use std::sync::Arc;

use toml::de::{DeTable, DeValue};

use super::file::{SourceFile, Span};
use super::path::{Path, Step};

/// Which node of a [`Tree`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct NodeId(usize);

/// What a node holds.
#[derive(Debug)]
pub(super) enum Value {
    Text(String),
    Integer(i64),
    Float(f64),
    Boolean(bool),
    /// A date, a time of day or both, as written.
    Date(String),
    List(Vec<NodeId>),
    Table(Table),
}

/// The entries of a table.
#[derive(Debug)]
pub(super) struct Table {
    /// As they stand in the file.
    pub(super) in_order: Vec<NodeId>,
    /// The same, sorted by key, for looking up.
    by_key: Vec<NodeId>,
}

/// One value with its place.
#[derive(Debug)]
pub(super) struct Node {
    pub(super) value: Value,
    pub(super) parent: Option<NodeId>,
    /// The step from the parent to this node; none for the root.
    pub(super) step: Option<Step>,
    /// Where the key stands that leads here; none for list elements and the root.
    pub(super) key_span: Option<Span>,
    /// Where the value stands. Of a table with a header this is the header, of a table that only
    /// follows from dotted keys the key, of the root the empty span at the start.
    pub(super) head: Span,
    /// Where the last value inside ends, at least the end of `head`.
    pub(super) end: usize,
}

/// A parsed document.
#[derive(Debug)]
pub(super) struct Tree {
    pub(super) file: Arc<SourceFile>,
    nodes: Vec<Node>,
}

/// An integer that 64 bits do not hold, and where it stands.
pub(super) struct HugeInteger(pub(super) Span);

impl Tree {
    pub(super) const ROOT: NodeId = NodeId(0);

    /// Copies the parser's tables, which borrow from the text. Nesting is limited by the parser.
    pub(super) fn new(file: &Arc<SourceFile>, root: &DeTable<'_>) -> (Self, Vec<HugeInteger>) {
        let mut tree = Self {
            file: Arc::clone(file),
            nodes: Vec::new(),
        };
        let mut huge = Vec::new();
        let id = tree.reserve(None, None, None, 0..0);
        tree.fill_table(id, root, &mut huge);
        tree.nodes[id.0].end = file.text.len();
        (tree, huge)
    }

    pub(super) fn node(&self, id: NodeId) -> &Node {
        &self.nodes[id.0]
    }

    /// The key that leads to a node; empty for list elements and the root.
    pub(super) fn key(&self, id: NodeId) -> &str {
        match &self.node(id).step {
            Some(Step::Key(key)) => key,
            _ => "",
        }
    }

    /// The entry of a table under `key`.
    pub(super) fn entry(&self, table: NodeId, key: &str) -> Option<NodeId> {
        let Value::Table(table) = &self.node(table).value else {
            return None;
        };
        let at = table
            .by_key
            .binary_search_by(|entry| self.key(*entry).cmp(key))
            .ok()?;
        Some(table.by_key[at])
    }

    /// Follows `path` from `start` as far as it leads; whether that was all the way.
    pub(super) fn follow(&self, start: NodeId, path: &Path) -> (NodeId, bool) {
        let mut here = start;
        for step in path.steps() {
            let next = match (step, &self.node(here).value) {
                (Step::Key(key), _) => self.entry(here, key),
                (Step::Index(index), Value::List(list)) => list.get(*index).copied(),
                (Step::Index(_), _) => None,
            };
            match next {
                Some(next) => here = next,
                None => return (here, false),
            }
        }
        (here, true)
    }

    /// The path from `start`, which must stand above `id` or be it.
    pub(super) fn path(&self, start: NodeId, id: NodeId) -> Path {
        let mut steps = Vec::new();
        let mut here = id;
        while here != start {
            let node = self.node(here);
            steps.extend(node.step.clone());
            match node.parent {
                Some(parent) => here = parent,
                None => break,
            }
        }
        steps.reverse();
        Path::new(steps)
    }

    /// Whether `inner` is `outer` or stands inside it.
    pub(super) fn is_within(&self, inner: NodeId, outer: NodeId) -> bool {
        let mut here = Some(inner);
        while let Some(id) = here {
            if id == outer {
                return true;
            }
            here = self.node(id).parent;
        }
        false
    }

    fn reserve(
        &mut self,
        parent: Option<NodeId>,
        step: Option<Step>,
        key_span: Option<Span>,
        head: Span,
    ) -> NodeId {
        let end = head.end;
        let value = Value::Boolean(false);
        self.nodes.push(Node {
            value,
            parent,
            step,
            key_span,
            head,
            end,
        });
        NodeId(self.nodes.len() - 1)
    }

    fn fill_table(&mut self, id: NodeId, table: &DeTable<'_>, huge: &mut Vec<HugeInteger>) {
        let mut entries = Vec::with_capacity(table.len());
        for (key, value) in table.iter() {
            let step = Step::from(key.get_ref().as_ref());
            let entry = self.reserve(Some(id), Some(step), Some(key.span()), value.span());
            self.fill(entry, value.get_ref(), huge);
            entries.push(entry);
        }
        let mut by_key = entries.clone();
        by_key.sort_by(|a, b| self.key(*a).cmp(self.key(*b)));
        entries.sort_by_key(|entry| self.node(*entry).key_span.as_ref().map(|span| span.start));
        self.close(id, &entries);
        self.nodes[id.0].value = Value::Table(Table {
            in_order: entries,
            by_key,
        });
    }

    fn fill(&mut self, id: NodeId, value: &DeValue<'_>, huge: &mut Vec<HugeInteger>) {
        self.nodes[id.0].value = match value {
            DeValue::String(text) => Value::Text(text.to_string()),
            DeValue::Boolean(truth) => Value::Boolean(*truth),
            DeValue::Datetime(date) => Value::Date(date.to_string()),
            // What is too large for a float is infinite here, and refused where a number is read.
            DeValue::Float(float) => Value::Float(float.as_str().parse().unwrap_or(f64::NAN)),
            DeValue::Integer(integer) => {
                let read = i64::from_str_radix(integer.as_str(), integer.radix());
                if read.is_err() {
                    huge.push(HugeInteger(self.node(id).head.clone()));
                }
                Value::Integer(read.unwrap_or(0))
            }
            DeValue::Array(list) => {
                let mut elements = Vec::with_capacity(list.len());
                for (index, value) in list.iter().enumerate() {
                    let step = Some(Step::Index(index));
                    let element = self.reserve(Some(id), step, None, value.span());
                    self.fill(element, value.get_ref(), huge);
                    elements.push(element);
                }
                self.close(id, &elements);
                Value::List(elements)
            }
            DeValue::Table(table) => return self.fill_table(id, table, huge),
        };
    }

    /// Sets the end of a node that holds others.
    fn close(&mut self, id: NodeId, inside: &[NodeId]) {
        let ends = inside.iter().map(|inner| self.node(*inner).end);
        let end = ends.max().unwrap_or(0).max(self.node(id).head.end);
        self.nodes[id.0].end = end;
    }
}
