//! Where a value came from: the file, the table in it, and its fields. Cheap to copy.

use std::fmt;
use std::sync::Arc;

use super::file::{SourceFile, Span};
use super::finding::Finding;
use super::path::Path;
use super::tree::{NodeId, Tree};

/// A value together with where it stands.
#[derive(Debug, Clone)]
pub struct Located<T> {
    /// The value as read.
    pub value: T,
    /// The table it was read from.
    pub place: Place,
}

impl<T> Located<T> {
    /// The same place with another value, such as the checked form of a table as read.
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Located<U> {
        Located {
            value: change(self.value),
            place: self.place,
        }
    }
}

/// A table in a file (or another value there), and the way to its fields.
///
/// Fields are named by their path in the table: `diameter_mm`, `levels[1].power_w`. A path that
/// leads nowhere stands for the nearest value above that exists, in the end the table's header, so
/// that a finding about a field that was left out points at the table it is missing from.
#[derive(Clone)]
pub struct Place {
    tree: Arc<Tree>,
    node: NodeId,
}

impl Place {
    pub(super) fn new(tree: &Arc<Tree>, node: NodeId) -> Self {
        Self {
            tree: Arc::clone(tree),
            node,
        }
    }

    /// The file.
    pub fn file(&self) -> &Arc<SourceFile> {
        &self.tree.file
    }

    /// The way here from the top of the file, such as `cable[2]`.
    pub fn path(&self) -> Path {
        self.tree.path(Tree::ROOT, self.node)
    }

    /// The header (`[[cable]]`), the key for a table made of dotted keys, or the whole value if it
    /// stands in one line. At the top of the file: the empty span at its start.
    pub fn header(&self) -> Span {
        self.tree.node(self.node).head.clone()
    }

    /// From the header to the last value inside. Of a table whose parts are scattered over the
    /// file this may hold other tables too.
    pub fn span(&self) -> Span {
        let node = self.tree.node(self.node);
        node.head.start..node.end
    }

    /// Whether the field was given.
    pub fn has(&self, field: &str) -> bool {
        self.find(field).1
    }

    /// Where the value of a field stands.
    pub fn field(&self, field: &str) -> Span {
        self.tree.node(self.find(field).0).head.clone()
    }

    /// Where the key of a field stands; for a list element the element itself.
    pub fn field_key(&self, field: &str) -> Span {
        let (node, found) = self.find(field);
        let node = self.tree.node(node);
        let key = node.key_span.clone().filter(|_| found);
        key.unwrap_or_else(|| node.head.clone())
    }

    /// The place of a table (or value) inside this one.
    pub fn inside(&self, field: &str) -> Place {
        Self {
            tree: Arc::clone(&self.tree),
            node: self.find(field).0,
        }
    }

    /// Line of the header, from 1.
    pub fn line(&self) -> usize {
        self.line_of("")
    }

    /// Line of a field, from 1.
    pub fn line_of(&self, field: &str) -> usize {
        self.file().line_column(self.field(field).start).0
    }

    /// The line of the header as written, without blanks at its ends.
    pub fn quote(&self) -> String {
        self.quote_of("")
    }

    /// The line of a field as written, without blanks at its ends.
    pub fn quote_of(&self, field: &str) -> String {
        self.file().line(self.line_of(field)).trim().to_owned()
    }

    /// An error about a field; an empty `field` is the table as a whole.
    pub fn error(&self, field: &str, code: &'static str, message: impl Into<String>) -> Finding {
        Finding::error(code, self.file(), self.field(field), message)
    }

    /// A warning about a field; an empty `field` is the table as a whole.
    pub fn warning(&self, field: &str, code: &'static str, message: impl Into<String>) -> Finding {
        Finding::warning(code, self.file(), self.field(field), message)
    }

    fn find(&self, field: &str) -> (NodeId, bool) {
        self.tree.follow(self.node, &Path::from(field))
    }
}

impl fmt::Debug for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "Place({}:{} {})",
            self.file().name,
            self.line(),
            self.path()
        )
    }
}

/// Two places are the same if they are the same table of files that are the same.
impl PartialEq for Place {
    fn eq(&self, other: &Self) -> bool {
        self.node == other.node
            && (Arc::ptr_eq(&self.tree, &other.tree) || self.file() == other.file())
    }
}

impl Eq for Place {}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::{Document, Findings};

    const TEXT: &str = "# list\r\n[[cable]]\r\n  tag = \"W1\" # first\r\n\
        levels = [{ power_w = 3 }, { power_w = 4.5 }]\r\n\
        [cable.screen]\r\nearthed = true\r\n[[cable]]\r\nclamp.torque_nm = 1.2\r\n";

    fn place(path: &str) -> Place {
        let mut found = Findings::new();
        let document = Document::parse(SourceFile::from_text("l.toml", TEXT), &mut found).unwrap();
        assert!(found.is_empty());
        document.place().inside(path)
    }

    #[test]
    fn fields_are_found_however_deep() {
        let cable = place("cable[0]");
        let text = |span: Span| TEXT[span].to_owned();
        assert_eq!(text(cable.header()), "[[cable]]");
        assert_eq!(text(cable.field("tag")), "\"W1\"");
        assert_eq!(text(cable.field_key("tag")), "tag");
        assert_eq!(text(cable.field("levels[1].power_w")), "4.5");
        assert_eq!(text(cable.field_key("levels[1]")), "{ power_w = 4.5 }");
        assert_eq!(text(cable.field("screen.earthed")), "true");
        assert_eq!(text(cable.field("screen")), "[cable.screen]");
        assert!(text(cable.span()).starts_with("[[cable]]\r\n  tag"));
        assert!(text(cable.span()).ends_with("earthed = true"));
        let dotted = place("cable[1]");
        assert_eq!(text(dotted.field("clamp.torque_nm")), "1.2");
        assert_eq!(text(dotted.field("clamp")), "clamp");
    }

    #[test]
    fn what_is_not_there_falls_back_to_what_is() {
        let cable = place("cable[0]");
        assert!(!cable.has("diameter_mm") && cable.has("levels[0].power_w"));
        assert_eq!(cable.field("diameter_mm"), cable.header());
        assert_eq!(cable.field_key("diameter_mm"), cable.header());
        assert_eq!(
            &TEXT[cable.field("levels[1].voltage_v")],
            "{ power_w = 4.5 }"
        );
        assert_eq!(place("").field("nothing"), 0..0);
    }

    #[test]
    fn lines_are_quoted_as_written() {
        let cable = place("cable[0]");
        assert_eq!((cable.line(), cable.quote().as_str()), (2, "[[cable]]"));
        assert_eq!(
            (cable.line_of("tag"), cable.quote_of("tag").as_str()),
            (3, "tag = \"W1\" # first")
        );
        assert_eq!(cable.path().to_string(), "cable[0]");
        assert_eq!(format!("{cable:?}"), "Place(l.toml:2 cable[0])");
        let finding = cable.error("levels[0].power_w", "demo", "too much");
        assert_eq!(
            (finding.line_column(), finding.text()),
            (Some((4, 23)), "3")
        );
        assert_eq!(cable, place("cable[0]"));
        assert_ne!(cable, place("cable[1]"));
    }
}
