//! One broken catalogue for each check: exactly the finding that is expected, at its line.

use crate::documentation::{PAGE, read};
use crate::page;
use glandrail::catalogue::{CODES, Catalogue};
use glandrail::source::Severity;
use std::collections::BTreeSet;

/// Parts that the examples of the page lack.
const MORE: &str = r#"
[[terminal]]
id = "PAGE-BLUE"
function = "feed_through"
circuits = ["intrinsically_safe"]
clamp = { stranded_mm2 = [0.5, 2.5] }
width_mm = 5.2
length_mm = 45
height_mm = 42
live = { sides_mm = 1.2, ends_mm = 6, top_mm = 7, foot_mm = 9 }
rated_voltage_v = 90
ratings = [{ section_mm2 = 0.5, current_a = 5 }]
resistance_mohm = 0.6
neighbour_distance_mm = 6
rails = ["TH35-15"]
certificate = { protection = ["ia"] }
mass_kg = 0.01
price = 1

[[accessory]]
id = "PAGE-END-PLATE"
kind = "end_plate"
fits = ["PAGE-BLUE"]
width_mm = 1.5
length_mm = 46
height_mm = 43
material = "polyamide"
certificate = {}
mass_kg = 0.001
price = 0.4

[[element]]
id = "PAGE-STOP"
kind = "emergency_stop"
colour = "red"
latching = true
hole_mm = [22.3, 22.3]
footprint_mm = [60, 60]
body_mm = [30, 42]
depth_mm = [20, 46]
live_inset_mm = 3
certificate = {}
mass_kg = 0.07
price = 34
"#;

/// A change to the sound text, and the code and place of what is found then. The place is that of
/// the first `at` in or after the changed text.
struct Case {
    code: &'static str,
    from: &'static str,
    to: &'static str,
    at: &'static str,
}

const fn case(code: &'static str, from: &'static str, to: &'static str, at: &'static str) -> Case {
    Case { code, from, to, at }
}

