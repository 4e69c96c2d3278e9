//! The requirements of a list, gathered table by table.

use super::aspect::{Aspect, Requirement};
use super::names::{names, names_of};
use super::set::MOST;
use crate::catalogue::ElementKind;
use crate::requirements::{Circuit, RequirementList};
use crate::source::Place;
use crate::space::Face;

/// How finely cables and circuits are told apart.
#[derive(Clone, Copy, PartialEq)]
enum Grain {
    Table,
    Alike,
    All,
}

/// The requirements of a list, at most [`MOST`]: of long lists alike cables and circuits count as one,
/// of very long ones all of them.
pub fn requirements(list: &RequirementList) -> Vec<Requirement> {
    [Grain::Table, Grain::Alike, Grain::All]
        .into_iter()
        .map(|grain| gather(list, grain))
        .find(|all| all.len() <= MOST)
        .unwrap_or_else(|| {
            let mut all = gather(list, Grain::All);
            all.truncate(MOST);
            all
        })
}

fn gather(list: &RequirementList, grain: Grain) -> Vec<Requirement> {
    let mut all = Gathered::default();
    area(list, &mut all);
    wishes(list, &mut all);
    reserves(list, &mut all);
    cables(list, grain, &mut all);
    circuits(list, grain, &mut all);
    elements(list, grain, &mut all);
    let safe = |circuit: &Circuit| circuit.kind == crate::catalogue::CircuitKind::IntrinsicallySafe;
    let safe_cable = |kind| kind == crate::catalogue::CircuitKind::IntrinsicallySafe;
    let any_safe =
        list.circuits.iter().any(safe) || list.cables.iter().any(|cable| safe_cable(cable.kind));
    let any_other = list.circuits.iter().any(|circuit| !safe(circuit))
        || list.cables.iter().any(|cable| !safe_cable(cable.kind));
    if any_safe && any_other {
        all.0.push(Requirement {
            aspect: Aspect::Separation,
            id: "rule separation".to_string(),
            line: None,
            quote: None,
            fixed: true,
            weight: 1.0,
        });
    }
    for requirement in &mut all.0 {
        requirement.weight = weight(list, requirement);
        requirement.fixed |= is_emergency_stop(list, &requirement.aspect)
            || list.fixed.iter().any(|name| names(list, requirement, name));
    }
    all.0
}

/// No way out leaves out an emergency stop: whether a station needs one is not for us to offer.
fn is_emergency_stop(list: &RequirementList, aspect: &Aspect) -> bool {
    let Aspect::Element(index) = aspect else {
        return false;
    };
    list.elements[*index].kind == ElementKind::EmergencyStop
}

/// The factor of the list: that of the longest name which means the requirement, of equal ones the last.
fn weight(list: &RequirementList, requirement: &Requirement) -> f64 {
    list.weights
        .iter()
        .flat_map(|weight| weight.of.iter().map(move |name| (name, weight.times)))
        .filter(|(name, _)| names(list, requirement, name))
        .max_by_key(|(name, _)| name.len())
        .map_or(1.0, |(_, times)| times)
}

#[derive(Default)]
struct Gathered(Vec<Requirement>);

impl Gathered {
    fn add(
        &mut self,
        asked: bool,
        aspect: Aspect,
        id: impl Into<String>,
        place: &Place,
        fields: &[&str],
    ) {
        if !asked {
            return;
        }
        let field = fields.iter().find(|field| place.has(field));
        let whole = fields.is_empty();
        self.0.push(Requirement {
            aspect,
            id: id.into(),
            line: match field {
                Some(field) => Some(place.line_of(field)),
                None => whole.then(|| place.line()),
            },
            quote: match field {
                Some(field) => Some(place.quote_of(field)),
                None => whole.then(|| place.quote()),
            },
            fixed: false,
            weight: 1.0,
        });
    }
}

