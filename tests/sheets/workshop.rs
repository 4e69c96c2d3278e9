//! What the workshop receives beside the drawings: from where holes count, labels, contacts, wires, notes.

use crate::fixture;
use crate::samples::{every_example, every_fixture, named_example, on_every_paper};
use glandrail::arrangement::{Arrangement, EntryPurpose, NoticePlace, WireEnd};
use glandrail::marking::{LabelKind, marking};
use glandrail::sheets::{List, all_lists};
use glandrail::space::{Block, Face};
use std::collections::BTreeSet;

fn all() -> Vec<(String, Arrangement)> {
    let fixtures = every_fixture()
        .into_iter()
        .map(|(name, arrangement)| (name.to_string(), arrangement));
    fixtures.chain(every_example()).collect()
}

fn list(arrangement: &Arrangement, file: &str) -> List {
    let lists = all_lists(arrangement);
    let found = lists.into_iter().find(|(name, _)| *name == file);
    found.expect("a list of this name").1
}

/// The cells of a column, by its heading.
fn column(list: &List, heading: &str) -> Vec<String> {
    let is_it = |column: &glandrail::sheets::ListColumn| column.heading == heading;
    let index = list.columns.iter().position(is_it).expect("a column");
    list.rows.iter().map(|row| row[index].clone()).collect()
}

/// How far the middle of a block lies from the inside of the face that words name.
fn from_mm(arrangement: &Arrangement, words: &str, block: &Block) -> f64 {
    let interior = &arrangement.enclosure.interior;
    let rest = words.strip_prefix("inside of the ").expect("a face");
    let centre = block.centre();
    match rest.split(' ').next() {
        Some("left") => centre.x_mm,
        Some("right") => interior.width_mm - centre.x_mm,
        Some("bottom") => centre.y_mm,
        Some("top") => interior.height_mm - centre.y_mm,
        Some("back") => centre.z_mm,
        other => panic!("{other:?} is no face from which holes count"),
    }
}

#[test]
fn every_hole_counts_from_the_faces_that_its_line_names() {
    let mut walls = BTreeSet::new();
    for (name, arrangement) in all() {
        let list = list(&arrangement, "drilling-list.csv");
        let holes = column(&list, "hole");
        let columns = ["x_or_u_mm", "x_or_u_from", "y_or_v_mm", "y_or_v_from"];
        let [u, u_from, v, v_from] = columns.map(|heading| column(&list, heading));
        assert_eq!(
            holes.len(),
            arrangement.entries.len() + arrangement.elements.len(),
            "{name}"
        );
        for (index, hole) in holes.iter().enumerate() {
            let entry = arrangement.entries.iter().find(|entry| entry.id == *hole);
            let element = arrangement.elements.iter().find(|part| part.tag == *hole);
            let block = entry
                .map(|entry| entry.inside)
                .or(element.map(|part| part.body))
                .expect("a hole of something");
            for (at, from) in [(&u[index], &u_from[index]), (&v[index], &v_from[index])] {
                let at_mm: f64 = at.parse().expect("a position");
                let measured_mm = from_mm(&arrangement, from, &block);
                assert!(
                    (at_mm - measured_mm).abs() < 0.011,
                    "{name}, {hole}: {at} from {from}, measured {measured_mm}"
                );
            }
            walls.insert(column(&list, "face")[index].clone());
        }
    }
    let wanted = ["bottom", "left", "lid", "right", "top"].map(String::from);
    assert_eq!(walls, BTreeSet::from(wanted), "every face was asked about");
}

#[test]
fn the_drilling_sheets_say_from_where_and_with_what_tolerance() {
    for (name, arrangement) in every_example() {
        for paper in glandrail::sheets::Paper::ALL {
            let words: String = glandrail::sheets::drawings(&arrangement, paper)
                .iter()
                .filter(|sheet| sheet.name.starts_with("walls") || sheet.name.starts_with("lid"))
                .flat_map(|sheet| sheet.texts().map(|(label, _)| label.content.clone() + " "))
                .collect();
            for face in Face::WALLS {
                if arrangement.entries.iter().any(|entry| entry.wall == face) {
                    let mut begin = format!("{} wall, seen from outside", face.name());
                    begin[..1].make_ascii_uppercase();
                    assert!(words.contains(&begin), "{name}, {paper:?}: {begin}");
                }
            }
            assert!(words.contains("Tolerance of holes"), "{name}, {paper:?}");
            let tolerance = format!("{} mm", arrangement.limits.tolerance_mm);
            assert!(words.contains(&tolerance), "{name}, {paper:?}");
            assert!(words.contains("not tapped"), "{name}, {paper:?}");
            // Nothing of it concerns who drills a box of plastic that has none.
            let enclosure = &arrangement.enclosure;
            assert_eq!(
                words.contains("External earth terminal"),
                enclosure.external_earth_mm2.is_some() || enclosure.material.is_metal(),
                "{name}, {paper:?}"
            );
        }
    }
}

