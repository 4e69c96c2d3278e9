//! A TOML file that has been parsed, and the ways to take typed values out of it.

use std::sync::Arc;

use serde::de::DeserializeOwned;
use toml::de::DeTable;

use super::file::{SourceFile, Span};
use super::finding::Finding;
use super::findings::Findings;
use super::nearest::nearest;
use super::path::Path;
use super::place::{Located, Place};
use super::read::{self, Wanted};
use super::syntax;
use super::tree::{NodeId, Tree, Value};

/// A parsed TOML document with the place of every key and value.
///
/// The types read from it are plain serde structs, which need no `deny_unknown_fields` (those that an arrangement
/// file holds too have it for that file): unknown fields are found here, with a hint. Keys are paths from the top of the file (`job`, `area.ambient`);
/// the empty key is the whole file.
///
/// ```
/// use glandrail::source::{Document, Findings, SourceFile};
///
/// #[derive(serde::Deserialize)]
/// struct Cable { tag: String, diameter_mm: f64 }
///
/// let file = SourceFile::from_text("list.toml", "[[cable]]\ntag = \"W1\"\ndiametre_mm = 12\n");
/// let mut findings = Findings::new();
/// let document = Document::parse(file, &mut findings).expect("the text is TOML");
/// let cables = document.tables::<Cable>("cable", &mut findings);
/// assert!(cables.is_empty());
/// assert_eq!(
///     findings.render_plain(),
///     "list.toml:3:1: error[source-unknown-field]: unknown field `diametre_mm`; \
///      hint: did you mean `diameter_mm`?\n"
/// );
/// ```
#[derive(Debug, Clone)]
pub struct Document {
    tree: Arc<Tree>,
}

impl Document {
    /// Parses a file. If it is not TOML, what is wrong is added to `findings` and there is no
    /// document.
    pub fn parse(file: Arc<SourceFile>, findings: &mut Findings) -> Option<Self> {
        let text = Arc::clone(&file.text);
        let (root, errors) = DeTable::parse_recoverable(&text);
        if !errors.is_empty() {
            findings.extend(syntax::findings(&file, &errors));
            return None;
        }
        let (tree, huge) = Tree::new(&file, root.get_ref());
        if !huge.is_empty() {
            findings.extend(huge.into_iter().map(|at| syntax::huge_integer(&file, at.0)));
            return None;
        }
        Some(Self {
            tree: Arc::new(tree),
        })
    }

    /// The file it was parsed from.
    pub fn file(&self) -> &Arc<SourceFile> {
        &self.tree.file
    }

    /// The place of the whole file, from which every other can be reached.
    pub fn place(&self) -> Place {
        Place::new(&self.tree, Tree::ROOT)
    }

    /// Whether there is something under this key.
    pub fn has(&self, key: &str) -> bool {
        self.find(key).is_some()
    }

    /// Where the value at a path stands, such as `cable[2].diameter_mm`; a table with a header
    /// stands where its header does.
    pub fn span(&self, path: &Path) -> Option<Span> {
        let (node, found) = self.tree.follow(Tree::ROOT, path);
        found.then(|| self.tree.node(node).head.clone())
    }

    /// The table under `key` as a `T`. None, without a finding, if it is not there; none, with
    /// findings, if it does not make a `T`. An unknown field is a finding, but `T` is still given.
    pub fn table<T: DeserializeOwned>(
        &self,
        key: &str,
        findings: &mut Findings,
    ) -> Option<Located<T>> {
        self.located(self.find(key)?, findings)
    }

    /// As [`Document::table`], for a table that must be there: leaving it out is a finding.
    pub fn required_table<T: DeserializeOwned>(
        &self,
        key: &str,
        findings: &mut Findings,
    ) -> Option<Located<T>> {
        if !self.has(key) {
            let message = format!("the table `{key}` is missing");
            let finding = Finding::error("source-missing-table", self.file(), 0..0, message);
            findings.push(finding.expected(format!("a table `[{key}]`")));
        }
        self.table(key, findings)
    }

    /// The tables of the list under `key` (`[[cable]]`), each as a `T`. Those that do not make a
    /// `T` are left out, with findings. Empty, without a finding, if nothing is there.
    pub fn tables<T: DeserializeOwned>(
        &self,
        key: &str,
        findings: &mut Findings,
    ) -> Vec<Located<T>> {
        let Some(node) = self.find(key) else {
            return Vec::new();
        };
        match &self.tree.node(node).value {
            Value::List(list) => list
                .iter()
                .filter_map(|table| self.located(*table, findings))
                .collect(),
            _ => {
                findings.push(read::mismatch(
                    &self.tree,
                    node,
                    &Wanted::Tables(key.to_owned()),
                ));
                Vec::new()
            }
        }
    }