const CASES: &[Case] = &[
    case(
        "catalogue-arrangement",
        "most_conductors = 23 },",
        "most_conductors = 23 },\n{ class = \"T6\", ambient_c = 40, section_mm2 = 2.5, current_a = 20, most_conductors = 24 },",
        "24 }",
    ),
    case(
        "catalogue-arrangement",
        "most_conductors = 23 },",
        "most_conductors = 23 },\n{ class = \"T6\", ambient_c = 40, section_mm2 = 2.5, current_a = 16, most_conductors = 9 },",
        "{ class = \"T6\", ambient_c = 40, section_mm2 = 2.5, current_a = 16, most_conductors = 9",
    ),
    case(
        "catalogue-circuits",
        "circuits = [\"ex_e\"]\nclamp",
        "circuits = []\nclamp",
        "[]",
    ),
    case(
        "catalogue-circuits",
        "circuits = [\"ex_e\"]\nrated",
        "circuits = []\nrated",
        "[]",
    ),
    case(
        "catalogue-clamp",
        "clamp = { stranded_mm2 = [0.5, 2.5] }",
        "clamp = {}",
        "{}",
    ),
    case(
        "catalogue-depth",
        "depth_mm = [42, 48, 48]",
        "depth_mm = [42, 48, 47]",
        "47]",
    ),
    case(
        "catalogue-depth",
        "depth_mm = [20, 46]",
        "depth_mm = []",
        "[]",
    ),
    // 690 V falls into the row for 630 V and 10 % more: 12 mm of creepage for group I.
    case(
        "catalogue-distance",
        "neighbour_distance_mm = 12.5",
        "neighbour_distance_mm = 11.9",
        "11.9",
    ),
    case(
        "catalogue-distance",
        "neighbour_distance_mm = 6\n",
        "neighbour_distance_mm = 5.9\n",
        "5.9",
    ),
    case(
        "catalogue-duplicate-id",
        "id = \"PAGE-PLUG\"",
        "id = \"PAGE-GLAND\"",
        "\"PAGE-GLAND\"",
    ),
    case(
        "catalogue-earth",
        "external_earth_mm2 = 16",
        "external_earth_mm2 = 2.5",
        "2.5",
    ),
    case(
        "catalogue-emergency-stop",
        "colour = \"red\"\nlatching",
        "colour = \"black\"\nlatching",
        "\"black\"",
    ),
    case(
        "catalogue-emergency-stop",
        "latching = true",
        "latching = false",
        "false",
    ),
    case(
        "catalogue-envelope",
        "inside_mm = 35.8, reach_out_mm = 50",
        "inside_mm = 25, reach_out_mm = 50",
        "25,",
    ),
    case(
        "catalogue-envelope",
        "spanner_mm = 37",
        "spanner_mm = 43",
        "43",
    ),
    case(
        "catalogue-envelope",
        "footprint_mm = [60, 60]",
        "footprint_mm = [22, 60]",
        "[22",
    ),
    case(
        "catalogue-fits",
        "fits = [\"PAGE-TERMINAL\"]",
        "fits = [\"PAGE-TERMINLA\"]",
        "\"PAGE-TERMINLA\"",
    ),
    case(
        "catalogue-fits",
        "fits = [\"PAGE-TERMINAL\"]",
        "fits = [\"PAGE-GLAND\"]",
        "\"PAGE-GLAND\"",
    ),
    case(
        "catalogue-fits",
        "fits = [\"PAGE-SELECTOR\"]",
        "fits = [\"PAGE-RAIL\"]",
        "\"PAGE-RAIL\"",
    ),
    case(
        "catalogue-hole",
        "hole_mm = 25.2\nspanner",
        "hole_mm = 25.8\nspanner",
        "25.8",
    ),
    case(
        "catalogue-hole",
        "hole_mm = 25.2\ntorque",
        "hole_mm = 24.9\ntorque",
        "24.9",
    ),
    case(
        "catalogue-hole",
        "hole = \"D22\"\nhole_mm = [22.3, 22.3]",
        "hole = \"D22\"\nhole_mm = [22.3, 23]",
        "[22.3, 23]",
    ),
    case(
        "catalogue-hole",
        "hole = \"D22\"",
        "hole = \"D23\"",
        "\"D23\"",
    ),
    case(
        "catalogue-id",
        "id = \"PAGE-RAIL\"",
        "id = \" PAGE-RAIL\"",
        "\" PAGE-RAIL\"",
    ),
    case("catalogue-id", "id = \"PAGE-RAIL\"", "id = \"\"", "\"\""),
    case(
        "catalogue-impact",
        "impact_j = 7\n",
        "impact_j = 2\n",
        "2\n",
    ),
    case(
        "catalogue-incomplete",
        "rail_directions = [\"horizontal\", \"vertical\"]",
        "rail_directions = []",
        "[]",
    ),
    case(
        "catalogue-incomplete",
        "rails = [\"TH35-15\"]",
        "rails = []",
        "[]",
    ),
    case(
        "catalogue-ip",
        "service_c = [-50, 65], ip = \"IP66\"",
        "service_c = [-50, 65], ip = \"IP44\"",
        "\"IP44\"",
    ),
    case(
        "catalogue-ip",
        "service_c = [-50, 65], ip = \"IP66\"",
        "service_c = [-50, 65], ip = \"IP56\"",
        "\"IP56\"",
    ),
    case(
        "catalogue-ip",
        "service_c = [-60, 100], ip = \"IP66\"",
        "service_c = [-60, 100], ip = \"IP43\"",
        "\"IP43\"",
    ),
    case(
        "catalogue-live-parts",
        "top_mm = 7, foot_mm = 14.5",
        "top_mm = 7, foot_mm = 37",
        "7, foot_mm = 37",
    ),
    case(
        "catalogue-live-parts",
        "live_inset_mm = 3",
        "live_inset_mm = 15",
        "15",
    ),
    case(
        "catalogue-outside",
        "plate = { x_mm = 8",
        "plate = { x_mm = 17",
        "{ x_mm = 17",
    ),
    case(
        "catalogue-outside",
        "standoff_mm = 5",
        "standoff_mm = 110",
        "110",
    ),
    case(
        "catalogue-outside",
        "lid = { x_mm = 20, y_mm = 20",
        "lid = { x_mm = 20, y_mm = 41",
        "{ x_mm = 20, y_mm = 41",
    ),
    case(
        "catalogue-outside",
        "[[20, 10, 250, 88]]",
        "[[20, 10, 271, 88]]",
        "[20, 10, 271, 88]",
    ),
    case(
        "catalogue-outside",
        "[[20, 10, 250, 88]]",
        "[[-1, 10, 250, 88]]",
        "[-1, 10",
    ),
    case(
        "catalogue-overlap",
        "[[20, 10, 250, 88]]",
        "[[20, 10, 100, 88], [119, 10, 100, 88]]",
        "[119, 10, 100, 88]",
    ),
    case(
        "catalogue-points",
        "points = [\"X1\", \"X2\"]",
        "points = [\"X1\"]",
        "[\"X1\"]",
    ),
    case(
        "catalogue-points",
        "points = [\"X1\", \"X2\"]",
        "points = [\"X1\", \"X1\"]",
        "[\"X1\", \"X1\"]",
    ),
    case(
        "catalogue-profile",
        "rails = [\"TH35-15\"]",
        "rails = [\"TH35-17\"]",
        "\"TH35-17\"",
    ),
    case(
        "catalogue-profile",
        "profile = \"TH35-7.5\"",
        "profile = \"TH 35-7.5\"",
        "\"TH 35-7.5\"",
    ),
    case(
        "catalogue-protection",
        "protection = [\"ia\"]",
        "protection = [\"ai\"]",
        "\"ai\"",
    ),
    case("catalogue-range", "price = 34", "price = -34", "-34"),
    case(
        "catalogue-range",
        "wall_thickness_mm = 5",
        "wall_thickness_mm = 0",
        "0\n",
    ),
    case(
        "catalogue-range",
        "conductors_per_clamp = 2",
        "conductors_per_clamp = 0",
        "0\n",
    ),
    case("catalogue-range", "poles = 2", "poles = 1", "1\n"),
    case("catalogue-range", "positions = 3", "positions = 1", "1\n"),
    case(
        "catalogue-range",
        "most_terminals = 60",
        "most_terminals = 0",
        "0\n",
    ),
    case("catalogue-range", "M20 = 12, ", "M20 = 0, ", "0, "),
    case(
        "catalogue-range",
        "under_armour_mm = [13, 20]",
        "under_armour_mm = [20, 28]",
        "[20, 28]",
    ),
    case(
        "catalogue-range",
        "outer_mm = [300, 200, 120]",
        "outer_mm = [300, -200, 120]",
        "-200",
    ),
    case(
        "catalogue-rated-power",
        "power_w = 13.5",
        "power_w = 18.5",
        "18.5",
    ),
    case(
        "catalogue-rated-power",
        "{ class = \"T6\", ambient_c = 50, power_w",
        "{ class = \"T6\", ambient_c = 40, power_w",
        "{ class = \"T6\", ambient_c = 40, power_w = 13.5",
    ),
    case(
        "catalogue-rated-power",
        "{ class = \"T6\", ambient_c = 50, power_w",
        "{ class = \"T6\", ambient_c = 66, power_w",
        "{ class = \"T6\", ambient_c = 66",
    ),
    case(
        "catalogue-ratings",
        "section_mm2 = 4, current_a = 28",
        "section_mm2 = 4, current_a = 4.9",
        "4.9",
    ),
    case(
        "catalogue-ratings",
        "section_mm2 = 4, current_a = 28",
        "section_mm2 = 0.5, current_a = 28",
        "0.5, current_a = 28",
    ),
    case(
        "catalogue-ratings",
        "ratings = [{ section_mm2 = 0.5, current_a = 5 }]",
        "ratings = []",
        "[]",
    ),
    case(
        "catalogue-reversed",
        "clamping_mm = [19, 27]",
        "clamping_mm = [27, 19]",
        "[27, 19]",
    ),
    case(
        "catalogue-reversed",
        "service_c = [-55, 110]",
        "service_c = [110, -55]",
        "[110, -55]",
    ),
    case(
        "catalogue-reversed",
        "stranded_mm2 = [0.5, 2.5] }\nwidth",
        "stranded_mm2 = [2.5, 0.5] }\nwidth",
        "[2.5, 0.5]",
    ),
    case(
        "catalogue-size",
        "inner_mm = [290, 190, 110]",
        "inner_mm = [290, 200, 110]",
        "200, 110]",
    ),
    case(
        "catalogue-size",
        "inner_mm = [290, 190, 110]",
        "inner_mm = [291, 190, 110]",
        "291",
    ),
    case(
        "catalogue-thread",
        "[[20, 10, 250, 88]]",
        "[[20, 10, 250, 63]]",
        "\"M63\"",
    ),
    case("catalogue-thread", "M20 = 12, ", "M75 = 1, ", "1, "),
    case(
        "catalogue-thread",
        "female = \"NPT 3/4\"",
        "female = \"M25\"",
        "\"M25\"",
    ),
    case(
        "catalogue-thread",
        "thread_length_mm = 13\nwall_mm = [1, 7]",
        "thread_length_mm = 13\nwall_mm = [1, 13]",
        "[1, 13]",
    ),
    case(
        "catalogue-tracking",
        "tracking_index = 600",
        "tracking_index = 100",
        "100",
    ),
    case(
        "catalogue-utilisation",
        "{ category = \"AC-15\", voltage_v = 400, current_a = 4 }",
        "{ category = \"AC-15\", voltage_v = 400, current_a = 7 }",
        "{ category = \"AC-15\", voltage_v = 400",
    ),
    case(
        "catalogue-utilisation",
        "{ category = \"AC-15\", voltage_v = 230, current_a = 6 }",
        "{ category = \"AC-15\", voltage_v = 230, current_a = 11 }",
        "{ category = \"AC-15\", voltage_v = 230",
    ),
    case(
        "catalogue-wall",
        "walls.bottom = {",
        "walls.lid = {",
        "{ areas",
    ),
    case(
        "catalogue-wall",
        "hinge = \"left\"",
        "hinge = \"back\"",
        "\"back\"",
    ),
    case(
        "catalogue-wall",
        "areas_mm = [[20, 10, 250, 88]]",
        "areas_mm = []",
        "[]",
    ),
    // The reading layer's own findings reach through.
    case(
        "source-unknown-field",
        "turnable = true",
        "turnible = true",
        "turnible",
    ),
    case(
        "source-wrong-type",
        "width_mm = 6.2",
        "width_mm = \"6.2\"",
        "\"6.2\"",
    ),
    case(
        "source-unknown-value",
        "material = \"grp\"",
        "material = \"wood\"",
        "\"wood\"",
    ),
    case("source-unknown-table", "[[plug]]", "[[plugs]]", "plugs"),
    case("source-not-finite", "price = 34", "price = inf", "inf"),
];

