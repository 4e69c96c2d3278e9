//! Reading the data files beside the tests, and comparing.

use std::path::PathBuf;

/// A file beside the tests.
pub fn path(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("tests/outside")
        .join(name)
}

/// A table with a head line, comma separated. Quoted cells may hold commas.
pub struct Table {
    head: Vec<String>,
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// Reads a data file; lines that begin with `#` are notes.
    pub fn read(name: &str) -> Table {
        let text =
            std::fs::read_to_string(path("data").join(name)).expect("a data file of the tests");
        let mut lines = text
            .lines()
            .filter(|line| !line.starts_with('#') && !line.is_empty())
            .map(cells);
        let head = lines.next().expect("a head line");
        let rows: Vec<Vec<String>> = lines.collect();
        assert!(
            rows.iter().all(|row| row.len() == head.len()),
            "ragged table {name}"
        );
        Table { head, rows }
    }

    /// A cell as text.
    pub fn text<'a>(&self, row: &'a [String], column: &str) -> &'a str {
        let index = self
            .head
            .iter()
            .position(|name| name == column)
            .expect("a known column");
        &row[index]
    }

    /// A cell as a number.
    pub fn number(&self, row: &[String], column: &str) -> f64 {
        self.text(row, column).parse().expect("a number")
    }
}

fn cells(line: &str) -> Vec<String> {
    let (mut cells, mut quoted) = (vec![String::new()], false);
    for letter in line.chars() {
        match letter {
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            _ => cells.last_mut().expect("never empty").push(letter),
        }
    }
    cells
}

/// Fails when two values differ by more than a share of the second.
#[track_caller]
pub fn close(ours: f64, theirs: f64, share: f64, what: &str) {
    assert!(
        (ours - theirs).abs() <= share * theirs.abs(),
        "{what}: ours {ours}, theirs {theirs}, more than {share} apart"
    );
}
