//! Parts from a CSV file, by a mapping of columns to fields, as catalogue text that has been checked.
//! Knows paths and cells; what the fields mean is known by the readers it hands the text to.

mod csv;
mod mapping;

use self::csv::Record;
use self::mapping::{CellKind, Column, Mapping};
use super::PartKind;
use super::reading;
use crate::source::{Finding, Findings, Located, Path, SourceFile, Step};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// The codes of the findings about imports, each with what it says. Stable.
pub const CODES: &[(&str, &str)] = &[
    ("import-cell", "a cell cannot be read as the mapping says"),
    (
        "import-column",
        "the mapping and the columns of the CSV file do not agree",
    ),
    ("import-csv", "the text is not comma-separated text"),
    (
        "import-row",
        "a row has more or fewer cells than the header",
    ),
];

/// What an import gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Imported {
    /// The parts as catalogue text, one table each.
    pub text: String,
    /// Number of parts.
    pub parts: usize,
    /// Warnings about them.
    pub warnings: Findings,
}

/// The cells of every row of a text with commas between them, the header first; `None` where a quote is never closed.
pub(crate) fn rows_of(csv: &Arc<SourceFile>) -> Option<Vec<Vec<String>>> {
    let mut findings = Findings::new();
    let records = csv::records(csv, ',', &mut findings);
    let rows = records.into_iter().map(|record| record.fields).collect();
    (!findings.has_errors()).then_some(rows)
}

/// Reads parts of one kind from a CSV file by a mapping file, and checks each as a catalogue's
/// reader would. Whether the parts that they name exist is checked only when the whole catalogue
/// is read.
///
/// # Errors
/// Everything that is wrong with mapping, rows and parts; findings about parts point at their row.
pub fn import(
    csv: &Arc<SourceFile>,
    mapping: &Arc<SourceFile>,
    kind: PartKind,
) -> Result<Imported, Findings> {
    let mut findings = Findings::new();
    let Some(mapping) = Mapping::read(mapping, &mut findings) else {
        return Err(findings);
    };
    let records = csv::records(csv, mapping.value.separator, &mut findings);
    let Some((header, rows)) = records.split_first() else {
        let finding = Finding::error("import-csv", csv, None, "the file has no header");
        findings.push(
            finding
                .expected("a first line with the names of the columns")
                .hint("check the path"),
        );
        return Err(findings);
    };
    let columns = mapping::columns(&mapping, &header.fields, &mut findings);
    if findings.has_errors() {
        return Err(findings);
    }
    let mut text = String::new();
    let mut starts = Vec::new();
    for row in rows {
        if row.fields.len() != header.fields.len() {
            let message = format!(
                "the row has {} cells, the header {}",
                row.fields.len(),
                header.fields.len()
            );
            findings.push(
                Finding::error("import-row", csv, row.span.clone(), message)
                    .expected("as many cells as columns")
                    .hint("put a cell that holds the separator in quotes"),
            );
            continue;
        }
        let part = part(csv, row, &columns, &mapping, &mut findings);
        let table: toml::Table = [(kind.table().to_owned(), toml::Value::Array(vec![part]))]
            .into_iter()
            .collect();
        starts.push((text.len(), row));
        text.push_str(&table.to_string());
        text.push('\n');
    }
    check(csv, &text, &starts, &columns, &mapping, &mut findings);
    if findings.has_errors() {
        return Err(findings);
    }
    Ok(Imported {
        text,
        parts: starts.len(),
        warnings: findings,
    })
}

/// Checks the parts and lays what is found back to the rows they came from; a field that is not
/// known is the mapping's fault.
fn check(
    csv: &Arc<SourceFile>,
    text: &str,
    starts: &[(usize, &Record)],
    columns: &[Column],
    mapping: &Located<Mapping>,
    findings: &mut Findings,
) {
    let mut said = BTreeSet::new();
    for mut finding in reading::check_parts(&SourceFile::from_text("import", text)) {
        if finding.code == "catalogue-fits" {
            continue;
        }
        if finding.code == "source-unknown-field" {
            let field = finding.text().to_owned();
            if said.insert(field.clone()) {
                let names = |column: &&Column| {
                    column
                        .path
                        .steps()
                        .iter()
                        .any(|step| matches!(step, Step::Key(key) if *key == field))
                };
                let key = columns
                    .iter()
                    .find(names)
                    .map_or("fixed", |column| column.key.as_str());
                let mut moved = mapping.place.error(key, finding.code, finding.message);
                moved.hint = finding.hint;
                findings.push(moved);
            }
            continue;
        }
        let at = finding.span.as_ref().map_or(0, |span| span.start);
        let row = starts[..starts.partition_point(|(start, _)| *start <= at)].last();
        finding.file = Arc::clone(csv);
        finding.span = row.map(|(_, row)| row.span.clone());
        findings.push(finding);
    }
}

/// A value on its way into TOML: lists by place, so that gaps close.
#[derive(Debug, Clone)]
enum Node {
    Value(toml::Value),
    Table(BTreeMap<String, Node>),
    List(BTreeMap<usize, Node>),
}

impl Node {
    fn from_toml(value: toml::Value) -> Node {
        match value {
            toml::Value::Table(table) => Node::Table(
                table
                    .into_iter()
                    .map(|(key, value)| (key, Node::from_toml(value)))
                    .collect(),
            ),
            toml::Value::Array(list) => {
                Node::List(list.into_iter().map(Node::from_toml).enumerate().collect())
            }
            other => Node::Value(other),
        }
    }

