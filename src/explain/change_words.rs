//! The words of what is asked for instead of a requirement. Decides nothing.

use super::apply::Ease;
use super::aspect::Aspect;
use super::words::{cables, circuits, requirement, signed, size, walls};
use crate::letters::plural;
use crate::requirements::RequirementList;
use crate::sheets::number;
use crate::standards::iec_60079_0::EquipmentProtectionLevel;
use itertools::Itertools;

/// What is asked for instead, and how much less that is.
pub fn change(list: &RequirementList, aspect: &Aspect, ease: &Ease) -> String {
    let asked = requirement(list, aspect);
    match (aspect, ease) {
        (_, Ease::Level(level)) => {
            let has = match aspect {
                Aspect::DustLevel => list.area.dust_epl,
                _ => list.area.gas_epl,
            };
            format!(
                "equipment protection level {} instead of {}",
                with_zone(*level),
                has.map_or_else(String::new, with_zone)
            )
        }
        (_, Ease::GasGroup(group)) => format!("gas group {group} instead of {}", last_word(&asked)),
        (_, Ease::DustGroup(group)) => {
            format!("dust group {group} instead of {}", last_word(&asked))
        }
        (_, Ease::Class(class)) => {
            format!("temperature class {class} instead of {}", last_word(&asked))
        }
        (_, Ease::Ip(ip)) => format!("degree of protection {ip} instead of {}", list.area.ip),
        (Aspect::Surface, Ease::Temperature(surface_c)) => {
            let has = list.area.max_surface_c.unwrap_or_default();
            format!(
                "surface at most {} °C instead of {} °C",
                number(*surface_c, 1),
                number(has, 1)
            )
        }
        (Aspect::Hottest, Ease::Temperature(new_c)) => {
            ambient("up to", list.area.ambient_c[1], *new_c, "less")
        }
        (Aspect::Coldest, Ease::Temperature(new_c)) => {
            ambient("down to", list.area.ambient_c[0], *new_c, "more")
        }
        (_, Ease::Material(material)) => {
            format!("an enclosure made of {} allowed too", material.words())
        }
        (_, Ease::Size(new)) => {
            let has = list.wishes.max_outer_mm.unwrap_or_default();
            let more = ["width", "height", "depth"]
                .into_iter()
                .enumerate()
                .filter(|(axis, _)| new[*axis] > has[*axis])
                .map(|(axis, name)| format!("{} mm more {name}", number(new[axis] - has[axis], 0)))
                .join(", ");
            format!("outer size up to {} ({more})", size(*new))
        }
        (_, Ease::Walls(further)) => format!("entries also in {}", walls(further)),
        (Aspect::Include, Ease::Enclosure(id)) => format!("enclosure {id} allowed too"),
        (_, Ease::Enclosure(id)) => format!("enclosure {id} allowed after all"),
        (Aspect::SpareTerminals, Ease::Percent(percent)) => format!(
            "{} % of spare terminals instead of {} %",
            number(*percent, 1),
            number(list.spare.terminals_percent, 1)
        ),
        (_, Ease::Percent(percent)) => format!(
            "{} % of the rated power kept free instead of {} %",
            number(*percent, 1),
            number(list.spare.heat_percent, 1)
        ),
        (Aspect::SpareEntries, Ease::Fewer(count)) => {
            let all = list.spare.entries.values().sum::<u32>() as usize;
            let left = fewer(all, *count, ["spare entry", "spare entries"]);
            if *count < all && list.spare.entries.len() > 1 {
                format!("{left} (the largest are given up first)")
            } else {
                left
            }
        }
        (Aspect::SpareEarth, Ease::Fewer(count)) => {
            let all = list.earthing.spare_terminals as usize;
            fewer(
                all,
                *count,
                ["spare earth terminal", "spare earth terminals"],
            )
        }
        (Aspect::Cables(members), Ease::Fewer(count)) => {
            let gone = &members[members.len() - count..];
            format!(
                "without {}{}",
                cables(list, gone),
                of_all(*count, members.len())
            )
        }
        (Aspect::CableWalls(members), Ease::AnyWall(count)) => {
            let free = &members[members.len() - count..];
            format!(
                "{}{} also in {}",
                cables(list, free),
                of_all(*count, members.len()),
                walls(&list.wishes.entry_walls)
            )
        }
        (Aspect::Current(members), Ease::CurrentShare(share)) => {
            let circuit = &list.circuits[members[0]];
            let (has, in_branch) = (circuit.current_a, circuit.branch_current_a);
            let less = |current_a: f64| (current_a * share * 100.0 + 1e-6).floor() / 100.0;
            let branches = if in_branch < has {
                let [new, old] = [less(in_branch), in_branch].map(|current| number(current, 2));
                format!("; in each branch {new} A instead of {old} A")
            } else {
                String::new()
            };
            format!(
                "{} A instead of {} A in {} ({} A less{branches})",
                number(less(has), 2),
                number(has, 2),
                circuits(list, members),
                number(has - less(has), 2)
            )
        }
        (
            Aspect::Diameter(members),
            Ease::Diameter {
                diameter_mm,
                cables: count,
            },
        ) => {
            let cable = &list.cables[members[0]];
            let has = cable.diameter_mm;
            let thinner = &members[members.len() - count..];
            if !cable.place.has("diameter_mm") {
                let [least, most] = cable.diameter_range_mm;
                return format!(
                    "diameter of {}{} stated as {} mm (estimated so far: {} to {} mm)",
                    cables(list, thinner),
                    of_all(*count, members.len()),
                    number(*diameter_mm, 1),
                    number(least, 1),
                    number(most, 1)
                );
            }
            format!(
                "diameter of {}{} {} mm instead of {} mm ({} mm less)",
                cables(list, thinner),
                of_all(*count, members.len()),
                number(*diameter_mm, 1),
                number(has, 1),
                number(has - diameter_mm, 1)
            )
        }
        (Aspect::Voltage(members), Ease::Voltage(voltage_v)) => format!(
            "{} V instead of {} V in {}",
            number(*voltage_v, 1),
            number(list.circuits[members[0]].voltage_v, 1),
            circuits(list, members)
        ),
        (Aspect::Orientation, _) => "any orientation".to_string(),
        (Aspect::Hinge, _) => "lid hinged at any wall, or screwed".to_string(),
        (Aspect::Placing, _) => "operating elements in any rows and order".to_string(),
        (Aspect::GlandMaterial(members), _) => {
            format!("glands of any material for {}", cables(list, members))
        }
        (Aspect::Gland(members), _) => format!("any gland for {}", cables(list, members)),
        (Aspect::Terminal(members), _) => format!("any terminal for {}", circuits(list, members)),
        (Aspect::GlandThread(members), _) => {
            format!("glands with any thread for {}", cables(list, members))
        }
        (Aspect::ElementColour(index), _) => {
            format!(
                "any colour of {} that its function permits",
                list.elements[*index].tag
            )
        }
        (Aspect::ElementPart(index), _) => format!("any part for {}", list.elements[*index].tag),
        _ => format!("without {asked}"),
    }
}

