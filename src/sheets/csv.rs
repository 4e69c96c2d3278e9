//! Comma-separated values after RFC 4180, with a point in numbers.

/// Writes a head and rows. Lines end with a line feed; a cell is quoted where it has to be.
///
/// A cell of text that a spreadsheet would run as a formula gets an apostrophe before it, so that it is shown; numbers
/// and the signs that mark a terminal or begin a range of temperatures are left alone.
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
    // After a sign a formula needs a call, a reference to another sheet or a command.
    let is_run = cell.starts_with(['=', '@', '\t', '\r'])
        || cell.starts_with(['+', '-']) && cell.contains(['(', '!', '|']);
    let guarded = if is_run {
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
            "+".into(),
            "-20 °C".into(),
            "+cmd|' /C x'!A0".into(),
            "-SUM(A1)".into(),
        ]];
        assert_eq!(
            write(&["p", "q", "r", "s", "t", "u", "v", "w"], &rows),
            "p,q,r,s,t,u,v,w\n\"a,b\",\"say \"\"x\"\"\",'=1+1,-4.5,+,-20 °C,'+cmd|' /C x'!A0,'-SUM(A1)\n"
        );
    }
}