    /// The tables inside the table under `key` (`[part.one]`, `[part.two]`), each as a `T` with
    /// its own key, in the order of the file. Otherwise as [`Document::tables`].
    pub fn named_tables<T: DeserializeOwned>(
        &self,
        key: &str,
        findings: &mut Findings,
    ) -> Vec<(String, Located<T>)> {
        let Some(node) = self.find(key) else {
            return Vec::new();
        };
        match &self.tree.node(node).value {
            Value::Table(table) => {
                let read = |entry: &NodeId| {
                    let name = self.tree.key(*entry).to_owned();
                    Some((name, self.located(*entry, findings)?))
                };
                table.in_order.iter().filter_map(read).collect()
            }
            _ => {
                findings.push(read::mismatch(&self.tree, node, &Wanted::Table(Vec::new())));
                Vec::new()
            }
        }
    }

    /// The texts under `field` in the tables of the list under `key`, also in tables that make no sound
    /// part: what is no text is passed over.
    pub fn texts(&self, key: &str, field: &str) -> Vec<&str> {
        let list = self.find(key).map(|node| &self.tree.node(node).value);
        let Some(Value::List(tables)) = list else {
            return Vec::new();
        };
        let text = |table: &NodeId| match &self.tree.node(self.tree.entry(*table, field)?).value {
            Value::Text(text) => Some(text.as_str()),
            _ => None,
        };
        tables.iter().filter_map(text).collect()
    }

    /// Every key at the top of the file that is not in `known` is a finding.
    pub fn only_keys(&self, known: &[&str], findings: &mut Findings) {
        let Value::Table(root) = &self.tree.node(Tree::ROOT).value else {
            return;
        };
        for entry in &root.in_order {
            let key = self.tree.key(*entry);
            if known.contains(&key) {
                continue;
            }
            let node = self.tree.node(*entry);
            let what = match node.value {
                Value::Table(_) | Value::List(_) => "table",
                _ => "field",
            };
            let span = node.key_span.clone();
            let message = format!("unknown {what} `{key}`");
            let finding = Finding::error("source-unknown-table", self.file(), span, message);
            findings.push(match nearest(key, known.iter().copied()) {
                Some(near) => finding.hint(format!("did you mean `{near}`?")),
                None => finding.hint(format!("known here: `{}`", known.join("`, `"))),
            });
        }
    }

    fn find(&self, key: &str) -> Option<NodeId> {
        let (node, found) = self.tree.follow(Tree::ROOT, &Path::from(key));
        found.then_some(node)
    }

