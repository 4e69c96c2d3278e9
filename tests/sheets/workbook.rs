//! The workbook holds what the CSV files hold, typed; the same arrangement gives the same bytes.
//!
//! It is read with `openpyxl` (from PyPI); where Python or the library is absent that test says so and
//! passes, unless `GLANDRAIL_REQUIRE_PYTHON=1`.

use crate::fixture;
use crate::python;
use crate::samples::{every_example, every_fixture};
use glandrail::sheets::{Paper, all_lists, part_lines, parts_list, set};

#[test]
fn another_library_reads_the_workbook_and_finds_the_cells_of_the_lists() {
    if !python::has("import openpyxl") {
        return;
    }
    let script = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sheets/workbook.py");
    let fixtures = every_fixture()
        .into_iter()
        .map(|(name, arrangement)| (name.to_string(), arrangement));
    for (name, arrangement) in fixtures.chain(every_example()) {
        let folder = tempfile::tempdir().expect("a folder");
        for (file, content) in set(&arrangement, Paper::A3).expect("a set") {
            std::fs::write(folder.path().join(file), content).expect("written");
        }
        let lists = all_lists(&arrangement);
        let output = python::python()
            .arg(&script)
            .arg(folder.path())
            .args([&arrangement.job.tag, &arrangement.job.revision])
            .arg(arrangement.catalogue_warning.as_deref().unwrap_or_default())
            .args(
                lists
                    .iter()
                    .map(|(file, list)| format!("{}={file}", list.name)),
            )
            .output()
            .expect("python was there a moment ago");
        let said = String::from_utf8_lossy(&output.stdout);
        let errors = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{name}: {said}{errors}");
        let counts: Vec<usize> = said
            .split_whitespace()
            .filter_map(|word| word.parse().ok())
            .collect();
        let cells: usize = lists
            .iter()
            .map(|(_, list)| list.columns.len() * (list.rows.len() + 1))
            .sum();
        // Every cell that is a plain number in a column of numbers is one in the workbook too.
        let numbers = lists
            .iter()
            .flat_map(|(_, list)| list.rows.iter().map(move |row| (list, row)))
            .flat_map(|(list, row)| row.iter().zip(&list.columns))
            .filter(|(cell, column)| column.is_number && cell.parse::<f64>().is_ok())
            .count();
        assert_eq!(counts, [cells, numbers], "{name}: {said}");
        assert!(numbers > 50, "{name}: {numbers}");
    }
}

#[test]
fn columns_of_numbers_hold_numbers_and_no_other_column_holds_a_measure() {
    for (name, arrangement) in every_fixture() {
        for (file, list) in all_lists(&arrangement) {
            for (index, column) in list.columns.iter().enumerate() {
                let cells: Vec<&str> = list.rows.iter().map(|row| row[index].as_str()).collect();
                let is_measure = ["_mm", "_a", "_kg", "_w", "_nm", "_mm2", "_mohm", "_percent"]
                    .iter()
                    .any(|unit| column.heading.ends_with(unit));
                assert!(
                    column.is_number || !is_measure,
                    "{name}, {file}: {} is a measure",
                    column.heading
                );
                if column.is_number {
                    for cell in cells {
                        // Two conductors in a clamp have two sections; a lead time may be unknown, and
                        // the catalogue may not give a torque.
                        let is_known_exception = cell.contains(" + ")
                            || ["unknown", "not in the catalogue"].contains(&cell);
                        assert!(
                            cell.is_empty() || cell.parse::<f64>().is_ok() || is_known_exception,
                            "{name}, {file}: {} is `{cell}`",
                            column.heading
                        );
                    }
                }
            }
        }
    }
}

#[test]
fn the_same_arrangement_gives_the_same_workbook() {
    let workbook = || {
        set(&fixture::large(), Paper::A3)
            .expect("a set")
            .into_iter()
            .find(|(name, _)| name == "schedules.xlsx")
            .expect("a workbook")
            .1
    };
    let first = workbook();
    assert_eq!(first, workbook());
    assert_eq!(first[..4], *b"PK\x03\x04");
}

#[test]
fn the_total_lead_time_is_the_longest_or_unknown_with_the_reason() {
    let mut arrangement = fixture::small();
    let last = |list: &str| list.lines().last().expect("a total").to_string();
    // Of the enclosure it is known (21 days), of nothing else.
    let list = parts_list(&arrangement);
    let lines = list.lines().count() - 2;
    let first = list.lines().nth(1).expect("the enclosure");
    assert!(first.ends_with(",21"), "{first}");
    assert!(last(&list).ends_with(",unknown"), "{list}");
    assert!(last(&list).contains("not known for"), "{list}");
    assert!(last(&list).contains("at most 21 days"), "{list}");
    let unknown = list.lines().filter(|line| line.ends_with(",unknown"));
    assert_eq!(
        unknown.count(),
        lines,
        "all but the enclosure, and the total"
    );
    // Known of all: the longest.
    let ids: Vec<String> = part_lines(&arrangement)
        .into_iter()
        .map(|line| line.id)
        .collect();
    arrangement.lead_times_days = ids.iter().map(|id| (id.clone(), 7)).collect();
    arrangement.lead_times_days.insert(ids[2].clone(), 30);
    let list = parts_list(&arrangement);
    assert!(last(&list).ends_with(",30"), "{list}");
    assert!(last(&list).contains("longest lead time"), "{list}");
    // One is missing: unknown, and it is said which.
    arrangement.lead_times_days.remove(&ids[1]);
    let list = parts_list(&arrangement);
    assert!(last(&list).ends_with(",unknown"), "{list}");
    let words = format!("not known for {}; the others at most 30 days", ids[1]);
    assert!(last(&list).contains(&words), "{list}");
    // Zero stands for an enclosure without one.
    arrangement.enclosure.lead_time_days = 0;
    arrangement.lead_times_days.clear();
    let list = parts_list(&arrangement);
    assert!(last(&list).contains("none is known"), "{list}");
}