#[test]
fn the_label_list_is_that_of_the_marking() {
    for (name, arrangement) in all() {
        let list = list(&arrangement, "label-list.csv");
        let proposed = marking(&arrangement);
        let [what, place, text, colour] =
            ["what", "place", "text", "colour"].map(|heading| column(&list, heading));
        assert_eq!(list.rows.len(), proposed.labels.len(), "{name}");
        for (index, label) in proposed.labels.iter().enumerate() {
            assert_eq!(what[index], label.kind.words(), "{name}");
            assert_eq!(place[index], label.place, "{name}");
            assert_eq!(text[index], label.text, "{name}");
            let wanted = label.colour.as_deref().unwrap_or("not stated");
            assert_eq!(colour[index], wanted, "{name}");
        }
        let texts_of = |kind: LabelKind| -> Vec<&String> {
            let pairs = what.iter().zip(&text);
            pairs
                .filter(|(what, _)| *what == kind.words())
                .map(|(_, text)| text)
                .collect()
        };
        for notice in &proposed.warnings {
            assert!(
                texts_of(LabelKind::Warning).contains(&&notice.text),
                "{name}"
            );
        }
        for line in proposed.lines() {
            assert!(
                texts_of(LabelKind::TypePlate).contains(&&line),
                "{name}: {line}"
            );
        }
        assert_eq!(
            texts_of(LabelKind::ElementTag).len(),
            arrangement.elements.len(),
            "{name}"
        );
        assert_eq!(
            texts_of(LabelKind::Strip).len(),
            arrangement.strips.len(),
            "{name}"
        );
    }
    // A colour that is told is one of the label: light blue of what is intrinsically safe, the ground of the stop.
    let level = list(&named_example("level-mixed-signals"), "label-list.csv");
    let row = level
        .rows
        .iter()
        .find(|row| row[2].contains("INTRINSICALLY SAFE") && row[0] == "strip marker");
    assert_eq!(row.expect("a marker")[3], "light blue");
    let mixer = list(&named_example("mixer-control-station"), "label-list.csv");
    let row = mixer.rows.iter().find(|row| row[2] == "EMERGENCY STOP");
    assert_eq!(row.expect("a legend")[3], "yellow");
}

#[test]
fn every_point_of_every_element_stands_in_the_contact_table() {
    let mut wired_points = 0;
    for (name, arrangement) in all() {
        let list = list(&arrangement, "contact-table.csv");
        let mut rows = list.rows.iter();
        for element in &arrangement.elements {
            for contact in &element.contacts {
                for point in &contact.points {
                    let row = rows.next().expect("a row for each point");
                    assert_eq!((&row[0], &row[4]), (&element.tag, &point.name), "{name}");
                    assert_eq!(
                        row[5] == "nothing wired",
                        point.wires.is_empty(),
                        "{name}: {row:?}"
                    );
                    wired_points += usize::from(!point.wires.is_empty());
                    let not_given = "not in the catalogue";
                    let no_torque = if contact.spring_clamp {
                        "none: spring clamp"
                    } else {
                        not_given
                    };
                    for (cell, value, missing) in [
                        (&row[8], contact.torque_nm, no_torque),
                        (&row[9], contact.strip_mm, not_given),
                    ] {
                        match value {
                            Some(value) => {
                                let shown: f64 = cell.parse().expect("a number");
                                assert!((shown - value).abs() < 0.01, "{name}: {row:?}");
                            }
                            None => assert_eq!(cell, missing, "{name}"),
                        }
                    }
                }
            }
        }
        assert_eq!(rows.next(), None, "{name}: no row more");
    }
    assert!(wired_points > 15, "{wired_points}");
    let mixer = named_example("mixer-control-station");
    let contacts = mixer.elements.iter().flat_map(|element| &element.contacts);
    let given = contacts
        .clone()
        .filter(|contact| contact.torque_nm.is_some())
        .count();
    let missing = contacts
        .filter(|contact| contact.torque_nm.is_none())
        .count();
    assert!(
        given > 0 && missing > 0,
        "both are tried: {given} and {missing}"
    );
}