    fn located<T: DeserializeOwned>(
        &self,
        node: NodeId,
        findings: &mut Findings,
    ) -> Option<Located<T>> {
        let value = read::read(&self.tree, node, findings)?;
        Some(Located {
            value,
            place: Place::new(&self.tree, node),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Debug, serde::Deserialize, PartialEq)]
    struct Cable {
        tag: String,
        diameter_mm: f64,
    }

    fn parse(text: &str) -> (Document, Findings) {
        let mut findings = Findings::new();
        let file = SourceFile::from_text("l.toml", text);
        let document = Document::parse(file, &mut findings).unwrap();
        (document, findings)
    }

    #[test]
    fn broken_tables_are_skipped_and_all_reported() {
        let (document, mut findings) = parse(
            "[[cable]]\ntag = 1\ndiameter_mm = \"x\"\n[[cable]]\ntag = \"W2\"\ndiameter_mm = 12\n\
             [[cable]]\ntag = \"W3\"\n",
        );
        let cables = document.tables::<Cable>("cable", &mut findings);
        assert_eq!(cables.len(), 1);
        assert_eq!(
            cables[0].value,
            Cable {
                tag: "W2".into(),
                diameter_mm: 12.0
            }
        );
        assert_eq!(cables[0].place.line(), 4);
        let places: Vec<_> = findings.iter().filter_map(Finding::line_column).collect();
        assert_eq!(places, [(2, 7), (3, 15), (7, 1)]);
    }

    #[test]
    fn what_is_absent_is_no_finding_unless_required() {
        let (document, mut findings) = parse("");
        assert!(document.table::<Cable>("cable", &mut findings).is_none());
        assert!(document.tables::<Cable>("cable", &mut findings).is_empty());
        assert!(
            document
                .named_tables::<Cable>("cable", &mut findings)
                .is_empty()
        );
        assert!(findings.is_empty());
        assert!(
            document
                .required_table::<Cable>("cable", &mut findings)
                .is_none()
        );
        assert_eq!(
            findings.render_plain(),
            "l.toml:1:1: error[source-missing-table]: the table `cable` is missing; \
             expected a table `[cable]`\n"
        );
    }

    #[test]
    fn one_table_where_several_are_wanted_and_the_other_way_round() {
        let (document, mut findings) = parse("[cable]\ntag = \"W\"\n[[job]]\n[[x]]\n[part]\na = 1");
        assert!(document.tables::<Cable>("cable", &mut findings).is_empty());
        assert!(document.table::<Cable>("job", &mut findings).is_none());
        assert!(
            document
                .named_tables::<Cable>("x", &mut findings)
                .is_empty()
        );
        assert!(
            document
                .named_tables::<Cable>("part", &mut findings)
                .is_empty()
        );
        let lines: Vec<_> = findings.iter().map(Finding::render_plain).collect();
        assert_eq!(
            lines,
            [
                "l.toml:1:1: error[source-wrong-type]: `cable` must be a list of tables, found a \
                 table; expected `[[cable]]` above each",
                "l.toml:3:1: error[source-wrong-type]: `job` must be a table, found a list; \
                 expected a table with `tag`, `diameter_mm`",
                "l.toml:4:1: error[source-wrong-type]: `x` must be a table, found a list; \
                 expected a table",
                "l.toml:6:5: error[source-wrong-type]: `part.a` must be a table, found the number \
                 1; expected a table with `tag`, `diameter_mm`",
            ]
        );
    }

    #[test]
    fn texts_are_those_of_sound_and_faulty_tables() {
        let (document, findings) =
            parse("[[c]]\ntag = \"W1\"\n[[c]]\ntag = 2\n[[c]]\n[d]\ntag = \"W3\"\n");
        assert_eq!(document.texts("c", "tag"), ["W1"]);
        assert!(
            document.texts("d", "tag").is_empty(),
            "one table is no list"
        );
        assert!(document.texts("e", "tag").is_empty());
        assert!(findings.is_empty());
    }

    #[test]
    fn named_tables_keep_the_order_of_the_file() {
        let (document, mut findings) = parse(
            "[part.z]\ntag = \"1\"\ndiameter_mm = 1\n[part.a]\ntag = \"2\"\ndiameter_mm = 2\n",
        );
        let parts = document.named_tables::<Cable>("part", &mut findings);
        let names: Vec<_> = parts.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!((names, findings.len()), (vec!["z", "a"], 0));
    }

    #[test]
    fn unknown_keys_at_the_top_are_found() {
        let (document, mut findings) = parse("titel = 1\n[cabel]\n[job]\n[[colour]]\n");
        document.only_keys(&["title", "cable", "job"], &mut findings);
        let lines: Vec<_> = findings.iter().map(Finding::render_plain).collect();
        assert_eq!(
            lines,
            [
                "l.toml:1:1: error[source-unknown-table]: unknown field `titel`; \
                 hint: did you mean `title`?",
                "l.toml:2:2: error[source-unknown-table]: unknown table `cabel`; \
                 hint: did you mean `cable`?",
                "l.toml:4:3: error[source-unknown-table]: unknown table `colour`; \
                 hint: known here: `title`, `cable`, `job`",
            ]
        );
    }

    /// A file made to overthrow the program gets a message like any other.
    #[test]
    fn very_deep_nesting_is_refused() {
        let brackets = "[".repeat(100_000);
        let dots = "a.".repeat(100_000);
        for text in [
            format!("a = {brackets}"),
            format!("{dots}a = 1"),
            format!("[{dots}a]"),
        ] {
            let mut findings = Findings::new();
            let file = SourceFile::from_text("l.toml", text);
            assert!(Document::parse(file, &mut findings).is_none());
            assert!(findings.has_errors());
        }
    }

    #[test]
    fn spans_by_path() {
        let (document, _) = parse("\u{feff}a.b = [1, { c = 2 }]\r\n[t]\r\n");
        let at = |path: &str| {
            document
                .span(&Path::from(path))
                .map(|s| document.file().at(&s))
        };
        assert_eq!(at("a.b[0]"), Some("1"));
        assert_eq!(at("a.b[1].c"), Some("2"));
        assert_eq!(at("t"), Some("[t]"));
        assert_eq!(at("a.b[2]"), None);
        assert_eq!(at(""), Some(""));
    }

    /// Looking fields up must not go through the whole file each time: with 10 000 tables that
    /// would be 10^8 steps, minutes in a test build. Counted in seconds to be safe on slow machines.
    #[test]
    fn ten_thousand_tables_are_read_at_once() {
        let table = "[[cable]]\ntag = \"W\"\ndiameter_mm = \"12 mm\"\n[[cable]]\ntag = \"W\"\ndiameter_mm = 12\n";
        let (document, mut findings) = parse(&table.repeat(5_000));
        let started = std::time::Instant::now();
        let cables = document.tables::<Cable>("cable", &mut findings);
        let lines: usize = cables
            .iter()
            .map(|cable| cable.place.line_of("diameter_mm"))
            .sum();
        assert_eq!((cables.len(), findings.len()), (5_000, 5_000));
        assert_eq!(lines, (0..5_000).map(|i| 6 * i + 6).sum::<usize>());
        assert_eq!(findings.render_plain().lines().count(), 5_000);
        assert!(started.elapsed().as_secs() < 5, "{:?}", started.elapsed());
    }
}