/// Cases where the line is left out of the part, so that the finding points at the part's header.
const LEFT_OUT: &[(&str, &str, &str)] = &[
    ("catalogue-impact", "impact_j = 7\n", "[[enclosure]]"),
    ("catalogue-incomplete", "poles = 2\n", "[[accessory]]"),
    (
        "catalogue-incomplete",
        "resistance_mohm = 0.15\n",
        "[[accessory]]",
    ),
    (
        "catalogue-incomplete",
        "fits = [\"PAGE-TERMINAL\"]\n",
        "[[accessory]]",
    ),
    (
        "catalogue-incomplete",
        "fits = [\"PAGE-BLUE\"]\n",
        "[[accessory]]",
    ),
    (
        "catalogue-incomplete",
        "thread = \"M25\"\nmaterial = \"brass\"\ncertificate = {}\n",
        "[[accessory]]",
    ),
    ("catalogue-incomplete", "positions = 3\n", "[[element]]"),
    ("catalogue-incomplete", "power_w = 1\n", "[[element]]"),
    (
        "catalogue-clamp",
        "clamp = { solid_mm2 = [0.5, 2.5], stranded_mm2 = [0.5, 2.5], flexible_mm2 = [0.5, 1.5] }\n",
        "[[element]]",
    ),
];

