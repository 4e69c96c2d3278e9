//! A list as columns and rows of cells, before it becomes a file. Knows which columns hold numbers, not
//! what they mean.

use super::csv;
use crate::arrangement::JobRecord;

/// A list of equal rows.
#[derive(Debug, Clone, PartialEq)]
pub struct List {
    /// Short name: that of its worksheet.
    pub name: &'static str,
    /// Columns.
    pub columns: Vec<ListColumn>,
    /// Cells by row; each row has as many cells as there are columns.
    pub rows: Vec<Vec<String>>,
}

/// A column of a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ListColumn {
    /// Heading, with the unit at its end.
    pub heading: &'static str,
    /// Whether its cells are numbers. One that is not a number all the same, such as `unknown`, stays text.
    pub is_number: bool,
}

impl List {
    /// A list whose headings with `#` before them are columns of numbers.
    pub(super) fn new(
        name: &'static str,
        headings: &[&'static str],
        rows: Vec<Vec<String>>,
    ) -> Self {
        let columns = headings
            .iter()
            .map(|heading| match heading.strip_prefix('#') {
                Some(heading) => ListColumn {
                    heading,
                    is_number: true,
                },
                None => ListColumn {
                    heading,
                    is_number: false,
                },
            })
            .collect();
        Self {
            name,
            columns,
            rows,
        }
    }

    /// The list as CSV with a head.
    pub fn csv(&self) -> String {
        let head: Vec<&str> = self.columns.iter().map(|column| column.heading).collect();
        csv::write(&head, &self.rows)
    }

    /// The same with tag and revision of the box in two last columns: a file that is passed on alone says whose it is.
    pub(super) fn csv_of(&self, job: &JobRecord) -> String {
        let mut head: Vec<&str> = self.columns.iter().map(|column| column.heading).collect();
        head.extend(["tag", "revision"]);
        let of = [job.tag.clone(), job.revision.clone()];
        let rows: Vec<Vec<String>> = self
            .rows
            .iter()
            .map(|row| row.iter().chain(&of).cloned().collect())
            .collect();
        csv::write(&head, &rows)
    }
}
