//! What must hold of the model's answers without knowing the right one.

use super::cases::read;
use super::sample::sample;
use super::theirs::{Theirs, answer, search};
use glandrail::arrangement::Orientation;
use glandrail::catalogue::{Catalogue, Most};
use glandrail::requirements::RequirementList;
use glandrail::space::Face;

/// The place of the chosen candidate in the order; the end where there is none.
fn place(theirs: &Theirs) -> usize {
    match theirs.chosen {
        Some(_) => theirs.excluded.len(),
        None => usize::MAX,
    }
}

/// Whatever is loosened, the chosen box comes no later in the order, and stays possible.
fn never_worse(what: &str, loosen: impl Fn(&mut RequirementList, &mut Catalogue)) {
    for judged in sample() {
        let (mut list, mut catalogue) = (judged.list.clone(), judged.case.catalogue.clone());
        let before = place(&search(&list, &catalogue));
        loosen(&mut list, &mut catalogue);
        let after = place(&search(&list, &catalogue));
        assert!(
            after <= before,
            "case {}, {what}: candidate {after} after, {before} before",
            judged.case.number
        );
    }
}

#[test]
fn lower_currents_never_exclude() {
    never_worse("half the currents", |list, _| {
        for circuit in &mut list.circuits {
            circuit.current_a /= 2.0;
            circuit.branch_current_a /= 2.0;
        }
    });
}

#[test]
fn higher_limits_of_the_certificate_never_exclude() {
    never_worse("higher limits", |_, catalogue| {
        for enclosure in &mut catalogue.enclosure {
            enclosure.most_terminals = Some(Most::NotLimited);
            for row in &mut enclosure.rated_power {
                row.power_w *= 2.0;
            }
            for wall in enclosure.walls.values_mut() {
                wall.most_entries = Some(Most::NotLimited);
            }
        }
    });
}

#[test]
fn fewer_wishes_never_exclude() {
    never_worse("fewer wishes", |list, _| {
        list.wishes.materials.clear();
        list.wishes.lid_hinge.clear();
        list.wishes.max_outer_mm = None;
        list.wishes.exclude.clear();
        list.spare.heat_percent = 0.0;
    });
}

#[test]
fn one_more_wall_never_excludes() {
    never_worse("one more wall", |list, _| {
        let further = Face::WALLS
            .into_iter()
            .find(|wall| !list.wishes.entry_walls.contains(wall));
        if let Some(further) = further {
            list.wishes.entry_walls.push(further);
            for cable in &mut list.cables {
                cable.walls.push(further);
            }
        }
    });
}

#[test]
fn an_excluded_enclosure_can_be_left_out() {
    for judged in sample() {
        let whole = answer(&judged.list, &judged.case.catalogue);
        let Some((id, _)) = whole.excluded.first() else {
            continue;
        };
        if whole
            .chosen
            .as_ref()
            .is_some_and(|(chosen, _)| chosen == id)
        {
            continue;
        }
        let mut catalogue = judged.case.catalogue.clone();
        catalogue.enclosure.retain(|enclosure| enclosure.id != *id);
        let rest = answer(&judged.list_without(id), &catalogue);
        let number = judged.case.number;
        assert_eq!(rest.chosen, whole.chosen, "case {number} without {id}");
        // The number of candidates is one less; all else is the same.
        let without_proof = |json: &Option<String>| {
            json.as_deref().map(|text| {
                let mut value: serde_json::Value = serde_json::from_str(text).expect("JSON");
                let proof = value.as_object_mut().and_then(|all| all.remove("proof"));
                assert!(proof.is_some(), "case {number}");
                value
            })
        };
        assert_eq!(
            without_proof(&rest.json),
            without_proof(&whole.json),
            "case {number} without {id}"
        );
        let others: Vec<_> = whole
            .excluded
            .iter()
            .filter(|(other, _)| other != id)
            .collect();
        assert_eq!(
            rest.excluded.iter().collect::<Vec<_>>(),
            others,
            "case {number}"
        );
    }
}