#[test]
fn every_internal_wire_is_listed_and_counted_in_the_parts_list() {
    let mut wires = 0;
    for (name, arrangement) in all() {
        let is_core = |end: &WireEnd| matches!(end, WireEnd::Core { .. });
        let internal: Vec<&str> = arrangement
            .wires
            .iter()
            .filter(|wire| !is_core(&wire.from) && !is_core(&wire.to))
            .map(|wire| wire.id.as_str())
            .collect();
        wires += internal.len();
        let list = list(&arrangement, "internal-wires.csv");
        let of_kind = list.rows.iter().filter(|row| row[1] == "internal wire");
        let listed: Vec<&str> = of_kind.map(|row| row[0].as_str()).collect();
        assert_eq!(listed, internal, "{name}");
        let parts = crate::workshop::list(&arrangement, "parts-list.csv");
        let counted: usize = parts
            .rows
            .iter()
            .filter(|row| row[2].starts_with("internal wire"))
            .map(|row| row[0].parse::<usize>().expect("a count"))
            .sum();
        assert_eq!(counted, internal.len(), "{name}");
    }
    assert!(wires > 15, "{wires}");
}

#[test]
fn what_the_workshop_is_told_is_on_its_list_and_its_sheet() {
    let mut told = 0;
    for (name, mut arrangement) in every_example() {
        arrangement.remarks.push("a remark of this test".into());
        let notes = column(&list(&arrangement, "workshop-notes.csv"), "note").join(" ");
        let notices = arrangement.notices.iter();
        let mut wanted: Vec<String> = notices
            .filter(|notice| notice.place == NoticePlace::Workshop)
            .map(|notice| notice.text[1..].to_string())
            .collect();
        told += wanted.len();
        wanted.push("remark of this test".into());
        let spare = arrangement
            .entries
            .iter()
            .filter(|entry| entry.purpose == EntryPurpose::Spare);
        wanted.extend(spare.map(|entry| format!("{} (spare) with {}", entry.id, entry.part.id)));
        let armoured = arrangement.cables.iter().filter(|cable| cable.armoured);
        wanted.extend(armoured.map(|cable| format!("armour of {}", cable.tag)));
        for words in &wanted {
            assert!(notes.contains(words.as_str()), "{name}: {words} in {notes}");
        }
        for (paper, sheet) in on_every_paper(&arrangement) {
            if sheet.name != "parts" {
                continue;
            }
            // Cells are broken into lines: joined again they have every word.
            let sheets = glandrail::sheets::drawings(&arrangement, paper);
            let parts = sheets
                .iter()
                .filter(|sheet| sheet.name.starts_with("parts"));
            let texts: Vec<String> = parts
                .flat_map(|sheet| sheet.texts().map(|(label, _)| label.content.clone()))
                .collect();
            let joined = texts.join(" ");
            for words in &wanted {
                assert!(
                    joined.contains(words.as_str()),
                    "{name}, {paper:?}: {words}"
                );
            }
        }
    }
    assert!(told >= 3, "{told} instructions were asked about");
}

#[test]
fn earth_plates_have_their_certificate_everywhere_and_no_conductor_is_made_up() {
    let arrangement = named_example("level-mixed-signals");
    let mut plates = arrangement
        .entries
        .iter()
        .filter_map(|entry| entry.earth_plate.as_ref());
    let plate = plates
        .next_back()
        .expect("an earth plate in a plastic wall");
    let number = plate.certificate.number.as_deref().expect("a number");
    assert!(
        marking(&arrangement)
            .certificates
            .iter()
            .any(|known| known == number)
    );
    let parts = list(&arrangement, "parts-list.csv");
    let row = parts
        .rows
        .iter()
        .find(|row| row[1] == plate.id)
        .expect("a part");
    assert_eq!(row[3], number);
    let notes = column(&list(&arrangement, "workshop-notes.csv"), "note").join(" ");
    assert!(
        notes.contains(&plate.id) && notes.contains("is not determined"),
        "{notes}"
    );
}

#[test]
fn the_cable_schedule_has_the_diameter_under_the_armour() {
    let arrangement = named_example("level-mixed-signals");
    let list = list(&arrangement, "cable-schedule.csv");
    let [cable, least, most] = ["cable", "under_armour_least_mm", "under_armour_most_mm"]
        .map(|heading| column(&list, heading));
    let mut armoured = 0;
    for record in &arrangement.cables {
        let row = cable
            .iter()
            .position(|tag| *tag == record.tag)
            .expect("a row");
        let shown = [&least[row], &most[row]].map(|cell| cell.parse::<f64>().ok());
        match record.under_armour_mm {
            Some(range) => {
                armoured += 1;
                let [from, to] = shown.map(|value| value.expect("a number"));
                assert!((from - range[0]).abs() < 0.01 && (to - range[1]).abs() < 0.01);
            }
            None => assert_eq!(shown, [None, None], "{}", record.tag),
        }
    }
    assert_eq!(armoured, 1);
    let headings: Vec<&str> = list.columns.iter().map(|column| column.heading).collect();
    assert!(
        headings.contains(&"torque_of_body_in_wall_nm"),
        "{headings:?}"
    );
}

