//! Comma-separated values after RFC 4180, with a point in numbers.

/// Writes a head and rows. Lines end with a line feed; a cell is quoted where it has to be.
///
/// A cell of text that begins like a formula gets an apostrophe before it, so that a spreadsheet shows
/// it and does not run it; numbers are left alone.
pub(crate) fn write(head: &[&str], rows: &[Vec<String>]) -> String {
    let mut out = String::new();
    let head: Vec<String> = head.iter().map(|cell| (*cell).to_string()).collect();
    for row in std::iter::once(&head).chain(rows) {
        let cells: Vec<String> = row.iter().map(|cell| cell_text(cell)).collect();
        out.push_str(&cells.join(","));
        out.push('\n');
    }
    out
}

fn cell_text(cell: &str) -> String {
    let is_number = cell.parse::<f64>().is_ok();
    let guarded = if !is_number && cell.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{cell}")
    } else {
        cell.to_string()
    };
    if guarded.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", guarded.replace('"', "\"\""))
    } else {
        guarded
    }
}

/// Reads back what [`write`] wrote: the head, then the rows. Knows nothing of files of others.
pub(crate) fn read(text: &str) -> Vec<Vec<String>> {
    let (mut records, mut record, mut cell) = (Vec::new(), Vec::new(), String::new());
    let mut letters = text.chars().peekable();
    let mut is_quoted = false;
    while let Some(letter) = letters.next() {
        match letter {
            '"' if is_quoted && letters.peek() == Some(&'"') => {
                letters.next();
                cell.push('"');
            }
            '"' => is_quoted = !is_quoted,
            ',' if !is_quoted => record.push(unguarded(std::mem::take(&mut cell))),
            '\n' if !is_quoted => {
                record.push(unguarded(std::mem::take(&mut cell)));
                records.push(std::mem::take(&mut record));
            }
            other => cell.push(other),
        }
    }
    records
}

/// A cell without the apostrophe that [`write`] puts before what looks like a formula.
fn unguarded(cell: String) -> String {
    match cell.strip_prefix('\'') {
        Some(rest) if rest.starts_with(['=', '+', '-', '@', '\t', '\r']) => rest.to_string(),
        _ => cell,
    }
}

#[cfg(test)]
mod tests {
    use super::{read, write};

    #[test]
    fn what_was_written_is_read_again() {
        let row: Vec<String> = ["a,b", "say \"x\"", "two\nlines", "=1+1", "-4.5", "it's", ""]
            .map(String::from)
            .to_vec();
        let head = ["p", "q", "r", "s", "t", "u", "v"];
        let text = write(&head, &[row.clone(), row.clone()]);
        assert_eq!(
            read(&text),
            [head.map(String::from).to_vec(), row.clone(), row]
        );
    }

    #[test]
    fn cells_are_quoted_and_guarded() {
        let rows = [vec![
            "a,b".into(),
            "say \"x\"".into(),
            "=1+1".into(),
            "-4.5".into(),
        ]];
        assert_eq!(
            write(&["p", "q", "r", "s"], &rows),
            "p,q,r,s\n\"a,b\",\"say \"\"x\"\"\",'=1+1,-4.5\n"
        );
    }
}