fn sound() -> String {
    page::examples(PAGE) + MORE
}

/// The sound text with one change, and where the changed text begins.
fn changed(from: &str, to: &str) -> (String, usize) {
    let text = sound();
    let start = text
        .find(from)
        .unwrap_or_else(|| panic!("`{from}` is not in the sound text"));
    (text.replacen(from, to, 1), start)
}

fn line_column(text: &str, offset: usize) -> (usize, usize) {
    let before = &text[..offset];
    (
        before.matches('\n').count() + 1,
        offset - before.rfind('\n').map_or(0, |at| at + 1) + 1,
    )
}

#[test]
fn the_text_that_is_broken_is_sound() {
    let (catalogue, findings) = read(&sound());
    assert_eq!(findings.render_plain(), "");
    assert!(catalogue.is_some());
}

#[test]
fn each_break_gives_its_finding_at_its_place() {
    for Case { code, from, to, at } in CASES {
        let (text, start) = changed(from, to);
        let offset = start
            + text[start..]
                .find(at)
                .unwrap_or_else(|| panic!("`{at}` is not in the text"));
        let (catalogue, findings) = read(&text);
        let found: Vec<_> = findings
            .iter()
            .map(|finding| (finding.code, finding.line_column()))
            .collect();
        let expected = [(*code, Some(line_column(&text, offset)))];
        assert_eq!(
            found,
            expected,
            "`{from}` as `{to}`:\n{}",
            findings.render_plain()
        );
        assert!(
            catalogue.is_none(),
            "an unsound catalogue is not handed out"
        );
        if code.starts_with("catalogue-") {
            let finding = findings.iter().next().expect("one finding");
            assert!(
                finding.expected.is_some() && finding.hint.is_some(),
                "{}",
                finding.render_plain()
            );
        }
    }
}