fn area(list: &RequirementList, all: &mut Gathered) {
    let area = &list.area;
    let place = &area.place;
    let mut add = |asked, aspect, field: &str, fields: &[&str]| {
        all.add(asked, aspect, format!("area.{field}"), place, fields);
    };
    let gas = area.gas_epl.is_some();
    let dust = area.dust_epl.is_some();
    let level = ["zone", "epl"];
    let both = gas && dust;
    add(
        gas,
        Aspect::GasLevel,
        if both { "zone (gas)" } else { "zone" },
        &level,
    );
    add(
        dust,
        Aspect::DustLevel,
        if both { "zone (dust)" } else { "zone" },
        &level,
    );
    add(
        area.gas_group.is_some(),
        Aspect::GasGroup,
        "gas_group",
        &["gas_group"],
    );
    add(
        area.dust_group.is_some(),
        Aspect::DustGroup,
        "dust_group",
        &["dust_group"],
    );
    add(
        area.temperature_class.is_some(),
        Aspect::Class,
        "temperature_class",
        &["temperature_class"],
    );
    add(
        area.max_surface_c.is_some(),
        Aspect::Surface,
        "max_surface_c",
        &["max_surface_c"],
    );
    add(true, Aspect::Hottest, "ambient_c (highest)", &["ambient_c"]);
    add(true, Aspect::Coldest, "ambient_c (lowest)", &["ambient_c"]);
    add(true, Aspect::Ip, "ip", &["ip"]);
}

fn wishes(list: &RequirementList, all: &mut Gathered) {
    let wishes = &list.wishes;
    let place = &wishes.place;
    let mut add = |asked, aspect, field: &str| {
        all.add(asked, aspect, format!("box.{field}"), place, &[field]);
    };
    add(!wishes.materials.is_empty(), Aspect::Material, "material");
    add(wishes.max_outer_mm.is_some(), Aspect::Size, "max_outer_mm");
    add(
        wishes.orientations.len() < 2,
        Aspect::Orientation,
        "orientation",
    );
    add(
        wishes.entry_walls.len() < Face::WALLS.len() && !list.cables.is_empty(),
        Aspect::EntryWalls,
        "entry_walls",
    );
    add(
        !wishes.include.is_empty(),
        Aspect::Include,
        "enclosures.include",
    );
    add(
        !wishes.exclude.is_empty(),
        Aspect::Exclude,
        "enclosures.exclude",
    );
    add(!wishes.lid_hinge.is_empty(), Aspect::Hinge, "lid_hinge");
    add(wishes.breather, Aspect::Breather, "breather");
}

fn reserves(list: &RequirementList, all: &mut Gathered) {
    let (spare, earthing) = (&list.spare, &list.earthing);
    let mut add = |asked, aspect, place: &Place, table: &str, field: &str| {
        all.add(asked, aspect, format!("{table}.{field}"), place, &[field]);
    };
    add(
        spare.terminals_percent > 0.0,
        Aspect::SpareTerminals,
        &spare.place,
        "spare",
        "terminals_percent",
    );
    add(
        !spare.entries.is_empty(),
        Aspect::SpareEntries,
        &spare.place,
        "spare",
        "entries",
    );
    add(
        spare.heat_percent > 0.0,
        Aspect::HeatReserve,
        &spare.place,
        "spare",
        "heat_percent",
    );
    add(
        earthing.external,
        Aspect::ExternalEarth,
        &earthing.place,
        "earthing",
        "external",
    );
    add(
        earthing.spare_terminals > 0,
        Aspect::SpareEarth,
        &earthing.place,
        "earthing",
        "spare_terminals",
    );
}

/// Indices of what belongs together by a key, in the order of the list.
fn groups<T, K: PartialEq>(items: &[T], key: impl Fn(&T) -> K) -> Vec<Vec<usize>> {
    let mut groups: Vec<(K, Vec<usize>)> = Vec::new();
    for (index, item) in items.iter().enumerate() {
        let key = key(item);
        match groups.iter_mut().find(|(known, _)| *known == key) {
            Some((_, members)) => members.push(index),
            None => groups.push((key, vec![index])),
        }
    }
    groups.into_iter().map(|(_, members)| members).collect()
}

