//! Elements of HTML: escaped text, tables, lists of terms. Knows nothing of what they show.

use crate::letters::capital;
use crate::sheets::drawing::SubjectKey;
use std::fmt::Write as _;

/// A cell with fewer characters is not broken.
const SHORT: usize = 16;
/// A table with no more rows is not broken on paper.
const BRIEF: usize = 8;
/// A cell with as many is given room.
const LONG: usize = 40;

/// Text for use in an element or a quoted attribute; control characters become blanks.
pub(super) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            control if control.is_control() => out.push(' '),
            other => out.push(other),
        }
    }
    out
}

/// A key as the page's attributes and its data have it: kind, a space, name.
pub(super) fn key_text(key: &SubjectKey) -> String {
    format!("{} {}", key.kind, key.name)
}

/// The attribute that says what an element stands for.
pub(super) fn subject_attribute(key: &SubjectKey) -> String {
    format!(r#" data-subject="{}""#, escaped(&key_text(key)))
}

/// A table of the page.
#[derive(Debug, Clone)]
pub(super) struct Table {
    /// Its `id`, unique in the page.
    pub id: &'static str,
    /// Its heading.
    pub caption: String,
    /// Words over the columns.
    pub head: Vec<String>,
    /// Its rows.
    pub rows: Vec<Row>,
    /// The column that names what a row stands for.
    pub name_column: usize,
}

/// A row of a table.
#[derive(Debug, Clone)]
pub(super) struct Row {
    /// What it stands for, if it is a part, a cable or a circuit.
    pub subject: Option<SubjectKey>,
    /// Its cells.
    pub cells: Vec<String>,
}

impl Row {
    /// A row that stands for nothing in the drawings.
    pub(super) fn plain(cells: Vec<String>) -> Self {
        Self {
            subject: None,
            cells,
        }
    }
}

impl Table {
    /// A table whose rows are named in the first column.
    pub(super) fn new(id: &'static str, caption: &str, head: &[&str], rows: Vec<Row>) -> Self {
        Self {
            id,
            caption: caption.to_string(),
            head: head.iter().map(|words| (*words).to_string()).collect(),
            rows,
            name_column: 0,
        }
    }

    /// Whether every cell of a column that is filled is a number, and at least one is.
    fn is_numeric(&self, column: usize) -> bool {
        let mut cells = self
            .rows
            .iter()
            .filter_map(|row| row.cells.get(column))
            .filter(|cell| !cell.is_empty())
            .peekable();
        cells.peek().is_some() && cells.all(|cell| cell.parse::<f64>().is_ok())
    }

    /// Whether a column has anything to say.
    fn is_filled(&self, column: usize) -> bool {
        self.rows
            .iter()
            .any(|row| row.cells.get(column).is_some_and(|cell| !cell.is_empty()))
    }

    /// The table as HTML; nothing where it has no rows. Columns without content are left out.
    pub(super) fn html(&self) -> String {
        if self.rows.is_empty() {
            return String::new();
        }
        let columns: Vec<(usize, bool)> = (0..self.head.len())
            .filter(|column| self.is_filled(*column))
            .map(|column| (column, self.is_numeric(column)))
            .collect();
        let (id, caption) = (self.id, escaped(&self.caption));
        // A short table is printed on one page.
        let brief = if self.rows.len() <= BRIEF {
            " brief"
        } else {
            ""
        };
        let mut out = format!(
            "<section class=\"table{brief}\" aria-labelledby=\"{id}-head\">\n<h3 id=\"{id}-head\">{caption}</h3>\n\
             <div class=\"scroll\" role=\"region\" aria-labelledby=\"{id}-head\" tabindex=\"0\">\n\
             <table id=\"{id}\">\n<thead><tr>"
        );
        for (column, numeric) in &columns {
            let kind = if *numeric {
                r#" class="number" data-kind="number""#
            } else {
                ""
            };
            let words = escaped(&capital(&self.head[*column]));
            let _ = write!(out, r#"<th scope="col"{kind}>{words}</th>"#);
        }
        out.push_str("</tr></thead>\n<tbody>\n");
        for row in &self.rows {
            let subject = row.subject.as_ref().map(subject_attribute);
            let _ = write!(out, "<tr{}>", subject.unwrap_or_default());
            for (column, numeric) in &columns {
                let cell = row.cells.get(*column).map(String::as_str).unwrap_or("");
                let class = if *column == self.name_column && row.subject.is_some() {
                    r#" class="name""#
                } else if *numeric {
                    r#" class="number""#
                } else {
                    match cell.chars().count() {
                        0 => "",
                        1..SHORT => r#" class="short""#,
                        SHORT..LONG => r#" class="medium""#,
                        LONG.. => r#" class="long""#,
                    }
                };
                let _ = write!(out, "<td{class}>{}</td>", escaped(cell));
            }
            out.push_str("</tr>\n");
        }
        out.push_str("</tbody>\n</table>\n</div>\n</section>\n");
        out
    }
}

/// Terms with what they are, as a description list; pairs without content are left out.
pub(super) fn terms(pairs: &[(&str, String)]) -> String {
    let mut out = String::from("<dl class=\"terms\">\n");
    for (term, words) in pairs.iter().filter(|(_, words)| !words.is_empty()) {
        let _ = writeln!(
            out,
            "<div><dt>{}</dt><dd>{}</dd></div>",
            escaped(term),
            escaped(words)
        );
    }
    out.push_str("</dl>\n");
    out
}

/// A heading with sentences under it; nothing where there are none.
pub(super) fn sentences(heading: &str, sentences: &[String]) -> String {
    if sentences.is_empty() {
        return String::new();
    }
    let mut out = format!("<h3>{}</h3>\n<ul>\n", escaped(heading));
    for sentence in sentences {
        let _ = writeln!(out, "<li>{}</li>", escaped(sentence));
    }
    out.push_str("</ul>\n");
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_of_the_user_cannot_become_markup() {
        assert_eq!(
            escaped("<script>a('b')</script> & \"c\"\u{7}"),
            "&lt;script&gt;a(&#39;b&#39;)&lt;/script&gt; &amp; &quot;c&quot; "
        );
    }

    #[test]
    fn a_column_is_numeric_only_if_all_its_cells_are() {
        let rows = [["10", "1.5 + 2.5", ""], ["", "4", ""]];
        let rows = rows.map(|row| Row::plain(row.map(String::from).to_vec()));
        let table = Table::new("t", "T", &["a", "b", "c"], rows.to_vec());
        assert_eq!([0, 1, 2].map(|c| table.is_numeric(c)), [true, false, false]);
        let html = table.html();
        assert_eq!(
            html.matches("<th ").count(),
            2,
            "an empty column is left out"
        );
    }
}