#[test]
fn what_is_left_out_is_missed_at_the_header() {
    for (code, line, header) in LEFT_OUT {
        let kept = if line.contains("certificate") {
            "material = \"brass\"\ncertificate = {}\n"
        } else {
            ""
        };
        let (text, start) = changed(line, kept);
        let offset = text[..start].rfind(header).expect("a header before");
        let (_, findings) = read(&text);
        let found: Vec<_> = findings
            .iter()
            .map(|finding| (finding.code, finding.line_column()))
            .collect();
        assert_eq!(
            found,
            [(*code, Some(line_column(&text, offset)))],
            "without `{line}`"
        );
    }
}

/// Codes that need more than one change of one file.
const ELSEWHERE: [&str; 2] = ["catalogue-about", "catalogue-empty"];

#[test]
fn every_code_has_a_broken_example() {
    let mut shown: BTreeSet<&str> = CASES.iter().map(|case| case.code).collect();
    shown.extend(LEFT_OUT.iter().map(|(code, ..)| *code));
    shown.extend(ELSEWHERE);
    let missing: Vec<&str> = CODES
        .iter()
        .map(|(code, _)| *code)
        .filter(|code| !shown.contains(code))
        .collect();
    assert!(missing.is_empty(), "{missing:?}");
    let distinct: BTreeSet<&str> = CODES.iter().map(|(code, _)| *code).collect();
    assert_eq!(distinct.len(), CODES.len());
    let known = |code: &str| distinct.contains(code) || code.starts_with("source-");
    assert!(
        shown.iter().all(|code| known(code)),
        "a finding has a code that is not listed"
    );
}

#[test]
fn an_odd_size_is_a_warning_only() {
    let (text, _) = changed("outer_mm = [300, 200, 120]", "outer_mm = [400, 200, 120]");
    let (catalogue, findings) = read(&text);
    let found: Vec<_> = findings
        .iter()
        .map(|finding| (finding.code, finding.severity))
        .collect();
    assert_eq!(found, [("catalogue-size", Severity::Warning)]);
    assert_eq!(
        catalogue.expect("warnings are no errors").enclosure[0].outer_mm[0],
        400.0
    );
}