/// What would do as well as a change, in as few words as name it.
pub fn instead(ease: &Ease) -> String {
    match ease {
        Ease::Material(material) => material.words().to_string(),
        Ease::Size(new) => format!("up to {}", size(*new)),
        Ease::Walls(further) => walls(further),
        Ease::Enclosure(id) => id.clone(),
        Ease::Ip(ip) => ip.to_string(),
        other => format!("{other:?}"),
    }
}

/// How a list is made as long as nothing else is said.
pub fn usual_means(ease: &Ease) -> &'static str {
    match ease {
        Ease::TwoBoxes => "one box",
        Ease::Partition => "intrinsically safe and other terminals apart by distance",
        _ => "entries in rows",
    }
}

/// How it could be made otherwise.
pub fn other_means(ease: &Ease) -> &'static str {
    match ease {
        Ease::TwoBoxes => "two boxes instead of one",
        Ease::Partition => {
            "a partition between intrinsically safe and other terminals instead of distance alone"
        }
        _ => "entries placed freely instead of in rows",
    }
}

/// Another end of the ambient temperatures.
fn ambient(which: &str, has_c: f64, new_c: f64, sense: &str) -> String {
    format!(
        "ambient {which} {} °C instead of {} °C ({} K {sense})",
        signed(new_c),
        signed(has_c),
        number((has_c - new_c).abs(), 1)
    )
}

/// A level with the zone that it is usual for (IEC 60079-14, table 1).
fn with_zone(level: EquipmentProtectionLevel) -> String {
    use EquipmentProtectionLevel as Level;
    let zone = match level {
        Level::Ga => "zone 0",
        Level::Gb => "zone 1",
        Level::Gc => "zone 2",
        Level::Da => "zone 20",
        Level::Db => "zone 21",
        Level::Dc => "zone 22",
    };
    format!("{level} ({zone})")
}

fn last_word(text: &str) -> &str {
    text.rsplit(' ').next().unwrap_or(text)
}

/// What is left of `all` with `count` fewer, instead of all.
fn fewer(all: usize, count: usize, [one, many]: [&str; 2]) -> String {
    match all - count {
        0 => format!("no {many} instead of {all}"),
        left => format!("{left} {} instead of {all}", plural(left, one, many)),
    }
}

fn of_all(count: usize, all: usize) -> String {
    if count == all {
        String::new()
    } else {
        format!(" ({count} of {all})")
    }
}