    fn into_toml(self) -> toml::Value {
        match self {
            Node::Value(value) => value,
            Node::Table(table) => toml::Value::Table(
                table
                    .into_iter()
                    .map(|(key, node)| (key, node.into_toml()))
                    .collect(),
            ),
            Node::List(list) => {
                toml::Value::Array(list.into_values().map(Node::into_toml).collect())
            }
        }
    }

    /// Puts a value at a path; what stands in the way is replaced.
    fn set(&mut self, steps: &[Step], value: toml::Value) {
        let Some((step, rest)) = steps.split_first() else {
            *self = Node::from_toml(value);
            return;
        };
        match step {
            Step::Key(key) => {
                if !matches!(self, Node::Table(_)) {
                    *self = Node::Table(BTreeMap::new());
                }
                if let Node::Table(table) = self {
                    table
                        .entry(key.clone())
                        .or_insert(Node::Table(BTreeMap::new()))
                        .set(rest, value);
                }
            }
            Step::Index(index) => {
                if !matches!(self, Node::List(_)) {
                    *self = Node::List(BTreeMap::new());
                }
                if let Node::List(list) = self {
                    list.entry(*index)
                        .or_insert(Node::Table(BTreeMap::new()))
                        .set(rest, value);
                }
            }
        }
    }

    /// Takes out the list element at a path that ends in a place in a list.
    fn remove(&mut self, steps: &[Step]) {
        match (self, steps) {
            (Node::List(list), [Step::Index(index)]) => {
                list.remove(index);
            }
            (Node::List(list), [Step::Index(index), rest @ ..]) => {
                if let Some(node) = list.get_mut(index) {
                    node.remove(rest);
                }
            }
            (Node::Table(table), [Step::Key(key), rest @ ..]) => {
                if let Some(node) = table.get_mut(key) {
                    node.remove(rest);
                }
            }
            _ => {}
        }
    }
}

/// One part from one row. Empty cells leave their field out; a row of a list (such as a rated
/// current) whose cells are all empty is left out with what is fixed in it.
fn part(
    csv: &Arc<SourceFile>,
    row: &Record,
    columns: &[Column],
    mapping: &Located<Mapping>,
    findings: &mut Findings,
) -> toml::Value {
    let mut part = Node::from_toml(toml::Value::Table(mapping.value.fixed.clone()));
    let mut filled: BTreeMap<Path, bool> = BTreeMap::new();
    for column in columns {
        let cell = row.fields[column.index].trim();
        let elements = list_elements(&column.path);
        for element in elements {
            *filled.entry(element).or_default() |= !cell.is_empty();
        }
        if cell.is_empty() {
            continue;
        }
        match value(cell, column.kind, &mapping.value) {
            Ok(value) => part.set(column.path.steps(), value),
            Err(expected) => findings.push(
                Finding::error(
                    "import-cell",
                    csv,
                    row.span.clone(),
                    format!("`{cell}` does not fit `{}`", column.field),
                )
                .expected(expected)
                .hint("correct the cell, or the mapping of its column"),
            ),
        }
    }
    // Inner elements first: their paths are longer and sort after those they begin with.
    for (element, _) in filled.iter().rev().filter(|(_, is_filled)| !**is_filled) {
        part.remove(element.steps());
    }
    part.into_toml()
}

/// The elements of lists of tables that a path leads through: `ratings[2]` of `ratings[2].current_a`.
fn list_elements(path: &Path) -> Vec<Path> {
    let steps = path.steps();
    let inner = steps.len().saturating_sub(1);
    let ends = (0..inner).filter(|end| matches!(steps[*end], Step::Index(_)));
    ends.map(|end| Path::new(steps[..=end].iter().cloned()))
        .collect()
}

/// The value of a cell, or what would have been one.
fn value(cell: &str, kind: CellKind, mapping: &Mapping) -> Result<toml::Value, &'static str> {
    let plain = if mapping.decimal_comma {
        cell.replace('.', "").replace(',', ".")
    } else {
        cell.to_owned()
    };
    match kind {
        CellKind::Text => Ok(toml::Value::String(cell.to_owned())),
        CellKind::List => {
            let entries = cell.split(mapping.list_separator.as_str()).map(str::trim);
            let texts = entries
                .filter(|entry| !entry.is_empty())
                .map(|entry| toml::Value::String(entry.to_owned()));
            Ok(toml::Value::Array(texts.collect()))
        }
        CellKind::Whole => plain
            .parse()
            .map(toml::Value::Integer)
            .map_err(|_| "a whole number"),
        CellKind::Number { factor } => match plain.parse::<f64>() {
            // A millionth is finer than any unit here needs: takes off what the factor adds in binary.
            Ok(number) if number.is_finite() => {
                Ok(toml::Value::Float((number * factor * 1e6).round() / 1e6))
            }
            _ if mapping.decimal_comma => Err("a number with a decimal comma and no unit"),
            _ => Err("a number with a decimal point and no unit"),
        },
        CellKind::Flag => match cell.to_lowercase().as_str() {
            "yes" | "y" | "true" | "1" | "x" => Ok(toml::Value::Boolean(true)),
            "no" | "n" | "false" | "0" | "-" => Ok(toml::Value::Boolean(false)),
            _ => Err("yes, y, true, 1 or x, or no, n, false, 0 or -"),
        },
    }
}
