//! The mapping file: which column of a CSV file goes into which field of a part. Knows no kinds of part.

use crate::source::{Document, Findings, Located, Path, SourceFile, nearest};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::Arc;

/// A mapping as its file says. Fields are paths: `width_mm`, `clamp.solid_mm2[0]`,
/// `ratings[2].current_a`.
#[derive(Debug, Clone, Deserialize)]
pub(super) struct Mapping {
    /// Separator of the CSV file, one character.
    #[serde(default = "comma")]
    pub(super) separator: char,
    /// Whether numbers are written with a comma, and points only group thousands.
    #[serde(default)]
    pub(super) decimal_comma: bool,
    /// What separates the entries of a cell that is a list.
    #[serde(default = "blank")]
    pub(super) list_separator: String,
    /// Texts: field and column.
    #[serde(default)]
    text: BTreeMap<String, String>,
    /// Numbers.
    #[serde(default)]
    number: BTreeMap<String, String>,
    /// Whole numbers.
    #[serde(default)]
    whole: BTreeMap<String, String>,
    /// Yes or no.
    #[serde(default)]
    flag: BTreeMap<String, String>,
    /// Lists of texts.
    #[serde(default)]
    list: BTreeMap<String, String>,
    /// What numbers are multiplied by, such as 10 for a column in centimetres.
    #[serde(default)]
    factor: BTreeMap<String, f64>,
    /// Fields that are the same for every part.
    #[serde(default)]
    pub(super) fixed: toml::Table,
}

fn comma() -> char {
    ','
}

fn blank() -> String {
    " ".into()
}

/// How a cell is read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum CellKind {
    Text,
    Number { factor: f64 },
    Whole,
    Flag,
    List,
}

/// One column and the field it goes into.
#[derive(Debug, Clone)]
pub(super) struct Column {
    /// The path as written in the mapping.
    pub(super) field: String,
    pub(super) path: Path,
    /// Where the mapping names it: `number."width_mm"`.
    pub(super) key: String,
    /// Index of the column in the CSV file.
    pub(super) index: usize,
    pub(super) kind: CellKind,
}

impl Mapping {
    /// Reads a mapping file. None, with findings, if anything is wrong with it.
    pub(super) fn read(
        file: &Arc<SourceFile>,
        findings: &mut Findings,
    ) -> Option<Located<Mapping>> {
        let document = Document::parse(Arc::clone(file), findings)?;
        let mapping = document.table::<Mapping>("", findings)?;
        (!findings.has_errors()).then_some(mapping)
    }
}

/// The columns of a mapping, found in the header of the CSV file.
pub(super) fn columns(
    mapping: &Located<Mapping>,
    header: &[String],
    findings: &mut Findings,
) -> Vec<Column> {
    let Located { value, place } = mapping;
    let header: Vec<&str> = header.iter().map(|name| name.trim()).collect();
    let sections = [
        ("text", &value.text, CellKind::Text),
        ("number", &value.number, CellKind::Number { factor: 1.0 }),
        ("whole", &value.whole, CellKind::Whole),
        ("flag", &value.flag, CellKind::Flag),
        ("list", &value.list, CellKind::List),
    ];
    let mut columns: Vec<Column> = Vec::new();
    for (section, fields, kind) in sections {
        for (field, name) in fields {
            let key = format!("{section}.\"{field}\"");
            let Some(index) = header.iter().position(|known| known == name) else {
                let hint = match nearest(name, header.iter().copied()) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => format!("the columns are `{}`", header.join("`, `")),
                };
                findings.push(
                    place
                        .error(
                            &key,
                            "import-column",
                            format!("the CSV file has no column `{name}`"),
                        )
                        .expected("the name of a column, as in the first line of the CSV file")
                        .hint(hint),
                );
                continue;
            };
            if columns.iter().any(|other| other.field == *field) {
                findings.push(
                    place
                        .error(&key, "import-column", format!("`{field}` is mapped twice"))
                        .expected("one column for each field")
                        .hint("keep one of them"),
                );
            }
            let kind = match kind {
                CellKind::Number { .. } => CellKind::Number {
                    factor: value.factor.get(field).copied().unwrap_or(1.0),
                },
                other => other,
            };
            columns.push(Column {
                field: field.clone(),
                path: Path::from(field.as_str()),
                key,
                index,
                kind,
            });
        }
    }
    for field in value
        .factor
        .keys()
        .filter(|field| !value.number.contains_key(*field))
    {
        findings.push(
            place
                .error(
                    &format!("factor.\"{field}\""),
                    "import-column",
                    format!("`{field}` is no mapped number"),
                )
                .expected("a field that stands under `[number]`")
                .hint("map a column to it, or leave the factor out"),
        );
    }
    columns
}
