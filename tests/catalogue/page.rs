//! A page of documentation: its tables of fields and its examples.

/// One row of a table of fields.
#[derive(Debug)]
pub struct Row {
    pub field: String,
    pub unit: String,
    pub default: String,
}

/// A heading with the table of fields that follows it.
#[derive(Debug)]
pub struct Section {
    /// What stands between the first pair of backticks of the heading.
    pub name: String,
    pub rows: Vec<Row>,
}

/// All tables whose first column is `field`.
pub fn sections(page: &str) -> Vec<Section> {
    let mut sections: Vec<Section> = Vec::new();
    let mut name = String::new();
    let mut inside = false;
    for line in page.lines() {
        if line.starts_with('#') {
            name = line.split('`').nth(1).unwrap_or("").to_owned();
        }
        if line.starts_with("| field |") {
            sections.push(Section {
                name: name.clone(),
                rows: Vec::new(),
            });
            inside = true;
        } else if !line.starts_with('|') {
            inside = false;
        } else if inside && !line.starts_with("|---") {
            let cells: Vec<&str> = line.split('|').map(str::trim).collect();
            let section = sections.last_mut().expect("pushed above");
            section.rows.push(Row {
                field: cells[1].trim_matches('`').to_owned(),
                unit: cells[2].to_owned(),
                default: cells[3].to_owned(),
            });
        }
    }
    sections
}

/// The text of all TOML examples, one after the other.
pub fn examples(page: &str) -> String {
    let mut text = String::new();
    let mut inside = false;
    for line in page.lines() {
        match line {
            "```toml" => inside = true,
            "```" => inside = false,
            _ if inside => {
                text.push_str(line);
                text.push('\n');
            }
            _ => {}
        }
    }
    text
}

/// The unit that the ending of a field's name stands for; empty for a plain name.
pub fn unit(field: &str) -> &'static str {
    let endings = [
        ("_kg_per_m", "kg/m"),
        ("_per_m", "1/m"),
        ("_percent", "%"),
        ("_mohm", "mΩ"),
        ("_days", "days"),
        ("_mm2", "mm²"),
        ("_mm", "mm"),
        ("_nm", "N·m"),
        ("_kg", "kg"),
        ("_v", "V"),
        ("_a", "A"),
        ("_w", "W"),
        ("_k", "K"),
        ("_c", "°C"),
        ("_j", "J"),
    ];
    endings
        .into_iter()
        .find(|(ending, _)| field.ends_with(ending))
        .map_or("", |(_, unit)| unit)
}

/// Codes and words of the table of findings.
pub fn codes(page: &str) -> Vec<(&str, &str)> {
    let rows = page
        .lines()
        .skip_while(|line| *line != "| code | what it says |")
        .skip(2);
    let cells = rows.take_while(|line| line.starts_with('|')).map(|line| {
        let cells: Vec<&str> = line.split('|').map(str::trim).collect();
        (cells[1].trim_matches('`'), cells[2])
    });
    cells.collect()
}