impl super::sample::Judged {
    /// The list without wishes that name an enclosure.
    fn list_without(&self, id: &str) -> RequirementList {
        let mut list = self.list.clone();
        list.wishes.exclude.retain(|excluded| excluded != id);
        list
    }
}

#[test]
fn the_same_list_gives_the_same_bytes() {
    for judged in sample() {
        let once = answer(&judged.list, &judged.case.catalogue);
        let twice = answer(&judged.case.list(), &judged.case.catalogue.clone());
        assert_eq!(once, twice, "case {}", judged.case.number);
    }
}

#[test]
fn the_order_of_the_cables_does_not_matter() {
    for judged in sample() {
        let blocks: Vec<&str> = judged.case.text.split("\n\n").collect();
        let is_cable = |block: &&&str| block.contains("[[cable]]");
        let mut cables: Vec<&str> = blocks.iter().filter(is_cable).copied().collect();
        let text: Vec<&str> = blocks
            .iter()
            .map(|block| {
                if is_cable(&block) {
                    cables.pop().unwrap_or(block)
                } else {
                    block
                }
            })
            .collect();
        let reversed = read(&text.join("\n\n"));
        assert_eq!(reversed.cables.len(), judged.list.cables.len());
        assert_eq!(
            reversed.cables.last().map(|cable| &cable.tag),
            judged.list.cables.first().map(|cable| &cable.tag)
        );
        let once = search(&judged.list, &judged.case.catalogue);
        let other = search(&reversed, &judged.case.catalogue);
        assert_eq!(once, other, "case {}", judged.case.number);
    }
}

/// Left for right.
fn other_side(wall: Face) -> Face {
    match wall {
        Face::Left => Face::Right,
        Face::Right => Face::Left,
        other => other,
    }
}

/// The catalogue as in a mirror that stands beside it.
fn mirrored(catalogue: &Catalogue) -> Catalogue {
    let mut catalogue = catalogue.clone();
    for enclosure in &mut catalogue.enclosure {
        let [width_mm, height_mm, _] = enclosure.inner_mm;
        let plate = &mut enclosure.plate;
        plate.x_mm = width_mm - plate.x_mm - plate.width_mm;
        let lid = &mut enclosure.lid;
        lid.x_mm = width_mm - lid.x_mm - lid.width_mm;
        lid.hinge = lid.hinge.map(other_side);
        let walls = std::mem::take(&mut enclosure.walls);
        enclosure.walls = walls
            .into_iter()
            .map(|(face, mut wall)| {
                let length_mm = match face {
                    Face::Left | Face::Right => height_mm,
                    _ => width_mm,
                };
                for [u, _, width, _] in wall.areas_mm.iter_mut().chain(&mut wall.blocked_mm) {
                    *u = length_mm - *u - *width;
                }
                (other_side(face), wall)
            })
            .collect();
    }
    catalogue
}

/// A box and its list in a mirror: the same box, and the same boxes before it.
#[test]
fn a_mirror_changes_no_box() {
    let mut sideways = 0;
    for judged in sample() {
        let mut list = judged.list.clone();
        list.wishes.orientations = vec![Orientation::Upright];
        let catalogue = &judged.case.catalogue;
        let plain = search(&list, catalogue);
        let walls = list
            .wishes
            .entry_walls
            .iter()
            .chain(list.cables.iter().flat_map(|cable| cable.walls.iter()));
        sideways += usize::from(walls.copied().any(|wall| other_side(wall) != wall));
        for wall in &mut list.wishes.entry_walls {
            *wall = other_side(*wall);
        }
        for cable in &mut list.cables {
            for wall in &mut cable.walls {
                *wall = other_side(*wall);
            }
        }
        list.wishes.lid_hinge = list
            .wishes
            .lid_hinge
            .iter()
            .copied()
            .map(other_side)
            .collect();
        let there = search(&list, &mirrored(catalogue));
        assert_eq!(there, plain, "case {}", judged.case.number);
    }
    assert!(sideways >= 100, "{sideways} lists name a wall at a side");
}