#[test]
fn everything_is_found_in_one_run() {
    let text = sound()
        .replace("impact_j = 7", "impact_j = 0.5")
        .replace("tracking_index = 600", "tracking_index = 20")
        .replace("colour = \"red\"", "colour = \"blue\"")
        .replace(
            "wall_mm = [1, 7]\nhole_mm = 25.2\nspanner",
            "wall_mm = [9, 7]\nhole_mm = 25.2\nspanner",
        );
    let (_, findings) = read(&text);
    let codes: Vec<&str> = findings.iter().map(|finding| finding.code).collect();
    assert_eq!(
        codes,
        [
            "catalogue-impact",
            "catalogue-tracking",
            "catalogue-reversed",
            "catalogue-emergency-stop"
        ]
    );
}

/// A part that could not be read is not reported a second time by those that name it.
#[test]
fn one_fault_is_reported_once() {
    let (text, _) = changed("length_mm = 48\n", "length_mm = \"48\"\n");
    let (_, findings) = read(&text);
    assert_eq!(findings.len(), 1, "{}", findings.render_plain());
}

#[test]
fn an_empty_catalogue_is_said_to_be_empty() {
    let (catalogue, findings) = read("");
    assert!(catalogue.is_none());
    let lines = findings.render_plain();
    assert!(
        lines.contains("error[catalogue-empty]: the catalogue is empty"),
        "{lines}"
    );
    assert!(
        lines.contains("error[catalogue-about]: the catalogue has no head"),
        "{lines}"
    );

    let (_, findings) = read(
        "[about]\ntitle = \"A\"\n[[rail]]\nid = \"R\"\nprofile = \"TH35-7.5\"\nwidth_mm = 35\n\
                              height_mm = 7.5\nstock_length_mm = 2000\nmass_kg_per_m = 0.3\nprice_per_m = 4\n",
    );
    let lines = findings.render_plain();
    assert!(
        lines.contains("error[catalogue-empty]: the catalogue has no enclosure"),
        "{lines}"
    );
    assert_eq!(findings.len(), 1);
}

#[test]
fn a_folder_is_read_in_the_order_of_its_names() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let write =
        |name: &str, text: &str| std::fs::write(folder.path().join(name), text).expect("written");
    let codes = || {
        let (_, findings) = Catalogue::read_with_findings(folder.path());
        findings
            .iter()
            .map(|finding| finding.code)
            .collect::<Vec<_>>()
    };
    assert_eq!(codes(), ["catalogue-empty"]);
    write("notes.txt", "not TOML");
    write(".hidden.toml", "not = [TOML");
    write("b.toml", MORE);
    write("a.toml", &page::examples(PAGE));
    let catalogue = Catalogue::read(folder.path()).expect("sound together");
    let ids: Vec<&str> = catalogue
        .terminal
        .iter()
        .map(|part| part.id.as_str())
        .collect();
    assert_eq!(ids, ["PAGE-TERMINAL", "PAGE-BLUE"]);

    // The same head and the same id in two files.
    write("c.toml", &format!("[about]\ntitle = \"B\"\n{MORE}"));
    let (_, findings) = Catalogue::read_with_findings(folder.path());
    let found: Vec<_> = findings
        .iter()
        .map(|finding| (finding.code, finding.line_column()))
        .collect();
    assert_eq!(found[0], ("catalogue-about", Some((1, 1))));
    let repeated = found
        .iter()
        .filter(|(code, _)| *code == "catalogue-duplicate-id")
        .count();
    assert_eq!((repeated, found.len()), (3, 4));
    assert!(
        findings
            .iter()
            .all(|finding| finding.file.name.ends_with("c.toml"))
    );

    // A file that is not TOML hides what it may hold; nothing is said to be missing.
    write("a.toml", "[about\n");
    write("c.toml", "");
    let (_, findings) = Catalogue::read_with_findings(folder.path());
    assert_eq!(
        findings
            .iter()
            .map(|finding| finding.code)
            .collect::<Vec<_>>(),
        ["source-syntax"]
    );
}

#[test]
fn a_path_that_is_not_there_is_a_finding() {
    let findings =
        Catalogue::read(std::path::Path::new("no/such/catalogue.toml")).expect_err("missing");
    assert_eq!(
        findings
            .iter()
            .map(|finding| finding.code)
            .collect::<Vec<_>>(),
        ["source-file"]
    );
}
