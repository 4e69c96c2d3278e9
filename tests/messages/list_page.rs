//! docs/requirement-list.md against the code: names, units, defaults, examples, estimates.

use crate::{fields, job, page};
use glandrail::catalogue::Catalogue;
use glandrail::propose::{Answer, ProposeError};
use glandrail::requirements::file::*;
use glandrail::requirements::{TABLES, check_parts, estimate_diameter_mm, read_cores};

const PAGE: &str = include_str!("../../docs/requirement-list.md");

/// Heading and the fields of the type that stands behind it.
fn described() -> Vec<(&'static str, &'static [&'static str])> {
    vec![
        ("[job]", fields::of::<JobTable>()),
        ("[area]", fields::of::<AreaTable>()),
        ("[box]", fields::of::<BoxTable>()),
        ("box.enclosures", fields::of::<EnclosureWishes>()),
        ("[spare]", fields::of::<SpareTable>()),
        ("[earthing]", fields::of::<EarthingTable>()),
        ("[[cable]]", fields::of::<CableTable>()),
        ("[[circuit]]", fields::of::<CircuitTable>()),
        ("connections", fields::of::<ConnectionTable>()),
        ("[[element]]", fields::of::<ElementTable>()),
        ("[[link]]", fields::of::<LinkTable>()),
        ("[[weight]]", fields::of::<WeightTable>()),
    ]
}

#[test]
fn every_field_is_named_once_in_the_order_of_the_code() {
    let sections = page::sections(PAGE);
    let described = described();
    let headings: Vec<&str> = sections
        .iter()
        .map(|section| section.name.as_str())
        .collect();
    let expected: Vec<&str> = described.iter().map(|(heading, _)| *heading).collect();
    assert_eq!(headings, expected);
    for (section, (heading, fields)) in sections.iter().zip(&described) {
        let named: Vec<&str> = section.rows.iter().map(|row| row.field.as_str()).collect();
        assert_eq!(named, *fields, "{heading}");
        for row in &section.rows {
            assert_eq!(row.unit, page::unit(&row.field), "{heading}: {}", row.field);
        }
    }
    // Every table that the code reads has its heading.
    for table in TABLES {
        let headings = expected
            .iter()
            .map(|heading| heading.trim_matches(['[', ']']));
        assert_eq!(
            headings.filter(|heading| *heading == table).count(),
            1,
            "{table}"
        );
    }
}

/// The lines of a small list, by table; one table is the one that a test changes.
struct Small {
    tables: Vec<(&'static str, Vec<String>)>,
}

impl Small {
    fn new() -> Self {
        let table = |header: &'static str, lines: &[&str]| {
            let lines = lines.iter().map(|line| line.to_string()).collect();
            (header, lines)
        };
        Self {
            tables: vec![
                table("[job]", &["tag = \"JB-1\""]),
                table(
                    "[area]",
                    &[
                        "zone = 1",
                        "gas_group = \"IIB\"",
                        "temperature_class = \"T6\"",
                    ],
                ),
                table("[box]", &[]),
                table("[spare]", &[]),
                table("[earthing]", &[]),
                table(
                    "[[cable]]",
                    &["tag = \"C1\"", "cores = \"2 x 1.5 mm2\"", "diameter_mm = 9"],
                ),
                table(
                    "[[cable]]",
                    &["tags = \"W1..W3\"", "cores = \"12 x 1.5 mm2\""],
                ),
                table("[[element]]", &["tag = \"X1\"", "kind = \"selector\""]),
                table("[[element]]", &["tag = \"PB2\"", "kind = \"push_button\""]),
                table(
                    "[[circuit]]",
                    &[
                        "tag = \"K1\"",
                        "poles = 2",
                        "voltage_v = 24",
                        "current_a = 0.5",
                        "from = \"W1\"",
                        "to = \"W2\"",
                    ],
                ),
                table(
                    "[[circuit]]",
                    &[
                        "tags = \"S1..S4\"",
                        "poles = 2",
                        "voltage_v = 24",
                        "current_a = 0.1",
                        "from = \"W3\"",
                    ],
                ),
                table("[[link]]", &["poles = [\"S1/1\", \"S2/1\"]"]),
                table("[[weight]]", &["of = \"area\"", "times = 2"]),
            ],
        }
    }

    /// The first table under a header.
    fn table(&mut self, header: &str) -> &mut Vec<String> {
        let mut tables = self.tables.iter_mut();
        let table = tables.find(|(known, _)| *known == header);
        &mut table.expect("a table of the small list").1
    }

    fn remove(&mut self, header: &str, field: &str) {
        let begin = format!("{field} = ");
        self.table(header).retain(|line| !line.starts_with(&begin));
    }

    fn text(&self) -> String {
        let mut text = String::new();
        for (header, lines) in &self.tables {
            text.push_str(&format!("{header}\n{}\n", lines.join("\n")));
        }
        text
    }
}

/// A small list with one more line in the table of a heading, and what goes with the field.
fn with_field(heading: &str, field: &str, value: &str) -> Small {
    let mut small = Small::new();
    let header = match heading {
        "box.enclosures" => "[box]",
        "connections" => "[[circuit]]",
        other => other,
    };
    small.remove(header, field);
    // What must go, and what must come, so that the field may stand.
    let (without, with): (&[&str], &[&str]) = match (heading, field) {
        ("[area]", "epl") => (&["zone"], &["dust_group = \"IIIC\"", "max_surface_c = 80"]),
        ("[area]", "zone" | "dust_group" | "max_surface_c") => (
            &["zone"],
            &[
                "zone = [1, 21]",
                "dust_group = \"IIIC\"",
                "max_surface_c = 80",
            ],
        ),
        ("[[cable]]", "tags") => (&["tag"], &[]),
        ("[[cable]]", "under_armour_mm") => (&[], &["armoured = true"]),
        ("[[circuit]]", "tags") => (&["tag"], &[]),
        ("[[circuit]]", "connections") => (&["from", "to", "poles"], &[]),
        ("[[circuit]]", "direct") if value == "true" => (
            &["from", "to", "poles"],
            &["connections = [{ from = \"C1/1\", to = \"X1/13\" }]"],
        ),
        ("connections", _) => (&["from", "to", "poles"], &[]),
        _ => (&[], &[]),
    };
    for field in without {
        small.remove(header, field);
    }
    for line in with {
        if !line.starts_with(&format!("{field} = ")) {
            small.table(header).push(line.to_string());
        }
    }
    if (heading, field, value) == ("[[circuit]]", "direct", "true") {
        small
            .table("[[element]]")
            .push("contacts = [\"NO\"]".to_string());
    }
    let line = match heading {
        "box.enclosures" => format!("enclosures.{field} = {value}"),
        "connections" if field == "from" => format!("connections = [{{ from = {value} }}]"),
        "connections" => format!("connections = [{{ from = \"W1/1\", {field} = {value} }}]"),
        _ => format!("{field} = {value}"),
    };
    small.table(header).push(line);
    small
}

/// The last column of each row.
fn example_of(heading: &str, field: &str) -> String {
    let mut here = "";
    for line in PAGE.lines() {
        if line.starts_with('#') {
            here = line.split('`').nth(1).unwrap_or("");
        }
        let cells: Vec<&str> = line.split('|').map(str::trim).collect();
        if here == heading && cells.len() == 8 && cells[1].trim_matches('`') == field {
            return cells[6].trim_matches('`').to_string();
        }
    }
    panic!("{heading}: {field} has no example");
}

#[test]
fn every_example_of_a_field_is_accepted() {
    let mut examples = 0;
    for section in page::sections(PAGE) {
        for row in &section.rows {
            let example = example_of(&section.name, &row.field);
            let text = with_field(&section.name, &row.field, &example).text();
            let list = job::read(&text).unwrap_or_else(|findings| {
                panic!(
                    "{}: {}\n{}\n{text}",
                    section.name,
                    row.field,
                    findings.render_plain()
                )
            });
            let unknown = check_parts(&list, Catalogue::demo());
            assert!(unknown.is_empty(), "{}", unknown.render_plain());
            examples += 1;
        }
    }
    assert!(examples > 70, "{examples}");
}

#[test]
fn required_fields_are_missed() {
    let mut required = 0;
    for section in page::sections(PAGE) {
        for row in section.rows.iter().filter(|row| row.default == "required") {
            let mut small = Small::new();
            small.remove(&section.name, &row.field);
            let findings = job::read(&small.text()).expect_err("a field is missing");
            let missing =
                |finding: &glandrail::source::Finding| finding.code == "source-missing-field";
            assert!(
                findings.iter().any(missing),
                "{}: {}",
                section.name,
                row.field
            );
            required += 1;
        }
    }
    assert_eq!(required, 9);
}

/// Writing a default out changes nothing, and writing something else does.
#[test]
fn defaults_are_as_documented() {
    let mut defaults = 0;
    for section in page::sections(PAGE) {
        for row in &section.rows {
            let literal = row
                .default
                .strip_prefix('`')
                .and_then(|rest| rest.strip_suffix('`'));
            let Some(default) = literal.filter(|_| row.default != "`current_a`") else {
                continue;
            };
            let context = format!("{}: {}", section.name, row.field);
            let read = |value: &str, kept: bool| {
                let mut small = with_field(&section.name, &row.field, value);
                if !kept {
                    let header = if section.name == "box.enclosures" {
                        "[box]"
                    } else {
                        &section.name
                    };
                    let line = small.table(header).last_mut().expect("the field");
                    *line = "#".to_string();
                }
                let list = job::read(&small.text());
                format!(
                    "{:?}",
                    list.unwrap_or_else(|found| panic!("{context}\n{}", found.render_plain()))
                )
            };
            assert_eq!(read(default, true), read(default, false), "{context}");
            let example = example_of(&section.name, &row.field);
            if example != default {
                assert_ne!(read(&example, true), read(&example, false), "{context}");
            }
            defaults += 1;
        }
    }
    assert!(defaults > 25, "{defaults}");
}

/// The TOML examples, one by one.
fn examples() -> Vec<String> {
    let parts = PAGE.split("```toml\n").skip(1);
    parts
        .map(|part| part.split("```").next().unwrap_or_default().to_string())
        .collect()
}

#[test]
fn every_example_list_is_read_and_complete_ones_are_answered() {
    let (mut complete, mut parts) = (0, 0);
    for example in examples() {
        let list = job::read(&job::completed(&example))
            .unwrap_or_else(|findings| panic!("{}\n{example}", findings.render_plain()));
        let answer = job::answer(&list, Catalogue::demo()).unwrap_or_else(|error| match error {
            ProposeError::Input(found) | ProposeError::NoPart(found) => {
                panic!("{}\n{example}", found.render_plain())
            }
            fault => panic!("{fault}\n{example}"),
        });
        match answer {
            Answer::Found(found) => assert!(found.audit.holds()),
            Answer::Impossible { .. } => panic!("impossible:\n{example}"),
        }
        if example.contains("[job]") {
            complete += 1;
        } else {
            parts += 1;
        }
    }
    assert!(
        complete >= 2 && parts >= 7,
        "{complete} complete, {parts} parts"
    );
    let short = examples().remove(0);
    assert!(short.lines().count() <= 20, "the short list is short");
}

#[test]
fn what_the_comments_of_the_examples_say_is_so() {
    let list = |word: &str| {
        let example = examples()
            .into_iter()
            .find(|example| example.contains(word));
        job::read(&job::completed(&example.expect("on the page"))).expect("sound")
    };
    let dealt = list("core 1 is kept");
    let cores: Vec<String> = dealt
        .circuits
        .iter()
        .map(|circuit| {
            let from = circuit.poles.iter().filter_map(|pole| match &pole.from {
                Some(glandrail::requirements::End::Core { core, .. }) => Some(core.to_string()),
                _ => None,
            });
            format!("{} {}", circuit.tag, from.collect::<Vec<_>>().join(" "))
        })
        .collect();
    assert_eq!(cores, ["S1 2 3", "S2 4 5", "S3 6 7", "R 1"]);
    let quantity = list("W5-1");
    let tags: Vec<&str> = quantity
        .cables
        .iter()
        .map(|cable| cable.tag.as_str())
        .collect();
    assert_eq!(tags, ["W5-1", "W5-2", "W5-3"]);
    let walls = list("right, else bottom, else left");
    let words: Vec<String> = walls.cables[1]
        .walls
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(words, ["right", "bottom", "left"]);
    let station = list("points 13 and 14");
    assert_eq!(station.elements[0].contacts[0].points, ["13", "14"]);
    assert_eq!(station.elements[1].own_points, ["X1", "X2"]);
}

#[test]
fn the_table_of_estimates_is_computed_so() {
    let mut rows = 0;
    let lines = PAGE
        .lines()
        .skip_while(|line| !line.starts_with("| cores | screened |"))
        .skip(2)
        .take_while(|line| line.starts_with('|'));
    for line in lines {
        let cells: Vec<&str> = line.split('|').map(str::trim).collect();
        let cores = read_cores(cells[1].trim_matches('`')).expect("cores");
        let (outside_mm, _) = estimate_diameter_mm(&cores, cells[2] == "yes", cells[3] == "yes");
        assert_eq!(format!("{outside_mm:.1}"), cells[4], "{line}");
        rows += 1;
    }
    assert_eq!(rows, 5);
}

#[test]
fn the_wordings_of_cores_are_read() {
    let mut rows = 0;
    let lines = PAGE
        .lines()
        .skip_while(|line| !line.starts_with("### The wording of cores"))
        .take_while(|line| !line.starts_with("### Tags"))
        .filter(|line| line.starts_with("| `"));
    for line in lines {
        for wording in line
            .split('`')
            .skip(1)
            .step_by(2)
            .filter(|text| text.contains(' '))
        {
            assert!(read_cores(wording).is_ok(), "{wording}");
            rows += 1;
        }
    }
    assert_eq!(rows, 7);
}