#[test]
fn every_legend_stands_on_the_sheet_of_the_elements() {
    let mut legends = 0;
    let arrangements = every_example().into_iter().chain([
        ("small".to_string(), fixture::small()),
        ("large".to_string(), fixture::large()),
    ]);
    for (name, arrangement) in arrangements {
        for (paper, sheet) in on_every_paper(&arrangement) {
            if sheet.name != "elements" {
                continue;
            }
            let texts: Vec<String> = sheet
                .texts()
                .map(|(label, _)| label.content.clone())
                .collect();
            let joined = texts.join(" ");
            for element in &arrangement.elements {
                legends += 1;
                assert!(
                    joined.contains(&element.label),
                    "{name}, {paper:?}: {}",
                    element.label
                );
            }
        }
    }
    assert!(legends > 20, "{legends}");
}

#[test]
fn all_four_walls_lie_round_the_front_on_every_paper() {
    let mut seen = 0;
    for (name, arrangement) in all() {
        for paper in glandrail::sheets::Paper::ALL {
            let sheets = glandrail::sheets::drawings(&arrangement, paper);
            let round: Vec<_> = sheets
                .iter()
                .filter(|sheet| sheet.groups.iter().any(|group| group.name == "front"))
                .collect();
            assert_eq!(round.len(), 1, "{name}, {paper:?}");
            for wall in Face::WALLS {
                let is_it = |group: &glandrail::sheets::drawing::Group| group.name == wall.name();
                assert!(
                    round[0].groups.iter().any(is_it),
                    "{name}, {paper:?}: {wall}"
                );
                seen += 1;
            }
        }
    }
    assert!(seen > 60, "{seen}");
}

#[test]
fn nothing_in_a_box_has_the_name_of_another_thing_in_it() {
    for (name, arrangement) in every_example() {
        let mut names: Vec<&str> = arrangement
            .rails
            .iter()
            .map(|part| part.id.as_str())
            .collect();
        names.extend(arrangement.accessories.iter().map(|part| part.id.as_str()));
        names.extend(arrangement.jumpers.iter().map(|part| part.id.as_str()));
        names.extend(arrangement.entries.iter().map(|part| part.id.as_str()));
        names.extend(arrangement.elements.iter().map(|part| part.tag.as_str()));
        names.extend(arrangement.cables.iter().map(|part| part.tag.as_str()));
        names.extend(arrangement.strips.iter().map(|part| part.name.as_str()));
        let different: BTreeSet<&str> = names.iter().copied().collect();
        assert_eq!(different.len(), names.len(), "{name}: {names:?}");
    }
}

#[test]
fn tags_of_the_list_come_before_our_own_names() {
    let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("examples/mixer-control-station.toml");
    let text = std::fs::read_to_string(file).expect("the example");
    let text = text
        .replace("\"S1\"", "\"E1\"")
        .replace("\"S2\"", "\"RL1\"")
        .replace("\"H1\"", "\"X1\"")
        .replace("S1/", "E1/")
        .replace("S2/", "RL1/")
        .replace("H1/", "X1/");
    let arrangement = crate::samples::proposed(&text);
    let tags: Vec<&str> = arrangement
        .elements
        .iter()
        .map(|part| part.tag.as_str())
        .collect();
    for tag in ["E1", "RL1", "X1"] {
        assert!(tags.contains(&tag), "{tags:?}");
    }
    assert_eq!(arrangement.rails[0].id, "RL2");
    assert_eq!(arrangement.entries[0].id, "E2");
    assert!(arrangement.strips.iter().all(|strip| strip.name != "X1"));
    assert!(
        arrangement
            .terminals
            .iter()
            .all(|terminal| terminal.rail == "RL2")
    );
    assert_eq!(arrangement.cables[0].entry, "E2");
    assert!(arrangement.spare.free_terminals.contains_key("RL2"));
    let report = glandrail::audit::audit(&arrangement, None);
    assert!(report.holds(), "{:?}", report.failing().collect::<Vec<_>>());
}

#[test]
fn an_earth_plate_of_unknown_certificate_is_never_taken() {
    use glandrail::catalogue::{AccessoryKind, Catalogue};
    let file =
        std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/level-mixed-signals.toml");
    let text = std::fs::read_to_string(file).expect("the example");
    let mut catalogue = Catalogue::demo().clone();
    assert!(crate::samples::proposed_with(&text, &catalogue).is_some());
    let plates = catalogue.accessory.iter_mut();
    for plate in plates.filter(|part| part.kind == AccessoryKind::EarthPlate) {
        plate.certificate.gas_group = None;
    }
    // Its armoured cable needs a gland of metal, and the walls of plastic that the list asks for an earth plate.
    assert!(crate::samples::proposed_with(&text, &catalogue).is_none());
}
