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

#[cfg(test)]
mod tests {
    use super::write;

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