fn cables(list: &RequirementList, grain: Grain, all: &mut Gathered) {
    let grouped = groups(&list.cables, |cable| match grain {
        Grain::Table => format!("{}", cable.place.line()),
        Grain::Alike => format!(
            "{} {} {:?}",
            cable.cores_text, cable.diameter_mm, cable.walls
        ),
        Grain::All => String::new(),
    });
    for members in &grouped {
        let place = &list.cables[members[0]].place;
        let name = names_of(members.iter().map(|index| list.cables[*index].tag.as_str()));
        let fields = ["tag", "tags"];
        all.add(
            true,
            Aspect::Cables(members.clone()),
            format!("cable {name}"),
            place,
            &fields,
        );
        let diameter_mm = list.cables[members[0]].diameter_mm;
        let alike = |index: &usize| list.cables[*index].diameter_mm == diameter_mm;
        all.add(
            members.iter().all(alike),
            Aspect::Diameter(members.clone()),
            format!("cable {name} diameter_mm"),
            place,
            &["diameter_mm"],
        );
        let mut part = |aspect: fn(Vec<usize>) -> Aspect, field: &str| {
            let asked: Vec<usize> = members
                .iter()
                .copied()
                .filter(|index| list.cables[*index].place.has(field))
                .collect();
            let narrower = field != "wall"
                || asked
                    .iter()
                    .any(|index| list.cables[*index].walls.len() < list.wishes.entry_walls.len());
            if let Some(first) = asked.first().copied().filter(|_| narrower) {
                let place = &list.cables[first].place;
                all.add(
                    true,
                    aspect(asked),
                    format!("cable {name} {field}"),
                    place,
                    &[field],
                );
            }
        };
        part(Aspect::CableWalls, "wall");
        part(Aspect::GlandMaterial, "gland_material");
        part(Aspect::Gland, "gland");
        part(Aspect::GlandThread, "thread");
    }
    // Of the box for all cables that say nothing themselves.
    let wishes = &list.wishes.place;
    let unsaid: Vec<usize> = (0..list.cables.len())
        .filter(|index| !list.cables[*index].place.has("thread"))
        .collect();
    let asked = wishes.has("thread") && !unsaid.is_empty();
    let aspect = Aspect::GlandThread(unsaid);
    all.add(asked, aspect, "box.thread", wishes, &["thread"]);
}

fn circuits(list: &RequirementList, grain: Grain, all: &mut Gathered) {
    let name = |members: &[usize]| {
        names_of(
            members
                .iter()
                .map(|index| list.circuits[*index].tag.as_str()),
        )
    };
    for members in groups(&list.circuits, |circuit| circuit.voltage_v.to_bits()) {
        let first = &list.circuits[members[0]];
        let id = format!("circuit {} voltage_v", name(&members));
        all.add(
            true,
            Aspect::Voltage(members),
            id,
            &first.place,
            &["voltage_v"],
        );
    }
    let by_current = groups(&list.circuits, |circuit| match grain {
        Grain::Table => format!("{}", circuit.place.line()),
        Grain::Alike => format!("{} {}", circuit.current_a, circuit.branch_current_a),
        Grain::All => String::new(),
    });
    for members in by_current {
        let first = &list.circuits[members[0]];
        let asked = members
            .iter()
            .any(|index| list.circuits[*index].current_a > 0.0);
        let id = format!("circuit {} current_a", name(&members));
        all.add(
            asked,
            Aspect::Current(members.clone()),
            id,
            &first.place,
            &["current_a"],
        );
        let named: Vec<usize> = members
            .into_iter()
            .filter(|index| list.circuits[*index].terminal_part.is_some())
            .collect();
        if let Some(first) = named.first() {
            let place = &list.circuits[*first].place;
            let id = format!("circuit {} terminal_part", name(&named));
            all.add(true, Aspect::Terminal(named), id, place, &["terminal_part"]);
        }
    }
}

fn elements(list: &RequirementList, grain: Grain, all: &mut Gathered) {
    let mut placed = None;
    for (index, element) in list.elements.iter().enumerate() {
        let id = format!("element {}", element.tag);
        if grain != Grain::All {
            all.add(
                true,
                Aspect::Element(index),
                id.as_str(),
                &element.place,
                &["tag"],
            );
        }
        let named = element.part.is_some();
        let id = format!("{id} part");
        all.add(
            named,
            Aspect::ElementPart(index),
            id,
            &element.place,
            &["part"],
        );
        let asked = element.colour.is_some();
        let id = format!("element {} colour", element.tag);
        let aspect = Aspect::ElementColour(index);
        all.add(asked, aspect, id, &element.place, &["colour"]);
        if placed.is_none() && element.placing != crate::requirements::Placing::default() {
            placed = Some(&element.place);
        }
    }
    if let Some(place) = placed {
        let fields = ["row", "order", "above", "beside"];
        all.add(true, Aspect::Placing, "element placing", place, &fields);
    }
}
